package tree

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/formula"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
)

// Measure is what a question takes that is answered with an amount. Its
// answers are what a person types ("14 %", "1 1/2 in") or the id of a Like.
type Measure struct {
	quantity.Measure
	Place finding.Place
	Likes []*Like

	Ground read.Text // the tile of builder/drawing that its amounts are drawn as

	// Unread tells that what the author wrote is no measure. That was reported,
	// and the amounts are a stand-in.
	Unread bool
}

// Like is an amount with a name, for readers who have not measured: "like a
// wheelchair ramp".
type Like struct {
	ID    read.Text
	Text  read.Text
	Is    read.Text // as a person would type it
	Value quantity.Value
}

// Worked is a value worked out from answers.
type Worked struct {
	ID   read.Text
	Is   Formula
	Kind formula.Kind
}

// Formula is a formula with its place. Expr is nil where it was not given or
// could not be read.
type Formula struct {
	read.Text
	Expr *formula.Expr
}

// Route is a way on that is taken where its condition is true. One without a
// condition is taken where no other is.
type Route struct {
	At    finding.Place
	If    Formula
	Short read.Text // what a map of the tree says in place of the condition; optional
	Go    read.Text
	Cards []read.Text
}

// Like gives the like with that id, or nil.
func (m *Measure) Like(id string) *Like {
	for _, l := range m.Likes {
		if l.ID.S == id {
			return l
		}
	}
	return nil
}

// Read gives the amount of an answer.
func (m *Measure) Read(answer string) (quantity.Value, error) {
	if l := m.Like(answer); l != nil {
		return l.Value, nil
	}
	return quantity.Read(answer, m.Measure)
}

func parseMeasure(m *read.Map, list *finding.List) *Measure {
	out := &Measure{Place: m.At()}
	unit, accept := m.NeedText("unit"), m.Texts("accept")
	from, ok1 := m.Amount("from")
	to, ok2 := m.Amount("to")
	step, ok3 := m.Amount("step")
	ok := ok1 && ok2 && ok3 && unit.S != ""
	if ok {
		var err error
		if out.Measure, err = quantity.NewMeasure(unit.S, read.Strings(accept), from, to, step); err != nil {
			list.Add(m.At(), "measure", err.Error(), `a measure looks like { unit: "%", accept: ["%", deg, "1:n"], from: 0, to: 40, step: 0.5 }`)
			ok = false
		}
	}
	m.Each("like", "like", func(id read.Text, l *read.Map) {
		like := &Like{ID: id, Text: l.NeedWords("text"), Is: l.NeedText("is")}
		l.Done()
		if id.S == Skip {
			list.Add(id.At, "reserved-id", fmt.Sprintf("like %q has an id that stands for skipping", id.S), "give it another id")
		}
		if ok && like.Is.S != "" {
			like.read(out.Measure, list)
		}
		out.Likes = append(out.Likes, like)
	})
	kind := ""
	if ok {
		kind = string(out.Kind())
	}
	out.Ground = parseGround(m, kind, "the measure", list)
	m.Done()
	if !ok {
		out.Unread, out.Measure = true, standIn
	}
	return out
}

// standIn is a measure that can be asked anything.
var standIn = quantity.Measure{Unit: "1", Accept: []string{"1"}, From: 0, To: 1, Step: 1}

func (l *Like) read(m quantity.Measure, list *finding.List) {
	v, err := quantity.Read(l.Is.S, m)
	var refused *quantity.Error
	if errors.As(err, &refused) {
		list.Add(l.Is.At, "measure", fmt.Sprintf("like %q is %q, and the measure does not take that", l.ID.S, l.Is.S), "what a reader would be told: "+refused.Text)
	}
	l.Value = v
}

func parseRoutes(m *read.Map, list *finding.List) []*Route {
	var out []*Route
	maps := m.Maps("routes", "a route")
	for i, r := range maps {
		route := &Route{At: r.At(), If: parseFormula(r.Text("if"), list), Short: r.Words("short"), Go: r.NeedText("go"), Cards: r.IDs("cards")}
		r.Done()
		if !route.If.Given() && i < len(maps)-1 {
			list.Add(r.At(), "route-order", "a route without a condition stands before others", "put it last: it is taken where no other is")
		}
		out = append(out, route)
	}
	return out
}

func parseFormula(t read.Text, list *finding.List) Formula {
	f := Formula{Text: t}
	if !t.Given() {
		return f
	}
	expr, err := formula.Parse(t.S)
	if err != nil {
		list.Add(t.Place(err.Col), "formula", err.Text, err.Help...)
		return f
	}
	f.Expr = expr
	return f
}

