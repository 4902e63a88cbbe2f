package drawing

import "math"

// Limbs that are not a leg lost below the knee.
var limbs = []Drawing{
	{ID: "part-of-the-foot", Width: 480, Height: 700, make: partOfFoot},
	{ID: "heel-and-artificial-knee", Width: 480, Height: 520, make: heelAndKnee},
	{ID: "child-grows", Width: 480, Height: 690, make: childGrows},
}

// The foot that ends at mid-foot, in the places of the shoe that sole() and upper()
// draw. It stands on a plate.
const (
	plateThick = 4.0
	footEnds   = 160.0
)

// ownFoot is a foot of flesh and bone from the shin to its rounded end, over a bed
// whose heel lies at y.
func ownFoot(y float64) path {
	return from(30, y+196).curve(34, y+160, 44, y+124, 39, y+92).
		curve(37, y+72, 20, y+58, 15, y+34).curve(12, y+16, 18, y+1, 36, y).
		line(84, y).curve(104, y, 118, y-1, 138, y-4).
		curve(152, y-4, footEnds, y+10, footEnds-1, y+26).curve(footEnds-2, y+46, 148, y+52, 136, y+57).
		curve(122, y+64, 110, y+80, 108, y+102).curve(106, y+130, 120, y+160, 126, y+196)
}

func ankleBone(y float64) path { return arc(pt{72, y + 74}, 8, 200, 340) }

// fillerToe fills the shoe in front of that foot.
func fillerToe(y float64) path {
	return from(footEnds+4, y-7).curve(180, y-10, 192, y-11, 206, y-11).curve(232, y-11, 250, y-9, 264, y-3).
		curve(274, y+1, 276, y+8, 270, y+15).curve(262, y+26, 236, y+30, 214, y+34).
		curve(196, y+38, 176, y+47, footEnds+1, y+50).curve(footEnds+6, y+34, footEnds+6, y+8, footEnds+4, y-7).shut()
}

// plate lies along the top of the sole.
func plate() path {
	return leaf(plateThick, plateThick, pt{10, soleHeel + 2}, pt{70, soleHeel + 2}, pt{120, soleHeel + 2}, pt{150, soleHeel - 1.5}, pt{176, soleBall + 4.5}, pt{205, soleBall + 2}, pt{240, soleBall + 3.5}, pt{278, soleBall + 12})
}

// rocker is a sole that fills the step before the heel and curves up from under the
// end of the foot.
func rocker() path {
	return from(4, 0).line(150, 0).curve(196, 0, 246, 8, 282, 32).line(285, 41).
		curve(262, 24, 240, soleBall, shoeBallAt, soleBall).
		curve(176, soleBall+2, 160, soleBall+10, 136, soleHeel+1).line(70, soleHeel, 8, soleHeel).curve(3, 26, 2, 10, 4, 0).shut()
}

// rolled is how a stiff shape stands on level ground after it has turned by deg: it
// rolls, so its lowest place is on the ground.
func rolled(p path, deg float64) func(pt) pt {
	low := pt{0, math.Inf(1)}
	for _, a := range p.turned(pt{}, deg).flat(40)[0] {
		if a.y < low.y {
			low = a
		}
	}
	return func(a pt) pt { a = a.turned(pt{}, deg); return pt{a.x, a.y - low.y} }
}

