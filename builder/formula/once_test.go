package formula

import (
	"fmt"
	"testing"
)

// doubling gives values of which each is twice the one before; the first is
// twice what a reader gave.
func doubling(t testing.TB, n int) map[string]*Expr {
	t.Helper()
	out := map[string]*Expr{}
	before := "given"
	for i := range n {
		e, err := Parse(before + " + " + before)
		if err != nil {
			t.Fatal(err)
		}
		before = fmt.Sprintf("v%d", i)
		out[before] = e
	}
	return out
}

// Each formula is worked out once, counted by how often the first one asks for
// the reader's answer: 20 values that double would ask a million times.
func TestEachFormulaIsWorkedOutOnce(t *testing.T) {
	asked := 0
	value := Once(doubling(t, 20), func(string) Value { asked++; return Of(1) })
	for range 3 {
		if v := value("v19"); !v.Known || v.Num != 1<<20 {
			t.Errorf("20 doublings of 1 come to %+v", v)
		}
	}
	if asked != 2 {
		t.Errorf("the answer was asked for %d times, and one formula uses it twice", asked)
	}
	if v := value("given"); v.Num != 1 || asked != 3 {
		t.Errorf("the answer itself is %+v, asked for %d times", v, asked)
	}
}

// A value that comes to nothing is not tried again either, and one that could
// not be read is unknown.
func TestUnknownIsWorkedOutOnce(t *testing.T) {
	formulas := doubling(t, 20)
	formulas["unread"] = nil
	asked := 0
	value := Once(formulas, func(string) Value { asked++; return Value{} })
	if v := value("v19"); v.Known || asked != 2 {
		t.Errorf("doublings of what is not known: %+v, asked %d times", v, asked)
	}
	if v := value("unread"); v.Known {
		t.Errorf("a value without a formula is %+v", v)
	}
}

func BenchmarkValuesThatUseValues(b *testing.B) {
	formulas := doubling(b, 20)
	for b.Loop() {
		Once(formulas, func(string) Value { return Of(1) })("v19")
	}
}
