package proof

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"keelpath/builder/formula"
	"keelpath/builder/tree"
)

// Limits of a search. Trees made for people stay far below them.
const (
	maxStates = 50_000
	maxWork   = 3_000_000 // choices tried
)

// search walks a tree over states instead of paths. A state is a question
// together with those earlier answers that a later condition still asks for;
// paths that differ in nothing else are one state. So the number of states is
// small where the number of paths is beyond all counting.
type search struct {
	*prover
	asked          map[string][]string // question id: answers that conditions ask for
	live           map[string][]string // question id: earlier questions that matter from it on
	byID           map[string]*tree.Question
	options        map[string][]choice
	work           int // choices and amounts tried so far
	states         []*state
	byKey          map[string]*state
	key            []byte // of the state at hand, kept for its room
	witness        map[string]Witness
	tested         map[*formula.Expr]*tested // of every condition and its parts
	taken          map[*tree.Route]bool
	used           map[string]bool // questions some answer of which goes by the routes
	gaps, overlaps map[string]bool // questions whose gap or overlap is reported
	bySet          map[string][][]string
}

// state is one state and the ways on from it, by choice.
type state struct {
	question *tree.Question
	known    map[string]formula.Value
	from     *state   // the state before it on a shortest way, nil at the start
	by       []string // what was chosen there
	on       []step
	most     int // questions from here on, once worked out
	future   int // number of what can follow, once worked out
}

// step is where one choice leads: to a state or, where that is nil, an ending.
type step struct {
	choice *choice
	cards  string // that a route adds
	to     *state
	ending string
}

// tested notes what a condition came to.
type tested struct{ was, wasNot bool }

// search gives ok false where the tree is beyond the limits, or where it was stopped.
func (p *prover) search() (*search, bool) {
	s := &search{
		prover: p, asked: map[string][]string{}, byID: map[string]*tree.Question{}, options: map[string][]choice{}, byKey: map[string]*state{},
		witness: map[string]Witness{}, tested: map[*formula.Expr]*tested{}, taken: map[*tree.Route]bool{}, used: map[string]bool{}, gaps: map[string]bool{}, overlaps: map[string]bool{},
	}
	for _, q := range p.t.Questions {
		s.byID[q.ID.S] = q
	}
	s.askedFor()
	s.live = s.liveness()
	for _, q := range p.t.Questions {
		var ok bool
		if s.options[q.ID.S], ok = s.choices(q); !ok {
			return nil, false
		}
	}
	s.witness[p.t.Start.S] = Witness{}
	s.state(p.t.Start.S, map[string]formula.Value{}, nil, nil)
	for i := 0; i < len(s.states); i++ {
		st := s.states[i]
		s.work += len(s.options[st.question.ID.S])
		if len(s.states) > maxStates || s.work > maxWork || p.ctx.Err() != nil {
			return nil, false
		}
		s.expand(st)
	}
	return s, true
}

// state gives the state of a question with what is known, made on first sight.
func (s *search) state(id string, known map[string]formula.Value, from *state, by []string) *state {
	key := append(s.key[:0], id...)
	kept := map[string]formula.Value{}
	for _, name := range s.live[id] {
		v, ok := known[name]
		if !ok {
			continue
		}
		v.Chosen = s.askable(name, v.Chosen)
		kept[name] = v
		key = append(append(key, '|'), name...)
		if v.Known {
			key = strconv.AppendFloat(append(key, '='), v.Num, 'g', -1, 64)
			for _, c := range v.Chosen {
				key = append(append(key, ','), c...)
			}
		}
	}
	s.key = key
	if st := s.byKey[string(key)]; st != nil {
		return st
	}
	st := &state{question: s.byID[id], known: kept, from: from, by: by}
	s.byKey[string(key)] = st
	s.states = append(s.states, st)
	return st
}

// askable leaves of chosen answers those that a condition asks for: it cannot
// tell the others apart.
func (s *search) askable(question string, chosen []string) []string {
	var out []string
	for _, id := range chosen {
		if slices.Contains(s.asked[question], id) {
			out = append(out, id)
		}
	}
	return out
}

// way gives the answers that lead to a state.
func (st *state) way() Witness {
	out := Witness{}
	for ; st.from != nil; st = st.from {
		out = append(out, Given{st.from.question.ID.S, st.by})
	}
	slices.Reverse(out)
	return out
}

// expand takes every choice of a state.
func (s *search) expand(st *state) {
	q := st.question
	known := maps.Clone(st.known)
	for i := range s.options[q.ID.S] {
		c := &s.options[q.ID.S][i]
		known[q.ID.S] = c.value
		to, cards := s.next(st, c, known)
		if to == "" {
			continue // no way on: a gap, which is reported, or a dead link, which was
		}
		if _, ok := s.witness[to]; !ok {
			s.witness[to] = append(st.way(), Given{q.ID.S, c.chosen})
		}
		on := step{choice: c, cards: cards, ending: to}
		if s.byID[to] != nil {
			on.to, on.ending = s.state(to, known, st, c.chosen), ""
		}
		st.on = append(st.on, on)
	}
}

// next is tree.Question.Next, with an eye on what each route comes to.
func (s *search) next(st *state, c *choice, known map[string]formula.Value) (to, cards string) {
	q, k := st.question, s.t.KnownWith(known)
	to, _ = q.Next(c.chosen, k)
	if len(q.Routes) == 0 || !onRoute(q, c) {
		return to, ""
	}
	s.used[q.ID.S] = true
	var holding []*tree.Route
	var last *tree.Route
	for _, r := range q.Routes {
		if r.Else() {
			last = r
		} else if v := s.test(r.If.Expr, k); v.Known && v.Truth { // as Route.Holds
			holding = append(holding, r)
		}
	}
	s.cover(st, c, holding, last)
	switch {
	case len(holding) > 0:
		last = holding[0]
	case last == nil:
		return "", ""
	}
	s.taken[last] = true
	for _, card := range last.Cards {
		cards += card.S + " "
	}
	return to, cards
}

