package drawing

// A visit: what to take along, who is there, and the days after it.
var visits = []Drawing{
	{ID: "what-to-bring", Width: 480, Height: 700, make: whatToBring},
	{ID: "people-around-you", Width: 480, Height: 762, make: peopleAround},
	{ID: "first-days", Width: 480, Height: 480, make: firstDays},
}

// boot is a high boot with a heel, from the side; its sole stands at y 0.
func boot() path {
	return from(8, 40).curve(-2, 62, 6, 84, 14, 108).curve(18, 140, 10, 190, 8, 232).line(106, 232).
		curve(106, 190, 104, 150, 112, 122).curve(122, 96, 156, 84, 196, 74).curve(240, 66, 270, 62, 280, 44).curve(284, 36, 284, 28, 280, 22).line(240, 10, 60, 20).shut()
}

func bootSole() path {
	return from(8, 0).line(72, 0).line(76, 24).curve(106, 26, 140, 12, 168, 0).line(236, 0).curve(262, 0, 278, 8, 284, 20).line(284, 28).
		curve(262, 22, 230, 18, 196, 18).curve(156, 22, 126, 44, 88, 44).line(6, 44).shut()
}

// star has five points and stands upright where y goes down.
func star(x, y, r float64) path {
	var out path
	for i := range 10 {
		reach := r
		if i%2 == 1 {
			reach = r * 0.42
		}
		p := pt{x, y - reach}.turned(pt{x, y}, float64(i)*36)
		if i == 0 {
			out = from(p.x, p.y)
		} else {
			out = out.line(p.x, p.y)
		}
	}
	return out.shut()
}

// pair draws one shoe behind another.
func (c *canvas) pair(f frame, shoe func(frame)) {
	shoe(frame{f.x + 34, f.y - 22, f.scale})
	shoe(f)
}

// freeLeg is a leg that nobody wears: foot, tube and empty socket.
func (c *canvas) freeLeg(f frame) {
	c.draw("d-metal", f.put(box(tubeAt-15, 120, tubeAt+15, 244)))
	c.draw("d-shell d-outer", f.put(shellOutline()))
	c.draw("d-thin", f.put(toeCrease()))
	c.draw("d-metal", f.put(pill(tubeAt-20, 92, tubeAt+20, 126, 4)), f.put(pill(tubeAt-20, 232, tubeAt+20, 262, 4)))
	c.fill("d-socket", "d-hatch", 45, 13, f.put(socket()))
}

// limbSock is a sock for a limb: a ribbed top, and a round end at the bottom.
func limbSock(x, y float64) path {
	return from(x-26, y).curve(x-24, y+60, x-20, y+100, x-17, y+112).curve(x-13, y+134, x+13, y+134, x+17, y+112).curve(x+20, y+100, x+24, y+60, x+26, y).shut()
}

func whatToBring(c *canvas) {
	name := func(x, y float64, id string) { c.note(pt{x, y}, below, id) }

	c.pair(frame{36, 142, 0.5}, func(f frame) {
		c.draw("d-hole", f.put(upper(40, 34)))
		c.draw("d-thin", f.put(laces()))
		c.draw("d-shell d-outer", f.put(soleOutside()))
	})
	name(120, 156, "shoes")

	c.pair(frame{278, 142, 0.46}, func(f frame) {
		c.draw("d-hole", f.put(boot()))
		c.draw("d-shell d-outer", f.put(bootSole()))
		c.draw("d-thin", f.put(from(10, 214).line(105, 214)), f.put(from(58, 232).curve(52, 250, 76, 250, 74, 232)))
	})
	name(360, 156, "hardest-pair")

	f := frame{60, 372, 0.33}
	c.freeLeg(f)
	c.draw("d-hole", limbSock(184, 226))
	c.draw("d-thin", from(158.5, 240).line(209.5, 240))
	name(120, 388, "leg")

	c.draw("d-hole", box(300, 226, 404, 370))
	c.draw("d-heavy", from(314, 246).line(372, 246))
	for i := range 4 {
		y := 266 + 26*float64(i)
		c.draw("d-line", box(314, y, 326, y+12))
		c.draw("d-thin", from(336, y+2).line(378, y+2), from(336, y+11).line(366-6*float64(i%2), y+11))
		if i < 3 {
			c.draw("d-solid", star(390, y+6, 7))
		}
	}
	pen(c, 429, 262)
	name(360, 388, "sheet")

	c.sign(frame{84, 610, 0.55}, standing)
	c.companion(frame{160, 610, 0.55})
	name(120, 624, "listener")

	c.glasses(pt{360, 520})
	c.hearingAid(pt{360, 580})
	name(360, 624, "glasses")
}

