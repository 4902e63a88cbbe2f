package drawing

import (
	"fmt"
	"html"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// pencil draws a tile. It writes shapes in their own coordinates inside groups that place
// them, so that a shape stands in a file as the same text wherever it is used. Here y goes down, as on the page.
//
// The classes, which site/style/ground.css makes visible:
//
//	p, t, e, i  filled with paper, light earth, deep earth, ink
//	f, h        a fine and a heavy line; all else has the one plain weight
//	s           a soft line; n no line; dash a line that is only thought
type pencil struct{ b strings.Builder }

// d adds a path that is written as SVG writes it.
func (p *pencil) d(class, d string) { p.path(class, written(d)) }

func (p *pencil) path(class string, paths ...path) {
	fmt.Fprintf(&p.b, "<path class=\"%s\" d=\"%s\"/>", class, slices.Concat(paths...).short())
}

// short is the path in few letters: each place counted from the one before it, to a tenth.
func (p path) short() string {
	var b strings.Builder
	var at, began pt
	last := byte(0)
	write := func(verb byte, nums ...float64) {
		if verb != last || verb == 'z' {
			b.WriteByte(verb)
		}
		for i, v := range nums {
			text := num(v)
			if math.Abs(v) < 1 && text != "0" {
				text = strings.Replace(text, "0.", ".", 1)
			}
			if text[0] != '-' && !(i == 0 && verb != last) {
				b.WriteByte(' ')
			}
			b.WriteString(text)
		}
		last = verb
	}
	tenth := func(a pt) pt { return pt{math.Round(a.x*10) / 10, math.Round(a.y*10) / 10} }
	for _, s := range p {
		to := tenth(s.p[2])
		rel := to.minus(at)
		switch s.verb {
		case 'M':
			write('M', to.x, to.y)
			began = to
		case 'L':
			switch {
			case num(rel.y) == "0":
				write('h', rel.x)
			case num(rel.x) == "0":
				write('v', rel.y)
			default:
				write('l', rel.x, rel.y)
			}
		case 'C':
			a, c := tenth(s.p[0]).minus(at), tenth(s.p[1]).minus(at)
			write('c', a.x, a.y, c.x, c.y, rel.x, rel.y)
		case 'Z':
			write('z')
			to = began
		}
		at = to
	}
	return b.String()
}

// line joins points given as x, y pairs.
func (p *pencil) line(class string, x, y float64, xy ...float64) {
	p.path(class, from(x, y).line(xy...))
}

func (p *pencil) disc(class string, x, y, r float64) {
	fmt.Fprintf(&p.b, "<circle class=\"%s\" cx=\"%s\" cy=\"%s\" r=\"%s\"/>", class, num(x), num(y), num(r))
}

// box has its upper left corner at x, y.
func (p *pencil) box(class string, x, y, wide, tall, round float64) {
	fmt.Fprintf(&p.b, "<rect class=\"%s\" x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\"", class, num(x), num(y), num(wide), num(tall))
	if round > 0 {
		fmt.Fprintf(&p.b, " rx=\"%s\"", num(round))
	}
	p.b.WriteString("/>")
}

// in draws inside a group with this transform.
func (p *pencil) in(transform string, draw func()) {
	fmt.Fprintf(&p.b, "<g transform=\"%s\">", transform)
	draw()
	p.b.WriteString("</g>")
}

// at draws with the origin at x, y, scaled and turned clockwise by deg.
func (p *pencil) at(x, y, scale, deg float64, draw func()) {
	t := fmt.Sprintf("translate(%s %s)", num(x), num(y))
	if deg != 0 {
		t += fmt.Sprintf(" rotate(%s)", num(deg))
	}
	if scale != 1 {
		t += fmt.Sprintf(" scale(%s)", rounded(scale, 1000))
	}
	p.in(t, draw)
}

// text writes a figure of the reader's own, such as "8°".
func (p *pencil) text(class string, x, y float64, text string) {
	fmt.Fprintf(&p.b, "<text class=\"%s\" x=\"%s\" y=\"%s\">%s</text>", class, num(x), num(y), html.EscapeString(text))
}

// A tube is a limb: a middle line through points, as wide at each as widths say, in a
// smooth outline with round or cut ends.
func tubeOf(pts []pt, widths []float64, roundStart, roundEnd bool) path {
	const steps = 2 // between two points
	var left, right []pt
	var ends [2]struct {
		at, along pt
		half      float64
	}
	for i := range len(pts) - 1 {
		for k := 0; k < steps || k == steps && i == len(pts)-2; k++ {
			at, along, half := tubeAtStep(pts, widths, i, float64(k)/steps)
			out := pt{-along.y, along.x}.times(half)
			left = append(left, at.plus(out))
			right = append(right, at.minus(out))
			e := 1
			if len(left) == 1 {
				e = 0
			}
			ends[e].at, ends[e].along, ends[e].half = at, along, half
		}
	}
	slices.Reverse(right)
	out := smooth(left...)
	out = capped(out, right[0], ends[1].along.times(ends[1].half), roundEnd)
	out = append(out, smooth(right...)[1:]...)
	return capped(out, left[0], ends[0].along.times(-ends[0].half), roundStart).shut()
}

// capped closes an end of a tube: bow points out of it and is half as long as it is wide.
func capped(out path, to, bow pt, round bool) path {
	a := out[len(out)-1].p[2]
	if !round {
		return out.line(to.x, to.y)
	}
	h0, h1 := a.plus(bow.times(4.0/3)), to.plus(bow.times(4.0/3))
	return out.curve(h0.x, h0.y, h1.x, h1.y, to.x, to.y)
}

// tubeAtStep is where the middle line of a tube is between its point i and the next, which way it goes there, and half its width.
func tubeAtStep(pts []pt, widths []float64, i int, t float64) (at, along pt, half float64) {
	n := len(pts) - 1
	near := func(k int) int { return min(max(k, 0), n) }
	a, b, c, d := pts[near(i-1)], pts[i], pts[near(i+1)], pts[near(i+2)]
	at = pt{spline(t, a.x, b.x, c.x, d.x), spline(t, a.y, b.y, c.y, d.y)}
	along = pt{slant(t, a.x, b.x, c.x, d.x), slant(t, a.y, b.y, c.y, d.y)}
	if l := along.length(); l > 0 {
		along = along.times(1 / l)
	}
	return at, along, spline(t, widths[near(i-1)], widths[i], widths[near(i+1)], widths[near(i+2)]) / 2
}

// spline is the Catmull-Rom curve between b and c, and slant how steep it is.
func spline(t, a, b, c, d float64) float64 {
	return (2*b + (c-a)*t + (2*a-5*b+4*c-d)*t*t + (3*b-a-3*c+d)*t*t*t) / 2
}

func slant(t, a, b, c, d float64) float64 {
	return ((c - a) + 2*(2*a-5*b+4*c-d)*t + 3*(3*b-a-3*c+d)*t*t) / 2
}

var pathPart = regexp.MustCompile(`[MLCHVZlchvz]|-?(?:\d+\.?\d*|\.\d+)`)

// written reads a path as this room writes them: M, L, C, H, V and Z in either case, with numbers for places on the page.
func written(d string) path {
	var out path
	var verb byte
	var at, began pt
	parts := pathPart.FindAllString(d, -1)
	next := func(from float64) float64 {
		v, _ := strconv.ParseFloat(parts[0], 64)
		parts = parts[1:]
		if verb >= 'a' {
			v += from
		}
		return v
	}
	for len(parts) > 0 {
		if strings.Contains("MLCHVZlchvz", parts[0]) {
			verb, parts = parts[0][0], parts[1:]
		}
		s, to := step{verb: verb &^ 32}, at
		switch s.verb {
		case 'H':
			s.verb, to.x = 'L', next(at.x)
		case 'V':
			s.verb, to.y = 'L', next(at.y)
		case 'C':
			for i := range 2 {
				s.p[i] = pt{next(at.x), next(at.y)}
			}
			to = pt{next(at.x), next(at.y)}
		case 'M', 'L':
			to = pt{next(at.x), next(at.y)}
		case 'Z':
			to = began
		}
		s.p[2], at = to, to
		out = append(out, s)
		if verb == 'M' {
			verb, began = 'L', to
		}
	}
	return out
}

func degrees(rad float64) float64 { return rad * 180 / math.Pi }
