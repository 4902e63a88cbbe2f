package tree

import (
	"slices"
	"strings"

	"keelpath/builder/quantity"
	"keelpath/builder/say"
)

// Says words an answer for readers in the words of w: the texts of the chosen answers, the amount
// in the unit that was typed, a like's text, or that it was skipped.
func (q *Question) Says(w *say.Words, chosen []string) []string {
	if len(chosen) == 1 && chosen[0] == Skip && q.Skip.Given() {
		return []string{w.Say("inside.skipped")}
	}
	if q.Measure != nil {
		return q.Measure.says(quantity.In(w), chosen)
	}
	var out []string
	for _, a := range q.Answers {
		if slices.Contains(chosen, a.ID.S) {
			out = append(out, a.Text.S)
		}
	}
	return out
}

func (m *Measure) says(t *quantity.Tables, chosen []string) []string {
	var out []string
	for _, c := range chosen {
		if l := m.Like(c); l != nil {
			out = append(out, l.Text.S)
		} else if v, err := m.Read(c); err == nil {
			out = append(out, t.Show(m.Measure, v))
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

// lacking are the words for an amount that is not known, by its kind: one that a reader can measure, and one
// that follows from others.
var lacking = map[quantity.Kind]struct{ measure, workOut say.Name }{
	quantity.Length: {"amount.length-to-measure", "amount.length-to-work-out"},
	quantity.Mass:   {"amount.weight-to-measure", "amount.weight-to-work-out"},
	quantity.Angle:  {"amount.angle-to-measure", "amount.angle-to-work-out"},
	quantity.Slope:  {"amount.slope-to-measure", "amount.slope-to-work-out"},
	quantity.Count:  {"amount.number-to-measure", "amount.number-to-work-out"},
}

// WithoutAmount stands in a text where an amount is not known, in the words of w.
func (t *Tree) WithoutAmount(w *say.Words, id string) string {
	if q := t.Question(id); q != nil && q.Measure != nil {
		return w.Say(lacking[q.Measure.Kind()].measure)
	}
	for _, v := range t.Values {
		if what, ok := lacking[quantity.Kind(v.Kind)]; v.ID.S == id && ok {
			return w.Say(what.workOut)
		}
	}
	return w.Say(lacking[quantity.Count].workOut)
}

// FillGaps puts words into the gaps of a text, "about {needed}".
func FillGaps(text string, fill func(id string) string) string {
	var pairs []string
	for _, id := range Gaps(text) {
		pairs = append(pairs, "{"+id+"}", fill(id))
	}
	return strings.NewReplacer(pairs...).Replace(text)
}
