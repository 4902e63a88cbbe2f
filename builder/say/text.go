package say

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// text is a text in its parts.
type text []part

// part is letters, a gap, or an end of an element; s are the letters or the gap's name.
type part struct {
	kind kind
	s    string
}

type kind int

const (
	letters kind = iota
	gap
	opens
	closes
)

// brace finds gaps, and braces that are none.
var brace = regexp.MustCompile(`\{(/?)([a-z0-9]+(?:-[a-z0-9]+)*)\}|[{}]`)

// parse takes a text apart. The fault, if there is one, says what is wrong with a brace, and
// at tells by how many bytes of the text it comes.
func parse(s string) (t text, at int, fault string) {
	from := 0
	for _, m := range brace.FindAllStringSubmatchIndex(s, -1) {
		if m[0] > from {
			t = append(t, part{letters, s[from:m[0]]})
		}
		from = m[1]
		if m[4] < 0 {
			return nil, m[0], fmt.Sprintf("the brace %q belongs to no gap", s[m[0]:m[1]])
		}
		k := gap
		if m[2] < m[3] {
			k = closes
		}
		t = append(t, part{k, s[m[4]:m[5]]})
	}
	if from < len(s) {
		t = append(t, part{letters, s[from:]})
	}
	return t, 0, t.elements()
}

// elements makes openings of those gaps that are closed further on, and says what is wrong
// with one.
func (t text) elements() (fault string) {
	var open []string
	for i, p := range t {
		switch {
		case p.kind == gap && slices.Contains(t[i:], part{closes, p.s}):
			t[i].kind = opens
			open = append(open, p.s)
		case p.kind == closes && (len(open) == 0 || open[len(open)-1] != p.s):
			return fmt.Sprintf("\"{/%s}\" closes what is not open", p.s)
		case p.kind == closes:
			open = open[:len(open)-1]
		}
	}
	if len(open) > 0 {
		return fmt.Sprintf("\"{%s}\" opens and is not closed", open[0])
	}
	return ""
}

// gaps names each gap once, with a stroke behind it where words stand in it.
func (t text) gaps() []string {
	var out []string
	for _, p := range t {
		name := p.s
		switch p.kind {
		case opens:
			name += "/"
		case letters, closes:
			continue
		}
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// String gives the text as its file has it.
func (t text) String() string {
	var b strings.Builder
	for _, p := range t {
		switch p.kind {
		case letters:
			b.WriteString(p.s)
		case closes:
			b.WriteString("{/" + p.s + "}")
		default:
			b.WriteString("{" + p.s + "}")
		}
	}
	return b.String()
}
