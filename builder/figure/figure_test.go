package figure

import (
	"strings"
	"testing"
)

func TestFiguresRender(t *testing.T) {
	for _, f := range All {
		h, err := f.HTML(Options{Sheet: "../prepare/index.html"})
		if err != nil {
			t.Fatalf("%s: %v", f.ID, err)
		}
		for _, bad := range []string{"<!--", "%1", "{", "NaN"} {
			if strings.Contains(string(h), bad) {
				t.Errorf("%s holds %q", f.ID, bad)
			}
		}
		for _, row := range must(f.typicalRows()) {
			for _, c := range row {
				if c == "" {
					t.Errorf("%s: an empty cell in %q", f.ID, row)
				}
			}
			t.Log(f.ID, row)
		}
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
