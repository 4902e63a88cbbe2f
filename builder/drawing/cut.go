package drawing

import (
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"
)

// A cut is a foot cut open, and nothing else: no words, no arrows, no former places. All cuts have one scale and stand on one
// ground, so that two of them side by side compare. The part that moves has the heaviest line. What it shows is said beside
// it, so it is hidden from who listens.

// Cuts are the drawings of feet and add-ons that have one, in the order in which a reader may meet them.
func Cuts() []string {
	var out []string
	for _, d := range slices.Concat(simple, springs, ankles, addons) {
		if _, ok := CutShape(d.ID); ok {
			out = append(out, d.ID)
		}
	}
	return out
}

// How a cut lies in its viewBox, in millimetres of the foot: room for its pen at each side, and the ground below it.
const (
	cutSide = 4.0
	CutWide = footLength + 2*cutSide
)

// cutting collects what is drawn without words.
type cutting struct {
	shapes strings.Builder
	bare   bool // all of a drawing, in its own place, and not its foot alone
	foot   bool // a foot stands in the drawing, by its frame
	low    pt   // how far it reaches
	high   pt
}

// CutShape gives the cut of a drawing by its id. It is false where the drawing is of no foot that stands on the ground.
func CutShape(id string) (Shape, bool) {
	i := slices.IndexFunc(all, func(d Drawing) bool { return d.ID == id })
	if i < 0 {
		return Shape{}, false
	}
	c := &canvas{cut: newCutting(false)}
	all[i].make(c)
	if !c.cut.foot {
		return Shape{}, false
	}
	tall := int(math.Ceil(-c.cut.low.y)) + 3
	body := fmt.Sprintf(`<g transform="translate(0 %d)">%s</g>`, tall, c.cut.shapes.String())
	return Shape{Wide: int(CutWide), Tall: tall, Body: template.HTML(body)}, true
}

// CutSVG is the cut of a drawing as an inline element that is not read aloud. It is false where it has none.
func CutSVG(id string) (template.HTML, bool) {
	s, ok := CutShape(id)
	return template.HTML(fmt.Sprintf(`<svg class="cut" viewBox="0 0 %d %d" aria-hidden="true" focusable="false" data-cut="%s">%s</svg>`, s.Wide, s.Tall, id, s.Body)), ok
}

// BareSVG is a drawing without its words and as small as its lines are, as an inline element that is not read aloud. It is
// false where there is no drawing of that name.
func BareSVG(id string) (template.HTML, bool) {
	i := slices.IndexFunc(all, func(d Drawing) bool { return d.ID == id })
	if i < 0 {
		return "", false
	}
	c := &canvas{cut: newCutting(true)}
	all[i].make(c)
	const room = 4
	k := c.cut
	box := fmt.Sprintf("%s %s %s %s", num(k.low.x-room), num(k.low.y-room), num(k.high.x-k.low.x+2*room), num(k.high.y-k.low.y+2*room))
	return template.HTML(fmt.Sprintf(`<svg class="cut" viewBox="%s" aria-hidden="true" focusable="false" data-cut="%s">%s</svg>`, box, id, k.shapes.String())), true
}

func newCutting(bare bool) *cutting {
	return &cutting{bare: bare, low: pt{math.Inf(1), math.Inf(1)}, high: pt{math.Inf(-1), math.Inf(-1)}}
}

// uncut are the classes of what a cut leaves out: arrows, former places, axes, the ground.
var uncut = []string{"d-move", "d-head", "d-ghost", "d-axis", "d-lead", "d-sole"}

func (k *cutting) draw(class string, paths []path) {
	if !k.bare && slices.Contains(uncut, class) || class == "d-lead" {
		return
	}
	var d strings.Builder
	for _, p := range paths {
		for _, line := range p.flat(6) {
			for _, at := range line {
				k.low, k.high = pt{min(k.low.x, at.x), min(k.low.y, at.y)}, pt{max(k.high.x, at.x), max(k.high.y, at.y)}
			}
		}
		d.WriteString(p.d())
	}
	fmt.Fprintf(&k.shapes, `<path class="%s" d="%s"/>`, class, d.String())
}

// foot is the frame of the foot that a drawing is of, with the back of its heel and the ground at a point.
func (c *canvas) foot(x, y, scale float64) frame {
	if c.cut == nil || c.cut.bare {
		c.level = y
		return frame{x, y, scale}
	}
	c.cut.foot = true
	return frame{cutSide, 0, 1}
}

// gives draws what gives way or moves in a foot. Only a cut draws it, as the heaviest line.
func (c *canvas) gives(paths ...path) {
	if c.cut != nil {
		c.draw("d-moving", paths...)
	}
}

// inset draws what is seen from elsewhere; a cut leaves it out.
func (c *canvas) inset(draw func()) {
	if c.cut == nil || c.cut.bare {
		draw()
	}
}
