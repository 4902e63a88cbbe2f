package treemap

import (
	"slices"

	"keelpath/builder/say"
	"keelpath/builder/tree"
)

// Graph is what a map shows of a tree: its questions and endings with the ways between them, in words.
// Start names a question, and each way leads to a question or an ending; there is no circle.
type Graph struct {
	Start     string
	Questions []Question
	Endings   []Ending
}

// Question is a question of a Graph. Number is what it has on paper, 0 where it has none; Line is where it
// stands in the tree's file, 0 where it does not.
type Question struct {
	ID, Text     string
	Number, Line int
	Ways         []Way // to different places
}

// Way leads on with an answer, or with several that lead to one place.
type Way struct{ To, Label string }

// Ending is an ending of a Graph.
type Ending struct {
	ID, Title    string
	Safety       bool
	Number, Line int
}

// Ids of what stands for the shared safety screen. No question and no ending has such an id.
const (
	Screen = "screen.safety"
	Help   = "screen.help"
)

// Condition says a route's condition as a label: "more than 8.5 %".
type Condition func(*tree.Question, *tree.Route) string

// Of gives a tree as a map shows it.
func Of(t *tree.Tree, w *say.Words, condition Condition) Graph {
	g := Graph{Start: t.Start.S}
	numbers := t.Numbers()
	l := labels{w, condition}
	if t.Safety.S == tree.SafetyShared || t.Safety.S == tree.SafetyWhole {
		g.Start = Screen
		g.Questions = append(g.Questions, Question{ID: Screen, Text: w.Say("map.screen"), Ways: []Way{{Help, w.Say("map.sign")}, {t.Start.S, w.Say("map.no-sign")}}})
		g.Endings = append(g.Endings, Ending{ID: Help, Title: w.Say("map.help"), Safety: true})
	}
	for _, q := range t.Questions {
		g.Questions = append(g.Questions, Question{ID: q.ID.S, Text: q.Text.S, Number: numbers[q.ID.S], Line: q.ID.At.Line, Ways: l.ways(t, q)})
	}
	for _, e := range t.Endings {
		line := e.ID.At.Line
		if e.Sign.Given() {
			line = e.Sign.At.Line // it stands in no place of its own: at the answer that tells the sign
		}
		g.Endings = append(g.Endings, Ending{ID: e.ID.S, Title: e.Title.S, Safety: e.Safety, Number: numbers[e.ID.S], Line: line})
	}
	return g
}

// labels makes the words of ways.
type labels struct {
	words     *say.Words
	condition Condition
}

// fork gathers what leads on from a question, by place, in the order of the file.
type fork struct {
	order []string
	parts map[string][]string
}

func (f *fork) add(to, label string) {
	if to == "" {
		return
	}
	if f.parts == nil {
		f.parts = map[string][]string{}
	}
	if f.parts[to] == nil {
		f.order = append(f.order, to)
	}
	if !slices.Contains(f.parts[to], label) {
		f.parts[to] = append(f.parts[to], label)
	}
}

// ways are the ways on from a question, one a place.
func (l labels) ways(t *tree.Tree, q *tree.Question) []Way {
	f := &fork{}
	open, own := l.answers(q, f)
	l.routes(q, f, open, own)
	if q.Skip.Given() {
		f.add(q.Skip.S, l.words.Say("map.skipped"))
	}
	if len(f.order) == 1 {
		return []Way{{f.order[0], l.words.Say("map.any")}}
	}
	var out []Way
	for _, to := range f.order {
		e := t.Ending(to)
		out = append(out, Way{to, l.label(q, f.parts[to], e != nil && e.Safety)})
	}
	return out
}

// answers adds answers with a way of their own, and gives the words of those that have none.
func (l labels) answers(q *tree.Question, f *fork) (open []string, own bool) {
	for _, a := range q.Answers {
		if a.Go.Given() {
			own = true
			f.add(a.Go.S, Short(a.Short.S, a.Text.S))
		} else {
			open = append(open, Short(a.Short.S, a.Text.S))
		}
	}
	return open, own
}

// routes adds the ways on of answers that have none of their own.
func (l labels) routes(q *tree.Question, f *fork, open []string, own bool) {
	whose := ""
	if own && len(open) > 0 && len(open) < many {
		whose = l.either(open)
	}
	for _, r := range q.Routes {
		f.add(r.Go.S, l.route(whose, q, r, len(q.Routes) == 1))
	}
	if !q.Go.Given() {
		return
	}
	switch {
	case q.Measure != nil:
		f.add(q.Go.S, l.words.Say("map.amount"))
	case own && len(open) >= many:
		f.add(q.Go.S, l.words.Say("map.other"))
	default:
		for _, answer := range open {
			f.add(q.Go.S, answer)
		}
	}
}

// many answers to one place are not told one by one, where others lead elsewhere.
const many = 4

func (l labels) route(whose string, q *tree.Question, r *tree.Route, only bool) string {
	switch {
	case r.Else() && whose == "" && only:
		return l.words.Say("map.other")
	case r.Else() && whose == "":
		return l.words.Say("map.otherwise")
	case r.Else() && only:
		return whose
	case r.Else():
		return l.words.Say("map.answers-otherwise", "answers", whose)
	}
	condition := Short(r.Short.S, l.condition(q, r))
	if whose == "" {
		return l.words.Say("map.if", "condition", condition)
	}
	return l.words.Say("map.answers-if", "answers", whose, "condition", condition)
}

// label says answers to one place in one. Those that lead to help are told one by one, however many they are.
func (l labels) label(q *tree.Question, parts []string, safety bool) string {
	if !safety && len(parts) >= many && len(parts) > len(q.Answers)/2 {
		return l.words.Say("map.other")
	}
	return l.either(parts)
}

func (l labels) either(parts []string) string {
	label := parts[0]
	for _, part := range parts[1:] {
		label = l.words.Say("map.either", "first", label, "second", part)
	}
	return label
}

// Short is the short form of a text that has one.
func Short(short, text string) string {
	if short != "" {
		return short
	}
	return text
}
