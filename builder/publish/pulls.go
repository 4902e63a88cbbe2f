package publish

import (
	"encoding/json"
	"fmt"
	"html/template"
	"net/url"
	"strings"

	"keelpath/builder/conflict"
	"keelpath/builder/read"
)

const pullsName = "workbench/what-pulls-against-what.html"

// wishPages are the pages that hold the rating table against what matters to a
// reader, in the order in which a list names them.
func (m *maker) wishPages() []page { return []page{m.pullsPage(), m.motionPushPage()} }

// pullsView is the page on which a reader marks wishes.
type pullsView struct {
	PageView
	Table     string // address of the table
	Most      string // "five"
	Wishes    []wishView
	Pulls     []pullView // all of them, remarks on a single wish too
	Conflicts []pullView // without those
	Data      template.JS
}

// wishView is one wish with the feet that meet it and those that do not, each in
// the table's order. Unsure says that only marks which are not settled meet it.
type wishView struct {
	ID, Title, Means, Steps, Row string
	Unsure                       bool
	Count                        string // of Meets: "3, 1 of them perhaps"
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

// pullView is one conflict. Sure is how sure it is, in a few words.
type pullView struct {
	ID, Title, Sure string
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

// fixView is an add-on that takes a conflict away, with both sides of it.
type fixView struct {
	Name, URL, Short, Against string
	Says, Gain, GiveUp        []string
}

type headView struct{ Row, Steps string }

type behindView struct {
	Name, URL string
	Cells     []behindCell
}

type behindCell struct{ Row, Words, State string }

func (m *maker) pullsPage() page {
	return page{
		name: pullsName, title: "What pulls against what", room: "workbench", template: "pulls", credits: m.siteCredits(),
		description: "Tick what matters to you, and see which wishes no kind of foot meets together.",
		styles:      []string{m.planner.name, m.wishStyle.name}, script: m.wishScript.name,
		model: func(v viewer, p PageView) (any, error) {
			matter := conflict.In(m.lib)
			out := pullsView{PageView: p, Table: v.at(footTypesName, "page_table"), Most: conflict.MostWord}
			for w := range matter.Wishes {
				out.Wishes = append(out.Wishes, v.wish(matter, w))
			}
			for _, c := range matter.All {
				pull := v.pull(matter, c)
				out.Pulls = append(out.Pulls, pull)
				if !c.Note() {
					out.Conflicts = append(out.Conflicts, pull)
				}
			}
			data, err := json.Marshal(pullsData(matter))
			out.Data = template.JS(ascii(data))
			return out, err
		},
	}
}

// stateWords says how far a foot meets a wish.
var stateWords = map[conflict.State]string{
	conflict.Yes: "meets it", conflict.Perhaps: "perhaps meets it, not settled",
	conflict.Short: "one step short, not settled", conflict.No: "does not meet it",
}

func (v viewer) wish(m *conflict.Matter, w int) wishView {
	wish, row := m.Wishes[w], m.Row(w)
	out := wishView{ID: wish.ID.S, Title: wish.Title.S, Means: wish.Means.S, Steps: m.Steps(w), Row: row.Title.S}
	perhaps := 0
	for f, t := range m.Feet {
		cell, state := m.Cell(f, w), m.State(f, w)
		meet := meetView{
			Name: t.Name.S, URL: v.footType(t.ID.S), Words: row.Steps[cell.Mark].S, Row: row.Title.S, Why: cell.Why.S,
			CellURL: v.footType(t.ID.S + "_" + row.ID.S), Gain: read.Strings(t.Gain), GiveUp: read.Strings(t.GiveUp),
		}
		switch {
		case state == conflict.Perhaps:
			meet.State = "perhaps: not settled"
			perhaps++
		case state == conflict.Short:
			meet.State = stateWords[state]
		case cell.Disputed:
			meet.State = "not settled"
		}
		if state.Met() {
			out.Meets = append(out.Meets, meet)
		} else {
			out.Others = append(out.Others, meet)
		}
	}
	n := len(out.Meets)
	out.Unsure = n > 0 && perhaps == n
	out.Count = fmt.Sprint(n)
	switch {
	case out.Unsure:
		out.Count += ", perhaps"
	case perhaps > 0:
		out.Count += fmt.Sprintf(", %d of them perhaps", perhaps)
	}
	return out
}

func (v viewer) pull(m *conflict.Matter, c conflict.Conflict) pullView {
	out := pullView{ID: m.ID(c), Title: m.Title(c), Says: m.Statement(c), Sure: sureWords[c.Kind]}
	for _, q := range m.Questions(c) {
		out.Questions = append(out.Questions, v.own(q))
	}
	for _, f := range c.Fixes {
		t := m.Addons[f.Addon]
		out.Fixes = append(out.Fixes, fixView{
			Name: t.Name.S, URL: v.footType(t.ID.S), Short: "Add-on: " + strings.ToLower(t.Name.S) + ".", Says: m.FixStatement(f),
			Gain: read.Strings(t.Gain), GiveUp: read.Strings(t.GiveUp), Against: m.Against(f.Addon),
		})
	}
	for _, w := range c.Wishes.List() {
		out.Head = append(out.Head, headView{m.Row(w).Title.S, m.Steps(w)})
	}
	for f, t := range m.Feet {
		b := behindView{Name: t.Name.S, URL: v.footType(t.ID.S)}
		for _, w := range c.Wishes.List() {
			b.Cells = append(b.Cells, behindCell{m.Row(w).Title.S, m.Row(w).Steps[m.Cell(f, w).Mark].S, stateWords[m.State(f, w)]})
		}
		out.Rows = append(out.Rows, b)
	}
	return out
}

var sureWords = map[conflict.Kind]string{
	conflict.Holds: "No kind meets them together.", conflict.AsMarked: "As the marks stand, no kind meets them together. Some marks are not settled.",
	conflict.May: "They may pull. It rests on marks that are not settled.",
}

func (v viewer) own(q conflict.Question) ownView {
	out := ownView{Ask: q.Ask, URL: v.ownQuestion(q.Ask)}
	for _, w := range q.Whom {
		out.Whom = append(out.Whom, whomWords[w])
	}
	return out
}

// ownQuestion is the address that puts a question of the reader's own on the
// sheet. The planner reads the part behind own= as encodeURIComponent writes it.
func (a addresses) ownQuestion(ask string) string {
	return a.page(plannerName) + "#own=" + strings.ReplaceAll(url.QueryEscape(ask), "+", "%20")
}

// The data that the page's script looks up.
type dataPulls struct {
	Most int              `json:"most"`
	Sets []dataPull       `json:"sets"`
	Say  conflict.Summary `json:"say"`
}

type dataPull struct {
	ID   string   `json:"id"`
	Of   []string `json:"of"`
	Note bool     `json:"note,omitempty"`
}

func pullsData(m *conflict.Matter) dataPulls {
	out := dataPulls{Most: conflict.Most, Sets: []dataPull{}, Say: m.Summary}
	for _, c := range m.All {
		d := dataPull{ID: m.ID(c), Note: c.Note()}
		for _, w := range c.Wishes.List() {
			d.Of = append(d.Of, m.Wishes[w].ID.S)
		}
		out.Sets = append(out.Sets, d)
	}
	return out
}
