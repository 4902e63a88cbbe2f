package publish

import (
	"html/template"
	"slices"

	"keelpath/builder/plan"
	"keelpath/builder/read"
	"keelpath/builder/safety"
	"keelpath/builder/say"
	"keelpath/builder/shelf"
	"keelpath/builder/teaching"
	"keelpath/builder/tree"
)

// caseView is the learner's page of a case. It has no key, no explanation, no ending and no
// fact that has to be asked for: those stand on the page of the key.
type caseView struct {
	PageView
	caseHead
	Told, Chart []factView
	Beats       []beatView
	Flips       []flipView
	Trees       []LinkView
}

// caseHead is what the list of cases, a case and its key say of it alike.
type caseHead struct {
	ID, Case, Who, Setting string
	Limb                   string
	Minutes                int
	Tasks                  []string
	URL, Key               string
}

type factView struct {
	Ask, Says string
	Dated     *DateView
}

// beatView is one step. Options are as the learner sees them, or with what each is worth, on the key's page.
type beatView struct {
	ID, Number, Format, Name string
	Minutes                  int
	Says, Lead               string
	Options                  []optionView
	Ordered                  bool // the options stand in the order that was to be found
	Picks, Requests          int
	Feature, Model           string
	Checklist                []string
	Toward, Away             template.HTML
	Role                     *roleView
}

type optionView struct {
	Text, Verdict string
	Because       template.HTML
}

type roleView struct {
	Opening           string
	Freely, If, Never []string
	Feels, Closes     string
	TeachBack         []string
}

type flipView struct {
	Says    string
	Tree    LinkView
	Parts   string // the question after which the ways part; empty where nothing changes
	Ending  string
	Because template.HTML
}

// keyView is the page for whoever leads the session.
type keyView struct {
	PageView
	caseHead
	Hidden  []factView
	Screen  []restedView // what is answered on the safety screen; none where no walk comes by it
	Walks   []walkView
	Beats   []beatView
	Argue   []TalkView
	Before  string
	Flips   []flipView
	Measure string
	Day     int
	Change  string
	Errors  []template.HTML
	Sources []SourceView
}

// walkView is the case's way through a tree.
type walkView struct {
	Tree   LinkView
	Steps  []restedView
	Ending string
}

// restedView is a step of a walk with the facts on which its answer rests.
type restedView struct {
	stepView
	Rests []string
}

// casesView lists the teaching cases.
type casesView struct {
	PageView
	Cases []caseHead
}

func casesModel(v viewer, _ plan.Page) (any, error) {
	out := casesView{PageView: v.view}
	for _, c := range v.shelf.Cases() {
		out.Cases = append(out.Cases, v.caseHead(c))
	}
	return out, nil
}

func (v viewer) caseHead(c *teaching.Case) caseHead {
	out := caseHead{
		ID: c.ID.S, Case: c.Title.S, Who: c.Who.S, Setting: c.Setting.S, Limb: v.say().Say(limbNames[c.Limb.S]), Minutes: c.Minutes,
		URL: v.page(v.of(plan.Case, c.ID.S)), Key: v.page(v.of(plan.CaseKey, c.ID.S)),
	}
	for _, t := range teaching.Tasks { // in the order of a visit
		if slices.Contains(read.Strings(c.Tasks), t) {
			out.Tasks = append(out.Tasks, v.say().Say(taskNames[t]))
		}
	}
	return out
}

func caseModel(v viewer, p plan.Page) (any, error) {
	c := v.shelf.Case(p.Of)
	out := caseView{PageView: v.view, caseHead: v.caseHead(c)}
	for _, f := range c.Facts {
		switch f.From.S {
		case teaching.Told:
			out.Told = append(out.Told, v.fact(f))
		case teaching.Chart:
			out.Chart = append(out.Chart, v.fact(f))
		}
	}
	for i, b := range c.Beats {
		out.Beats = append(out.Beats, v.beat(c, b, i))
	}
	for _, f := range c.Flips {
		out.Flips = append(out.Flips, flipView{Says: f.Says.S, Tree: v.insideLink(f.Tree.S)})
	}
	for _, w := range c.Walks {
		out.Trees = append(out.Trees, v.insideLink(w.Tree.S))
	}
	return out, nil
}

func caseCredits(s *shelf.Shelf, of string) []read.Credits {
	return []read.Credits{s.Case(of).Credits}
}

func (v viewer) fact(f *teaching.Fact) factView {
	out := factView{Ask: f.Request.S, Says: f.Says.S}
	if f.Dated.S != "" {
		out.Dated = &DateView{f.Dated.S, v.say().Date(f.Dated.S)}
	}
	return out
}

