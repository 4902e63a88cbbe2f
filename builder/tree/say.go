package tree

import (
	"slices"
	"strings"

	"keelpath/builder/quantity"
)

// Says words an answer for readers: the texts of the chosen answers, the amount
// in the unit that was typed, a like's text, or "Skipped".
func (q *Question) Says(chosen []string) []string {
	if len(chosen) == 1 && chosen[0] == Skip && q.Skip.Given() {
		return []string{"Skipped"}
	}
	if q.Measure != nil {
		return q.Measure.says(chosen)
	}
	var out []string
	for _, a := range q.Answers {
		if slices.Contains(chosen, a.ID.S) {
			out = append(out, a.Text.S)
		}
	}
	return out
}

func (m *Measure) says(chosen []string) []string {
	var out []string
	for _, c := range chosen {
		if l := m.Like(c); l != nil {
			out = append(out, l.Text.S)
		} else if v, err := m.Read(c); err == nil {
			out = append(out, m.Show(v))
		}
	}
	return out
}

// ShowAmount words an amount that a path made known.
func (t *Tree) ShowAmount(id string, v quantity.Value) string {
	if q := t.Question(id); q != nil && q.Measure != nil {
		return q.Measure.Show(v)
	}
	return quantity.Show(v)
}

// lacking words an amount that is not known, by its kind.
var lacking = map[quantity.Kind]string{
	quantity.Length: "a length", quantity.Mass: "a weight", quantity.Angle: "an angle",
	quantity.Slope: "a slope", quantity.Count: "a number",
}

// WithoutAmount stands in a text where an amount is not known.
func (t *Tree) WithoutAmount(id string) string {
	if q := t.Question(id); q != nil && q.Measure != nil {
		return lacking[q.Measure.Kind()] + " to measure with your prosthetist"
	}
	for _, w := range t.Values {
		if what := lacking[quantity.Kind(w.Kind)]; w.ID.S == id && what != "" {
			return what + " to work out with your prosthetist"
		}
	}
	return "a number to work out with your prosthetist"
}

// FillGaps puts words into the gaps of a text, "about {needed}".
func FillGaps(text string, fill func(id string) string) string {
	var pairs []string
	for _, id := range Gaps(text) {
		pairs = append(pairs, "{"+id+"}", fill(id))
	}
	return strings.NewReplacer(pairs...).Replace(text)
}
