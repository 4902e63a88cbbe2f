package proof_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/clienttest"
	"keelpath/builder/finding"
	"keelpath/builder/library"
	"keelpath/builder/proof"
	"keelpath/builder/tree"
)

// Every path of every shipped tree, through Go's Walk and through the browser's
// walker: the same steps, cards and ending.
func TestWalkersAgreeOnEveryPath(t *testing.T) {
	var list finding.List
	l := library.Load(&list, library.Builtin())
	script := clienttest.Load(t, "walker.ts")
	for _, tr := range l.Trees {
		t.Run(tr.ID.S, func(t *testing.T) {
			table := script.Value(tr.Table(l.Proofs[tr.ID.S].Left))
			n := 0
			for answers := range proof.AllPaths(tr) {
				n++
				want, err := tr.Walk(answers)
				if err != nil || want.Ending == "" {
					t.Fatalf("%v: Go stops: %v %+v", answers, err, want)
				}
				v, err := script.Call("walk", table, script.Value(answers))
				if err != nil {
					t.Fatalf("%v: the script stops: %v", answers, err)
				}
				var got tree.Path
				script.Into(v, &got)
				if diff := cmp.Diff(want, got); diff != "" {
					t.Fatalf("%v: Go and the script differ:\n%s", answers, diff)
				}
			}
			if got := fmt.Sprint(n); got != l.Proofs[tr.ID.S].Paths.String() {
				t.Errorf("%s paths were walked, and the proof counts %s", got, l.Proofs[tr.ID.S].Paths)
			}
		})
	}
}

// Answers that no page would give: both walkers must refuse the same ones, and
// stop at the same question where one is missing.
func TestWalkersAgreeOnOddAnswers(t *testing.T) {
	var list finding.List
	l := library.Load(&list, library.Builtin())
	script := clienttest.Load(t, "walker.ts")
	rnd := rand.New(rand.NewPCG(1, 2))
	refused, open := 0, 0
	for range 4000 {
		tr := l.Trees[rnd.IntN(len(l.Trees))]
		answers := oddAnswers(rnd, tr)
		want, errGo := tr.Walk(answers)
		v, errScript := script.Call("walk", script.Value(tr.Table(nil)), script.Value(answers))
		if (errGo == nil) != (errScript == nil) {
			t.Fatalf("%s %v: Go says %v, the script %v", tr.ID.S, answers, errGo, errScript)
		}
		if errGo != nil {
			refused++
			// Go also offers the nearest name, which a page has no use for.
			said, _, _ := strings.Cut(errGo.Error(), "; nearest")
			if !strings.Contains(errScript.Error(), said) {
				t.Fatalf("%s %v: Go says %q, the script %q", tr.ID.S, answers, said, errScript)
			}
			continue
		}
		var got tree.Path
		script.Into(v, &got)
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("%s %v: %s", tr.ID.S, answers, diff)
		}
		if want.Open != "" {
			open++
		}
	}
	if refused < 100 || open < 100 {
		t.Errorf("only %d refused and %d open walks: the odd answers are not odd enough", refused, open)
	}
}

func oddAnswers(rnd *rand.Rand, tr *tree.Tree) tree.Answers {
	out := tree.Answers{}
	for _, q := range tr.Questions {
		if rnd.IntN(8) == 0 {
			continue
		}
		n := 1
		if rnd.IntN(4) == 0 {
			n = rnd.IntN(4)
		}
		chosen := []string{}
		for range n {
			switch rnd.IntN(12) {
			case 0:
				chosen = append(chosen, "constructor")
			case 1:
				chosen = append(chosen, tree.Skip)
			default:
				chosen = append(chosen, q.Answers[rnd.IntN(len(q.Answers))].ID.S)
			}
		}
		out[q.ID.S] = chosen
	}
	return out
}
