package library

import (
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/safety"
	"keelpath/builder/tree"
)

// ledger lists the content by keys: for the ground layer what is for safety, for
// an edition everything that might stand in its place.
func (l *loader) ledger(ground bool) *ledger {
	b := &ledger{byKey: map[string]sealed{}, ground: ground, loose: map[string]bool{}}
	if l.Safety != nil {
		b.screen(l.Safety)
	}
	for _, t := range l.Trees {
		b.tree(t)
	}
	brought := l.safetyPrompts()
	for _, p := range l.Prompts() {
		if !ground || slices.Contains(brought, p.ID.S) {
			b.prompt(p)
		}
		b.promptSays(p)
	}
	for _, c := range l.Cards {
		b.card(c)
	}
	for _, w := range l.Words {
		part{b, "word " + w.ID.S, fmt.Sprintf("word %q", w.ID.S), w.ID.At}.says("meaning", w.Meaning)
	}
	return b
}

// screen seals all of the shared safety screen but who wrote it and its examples.
func (b *ledger) screen(s *safety.Screen) {
	p := b.part("screen", "safety screen", finding.Place{File: s.File, Line: 1})
	p.text("leg", s.Leg.Text)
	p.text("why of the leg", s.Leg.Why)
	for _, a := range s.Leg.Answers {
		q := p.below("answer", a.ID)
		q.text("text", a.Text)
		q.list("tells", a.Tells, begins)
	}
	p.text("gate", s.Gate.Text)
	p.text("why of the gate", s.Gate.Why)
	p.text("hint of the gate", s.Gate.Hint)
	for _, g := range s.Groups {
		p.group(g)
	}
	for _, e := range s.Endings {
		q := p.below("ending", e.When)
		q.text("title", e.Title)
		q.list("steps", e.Steps, same)
		q.list("worn", e.Worn, same)
	}
}

func (p part) group(g *safety.Group) {
	q := p.below("group", g.ID)
	q.text("line", g.Line)
	q.text("title", g.Title)
	q.text("text", g.Text)
	q.text("why", g.Why)
	q.text("hint", g.Hint)
	q.mark("leg", g.Leg)
	u := q.below("answer", read.Text{S: safety.NotSure, At: g.Unsure.Title.At})
	u.text("title", g.Unsure.Title)
	u.text("caution", g.Unsure.Caution)
	u.text("worn", g.Unsure.Worn)
	u.list("prompts", g.Unsure.Prompts, same)
	for _, s := range g.Signs {
		q.sign(s)
	}
}

func (p part) sign(s *safety.Sign) {
	q := p.below("sign", s.ID)
	q.text("text", s.Text)
	q.text("more", s.More)
	q.text("when", s.When)
	q.mark("leg", s.Leg)
	q.text("title", s.Title)
	q.text("caution", s.Caution)
	q.text("worn", s.Worn)
	q.text("because", s.Because)
	q.list("prompts", s.Prompts, same)
	q.list("tells", s.Tells, begins)
}

// tree seals whom a tree is for and how the safety screen comes before it, every
// question that leads to safety, every ending for safety and every caution.
func (b *ledger) tree(t *tree.Tree) {
	p := b.part("tree "+t.ID.S, fmt.Sprintf("tree %q", t.ID.S), t.ID.At)
	b.loose[p.key] = t.Loose
	p.text("audience", t.Audience)
	p.text("safety", t.Safety)
	p.says("purpose", t.Purpose)
	values := false
	for _, q := range t.Questions {
		if !b.ground || leadsToSafety(t, q) {
			p.question(t, q)
			values = values || len(q.Routes) > 0
		}
		w := part{b, p.key + "/question " + q.ID.S, fmt.Sprintf("question %q", q.ID.S), q.ID.At}
		w.says("why", q.Why)
		w.says("hint", q.Hint)
	}
	if values || !b.ground {
		for _, v := range t.Values {
			p.goes(fmt.Sprintf("value %q", v.ID.S), v.Is.Text)
		}
	}
	for _, e := range t.Endings {
		if !e.Sign.Given() { // its words are those of the screen
			p.ending(e)
		}
	}
}

// leadsToSafety tells whether a way on of the question is an ending for safety.
func leadsToSafety(t *tree.Tree, q *tree.Question) bool {
	return slices.ContainsFunc(q.WaysOn(), func(to read.Text) bool {
		e := t.Ending(to.S)
		return e != nil && e.Safety
	})
}

