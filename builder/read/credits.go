package read

import (
	"time"

	"gopkg.in/yaml.v3"
)

// Credits is the part of a header that trees and explainers share: who wrote
// it, who reviewed it, when, on what, and who paid.
type Credits struct {
	Authors   []Text
	Reviewers []Text // empty: no clinician has reviewed it yet, and the page says so
	Reviewed  Text   // date of the last check against the sources
	ReviewBy  Text   // date by which the next one is due
	Sources   []Text // ids
	Funding   Text
}

// Credits reads the shared part of a header.
func (m *Map) Credits() Credits {
	c := Credits{
		Authors:   m.NeedTexts("authors"),
		Reviewers: m.NeedTexts("reviewers"),
		Reviewed:  m.Date("reviewed"),
		ReviewBy:  m.Date("review-by"),
		Sources:   m.IDs("sources"),
		Funding:   m.NeedWords("funding"),
	}
	if v := m.ask("authors"); v != nil && v.Kind == yaml.SequenceNode && len(v.Content) == 0 {
		m.r.list.Add(m.Key("authors"), "missing-key", `"authors" names nobody`, "name at least who wrote it")
	}
	m.dueInTime(c)
	return c
}

// dueInTime holds the next review within three years of the last one, the
// interval of the PIF TICK guide (facts: standards, 7.3).
func (m *Map) dueInTime(c Credits) {
	from, err1 := time.Parse(time.DateOnly, c.Reviewed.S)
	by, err2 := time.Parse(time.DateOnly, c.ReviewBy.S)
	if err1 != nil || err2 != nil {
		return
	}
	switch {
	case !by.After(from):
		m.r.list.Add(c.ReviewBy.At, "review-dates", `"review-by" is `+quote(c.ReviewBy.S)+`, which is not after "reviewed"`,
			`"reviewed" is `+c.Reviewed.S+" at "+c.Reviewed.At.String())
	case by.After(from.AddDate(3, 0, 0)):
		m.r.list.Add(c.ReviewBy.At, "review-dates", `"review-by" is more than three years after "reviewed"`,
			`"reviewed" is `+c.Reviewed.S+" at "+c.Reviewed.At.String(), "health pages are reviewed at least every three years")
	}
}
