package exchange

import (
	"encoding/json"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"keelpath/builder/quantity"
	"keelpath/builder/tree"
)

// filler is a form as a program shows it that knows nothing of trees: it reads
// the JSON, and an item appears where the item around it does and its own
// conditions hold. Answers to items that do not appear do not count.
type filler struct {
	items []*shownItem            // each after the one around it
	of    map[string][]*shownItem // by question
	lax   bool                    // "!=" fails where there is no answer, as some programs have it
}

type shownItem struct {
	item
	around *shownItem
}

type reply struct {
	codes  []string
	amount *float64
}

func newFiller(t testing.TB, data []byte) *filler {
	t.Helper()
	var r questionnaire
	if err := json.Unmarshal(data, &r); err != nil {
		t.Fatal(err)
	}
	f := &filler{of: map[string][]*shownItem{}}
	var add func(in []item, around *shownItem)
	add = func(in []item, around *shownItem) {
		for _, i := range in {
			s := &shownItem{i, around}
			f.items = append(f.items, s)
			if id := questionOf(i.LinkID); id != "" && i.Type != "group" {
				f.of[id] = append(f.of[id], s)
			}
			add(i.Item, s)
		}
	}
	add(r.Item, nil)
	return f
}

func (n *number) UnmarshalJSON(b []byte) error { *n = number(b); return nil }

// show gives the items that appear, by linkId.
func (f *filler) show(replies map[string]reply) map[string]bool {
	out := map[string]bool{}
	for _, i := range f.items {
		on := i.around == nil || out[i.around.LinkID]
		if !on || i.Type == "display" && len(i.EnableWhen) == 0 {
			continue
		}
		if on && len(i.EnableWhen) > 0 {
			any, all := false, true
			for _, w := range i.EnableWhen {
				r, ok := replies[w.Question]
				h := f.holds(w, r, ok && out[w.Question])
				any, all = any || h, all && h
			}
			on = all
			if i.EnableBehavior == "any" {
				on = any
			}
		}
		if on {
			out[i.LinkID] = true
		}
	}
	return out
}

func (f *filler) holds(w enableWhen, r reply, there bool) bool {
	switch {
	case w.Operator == "exists":
		return there == *w.AnswerBoolean
	case !there:
		return w.Operator == "!=" && !f.lax
	case w.AnswerCoding != nil:
		return slices.Contains(r.codes, w.AnswerCoding.Code) == (w.Operator == "=")
	}
	limit, err := strconv.ParseFloat(string(w.AnswerQuantity.Value), 64)
	if err != nil {
		panic(err)
	}
	switch x := *r.amount; w.Operator {
	case ">":
		return x > limit
	case ">=":
		return x >= limit
	case "<":
		return x < limit
	case "<=":
		return x <= limit
	}
	panic(w.Operator)
}

// put adds the reply to a question at every place that stands for it.
func (f *filler) put(t *tree.Tree, id string, chosen []string, into map[string]reply) {
	q := t.Question(id)
	for _, i := range f.of[id] {
		isAmount := strings.HasSuffix(i.LinkID, amountLink)
		like := q.Measure != nil && (chosen[0] == tree.Skip || q.Measure.Like(chosen[0]) != nil)
		switch {
		case i.Type == "quantity" && isAmount && !like:
			v, err := q.Measure.Read(chosen[0])
			if err != nil {
				panic(err)
			}
			u, _ := quantity.Lookup(q.Measure.Unit)
			x := math.Round(u.From(v.Num+v.Rest)*1e9) / 1e9
			into[i.LinkID] = reply{amount: &x}
		case i.Type == "choice" && (q.Measure == nil || like):
			into[i.LinkID] = reply{codes: chosen}
		}
	}
}

// questionOf gives the question that a linkId belongs to.
func questionOf(link string) string {
	id, rest, _ := strings.Cut(link, ".")
	if id == "ending" || id == "note" || strings.HasSuffix(rest, "why") {
		return ""
	}
	return id
}

// seen is what appears of a tree.
type seen struct {
	Questions, Endings, Notes []string
}

func (f *filler) seen(t *tree.Tree, replies map[string]reply) seen {
	on := f.show(replies)
	var out seen
	for _, i := range f.items {
		if i.Type == "display" || !on[i.LinkID] || strings.Contains(i.LinkID, ".when-") {
			continue
		}
		kind, rest, _ := strings.Cut(i.LinkID, ".")
		switch {
		case kind == "ending":
			id, _, _ := strings.Cut(rest, ".")
			out.Endings = append(out.Endings, id)
		case kind == "note":
			out.Notes = append(out.Notes, rest)
		case strings.HasSuffix(i.LinkID, amountLink), strings.HasSuffix(i.LinkID, otherLink):
		case t.Question(kind) != nil:
			out.Questions = append(out.Questions, kind)
		}
	}
	slices.Sort(out.Questions)
	slices.Sort(out.Notes)
	return out
}

func walked(p tree.Path) seen {
	var out seen
	for _, s := range p.Steps {
		out.Questions = append(out.Questions, s.Question)
	}
	if p.Open != "" {
		out.Questions = append(out.Questions, p.Open)
	}
	if p.Ending != "" {
		out.Endings = []string{p.Ending}
	}
	out.Notes = append(out.Notes, p.Cards...)
	slices.Sort(out.Questions)
	slices.Sort(out.Notes)
	return out
}
