package drawing

// Feet whose keel is a spring.
var springs = []Drawing{
	{ID: "foot-carbon-spring", Width: 480, Height: 384, make: carbonSpring},
	{ID: "foot-glass-spring", Width: 480, Height: 384, make: glassSpring},
	{ID: "foot-running-blade", Width: 480, Height: 420, make: runningBlade},
	{ID: "split-toe-on-a-stone", Width: 480, Height: 330, make: splitToe},
}

func carbonSpring(c *canvas) {
	f := c.foot(80, 306, 1.3)
	c.hollowFoot(f)
	c.draw("d-solid", f.put(heelLeaf()))
	c.draw("d-solid", f.put(leaf(9, 5, shankSpine...)))
	c.gives(f.put(leaf(9, 5, shankSpine...)))
	c.draw("d-metal", f.put(pill(56, 84, 73.5, 118, 2)))
	c.draw("d-metal", f.put(bolt(89, 109, 60, 109, 3.2)), f.put(bolt(89, 94, 60, 94, 3.2)))
	c.bolts(f)
	c.joint(f, 118, 205)
	c.double(f.put(arc(pt{96, 60}, 176, -19, -3)))
	c.label(pt{236, 146}, right, f.at(81, 64), "keel")
	c.label(pt{104, 340}, below, f.at(46, 23), "heel-spring")
	c.label(pt{306, 340}, below, f.at(184, 15.5), "springs-back")
	c.label(pt{284, 204}, right, f.at(146, 31), "bolts")
}

func glassSpring(c *canvas) {
	f := c.foot(80, 306, 1.3)
	c.hollowFoot(f)
	c.layered(f, 7, 6, heelSpine...)
	c.layered(f, 10, 6.5, roundSpine...)
	c.gives(f.put(leaf(10, 6.5, roundSpine...)))
	c.draw("d-metal", f.put(bolt(56, 76, 56, 96, 3.4)), f.put(bolt(80, 77, 80, 96, 3.4)))
	c.bolts(f)
	c.joint(f, 91, 205)
	c.double(f.put(arc(pt{30, 62}, 62, -17, 17)))
	c.label(pt{66, 128}, above, f.at(30, 68), "bends")
	c.label(pt{262, 116}, right, f.at(91.5, 60), "c-opens")
	c.label(pt{104, 340}, below, f.at(46, 23), "heel-spring")
	c.label(pt{310, 340}, below, f.at(172, 17), "glass-keel")
}

// layered is a leaf of glass: an outline with fine lines along it.
func (c *canvas) layered(f frame, thick, thin float64, spine ...pt) {
	c.draw("d-keel d-glass", f.put(leaf(thick, thin, spine...)))
	c.draw("d-thin", f.put(smooth(spine...)))
}

func runningBlade(c *canvas) {
	f := c.foot(150, 372, 0.78)
	c.draw("d-sole", f.put(from(-60, 0).line(330, 0)))
	spine := []pt{{92, 420}, {92, 370}, {91, 325}, {80, 278}, {54, 232}, {29, 186}, {24, 134}, {50, 84}, {104, 44}, {158, 19}, {196, 12}, {232, 20}}
	// The same line under load: lower, and further out at the back.
	var squashed []pt
	for _, p := range spine[2:10] {
		k := (p.y - 12) / (325 - 12)
		squashed = append(squashed, pt{p.x - 128*k*(1-k), p.y - 28*k})
	}
	c.draw("d-ghost", f.put(smooth(squashed...)))
	c.draw("d-solid", f.put(leaf(15, 10, spine...)))
	c.gives(f.put(leaf(15, 10, spine...)))
	// The tread follows the underside of the toe.
	c.soft(f.put(leaf(7, 6, pt{128, 25}, pt{160, 10}, pt{196, 3.5}, pt{234, 11})))
	// Socket in front of the blade.
	c.draw("d-metal", f.put(from(100, 440).line(101, 350).curve(104, 318, 122, 304, 146, 304, 176, 304, 190, 322, 196, 352).line(208, 440).shut()))
	c.draw("d-metal", f.put(box(99.5, 340, 108, 420)))
	c.draw("d-metal", f.put(bolt(80, 400, 112, 400, 5)), f.put(bolt(80, 364, 112, 364, 5)))
	c.label(pt{330, 60}, right, f.at(160, 380), "socket")
	c.label(pt{120, 70}, left, f.at(84, 364), "bolts")
	c.label(pt{264, 226}, right, f.at(26, 166), "squashes")
	c.label(pt{364, 350}, right, f.at(230, 9.5), "tread")
	c.label(pt{96, 330}, left, f.at(24, 2), "no-heel")
}
