package drawing

// One slope that rises to the right, turned about one point, and two legs on it: one faces up,
// the other down. The ground, the limits and the handle lie on lines through that point. Where
// the slope gets so steep that the upper leg would leave the picture, both legs come nearer and
// get smaller; no angle changes by that.
const (
	slopeWide, slopeTall = 900, 250

	slopeUp, slopeDown = 62.0, 208.0 // how far each leg stands from the point, along the level
	slopeLeg           = 0.7         // of the leg, which is 236 units tall
	slopeRound         = 250.0       // from the point to the handle
	slopeArc           = 62.0        // from an ankle to the arc of its bend
)

// slopePoint is the point about which the ground turns.
var slopePoint = Point{312, 194}

// slopeShare is how large the legs are drawn: whole as long as the upper one has room.
const slopeShare = "min(1, 188/(167+208*sine(needed)/sine(90*deg-needed)))"

var slopeStand = Live{
	Drawing: Drawing{ID: "slope", Width: slopeWide, Height: slopeTall, make: benched(drawSlope)},
	Moves: func() []Move {
		x, y := slopePoint.X, slopePoint.Y
		turned := filled("rotate({0-needed/deg} %1 %2)", x, y)
		out := []Move{{"ground", "transform", turned}, {"ground-line", "transform", turned}}
		const r = slopeArc / slopeLeg
		for _, s := range []struct {
			name        string
			at, mirror  float64
			turn, sweep string // of the foot, clockwise being +, in a leg that looks to the right
		}{{"up", slopeUp, 1, "0-", "0"}, {"down", slopeDown, -1, "", "1"}} {
			out = append(out,
				Move{s.name, "transform", filled("translate({%1+%3*"+slopeShare+"} %2) translate(0 {-%3*ground*"+slopeShare+"}) scale({%4*"+slopeShare+"} {%5*"+slopeShare+"})", x, y, s.at, s.mirror*slopeLeg, slopeLeg)},
				Move{s.name + "-foot", "transform", "rotate({" + s.turn + "needed/deg})"},
				// The ankle is over the sole, so it turns with the foot, and the leg on it does not.
				Move{s.name + "-leg", "transform", filled("translate({%1*("+s.turn+"sine(needed))} {-%1*sine(90*deg-needed)})", ankleUp)},
				Move{s.name + "-square", "transform", "rotate({" + s.turn + "needed/deg})"},
				Move{s.name + "-arc", "d", filled("M0 -%1A%1 %1 0 0 "+s.sweep+" {%1*("+s.turn+"sine(needed))} {-%1*sine(90*deg-needed)}", r)},
			)
		}
		known := `way == "known"`
		return append(out,
			Move{"wedge", "d", filled("M{%1+%3} %2A%3 %3 0 0 0 {%1+%3*sine(90*deg-needed)} {%2-%3*sine(needed)}", x, y, 228)},
			Move{"slope-handle", "transform", filled("translate({%1+%3*sine(90*deg-needed)} {%2-%3*sine(needed)})", x, y, slopeRound)},
			Move{"slope-handle", "display", known})
	}(),
	Handles: []Handle{{Part: "slope-handle", Input: "steepness", About: &slopePoint}},
	Limits:  &slopePoint,
}

func drawSlope(b *bench) {
	x, y := slopePoint.X, slopePoint.Y
	b.part("ground", func() {
		b.b.WriteString(`<path class="g-earth" d="M-2400 ` + num(y) + `H3300V2600H-2400Z"/>`)
	})
	b.line("dash", x, y, x+242, y)
	b.moving("f", "wedge")
	b.b.WriteString(limitsHere)
	for _, name := range []string{"up", "down"} {
		b.part(name, func() {
			b.part(name+"-leg", func() {
				b.in("translate(0 30)", func() { b.limbOver(func(draw func()) { draw() }) })
				b.line("dash", 0, 0, 0, -126)
				b.part(name+"-square", func() { b.line("dash", 0, 0, 0, -126) })
				b.moving("h", name+"-arc")
			})
			b.part(name+"-foot", func() { b.in("translate(-25 -1)", b.laced) })
		})
	}
	// The line of the ground stands on all of it; it turns with the ground, which is one part.
	b.part("ground-line", func() { b.line("g-line g-mine", -2400, y, 3300, y) })
	b.handle("slope-handle", true)
	for i, id := range []string{"up", "down"} {
		at := x + 8 + float64(i)*140
		b.says(bold, id+"-word", pt{at, 215}, right)
		b.says("d-text", id+"-bend", pt{at, 234}, right)
	}
}
