package drawing

import "math"

// Pictures to act by: each shows a hand, a foot or a ruler where it belongs while one does a thing.
var acts = []Drawing{
	{ID: "up-from-the-floor", Width: 480, Height: 510, make: upFromFloor},
	{ID: "seat-and-grips", Width: 480, Height: 640, make: seatAndGrips},
	{ID: "over-ice", Width: 480, Height: 526, make: overIce},
	{ID: "sole-in-a-mirror", Width: 480, Height: 554, make: soleInMirror},
	{ID: "slope-with-a-phone", Width: 480, Height: 300, numbers: map[string]string{"slope": whole(phoneSlope)}, make: slopeWithPhone},
	{ID: "heel-with-a-ruler", Width: 480, Height: 370, numbers: map[string]string{"heel": whole(soleHeel), "ball": whole(soleBall), "height": whole(soleHeel - soleBall)}, make: heelWithRuler},
}

// Up by a seat that cannot roll: the order of the page on getting up, which has it from leaflets for older people and
// for people with limb loss. The person is the same in all four, the artificial leg the right one: it is the nearer while
// they face right, and the farther once they have turned to sit.
const seatHigh = 44.0

var (
	faller = someone{skin: "e", hair: "bald", stout: true, coat: "p", legs: "t", hem: 11}

	// The toe of the artificial foot is under it, for its ankle does not stretch; the own foot lies on its back.
	kneelingNear = footing{-66, -21, -80}
	kneelingFar  = footing{-52, -16, 180}

	onHandsAndKnees = with(faller, someone{hip: pt{-20, -49}, bow: 87, near: kneelingNear, far: kneelingFar, nearLeg: belowKnee,
		nearArm: []pt{{24, -24}, {28, -4}}, farArm: []pt{{34, -25}, {40, -4}}})
	handsOnSeat = with(faller, someone{hip: pt{-22, -49}, bow: 34, near: kneelingNear, far: kneelingFar, nearLeg: belowKnee,
		nearArm: []pt{{16, -62}, {36, seatTop}}, farArm: []pt{{22, -64}, {46, seatTop}}})
	strongerFootFlat = with(faller, someone{hip: pt{-28, -53}, bow: 40, near: footing{-72, -21, -80}, far: footing{x: 6}, nearLeg: belowKnee,
		nearArm: []pt{{14, -64}, {36, seatTop}}, farArm: []pt{{20, -66}, {44, seatTop}}})
	seatedDown = with(faller, someone{hip: pt{-4, -54}, bow: 4, near: footing{x: 36}, far: footing{x: 44}, farLeg: belowKnee,
		nearArm: []pt{{-14, -72}, {4, seatTop}}})
)

const seatTop = -(seatHigh + 3)

// with is a person in a posture.
func with(who, how someone) someone {
	how.skin, how.hair, how.stout, how.coat, how.legs, how.hem = who.skin, who.hair, who.stout, who.coat, who.legs, who.hem
	return how
}

// armchair stands on the ground with its front at x and its back at the right; it has no wheels.
func (p *pencil) armchair(x float64) {
	p.path("t", from(x+44, 0).line(x+44, -seatHigh).curve(x+43, -70, x+46, -92, x+52, -98).curve(x+60, -101, x+64, -92, x+62, -60).line(x+62, 0).shut())
	p.box("t", x+2, -32, 46, 32, 2)
	p.box("e", x, -seatHigh, 50, 13, 5)
}

func upFromFloor(c *canvas) {
	panel := func(x, y float64, id string) pt {
		c.draw("d-sole", from(x-106, y).line(x+106, y))
		c.title(pt{x, y + 16}, below, id)
		return pt{x, y}
	}
	const scale = 1.28
	c.pen(panel(120, 160, "hands-and-knees"), scale, func(p *pencil) { p.at(6, 0, 1, 0, func() { p.one(onHandsAndKnees) }) })
	c.pen(panel(360, 160, "hands-on-the-seat"), scale, func(p *pencil) {
		p.at(-6, 0, 1, 0, func() { p.armchair(28); p.one(handsOnSeat) })
	})
	c.pen(panel(120, 430, "stronger-foot-flat"), scale, func(p *pencil) {
		p.at(-6, 0, 1, 0, func() { p.armchair(28); p.one(strongerFootFlat) })
	})
	at := panel(360, 430, "turn-and-sit")
	c.pen(at, scale, func(p *pencil) {
		p.at(-28, 0, 1, 0, func() {
			p.armchair(28)
			p.at(52, 0, 1, 0, func() { p.in("scale(-1 1)", func() { p.one(seatedDown) }) })
		})
	})
	c.arrow(from(at.x+70, at.y-148).curve(at.x+66, at.y-192, at.x-6, at.y-196, at.x-18, at.y-154))
}

