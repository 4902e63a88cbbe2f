package publish

import (
	"bytes"
	"iter"
	"slices"
	"strings"

	"golang.org/x/net/html"
)

// Paragraph is a heading, a paragraph, a line of a list or a row of a table of a finished page.
type Paragraph struct {
	At      string // the id of the place on the page that is nearest above it; empty before the first
	Heading bool
	Text    string // plain, on one line
}

// unlisted are elements of a page's own part whose text says nothing of their own: scripts, what a script
// shows later, drawings, what is pressed or filled in, ways about, and numbers of sources.
var unlisted = []string{"script", "style", "template", "svg", "nav", "button", "select", "textarea", "sup"}

var headings = []string{"h1", "h2", "h3", "h4", "summary", "dt", "legend"}

// standing are the elements whose text stands by itself.
var standing = slices.Concat(closers, headings, []string{"main", "header", "footer", "article", "aside", "figure", "figcaption", "blockquote", "pre", "details", "table", "caption", "thead", "tbody", "tr", "form"})

// level is an open element. Under a heading with an id its parent is at that.
type level struct {
	element string
	at      string
	hidden  bool
}

// Paragraphs gives what stands in a page's own part, the layout around it left out. It is what readers see with
// no script, whatever the page is made of, so that what is found in a page is on it.
func Paragraphs(page []byte) iter.Seq[Paragraph] {
	return func(yield func(Paragraph) bool) {
		r := paragraphs{z: html.NewTokenizer(bytes.NewReader(page)), yield: yield}
		for !r.done {
			r.next()
		}
	}
}

type paragraphs struct {
	z     *html.Tokenizer
	yield func(Paragraph) bool
	open  []level // from the page's own part on
	run   strings.Builder
	done  bool
}

func (r *paragraphs) next() {
	switch r.z.Next() {
	case html.ErrorToken:
		r.done = true
	case html.TextToken:
		if n := len(r.open); n > 0 && !r.open[n-1].hidden {
			r.run.Write(r.z.Text())
		}
	case html.StartTagToken:
		r.begin(r.z.Token())
	case html.SelfClosingTagToken:
		r.cutAt(r.z.Token().Data)
	case html.EndTagToken:
		r.end(r.z.Token().Data)
	}
}

func (r *paragraphs) begin(t html.Token) {
	r.cutAt(t.Data)
	if slices.Contains(void, t.Data) {
		return
	}
	n := len(r.open)
	if n == 0 {
		if t.Data == "main" {
			r.open = append(r.open, level{element: "main"})
		}
		return
	}
	now := level{t.Data, r.open[n-1].at, r.open[n-1].hidden || slices.Contains(unlisted, t.Data)}
	for _, a := range t.Attr {
		switch {
		case a.Key == "hidden":
			now.hidden = true
		case a.Key == "id" && !now.hidden:
			now.at = a.Val
			if slices.Contains(headings, t.Data) {
				r.open[n-1].at = a.Val // for what follows it
			}
		}
	}
	r.open = append(r.open, now)
}

func (r *paragraphs) end(element string) {
	r.cutAt(element)
	if n := len(r.open); n > 0 && r.open[n-1].element == element {
		r.open = r.open[:n-1]
		r.done = r.done || n == 1
	}
}

// cutAt ends a paragraph where an element begins or ends that stands by itself. Cells of a row are parted by a blank.
func (r *paragraphs) cutAt(element string) {
	if element == "td" || element == "th" {
		r.run.WriteByte(' ')
	}
	if len(r.open) == 0 || !slices.Contains(standing, element) {
		return
	}
	text := strings.Join(strings.Fields(r.run.String()), " ")
	r.run.Reset()
	if text == "" || r.done {
		return
	}
	now := r.open[len(r.open)-1]
	heading := slices.ContainsFunc(r.open, func(l level) bool { return slices.Contains(headings, l.element) })
	r.done = !r.yield(Paragraph{now.at, heading, text})
}
