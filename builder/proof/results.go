package proof

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"keelpath/builder/formula"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// longest gives the most questions from a state on, its own included.
func (s *search) longest(st *state) int {
	if st.most == 0 {
		st.most = 1
		for _, on := range st.on {
			if on.to != nil {
				st.most = max(st.most, 1+s.longest(on.to))
			}
		}
	}
	return st.most
}

// count gives the number of paths from a state on.
func (s *search) count(st *state) *big.Int {
	return sum(st, map[*state]*big.Int{}, func(_ *state, c *choice) *big.Int { return c.count })
}

// listed gives how many of them AllPaths lists.
func (s *search) listed(st *state) *big.Int {
	return sum(st, map[*state]*big.Int{}, func(st *state, c *choice) *big.Int {
		if st.question.Measure != nil {
			return one
		}
		return c.count
	})
}

// sum adds up, over the ways on from a state, how many answers take each and
// how many paths follow.
func sum(st *state, known map[*state]*big.Int, answers func(*state, *choice) *big.Int) *big.Int {
	if n := known[st]; n != nil {
		return n
	}
	n := new(big.Int)
	for _, on := range st.on {
		follow := one
		if on.to != nil {
			follow = sum(on.to, known, answers)
		}
		n.Add(n, new(big.Int).Mul(answers(st, on.choice), follow))
	}
	known[st] = n
	return n
}

// routes reports conditions that come to the same whatever a reader answers,
// and routes that are never taken.
func (s *search) routes() {
	for _, q := range s.t.Questions {
		if s.witness[q.ID.S] == nil || len(q.Routes) == 0 {
			continue
		}
		if s.gaps[q.ID.S] || s.overlaps[q.ID.S] {
			s.closed = append(s.closed, q.Routes...)
			continue
		}
		if first := q.Routes[0]; !s.used[q.ID.S] {
			s.list.Add(first.At, "dead-route", fmt.Sprintf("no route of question %q is ever taken: each answer has a way of its own", q.ID.S),
				s.lose("leave the routes out, or take away the answers' own \"go\"", q.Routes...)...)
			continue
		}
		before := s.list.Len()
		for _, r := range q.Routes {
			switch {
			case r.Else():
			case s.asksReached(r):
				s.condition(r, r.If.Expr)
			default:
				s.closed = append(s.closed, r)
			}
		}
		if last := q.Routes[len(q.Routes)-1]; last.Else() && !s.taken[last] && s.list.Len() == before {
			s.list.Add(last.At, "dead-route", fmt.Sprintf("the last route of question %q is never taken: the others cover every answer", q.ID.S),
				s.lose("leave it out", last)...)
		}
	}
}

// asksReached tells whether all questions that a route's condition rests on can
// be reached. One that cannot is reported, and is why the condition says nothing.
func (s *search) asksReached(r *tree.Route) bool {
	return r.If.Expr != nil && !slices.ContainsFunc(s.questions(r.If.Expr), func(id string) bool { return s.byID[id] != nil && s.witness[id] == nil })
}

// lose notes routes that are reported, and gives help that names what no other
// way leads to.
func (s *search) lose(help string, routes ...*tree.Route) []string {
	out := []string{help}
	for _, r := range routes {
		if s.taken[r] {
			continue
		}
		s.closed = append(s.closed, r)
		if s.witness[r.Go.S] == nil {
			out = append(out, fmt.Sprintf("as it is, nothing leads to %q", r.Go.S))
		}
	}
	return out
}

// condition reports the outermost part that never changes.
func (s *search) condition(r *tree.Route, e *formula.Expr) {
	t := s.tested[e]
	if t == nil {
		return
	}
	at, says := r.If.Place(e.Start()), "can never be true"
	switch {
	case !t.was:
	case !t.wasNot:
		says = "is always true"
	default:
		if e.Op == "&&" || e.Op == "||" {
			s.condition(r, e.Args[0])
			s.condition(r, e.Args[1])
		}
		return
	}
	of := []*tree.Route{r}
	if t.was { // then it is what stands behind it that is never taken
		of = s.behindRoute(r)
	}
	s.closed = append(s.closed, r)
	s.list.Add(at, "dead-condition", fmt.Sprintf("the condition %q %s here, whatever a reader answers", e.String(), says),
		s.lose("look at the limits of the measures it uses, and at what earlier questions leave open", of...)...)
}

