package formula

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/quantity"
)

// Kind is what an expression stands for: one of the kinds of package quantity,
// or one of those below.
type Kind string

const (
	Number  Kind = "number"  // without a unit
	Truth   Kind = "truth"   // true, false or unknown
	Choice  Kind = "choice"  // the answer of a question that takes one
	Choices Kind = "choices" // the answers of a question that takes several
	none    Kind = ""        // of what has an error already
)

// Says gives the kind as a noun with its article.
func (k Kind) Says() string {
	switch k {
	case Number:
		return "a plain number"
	case Truth:
		return "a condition"
	case Choice:
		return "an answer"
	case Choices:
		return "several answers"
	case Kind(quantity.Angle):
		return "an angle"
	}
	return "a " + string(k)
}

func (k Kind) amount() bool {
	return k != Truth && k != Choice && k != Choices && k != none
}

// Name is what a name in a formula stands for. Answers are the ids that a
// choice can be compared with.
type Name struct {
	Kind    Kind
	Answers []string
}

// Names are all that a formula may use, by id.
type Names map[string]Name

// unit is a unit's kind and its size in canonical units.
type unit struct {
	kind Kind
	size float64
}

// units are the unit names of formulas; "in" is a word of its own in many
// languages and is left to "inch".
var units = map[string]unit{
	"mm": ofUnit("mm"), "cm": ofUnit("cm"), "m": ofUnit("m"), "inch": ofUnit("in"), "foot": ofUnit("ft"),
	"kg": ofUnit("kg"), "lb": ofUnit("lb"), "percent": ofUnit("%"), "deg": ofUnit("deg"),
}

func ofUnit(name string) unit {
	u, ok := quantity.Lookup(name)
	if !ok {
		panic("formula: quantity has no unit " + name)
	}
	return unit{Kind(u.Kind), u.Canonical(1)}
}

// IsUnit tells whether a name stands for a unit, and so cannot name a question.
func IsUnit(name string) bool { _, ok := units[name]; return ok }

// Check gives the kind of the formula, and everything that is wrong with it.
func (e *Expr) Check(names Names) (Kind, []*Error) {
	c := &checker{names: names}
	k := c.kind(e)
	if len(c.errs) == 0 {
		c.noValue(e)
	}
	slices.SortStableFunc(c.errs, func(a, b *Error) int { return cmp.Compare(a.Col, b.Col) })
	for _, err := range c.errs {
		if len(err.Help) == 0 {
			err.Help = []string{c.couldUse()}
		}
	}
	return k, c.errs
}

type checker struct {
	names Names
	errs  []*Error
}

// couldUse names what there is to use, for an author who has no other help.
func (c *checker) couldUse() string {
	var own []string
	for n := range c.names {
		own = append(own, written(n))
	}
	slices.Sort(own)
	if len(own) > 12 {
		own = append(own[:12], "and more")
	}
	if len(own) == 0 {
		own = []string{"none"}
	}
	return "names that this formula can use: " + strings.Join(own, ", ")
}

func (c *checker) fail(col int, text string, help ...string) Kind {
	c.errs = append(c.errs, fail(col, text, help...))
	return none
}

func (c *checker) kind(e *Expr) Kind {
	switch e.Op {
	case "num":
		return Number
	case "text":
		return c.fail(e.Col, fmt.Sprintf("the text %q stands by itself", e.Text), `compare it with a question: question == "answer"`)
	case "name":
		return c.name(e)
	case "call":
		return c.call(e)
	case "!":
		return c.truths(e)
	case "neg":
		k := c.kind(e.Args[0])
		if k != none && !k.amount() {
			return c.fail(e.Col, fmt.Sprintf("%s cannot be taken negative", k.Says()))
		}
		return k
	case "&&", "||":
		return c.truths(e)
	case "+":
		return c.same(e, "added")
	case "-":
		if c.hyphen(e) {
			return none
		}
		return c.same(e, "taken from each other")
	case "*", "/":
		return c.product(e)
	}
	return c.compare(e)
}

