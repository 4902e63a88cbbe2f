package drawing

import (
	"fmt"
	"html"
	"html/template"
	"math"
	"strings"
)

// Live is a drawing that answers to settings. It names its moving parts; what
// they do is written down as formulas of the figure's own values, so that the
// build and the reader's page move them in the same way.
//
// It is drawn with the pen of the tiles. Its middle, Narrow wide, holds all that a phone has
// room for; what stands beside that is seen where there is more room, and the ground goes on
// from edge to edge whatever the width is.
type Live struct {
	Drawing
	Moves   []Move
	Handles []Handle

	// Limits is the point through which the figure's published limits are drawn, each as a
	// line of its own slope; nil where this drawing shows none.
	Limits *Point
}

// Narrow is how many units of a live drawing, at its middle, are seen on the narrowest screen.
const Narrow = 320

// Point is a place in a drawing, in units of its viewBox.
type Point struct{ X, Y float64 }

// Limit is one published limit as a line: how far it rises over a run of 1, and its words.
type Limit struct {
	Rise  float64
	Words string
}

// Move sets an attribute of a part. Is is the attribute's text with formulas in
// braces that give plain numbers: "rotate({lean/deg} 187 343)". With the
// attribute "display", Is is a condition, and the part is shown where it holds.
type Move struct{ Part, Attr, Is string }

// Handle is a part that a reader drags. Right and Down say by how many canonical
// units one unit of the drawing changes the input. With About, the input is how far the
// line from that point to the handle rises over a run of 1.
type Handle struct {
	Part, Input string
	Right, Down float64
	About       *Point
}

var lives = []Live{heelChange, slopeStand, footInShoe, loadStack, roomUnder}

// FindLive gives the live drawing with that ID; Saying gives it its words.
func FindLive(id string) (Live, bool) {
	for _, d := range lives {
		if d.ID == id {
			return d, true
		}
	}
	return Live{}, false
}

// Saying is the drawing with its words in b; without any where b has none.
func (d Live) Saying(b Book, digits string) Live {
	if said, ok := b.Find(d.ID, digits); ok {
		d.Drawing = said
	}
	return d
}

// SVG is the drawing with the attributes of its parts, its texts and its limits in place.
func (d Live) SVG(idPrefix string, attrs func(part string) string, words func(id string) string, limits []Limit) template.HTML {
	c := d.drawn()
	p := html.EscapeString(idPrefix)
	out := fmt.Sprintf(`<svg class="ground bench" viewBox="0 0 %d %d" preserveAspectRatio="xMidYMax slice" role="img" aria-labelledby="%s-title" aria-describedby="%s-desc">`+
		`<title id="%s-title">%s</title><desc id="%s-desc">%s</desc>%s%s</svg>`,
		d.Width, d.Height, p, p, p, html.EscapeString(d.Title), p, html.EscapeString(d.Long), c.shapes.String(), c.text.String())
	out = strings.Replace(out, limitsHere, d.fan(limits), 1)
	for _, part := range d.Parts() {
		mark := fmt.Sprintf(`data-part="%s"`, part)
		out = strings.Replace(out, mark, mark+attrs(part), 1)
	}
	for {
		from := strings.Index(out, "><!--")
		if from < 0 {
			return template.HTML(out)
		}
		to := strings.Index(out[from:], "-->") + from
		out = out[:from+1] + html.EscapeString(words(out[from+5:to])) + out[to+3:]
	}
}

// Parts names the parts that move, each once.
func (d Live) Parts() []string {
	var out []string
	seen := map[string]bool{}
	for _, m := range d.Moves {
		if !seen[m.Part] {
			seen[m.Part] = true
			out = append(out, m.Part)
		}
	}
	return out
}

// limitsHere stands in a drawing where the lines of its limits come.
const limitsHere = `<g class="limits"></g>`

// Where the lines of limits begin, and where their words end: how far from the point.
const (
	limitFrom = 284.0
	limitEnds = 582.0
)

// fan draws limits as lines through one point, each at its true angle. The words end
// together, far from the point, where the lines are farthest apart.
func (d Live) fan(limits []Limit) string {
	if d.Limits == nil {
		return ""
	}
	var b strings.Builder
	b.WriteString(`<g class="limits">`)
	for _, l := range limits {
		fmt.Fprintf(&b, `<g transform="translate(%s %s) rotate(%s)"><path class="s" d="M%s 0H2400"/>`,
			num(d.Limits.X), num(d.Limits.Y), fine(-degrees(math.Atan(l.Rise))), num(limitFrom))
		fmt.Fprintf(&b, `<text class="d-end d-wide" x="%s" y="-4">%s</text></g>`, num(limitEnds), html.EscapeString(l.Words))
	}
	b.WriteString("</g>")
	return b.String()
}

// bench draws a live drawing: shapes with the pen of the tiles, and words above all of them.
type bench struct {
	pencil
	c *canvas
}

// benched makes a drawing of what draw puts on a bench.
func benched(draw func(*bench)) func(*canvas) {
	return func(c *canvas) {
		b := &bench{c: c}
		draw(b)
		c.shapes.WriteString(b.b.String())
	}
}

// part draws inside a part that moves as a whole.
func (p *pencil) part(name string, draw func()) {
	fmt.Fprintf(&p.b, "<g data-part=\"%s\">", name)
	draw()
	p.b.WriteString("</g>")
}

// moving is a path that is a part; the move of its "d" is its whole shape.
func (p *pencil) moving(class, part string) {
	fmt.Fprintf(&p.b, "<path class=\"%s\" data-part=\"%s\"/>", class, part)
}

// handle draws what a reader drags, with its middle at the origin: a wide reach that is not
// seen, a round grip, and which way it goes.
func (p *pencil) handle(part string, upright bool) {
	p.part(part, func() {
		p.b.WriteString(`<circle class="d-reach" r="30"/><circle class="d-grip" r="17"/>`)
		way, back := from(-5, -4).line(0, -9.5, 5, -4), from(-5, 4).line(0, 9.5, 5, 4)
		if !upright {
			way, back = way.turned(pt{}, 90), back.turned(pt{}, 90)
		}
		p.path("d-way", way, back)
	})
}

// together is a part of words that move as one.
func (b *bench) together(part string, words func()) {
	fmt.Fprintf(&b.c.text, "<g data-part=\"%s\">", part)
	words()
	b.c.text.WriteString("</g>")
}

// says writes a text of the figure.
func (b *bench) says(class, id string, at pt, s side) {
	dy := [...]float64{right: 0.35, left: 0.35, above: 0, below: 0.8}[s]
	if s == left {
		class += " d-end"
	} else if s != right {
		class += " d-mid"
	}
	fmt.Fprintf(&b.c.text, "<text class=\"%s\" data-says=\"%s\" x=\"%s\" y=\"%s\" dy=\"%.2fem\"><!--%s--></text>", class, id, num(at.x), num(at.y), dy, id)
}

// exact writes a factor or a coordinate in a move: to four decimals, for a factor
// is taken times a length.
func exact(v float64) string { return rounded(v, 1e4) }

// filled puts numbers into the marks %1, %2 ... of a move.
func filled(text string, numbers ...float64) string {
	for i := len(numbers); i > 0; i-- {
		text = strings.ReplaceAll(text, fmt.Sprintf("%%%d", i), exact(numbers[i-1]))
	}
	return text
}
