package publish

import (
	"bytes"
	"iter"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/net/html"
)

// Paragraph is a heading, a paragraph, a line of a list or a row of a table of a finished page.
type Paragraph struct {
	At      string // the id of the place on the page that is nearest above it; empty before the first
	Heading bool
	Text    string // plain, on one line
	Lead    string // what the text begins with, set apart from it: its bold words, or the first cell of its row
	Beside  bool   // it stands beside what is said: under a picture, at the head of a table, in a listing
	Lands   [2]int // by which words a link finds it: from which one on, and how many; none where too few stand together
}

// unlisted are elements of a page's own part whose text says nothing of their own: scripts, what a script
// shows later, drawings, what is pressed or filled in, ways about, and numbers of sources.
var unlisted = []string{"script", "style", "template", "svg", "nav", "button", "select", "textarea", "sup"}

var headings = []string{"h1", "h2", "h3", "h4", "summary", "dt", "legend"}

// standing are the elements whose text stands by itself.
var standing = slices.Concat(closers, headings, []string{"main", "header", "footer", "article", "aside", "figure", "figcaption", "blockquote", "pre", "details", "table", "caption", "thead", "tbody", "tr", "form"})

// level is an open element. Under a heading with an id its parent is at that.
type level struct {
	element *element
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
	lead  string // of the run; what is set apart first
	first string // the element that it stands in, while that is open
	since int    // where in the run its last piece begins: what stands together, with no number of a source or edge of a cell in it
	apart int    // how many labels are open, whose text some screens hide
	lands [2]int // of the run
	done  bool
}

// landing is how many words of a piece have to stand together for a link to find it by them, and no other place. A browser that is given
// words that do not stand together on a page shows the page's top.
const landing = 4

func (r *paragraphs) next() {
	switch kind := r.z.Next(); kind {
	case html.ErrorToken:
		r.done = true
	case html.TextToken:
		if n := len(r.open); n > 0 && !r.open[n-1].hidden {
			r.run.Write(r.z.Text())
		}
	case html.StartTagToken, html.EndTagToken, html.SelfClosingTagToken:
		name, attributes := r.z.TagName()
		e := known[string(name)]
		if e == nil {
			e = &element{name: string(name)}
		}
		r.cutAt(e)
		r.partAt(e, kind == html.EndTagToken)
		switch {
		case kind == html.StartTagToken && !e.void:
			r.begin(e, attributes)
		case kind == html.EndTagToken:
			r.end(e)
		}
	}
}

// partAt ends a piece where an element begins or ends that parts what stands together.
func (r *paragraphs) partAt(e *element, ends bool) {
	if e.name != "td" && e.name != "th" && e.name != "span" && !e.unlisted {
		return
	}
	r.endPiece()
	switch {
	case e.name != "span":
	case ends:
		r.apart--
	default:
		r.apart++
	}
}

// endPiece keeps the first piece of a run that is long enough. A word that goes on behind it, or began before it, is none of its own.
func (r *paragraphs) endPiece() {
	run := r.run.String()
	before, piece := run[:r.since], run[r.since:]
	r.since = len(run)
	if r.lands != [2]int{} || r.apart > 0 {
		return
	}
	from, n := len(strings.Fields(before)), len(strings.Fields(piece))
	if endsInWord(before) && piece != "" && !unicode.IsSpace(rune(piece[0])) {
		n--
	}
	if endsInWord(piece) {
		n--
	}
	if n >= landing {
		r.lands = [2]int{from, n}
	}
}

func endsInWord(s string) bool { return s != "" && !unicode.IsSpace(rune(s[len(s)-1])) }

// element is what counts of a kind of elements.
type element struct {
	name                                               string
	heading, standing, unlisted, void, leading, beside bool
}

// known are the elements of which anything counts, by name: a page has hundreds of them.
var known = func() map[string]*element {
	out := map[string]*element{}
	note := func(names []string, in func(*element)) {
		for _, n := range names {
			if out[n] == nil {
				out[n] = &element{name: n}
			}
			in(out[n])
		}
	}
	note(headings, func(e *element) { e.heading = true })
	note(standing, func(e *element) { e.standing = true })
	note(unlisted, func(e *element) { e.unlisted = true })
	note(void, func(e *element) { e.void = true })
	note(leading, func(e *element) { e.leading = true })
	note(besides, func(e *element) { e.beside = true })
	return out
}()

func (r *paragraphs) begin(e *element, attributes bool) {
	n := len(r.open)
	if n == 0 {
		if e.name == "main" {
			r.open = append(r.open, level{element: e})
		}
		return
	}
	now := level{e, r.open[n-1].at, r.open[n-1].hidden || e.unlisted}
	for attributes {
		var key, value []byte
		key, value, attributes = r.z.TagAttr()
		switch {
		case string(key) == "hidden":
			now.hidden = true
		case string(key) == "id" && !now.hidden:
			now.at = string(value)
			if e.heading {
				r.open[n-1].at = now.at // for what follows it
			}
		}
	}
	r.open = append(r.open, now)
	if r.lead == "" && r.first == "" && e.leading && onOneLine(r.run.String()) == "" {
		r.first = e.name
	}
}

// leading are the elements that set apart what a paragraph begins with.
var leading = []string{"strong", "b", "th", "td"}

// besides are the elements whose text stands beside what is said.
var besides = []string{"figcaption", "caption", "thead", "pre"}

func onOneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

func (r *paragraphs) end(e *element) {
	if r.first == e.name {
		r.lead, r.first = onOneLine(r.run.String()), ""
	}
	if n := len(r.open); n > 0 && r.open[n-1].element.name == e.name {
		r.open = r.open[:n-1]
		r.done = r.done || n == 1
	}
}

// cutAt ends a paragraph where an element begins or ends that stands by itself. Cells of a row are parted by a blank.
func (r *paragraphs) cutAt(e *element) {
	if e.name == "td" || e.name == "th" {
		r.run.WriteByte(' ')
	}
	if r.run.Len() == 0 || len(r.open) == 0 || !e.standing {
		return
	}
	r.run.WriteByte(' ') // here its last word ends
	r.endPiece()
	text, lead, lands := onOneLine(r.run.String()), r.lead, r.lands
	r.run.Reset()
	r.since, r.lands = 0, [2]int{}
	r.lead, r.first = "", ""
	if text == "" || r.done {
		return
	}
	now := r.open[len(r.open)-1]
	heading := slices.ContainsFunc(r.open, func(l level) bool { return l.element.heading })
	if heading || lead == text {
		lead = "" // it is not set apart from anything
	}
	beside := slices.ContainsFunc(r.open, func(l level) bool { return l.element.beside })
	r.done = !r.yield(Paragraph{now.at, heading, text, lead, beside, lands})
}
