package teaching

import (
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/proof"
	"keelpath/builder/read"
	"keelpath/builder/safety"
	"keelpath/builder/told"
	"keelpath/builder/tree"
)

// Known is what a case is held against. Each gives nil for what there is not.
type Known struct {
	Tree   func(id string) *tree.Tree
	Proof  func(id string) *proof.Proof
	Told   func(id string) *told.Fact
	Screen *safety.Screen
}

// MinArgued is how many foot types a case argues at least. With one it would pick a foot.
const MinArgued = 2

// Prove reports what does not hold of a case: walks, flips, what answers rest on, and the
// rules of its beats. Names of things in other files are the library's affair.
func (c *Case) Prove(k Known, list *finding.List) {
	p := &prover{Case: c, k: k, list: list}
	p.facts()
	p.screen()
	for _, w := range c.Walks {
		p.walk(w)
	}
	p.argued()
	for _, b := range c.Beats {
		p.beat(b)
	}
	p.sums()
	p.offered()
	for _, f := range c.Flips {
		p.flip(f)
	}
	p.flips()
}

type prover struct {
	*Case
	k      Known
	list   *finding.List
	helped bool // the safety screen ends the walks of patients' trees
	parts  int  // flips that part
	same   int  // flips where nothing changes
}

func (p *prover) facts() {
	sets := map[string]*Fact{} // of told facts: the one that is true here
	for _, f := range p.Facts {
		switch {
		case f.Hidden() && !f.Request.Given():
			p.list.Add(f.ID.At, "case-fact", fmt.Sprintf("fact %q is found out by asking or examining, and does not say what a learner asks for", f.ID.S), `add request: with what a learner would ask for, such as "Falls in the past year"`)
		case f.From.S != "" && !f.Hidden() && f.Request.Given():
			p.list.Add(f.Request.At, "case-fact", fmt.Sprintf("fact %q is %s, so nobody has to ask for it", f.ID.S, f.From.S), "take request: out, or let the fact be asked or examined")
		}
		if f.Dated.S != "" && f.From.S != Chart {
			p.list.Add(f.Dated.At, "case-fact", fmt.Sprintf("fact %q has a date, and it does not stand in the chart", f.ID.S), "take dated: out, or let the fact be from: chart")
		}
		t := p.k.Told(f.ID.S)
		if t == nil || t.Of.S == "" {
			continue
		}
		if other := sets[t.Of.S]; other != nil {
			p.list.Add(f.ID.At, "case-fact", fmt.Sprintf("the facts %q and %q cannot both be true of one reader", other.ID.S, f.ID.S), "keep the one that is true, or give the other an id that is no told fact's")
		}
		sets[t.Of.S] = f
	}
}

// screen holds what the person answers on the safety screen against safety.Next.
func (p *prover) screen() {
	var first *tree.Tree // that the screen comes before
	whole := true
	for _, w := range p.Walks {
		if t := p.k.Tree(w.Tree.S); t != nil && t.Safety.S != "" && (first == nil || t.Safety.S != tree.SafetyWhole) {
			first, whole = t, t.Safety.S == tree.SafetyWhole
		}
	}
	switch {
	case first == nil && p.Screen != nil:
		p.list.Add(p.Screen.At.At, "case-screen", "the case answers the safety screen, and walks no tree behind it", "take screen: out, or walk a patients' tree")
		return
	case first == nil:
		return
	case p.Screen == nil || p.Screen.Leg == nil:
		p.list.Add(p.ID.At, "case-screen", fmt.Sprintf("the case walks %q, and does not answer the safety screen before it", first.ID.S), "add screen: with leg: and gate:, each with is: and rests:")
		return
	}
	a := p.screenAnswers(whole)
	if err := p.k.Screen.Accepts(a); err != nil {
		p.list.Add(p.Screen.At.At, "case-screen", fmt.Sprintf("the case does not answer what the safety screen asks: %s", err), "write worn, not-yet or not-now under leg:, ids of groups under gate:, and of signs under groups:")
		return
	}
	switch step := p.k.Screen.Next(a, whole); step.Ask {
	case safety.Help:
		p.helped = true
	case safety.Done:
	default:
		p.list.Add(p.Screen.At.At, "case-screen", fmt.Sprintf("the safety screen still asks for the %s", step.Ask), "answer it, with what that rests on")
	}
	for _, answer := range append([]*Answer{p.Screen.Leg, p.Screen.Gate}, p.Screen.Groups...) {
		if answer != nil {
			p.rests(answer, p.screenTells(answer))
		}
	}
}

