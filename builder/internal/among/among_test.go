package among_test

import (
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/internal/among"
)

// What is found in one pass is what a search for each stem finds.
func TestIn(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	word := func(letters string, most int) string {
		var b strings.Builder
		for range 1 + r.IntN(most) {
			b.WriteByte(letters[r.IntN(len(letters))])
		}
		return b.String()
	}
	held := 0
	for range 3000 {
		groups := make([][]string, 1+r.IntN(5))
		for g := range groups {
			for range r.IntN(4) {
				groups[g] = append(groups[g], word("ab -", 4))
			}
		}
		f := among.New(groups...)
		text := word("abAB cC-", 12)
		for g, stems := range groups {
			want := len(stems) == 0 || slices.ContainsFunc(stems, func(s string) bool { return strings.Contains(strings.ToLower(text), s) })
			if got := f.In(text)&(1<<g) != 0; got != want {
				t.Fatalf("%q holds one of %q: %t, and %t was expected", text, stems, got, want)
			}
			if want && len(stems) > 0 {
				held++
			}
		}
	}
	if held < 1000 {
		t.Errorf("a stem was held only %d times", held)
	}
	for _, text := range []string{"\u017fhort", "too \u212aeen"} { // as (?i) of an expression has it
		if f := among.New([]string{"short", "keen"}); f.In(text) != 1 {
			t.Errorf("%q passes by", text)
		}
	}
}

func TestNeeds(t *testing.T) {
	for _, c := range []struct {
		expression string
		want       []string
	}{
		{`(?i)\b(?:short\s+questions)\b`, []string{"questions"}},
		{`(?i)\b(?:stumps?|line-ups?)\b`, []string{"stump", "line-up"}},
		{`(?i)(?:the|its) set-?ups?`, []string{" set"}},
		{`[a-z]+`, nil},
		{`stumps?|[a-z]`, nil},
		{`(?:abc)?`, nil},
		{`x(?:abc|de)*y`, []string{"x"}},
		{`(?:ab)+`, []string{"ab"}},
		{`(?i)GREY`, []string{"grey"}},
	} {
		if got := among.Needs(regexp.MustCompile(c.expression)); !slices.Equal(got, c.want) {
			t.Errorf("%s needs %q, and %q was expected", c.expression, got, c.want)
		}
	}
}
