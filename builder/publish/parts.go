package publish

import (
	"bytes"
	"encoding/json"
	"fmt"
	"regexp"
	"strings"

	"keelpath/builder/figure"
	"keelpath/builder/plan"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// A part is a script that the planner loads as a reader goes on: one a topic, one a
// figure beside questions, one with all prompts, one with what stands on the sheet of each answer, and the one that has the sheet. So the page itself is light
// however many topics there are, and it holds all of the safety screen.
//
// What a part shows is made by the same templates as a page, escaped by html/template, and written as
// one text. The client puts that text into a template element, where nothing runs, loads or is
// shown; and the content policy takes scripts of the site's own alone, so that no one
// else can hand the page such a text.
type part struct {
	HTML    string                  `json:"html,omitempty"` // template elements, as the page has them
	Tree    *dataTree               `json:"tree,omitempty"`
	Cards   map[string][]string     `json:"cards,omitempty"`  // the prompts that each brings
	Beside  map[string]dataBeside   `json:"beside,omitempty"` // by the question beside which the figure stands
	Units   *quantity.Tables        `json:"units,omitempty"`
	Figures map[string]figure.Coded `json:"figures,omitempty"`
	Prompts map[string]dataPrompt   `json:"prompts,omitempty"`
	Themes  []dataTheme             `json:"themes,omitempty"`
	Facts   map[string]dataFact     `json:"facts,omitempty"` // what a reader can tell
	About   *dataAbout              `json:"about,omitempty"` // what stands of that on the sheet
	Voice   string                  `json:"voice,omitempty"` // in which it speaks; empty for the reader's own

	// What the part of a voice brings besides: the fact that its choice tells, what the script says in it, and where its other parts are.
	Tells string            `json:"tells,omitempty"`
	Said  map[string]string `json:"said,omitempty"`
	At    map[string]string `json:"at,omitempty"`
}

// dataBeside is a figure that helps with a question.
type dataBeside struct {
	Figure string `json:"figure"`
	Title  string `json:"title"`
	Script string `json:"script"` // its part
}

// The parts' names, by which the client tells that one has come.
const (
	partPrompts = "prompts"
	partSheets  = "sheets"
	partAbout   = "about"
)

func partOfTree(id string) string   { return "tree-" + id }
func partOfFigure(id string) string { return "figure-" + id }

// parts has every part that is made of the library alone, as an entry of the assets.
func (m *maker) parts() []entry {
	trees := m.lib.PatientTrees()
	out := append(m.spokenOf(trees), entry{from: cutScript, behind: (*maker).cuts}, entry{from: shownScript, behind: (*maker).shown})
	out = append(out, groundParts(trees)...)
	return out
}

// spokenOf has those that are said in each voice.
func (m *maker) spokenOf(trees []*tree.Tree) []entry {
	out := []entry{{from: m.part(partPrompts) + ".js", behind: (*maker).promptsPart}, {from: m.part(partAbout) + ".js", behind: (*maker).aboutPart}}
	for _, t := range trees {
		out = append(out, entry{from: m.part(partOfTree(t.ID.S)) + ".js", behind: func(m *maker) ([]byte, error) { return m.treePart(t) }})
	}
	for _, f := range besideTrees(m.lib.Figures, trees) {
		out = append(out, entry{from: m.part(partOfFigure(f.ID)) + ".js", behind: func(m *maker) ([]byte, error) { return m.figurePart(f) }})
	}
	return out
}

// part names a part in the voice at hand: "tree-heel-height", "tree-heel-height.child".
func (m *maker) part(base string) string {
	if m.voice == "" {
		return base
	}
	return base + "." + m.voice
}

// script is a part as the file that hands it to the planner.
func (p part) script(name string) ([]byte, error) {
	var b bytes.Buffer
	fmt.Fprintf(&b, "keelpathPart(%q,", name)
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false) // the file is no HTML
	if err := e.Encode(p); err != nil {
		return nil, err
	}
	b.Truncate(b.Len() - 1) // the line's end
	b.WriteString(");\n")
	return b.Bytes(), nil
}

