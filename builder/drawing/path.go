package drawing

import (
	"math"
	"strconv"
	"strings"
)

// pt is a point: on the page in the units of the viewBox, y down; or on a foot in
// millimetres, y up. A frame leads from the second to the first.
type pt struct{ x, y float64 }

func (a pt) plus(b pt) pt           { return pt{a.x + b.x, a.y + b.y} }
func (a pt) minus(b pt) pt          { return pt{a.x - b.x, a.y - b.y} }
func (a pt) times(k float64) pt     { return pt{a.x * k, a.y * k} }
func (a pt) length() float64        { return math.Hypot(a.x, a.y) }
func between(a, b pt, k float64) pt { return a.plus(b.minus(a).times(k)) }

// turned is a after a turn of deg degrees about c, counterclockwise where y goes
// up: on a foot whose toe is at the right, a positive turn lifts the toe.
func (a pt) turned(c pt, deg float64) pt {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	v := a.minus(c)
	return pt{c.x + v.x*cos - v.y*sin, c.y + v.x*sin + v.y*cos}
}

// step is one command of a path: M and L use the last point only, C all three.
type step struct {
	verb byte
	p    [3]pt
}

// path is an outline or a line, built from left to right:
//
//	from(0, 0).line(10, 0).curve(14, 0, 14, 6, 10, 6).shut()
type path []step

func from(x, y float64) path { return path{{'M', [3]pt{2: {x, y}}}} }

// line goes straight to each of the points given as x, y pairs.
func (p path) line(xy ...float64) path {
	for i := 0; i < len(xy); i += 2 {
		p = append(p, step{'L', [3]pt{2: {xy[i], xy[i+1]}}})
	}
	return p
}

// curve adds cubic curves, six numbers each: two handles and the end.
func (p path) curve(xy ...float64) path {
	for i := 0; i < len(xy); i += 6 {
		p = append(p, step{'C', [3]pt{{xy[i], xy[i+1]}, {xy[i+2], xy[i+3]}, {xy[i+4], xy[i+5]}}})
	}
	return p
}

func (p path) shut() path { return append(p, step{verb: 'Z'}) }

// box is a rectangle, counterclockwise where y goes up.
func box(x0, y0, x1, y1 float64) path {
	return from(x0, y0).line(x1, y0, x1, y1, x0, y1).shut()
}

// pill is a rectangle with corners of radius r.
func pill(x0, y0, x1, y1, r float64) path {
	k := r * 0.448 // what is left of the handle of a quarter circle
	return from(x0+r, y0).line(x1-r, y0).curve(x1-k, y0, x1, y0+k, x1, y0+r).
		line(x1, y1-r).curve(x1, y1-k, x1-k, y1, x1-r, y1).
		line(x0+r, y1).curve(x0+k, y1, x0, y1-k, x0, y1-r).
		line(x0, y0+r).curve(x0, y0+k, x0+k, y0, x0+r, y0).shut()
}

// disc is a circle, as a path so that it can be hatched and turned.
func disc(x, y, r float64) path { return oval(x, y, r, r) }

func oval(x, y, a, b float64) path {
	const k = 0.5523
	return from(x+a, y).curve(
		x+a, y+k*b, x+k*a, y+b, x, y+b,
		x-k*a, y+b, x-a, y+k*b, x-a, y,
		x-a, y-k*b, x-k*a, y-b, x, y-b,
		x+k*a, y-b, x+a, y-k*b, x+a, y).shut()
}

// arc goes round c from one angle to another, in degrees, counterclockwise where
// y goes up.
func arc(c pt, r, a, b float64) path {
	n := math.Ceil(math.Abs(b-a) / 45)
	d := (b - a) / n
	k := 4.0 / 3 * math.Tan(d*math.Pi/720) * r
	at := func(deg float64) (p, along pt) {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		return pt{c.x + r*cos, c.y + r*sin}, pt{-sin * k, cos * k}
	}
	p0, t0 := at(a)
	out := from(p0.x, p0.y)
	for i := 1.0; i <= n; i++ {
		p1, t1 := at(a + i*d)
		h0, h1 := p0.plus(t0), p1.minus(t1)
		out = out.curve(h0.x, h0.y, h1.x, h1.y, p1.x, p1.y)
		p0, t0 = p1, t1
	}
	return out
}