// bather sits without the artificial leg, dressed, as one tries it for the first time.
var bather = someone{hip: pt{0, -56}, bow: 2, near: footing{30, -8, 0}, far: footing{x: 34}, nearLeg: endedBelow,
	nearArm: []pt{{6, -84}, {20, -66}}, farArm: []pt{{22, -98}, {42, -92}}, hair: "bob", skin: "t", coat: "e", legs: "p", hem: 8}

// showerSeat has a back and four legs with wide rubber ends.
func (p *pencil) showerSeat() {
	p.path("h", from(-22, -4).line(-20, -46), from(22, -4).line(20, -46), from(-21, -48).line(-27, -86))
	p.box("p", -25, -50, 50, 6, 2)
	p.path("h", from(-28, -84).curve(-31, -76, -29, -66, -25, -62))
	for _, x := range []float64{-22, 22} {
		p.box("i", x-5, -4, 10, 4, 1)
	}
}

// bar is a grip on a wall, from one plate to the other.
func (p *pencil) bar(a, b pt) {
	p.disc("p", a.x, a.y, 4)
	p.disc("p", b.x, b.y, 4)
	p.path("p", tubeOf([]pt{a, b}, []float64{4.4, 4.4}, true, true))
}

func seatAndGrips(c *canvas) {
	c.draw("d-sole", from(10, 264).line(470, 264))
	c.pen(pt{214, 264}, 1.4, func(p *pencil) {
		p.path("s", from(76, -158).line(76, 0))
		p.path("f", from(70, -128).line(70, -60), from(70, -112).curve(54, -100, 56, -66, 66, -62))
		p.d("e", "M70 -132L58 -126L61 -119L72 -124Z")
		p.bar(pt{28, -92}, pt{62, -92})
		p.box("e", -8, -3, 74, 3, 1)
		p.showerSeat()
		p.one(bather)
	})
	c.pen(pt{72, 264}, 0.56, func(p *pencil) {
		p.box("t", -62, -70, 58, 70, 2)
		p.d("p", "M-60 -70H-8V-30C-20 -26 -44 -34 -60 -28Z")
		p.at(34, 0, 1, 0, p.standingLeg)
	})
	c.title(pt{240, 12}, below, "in-the-shower")
	c.label(pt{344, 92}, right, pt{290, 135}, "bar")
	c.label(pt{144, 122}, left, pt{174, 152}, "seat")
	c.note(pt{296, 276}, below, "mat")
	c.note(pt{92, 276}, below, "leg-dry")

	// A bath, cut across: the seat stands with two legs in it and two beside it.
	c.draw("d-sole", from(10, 584).line(470, 584))
	c.pen(pt{214, 584}, 1.4, func(p *pencil) {
		p.path("s", from(118, -150).line(118, 0))
		p.path("p", from(14, 0).line(10, -42).line(22, -42).curve(24, -20, 28, -12, 40, -12).line(88, -12).curve(98, -12, 102, -20, 104, -42).line(118, -42).line(118, 0).shut())
		p.path("h", from(-54, -4).line(-52, -56), from(-16, -4).line(-16, -56), from(48, -16).line(48, -56), from(78, -16).line(78, -56))
		p.box("p", -60, -60, 148, 6, 2)
		p.box("p", 34, -98, 52, 28, 4)
		p.path("h", from(44, -70).line(44, -60), from(76, -70).line(76, -60))
		for _, x := range []float64{-54, -16} {
			p.box("i", x-5, -4, 10, 4, 1)
		}
		for _, x := range []float64{48, 78} {
			p.box("i", x-5, -16, 10, 4, 1)
		}
		p.bar(pt{114, -122}, pt{114, -78})
		p.arrowTo("h", from(-40, -74).line(24, -74), 8)
		p.arrowTo("h", from(-40, -104).line(-40, -78), 8)
	})
	c.title(pt{240, 336}, below, "at-a-bath")
	c.label(pt{344, 400}, left, pt{372, 440}, "bath-bar")
	c.note(pt{160, 424}, above, "sit-first")
	c.note(pt{240, 596}, below, "two-legs-in")
}

