package drawing

import (
	"math"
	"strconv"
)

// Heel height: how to measure it, and what a wrong one does to the leg.
var heels = []Drawing{
	{ID: "heel-measured", Width: 480, Height: 470, numbers: map[string]string{"heel": whole(soleHeel), "ball": whole(soleBall), "height": whole(soleHeel - soleBall)}, make: heelMeasured},
	{ID: "tilt-higher-heel", Width: 480, Height: 430, numbers: map[string]string{"step": whole(tiltStep), "lean": whole(tilt)}, make: tiltHigher},
	{ID: "tilt-lower-heel", Width: 480, Height: 430, numbers: map[string]string{"step": whole(tiltStep), "lean": whole(tilt)}, make: tiltLower},
}

// A made-up change of shoes, large enough to see. The heel rises or drops by
// tiltStep while the ball stays, so a rigid foot and leg turn by atan(step / lever).
// The lever is the floor distance from the back of the heel to the ball.
const tiltStep = 30.0

var tilt = tiltOf(tiltStep, ball)

func tiltOf(step, lever float64) float64 { return math.Atan(step/lever) * 180 / math.Pi }

// whole writes an amount of a drawing that its words name; the words say the unit.
func whole(v float64) string { return strconv.FormatFloat(v, 'f', 0, 64) }

// The made-up shoe of heelMeasured.
const (
	soleHeel = 30.0
	soleBall = 20.0
)

// The foot stands 12 mm inside the back of the shoe. Its sole is measured under
// the middle of the heel and under the ball.
const (
	inShoe     = 12.0
	shoeHeelAt = inShoe + 30
	shoeBallAt = inShoe + ball
)

// sole is a sole with a heel, cut open: ground at y 0, its top where the foot stands.
func sole() path {
	return from(4, 0).line(78, 0).curve(82, 10, 96, 12, 120, 9, 144, 6, 160, 0, 178, 0).
		line(222, 0).curve(246, 0, 264, 4, 282, 14).line(284, 34).
		curve(262, 22, 240, soleBall, shoeBallAt, soleBall).
		curve(176, soleBall+2, 160, soleBall+10, 136, soleHeel+1).line(70, soleHeel, 8, soleHeel).curve(3, 26, 2, 10, 4, 0).shut()
}

// soleOutside is the same sole uncut: its edge stands up round the foot.
func soleOutside() path {
	return from(4, 0).line(78, 0).curve(82, 10, 96, 12, 120, 9, 144, 6, 160, 0, 178, 0).
		line(222, 0).curve(246, 0, 268, 4, 283, 14).line(285, 34).
		curve(266, 30, 240, 28, 214, 28).line(190, 28).
		curve(150, 30, 130, 40, 92, 40).line(3, 40).curve(1, 30, 1, 10, 4, 0).shut()
}

// upper is the top of a laced shoe, from back to toe.
func upper(back, toe float64) path {
	return from(4, back).curve(-1, 56, 2, 78, 7, 94).curve(12, 100, 20, 99, 24, 95).
		curve(42, 84, 70, 82, 90, 92).line(100, 112).curve(105, 120, 113, 121, 118, 116).
		curve(136, 98, 160, 88, 188, 78, 216, 69, 250, 72, 272, 58, 283, 50, 286, 42, 285, toe)
}

// laces lie over the tongue, with the edge that holds them.
func laces() path {
	out := from(90, 92).curve(104, 84, 130, 70, 152, 64, 168, 60, 182, 66, 188, 78)
	for _, x := range []float64{120, 138, 157} {
		top := 137 - x*0.31
		out = append(out, from(x-12, top-22).line(x+6, top-1)...)
	}
	return out
}

func heelMeasured(c *canvas) {
	f := frame{136, 166, 1.05}
	c.draw("d-shell", f.put(shellOutline().moved(inShoe, soleBall)))
	c.draw("d-line", f.put(upper(soleHeel, 34)))
	c.draw("d-hole", f.put(sole()))
	c.draw("d-sole", f.put(from(-20, 0).line(306, 0)))
	c.measure(f.at(shoeHeelAt, 0), f.at(shoeHeelAt, soleHeel))
	c.measure(f.at(shoeBallAt, 0), f.at(shoeBallAt, soleBall))
	c.note(f.at(shoeHeelAt, -12), below, "under-heel")
	c.note(f.at(shoeBallAt, -12), below, "under-ball")
	c.title(pt{14, 70}, right, "right")
	c.draw("d-heavy", from(18, 96).line(28, 108, 48, 84))
	c.title(pt{265, 212}, below, "heel-height")
	g := frame{136, 424, 1.05}
	c.draw("d-line", g.put(upper(40, 34)))
	c.draw("d-thin", g.put(laces()))
	c.draw("d-shell d-outer", g.put(soleOutside()))
	c.draw("d-sole", g.put(from(-40, 0).line(306, 0)))
	c.measure(g.at(-16, 0), g.at(-16, 40))
	c.draw("d-thin", g.put(from(-24, 40).line(3, 40)))
	c.title(pt{14, 330}, right, "wrong")
	c.draw("d-heavy", from(20, 348).line(44, 372), from(44, 348).line(20, 372))
	c.note(pt{240, 440}, below, "outside-heel")
}

// A leg from tube to thigh, in millimetres of the foot. The knee stands 389 mm
// above the ankle (mean of the army body measures behind ball).
const (
	ankleHeight = 76.0
	kneeHeight  = ankleHeight + 389
)

var (
	ankle = pt{tubeAt, ankleHeight}
	knee  = pt{tubeAt, kneeHeight}
)

