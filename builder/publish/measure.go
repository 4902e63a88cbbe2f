package publish

import (
	"fmt"
	"html"
	"html/template"
	"math"
	"strconv"
	"strings"

	"keelpath/builder/formula"
	"keelpath/builder/quantity"
	"keelpath/builder/say"
	"keelpath/builder/tree"
)

// MeasureView is what a question takes that is answered with an amount.
type MeasureView struct {
	Label string // "Write it in %, degrees or as 1:12"
	Hint  string // "You can write 14 %, 8 degrees or 1:12. Please write the unit too."
	Plain bool   // only a bare number is taken
	Span  string // "from 0 % (flat) to 40 %"
	Likes []AnswerView
}

// RouteView is a way on. If is empty for the one that is taken where no other is.
type RouteView struct {
	If    string
	Way   *WayView
	Cards []LinkView
}

func (v viewer) measure(t *tree.Tree, q *tree.Question) *MeasureView {
	m := q.Measure
	if m == nil {
		return nil
	}
	last := m.Answers() - 1
	out := &MeasureView{
		Label: v.say().Say("amount.write-in", "units", accepted(v.say(), m)), Hint: hintOf(v.say(), m), Plain: len(m.Accept) == 1,
		Span: v.say().Say("condition.from-to", "from", short(v.amounts(), m, m.At(0)), "to", short(v.amounts(), m, m.At(last))),
	}
	if m.Kind() == quantity.Count {
		out.Label = v.say().Say("amount.write-number")
	}
	for _, l := range m.Likes {
		a := AnswerView{ID: l.ID.S, Text: l.Text.S, Is: v.amounts().Show(m.Measure, l.Value)}
		if restsOnlyOn(t, q) {
			to, cards := q.Next([]string{l.ID.S}, t.KnownWith(map[string]formula.Value{q.ID.S: formula.Of(l.Value.Num)}))
			a.Way, a.Cards = wayTo(t, to), v.notes(t, cards)
		}
		out.Likes = append(out.Likes, a)
	}
	return out
}

// restsOnlyOn tells whether no answer but q's own decides its routes.
func restsOnlyOn(t *tree.Tree, q *tree.Question) bool {
	w := teller{nil, t, q} // which says nothing
	for _, r := range q.Routes {
		if r.If.Expr == nil {
			continue
		}
		for _, other := range w.rests(r.If.Expr) {
			if other != q {
				return false
			}
		}
	}
	return true
}

// routes gives the conditional ways on, and after them the question's own way.
func (v viewer) routes(t *tree.Tree, q *tree.Question) []RouteView {
	var out []RouteView
	w := teller{v.say(), t, q}
	for _, r := range q.Routes {
		var cards []string
		for _, c := range r.Cards {
			cards = append(cards, c.S)
		}
		out = append(out, RouteView{If: w.says(r.If), Way: wayView(t, r.Go), Cards: v.notes(t, cards)})
	}
	if (q.Measure != nil || len(out) > 0) && q.Go.Given() {
		out = append(out, RouteView{Way: wayView(t, q.Go)})
	}
	return out
}

// accepted names the units that a reader may use.
func accepted(w *say.Words, m *tree.Measure) string {
	var names []string
	for _, code := range m.Accept {
		name := quantity.In(w).Names[code]
		if code == quantity.Ratio {
			name = w.Say("amount.as", "ratio", name)
		}
		names = append(names, name)
	}
	return w.Or(names...)
}

// hintOf shows one way to write an amount in each unit. Every one is an answer
// that the measure takes.
func hintOf(w *say.Words, m *tree.Measure) string {
	var ways []string
	for _, code := range m.Accept {
		if text := exampleIn(quantity.In(w), m, code); text != "" {
			ways = append(ways, text)
		}
	}
	if len(ways) == 0 {
		return ""
	}
	if len(m.Accept) > 1 {
		return w.Say("amount.ways-and-unit", "ways", w.Or(ways...))
	}
	return w.Say("amount.ways", "ways", w.Or(ways...))
}

func exampleIn(t *quantity.Tables, m *tree.Measure, code string) string {
	u, _ := quantity.Lookup(code)
	some := m.From + (m.To-m.From)/4
	if n := len(m.Likes); n > 0 && m.Likes[n/2].Value.Num > 0 {
		some = m.Likes[n/2].Value.Num
	}
	text := ""
	switch {
	case code == quantity.Ratio:
		text = t.With(u, "12")
	case u.Bare || u.Parts:
		text = t.Alone(m.Measure, quantity.Value{Kind: m.Kind(), Num: some, Unit: code})
	default:
		mine, _ := quantity.Lookup(m.Unit)
		x, err := quantity.Convert(mine.From(some), m.Unit, code)
		if err != nil {
			return ""
		}
		text = t.With(u, roundly(x, u))
	}
	if _, err := t.Typed(text, m.Measure); err != nil {
		return ""
	}
	return text
}

// roundly writes a number as people would say it; u is what it counts.
func roundly(x float64, u quantity.Unit) string {
	if math.Abs(x) < 10 && (u.Kind == quantity.Length || u.Kind == quantity.Mass) {
		return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64)
	}
	return strconv.FormatFloat(math.Round(x), 'f', -1, 64)
}

// short words an amount in the measure's own unit alone.
func short(t *quantity.Tables, m *tree.Measure, x float64) string {
	return t.Alone(m.Measure, own(m, x))
}

// withGaps marks the gaps of a rendered ending text for the page's script. The
// words inside are for paper and for amounts that are not known.
func withGaps(w *say.Words, t *tree.Tree, text string, rendered template.HTML) template.HTML {
	out := string(rendered)
	for _, id := range tree.Gaps(text) {
		words, other := t.WithoutAmount(w, id), ""
		if q := t.Question(id); q != nil {
			other = fmt.Sprintf(` data-else="%s"`, html.EscapeString(words))
			words = w.Say("amount.wrote-at", "number", t.Numbers()[id])
		}
		span := fmt.Sprintf(`<span class="amount" data-amount="%s"%s>%s</span>`, id, other, html.EscapeString(words))
		out = strings.ReplaceAll(out, "{"+id+"}", span)
	}
	return template.HTML(out)
}
