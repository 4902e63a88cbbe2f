package proof

import (
	"math/big"
	"slices"

	"keelpath/builder/formula"
	"keelpath/builder/tree"
)

// choice is a class of answers to one question that nothing in the tree tells
// apart: a smallest member, how many there are, and what a formula sees of it.
type choice struct {
	chosen []string
	value  formula.Value
	count  *big.Int
}

// maxAsked is how many answers of one question conditions may ask for: every
// combination of them is a class of its own.
const maxAsked = 12

var one = big.NewInt(1)

// choices gives the classes of answers to q, in the order of the file, the
// skip last. ok is false where there are too many.
func (s *search) choices(q *tree.Question) (out []choice, ok bool) {
	switch {
	case q.Measure != nil:
		if out, ok = s.amounts(q); !ok {
			return nil, false
		}
	case q.Pick == tree.PickAny:
		if out, ok = s.sets(q); !ok {
			return nil, false
		}
	default:
		for _, a := range q.Answers {
			out = append(out, choice{[]string{a.ID.S}, seen(a.ID.S), one})
		}
	}
	if q.Skip.Given() {
		out = append(out, choice{[]string{tree.Skip}, formula.Value{}, one})
	}
	return out, true
}

// seen is what a formula sees of chosen answers; "not sure" is unknown.
func seen(ids ...string) formula.Value {
	if slices.Contains(ids, tree.Unsure) {
		return formula.Value{}
	}
	return formula.Value{Known: true, Chosen: ids}
}

// sets classes the answers of a pick-any question. Answers that conditions ask
// for are tried in every combination; of the others only the first that has a
// way of its own matters, so the rest are counted and not listed.
func (s *search) sets(q *tree.Question) ([]choice, bool) {
	var together, asked []*tree.Answer
	var alone []choice
	for _, a := range q.Answers {
		switch {
		case a.Alone:
			alone = append(alone, choice{[]string{a.ID.S}, seen(a.ID.S), one})
		case slices.Contains(s.asked[q.ID.S], a.ID.S):
			asked = append(asked, a)
			together = append(together, a)
		default:
			together = append(together, a)
		}
	}
	if len(asked) > maxAsked {
		return nil, false
	}
	var out []choice
	for mask := range 1 << len(asked) {
		in := map[*tree.Answer]bool{}
		for i, a := range asked {
			in[a] = mask&(1<<i) != 0
		}
		out = append(out, combined(together, in)...)
	}
	return append(out, alone...), true
}

// combined gives the classes of sets in which the answers of in are settled.
func combined(together []*tree.Answer, in map[*tree.Answer]bool) []choice {
	var base []string
	free, later := 0, 0 // not settled: without a way of their own; with one and not yet passed
	first := ""
	for _, a := range together {
		switch yes, settled := in[a]; {
		case settled && yes:
			base = append(base, a.ID.S)
		case settled:
		case a.Go.Given():
			later++
		default:
			if free++; first == "" {
				first = a.ID.S
			}
		}
	}
	var out []choice
	add := func(ids []string, n *big.Int) {
		out = append(out, choice{ids, seen(ids...), n})
	}
	for _, a := range together {
		if !a.Go.Given() {
			continue
		}
		if yes, settled := in[a]; settled {
			if yes { // decides the way, whatever comes after it
				add(base, power(free+later))
				return out
			}
			continue
		}
		later--
		add(append(slices.Clone(base), a.ID.S), power(free+later))
	}
	rest := power(free)
	if len(base) == 0 {
		rest.Sub(rest, big.NewInt(1)) // the empty set is no answer
		base = []string{first}
	}
	if rest.Sign() > 0 {
		add(base, rest)
	}
	return out
}

func power(n int) *big.Int { return new(big.Int).Lsh(big.NewInt(1), uint(n)) }

// amounts classes the amounts of a measure: two are in one class where every
// condition sees the same in both. A condition that weighs the measure against
// another answer may see anything, so there each amount is its own class.
// ok is false where that would be too much work.
func (s *search) amounts(q *tree.Question) (out []choice, ok bool) {
	m := q.Measure
	parts, mixed := s.parts(q.ID.S)
	n := m.Answers()
	if len(parts) == 0 && !mixed {
		return []choice{{[]string{m.Typed(0)}, formula.Of(m.At(0)), big.NewInt(int64(n))}}, true
	}
	if s.work += n * (1 + len(parts)); s.work > maxWork || mixed && n > maxStates {
		return nil, false
	}
	class := map[string]int{} // where each stands in out
	key := make([]byte, len(parts))
	for i := range n {
		if s.ctx.Err() != nil {
			return nil, false
		}
		value := formula.Of(m.At(i))
		known := s.only(q.ID.S, value)
		for j, e := range parts {
			key[j] = looks(e.Eval(known))
		}
		j, found := class[string(key)]
		if mixed || !found {
			j, class[string(key)] = len(out), len(out)
			out = append(out, choice{[]string{m.Typed(i)}, value, new(big.Int)})
		}
		out[j].count.Add(out[j].count, one)
	}
	return out, true
}

// looks gives a sign for what a condition came to.
func looks(v formula.Value) byte {
	switch {
	case !v.Known:
		return '?'
	case v.Truth:
		return 'T'
	}
	return 'F'
}

// only knows one answer, and worked-out values that need no other.
func (s *search) only(id string, value formula.Value) func(string) formula.Value {
	return s.t.KnownWith(map[string]formula.Value{id: value}).Value
}
