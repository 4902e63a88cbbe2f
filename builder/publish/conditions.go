package publish

import (
	"math"
	"slices"

	"keelpath/builder/formula"
	"keelpath/builder/quantity"
	"keelpath/builder/say"
	"keelpath/builder/tree"
)

// teller words the conditions of routes for a reader with a pen, who stands at
// the question here: "it is more than 8.5 %".
type teller struct {
	words *say.Words
	t     *tree.Tree
	here  *tree.Question
}

// says words a condition. What has no plain words is shown as it is written.
func (w teller) says(f tree.Formula) string {
	if f.Expr == nil {
		return ""
	}
	if w.mentions(f.Expr, map[string]int{}) <= maxMentions {
		if s := w.truth(f.Expr); s != "" {
			return s
		}
	}
	return w.words.Say("condition.as-written", "formula", f.S)
}

// maxMentions is how often a condition in words may name an answer. Values that
// use values twice would double the words with each one.
const maxMentions = 12

// mentions counts how often a condition in words would name an answer.
func (w teller) mentions(e *formula.Expr, known map[string]int) int {
	if e.Op == "name" {
		v := w.value(e.Text)
		if v == nil {
			return len(e.Uses())
		}
		if _, ok := known[e.Text]; !ok {
			known[e.Text] = w.mentions(v, known)
		}
		return known[e.Text]
	}
	n := 0
	for _, a := range e.Args {
		n = min(n+w.mentions(a, known), maxMentions+1)
	}
	return n
}

// truth is empty where there are no plain words.
func (w teller) truth(e *formula.Expr) string {
	switch e.Op {
	case "&&", "||":
		if rests := w.rests(e); e.Op == "&&" && len(rests) == 1 && rests[0].Measure != nil {
			return w.among(rests[0], w.holds(e, rests[0]))
		}
		a, b := w.truth(e.Args[0]), w.truth(e.Args[1])
		if a == "" || b == "" {
			return ""
		}
		if e.Op == "||" {
			return w.words.Say("condition.or", "before", a, "next", b)
		}
		return w.words.Say("condition.and", "before", w.inside(e.Args[0], a), "next", w.inside(e.Args[1], b))
	case "!":
		if s := w.truth(e.Args[0]); s != "" {
			return w.words.Say("condition.not-so", "condition", s)
		}
		return ""
	case "name":
		if v := w.value(e.Text); v != nil {
			return w.truth(v)
		}
		return ""
	case "call":
		if e.Text == "has" {
			return w.answer(e.Args[0], e.Args[1], "condition.checked")
		}
		return ""
	}
	return w.compared(e)
}

// inside sets an "or" that stands in an "and" apart.
func (w teller) inside(e *formula.Expr, s string) string {
	if e.Op == "||" {
		return "(" + s + ")"
	}
	return s
}

// among says that an answer is among some of its amounts; empty where none is.
func (w teller) among(q *tree.Question, in []bool) string {
	amounts := w.ranges(q.Measure, in)
	if amounts == "" {
		return ""
	}
	return w.words.Say("condition.is", "what", w.subject(q), "amount", amounts)
}

func (w teller) compared(e *formula.Expr) string {
	if len(e.Args) != 2 {
		return ""
	}
	a, b, op := e.Args[0], e.Args[1], e.Op
	if a.Op == "text" {
		a, b = b, a
	}
	if b.Op == "text" {
		form := say.Name("condition.chose")
		if op == "!=" {
			form = "condition.chose-another"
		}
		return w.answer(a, b, form)
	}
	if len(a.Uses()) == 0 {
		a, b, op = b, a, turned[op]
	}
	rests := w.rests(e)
	if len(rests) == 0 || slices.ContainsFunc(rests, func(q *tree.Question) bool { return q.Measure == nil }) {
		return ""
	}
	m := rests[0].Measure
	if limit := b.Eval(nothing); len(rests) == 1 && a.Op == "name" && a.Text == rests[0].ID.S && limit.Known && onGrid(m, limit.Num) {
		return w.words.Say(compares[op], "what", w.subject(rests[0]), "amount", w.shows(m, limit.Num))
	}
	if len(rests) == 1 {
		return w.among(rests[0], w.holds(e, rests[0]))
	}
	return w.sums(a, b, op, m)
}

// sums words a comparison of two amounts that plus and minus work out.
func (w teller) sums(a, b *formula.Expr, op string, m *tree.Measure) string {
	right := ""
	if limit := b.Eval(nothing); limit.Known {
		x := limit.Num
		if d := w.difference(a); d != nil && x < 0 { // nobody measures below 0
			a, x, op = &formula.Expr{Op: "-", Args: []*formula.Expr{d[1], d[0]}}, -x, turned[op]
		}
		right = w.shows(m, stepped(m, x, op))
	} else {
		right = w.sum(b, m)
	}
	left := w.sum(a, m)
	if left == "" || right == "" {
		return ""
	}
	return w.words.Say(compares[op], "what", left, "amount", right)
}

// stepped gives a limit that says the same of amounts in whole steps: of those,
// more than 13.2 mm is more than 13 mm.
func stepped(m *tree.Measure, x float64, op string) float64 {
	switch n := x / m.Step; op {
	case ">", "<=":
		return math.Floor(n+1e-9) * m.Step
	case "<", ">=":
		return math.Ceil(n-1e-9) * m.Step
	}
	return x
}

