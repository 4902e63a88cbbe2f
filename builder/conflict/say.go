package conflict

import (
	"slices"

	"keelpath/builder/say"
)

// Question is a prompt made of a conflict. Whom is of library.Whom.
type Question struct {
	Ask  string
	Whom []string
}

// ID names a conflict: "pull-push-low-cost".
func (m *Matter) ID(c Conflict) string {
	id := "pull"
	for _, w := range c.Wishes.List() {
		id += "-" + m.Wishes[w].ID.S
	}
	return id
}

func (m *Matter) names(s Set) []string {
	var out []string
	for _, w := range s.List() {
		out = append(out, m.Wishes[w].Name.S)
	}
	return out
}

// Title is a conflict's heading.
func (m *Matter) Title(c Conflict) string {
	return m.Words.Capital(m.Words.And(m.names(c.Wishes)...))
}

// Statement says what was found, and how sure it is.
func (m *Matter) Statement(c Conflict) []string {
	n := c.Wishes.Len()
	these := m.Words.Say("conflict.all-of-these")
	switch n {
	case 1:
		these = m.Words.Say("conflict.this-wish")
	case 2:
		these = m.Words.Say("conflict.both-of-these")
	}
	say := func(name say.Name, gaps ...any) string { return m.Words.Say(name, gaps...) }
	if c.Note() {
		return []string{say("conflict.note"), say("conflict.note-unsettled")}
	}
	if c.Kind == May {
		return append([]string{say("conflict.may"), say("conflict.may-unsettled", "wishes", these)}, m.practice(c)...)
	}
	out := []string{say("conflict.none-meets", "wishes", these)}
	if c.Kind == AsMarked {
		out[0] = say("conflict.none-meets-as-marked", "wishes", these)
	}
	switch {
	case n == 2:
		out = append(out, say("conflict.each-alone"))
	case n > 2:
		out = append(out, say("conflict.leave-out-one"))
	}
	if c.Kind == AsMarked {
		out = append(out, say("conflict.some-unsettled"), say("conflict.small-change"))
	}
	return append(out, m.practice(c)...)
}

// practice counts the marks of trade practice on which a conflict rests, in a
// sentence where there are some.
func (m *Matter) practice(c Conflict) []string {
	if len(c.Practice) == 0 {
		return nil
	}
	return []string{m.Words.Say("conflict.rests-on-practice", "count", len(c.Practice))}
}

// FixStatement says what an add-on does to a conflict.
func (m *Matter) FixStatement(f Fix) []string {
	out := []string{m.Words.Say("conflict.fix", "add-on", m.addon(f.Addon))}
	if f.Perhaps {
		out = append(out, m.Words.Say("conflict.fix-unsettled"))
	}
	if f.Practice {
		out = append(out, m.Words.Say("conflict.fix-practice"))
	}
	return out
}

// Against names the wishes from which an add-on moves a foot away; it may be empty.
func (m *Matter) Against(addon int) string {
	var names []string
	for _, w := range m.Away(addon) {
		names = append(names, m.Wishes[w].Name.S)
	}
	if len(names) == 0 {
		return ""
	}
	return m.Words.Say("conflict.takes-away", "wishes", m.Words.And(names...))
}

var (
	both = []string{"myself", "prosthetist"}
	team = []string{"prosthetist"}
)

// Questions turns a conflict into questions to bring.
func (m *Matter) Questions(c Conflict) []Question {
	ws := c.Wishes.List()
	names := m.names(c.Wishes)
	var out []Question
	ask := func(whom []string, name say.Name, gaps ...any) {
		out = append(out, Question{m.Words.Say(name, gaps...), whom})
	}
	switch {
	case c.Note():
		ask(team, "conflict.ask-sure", "wish", names[0])
		return out
	case len(ws) == 1:
		ask(team, "conflict.ask-close", "wish", names[0])
	case len(ws) == 2:
		x, y := m.Wishes[ws[0]], m.Wishes[ws[1]]
		ask(both, "conflict.ask-which", "first", x.Want.S, "second", y.Want.S)
		ask(team, "conflict.ask-less", "less", x.Less.S, "wish", y.Name.S)
		ask(team, "conflict.ask-less", "less", y.Less.S, "wish", x.Name.S)
	default:
		ask(both, "conflict.ask-first", "wishes", m.Words.Or(names...))
		ask(team, "conflict.ask-close-all", "wishes", m.Words.And(names...))
	}
	switch c.Kind {
	case AsMarked:
		ask(team, "conflict.ask-still", "wishes", m.Words.And(names...))
	case May:
		ask(team, "conflict.ask-sure-all", "wishes", m.Words.And(names...))
	}
	for _, f := range c.Fixes {
		ask(team, "conflict.ask-fix", "add-on", m.addon(f.Addon))
	}
	return out
}

// Steps says in the words of its row from which step a wish is met.
func (m *Matter) Steps(wish int) string {
	w := m.Table.Wishes[wish]
	var met []string
	for i, s := range m.Row(wish).Steps {
		if w.state(Mark{Step: i}) == Yes {
			met = append(met, m.Words.Say("conflict.step", "step", s.S))
		}
	}
	return m.Words.Or(met...)
}

// Summary is what a page says first of the wishes that a reader marked.
type Summary struct {
	None  string   `json:"none"`  // nothing is marked
	One   string   `json:"one"`   // one wish is
	Clear string   `json:"clear"` // no conflict
	Lean  string   `json:"lean"`  // no conflict, by trade practice alone
	Open  string   `json:"open"`  // no conflict as the marks stand
	Found []string `json:"found"` // one conflict, two, three ...
	Full  string   `json:"full"`  // one more than Most was marked
}

// summary gives the sentences for as many conflicts as any marking can have.
func (m *Matter) summary() Summary {
	say := func(name say.Name, gaps ...any) string { return m.Words.Say(name, gaps...) }
	s := Summary{
		None: say("conflict.said-none"), One: say("conflict.said-one"), Clear: say("conflict.said-clear"), Lean: say("conflict.said-lean"),
		Open: say("conflict.said-open"), Full: say("conflict.said-full"),
	}
	most := 0
	m.Markings(func(marked Set) { most = max(most, m.count(marked)) })
	for n := 1; n <= most; n++ {
		s.Found = append(s.Found, say("conflict.said-found", "count", n))
	}
	return s
}

// count gives how many conflicts there are in what was marked, remarks left out.
func (m *Matter) count(marked Set) int {
	n := 0
	for _, c := range Within(m.All, marked) {
		if !c.Note() {
			n++
		}
	}
	return n
}

// Said is the sentence of Summary that fits what was marked.
func (m *Matter) Said(marked Set) string {
	s, n := m.Summary, m.count(marked)
	switch {
	case marked == 0:
		return s.None
	case n > 0:
		return s.Found[n-1]
	case marked.Len() == 1:
		return s.One
	case len(Within(m.All, marked)) > 0:
		return s.Open
	case slices.ContainsFunc(m.Leans, func(l Set) bool { return l.In(marked) }):
		return s.Lean
	}
	return s.Clear
}

// Markings calls do for each set of wishes that a reader can mark.
func (m *Matter) Markings(do func(Set)) {
	var grow func(s Set, from int)
	grow = func(s Set, from int) {
		do(s)
		if s.Len() == Most {
			return
		}
		for w := from; w < len(m.Wishes); w++ {
			grow(s|Of(w), w+1)
		}
	}
	grow(0, 0)
}

// addon names an add-on as it stands in the middle of a sentence.
func (m *Matter) addon(addon int) string { return m.Addons[addon].Within.S }
