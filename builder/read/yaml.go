// Package read reads YAML files strictly and keeps the place of every value.
//
// Only the plain part of YAML is taken: mappings, lists and single values in
// one document. Anchors, aliases, merge keys, tags and repeated keys are
// findings, so a file says one thing only and cannot grow when read. Reading
// goes on after the first mistake.
package read

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"keelpath/builder/finding"
)

// MaxBytes is the largest input file that is read. Beyond it a file is surely
// not a tree or a page, and every later step may assume a bounded size.
const MaxBytes = 1 << 20

// maxDepth bounds nesting; the deepest known format needs six levels.
const maxDepth = 32

// YAML reads one file and gives its top mapping, or nil where there is none to
// go on with. above is the number of lines that stand before src in the file
// (the header of an explainer begins after its "---" line).
func YAML(file string, src []byte, above int, list *finding.List) *Map {
	if !Sound(file, src, list) {
		return nil
	}
	r := &reader{file: file, above: above, list: list}
	doc, err := decode(src)
	switch {
	case errors.Is(err, io.EOF):
		list.Add(finding.Place{File: file}, "empty-file", "the file has nothing in it", "write at least its first key, or remove the file")
		return nil
	case err != nil:
		r.syntax(src, err)
		return nil
	}
	if more := secondDocument(src); more > 0 {
		list.Add(r.line(more), "second-document", `a line "---" begins a second document, and only the first would be read`,
			"put each document in a file of its own")
		return nil
	}
	top := doc.Content[0]
	if !r.plain(top, 0) {
		return nil
	}
	if top.Kind != yaml.MappingNode {
		list.Add(r.place(top), "wrong-type", "the file holds "+kindName(top)+", and keys with values were expected", `write it as "key: value" lines`)
		return nil
	}
	return r.mapping(top, file)
}

// Sound reports a file that is too large or is not text.
func Sound(file string, src []byte, list *finding.List) bool {
	if len(src) > MaxBytes {
		list.Add(finding.Place{File: file}, "too-large", fmt.Sprintf("the file has %d bytes, and at most %d are read", len(src), MaxBytes), "split it into smaller files")
		return false
	}
	if !utf8.Valid(src) {
		line := 1
		for rest := src; len(rest) > 0; {
			c, n := utf8.DecodeRune(rest)
			if c == utf8.RuneError && n == 1 {
				break
			}
			if c == '\n' {
				line++
			}
			rest = rest[n:]
		}
		list.Add(finding.Place{File: file, Line: line}, "not-text", "this line is not UTF-8 text", "save the file again with the encoding UTF-8")
		return false
	}
	return true
}

// decode gives the first document. The library stops some inputs by a panic;
// that is its own affair and becomes an error here.
func decode(src []byte) (doc *yaml.Node, err error) {
	defer func() {
		if p := recover(); p != nil {
			doc, err = nil, fmt.Errorf("yaml: %v", p)
		}
	}()
	doc = new(yaml.Node)
	if err = yaml.NewDecoder(bytes.NewReader(src)).Decode(doc); err != nil {
		return nil, err
	}
	if len(doc.Content) == 0 {
		return nil, io.EOF
	}
	return doc, nil
}

// secondDocument gives the line of the "---" that begins another document, or 0.
func secondDocument(src []byte) int {
	seen := false
	for i, l := range strings.Split(string(src), "\n") {
		mark := l == "---" || strings.HasPrefix(l, "--- ")
		if mark && seen {
			return i + 1
		}
		if t := strings.TrimSpace(l); mark || (t != "" && !strings.HasPrefix(t, "#")) {
			seen = true
		}
	}
	return 0
}

// syntax reports text that is not YAML. The line in the library's message can
// be wrong, so the true one is looked for: the first line from which on no
// shorter part of the file can be read.
func (r *reader) syntax(src []byte, err error) {
	line := badLine(src)
	said := strings.TrimPrefix(err.Error(), "yaml: ")
	if _, after, ok := strings.Cut(said, ": "); ok && strings.HasPrefix(said, "line ") {
		said = after
	}
	r.list.Add(r.line(line), "not-yaml", "this line, or what it opens, cannot be read as YAML: "+said,
		"look for a missing space after a colon, a tab, an indent that differs from the lines around it, or a quote or bracket that is never closed",
		`a text that itself holds ": " or begins with a quote, "[", "{", "&", "*", "#" or "%" goes in quotes`)
}

// badLine gives the number of the line after the longest part that can be read.
func badLine(src []byte) int {
	lines := bytes.SplitAfter(src, []byte("\n"))
	good := func(n int) bool {
		_, err := decode(bytes.Join(lines[:n], nil))
		return err == nil || errors.Is(err, io.EOF)
	}
	if len(lines) > 2000 { // too long to try each part: halve, which is right unless a list in brackets runs over many lines
		low, high := 0, len(lines)
		for high-low > 1 {
			if mid := (low + high) / 2; good(mid) {
				low = mid
			} else {
				high = mid
			}
		}
		return low + 1
	}
	for n := len(lines) - 1; n > 0; n-- {
		if good(n) {
			return n + 1
		}
	}
	return 1
}

type reader struct {
	file  string
	above int
	list  *finding.List
}

func (r *reader) line(n int) finding.Place { return finding.Place{File: r.file, Line: n + r.above} }

func (r *reader) place(n *yaml.Node) finding.Place {
	return finding.Place{File: r.file, Line: n.Line + r.above, Col: n.Column}
}

// plain walks the whole document once and refuses what the format leaves out.
func (r *reader) plain(n *yaml.Node, depth int) bool {
	why := ""
	switch {
	case depth > maxDepth:
		why = "values are nested too deep here"
	case n.Kind == yaml.AliasNode:
		why = fmt.Sprintf("the alias %q points elsewhere; aliases are not read", "*"+n.Value)
	case n.Anchor != "":
		why = fmt.Sprintf("the anchor %q names a part for later; anchors are not read", "&"+n.Anchor)
	case n.Style&yaml.TaggedStyle != 0:
		why = fmt.Sprintf("the tag %q gives a type; tags are not read", n.Tag)
	}
	if why != "" {
		r.list.Add(r.place(n), "not-plain", why, "write the value itself, each time it is used")
		return false
	}
	ok := true
	for i, c := range n.Content {
		if n.Kind == yaml.MappingNode && i%2 == 0 {
			if c.Kind == yaml.ScalarNode && c.Tag == "!!merge" {
				r.list.Add(r.place(c), "not-plain", `the merge key "<<" copies from elsewhere; merge keys are not read`, "write the keys themselves")
				ok = false
				continue
			}
			if c.Kind != yaml.ScalarNode {
				r.list.Add(r.place(c), "not-plain", "a key must be a single word, and this is "+kindName(c), `write "key: value"`)
				ok = false
				continue
			}
		}
		ok = r.plain(c, depth+1) && ok
	}
	return ok
}

func kindName(n *yaml.Node) string {
	switch {
	case n.Kind == yaml.MappingNode:
		return "keys with values"
	case n.Kind == yaml.SequenceNode:
		return "a list"
	case n.Tag == "!!null":
		return "nothing"
	}
	return fmt.Sprintf("%q", n.Value)
}
