package quantity

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"
)

// Whatever is typed: an amount inside the limits and on a step, which is shown
// in words that can be typed again; or a refusal with all its gaps filled.
func FuzzParse(f *testing.F) {
	for _, c := range readings {
		f.Add(c.text)
	}
	for _, c := range refusals {
		f.Add(c.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		begun := time.Now()
		for name, m := range measures {
			v, err := Read(text, m)
			if err != nil {
				checkRefusal(t, err)
				continue
			}
			if !(v.Num >= m.From-1e-9 && v.Num <= m.To+1e-9) || !even(v.Num/m.Step) || !slices.Contains(m.Accept, v.Unit) {
				t.Fatalf("%s: %q gave %+v", name, text, v)
			}
			if math.Abs(v.Rest) > m.Step/2+1e-6 {
				t.Fatalf("%s: %q left a rest of %v", name, text, v.Rest)
			}
			shown, _, _ := strings.Cut(m.Show(v), " (")
			if _, err := Parse(shown, m); err != nil {
				t.Fatalf("%s: %q is shown as %q: %v", name, text, shown, err)
			}
		}
		if d := time.Since(begun); d > time.Second {
			t.Fatalf("%q took %v", text, d)
		}
	})
}

func checkRefusal(t *testing.T, err error) {
	t.Helper()
	var e *Error
	if !errors.As(err, &e) || sentences[e.Code] == "" || e.Text == "" || strings.ContainsAny(e.Text, "{}") ||
		strings.Contains(e.Text, "Inf") || strings.Contains(e.Text, "NaN") || len(e.Text) > 200 {
		t.Fatalf("refused with %+v", e)
	}
}
