package among_test

import (
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"keelpath/builder/internal/among"
)

// A loose expression passes no text by in which the expression finds something.
func TestLoose(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	letters := []rune("abkKsS stumpTRIL-9'\u2019\u212aÉé\u00b5\u03bc.\n")
	found, passed := 0, 0
	for _, e := range []string{
		`(?i)\b(?:stumps?|trials?)\b`, `(?i)\b(?:a\s+k|k-?[0-4])\b`, `(?i)é|ab`, `(?i)µ`, `(?i)[^a-z]b`, `[A-Z]b`, `[a-z]b`, `B[A-Z]`,
		`(?i)\B(?:sa|b)\B`, `(?i)\b(?:a['\x{2019}]s|(?:un)?tu(?:m|mp)\w*)\b`, `(?i:tm)|\(r\)`, `(?i)^a|s$`, `(?i)(?:a|b)+?k`,
	} {
		whole := regexp.MustCompile(e)
		loose := among.Loose(whole)
		for range 20_000 {
			var b strings.Builder
			for range 1 + r.IntN(6) {
				b.WriteRune(letters[r.IntN(len(letters))])
			}
			text := b.String()
			is, may := whole.MatchString(text), loose == nil || loose.MatchString(strings.ToLower(text))
			if is && !may {
				t.Fatalf("%s finds something in %q, and %s passes it by", e, text, loose)
			}
			if is {
				found++
			}
			if !may {
				passed++
			}
		}
	}
	if found < 5000 || passed < 50_000 {
		t.Errorf("%d texts held something, and %d were passed by", found, passed)
	}
	for _, e := range []string{`(?i)\bgrey\b`, `(?i)\b(?:sound (?:leg|foot)s?)\b`} {
		loose := among.Loose(regexp.MustCompile(e))
		if loose == nil {
			t.Errorf("%s has no loose form", e)
		} else if prefix, _ := loose.LiteralPrefix(); prefix == "" {
			t.Errorf("%s became %s, which begins with no letters that one can look for", e, loose)
		}
	}
}
