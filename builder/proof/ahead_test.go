package proof_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/proof"
	"keelpath/builder/tree"
)

// What can still be reached from a point of a walk is what some way on reaches, by trying every answer.
func TestAheadAgainstEveryAnswer(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 11))
	points, narrowed := 0, 0
	for range 200 {
		tr := tellingTree(t, rnd)
		var list finding.List
		p, err := proof.Prove(t.Context(), tr, &list)
		if err != nil {
			t.Fatal(err)
		}
		if slices.ContainsFunc(list.Sorted(), func(f finding.Finding) bool { return f.Check == "route-gap" }) {
			continue // some answers lead nowhere, and no path can be made of them
		}
		for given := range proof.SomePaths(tr, 3, 5) {
			path, err := tr.Walk(given)
			if err != nil {
				t.Fatal(err)
			}
			for i, s := range path.Steps {
				known := tr.Made(path.Steps[:i])
				got, ok := p.Ahead(tr, s.Question, known)
				if !ok {
					t.Fatalf("%s could not be searched", tr.ID)
				}
				want, before := map[string]bool{}, tree.Answers{}
				for _, b := range path.Steps[:i] {
					before[b.Question] = b.Chosen
				}
				everyWay(tr, s.Question, known, before, func(d did) { want[d.ending] = true })
				for _, e := range tr.Endings {
					if slices.Contains(got, e.ID.S) != want[e.ID.S] {
						t.Errorf("%s at %s with %v: %v can be reached, and by trying %v", tr.ID, s.Question, known, got, want)
					}
				}
				points++
				if len(got) < len(tr.Endings) {
					narrowed++
				}
			}
			if got, ok := p.Ahead(tr, path.Ending, nil); !ok || !slices.Equal(got, []string{path.Ending}) {
				t.Errorf("at the ending %s, %v can be reached", path.Ending, got)
			}
		}
	}
	if points < 200 || narrowed < 50 {
		t.Errorf("only %d points, %d of them with fewer endings", points, narrowed)
	}
	if _, ok := (&proof.Proof{}).Ahead(tellingTree(t, rnd), "q0", nil); ok {
		t.Error("a tree without a search says what lies ahead")
	}
}