func (c *checker) name(e *Expr) Kind {
	if n, ok := c.names[e.Text]; ok {
		if n.Kind == Kind(quantity.Count) {
			return Number
		}
		return n.Kind
	}
	if u, ok := units[e.Text]; ok {
		return u.kind
	}
	all := c.all()
	return c.fail(e.Col, fmt.Sprintf("the formula uses %q, and no question, value or unit has that name", written(e.Text)), finding.NearestHelp(written(e.Text), all, nil)...)
}

// written gives an id as formulas write it.
func written(id string) string { return strings.ReplaceAll(id, "-", "_") }

func (c *checker) all() []string {
	var out []string
	for n := range c.names {
		out = append(out, written(n))
	}
	for n := range units {
		out = append(out, n)
	}
	slices.Sort(out)
	return out
}

func (c *checker) truths(e *Expr) Kind {
	for _, a := range e.Args {
		if k := c.kind(a); k != none && k != Truth {
			c.fail(a.Col, fmt.Sprintf("%s needs a condition here, and this is %s", e.Op, k.Says()), "compare it with something")
		}
	}
	return Truth
}

// same takes two amounts of one kind.
func (c *checker) same(e *Expr, what string) Kind {
	return c.agree(e, c.kind(e.Args[0]), c.kind(e.Args[1]), what)
}

// agree holds the kinds of e's two operands against each other.
func (c *checker) agree(e *Expr, a, b Kind, what string) Kind {
	switch {
	case a == none || b == none:
		return none
	case a != b || !a.amount():
		return c.fail(e.Col, fmt.Sprintf("%s is %s and %s is %s; they cannot be %s", e.Args[0], a.Says(), e.Args[1], b.Says(), what), mixHelp(e, a, b)...)
	}
	return a
}

// unitHelp helps where a number was written without its unit.
func unitHelp(a, b Kind) []string {
	if a != Number && b != Number {
		return nil
	}
	other := a
	if a == Number {
		other = b
	}
	var fit []string
	for n, u := range units {
		if u.kind == other {
			fit = append(fit, n)
		}
	}
	if len(fit) == 0 {
		return nil
	}
	slices.Sort(fit)
	return []string{"give the number its unit, like 10*" + fit[0] + "; units here: " + strings.Join(fit, ", ")}
}

func (c *checker) product(e *Expr) Kind {
	a, b := c.kind(e.Args[0]), c.kind(e.Args[1])
	switch {
	case a == none || b == none:
		return none
	case !a.amount() || !b.amount():
	case b == Number:
		return a
	case e.Op == "*" && a == Number:
		return b
	case e.Op == "/" && a == b:
		return Number
	}
	verb := "multiplied"
	if e.Op == "/" {
		verb = "divided"
	}
	return c.fail(e.Col, fmt.Sprintf("%s is %s and %s is %s; they cannot be %s", e.Args[0], a.Says(), e.Args[1], b.Says(), verb), mixHelp(e, a, b)...)
}

func (c *checker) compare(e *Expr) Kind {
	a, b := e.Args[0], e.Args[1]
	if a.Op == "text" {
		a, b = b, a
	}
	if b.Op == "text" {
		if e.Op != "==" && e.Op != "!=" {
			return c.fail(e.Col, "answers have no order", "compare them with == or !=")
		}
		c.answer(a, b, Choice, "compared with an answer by "+e.Op)
		return Truth
	}
	if isComparison(a.Op) {
		return c.fail(e.Col, "two comparisons stand in one row", fmt.Sprintf("write %s && %s %s %s", a, a.Args[1], e.Op, b))
	}
	ka := c.kind(a)
	if ka == Choice || ka == Choices {
		return c.fail(e.Col, fmt.Sprintf("%s is %s, and is compared with no answer", a, ka.Says()), `write the answer's id in quotes: "yes"`)
	}
	c.agree(e, ka, c.kind(b), "compared")
	return Truth
}

