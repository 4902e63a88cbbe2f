package publish

import (
	"html/template"

	"keelpath/builder/plan"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// casesView is the page of teaching cases.
type casesView struct {
	PageView
	Cases   []caseView
	Sources []SourceView
}

type caseView struct {
	ID, Title, Who string
	Ask, Change    []string
	Trees          []LinkView
	Argue          []TalkView
	Errors         []template.HTML
	Sources        []LinkView
}

func casesModel(v viewer, _ plan.Page) (any, error) {
	out := casesView{PageView: v.view}
	var cited []string
	for _, c := range v.shelf.Cases() {
		view := caseView{ID: c.ID.S, Title: c.Title.S, Who: c.Who.S, Ask: read.Strings(c.Ask), Change: read.Strings(c.Change), Sources: v.sourceLinks(c.Sources)}
		for _, id := range c.Trees {
			t := v.shelf.Tree(id.S)
			view.Trees = append(view.Trees, LinkView{t.ID.S, t.Title.S, v.inside(t.ID.S)})
		}
		for _, talk := range c.Argue {
			view.Argue = append(view.Argue, v.talk(talk))
		}
		for _, e := range c.Errors {
			html, _, err := v.text(e)
			if err != nil {
				return nil, err
			}
			view.Errors = append(view.Errors, html)
		}
		cited = union(cited, read.Strings(c.Sources))
		out.Cases = append(out.Cases, view)
	}
	out.Sources = v.bibliography(cited, false)
	return out, nil
}

// talk is a foot type that comes up, with both sides of it.
func (v viewer) talk(t tree.Talk) TalkView {
	ft := v.shelf.FootType(t.Type.S)
	return TalkView{ID: t.Type.S, Name: ft.Name.S, What: ft.What.S, For: t.For.S, Against: t.Against.S, URL: v.footType(t.Type.S)}
}
