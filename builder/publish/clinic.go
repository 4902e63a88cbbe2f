package publish

import (
	"cmp"
	"slices"
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/library"
	"keelpath/builder/read"
)

// clinicView is the page for those who host the site.
type clinicView struct {
	PageView
	Trees, Explainers, FootTypes, Prompts, Words, Sources, Examples int
	Paths                                                           []countsView
	Supports                                                        []explainer.Support
	People                                                          []TrainingView
}

func (m *maker) clinicPage() page {
	return page{
		name: clinicName, title: "For clinics", room: "clinic", template: "clinic", credits: m.siteCredits(),
		description: "How to host this site, what was checked, what it does with answers, who is behind it and what it cannot do.",
		model: func(v viewer, p PageView) (any, error) {
			l := m.lib
			out := clinicView{
				PageView: p, Trees: len(l.Trees), Explainers: len(l.Explainers), FootTypes: len(l.Marked()),
				Prompts: len(l.Prompts()), Words: len(l.Words), Sources: len(l.Sources), Supports: explainer.Supports,
				People: m.people(),
			}
			for _, t := range l.Trees {
				out.Examples += len(t.Examples)
				out.Paths = append(out.Paths, v.counts(t))
			}
			return out, nil
		},
	}
}

// sourcesView is the bibliography in the order of the titles.
type sourcesView struct {
	PageView
	Sources []SourceView
	Counts  []seenView
	Opening []LinkView  // sources of the questions that open every sheet
	Search  *searchView // nil where nothing is told of one
}

// searchView is how the planned search for sources went.
type searchView struct {
	On                          DateView
	Asked                       []string
	Searches, Results, LookedAt int
	TakenIn, LeftOut            tallyView
}

// tallyView is a list of counts with their sum.
type tallyView struct {
	All   int
	Lines []library.Tally
}

func tallied(ts []library.Tally) tallyView {
	v := tallyView{Lines: ts}
	for _, t := range ts {
		v.All += t.Count
	}
	return v
}

// seenView counts the sources that were read so far and no further.
type seenView struct {
	How   string // page, abstract, opening or summary
	Count int
}

func (m *maker) sourcesPage() page {
	return page{
		name: sourcesName, title: "Sources", room: "clinic", template: "sources", credits: m.siteCredits(),
		description: "How we looked for the facts, every source that these pages rest on, and how much of each one we read.",
		model: func(v viewer, p PageView) (any, error) {
			sorted := slices.Clone(m.lib.Sources)
			slices.SortStableFunc(sorted, func(a, b *library.Source) int {
				return cmp.Or(cmp.Compare(strings.ToLower(a.Title.S), strings.ToLower(b.Title.S)), cmp.Compare(a.ID.S, b.ID.S))
			})
			out := sourcesView{PageView: p, Counts: seenCounts(sorted), Opening: v.opening()}
			if s := m.lib.Search; s != nil {
				out.Search = &searchView{dateView(s.On.S), read.Strings(s.Asked), s.Searches, s.Results, s.LookedAt, tallied(s.TakenIn), tallied(s.LeftOut)}
			}
			for _, s := range sorted {
				out.Sources = append(out.Sources, v.sourceView(s))
			}
			return out, nil
		},
	}
}

func seenCounts(all []*library.Source) []seenView {
	var out []seenView
	for _, how := range []string{"page", "abstract", "opening", "summary"} {
		v := seenView{How: how}
		for _, s := range all {
			if s.Seen.S == how {
				v.Count++
			}
		}
		if v.Count > 0 {
			out = append(out, v)
		}
	}
	return out
}
