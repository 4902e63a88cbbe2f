package explainer

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
)

// Words finds glossary words in running text.
type Words struct {
	byFirst map[string][]form // first word of a form, lower case
}

// Entry is one glossary word with all its forms ("keel", "keels").
type Entry struct {
	ID    string
	Forms []string
}

type form struct {
	id    string
	words []string
}

// NewWords prepares the search. Of two forms that begin alike, the longer wins.
func NewWords(entries []Entry) *Words {
	w := &Words{byFirst: map[string][]form{}}
	for _, e := range entries {
		for _, f := range e.Forms {
			if ws := wordsOf(f); len(ws) > 0 {
				first := f[ws[0].start:ws[0].end]
				w.byFirst[strings.ToLower(first)] = append(w.byFirst[strings.ToLower(first)], form{e.ID, lower(f, ws)})
			}
		}
	}
	for _, fs := range w.byFirst {
		slices.SortStableFunc(fs, func(a, b form) int { return cmp.Compare(len(b.words), len(a.words)) })
	}
	return w
}

type span struct{ start, end int }

// wordsOf gives the runs of letters and digits, with a hyphen or an apostrophe
// between two of them. The 's of "the keel's tip" is a word of its own.
func wordsOf(s string) []span {
	out := make([]span, 0, len(s)/5+1)
	start := -1
	for i, r := range s {
		inside := isWordRune(r) || (start >= 0 && joins(s[i:], r))
		if inside && start < 0 {
			start = i
		}
		if !inside && start >= 0 {
			out, start = append(out, span{start, i}), -1
		}
	}
	if start >= 0 {
		out = append(out, span{start, len(s)})
	}
	return out
}

func isWordRune(r rune) bool {
	return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r)
}

// joins tells whether r, at the start of s, ties what follows to the word before it.
func joins(s string, r rune) bool {
	if r != '-' && r != '\'' && r != '’' {
		return false
	}
	rest := s[utf8.RuneLen(r):]
	next, n := utf8.DecodeRuneInString(rest)
	if !isWordRune(next) {
		return false
	}
	after, _ := utf8.DecodeRuneInString(rest[n:])
	return r == '-' || next != 's' || isWordRune(after)
}

func lower(s string, ws []span) []string {
	out := make([]string, len(ws))
	for i, w := range ws {
		out[i] = strings.ToLower(s[w.start:w.end])
	}
	return out
}

type hit struct {
	id string
	span
}

// hits gives every use of a word, from left to right, without overlaps. Only
// spaces, or the apostrophe before an s, may stand between the words of a form.
func (w *Words) hits(s string) []hit {
	var out []hit
	ws := wordsOf(s)
	for i := 0; i < len(ws); i++ {
		for _, f := range w.beginning(s[ws[i].start:ws[i].end]) {
			n := len(f.words)
			if i+n > len(ws) || !slices.Equal(lower(s, ws[i:i+n]), f.words) || !onlySpaces(s, ws[i:i+n]) {
				continue
			}
			out = append(out, hit{f.id, span{ws[i].start, ws[i+n-1].end}})
			i += n - 1
			break
		}
	}
	return out
}

// beginning gives the forms that begin with a word, in capitals or small letters. Most words begin none, so a short one is
// made small without room of its own.
func (w *Words) beginning(word string) []form {
	var small [24]byte
	if len(word) > len(small) {
		return w.byFirst[strings.ToLower(word)]
	}
	for i := range len(word) {
		c := word[i]
		if c >= utf8.RuneSelf {
			return w.byFirst[strings.ToLower(word)]
		}
		if 'A' <= c && c <= 'Z' {
			c += 'a' - 'A'
		}
		small[i] = c
	}
	return w.byFirst[string(small[:len(word)])]
}

func onlySpaces(s string, ws []span) bool {
	for i := 1; i < len(ws); i++ {
		gap := s[ws[i-1].end:ws[i].start]
		ofName := (gap == "'" || gap == "’") && s[ws[i].start:ws[i].end] == "s" // "Syme's ankle"
		if strings.TrimSpace(gap) != "" && !ofName {
			return false
		}
	}
	return true
}

// In gives the ids of the words used in s, each once, in order of use.
func (w *Words) In(s string) []string {
	var out []string
	for _, h := range w.hits(s) {
		if !slices.Contains(out, h.id) {
			out = append(out, h.id)
		}
	}
	return out
}

// wordLinker links each glossary word at its first use in a text. One that a link
// of the author's reads the same as is left alone: two links of one name that lead
// to two places mislead those who hear the links listed.
type wordLinker struct {
	*writer
	used map[string]bool
}

// block links words in the inline children of n. Links and code are left
// alone; a word inside emphasis is linked there.
func (l *wordLinker) block(n ast.Node) {
	for c := n.FirstChild(); c != nil; {
		next := c.NextSibling()
		switch c := c.(type) {
		case *ast.Text:
			next = l.run(n, c)
		case *ast.Emphasis:
			l.block(c)
		}
		c = next
	}
}

// run takes the sibling texts from first on as one, because the parser cuts a
// text at every line end and a word of two parts may stand across one. It
// gives the node after the run.
func (l *wordLinker) run(parent ast.Node, first *ast.Text) ast.Node {
	var nodes []*ast.Text
	var joined strings.Builder
	var after ast.Node = first
	for after != nil {
		t, ok := after.(*ast.Text)
		if !ok {
			break
		}
		nodes = append(nodes, t)
		joined.Write(t.Segment.Value(l.doc.src))
		after = t.NextSibling()
		if t.HardLineBreak() {
			break
		}
		if t.SoftLineBreak() {
			joined.WriteByte(' ')
		}
	}
	s := joined.String()
	var fresh []hit
	for _, h := range l.o.Words.hits(s) {
		if !l.used[h.id] && !l.named[strings.ToLower(s[h.start:h.end])] {
			l.used[h.id] = true
			fresh = append(fresh, h)
		}
	}
	if len(fresh) > 0 {
		l.replace(parent, nodes, s, fresh)
	}
	return after
}

func (l *wordLinker) replace(parent ast.Node, nodes []*ast.Text, s string, fresh []hit) {
	mark := ast.Node(nodes[0])
	put := func(n ast.Node) { parent.InsertBefore(parent, mark, n) }
	from := 0
	for _, h := range fresh {
		put(ast.NewString([]byte(s[from:h.start])))
		link := ast.NewLink()
		link.Destination = []byte(l.o.Target("word", h.id).URL)
		link.SetAttributeString("class", []byte("word"))
		link.AppendChild(link, ast.NewString([]byte(s[h.start:h.end])))
		l.newTab(link)
		put(link)
		from = h.end
	}
	put(ast.NewString([]byte(s[from:])))
	if last := nodes[len(nodes)-1]; last.HardLineBreak() {
		br := ast.NewText() // keeps the line break that the run ends with
		br.SetHardLineBreak(true)
		put(br)
	}
	for _, n := range nodes {
		parent.RemoveChild(parent, n)
	}
}
