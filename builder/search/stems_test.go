package search

import (
	"os"
	"strings"
	"testing"
)

// The stems of all words of letters that stand on the site, as the Snowball project's own program makes them: stemwords 2.2.0 of
// Debian's libstemmer-tools, "stemwords -l english", which is made of the algorithm's published definition.
func TestStemsOutside(t *testing.T) {
	src, err := os.ReadFile("testdata/stems.txt")
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Split(strings.TrimSpace(string(src)), "\n")
	for _, line := range all {
		word, want, _ := strings.Cut(line, " ")
		if got := Stem("en", word); got != want {
			t.Errorf("%q has the stem %q, and the Snowball project's is %q", word, got, want)
		}
	}
	if len(all) < 4000 {
		t.Errorf("only %d words", len(all))
	}
}
