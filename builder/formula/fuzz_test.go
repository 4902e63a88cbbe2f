package formula

import (
	"encoding/json"
	"testing"
	"time"
)

// Whatever is typed, Parse and Check answer within a second, with a column
// inside the text; and what they accept can be worked out and encoded.
func FuzzParse(f *testing.F) {
	for _, s := range append(append([]slip{}, slips...), mixUps...) {
		f.Add(s.src)
	}
	for _, src := range []string{
		`steepness > 8.33*percent && safety == "no"`,
		`has(where, "home") || !has(where, "work")`,
		"max(shoe_heel, usual_heel) - min(shoe_heel, usual_heel) >= 10*mm",
		"load(weight, 10*kg) > 100*kg", "-(-(-bend)) < 5*deg", "1/0", "min(min(min(falls)))",
		"((((falls == 1) == 2) == 3))", "99999999999999999999999999999999*falls > 1",
	} {
		f.Add(src)
	}
	f.Fuzz(func(t *testing.T, src string) {
		begin := time.Now()
		tryFormula(t, src)
		if took := time.Since(begin); took > time.Second {
			t.Fatalf("took %v", took)
		}
	})
}

func tryFormula(t *testing.T, src string) {
	e, err := Parse(src)
	if (e == nil) == (err == nil) && err == nil {
		t.Fatal("neither a formula nor an error")
	}
	if err != nil {
		checkError(t, src, err)
		return
	}
	kind, errs := e.Check(names)
	for _, err := range errs {
		checkError(t, src, err)
	}
	if len(errs) > 0 {
		return
	}
	if kind == none {
		t.Fatal("no kind and no error")
	}
	e.Eval(func(string) Value { return Value{} })
	if _, err := json.Marshal(e.Encode()); err != nil {
		t.Fatal(err)
	}
	if back, err := Parse(e.String()); err == nil && back.String() != e.String() {
		t.Fatalf("%s came back as %s", e, back)
	}
}

func checkError(t *testing.T, src string, err *Error) {
	if err.Text == "" || err.Col < 1 || err.Col > len(src)+1 {
		t.Fatalf("column %d of %d: %q", err.Col, len(src), err.Text)
	}
}