// treePart is a topic: its table, and the templates of its questions, endings and cards.
func (m *maker) treePart(t *tree.Tree) ([]byte, error) {
	v, err := m.inPlanner()
	if err != nil {
		return nil, err
	}
	tv, err := v.tree(t)
	if err != nil {
		return nil, err
	}
	table := t.Table(v.shelf.Proof(t.ID.S).Left)
	out := part{Tree: &dataTree{t.Title.S, table}, Facts: factsOf(v.shelf, table), Cards: map[string][]string{}}
	tv, same := onScreen(tv)
	var brought []read.Text // prompts, so that an ending is whole when its tree is there
	for _, e := range t.Endings {
		brought = append(brought, e.Prompts...)
	}
	for _, id := range t.Cards() {
		brought = append(brought, v.shelf.Card(id).Prompts...)
		out.Cards[id] = append([]string{}, read.Strings(v.shelf.Card(id).Prompts)...)
	}
	out.Prompts = map[string]dataPrompt{}
	for _, id := range brought {
		d := promptData(v.shelf.Prompt(id.S))
		d.Why, d.Whom = "", nil
		out.Prompts[id.S] = d
	}
	if measured(t) {
		out.Units = v.amounts()
	}
	if out.Beside, err = v.beside(t, m.part); err != nil {
		return nil, err
	}
	if out.HTML, err = m.made("planner-tree", treePartView{tv, same}); err != nil {
		return nil, err
	}
	out.Voice = m.voice
	return out.script(m.part(partOfTree(t.ID.S)))
}

// treePartView is a tree with what several of its texts say, once.
type treePartView struct {
	TreeView
	Same []string
}

// beside gives the figures that help with questions of a tree; part names a part in the voice at hand.
func (v viewer) beside(t *tree.Tree, part func(base string) string) (map[string]dataBeside, error) {
	out := map[string]dataBeside{}
	for _, f := range besideTrees(v.shelf.Figures(), []*tree.Tree{t}) {
		script, err := v.shelf.Asset(part(partOfFigure(f.ID)) + ".js")
		if err != nil {
			return nil, err
		}
		for _, at := range f.At {
			if measures([]*tree.Tree{t}, at.Question) {
				out[at.Question] = dataBeside{f.ID, f.Title.S, v.root + script}
			}
		}
	}
	return out, nil
}

func (m *maker) figurePart(f *figure.Figure) ([]byte, error) {
	made, err := f.HTML(figure.Options{Words: m.lib.Say})
	if err != nil {
		return nil, err
	}
	html, err := m.made("planner-figure", FigureView{f.ID, f.Title.S, made})
	if err != nil {
		return nil, err
	}
	return part{HTML: html, Figures: map[string]figure.Coded{f.ID: f.Coded()}, Voice: m.voice}.script(m.part(partOfFigure(f.ID)))
}

var betweenTags = regexp.MustCompile(`>\n+<`)

// sheetsPart is what the sheet shows, behind its script.
func (m *maker) sheetsPart() ([]byte, error) {
	v, err := m.inPlanner()
	if err != nil {
		return nil, err
	}
	html, err := m.made("planner-sheets", PlannerView{PageView: v.view, Opening: v.opening()})
	if err != nil {
		return nil, err
	}
	html = strings.TrimSpace(betweenTags.ReplaceAllString(html, "><")) // lines of a template are for who writes it
	if !strings.Contains(html, "'") {                                  // in the script each of the other quotes has a stroke before it
		html = strings.ReplaceAll(html, `"`, "'")
	}
	return part{HTML: html}.script(partSheets)
}

// aboutPart is what stands on the sheet of what a reader told, the paper that it prints on, and its back.
func (m *maker) aboutPart() ([]byte, error) {
	v, err := m.inPlanner()
	if err != nil {
		return nil, err
	}
	html, err := m.made("planner-paper", PlannerView{PageView: v.view})
	if err != nil {
		return nil, err
	}
	if m.voice != "" { // the script that has the sheet brings it in the reader's own
		sheet, err := m.made("planner-sheets", PlannerView{PageView: v.view, Opening: v.opening()})
		if err != nil {
			return nil, err
		}
		html += sheet
	}
	return part{HTML: html, About: aboutOf(v.shelf.About(), v.shelf.Facts(), v.say()), Voice: m.voice}.script(m.part(partAbout))
}

// promptsPart has all prompts and themes: what the sheet is put together with, and what an ending
// folds in.
func (m *maker) promptsPart() ([]byte, error) {
	s, out := m.stock.Shelf(), part{Prompts: map[string]dataPrompt{}, Voice: m.voice}
	for _, p := range s.Prompts() {
		out.Prompts[p.ID.S] = promptData(p)
	}
	for _, t := range s.Themes() {
		out.Themes = append(out.Themes, dataTheme{t.ID.S, t.Title.S, promptIDs(t.Prompts)})
	}
	return out.script(m.part(partPrompts))
}

// inPlanner is a viewer of what stands in the planner's page, wherever it is made.
func (m *maker) inPlanner() (viewer, error) {
	p, ok := m.plan.Find(plan.Planner, "")
	if !ok {
		return viewer{}, fmt.Errorf("the plan has no planner")
	}
	return m.viewer(p)
}

// made gives what a template makes.
func (m *maker) made(name string, of any) (string, error) {
	var b bytes.Buffer
	err := m.templates.ExecuteTemplate(&b, name, of)
	return b.String(), err
}