// Else tells whether the route is the one without a condition.
func (r *Route) Else() bool { return !r.If.Given() }

// names gives what formulas may use: questions, and the values before limit.
func (t *Tree) names(limit int) formula.Names {
	out := formula.Names{}
	for _, q := range t.Questions {
		out[q.ID.S] = q.name()
	}
	for _, w := range t.Values[:limit] {
		out[w.ID.S] = formula.Name{Kind: w.Kind}
	}
	return out
}

func (q *Question) name() formula.Name {
	switch {
	case q.Measure != nil && q.Measure.Unread:
		return formula.Name{}
	case q.Measure != nil:
		return formula.Name{Kind: formula.Kind(q.Measure.Kind())}
	case q.Pick == PickAny:
		return formula.Name{Kind: formula.Choices, Answers: q.known()}
	}
	return formula.Name{Kind: formula.Choice, Answers: q.known()}
}

// known gives the answers that a formula can ask for. "Not sure" is unknown,
// and a formula cannot ask for that.
func (q *Question) known() []string {
	var out []string
	for _, a := range q.Answers {
		if a.ID.S != Unsure {
			out = append(out, a.ID.S)
		}
	}
	return out
}

// formulas checks every formula of the tree.
func (c *checker) formulas() {
	t := c.t
	for i, w := range t.Values {
		if t.Question(w.ID.S) != nil {
			c.list.Add(w.ID.At, "repeated-id", fmt.Sprintf("value %q has the same id as a question", w.ID.S), "the question is at "+t.Question(w.ID.S).ID.At.String(), "give one of them another name")
			w.Is.Expr, t.Loose = nil, true // it might ask for itself
		}
		c.nameFault(w.ID, "value")
		w.Kind = c.formula(&w.Is, t.names(i))
	}
	names := t.names(len(t.Values))
	for _, q := range t.Questions {
		c.nameFault(q.ID, "question")
		for _, r := range q.Routes {
			if k := c.formula(&r.If, names); k != "" && k != formula.Truth {
				t.Loose = true
				c.list.Add(r.If.At, "formula", fmt.Sprintf("the route's condition is %s, and something true or false was expected", k.Says()), "compare it with something: steepness > 8.5*percent")
			}
		}
	}
}

// nameFault reports an id that a formula could not use. It only matters in a
// tree that has formulas.
func (c *checker) nameFault(id read.Text, kind string) {
	if why := formula.NameFault(id.S); why != "" && c.t.hasFormulas() {
		c.list.Add(id.At, "reserved-id", fmt.Sprintf("%s %q has an id that formulas cannot use: %s", kind, id.S, why), "give it another id")
		c.t.Loose = true // what formulas make of it says nothing
	}
}

func (t *Tree) hasFormulas() bool {
	return len(t.Values) > 0 || slices.ContainsFunc(t.Questions, func(q *Question) bool { return q.Measure != nil || len(q.Routes) > 0 })
}

// formula gives the kind of a formula, or "" where it is not known. One with
// findings is taken away: it may ask for itself, and can come to no value.
func (c *checker) formula(f *Formula, names formula.Names) formula.Kind {
	if f.Expr == nil {
		return ""
	}
	k, errs := f.Expr.Check(names)
	for _, e := range errs {
		c.list.Add(f.Place(e.Col), "formula", e.Text, e.Help...)
	}
	if len(errs) > 0 {
		f.Expr, c.t.Loose = nil, true
		return ""
	}
	return k
}

// gaps reports the gaps of ending texts, "{needed}", that name no value.
func (c *checker) gaps() {
	var names []string
	for _, w := range c.t.Values {
		names = append(names, w.ID.S)
	}
	for _, q := range c.t.Questions {
		if q.Measure != nil {
			names = append(names, q.ID.S)
		}
	}
	for _, e := range c.t.Endings {
		for _, text := range []read.Text{e.Text, e.Caution} {
			for _, id := range Gaps(text.S) {
				if !slices.Contains(names, id) {
					c.list.Add(text.At, "unknown-name", fmt.Sprintf("ending %q shows {%s}, and no value or measure has that name", e.ID.S, id), nearestOr(id, names, nil, "name one of values:, or a question with a measure")...)
				}
			}
		}
	}
}

// Gaps gives the ids in the gaps of a text: "about {needed} degrees".
func Gaps(text string) []string {
	var out []string
	for {
		_, after, ok := strings.Cut(text, "{")
		if !ok {
			return out
		}
		id, rest, ok := strings.Cut(after, "}")
		if !ok {
			return out
		}
		if read.IsID(id) {
			out = append(out, id)
			text = rest
		} else {
			text = after
		}
	}
}
