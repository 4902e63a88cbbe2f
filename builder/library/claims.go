package library

import (
	"fmt"
	"slices"

	"keelpath/builder/explainer"
	"keelpath/builder/read"
)

// SourceKinds are the kinds of sources: one study (of people or of parts), a
// review of several, a clinical guideline, a law or a payer's rule, a technical
// standard or published criteria, a textbook or course, advice that a health
// service or a clinician gives, what the trade publishes, a report in the press
// or at first hand, and measurements or tables.
var SourceKinds = []string{"study", "review", "guideline", "rule", "standard", "textbook", "advice", "trade", "report", "data"}

// claims holds an explainer to the marks of certainty: a paragraph or an entry
// of a list that rests on a study or a review says how sure it is. A heading has
// no room for it and a cell of a table no sentence; the text beside a table says
// it for the table.
func (c *checker) claims(p *explainer.Page) {
	for _, b := range p.Body.Blocks {
		if b.Kind != explainer.Paragraph && b.Kind != explainer.Item {
			continue
		}
		var studied, cited, mark *explainer.Ref
		for i, r := range b.Refs {
			switch {
			case r.Kind == "support" && (mark == nil || mark.ID == "trade"):
				mark = &b.Refs[i]
			case r.Kind == "source":
				cited = &b.Refs[i]
				if c.Source(r.ID).isStudy() && studied == nil {
					studied = cited
				}
			}
		}
		if studied != nil && mark == nil {
			c.list.Add(studied.At, "how-sure", fmt.Sprintf("the claim rests on %q, which is a %s, and does not say how sure it is", studied.ID, c.Source(studied.ID).Kind.S),
				`put a mark behind it: "[](support:little)" for one small study, "some" for a few studies or a review, "well" for reviews that agree or a guideline, "trade" for what clinics do`)
		}
		if mark != nil && mark.ID == "well" && cited != nil && !c.readThrough(b.Refs) {
			c.list.Add(mark.At, "how-sure", `the mark "well" rests on sources that were read no further than the opening, or only as others tell them`,
				`mark it "some" until one of them has been read further, and its "seen" says so`)
		}
		if mark != nil && (mark.ID == "well" || mark.ID == "some") && cited == nil {
			c.list.Add(mark.At, "how-sure", fmt.Sprintf("the mark %q says that a claim has been studied, and the text cites no source", mark.ID),
				`cite the source: "[](source:its-id)"`, `or mark it "little", if nobody has studied it, or "trade", if clinics do it and nobody has`)
		}
	}
}

// cellClaim holds a mark of the table to the same: one that cites a study or a
// review says how sure it is, and one that says it was studied cites something.
func (c *checker) cellClaim(who string, cell *Cell) {
	studied, cited := c.studyAmong(cell.Sources), slices.ContainsFunc(cell.Sources, func(s read.Text) bool { return s.S != CommonPractice })
	switch {
	case studied != nil && !cell.Support.Given():
		c.list.Add(cell.At.At, "how-sure", fmt.Sprintf("%s cites %q, which is a %s, and does not say how sure the mark is", who, studied.ID.S, studied.Kind.S),
			`add "support: little" for one small study, "some" for a few studies or a review, "well" for reviews that agree or a guideline`)
	case studied != nil && cell.Support.S == "trade":
		c.list.Add(cell.Support.At, "how-sure", fmt.Sprintf("%s is marked \"trade\", which says that nobody has tested it, and cites %q, which is a %s", who, studied.ID.S, studied.Kind.S),
			`mark it "little", if that is one small study or no study of this`, "or take the source out, if it says nothing of this")
	case !cited && (cell.Support.S == "some" || cell.Support.S == "well"):
		c.list.Add(cell.Support.At, "how-sure", fmt.Sprintf("%s is marked %q, which says that it has been studied, and cites no source", who, cell.Support.S),
			"name the study under sources:", `or mark it "little", if nobody has studied it, or leave the mark out, if clinics say so`)
	}
}

// studyAmong gives the first study or review among the sources, or nil.
func (c *checker) studyAmong(ids []read.Text) *Source {
	for _, id := range ids {
		if s := c.Source(id.S); s.isStudy() {
			return s
		}
	}
	return nil
}

// isStudy tells whether what a text takes from the source has to say how sure it is.
func (s *Source) isStudy() bool { return s != nil && (s.Kind.S == "study" || s.Kind.S == "review") }

// readThrough tells whether one of the sources cited was read further than its
// opening: as a whole, or as the authors' own abstract.
func (c *checker) readThrough(refs []explainer.Ref) bool {
	for _, r := range refs {
		if s := c.Source(r.ID); r.Kind == "source" && s != nil && (s.Seen.S == "page" || s.Seen.S == "abstract") {
			return true
		}
	}
	return false
}
