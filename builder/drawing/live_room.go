package drawing

// The drawing of the build height, with a limb and a foot of one's own numbers.
var roomFrame = frame{150, 372, 0.62}

// The joint's plate as buildHeight draws it: its foot is built 110 mm high.
const drawnBuild = 110.0

var roomUnder = Live{
	Drawing: Drawing{ID: "room-under-the-socket", Width: 480, Height: 400, make: drawRoom},
	Moves: func() []Move {
		f := roomFrame
		x0, x1 := f.at(tubeAt-15, 0).x, f.at(tubeAt+15, 0).x
		rise := func(high string, drawn float64) string {
			return filled("translate(0 {-%1*("+high+"/mm-%2)})", f.scale, drawn)
		}
		return []Move{
			{"block", "d", filled("M%1 {%3-%4*min(84, build/mm-20)}H%2V{%3-%4*(build/mm-14)}H%1Z", x0, x1, f.y, f.scale)},
			{"tube", "d", filled("M%1 {%3-%4*build/mm}H%2V{%3-%4*(room-parts)/mm}H%1Z", x0, x1, f.y, f.scale)},
			{"tube", "display", "left > 0*mm"},
			{"parts", "d", filled("M%1 {%3-%4*room/mm}H%2V{%3-%4*(room-parts)/mm}H%1Z", x0-6, x1+6, f.y, f.scale)},
			{"connector", "transform", rise("build", drawnBuild)},
			{"socket", "transform", rise("room", 268)},
			{"left-at", "transform", filled("translate(0 {-%1*(build+max(30*mm, left/2))/mm})", f.scale)},
			{"room-size", "d", f.upTo(262, "room")},
			{"build-size", "d", f.upTo(-40, "build")},
			{"room-handle", "transform", rise("room", 0)},
			{"build-handle", "transform", rise("build", 0)},
		}
	}(),
	Handles: []Handle{{"room-handle", "room", 0, -1 / roomFrame.scale}, {"build-handle", "build", 0, -1 / roomFrame.scale}},
}

func drawRoom(c *canvas) {
	f := roomFrame
	// The limb goes on past the upper edge, however low its end stands.
	const limbEnd, brim, top = 268.0, 400.0, 780.0
	c.draw("d-sole", f.put(from(-140, 0).line(400, 0)))
	c.hollowFoot(f)
	c.draw("d-solid", f.put(heelLeaf()), f.put(leaf(9, 5, roundSpine...)))
	c.moving("d-metal", "block")
	c.moving("d-metal", "tube")
	c.open("connector")
	c.draw("d-metal", f.put(box(tubeAt-20, 91, tubeAt+20, 96)))
	c.draw("d-metal", f.put(pill(tubeAt-19, 98, tubeAt+19, drawnBuild, 3)))
	c.close()
	c.shapes.WriteString(`<svg width="480" height="400">`) // cuts off what is above
	c.open("socket")
	c.draw("d-metal", f.put(from(tubeAt-30, 252).line(tubeAt+30, 252).curve(tubeAt+66, 276, tubeAt+70, 330, tubeAt+76, brim).line(tubeAt+92, top, tubeAt+84, top, tubeAt+68, brim).
		curve(tubeAt+62, 330, tubeAt+56, 290, tubeAt+20, limbEnd-4, tubeAt+10, limbEnd-8, tubeAt-10, limbEnd-8, tubeAt-20, limbEnd-4, tubeAt-56, 290, tubeAt-62, 330, tubeAt-68, brim).
		line(tubeAt-84, top, tubeAt-92, top, tubeAt-76, brim).curve(tubeAt-70, 330, tubeAt-66, 276, tubeAt-30, 252).shut()))
	c.draw("d-shell d-outer", f.put(from(tubeAt-80, top).line(tubeAt-64, brim).curve(tubeAt-58, 340, tubeAt-50, limbEnd, tubeAt, limbEnd, tubeAt+50, limbEnd, tubeAt+58, 340, tubeAt+64, brim).line(tubeAt+80, top)))
	a := f.at(tubeAt, limbEnd)
	c.draw("d-lead", from(a.x, a.y).line(f.at(272, 0).x, a.y))
	c.close()
	c.shapes.WriteString("</svg>")
	c.moving("d-hatched", "parts")
	c.moving("d-thin", "room-size")
	c.moving("d-thin", "build-size")
	c.handle("room-handle", f.at(300, 0), true)
	c.handle("build-handle", f.at(-78, 0), true)
	c.note(pt{474, 350}, left, "room")
	c.note(pt{6, 340}, right, "build")
	c.says("d-text d-bold", "left-word", pt{f.at(tubeAt-30, 0).x, f.y}, left, "left-at")
}