func partOfFoot(c *canvas) {
	same := func(p pt) pt { return p }
	shoe := func(f frame, bottom path, stiff bool, set, leg func(pt) pt) {
		put := func(p path) path { return f.put(p.each(set)) }
		bed := soleHeel
		if stiff {
			bed += plateThick
		}
		c.draw("d-shell d-outer", f.put(ownFoot(bed).each(leg)))
		c.soft(put(fillerToe(bed)))
		c.draw("d-line", put(upper(soleHeel, 38)))
		c.draw("d-hole", put(bottom))
		if stiff {
			c.draw("d-solid", put(plate()))
		}
	}
	f := frame{70, 318, 1.2}
	c.draw("d-sole", f.put(from(-40, 0).line(324, 0)))
	shoe(f, rocker(), true, same, same)
	c.draw("d-thin", f.put(ankleBone(soleHeel+plateThick)))
	c.label(pt{250, 64}, right, f.at(84, 112), "own-ankle")
	c.label(pt{262, 150}, right, f.at(footEnds-8, 62), "foot-ends")
	c.label(pt{360, 200}, right, f.at(226, 44), "soft-filler")
	c.label(pt{110, 356}, below, f.at(100, soleHeel+2), "stiff-plate")
	c.label(pt{344, 356}, below, f.at(236, 10), "rocker-sole")

	// The heel lifts by the same turn, without the plate and with it.
	const lift = -19.0
	small := func(x float64) frame {
		c.draw("d-sole", from(x-24, 600).line(x+196, 600))
		return frame{x, 600, 0.62}
	}
	g := small(28)
	fold := pt{footEnds + 12, 0}
	shoe(g, sole(), false, func(p pt) pt { return p.turned(fold, lift*min(max((fold.x+20-p.x)/40, 0), 1)) }, func(p pt) pt { return p.turned(fold, lift) })
	c.title(pt{114, 616}, below, "no-plate")
	c.note(pt{114, 642}, below, "folds")
	h := small(268)
	roll := rolled(rocker(), lift)
	shoe(h, rocker(), true, roll, roll)
	c.title(pt{354, 616}, below, "plate-rocker")
	c.note(pt{354, 642}, below, "stays-whole")
}

// Three made-up shoes, each a heel step higher than the last. The leg was set up in the
// second, so there it stands upright. The foot turns about its ball, as in tiltHigher.
const kneeStep = 25.0

// kneeFoot is where a foot stands over a heel so much higher than that of the flat shoe,
// and kneeShin where the shin stands on that foot.
func kneeFoot(heel float64) func(pt) pt {
	return func(p pt) pt { return p.turned(ballPoint, -tiltOf(heel, ball)) }
}

// toeFlat is the same with a toe that stays on the ground: it bends at the ball.
func toeFlat(heel float64) func(pt) pt {
	return func(p pt) pt { return p.turned(ballPoint, -tiltOf(heel, ball)*min(max((ball+22-p.x)/44, 0), 1)) }
}

const kneeSole = 14.0

func kneeShin(heel float64) func(pt) pt {
	foot := kneeFoot(heel)
	return func(p pt) pt {
		p = p.turned(ankle, tiltOf(kneeStep, ball))
		return foot(pt{p.x, p.y + kneeSole})
	}
}

// Where the weight comes down: a little in front of the knee of the leg as it was set up
// (common practice, no source). It comes down at the same place in all three, so that only
// the heel differs.
var loadAt = kneeShin(kneeStep)(knee).x + 26

// kneeLeg draws a shin with an artificial knee, and a thigh in its socket.
func (c *canvas) kneeLeg(f frame, set func(pt) pt, bend float64) {
	put := func(p path) path { return f.put(p.each(set)) }
	up := func(p path) path { return put(p.turned(knee, bend)) }
	c.draw("d-metal", put(box(tubeAt-15, 120, tubeAt+15, kneeHeight-70)))
	c.draw("d-metal", put(pill(tubeAt-20, 92, tubeAt+20, 126, 4)))
	c.draw("d-shell d-outer", up(from(tubeAt-70, kneeHeight+196).line(tubeAt-78, kneeHeight+262).
		curve(tubeAt-26, kneeHeight+274, tubeAt+26, kneeHeight+250, tubeAt+80, kneeHeight+262).line(tubeAt+70, kneeHeight+170).shut()))
	c.fill("d-socket", "d-hatch", 45, 9, up(from(tubeAt-26, kneeHeight+46).curve(tubeAt-58, kneeHeight+70, tubeAt-68, kneeHeight+130, tubeAt-74, kneeHeight+214).
		curve(tubeAt-26, kneeHeight+186, tubeAt+26, kneeHeight+204, tubeAt+74, kneeHeight+222).curve(tubeAt+66, kneeHeight+130, tubeAt+56, kneeHeight+70, tubeAt+26, kneeHeight+46).shut()))
	// The frame of the knee, and above its axle the part that turns with the thigh.
	c.draw("d-metal", put(from(tubeAt-24, kneeHeight-84).line(tubeAt+20, kneeHeight-84).curve(tubeAt+34, kneeHeight-50, tubeAt+34, kneeHeight-20, tubeAt+26, kneeHeight+12).
		line(tubeAt-24, kneeHeight+12).curve(tubeAt-34, kneeHeight-20, tubeAt-32, kneeHeight-50, tubeAt-24, kneeHeight-84).shut()))
	c.draw("d-metal", up(from(tubeAt-26, kneeHeight+46).line(tubeAt-28, kneeHeight+4).curve(tubeAt-28, kneeHeight-34, tubeAt+28, kneeHeight-34, tubeAt+28, kneeHeight+4).line(tubeAt+26, kneeHeight+46).shut()))
	c.draw("d-solid", put(disc(knee.x, knee.y, 11)))
}

