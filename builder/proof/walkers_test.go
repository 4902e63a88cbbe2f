package proof_test

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/dop251/goja"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"keelpath/builder/clienttest"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/proof"
	"keelpath/builder/quantity"
	"keelpath/builder/tree"
)

// most is how many paths of one tree are run: all where there are no more, else
// as many drawn from a seed.
const most = 10_000

// Every path of every shipped tree, through Go's Walk and through the browser's
// walker: the same steps, cards, amounts and ending.
func TestWalkersAgreeOnEveryPath(t *testing.T) {
	l := librarytest.Load(t)
	script := clienttest.Load(t, "walk/walker.ts")
	units := script.Value(quantity.Table())
	for _, tr := range l.Trees {
		t.Run(tr.ID.S, func(t *testing.T) {
			paths := l.Proofs[tr.ID.S].Listed
			all := paths.Cmp(big.NewInt(most)) <= 0
			answers := proof.SomePaths(tr, most, 1)
			if all {
				answers = proof.AllPaths(tr)
			}
			table := script.Value(tr.Table(l.Proofs[tr.ID.S].Left))
			n := 0
			for given := range answers {
				n++
				want, err := tr.Walk(given)
				if err != nil || want.Ending == "" {
					t.Fatalf("%v: Go stops: %v %+v", given, err, want)
				}
				v, err := script.Call("walk", table, script.Value(given), units)
				if err != nil {
					t.Fatalf("%v: the script stops: %v", given, err)
				}
				var got tree.Path
				script.Into(v, &got)
				if diff := cmp.Diff(want, got, cmpopts.EquateApprox(0, 1e-9)); diff != "" {
					t.Fatalf("%v: Go and the script differ:\n%s", given, diff)
				}
			}
			if all && fmt.Sprint(n) != paths.String() {
				t.Errorf("%d paths were walked, and the proof lists %s", n, paths)
			}
		})
	}
}

// Answers that no page would give: both walkers must refuse the same ones, and
// stop at the same question where one is missing.
func TestWalkersAgreeOnOddAnswers(t *testing.T) {
	l := librarytest.Load(t)
	script := clienttest.Load(t, "walk/walker.ts")
	units := script.Value(quantity.Table())
	tables := map[string]goja.Value{}
	for _, tr := range l.Trees {
		tables[tr.ID.S] = script.Value(tr.Table(nil))
	}
	rnd := rand.New(rand.NewPCG(1, 2))
	refused, open := 0, 0
	for range 4000 {
		tr := l.Trees[rnd.IntN(len(l.Trees))]
		answers := oddAnswers(rnd, tr)
		want, errGo := tr.Walk(answers)
		v, errScript := script.Call("walk", tables[tr.ID.S], script.Value(answers), units)
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
		if diff := cmp.Diff(want, got, cmpopts.EquateApprox(0, 1e-9)); diff != "" {
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

// Two amounts to one question are refused by both, and by the same words, though
// each alone would do.
func TestWalkersRefuseTwoAmounts(t *testing.T) {
	script := clienttest.Load(t, "walk/walker.ts")
	units := script.Value(quantity.Table())
	tr := inchesAndPounds(t)
	given := tree.Answers{"lift": {"1 in", "30 mm"}}
	const want = `question "lift" takes one answer, and 2 were given`
	if _, err := tr.Walk(given); err == nil || err.Error() != want {
		t.Errorf("Go says %v", err)
	}
	if v, err := script.Call("walk", script.Value(tr.Table(nil)), script.Value(given), units); err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("the script says %v, %v", v, err)
	}
	for _, one := range given["lift"] {
		if err := tr.Question("lift").Accepts([]string{one}); err != nil {
			t.Error(err)
		}
	}
}

func oddAnswers(rnd *rand.Rand, tr *tree.Tree) tree.Answers {
	out := tree.Answers{}
	for _, q := range tr.Questions {
		if rnd.IntN(8) == 0 {
			continue
		}
		if q.Measure != nil {
			typed := []string{"12 %", "1:12", "38 mm", "1 1/2 in", "70 kg", "-3", "", "ten", "9999", "5 deg", tree.Skip}
			out[q.ID.S] = []string{typed[rnd.IntN(len(typed))]}
			if rnd.IntN(6) == 0 { // two amounts, each of which might do
				out[q.ID.S] = append(out[q.ID.S], typed[rnd.IntN(len(typed))])
			}
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
