package formula

import (
	"strings"
	"testing"
)

// What a formula comes to, in plain rows; a is 6, b is 4, c is unknown, and x was chosen at q.
func TestEvalInRows(t *testing.T) {
	value := func(name string) Value {
		return map[string]Value{"a": Of(6), "b": Of(4), "q": {Known: true, Chosen: []string{"x"}}}[name]
	}
	for src, want := range map[string]string{
		"min(a, b, 5)": "4", "max(a, b, 5)": "6", "abs(b - a)": "2", "min(a, c)": "?", "a + b": "10", "a - b": "2", "a*b": "24", "a/b": "1.5", "-a": "-6", "-c": "?", "a/0": "?",
		"a > 6": "F", "a >= 6": "T", "b < 4": "F", "b <= 4": "T", "a == 6": "T", "a == 5": "F", "a <= 5": "F", "a < 5": "F", "b != 3": "T", "b > 4": "F", "a != 6": "F", "c > 1": "?", "!(a > 6)": "T", "!(c > 6)": "?",
		`q == "x"`: "T", `"x" == q`: "T", `q != "x"`: "F", `q == "y"`: "F", `c == "x"`: "?", `has(q, "x")`: "T", `has(q, "y")`: "F", `has(c, "x")`: "?",
		"a > 6 || c > 1": "?", "a > 5 || c > 1": "T", "a > 6 && c > 1": "F", "a > 5 && c > 1": "?",
	} {
		e, err := Parse(src)
		if err != nil {
			t.Fatalf("%s: %s", src, err.Text)
		}
		v := e.Eval(value)
		got := (&Expr{Op: "num", Num: v.Num}).String()
		switch {
		case !v.Known:
			got = "?"
		case isCondition(e.Op) || e.Text == "has":
			got = map[bool]string{true: "T", false: "F"}[v.Truth]
		}
		if got != want {
			t.Errorf("%s comes to %s, want %s", src, got, want)
		}
	}
}

// What holds no name of a reader's is worked out for the browser, truths too.
func TestConstantsAreWorkedOut(t *testing.T) {
	for src, want := range map[string]any{"!(1 > 2)": true, "1 < 2 && 2 < 3": true, "2 < 1 || 3 < 2": false, "1 == 1": true, "2*3 + 1": 7.0} {
		e, err := Parse(src)
		if err != nil {
			t.Fatal(err.Text)
		}
		if got := e.Encode(); got != want {
			t.Errorf("%s is encoded as %v, want %v", src, got, want)
		}
	}
}

// Twenty-four brackets, "!" or "-" inside each other are taken, and one more is not.
func TestDepth(t *testing.T) {
	for _, c := range []struct{ open, inside, shut string }{{"(", "a", ")"}, {"!", "a", ""}, {"-(", "a", ")"}, {"abs(", "a", ")"}} {
		deep := func(n int) string { return strings.Repeat(c.open, n) + c.inside + strings.Repeat(c.shut, n) }
		most := maxDepth
		if c.open == "-(" {
			most = maxDepth / 2 // a sign and a bracket
		}
		if _, err := Parse(deep(most)); err != nil {
			t.Errorf("%d of %q: %s", most, c.open, err.Text)
		}
		if _, err := Parse(deep(most + 1)); err == nil || !strings.Contains(err.Text, "too deep") {
			t.Errorf("%d of %q: %v", most+1, c.open, err)
		}
	}
}

// Every answer that is asked for by name, on either side, and nothing else.
func TestAsks(t *testing.T) {
	e, err := Parse(`knee == "unit" && ("own" != knee || has(marks, "sore")) && size > 3*mm && min(size, 4) > 2`)
	if err != nil {
		t.Fatal(err.Text)
	}
	var got []string
	e.Asks(func(question, answer string) { got = append(got, question+" "+answer) })
	if want := "knee unit, knee own, marks sore"; strings.Join(got, ", ") != want {
		t.Errorf("it asks for %q, want %q", got, want)
	}
}

// An answer is held against a question only; of like near names the first by the alphabet is offered.
func TestAnswersOfWhat(t *testing.T) {
	names := Names{"knee": {Kind: Choice, Answers: []string{"unit"}}, "heel-a": {Kind: Number}, "heel-b": {Kind: Number}}
	for src, want := range map[string]string{
		`1 + 2 == "unit"`: "is not a question, and is compared with an answer by ==",
		`has(3, "unit")`:  "3 is not a question",
		`knee == "unti"`:  `question "knee" has no answer "unti" that a formula can ask for`,
	} {
		e, err := Parse(src)
		if err != nil {
			t.Fatal(err.Text)
		}
		_, errs := e.Check(names)
		if len(errs) != 1 || !strings.Contains(errs[0].Text, want) {
			t.Errorf("%s: %v, want one that says %q", src, errs, want)
		}
	}
	e, _ := Parse("heel_c > 1")
	for range 20 { // the names stand in a map
		_, errs := e.Check(names)
		if len(errs) != 1 || len(errs[0].Help) == 0 || !strings.Contains(errs[0].Help[0], `"heel_a"`) {
			t.Fatalf("%+v", errs)
		}
	}
}

// A sign that no formula has brings the list of those it may have.
func TestStrangeSigns(t *testing.T) {
	_, err := Parse("a ~ b")
	if err == nil || len(err.Help) == 0 || !strings.Contains(strings.Join(err.Help, " "), "signs that a formula may have: letters, digits") {
		t.Errorf("%+v", err)
	}
}
