package formula

import (
	"math"
	"slices"
)

// Value is what an expression comes to. The zero Value is unknown. Of the other
// fields only the one of the expression's kind counts: Num for amounts in
// canonical units, Truth for conditions, Chosen for answers.
type Value struct {
	Known  bool
	Num    float64
	Truth  bool
	Chosen []string
}

// Of gives a known amount; unknown where it is no finite number.
func Of(x float64) Value {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return Value{}
	}
	return Value{Known: true, Num: x}
}

// That gives a known truth.
func That(b bool) Value { return Value{Known: true, Truth: b} }

// Eval works out an expression that Check found nothing wrong with. value gives
// what a name stands for; a name that is missing is unknown.
func (e *Expr) Eval(value func(name string) Value) Value {
	switch e.Op {
	case "num":
		return Of(e.Num)
	case "name":
		if u, ok := units[e.Text]; ok {
			return Of(u.size)
		}
		return value(e.Text)
	case "text":
		return Value{} // an answer where it has no place, which the checker has reported
	case "call":
		return e.evalCall(value)
	case "!":
		a := e.Args[0].Eval(value)
		return Value{Known: a.Known, Truth: a.Known && !a.Truth}
	case "neg":
		a := e.Args[0].Eval(value)
		if !a.Known {
			return Value{}
		}
		return Of(-a.Num)
	case "&&", "||":
		return e.Joined(e.Args[0].Eval(value), e.Args[1].Eval(value))
	}
	if e.Args[0].Op == "text" || e.Args[1].Op == "text" {
		return e.evalAnswer(value)
	}
	a, b := e.Args[0].Eval(value), e.Args[1].Eval(value)
	if !a.Known || !b.Known {
		return Value{}
	}
	return numbers(e.Op, a.Num, b.Num)
}

// Joined is what an expression with "&&" or "||" comes to where its two operands come to a and b.
func (e *Expr) Joined(a, b Value) Value { return logic(e.Op == "||", a, b) }

// logic is && where decisive is false, and || where it is true: one operand of
// the decisive truth decides, even beside an unknown.
func logic(decisive bool, a, b Value) Value {
	if (a.Known && a.Truth == decisive) || (b.Known && b.Truth == decisive) {
		return That(decisive)
	}
	if !a.Known || !b.Known {
		return Value{}
	}
	return That(!decisive)
}

func numbers(op string, a, b float64) Value {
	switch op {
	case "+":
		return Of(a + b)
	case "-":
		return Of(a - b)
	case "*":
		return Of(a * b)
	case "/":
		return Of(a / b)
	case "==":
		return That(a == b)
	case "!=":
		return That(a != b)
	case "<":
		return That(a < b)
	case "<=":
		return That(a <= b)
	case ">":
		return That(a > b)
	}
	return That(a >= b)
}

func (e *Expr) evalAnswer(value func(string) Value) Value {
	q, text := e.Args[0], e.Args[1]
	if q.Op == "text" {
		q, text = text, q
	}
	v := value(q.Text)
	if !v.Known {
		return Value{}
	}
	is := slices.Contains(v.Chosen, text.Text)
	return That(is == (e.Op == "=="))
}

func (e *Expr) evalCall(value func(string) Value) Value {
	if e.Text == "has" {
		if len(e.Args) != 2 {
			return Value{}
		}
		v := value(e.Args[0].Text)
		if !v.Known {
			return Value{}
		}
		return That(slices.Contains(v.Chosen, e.Args[1].Text))
	}
	args := make([]float64, len(e.Args))
	for i, a := range e.Args {
		v := a.Eval(value)
		if !v.Known {
			return Value{}
		}
		args[i] = v.Num
	}
	if len(args) == 0 {
		return Value{} // a slip that the checker has reported, as below
	}
	switch e.Text {
	case "min":
		return Of(slices.Min(args))
	case "max":
		return Of(slices.Max(args))
	case "abs":
		return Of(math.Abs(args[0]))
	}
	f, known := functions[e.Text]
	if !known || len(args) < len(f.params) || len(args) > len(f.params) && !f.more {
		return Value{}
	}
	return Of(f.call(args))
}

// Coded is an expression for the browser's evaluator, as JSON takes it.
type Coded any

// Encode gives the expression for the browser's evaluator:
// a number; ["v", id] for a name; ["is", id, answer] and ["has", id, answer];
// ["f", function, args...]; [operator, args...]. What is constant is worked out.
func (e *Expr) Encode() Coded {
	if len(e.namesOfReader()) == 0 && e.Op != "text" {
		if v := e.Eval(func(string) Value { return Value{} }); v.Known {
			if isCondition(e.Op) {
				return v.Truth
			}
			return v.Num
		}
	}
	switch e.Op {
	case "name":
		return []any{"v", e.Text}
	case "call":
		if e.Text == "has" && len(e.Args) == 2 {
			return []any{"has", e.Args[0].Text, e.Args[1].Text}
		}
		return append([]any{"f", e.Text}, encodeAll(e.Args)...)
	case "==", "!=":
		q, text := e.Args[0], e.Args[1]
		if q.Op == "text" {
			q, text = text, q
		}
		if text.Op == "text" {
			is := []any{"is", q.Text, text.Text}
			if e.Op == "!=" {
				return []any{"!", is}
			}
			return is
		}
	}
	return append([]any{e.Op}, encodeAll(e.Args)...)
}

func isCondition(op string) bool {
	return op == "!" || op == "&&" || op == "||" || isComparison(op)
}

func isComparison(op string) bool {
	return slices.Contains([]string{"==", "!=", "<", "<=", ">", ">="}, op)
}

func encodeAll(es []*Expr) []any {
	out := make([]any, len(es))
	for i, e := range es {
		out[i] = e.Encode()
	}
	return out
}

// namesOfReader are the names that a reader's answers decide.
func (e *Expr) namesOfReader() []string {
	return slices.DeleteFunc(e.Names(), IsUnit)
}

// Uses gives the ids of questions and values that the formula uses.
func (e *Expr) Uses() []string { return e.namesOfReader() }
