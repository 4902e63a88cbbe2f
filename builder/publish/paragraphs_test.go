package publish

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"golang.org/x/net/html"
)

func TestParagraphs(t *testing.T) {
	for name, c := range map[string]struct {
		page string
		want []Paragraph
	}{
		"only a page's own part": {`<header><p>Menu</p></header><main id="main"><h1>Stairs</h1><p>Step by step.</p></main><footer><p>Sources</p></footer>`,
			[]Paragraph{{Heading: true, Text: "Stairs"}, {Text: "Step by step."}}},
		"under a heading": {`<main><p>First.</p><h2 id="up">Going up</h2><p>One.</p><p id="own">Two.</p><p>Three.</p><h2>No id</h2><p>Four.</p></main>`,
			[]Paragraph{{Text: "First."}, {At: "up", Heading: true, Text: "Going up"}, {At: "up", Text: "One."}, {At: "own", Text: "Two."}, {At: "up", Text: "Three."}, {At: "up", Heading: true, Text: "No id"}, {At: "up", Text: "Four."}}},
		"a section ends": {`<main><section id="a"><h2 id="a-name">A</h2><p>In a.</p></section><p>Behind it.</p></main>`,
			[]Paragraph{{At: "a-name", Heading: true, Text: "A"}, {At: "a-name", Text: "In a."}, {Text: "Behind it."}}},
		"marks in a sentence": {`<main><p>A <a href="x">keel</a><sup><a>1</a></sup>&nbsp;bends &amp; <strong>springs</strong><br>back.</p></main>`,
			[]Paragraph{{Text: "A keel bends & springs"}, {Text: "back."}}},
		"a list and a table": {`<main><ul><li id="one">One<ul><li>Inner</li></ul></li></ul><table><tr><th>Foot</th><td>Light</td></tr><tr><th>Shell</th><td>Soft</td></tr></table></main>`,
			[]Paragraph{{At: "one", Text: "One"}, {At: "one", Text: "Inner"}, {Text: "Foot Light", Lead: "Foot"}, {Text: "Shell Soft", Lead: "Shell"}}},
		"what is set apart": {`<main><p><strong>Click.</strong> Stop.</p><p>Not <strong>here</strong>.</p><p><strong>Whole</strong></p><table><caption>Sounds</caption><thead><tr><th>Sound</th><th>To do</th></tr></thead><tr><td><b>Squeak</b> now</td><td>Book</td></tr></table></main>`,
			[]Paragraph{{Text: "Click. Stop.", Lead: "Click."}, {Text: "Not here."}, {Text: "Whole"}, {Text: "Sounds", Beside: true}, {Text: "Sound To do", Lead: "Sound", Beside: true}, {Text: "Squeak now Book", Lead: "Squeak now"}}},
		"what is not read": {`<main><script>x</script><template><p>Later</p></template><p hidden>Not yet</p><svg><title>Foot</title></svg><button>Go</button><p>Read.</p></main>`,
			[]Paragraph{{Text: "Read."}}},
		"a heading with a mark": {`<main><h2 id="a">Falls <em>at home</em></h2></main>`, []Paragraph{{At: "a", Heading: true, Text: "Falls at home"}}},
		"nothing":               {``, nil},
		"no end":                {`<main><p>Here`, nil},
	} {
		if d := cmp.Diff(c.want, slices.Collect(Paragraphs([]byte(c.page))), cmpopts.IgnoreFields(Paragraph{}, "Lands")); d != "" {
			t.Errorf("%s:\n%s", name, d)
		}
	}
}

// A link finds a paragraph by its first words that stand together: the number of a source, the edge of a cell and a label that
// some screens hide part them.
func TestLandings(t *testing.T) {
	for text, want := range map[string][2]int{
		`<p>Four words stand together.</p>`:                                                {0, 4},
		`<p>Only these three.</p>`:                                                         {},
		`<p>You <a>get less</a> push <b>back</b><sup>4</sup> late.</p>`:                    {0, 4},
		`<p>Less push back<sup>4</sup>, and so it takes more work.</p>`:                    {3, 6},
		`<table><tr><th>Higher heel</th><td>It tips forward, and bends.</td></tr></table>`: {2, 5},
		`<table><tr><th>Walk</th><td><span class="row">What is known of it:</span> It went with the level.<sup>1</sup> <span>(data)</span></td></tr></table>`: {6, 4},
	} {
		for p := range Paragraphs([]byte("<main>" + text + "</main>")) {
			if p.Lands != want {
				t.Errorf("%s: %v, not %v", text, p.Lands, want)
			}
		}
	}
}

// Every paragraph of the shipped site stands on its page, at an id that the page has, and none is
// lost: the words are those of a parser that builds the page's tree.
func TestParagraphsOfTheSite(t *testing.T) {
	out := builtin(t)
	pages, deep := 0, 0
	for _, name := range out.order {
		if !strings.HasSuffix(name, ".html") {
			continue
		}
		pages++
		root, err := html.Parse(bytes.NewReader(out.files[name]))
		if err != nil {
			t.Fatal(err)
		}
		ids := map[string]bool{"": true}
		var want []string
		inMain(root, false, ids, &want)
		var got []string
		for p := range Paragraphs(out.files[name]) {
			got = append(got, strings.Fields(p.Text)...)
			if !ids[p.At] {
				t.Errorf("%s has no id %q, where %q is said to stand", name, p.At, p.Text)
			}
			if p.At != "" {
				deep++
			}
		}
		// Where a word ends at a mark of its own, as in "foot<b>?</b>", both make one of it, or the tree two.
		if g, w := strings.Join(got, ""), strings.Join(want, ""); g != w {
			t.Errorf("%s: other words than in the page's tree\n%s", name, cmp.Diff(want, got))
		}
	}
	if pages < 100 || deep < 3000 {
		t.Errorf("%d pages and %d paragraphs under an id were looked at", pages, deep)
	}
}

// inMain collects the ids of a page and the words of its own part.
func inMain(n *html.Node, in bool, ids map[string]bool, words *[]string) {
	if n.Type == html.TextNode && in {
		*words = append(*words, strings.Fields(n.Data)...)
	}
	hidden := slices.Contains(unlisted, n.Data) && n.Type == html.ElementNode
	for _, a := range n.Attr {
		if a.Key == "id" {
			ids[a.Val] = true
		}
		hidden = hidden || a.Key == "hidden"
	}
	in = in && !hidden || n.Data == "main" && n.Type == html.ElementNode
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		inMain(c, in, ids, words)
	}
}
