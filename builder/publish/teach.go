package publish

import (
	"fmt"
	"html/template"
	"strings"

	"keelpath/builder/listing"
	"keelpath/builder/read"
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

func (m *maker) teachPage() page {
	return page{
		name: teachName, title: "Teach", room: "teach", template: "teach", credits: m.siteCredits(),
		description: "Every tree from the inside: its questions, its paths, its worked examples and its file.",
		model: func(v viewer, p PageView) (any, error) {
			out := teachView{PageView: p}
			for _, t := range m.lib.Trees {
				if t.Audience.S == audiencePatient {
					out.Patient = append(out.Patient, v.counts(t))
				} else {
					out.Resident = append(out.Resident, v.counts(t))
				}
			}
			for _, c := range m.lib.Cases {
				out.Cases = append(out.Cases, LinkView{c.ID.S, c.Title.S, v.at(casesName, "case-"+c.ID.S)})
			}
			for i, part := range m.lib.Parts {
				if forResidents(part) {
					out.Reading = &LinkView{Title: part.Title.S, URL: v.at(learnName, partID(i))}
					break
				}
			}
			return out, nil
		},
	}
}

func (v viewer) counts(t *tree.Tree) countsView {
	proof := v.lib.Proofs[t.ID.S]
	return countsView{
		LinkView: LinkView{t.ID.S, t.Title.S, v.listing(t.ID.S)}, Purpose: t.Purpose.S,
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

// listingView takes one tree apart. A tree that patients do not take has no other
// page, so that it is walked by hand here.
type listingView struct {
	PageView
	Counts   countsView
	Paper    string // address of the tree's paper page; empty for a tree that patients do not take
	Tree     TreeView
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

func (m *maker) listingPage(t *tree.Tree) page {
	return page{
		name: listingName(t.ID.S), title: "Inside the tree: " + t.Title.S, description: t.Purpose.S, room: "teach",
		credits: creditsView(t.Credits), template: "listing", styles: []string{m.planner.name}, text: func() []string { return m.lib.TreeText(t) },
		model: func(v viewer, p PageView) (any, error) {
			out := listingView{PageView: p, Counts: v.counts(t), File: m.lib.Inside(t.File), Sources: v.bibliography(read.Strings(t.Credits.Sources), true)}
			if t.Audience.S == audiencePatient {
				out.Paper = v.addresses.paper(t.ID.S)
			}
			var err error
			if out.Tree, err = v.tree(t); err != nil {
				return nil, err
			}
			for _, e := range t.Examples {
				ev, err := exampleOf(v, t, e)
				if err != nil {
					return nil, err
				}
				out.Examples = append(out.Examples, ev)
			}
			out.Listing, err = listing.YAML(string(m.lib.File(t.File)))
			return out, err
		},
	}
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
		out.Steps = append(out.Steps, stepView{t.Numbers()[s.Question], q.Text.S, q.Says(s.Chosen)})
	}
	if end := t.Ending(path.Ending); end != nil {
		out.Ending = LinkView{ID: end.ID.S, Title: end.Title.S}
	}
	for _, id := range path.Cards {
		out.Cards = append(out.Cards, v.lib.Card(id).Title.S)
	}
	return out, nil
}
