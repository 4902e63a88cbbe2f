package publish

import (
	"encoding/json"
	"fmt"
	"html/template"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"

	"keelpath/builder/figure"
	"keelpath/builder/helpline"
	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
	"keelpath/builder/safety"
	"keelpath/builder/shelf"
	"keelpath/builder/tree"
)

func plannerModel(v viewer, _ plan.Page) (any, error) {
	trees := v.shelf.PatientTrees()
	out := PlannerView{PageView: v.view, Opening: v.opening()}
	for from, to := range map[string]*string{"client/carry/carry.ts": &out.Carry, "client/figures/workbench.ts": &out.FigureScript} {
		script, err := v.shelf.Asset(from)
		if err != nil {
			return nil, err
		}
		*to = v.root + script
	}
	for _, t := range trees {
		tv, err := v.tree(t)
		if err != nil {
			return nil, err
		}
		tv = onScreen(tv)
		out.Same = once(tv, out.Same)
		out.Trees = append(out.Trees, tv)
	}
	for _, c := range v.shelf.Cards() {
		cv, err := v.card(c)
		if err != nil {
			return nil, err
		}
		cv.Prompts = nil // its script puts them in
		out.Cards = append(out.Cards, cv)
	}
	var err error
	if out.Safety, err = v.safety(); err != nil {
		return nil, err
	}
	all := plannerData(v.shelf, trees)
	for _, f := range besideTrees(v.shelf, trees) {
		made, err := f.HTML(figure.Options{})
		if err != nil {
			return nil, err
		}
		out.Figures = append(out.Figures, FigureView{f.ID, f.Title.S, made})
		all.addFigure(f)
	}
	data, err := json.Marshal(all)
	out.Data = template.JS(ascii(data))
	return out, err
}

// onScreen leaves out what only a reader without script goes by, and the
// prompts, which the client puts in from its own table.
func onScreen(t TreeView) TreeView {
	for i := range t.Questions {
		q := &t.Questions[i]
		q.Number, q.Way, q.Skip, q.Routes = 0, nil, nil, nil
		for j := range q.Answers {
			q.Answers[j].Way, q.Answers[j].Cards = nil, nil
		}
	}
	// Endings that tell a sign have their words from the safety screen.
	t.Endings = slices.DeleteFunc(t.Endings, func(e EndingView) bool { return e.Sign })
	for i := range t.Endings {
		e := &t.Endings[i]
		e.Number, e.Prompts, e.Themes, e.Next = 0, nil, nil, nil
	}
	return t
}

