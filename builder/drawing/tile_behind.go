package drawing

// Legs from behind, so that left is left: one leg stands at 0 and is 100 units long to the hip. The sole
// may be moved by an amount, while the leg stays upright.
func (p *pencil) fromBehind(scale float64, of madeOf, sole string) {
	p.at(0, 0, scale, 0, func() {
		shoe := func() {
			p.d("p", "M-9 -5C-10 -13 -8 -20 -6.4 -23H6.4C8 -20 10 -13 9 -5Z")
			p.d("f s", "M0 -22V-6")
			p.d("i", "M-9.4 -5.4H9.4C10 -3 9.8 0 8.8 0H-8.8C-9.8 0 -10 -3 -9.4 -5.4Z")
		}
		switch of {
		case ownLeg:
			p.turning(sole, shoe)
			p.path("t", tubeOf([]pt{{0, -18}, {0, -50}, {0, -96}}, []float64{15, 18, 22}, false, true))
			p.d("f s", "M-4 -58C-1 -55 3 -55 5 -58")
		case belowKnee:
			p.box("p", -2.6, -46, 5.2, 28, 0)
			p.turning(sole, shoe)
			p.path("p h", tubeOf([]pt{{0, -38}, {0, -54}, {0, -70}}, []float64{8, 17, 19}, true, true))
			p.path("t", tubeOf([]pt{{0, -66}, {0, -80}, {0, -96}}, []float64{22, 22, 23}, false, true))
		}
	})
}

func (p *pencil) turning(is string, draw func()) {
	if is == "" {
		draw()
		return
	}
	p.move(is, draw)
}

// A level is where a leg ends, in units of a person of 172 from the ground; made is what an artificial leg has there.
type ending struct {
	name   string
	ends   float64 // of the limb, from the ground
	hip    bool    // nothing is left below the hip
	inFoot bool    // it ends in the foot, which only shows from above
}

var endings = []ending{
	{name: "part-of-the-foot", inFoot: true},
	{name: "through-the-ankle", ends: 9},
	{name: "below-the-knee", ends: 27},
	{name: "through-the-knee", ends: 46},
	{name: "above-the-knee", ends: 61},
	{name: "hip", ends: 82, hip: true},
}

// sides of the body, as one sees them from behind.
var sides = []struct {
	name        string
	left, right bool
}{{"left", true, false}, {"right", false, true}, {"both", true, true}}

// endTiles show where a leg ends, from behind, on the left, the right, or both: what is left of it in
// full line, what is not there as a thought line.
func endTiles() []tileShape {
	var out []tileShape
	for _, e := range endings {
		for _, s := range sides {
			out = append(out, tileShape{name: "ends-" + e.name + "-" + s.name, draw: func(p *pencil) {
				p.flat(func() {
					if e.inFoot {
						p.at(44, 75.4, 1, 0, func() { p.footFromAbove(-1, s.left) })
						p.at(76, 75.4, 1, 0, func() { p.footFromAbove(1, s.right) })
						return
					}
					p.at(60, 75.4, 0.72, 0, func() {
						p.endedLeg(-10, e, s.left)
						p.endedLeg(10, e, s.right)
						p.d("e", "M-19 -79C-20.4 -88 -19 -96 -16 -102C-6 -105 6 -105 16 -102C19 -96 20.4 -88 19 -79C14 -74 4 -73.4 0 -78C-4 -73.4 -14 -74 -19 -79Z")
						p.d("f s", "M0 -102V-79")
					})
				})
			}})
		}
	}
	return out
}

