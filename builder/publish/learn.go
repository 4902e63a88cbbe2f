package publish

import (
	"fmt"
	"html/template"
	"slices"

	"keelpath/builder/plan"
	"keelpath/builder/shelf"
)

// learnView lists the explainers by part.
type learnView struct {
	PageView
	Parts []partView
}

type partView struct {
	ID, Title, About string
	Pages            []pageLinkView
}

// partID names a part's heading on the learn page.
func partID(i int) string { return fmt.Sprintf("part-%d", i+1) }

// forResidents tells whether a part has pages and none of them is for patients.
func forResidents(p shelf.Part) bool {
	return len(p.Explainers) > 0 && !slices.ContainsFunc(p.Explainers, func(e shelf.Entry) bool { return e.Audience == audiencePatient })
}

// pageLinkView is a link to a page with one sentence on what it says.
type pageLinkView struct {
	LinkView
	Message  string
	Resident bool
	Picture  template.HTML // small, beside its name; empty where nothing stands for it
}

func learnModel(v viewer, _ plan.Page) (any, error) {
	out := learnView{PageView: v.view}
	for i, part := range v.shelf.Parts() {
		view := partView{ID: partID(i), Title: part.Title, About: part.About}
		for _, e := range part.Explainers {
			view.Pages = append(view.Pages, pageLinkView{
				LinkView{e.ID, e.Title, v.explainer(e.ID)}, e.Message, e.Audience != audiencePatient, smallPicture(v.shelf.Picture(e.ID)),
			})
		}
		out.Parts = append(out.Parts, view)
	}
	return out, nil
}
