package publish

import (
	"keelpath/builder/explainer"
	"keelpath/builder/plan"
)

// clinicView is the page for those who host the site.
type clinicView struct {
	PageView
	Trees, Explainers, FootTypes, Prompts, Words, Sources, Examples int
	Paths                                                           []countsView
	Supports                                                        []explainer.Support
	People                                                          []TrainingView
}

func clinicModel(v viewer, _ plan.Page) (any, error) {
	s := v.shelf
	count := s.Count()
	out := clinicView{
		PageView: v.view, Trees: len(s.Trees()), Explainers: count.Explainers, FootTypes: len(s.Marked()),
		Prompts: count.Prompts, Words: count.Words, Sources: count.Sources, Supports: explainer.Supports,
		People: v.people(),
	}
	for _, t := range s.Trees() {
		out.Examples += len(t.Examples)
		out.Paths = append(out.Paths, v.counts(t))
	}
	return out, nil
}
