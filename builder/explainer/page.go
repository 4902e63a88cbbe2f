// Package explainer reads and renders markdown: whole explainer pages with
// their YAML header, and the short texts inside trees and cards. Raw HTML and
// images are refused, links go by id, and nothing it writes needs an inline
// style or script.
package explainer

import (
	"bytes"
	"fmt"
	"maps"
	"path"
	"slices"
	"sort"
	"strings"
	"unicode/utf8"

	"keelpath/builder/finding"
	"keelpath/builder/helpline"
	"keelpath/builder/read"
)

// Parse reads one explainer file; lines are the numbers that its texts may name by id. The page that comes back may lack parts; it
// is nil only where there is no header to read. Its text is read later, by Body.Read; where there is no page, it
// has been read for what is wrong in it.
func Parse(file string, src []byte, lines helpline.Lines, list *finding.List) *Page {
	m, doc := parts(file, src, nil, lines, list, read.Choice{})
	if m == nil {
		return nil
	}
	p := &Page{
		File:     file,
		ID:       strings.TrimSuffix(path.Base(file), ".md"),
		Title:    m.NeedText("title"),
		Audience: m.OneOf("audience", "patient", "resident"),
		Message:  m.NeedText("message"),
		Credits:  m.Credits(),
		Prompts:  m.IDs("prompts"),
		Body:     doc,
	}
	p.Of = read.Fingerprint(p.Title.S, p.Message.S, string(doc.src))
	m.Done()
	if !read.IsID(p.ID) {
		list.Add(finding.Place{File: file}, "bad-id", "the file's name is not an id", "name it in lower-case words joined by hyphens, like heel-height.md")
	}
	return p
}

// parts gives a page's header, not yet asked for anything, and its text, which has a form
// where it is that of one of the site's own pages; nil where there is no header to read.
func parts(file string, src []byte, form *Form, lines helpline.Lines, list *finding.List, want read.Choice) (*read.Map, *Doc) {
	if !read.Sound(file, src, list) {
		return nil, nil
	}
	src = plainLines(src)
	header, body, above, ok := split(src)
	if !ok {
		text := `the page does not begin with a header between two lines "---"`
		if bytes.HasPrefix(src, []byte("---")) {
			text = `the header that begins here has no line "---" behind it`
		}
		list.Add(finding.Place{File: file, Line: 1}, "no-header", text,
			`write "---", then "title: ..." and the other keys, then "---", then the text`)
		return nil, nil
	}
	doc := (&Doc{src: body, at: placing(file, body, above), form: form, lines: lines}).unread()
	if form != nil {
		doc.Read(list)
	}
	if len(bytes.TrimSpace(body)) == 0 {
		list.Add(finding.Place{File: file, Line: above}, "empty-text", "the page has a header and no text", "write the text below the second ---")
	}
	m := want.YAML(file, header, 1, list)
	if m == nil && form == nil {
		doc.Read(list) // nobody will
	}
	return m, doc
}

// ParseNotes is ParseText for a text that may have headings and whose characters
// have places of their own: at gives that of a byte.
func ParseNotes(t read.Text, at func(offset int) finding.Place, lines helpline.Lines, list *finding.List) *Doc {
	return newDoc([]byte(t.S), at, lines, list)
}

// split cuts a page into its header and its body; above counts the lines before the body.
func split(src []byte) (header, body []byte, above int, ok bool) {
	rest, ok := bytes.CutPrefix(src, []byte("---\n"))
	if !ok {
		return nil, nil, 0, false
	}
	if after, none := bytes.CutPrefix(rest, []byte("---\n")); none {
		return nil, after, 2, true
	}
	header, body, ok = bytes.Cut(rest, []byte("\n---\n"))
	if !ok {
		if header, ok = bytes.CutSuffix(rest, []byte("\n---")); !ok {
			return nil, nil, 0, false
		}
		body = nil
	}
	return append(header, '\n'), body, 3 + bytes.Count(header, []byte("\n")), true
}

