// Package read reads YAML files strictly and keeps the place of every value.
//
// Only the plain part of YAML is taken: mappings, lists and single values in
// one document. Anchors, aliases, merge keys, tags and repeated keys are
// findings, so a file says one thing only and cannot grow when read. Reading
// goes on after the first mistake.
package read

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"keelpath/builder/finding"
	"keelpath/builder/internal/unseen"
)

// MaxBytes is the largest input file that is read. Beyond it a file is surely
// not a tree or a page, and every later step may assume a bounded size.
const MaxBytes = 1 << 20

// MaxList is the most entries of one list.
const MaxList = 1000

// maxDepth bounds nesting; the deepest known format needs six levels.
const maxDepth = 32

// YAML reads one file and gives its top mapping, or nil where there is none to
// go on with. above is the number of lines that stand before src in the file
// (the header of an explainer begins after its "---" line).
func YAML(file string, src []byte, above int, list *finding.List) *Map {
	return Choice{}.YAML(file, src, above, list)
}

// YAML is the function of that name, for the words that are chosen.
func (c Choice) YAML(file string, src []byte, above int, list *finding.List) *Map {
	r := &reader{file: file, src: string(src), above: above, list: list, what: "the file", Choice: c}
	if above > 0 {
		r.what = "the header"
	}
	top := r.top(src)
	if top == nil {
		return nil
	}
	return r.mapping(top, r.place(top), r.what)
}

// top gives the top mapping, or nil where there is none to go on with. Headers are read once, so only whole files are kept.
func (r *reader) top(src []byte) *yaml.Node {
	if r.above > 0 {
		return r.look(src)
	}
	sum := sha256.Sum256(src)
	if top := decoded.of(sum); top != nil {
		return top
	}
	before := r.list.Len()
	top := r.look(src)
	if top != nil && r.list.Len() == before {
		decoded.keep(sum, top, len(src))
	}
	return top
}

// look is top for what was not looked at yet.
func (r *reader) look(src []byte) *yaml.Node {
	if !sound(r.file, src, r.above, r.list) {
		return nil
	}
	doc, err := decode(src)
	switch {
	case errors.Is(err, io.EOF):
		r.list.Add(finding.Place{File: r.file, Line: r.above}, "empty-file", r.what+" has nothing in it", "write at least its first key, or remove the file")
		return nil
	case err != nil:
		r.syntax(src, err)
		return nil
	}
	if more := secondDocument(src); more > 0 {
		r.list.Add(r.line(more), "second-document", "a second document begins here, and only the first would be read",
			"put each document in a file of its own")
		return nil
	}
	top := doc.Content[0]
	if !r.plain(top, 0) {
		return nil
	}
	if top.Kind != yaml.MappingNode {
		r.list.Add(r.place(top), "wrong-type", r.what+" holds "+kindName(top)+", and keys with values were expected", `write it as "key: value" lines`)
		return nil
	}
	return top
}

// Sound reports a file that is too large or is not text, and then gives false. It
// also reports each character that cannot be seen.
func Sound(file string, src []byte, list *finding.List) bool {
	return sound(file, src, 0, list)
}

