package tree

import (
	"fmt"
	"slices"

	"keelpath/builder/read"
)

// Answers holds what a reader answered: question id to chosen answer ids.
// A skipped question holds just Skip. A question may have answers although
// the path does not come by it; they are kept and not used.
type Answers map[string][]string

// Step is one question of a path with what was chosen there.
type Step struct {
	Question string   `json:"question"`
	Chosen   []string `json:"chosen"`
}

// Path is how far a walk came. Exactly one of Open and Ending is set: the
// question that waits for an answer, or the ending reached.
type Path struct {
	Steps  []Step   `json:"steps"`
	Open   string   `json:"open,omitempty"`
	Ending string   `json:"ending,omitempty"`
	Cards  []string `json:"cards"` // in the order in which they were added, each once
}

// Walk follows the answers from the start. It is an error if an answer on the
// path is not one the question takes, or if the tree itself does not lead on
// (which the checker would have reported).
func (t *Tree) Walk(given Answers) (Path, error) {
	p := Path{Steps: []Step{}, Cards: []string{}}
	at := t.Start.S
	for range len(t.Questions) + 1 {
		if t.Ending(at) != nil {
			p.Ending = at
			return p, nil
		}
		q := t.Question(at)
		if q == nil {
			return p, fmt.Errorf("tree %q has no question or ending %q", t.ID.S, at)
		}
		chosen, ok := given[at]
		if !ok {
			p.Open = at
			return p, nil
		}
		if err := q.Accepts(chosen); err != nil {
			return p, err
		}
		next, cards := q.Next(chosen)
		p.Steps = append(p.Steps, Step{Question: at, Chosen: q.inOrder(chosen)})
		for _, c := range cards {
			if !slices.Contains(p.Cards, c) {
				p.Cards = append(p.Cards, c)
			}
		}
		at = next
	}
	return p, fmt.Errorf("tree %q runs in a circle at %q", t.ID.S, at)
}

// Next gives where accepted answers lead and which cards they add. With several
// answers the first one in the file that has a way of its own decides, so an
// author puts the grave ones first; where none has, the question's own way counts.
func (q *Question) Next(chosen []string) (to string, cards []string) {
	if len(chosen) == 1 && chosen[0] == Skip && q.Skip.Given() {
		return q.Skip.S, nil
	}
	for _, a := range q.Answers {
		if !slices.Contains(chosen, a.ID.S) {
			continue
		}
		if to == "" {
			to = a.Go.S
		}
		for _, c := range a.Cards {
			cards = append(cards, c.S)
		}
	}
	if to == "" {
		to = q.Go.S
	}
	return to, cards
}

// inOrder gives the chosen answers in the order of the file.
func (q *Question) inOrder(chosen []string) []string {
	out := make([]string, 0, len(chosen))
	for _, a := range q.Answers {
		if slices.Contains(chosen, a.ID.S) {
			out = append(out, a.ID.S)
		}
	}
	if len(out) == 0 {
		return chosen // skipped
	}
	return out
}

// Given gives the example's answers in the form that Walk takes.
func (e *Example) Given() Answers {
	out := Answers{}
	for _, g := range e.Answers {
		out[g.Question.S] = read.Strings(g.Chosen)
	}
	return out
}
