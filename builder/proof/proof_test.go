package proof_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/finding"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/proof"
	"keelpath/builder/tree"
)

const header = `tree: random
title: Random
purpose: A random tree.
authors: [Us]
reviewers: []
reviewed: 2026-11-25
review-by: 2028-11-25
funding: None.
start: q0
`

// randomTree writes a tree without circles: ways on lead to later questions or
// to endings. Some questions may be out of reach.
func randomTree(rnd *rand.Rand) string {
	var b strings.Builder
	b.WriteString(header + "questions:\n")
	n, ends := 1+rnd.IntN(5), 1+rnd.IntN(4)
	for i := range n {
		to := func() string {
			if k := i + 1 + rnd.IntN(n-i+1); k < n {
				return fmt.Sprintf("q%d", k)
			}
			return fmt.Sprintf("e%d", rnd.IntN(ends))
		}
		fmt.Fprintf(&b, "  q%d:\n    text: Is it so?\n    why: To know.\n", i)
		several, open := rnd.IntN(2) == 0, rnd.IntN(3) > 0
		if several {
			b.WriteString("    pick: any\n")
			if open {
				fmt.Fprintf(&b, "    go: %s\n", to())
			}
		}
		b.WriteString("    answers:\n")
		for j := range 1 + rnd.IntN(4) {
			extra := ""
			if !several || !open || rnd.IntN(2) == 0 {
				extra += ", go: " + to()
			}
			if several && rnd.IntN(3) == 0 {
				extra += ", alone: true"
			}
			if rnd.IntN(3) == 0 {
				extra += fmt.Sprintf(", cards: [c%d]", rnd.IntN(3))
			}
			fmt.Fprintf(&b, "      a%d: { text: So%s }\n", j, extra)
		}
		fmt.Fprintf(&b, "    skip: %s\n", to())
	}
	b.WriteString("endings:\n")
	for i := range ends {
		fmt.Fprintf(&b, "  e%d: { title: End, text: Talk. }\n", i)
	}
	return b.String()
}

// What the proof says of random trees, against walking every path of each.
func TestProofAgainstEveryPath(t *testing.T) {
	rnd := rand.New(rand.NewPCG(2026, 11))
	most, unreached := 0, 0
	for i := range 400 {
		src := randomTree(rnd)
		var list finding.List
		tr := tree.Parse("trees/random.yaml", []byte(src), &list)
		if list.Errors() > 0 {
			t.Fatalf("tree %d is not sound: %v\n%s", i, list.Sorted(), src)
		}
		p := proved(t, tr, &list)
		b := walkAll(t, tr)
		if got := p.Paths.String(); got != fmt.Sprint(b.paths) {
			t.Fatalf("tree %d: the proof counts %s paths, and there are %d\n%s", i, got, b.paths, src)
		}
		if p.Longest != b.longest {
			t.Fatalf("tree %d: the proof's longest path has %d questions, and the true one %d\n%s", i, p.Longest, b.longest, src)
		}
		for q, n := range b.left {
			if p.Left[q] != n {
				t.Fatalf("tree %d: after %s come at most %d by the proof, and %d in truth\n%s", i, q, p.Left[q], n, src)
			}
		}
		for _, id := range placesOf(tr) {
			w, reached := p.Witness[id]
			steps, walked := b.nearest[id]
			if reached != walked {
				t.Fatalf("tree %d: %s is reached by the proof: %v, by walking: %v\n%s", i, id, reached, walked, src)
			}
			if !reached {
				unreached++
				continue
			}
			if len(w) != steps {
				t.Fatalf("tree %d: the way to %s takes %d answers, and %d suffice\n%s", i, id, len(w), steps, src)
			}
			mustReach(t, tr, id, w)
		}
		most = max(most, b.paths)
	}
	if most < 100 || unreached < 20 {
		t.Errorf("the trees are too plain: at most %d paths, and %d places out of reach", most, unreached)
	}
}

// walkedAll is what walking every path of a tree shows.
type walkedAll struct {
	paths, longest int
	left           map[string]int // most questions after one
	nearest        map[string]int // least questions before a question or an ending
}

func walkAll(t *testing.T, tr *tree.Tree) walkedAll {
	b := walkedAll{left: map[string]int{}, nearest: map[string]int{}}
	near := func(id string, n int) {
		if old, ok := b.nearest[id]; !ok || n < old {
			b.nearest[id] = n
		}
	}
	for answers := range proof.AllPaths(tr) {
		p, err := tr.Walk(answers)
		if err != nil || p.Ending == "" {
			t.Fatalf("%v does not lead to an ending: %+v %v", answers, p, err)
		}
		b.paths++
		b.longest = max(b.longest, len(p.Steps))
		for i, s := range p.Steps {
			b.left[s.Question] = max(b.left[s.Question], len(p.Steps)-i-1)
			near(s.Question, i)
		}
		near(p.Ending, len(p.Steps))
	}
	return b
}

