package conflict

import (
	"fmt"
	"slices"
	"strings"
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
	t := listed("and", m.names(c.Wishes))
	return strings.ToUpper(t[:1]) + t[1:]
}

// Statement says what was found, and how sure it is.
func (m *Matter) Statement(c Conflict) []string {
	n := c.Wishes.Len()
	these := "all of these wishes"
	switch n {
	case 1:
		these = "this wish"
	case 2:
		these = "both of these wishes"
	}
	if c.Note() {
		return []string{"No kind of foot is sure to meet this wish.", "The ratings that reach it are not settled."}
	}
	if c.Kind == May {
		return append([]string{"They may pull against each other.", "A kind of foot meets " + these + " only by ratings that are not settled."}, practice(c)...)
	}
	out := []string{"No kind of foot in the table meets " + these + "."}
	if c.Kind == AsMarked {
		out[0] = "As the ratings stand, no kind of foot meets " + these + "."
	}
	switch {
	case n == 2:
		out = append(out, "Each one alone is met.")
	case n > 2:
		out = append(out, "Leave out any one, and at least one kind of foot meets the rest.")
	}
	if c.Kind == AsMarked {
		out = append(out, "But some of the ratings are not settled.", "A small change in them could take this away.")
	}
	return append(out, practice(c)...)
}

// practice counts the marks of trade practice on which a conflict rests, in a
// sentence where there are some.
func practice(c Conflict) []string {
	switch n := len(c.Practice); n {
	case 0:
		return nil
	case 1:
		return []string{"This rests on 1 rating of trade practice, and we know of no study of it."}
	default:
		return []string{fmt.Sprintf("This rests on %d ratings of trade practice, and we know of no study of them.", n)}
	}
}

// FixStatement says what an add-on does to a conflict.
func (m *Matter) FixStatement(f Fix) []string {
	name := lower(m.Addons[f.Addon].Name.S)
	out := []string{fmt.Sprintf("With %s added, at least one kind of foot meets these wishes.", a(name))}
	if f.Perhaps {
		out = append(out, "That rests on ratings that are not settled.")
	}
	if f.Practice {
		out = append(out, "It takes ratings of trade practice to say so.")
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
	return "It takes a little away from " + listed("and", names) + "."
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
	ask := func(whom []string, format string, args ...any) {
		out = append(out, Question{fmt.Sprintf(format, args...), whom})
	}
	switch {
	case c.Note():
		ask(team, "How sure is it that a foot can give me %s?", names[0])
		return out
	case len(ws) == 1:
		ask(team, "How close can a foot come to %s?", names[0])
	case len(ws) == 2:
		x, y := m.Wishes[ws[0]], m.Wishes[ws[1]]
		ask(both, "I want %s and %s. Which would I give up, and how much?", x.Want.S, y.Want.S)
		ask(team, "%s if %s comes first?", x.Less.S, y.Name.S)
		ask(team, "%s if %s comes first?", y.Less.S, x.Name.S)
	default:
		ask(both, "Which would I give up first: %s?", listed("or", names))
		ask(team, "How close can one foot come to %s?", listed("and", names))
	}
	switch c.Kind {
	case AsMarked:
		ask(team, "Could one foot still give me %s?", listed("and", names))
	case May:
		ask(team, "How sure is it that one foot gives me %s?", listed("and", names))
	}
	for _, f := range c.Fixes {
		ask(team, "What would %s give me, and what would it take away?", a(lower(m.Addons[f.Addon].Name.S)))
	}
	return out
}

// Steps says in the words of its row from which step a wish is met.
func (m *Matter) Steps(wish int) string {
	w := m.Table.Wishes[wish]
	var met []string
	for i, s := range m.Row(wish).Steps {
		if w.state(Mark{Step: i}) == Yes {
			met = append(met, "“"+s.S+"”")
		}
	}
	return listed("or", met)
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
	s := Summary{
		None:  "Nothing is checked yet.",
		One:   "One wish is checked. Check one more, and you see whether the two pull against each other.",
		Clear: "Nothing that you checked pulls against the rest. At least one kind of foot meets it all.",
		Lean:  "Nothing that you checked pulls against the rest. But it takes ratings of trade practice to say that a kind of foot meets it all.",
		Open:  "As the ratings stand, nothing that you checked pulls against the rest. But some of the ratings are not settled.",
		Full:  "You can check " + MostWord + ". Uncheck one to check another.",
	}
	most := 0
	m.Markings(func(marked Set) { most = max(most, m.count(marked)) })
	for n := 1; n <= most; n++ {
		text := "There is 1 conflict in what you checked."
		if n > 1 {
			text = fmt.Sprintf("There are %d conflicts in what you checked.", n)
		}
		s.Found = append(s.Found, text)
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

func a(name string) string {
	if strings.ContainsAny(name[:1], "aeiou") {
		return "an " + name
	}
	return "a " + name
}

func lower(name string) string { return strings.ToLower(name[:1]) + name[1:] }

// listed joins names as one says them.
func listed(last string, names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " " + last + " " + names[n-1]
	}
	return strings.Join(names, "")
}
