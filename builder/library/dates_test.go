package library_test

import (
	"strings"
	"testing"
	"time"

	"keelpath/builder/finding"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/library"
)

// corpusDay is the day on which the broken inputs are checked.
var corpusDay = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

// The day a review is due is still in time; the day after is not. The safety
// screen is due like a tree or an explainer.
func TestOverdue(t *testing.T) {
	l := librarytest.Load(t)
	last := ""
	for _, p := range l.Explainers {
		last = max(last, p.Credits.ReviewBy.S)
	}
	due, err := time.Parse(time.DateOnly, last)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name  string
		today time.Time
		want  int
	}{
		{"long before", corpusDay, 0},
		{"on the very day, late", due.Add(23*time.Hour + 59*time.Minute), -1},
		{"the day after", due.AddDate(0, 0, 1), len(l.Trees) + len(l.Explainers) + len(l.Cases) + 1},
	} {
		var list finding.List
		l.Overdue(c.today, &list)
		got := list.Sorted()
		if c.want >= 0 && len(got) != c.want {
			t.Errorf("%s: %d findings, want %d", c.name, len(got), c.want)
		}
		for _, f := range got {
			if f.Weight != finding.Warning || f.Check != library.PastReview || f.Line == 0 {
				t.Errorf("%s: %+v", c.name, f)
			}
			if c.want < 0 && strings.Contains(f.Text, "reviewed by "+last) {
				t.Errorf("%s: %s", c.name, f.Text)
			}
		}
	}
}

// Every built-in page for patients rests on something.
func TestPatientPagesHaveSources(t *testing.T) {
	l := librarytest.Load(t)
	for _, tr := range l.Trees {
		if len(tr.Credits.Sources) == 0 {
			t.Errorf("the tree %q names no source", tr.ID.S)
		}
	}
	for _, p := range l.Explainers {
		if len(p.Credits.Sources) == 0 {
			t.Errorf("the explainer %q names no source", p.ID)
		}
	}
}