// companion is a person on two legs of their own who faces left, with a pad in hand.
func (c *canvas) companion(f frame) {
	p := standing
	put := func(q path) path { return f.put(q.each(func(a pt) pt { return pt{-a.x, a.y} })) }
	c.draw("d-limb", put(from(p.hip.x, p.hip.y).line(14, 12).line(38, 5)), put(from(p.hip.x, p.hip.y).line(-6, 12).line(20, 5)))
	c.draw("d-trunk", put(from(p.shoulder.x, p.shoulder.y).line(p.hip.x, p.hip.y)))
	c.draw("d-hole", put(box(36, 178, 66, 218).turned(pt{40, 186}, -24)))
	c.draw("d-limb", put(from(p.shoulder.x, p.shoulder.y-6).line(8, 180, 40, 186)))
	c.draw("d-solid", put(disc(p.head.x, p.head.y, 15)))
}

// glasses from the front, their middle at p.
func (c *canvas) glasses(p pt) {
	for _, way := range []float64{-1, 1} {
		x := p.x + way*40
		c.draw("d-socket", pill(x-29, p.y-20, x+29, p.y+24, 18))
		c.draw("d-heavy", from(x+way*29, p.y-10).curve(x+way*40, p.y-14, x+way*44, p.y-10, x+way*44, p.y))
		c.draw("d-thin", from(x-14, p.y+8).line(x+2, p.y-10), from(x-6, p.y+12).line(x+6, p.y-1))
	}
	c.draw("d-heavy", from(p.x-11, p.y-2).curve(p.x-6, p.y-10, p.x+6, p.y-10, p.x+11, p.y-2))
}

// hearingAid sits behind an ear: a curved body, a thin tube and an ear piece.
func (c *canvas) hearingAid(p pt) {
	c.draw("d-heavy", from(p.x-16, p.y-8).curve(p.x-8, p.y-32, p.x+22, p.y-30, p.x+24, p.y).curve(p.x+24, p.y+8, p.x+20, p.y+12, p.x+14, p.y+14))
	c.draw("d-hole", limb(pt{p.x - 16, p.y - 6}, pt{p.x - 10, p.y + 18}, 15, 11))
	c.draw("d-solid", disc(p.x+12, p.y+15, 6))
}

// Signs of what people do, each inside a circle of ringSize about p.
const ringSize = 46.0

// stethoscope has two ear tips, tubes that meet, and the piece that listens.
func stethoscope(c *canvas, p pt) {
	c.draw("d-heavy", from(p.x-20, p.y-26).curve(p.x-24, p.y-2, p.x-16, p.y+6, p.x-7, p.y+6).curve(p.x+2, p.y+6, p.x+10, p.y-2, p.x+6, p.y-26),
		from(p.x-7, p.y+6).curve(p.x-7, p.y+36, p.x+20, p.y+34, p.x+20, p.y+6))
	c.draw("d-hole", disc(p.x+20, p.y-2, 8))
	c.draw("d-solid", disc(p.x-20, p.y-26, 3), disc(p.x+6, p.y-26, 3))
}

