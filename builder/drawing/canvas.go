package drawing

import (
	"fmt"
	"html"
	"math"
	"slices"
	"strings"
)

// canvas collects the elements of one drawing. Text is kept back to the end, so
// that it stands on top.
type canvas struct {
	shapes, text strings.Builder

	labels map[string][]string // the lines of each label
	number func(string) string // writes a whole number
	asked  []string            // labels that the drawing asked for, each once
	stands []stood             // where its labels stand

	level float64 // where the ground lies on which its foot stands; 0 where no foot does

	cut *cutting // of a foot that is drawn without its words; nil otherwise
}

// draw adds a path. The classes say what the thing is made of; site/style/drawing.css
// says how that looks.
//
//	d-shell   the pale outer foot           d-thin    a fine line
//	d-metal   tubes, plates, bolts          d-line    a plain line
//	d-keel    what carries the step         d-ghost   where a part was or will be
//	d-solid   a carbon spring               d-sole    shoe and ground
func (c *canvas) draw(class string, paths ...path) {
	if c.cut != nil {
		c.cut.draw(class, paths)
		return
	}
	var d strings.Builder
	for _, p := range paths {
		d.WriteString(p.d())
	}
	fmt.Fprintf(&c.shapes, "<path class=\"%s\" d=\"%s\"/>", class, d.String())
}

// pen draws in the pen of the tiles, with its origin at a place of the drawing, so that people and shoes
// are the same ones here and there.
func (c *canvas) pen(at pt, scale float64, draw func(p *pencil)) {
	p := &pencil{}
	p.at(at.x, at.y, scale, 0, func() { draw(p) })
	fmt.Fprintf(&c.shapes, `<g class="d-pen">%s</g>`, p.b.String())
}

// The fillings: a part is told by how it is filled, never by a colour.
func (c *canvas) firm(p path)  { c.fill("d-keel", "d-hatch", 45, 7, p) }
func (c *canvas) soft(p path)  { c.fill("d-rubber", "d-dots", 90, 6.5, p) }
func (c *canvas) bendy(p path) { c.fill("d-keel", "d-hatch", -45, 11, p) }
func (c *canvas) fluid(p path) { c.fill("d-line", "d-fluid", 90, 5, p) }

// fill draws p and fills it with lines: deg is their lean from upright, gap their
// distance.
func (c *canvas) fill(outline, lines string, deg, gap float64, p path) {
	c.draw(outline, p)
	c.draw(lines, hatch(p, deg, gap))
}

// hatch gives the pieces of parallel lines that lie inside p.
func hatch(p path, deg, gap float64) path {
	var out path
	var rings [][]pt
	low, high := math.Inf(1), math.Inf(-1)
	for _, ring := range p.flat(8) {
		for i, a := range ring {
			ring[i] = a.turned(pt{}, deg)
			low, high = min(low, ring[i].x), max(high, ring[i].x)
		}
		rings = append(rings, ring)
	}
	for x := low + gap*0.6; x < high; x += gap {
		var cuts []float64
		for _, ring := range rings {
			for i, a := range ring {
				b := ring[(i+1)%len(ring)]
				if (a.x < x) != (b.x < x) {
					cuts = append(cuts, a.y+(x-a.x)/(b.x-a.x)*(b.y-a.y))
				}
			}
		}
		slices.Sort(cuts)
		for i := 0; i+1 < len(cuts); i += 2 {
			if cuts[i+1]-cuts[i] < 4 {
				continue
			}
			a, b := pt{x, cuts[i] + 1.5}.turned(pt{}, -deg), pt{x, cuts[i+1] - 1.5}.turned(pt{}, -deg)
			out = append(out, from(a.x, a.y).line(b.x, b.y)...)
		}
	}
	return out
}

// arrow draws the open path with a head at its end; double puts one at its start too.
func (c *canvas) arrow(p path)  { c.heads(p, false) }
func (c *canvas) double(p path) { c.heads(p, true) }

func (c *canvas) heads(p path, both bool) {
	line := p.flat(12)[0]
	n := len(line)
	size := min(10, line[0].minus(line[n-1]).length()*0.36)
	head := func(tip, before pt) path {
		back := before.minus(tip)
		back = back.times(size / back.length())
		side := pt{-back.y, back.x}.times(0.45)
		a, b := tip.plus(back).plus(side), tip.plus(back).minus(side)
		return from(tip.x, tip.y).line(a.x, a.y, b.x, b.y).shut()
	}
	heads := head(line[n-1], line[n-2])
	if both {
		heads = append(heads, head(line[0], line[1])...)
	}
	c.draw("d-move", p)
	c.draw("d-head", heads)
}

// measure draws a dimension: a line with a head at both ends, and a short bar
// across each.
func (c *canvas) measure(a, b pt) {
	side := b.minus(a)
	side = pt{-side.y, side.x}.times(8 / side.length())
	bar := func(p pt) path { return from(p.x-side.x, p.y-side.y).line(p.x+side.x, p.y+side.y) }
	c.draw("d-thin", bar(a), bar(b))
	c.double(from(a.x, a.y).line(b.x, b.y))
}

// side says where a text stands, seen from its point, and so from which edge its
// leader leaves.
type side int

const (
	right side = iota // begins at the point
	left              // ends at the point
	above             // stands centred on the point
	below             // hangs centred from the point
)

// lines gives the lines of a label, and keeps that it was asked for.
func (c *canvas) lines(id string) []string {
	if !slices.Contains(c.asked, id) {
		c.asked = append(c.asked, id)
	}
	return c.labels[id]
}

// label writes a label at a point and leads a fine line from there to the part.
func (c *canvas) label(at pt, s side, part pt, id string) {
	if c.cut != nil {
		return
	}
	gap := [...]pt{right: {-5, 0}, left: {5, 0}, above: {0, 6}, below: {0, -5}}[s]
	a := at.plus(gap)
	c.draw("d-lead", from(a.x, a.y).line(part.x, part.y))
	fmt.Fprintf(&c.shapes, "<circle class=\"d-dot\" cx=\"%s\" cy=\"%s\" r=\"3.5\"/>", num(part.x), num(part.y))
	c.note(at, s, id)
}

const bold = "d-text d-bold"

func (c *canvas) note(at pt, s side, id string) {
	if c.cut != nil {
		return
	}
	c.stands = append(c.stands, stood{id, at, s, false})
	c.words("d-text", at, s, c.lines(id)...)
}

func (c *canvas) title(at pt, s side, id string) {
	c.stands = append(c.stands, stood{id, at, s, true})
	c.words(bold, at, s, c.lines(id)...)
}

// lead is the height of a line of text. It is in em, as everything about text is:
// the style sheet enlarges text on narrow screens.
const lead = 1.15

// words writes lines that are no label: what the drawing was given, or numbers.
func (c *canvas) words(class string, at pt, s side, lines ...string) {
	rest := float64(len(lines)-1) * lead
	dy := [...]float64{right: 0.35 - rest/2, left: 0.35 - rest/2, above: -rest, below: 0.8}[s]
	if s == left {
		class += " d-end"
	} else if s != right {
		class += " d-mid"
	}
	if c.level > 0 && at.y > c.level {
		class += " d-low" // in the earth, where a page begins with this
	}
	for i, line := range lines {
		fmt.Fprintf(&c.text, "<text class=\"%s\" x=\"%s\" y=\"%s\" dy=\"%.2fem\">%s</text>",
			class, num(at.x), num(at.y), dy+float64(i)*lead, html.EscapeString(line))
	}
}
