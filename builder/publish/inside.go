package publish

import (
	"fmt"
	"html/template"

	"keelpath/builder/listing"
	"keelpath/builder/plan"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// insideView takes one tree apart. A tree that patients do not take has no other
// page, so that it is walked by hand here.
type insideView struct {
	PageView
	Counts   countsView
	Paper    string // address of the tree's paper page; empty for a tree that patients do not take
	Tree     TreeView
	Map      mapView
	Sources  []SourceView
	Examples []exampleView
	File     string
	Listing  template.HTML
}

// exampleView is a worked example with the path that its answers take.
type exampleView struct {
	Who    string
	Steps  []stepView
	Ending LinkView
	Cards  []string
}

type stepView struct {
	Number   int
	Question string
	Answers  []string
}

func insideModel(v viewer, p plan.Page) (any, error) {
	t := v.shelf.Tree(p.Of)
	out := insideView{PageView: v.view, Counts: v.counts(t), Sources: v.bibliography(read.Strings(t.Credits.Sources), true)}
	if t.Audience.S == audiencePatient {
		out.Paper = v.paper(t.ID.S)
	}
	file, text := v.shelf.File(t)
	out.File = file
	var err error
	if out.Tree, err = v.tree(t); err != nil {
		return nil, err
	}
	if out.Map, err = v.treeMap(t); err != nil {
		return nil, err
	}
	for _, e := range t.Examples {
		ev, err := exampleOf(v, t, e)
		if err != nil {
			return nil, err
		}
		out.Examples = append(out.Examples, ev)
	}
	out.Listing, err = listing.Numbered(string(text), placesIn(t))
	return out, err
}

// exampleOf walks an example's answers through the tree.
func exampleOf(v viewer, t *tree.Tree, e *tree.Example) (exampleView, error) {
	given := tree.Answers{}
	for _, g := range e.Answers {
		given[g.Question.S] = read.Strings(g.Chosen)
	}
	path, err := t.Walk(given)
	if err != nil {
		return exampleView{}, fmt.Errorf("the example %q: %w", e.Who.S, err)
	}
	out := exampleView{Who: e.Who.S}
	for _, s := range path.Steps {
		q := t.Question(s.Question)
		out.Steps = append(out.Steps, stepView{t.Numbers()[s.Question], q.Text.S, q.Says(v.say(), s.Chosen)})
	}
	if end := t.Ending(path.Ending); end != nil {
		out.Ending = LinkView{ID: end.ID.S, Title: end.Title.S}
	}
	for _, id := range path.Cards {
		out.Cards = append(out.Cards, v.shelf.Card(id).Title.S)
	}
	return out, nil
}
