package proof_test

import (
	"iter"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/clienttest"
	"keelpath/builder/finding"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/proof"
	"keelpath/builder/quantity"
	"keelpath/builder/tree"
)

// slopes reads the test tree with every kind of way on.
func slopes(t *testing.T) *tree.Tree { t.Helper(); return good(t, "slopes") }

// inchesAndPounds reads the one whose measures decide the way, do not count in
// canonical units, and begin elsewhere than at 0.
func inchesAndPounds(t *testing.T) *tree.Tree { t.Helper(); return good(t, "inches") }

func good(t *testing.T, name string) *tree.Tree {
	t.Helper()
	src, err := os.ReadFile("../../testdata/good/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	var list finding.List
	tr := tree.Parse("trees/"+name+".yaml", src, &list)
	for _, f := range list.Sorted() {
		t.Errorf("%s: %s", f.Place, f.Text)
	}
	if tr == nil {
		t.Fatal("no tree")
	}
	return tr
}

func treesAndSlopes(t *testing.T) []*tree.Tree {
	t.Helper()
	return append([]*tree.Tree{slopes(t), inchesAndPounds(t)}, librarytest.Load(t).Trees...)
}

// budget is how many changed answers one tree may cost the script in a test.
const budget = 4_000

// On every path of every tree Go and the browser list the same changes. Where
// there are too many to try, paths are drawn from a seed.
func TestChangesAgree(t *testing.T) {
	script := clienttest.Load(t, "walk/changes.ts")
	units := script.Value(quantity.Table())
	for _, tr := range treesAndSlopes(t) {
		t.Run(tr.ID.S, func(t *testing.T) {
			table := script.Value(tr.Table(nil))
			n := 0
			for given := range sampled(tr) {
				n++
				want := tr.Changes(given)
				v, err := script.Call("changes", table, script.Value(given), units)
				if err != nil {
					t.Fatalf("%v: the script stops: %v", given, err)
				}
				var got []tree.Change
				script.Into(v, &got)
				if len(want)+len(got) > 0 && !cmp.Equal(want, got) {
					t.Fatalf("%v: Go and the script differ:\n%s", given, cmp.Diff(want, got))
				}
			}
			if n == 0 {
				t.Error("no path was tried")
			}
			t.Logf("%d paths", n)
		})
	}
}

// sampled gives paths of a tree, all of them where the budget allows, with
// answers to questions off the path for every other one.
func sampled(tr *tree.Tree) iter.Seq[tree.Answers] {
	cost := 1
	for _, q := range tr.Questions {
		if cost += len(q.Answers); q.Measure != nil {
			cost += q.Measure.Answers()
		}
	}
	rnd := rand.New(rand.NewPCG(8, 3))
	var all []tree.Answers
	for given := range proof.AllPaths(tr) {
		if all = append(all, given); len(all) == 100_000 {
			break
		}
	}
	rnd.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	return func(yield func(tree.Answers) bool) {
		for i, given := range all[:min(len(all), max(budget/cost, 20))] {
			if i%2 == 1 {
				fillIn(rnd, tr, given)
			}
			if !yield(given) {
				return
			}
		}
	}
}

// fillIn answers questions that the path does not come by.
func fillIn(rnd *rand.Rand, tr *tree.Tree, given tree.Answers) {
	for _, q := range tr.Questions {
		if _, ok := given[q.ID.S]; ok {
			continue
		}
		if q.Measure != nil {
			given[q.ID.S] = []string{q.Measure.Typed(rnd.IntN(q.Measure.Answers()))}
		} else {
			given[q.ID.S] = []string{q.Answers[rnd.IntN(len(q.Answers))].ID.S}
		}
	}
}

// Each change, walked, leads where it says, and every single other answer that
// is not listed leads to the same ending.
func TestChangesAreAllAndTrue(t *testing.T) {
	for _, tr := range treesAndSlopes(t) {
		t.Run(tr.ID.S, func(t *testing.T) {
			for given := range sampled(tr) {
				changes := tr.Changes(given)
				path, err := tr.Walk(given)
				if err != nil {
					t.Fatal(err)
				}
				for _, s := range path.Steps {
					q := tr.Question(s.Question)
					for _, other := range others(q, s.Chosen) {
						holdsChange(t, tr, given, q, other, changes, path.Ending)
					}
				}
			}
		})
	}
}

// others lists single other answers, found apart from the code under test.
func others(q *tree.Question, now []string) [][]string {
	var out [][]string
	if q.Measure != nil {
		step := max(1, q.Measure.Answers()/40)
		for i := 0; i < q.Measure.Answers(); i += step {
			out = append(out, []string{q.Measure.Typed(i)})
		}
	}
	for _, a := range q.Answers {
		id := a.ID.S
		switch on := slices.Contains(now, id); {
		case q.Pick == tree.PickAny && on && len(now) > 1:
			out = append(out, slices.DeleteFunc(slices.Clone(now), func(s string) bool { return s == id }))
		case on:
		case q.Pick == tree.PickAny && !a.Alone && now[0] != tree.Skip && !q.Answer(now[0]).Alone:
			out = append(out, append(slices.Clone(now), id))
		default:
			out = append(out, []string{id})
		}
	}
	if q.Skip.Given() && now[0] != tree.Skip {
		out = append(out, []string{tree.Skip})
	}
	return out
}

func holdsChange(t *testing.T, tr *tree.Tree, given tree.Answers, q *tree.Question, other []string, changes []tree.Change, ending string) {
	t.Helper()
	more := tree.Answers{}
	for k, v := range given {
		more[k] = v
	}
	more[q.ID.S] = other
	path, err := tr.Walk(more)
	if err != nil {
		t.Fatal(err)
	}
	var found *tree.Change
	for i, c := range changes {
		if c.Question == q.ID.S && means(q, c, other) {
			found = &changes[i]
		}
	}
	switch {
	case found == nil && path.Ending != ending:
		t.Fatalf("%v: %s=%v leads to %q%q, and that is not listed", given, q.ID.S, other, path.Ending, path.Open)
	case found != nil && (path.Ending == ending || found.Ending != path.Ending || found.Open != path.Open):
		t.Fatalf("%v: %s=%v leads to %q%q, and %+v is listed", given, q.ID.S, other, path.Ending, path.Open, *found)
	}
}

// means tells whether a change is the one to this answer.
func means(q *tree.Question, c tree.Change, other []string) bool {
	if c.Range == nil || other[0] == tree.Skip {
		a, b := slices.Clone(c.Chosen), slices.Clone(other)
		slices.Sort(a)
		slices.Sort(b)
		return slices.Equal(a, b)
	}
	v, err := q.Measure.Read(other[0])
	return err == nil && v.Num >= c.Range.From-1e-9 && v.Num <= c.Range.To+1e-9
}

// The list of one path, in full.
func TestChanges(t *testing.T) {
	got := slopes(t).Changes(tree.Answers{"safety": {"no"}, "steepness": {"ramp"}, "where": {"home"}})
	want := []tree.Change{
		{Question: "safety", Answer: "yes", Chosen: []string{"yes"}, Ending: "stop"},
		{Question: "steepness", Range: &tree.Range{From: 0.09, To: 0.265}, Open: "usual"},
		{Question: "steepness", Range: &tree.Range{From: 0.27, To: 0.4}, Ending: "steep"},
		{Question: "where", Answer: "hills", Chosen: []string{"hills", "home"}, Open: "usual"},
		{Question: "where", Answer: "skip", Chosen: []string{"skip"}, Open: "usual"},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if got := slopes(t).Changes(tree.Answers{"safety": {"no"}}); got != nil {
		t.Errorf("a path that has no ending yet has changes: %+v", got)
	}
}
