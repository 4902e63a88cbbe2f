package explainer_test

import (
	"html/template"
	"io/fs"
	"strings"
	"testing"
	"time"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/helpline"
	"keelpath/builder/internal/corpus"
	"keelpath/builder/read"
	"keelpath/builder/say"
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
		explainer.ParseText(read.Text{S: src, At: finding.Place{File: "trees/a.yaml", Line: 1}}, helpline.Lines{}, &list).Text(say.English(), target, nil, nil)
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

// Whatever the text of one of the site's own pages holds, it is read, filled and parted
// without a panic, whether its gaps have something to say or not.
func FuzzOwnText(f *testing.F) {
	names, err := fs.Glob(content.FS, "en/pages/*.md")
	if err != nil || len(names) == 0 {
		f.Fatalf("no texts of pages: %v", err)
	}
	for _, name := range names {
		src, err := fs.ReadFile(content.FS, name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(src))
	}
	f.Add("---\n---\n{#a} {a}\n\n- {b}\n  - {b}\n\n## {b} x_y {#a_b}\n\n> {b}\n\n| {a} | {b} |\n|---|---|\n| {b} | [{a}](on:paper) |\n\n```slot\na\n```\n\n# {#a}\n")
	form := &explainer.Form{ID: "own", Gaps: []string{"a", "b", "when-a"}, Slots: []string{"a"}, Parts: []string{"a", "b"}, Heads: []string{"c"}}
	f.Fuzz(func(t *testing.T, src string) {
		var list finding.List
		p := explainer.ParseOwn("content/en/pages/own.md", []byte(src), form, helpline.Lines{}, &list)
		if p == nil {
			return
		}
		for _, empty := range []string{"", "a", "b"} {
			fill := func(name string) (template.HTML, error) {
				if name == empty {
					return "", nil
				}
				return "<i>1</i>", nil
			}
			o := explainer.Options{Target: target, Gap: fill, Slot: fill, Name: func(id string) string { return id }}
			for _, d := range []*explainer.Doc{p.Body, p.Lead} {
				if _, err := d.HTML(o); err != nil {
					t.Fatal(err)
				}
				if _, err := d.Parts(o); err != nil {
					t.Fatal(err)
				}
				if _, err := d.Line(o); err != nil {
					t.Fatal(err)
				}
			}
		}
		for _, b := range p.Body.Blocks {
			b.Place(len(b.Text))
		}
	})
}