func sound(file string, src []byte, above int, list *finding.List) bool {
	if len(src) > MaxBytes {
		list.Add(finding.Place{File: file}, "too-large", fmt.Sprintf("the file has more than %d bytes, and no more are read", MaxBytes), "split it into smaller files")
		return false
	}
	m := marks{list: list, at: finding.Place{File: file, Line: 1 + above, Col: 1}, written: unseen.References(string(src))}
	for rest := src; len(rest) > 0; {
		if plain := rest[0] >= ' ' && rest[0] < utf8.RuneSelf-1; plain && (len(m.written) == 0 || m.written[0].From != len(src)-len(rest)) {
			m.at.Col++ // almost all characters are such
			rest = rest[1:]
			continue
		}
		c, n := utf8.DecodeRune(rest)
		switch {
		case c == utf8.RuneError && n == 1:
			list.Add(m.at, "not-text", "what stands here is not UTF-8 text", "save the file again with the encoding UTF-8")
			return false
		case c == '\n':
			m.at.Line, m.at.Col = m.at.Line+1, 0
		case c == '\r' && bytes.HasPrefix(rest, []byte("\r\n")), c == '\t', c == '\ufeff' && len(rest) == len(src):
		case unicode.IsControl(c), c == '\u2028', c == '\u2029': // some of these end a line for YAML and for no editor
			list.Add(m.at, "not-text", fmt.Sprintf("a control character stands here: %U", c), "delete it, and what cannot be seen around it")
			return false
		default:
			m.see(c, len(src)-len(rest))
		}
		if m.many() {
			return false
		}
		m.at.Col++
		rest = rest[n:]
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

// secondDocument gives the line that begins another document, or 0.
func secondDocument(src []byte) int {
	seen, ended := false, false
	for i, l := range strings.Split(string(src), "\n") {
		l = strings.TrimRight(strings.TrimPrefix(l, "\ufeff"), " \t\r")
		mark := l == "---" || strings.HasPrefix(l, "--- ") || strings.HasPrefix(l, "---\t")
		content := mark || (strings.TrimSpace(l) != "" && !strings.HasPrefix(strings.TrimSpace(l), "#") && l != "...")
		if (mark && seen) || (content && ended) {
			return i + 1
		}
		if content && !(strings.HasPrefix(l, "%") && !seen) { // "%YAML 1.2" stands before its document
			seen = true
		}
		ended = ended || (l == "..." && seen)
	}
	return 0
}

// syntax reports text that is not YAML. The line in the library's message can
// be wrong, so the true one is looked for: the first line from which on no
// shorter part of the file can be read.
func (r *reader) syntax(src []byte, err error) {
	n := badLine(src)
	said := strings.TrimPrefix(err.Error(), "yaml: ")
	if _, after, ok := strings.Cut(said, ": "); ok && strings.HasPrefix(said, "line ") {
		said = after
	}
	help := []string{
		"look for a missing space after a colon, a tab, an indent that differs from the lines around it, or a quote or bracket that is never closed",
		`a text that itself holds ": " or begins with a quote, "[", "{", "&", "*", "#" or "%" goes in quotes`,
	}
	if h := likely(strings.Split(string(src), "\n")[n-1]); h != "" {
		help = []string{h}
	}
	r.list.Add(r.line(n), "not-yaml", "this line, or what it opens, cannot be read as YAML: "+said, help...)
}

var (
	asksInFlow = regexp.MustCompile(`^\s*(?:- )?["']?[\w-]+["']?: +\{.*[^"'\s]\?\s*[,}]`)
	tabIndent  = regexp.MustCompile(`^ *\t`)
	valueOf    = regexp.MustCompile(`^\s*(?:- )?["']?[\w-]+["']?: +(.*?)\s*$`)
)

// likely names the likely slip in a line that cannot be read, or gives "".
func likely(line string) string {
	if tabIndent.MatchString(line) {
		return "the line is indented with a tab: YAML takes only spaces there"
	}
	if asksInFlow.MatchString(line) {
		return "inside braces, a text with a question mark goes in quotes"
	}
	v := valueOf.FindStringSubmatch(line)
	if v == nil || v[1] == "" {
		return ""
	}
	value := v[1]
	switch open := value[:1]; {
	case open == `"` && strings.Count(value, `"`)%2 == 1, open == "'" && strings.Count(value, "'")%2 == 1:
		return "the quote " + open + " is opened here and not closed"
	case open == "[" && !strings.Contains(value, "]"), open == "{" && !strings.Contains(value, "}"):
		return "the bracket " + open + " is opened here and not closed"
	case open == `"`, open == "'":
		return "what begins with a quote must end with it: put the whole text in quotes, and write a quote inside it twice if it is a ', or as \\\" if it is a \""
	case !strings.ContainsAny(open, "[{|>&*!%@`#") && strings.Contains(value, ": "):
		return `the text holds ": ", so put the whole of it in quotes`
	}
	return ""
}

// effort bounds how many bytes are read again to find a bad line.
const effort = 2 << 20

// badLine gives the number of the line after the longest part that can be read.
func badLine(src []byte) int {
	lines := bytes.SplitAfter(src, []byte("\n"))
	end := 0
	ends := make([]int, len(lines))
	for i, l := range lines {
		end += len(l)
		ends[i] = end
	}
	good := func(n int) bool {
		_, err := decode(src[:ends[n-1]])
		return err == nil || errors.Is(err, io.EOF)
	}
	from, to := 0, len(lines)-1 // whole lines are known to be good up to from, and looked at up to to
	if tries := effort / (len(src) + 1); to > tries {
		// Too long to try each part. Halving finds a line that is bad, but perhaps
		// one inside a text or list of several lines that ends well further on.
		high := len(lines)
		for high-from > 1 {
			if mid := (from + high) / 2; good(mid) {
				from = mid
			} else {
				high = mid
			}
		}
		to = min(to, from+tries)
	}
	for n := to; n > from; n-- {
		if good(n) {
			return n + 1
		}
	}
	return from + 1
}

type reader struct {
	file  string
	above int
	list  *finding.List
	src   string
	what  string // how messages name the whole: "the file" or "the header"
	Choice
}

func (r *reader) line(n int) finding.Place { return finding.Place{File: r.file, Line: n + r.above} }

func (r *reader) place(n *yaml.Node) finding.Place {
	return finding.Place{File: r.file, Line: n.Line + r.above, Col: n.Column}
}

// plain walks the whole document once and refuses what the format leaves out.
func (r *reader) plain(n *yaml.Node, depth int) bool {
	why := ""
	switch {
	case depth > maxDepth && n.Kind != yaml.ScalarNode:
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
	if n.Kind == yaml.SequenceNode && len(n.Content) > MaxList {
		r.list.Add(r.place(n), "too-large", fmt.Sprintf("this list has %d entries, and at most %d are read", len(n.Content), MaxList), "split the file into smaller ones")
		return false
	}
	if n.Kind == yaml.ScalarNode {
		r.escaped(n)
	}
	ok, merged := true, false
	for i, c := range n.Content {
		if merged { // what a merge key takes is part of the same fault
			merged = false
			continue
		}
		if n.Kind == yaml.MappingNode && i%2 == 0 {
			if c.Kind == yaml.ScalarNode && c.Tag == "!!merge" {
				r.list.Add(r.place(c), "not-plain", `the merge key "<<" copies from elsewhere; merge keys are not read`, "write the keys themselves")
				ok, merged = false, true
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