// onRoute tells whether routes decide about the choice.
func onRoute(q *tree.Question, c *choice) bool {
	if len(c.chosen) == 1 && c.chosen[0] == tree.Skip && q.Skip.Given() {
		return false
	}
	return !slices.ContainsFunc(c.chosen, func(id string) bool {
		a := q.Answer(id)
		return a != nil && a.Go.Given()
	})
}

// test gives what a condition comes to, and notes it with what its parts come to. One that could not be read is unknown.
func (s *search) test(e *formula.Expr, k *tree.Known) formula.Value {
	if e == nil {
		return formula.Value{}
	}
	t := s.tested[e]
	if t == nil {
		t = &tested{}
		s.tested[e] = t
	}
	var v formula.Value
	if e.Op == "&&" || e.Op == "||" {
		v = e.Joined(s.test(e.Args[0], k), s.test(e.Args[1], k))
	} else {
		v = e.Eval(k.Value)
	}
	t.was = t.was || (v.Known && v.Truth)
	t.wasNot = t.wasNot || !(v.Known && v.Truth)
	return v
}

// cover reports where no route holds and where two do, each once a question.
func (s *search) cover(st *state, c *choice, holding []*tree.Route, last *tree.Route) {
	q := st.question
	if s.t.Loose {
		return
	}
	answer := strings.Join(c.chosen, ", ")
	var after []string
	if way := st.way(); len(way) > 0 && len(st.known) > 0 {
		after = []string{"for instance after " + way.String()}
	}
	switch {
	case len(holding) == 0 && last == nil && !s.gaps[q.ID.S]:
		s.gaps[q.ID.S] = true
		s.list.Add(q.ID.At, "route-gap", fmt.Sprintf("no route of question %q takes the answer %q", q.ID.S, answer),
			append(after, "let a route cover it, or add a last route without \"if\" for all that is left")...)
	case len(holding) > 1 && !s.overlaps[q.ID.S]:
		s.overlaps[q.ID.S] = true
		s.list.Add(holding[1].At, "route-overlap", fmt.Sprintf("two routes of question %q take the answer %q", q.ID.S, answer),
			append(after, "the first is at "+holding[0].At.String(), "part them at one amount: < in the one and >= in the other")...)
	}
}

// askedFor notes which answers conditions ask for, by name.
func (s *search) askedFor() {
	s.eachCondition(func(e *formula.Expr) {
		e.Asks(func(question, answer string) {
			if !slices.Contains(s.asked[question], answer) {
				s.asked[question] = append(s.asked[question], answer)
			}
		})
	})
	// Ticked beside others, "not sure" makes all of them unknown, so it matters
	// wherever one of them does.
	for id := range s.asked {
		if q := s.byID[id]; q != nil && q.Answer(tree.Unsure) != nil {
			s.asked[id] = append(s.asked[id], tree.Unsure)
		}
	}
}

// eachCondition calls do with every condition and with the formulas of values
// that conditions use.
func (s *search) eachCondition(do func(e *formula.Expr)) {
	for _, q := range s.t.Questions {
		for _, r := range q.Routes {
			if r.If.Expr == nil {
				continue
			}
			do(r.If.Expr)
			used, _ := s.t.RestsOn(r.If.Expr)
			for _, w := range s.t.Values {
				if slices.Contains(used, w.ID.S) {
					do(w.Is.Expr)
				}
			}
		}
	}
}

// questions gives the questions that a formula rests on, also by way of values.
func (s *search) questions(e *formula.Expr) []string {
	_, out := s.t.RestsOn(e)
	return out
}

// parts gives the comparisons that rest on one measure alone. mixed tells that
// some comparison rests on it together with another answer.
func (s *search) parts(id string) (out []*formula.Expr, mixed bool) {
	var visit func(e *formula.Expr)
	visit = func(e *formula.Expr) {
		if e.Op == "&&" || e.Op == "||" || e.Op == "!" {
			for _, a := range e.Args {
				visit(a)
			}
			return
		}
		on := s.questions(e)
		switch {
		case !slices.Contains(on, id):
		case len(on) == 1:
			out = append(out, e)
		default:
			mixed = true
		}
	}
	for _, q := range s.t.Questions {
		for _, r := range q.Routes {
			if r.If.Expr != nil {
				visit(r.If.Expr)
			}
		}
	}
	return out, mixed
}

// liveness gives for each question the questions that a condition at it, or
// after it, rests on.
func (s *search) liveness() map[string][]string {
	out := map[string][]string{}
	var visit func(id string) []string
	visit = func(id string) []string {
		if names, ok := out[id]; ok {
			return names
		}
		q := s.byID[id]
		if q == nil {
			return nil
		}
		set := map[string]bool{}
		for _, r := range q.Routes {
			if r.If.Expr != nil {
				for _, n := range s.questions(r.If.Expr) {
					set[n] = true
				}
			}
		}
		for _, to := range q.WaysOn() {
			for _, n := range visit(to.S) {
				set[n] = true
			}
		}
		var names []string
		for n := range set {
			names = append(names, n)
		}
		slices.Sort(names)
		out[id] = names
		return names
	}
	for id := range s.byID {
		visit(id)
	}
	return out
}
