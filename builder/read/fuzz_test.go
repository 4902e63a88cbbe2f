package read_test

import (
	"io/fs"
	"strings"
	"testing"
	"time"

	"keelpath/builder/finding"
	"keelpath/builder/internal/corpus"
	"keelpath/builder/read"
	"keelpath/content"
	"keelpath/trees"
)

// Whatever a YAML file holds, it is read without a panic, and soon, and where
// nothing comes of it a finding says why, on a line that the file has.
func FuzzYAML(f *testing.F) {
	for _, c := range corpus.Cases(f, "../..") {
		for _, file := range c.Files {
			if strings.HasSuffix(file.Name, ".yaml") {
				f.Add(file.Data)
			}
		}
	}
	for _, good := range []fs.FS{content.FS, trees.FS} {
		names, err := fs.Glob(good, "*.yaml")
		if err != nil || len(names) == 0 {
			f.Fatalf("no good files: %v", err)
		}
		for _, name := range names {
			src, err := fs.ReadFile(good, name)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(src[:min(len(src), 8<<10)]) // a long seed only slows the search
		}
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		began := time.Now()
		above := len(src) % 2 // as a file, or as a header
		var list finding.List
		m := read.YAML("a.yaml", src, above, &list)
		if m == nil && list.Errors() == 0 {
			t.Error("nothing was read, and no finding says why")
		}
		askAll(m)
		lines := above + 1 + strings.Count(string(src), "\n")
		for _, one := range list.Sorted() {
			if one.Line > lines {
				t.Errorf("%s: the file has %d lines", one.Place, lines)
			}
		}
		if d := time.Since(began); d > 30*time.Second {
			t.Errorf("it took %v", d)
		}
	})
}

// askAll asks a mapping for everything in every way.
func askAll(m *read.Map) {
	m.Credits()
	for _, key := range []string{"title", "start", "questions", "answers", "words", "themes", "order", "parts", "examples"} {
		m.NeedText(key)
		m.NeedTexts(key)
		m.IDs(key)
		m.Date(key)
		m.Bool(key)
		m.Int(key, 0, 9)
		m.NeedInt(key, 0, 9)
		m.OneOf(key, "one", "any")
		m.Pairs(key, func(read.Text, []read.Text) {})
		m.Each(key, "thing", func(_ read.Text, e *read.Map) {
			e.NeedText("text")
			e.Lacks("text")
			e.Done()
		})
		for _, e := range m.Maps(key, "thing") {
			e.Each("answers", "thing", func(read.Text, *read.Map) {})
			e.Done()
		}
		m.Lacks(key)
	}
	m.Done()
}
