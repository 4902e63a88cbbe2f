package explainer_test

import (
	"strings"
	"testing"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
)

// Each word of a block is found again at its place in the file.
func TestBlockPlaces(t *testing.T) {
	const md = "## A *heading* here\n\nOne **two**, three\nfour &amp; five \\* six `&amp; seven` é eight.[](source:s) Nine\n[ten](tree:t) eleven.\n\n" +
		"- twelve &\n  thirteen\n\n| fourteen | fifteen |\n|---|---|\n| sixteen | seventeen |\n"
	lines := strings.Split(header+md, "\n")
	var list finding.List
	d := parse(md, &list)
	kinds := map[string]explainer.BlockKind{
		"heading": explainer.Title, "three": explainer.Paragraph, "thirteen": explainer.Item, "fifteen": explainer.Cell,
	}
	words := 0
	for _, b := range d.Blocks {
		for _, w := range strings.Fields(b.Text) {
			if strings.ContainsAny(w, "&*") {
				continue // written otherwise than it reads
			}
			words++
			p := b.Place(strings.Index(b.Text, w))
			line := []rune(lines[p.Line-1])
			if p.Col > len(line) || !strings.HasPrefix(string(line[p.Col-1:]), strings.Trim(w, ".,")) {
				t.Errorf("%q is said to stand at %s: %q", w, p, lines[p.Line-1])
			}
			if k, ok := kinds[w]; ok && b.Kind != k {
				t.Errorf("%q stands in a %s, and a %s was expected", w, b.Kind, k)
			}
		}
		if strings.HasPrefix(b.Text, "One") && (len(b.Refs) != 2 || b.Refs[0].ID != "s" || b.Refs[1].ID != "t") {
			t.Errorf("links of the paragraph: %+v", b.Refs)
		}
	}
	if words != 21 {
		t.Errorf("%d words were looked for, want 21", words)
	}
}