// once leaves out what a word means and what a kind of foot is: said at each of nearly
// 400 places, that would be a large part of the page. It adds to said what
// is not there yet; its place in that list stands where it was.
func once(t TreeView, said []string) []string {
	move := func(text, same *string) {
		i := slices.Index(said, *text)
		if i < 0 {
			i, said = len(said), append(said, *text)
		}
		*text, *same = "", strconv.Itoa(i)
	}
	words := func(all []WordView) {
		for i := range all {
			move(&all[i].Meaning, &all[i].Same)
		}
	}
	for _, q := range t.Questions {
		words(q.Words)
	}
	for _, e := range t.Endings {
		words(e.Words)
		for i := range e.Types {
			move(&e.Types[i].What, &e.Types[i].Same)
		}
	}
	return said
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

func plannerCredits(s *shelf.Shelf, _ string) []read.Credits { return creditsOf(s.PatientTrees()) }

// The data types are the JSON block that the client reads; empty fields are
// left out. The words of questions, answers and endings are not in it: the
// client reads them off the templates that show them.
type data struct {
	Edition dataEdition           `json:"edition"`
	Safety  safety.Table          `json:"safety"`
	Trees   []dataTree            `json:"trees"`
	General []string              `json:"general"`
	Prompts map[string]dataPrompt `json:"prompts"`
	Facts   map[string]dataFact   `json:"facts,omitempty"` // what a reader can tell
	Themes  []dataTheme           `json:"themes"`
	Cards   map[string][]string   `json:"cards"`           // the prompts that each brings
	Units   *quantity.Tables      `json:"units,omitempty"` // where a tree has a measure

	Figures map[string]figure.Coded `json:"figures,omitempty"`
	Beside  map[string]string       `json:"beside,omitempty"` // a figure's id by tree/question
}

type dataEdition struct {
	Name        string `json:"name"`
	Clinic      string `json:"clinic,omitempty"`
	Phone       string `json:"phone,omitempty"`
	Emergency   string `json:"emergency"` // these three are sentences that are ready to show
	Urgent      string `json:"urgent"`
	Crisis      string `json:"crisis"`
	Endorsement string `json:"endorsement,omitempty"`
	Version     string `json:"version,omitempty"`
	Shared      bool   `json:"shared,omitempty"`
}

// dataTree is a tree's table with its name.
type dataTree struct {
	Title string `json:"title"`
	Whole bool   `json:"whole,omitempty"` // all groups of the safety screen come before it
	tree.Table
}

type dataPrompt struct {
	Ask   string   `json:"ask"`
	Why   string   `json:"why"`
	Whom  []string `json:"whom"`
	Theme string   `json:"theme,omitempty"`

	Presumes []string `json:"presumes,omitempty"`
	Unless   []string `json:"unless,omitempty"`
}

type dataFact struct {
	Of   string `json:"of,omitempty"`
	Unit string `json:"unit,omitempty"`
	Own  bool   `json:"own,omitempty"`
}

type dataTheme struct {
	ID      string   `json:"id"`
	Title   string   `json:"title"`
	Prompts []string `json:"prompts"`
}

func plannerData(s *shelf.Shelf, trees []*tree.Tree) data {
	e := s.Edition()
	out := data{
		Edition: dataEdition{
			Name: e.Name.S, Clinic: e.Clinic.S, Phone: e.Phone.S, Endorsement: e.Endorsement.S, Version: e.Version.S, Shared: e.Shared,
			Emergency: e.Lines.Sentence(helpline.Emergency), Urgent: e.Lines.Sentence(helpline.Urgent), Crisis: e.Lines.Sentence(helpline.Crisis),
		},
		Prompts: map[string]dataPrompt{}, Cards: map[string][]string{},
		Trees: []dataTree{}, General: promptIDs(s.General()), Themes: []dataTheme{},
	}
	if screen := s.Safety(); screen != nil {
		out.Safety = screen.Table()
	}
	for _, t := range trees {
		out.Trees = append(out.Trees, dataTree{t.Title.S, t.Safety.S == tree.SafetyWhole, t.Table(s.Proof(t.ID.S).Left)})
		if slices.ContainsFunc(t.Questions, func(q *tree.Question) bool { return q.Measure != nil }) {
			units := quantity.Table()
			out.Units = &units
		}
	}
	for _, p := range s.Prompts() {
		d := dataPrompt{Ask: p.Ask.S, Why: p.Why.S, Whom: read.Strings(p.Whom), Presumes: read.Strings(p.Presumes), Unless: read.Strings(p.Unless), Theme: p.Theme.S}
		out.Prompts[p.ID.S] = d
	}
	for _, f := range s.Facts() {
		if out.Facts == nil {
			out.Facts = map[string]dataFact{}
		}
		out.Facts[f.ID.S] = dataFact{f.Of.S, f.Unit.S, f.Own}
	}
	for _, t := range s.Themes() {
		out.Themes = append(out.Themes, dataTheme{t.ID.S, t.Title.S, promptIDs(t.Prompts)})
	}
	for _, c := range s.Cards() {
		out.Cards[c.ID.S] = append([]string{}, read.Strings(c.Prompts)...)
	}
	return out
}

// besideTrees gives the figures that help with a measure question of these trees.
func besideTrees(s *shelf.Shelf, trees []*tree.Tree) []*figure.Figure {
	var out []*figure.Figure
	for _, f := range s.Figures() {
		if slices.ContainsFunc(f.At, func(at *figure.Spot) bool { return measures(trees, at.Question) }) {
			out = append(out, f)
		}
	}
	return out
}

// measures tells whether a place is a question that takes an amount; an edition's
// own tree may have none there.
func measures(trees []*tree.Tree, at string) bool {
	id, question, _ := strings.Cut(at, "/")
	for _, t := range trees {
		if q := t.Question(question); t.ID.S == id && q != nil && q.Measure != nil {
			return true
		}
	}
	return false
}

func (d *data) addFigure(f *figure.Figure) {
	if d.Figures == nil {
		d.Figures, d.Beside = map[string]figure.Coded{}, map[string]string{}
	}
	d.Figures[f.ID] = f.Coded()
	for _, at := range f.At {
		d.Beside[at.Question] = f.ID
	}
}

func promptIDs(ps []*library.Prompt) []string {
	out := []string{}
	for _, p := range ps {
		out = append(out, p.ID.S)
	}
	return out
}
