package library_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/library"
)

// brokenWords are files of a language that nobody speaks. An archive could not hold what is found of
// them: all words that the language lacks are found too.
var brokenWords = map[string]string{
	"content/edition.yaml":         "languages: [es]\n",
	"content/qaa/glossary.yaml":    "words.keel.word: { of: 00000000 }\n",
	"content/qaa/foot-shell.md":    "---\nof: 00000000\ntitle: Xx\nmessage: Xx.\n---\n\nXx.\n",
	"content/qaa/no-shell.md":      "---\nof: 00000000\ntitle: Xx\nmessage: Xx.\n---\n\nXx.\n",
	"content/qaa/pages/sources.md": "---\nof: 00000000\ntitle: Xx\nabout: Xx.\nmessage: Xx.\n---\n\nXx {sourcez}.\n",
}

// languageFaults are found of brokenWords.
var languageFaults = []struct{ file, check, says string }{
	{"content/edition.yaml", "unknown-name", `the edition names the language "es", and there are no words in it`},
	{"content/edition.yaml", "unknown-name", "languages with words: qaa"},
	{"content/qaa/glossary.yaml", "missing-key", `the entry "words.keel.word" lacks "says"`},
	{"content/qaa/foot-shell.md", "stale-words", "the words of this page were made for another text than content/en/foot-shell.md has now"},
	{"content/qaa/foot-shell.md", "words-differ", "the page has 0 headings, and in its own language"},
	{"content/qaa/no-shell.md", "needless-words", `these are words for the page "no-shell", and there is none`},
	{"content/qaa/falls.md", "missing-words", "there are no words in qaa for the page content/en/falls.md"},
	{"content/qaa/pages/clinic.md", "missing-words", "there are no words in qaa for the page content/en/pages/clinic.md"},
	{"content/qaa/pages/sources.md", "stale-words", "the words of this page were made for another text than content/en/pages/sources.md has now"},
	{"content/qaa/pages/sources.md", "unknown-name", `the text has the gap "sourcez", and the page "sources" does not fill it`},
	{"content/qaa/pages/sources.md", "missing-slot", `the page needs the slot "list", and its text lacks it`},
}

// inBrokenWords gives what is found of brokenWords. It is asked in a clean-up too.
func inBrokenWords(t *testing.T) []finding.Finding {
	t.Helper()
	files := map[string][]byte{}
	for name, text := range brokenWords {
		files[name] = []byte(text)
	}
	var list finding.List
	if _, err := library.Load(context.Background(), &list, library.Builtin(), library.LayerOf("broken", files)); err != nil {
		t.Fatal(err)
	}
	return list.Sorted()
}

// What is wrong with the words of another language is told where they stand, or where
// they are missing.
func TestLanguageFaults(t *testing.T) {
	found := inBrokenWords(t)
	for _, c := range languageFaults {
		if !slices.ContainsFunc(found, func(f finding.Finding) bool {
			said := f.Text + "\n" + strings.Join(f.Help, "\n")
			return strings.HasSuffix(f.File, c.file) && f.Check == c.check && strings.Contains(said, c.says) && len(f.Help) > 0
		}) {
			t.Errorf("%s: %s with %q was expected", c.file, c.check, c.says)
			for _, f := range found {
				if strings.HasSuffix(f.File, c.file) {
					t.Logf("%s %s %q", f.Place, f.Check, f.Text)
				}
			}
		}
	}
}
