// Package unseen knows the characters that a reader of a file cannot see or
// cannot tell from a plain space. With them a page can show something else than
// its author's file: a mark that turns the direction of writing shows a phone
// number the other way round.
package unseen

import (
	"fmt"
	"html"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/runenames"
)

// Is tells whether r is such a character. A plain space, a tab and the end of a
// line are not; what no font has, such as a private character, is.
func Is(r rune) bool {
	switch r {
	case ' ', '\t', '\n':
		return false
	case '\u2800', '\u034f', '\u115f', '\u1160', '\u3164', '\uffa0': // blank, though Unicode counts them as signs, marks and letters
		return true
	}
	return unicode.Is(unicode.Zs, r) || !unicode.IsGraphic(r) || unicode.In(r, unicode.Variation_Selector, unicode.Other_Default_Ignorable_Code_Point)
}

// IsSpace tells whether r is one that looks like a plain space.
func IsSpace(r rune) bool { return r != ' ' && (unicode.Is(unicode.Zs, r) || r == '\u2800') }

// Name gives the code of r and, where it has one, its name in Unicode.
func Name(r rune) string {
	name := runenames.Name(r)
	if name == "" || strings.HasPrefix(name, "<") {
		return fmt.Sprintf("%U", r)
	}
	return fmt.Sprintf("%U %s", r, name)
}

// A Reference is a character of HTML that is written out: "&rlm;", "&#8238;".
type Reference struct {
	From int // where it begins, in bytes
	Text string
	Rune rune
}

var reference = regexp.MustCompile(`&(?:#[0-9]{1,7}|#[xX][0-9a-fA-F]{1,6}|[A-Za-z][A-Za-z0-9]*);`)

// References gives what in text is written out and stands for such a character.
func References(text string) []Reference {
	var out []Reference
	for _, at := range reference.FindAllStringIndex(text, -1) {
		written := text[at[0]:at[1]]
		for _, r := range html.UnescapeString(written) {
			if Is(r) && r != utf8.RuneError {
				out = append(out, Reference{at[0], written, r})
				break
			}
		}
	}
	return out
}
