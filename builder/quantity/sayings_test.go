package quantity

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"keelpath/builder/clienttest"
)

// counted are the measures of this package's tests, and some more of the kind that
// sayings must number: the slopes of the trees, units within units, far limits.
func counted() map[string]Measure {
	out := maps.Clone(measures)
	out["fine"] = measure("%", []string{"deg", "1:n"}, 0, 40, 0.05)
	out["downhill"] = measure("%", []string{"deg", "1:n"}, -20, 20, 0.5)
	out["body"] = measure("kg", []string{"lb", "st", "g"}, 10, 300, 0.5)
	out["feet"] = measure("ft", []string{"in", "cm", "m"}, -2, 8, 0.5)
	out["parts"] = measure("in", []string{"mm"}, -0.5, 3, 0.125)
	out["steepest"] = measure("deg", []string{"%", "1:n"}, 0, 89, 0.5)
	return out
}

// What an amount is kept as reads as itself: in the unit and the step that it is
// listed under, with the same words, and with its own number. Every step has an
// amount in every unit, but for slopes that no 1:n is as steep as.
func TestSayings(t *testing.T) {
	for name, m := range counted() {
		s := m.Sayings()
		n := m.Answers()
		seen := map[string]bool{}
		for u, code := range m.Accept {
			for k := range n {
				from, to := s.first[u*n+k], s.first[u*n+k+1]
				if from == to {
					t.Errorf("%s: answer %d, %v, has no words in %s", name, k, m.At(k), code)
				}
				for i := from; i < to; i++ {
					text := s.Text(i)
					v, err := Read(text, m)
					if err != nil || v.Unit != code || m.Index(v.Num) != k || v.Said != text || s.Of(v) != i || seen[text] {
						t.Fatalf("%s: %q of %s, step %d, reads as %+v (%v), the number %d", name, text, code, k, v, err, s.Of(v))
					}
					seen[text] = true
				}
			}
		}
	}
}

// A measure in whole inches is said in whole inches; parts of one would say what it cannot keep.
func TestSayingsInWholeInches(t *testing.T) {
	m, err := NewMeasure("in", nil, 0, 5, 1)
	if err != nil {
		t.Fatal(err)
	}
	if s := m.Sayings(); s.Len() != 6 {
		t.Errorf("%d amounts: %q", s.Len(), s.texts)
	}
}

// What is typed comes back in its own unit and step: as typed where it is usual or
// in whole steps, else as the nearest amount.
func TestSayingOf(t *testing.T) {
	all := counted()
	for _, c := range []struct{ measure, typed, kept string }{
		{"heel", "3.5 in", "3.5 in"}, {"heel", "3 1/2 in", "3 1/2 in"}, {"heel", "3½ inches", "3 1/2 in"}, {"heel", "1.2 in", "1.2 in"},
		{"heel", "89 mm", "89 mm"}, {"heel", "8.9 cm", "8.9 cm"}, {"heel", "3,80 cm", "3.8 cm"}, {"heel", "2.02 in", "2 in"}, {"heel", "0 in", "0 in"},
		{"body", "210 lb", "210 lb"}, {"body", "211 lb", "211 lb"}, {"body", "15 st", "15 st"}, {"body", "15 st 3", "15 st 3 lb"}, {"body", "15.5 st", "15 st 7 lb"},
		{"body", "95.5 kg", "95.5 kg"}, {"body", "95.3 kg", "95.5 kg"}, {"body", "210.4 lb", "210 lb"}, {"body", "1 st 8 lb", "1 st 8 lb"},
		{"fine", "1:8", "1:8"}, {"fine", "1 in 12", "1:12"}, {"fine", "1:48", "1:48"}, {"fine", "1:99", "1:99"}, {"fine", "1:150", "1:150"}, {"fine", "1:2.5", "1:2.5"},
		{"fine", "8.3 %", "8.3 %"}, {"fine", "8.33%", "8.35 %"}, {"fine", "4.8 deg", "4.8 degrees"}, {"fine", "1 degree", "1 degree"}, {"fine", "4.76 deg", "4.77 degrees"},
		{"downhill", "-1:12", "-1:12"}, {"downhill", "-5 degrees", "-5 degrees"}, {"feet", "5 ft 6", "5 ft 6 in"}, {"feet", "-6 in", "-6 in"},
	} {
		m := all[c.measure]
		v, err := Read(c.typed, m)
		if err != nil {
			t.Fatal(c.typed, err)
		}
		s := m.Sayings()
		if got := s.Text(s.Of(v)); got != c.kept {
			t.Errorf("%s is kept as %s, want %s", c.typed, got, c.kept)
		}
	}
	r := rand.New(rand.NewPCG(3, 5))
	for _, name := range slices.Sorted(maps.Keys(all)) {
		m := all[name]
		s := m.Sayings()
		read := 0
		for range 2000 {
			text := fitting(r, m)
			v, err := Read(text, m)
			if err != nil {
				continue
			}
			read++
			back, err := Read(s.Text(s.Of(v)), m)
			if err != nil || back.Unit != v.Unit || back.Num != v.Num || math.Abs(back.Exact()-v.Exact()) > m.Step*1.001 {
				t.Errorf("%s: %s is kept as %s: %+v and %+v (%v)", name, text, s.Text(s.Of(v)), v, back, err)
			}
		}
		if read < 200 {
			t.Errorf("%s: only %d amounts were read", name, read)
		}
	}
}

// The page numbers the same amounts in the same order.
func TestBrowserNumbersTheSame(t *testing.T) {
	w := twin{Script: clienttest.Load(t, "sums/quantity.ts")}
	w.table = w.Value(Table())
	r := rand.New(rand.NewPCG(11, 2))
	for name, m := range counted() {
		s := m.Sayings()
		js := w.Value(m)
		var got struct{ Texts []string }
		w.Into(w.call(t, "sayings", w.table, js), &got)
		if !slices.Equal(got.Texts, s.texts) {
			for i := range min(len(got.Texts), len(s.texts)) {
				if got.Texts[i] != s.texts[i] {
					t.Errorf("%s: %d is %q in Go, %q on a page", name, i, s.texts[i], got.Texts[i])
					break
				}
			}
			t.Fatalf("%s: %d amounts in Go, %d on a page", name, len(s.texts), len(got.Texts))
		}
		for range 60 {
			text := fitting(r, m)
			v, err := Read(text, m)
			if err != nil {
				continue
			}
			read := w.call(t, "read", w.table, w.Value(text), js)
			if got := fmt.Sprint(w.call(t, "sayingOf", w.table, js, read).Export()); got != fmt.Sprint(s.Of(v)) {
				t.Errorf("%s: %s is %d in Go, %s on a page", name, text, s.Of(v), got)
			}
		}
	}
}