var walkerOnIce = someone{hip: pt{0, -86}, lean: 3, near: footing{9, 0, 0}, far: footing{-9, 0, 0}, nearLeg: belowKnee,
	nearArm: []pt{{-7, -113}, {10, -97}}, farArm: []pt{{12, -112}, {34, -95}}, hair: "scarf", skin: "e", coat: "t", legs: "p", hem: 20,
	behind: func(p *pencil) { p.cane(pt{34, -95}, 40); p.iceTip(40, 0) }}

// iceTip is the end of a cane with a spike that has been folded down, at the ground.
func (p *pencil) iceTip(x, y float64) {
	p.path("h", from(x-3, y-7).line(x+3, y-7), from(x-2, y-7).line(x-2, y), from(x+2, y-7).line(x+2, y))
}

// grips are chains over the sole of a shoe, held by a band round it.
func (p *pencil) grips() {
	p.d("h", "M1 -12C20 -22 38 -15 58 -14C76 -13 88 -14 100 -11")
	for _, x := range []float64{14, 30, 64, 84} {
		p.path("h", from(x, -14).line(x-4, 0), from(x, -14).line(x+5, 0))
		p.d("i", "M"+num(x-7)+" 0L"+num(x-4)+" 5L"+num(x-1)+" 0ZM"+num(x+2)+" 0L"+num(x+5)+" 5L"+num(x+8)+" 0Z")
	}
}

func overIce(c *canvas) {
	c.draw("d-sole", from(10, 256).line(470, 256))
	c.pen(pt{200, 256}, 1.4, func(p *pencil) {
		for _, x := range []float64{-96, -40, 52, 104} {
			p.path("s", from(x, 6).line(x+16, 6), from(x+22, 10).line(x+30, 10))
		}
		p.one(walkerOnIce)
		p.path("h", from(-84, -94).line(188, -94), from(-70, 0).line(-70, -94))
		p.path("s", from(188, -160).line(188, 0))
		p.disc("e", 10, -97, 4.6)
	})
	c.label(pt{320, 62}, right, pt{300, 124}, "rail")
	c.label(pt{320, 166}, right, pt{252, 192}, "cane")
	c.note(pt{240, 272}, below, "short-steps")
	c.draw("d-sole", from(10, 456).line(270, 456))
	c.pen(pt{40, 450}, 1.9, func(p *pencil) { p.laced(); p.grips() })
	c.note(pt{140, 472}, below, "grips")
	c.draw("d-sole", from(310, 456).line(470, 456))
	c.pen(pt{390, 456}, 1, func(p *pencil) {
		p.path("t", from(-8, -110).line(8, -110, 8, -38, -8, -38).shut())
		p.path("e", from(-13, -44).line(13, -44, 15, -22, -15, -22).shut())
		p.d("i", "M-12 -22L-9 0L-6 -22ZM-3 -22L0 0L3 -22ZM6 -22L9 0L12 -22Z")
	})
	c.note(pt{390, 472}, below, "spike")
}

// The mirror stands so that the eye sees the sole in it: light leaves a mirror at the angle at which it comes.
var (
	lookerEye = pt{20, -125}
	soleSeen  = pt{68, -31}
	mirrorAt  = pt{122, -17}
	looker    = someone{hip: pt{-6, -56}, bow: 10, near: footing{x: 26}, far: footing{64, -22, 76}, nearLeg: belowKnee, farLeg: bareLeg,
		nearArm: []pt{{2, -84}, {16, -66}}, hair: "curls", skin: "e", coat: "p", legs: "t", hem: 8}
)

// mirrorFace is the way that a mirror at a place faces for one to see a thing in it.
func mirrorFace(eye, at, seen pt) pt {
	a, b := eye.minus(at), seen.minus(at)
	n := a.times(1 / a.length()).plus(b.times(1 / b.length()))
	return n.times(1 / n.length())
}