// smooth is a curve through every point, without corners.
func smooth(pts ...pt) path {
	out := from(pts[0].x, pts[0].y)
	near := func(i int) pt { return pts[min(max(i, 0), len(pts)-1)] }
	for i := range len(pts) - 1 {
		a := near(i).plus(near(i + 1).minus(near(i - 1)).times(1.0 / 6))
		b := near(i + 1).minus(near(i + 2).minus(near(i)).times(1.0 / 6))
		out = out.curve(a.x, a.y, b.x, b.y, pts[i+1].x, pts[i+1].y)
	}
	return out
}

// leaf is a flat spring seen from its edge: a band along the points, as thick as
// thick at its root and thin at its tip.
func leaf(thick, thin float64, spine ...pt) path {
	line := smooth(spine...).flat(2)[0]
	var up, down []pt
	for i, p := range line {
		dir := line[min(i+1, len(line)-1)].minus(line[max(i-1, 0)])
		half := (thick + (thin-thick)*float64(i)/float64(len(line)-1)) / 2
		off := pt{-dir.y, dir.x}.times(half / dir.length())
		up = append(up, p.plus(off))
		down = append([]pt{p.minus(off)}, down...)
	}
	out := smooth(up...)
	for _, s := range smooth(down...) {
		if s.verb == 'M' {
			s.verb = 'L'
		}
		out = append(out, s)
	}
	return out.shut()
}

// each is the path with every point moved by f.
func (p path) each(f func(pt) pt) path {
	out := make(path, len(p))
	for i, s := range p {
		for j := range s.p {
			s.p[j] = f(s.p[j])
		}
		out[i] = s
	}
	return out
}

func (p path) turned(c pt, deg float64) path {
	return p.each(func(a pt) pt { return a.turned(c, deg) })
}

func (p path) moved(x, y float64) path {
	return p.each(func(a pt) pt { return pt{a.x + x, a.y + y} })
}

// flat gives the pieces of the path as points, each curve cut into n.
func (p path) flat(n int) [][]pt {
	var out [][]pt
	var at pt
	for _, s := range p {
		switch s.verb {
		case 'M':
			out = append(out, []pt{s.p[2]})
		case 'L':
			out[len(out)-1] = append(out[len(out)-1], s.p[2])
		case 'C':
			for i := 1; i <= n; i++ {
				k := float64(i) / float64(n)
				a, b, c := between(at, s.p[0], k), between(s.p[0], s.p[1], k), between(s.p[1], s.p[2], k)
				out[len(out)-1] = append(out[len(out)-1], between(between(a, b, k), between(b, c, k), k))
			}
		case 'Z':
			continue
		}
		at = s.p[2]
	}
	return out
}

// d is the path as SVG writes it.
func (p path) d() string {
	var b strings.Builder
	for _, s := range p {
		b.WriteByte(s.verb)
		switch s.verb {
		case 'C':
			b.WriteString(pair(s.p[0]) + " " + pair(s.p[1]) + " " + pair(s.p[2]))
		case 'M', 'L':
			b.WriteString(pair(s.p[2]))
		}
	}
	return b.String()
}

func pair(p pt) string { return num(p.x) + " " + num(p.y) }

// num writes at most one decimal, the same everywhere.
func num(v float64) string { return rounded(v, 10) }

// rounded writes v to the nearest 1/parts, with no more decimals than that takes.
func rounded(v, parts float64) string {
	v = math.Round(v*parts) / parts
	if v == 0 {
		v = 0 // never -0
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// frame places a foot on the page: where the back of its heel meets the level of
// its sole, and how many units a millimetre takes.
type frame struct{ x, y, scale float64 }

func (f frame) at(x, y float64) pt { return pt{f.x + x*f.scale, f.y - y*f.scale} }
func (f frame) put(p path) path    { return p.each(func(a pt) pt { return f.at(a.x, a.y) }) }
func (f frame) to(p pt) pt         { return f.at(p.x, p.y) }
