package library_test

import (
	"slices"
	"testing"

	"keelpath/builder/internal/librarytest"
	"keelpath/builder/library"
)

// Every built-in source has a kind, and the kinds that marks hang on are right
// for sources whose titles say what they are.
func TestSourceKinds(t *testing.T) {
	l := librarytest.Load(t)
	for _, s := range l.Sources {
		if !slices.Contains(library.SourceKinds, s.Kind.S) {
			t.Errorf("%s: %q", s.ID.S, s.Kind.S)
		}
	}
	for id, want := range map[string]string{
		"cochrane-foot-ankle-2004": "review", "push-off-review-2019": "review", "foot-choice-guideline-2018": "guideline",
		"spring-feet-step-symmetry-2018": "study", "three-women-footwear-cases": "study", "us-ramp-slope-rule-2010": "rule",
		"iso-10328-scope-2016": "standard", "understanding-feet-chapter": "textbook", "nhs-limb-wearer-leaflet": "advice",
		"powered-ankle-article-2014": "trade", "heel-foot-news-2016": "report", "army-body-measures-2014": "data",
	} {
		if s := l.Source(id); s == nil || s.Kind.S != want {
			t.Errorf("%s: %+v, want a %s", id, s, want)
		}
	}
}

// A source is named by its year, where it has one, and its kind.
func TestSourceName(t *testing.T) {
	l := librarytest.Load(t)
	for id, want := range map[string]string{
		"spring-feet-step-symmetry-2018": "2018 study", "hospital-leg-care-handout": "advice", "powered-ankle-article-2014": "2014 trade report", "none-such": "",
	} {
		if got := l.SourceName(id); got != want {
			t.Errorf("%s is named %q, want %q", id, got, want)
		}
	}
	for _, s := range l.Sources {
		if l.SourceName(s.ID.S) == "" {
			t.Errorf("%s is of the kind %q, and has no name", s.ID.S, s.Kind.S)
		}
	}
}