// answer holds a text against the answers of the question it is used with.
func (c *checker) answer(q, text *Expr, want Kind, how string) {
	if q.Op != "name" {
		c.fail(q.Col, fmt.Sprintf("%s is not a question, and is %s", q, how))
		return
	}
	k := c.kind(q)
	switch {
	case k == none:
	case k != want && k == Choices:
		c.fail(q.Col, fmt.Sprintf("%q takes several answers, and is %s", written(q.Text), how), fmt.Sprintf("write has(%s, %q)", written(q.Text), text.Text))
	case k != want:
		c.fail(q.Col, fmt.Sprintf("%q is %s, and is %s", written(q.Text), k.Says(), how))
	case !slices.Contains(c.names[q.Text].Answers, text.Text):
		answers := c.names[q.Text].Answers
		help := append(finding.NearestHelp(text.Text, answers, nil), "answers that a formula can ask for: "+strings.Join(answers, ", "))
		c.fail(text.Col, fmt.Sprintf("question %q has no answer %q that a formula can ask for", written(q.Text), text.Text), help...)
	}
}

func (c *checker) call(e *Expr) Kind {
	switch e.Text {
	case "has":
		if len(e.Args) != 2 || e.Args[1].Op != "text" {
			return c.fail(e.Col, "has takes a question and an answer", `write has(question, "answer")`)
		}
		c.answer(e.Args[0], e.Args[1], Choices, "asked with has")
		return Truth
	case "min", "max", "abs":
		return c.common(e)
	}
	f, ok := functions[e.Text]
	if !ok {
		return c.fail(e.Col, fmt.Sprintf("formulas have no function %q", e.Text), finding.NearestHelp(e.Text, functionNames(), nil)...)
	}
	if n := len(e.Args); n < len(f.params) || n > len(f.params) && !f.more {
		return c.fail(e.Col, fmt.Sprintf("%s takes %s, and %d %s given", e.Text, values(len(f.params)), n, were(n)), append(commaHelp(e), f.says)...)
	}
	for i, a := range e.Args {
		if k, want := c.kind(a), f.params[min(i, len(f.params)-1)]; k != none && k != want {
			c.fail(a.Col, fmt.Sprintf("%s takes %s here, and %s is %s", e.Text, want.Says(), a, k.Says()), append(unitHelp(k, want), f.says)...)
		}
	}
	return f.result
}

// common takes amounts of one kind and gives one of it.
func (c *checker) common(e *Expr) Kind {
	if len(e.Args) == 0 || (e.Text == "abs" && len(e.Args) != 1) {
		return c.fail(e.Col, fmt.Sprintf("%s was given %d values", e.Text, len(e.Args)), "abs takes one value; min and max take one or more of one kind")
	}
	var k Kind
	for i, a := range e.Args {
		switch other := c.kind(a); {
		case other == none:
			return none
		case !other.amount():
			return c.fail(a.Col, fmt.Sprintf("%s is given %s", e.Text, other.Says()), "give it amounts of one kind")
		case i == 0:
			k = other
		case other != k:
			return c.fail(a.Col, fmt.Sprintf("%s is given %s and %s", e.Text, k.Says(), other.Says()), unitHelp(k, other)...)
		}
	}
	return k
}

func functionNames() []string {
	out := []string{"has", "min", "max", "abs"}
	for n := range functions {
		out = append(out, n)
	}
	slices.Sort(out)
	return out
}

// String gives the expression as an author would write it.
func (e *Expr) String() string {
	switch e.Op {
	case "num":
		return strconv.FormatFloat(e.Num, 'f', -1, 64)
	case "text":
		return fmt.Sprintf("%q", e.Text)
	case "name":
		return written(e.Text)
	case "neg":
		if e.Args[0].Op == "neg" {
			return "-(" + e.Args[0].String() + ")"
		}
		return "-" + e.Args[0].inner()
	case "!":
		return "!" + e.Args[0].inner()
	case "call":
		parts := make([]string, len(e.Args))
		for i, a := range e.Args {
			parts[i] = a.String()
		}
		return e.Text + "(" + strings.Join(parts, ", ") + ")"
	}
	if e.Op == "*" || e.Op == "/" {
		return e.Args[0].inner() + e.Op + e.Args[1].inner()
	}
	return e.Args[0].inner() + " " + e.Op + " " + e.Args[1].inner()
}

// inner puts brackets round what has two operands.
func (e *Expr) inner() string {
	if len(e.Args) == 2 && e.Op != "call" {
		return "(" + e.String() + ")"
	}
	return e.String()
}
