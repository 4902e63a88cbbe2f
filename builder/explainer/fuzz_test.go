package explainer_test

import (
	"io/fs"
	"strings"
	"testing"
	"time"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/helpline"
	"keelpath/builder/internal/corpus"
	"keelpath/builder/read"
	"keelpath/content"
)

// Whatever a page holds, it is read and rendered without a panic, and soon; and
// what is rendered has no HTML that the text brought along.
func FuzzExplainer(f *testing.F) {
	for _, c := range corpus.Cases(f, "../..") {
		for _, file := range c.Files {
			if strings.HasSuffix(file.Name, ".md") {
				f.Add(string(file.Data))
			}
		}
	}
	good, err := fs.Glob(content.FS, "en/*.md")
	if err != nil || len(good) == 0 {
		f.Fatalf("no good pages: %v", err)
	}
	for _, name := range good {
		src, err := fs.ReadFile(content.FS, name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(src))
	}
	f.Fuzz(func(t *testing.T, src string) {
		began := time.Now()
		var list finding.List
		explainer.Parse("content/en/a.md", []byte(src), helpline.Lines{}, &list)
		for _, o := range []explainer.Options{
			{Target: target, Words: words},
			{Target: target, Unmarked: true, NewTab: true},
		} {
			var found finding.List
			d := parse(src, &found) // the same as a body below a sound header
			if d == nil {
				continue // not text at all
			}
			out, err := d.HTML(o)
			if err != nil {
				t.Fatal(err)
			}
			for _, no := range []string{"<script", "style=", "javascript:", "onclick="} {
				if i := strings.Index(string(out.HTML), no); i >= 0 && tagOpen(string(out.HTML)[:i+1]) {
					t.Errorf("the page holds %s:\n%s", no, out.HTML)
				}
			}
		}
		explainer.ParseText(read.Text{S: src, At: finding.Place{File: "trees/a.yaml", Line: 1}}, helpline.Lines{}, &list).Text(target, nil, nil)
		if err := finding.Print(&strings.Builder{}, list.Sorted(), func(string) []byte { return []byte(src) }); err != nil {
			t.Error(err)
		}
		if d := time.Since(began); d > 30*time.Second {
			t.Errorf("it took %v", d)
		}
	})
}

// tagOpen tells whether s ends inside a tag.
func tagOpen(s string) bool { return strings.LastIndexByte(s, '<') > strings.LastIndexByte(s, '>') }
