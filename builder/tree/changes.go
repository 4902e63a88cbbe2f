package tree

import (
	"maps"
	"slices"

	"keelpath/builder/formula"
)

// Change is one answer that, changed alone, leads elsewhere. One of Ending and
// Open is set: the ending it leads to, or the question that then waits.
type Change struct {
	Question string   `json:"question"`
	Answer   string   `json:"answer,omitempty"` // what is chosen instead; of several, the one ticked or no longer ticked; or Skip
	Chosen   []string `json:"chosen,omitempty"` // the whole answer then
	Range    *Range   `json:"range,omitempty"`  // of a measure: every amount in it leads there
	Ending   string   `json:"ending,omitempty"`
	Open     string   `json:"open,omitempty"`
}

// Range is a stretch of a measure's amounts, both ends in it, in canonical units.
type Range struct {
	From float64 `json:"from"`
	To   float64 `json:"to"`
}

// Changes lists what would change the ending that the answers lead to: question
// by question along the path, each single other answer that leads elsewhere
// while all others stay. Neighbouring amounts that lead to one place are one
// range. It is empty where the answers do not reach an ending. The browser's
// copy is site/client/walk/changes.ts.
func (t *Tree) Changes(given Answers) []Change {
	path, err := t.Walk(given)
	if err != nil || path.Ending == "" {
		return nil
	}
	c := &changer{t: t, given: given, ending: path.Ending, known: t.KnownWith(map[string]formula.Value{})}
	for _, s := range path.Steps {
		q := t.Question(s.Question)
		if q.Measure != nil {
			c.amounts(q)
		}
		for _, a := range q.Answers {
			c.choose(q, a.ID.S, q.instead(s.Chosen, a))
		}
		if q.Skip.Given() && s.Chosen[0] != Skip {
			c.choose(q, Skip, []string{Skip})
		}
		c.known.answer(q, s.Chosen)
	}
	return c.out
}

// changer holds a path's ending, and what is known before the question at hand.
type changer struct {
	t      *Tree
	given  Answers
	ending string
	known  *Known
	out    []Change
}

// instead gives the answer to q in which a alone is changed: it alone where one
// is taken; ticked or no longer ticked where several are. Nil is no other answer.
func (q *Question) instead(chosen []string, a *Answer) []string {
	now := slices.Contains(chosen, a.ID.S)
	if q.Pick != PickAny || a.Alone || chosen[0] == Skip {
		if now {
			return nil
		}
		return []string{a.ID.S}
	}
	var out []string
	for _, other := range q.Answers {
		on := slices.Contains(chosen, other.ID.S)
		if other == a {
			on = !now
		}
		if on && !other.Alone {
			out = append(out, other.ID.S)
		}
	}
	return out
}

func (c *changer) choose(q *Question, answer string, chosen []string) {
	if len(chosen) == 0 {
		return
	}
	known := c.t.KnownWith(maps.Clone(c.known.answered))
	known.answer(q, chosen)
	c.add(Change{Question: q.ID.S, Answer: answer, Chosen: chosen}, q, chosen, known)
}

func (c *changer) amounts(q *Question) {
	from := len(c.out)
	last := -1 // the amount that the last range ends with
	for i := range q.Measure.Answers() {
		at := q.Measure.At(i)
		known := c.t.KnownWith(maps.Clone(c.known.answered))
		known.answered[q.ID.S] = formula.Of(at) // before anything is worked out
		n := len(c.out)
		c.add(Change{Question: q.ID.S, Range: &Range{at, at}}, q, []string{""}, known)
		if len(c.out) == n {
			continue
		}
		if joined := n > from && last == i-1; joined && c.out[n].Ending == c.out[n-1].Ending && c.out[n].Open == c.out[n-1].Open {
			c.out = c.out[:n]
			c.out[n-1].Range.To = at
		}
		last = i
	}
}

// add follows a changed answer and keeps the change where it leads elsewhere.
func (c *changer) add(change Change, q *Question, chosen []string, known *Known) {
	at, _ := q.Next(chosen, known)
	for range len(c.t.Questions) {
		if c.t.Ending(at) != nil {
			if change.Ending = at; at != c.ending {
				c.out = append(c.out, change)
			}
			return
		}
		next := c.t.Question(at)
		if next == nil {
			return
		}
		chosen, ok := c.given[at]
		if !ok {
			change.Open = at
			c.out = append(c.out, change)
			return
		}
		if next.Accepts(chosen) != nil {
			return
		}
		known.answer(next, chosen)
		at, _ = next.Next(chosen, known)
	}
}