// placing gives the place of an offset into src. Where the lines begin is looked up once,
// when it is first asked for.
func placing(file string, src []byte, above int) func(offset int) finding.Place {
	var begins []int32 // of the second line and those behind it
	looked := false
	return func(offset int) finding.Place {
		if !looked {
			looked = true
			begins = make([]int32, 0, bytes.Count(src, []byte("\n")))
			for i, c := range src {
				if c == '\n' {
					begins = append(begins, int32(i+1))
				}
			}
		}
		offset = min(offset, len(src))
		n := sort.Search(len(begins), func(i int) bool { return int(begins[i]) > offset })
		from := 0
		if n > 0 {
			from = int(begins[n-1])
		}
		return finding.Place{File: file, Line: above + n + 1, Col: utf8.RuneCount(src[from:max(from, offset)]) + 1}
	}
}

// ParseText reads a markdown text that stands inside a YAML value. Findings
// carry the place of the value. Such a text is short and has no headings.
func ParseText(t read.Text, lines helpline.Lines, list *finding.List) *Doc {
	var found finding.List
	d := newDoc([]byte(t.S), func(int) finding.Place { return t.At }, lines, &found)
	if len(d.Headings) > 0 {
		list.Add(t.At, "heading-level", fmt.Sprintf("the heading %q stands in a short text", d.Headings[0].Text), "leave headings to explainers")
	}
	for _, f := range found.Sorted() {
		if f.Check != "heading-level" {
			list.Append(f)
		}
	}
	return d
}

// InWords gives a page in another language: its title, its message and its text from a file of that language, all
// else from the page itself. The file's header says of which text these are the words.
func InWords(p *Page, file string, src []byte, lines helpline.Lines, list *finding.List) *Page {
	m, doc := parts(file, src, nil, lines, list, read.Choice{})
	if m == nil {
		return p
	}
	of := m.NeedText("of")
	out := *p
	out.File, out.Title, out.Message, out.Body = file, m.NeedText("title"), m.NeedText("message"), doc
	out.Credits.Authors = append(slices.Clone(p.Credits.Authors), m.Texts("translators")...)
	out.Credits.Funding = m.NeedText("funding")
	out.Sum = joined(p.Sum, src)
	m.Done()
	p.fits(of, doc, file, list)
	return &out
}

// fits holds words of another language against the text for which they were made.
func (p *Page) fits(of read.Text, now *Doc, file string, list *finding.List) {
	if of.Given() && of.S != p.Of {
		list.Add(of.At, "stale-words", fmt.Sprintf("the words of this page were made for another text than %s has now", p.File), "make them fit it, and write of: "+p.Of)
	}
	sameParts(p, now, finding.Place{File: file, Line: 1}, list)
}

// sameParts holds what a text cites, warns of and shows in another language against the first.
func sameParts(p *Page, now *Doc, at finding.Place, list *finding.List) {
	count := func(d *Doc) map[string]int {
		n := map[string]int{"headings": len(d.Headings), "cautions": len(d.Cautions)}
		for _, r := range d.Refs {
			switch r.Kind {
			case "source", "support", "call":
				n[fmt.Sprintf("places that name the %s %q", r.Kind, r.ID)]++
			}
		}
		for _, f := range d.Figures {
			n[fmt.Sprintf("places that show the figure %q", f.Figure)]++
		}
		return n
	}
	was, is := count(p.Body.Again()), count(now.Again())
	for _, what := range slices.Sorted(maps.Keys(merged(was, is))) {
		if was[what] != is[what] {
			list.Add(at, "words-differ", fmt.Sprintf("the page has %d %s, and in its own language %d", is[what], what, was[what]), "its text is at "+p.File, "another language says the same, with the same sources and the same cautions")
		}
	}
}

func merged(a, b map[string]int) map[string]int {
	out := maps.Clone(a)
	maps.Copy(out, b)
	return out
}