func (v viewer) insideLink(id string) LinkView {
	t := v.shelf.Tree(id)
	return LinkView{t.ID.S, t.Title.S, v.inside(t.ID.S)}
}

// beat is a beat as a learner sees it.
func (v viewer) beat(c *teaching.Case, b *teaching.Beat, at int) beatView {
	out := beatView{
		ID: b.ID.S, Number: v.say().Number(at + 1), Format: b.Format.S, Name: v.say().Say(formatNames[b.Format.S]), Minutes: b.Minutes,
		Says: b.Says.S, Lead: b.Lead.S, Picks: b.Picks, Requests: b.Requests,
	}
	for _, o := range b.Shown(c) {
		out.Options = append(out.Options, optionView{Text: optionText(c, b, o)})
	}
	return out
}

// optionText is what an option says: of a fact to ask for, the request.
func optionText(c *teaching.Case, b *teaching.Beat, o *teaching.Option) string {
	if b.Format.S == teaching.Ask {
		return c.Fact(o.ID.S).Request.S
	}
	return o.Text.S
}

func caseKeyModel(v viewer, p plan.Page) (any, error) {
	c := v.shelf.Case(p.Of)
	out := keyView{
		PageView: v.view, caseHead: v.caseHead(c), Before: c.Before.S, Measure: c.Later.Measure.S, Day: c.Later.Day, Change: c.Later.Change.S,
		Sources: v.bibliography(read.Strings(c.Credits.Sources), true),
	}
	for _, f := range c.Facts {
		if f.Hidden() {
			out.Hidden = append(out.Hidden, v.fact(f))
		}
	}
	out.Screen = v.screened(c)
	var err error
	for _, w := range c.Walks {
		view, err := v.walk(c, w)
		if err != nil {
			return nil, err
		}
		out.Walks = append(out.Walks, view)
	}
	for i, b := range c.Beats {
		view, err := v.keyed(c, b, i)
		if err != nil {
			return nil, err
		}
		out.Beats = append(out.Beats, view)
	}
	for _, t := range c.Argue {
		out.Argue = append(out.Argue, v.talk(t))
	}
	for _, f := range c.Flips {
		view := flipView{Says: f.Says.S, Tree: v.insideLink(f.Tree.S), Ending: v.endingTitle(f.Tree.S, f.Ending.S)}
		if q := v.shelf.Tree(f.Tree.S).Question(f.Parts.S); q != nil {
			view.Parts = q.Text.S
		}
		if view.Because, err = v.marked(c, f.Because); err != nil {
			return nil, err
		}
		out.Flips = append(out.Flips, view)
	}
	for _, e := range c.Errors {
		html, err := v.marked(c, e)
		if err != nil {
			return nil, err
		}
		out.Errors = append(out.Errors, html)
	}
	return out, nil
}

// marked is a text with its citations, numbered by the case's sources.
func (v viewer) marked(c *teaching.Case, t read.Text) (template.HTML, error) {
	if !t.Given() {
		return "", nil
	}
	html, _, err := v.told(t, c.Credits.Sources)
	return html, err
}

// screened is what the person answers on the safety screen, with the facts on which that rests.
func (v viewer) screened(c *teaching.Case) []restedView {
	if c.Screen == nil {
		return nil
	}
	s := v.shelf.Safety()
	says := map[string]string{safety.None: v.say().Say("safety.none"), safety.NotSure: v.say().Say("safety.not-sure")}
	for _, a := range s.Leg.Answers {
		says[a.ID.S] = a.Text.S
	}
	asks := map[string]string{}
	for _, g := range s.Groups {
		says[g.ID.S], asks[g.ID.S] = g.Title.S, g.Text.S
		for _, sign := range g.Signs {
			says[sign.ID.S] = sign.Title.S
		}
	}
	var out []restedView
	add := func(question string, a *teaching.Answer) {
		if a == nil {
			return
		}
		var answers []string
		for _, is := range a.Is {
			answers = append(answers, says[is.S])
		}
		out = append(out, restedView{stepView{Question: question, Answers: answers}, factsSay(c, a.Rests)})
	}
	add(s.Leg.Text.S, c.Screen.Leg)
	add(s.Gate.Text.S, c.Screen.Gate)
	for _, g := range c.Screen.Groups {
		add(asks[g.Question.S], g)
	}
	return out
}

