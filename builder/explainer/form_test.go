package explainer

import (
	"errors"
	"html/template"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/finding"
	"keelpath/builder/helpline"
)

// ownForm fits ownText.
var ownForm = &Form{
	ID: "own", Gaps: []string{"all", "some", "none", "when-some", "when-none"}, Slots: []string{"table"},
	Parts: []string{"quiet", "how"}, Heads: []string{"first"},
}

const ownText = `---
title: An own page
about: It is one.
message: It has {all} words.
---

There are **{all}**
of them.

{when-some}Some: {some}.

{when-none}None at all.

- One is {some}.
- Another is {none}.

## The {all} words {#first}

` + "```slot\ntable\n```" + `

{#quiet} Nothing is [sent](page:clinic#privacy). [Tap it.](on:screen)

## {when-none}What is left out {#left}

It goes with its heading.

### So does this {#below}

- Gone.

## How it works {#how}

It works by {all} rules.

## The end {#the_end}

- Only {none}.
`

func ownPage(t *testing.T) *Page {
	t.Helper()
	var list finding.List
	p := ParseOwn("own.md", []byte(ownText), ownForm, helpline.Lines{}, &list)
	for _, f := range list.Sorted() {
		t.Errorf("%s: %s", f.Place, f.Text)
	}
	return p
}

func ownOptions() Options {
	fill := map[string]template.HTML{"all": "3 <b>&amp;</b> more", "some": "2", "when-some": "yes", "table": "<table></table>\n", "none": " \n", "when-none": ""}
	get := func(name string) (template.HTML, error) {
		html, ok := fill[name]
		if !ok {
			return "", errors.New("no filling for " + name)
		}
		return html, nil
	}
	return Options{
		Gap: get, Slot: get,
		Target: func(kind, id string) Target { return Target{URL: kind + ".html", Title: id} },
	}
}

// Gaps and slots are filled, what a gap has nothing for is left out as a block, and
// parts stand apart from the text.
func TestOwnText(t *testing.T) {
	p := ownPage(t)
	out, err := p.Body.HTML(ownOptions())
	if err != nil {
		t.Fatal(err)
	}
	want := `<p>There are <strong>3 <b>&amp;</b> more</strong>
of them.</p>
<p>Some: 2.</p>
<ul>
<li>One is 2.</li>
</ul>
<h2 id="first">The 3 <b>&amp;</b> more words</h2>
<table></table>
<h2 id="the_end">The end</h2>
`
	if d := cmp.Diff(want, string(out.HTML)); d != "" {
		t.Error(d)
	}
	var heads []string
	for _, h := range out.Headings {
		heads = append(heads, h.ID)
	}
	if d := cmp.Diff([]string{"first", "the_end"}, heads); d != "" {
		t.Error(d)
	}
	parts, err := p.Body.Parts(ownOptions())
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(map[string]Part{
		"quiet": {HTML: `Nothing is <a href="page.html">sent</a>. <span class="on-screen">Tap it.</span>`},
		"how":   {Title: "How it works", HTML: "<p>It works by 3 <b>&amp;</b> more rules.</p>\n"},
	}, parts); d != "" {
		t.Error(d)
	}
	lead, err := p.Lead.Line(ownOptions())
	if want := template.HTML("It has 3 <b>&amp;</b> more words."); err != nil || lead != want {
		t.Errorf("the lead is %q, want %q; %v", lead, want, err)
	}
}

// What is read of such a text has the words as they are written, at their places, and
// neither the ids nor what an explainer would take for words of its own.
func TestOwnBlocks(t *testing.T) {
	var got []string
	for _, b := range ownPage(t).Body.Blocks {
		got = append(got, b.Place(0).String()+" "+b.Text)
	}
	want := []string{
		"own.md:7:1 There are {all} of them.", "own.md:10:12 Some: {some}.", "own.md:12:12 None at all.",
		"own.md:14:3 One is {some}.", "own.md:15:3 Another is {none}.", "own.md:17:4 The {all} words",
		"own.md:23:10 Nothing is sent. Tap it.", "own.md:25:15 What is left out", "own.md:27:1 It goes with its heading.",
		"own.md:29:5 So does this", "own.md:31:3 Gone.", "own.md:33:4 How it works", "own.md:35:1 It works by {all} rules.", "own.md:37:4 The end", "own.md:39:3 Only {none}.",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

// A part is no heading that a link could lead to.
func TestOwnHeadings(t *testing.T) {
	var got []string
	for _, h := range ownPage(t).Body.Headings {
		got = append(got, h.ID)
	}
	if d := cmp.Diff([]string{"first", "left", "below", "the_end"}, got); d != "" {
		t.Error(d)
	}
}

// In any other text a brace is a brace.
func TestBracesElsewhere(t *testing.T) {
	var list finding.List
	d := newDoc([]byte("## A {#b}\n\nSay {all}.\n\n```slot\ntable\n```\n"), func(int) finding.Place { return finding.Place{} }, helpline.Lines{}, &list)
	out, err := d.HTML(ownOptions())
	if err != nil || !strings.Contains(string(out.HTML), "<p>Say {all}.</p>") || d.Headings[0].Text != "A {#b}" {
		t.Errorf("%s, %v, %v", out.HTML, d.Headings, err)
	}
	if found := list.Sorted(); len(found) != 1 || found[0].Check != "listing-language" {
		t.Errorf("found %v", found)
	}
}

// A gap or a slot that cannot be filled is an error, and not a page with a hole.
func TestUnfilled(t *testing.T) {
	for _, name := range []string{"all", "table"} {
		o := ownOptions()
		get := o.Gap
		o.Gap = func(n string) (template.HTML, error) {
			if n == name {
				return "", errors.New("nothing there")
			}
			return get(n)
		}
		o.Slot = o.Gap
		if _, err := ownPage(t).Body.HTML(o); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