// endedLeg is a leg from behind at x; whole legs have a bare foot.
func (p *pencil) endedLeg(x float64, e ending, ended bool) {
	p.at(x, 0, 1, 0, func() {
		whole := tubeOf([]pt{{0, -80}, {0, -62}, {0, -47}, {0, -36}, {0, -10}}, []float64{19, 17, 13.4, 13.8, 8.4}, true, true)
		foot := written("M-5 -12C-4.4 -8 -7 -5 -7.4 -2.4C-7.6 -0.6 -6 0 0 0C6 0 7.6 -0.6 7.4 -2.4C7 -5 4.4 -8 5 -12")
		if !ended {
			p.path("t", foot)
			p.path("t", whole)
			p.d("f s", "M-3.6 -48C-1 -45.6 2 -45.6 4 -48M-3 -27C-2 -24 -2 -20 -2.4 -16")
			return
		}
		p.path("dash", foot, tubeOf([]pt{{0, -e.ends + 4}, {0, -e.ends/2 - 4}, {0, -8}}, []float64{min(15, 10+e.ends/8), 12, 8.4}, false, false))
		if e.hip {
			return
		}
		w := 11 + (e.ends-9)/9
		end := e.ends + w/2
		p.path("t h", tubeOf([]pt{{0, -84}, {0, -(84 + end) / 2}, {0, -end}}, []float64{18, (19+w)/2 + 0.4, w}, false, true))
	})
}

// footFromAbove is a foot as its owner sees it, toes up; side is 1 for a right one.
func (p *pencil) footFromAbove(side float64, ended bool) {
	p.in("scale("+num(side)+" 1)", func() {
		const whole = "M0 0C-9 0 -11 -8 -10 -16C-9 -26 -12 -34 -13 -44C-14 -54 -11 -62 -6 -64C0 -66 10 -60 12 -50C13 -42 10 -30 10 -18C10 -8 9 0 0 0Z"
		if !ended {
			p.d("t", whole)
			p.d("f", "M-11 -57C-9 -54 -5 -54 -3 -58M-2 -58C0 -55 3 -55 4 -58M5 -56C6 -53 9 -52 10 -54")
			return
		}
		p.d("dash", whole)
		p.d("t h", "M0 0C-9 0 -11 -8 -10 -16C-9 -24 -11 -28 -10.6 -32C-9 -38 8 -37 10.6 -29C10 -26 10 -22 10 -18C10 -8 9 0 0 0Z")
	})
}

// whereItHurts is a person from behind, with a ring round a place and rays on one side of it; the artificial leg is the right one.
func (p *pencil) whereItHurts(x, y, r, side float64) {
	p.flat(func() {
		p.at(60, 75.4, 0.44, 0, func() {
			p.path("e", tubeOf([]pt{{-17, -130}, {-24, -108}, {-25, -84}}, []float64{11, 10, 8}, true, true))
			p.path("e", tubeOf([]pt{{17, -130}, {24, -108}, {25, -84}}, []float64{11, 10, 8}, true, true))
			for _, side := range []float64{-1, 1} {
				of := ownLeg
				if side > 0 {
					of = belowKnee
				}
				p.at(side*9.5, 0, 0.86, 0, func() { p.fromBehind(1, of, "") })
			}
			p.d("e", "M-18 -62C-19 -78 -19 -88 -16 -94H16C19 -88 19 -78 18 -62H2.6L0 -70L-2.6 -62Z")
			p.d("p", "M-17 -84C-18 -104 -20 -118 -20 -130C-18 -137 -8 -138 -5 -140H5C8 -138 18 -137 20 -130C20 -118 18 -104 17 -84C8 -81 -8 -81 -17 -84Z")
			p.d("t", "M-5 -138V-146H5V-138Z")
			p.d("i", "M-10.6 -155C-11.4 -165 -6 -170 0 -170C6 -170 11.4 -165 10.6 -155C10 -148 6 -144 0 -144C-6 -144 -10 -148 -10.6 -155Z")
		})
		p.disc("h", x, y, r)
		p.path("", from(x+side*(r+5), y-r).line(x+side*(r+12), y-r-4), from(x+side*(r+7), y).line(x+side*(r+15), y), from(x+side*(r+5), y+r).line(x+side*(r+12), y+r+4))
	})
}
