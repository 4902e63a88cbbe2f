package library_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keelpath/builder/internal/librarytest"
)

// A clinic lays its own building code over a figure: its limit stands in the place
// of the built-in one, and the figure compares with it.
func TestLayerSetsItsOwnLimit(t *testing.T) {
	const file = "content/en/figures/slope.yaml"
	src, err := os.ReadFile(filepath.Join(root, file))
	if err != nil {
		t.Fatal(err)
	}
	own := string(src)
	for was, now := range map[string]string{
		"by-14: 1/14*100*percent": "by-14: 1/16*100*percent",
		"limit: \"1:14 (7.1 %)\"": "limit: \"1:16 (6.3 %)\"",
	} {
		if strings.Count(own, was) != 1 {
			t.Fatalf("%s holds %q %d times", file, was, strings.Count(own, was))
		}
		own = strings.Replace(own, was, now, 1)
	}
	dir := t.TempDir()
	name := filepath.Join(dir, filepath.FromSlash(file))
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(own), 0o644); err != nil {
		t.Fatal(err)
	}
	says := func(layers ...string) (limit, compared string, figures int) {
		l := librarytest.Load(t, layers...)
		f := l.Figure("slope")
		s, err := f.Start(map[string]string{"steepness": "1:15"})
		if err != nil {
			t.Fatal(err)
		}
		return f.Limits.Rows[1].Limit.S, f.Settle(s).Texts["by-14"], len(l.Figures)
	}
	limit, compared, figures := says()
	if limit != "1:14 (7.1 %)" || compared != "yours is less steep" {
		t.Errorf("the built-in figure says %q, %q", limit, compared)
	}
	ownLimit, ownCompared, same := says(dir)
	if ownLimit != "1:16 (6.3 %)" || ownCompared != "yours is steeper" || same != figures {
		t.Errorf("with the layer %d figures, in place of %d, say %q, %q", same, figures, ownLimit, ownCompared)
	}
}
