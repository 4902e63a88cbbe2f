package library

import (
	"fmt"
	"time"

	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// NextReview is the first day by which some tree or page is to be reviewed, after which Overdue
// has something to say; empty where there is none.
func (l *Library) NextReview() string {
	next := ""
	for _, c := range l.everyCredits() {
		if by := c.ReviewBy; by.Given() && (next == "" || by.S < next) {
			next = by.S
		}
	}
	return next
}

func (l *Library) everyCredits() []read.Credits {
	var out []read.Credits
	for _, t := range l.Trees {
		out = append(out, t.Credits)
	}
	for _, p := range l.Explainers {
		out = append(out, p.Credits)
	}
	for _, k := range l.Cases {
		out = append(out, k.Credits)
	}
	if s := l.Safety; s != nil {
		out = append(out, s.Credits)
	}
	return out
}

// PastReview names the findings of Overdue.
const PastReview = "past-review"

// Overdue warns of each tree, explainer and case, and of the safety screen, whose next review was due before
// today. The date stands on the page for the reader as well; this is for those
// who can do something about it.
//
// Load does not call it: what Load gives, and with it every page, depends on
// the input alone. "check" makes errors of these warnings, for it is asked
// whether the content is sound. "compile" leaves them as they are: a clinic
// with an old copy must still be able to publish a new phone number or a mended
// caution, and a page that says how old it is is safer than none.
func (l *Library) Overdue(today time.Time, list *finding.List) {
	day := today.Format(time.DateOnly)
	due := func(what string, c read.Credits) {
		if by := c.ReviewBy; by.Given() && by.S < day {
			list.Warn(by.At, PastReview, fmt.Sprintf("%s was to be reviewed by %s, and today is %s", what, by.S, day),
				"read it against its sources, mend what has changed, and set reviewed and review-by anew",
				"do not move the dates without reading: readers rely on them")
		}
	}
	for _, t := range l.Trees {
		due(fmt.Sprintf("the tree %q", t.ID.S), t.Credits)
	}
	for _, p := range l.Explainers {
		due(fmt.Sprintf("the explainer %q", p.ID), p.Credits)
	}
	for _, k := range l.Cases {
		due(fmt.Sprintf("the case %q", k.ID.S), k.Credits)
	}
	if s := l.Safety; s != nil {
		due("the safety screen", s.Credits)
	}
}
