package publish

import (
	"strings"

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
	for _, c := range v.shelf.Cases() {
		out.Cases = append(out.Cases, LinkView{c.ID.S, c.Title.S, v.at(plan.Cases, "case-"+c.ID.S)})
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
		Questions: len(t.Questions), Endings: len(t.Endings), Longest: proof.Longest, Paths: grouped(proof.Paths.String()),
	}
}

// grouped sets commas between the thousands of a whole number of any size.
func grouped(digits string) string {
	var b strings.Builder
	for i, d := range digits {
		if i > 0 && (len(digits)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteRune(d)
	}
	return b.String()
}
