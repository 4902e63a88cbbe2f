package drawing

import (
	"fmt"
	"html"
	"html/template"
	"strings"

	"keelpath/builder/say"
)

// Share is a share of people as a picture: one small figure a person, those who
// are counted filled and the others in outline. Nothing in it says whether to be
// counted is good or bad.
type Share struct {
	Count, Of int
	Says      string // the share in words, the name of the picture
}

// A picture is made of a hundred people, or of all there were if they are few. More
// than that cannot be told by eye, and other numbers cannot be compared by eye.
const (
	ShareOf  = 100
	ShareFew = 50
)

// Sizes of the picture, in its own units, and one person in relative ones: the
// row's gap is wider than a neck, so that heads are not taken for the feet above.
const (
	personWide = 16
	personTall = 22
	personGap  = 4  // of the height, above the next row
	personRow  = 10 // how many stand in a row

	head = "a3 3 0 1 0 6 0a3 3 0 1 0-6 0z" // from its left edge
	body = "v-4a5 5 0 0 1 10 0v4z"         // from its lower left corner
)

// Long says in words what the picture shows.
func (s Share) Long(w *say.Words) string {
	gaps := []any{"says", strings.TrimSuffix(s.Says, "."), "of", s.Of, "filled", s.Count, "rest", s.Of - s.Count}
	if s.rows() < 2 {
		return w.Say("share.row", gaps...)
	}
	gaps = append(gaps, "rows", s.rows(), "row", personRow)
	if s.Of%personRow == 0 {
		return w.Say("share.rows", gaps...)
	}
	return w.Say("share.rows-at-most", gaps...)
}

func (s Share) rows() int { return (s.Of + personRow - 1) / personRow }

// SVG is the picture as an inline element; ids inside it begin with idPrefix. The
// counted come first, in the order in which one reads.
func (s Share) SVG(w *say.Words, idPrefix string) template.HTML {
	p := html.EscapeString(idPrefix)
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="drawing people" viewBox="0 0 %d %d" role="img" aria-labelledby="%s-title" aria-describedby="%s-desc">`+
		`<title id="%s-title">%s</title><desc id="%s-desc">%s</desc>`,
		personRow*personWide, s.rows()*personTall-personGap, p, p, p, html.EscapeString(s.Says), p, html.EscapeString(s.Long(w)))
	people := func(class string, from, to int) {
		if from == to {
			return
		}
		fmt.Fprintf(&b, `<path class="%s" d="`, class)
		for i := from; i < to; i++ {
			x, y := i%personRow*personWide, i/personRow*personTall
			fmt.Fprintf(&b, "M%d %d%sM%d %d%s", x+5, y+4, head, x+3, y+17, body)
		}
		b.WriteString(`"/>`)
	}
	people("p-counted", 0, s.Count)
	people("p-other", s.Count, s.Of)
	b.WriteString("</svg>")
	return template.HTML(b.String())
}
