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
	if st.paths == nil {
		st.paths = new(big.Int)
		for _, on := range st.on {
			n := big.NewInt(1)
			if on.to != nil {
				n = s.count(on.to)
			}
			st.paths.Add(st.paths, new(big.Int).Mul(on.choice.count, n))
		}
	}
	return st.paths
}

// routes reports conditions that come to the same whatever a reader answers,
// and routes that are never taken.
func (s *search) routes() {
	for _, q := range s.t.Questions {
		if s.witness[q.ID.S] == nil || s.gaps[q.ID.S] {
			continue
		}
		for _, r := range q.Routes {
			switch {
			case r.Else() && !s.taken[r]:
				s.list.Add(r.At, "dead-route", fmt.Sprintf("the last route of question %q is never taken: the others cover every answer", q.ID.S), "leave it out")
			case !r.Else():
				s.condition(r, r.If.Expr)
			}
		}
	}
}

// condition reports the outermost part that never changes.
func (s *search) condition(r *tree.Route, e *formula.Expr) {
	t := s.tested[e]
	if t == nil {
		return
	}
	at, says := r.If.Place(e.Col), "can never be true"
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
	s.list.Add(at, "dead-condition", fmt.Sprintf("the condition %q %s here, whatever a reader answers", e.String(), says),
		"look at the limits of the measures it uses, and at what earlier questions leave open")
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
	for _, q := range s.t.Questions {
		if s.witness[q.ID.S] == nil || s.gaps[q.ID.S] || changes[q.ID.S] || s.shown(q) ||
			slices.ContainsFunc(q.Answers, func(a *tree.Answer) bool { return len(a.Cards) > 0 }) {
			continue
		}
		to := "the same place"
		if all := q.WaysOn(); len(all) > 0 && !slices.ContainsFunc(all, func(w read.Text) bool { return w.S != all[0].S }) {
			to = fmt.Sprintf("%q", all[0].S)
		}
		s.list.Add(q.ID.At, "idle-question", fmt.Sprintf("question %q changes nothing: whatever the answer, it leads to %s", q.ID.S, to),
			"let an answer lead elsewhere or add a card, or do not ask")
	}
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
