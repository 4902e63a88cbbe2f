package tree_test

import (
	"encoding/json"
	"io/fs"
	"strings"
	"testing"
	"time"

	"keelpath/builder/finding"
	"keelpath/builder/internal/corpus"
	"keelpath/builder/proof"
	"keelpath/builder/tree"
	"keelpath/trees"
)

// Whatever a tree file holds, it is read, proved and walked without a panic,
// and soon.
func FuzzTree(f *testing.F) {
	for _, c := range corpus.Cases(f, "../..") {
		for _, file := range c.Files {
			if strings.HasPrefix(file.Name, "trees/") {
				f.Add(file.Data)
			}
		}
	}
	good, err := fs.Glob(trees.FS, "*.yaml")
	if err != nil || len(good) == 0 {
		f.Fatalf("no good trees: %v", err)
	}
	for _, name := range good {
		src, err := fs.ReadFile(trees.FS, name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(src)
	}
	f.Add([]byte(header + walked))
	f.Fuzz(func(t *testing.T, src []byte) {
		began := time.Now()
		var list finding.List
		tr := tree.Parse("trees/short.yaml", src, &list)
		if tr == nil {
			if list.Errors() == 0 {
				t.Error("no tree, and no finding that says why")
			}
			return
		}
		p, err := proof.Prove(t.Context(), tr, &list)
		if err != nil {
			t.Fatal(err)
		}
		proof.Examples(tr, func(string) bool { return true }, &list)
		for _, e := range tr.Examples {
			_, _ = tr.Walk(e.Given())
		}
		for id, w := range p.Witness {
			given := tree.Answers{}
			for _, g := range w {
				given[g.Question] = g.Chosen
			}
			path, err := tr.Walk(given)
			if list.Errors() == 0 && (err != nil || (path.Open != id && path.Ending != id)) {
				t.Errorf("the way to %q leads to %q%q (%v)", id, path.Open, path.Ending, err)
			}
		}
		if _, err := json.Marshal(tr.Table(p.Left)); err != nil {
			t.Error(err)
		}
		if err := finding.Print(&strings.Builder{}, list.Sorted(), func(string) []byte { return src }); err != nil {
			t.Error(err)
		}
		if d := time.Since(began); d > 30*time.Second {
			t.Errorf("it took %v", d)
		}
	})
}
