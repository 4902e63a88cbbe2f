// Package drawing makes Keelpath's own line drawings of prosthetic feet as SVG.
//
// Every shape is worked out here, in millimetres of a 26 cm foot, and written
// with class names only: colours and line weights come from the site's style
// sheet (site/style/drawing.css), so a drawing follows light, dark, forced colours and
// paper. Parts differ by filling, weight and label, never by colour alone.
package drawing

import (
	"fmt"
	"html"
	"html/template"
	"slices"
	"strings"
	"sync"
)

// Drawing is one picture. Long says in words what it shows, for a reader who
// cannot see it. Title, Long and the labels are content: a drawing has them once
// Book.Find gave them to it.
type Drawing struct {
	ID, Title, Long string
	Width, Height   int // of the viewBox

	numbers map[string]string   // what its words may name in braces, worked out with the shape
	labels  map[string][]string // the lines of each label
	digits  string              // the ten with which numbers are written; empty for 0 to 9
	make    func(*canvas)

	kept *keptSVG // nil where it is drawn each time
}

// keptSVG is a drawing as markup, made when it is first asked for.
type keptSVG struct {
	title, long string // with which it was made
	svg         func() template.HTML
}

// Kept gives the drawing, which from then on is drawn once, however often its markup
// with its own id is asked for.
func (d Drawing) Kept() Drawing {
	bare := d
	bare.kept = nil
	d.kept = &keptSVG{d.Title, d.Long, sync.OnceValue(func() template.HTML { return bare.SVG("") })}
	return d
}

// all lists every drawing, in the order in which a reader may meet them.
var all = slices.Concat(simple, springs, ankles, addons, shells, heels, slopes, heights, doing, visits, limbs, paying, acts)

// Shapes gives all that has words, without them.
func Shapes() []Drawing {
	out := slices.Concat(all, given)
	for _, d := range lives {
		out = append(out, d.Drawing)
	}
	return out
}

// IDs names every drawing that can be shown by its name.
func IDs() []string { return idsOf(all) }

func idsOf(all []Drawing) []string {
	ids := make([]string, len(all))
	for i, d := range all {
		ids[i] = d.ID
	}
	return ids
}

// byID gives the drawing with that ID, without its words.
func byID(id string) (Drawing, bool) {
	shapes := Shapes()
	i := slices.IndexFunc(shapes, func(d Drawing) bool { return d.ID == id })
	if i < 0 {
		return Drawing{}, false
	}
	return shapes[i], true
}

// drawn is the drawing on a canvas.
func (d Drawing) drawn() *canvas {
	c := &canvas{labels: d.labels, number: d.number}
	d.make(c)
	return c
}

// number writes a whole number.
func (d Drawing) number(n string) string {
	ten := []rune(d.digits)
	if len(ten) != 10 {
		return n
	}
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return ten[r-'0']
		}
		return r
	}, n)
}

// Labels names the labels that the drawing asks for, in its order: it is drawn to
// see, so that no list beside the shapes can go out of step with them.
func (d Drawing) Labels() []string {
	if d.labels != nil {
		return d.drawn().asked
	}
	if known, ok := asked.Load(d.ID); ok {
		return known.([]string)
	}
	labels := d.drawn().asked
	asked.Store(d.ID, labels)
	return labels
}

// asked keeps what Labels gives of shapes without words, by their IDs: words are held against it each time they are read.
var asked sync.Map

// SVG is the drawing as an inline element. Ids inside it begin with idPrefix, so
// that one page can hold many drawings; an empty prefix stands for the drawing's ID.
func (d Drawing) SVG(idPrefix string) template.HTML {
	if idPrefix == "" {
		if k := d.kept; k != nil && k.title == d.Title && k.long == d.Long {
			return k.svg()
		}
		idPrefix = d.ID
	}
	return d.svg(idPrefix, "")
}

// Opening is the drawing at the head of a page: the ground on which it stands goes on to both sides, with earth below it.
func (d Drawing) Opening() template.HTML {
	level := d.drawn().level
	if level == 0 {
		level = float64(d.Height) - 2
	}
	return d.svg(d.ID, fmt.Sprintf(`<path class="d-earth" d="M-2400 %[1]sH2880V%[2]dH-2400Z"/><path class="d-level" d="M-2400 %[1]sH2880"/>`, num(level), d.Height))
}

func (d Drawing) svg(idPrefix, under string) template.HTML {
	p := html.EscapeString(idPrefix)
	c := d.drawn()
	return template.HTML(fmt.Sprintf(`<svg class="drawing" viewBox="0 0 %d %d" role="img" aria-labelledby="%s-title" aria-describedby="%s-desc">`+
		`<title id="%s-title">%s</title><desc id="%s-desc">%s</desc>%s%s%s</svg>`,
		d.Width, d.Height, p, p, p, html.EscapeString(d.Title), p, html.EscapeString(d.Long), under, c.shapes.String(), c.text.String()))
}
