package drawing

// Levels, grades and plans.
var paying = []Drawing{
	{ID: "what-gets-a-grade", Width: 480, Height: 300, make: whatGetsGrade},
	{ID: "level-in-the-chart", Width: 480, Height: 520, make: levelInChart},
	{ID: "round-after-a-no", Width: 480, Height: 470, make: roundAfterNo},
}

// tag hangs on a string from p.
func (c *canvas) tag(p pt) {
	c.draw("d-thin", from(p.x, p.y).line(p.x+20, p.y+20))
	c.draw("d-hole", from(p.x+16, p.y+24).line(p.x+26, p.y+14, p.x+60, p.y+14, p.x+60, p.y+42, p.x+26, p.y+42).shut())
	c.draw("d-solid", disc(p.x+26, p.y+26, 2.5))
	c.draw("d-heavy", from(p.x+36, p.y+28).line(p.x+52, p.y+28))
}

func (c *canvas) bareFoot(f frame) {
	c.draw("d-metal", f.put(box(tubeAt-15, 88, tubeAt+15, 190)))
	c.draw("d-shell d-outer", f.put(shellOutline()))
	c.draw("d-thin", f.put(toeCrease()))
}

func whatGetsGrade(c *canvas) {
	for i, id := range []string{"person", "foot", "neither"} {
		x := 160 * float64(i)
		c.draw("d-sole", from(x+10, 200).line(x+150, 200))
		c.note(pt{x + 80, 222}, below, id)
	}
	c.sign(frame{58, 200, 0.6}, standing)
	c.tag(pt{68, 72})
	c.bareFoot(frame{186, 200, 0.4})
	c.tag(pt{222, 130})
	c.sign(frame{356, 200, 0.6}, standing)
	c.bareFoot(frame{396, 200, 0.27})
}

// chart is a page of notes on a board with a clip.
func chart(c *canvas, p pt) {
	c.draw("d-socket", pill(p.x-36, p.y-44, p.x+36, p.y+50, 5))
	c.draw("d-metal", pill(p.x-14, p.y-51, p.x+14, p.y-37, 3))
	for i := range 4 {
		y := p.y - 16 + 16*float64(i)
		c.draw("d-thin", from(p.x-24, y).line(p.x+24-10*float64(i%2), y))
	}
}

func levelInChart(c *canvas) {
	middle := pt{240, 232}
	ring := func(p pt, sign func(*canvas, pt)) {
		c.draw("d-hole", disc(p.x, p.y, ringSize))
		sign(c, p)
	}
	c.title(pt{100, 28}, above, "doctor")
	c.title(pt{380, 28}, above, "prosthetist")
	ring(pt{100, 86}, stethoscope)
	ring(pt{380, 86}, footSign)
	c.arrow(from(142, 116).line(194, 184))
	c.arrow(from(338, 116).line(286, 184))
	c.note(pt{240, 84}, above, "set-it")
	c.note(pt{240, 92}, below, "together")
	chart(c, middle)
	c.title(pt{194, 246}, left, "level")
	bust(c, "d-solid", pt{400, 250}, 1)
	c.title(pt{400, 258}, below, "you-can-ask")
	c.arrow(from(364, 226).line(288, 226))
	c.arrow(from(204, 296).line(142, 366))
	ring(pt{106, 408}, envelope)
	c.title(pt{106, 464}, below, "plan")
	c.note(pt{106, 464 + lead*largest}, below, "may-pay")
	c.draw("d-ghost", from(276, 296).line(330, 364))
	c.draw("d-heavy", from(292, 320).line(316, 342), from(316, 320).line(292, 342))
	ring(pt{360, 408}, footSign)
	c.note(pt{360, 464}, below, "picks-none")
}

func tickOrCross(c *canvas, p pt) {
	c.draw("d-heavy", from(p.x-30, p.y).line(p.x-21, p.y+11, p.x-5, p.y-13), from(p.x+9, p.y-12).line(p.x+29, p.y+10), from(p.x+29, p.y-12).line(p.x+9, p.y+10))
}

// notesPage is a page with lines, and refused one with a cross on it.
func notesPage(c *canvas, p pt) {
	c.draw("d-hole", box(p.x-21, p.y-29, p.x+21, p.y+29))
	for i := range 4 {
		y := p.y - 16 + 11*float64(i)
		c.draw("d-thin", from(p.x-13, y).line(p.x+13-6*float64(i%2), y))
	}
}

func refused(c *canvas, p pt) {
	c.draw("d-hole", box(p.x-21, p.y-29, p.x+21, p.y+29))
	c.draw("d-thin", from(p.x-13, p.y-18).line(p.x+13, p.y-18))
	c.draw("d-heavy", from(p.x-11, p.y-6).line(p.x+11, p.y+16), from(p.x+11, p.y-6).line(p.x-11, p.y+16))
}

func lens(c *canvas, p pt) {
	c.draw("d-heavy", from(p.x+8, p.y+9).line(p.x+26, p.y+28))
	c.draw("d-socket", disc(p.x-6, p.y-6, 20))
	c.draw("d-thin", from(p.x-16, p.y-4).curve(p.x-16, p.y-13, p.x-10, p.y-17, p.x-4, p.y-17))
}

func roundAfterNo(c *canvas) {
	const top, low, far = 120.0, 330.0, ringSize + 7
	for _, s := range []struct {
		at   pt
		sign func(*canvas, pt)
		id   string
	}{
		{pt{80, top}, notesPage, "notes"},
		{pt{240, top}, envelope, "clinic"},
		{pt{400, top}, tickOrCross, "plan"},
		{pt{400, low}, footSign, "a-yes"},
		{pt{240, low}, refused, "a-no"},
		{pt{80, low}, lens, "new-look"},
	} {
		c.draw("d-hole", disc(s.at.x, s.at.y, ringSize))
		s.sign(c, s.at)
		if s.at.y == top {
			c.title(s.at.plus(pt{0, -82}), above, s.id)
			c.note(s.at.plus(pt{0, -56}), above, s.id+"-does")
		} else {
			c.title(s.at.plus(pt{0, 56}), below, s.id)
			c.note(s.at.plus(pt{0, 56 + lead*largest}), below, s.id+"-does")
		}
	}
	c.arrow(from(80+far, top).line(240-far, top))
	c.arrow(from(240+far, top).line(400-far, top))
	c.arrow(from(400, top+far).line(400, low-far))
	c.arrow(from(367, top+42).line(275, low-44))
	c.arrow(from(240-far, low).line(80+far, low))
	c.arrow(from(80, low-far).line(80, top+far))
}
