package publish

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/formula"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
	"keelpath/builder/say"
	"keelpath/builder/tree"
)

// slopesTree reads the tree for tests, with more lines of values.
func slopesTree(t *testing.T, values ...string) *tree.Tree {
	t.Helper()
	src, err := os.ReadFile("../../testdata/good/slopes.yaml")
	if err != nil {
		t.Fatal(err)
	}
	more := strings.Replace(string(src), "questions:\n", strings.Join(values, "")+"questions:\n", 1)
	tr := tree.Parse("trees/slopes.yaml", []byte(more), &finding.List{})
	if tr == nil {
		t.Fatal("no tree")
	}
	return tr
}

// doublings are lines of values, d1 to the last before d-n, each twice the one before.
func doublings(n int) string {
	var b strings.Builder
	for i := 1; i < n; i++ {
		fmt.Fprintf(&b, "  d%d: d%d + d%d\n", i, i-1, i-1)
	}
	return b.String()
}

func TestConditionsInWords(t *testing.T) {
	tr := slopesTree(t, "  d0: usual + other\n"+doublings(60))
	for _, c := range []struct{ here, is, want string }{
		{"steepness", "steepness > 8.5*percent", "it is more than 8.5 % (about 4.9 degrees, 1:11.8)"},
		{"steepness", "8.5*percent < steepness", "it is more than 8.5 % (about 4.9 degrees, 1:11.8)"},
		{"steepness", "steepness >= 8.3*percent", "it is 8.5 % (about 4.9 degrees, 1:11.8) or more"},
		{"where", "steepness < 20*percent", "your answer to 2 is less than 20 % (about 11.3 degrees, 1:5)"},
		{"steepness", "steepness > 5*percent && steepness <= 10*percent", "it is from 5.5 % (about 3.1 degrees, 1:18.2) to 10 % (about 5.7 degrees, 1:10)"},
		{"steepness", "needed > 15*deg", "it is 27 % (about 15.1 degrees, 1:3.7) or more"},
		{"where", `has(where, "home") && steepness > 8.5*percent`, "you checked “At home” at 3, and your answer to 2 is more than 8.5 % (about 4.9 degrees, 1:11.8)"},
		{"where", `safety != "yes"`, "you chose another answer than “Yes” at 1"},
		{"where", `!(safety == "yes")`, "it is not so that you chose “Yes” at 1"},
		{"other", "gap > 5*mm", "the difference between this answer and your answer to 4 is more than 5 mm (1/4 in)"},
		{"other", "other - usual < -(13.2*mm)", "your answer to 4 minus this answer is more than 13 mm (1/2 in)"},
		{"other", "apart", "the difference between this answer and your answer to 4 is more than 12 mm (1/2 in), and you chose “No” at 1"},
		{"other", "usual/other > 2", "this is true: usual/other > 2"},
		{"other", "usual + other + usual + other > 9*mm", "your answer to 4 plus this answer plus your answer to 4 plus this answer is more than 9 mm (3/8 in)"},
		{"other", "d59 > 9*mm", "this is true: d59 > 9*mm"}, // it would name the answer 10^18 times
	} {
		e, err := formula.Parse(c.is)
		if err != nil {
			t.Fatalf("%s: %v", c.is, err.Text)
		}
		f := tree.Formula{Text: read.Text{S: c.is}, Expr: e}
		if got := (teller{say.English(), tr, tr.Question(c.here)}).says(f); got != c.want {
			t.Errorf("%s\n is worded   %s\n expected was %s", c.is, got, c.want)
		}
	}
}

// What the hint of a measure offers is taken by it, in every tree.
func TestHintsAreTaken(t *testing.T) {
	n := 0
	for _, tr := range append(load(t).Trees, slopesTree(t)) {
		for _, q := range tr.Questions {
			if q.Measure == nil {
				continue
			}
			for _, code := range q.Measure.Accept {
				n++
				text := exampleIn(quantity.In(say.English()), q.Measure, code)
				if v, err := quantity.Read(text, q.Measure.Measure); err != nil || v.Num <= 0 {
					t.Errorf("%s %s: %q in %s is not taken: %v %v", tr.ID.S, q.ID.S, text, code, v, err)
				}
			}
		}
	}
	if n < 9 {
		t.Errorf("only %d examples were tried", n)
	}
}

func TestGaps(t *testing.T) {
	tr := slopesTree(t)
	got := withGaps(say.English(), tr, "{needed} and {steepness}, {this}", "<p>{needed} and {steepness}, {this}</p>")
	want := `<p><span class="amount" data-amount="needed">an angle to work out with your prosthetist</span> and ` +
		`<span class="amount" data-amount="steepness" data-else="a slope to measure with your prosthetist">what you wrote at 2</span>, ` +
		`<span class="amount" data-amount="this">a number to work out with your prosthetist</span></p>`
	if string(got) != want {
		t.Errorf("%s", got)
	}
}