func (p *prover) screenAnswers(whole bool) safety.Answers {
	out := safety.Answers{Groups: map[string][]string{}}
	if is := read.Strings(p.Screen.Leg.Is); len(is) == 1 {
		out.Leg = is[0]
	}
	if p.Screen.Gate != nil && !whole {
		out.Gate = read.Strings(p.Screen.Gate.Is)
	}
	for _, g := range p.Screen.Groups {
		out.Groups[g.Question.S] = read.Strings(g.Is)
	}
	for _, g := range p.k.Screen.Groups {
		opened := whole || slices.Contains(out.Gate, g.ID.S) || slices.Contains(out.Gate, safety.NotSure)
		if g.Asked(out.Leg) && opened && len(out.Groups[g.ID.S]) == 0 {
			out.Groups[g.ID.S] = []string{safety.None}
		}
	}
	return out
}

// screenTells gives the told facts that an answer on the safety screen tells.
func (p *prover) screenTells(a *Answer) []read.Text {
	var out []read.Text
	for _, is := range a.Is {
		for _, leg := range p.k.Screen.Leg.Answers {
			if a == p.Screen.Leg && leg.ID.S == is.S {
				out = append(out, leg.Tells...)
			}
		}
		if sign, _ := p.k.Screen.Sign(is.S); sign != nil && a != p.Screen.Leg && a != p.Screen.Gate {
			out = append(out, sign.Tells...)
		}
	}
	return out
}

func (p *prover) walk(w *Walk) {
	t := p.k.Tree(w.Tree.S)
	if t == nil {
		return
	}
	if p.helped && t.Safety.S != "" {
		if w.Ending.S != Help || len(w.Answers) > 0 {
			p.list.Add(w.Ending.At, "case-walk", fmt.Sprintf("the safety screen ends the walk through %q, and the case goes on", t.ID.S), "write ending: help, and no answers")
		}
		return
	}
	if !p.accepted(t, w.Answers) {
		return
	}
	path, err := t.Walk(given(w.Answers))
	if err != nil {
		return // of the tree itself, which was reported
	}
	p.lands(w.Tree, w.Ending, path)
	for _, a := range w.Answers {
		if !asked(path, a.Question.S) && path.Open == "" {
			p.list.Add(a.Question.At, "case-walk", fmt.Sprintf("the walk through %q does not come by question %q", t.ID.S, a.Question.S), "take the answer out")
		}
		p.rests(a, tells(t.Question(a.Question.S), a))
		p.amount(t.Question(a.Question.S), a)
	}
}

// accepted reports each answer that the tree does not take.
func (p *prover) accepted(t *tree.Tree, as []*Answer) bool {
	fine := true
	for _, a := range as {
		q := t.Question(a.Question.S)
		if q == nil {
			help := append(finding.NearestHelp(a.Question.S, questions(t), nil), "questions stand in "+t.File)
			p.list.Add(a.Question.At, "case-walk", fmt.Sprintf("the tree %q has no question %q", t.ID.S, a.Question.S), help...)
			fine = false
		} else if err := q.Accepts(read.Strings(a.Is)); err != nil {
			p.list.Add(a.Question.At, "case-walk", fmt.Sprintf("the answer does not fit: %s", err), "answers stand in "+t.File)
			fine = false
		}
	}
	return fine
}

func questions(t *tree.Tree) []string {
	var out []string
	for _, q := range t.Questions {
		out = append(out, q.ID.S)
	}
	return out
}

// lands holds the end of a walk against what the case says of it.
func (p *prover) lands(id, ending read.Text, path tree.Path) {
	if path.Open != "" {
		p.list.Add(id.At, "case-walk", fmt.Sprintf("the walk through %q stops at question %q, which has no answer", id.S, path.Open), "answer it, with what that rests on")
	} else if ending.S != "" && path.Ending != ending.S {
		p.list.Add(ending.At, "case-walk", fmt.Sprintf("the walk ends at %q, and the case says %q", path.Ending, ending.S), "by "+way(path)+"; change an answer or the ending")
	}
}

