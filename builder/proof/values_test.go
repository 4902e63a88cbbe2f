package proof_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"keelpath/builder/finding"
	"keelpath/builder/tree"
)

// doublingTree has n values, each twice the one before, and a condition and an
// ending's text that use the last.
func doublingTree(n int) string {
	var b strings.Builder
	b.WriteString(header + "values:\n  v0: q0 + q0\n")
	for i := 1; i < n; i++ {
		fmt.Fprintf(&b, "  v%d: v%d + v%d\n", i, i-1, i-1)
	}
	fmt.Fprintf(&b, `questions:
  q0:
    text: So?
    why: To know.
    measure: { unit: mm, from: 0, to: 10, step: 1 }
    skip: few
    routes:
      - { if: v%[1]d > 4*v0, go: many }
      - { go: few }
endings:
  few: { title: Few, text: "Talk of {v%[1]d}." }
  many: { title: Many, text: Talk. }
`, n-1)
	return b.String()
}

// Sixty values that double are worked out as soon as sixty that do not: in
// turns, each anew, they would be worked out 10^18 times, which never ends.
func TestValuesThatUseValues(t *testing.T) {
	done := make(chan bool)
	go func() {
		defer close(done)
		var list finding.List
		tr := tree.Parse("trees/random.yaml", []byte(doublingTree(60)), &list)
		p := proved(t, tr, &list)
		if list.Len() > 0 || p.Paths.Int64() != 12 || p.Witness["many"] == nil {
			t.Errorf("%v; %s paths, %v", list.Sorted(), p.Paths, p.Witness)
		}
		path, err := tr.Walk(tree.Answers{"q0": {"1 mm"}})
		if err != nil || path.Ending != "many" || path.Amounts["v59"].Num != 1<<60 {
			t.Errorf("1 mm doubled 60 times: %+v %v", path, err)
		}
		if c := tr.Changes(tree.Answers{"q0": {"1 mm"}}); len(c) != 2 { // 0 mm, and the skip
			t.Errorf("the ending is changed by %+v", c)
		}
		if _, ok := chartOf(t, tr); !ok {
			t.Error("the tree has no chart")
		}
	}()
	select {
	case <-done:
	case <-time.After(time.Minute):
		t.Fatal("the values are worked out again and again")
	}
}

func BenchmarkProofOfValuesThatUseValues(b *testing.B) {
	src := []byte(doublingTree(20))
	for b.Loop() {
		var list finding.List
		proved(b, tree.Parse("trees/random.yaml", src, &list), &list)
	}
}

// byValue asks for an answer two questions back, by a value that a value uses.
// At the measure only one of three answers counts, and which is known only from
// the value's formula.
const byValue = `values:
  artificial: knee == "unit"
  careful: artificial || has(marks, "sore")
questions:
  knee:
    text: So?
    why: To know.
    answers: { unit: { text: Unit, go: marks }, own: { text: Own, go: marks }, unsure: { text: Not sure, go: marks } }
  marks:
    text: So?
    why: To know.
    pick: any
    go: size
    skip: size
    answers: { sore: { text: Sore }, dry: { text: Dry }, none: { text: None, alone: true } }
  size:
    text: So?
    why: To know.
    measure: { unit: mm, from: 0, to: 9, step: 1 }
    skip: few
    routes:
      - { if: careful && size > 4*mm, go: slow }
      - { if: careful && size <= 4*mm, go: mid }
      - { go: few }
endings:
  few: { title: Few, text: Talk. }
  mid: { title: Mid, text: Talk. }
  slow: { title: Slow, text: Talk. }
`

// A value may ask for an answer; the proof then keeps that answer apart from the others.
func TestValuesThatAskForAnswers(t *testing.T) {
	for _, c := range []struct{ name, old, new, check, words string }{
		{"sound", "", "", "", ""},
		{"a gap by the value", "      - { go: few }\n", "", "route-gap", `the answer "0 mm"`},
		{"two routes by the value", "if: careful && size <= 4*mm", `if: knee == "unit" && size > 2*mm`, "route-overlap", `the answer "5 mm"`},
		{"a part that the value settles", "if: careful && size > 4*mm", `if: artificial && knee == "own" && size > 4*mm`, "dead-condition", "can never be true"},
		{"a value that is never true", `knee == "unit"`, `knee == "unit" && knee == "own"`, "idle-question", `"knee"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !strings.Contains(byValue, c.old) {
				t.Fatalf("%q does not stand in the tree", c.old)
			}
			var list finding.List
			src := strings.Replace(header, "q0", "knee", 1) + strings.Replace(byValue, c.old, c.new, 1)
			tr := tree.Parse("trees/random.yaml", []byte(src), &list)
			p := proved(t, tr, &list)
			all := tryAll(tr)
			if p.Paths.Int64() != int64(all.paths) {
				t.Errorf("the proof counts %s paths, and there are %d", p.Paths, all.paths)
			}
			for id := range p.Witness {
				mustReach(t, tr, id, p.Witness[id])
			}
			found := list.Sorted()
			if c.check == "" {
				for _, f := range found {
					t.Errorf("%s: %s", f.Check, f.Text)
				}
				return
			}
			if !slices.ContainsFunc(found, func(f finding.Finding) bool { return f.Check == c.check && strings.Contains(f.Text, c.words) }) {
				t.Errorf("%s with %q was expected: %v", c.check, c.words, found)
			}
		})
	}
}
