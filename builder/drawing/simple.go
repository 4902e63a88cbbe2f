package drawing

// Feet without springs or fluid.
var simple = []Drawing{
	{ID: "foot-solid-ankle", Width: 480, Height: 392, make: solidAnkle},
	{ID: "foot-single-axis", Width: 480, Height: 384, make: singleAxis},
	{ID: "foot-flexible-keel", Width: 480, Height: 384, make: flexibleKeel},
	{ID: "foot-multi-axis", Width: 480, Height: 400, make: multiAxis},
}

func solidAnkle(c *canvas) {
	f := c.foot(80, 306, 1.3)
	c.solidFoot(f)
	c.soft(f.put(from(98, 15).line(32, 52).curve(20, 51, 10, 46, 8, 36, 7, 24, 14, 16, 26, 15).shut()))
	c.gives(f.put(from(98, 15).line(32, 52).curve(20, 51, 10, 46, 8, 36, 7, 24, 14, 16, 26, 15).shut()))
	c.firm(f.put(from(34, 90).line(102, 90).curve(107, 76, 142, 63, 174, 42, 186, 34, 188, 20, 178, 15).line(98, 15, 32, 52).curve(30, 64, 32, 78, 34, 90).shut()))
	c.draw("d-metal", f.put(bolt(tubeAt, 41, tubeAt, 90, 9)))
	c.joint(f, 90, 205)
	c.label(pt{250, 96}, right, f.at(86, 82), "no-joint")
	c.label(pt{292, 158}, right, f.at(146, 45), "firm-keel")
	c.label(pt{116, 340}, below, f.at(28, 30), "heel-cushion")
	c.label(pt{374, 340}, below, f.at(210, 20), "toe-bends")
}

func singleAxis(c *canvas) {
	f := c.foot(80, 306, 1.3)
	c.solidFoot(f)
	c.soft(f.put(from(66, 15).line(24, 34).curve(16, 33, 10, 32, 9, 28, 10, 20, 16, 16, 26, 15).shut()))
	c.firm(f.put(from(24, 44).line(108, 44).line(110, 68).curve(130, 62, 154, 54, 174, 42, 186, 34, 188, 20, 178, 15).line(66, 15, 24, 34).shut()))
	c.draw("d-metal", f.put(from(50, 44).line(53, 60).curve(54, 74, 80, 74, 81, 60).line(84, 44).shut()))
	c.soft(f.put(pill(28, 44, 48, 78, 3)))
	c.soft(f.put(pill(88, 44, 104, 78, 3)))
	c.draw("d-metal", f.put(from(26, 86).line(26, 78, 56, 78, 59, 56).curve(62, 48, 72, 48, 75, 56).line(78, 78, 106, 78, 106, 86).shut()))
	c.gives(f.put(pill(28, 44, 48, 78, 3)), f.put(pill(88, 44, 104, 78, 3)), f.put(disc(67, 60, 6)))
	c.draw("d-line", f.put(disc(67, 60, 6)))
	c.draw("d-solid", f.put(disc(67, 60, 2.5)))
	c.joint(f, 86, 205)
	c.double(f.put(arc(pt{67, 60}, 206, -17, -3)))
	c.label(pt{64, 128}, above, f.at(37, 70), "soft-bumper")
	c.label(pt{236, 124}, right, f.at(96, 66), "firm-bumper")
	c.label(pt{120, 340}, below, f.at(67, 60), "hinge")
	c.label(pt{300, 340}, below, f.at(140, 34), "firm-keel")
	c.note(pt{464, 208}, left, "toe-goes")
}

