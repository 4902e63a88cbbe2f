package library_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/internal/screenfaults"
	"keelpath/builder/library"
	"keelpath/builder/safety"
	"keelpath/content"
	"keelpath/trees"
)

// groundFaults are faults of the built-in content that no layer can make, for a layer
// keeps what stands below it: each changes one file, in which the old words stand, or
// takes it away where there are none.
var groundFaults = []struct {
	name, file, old, now string
	check, says, help    string
}{
	{"no number for a crisis", "content/edition.yaml", "\ncrisis:", "\nother:",
		"missing-key", `the edition lacks "crisis"`, `every edition says whom to call in an emergency and in a crisis: crisis: { number: "...", where: ... }`},
	{"a drawing without words", "content/en/drawings.yaml", "\n  roll-over:\n", "\n  roll-under:\n",
		"missing-key", `nothing is said in the drawing "roll-over"`, `add "roll-over:" under "drawings", with title, long and labels`},
	{"a page without its text", "content/en/pages/clinic.md", "", "",
		"missing-key", `the page "clinic" has no text`, "write it into this file, with a header"},
	{"a sign's question that presumes a slope", "trees/safety.yaml", "prompts: [body-7]", "prompts: [hill-8]",
		"untold", "of the safety screen brings the prompt \"hill-8\", which presumes", "bring another prompt here"},
	{"an example that does not say who has a leg", "trees/safety.yaml", "    leg: not-now\n", "",
		"example", "the example stops at the leg", "answer it"},
}

// tooLarge are files of a layer that are larger than what is read, and what is found
// of each. An archive would be as large.
var tooLarge = []struct{ file, text, says, help string }{
	{"content/en/long.md", pageOf(strings.Repeat("This is a line.\n\n", 20_000)), "the text has more than", "make several pages of it"},
	{"content/en/block.md", pageOf(strings.Repeat("This is a line.\n", 2000)), "a block of more than", "part it with empty lines"},
	{"content/en/unseen.md", pageOf(strings.Repeat("This\u200b is a line.\n\n", 200)), "characters up to here cannot be seen", "take the text in anew as plain text, without the form it had elsewhere"},
	{"content/glossary.yaml", strings.Repeat("# no word at all\n", 70_000), "the file has more than", "split it into smaller files"},
	{"content/wishes.yaml", "wishes:\n  list: [" + strings.Repeat("a, ", 1001) + "]\n", "entries, and at most", "split the file into smaller ones"},
	{"trees/large.yaml", largeTree(), "the tree has 501 endings, and at most", "split it into trees that hand over to each other"},
}

func pageOf(body string) string {
	return "---\ntitle: Large\naudience: patient\nmessage: It is large.\nauthors: [Keelpath editors]\nreviewers: []\n" +
		"reviewed: 2026-11-25\nreview-by: 2028-11-25\nsources: []\nfunding: None.\n---\n" + body
}

func largeTree() string {
	var b strings.Builder
	b.WriteString("tree: large\ntitle: Large\naudience: patient\npurpose: It is large.\nauthors: [Keelpath editors]\nreviewers: []\n" +
		"reviewed: 2026-11-25\nreview-by: 2028-11-25\nsources: []\nfunding: None.\nsafety: shared\nstart: ask\n" +
		"questions:\n  ask: { text: \"Is it so?\", why: It sets the way., answers: { so: { text: It is, go: end-1 } } }\nendings:\n")
	for i := range 501 {
		fmt.Fprintf(&b, "  end-%d: { title: End, text: It ends. }\n", i+1)
	}
	return b.String()
}

// large gives what is found of the files of tooLarge, as one layer.
func large(t *testing.T) []finding.Finding {
	t.Helper()
	dir := t.TempDir()
	for _, f := range tooLarge {
		name := filepath.Join(dir, f.file)
		if err := os.MkdirAll(filepath.Dir(name), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(f.text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return loaded(t, dir, library.Builtin())
}

// A file that is too large is found, with what to do about it.
func TestTooLarge(t *testing.T) {
	found := large(t)
	for _, c := range tooLarge {
		if !slices.ContainsFunc(found, func(f finding.Finding) bool {
			return strings.HasSuffix(f.File, c.file) && strings.Contains(f.Text, c.says) && slices.Contains(f.Help, c.help)
		}) {
			t.Errorf("%s: %q was expected", c.file, c.says)
			for _, f := range found {
				if strings.HasSuffix(f.File, c.file) {
					t.Logf("%s %s %q", f.Place, f.Text, f.Help)
				}
			}
		}
	}
}

// ground gives what is found of the built-in content with one file changed.
func ground(t *testing.T, file, old, now string) []finding.Finding {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(filepath.Join(dir, "content"), content.FS); err != nil {
		t.Fatal(err)
	}
	if err := os.CopyFS(filepath.Join(dir, "trees"), trees.FS); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, file)
	if old == "" {
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
		return loaded(t, dir)
	}
	src, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(src), old) {
		t.Fatalf("%q does not stand in %s", old, file)
	}
	if err := os.WriteFile(path, []byte(strings.Replace(string(src), old, now, 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	return loaded(t, dir)
}

// loaded gives what is found of the layer in a folder, over others. It is asked in a
// clean-up too, when the test's own context has ended.
func loaded(t *testing.T, dir string, below ...library.Layer) []finding.Finding {
	t.Helper()
	var list finding.List
	layer, err := library.ReadLayer(context.Background(), dir, &list)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := library.Load(context.Background(), &list, append(below, layer)...); err != nil {
		t.Fatal(err)
	}
	return list.Sorted()
}

// What would be wrong in the built-in content is found there too.
func TestGroundFaults(t *testing.T) {
	for _, c := range groundFaults {
		t.Run(c.name, func(t *testing.T) {
			found := ground(t, c.file, c.old, c.now)
			if !slices.ContainsFunc(found, func(f finding.Finding) bool {
				return f.Check == c.check && strings.Contains(f.Text, c.says) && slices.Contains(f.Help, c.help)
			}) {
				t.Errorf("%s with %q was expected, and found was %v", c.check, c.says, found)
			}
		})
	}
}

// beyondLayers gives what is found of faults that no archive can hold, since no layer
// can make them, or they are too large: see screenfaults, groundFaults, tooLarge
// and brokenWords.
func beyondLayers(t *testing.T) (found []finding.Finding) {
	t.Helper()
	screen, err := screenfaults.Screen(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range screenfaults.All() {
		text, err := f.In(screen)
		if err != nil {
			t.Fatal(err)
		}
		var list finding.List
		safety.Parse("trees/safety.yaml", []byte(text), &list)
		found = append(found, list.Sorted()...)
	}
	for _, c := range groundFaults {
		found = append(found, ground(t, c.file, c.old, c.now)...)
	}
	return slices.Concat(found, saysFaults(t), large(t), inBrokenWords(t))
}
