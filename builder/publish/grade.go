package publish

import (
	"bytes"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/net/html"

	"keelpath/builder/prose"
	"keelpath/builder/say"
)

// gradeOf gives the reading grades of a running text, with one decimal; empty
// where there are no sentences. One formula alone can mislead, so both stand.
func gradeOf(w *say.Words, c prose.Counts) string {
	if c.Sentences == 0 {
		return ""
	}
	grade := w.Say("layout.grade-below-one")
	if g := c.Grade(); g >= 1 {
		grade = oneDecimal(w, g)
	}
	return w.Say("layout.grades", "flesch-kincaid", grade, "smog", oneDecimal(w, c.SMOG()))
}

func oneDecimal(w *say.Words, x float64) string { return w.Decimal(strconv.FormatFloat(x, 'f', 1, 64)) }

// unread are elements whose text nobody reads as sentences: headings, labels,
// tables, listings, drawings, ways about, marks and lists of sources. A class
// counts with a dot before it. Sentences that the program repeats on a page ("If so, go
// to 4.", "Ask your prosthetist.") are left out as well: there are many, they
// are short, and with them every page would look easier than what it says.
var unread = []string{
	"h1", "h2", "h3", "h4", "dt", "label", "legend", "button", "summary", "nav", "table", "pre", "figure", "svg", "sup", "script", "template", "cite",
	".sources", ".bibliography", ".unseen", ".from", ".rests", ".by-hand", ".label", ".kind", ".name", ".to", ".support", ".each", "details.words",
}

// inline are unread elements inside a sentence; all others break the text.
var inline = []string{"sup", "span", "cite", "script", "button", "a", "b", "label"}

// closers are elements that end a passage.
var closers = []string{"p", "li", "dt", "dd", "h1", "h2", "h3", "h4", "ul", "ol", "dl", "div", "section", "fieldset", "legend", "label", "br"}

// void elements have no end.
var void = []string{"br", "hr", "img", "input", "link", "meta"}

// passages gives the running text of a page whose words stand in its template, one
// passage a block, and an empty one where a heading, a table or the like breaks it.
// Explainers and trees have theirs from the library, as the checker has.
func passages(page []byte) []string {
	var out []string
	var run strings.Builder
	cut := func() {
		if s := strings.Join(strings.Fields(run.String()), " "); s != "" {
			out = append(out, s)
		}
		run.Reset()
	}
	brk := func() {
		cut()
		if n := len(out); n > 0 && out[n-1] != "" {
			out = append(out, "")
		}
	}
	inside := 0 // open elements from the outermost unread one on
	for z := html.NewTokenizer(bytes.NewReader(page)); ; {
		switch z.Next() {
		case html.ErrorToken:
			cut()
			return out
		case html.TextToken:
			if inside == 0 {
				run.Write(z.Text())
			}
		case html.StartTagToken, html.SelfClosingTagToken:
			t := z.Token()
			if slices.Contains(closers, t.Data) {
				cut()
			}
			skip := skipped(t)
			if t.Data == "section" || skip && !slices.Contains(inline, t.Data) {
				brk()
			}
			if !slices.Contains(void, t.Data) && t.Type != html.SelfClosingTagToken && (inside > 0 || skip) {
				inside++
			}
		case html.EndTagToken:
			t := z.Token()
			if slices.Contains(closers, t.Data) {
				cut()
			}
			inside = max(0, inside-1)
			if t.Data == "section" {
				brk()
			}
		}
	}
}

func skipped(t html.Token) bool {
	if slices.Contains(unread, t.Data) {
		return true
	}
	for _, a := range t.Attr {
		if a.Key != "class" {
			continue
		}
		for _, c := range strings.Fields(a.Val) {
			if slices.Contains(unread, "."+c) || slices.Contains(unread, t.Data+"."+c) {
				return true
			}
		}
	}
	return false
}
