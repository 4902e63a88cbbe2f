package publish

import (
	"slices"

	"keelpath/builder/plan"
	"keelpath/builder/tree"
)

// teachView lists the trees for those who teach with them. Reading is nil where
// the learn page has no part for residents alone.
type teachView struct {
	PageView
	Resident, Patient []countsView
	Reading           *LinkView
	Cases             []LinkView
}

// countsView is a tree with what was proved of it.
type countsView struct {
	LinkView
	Purpose            string
	Questions, Endings int
	Longest            int
	Paths              string
}

func teachModel(v viewer, _ plan.Page) (any, error) {
	out := teachView{PageView: v.view}
	for _, t := range v.shelf.Trees() {
		if t.Audience.S == audiencePatient {
			out.Patient = append(out.Patient, v.counts(t))
		} else {
			out.Resident = append(out.Resident, v.counts(t))
		}
	}
	order := v.say().Order()
	slices.SortStableFunc(out.Resident, func(a, b countsView) int { return order(a.Title, b.Title) })
	for _, c := range v.shelf.Cases() {
		out.Cases = append(out.Cases, LinkView{c.ID.S, c.Title.S, v.page(v.of(plan.Case, c.ID.S))})
	}
	for i, part := range v.shelf.Parts() {
		if forResidents(part) {
			out.Reading = &LinkView{Title: part.Title, URL: v.at(plan.Learn, partID(i))}
			break
		}
	}
	return out, nil
}

func (v viewer) counts(t *tree.Tree) countsView {
	proof := v.shelf.Proof(t.ID.S)
	return countsView{
		LinkView: LinkView{t.ID.S, t.Title.S, v.inside(t.ID.S)}, Purpose: t.Purpose.S,
		Questions: len(t.Questions), Endings: len(t.Endings), Longest: proof.Longest, Paths: v.say().Decimal(proof.Paths.String()),
	}
}