func way(path tree.Path) string {
	var out []string
	for _, s := range path.Steps {
		out = append(out, s.Question+"="+strings.Join(s.Chosen, ","))
	}
	return strings.Join(out, " ")
}

func asked(path tree.Path, question string) bool { return at(path, question) >= 0 }

func at(path tree.Path, question string) int {
	return slices.IndexFunc(path.Steps, func(s tree.Step) bool { return s.Question == question })
}

// tells gives the told facts that an answer tells.
func tells(q *tree.Question, a *Answer) []read.Text {
	if q.Measure != nil {
		if is := read.Strings(a.Is); slices.Contains(is, tree.Skip) {
			return nil
		}
		return q.Tells
	}
	var out []read.Text
	for _, is := range a.Is {
		if of := q.Answer(is.S); of != nil {
			out = append(out, of.Tells...)
		}
	}
	return out
}

// rests holds an answer against what it rests on: a fact of the case at least, and where the answer tells
// something that readers can tell, the fact of that name.
func (p *prover) rests(a *Answer, told []read.Text) {
	if len(a.Rests) == 0 {
		p.list.Add(a.Question.At, "case-rests", fmt.Sprintf("the answer to %q rests on no fact", a.Question.S), "add rests: with the id of a fact")
		return
	}
	for _, r := range a.Rests {
		p.hasFact(r, fmt.Sprintf("the answer to %q rests on", a.Question.S))
	}
	for _, t := range told {
		if !slices.Contains(read.Strings(a.Rests), t.S) {
			p.list.Add(a.Question.At, "case-rests", fmt.Sprintf("the answer to %q tells the fact %q, and does not rest on it", a.Question.S, t.S), fmt.Sprintf("give the case a fact %q, which the answer tells at %s, and let it rest on that", t.S, t.At))
		}
	}
}

func (p *prover) hasFact(r read.Text, who string) bool {
	if p.Fact(r.S) != nil {
		return true
	}
	var ids []string
	for _, f := range p.Facts {
		ids = append(ids, f.ID.S)
	}
	help := append(finding.NearestHelp(r.S, ids, nil), "add it under facts:, or name another")
	p.list.Add(r.At, "case-rests", fmt.Sprintf("%s the fact %q, and the case has none", who, r.S), help...)
	return false
}

// amount holds a measure's answer against the amount of the fact that it tells.
func (p *prover) amount(q *tree.Question, a *Answer) {
	if q.Measure == nil {
		return
	}
	for _, t := range q.Tells {
		f := p.Fact(t.S)
		if f == nil || slices.Contains(read.Strings(a.Is), tree.Skip) {
			continue
		}
		is, _ := q.Measure.Read(a.Is[0].S)
		was, err := q.Measure.Read(f.Amount.S)
		if err != nil || was.Num != is.Num {
			p.list.Add(a.Question.At, "case-rests", fmt.Sprintf("the answer to %q is %s, and the amount of fact %q is %q", a.Question.S, a.Is[0].S, f.ID.S, f.Amount.S), "write the fact's amount: as the answer has it")
		}
	}
}

// argued holds a case to two foot types, or to none and the reason.
func (p *prover) argued() {
	seen := map[string]bool{}
	for _, t := range p.Argue {
		seen[t.Type.S] = true
	}
	switch {
	case p.Before.Given() && len(seen) > 0:
		p.list.Add(p.Before.At, "needless-key", "the case argues foot types, and says why it ends before any foot", "keep one of the two")
	case p.Before.Given():
		p.endsBefore()
	case len(seen) < MinArgued:
		p.list.Add(p.ID.At, "one-sided", fmt.Sprintf("the case argues too few foot types: %d, and at least %d were expected", len(seen), MinArgued), "a case that brings up one would pick a foot: add another under argue:, or say under ends-before: why it ends before any foot")
	}
}

func (p *prover) endsBefore() {
	for _, w := range p.Walks {
		t := p.k.Tree(w.Tree.S)
		if t == nil {
			continue
		}
		if e := t.Ending(w.Ending.S); e != nil && len(e.Types) > 0 {
			p.list.Add(w.Ending.At, "one-sided", fmt.Sprintf("the case ends before any foot, and the ending %q brings up foot types", e.ID.S), "argue at least two, and take ends-before: out")
		}
	}
}