func placesOf(tr *tree.Tree) []string {
	var out []string
	for _, q := range tr.Questions {
		out = append(out, q.ID.S)
	}
	for _, e := range tr.Endings {
		out = append(out, e.ID.S)
	}
	return out
}

// mustReach walks a witness and nothing else.
func mustReach(t *testing.T, tr *tree.Tree, goal string, w proof.Witness) {
	t.Helper()
	given := tree.Answers{}
	for _, g := range w {
		given[g.Question] = g.Chosen
	}
	p, err := tr.Walk(given)
	if err != nil || (p.Open != goal && p.Ending != goal) {
		t.Errorf("tree %s: %q was to lead to %s, and leads to %q%q (%v)", tr.ID.S, w, goal, p.Open, p.Ending, err)
	}
	if len(p.Steps) != len(w) {
		t.Errorf("tree %s: %q holds answers that the way to %s does not need", tr.ID.S, w, goal)
	}
}

// Every question and ending of the shipped trees can be reached, as the proof says.
func TestWitnessesOfShippedTrees(t *testing.T) {
	l := librarytest.Load(t)
	if len(l.Trees) < 5 {
		t.Fatalf("only %d trees are shipped", len(l.Trees))
	}
	for _, tr := range l.Trees {
		t.Run(tr.ID.S, func(t *testing.T) {
			for _, id := range placesOf(tr) {
				w, ok := l.Proofs[tr.ID.S].Witness[id]
				if !ok {
					t.Errorf("%s has no witness", id)
				}
				mustReach(t, tr, id, w)
			}
		})
	}
}

// The sets of answers are counted and never listed, so a wide tree costs nothing.
func TestCountOfAWideTree(t *testing.T) {
	var b strings.Builder
	b.WriteString(header + "questions:\n")
	const questions, answers = 30, 20
	for i := range questions {
		next := "end"
		if i+1 < questions {
			next = fmt.Sprintf("q%d", i+1)
		}
		fmt.Fprintf(&b, "  q%d:\n    text: Is it so?\n    why: To know.\n    pick: any\n    go: %s\n    skip: %s\n    answers:\n", i, next, next)
		for j := range answers {
			fmt.Fprintf(&b, "      a%d: { text: So, cards: [c%d] }\n", j, j)
		}
	}
	b.WriteString("endings:\n  end: { title: End, text: Talk. }\n")
	var list finding.List
	p := proved(t, tree.Parse("trees/random.yaml", []byte(b.String()), &list), &list)
	if list.Len() > 0 {
		t.Fatal(list.Sorted())
	}
	// 2^20-1 sets and a skip at each question: 2^20 to the 30th.
	if p.Paths.BitLen() != 20*30+1 || p.Paths.TrailingZeroBits() != 20*30 {
		t.Errorf("%s paths", p.Paths)
	}
	if p.Longest != questions {
		t.Errorf("the longest has %d", p.Longest)
	}
}

func TestWitnessInWords(t *testing.T) {
	for _, c := range []struct {
		name string
		w    proof.Witness
		want string
	}{
		{"at the start", nil, "the start"},
		{"two answers", proof.Witness{{Question: "a", Chosen: []string{"x"}}, {Question: "b", Chosen: []string{"y", "z"}}}, "a=x b=y,z"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if diff := cmp.Diff(c.want, c.w.String()); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// A tree with a circle still comes back, with what can be known of it.
func TestProofOfACircle(t *testing.T) {
	src := header + `questions:
  q0: { text: "So?", why: To know., answers: { a: { text: So, go: q1 } }, skip: end }
  q1: { text: "So?", why: To know., answers: { a: { text: So, go: q0 } }, skip: end }
endings:
  end: { title: End, text: Talk. }
`
	var list finding.List
	p := proved(t, tree.Parse("trees/random.yaml", []byte(src), &list), &list)
	if list.Len() != 1 || list.Sorted()[0].Check != "circle" {
		t.Errorf("findings: %v", list.Sorted())
	}
	if p.Longest != 0 || p.Paths.Sign() != 0 {
		t.Errorf("a path without end has %d questions and is one of %s", p.Longest, p.Paths)
	}
	if got := p.Witness["q1"].String(); got != "q0=a" {
		t.Errorf("the way to q1 is %q", got)
	}
}

// proved is proof.Prove, which only a context that ends can stop.
func proved(tb testing.TB, tr *tree.Tree, list *finding.List) *proof.Proof {
	tb.Helper()
	p, err := proof.Prove(tb.Context(), tr, list)
	if err != nil {
		tb.Fatal(err)
	}
	return p
}
