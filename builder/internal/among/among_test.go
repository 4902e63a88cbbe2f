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
			if in := f.In(text); in.Has(g) != want {
				t.Fatalf("%q holds one of %q: %t, and %t was expected", text, stems, !want, want)
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
		if in := among.New([]string{"short", "keen"}).In(text); !in.Has(0) {
			t.Errorf("%q passes by", text)
		}
	}
}

func TestNeeds(t *testing.T) {
	for _, c := range []struct {
		expression string
		want       string // the lists, parted by "; "
	}{
		{`(?i)\b(?:short\s+questions)\b`, "short; questions"},
		{`(?i)\b(?:stumps?|line-ups?)\b`, "stump line-up"},
		{`(?i)(?:the|its) set-?ups?`, "the its;  set; up"},
		{`[a-z]+`, ""},
		{`stumps?|[a-z]`, ""},
		{`(?:abc)?`, ""},
		{`x(?:abc|de)*y`, "x; y"},
		{`x(abc|de)+y`, "x; abc de; y"},
		{`(?:ab)+`, "ab"},
		{`(?i)GREY`, "grey"},
	} {
		var got []string
		for _, list := range among.Needs(regexp.MustCompile(c.expression)) {
			got = append(got, strings.Join(list, " "))
		}
		if s := strings.Join(got, "; "); s != c.want {
			t.Errorf("%s needs %q, and %q was expected", c.expression, s, c.want)
		}
	}
}

// Of many expressions none is passed by that finds something.
func TestAny(t *testing.T) {
	var each []*regexp.Regexp
	for _, a := range []string{"a", "b", "ab|c", "a?b", "(?:a|b)c", "[abc]"} {
		for _, b := range []string{"b", "ca", "(?:b|c)+", ".?a"} {
			each = append(each, regexp.MustCompile("(?i)"+a+`\s*`+b))
		}
	}
	any := among.NewAny(each...)
	r := rand.New(rand.NewPCG(5, 6))
	found, passed := 0, 0
	for range 5000 {
		var b strings.Builder
		for range r.IntN(6) {
			b.WriteByte("abcABC -"[r.IntN(8)])
		}
		may := map[int]bool{}
		any.In(b.String(), func(n int) bool { may[n] = true; return true })
		for n, e := range each {
			switch is := e.MatchString(b.String()); {
			case is && !may[n]:
				t.Fatalf("%s is passed by in %q", e, b.String())
			case is:
				found++
			case !may[n]:
				passed++
			}
		}
	}
	if found < 1000 || passed < 1000 {
		t.Errorf("found %d times, passed by %d times", found, passed)
	}
}
