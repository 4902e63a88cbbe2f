package publish

import (
	"encoding/json"
	"html/template"
	"net/url"
	"slices"
	"strings"

	"keelpath/builder/conflict"
	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/read"
	"keelpath/builder/say"
)

// pullsView is the page on which a reader marks wishes.
type pullsView struct {
	PageView
	Ways      []LinkView // what has no ratings and is left out
	Wishes    []wishView
	Pulls     []pullView  // all of them, remarks on a single wish too
	Conflicts []pullView  // without those
	Addons    []addonView // those that take one away
	Practice  int         // of Conflicts, those that rest on trade practice
	Data      template.JS
}

// wishView is one wish with the feet that meet it and those that do not, each in
// the table's order. Unsure says that only marks which are not settled meet it.
type wishView struct {
	ID, Title, Means, Steps, Row string
	Unsure                       bool
	Practice                     bool   // and of the marks that surely meet it each is trade practice
	Count                        string // of Meets: "3, 1 of them perhaps, 1 by trade practice"
	Meets, Others                []meetView
}

// meetView is one foot held against a wish. State is empty where a settled mark
// decides it.
type meetView struct {
	Name, URL                  string
	Words, CellURL, Row, State string
	Why                        string
	Gain, GiveUp               []string
}

// pullView is one conflict. Sure is how sure it is, in a few words. Open says that
// ratings behind it are not settled; a Note is a remark on one wish.
type pullView struct {
	ID, Title, Sure string
	Open, Note      bool
	Practice        int // marks of trade practice on which it rests
	Says            []string
	Questions       []ownView
	Fixes           []fixView
	Head            []headView
	Rows            []behindView
}

// ownView is a question made by the program, with the address that puts it on
// the sheet as one of the reader's own.
type ownView struct {
	Ask  string
	Whom []string
	URL  string
}

// fixView is what an add-on does to one conflict, in a few words and in sentences.
type fixView struct {
	Short string
	Says  []string
}

// addonView is an add-on with both of its sides, and all conflicts that it takes away.
type addonView struct {
	Name, URL, Against string
	Gain, GiveUp       []string
	Of                 []string // ids of conflicts
}

type headView struct{ Row, Steps string }

type behindView struct {
	Name, URL string
	Cells     []behindCell
}

// behindCell is a mark; Rests says that the conflict rests on it as trade practice.
type behindCell struct {
	Row, Words, State string
	Rests             bool
}

func pullsModel(v viewer, _ plan.Page) (any, error) {
	matter := v.shelf.Conflicts()
	out := pullsView{PageView: v.view}
	for _, t := range v.shelf.Ways() {
		out.Ways = append(out.Ways, LinkView{t.ID.S, t.Name.S, v.footType(t.ID.S)})
	}
	for w := range matter.Wishes {
		out.Wishes = append(out.Wishes, v.wish(matter, w))
	}
	for _, c := range matter.All {
		pull := v.pull(matter, c)
		out.Pulls = append(out.Pulls, pull)
		if !c.Note() {
			out.Conflicts = append(out.Conflicts, pull)
			if pull.Practice > 0 {
				out.Practice++
			}
		}
	}
	for a := range matter.Addons {
		if made := v.addon(matter, a); len(made.Of) > 0 {
			out.Addons = append(out.Addons, made)
		}
	}
	data, err := json.Marshal(pullsData(matter))
	out.Data = template.JS(ascii(data))
	return out, err
}

// stateWords says how far a foot meets a wish.
var stateWords = map[conflict.State]say.Name{
	conflict.Yes: "pulls.meets", conflict.Perhaps: "pulls.perhaps-meets", conflict.Short: "pulls.one-short", conflict.No: "pulls.meets-not",
}

func (v viewer) wish(m *conflict.Matter, w int) wishView {
	wish, row := m.Wishes[w], m.Row(w)
	out := wishView{ID: wish.ID.S, Title: wish.Title.S, Means: wish.Means.S, Steps: m.Steps(w), Row: row.Title.S}
	perhaps, practice := 0, 0
	for f, t := range m.Feet {
		cell, state := m.Cell(f, w), m.State(f, w)
		meet := meetView{
			Name: t.Name.S, URL: v.footType(t.ID.S), Words: row.Steps[cell.Mark].S, Row: row.Title.S, Why: cell.Why.S,
			CellURL: v.footType(t.ID.S + "_" + row.ID.S), Gain: read.Strings(t.Gain), GiveUp: read.Strings(t.GiveUp),
		}
		switch {
		case state == conflict.Perhaps:
			meet.State = v.say().Say("pulls.perhaps")
			perhaps++
		case state == conflict.Short:
			meet.State = v.say().Say(stateWords[state])
		case cell.Standing() != library.Settled:
			meet.State = v.say().Say(cell.Standing().Name())
		}
		if state == conflict.Yes && cell.Standing() == library.Practice {
			practice++
		}
		if state.Met() {
			out.Meets = append(out.Meets, meet)
		} else {
			out.Others = append(out.Others, meet)
		}
	}
	n := len(out.Meets)
	out.Unsure, out.Practice = n > 0 && perhaps == n, practice > 0 && perhaps+practice == n
	out.Count = v.say().Number(n)
	next := func(what string) { out.Count = v.say().Say("pulls.count", "before", out.Count, "next", what) }
	switch {
	case out.Unsure:
		next(v.say().Say("pulls.all-perhaps"))
	case perhaps > 0:
		next(v.say().Say("pulls.some-perhaps", "count", perhaps))
	}
	if practice > 0 {
		next(v.say().Say("pulls.by-practice", "count", practice))
	}
	return out
}

