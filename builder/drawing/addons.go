package drawing

// Units that go between a foot and the tube.
var addons = []Drawing{
	{ID: "add-on-shock-unit", Width: 480, Height: 430, make: shockUnit},
	{ID: "add-on-torsion-unit", Width: 480, Height: 430, make: torsionUnit},
}

// plainFoot is a foot whose inside does not matter here.
func (c *canvas) plainFoot(f frame) {
	c.hollowFoot(f)
	c.draw("d-metal", f.put(from(38, 51).line(96, 51, 90, 91, 46, 91).shut()))
	c.draw("d-metal", f.put(heelLeaf()), f.put(leaf(9, 5, lowSpine...)))
}

func shockUnit(c *canvas) {
	f := c.foot(90, 364, 1.15)
	c.plainFoot(f)
	c.draw("d-metal", f.put(tube(222, 286)))
	c.draw("d-metal", f.put(box(tubeAt-20, 91, tubeAt+20, 96)))
	c.draw("d-metal", f.put(pill(tubeAt-19, 98, tubeAt+19, 116, 4)))
	// Sleeve cut open, rod inside, spring between two collars.
	c.draw("d-metal", f.put(from(tubeAt-26, 116).line(tubeAt+26, 116, tubeAt+26, 206, tubeAt+20, 206, tubeAt+20, 122, tubeAt-20, 122, tubeAt-20, 206, tubeAt-26, 206).shut()))
	c.draw("d-solid", f.put(box(tubeAt-5, 126, tubeAt+5, 196)))
	c.draw("d-heavy", f.put(coil(tubeAt, 14, 126, 192, 5)))
	c.gives(f.put(coil(tubeAt, 14, 126, 192, 5)))
	c.draw("d-metal", f.put(box(tubeAt-19, 192, tubeAt+19, 200)))
	c.draw("d-metal", f.put(pill(tubeAt-15, 200, tubeAt+15, 222, 2)))
	c.double(f.put(from(tubeAt-44, 196).line(tubeAt-44, 244)))
	c.label(pt{250, 166}, right, f.at(tubeAt+13, 150), "spring")
	c.label(pt{250, 100}, right, f.at(tubeAt+12, 212), "rod")
	c.label(pt{250, 218}, right, f.at(tubeAt+23, 128), "sleeve")
	c.note(pt{280, 392}, below, "same-foot")
	c.note(pt{108, 112}, left, "up-down")
}

func torsionUnit(c *canvas) {
	f := c.foot(90, 364, 1.15)
	c.plainFoot(f)
	c.draw("d-metal", f.put(tube(170, 286)))
	c.draw("d-metal", f.put(box(tubeAt-20, 91, tubeAt+20, 96)))
	c.draw("d-metal", f.put(pill(tubeAt-19, 98, tubeAt+19, 116, 4)))
	c.draw("d-metal", f.put(box(tubeAt-28, 116, tubeAt+28, 172)))
	c.soft(f.put(box(tubeAt-22, 122, tubeAt+22, 166)))
	c.gives(f.put(box(tubeAt-22, 122, tubeAt+22, 166)))
	c.draw("d-metal", f.put(box(tubeAt-8, 122, tubeAt+8, 172)))
	c.draw("d-metal", f.put(pill(tubeAt-19, 174, tubeAt+19, 210, 4)))
	c.draw("d-line", f.put(disc(tubeAt, 192, 4)))
	c.double(f.put(from(36, 244).curve(40, 222, 96, 222, 100, 244)))
	c.label(pt{84, 150}, left, f.at(tubeAt-15, 144), "rubber")
	c.label(pt{84, 204}, left, f.at(tubeAt, 130), "core")
	c.note(pt{280, 392}, below, "same-foot")
	c.note(pt{108, 78}, left, "twists")
	c.inset(func() {
		// From above: the foot still, the leg turned.
		g := frame{280, 130, 0.62}
		c.draw("d-shell", g.put(topOutline()))
		c.draw("d-metal", g.put(disc(62, 0, 24)))
		hub := pt{62, 0}
		c.draw("d-ghost", g.put(from(62, 0).line(190, 0).turned(hub, 14)), g.put(from(62, 0).line(190, 0).turned(hub, -14)))
		c.double(g.put(arc(hub, 112, -12, 12)))
	})
	c.note(pt{360, 186}, below, "from-above")
}
