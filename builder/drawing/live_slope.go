package drawing

// Two feet on one hill, in the drawing's own units: where each stands, and the
// level at which it stands.
const (
	hillUp, hillDown = 116.0, 364.0
	hillLevel        = 238.0
	hillScale        = 0.55
	hillReach        = 80.0 // from where a foot stands to a handle
)

// The ankle above the ground, in a shoe.
const hillHinge = (ankleHeight + 14) * hillScale

var slopeStand = Live{
	Drawing: Drawing{ID: "slope", Width: 480, Height: 352, make: drawSlope},
	Moves: func() []Move {
		var out []Move
		for _, s := range []struct {
			name       string
			x          float64
			turn, back string // of the ground, clockwise being +, and the other way
		}{{"up", hillUp, "-", "+"}, {"down", hillDown, "+", "-"}} {
			y := hillLevel - hillHinge
			const r = 200 * hillScale
			turned := func(way string) string { return "rotate({0" + way + "needed/deg} %1 %2)" }
			out = append(out,
				Move{s.name, "transform", filled(turned(s.turn), s.x, hillLevel)},
				Move{s.name + "-leg", "transform", filled(turned(s.back), s.x, y)},
				Move{s.name + "-arc", "d", filled("M%1 {%2-%3}Q{%1"+s.turn+"%3*sine(needed/2)/sine(90*deg-needed/2)} {%2-%3} {%1"+s.turn+"%3*sine(needed)} {%2-%3*sine(90*deg-needed)}", s.x, y, r)},
			)
		}
		drop, lift := filled("translate(0 {%1*ground})", hillReach), filled("translate(0 {-%1*ground})", hillReach)
		known := `way == "known"`
		return append(out, Move{"up-handle", "transform", drop}, Move{"down-handle", "transform", lift}, Move{"up-handle", "display", known}, Move{"down-handle", "display", known})
	}(),
	Handles: []Handle{{"up-handle", "steepness", 0, 1 / hillReach}, {"down-handle", "steepness", 0, -1 / hillReach}},
}

func drawSlope(c *canvas) {
	for _, s := range []struct {
		name string
		x    float64
	}{{"up", hillUp}, {"down", hillDown}} {
		f := frame{s.x - tubeAt*hillScale, hillLevel, hillScale}
		c.open(s.name)
		c.draw("d-sole", from(s.x-104, hillLevel).line(s.x+116, hillLevel))
		c.draw("d-shell d-outer", f.put(shoeSole(14)))
		c.draw("d-shell d-outer", f.put(shellOutline().moved(0, 14)))
		hinge := pt{tubeAt, ankleHeight + 14}
		c.open(s.name + "-leg")
		c.draw("d-metal", f.put(tube(114, 236)))
		c.draw("d-metal", f.put(pill(tubeAt-22, 80, tubeAt+22, 132, 6)))
		c.draw("d-axis", f.put(from(hinge.x, hinge.y).line(hinge.x, hinge.y+228)))
		c.draw("d-solid", f.put(disc(hinge.x, hinge.y, 5)))
		c.moving("d-move", s.name+"-arc")
		c.close()
		c.draw("d-ghost d-square", f.put(from(hinge.x, hinge.y).line(hinge.x, hinge.y+228)))
		c.close()
	}
	c.handle("up-handle", pt{hillUp - hillReach, hillLevel}, true)
	c.handle("down-handle", pt{hillDown - hillReach, hillLevel}, true)
	c.title(pt{hillUp, 20}, above, "up")
	c.title(pt{hillDown, 20}, above, "down")
	c.note(pt{hillUp, 45}, above, "toe-up")
	c.note(pt{hillDown, 45}, above, "toe-down")
	c.says("d-text d-bold", "bend-word", pt{(hillUp + hillDown) / 2, 322}, above, "") // one text for both: each is costly to lay out
}
