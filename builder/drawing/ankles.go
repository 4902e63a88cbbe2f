package drawing

// Feet with a moving or movable ankle.
var ankles = []Drawing{
	{ID: "foot-heel-you-set", Width: 480, Height: 400, make: heelYouSet},
	{ID: "foot-hydraulic-ankle", Width: 480, Height: 400, make: hydraulicAnkle},
	{ID: "foot-microprocessor-ankle", Width: 480, Height: 430, make: microprocessorAnkle},
	{ID: "foot-powered-ankle", Width: 480, Height: 430, make: poweredAnkle},
}

func heelYouSet(c *canvas) {
	f := c.foot(80, 296, 1.3)
	pivot := pt{70, 66}
	const set = -11.0
	c.hollowFoot(f)
	c.draw("d-ghost", f.put(shellOutline().turned(pivot, set)))
	c.springBase(f)
	// The lower part is clamped on the keel; the upper part turns on it.
	c.draw("d-metal", f.put(from(40, 50).line(98, 48, 98, 56, 84, 58).curve(84, 74, 80, 80, pivot.x, 80, 60, 80, 56, 74, 56, 60).line(40, 58).shut()))
	c.draw("d-metal", f.put(bolt(88, 60, 88, 40, 3)), f.put(bolt(48, 62, 48, 42, 3)))
	c.draw("d-metal", f.put(from(40, 102).line(96, 102, 94, 88, 84, 76).curve(82, 54, 58, 54, 56, 72).line(46, 84, 36, 90).line(36, 102).shut()))
	c.gives(f.put(disc(pivot.x, pivot.y, 8)), f.put(pill(18, 91, 28, 101, 3)))
	c.draw("d-line", f.put(disc(pivot.x, pivot.y, 8)))
	c.draw("d-solid", f.put(disc(pivot.x, pivot.y, 3)))
	// The lock: the button pushes a bar and its block.
	c.draw("d-solid", f.put(pill(18, 91, 28, 101, 3)))
	c.draw("d-metal", f.put(from(28, 94).line(48, 94, 48, 98, 28, 98).shut()))
	c.draw("d-solid", f.put(box(48, 90, 54, 102)))
	c.joint(f, 102, 200)
	c.arrow(f.put(arc(pivot, 212, -13, -24)))
	c.label(pt{68, 128}, above, f.at(23, 96), "button")
	c.label(pt{224, 108}, right, f.at(51, 96), "lock")
	c.label(pt{244, 154}, right, f.at(pivot.x, pivot.y), "turns-here")
	c.label(pt{318, 184}, right, f.at(118, 35), "spring-keel")
	ghost := f.to(pt{150, 7}.turned(pivot, set))
	c.label(pt{250, 366}, below, ghost, "set-higher")
}

func hydraulicAnkle(c *canvas) {
	f := c.foot(80, 322, 1.3)
	c.hollowFoot(f)
	c.springBase(f)
	c.draw("d-metal", f.put(from(34, 51).line(100, 51, 100, 58, 92, 60).line(92, 70, 76, 70, 76, 60, 58, 60, 56, 68, 46, 68, 44, 60).line(34, 58).shut()))
	c.draw("d-metal", f.put(bolt(66, 58, 66, 40, 3)))
	c.unit(f, 118)
	c.joint(f, 118, 222)
	c.double(f.put(arc(pt{84, 66}, 190, -17, -4)))
	c.label(pt{84, 96}, above, f.at(51, 106), "fluid")
	c.label(pt{76, 178}, left, f.at(43.5, 94.5), "piston")
	c.label(pt{246, 128}, right, f.at(72, 106), "narrow-channel")
	c.label(pt{250, 196}, right, f.at(84, 66), "hinge")
	c.label(pt{290, 356}, below, f.at(170, 18), "spring-keel")
}

// unit is the hydraulic part of an ankle, as high as top: a hinge in front, a
// cylinder behind it.
func (c *canvas) unit(f frame, top float64) {
	c.draw("d-metal", f.put(from(34, 72).line(60, 72, 72, 70, 74, 60).curve(76, 54, 92, 54, 94, 62).line(100, 78, 102, top, 32, top).line(32, 74).shut()))
	c.draw("d-line", f.put(disc(84, 66, 6.5)))
	c.draw("d-solid", f.put(disc(84, 66, 2.5)))
	c.fluid(f.put(box(40, 80, 62, 113)))
	c.draw("d-line", f.put(from(62, 110).line(72, 110, 72, 83, 62, 83).line(62, 87, 68, 87, 68, 106, 62, 106)))
	c.draw("d-solid", f.put(box(40, 91, 62, 98)))
	c.gives(f.put(box(40, 80, 62, 113)), f.put(disc(84, 66, 6.5)))
	c.draw("d-metal", f.put(box(48.5, 62, 53.5, 92)))
	c.draw("d-solid", f.put(disc(51, 62, 3)))
}

