// Package explainer reads and renders markdown: whole explainer pages with
// their YAML header, and the short texts inside trees and cards. Raw HTML and
// images are refused, links go by id, and nothing it writes needs an inline
// style or script.
package explainer

import (
	"bytes"
	"path"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// Parse reads one explainer file. The page that comes back may lack parts; it
// is nil only where there is no header to read.
func Parse(file string, src []byte, list *finding.List) *Page {
	if !read.Sound(file, src, list) {
		return nil
	}
	src = bytes.ReplaceAll(src, []byte("\r\n"), []byte("\n"))
	header, body, above, ok := split(src)
	if !ok {
		list.Add(finding.Place{File: file, Line: 1}, "no-header", `the page does not begin with a header between two lines "---"`,
			`write "---", then "title: ..." and the other keys, then "---", then the text`)
		return nil
	}
	m := read.YAML(file, header, 1, list)
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
	}
	m.Done()
	if !read.IsID(p.ID) {
		list.Add(finding.Place{File: file}, "bad-id", "the file's name is not an id", "name it in lower-case words joined by hyphens, like heel-height.md")
	}
	p.Body = newDoc(body, func(offset int) finding.Place { return placeAt(file, body, above, offset) })
	p.Body.check(list)
	if len(bytes.TrimSpace(body)) == 0 {
		list.Add(finding.Place{File: file, Line: above}, "empty-text", "the page has a header and no text", "write the text below the second ---")
	}
	return p
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

func placeAt(file string, src []byte, above, offset int) finding.Place {
	before := src[:min(offset, len(src))]
	line := bytes.Count(before, []byte("\n"))
	col := len([]rune(string(before[bytes.LastIndexByte(before, '\n')+1:])))
	return finding.Place{File: file, Line: above + line + 1, Col: col + 1}
}

// ParseText reads a markdown text that stands inside a YAML value. Findings
// carry the place of the value.
func ParseText(t read.Text, list *finding.List) *Doc {
	d := newDoc([]byte(t.S), func(int) finding.Place { return t.At })
	d.check(list)
	return d
}