func (v viewer) walk(c *teaching.Case, w *teaching.Walk) (walkView, error) {
	t := v.shelf.Tree(w.Tree.S)
	out := walkView{Tree: v.insideLink(w.Tree.S), Ending: v.endingTitle(w.Tree.S, w.Ending.S)}
	given, rests := tree.Answers{}, map[string][]string{}
	for _, a := range w.Answers {
		given[a.Question.S], rests[a.Question.S] = read.Strings(a.Is), factsSay(c, a.Rests)
	}
	path, err := t.Walk(given)
	if err != nil {
		return out, err
	}
	for _, s := range path.Steps {
		q := t.Question(s.Question)
		out.Steps = append(out.Steps, restedView{stepView{t.Numbers()[s.Question], q.Text.S, q.Says(v.say(), s.Chosen)}, rests[s.Question]})
	}
	return out, nil
}

// endingTitle is what the ending of a walk is called.
func (v viewer) endingTitle(id, ending string) string {
	if e := v.shelf.Tree(id).Ending(ending); e != nil {
		return e.Title.S
	}
	return v.say().Say("case.help")
}

// keyed is a beat with what each option is worth, and why.
func (v viewer) keyed(c *teaching.Case, b *teaching.Beat, at int) (beatView, error) {
	out := v.beat(c, b, at)
	out.Feature, out.Model, out.Checklist, out.Ordered = b.Feature.S, b.Model.S, read.Strings(b.Checklist), b.Format.S == teaching.Order
	shown := b.Shown(c)
	if out.Ordered {
		shown = b.InOrder()
	}
	out.Options = nil
	for _, o := range shown {
		html, err := v.marked(c, o.Because)
		if err != nil {
			return out, err
		}
		out.Options = append(out.Options, optionView{optionText(c, b, o), v.verdict(b, o), html})
	}
	var err error
	if out.Toward, err = v.marked(c, b.Toward); err != nil {
		return out, err
	}
	if out.Away, err = v.marked(c, b.Away); err != nil {
		return out, err
	}
	if b.Format.S == teaching.RolePlay {
		out.Role = &roleView{b.Opening.S, factsSay(c, b.Freely), factsSay(c, b.If), read.Strings(b.Never), b.Feels.S, b.Closes.S, read.Strings(b.TeachBack)}
	}
	return out, nil
}

func factsSay(c *teaching.Case, ids []read.Text) []string {
	var out []string
	for _, id := range ids {
		out = append(out, c.Fact(id.S).Says.S)
	}
	return out
}

// verdict says what an option is worth; of what is never scored, nothing.
func (v viewer) verdict(b *teaching.Beat, o *teaching.Option) string {
	switch {
	case b.Format.S == teaching.Ask:
		return ""
	case b.Format.S == teaching.Order:
		return v.say().Say(causeNames[o.Cause.S])
	case b.IsKey(o):
		return v.say().Say("case.right")
	case o.Worth.S == teaching.Harm:
		return v.say().Say("case.harm")
	case o.Worth.S == teaching.Idle:
		return v.say().Say("case.idle")
	}
	return v.say().Say("case.wrong")
}

// talk is a foot type that comes up, with both sides of it.
func (v viewer) talk(t tree.Talk) TalkView {
	ft := v.shelf.FootType(t.Type.S)
	return TalkView{ID: t.Type.S, Name: ft.Name.S, What: ft.What.S, For: t.For.S, Against: t.Against.S, URL: v.footType(t.Type.S)}
}

var taskNames = map[string]say.Name{
	"history": "case.task-history", "examination": "case.task-examination", "level-evidence": "case.task-level-evidence", "load": "case.task-load",
	"clearance": "case.task-clearance", "heel-height": "case.task-heel-height", "classes": "case.task-classes", "matching": "case.task-matching",
	"gait": "case.task-gait", "shell-and-care": "case.task-shell-and-care", "prescription": "case.task-prescription", "follow-up": "case.task-follow-up",
	"shared-decision": "case.task-shared-decision", "red-flags": "case.task-red-flags",
}

var limbNames = map[string]say.Name{
	"transtibial": "case.limb-transtibial", "transfemoral": "case.limb-transfemoral", "bilateral": "case.limb-bilateral", "ankle": "case.limb-ankle",
	"partial-foot": "case.limb-partial-foot",
}

var formatNames = map[string]say.Name{
	teaching.OneBest: "case.one-best", teaching.KeyFeature: "case.key-feature", teaching.Predict: "case.predict", teaching.Ask: "case.ask",
	teaching.Write: "case.write", teaching.Shift: "case.shift", teaching.Defend: "case.defend-two", teaching.RolePlay: "case.role-play", teaching.Order: "case.order",
}

var causeNames = map[string]say.Name{
	"shoe": "case.cause-shoe", "wear": "case.cause-wear", "hold": "case.cause-hold", "fit": "case.cause-fit", "length": "case.cause-length",
	"alignment": "case.cause-alignment", "knee": "case.cause-knee",
}