func footSign(c *canvas, p pt) {
	f := frame{p.x - 32, p.y + 26, 0.25}
	c.draw("d-metal", f.put(box(tubeAt-15, 100, tubeAt+15, 216)))
	c.draw("d-shell d-outer", f.put(shellOutline()))
}

// bars are two rails on posts, one behind the other, to walk between.
func bars(c *canvas, p pt) {
	for _, off := range []pt{{7, -12}, {-5, 2}} {
		q := p.plus(off)
		c.draw("d-line", from(q.x-20, q.y-10).line(q.x-20, q.y+24), from(q.x+20, q.y-10).line(q.x+20, q.y+24))
		c.draw("d-heavy", from(q.x-28, q.y-10).line(q.x+28, q.y-10))
	}
	c.arrow(from(p.x-20, p.y+18).line(p.x+14, p.y+18))
}

// bust is head and shoulders; its shoulders end at p.
func bust(c *canvas, class string, p pt, size float64) {
	f := frame{p.x, p.y, size}
	c.draw(class, f.put(from(-24, 0).curve(-24, 20, -14, 26, 0, 26).curve(14, 26, 24, 20, 24, 0).shut()), f.put(disc(0, 42, 13)))
}

func envelope(c *canvas, p pt) {
	c.draw("d-hole", box(p.x-28, p.y-18, p.x+28, p.y+20))
	c.draw("d-line", from(p.x-28, p.y-18).line(p.x, p.y+6, p.x+28, p.y-18))
}

func house(c *canvas, p pt) {
	c.draw("d-hole", from(p.x-22, p.y+26).line(p.x-22, p.y-4, p.x, p.y-26, p.x+22, p.y-4, p.x+22, p.y+26).shut())
	c.draw("d-heavy", from(p.x-30, p.y+2).line(p.x, p.y-28, p.x+30, p.y+2))
	c.draw("d-line", box(p.x-6, p.y+6, p.x+6, p.y+26))
}

// wrench is an open one, from the lower left to the upper right.
func wrench(c *canvas, p pt) {
	out := from(-6, -30).line(-6, 8).curve(-16, 14, -16, 30, -6, 35).line(-6, 22, 6, 22, 6, 35).curve(16, 30, 16, 14, 6, 8).line(6, -30).curve(6, -38, -6, -38, -6, -30).shut()
	f := frame{p.x, p.y, 0.95}
	c.draw("d-hole", f.put(out.turned(pt{}, -45)))
}

// cup with a handle, and steam over it.
func cup(c *canvas, p pt) {
	c.draw("d-line", from(p.x+14, p.y).curve(p.x+34, p.y-4, p.x+32, p.y+20, p.x+12, p.y+16))
	c.draw("d-hole", from(p.x-20, p.y-6).line(p.x+16, p.y-6).curve(p.x+16, p.y+14, p.x+12, p.y+24, p.x+6, p.y+26).line(p.x-10, p.y+26).curve(p.x-16, p.y+24, p.x-20, p.y+14, p.x-20, p.y-6).shut())
	for _, x := range []float64{-10, 4} {
		c.draw("d-thin", from(p.x+x, p.y-14).curve(p.x+x-6, p.y-20, p.x+x+6, p.y-24, p.x+x, p.y-31))
	}
}

