package teaching

import (
	"fmt"
	"maps"
	"slices"

	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// flips holds the case to a fact that changes the walk, and to one that does not.
func (p *prover) flips() {
	if p.same+p.parts < len(p.Flips) {
		return // something is wrong with one, and was reported
	}
	if len(p.Flips) > 0 && p.same == 0 {
		p.list.Add(p.ID.At, "case-flip", "every flip changes the walk, and one at least should change nothing", "add one with the same ending and no parts:, so that no learner takes every new fact for a turn")
	}
	if len(p.Flips) > 0 && p.parts == 0 {
		p.list.Add(p.ID.At, "case-flip", "no flip changes the walk", "add one that parts from the walk")
	}
}

// flip walks the tree once more with one fact changed.
func (p *prover) flip(f *Flip) {
	t, w := p.k.Tree(f.Tree.S), p.Walk(f.Tree.S)
	known := p.hasFact(f.Fact, "the flip changes")
	if w == nil && f.Tree.S != "" {
		p.list.Add(f.Tree.At, "case-flip", fmt.Sprintf("the flip walks %q, and the case does not", f.Tree.S), "name one under walks:")
	}
	if t == nil || w == nil || !known || !p.accepted(t, f.Answers) {
		return
	}
	before, err := t.Walk(given(w.Answers))
	if err != nil || before.Ending == "" {
		return // which was reported
	}
	answers := given(w.Answers)
	maps.Copy(answers, given(f.Answers))
	after, err := t.Walk(answers)
	if err != nil {
		return
	}
	p.restated(f, w, after)
	p.changed(f, w, before, after)
	p.lands(f.ID, f.Ending, after)
	if after.Ending == f.Ending.S {
		p.parting(f, before, after)
	}
}

// restated asks for each answer on the new way that rests on the changed fact: it has to be given again.
func (p *prover) restated(f *Flip, w *Walk, after tree.Path) {
	for _, a := range w.Answers {
		again := slices.ContainsFunc(f.Answers, func(b *Answer) bool { return b.Question.S == a.Question.S })
		if !again && asked(after, a.Question.S) && slices.Contains(read.Strings(a.Rests), f.Fact.S) {
			p.list.Add(f.ID.At, "case-flip", fmt.Sprintf("the answer to %q rests on %q, which is changed, and the flip does not say what it is now", a.Question.S, f.Fact.S), "answer it again under answers:, even if it stays as it was")
		}
	}
}

// changed holds the flip to one fact: what it answers anew rests on that, and what it answers for the first time on some fact.
func (p *prover) changed(f *Flip, w *Walk, before, after tree.Path) {
	for _, a := range f.Answers {
		old := slices.IndexFunc(w.Answers, func(b *Answer) bool { return b.Question.S == a.Question.S })
		switch {
		case !asked(after, a.Question.S):
			p.list.Add(a.Question.At, "case-flip", fmt.Sprintf("the flip does not come by question %q", a.Question.S), "take the answer out")
		case old >= 0 && !slices.Contains(read.Strings(w.Answers[old].Rests), f.Fact.S):
			p.list.Add(a.Question.At, "case-flip", fmt.Sprintf("the answer to %q does not rest on %q, the fact that is changed", a.Question.S, f.Fact.S), "change one fact at a time: leave this answer as it was")
		case old < 0:
			p.rests(a, tells(p.k.Tree(f.Tree.S).Question(a.Question.S), a))
		}
	}
}

func (p *prover) parting(f *Flip, before, after tree.Path) {
	last := ""
	same := len(before.Steps) == len(after.Steps) && before.Ending == after.Ending && slices.Equal(before.Cards, after.Cards)
	for i := 0; i < min(len(before.Steps), len(after.Steps)) && before.Steps[i].Question == after.Steps[i].Question; i++ {
		last = before.Steps[i].Question
	}
	same = same && (len(before.Steps) == 0 || last == before.Steps[len(before.Steps)-1].Question)
	switch {
	case same && f.Parts.Given():
		p.list.Add(f.Parts.At, "case-flip", "the flip asks the same questions and ends at the same place, so it parts nowhere", "take parts: out")
	case same:
		p.same++
	case f.Parts.S != last:
		at := f.Parts
		if !at.Given() {
			at = f.ID
		}
		p.list.Add(at.At, "case-flip", fmt.Sprintf("the two ways part after question %q, and the flip says %q", last, f.Parts.S), "write parts: with the last question that both ways ask")
	default:
		p.parts++
	}
}
