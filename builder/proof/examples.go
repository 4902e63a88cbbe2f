package proof

import (
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// examples walks each worked example and reports one that lands elsewhere.
func (p *prover) examples() {
	for _, e := range p.t.Examples {
		if p.known(e) {
			p.example(e)
		}
	}
}

// known tells whether the example names only what the tree has; where it does
// not, that has been reported and a walk would only repeat it.
func (p *prover) known(e *tree.Example) bool {
	for _, g := range e.Answers {
		q := p.t.Question(g.Question.S)
		if q == nil || q.Accepts(read.Strings(g.Chosen)) != nil {
			return false
		}
	}
	return p.t.Ending(e.Ending.S) != nil
}

func (p *prover) example(e *tree.Example) {
	path, err := p.t.Walk(e.Given())
	if err != nil {
		return // a dead link or a circle, reported where it stands
	}
	taken := "its path: " + steps(path)
	for _, g := range e.Answers {
		if !slices.ContainsFunc(path.Steps, func(s tree.Step) bool { return s.Question == g.Question.S }) {
			p.list.Add(g.Question.At, "example", fmt.Sprintf("the example answers %q, and its path does not come by that question", g.Question.S), taken, "leave the answer out")
		}
	}
	switch {
	case path.Open != "":
		p.list.Add(e.Ending.At, "example", fmt.Sprintf("the example stops at question %q, which it does not answer", path.Open), taken, placeHelp("the question is at ", p.t.Question(path.Open).ID.At))
	case path.Ending != e.Ending.S:
		p.list.Add(e.Ending.At, "example", fmt.Sprintf("the example lands at %q, and %q was expected", path.Ending, e.Ending.S), taken,
			placeHelp("it lands at ", p.t.Ending(path.Ending).ID.At), "change the example's answers, its ending, or the way on")
	default:
		p.cards(e, path, taken)
	}
}

func (p *prover) cards(e *tree.Example, path tree.Path, taken string) {
	want := read.Strings(e.Cards)
	for _, c := range path.Cards {
		if !slices.Contains(want, c) {
			p.list.Add(e.Ending.At, "example", fmt.Sprintf("the example picks up the card %q, and does not list it", c), taken, fmt.Sprintf("add %q to its cards", c))
		}
	}
	for _, c := range e.Cards {
		if !slices.Contains(path.Cards, c.S) {
			p.list.Add(c.At, "example", fmt.Sprintf("the example lists the card %q, and its path does not add it", c.S), taken, "leave the card out, or change the answers")
		}
	}
}

func placeHelp(before string, at finding.Place) string { return before + at.String() }

func steps(p tree.Path) string {
	parts := make([]string, 0, len(p.Steps)+1)
	for _, s := range p.Steps {
		parts = append(parts, s.Question+"="+strings.Join(s.Chosen, ","))
	}
	end := p.Ending
	if end == "" {
		end = p.Open + "?"
	}
	return strings.Join(append(parts, end), " -> ")
}
