package proof

import (
	"slices"
	"strings"

	"keelpath/builder/formula"
	"keelpath/builder/tree"
)

// Chart is a tree as the proof sees it: states in place of paths. It is for
// what writes a tree's logic down in another form.
type Chart struct {
	States []*State // the first one is the start

	s *search
}

// State is a question together with those earlier answers that a condition at
// it, or after it, asks for. One that is not known was skipped, answered with
// "not sure" or not asked.
type State struct {
	Question *tree.Question
	Known    map[string]formula.Value // question id to an answer that stands for its class
	Ways     []Way
}

// Way is where one class of answers leads: to a state or, where To is nil, to
// an ending.
type Way struct {
	Chosen []string // one of the class
	Value  formula.Value
	Cards  []string // that a route adds; those of the answers come on top
	To     *State
	Ending string
}

// Chart is the proof's chart, with the questions of t: the tree that was proved, or
// the same text read again. ok is false where the tree could not be searched.
func (p *Proof) Chart(t *tree.Tree) (c *Chart, ok bool) {
	if p.search == nil {
		return nil, false
	}
	out, of := &Chart{s: p.search}, map[*state]*State{}
	for _, st := range p.search.states {
		of[st] = &State{Question: t.Question(st.question.ID.S), Known: st.known}
		out.States = append(out.States, of[st])
	}
	for _, st := range p.search.states {
		for _, on := range st.on {
			of[st].Ways = append(of[st].Ways, Way{on.choice.chosen, on.choice.value, strings.Fields(on.cards), of[on.to], on.ending})
		}
	}
	return out, true
}

// Asked gives the answers of a question that conditions ask for, in the order of the file.
func (c *Chart) Asked(q *tree.Question) []string {
	var out []string
	for _, a := range q.Answers {
		if slices.Contains(c.s.asked[q.ID.S], a.ID.S) {
			out = append(out, a.ID.S)
		}
	}
	return out
}

// Live gives the earlier questions whose answers tell the states of q apart, sorted.
func (c *Chart) Live(q *tree.Question) []string {
	var out []string
	for _, id := range c.s.live[q.ID.S] {
		if id != q.ID.S && slices.ContainsFunc(c.States, func(st *State) bool {
			_, ok := st.Known[id]
			return ok && st.Question == q
		}) {
			out = append(out, id)
		}
	}
	return out
}

// Classes gives for each amount of a measure, by its number, the number of the
// first one that nothing in the tree tells apart from it.
func (c *Chart) Classes(q *tree.Question) []int {
	m := q.Measure
	out := make([]int, m.Answers())
	parts, mixed := c.s.parts(q.ID.S)
	first := map[string]int{}
	key := make([]byte, len(parts))
	for i := range out {
		known := c.s.only(q.ID.S, formula.Of(m.At(i)))
		for j, e := range parts {
			key[j] = looks(e.Eval(known))
		}
		k, ok := first[string(key)]
		if !ok || mixed {
			k = i
			first[string(key)] = i
		}
		out[i] = k
	}
	return out
}
