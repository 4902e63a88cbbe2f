// Package listing colours YAML listings for a page, with classes and no inline
// style. The classes and the HTML are chroma's; the words are told apart by a
// scanner of our own, because chroma's lexers give up on a pattern after a time
// limit, and then a busy machine would write other bytes than a quiet one.
package listing

import (
	"fmt"
	"html/template"
	"regexp"
	"strings"

	"github.com/alecthomas/chroma/v2"
	"github.com/alecthomas/chroma/v2/formatters/html"
)

var formatter = html.New(html.WithClasses(true), html.ClassPrefix("y-"), html.WithPreWrapper(wrapper{}))

// plainStyle is empty: every colour comes from the site's own style sheet.
var plainStyle = chroma.MustNewStyle("none", chroma.StyleEntries{})

// wrapper lets a keyboard scroll a long line.
type wrapper struct{}

func (wrapper) Start(code bool, _ string) string {
	return `<pre class="listing" tabindex="0" role="region" aria-label="Listing"><code>`
}
func (wrapper) End(bool) string { return "</code></pre>\n" }

// YAML gives src as HTML whose parts carry classes.
func YAML(src string) (template.HTML, error) {
	s := &scanner{}
	for line := range strings.Lines(src) {
		s.line(line)
	}
	var b strings.Builder
	if err := formatter.Format(&b, plainStyle, chroma.Literator(s.tokens...)); err != nil {
		return "", fmt.Errorf("colour a listing: %w", err)
	}
	return template.HTML(b.String()), nil
}

// bare writes no element around the parts.
var bare = html.New(html.WithClasses(true), html.ClassPrefix("y-"), html.PreventSurroundingPre(true))

// Numbered gives src as YAML does, with each line in an element of its own. Those that are led to have the id "line-"
// and their number, from 1. The style wraps lines and writes the numbers, so that they are not copied along.
func Numbered(src string, led map[int]bool) (template.HTML, error) {
	s := &scanner{}
	var b strings.Builder
	b.WriteString(`<pre class="listing numbered"><code>`)
	n := 0
	for line := range strings.Lines(src) {
		n++
		s.tokens = nil
		s.line(strings.TrimRight(line, "\n"))
		if led[n] {
			fmt.Fprintf(&b, `<span id="line-%d">`, n)
		} else {
			b.WriteString("<span>")
		}
		if err := bare.Format(&b, plainStyle, chroma.Literator(s.tokens...)); err != nil {
			return "", fmt.Errorf("colour a listing: %w", err)
		}
		b.WriteString("\n</span>")
	}
	b.WriteString("</code></pre>\n")
	return template.HTML(b.String()), nil
}

// scanner knows the plain part of YAML that Keelpath's files use: comments,
// keys, texts in quotes, lists and maps on one line. A text that runs over lines
// is coloured line by line.
type scanner struct {
	tokens []chroma.Token
	flow   int // brackets that are open
}

func (s *scanner) add(kind chroma.TokenType, text string) {
	if text != "" {
		s.tokens = append(s.tokens, chroma.Token{Type: kind, Value: text})
	}
}

var (
	keyForm    = regexp.MustCompile(`^("[^"\n]*"|'[^'\n]*'|[A-Za-z0-9_][^:#\n{}\[\],"']*):(\s|$)`)
	quotedForm = regexp.MustCompile(`^("(\\.|[^"\\\n])*"|'[^'\n]*')`)
	dateForm   = regexp.MustCompile(`^\d{4}-\d\d-\d\d$`)
	numberForm = regexp.MustCompile(`^-?\d+(\.\d+)?$`)
)

// line takes one line with its end. A key may stand at its beginning, behind
// "- ", and behind what opens or parts a map on one line.
func (s *scanner) line(rest string) {
	key := true
	for rest != "" {
		space := rest[:len(rest)-len(strings.TrimLeft(rest, " \t\n"))]
		s.add(chroma.Text, space) // which has no colour, and so needs no element
		if rest = rest[len(space):]; rest == "" {
			return
		}
		n := 1
		switch m := keyForm.FindString(rest); {
		case rest[0] == '#':
			n = len(strings.TrimRight(rest, "\n"))
			s.add(chroma.CommentSingle, rest[:n])
		case key && m != "":
			n = strings.LastIndexByte(m, ':')
			s.add(chroma.NameTag, rest[:n])
			s.add(chroma.Punctuation, ":")
			n++
			key = false
		case key && s.flow == 0 && strings.HasPrefix(rest, "- "):
			s.add(chroma.Punctuation, "-")
		case strings.ContainsRune("{}[],", rune(rest[0])) && (s.flow > 0 || strings.ContainsRune("{[", rune(rest[0]))):
			s.add(chroma.Punctuation, rest[:1])
			s.bracket(rest[0])
			key = rest[0] == '{' || rest[0] == ','
		default:
			n = s.value(rest)
			key = false
		}
		rest = rest[n:]
	}
}

func (s *scanner) bracket(c byte) {
	switch c {
	case '{', '[':
		s.flow++
	case '}', ']':
		s.flow = max(0, s.flow-1)
	}
}

// value takes a text, a number or the like and gives its length.
func (s *scanner) value(rest string) int {
	if q := quotedForm.FindString(rest); q != "" {
		s.add(chroma.LiteralString, q)
		return len(q)
	}
	end := len(strings.TrimRight(rest, "\n"))
	if i := strings.Index(rest[:end], " #"); i >= 0 {
		end = i
	}
	if s.flow > 0 {
		if i := strings.IndexAny(rest[:end], "{}[],"); i > 0 {
			end = i
		}
	}
	text := rest[:max(end, 1)]
	kind := chroma.Text
	switch word := strings.TrimSpace(text); {
	case word == "true" || word == "false":
		kind = chroma.KeywordConstant
	case dateForm.MatchString(word):
		kind = chroma.LiteralDate
	case numberForm.MatchString(word):
		kind = chroma.LiteralNumber
	case word == "|" || word == ">" || word == "|-" || word == ">-":
		kind = chroma.Punctuation
	}
	s.add(kind, text)
	return len(text)
}
