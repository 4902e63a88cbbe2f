package figure

import (
	"fmt"
	"html"
	"math"
	"strconv"
	"strings"

	"keelpath/builder/formula"
	"keelpath/builder/quantity"
)

// Settings are what a reader set. US says inches and pounds first.
type Settings struct {
	Amounts map[string]quantity.Value
	Chosen  map[string]string
	US      bool
}

// Shown is what a figure shows at its settings. Site/client/figures/settle.ts gives the same.
type Shown struct {
	Texts map[string]string `json:"texts"` // by text id, and by input id what stands beside its label
	Attrs map[string]string `json:"attrs"` // by part, a blank and the attribute
	Open  map[string]bool   `json:"open"`  // inputs that are shown
}

// Start gives the settings that a page begins with; given are amounts and
// choices as an author writes them. The error names the first that is not taken.
func (f *Figure) Start(given map[string]string) (Settings, error) {
	s := Settings{Amounts: map[string]quantity.Value{}, Chosen: map[string]string{}}
	for id := range given {
		if f.Input(id) == nil {
			return s, fmt.Errorf("the figure %q has no setting %q", f.ID, id)
		}
	}
	for _, in := range f.Inputs {
		id := in.ID.S
		text, ok := given[id]
		if len(in.Choices) > 0 {
			s.Chosen[id] = in.Choices[0].ID.S
			for _, c := range in.Choices {
				if ok && c.ID.S == text {
					s.Chosen[id], ok = text, false
				}
			}
			if ok {
				return s, fmt.Errorf("%s has no choice %q", id, text)
			}
			continue
		}
		if !ok {
			text = in.Begin.S
		}
		v, err := quantity.Read(text, in.measure)
		if err != nil {
			return s, fmt.Errorf("%s: %w", id, err)
		}
		s.Amounts[id] = v
	}
	return s, nil
}

// look works out one set of settings.
type look struct {
	f       *Figure
	amounts *quantity.Tables
	s       Settings
	values  map[string]formula.Value
	last    map[string]*Value // the value that counted, by id
}

// Settle works out all that the figure shows.
func (f *Figure) Settle(s Settings) Shown {
	english := quantity.Table()
	return f.settle(&english, s)
}

// settle is Settle with amounts said as t has them.
func (f *Figure) settle(t *quantity.Tables, s Settings) Shown {
	l := look{f: f, amounts: t, s: s, values: map[string]formula.Value{}, last: map[string]*Value{}}
	for id, v := range s.Amounts {
		l.values[id] = formula.Of(v.Exact())
	}
	for id, c := range s.Chosen {
		l.values[id] = formula.Value{Known: true, Chosen: []string{c}}
	}
	for _, v := range f.Values {
		if id := v.ID.S; l.last[id] == nil && l.holds(v.cond) {
			l.values[id], l.last[id] = v.expr.Eval(l.value), v
		}
	}
	out := Shown{Texts: map[string]string{}, Attrs: map[string]string{}, Open: map[string]bool{}}
	for _, in := range f.Inputs {
		id := in.ID.S
		out.Open[id] = l.holds(in.cond)
		if len(in.Choices) == 0 {
			out.Texts[id] = l.word(id)
			if len(in.Say) > 0 {
				out.Texts[id] = l.say(in.Say)
			}
		}
	}
	for _, t := range f.Texts {
		out.Texts[t.ID.S] = l.say(t.Cases)
	}
	for i, m := range f.Drawing.Moves {
		if a, ok := l.attr(m.Attr, f.moves[i]); ok {
			out.Attrs[m.Part+" "+m.Attr] = a
		}
	}
	return out
}

func (l look) value(name string) formula.Value { return l.values[name] }

func (l look) holds(cond *formula.Expr) bool {
	if cond == nil {
		return true
	}
	v := cond.Eval(l.value)
	return v.Known && v.Truth
}

func (l look) say(cases []*Case) string {
	for _, c := range cases {
		if !l.holds(c.cond) {
			continue
		}
		known := true
		out := gap.ReplaceAllStringFunc(c.Text.S, func(g string) string {
			w := l.word(g[1 : len(g)-1])
			known = known && w != ""
			return w
		})
		if known {
			return out
		}
		return ""
	}
	return ""
}

// word says an input or a value; empty where it is unknown.
func (l look) word(id string) string {
	if c, ok := l.s.Chosen[id]; ok {
		for _, choice := range l.f.Input(id).Choices {
			if choice.ID.S == c {
				return choice.Text.S
			}
		}
	}
	if v, ok := l.s.Amounts[id]; ok {
		return l.amounts.Show(l.f.Input(id).measure, v)
	}
	v, known := l.last[id], l.values[id].Known
	if v == nil || !known {
		return ""
	}
	x := l.values[id].Num
	if v.Unit == "" {
		return l.amounts.Plain(x, v.Step)
	}
	u, _ := quantity.Lookup(v.Unit)
	m := quantity.Measure{Unit: u.Code, Step: u.Canonical(v.Step)}
	q := quantity.Value{Kind: u.Kind, Num: x, Unit: u.Code}
	if l.s.US && u.System == "metric" && u.Pair != "" {
		q.Unit = u.Pair
	}
	if v.Alone {
		return l.amounts.Alone(m, q)
	}
	return l.amounts.Show(m, q)
}

// attr gives an attribute's text; not where a part of it is unknown.
func (l look) attr(name string, is []any) (string, bool) {
	if name == "display" {
		if l.holds(is[0].(*formula.Expr)) {
			return "inline", true
		}
		return "none", true
	}
	var b strings.Builder
	for _, p := range is {
		if text, ok := p.(string); ok {
			b.WriteString(text)
			continue
		}
		v := p.(*formula.Expr).Eval(l.value)
		if !v.Known {
			return "", false
		}
		x := math.Floor(v.Num*100+0.5)/100 + 0 // as JavaScript rounds; + 0 makes a plain 0 of -0
		b.WriteString(strconv.FormatFloat(x, 'f', -1, 64))
	}
	return b.String(), true
}

// attributes writes those of one part.
func (s Shown) attributes(f *Figure, part string) string {
	var b strings.Builder
	for _, m := range f.Drawing.Moves {
		if v, ok := s.Attrs[m.Part+" "+m.Attr]; ok && m.Part == part {
			fmt.Fprintf(&b, ` %s="%s"`, m.Attr, html.EscapeString(v))
		}
	}
	return b.String()
}
