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
	l := v.lib
	out := clinicView{
		PageView: v.view, Trees: len(l.Trees), Explainers: len(l.Explainers), FootTypes: len(l.Marked()),
		Prompts: len(l.Prompts()), Words: len(l.Words), Sources: len(l.Sources), Supports: explainer.Supports,
		People: v.people(),
	}
	for _, t := range l.Trees {
		out.Examples += len(t.Examples)
		out.Paths = append(out.Paths, v.counts(t))
	}
	return out, nil
}
