package publish

import (
	"encoding/json"
	"fmt"
	"html/template"
	"slices"
	"strings"
	"unicode/utf16"

	"keelpath/builder/library"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

func (m *maker) plannerPage() page {
	trees := m.patientTrees()
	return page{
		name: plannerName, title: "Get ready for a visit", room: "prepare",
		description: "Answer short questions about your day and leave with one page of questions to bring.",
		styles:      []string{m.planner.name}, script: m.script.name, credits: sharedCredits(treeCredits(trees)), newTab: true, template: "planner",
		model: func(v viewer, p PageView) (any, error) {
			out := PlannerView{PageView: p}
			for _, t := range trees {
				tv, err := v.tree(t)
				if err != nil {
					return nil, err
				}
				out.Trees = append(out.Trees, tv)
			}
			for _, c := range m.lib.Cards {
				cv, err := v.card(c)
				if err != nil {
					return nil, err
				}
				out.Cards = append(out.Cards, cv)
			}
			data, err := json.Marshal(plannerData(m.lib, trees))
			out.Data = template.JS(ascii(data))
			return out, err
		},
	}
}

// ascii writes every other character of a JSON text as an escape: the table of
// units names characters that HTML does not allow.
func ascii(data []byte) string {
	var b strings.Builder
	for _, r := range string(data) {
		if r < 0x7f {
			b.WriteRune(r)
			continue
		}
		for _, unit := range utf16.Encode([]rune{r}) {
			fmt.Fprintf(&b, "\\u%04x", unit)
		}
	}
	return b.String()
}

func (m *maker) patientTrees() []*tree.Tree {
	var out []*tree.Tree
	for _, t := range m.lib.Trees {
		if t.Audience.S == audiencePatient {
			out = append(out, t)
		}
	}
	return out
}

// The data types are the JSON block that the client reads; empty fields are
// left out.
type data struct {
	Edition dataEdition           `json:"edition"`
	Trees   []dataTree            `json:"trees"`
	General []string              `json:"general"`
	Prompts map[string]dataPrompt `json:"prompts"`
	Topics  []dataTopic           `json:"topics"`
	Cards   map[string]dataCard   `json:"cards"`
	Units   *quantity.Tables      `json:"units,omitempty"` // where a tree has a measure
}

type dataEdition struct {
	Name        string `json:"name"`
	Clinic      string `json:"clinic,omitempty"`
	Phone       string `json:"phone,omitempty"`
	Emergency   string `json:"emergency"`
	Endorsement string `json:"endorsement,omitempty"`
	Version     string `json:"version,omitempty"`
}

// dataTree is a tree's table with the words that the trail and the sheet show.
type dataTree struct {
	ID        string                  `json:"id"`
	Title     string                  `json:"title"`
	Purpose   string                  `json:"purpose"`
	Start     string                  `json:"start"`
	Questions map[string]dataQuestion `json:"questions"`
	Endings   map[string]dataEnding   `json:"endings"`
	Values    []tree.TableValue       `json:"values,omitempty"`
}

type dataQuestion struct {
	Text string `json:"text"`
	tree.TableRow
	Answers []dataAnswer `json:"answers"`           // in place of the table's
	Measure *dataMeasure `json:"measure,omitempty"` // in place of the table's
}

type dataMeasure struct {
	quantity.Measure
	Likes []dataLike `json:"likes,omitempty"`
}

type dataLike struct {
	tree.TableLike
	Text string `json:"text"`
}

type dataAnswer struct {
	tree.TableAnswer
	Text string `json:"text"`
}

type dataEnding struct {
	Title string `json:"title"`
	tree.TableEnd
}

type dataPrompt struct {
	Ask   string   `json:"ask"`
	Why   string   `json:"why"`
	Whom  []string `json:"whom"`
	Topic string   `json:"topic,omitempty"`
}

type dataTopic struct {
	ID      string   `json:"id"`
	Title   string   `json:"title"`
	Prompts []string `json:"prompts"`
}

type dataCard struct {
	Title   string   `json:"title"`
	Text    string   `json:"text"`
	Prompts []string `json:"prompts,omitempty"`
}

func plannerData(l *library.Library, trees []*tree.Tree) data {
	e := l.Edition
	out := data{
		Edition: dataEdition{e.Name.S, e.Clinic.S, e.Phone.S, e.Emergency.S, e.Endorsement.S, e.Version.S},
		Prompts: map[string]dataPrompt{}, Cards: map[string]dataCard{},
		Trees: []dataTree{}, General: promptIDs(l.General), Topics: []dataTopic{},
	}
	for _, t := range trees {
		out.Trees = append(out.Trees, treeData(t, l.Proofs[t.ID.S].Left))
		if slices.ContainsFunc(t.Questions, func(q *tree.Question) bool { return q.Measure != nil }) {
			units := quantity.Table()
			out.Units = &units
		}
	}
	for _, p := range l.Prompts() {
		d := dataPrompt{Ask: p.Ask.S, Why: p.Why.S, Whom: read.Strings(p.Whom)}
		if p.Topic != nil {
			d.Topic = p.Topic.ID.S
		}
		out.Prompts[p.ID.S] = d
	}
	for _, t := range l.Topics {
		out.Topics = append(out.Topics, dataTopic{t.ID.S, t.Title.S, promptIDs(t.Prompts)})
	}
	for _, c := range l.Cards {
		out.Cards[c.ID.S] = dataCard{c.Title.S, strings.Join(parseText(c.Text).Plain, " "), read.Strings(c.Prompts)}
	}
	return out
}

func treeData(t *tree.Tree, left map[string]int) dataTree {
	table := t.Table(left)
	out := dataTree{
		ID: t.ID.S, Title: t.Title.S, Purpose: t.Purpose.S, Start: t.Start.S,
		Questions: map[string]dataQuestion{}, Endings: map[string]dataEnding{}, Values: table.Values,
	}
	for _, q := range t.Questions {
		row := dataQuestion{Text: q.Text.S, TableRow: table.Questions[q.ID.S], Answers: []dataAnswer{}}
		if m := row.TableRow.Measure; m != nil {
			row.Measure = &dataMeasure{Measure: m.Measure}
			for i, l := range m.Likes {
				row.Measure.Likes = append(row.Measure.Likes, dataLike{l, q.Measure.Likes[i].Text.S})
			}
		}
		for i, a := range q.Answers {
			row.Answers = append(row.Answers, dataAnswer{row.TableRow.Answers[i], a.Text.S})
		}
		out.Questions[q.ID.S] = row
	}
	for _, e := range t.Endings {
		out.Endings[e.ID.S] = dataEnding{e.Title.S, table.Endings[e.ID.S]}
	}
	return out
}

func promptIDs(ps []*library.Prompt) []string {
	out := []string{}
	for _, p := range ps {
		out = append(out, p.ID.S)
	}
	return out
}
