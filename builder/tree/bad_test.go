package tree_test

import (
	"path"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/internal/corpus"
	"keelpath/builder/tree"
)

// tables stand beside the trees and are none.
var tables = []string{"cards.yaml", "index.yaml", "planner.yaml", "prompts.yaml", "safety.yaml", "told.yaml"}

// ofTree are checks of which every finding is made as a tree is read.
var ofTree = []string{
	"no-way-on", "no-way-out", "no-answers", "no-questions", "no-endings", "needless-key", "reserved-id", "repeated-id", "bad-id", "wrong-name", "dead-link",
	"formula", "measure", "route-order", "safety-ending", "safety-first", "unknown-answer", "unknown-key",
}

// Every broken tree of the corpus gets, as it is read alone, the findings that
// are its own, each at its place with its help, and no others.
func TestBadTrees(t *testing.T) {
	seen := map[string]int{}
	for _, c := range corpus.Cases(t, "../..") {
		for _, f := range c.Files {
			if path.Dir(f.Name) != "trees" || slices.Contains(tables, path.Base(f.Name)) || path.Ext(f.Name) != ".yaml" {
				continue
			}
			var list finding.List
			tree.Parse(f.Name, f.Data, &list)
			got := list.Sorted()
			for _, g := range got {
				if !slices.ContainsFunc(c.Want, func(w corpus.Want) bool { return fits(w, g) }) {
					t.Errorf("%s: %s %s: %s %q", c.Name, g.Place, g.Check, g.Text, g.Help)
				}
			}
			for _, w := range c.Want {
				if !strings.HasPrefix(w.Place, f.Name) || !slices.Contains(ofTree, w.Check) {
					continue
				}
				seen[w.Check]++
				if !slices.ContainsFunc(got, func(g finding.Finding) bool { return fits(w, g) }) {
					t.Errorf("%s: %s %s %q was not found: %v", c.Name, w.Place, w.Check, w.Text, got)
				}
			}
		}
	}
	for _, check := range ofTree {
		if seen[check] == 0 {
			t.Errorf("no broken tree of the corpus shows %s", check)
		}
	}
}

func fits(w corpus.Want, g finding.Finding) bool {
	return w.Place == g.Place.String() && w.Check == g.Check && strings.Contains(g.Text, w.Text) &&
		slices.Equal(w.Help, g.Help)
}