func heelAndKnee(c *canvas) {
	for i, p := range []struct {
		in, bend float64
		id       string
	}{
		{40, 0, "lower"},
		{28, 0, "as-set-up"},
		{22, 2 * (tiltOf(2*kneeStep, ball) - tiltOf(kneeStep, ball)), "higher"},
	} {
		heel, x := float64(i)*kneeStep, 160*float64(i)
		f := frame{x + p.in, 400, 0.42}
		foot, shin := toeFlat(heel), kneeShin(heel)
		c.draw("d-sole", from(f.x-18, 400).line(f.x+122, 400))
		if heel > 0 {
			c.firm(f.put(from(0, 0).line(66, 0, 66, (ball-66)*heel/ball, 0, heel).shut()))
		}
		c.draw("d-shell d-outer", f.put(shoeSole(kneeSole).each(foot)), f.put(shellOutline().moved(0, kneeSole).each(foot)))
		c.kneeLeg(f, shin, p.bend)
		c.draw("d-ghost d-load", f.put(from(loadAt, 720).line(loadAt, 4)))
		c.arrow(f.put(from(loadAt, 810).line(loadAt, 730)))
		c.note(f.at(loadAt, 826), above, "weight")
		c.title(pt{x + 80, 416}, below, p.id)
		c.note(pt{x + 80, 444}, below, p.id+"-does")
	}
	c.label(pt{194, 290}, left, frame{188, 400, 0.42}.to(kneeShin(kneeStep)(knee)), "artificial-knee")
}

// A made-up growth, large enough to see.
const growth = 1.13

// smallChild is a child from behind, grown by so much since the artificial leg, at the
// left, was made. Its shin and foot stay as they were.
func (c *canvas) smallChild(f frame, grown float64) {
	const half, part = 17.0, 56.0 // half the hips, and the length of thigh and shin with foot
	hips := [2]pt{{-half * grown, part*grown + part}, {half * grown, 2 * part * grown}}
	mid := between(hips[0], hips[1], 0.5)
	along := hips[1].minus(hips[0])
	along = along.times(1 / along.length())
	body := func(x, y float64) pt {
		return mid.plus(along.times(x * grown)).plus(pt{-along.y, along.x}.times(y * grown))
	}
	knees := [2]pt{{-half*grown + 1, part}, {half*grown - 1, part * grown}}
	for i, way := range []float64{-1, 1} {
		c.draw("d-shell d-outer", f.put(limb(body(way*27, 34), body(way*35, 2), 10*grown, 9*grown)))
		c.draw("d-hole", f.put(limb(body(way*22, 56), body(way*28, 32), 14*grown, 13*grown)))
		ankle := pt{knees[i].x, 12}
		size := grown
		if i == 0 {
			size = 1
			c.draw("d-metal", f.put(box(ankle.x-3.5, 12, ankle.x+3.5, 34)))
			c.draw("d-shell d-outer", f.put(limb(hips[i], knees[i], 23*grown, 17*grown)))
			c.fill("d-socket", "d-hatch", 45, 5, f.put(limb(between(knees[i], ankle, -0.02), between(knees[i], ankle, 0.55), 20, 13)))
		} else {
			c.draw("d-shell d-outer", f.put(limb(knees[i], ankle, 16*grown, 10*grown)))
			c.draw("d-shell d-outer", f.put(limb(hips[i], knees[i], 23*grown, 17*grown)))
		}
		c.draw("d-hole", f.put(from(-9, 0).line(9, 0).curve(11, 8, 8, 16, 5, 18).line(-5, 18).curve(-8, 16, -11, 8, -9, 0).shut().each(func(p pt) pt { return p.times(size).plus(pt{ankle.x, 0}) })))
		hem := between(hips[i], knees[i], 0.6)
		c.draw("d-hole", f.put(from(hips[i].x-15*grown, hips[i].y).line(hips[i].x+15*grown, hips[i].y, hem.x+14*grown, hem.y, hem.x-14*grown, hem.y).shut()))
	}
	head := body(0, 90)
	c.draw("d-shell d-outer", f.put(box(-6, 58, 6, 78).each(func(p pt) pt { return body(p.x, p.y) })))
	shirt := from(-8, 66).curve(-16, 64, -26, 62, -28, 54).curve(-26, 40, -22, 26, -24, -6).line(24, -6).
		curve(22, 26, 26, 40, 28, 54).curve(26, 62, 16, 64, 8, 66).curve(4, 62, -4, 62, -8, 66).shut()
	c.draw("d-hole", f.put(shirt.each(func(p pt) pt { return body(p.x, p.y) })))
	hair := from(-17, 84).curve(-20, 116, 20, 116, 17, 84).curve(12, 80, -12, 80, -17, 84).shut()
	c.draw("d-shell d-outer", f.put(oval(head.x, head.y, 16*grown, 18*grown)))
	c.draw("d-solid", f.put(hair.each(func(p pt) pt { return body(p.x, p.y) })))
	a, b := hips[0].minus(along.times(26)), hips[1].plus(along.times(26))
	c.draw("d-ghost d-hips", f.put(from(a.x, a.y).line(b.x, b.y)))
}