// behindRoute gives the routes of the same question that come after r.
func (s *search) behindRoute(r *tree.Route) []*tree.Route {
	for _, q := range s.t.Questions {
		if i := slices.Index(q.Routes, r); i >= 0 {
			return q.Routes[i+1:]
		}
	}
	return nil
}

// idle reports a question that changes nothing: in every state it is asked in,
// all its answers lead to the same future and add no card, and no text shows it.
func (s *search) idle() {
	futures := map[string]int{}
	changes := map[string]bool{}
	for _, st := range s.states {
		id := st.question.ID.S
		for _, on := range st.on[min(1, len(st.on)):] {
			if on.cards != st.on[0].cards || s.ahead(on, futures) != s.ahead(st.on[0], futures) {
				changes[id] = true
			}
		}
	}
	idle := map[*tree.Question]bool{}
	for _, q := range s.t.Questions {
		idle[q] = s.witness[q.ID.S] != nil && !s.weighed(q) && !changes[q.ID.S] && !s.shown(q) && len(q.Tells) == 0 &&
			!slices.ContainsFunc(q.Answers, func(a *tree.Answer) bool { return len(a.Cards)+len(a.Tells) > 0 })
	}
	for _, q := range s.t.Questions {
		if !idle[q] || s.askedBy(q, idle) {
			continue
		}
		to := "the same place"
		if all := q.WaysOn(); len(all) > 0 && !slices.ContainsFunc(all, func(w read.Text) bool { return w.S != all[0].S }) {
			to = fmt.Sprintf("%q", all[0].S)
		}
		s.list.Add(q.ID.At, "idle-question", fmt.Sprintf("question %q changes nothing: whatever the answer, it leads to %s", q.ID.S, to),
			"let an answer lead elsewhere, add a card or tell a fact, or do not ask")
	}
}

// askedBy tells whether a later one of the idle questions asks for the answer
// to q: then that one is the fault, and q may change something once it does.
func (s *search) askedBy(q *tree.Question, idle map[*tree.Question]bool) bool {
	return slices.ContainsFunc(s.t.Questions, func(other *tree.Question) bool {
		return other != q && idle[other] && slices.ContainsFunc(other.Routes, func(r *tree.Route) bool {
			return r.If.Expr != nil && slices.Contains(s.questions(r.If.Expr), q.ID.S)
		})
	})
}

// weighed tells whether a route that was reported is the question's, or asks for
// its answer: mended, the question may well change something.
func (s *search) weighed(q *tree.Question) bool {
	return slices.ContainsFunc(s.closed, func(r *tree.Route) bool {
		return slices.Contains(q.Routes, r) || r.If.Expr != nil && slices.Contains(s.questions(r.If.Expr), q.ID.S)
	})
}

// ahead gives a number to what can follow a step: equal numbers, equal futures.
func (s *search) ahead(on step, known map[string]int) string {
	if on.to == nil {
		return on.ending
	}
	return fmt.Sprint("#", s.future(on.to, known))
}

func (s *search) future(st *state, known map[string]int) int {
	if st.future == 0 {
		var b strings.Builder
		b.WriteString(st.question.ID.S)
		for _, on := range st.on {
			fmt.Fprintf(&b, "|%s>%s%s", strings.Join(on.choice.chosen, ","), on.cards, s.ahead(on, known))
		}
		n, ok := known[b.String()]
		if !ok {
			n = len(known) + 1
			known[b.String()] = n
		}
		st.future = n
	}
	return st.future
}

// shown tells whether an ending's text shows the question's amount, or a value
// that rests on it.
func (s *search) shown(q *tree.Question) bool {
	for _, e := range s.t.Endings {
		for _, id := range append(tree.Gaps(e.Text.S), tree.Gaps(e.Caution.S)...) {
			if id == q.ID.S {
				return true
			}
			for _, w := range s.t.Values {
				if w.ID.S == id && w.Is.Expr != nil && slices.Contains(s.questions(w.Is.Expr), q.ID.S) {
					return true
				}
			}
		}
	}
	return false
}