func (p part) question(t *tree.Tree, q *tree.Question) {
	w := p.below("question", q.ID)
	w.text("text", q.Text)
	w.text("why", q.Why)
	w.text("hint", q.Hint)
	w.text("pick", read.Text{S: string(q.Pick)})
	w.goes("skip", q.Skip)
	w.list("tells", q.Tells, begins)
	w.measure(q)
	var ids []read.Text
	for _, a := range q.Answers {
		ids = append(ids, a.ID)
		w.answer(t, q, a)
	}
	w.list("order of answers", ids, order)
}

// measure seals what a question takes and where its amounts lead.
func (p part) measure(q *tree.Question) {
	p.goes("go", q.Go)
	var routes []string
	at := p.at
	for i, r := range q.Routes {
		routes = append(routes, strings.TrimSpace(fmt.Sprintf("%s -> %s %s", r.If.S, r.Go.S, strings.Join(read.Strings(r.Cards), ", "))))
		if i == 0 {
			at = r.At
		}
	}
	p.goes("routes", read.Text{S: strings.Join(routes, "; "), At: at})
	if m := q.Measure; m != nil && !m.Unread {
		p.goes("measure", read.Text{S: fmt.Sprintf("%s %v from %g to %g in steps of %g", m.Unit, m.Accept, m.From, m.To, m.Step), At: m.Place})
		for _, like := range m.Likes {
			l := p.below("like", like.ID)
			l.text("text", like.Text)
			l.text("is", like.Is)
		}
	}
}

// answer seals an answer's words; where it leads only if that is to safety.
func (p part) answer(t *tree.Tree, q *tree.Question, a *tree.Answer) {
	w := p.below("answer", a.ID)
	w.text("text", a.Text)
	w.mark("alone", a.Alone)
	w.list("cards", a.Cards, begins)
	w.list("tells", a.Tells, begins)
	w.text("sign", a.Sign)
	if to, _ := q.Next([]string{a.ID.S}, nil); !p.ground || isSafety(t, to) {
		w.goes("go", read.Text{S: to, At: a.Go.At})
	}
}

func isSafety(t *tree.Tree, ending string) bool {
	e := t.Ending(ending)
	return e != nil && e.Safety
}

func (p part) ending(e *tree.Ending) {
	key, name := p.key+"/ending "+e.ID.S, fmt.Sprintf("ending %q", e.ID.S)
	if p.ground && !e.Safety && e.Caution.S == "" {
		part{p.ledger, key, name, e.ID.At}.says("text", e.Text)
		return
	}
	w := p.below("ending", e.ID)
	w.text("caution", e.Caution)
	if p.ground && !e.Safety {
		w.says("text", e.Text)
		return
	}
	w.put("safety", read.Text{S: map[bool]string{true: "true"}[e.Safety], At: e.Marked}, same)
	w.text("title", e.Title)
	w.text("text", e.Text)
	w.list("prompts", e.Prompts, begins)
	w.list("themes", e.Themes, same)
	w.list("next", e.Next, same)
}

// safetyPrompts gives the ids of prompts that a sign, a group's "not sure" or an
// ending for safety brings.
func (l *loader) safetyPrompts() []string {
	var out []string
	if l.Safety != nil {
		for _, g := range l.Safety.Groups {
			out = append(out, read.Strings(g.Unsure.Prompts)...)
			for _, s := range g.Signs {
				out = append(out, read.Strings(s.Prompts)...)
			}
		}
	}
	for _, t := range l.Trees {
		for _, e := range t.Endings {
			if e.Safety {
				out = append(out, read.Strings(e.Prompts)...)
			}
		}
	}
	return out
}

func (b *ledger) prompt(p *Prompt) {
	w := b.part("prompt "+p.ID.S, fmt.Sprintf("prompt %q", p.ID.S), p.ID.At)
	w.text("ask", p.Ask)
	w.list("whom", p.Whom, same)
	w.text("why", p.Why)
	w.list("presumes", p.Presumes, same)
	w.list("unless", p.Unless, same)
}

func (b *ledger) promptSays(p *Prompt) {
	w := part{b, "prompt " + p.ID.S, fmt.Sprintf("prompt %q", p.ID.S), p.ID.At}
	w.says("ask", p.Ask)
	w.says("why", p.Why)
}

func (b *ledger) card(c *Card) {
	w := b.part("card "+c.ID.S, fmt.Sprintf("card %q", c.ID.S), c.ID.At)
	w.text("title", c.Title)
	w.text("text", c.Text)
	w.list("prompts", c.Prompts, begins)
}