func flexibleKeel(c *canvas) {
	f := c.foot(80, 306, 1.3)
	c.draw("d-ghost", f.put(from(150, 66).curve(186, 60, 206, 58, 228, 60, 246, 62, 262, 52, 254, 38, 246, 27, 228, 14, 206, 6)))
	c.solidFoot(f)
	c.soft(f.put(from(100, 17).line(34, 48).curve(20, 48, 10, 44, 8, 36, 7, 24, 14, 16, 26, 15).line(90, 15).shut()))
	c.bendy(f.put(from(34, 48).line(100, 17).curve(130, 15, 180, 9, 226, 9, 236, 10, 236, 19, 226, 21, 200, 22, 160, 32, 112, 62).shut()))
	c.gives(f.put(from(34, 48).line(100, 17).curve(130, 15, 180, 9, 226, 9, 236, 10, 236, 19, 226, 21, 200, 22, 160, 32, 112, 62).shut()))
	c.firm(f.put(from(34, 90).line(102, 90).curve(103, 78, 106, 68, 112, 62).line(34, 48).shut()))
	c.draw("d-metal", f.put(bolt(tubeAt, 58, tubeAt, 90, 9)))
	c.joint(f, 90, 205)
	c.arrow(f.put(arc(pt{140, 20}, 132, 4, 22)))
	c.label(pt{250, 96}, right, f.at(92, 80), "firm-block")
	c.label(pt{116, 340}, below, f.at(28, 30), "heel-cushion")
	c.label(pt{330, 340}, below, f.at(160, 20), "keel-bends")
}

func multiAxis(c *canvas) {
	f := c.foot(80, 322, 1.3)
	c.hollowFoot(f)
	c.firm(f.put(from(18, 26).curve(18, 40, 30, 40, 40, 40).line(96, 40).curve(118, 40, 140, 32, 176, 22, 200, 18, 214, 18, 230, 18, 234, 16, 232, 12, 226, 12, 190, 9, 160, 18, 132, 22, 90, 24, 60, 22, 30, 20, 22, 20, 18, 22, 18, 26).shut()))
	c.soft(f.put(from(34, 40).line(100, 40).curve(94, 52, 94, 70, 98, 82).line(38, 82).curve(42, 70, 40, 52, 34, 40).shut()))
	c.gives(f.put(from(34, 40).line(100, 40).curve(94, 52, 94, 70, 98, 82).line(38, 82).curve(42, 70, 40, 52, 34, 40).shut()))
	c.draw("d-metal", f.put(from(48, 40).line(48, 52).curve(52, 44, 84, 44, 88, 52).line(88, 40).shut()))
	c.draw("d-metal", f.put(from(62, 86).line(62, 68).line(74, 68, 74, 86).shut()), f.put(disc(tubeAt, 59, 13)))
	c.draw("d-metal", f.put(box(34, 82, 102, 89)))
	c.joint(f, 89, 208)
	c.double(f.put(arc(pt{tubeAt, 60}, 208, -15, -2)))
	// Round the tube: the near half of a ring.
	c.double(f.put(from(40, 168).curve(44, 150, 92, 150, 96, 168)))
	c.label(pt{112, 358}, below, f.at(tubeAt-4, 54), "ball-joint")
	c.label(pt{54, 176}, above, f.at(43, 66), "rubber-block")
	c.label(pt{300, 358}, below, f.at(150, 24), "keel")
	c.note(pt{104, 108}, left, "twists")
	c.inset(func() {
		// From behind, on a side slope.
		g := frame{392, 118, 0.8}
		c.draw("d-sole", g.put(from(-76, -13.4).line(76, 13.4)))
		heel := from(-30, 0).line(30, 0).curve(36, 12, 34, 36, 22, 62).line(-22, 62).curve(-34, 36, -36, 12, -30, 0).shut()
		c.draw("d-shell", g.put(heel.turned(pt{}, 10)))
		c.draw("d-metal", g.put(box(-15, 50, 15, 118)))
		c.arrow(g.put(arc(pt{0, 0}, 62, 150, 188)))
		c.arrow(g.put(arc(pt{0, 0}, 62, 30, -8)))
	})
	c.note(pt{386, 152}, below, "from-behind")
}
