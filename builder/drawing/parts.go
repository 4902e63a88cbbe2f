package drawing

// The foot that all drawings share, seen from the side with its toe at the right: 26 cm
// long, the ball at 0.74 of the length (mean of ball length over foot length in
// the 2012 US Army body measures), the tube a little over a quarter from the heel
// (common practice, no source), a heel that stands 10 mm higher than the ball
// (a usual built-in step; common practice, no source).
const (
	footLength = 260.0
	ball       = 0.74 * footLength
	tubeAt     = 68.0 // middle of the tube, from the back of the heel
	heelStep   = 10.0
)

var ballPoint = pt{ball, 0}

// shellOutline is the outer foot.
func shellOutline() path {
	return from(24, 92).curve(
		27, 78, 5, 62, 1, 36,
		-1, 22, 8, 10, 24, 10, // back of the heel
		42, 10, 50, 10, 62, 10,
		88, 10, 106, 15, 134, 10, // arch
		154, 6, 172, 0, ball, 0,
		214, 0, 236, 2, 249, 8, // toe spring
		259, 12, 262, 19, 259, 26,
		256, 34, 246, 37, 234, 39,
		212, 42, 194, 48, 172, 57, // toes to instep
		144, 68, 112, 74, 103, 92).shut()
}

// shellHollow is the room inside a shell; the rest of it is wall.
func shellHollow() path {
	return from(31, 92).curve(
		33, 78, 13, 62, 9, 38,
		8, 26, 14, 18, 26, 18,
		42, 18, 50, 18, 62, 18,
		88, 18, 106, 22, 134, 17,
		154, 13, 172, 8, ball, 8,
		208, 8, 222, 9, 232, 12,
		240, 15, 241, 23, 234, 27,
		228, 31, 218, 34, 208, 37,
		192, 41, 182, 45, 168, 51,
		140, 62, 104, 72, 95, 92).shut()
}

// toeCrease marks where the toes bend: two short lines over the ball.
func toeCrease() path {
	return append(from(203, 43.5).curve(202, 40, 200, 38, 198, 36), from(209, 42).curve(208, 39, 207, 38, 205, 36)...)
}

// solidFoot draws a foot that is foam all through; hollowFoot one whose shell is
// a cover.
func (c *canvas) solidFoot(f frame) {
	c.draw("d-shell", f.put(shellOutline()))
	c.draw("d-thin", f.put(toeCrease()))
}

func (c *canvas) hollowFoot(f frame) {
	c.draw("d-shell", f.put(shellOutline()))
	c.draw("d-hollow", f.put(shellHollow()))
}

// joint draws what joins a foot to a leg: plate and dome from y up, the clamp
// round them, and the tube as far as top.
func (c *canvas) joint(f frame, y, top float64) {
	c.draw("d-metal", f.put(tube(y+40, top)))
	c.draw("d-metal", f.put(box(tubeAt-20, y, tubeAt+20, y+5)))
	c.draw("d-metal", f.put(from(tubeAt-15, y+5).curve(tubeAt-12, y+9, tubeAt+12, y+9, tubeAt+15, y+5).shut()))
	c.draw("d-metal", f.put(pill(tubeAt-19, y+10, tubeAt+19, y+46, 4)))
	c.draw("d-line", f.put(disc(tubeAt, y+19, 4)), f.put(disc(tubeAt, y+37, 2.6)))
	c.draw("d-thin", f.put(from(tubeAt-19, y+29).line(tubeAt+19, y+29)), f.put(disc(tubeAt, y+19, 1.6)))
}

// tube is a piece of pylon, 30 mm wide, broken off at the top.
func tube(bottom, top float64) path {
	return from(tubeAt-15, bottom).line(tubeAt+15, bottom, tubeAt+15, top).
		curve(tubeAt+9, top+7, tubeAt+4, top+3, tubeAt, top, tubeAt-4, top-3, tubeAt-9, top-7, tubeAt-15, top).shut()
}

// bolt is a screw along a line, with its head at the first point.
func bolt(x0, y0, x1, y1, width float64) path {
	a, b := pt{x0, y0}, pt{x1, y1}
	dir := b.minus(a)
	dir = dir.times(1 / dir.length())
	side := pt{-dir.y, dir.x}
	at := func(along, out float64) pt { return a.plus(dir.times(along)).plus(side.times(out * width)) }
	pts := []pt{at(0, 1), at(3.5, 1), at(3.5, 0.5), b.plus(side.times(0.5 * width)), b.plus(side.times(-0.5 * width)), at(3.5, -0.5), at(3.5, -1), at(0, -1)}
	out := from(pts[0].x, pts[0].y)
	for _, p := range pts[1:] {
		out = out.line(p.x, p.y)
	}
	return out.shut()
}

// coil is a spring seen from its side, upright between two heights.
func coil(x, half, y0, y1 float64, turns int) path {
	out := from(x-half, y0).line(x+half, y0)
	rise := (y1 - y0) / float64(turns)
	for i := range turns {
		y := y0 + rise*float64(i)
		out = out.line(x-half, y+rise*0.6, x+half, y+rise)
	}
	return out.line(x-half, y1)
}

// heelLeaf is the lower spring of a spring foot; it is bolted on at mid-foot.
func heelLeaf() path { return leaf(6, 5, heelSpine...) }

// The middle lines of springs, from the leg on, or from mid-foot to the heel.
var (
	heelSpine  = []pt{{152, 18}, {132, 21}, {104, 25}, {66, 25.5}, {28, 21.5}, {15, 27}}
	lowSpine   = []pt{{38, 46}, {66, 46}, {92, 44}, {114, 37}, {142, 25.5}, {184, 15}, {230, 14}}
	roundSpine = []pt{{100, 86}, {82, 86}, {58, 85}, {38, 77}, {29, 62}, {37, 47}, {60, 39}, {96, 34}, {130, 27}, {166, 18}, {200, 13}, {230, 14}}
	shankSpine = []pt{{78, 118}, {78, 96}, {78, 74}, {83, 54}, {97, 38}, {120, 29.5}, {150, 23}, {180, 16}, {206, 13}, {230, 14}}
)

// springBase draws the springs that stand under a moving ankle.
func (c *canvas) springBase(f frame) {
	c.draw("d-solid", f.put(heelLeaf()))
	c.draw("d-solid", f.put(leaf(9, 5, lowSpine...)))
	c.bolts(f)
}

// bolts hold the heel spring to the keel.
func (c *canvas) bolts(f frame) {
	c.draw("d-metal", f.put(bolt(134, 34, 134, 18, 3)), f.put(bolt(146, 31, 146, 15.5, 3)))
}