func microprocessorAnkle(c *canvas) {
	f := c.foot(80, 352, 1.3)
	c.hollowFoot(f)
	c.springBase(f)
	c.draw("d-metal", f.put(from(34, 51).line(100, 51, 100, 58, 92, 60).line(92, 70, 76, 70, 76, 60, 58, 60, 56, 68, 46, 68, 44, 60).line(34, 58).shut()))
	c.draw("d-metal", f.put(bolt(66, 58, 66, 40, 3)))
	c.unit(f, 158)
	// The valve stands in the channel; its motor hangs on the computer.
	c.draw("d-solid", f.put(box(66, 94, 80, 99)))
	c.draw("d-thin", f.put(from(80, 96.5).line(84, 96.5, 84, 122)))
	c.chip(f, 84, 136)
	c.battery(f, 38, 122, 66, 152)
	c.joint(f, 158, 246)
	c.double(f.put(arc(pt{84, 66}, 190, -17, -4)))
	c.label(pt{72, 130}, above, f.at(46, 136), "battery")
	c.label(pt{72, 214}, left, f.at(46, 105), "fluid")
	c.label(pt{250, 142}, right, f.at(90, 130), "computer")
	c.label(pt{250, 196}, right, f.at(76, 96.5), "valve")
	c.label(pt{290, 388}, below, f.at(170, 18), "spring-keel")
}

// chip is a small computer with its legs.
func (c *canvas) chip(f frame, x, y float64) {
	legs := path{}
	for _, d := range []float64{-8, 0, 8} {
		legs = append(legs, f.put(from(x-14, y+d).line(x+14, y+d))...)
	}
	c.draw("d-line", legs)
	c.draw("d-metal", f.put(box(x-10, y-12, x+10, y+12)))
	c.draw("d-solid", f.put(disc(x-5, y+7, 1.8)))
}

// battery has a cap and its two signs.
func (c *canvas) battery(f frame, x0, y0, x1, y1 float64) {
	mid := (x0 + x1) / 2
	c.draw("d-metal", f.put(box(x0, y0, x1, y1-4)), f.put(box(mid-5, y1-4, mid+5, y1)))
	plus, minus := y1-12, y0+8
	c.draw("d-line", f.put(from(mid-5, plus).line(mid+5, plus)), f.put(from(mid, plus-5).line(mid, plus+5)), f.put(from(mid-5, minus).line(mid+5, minus)))
}

func poweredAnkle(c *canvas) {
	f := c.foot(90, 360, 1.15)
	c.hollowFoot(f)
	c.springBase(f)
	// The lower part reaches back behind the hinge, so that the screw can lever it.
	c.draw("d-metal", f.put(from(28, 51).line(100, 51, 100, 58, 88, 62).line(86, 72, 66, 72, 62, 60, 42, 62, 40, 74, 28, 74).shut()))
	c.draw("d-metal", f.put(bolt(54, 59, 54, 40, 3)), f.put(bolt(92, 59, 92, 40, 3)))
	c.draw("d-metal", f.put(from(16, 86).line(58, 86, 64, 72).curve(66, 56, 86, 56, 88, 70).line(102, 84, 104, 212).curve(104, 220, 98, 222, 94, 222).line(24, 222).curve(18, 222, 14, 220, 14, 212).line(14, 96).shut()))
	c.draw("d-line", f.put(disc(76, 68, 7)))
	c.draw("d-solid", f.put(disc(76, 68, 2.6)))
	c.draw("d-metal", f.put(box(30, 66, 38, 92)))
	c.draw("d-solid", f.put(disc(34, 68, 3)))
	c.draw("d-heavy", f.put(coil(34, 12, 92, 124, 3)))
	c.draw("d-metal", f.put(box(30, 124, 38, 164)))
	c.draw("d-thin", f.put(from(30, 130).line(38, 134)), f.put(from(30, 138).line(38, 142)), f.put(from(30, 146).line(38, 150)), f.put(from(30, 154).line(38, 158)))
	c.gives(f.put(disc(76, 68, 7)), f.put(pill(20, 164, 48, 210, 3)), f.put(coil(34, 12, 92, 124, 3)))
	c.motor(f, 20, 164, 48, 210)
	c.battery(f, 62, 130, 96, 206)
	c.chip(f, 80, 106)
	c.joint(f, 222, 284)
	c.arrow(f.put(arc(pt{76, 68}, 198, -3, -18)))
	c.label(pt{92, 110}, left, f.at(34, 196), "motor")
	c.label(pt{88, 234}, left, f.at(34, 108), "spring")
	c.label(pt{250, 156}, right, f.at(88, 180), "battery")
	c.label(pt{250, 254}, right, f.at(76, 68), "hinge")
	c.label(pt{290, 390}, below, f.at(170, 18), "spring-keel")
	c.note(pt{466, 246}, left, "motor-pushes")
}

// motor is a case with its windings.
func (c *canvas) motor(f frame, x0, y0, x1, y1 float64) {
	c.draw("d-metal", f.put(pill(x0, y0, x1, y1, 3)))
	windings := path{}
	for y := y0 + 9; y < y1-6; y += 7 {
		windings = append(windings, f.put(from(x0+4, y-2).line(x1-4, y+2))...)
	}
	c.draw("d-heavy", windings)
}
