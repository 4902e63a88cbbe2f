package unseen_test

import (
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/internal/unseen"
)

// Names by the Unicode Character Database, as printed in its code charts.
func TestIs(t *testing.T) {
	for r, want := range map[rune]string{
		'\u00a0': "U+00A0 NO-BREAK SPACE", '\u2007': "U+2007 FIGURE SPACE", '\u202f': "U+202F NARROW NO-BREAK SPACE", '\u3000': "U+3000 IDEOGRAPHIC SPACE",
		'\u1680': "U+1680 OGHAM SPACE MARK", '\u2800': "U+2800 BRAILLE PATTERN BLANK", '\u3164': "U+3164 HANGUL FILLER", '\u115f': "U+115F HANGUL CHOSEONG FILLER",
		'\u202e': "U+202E RIGHT-TO-LEFT OVERRIDE", '\u2067': "U+2067 RIGHT-TO-LEFT ISOLATE", '\u200f': "U+200F RIGHT-TO-LEFT MARK", '\u061c': "U+061C ARABIC LETTER MARK",
		'\u200b': "U+200B ZERO WIDTH SPACE", '\u200d': "U+200D ZERO WIDTH JOINER", '\u2060': "U+2060 WORD JOINER", '\ufeff': "U+FEFF ZERO WIDTH NO-BREAK SPACE",
		'\u00ad': "U+00AD SOFT HYPHEN", '\u034f': "U+034F COMBINING GRAPHEME JOINER", '\ufe0f': "U+FE0F VARIATION SELECTOR-16", '\U000e0041': "U+E0041 TAG LATIN CAPITAL LETTER A",
		'\u2028': "U+2028 LINE SEPARATOR", '\x1b': "U+001B", '\u0085': "U+0085", '\r': "U+000D", '\ue000': "U+E000",
	} {
		if !unseen.Is(r) || unseen.Name(r) != want {
			t.Errorf("%U: %v, %q; %q was expected", r, unseen.Is(r), unseen.Name(r), want)
		}
	}
	for _, r := range " \t\nAz09.,;–—‘’“”…½×°±²≤→→äéßΩя中あ👣\u0301" {
		if unseen.Is(r) {
			t.Errorf("%q can be seen", r)
		}
	}
}

// All that Unicode gives the direction of writing a say, or no width, or the look
// of a space, by the tables of the standard library.
func TestNoneIsLeftOut(t *testing.T) {
	for _, table := range []*unicode.RangeTable{unicode.Bidi_Control, unicode.Cf, unicode.Cc, unicode.Zl, unicode.Zp, unicode.Join_Control, unicode.White_Space} {
		for r := rune(0); r <= unicode.MaxRune; r++ {
			if unicode.Is(table, r) && r != ' ' && r != '\t' && r != '\n' && !unseen.Is(r) {
				t.Errorf("%s is taken for one that can be seen", unseen.Name(r))
			}
		}
	}
}

func TestReferences(t *testing.T) {
	got := unseen.References("call &rlm;0199 &#8238;x &#x202E; &nbsp; &ZeroWidthSpace; & &amp; &eacute; &#65; &none; &#xFFFFFFF; &shy &Tab;")
	want := []unseen.Reference{
		{5, "&rlm;", '\u200f'}, {15, "&#8238;", '\u202e'}, {24, "&#x202E;", '\u202e'}, {33, "&nbsp;", '\u00a0'}, {40, "&ZeroWidthSpace;", '\u200b'},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}
