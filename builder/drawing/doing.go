package drawing

import "math"

// What to do, step by step.
var doing = []Drawing{
	{ID: "stairs-step-by-step", Width: 480, Height: 656, make: stairsStepByStep},
	{ID: "foot-weekly-look", Width: 480, Height: 320, make: weeklyLook},
	{ID: "shoe-on-with-a-horn", Width: 480, Height: 604, make: shoeOnWithHorn},
	{ID: "five-tries", Width: 480, Height: 406, make: fiveTries},
}

// Steps of 180 by 288 mm in the units of the walkers. The edge of one stands at x 44.
const (
	stepRise = 30.0
	stepRun  = 48.0
)

// Own leg first on the way up, artificial leg first on the way down: often taught for
// one step at a time (common practice, no source).
var (
	climbing = pose{
		hip: pt{40, 146}, shoulder: pt{54, 226}, head: pt{63, 261},
		own: stance{pt{58, stepRise}, 0}, other: stance{pt{4, 0}, 0},
		far: []pt{{72, 186}, {96, 212}}, near: []pt{{42, 186}, {54, 152}},
	}
	descending = pose{
		hip: pt{28, 148}, shoulder: pt{33, 228}, head: pt{40, 263},
		own: stance{pt{12, stepRise}, 0}, other: stance{pt{58, 0}, 0},
		far: []pt{{62, 200}, {86, 154}}, near: []pt{{18, 190}, {34, 154}},
	}
)

// stairCase is a flight of steps seen from its edge: a floor from first on, as high as
// y, as far as x; then so many treads, each a rise higher, the last one short.
func stairCase(first, x, y, rise float64, treads int) path {
	out := from(first, y).line(x, y)
	for i := range treads {
		y, x = y+rise, x+stepRun
		out = out.line(x-stepRun, y)
		if i == treads-1 {
			x -= 6
		}
		out = out.line(x, y)
	}
	return out
}

// rail goes parallel to the steps, at the height of a hip, on posts.
func (c *canvas) rail(f frame, a, b pt, foot func(x float64) float64) {
	for _, k := range []float64{0.08, 0.92} {
		p := between(a, b, k)
		c.draw("d-line", f.put(from(p.x, p.y).line(p.x, foot(p.x))))
	}
	c.draw("d-metal", f.put(limb(a, b, 8, 8)))
}

func stairsStepByStep(c *canvas) {
	f := frame{176, 296, 1}
	c.rail(f, pt{-20, 140}, pt{136, 237.5}, func(x float64) float64 {
		if x < 44 {
			return 0
		}
		return 2 * stepRise
	})
	c.draw("d-sole", f.put(stairCase(-70, 44, 0, stepRise, 2)))
	c.person(f, climbing)
	c.title(pt{14, 30}, right, "going-up")
	c.arrow(from(336, 66).line(384, 36))
	c.label(pt{330, 104}, right, f.at(120, 227.5), "hold-rail")
	c.label(pt{330, 178}, right, f.at(86, 96), "own-leg-first")
	c.label(pt{130, 206}, left, f.at(18, 62), "artificial-leg-next")
	g := frame{176, 604, 1}
	c.rail(g, pt{-24, 222.5}, pt{136, 122.5}, func(x float64) float64 {
		if x < 44 {
			return stepRise
		}
		return -stepRise
	})
	c.draw("d-sole", g.put(stairCase(-70, 44, stepRise, -stepRise, 2)))
	c.person(g, descending)
	c.title(pt{14, 358}, right, "going-down")
	c.arrow(from(336, 376).line(384, 406))
	c.label(pt{330, 456}, right, g.at(124, 130), "hold-rail")
	c.label(pt{330, 532}, right, g.at(52, 62), "artificial-leg-first")
	c.label(pt{126, 512}, left, g.at(28, 62), "own-leg-next")
	c.title(pt{118, 598}, below, "ask-first")
}

func weeklyLook(c *canvas) {
	f := frame{100, 250, 1.2}
	c.hollowFoot(f)
	c.draw("d-solid", f.put(heelLeaf()), f.put(leaf(9, 5, roundSpine...)))
	c.bolts(f)
	c.joint(f, 91, 190)
	// Grit lies where the shell is wide and nothing moves.
	var grit path
	for i, p := range []pt{{176, 23}, {184, 21.5}, {193, 19.5}, {202, 18.5}, {212, 18}, {188, 27}, {198, 25}} {
		size := 2.6 + float64(i%3)
		stone := from(p.x-size, p.y).line(p.x-size*0.2, p.y-size*0.7, p.x+size, p.y-size*0.2, p.x+size*0.4, p.y+size*0.9, p.x-size*0.6, p.y+size*0.7).shut()
		grit = append(grit, stone.turned(p, float64(i)*40)...)
	}
	c.draw("d-metal", f.put(grit))
	c.label(pt{92, 104}, left, f.at(26, 90), "top-edge")
	c.label(pt{374, 158}, above, f.at(194, 31), "grit-inside")
	c.label(pt{246, 64}, right, f.at(tubeAt+4, 110), "bolts")
	c.label(pt{92, 286}, below, f.at(4, 24), "heel")
	c.label(pt{230, 286}, below, f.at(110, 15), "sole")
	c.label(pt{384, 286}, below, f.at(250, 16), "toe")
}

