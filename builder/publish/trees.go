package publish

import (
	"slices"

	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/prose"
	"keelpath/builder/read"
	"keelpath/builder/shelf"
	"keelpath/builder/tree"
)

func paperModel(v viewer, p plan.Page) (any, error) {
	t := v.shelf.Tree(p.Of)
	tv, err := v.tree(t)
	if err != nil {
		return nil, err
	}
	screen, err := v.safety()
	return TreePageView{PageView: v.view, Tree: tv, Safety: screen, Sources: v.bibliography(read.Strings(t.Credits.Sources), true)}, err
}

func treeCredits(s *shelf.Shelf, of string) []read.Credits {
	return []read.Credits{s.Tree(of).Credits}
}

func treeText(s *shelf.Shelf, of string) prose.Counts { return s.TreeCounts(of) }

// tree gives a whole tree as paper and planner show it.
func (v viewer) tree(t *tree.Tree) (TreeView, error) {
	out := TreeView{
		ID: t.ID.S, Title: t.Title.S, Purpose: t.Purpose.S, URL: v.addresses.paper(t.ID.S), Take: v.addresses.take(t.ID.S),
		Longest: v.shelf.Proof(t.ID.S).Longest, Start: t.Numbers()[t.Start.S], Credits: creditsView(v.say(), t.Credits),
	}
	for _, q := range t.Questions {
		out.Questions = append(out.Questions, v.question(t, q))
	}
	for _, e := range t.Endings {
		ev, err := v.ending(t, e)
		if err != nil {
			return out, err
		}
		out.Endings = append(out.Endings, ev)
	}
	for _, id := range t.Cards() {
		cv, err := v.card(v.shelf.Card(id))
		if err != nil {
			return out, err
		}
		out.Cards = append(out.Cards, cv)
	}
	out.drawOnce()
	return out, nil
}

// drawOnce leaves each drawing where the page first shows it; what shows it again leads there.
func (v *TreeView) drawOnce() {
	first := map[string]*ShowsView{}
	once := func(s *ShowsView) {
		switch {
		case s == nil || s.SVG == "":
		case first[s.ID] == nil:
			first[s.ID] = s
			s.At = "drawn-" + s.ID
		default:
			s.SVG, s.URL = "", "#drawn-"+s.ID
		}
	}
	for i := range v.Endings {
		once(v.Endings[i].Shows)
	}
	for i := range v.Cards {
		once(v.Cards[i].Shows)
	}
}

func (v viewer) question(t *tree.Tree, q *tree.Question) QuestionView {
	out := QuestionView{
		Tree: t.ID.S, ID: q.ID.S, Number: t.Numbers()[q.ID.S], Text: q.Text.S, Why: q.Why.S, Hint: q.Hint.S,
		Any: q.Pick == tree.PickAny, Way: wayView(t, q.Go), Skip: wayView(t, q.Skip),
	}
	texts := []string{q.Text.S, q.Hint.S}
	for _, a := range q.Answers {
		texts = append(texts, a.Text.S)
		view := AnswerView{ID: a.ID.S, Text: a.Text.S, Alone: a.Alone, Way: wayView(t, a.Go)}
		view.Cards = v.notes(t, read.Strings(a.Cards))
		out.Answers = append(out.Answers, view)
	}
	out.Measure, out.Routes = v.measure(t, q), v.routes(t, q)
	if out.Measure != nil {
		for _, l := range out.Measure.Likes {
			texts = append(texts, l.Text)
		}
	}
	out.Words = v.wordsIn(texts...)
	return out
}

// notes gives links to cards on the page on which the tree is walked by hand.
func (v viewer) notes(t *tree.Tree, cards []string) []LinkView {
	var out []LinkView
	for _, id := range cards {
		out = append(out, LinkView{ID: id, Title: v.shelf.Card(id).Title.S, URL: v.on(v.byHand(t.ID.S), "note-"+id)})
	}
	return out
}

// wayView is nil where no way is given.
func wayView(t *tree.Tree, to read.Text) *WayView {
	if !to.Given() {
		return nil
	}
	return wayTo(t, to.S)
}

func wayTo(t *tree.Tree, to string) *WayView {
	w := &WayView{Tree: t.ID.S, Number: t.Numbers()[to], ID: to}
	if e := t.Ending(to); e != nil {
		w.Ending, w.Title = true, e.Title.S
	}
	return w
}

func (v viewer) ending(t *tree.Tree, e *tree.Ending) (EndingView, error) {
	out := EndingView{Tree: t.ID.S, ID: e.ID.S, Number: t.Numbers()[e.ID.S], Title: e.Title.S, Safety: e.Safety, Sign: e.Sign.Given(), Prompts: v.prompts(e.Prompts), Shows: v.shows(e.Drawing.S)}
	var words []WordView
	var err error
	var listed []read.Text // the planner has no room for them
	if !v.kind.screens {
		listed = t.Credits.Sources
	}
	if out.Text, out.Words, err = v.told(e.Text, listed); err != nil {
		return out, err
	}
	if out.Caution, words, err = v.told(e.Caution, listed); err != nil {
		return out, err
	}
	out.Text, out.Caution = withGaps(v.say(), t, e.Text.S, out.Text), withGaps(v.say(), t, e.Caution.S, out.Caution)
	for _, w := range words {
		if !slices.Contains(out.Words, w) {
			out.Words = append(out.Words, w)
		}
	}
	for _, id := range e.Themes {
		out.Themes = append(out.Themes, LinkView{ID: id.S, Title: v.shelf.ThemeTitle(id.S), URL: v.theme(id.S)})
	}
	for _, talk := range e.Types {
		out.Types = append(out.Types, v.talk(talk))
	}
	for _, id := range e.Next {
		out.Next = append(out.Next, v.treeLink(v.shelf.Tree(id.S)))
	}
	return out, nil
}

func (v viewer) treeLink(t *tree.Tree) LinkView {
	return LinkView{ID: t.ID.S, Title: t.Title.S, URL: v.addresses.tree(t.ID.S)}
}

func (v viewer) card(c *library.Card) (CardView, error) {
	html, _, err := v.text(c.Text)
	return CardView{ID: c.ID.S, Title: c.Title.S, Text: html, Prompts: v.prompts(c.Prompts), Shows: v.shows(c.Drawing.S)}, err
}

// shows is the drawing that an ending or a card names.
func (v viewer) shows(id string) *ShowsView {
	d, ok := v.shelf.Drawing(id)
	if !ok {
		return nil
	}
	out := &ShowsView{ID: id, Title: d.Title}
	if !v.kind.screens {
		out.SVG = d.SVG(id)
	}
	return out
}
