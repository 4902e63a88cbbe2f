package library_test

import (
	"testing"

	"keelpath/builder/explainer"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/prose"
)

// A page is short enough to be read in one sitting: its running text has 300 to 900
// words. What is looked up and not read through does not count: headings, the cells of
// tables and the words of pictures.
func TestPagesAreShort(t *testing.T) {
	l := librarytest.Load(t)
	for _, p := range l.Explainers {
		var text []string
		for _, b := range p.Body.Again().Blocks {
			if b.Kind != explainer.Title && b.Kind != explainer.Cell && b.Kind != explainer.Picture {
				text = append(text, b.Text)
			}
		}
		if n := prose.Of(text).Words; n < 300 || n > 900 {
			t.Errorf("%s has %d words", p.ID, n)
		}
	}
}
