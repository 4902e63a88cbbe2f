package proof

import (
	"iter"
	"math/big"

	"keelpath/builder/tree"
)

// way is one way on from a question: where it leads, the smallest set of
// answers that takes it, and how many sets do.
type way struct {
	to     string
	chosen []string
	count  *big.Int
}

// ways gives the ways on of a question, in the order of the file. With pick
// any, the sets of answers are counted and not listed: a set takes the way of
// its first answer that has one, so that answer is in, the earlier ones with a
// way are out, and all others are free.
func ways(q *tree.Question) []way {
	var out []way
	one := big.NewInt(1)
	free, later := 0, 0 // answers without a way of their own; with one, not yet passed
	for _, a := range q.Answers {
		switch {
		case q.Pick != tree.PickAny || a.Alone:
		case a.Go.Given():
			later++
		default:
			free++
		}
	}
	smallest := ""
	for _, a := range q.Answers {
		switch {
		case q.Pick != tree.PickAny:
			out = append(out, way{a.Go.S, []string{a.ID.S}, one})
		case a.Alone:
			to := a.Go.S
			if to == "" {
				to = q.Go.S
			}
			out = append(out, way{to, []string{a.ID.S}, one})
		case a.Go.Given():
			later--
			out = append(out, way{a.Go.S, []string{a.ID.S}, new(big.Int).Lsh(one, uint(free+later))})
		case smallest == "":
			smallest = a.ID.S
		}
	}
	if free > 0 && q.Go.Given() {
		sets := new(big.Int).Lsh(one, uint(free))
		out = append(out, way{q.Go.S, []string{smallest}, sets.Sub(sets, one)})
	}
	if q.Skip.Given() {
		out = append(out, way{q.Skip.S, []string{tree.Skip}, one})
	}
	return out
}

// AllPaths lists every path of a tree without circles, as the answers that
// take it. It is for trees whose Paths is small: tests run each one.
func AllPaths(t *tree.Tree) iter.Seq[tree.Answers] {
	return func(yield func(tree.Answers) bool) {
		given := tree.Answers{}
		var visit func(id string) bool
		visit = func(id string) bool {
			q := t.Question(id)
			if q == nil {
				out := tree.Answers{}
				for k, v := range given {
					out[k] = v
				}
				return yield(out)
			}
			for _, set := range sets(q) {
				given[id] = set
				to, _ := q.Next(set)
				if !visit(to) {
					return false
				}
			}
			delete(given, id)
			return true
		}
		visit(t.Start.S)
	}
}

// sets lists everything that can be chosen at a question.
func sets(q *tree.Question) [][]string {
	var out [][]string
	if q.Skip.Given() {
		out = append(out, []string{tree.Skip})
	}
	var together []string
	for _, a := range q.Answers {
		if q.Pick == tree.PickAny && !a.Alone {
			together = append(together, a.ID.S)
		} else {
			out = append(out, []string{a.ID.S})
		}
	}
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
