package tree

import (
	"fmt"
	"maps"
	"slices"

	"keelpath/builder/formula"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
)

// Answers holds what a reader answered: question id to chosen answer ids. For a
// question with a measure it holds what the reader typed, or the id of a like.
// A skipped question holds just Skip. A question may have answers although the
// path does not come by it; they are kept and not used.
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

	// Amounts are the measures and worked-out values that are known at the end
	// of the path, by id; for showing in texts.
	Amounts map[string]quantity.Value `json:"amounts,omitempty"`
}

// Walk follows the answers from the start. It is an error if an answer on the
// path is not one the question takes, or if the tree itself does not lead on
// (which the checker would have reported).
func (t *Tree) Walk(given Answers) (Path, error) {
	p := Path{Steps: []Step{}, Cards: []string{}}
	known := t.KnownWith(map[string]formula.Value{})
	at := t.Start.S
	for range len(t.Questions) + 1 {
		if t.Ending(at) != nil {
			p.Ending = at
			p.Amounts = known.amounts()
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
		known.answer(q, chosen)
		next, cards := q.Next(chosen, known)
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

// Known holds what the questions of a path so far have made known.
type Known struct {
	t        *Tree
	answered map[string]formula.Value
	typed    map[string]quantity.Value  // of measures: as the reader wrote it
	value    func(string) formula.Value // of names, worked-out ones each once; nil after an answer
}

// answer notes accepted answers. Skipped and "not sure" stay unknown.
func (k *Known) answer(q *Question, chosen []string) {
	id := q.ID.S
	k.value = nil
	switch {
	case chosen[0] == Skip && q.Skip.Given(), q.Measure == nil && slices.Contains(chosen, Unsure):
	case q.Measure != nil:
		if v, err := q.Measure.Read(chosen[0]); err == nil {
			k.answered[id] = formula.Of(v.Num)
			k.typed[id] = v
		}
	default:
		k.answered[id] = formula.Value{Known: true, Chosen: chosen}
	}
}

// Value gives what a name in a formula stands for. Of a nil Known nothing is known.
func (k *Known) Value(name string) formula.Value {
	if k == nil {
		return formula.Value{}
	}
	if k.value == nil {
		k.value = formula.Once(k.t.worked, func(name string) formula.Value { return k.answered[name] })
	}
	return k.value(name)
}

// eval of a formula that could not be read is unknown.
func (f Formula) eval(value func(string) formula.Value) formula.Value {
	if f.Expr == nil {
		return formula.Value{}
	}
	return f.Expr.Eval(value)
}

// shownIn are the units that worked-out values are shown in.
var shownIn = map[formula.Kind]string{
	formula.Kind(quantity.Length): "mm", formula.Kind(quantity.Mass): "kg", formula.Kind(quantity.Angle): "deg",
	formula.Kind(quantity.Slope): "%", formula.Kind(quantity.Count): "1",
}

func (k *Known) amounts() map[string]quantity.Value {
	out := map[string]quantity.Value{}
	for _, q := range k.t.Questions {
		if v, ok := k.typed[q.ID.S]; ok {
			out[q.ID.S] = v
		}
	}
	exact := k.exact()
	for _, w := range k.t.Values {
		unit := shownIn[w.Kind]
		if v := exact.Value(w.ID.S); v.Known && unit != "" {
			out[w.ID.S] = quantity.Value{Kind: quantity.Kind(w.Kind), Num: v.Num, Unit: unit}
		}
	}
	if len(out) == 0 {
		return nil
	}
	return out
}

// exact is k with the amounts that readers gave, before they were rounded to the
// steps by which ways are decided. What is shown is worked out from these.
func (k *Known) exact() *Known {
	out := &Known{t: k.t, answered: maps.Clone(k.answered), typed: k.typed}
	for id, v := range k.typed {
		out.answered[id] = formula.Of(v.Exact())
	}
	return out
}

// Next gives where accepted answers lead and which cards they add. With several
// answers the first one in the file that has a way of its own decides, so an
// author puts the grave ones first; where none has, the first route counts whose
// condition is true, and then the question's own way.
func (q *Question) Next(chosen []string, known *Known) (to string, cards []string) {
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
		cards = append(cards, read.Strings(a.Cards)...)
	}
	if to != "" {
		return to, cards
	}
	for _, r := range q.Routes {
		if r.Else() || r.Holds(known.Value) {
			return r.Go.S, append(cards, read.Strings(r.Cards)...)
		}
	}
	return q.Go.S, cards
}

// Holds tells whether the route's condition is true; unknown is not enough.
func (r *Route) Holds(value func(string) formula.Value) bool {
	v := r.If.eval(value)
	return v.Known && v.Truth
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
		return chosen // skipped, or an amount
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

// KnownWith gives what is known where questions have these values; it lets a
// proof ask Next without a path.
func (t *Tree) KnownWith(values map[string]formula.Value) *Known {
	return &Known{t: t, answered: values, typed: map[string]quantity.Value{}}
}

// Made gives what the steps of a path make known, by question.
func (t *Tree) Made(steps []Step) map[string]formula.Value {
	k := t.KnownWith(map[string]formula.Value{})
	for _, s := range steps {
		if q := t.Question(s.Question); q != nil {
			k.answer(q, s.Chosen)
		}
	}
	return k.answered
}
