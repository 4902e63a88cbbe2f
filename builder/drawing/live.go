package drawing

import (
	"fmt"
	"html"
	"html/template"
	"strings"
)

// Live is a drawing that answers to settings. It names its moving parts; what
// they do is written down as formulas of the figure's own values, so that the
// build and the reader's page move them in the same way.
type Live struct {
	Drawing
	Moves   []Move
	Handles []Handle
}

// Move sets an attribute of a part. Is is the attribute's text with formulas in
// braces that give plain numbers: "rotate({lean/deg} 187 343)". With the
// attribute "display", Is is a condition, and the part is shown where it holds.
type Move struct{ Part, Attr, Is string }

// Handle is a part that a reader drags. Right and Down say by how many canonical
// units one unit of the drawing changes the input.
type Handle struct {
	Part, Input string
	Right, Down float64
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
func (d Live) Saying(b Book) Live {
	if said, ok := b.Find(d.ID); ok {
		d.Drawing = said
	}
	return d
}

// SVG is the drawing with the attributes of its parts and its texts in place.
func (d Live) SVG(idPrefix string, attrs func(part string) string, words func(id string) string) template.HTML {
	out := string(d.Drawing.SVG(idPrefix))
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

// open begins a part that moves as a whole; texts are not in it.
func (c *canvas) open(part string) { fmt.Fprintf(&c.shapes, "<g data-part=\"%s\">", part) }
func (c *canvas) close()           { c.shapes.WriteString("</g>") }
func (c *canvas) moving(class, part string) {
	fmt.Fprintf(&c.shapes, "<path class=\"%s\" data-part=\"%s\"/>", class, part)
}

// says writes a text of the figure. With a part it moves.
func (c *canvas) says(class, id string, at pt, s side, part string) {
	dy := [...]float64{right: 0.35, left: 0.35, above: 0, below: 0.8}[s]
	if s == left {
		class += " d-end"
	} else if s != right {
		class += " d-mid"
	}
	if part != "" {
		part = fmt.Sprintf(" data-part=\"%s\"", part)
	}
	fmt.Fprintf(&c.text, "<text class=\"%s\" data-says=\"%s\"%s x=\"%s\" y=\"%s\" dy=\"%.2fem\"><!--%s--></text>", class, id, part, num(at.x), num(at.y), dy, id)
}

// handle draws what a reader drags: a wide reach that is not seen, a round grip,
// and which way it goes.
func (c *canvas) handle(part string, at pt, upright bool) {
	c.open(part)
	fmt.Fprintf(&c.shapes, "<circle class=\"d-reach\" cx=\"%s\" cy=\"%s\" r=\"38\"/><circle class=\"d-grip\" cx=\"%s\" cy=\"%s\" r=\"16\"/>", num(at.x), num(at.y), num(at.x), num(at.y))
	way := from(-5, -3).line(0, -9, 5, -3)
	back := from(-5, 3).line(0, 9, 5, 3)
	if !upright {
		way, back = way.turned(pt{}, 90), back.turned(pt{}, 90)
	}
	c.draw("d-way", way.moved(at.x, at.y), back.moved(at.x, at.y))
	c.close()
}

// upTo is the path of a measure that stands at x and goes from the ground up to a
// height of the figure.
func (f frame) upTo(x float64, height string) string {
	p := f.at(x, 0)
	return filled("M%1 %3H%2M%1 {%3-%5*"+height+"/mm}H%2M%4 %3V{%3-%5*"+height+"/mm}", p.x-6, p.x+6, p.y, p.x, f.scale)
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