// looseUpper is the top of a shoe whose laces are open: the tongue stands forward.
func looseUpper() path {
	return from(4, soleHeel).curve(-1, 56, 2, 78, 7, 94).curve(12, 100, 20, 99, 24, 95).
		curve(44, 82, 70, 82, 96, 84, 136, 86, 176, 78, 214, 68).curve(240, 68, 258, 68, 272, 58, 283, 50, 286, 42, 285, 34)
}

func tongue() path {
	return from(196, 70).curve(206, 96, 210, 116, 214, 140).curve(217, 149, 228, 148, 228, 139).curve(226, 112, 224, 92, 222, 69)
}

func looseLaces() path {
	out := from(196, 74).curve(188, 50, 172, 66, 166, 46, 160, 30, 146, 34, 150, 48)
	out = append(out, from(160, 80).curve(150, 56, 134, 70, 128, 52, 122, 36, 108, 40, 110, 54)...)
	for _, p := range []pt{{116, 78}, {138, 76}, {160, 73}, {182, 69}} {
		out = append(out, disc(p.x, p.y, 2.5)...)
	}
	return out
}

func shoeOnWithHorn(c *canvas) {
	panel := func(y float64) frame {
		f := frame{38, y, 0.8}
		c.draw("d-sole", f.put(from(-20, 0).line(306, 0)))
		return f
	}
	shoe := func(f frame, top path) {
		c.draw("d-line", f.put(top))
		c.draw("d-hole", f.put(sole()))
	}
	foot := func(f frame, set func(pt) pt) {
		put := func(p path) path { return f.put(p.moved(inShoe, soleBall).each(set)) }
		c.draw("d-metal", put(tube(130, 190)))
		c.draw("d-metal", put(pill(tubeAt-19, 92, tubeAt+19, 134, 4)))
		c.draw("d-shell d-outer", put(shellOutline()))
		c.draw("d-thin", put(toeCrease()))
	}
	horn := func(f frame, spine ...pt) {
		c.draw("d-solid", f.put(leaf(7, 5, spine...)))
	}
	f := panel(136)
	c.draw("d-hole", f.put(tongue()))
	shoe(f, looseUpper())
	c.draw("d-thin", f.put(looseLaces()))
	c.title(pt{300, 84}, right, "loosen-laces")

	g := panel(376)
	c.draw("d-hole", g.put(tongue()))
	foot(g, func(p pt) pt { return p.turned(pt{250, 30}, -18) })
	horn(g, pt{24, 50}, pt{22, 90}, pt{20, 128}, pt{10, 166}, pt{-10, 204})
	shoe(g, looseUpper())
	c.title(pt{300, 262}, right, "toe-in")
	c.label(pt{38, 172}, above, g.at(-2, 192), "horn")

	h := panel(588)
	foot(h, func(p pt) pt { return p })
	horn(h, pt{7, 58}, pt{6, 90}, pt{2, 128}, pt{-8, 166}, pt{-26, 204})
	shoe(h, upper(soleHeel, 34))
	c.arrow(h.put(from(140, 196).line(140, 136)))
	c.title(pt{300, 488}, right, "push-heel")
}

var (
	standing = pose{
		hip: pt{6, 151}, shoulder: pt{7, 228}, head: pt{11, 262},
		own: stance{pt{14, 0}, 0}, other: stance{pt{-6, 0}, 0},
	}
	walking = pose{
		hip: pt{0, 145}, shoulder: pt{3, 222}, head: pt{9, 257},
		own: stance{pt{-42, 14}, -28}, other: stance{pt{40, 2}, 14},
		far: []pt{{28, 190}, {44, 160}}, near: []pt{{-22, 188}, {-30, 154}},
	}
	upRamp = pose{
		hip: pt{4, 158}, shoulder: pt{13, 234}, head: pt{22, 268},
		own: stance{pt{-38, onRamp(-38) + 13}, rampRise - 28}, other: stance{pt{34, onRamp(34)}, rampRise},
		far: []pt{{34, 196}, {58, 184}},
	}
)

// A slope as steep as can be told from level at that size.
const rampRise = 9.0

func onRamp(x float64) float64 { return (x + 110) * math.Tan(rampRise*math.Pi/180) }

func fiveTries(c *canvas) {
	panel := func(x, y float64, id string) frame {
		c.title(pt{x, y + 16}, below, id)
		return frame{x, y, 0.5}
	}
	floor := func(f frame) { c.draw("d-sole", f.put(from(-110, 0).line(110, 0))) }
	f := panel(80, 160, "stand")
	floor(f)
	c.sign(f, standing)
	f = panel(240, 160, "walk")
	floor(f)
	c.sign(f, walking)
	f = panel(400, 160, "ramp")
	c.draw("d-sole", f.put(from(-110, 0).line(110, 0, 110, onRamp(110)).shut()))
	c.draw("d-heavy", f.put(from(-60, onRamp(-60)+148).line(100, onRamp(100)+148)), f.put(from(96, onRamp(96)).line(96, onRamp(96)+148)))
	c.sign(f, upRamp)
	f = panel(150, 362, "turn")
	c.sign(f, standing)
	c.arrow(f.put(from(-48, 18).curve(-92, 2, -50, -18, 6, -18).curve(64, -18, 100, 2, 54, 18)))
	f = panel(330, 362, "stairs")
	f.x -= 22
	c.draw("d-sole", f.put(stairCase(-66, 44, 0, stepRise, 2)))
	c.draw("d-heavy", f.put(from(-30, 134).line(136, 237.5)), f.put(from(128, 60).line(128, 232.5)))
	p := climbing
	p.near = nil
	c.sign(f, p)
}