// difference gives the two amounts whose difference e is, if it is one.
func (w teller) difference(e *formula.Expr) []*formula.Expr {
	if v := w.value(e.Text); e.Op == "name" && v != nil {
		return w.difference(v)
	}
	if e.Op == "-" || e.Op == "call" && e.Text == "heel_change" {
		return e.Args
	}
	return nil
}

// turned gives an operator for operands that change sides.
var turned = map[string]string{"<": ">", "<=": ">=", ">": "<", ">=": "<=", "==": "==", "!=": "!="}

var compares = map[string]say.Name{
	"<": "condition.less", "<=": "condition.at-most", ">": "condition.more", ">=": "condition.at-least", "==": "condition.is", "!=": "condition.is-not",
}

func nothing(string) formula.Value { return formula.Value{} }

// shows says an amount in a measure's own unit.
func (w teller) shows(m *tree.Measure, x float64) string {
	return quantity.In(w.words).Show(m.Measure, own(m, x))
}

// own is an amount in a measure's own unit.
func own(m *tree.Measure, x float64) quantity.Value {
	return quantity.Value{Kind: m.Kind(), Num: x, Unit: m.Unit}
}

// onGrid tells whether an amount can be said in steps of the measure.
func onGrid(m *tree.Measure, x float64) bool {
	for i := range m.Answers() {
		if d := m.At(i) - x; d > -1e-9 && d < 1e-9 {
			return true
		}
	}
	return false
}

// holds tries a condition with every amount of the one measure that it rests on.
func (w teller) holds(e *formula.Expr, q *tree.Question) []bool {
	out := make([]bool, q.Measure.Answers())
	for i := range out {
		v := e.Eval(w.t.KnownWith(map[string]formula.Value{q.ID.S: formula.Of(q.Measure.At(i))}).Value)
		out[i] = v.Known && v.Truth
	}
	return out
}

// ranges words the amounts that are in: "8.6 % or more".
func (w teller) ranges(m *tree.Measure, in []bool) string {
	out := ""
	for i := 0; i < len(in); i++ {
		if !in[i] {
			continue
		}
		from := i
		for i+1 < len(in) && in[i+1] {
			i++
		}
		lo, hi := w.shows(m, m.At(from)), w.shows(m, m.At(i))
		switch {
		case from == 0 && i == len(in)-1:
			out = w.next(out, w.words.Say("condition.any-amount"))
		case from == 0:
			out = w.next(out, w.words.Say("condition.or-less", "amount", hi))
		case i == len(in)-1:
			out = w.next(out, w.words.Say("condition.or-more", "amount", lo))
		case from == i:
			out = w.next(out, lo)
		default:
			out = w.next(out, w.words.Say("condition.from-to", "from", lo, "to", hi))
		}
	}
	return out
}

// next goes on from some amounts to others.
func (w teller) next(before, amounts string) string {
	if before == "" {
		return amounts
	}
	return w.words.Say("condition.or", "before", before, "next", amounts)
}

func (w teller) subject(q *tree.Question) string {
	if q == w.here {
		return w.words.Say("condition.it")
	}
	return w.words.Say("condition.answer-to", "number", w.number(q))
}

func (w teller) number(q *tree.Question) int { return w.t.Numbers()[q.ID.S] }

func (w teller) answer(name, text *formula.Expr, form say.Name) string {
	q := w.t.Question(name.Text)
	if q == nil || q.Answer(text.Text) == nil {
		return ""
	}
	return w.words.Say(form, "answer", q.Answer(text.Text).Text.S, "number", w.number(q))
}

// sum words an amount that is worked out with plus and minus from answers.
func (w teller) sum(e *formula.Expr, m *tree.Measure) string {
	if v := e.Eval(nothing); v.Known {
		return w.shows(m, v.Num)
	}
	both := func(form say.Name, args []*formula.Expr) string {
		a, b := w.sum(args[0], m), w.sum(args[1], m)
		if a == "" || b == "" {
			return ""
		}
		return w.words.Say(form, "first", a, "second", b)
	}
	switch {
	case e.Op == "name" && w.value(e.Text) != nil:
		return w.sum(w.value(e.Text), m)
	case e.Op == "name" && w.here.ID.S == e.Text:
		return w.words.Say("condition.this-answer")
	case e.Op == "name" && w.t.Question(e.Text) != nil:
		return w.words.Say("condition.answer-to", "number", w.number(w.t.Question(e.Text)))
	case e.Op == "+":
		return both("condition.plus", e.Args)
	case w.difference(e) != nil:
		return both("condition.minus", w.difference(e))
	case e.Op == "call" && e.Text == "abs":
		if d := w.difference(e.Args[0]); d != nil {
			return both("condition.difference", d)
		}
	case e.Op == "call" && e.Text == "max" && len(e.Args) == 2:
		return both("condition.larger", e.Args)
	case e.Op == "call" && e.Text == "min" && len(e.Args) == 2:
		return both("condition.smaller", e.Args)
	}
	return ""
}

func (w teller) value(id string) *formula.Expr {
	for _, v := range w.t.Values {
		if v.ID.S == id {
			return v.Is.Expr
		}
	}
	return nil
}

// rests gives the questions that an expression rests on, by values too.
func (w teller) rests(e *formula.Expr) []*tree.Question {
	var out []*tree.Question
	_, questions := w.t.RestsOn(e)
	for _, id := range questions {
		if q := w.t.Question(id); q != nil {
			out = append(out, q)
		}
	}
	return out
}
