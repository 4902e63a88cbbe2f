package drawing

var shells = []Drawing{
	{ID: "shell-with-toes", Width: 480, Height: 376, make: func(c *canvas) { foldedShell(c, true) }},
	{ID: "shell-without-toes", Width: 480, Height: 376, make: func(c *canvas) { foldedShell(c, false) }},
}

// topOutline is a right foot from above without toes, its middle line at y 0, the
// inner side at positive y.
func topOutline() path {
	return from(0, 0).curve(
		0, 22, 12, 33, 32, 34,
		62, 35, 92, 28, 122, 31,
		152, 35, 172, 46, 194, 47,
		226, 48, 258, 42, 260, 20,
		261, 0, 240, -24, 214, -37,
		194, -46, 172, -52, 152, -50,
		112, -46, 72, -36, 32, -33,
		12, -32, 0, -22, 0, 0).shut()
}

// toes, from the inner side out: how far the tip reaches, and its two edges.
var toes = []struct{ tip, high, low float64 }{
	{260, 46, 18},
	{255, 13, -4},
	{246, -4, -18},
	{233, -18, -31},
	{216, -31, -43},
}

// topWithToes has a slot after the big toe and a notch between the others.
func topWithToes() path {
	out := from(0, 0).curve(
		0, 22, 12, 33, 32, 34,
		62, 35, 92, 28, 122, 31,
		152, 35, 168, 48, 194, 49,
		212, 49, 222, 47, 240, 46)
	for i, t := range toes {
		mid := (t.high + t.low) / 2
		if i > 0 {
			out = out.curve(t.tip-7, t.high+0.5, t.tip, t.high-2, t.tip, mid)
		} else {
			out = out.curve(253, 46, t.tip, 42, t.tip, mid)
		}
		switch i {
		case 0:
			out = out.curve(t.tip, t.low+2, 254, t.low, 240, t.low).line(214, t.low).
				curve(208, t.low, 208, 13, 214, 13).line(244, 13)
		case len(toes) - 1:
			out = out.curve(t.tip, t.low, 210, -45, 202, -45)
		default:
			out = out.curve(t.tip, t.low+2, t.tip-6, t.low, toes[i+1].tip-6, t.low)
		}
	}
	return out.curve(186, -47, 172, -52, 152, -50,
		112, -46, 72, -36, 32, -33,
		12, -32, 0, -22, 0, 0).shut()
}

func foldedShell(c *canvas, withToes bool) {
	top, side := frame{26, 100, 1.25}, frame{26, 346, 1.25}
	outline := topOutline()
	if withToes {
		outline = topWithToes()
	}
	c.draw("d-shell d-outer", top.put(outline))
	c.draw("d-hole", top.put(oval(64, 0, 36, 26)))
	c.draw("d-shell d-outer", side.put(shellOutline()))
	c.draw("d-hole", side.put(from(24, 92).curve(34, 99, 92, 99, 103, 92, 92, 86, 34, 86, 24, 92).shut()))
	c.label(pt{120, 184}, below, top.at(76, -8), "opening")
	if !withToes {
		c.label(pt{364, 100}, right, top.at(240, 4), "front")
		c.label(pt{364, 336}, right, side.at(246, 16), "no-folds")
		return
	}
	for i, t := range toes {
		mid, w := (t.high+t.low)/2, (t.high-t.low)*0.26
		c.draw("d-thin", top.put(from(t.tip-12, mid-w).curve(t.tip, mid-w, t.tip, mid+w, t.tip-12, mid+w, t.tip-15, mid+w/2, t.tip-15, mid-w/2, t.tip-12, mid-w).shut()))
		if i > 0 && i < len(toes)-1 {
			c.draw("d-line", top.put(from(toes[i+1].tip-6, t.low).line(toes[i+1].tip-26, t.low+2)))
		}
	}
	// The big toe and its nail, from the inner side.
	c.draw("d-thin", side.put(from(212, 42).curve(206, 34, 205, 20, 212, 8)))
	c.draw("d-thin", side.put(from(240, 37.5).curve(243, 32, 252, 30, 258, 30)))
	c.label(pt{364, 80.6}, right, top.at(228, 15.5), "gap")
	c.label(pt{364, 324}, right, side.at(246, 33), "toes")
}
