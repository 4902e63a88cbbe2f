package proof

import (
	"context"
	"iter"
	"math/rand/v2"

	"keelpath/builder/finding"
	"keelpath/builder/tree"
)

// AllPaths lists the paths of a tree without circles, as the answers that take
// them. It is for trees whose Listed is small: tests run each one. Amounts that
// nothing in the tree tells apart stand in it once, so that they are fewer than Paths.
func AllPaths(t *tree.Tree) iter.Seq[tree.Answers] {
	return func(yield func(tree.Answers) bool) {
		s, ok := (&prover{ctx: context.Background(), t: t, list: &finding.List{}}).search()
		if !ok {
			return
		}
		var visit func(st *state, given tree.Answers) bool
		visit = func(st *state, given tree.Answers) bool {
			id := st.question.ID.S
			for _, on := range st.on {
				for _, set := range s.members(st.question, on.choice) {
					more := tree.Answers{id: set}
					for k, v := range given {
						more[k] = v
					}
					if on.to == nil && !yield(more) || on.to != nil && !visit(on.to, more) {
						return false
					}
				}
			}
			return true
		}
		visit(s.states[0], tree.Answers{})
	}
}

// SomePaths draws n paths with a seed, for trees that have too many to list:
// at each question one choice, each as likely as the others.
func SomePaths(t *tree.Tree, n int, seed uint64) iter.Seq[tree.Answers] {
	return func(yield func(tree.Answers) bool) {
		s, ok := (&prover{ctx: context.Background(), t: t, list: &finding.List{}}).search()
		if !ok {
			return
		}
		rnd := rand.New(rand.NewPCG(seed, 0))
		for range n {
			given := tree.Answers{}
			for st := s.states[0]; st != nil; {
				on := st.on[rnd.IntN(len(st.on))]
				all := s.members(st.question, on.choice)
				given[st.question.ID.S] = all[rnd.IntN(len(all))]
				st = on.to
			}
			if !yield(given) {
				return
			}
		}
	}
}

// members lists the answers of a class. Those of a pick-any question are the
// sets that the class counts.
func (s *search) members(q *tree.Question, c *choice) [][]string {
	if q.Pick != tree.PickAny || q.Measure != nil || c.count.IsInt64() && c.count.Int64() == 1 {
		return [][]string{c.chosen}
	}
	if s.bySet == nil {
		s.bySet = map[string][][]string{}
	}
	key := q.ID.S
	if _, ok := s.bySet[key]; !ok {
		s.bySet[key] = sets(q)
	}
	var out [][]string
	for _, set := range s.bySet[key] {
		if s.sameClass(q, set, c) {
			out = append(out, set)
		}
	}
	return out
}

// sameClass tells whether a set takes the same way as the class and looks the
// same to conditions.
func (s *search) sameClass(q *tree.Question, set []string, c *choice) bool {
	if first(q, set) != first(q, c.chosen) {
		return false
	}
	for _, a := range s.asked[q.ID.S] {
		if has(set, a) != has(c.chosen, a) {
			return false
		}
	}
	return true
}

// first gives the chosen answer that decides the way: the first in the file
// with a way of its own. An answer that stands alone is a class by itself.
func first(q *tree.Question, set []string) string {
	for _, a := range q.Answers {
		if has(set, a.ID.S) && (a.Go.Given() || a.Alone) {
			return a.ID.S
		}
	}
	return ""
}

func has(set []string, id string) bool {
	for _, s := range set {
		if s == id {
			return true
		}
	}
	return false
}

// sets lists the sets of answers that can be chosen together.
func sets(q *tree.Question) [][]string {
	var together []string
	for _, a := range q.Answers {
		if !a.Alone {
			together = append(together, a.ID.S)
		}
	}
	var out [][]string
	for mask := 1; mask < 1<<len(together); mask++ {
		var set []string
		for i, id := range together {
			if mask&(1<<i) != 0 {
				set = append(set, id)
			}
		}
		out = append(out, set)
	}
	return out
}
