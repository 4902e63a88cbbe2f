package publish

import (
	"cmp"
	"slices"

	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/read"
)

// sourcesView is the bibliography in the order of the titles.
type sourcesView struct {
	PageView
	Sources []SourceView
	Seen    map[string]int // how many sources were read so far and no further: page, abstract, opening or summary
	Opening []LinkView     // sources of the questions that open every sheet
	Search  *searchView    // nil where nothing is told of one
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

func sourcesModel(v viewer, _ plan.Page) (any, error) {
	sorted := slices.Clone(v.shelf.Sources())
	order := v.say().Order()
	slices.SortStableFunc(sorted, func(a, b *library.Source) int {
		return cmp.Or(order(a.Title.S, b.Title.S), cmp.Compare(a.ID.S, b.ID.S))
	})
	out := sourcesView{PageView: v.view, Seen: map[string]int{}, Opening: v.opening()}
	if s := v.shelf.Search(); s != nil {
		out.Search = &searchView{dateView(v.say(), s.On.S), read.Strings(s.Asked), s.Searches, s.Results, s.LookedAt, tallied(s.TakenIn), tallied(s.LeftOut)}
	}
	for _, s := range sorted {
		out.Seen[s.Seen.S]++
		out.Sources = append(out.Sources, v.sourceView(s))
	}
	return out, nil
}
