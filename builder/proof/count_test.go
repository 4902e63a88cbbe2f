package proof_test

import (
	"fmt"
	"maps"
	"math/big"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/formula"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/tree"
)

// The second count of paths. It gives every question every single answer, each
// amount and each set of ticked answers by itself, and knows no classes. It
// remembers what follows a question by the plain answers to those questions that
// a formula ahead names.
type counter struct {
	t       *tree.Tree
	ahead   map[string]map[string]bool
	answers map[string][][]string
	known   map[string]*big.Int
	tried   int // answers given so far
}

func newCounter(tr *tree.Tree) *counter {
	c := &counter{t: tr, ahead: map[string]map[string]bool{}, answers: map[string][][]string{}, known: map[string]*big.Int{}}
	for _, q := range tr.Questions {
		c.answers[q.ID.S] = everyAnswer(q)
		c.ahead[q.ID.S] = map[string]bool{}
		for _, r := range q.Routes {
			c.name(q.ID.S, r.If.Expr)
		}
	}
	for range tr.Questions { // so often that each has passed on what it names
		for _, q := range tr.Questions {
			for _, to := range q.WaysOn() {
				maps.Copy(c.ahead[q.ID.S], c.ahead[to.S])
			}
		}
	}
	return c
}

func (c *counter) name(question string, e *formula.Expr) {
	if e == nil {
		return
	}
	for _, n := range e.Uses() {
		c.ahead[question][n] = true
		for _, w := range c.t.Values {
			if w.ID.S == n {
				c.name(question, w.Is.Expr)
			}
		}
	}
}

// from counts the paths from a place on. given holds what was answered before.
func (c *counter) from(at string, given map[string][]string) *big.Int {
	q := c.t.Question(at)
	switch {
	case q == nil && at == "":
		return new(big.Int) // no way on: no path
	case q == nil:
		return big.NewInt(1)
	}
	key := at
	for _, id := range slices.Sorted(maps.Keys(given)) {
		if c.ahead[at][id] {
			key += "|" + id + "=" + strings.Join(given[id], ",")
		}
	}
	if n := c.known[key]; n != nil {
		return n
	}
	known := map[string]formula.Value{}
	for id, chosen := range given {
		if c.ahead[at][id] {
			known[id] = meaning(c.t.Question(id), chosen)
		}
	}
	next := maps.Clone(given)
	n := new(big.Int)
	for _, chosen := range c.answers[at] {
		c.tried++
		known[at], next[at] = meaning(q, chosen), chosen
		to, _ := q.Next(chosen, c.t.KnownWith(maps.Clone(known)))
		n.Add(n, c.from(to, next))
	}
	c.known[key] = n
	return n
}

func (c *counter) paths() *big.Int { return c.from(c.t.Start.S, map[string][]string{}) }

// Every shipped tree has as many paths as the second count gives.
func TestPathsOfShippedTreesCountedTwice(t *testing.T) {
	l := librarytest.Load(t)
	amounts := 0
	for _, tr := range l.Trees {
		c := newCounter(tr)
		if got, want := l.Proofs[tr.ID.S].Paths, c.paths(); got.Cmp(want) != 0 {
			t.Errorf("%s: the proof counts %s paths, and giving every answer counts %s", tr.ID.S, got, want)
		}
		if l.Proofs[tr.ID.S].Listed.Cmp(l.Proofs[tr.ID.S].Paths) < 0 {
			amounts++
		}
	}
	if amounts < 2 {
		t.Errorf("like amounts are told apart in the count of %d trees only", amounts)
	}
}

// The second count itself, and the proof, against listing every path of random trees.
func TestPathsOfRandomTreesCountedTwice(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 12))
	most := 0
	for i := range 300 {
		src := conditionalTree(rnd)
		if i%3 == 0 {
			src = randomTree(rnd)
		}
		var list finding.List
		tr := tree.Parse("trees/random.yaml", []byte(src), &list)
		p, second, all := proved(t, tr, &list), newCounter(tr).paths(), tryAll(tr).paths
		if fmt.Sprint(all) != second.String() || second.Cmp(p.Paths) != 0 {
			t.Fatalf("tree %d has %d paths; the second count gives %s, the proof %s\n%s", i, all, second, p.Paths, src)
		}
		most = max(most, all)
	}
	if most < 500 {
		t.Errorf("the trees are too plain: at most %d paths", most)
	}
}

// What the rule says, one by one, on a tree that a reader can count.
func TestPathsByHand(t *testing.T) {
	const size = "  q0:\n    text: So?\n    why: To know.\n    measure: { unit: mm, from: 0, to: 9, step: 1 }\n    skip: e0\n"
	const ends = "endings:\n  e0: { title: End, text: Talk. }\n  e1: { title: End, text: Talk. }\n"
	for _, c := range []struct {
		name, questions string
		want            int64
	}{
		{"an answer", "  q0:\n    text: So?\n    why: To know.\n    answers: { a: { text: A, go: e0 }, b: { text: B, go: e0 }, unsure: { text: Not sure, go: e1 } }\n", 3},
		{"a set of ticked answers", "  q0:\n    text: So?\n    why: To know.\n    pick: any\n    go: e0\n    skip: e1\n    answers: { a: { text: A }, b: { text: B }, none: { text: None, alone: true } }\n", 5},
		{"an amount that nothing asks for", size + "    go: e1\n", 11},
		{"an amount that one condition parts", size + "    routes: [{ if: q0 > 3*mm, go: e1 }, { go: e0 }]\n", 11},
		{"two amounts held against each other", strings.Replace(size, "skip: e0", "skip: q1", 1) + "    go: q1\n" +
			strings.ReplaceAll(size, "q0", "q1") + "    routes: [{ if: q1 > q0, go: e1 }, { go: e0 }]\n", 121},
	} {
		var list finding.List
		tr := tree.Parse("trees/random.yaml", []byte(header+"questions:\n"+c.questions+ends), &list)
		if list.Errors() > 0 {
			t.Fatal(list.Sorted())
		}
		if got := proved(t, tr, &list).Paths.Int64(); got != c.want {
			t.Errorf("%s: %d paths, want %d", c.name, got, c.want)
		}
	}
}
