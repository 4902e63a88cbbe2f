package prose

import (
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"
	"unicode"
)

// The end of a sentence, as an expression says it.
var endMark = regexp.MustCompile(`[.?!]+["'”’)\]]*(?:\s+|$)`)

func endByExpression(s string) (n int, ends bool) {
	for _, m := range endMark.FindAllStringIndex(s, -1) {
		next := strings.TrimLeftFunc(s[m[1]:], unicode.IsSpace)
		if s[m[0]] == '.' && next != "" && unicode.IsLower([]rune(next)[0]) {
			continue
		}
		return m[1], true
	}
	return len(s), false
}

// The search for the end of a sentence finds what an expression finds.
func TestSentenceEnd(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	parts := []string{"a", "B", ".", ".", "?", "!", " ", " ", "\n", "\u00a0", `"`, "”", "’", ")", "]", "ü", "Ü", "8", ".5"}
	ended := 0
	for range 200_000 {
		var b strings.Builder
		for range r.IntN(10) {
			b.WriteString(parts[r.IntN(len(parts))])
		}
		n, ends := sentenceEnd(b.String())
		if m, is := endByExpression(b.String()); n != m || ends != is {
			t.Fatalf("%q ends at %d, %t; by the expression at %d, %t", b.String(), n, ends, m, is)
		}
		if ends {
			ended++
		}
	}
	if ended < 50_000 {
		t.Errorf("only %d texts had an end", ended)
	}
}