func (v viewer) pull(m *conflict.Matter, c conflict.Conflict) pullView {
	out := pullView{
		ID: m.ID(c), Title: m.Title(c), Says: m.Statement(c), Sure: v.say().Say(sureWords[c.Kind]), Practice: len(c.Practice),
		Open: c.Kind != conflict.Holds, Note: c.Note(),
	}
	if n := out.Practice; n > 0 {
		out.Sure += " " + v.say().Say("pulls.practice-behind", "number", n)
	}
	for _, q := range m.Questions(c) {
		out.Questions = append(out.Questions, v.own(q))
	}
	for _, f := range c.Fixes {
		t := m.Addons[f.Addon]
		out.Fixes = append(out.Fixes, fixView{v.say().Say("pulls.fix-short", "add-on", strings.ToLower(t.Name.S)), m.FixStatement(f)})
	}
	for _, w := range c.Wishes.List() {
		out.Head = append(out.Head, headView{m.Row(w).Title.S, m.Steps(w)})
	}
	for f, t := range m.Feet {
		b := behindView{Name: t.Name.S, URL: v.footType(t.ID.S)}
		for _, w := range c.Wishes.List() {
			state := v.say().Say(stateWords[m.State(f, w)])
			if m.Cell(f, w).Standing() == library.Practice {
				state = v.say().Say("pulls.count", "before", state, "next", v.say().Say(library.Practice.Name()))
			}
			rests := slices.Contains(c.Practice, conflict.Spot{Foot: f, Wish: w})
			b.Cells = append(b.Cells, behindCell{m.Row(w).Title.S, m.Row(w).Steps[m.Cell(f, w).Mark].S, state, rests})
		}
		out.Rows = append(out.Rows, b)
	}
	return out
}

func (v viewer) addon(m *conflict.Matter, addon int) addonView {
	t := m.Addons[addon]
	out := addonView{Name: t.Name.S, URL: v.footType(t.ID.S), Gain: read.Strings(t.Gain), GiveUp: read.Strings(t.GiveUp), Against: m.Against(addon)}
	for _, c := range m.All {
		if slices.ContainsFunc(c.Fixes, func(f conflict.Fix) bool { return f.Addon == addon }) {
			out.Of = append(out.Of, m.ID(c))
		}
	}
	return out
}

var sureWords = map[conflict.Kind]say.Name{conflict.Holds: "pulls.holds", conflict.AsMarked: "pulls.as-marked", conflict.May: "pulls.may"}

func (v viewer) own(q conflict.Question) ownView {
	out := ownView{Ask: q.Ask, URL: v.ownQuestion(q.Ask)}
	for _, w := range q.Whom {
		out.Whom = append(out.Whom, v.say().Say(whomWords[w]))
	}
	return out
}

// ownQuestion is the address that puts a question of the reader's own on the
// sheet. The planner reads the part behind own= as encodeURIComponent writes it.
func (a addresses) ownQuestion(ask string) string {
	return a.to(plan.Planner) + "#own=" + strings.ReplaceAll(url.QueryEscape(ask), "+", "%20")
}

// The data that the page's script looks up.
type dataPulls struct {
	Most  int               `json:"most"`
	Names map[string]string `json:"names"` // of the wishes by their ids, as they stand over a post
	Sets  []dataPull        `json:"sets"`
	Leans [][]string        `json:"leans"` // the wishes of each of Matter.Leans
	Say   conflict.Summary  `json:"say"`
}

type dataPull struct {
	ID   string   `json:"id"`
	Of   []string `json:"of"`
	Note bool     `json:"note,omitempty"`
	Open bool     `json:"open,omitempty"` // ratings behind it are not settled
}

func pullsData(m *conflict.Matter) dataPulls {
	out := dataPulls{Most: conflict.Most, Names: map[string]string{}, Sets: []dataPull{}, Leans: [][]string{}, Say: m.Summary}
	for _, w := range m.Wishes {
		out.Names[w.ID.S] = m.Words.Capital(w.Name.S)
	}
	ids := func(s conflict.Set) (of []string) {
		for _, w := range s.List() {
			of = append(of, m.Wishes[w].ID.S)
		}
		return of
	}
	for _, c := range m.All {
		out.Sets = append(out.Sets, dataPull{ID: m.ID(c), Of: ids(c.Wishes), Note: c.Note(), Open: c.Kind != conflict.Holds})
	}
	for _, s := range m.Leans {
		out.Leans = append(out.Leans, ids(s))
	}
	return out
}
