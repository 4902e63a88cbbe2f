package publish

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"golang.org/x/net/html"

	"keelpath/builder/prose"
)

// gradeOf gives the reading grade of a rendered page, with one decimal; empty
// where there are no sentences.
func gradeOf(page []byte) string {
	c := prose.Of(passages(page))
	if c.Sentences == 0 {
		return ""
	}
	if g := c.Grade(); g >= 1 {
		return fmt.Sprintf("%.1f", g)
	}
	return "below 1"
}

// unread are elements whose text nobody reads as sentences: ways about, tables,
// listings, marks and lists of sources. A class counts as an element's name
// with a dot before it.
var unread = []string{"nav", "table", "pre", "sup", "script", "template", "summary", "cite", ".sources", ".bibliography", ".unseen", ".from"}

// closers are elements that end a passage.
var closers = []string{"p", "li", "dt", "dd", "h1", "h2", "h3", "ul", "ol", "dl", "div", "section", "fieldset", "legend", "label"}

// void elements have no end.
var void = []string{"br", "hr", "img", "input", "link", "meta"}

// passages gives the page's text, one passage a block.
func passages(page []byte) []string {
	var out []string
	var run strings.Builder
	cut := func() {
		if s := strings.Join(strings.Fields(run.String()), " "); s != "" {
			out = append(out, s)
		}
		run.Reset()
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
		case html.StartTagToken:
			t := z.Token()
			if slices.Contains(closers, t.Data) {
				cut()
			}
			if t.Data == "br" {
				run.WriteByte(' ')
			}
			if !slices.Contains(void, t.Data) && (inside > 0 || skipped(t)) {
				inside++
			}
		case html.EndTagToken:
			t := z.Token()
			if slices.Contains(closers, t.Data) {
				cut()
			}
			inside = max(0, inside-1)
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
			if slices.Contains(unread, "."+c) {
				return true
			}
		}
	}
	return false
}
