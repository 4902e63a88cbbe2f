package publish

import (
	"cmp"
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
	"keelpath/builder/read"
	"keelpath/builder/safety"
	"keelpath/builder/say"
	"keelpath/builder/shelf"
	"keelpath/builder/tree"
)

func plannerModel(v viewer, _ plan.Page) (any, error) {
	out := PlannerView{PageView: v.view, Opening: v.opening()}
	for from, to := range map[string]*string{
		"client/carry/carry.ts": &out.Carry, "client/figures/workbench.ts": &out.FigureScript, "style/figure.css": &out.FigureStyle,
		"client/planner/sheets.ts": &out.Sheets, "style/sheets.css": &out.SheetStyle, v.part(partPrompts) + ".js": &out.Prompts, v.part(partAbout) + ".js": &out.About, asidesScript: &out.Asides, groundScript: &out.Ground,
	} {
		file, err := v.shelf.Asset(from)
		if err != nil {
			return nil, err
		}
		*to = v.root + file
	}
	if err := v.spoken(&out); err != nil {
		return nil, err
	}
	data, err := json.Marshal(plannerData(v.shelf))
	out.Data = template.JS(ascii(data))
	return out, err
}

// spoken gives what the page says of or to the wearer: the topics and the safety screen.
func (v viewer) spoken(out *PlannerView) error {
	out.Voices = len(v.shelf.Voices()) > 0
	for place, t := range v.shelf.PatientTrees() {
		file, err := v.shelf.Asset(v.part(partOfTree(t.ID.S)) + ".js")
		if err != nil {
			return err
		}
		out.Topics = append(out.Topics, TopicView{
			ID: t.ID.S, Title: t.Title.S, Purpose: t.Purpose.S, URL: v.addresses.paper(t.ID.S), Group: groupOf(t), Place: place, Longest: v.shelf.Proof(t.ID.S).Longest,
			Whole: t.Safety.S == tree.SafetyWhole, Script: v.root + file,
		})
	}
	out.Groups = topicGroups(v.say(), out.Topics)
	var err error
	out.Safety, err = v.safety()
	return err
}

// The planner's groups of topics beside those that a tree can name.
const (
	groupWrong = "wrong"
	groupOther = "other"
)

var groupTitles = map[string]say.Name{
	"ground": "planner.group-ground", "shoes": "planner.group-shoes", "days": "planner.group-days", "body": "planner.group-body",
	"visit": "planner.group-visit", groupOther: "planner.group-other",
}

func groupOf(t *tree.Tree) string {
	if t.Safety.S == tree.SafetyWhole {
		return groupWrong
	}
	return cmp.Or(t.Group.S, groupOther)
}

// topicGroups puts topics together, each group in the order of the list; groups without any are left out.
func topicGroups(w *say.Words, topics []TopicView) []TopicGroupView {
	var out []TopicGroupView
	for _, id := range slices.Concat([]string{groupWrong}, tree.Groups, []string{groupOther}) {
		g := TopicGroupView{ID: id}
		if title, ok := groupTitles[id]; ok {
			g.Title = w.Say(title)
		}
		for _, t := range topics {
			if t.Group == id {
				g.Topics = append(g.Topics, t)
			}
		}
		if len(g.Topics) > 0 {
			out = append(out, g)
		}
	}
	return out
}

// onScreen leaves out what only a reader without script goes by, and the
// prompts, which the client puts in from its own table. What several texts of the tree
// say is given apart.
func onScreen(t TreeView) (TreeView, []string) {
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
	for i := range t.Cards {
		t.Cards[i].Prompts = nil
	}
	return t, once(t)
}

// once leaves out what a word means and what a kind of foot is: said at each place,
// that would be a large part of a tree. It gives what it left out; by its place in that
// list, and the tree's id, the client finds it.
func once(t TreeView) []string {
	var said []string
	move := func(text, same *string) {
		i := slices.Index(said, *text)
		if i < 0 {
			i, said = len(said), append(said, *text)
		}
		*text, *same = "", t.ID+"-"+strconv.Itoa(i)
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

// data is the JSON block of the page: what the safety screen and an empty sheet need. The
// rest comes with the parts. Empty fields are left out. Words that a template shows are not in it: the
// client reads them off there.
type data struct {
	Edition dataEdition           `json:"edition"`
	Safety  safety.Table          `json:"safety"`
	General []string              `json:"general"`
	Prompts map[string]dataPrompt `json:"prompts"` // that the safety screen brings
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
	tree.Table
}

type dataPrompt struct {
	Ask  string   `json:"ask"`
	Why  string   `json:"why,omitempty"` // with whom it follows in the part that has all prompts
	Whom []string `json:"whom,omitempty"`

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

func plannerData(s *shelf.Shelf) data {
	e := s.Edition()
	out := data{
		Edition: dataEdition{
			Name: e.Name.S, Clinic: e.Clinic.S, Phone: e.Phone.S, Endorsement: e.Endorsement.S, Version: e.Version.S, Shared: e.Shared,
			Emergency: e.Lines.Sentence(helpline.Emergency), Urgent: e.Lines.Sentence(helpline.Urgent), Crisis: e.Lines.Sentence(helpline.Crisis),
		},
		General: promptIDs(s.General()), Prompts: map[string]dataPrompt{},
	}
	screen := s.Safety()
	if screen == nil {
		return out
	}
	out.Safety = screen.Table()
	for _, g := range out.Safety.Groups {
		brought := g.Prompts
		for _, sign := range g.Signs {
			brought = append(brought[:len(brought):len(brought)], sign.Prompts...)
		}
		for _, id := range brought {
			out.Prompts[id] = promptData(s.Prompt(id))
		}
	}
	return out
}

func promptData(p *library.Prompt) dataPrompt {
	return dataPrompt{Ask: p.Ask.S, Why: p.Why.S, Whom: read.Strings(p.Whom), Presumes: read.Strings(p.Presumes), Unless: read.Strings(p.Unless)}
}

// factsOf are the facts that a tree's answers can tell.
func factsOf(s *shelf.Shelf, t tree.Table) map[string]dataFact {
	out := map[string]dataFact{}
	add := func(ids []string) {
		for _, f := range s.Facts() {
			if slices.Contains(ids, f.ID.S) {
				out[f.ID.S] = dataFact{f.Of.S, f.Unit.S, f.Own}
			}
		}
	}
	for _, row := range t.Questions {
		add(row.Tells)
		for _, a := range row.Answers {
			add(a.Tells)
		}
	}
	return out
}

// besideTrees gives the figures that help with a measure question of these trees.
func besideTrees(figures []*figure.Figure, trees []*tree.Tree) []*figure.Figure {
	var out []*figure.Figure
	for _, f := range figures {
		if slices.ContainsFunc(f.At, func(at *figure.Spot) bool { return measures(trees, at.Question) }) {
			out = append(out, f)
		}
	}
	return out
}

// measured tells whether a tree asks for an amount.
func measured(t *tree.Tree) bool {
	return slices.ContainsFunc(t.Questions, func(q *tree.Question) bool { return q.Measure != nil })
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

func promptIDs(ps []*library.Prompt) []string {
	out := []string{}
	for _, p := range ps {
		out = append(out, p.ID.S)
	}
	return out
}