func peopleAround(c *canvas) {
	you := pt{240, 334}
	ring := []struct {
		at   pt
		sign func(*canvas, pt)
		id   string
	}{
		{pt{80, 124}, stethoscope, "doctor"},
		{pt{240, 124}, footSign, "prosthetist"},
		{pt{400, 124}, bars, "therapist"},
		{pt{80, 334}, envelope, "plan"},
		{pt{400, 334}, house, "people"},
		{pt{80, 544}, wrench, "technician"},
		{pt{240, 606}, cup, "occupational-therapist"},
		{pt{400, 544}, func(c *canvas, p pt) {
			bust(c, "d-hole", pt{p.x + 10, p.y + 20}, 0.78)
			bust(c, "d-solid", pt{p.x - 10, p.y + 26}, 0.78)
		}, "peer"},
	}
	for _, r := range ring {
		c.draw("d-line", from(you.x, you.y).line(r.at.x, r.at.y))
	}
	for _, r := range ring {
		c.draw("d-hole", disc(r.at.x, r.at.y, ringSize))
		r.sign(c, r.at)
		if r.at.y < you.y {
			c.title(r.at.plus(pt{0, -82}), above, r.id)
			c.note(r.at.plus(pt{0, -56}), above, r.id+"-does")
			continue
		}
		c.title(r.at.plus(pt{0, 56}), below, r.id)
		c.note(r.at.plus(pt{0, 56 + lead*largest*float64(len(c.lines(r.id)))}), below, r.id+"-does")
	}
	c.draw("d-socket", disc(you.x, you.y, 58))
	bust(c, "d-solid", pt{you.x, you.y + 8}, 1)
	c.title(you.plus(pt{0, 14}), below, "you")
}

// pen has its top at x, y and its point 94 below.
func pen(c *canvas, x, y float64) {
	c.draw("d-metal", from(x-5, y).line(x+5, y, x+5, y+78, x, y+94, x-5, y+78).shut())
	c.draw("d-thin", from(x-5, y+78).line(x+5, y+78), from(x-5, y+14).line(x+5, y+14))
	c.draw("d-solid", from(x-1.5, y+89).line(x+1.5, y+89, x, y+94).shut())
}

func firstDays(c *canvas) {
	name := func(x, y float64, id string) {
		c.title(pt{x, y}, below, id)
		c.note(pt{x, y + lead*largest}, below, id+"-how")
	}
	// A short way, there and back.
	c.draw("d-sole", from(16, 176).line(224, 176))
	f := frame{116, 176, 0.5}
	c.sign(f, walking)
	c.double(from(40, 192).line(196, 192))
	name(120, 204, "walk")
	// Sitting, the leg off, a mirror under the end of the limb.
	g := frame{300, 176, 0.55}
	c.draw("d-sole", from(256, 176).line(464, 176))
	c.seated(g)
	c.freeLeg(frame{408, 176, 0.19})
	name(360, 204, "look")
	// Card and pen.
	c.draw("d-hole", box(56, 284, 156, 392))
	for i := range 4 {
		y := 306 + 22*float64(i)
		c.draw("d-thin", from(70, y).line(142-10*float64(i%2), y))
	}
	pen(c, 182, 290)
	name(120, 412, "note")
	// A phone that rings.
	c.draw("d-socket", pill(330, 282, 390, 394, 9))
	c.draw("d-line", box(338, 296, 382, 374))
	c.draw("d-solid", disc(360, 384, 4))
	for _, r := range []float64{16, 28} {
		c.draw("d-line", arc(pt{398, 300}, r, -60, 30), arc(pt{322, 300}, r, 150, 240))
	}
	name(360, 412, "call")
}

// seated is a person on a stool who looks at a limb that ends below the knee, with a
// mirror in hand.
func (c *canvas) seated(f frame) {
	c.draw("d-metal", f.put(box(-34, 58, 34, 66)), f.put(box(-26, 0, -20, 58)), f.put(box(20, 0, 26, 58)))
	c.draw("d-limb", f.put(from(0, 78).line(62, 80, 66, 12, 92, 6)))
	c.draw("d-limb", f.put(from(0, 80).line(64, 94, 92, 88)))
	c.draw("d-trunk", f.put(from(10, 152).line(0, 84)))
	c.draw("d-solid", f.put(disc(24, 184, 15)))
	c.draw("d-limb", f.put(from(12, 148).line(46, 122, 86, 136)))
	c.draw("d-heavy", f.put(from(86, 136).line(106, 120)))
	c.draw("d-hole", f.put(oval(120, 104, 7, 22).turned(pt{120, 104}, 24)))
}
