package proof

import (
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// Examples walks each worked example of a tree and reports one that lands
// elsewhere. card tells whether a card is known; names that are not have been
// reported, and are not held against an example.
func Examples(t *tree.Tree, card func(id string) bool, list *finding.List) {
	p := &walker{t: t, list: list, card: card}
	for _, e := range t.Examples {
		if p.known(e) && !unreadFormula(t) {
			p.example(e)
		}
	}
}

// unreadFormula tells whether some formula could not be read; that was reported,
// and where a walk would go is not known.
func unreadFormula(t *tree.Tree) bool {
	return slices.ContainsFunc(t.Values, func(w *tree.Worked) bool { return w.Is.Expr == nil }) ||
		slices.ContainsFunc(t.Questions, func(q *tree.Question) bool {
			return slices.ContainsFunc(q.Routes, func(r *tree.Route) bool { return !r.Else() && r.If.Expr == nil })
		})
}

type walker struct {
	t    *tree.Tree
	list *finding.List
	card func(id string) bool
}

// known tells whether the example names only what the tree has; where it does
// not, that has been reported and a walk would only repeat it.
func (p *walker) known(e *tree.Example) bool {
	for _, g := range e.Answers {
		q := p.t.Question(g.Question.S)
		if q == nil || q.Accepts(read.Strings(g.Chosen)) != nil {
			return false
		}
	}
	return p.t.Ending(e.Ending.S) != nil
}

func (p *walker) example(e *tree.Example) {
	path, err := p.t.Walk(e.Given())
	if err != nil {
		return // a dead link or a circle, reported where it stands
	}
	taken := "its path: " + steps(path)
	switch {
	case path.Open != "":
		p.list.Add(e.Ending.At, "example", fmt.Sprintf("the example stops at question %q, which it does not answer", path.Open), taken,
			"the question is at "+p.t.Question(path.Open).ID.At.String(), "add an answer to that question")
	case path.Ending != e.Ending.S:
		p.list.Add(e.Ending.At, "example", fmt.Sprintf("the example lands at %q, and %q was expected", path.Ending, e.Ending.S), taken,
			"it lands at "+p.t.Ending(path.Ending).ID.At.String(), "change the example's answers, its ending, or the way on")
	default:
		p.unused(e, path, taken)
		p.cards(e, path, taken)
	}
}

// unused reports answers to questions that the path does not come by.
func (p *walker) unused(e *tree.Example, path tree.Path, taken string) {
	for _, g := range e.Answers {
		if !slices.ContainsFunc(path.Steps, func(s tree.Step) bool { return s.Question == g.Question.S }) {
			p.list.Add(g.Question.At, "example", fmt.Sprintf("the example answers %q, and its path does not come by that question", g.Question.S), taken, "leave the answer out")
		}
	}
}

func (p *walker) cards(e *tree.Example, path tree.Path, taken string) {
	want := read.Strings(e.Cards)
	if slices.ContainsFunc(append(want, path.Cards...), func(id string) bool { return !p.card(id) }) {
		return
	}
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
