package publish

import (
	"html/template"
	"strings"

	"keelpath/builder/helpline"
	"keelpath/builder/read"
	"keelpath/builder/safety"
)

// SafetyView is the shared safety screen: for the planner, part by part, and for
// paper as a whole.
type SafetyView struct {
	Leg               SafetyLegView
	Gate              SafetyGateView
	Groups            []SafetyGroupView
	Endings           []SafetyEndingView
	Emergency, Crisis CallView
}

// SafetyLegView is the first question of a sitting.
type SafetyLegView struct {
	Text, Why string
	Answers   []AnswerView
}

// SafetyGateView is what stands above the lines of the groups.
type SafetyGateView struct {
	Text, Why, Hint string
}

// SafetyGroupView is one group of signs. Told are the cautions of its signs and of
// its "not sure".
type SafetyGroupView struct {
	ID, Title, Text, Why, Hint string
	Start, Line                string // of the gate: "My artificial leg:", and what follows it; Start may be empty
	Signs                      []ToldView
	Unsure                     ToldView
	Bracket                    bool // every sign of it asks for the emergency number
}

// Told gives all that a reader may tell in the group.
func (g SafetyGroupView) Told() []ToldView {
	return append(g.Signs[:len(g.Signs):len(g.Signs)], g.Unsure)
}

// ToldView is a sign and what to do about it.
type ToldView struct {
	ID                     string
	Text                   template.HTML // inline
	More                   string
	Title                  string
	Worn, Caution, Because template.HTML
}

// SafetyEndingView is what to do first.
type SafetyEndingView struct {
	When        string
	Title       string
	Steps, Worn []template.HTML // inline
	Now, Crisis bool            // whom to call stands above the steps
}

// CallView is a number to call: "Call 911", "in the US, or your local emergency number".
// To is the number as it is dialled; it and Rest are empty where there is none.
type CallView struct {
	To, Start, Rest string
	Sentence        template.HTML
}

func (v viewer) call(id string) CallView {
	lines := v.shelf.Edition().Lines
	w := lines.Words(id).Capital()
	return CallView{To: w.Dialled(), Start: w.Before + w.Number, Rest: strings.TrimLeft(w.After, ", "), Sentence: lines.SentenceHTML(id)}
}

// safety gives the whole screen; nil where the library has none.
func (v viewer) safety() (*SafetyView, error) {
	s := v.shelf.Safety()
	if s == nil {
		return nil, nil
	}
	out := &SafetyView{
		Leg: SafetyLegView{Text: s.Leg.Text.S, Why: s.Leg.Why.S}, Gate: SafetyGateView{s.Gate.Text.S, s.Gate.Why.S, s.Gate.Hint.S},
		Emergency: v.call(helpline.Emergency), Crisis: v.call(helpline.Crisis),
	}
	for _, a := range s.Leg.Answers {
		out.Leg.Answers = append(out.Leg.Answers, AnswerView{ID: a.ID.S, Text: a.Text.S})
	}
	r := safetyTexts{viewer: v}
	for _, g := range s.Groups {
		out.Groups = append(out.Groups, r.group(g))
	}
	for _, e := range s.Endings {
		out.Endings = append(out.Endings, r.ending(e))
	}
	return out, r.err
}

// safetyTexts renders the screen's texts and keeps the first error.
type safetyTexts struct {
	viewer
	err error
}

func (r *safetyTexts) html(t read.Text) template.HTML {
	out, _, err := r.text(t)
	if r.err == nil {
		r.err = err
	}
	return out
}

// inline is a text of one paragraph without the paragraph's own marks, as a label
// or an entry of a list takes it.
func (r *safetyTexts) inline(t read.Text) template.HTML {
	text := strings.TrimSpace(string(r.html(t)))
	return template.HTML(strings.TrimSuffix(strings.TrimPrefix(text, "<p>"), "</p>"))
}

func (r *safetyTexts) group(g *safety.Group) SafetyGroupView {
	out := SafetyGroupView{ID: g.ID.S, Title: g.Title.S, Text: g.Text.S, Why: g.Why.S, Hint: g.Hint.S, Bracket: true}
	out.Start, out.Line = lineParts(g.Line.S)
	for _, s := range g.Signs {
		out.Bracket = out.Bracket && s.When.S == string(safety.Now)
		out.Signs = append(out.Signs, ToldView{
			ID: s.ID.S, Text: r.inline(s.Text), More: s.More.S, Title: s.Title.S,
			Worn: r.html(s.Worn), Caution: r.html(s.Caution), Because: r.html(s.Because),
		})
	}
	u := g.Unsure
	out.Unsure = ToldView{ID: safety.NotSure, Title: u.Title.S, Worn: r.html(u.Worn), Caution: r.html(u.Caution)}
	return out
}

// lineParts parts the words before a colon from the rest; there are none where it has no colon.
func lineParts(line string) (start, rest string) {
	if start, rest, ok := strings.Cut(line, ": "); ok {
		return start + ":", rest
	}
	return "", line
}

func (r *safetyTexts) ending(e *safety.Ending) SafetyEndingView {
	when := safety.When(e.When.S)
	out := SafetyEndingView{When: e.When.S, Title: e.Title.S, Now: when == safety.Now || when == safety.Crisis, Crisis: when == safety.Crisis}
	for _, t := range e.Steps {
		out.Steps = append(out.Steps, r.inline(t))
	}
	for _, t := range e.Worn {
		out.Worn = append(out.Worn, r.inline(t))
	}
	return out
}
