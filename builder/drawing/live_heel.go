package drawing

// The leg of the heel figures once more, in a shoe whose sole is drawn from its
// two thicknesses. The sole's top has the foot's own step at a heel height of
// heelStep, so the foot lies on it whatever the heel height is. The lever of the
// drawn foot is its floor distance from heel to ball.
var heelFrame = frame{128, 388, 0.55}

var heelChange = Live{
	Drawing: Drawing{ID: "heel-change", Width: 480, Height: 420, make: drawHeelChange},
	Moves: func() []Move {
		f := heelFrame
		ballAt, hinge, kneeAt := f.to(ballPoint), f.to(ankle), f.to(knee)
		radius := (kneeHeight - ankleHeight + 72) * f.scale
		// The sole from the back of the heel on: ground, heel block, arch, ball, toe, and back along its top.
		top := func(x, step, share float64) string { // a point of the sole's top
			return filled(" %1 {%2 - %3*(new_ball/mm + %4 + (new/mm - 10)*%5)}", f.x+x*f.scale, f.y, f.scale, step, share)
		}
		at := func(x, y float64) string { p := f.at(x, y); return filled(" %1 %2", p.x, p.y) }
		over := func(x, y float64) string { // a point of the toe's top
			return filled(" %1 {%2 - %3*(new_ball/mm + %4)}", f.x+x*f.scale, f.y, f.scale, y)
		}
		arch := func(x, share float64) string {
			return filled(" %1 {%2 - %3*%4*max(0, new/mm)}", f.x+x*f.scale, f.y, f.scale, share)
		}
		sole := "M" + at(2, 0) + "L" + at(68, 0) + arch(76, 0.45) + "C" + arch(104, 0.6) + arch(132, 0.3) + at(166, 0) +
			"L" + at(226, 0) + "C" + at(246, 0) + at(256, 4) + at(263, 12) + "L" + over(263, 12) + "C" + over(246, 3) + over(220, 0) + over(ball, 0) +
			"L" + top(134, 10, (ball-134)/ball) + top(62, 10, (ball-62)/ball) + top(2, 10, (ball-2)/ball) + "Z"
		rise := func(thick string) string { return "translate(0 {-" + exact(f.scale) + "*" + thick + "/mm})" }
		return []Move{
			{"sole", "d", sole},
			{"foot", "transform", filled("translate(0 {-%1*new_ball/mm}) rotate({sole_angle/deg} %2 %3)", f.scale, ballAt.x, ballAt.y)},
			{"upright", "transform", filled("rotate({-sole_angle/deg} %1 %2)", hinge.x, hinge.y)},
			{"arc", "d", filled("M%1 {%2-%3}Q{%1+%3*sine(lean/2)/sine(90*deg-lean/2)} {%2-%3} {%1+%3*sine(lean)} {%2-%3*sine(90*deg-lean)}", hinge.x, hinge.y, radius)},
			{"leg", "transform", filled("rotate({(lean-sole_angle)/deg} %1 %2)", hinge.x, hinge.y)},
			{"thigh", "transform", filled("rotate({-min(45, max(0, 2*lean/deg))} %1 %2)", kneeAt.x, kneeAt.y)},
			{"heel-size", "d", f.upTo(-22, "new_heel")},
			{"ball-size", "d", f.upTo(292, "new_ball")},
			{"heel-handle", "transform", rise("new_heel")},
			{"ball-handle", "transform", rise("new_ball")},
		}
	}(),
	Handles: []Handle{{"heel-handle", "new-heel", 0, -1 / heelFrame.scale}, {"ball-handle", "new-ball", 0, -1 / heelFrame.scale}},
}

func drawHeelChange(c *canvas) {
	f := heelFrame
	c.draw("d-sole", f.put(from(-60, 0).line(400, 0)))
	c.moving("d-shell d-outer", "sole")
	c.open("foot")
	c.draw("d-shell d-outer", f.put(shellOutline()))
	c.open("leg")
	c.open("thigh")
	c.draw("d-shell", f.put(thigh()))
	c.close()
	c.draw("d-metal", f.put(from(tubeAt-15, 120).line(tubeAt+15, 120, tubeAt+15, 244, tubeAt-15, 244).shut()))
	c.draw("d-metal", f.put(pill(tubeAt-20, 92, tubeAt+20, 126, 4)))
	c.draw("d-metal", f.put(pill(tubeAt-20, 232, tubeAt+20, 262, 4)))
	c.draw("d-socket", f.put(socket()))
	c.draw("d-line", f.put(disc(knee.x, knee.y, 12)))
	c.axis(f, "d-axis", func(p pt) pt { return p })
	c.close()
	c.open("upright")
	a, b := f.to(ankle), f.at(tubeAt, kneeHeight+100)
	c.draw("d-ghost d-upright", from(a.x, a.y).line(b.x, b.y))
	c.moving("d-move", "arc")
	c.close()
	c.close()
	c.moving("d-thin", "heel-size")
	c.moving("d-thin", "ball-size")
	c.handle("heel-handle", f.at(-60, 0), true)
	c.handle("ball-handle", f.at(330, 0), true)
	for i, id := range []string{"lean-1", "lean-2", "lean-3"} {
		c.says("d-text d-bold", id, pt{318, 60 + float64(i)*26}, right, "")
	}
	for i, id := range []string{"knee-1", "knee-2", "knee-3"} {
		c.says("d-text", id, pt{318, 170 + float64(i)*26}, right, "")
	}
	c.says("d-text", "heel-word", pt{8, 406}, right, "")
	c.says("d-text", "ball-word", pt{470, 406}, left, "")
}
