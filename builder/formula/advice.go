package formula

import (
	"fmt"
	"go/token"
	"slices"
	"strings"
)

// What stands here finds the likely slip behind a finding of the checker and
// says what to write.

// hyphen reports a question's id that was written with its hyphens: shoe-heel
// is shoe minus heel to the grammar.
func (c *checker) hyphen(e *Expr) bool {
	parts := chain(e)
	id := strings.Join(parts, "-")
	if _, ok := c.names[id]; !ok || slices.Contains(parts, "") || !slices.ContainsFunc(parts, c.unknown) {
		return false
	}
	c.fail(e.Start(), fmt.Sprintf("%q is read as %s", id, strings.Join(parts, " minus ")),
		fmt.Sprintf("write %s: in a formula the hyphen of a name becomes an underscore", written(id)))
	return true
}

func (c *checker) unknown(id string) bool {
	_, ok := c.names[id]
	return !ok && !IsUnit(id)
}

// chain gives the names in a - b - c; what is no name gives "".
func chain(e *Expr) []string {
	switch e.Op {
	case "-":
		return append(chain(e.Args[0]), chain(e.Args[1])...)
	case "name":
		return []string{e.Text}
	}
	return []string{""}
}

// Start is the column where the expression begins, brackets left out.
func (e *Expr) Start() int {
	col := e.Col
	for _, a := range e.Args {
		col = min(col, a.Start())
	}
	return col
}

// mixHelp helps where two kinds met that do not go together.
func mixHelp(e *Expr, a, b Kind) []string {
	x, y := e.Args[0], e.Args[1]
	if b == slope {
		a, b, x, y = b, a, y, x
	}
	switch {
	case a == slope && b == angle:
		return []string{fmt.Sprintf("slope_angle(%s) is the slope's angle", x)}
	case a == slope && b == length && e.Op == "*":
		return []string{fmt.Sprintf("ramp_rise(%s, %s) is how far the slope rises over that length", x, y)}
	case a == Truth && b == Truth:
		return []string{`join conditions with && or ||, and turn one round with "!"`}
	case e.Op == "*" || e.Op == "/":
		return nil
	}
	return unitHelp(a, b)
}

// commaHelp helps where a number written 8,33 was read as two values.
func commaHelp(call *Expr) []string {
	for i, a := range call.Args[:max(len(call.Args)-1, 0)] {
		next := call.Args[i+1]
		if a.Op == "num" && next.Start() == a.Col+len(a.String())+1 {
			return []string{"a number is written with a point, like 8.33; a comma parts two values"}
		}
	}
	return nil
}

// noValue reports a part without names that never comes to a value.
func (c *checker) noValue(e *Expr) bool {
	for _, a := range e.Args {
		if c.noValue(a) {
			return true
		}
	}
	if e.Op == "text" || len(e.Uses()) > 0 || e.Op == "==" || e.Op == "!=" {
		return false
	}
	if e.Eval(func(string) Value { return Value{} }).Known {
		return false
	}
	c.fail(e.Col, fmt.Sprintf("%s has no value", e), "it divides by zero, or asks a function for what it cannot give")
	return true
}

// NameFault tells why formulas cannot use the id of a question or value; it is
// empty where they can.
func NameFault(id string) string {
	switch name := written(id); {
	case id == "":
		return "it is empty"
	case IsUnit(id):
		return "formulas use it as a unit"
	case token.IsKeyword(name):
		return "it is a word that formulas cannot use"
	case id[0] >= '0' && id[0] <= '9':
		return "a name in a formula begins with a letter"
	}
	return ""
}

func values(n int) string {
	if n == 1 {
		return "1 value"
	}
	return fmt.Sprintf("%d values", n)
}

func were(n int) string {
	if n == 1 {
		return "was"
	}
	return "were"
}
