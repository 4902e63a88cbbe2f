package exchange

import (
	"keelpath/builder/read"
	"keelpath/builder/safety"
	"keelpath/builder/tree"
)

// screenLink begins the linkId of every item of the safety screen. It is one
// group with the same ids in every form, so that a clinic's program knows it
// again; a form that asks all groups leaves out the gate alone.
const screenLink = "safety"

// screenSystem is the system of the codes of a question of the screen.
func screenSystem(question string) string { return "urn:keelpath:safety:" + question }

// screen gives the shared safety screen of a tree for patients.
func (f *former) screen() item {
	s := f.lib.Safety
	whole := f.t.Safety.S == tree.SafetyWhole
	out := item{LinkID: screenLink, Type: "group", Text: f.lib.Say.Say("form.before"), Item: []item{f.legQuestion(s)}}
	if !whole {
		out.Item = append(out.Item, f.gate(s))
	}
	for _, g := range s.Groups {
		out.Item = append(out.Item, f.signs(g, whole))
	}
	return out
}

func (f *former) legQuestion(s *safety.Screen) item {
	link := screenLink + ".leg-worn"
	out := item{LinkID: link, Text: s.Leg.Text.S, Type: "choice", Item: []item{display(link+".why", s.Leg.Why.S)}}
	for _, a := range s.Leg.Answers {
		out.AnswerOption = append(out.AnswerOption, option{ValueCoding: coding{screenSystem("leg-worn"), a.ID.S, a.Text.S}})
	}
	return out
}

// wearsLeg is the condition of what is said to those who wear a leg alone.
func wearsLeg() enableWhen { return isChosen("leg-worn", safety.Worn) }

func isChosen(question, code string) enableWhen {
	return enableWhen{Question: screenLink + "." + question, Operator: "=", AnswerCoding: &coding{System: screenSystem(question), Code: code}}
}

func (f *former) gate(s *safety.Screen) item {
	link := screenLink + ".gate"
	out := item{LinkID: link, Text: s.Gate.Text.S, Type: "choice", Repeats: true, Item: []item{display(link+".why", joined(s.Gate.Why, s.Gate.Hint))}}
	for _, g := range s.Groups {
		out.AnswerOption = append(out.AnswerOption, option{ValueCoding: coding{screenSystem("gate"), g.ID.S, f.plain(g.Line)}})
	}
	out.AnswerOption = append(out.AnswerOption, alone("gate", safety.None, f.lib.Say.Say("form.none")), alone("gate", safety.NotSure, f.lib.Say.Say("form.not-sure")))
	return out
}

func alone(question, code, text string) option {
	return option{ValueCoding: coding{screenSystem(question), code, text}, Extension: []extension{{URL: optionExclusive, ValueBoolean: true}}}
}

// signs gives one group: its signs, and below them what to do for each. Signs
// of the leg in a group for all stand in a question of their own.
func (f *former) signs(g *safety.Group, whole bool) item {
	link := screenLink + "." + g.ID.S
	out := item{LinkID: link, Text: f.plain(g.Title), Type: "group", Item: []item{display(link+".why", joined(g.Why, g.Hint))}}
	var all, worn []*safety.Sign
	for _, s := range g.Signs {
		if s.Leg && !g.Leg {
			worn = append(worn, s)
		} else {
			all = append(all, s)
		}
	}
	out.Item = append(out.Item, f.tickList(g, ".signs", all, f.plain(g.Text)))
	if len(worn) > 0 {
		ask := f.tickList(g, ".leg-signs", worn, f.lib.Say.Say("form.of-the-leg"))
		ask.EnableWhen = []enableWhen{wearsLeg()}
		out.Item = append(out.Item, ask)
	}
	for _, s := range all {
		out.Item = append(out.Item, f.told(link, g.ID.S+".signs", s.ID.S, s.Title, s.Caution, s.Worn))
	}
	for _, s := range worn {
		out.Item = append(out.Item, f.told(link, g.ID.S+".leg-signs", s.ID.S, s.Title, s.Caution, s.Worn))
	}
	out.Item = append(out.Item, f.told(link, g.ID.S+".signs", safety.NotSure, g.Unsure.Title, g.Unsure.Caution, g.Unsure.Worn))
	if !whole {
		out.EnableWhen, out.EnableBehavior = []enableWhen{isChosen("gate", g.ID.S), isChosen("gate", safety.NotSure)}, "any"
	}
	if !g.Leg {
		return out
	}
	return item{LinkID: link + ".worn", Type: "group", EnableWhen: []enableWhen{wearsLeg()}, Item: []item{out}}
}

func (f *former) tickList(g *safety.Group, part string, signs []*safety.Sign, text string) item {
	question := g.ID.S + part
	out := item{LinkID: screenLink + "." + question, Text: text, Type: "choice", Repeats: true}
	for _, s := range signs {
		out.AnswerOption = append(out.AnswerOption, option{ValueCoding: coding{screenSystem(question), s.ID.S, f.words(s.Text, s.More)}})
	}
	out.AnswerOption = append(out.AnswerOption, alone(question, safety.None, f.lib.Say.Say("form.none")), option{ValueCoding: coding{screenSystem(question), safety.NotSure, f.lib.Say.Say("form.not-sure")}})
	return out
}

// told is what to do for one sign. What holds for those who wear a leg stands
// first, and appears for them alone.
func (f *former) told(group, question, sign string, title, caution, worn read.Text) item {
	link := group + "." + sign
	out := item{LinkID: link, Type: "group", Text: f.plain(title), EnableWhen: []enableWhen{isChosen(question, sign)}}
	if worn.S != "" {
		first := display(link+".worn", f.plain(worn))
		first.EnableWhen = []enableWhen{wearsLeg()}
		out.Item = append(out.Item, first)
	}
	out.Item = append(out.Item, display(link+".caution", f.plain(caution)))
	return out
}

func (f *former) words(ts ...read.Text) string {
	out := ""
	for _, t := range ts {
		if t.S != "" {
			out += " " + f.plain(t)
		}
	}
	return out[min(1, len(out)):]
}

func joined(ts ...read.Text) string {
	out := ""
	for _, t := range ts {
		if t.S != "" {
			out += " " + t.S
		}
	}
	return out[min(1, len(out)):]
}
