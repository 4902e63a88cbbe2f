package publish

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/prose"
)

// Every page for patients, trees on paper among them, stays under the highest
// grades by both formulas, and half of them at grade 6.0 or below.
func TestPagesReadEasily(t *testing.T) {
	out := builtin(t)
	var grades []float64
	for _, name := range out.order {
		if !strings.HasSuffix(name, ".html") || strings.HasPrefix(name, "teach/") {
			continue
		}
		_, main, ok := bytes.Cut(out.files[name], []byte(`<main id="main" tabindex="-1">`))
		if !ok {
			t.Fatalf("%s has no main part", name)
		}
		main, _, _ = bytes.Cut(main, []byte("</main>"))
		c := prose.Of(passages(main))
		if c.Sentences == 0 {
			t.Errorf("%s has no sentences", name)
		}
		t.Logf("%-42s Flesch-Kincaid %4.1f, SMOG %4.1f, %3d sentences of %4.1f words", name, c.Grade(), c.SMOG(), c.Sentences, float64(c.Words)/float64(c.Sentences))
		if c.Grade() > prose.MaxGrade || c.SMOG() >= prose.MaxSMOG {
			t.Errorf("%s reads at grade %.1f by Flesch-Kincaid and %.1f by SMOG", name, c.Grade(), c.SMOG())
		}
		grades = append(grades, c.Grade())
		if said := gradeOf(main); !bytes.Contains(out.files[name], []byte("US school grade "+said)) {
			t.Errorf("%s does not say its grade, %s", name, said)
		}
	}
	slices.Sort(grades)
	if len(grades) < 30 || grades[len(grades)/2] > 6.0 {
		t.Errorf("%d pages with a median of %.1f", len(grades), grades[len(grades)/2])
	}
}