// leg draws foot, tube, socket and a piece of thigh; set moves each point from
// where it stands when the leg is upright, and bend is how far the knee then
// bends from straight.
func (c *canvas) leg(f frame, set func(pt) pt, bend float64) {
	put := func(p path) path { return f.put(p.each(set)) }
	c.draw("d-shell", put(thigh().turned(knee, bend)))
	c.draw("d-metal", put(from(tubeAt-15, 120).line(tubeAt+15, 120, tubeAt+15, 244, tubeAt-15, 244).shut()))
	c.draw("d-metal", put(pill(tubeAt-20, 92, tubeAt+20, 126, 4)))
	c.draw("d-metal", put(pill(tubeAt-20, 232, tubeAt+20, 262, 4)))
	c.draw("d-socket", put(socket()))
	c.draw("d-line", put(disc(knee.x, knee.y, 12)))
}

// thigh is a piece of thigh over the knee, and socket holds the limb below it.
func thigh() path {
	return from(tubeAt-52, kneeHeight+4).line(tubeAt-62, kneeHeight+100).
		curve(tubeAt-20, kneeHeight+110, tubeAt+20, kneeHeight+92, tubeAt+66, kneeHeight+100).line(tubeAt+50, kneeHeight+10).
		curve(tubeAt+48, kneeHeight-46, tubeAt-48, kneeHeight-40, tubeAt-52, kneeHeight+4).shut()
}

func socket() path {
	return from(tubeAt-24, 262).line(tubeAt+24, 262).curve(tubeAt+52, 290, tubeAt+58, 350, tubeAt+60, kneeHeight-14).
		curve(tubeAt+30, kneeHeight-34, tubeAt-20, kneeHeight-50, tubeAt-62, kneeHeight-40).curve(tubeAt-62, 350, tubeAt-52, 290, tubeAt-24, 262).shut()
}

func (c *canvas) axis(f frame, class string, set func(pt) pt) {
	a, b := f.to(set(pt{tubeAt, 10})), f.to(set(pt{tubeAt, kneeHeight + 90}))
	c.draw(class, from(a.x, a.y).line(b.x, b.y))
}

func tiltHigher(c *canvas) {
	f := frame{150, 372, 0.6}
	const thick = 14 // of the sole under the ball
	contact := ballPoint
	lift := func(p pt) pt { return pt{p.x, p.y + thick} }
	lean := func(p pt) pt { return p.turned(contact, -tilt) }
	set := func(p pt) pt { return lean(lift(p)) }
	c.draw("d-sole", f.put(from(-56, 0).line(420, 0)))
	// The heel that is new: what fills the step under the old one.
	c.firm(f.put(from(0, 0).line(66, 0, 66, (ball-66)*tiltStep/ball, 0, tiltStep).shut()))
	c.draw("d-shell d-outer", f.put(shoeSole(thick).each(lean)))
	c.draw("d-shell d-outer", f.put(shellOutline().each(set)))
	c.leg(f, set, 2*tilt)
	c.axis(f, "d-ghost d-upright", lift)
	c.axis(f, "d-axis", set)
	c.measure(f.at(-26, 0), f.at(-26, tiltStep))
	c.arrow(f.put(arc(set(pt{tubeAt, 0}), kneeHeight+70, 90, 90-tilt)))
	c.note(pt{108, 346}, left, "higher")
	c.title(pt{318, 60}, right, "leans")
	c.label(pt{318, 180}, right, f.to(set(knee)), "knee")
	c.label(pt{120, 120}, left, f.to(lift(pt{tubeAt, kneeHeight - 60})), "set-up")
}

// shoeSole lies under a foot whose heel step it matches; its ball stands on the
// ground and, with the foot upright, its heel too.
func shoeSole(thick float64) path {
	return from(2, 0).line(70, 0).curve(96, 4, 120, 8, 150, 3, 168, 0, 180, 0, ball, 0, 226, 0, 246, 4, 262, 14).
		line(262, 24).curve(246, thick+3, 220, thick, ball, thick, 172, thick, 154, thick+6, 134, thick+heelStep).
		curve(106, thick+15, 88, thick+heelStep, 62, thick+heelStep).line(8, thick+heelStep).curve(0, thick+4, 0, 8, 2, 0).shut()
}

func tiltLower(c *canvas) {
	f := frame{150, 372, 0.6}
	const thick = 14
	// In the old shoe the heel stood tiltStep higher and the leg was upright on it.
	// All of it turned about the ball as the heel came down.
	lift := func(p pt) pt { return pt{p.x, p.y + thick} }
	contact := ballPoint
	old := lift(ankle).turned(contact, -tilt)
	was := func(p pt) pt { return p.minus(ankle).plus(old) }
	set := func(p pt) pt { return was(p).turned(contact, tilt) }
	c.draw("d-sole", f.put(from(-56, 0).line(420, 0)))
	c.draw("d-shell d-outer", f.put(shoeSole(thick)))
	c.draw("d-shell d-outer", f.put(shellOutline().each(lift)))
	c.draw("d-ghost", f.put(shellOutline().each(lift).turned(contact, -tilt)))
	c.leg(f, set, 0)
	c.axis(f, "d-ghost d-upright", was)
	c.axis(f, "d-axis", set)
	const heel = thick + heelStep
	c.measure(f.at(-26, heel), f.at(-26, heel+tiltStep))
	c.arrow(f.put(arc(set(pt{tubeAt, 0}), kneeHeight+70, 90, 90+tilt)))
	c.note(pt{108, 330}, left, "lower")
	c.title(pt{106, 130}, left, "leans")
	c.label(pt{300, 160}, right, f.to(set(knee)), "knee")
	c.label(pt{300, 60}, right, f.to(was(pt{tubeAt, kneeHeight + 40})), "set-up")
}
