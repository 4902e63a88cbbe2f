package corpus

import (
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"keelpath/builder/finding"
)

const archive = `Something is broken.
finds trees/a.yaml:3:1 slip half of a
  help mend it
  help the first is at trees/b.yaml:*
warns trees/a.yaml:4:1 odd so

-- trees/a.yaml --
tree: a
`

// Any difference between what an archive expects and what was found is told: a
// finding or a help line too few, too many, or other than it says.
func TestDiff(t *testing.T) {
	good := func() []finding.Finding {
		return []finding.Finding{
			{Place: finding.Place{File: "/x/trees/a.yaml", Line: 3, Col: 1}, Check: "slip", Weight: finding.Error, Text: "one half of a sentence", Help: []string{"mend it", "the first is at trees/b.yaml:7:2"}},
			{Place: finding.Place{File: "/x/trees/a.yaml", Line: 4, Col: 1}, Check: "odd", Weight: finding.Warning, Text: "so"},
		}
	}
	for _, c := range []struct {
		name   string
		change func(fs []finding.Finding) []finding.Finding
		same   bool
	}{
		{"as it says", func(fs []finding.Finding) []finding.Finding { return fs }, true},
		{"another place in content of another layer", func(fs []finding.Finding) []finding.Finding {
			fs[0].Help[1] = "the first is at trees/b.yaml:8:2"
			return fs
		}, true},
		{"that place in the archive's own file", func(fs []finding.Finding) []finding.Finding {
			fs[0].Help[1] = "the first is at /x/trees/b.yaml:7:2"
			return fs
		}, false},
		{"a help line too many", func(fs []finding.Finding) []finding.Finding { fs[0].Help = append(fs[0].Help, "or not"); return fs }, false},
		{"a help line where none is expected", func(fs []finding.Finding) []finding.Finding { fs[1].Help = []string{"so what"}; return fs }, false},
		{"a help line too few", func(fs []finding.Finding) []finding.Finding { fs[0].Help = fs[0].Help[:1]; return fs }, false},
		{"a help line with more words", func(fs []finding.Finding) []finding.Finding { fs[0].Help[0] = "mend it soon"; return fs }, false},
		{"help lines in another order", func(fs []finding.Finding) []finding.Finding {
			fs[0].Help[0], fs[0].Help[1] = fs[0].Help[1], fs[0].Help[0]
			return fs
		}, false},
		{"another weight", func(fs []finding.Finding) []finding.Finding { fs[1].Weight = finding.Error; return fs }, false},
		{"another line", func(fs []finding.Finding) []finding.Finding { fs[0].Line++; return fs }, false},
		{"a finding too few", func(fs []finding.Finding) []finding.Finding { return fs[:1] }, false},
		{"a finding twice", func(fs []finding.Finding) []finding.Finding { return append(fs, fs[1]) }, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			one, err := parse(txtar.Parse([]byte(archive)))
			if err != nil {
				t.Fatal(err)
			}
			if diff := one.Diff("/x", c.change(good())); (diff == "") != c.same || strings.Contains(diff, "\x00") {
				t.Errorf("the difference is %q", diff)
			}
		})
	}
}
