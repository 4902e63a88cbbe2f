package publish

import (
	"slices"
	"strings"
	"testing"

	"keelpath/builder/internal/librarytest"
	"keelpath/builder/quantity"
)

// A figure beside a question can begin at every amount that the question takes, in
// each of its units. A heel of 4 in, 101.6 mm, is among them.
func TestFiguresTakeWhatQuestionsTake(t *testing.T) {
	l := librarytest.Load(t)
	for _, f := range l.Figures {
		for _, spot := range f.At {
			id, question, _ := strings.Cut(spot.Question, "/")
			q := l.Tree(id).Question(question)
			if q == nil || q.Measure == nil {
				t.Errorf("%s stands beside %s, which asks for no amount", f.ID, spot.Question)
				continue
			}
			inputs := []string{spot.Input}
			for _, other := range spot.Other {
				inputs = append(inputs, other)
			}
			for _, input := range inputs {
				m, less := f.Input(input).Measure(), 0.0
				if spot.Less != "" {
					from := f.Input(spot.Less)
					v, err := quantity.Read(from.Begin.S, from.Measure())
					if err != nil {
						t.Fatal(err)
					}
					less = v.Num // both are in mm
				}
				if m.From > q.Measure.From+less || m.To < q.Measure.To+less {
					t.Errorf("%s: %s takes %v to %v, and %s asks for %v to %v, to which %v comes", f.ID, input, m.From, m.To, spot.Question, q.Measure.From, q.Measure.To, less)
				}
				for _, code := range q.Measure.Accept {
					if u, _ := quantity.Lookup(code); !slices.Contains(m.Accept, code) && u.System != "uk" {
						t.Errorf("%s: %s takes no %s, and %s does", f.ID, input, code, spot.Question)
					}
				}
			}
			if spot.By != "" {
				for answer := range spot.Other {
					if by := l.Tree(id).Question(spot.By); by == nil || by.Accepts([]string{answer}) != nil {
						t.Errorf("%s: %s has no answer %q", f.ID, spot.By, answer)
					}
				}
			}
			if q.Measure.Kind() == quantity.Length {
				if v, err := quantity.Read("4 in", q.Measure.Measure); err != nil || v.Exact() != 101.6 {
					t.Errorf("%s: a heel of 4 in is read as %v, %v", spot.Question, v, err)
				}
			}
		}
	}
}