// limbInSocket is a limb in its socket, cut open; room is what is left round it.
func (c *canvas) limbInSocket(f frame, room float64) {
	half := 44 - room
	c.draw("d-metal", f.put(box(-12, -26, 12, -6)))
	c.draw("d-socket", f.put(from(-22, -8).line(22, -8).curve(48, 8, 50, 50, 54, 112).line(46, 112).curve(42, 54, 40, 20, 12, 0).line(-12, 0).curve(-40, 20, -42, 54, -46, 112).line(-54, 112).curve(-50, 50, -48, 8, -22, -8).shut()))
	end := 4 + room
	c.draw("d-shell d-outer", f.put(from(-half-6, 134).line(-half, 112).curve(-half+2, 60, -half+4, end, 0, end).curve(half-4, end, half-2, 60, half, 112).line(half+6, 134)))
}

func childGrows(c *canvas) {
	c.title(pt{120, 14}, below, "at-first")
	c.title(pt{360, 14}, below, "later")
	for i, grown := range []float64{1, growth} {
		x := 120 + 240*float64(i)
		c.draw("d-sole", from(x-80, 270).line(x+80, 270))
		c.smallChild(frame{x, 270, 0.92}, grown)
		// Both feet from above, heels in one line: a left one and a right one.
		const feet = 0.42
		g := frame{x, 446, feet}
		up := func(way, size float64) func(pt) pt {
			return func(p pt) pt { return pt{way*70 - way*p.y*size, p.x * size} }
		}
		c.draw("d-shell d-outer", g.put(topOutline().each(up(-1, 1))))
		c.draw("d-metal", g.put(disc(-70, 62, 24)))
		c.draw("d-shell d-outer", g.put(topOutline().each(up(1, grown))))
		c.draw("d-thin", g.put(append(from(216, 14).line(254, 12), append(from(222, -4).line(246, -8), append(from(216, -18).line(236, -22), from(204, -30).line(222, -34)...)...)...).each(up(1, grown))))
		c.draw("d-ghost", g.put(from(-140, footLength).line(150, footLength)))
		c.limbInSocket(frame{x, 626, 0.9}, 8*float64(1-i)+3.5)
	}
	for i, id := range []string{"hips", "feet", "room"} {
		y := []float64{284, 458, 654}[i]
		c.note(pt{120, y}, below, id+"-first")
		c.note(pt{360, y}, below, id+"-later")
	}
}