func soleInMirror(c *canvas) {
	c.draw("d-sole", from(10, 228).line(470, 228))
	c.pen(pt{128, 228}, 1.56, func(p *pencil) {
		p.box("t", -34, -46, 56, 46, 2)
		p.box("e", 40, -21, 22, 21, 1.5)
		face := mirrorFace(lookerEye, mirrorAt, soleSeen)
		along := pt{-face.y, face.x}.times(17)
		a, b := mirrorAt.plus(along), mirrorAt.minus(along)
		p.path("t", from(a.x, a.y).line(b.x, b.y, b.x, 0, a.x, 0).shut())
		p.path("h", from(a.x, a.y).line(b.x, b.y))
		p.one(looker)
		p.path("dash", from(lookerEye.x, lookerEye.y).line(mirrorAt.x, mirrorAt.y, soleSeen.x, soleSeen.y))
	})
	c.label(pt{352, 94}, above, pt{322, 196}, "mirror")
	c.note(pt{150, 244}, below, "foot-up")
	c.pen(pt{150, 530}, 3, func(p *pencil) { p.soleShown(looker.skin) })
	c.label(pt{250, 340}, right, pt{159, 340}, "between-toes")
	c.label(pt{250, 400}, right, pt{150, 386}, "ball")
	c.label(pt{250, 452}, right, pt{173, 464}, "edges")
	c.label(pt{250, 512}, right, pt{150, 512}, "heel")
}

// soleShown is the sole of a left foot as its owner sees it in a mirror, the big toe at the right as it is seen from above.
func (p *pencil) soleShown(skin string) {
	p.d(skin, "M0 0C-8 0 -10 -8 -9.4 -17C-9 -26 -13 -34 -16 -43C-18 -51 -12 -57 -4 -58.5C3 -60 11 -60 12 -50C13 -40 8.4 -32 8 -20C7.8 -8 8 0 0 0Z")
	for _, toe := range [][4]float64{{6.4, -64, 5.2, 6.4}, {-1.6, -65.6, 3.1, 4.6}, {-7.2, -63, 2.8, 4.2}, {-12, -58.6, 2.6, 3.8}, {-15.8, -53, 2.4, 3.4}} {
		p.path(skin, oval(toe[0], toe[1], toe[2], toe[3]))
	}
	p.d("f", "M-14 -43C-8 -37 6 -37 10.6 -45M-8 -14C-4 -18 4 -18 7.4 -14")
}

// A made-up ramp, a little steeper than a new one for the public may be in the United States.
const phoneSlope = 5.0

func slopeWithPhone(c *canvas) {
	base := pt{60, 246}
	on := func(x, y float64) pt { return pt{x, y}.turned(pt{}, -phoneSlope).plus(base) }
	put := func(p path) path { return p.each(func(a pt) pt { return on(a.x, a.y) }) }
	top := on(400, 0)
	c.draw("d-ground", from(20, base.y).line(base.x, base.y, top.x, top.y, top.x, 284, 20, 284).shut())
	c.draw("d-sole", from(20, base.y).line(base.x, base.y, top.x, top.y))
	c.draw("d-hole", put(box(40, -14, 360, -1)))
	c.draw("d-socket", put(pill(120, -76, 246, -14, 8)))
	c.draw("d-line", put(box(130, -68, 236, -22)))
	c.title(on(183, -52), below, "reads")
	c.label(pt{392, 128}, above, on(330, -9), "board")
	c.label(pt{150, 112}, above, on(150, -76), "phone")
	c.title(pt{240, 18}, below, "first-table")
}

func heelWithRuler(c *canvas) {
	f := frame{110, 250, 1.05}
	c.draw("d-sole", f.put(from(-100, 0).line(340, 0)))
	c.draw("d-line", f.put(upper(40, 34)))
	c.draw("d-thin", f.put(laces()))
	c.draw("d-shell d-outer", f.put(soleOutside()))
	// Where the foot rests inside, from the heel to the ball.
	c.draw("d-ghost", f.put(from(-30, soleHeel).line(70, soleHeel, 136, soleHeel+1).curve(160, soleBall+10, 176, soleBall+2, shoeBallAt, soleBall).line(310, soleBall)))
	c.ruler(f, -56, 90)
	c.ruler(f, 310, 90)
	c.title(pt{74, 84}, above, "heel-first")
	c.title(pt{404, 84}, above, "ball-next")
	c.label(pt{240, 60}, above, f.at(120, soleHeel), "foot-rests")
	c.title(pt{240, 300}, below, "take-away")
	c.note(pt{240, 336}, below, "inside")
}

// ruler stands on the table, with a mark for each 10 mm, a longer one for each 50, as high as tall.
func (c *canvas) ruler(f frame, x, tall float64) {
	c.draw("d-hole", f.put(box(x, 0, x+22, tall)))
	var marks path
	for y := 10.0; y < tall; y += 10 {
		long := 8.0
		if math.Mod(y, 50) == 0 {
			long = 14
		}
		marks = append(marks, from(x, y).line(x+long, y)...)
	}
	c.draw("d-thin", f.put(marks))
}
