package library_test

import (
	"bytes"
	"context"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/finding"
	"keelpath/builder/internal/pseudo"
	"keelpath/builder/library"
	"keelpath/builder/say"
)

const nobodys = "qaa" // BCP 47 keeps it for private use

// pseudoWords gives the files that say the built-in content in a language that nobody speaks.
func pseudoWords(t *testing.T) map[string][]byte {
	t.Helper()
	built := library.Builtin()
	texts, pages, err := library.Texts(t.Context(), built)
	if err != nil {
		t.Fatal(err)
	}
	files, err := pseudo.Files(nobodys, pseudo.Accented, texts, pages, built.File)
	if err != nil {
		t.Fatal(err)
	}
	files[say.File(nobodys)] = pseudo.Accented.Words(nobodys, say.English())
	return files
}

// inWords loads the built-in content with a layer over it.
func inWords(t *testing.T, files map[string][]byte) (*library.Library, []string) {
	t.Helper()
	var list finding.List
	l, err := library.Load(t.Context(), &list, library.Builtin(), library.LayerOf("words", files))
	if err != nil {
		t.Fatal(err)
	}
	var found []string
	for _, f := range list.Sorted() {
		found = append(found, fmt.Sprintf("%s %s: %s", f.Place.File, f.Check, f.Text))
	}
	return l, found
}

// notWords is the name of the edition, names of the site's files, and what room helpline says around a number.
var notWords = regexp.MustCompile(`Keelpath|index\.html|assets/|(?i)\bcall\b[^.]*`)

// All that the built-in content says can be said in another language, and nothing else changes: ids, ways and
// proofs are those of the first. What is amiss with words is told where they stand, each once.
func TestLanguage(t *testing.T) {
	files := pseudoWords(t)
	files["content/edition.yaml"] = fmt.Appendf(nil, "languages: [%s]\n", nobodys)
	l, found := inWords(t, files)
	if diff := cmp.Diff([]string(nil), found); diff != "" {
		t.Fatal(diff)
	}
	if len(l.Others) != 1 || l.Others[0].Lang != nobodys {
		t.Fatalf("there are %d other languages", len(l.Others))
	}
	o := l.Others[0]
	for i, tr := range o.Trees {
		first := l.Trees[i]
		if tr.ID.S != first.ID.S || o.Proofs[tr.ID.S] != l.Proofs[tr.ID.S] {
			t.Errorf("tree %s is not the one of the first language", tr.ID.S)
		}
		if tr.Title.S != pseudo.Accented.Text(first.Title.S) {
			t.Errorf("the title of tree %s is %q", tr.ID.S, tr.Title.S)
		}
	}
	library.EveryText(o, func(who, text string) {
		if plain := pseudo.Left(notWords.ReplaceAllString(pseudo.Bare(text), "")); plain != "" {
			t.Errorf("%s says %q in the first language", who, plain)
		}
	})
}

// What is amiss with words is one finding, where they stand, or where they should.
func TestWordsAmiss(t *testing.T) {
	swap := func(name, old, new string) func(map[string][]byte) {
		return func(files map[string][]byte) {
			src := bytes.Replace(files[name], []byte(old), []byte(new), 1)
			if bytes.Equal(src, files[name]) {
				t.Fatalf("%s does not hold %q", name, old)
			}
			files[name] = src
		}
	}
	const glossary = "content/qaa/glossary.yaml"
	base := pseudoWords(t)
	for name, c := range map[string]struct {
		edit func(map[string][]byte)
		want []string
	}{
		"a sentence of the first language has changed": {func(files map[string][]byte) {
			files["content/glossary.yaml"] = []byte("words:\n  adapter: { word: adapter, also: [adapters], meaning: A small part that joins two parts of a leg. }\n")
		}, []string{`words/content/qaa/glossary.yaml stale-words: the words for "words.adapter.meaning" were made for another text`}},
		"words for nothing": {swap(glossary, "words.adapter.meaning:", "words.adapter.meanings:"), []string{
			`words/content/qaa/glossary.yaml missing-words: there are no words in qaa for "words.adapter.meaning"`,
			`words/content/qaa/glossary.yaml needless-words: the entry "words.adapter.meanings" names no text`,
		}},
		"a file is away": {func(files map[string][]byte) { delete(files, glossary) }, []string{
			`content/qaa/glossary.yaml missing-words: there are no words in qaa for the`}},
		"a page is away": {func(files map[string][]byte) { delete(files, "content/qaa/stairs.md") }, []string{
			`content/qaa/stairs.md missing-words: there are no words in qaa for the page content/en/stairs.md`}},
		"a page that cites less": {swap("content/qaa/stairs.md", "[](support:", "[](word:x"), []string{"words/content/qaa/stairs.md"}},
		"a page for none": {func(files map[string][]byte) { files["content/qaa/stair.md"] = files["content/qaa/stairs.md"] }, []string{
			`words/content/qaa/stair.md needless-words: these are words for the page "stair", and there is none`}},
	} {
		t.Run(name, func(t *testing.T) {
			files := map[string][]byte{}
			for n, src := range base {
				files[n] = src
			}
			files["content/edition.yaml"] = fmt.Appendf(nil, "languages: [%s]\n", nobodys)
			c.edit(files)
			_, found := inWords(t, files)
			if len(found) != len(c.want) && !strings.Contains(name, "cites") {
				t.Fatalf("got %s", strings.Join(found, "\n"))
			}
			for i, want := range c.want {
				if !strings.HasPrefix(found[i], want) {
					t.Errorf("got %s", found[i])
				}
			}
		})
	}
}

// Of a language that the edition does not name, what is amiss is a warning, and the site is built without it.
func TestLanguageBegun(t *testing.T) {
	var list finding.List
	files := map[string][]byte{"content/qaa/glossary.yaml": []byte("words.adapter.word: { of: 00000000, says: ádáptér }\n")}
	l, err := library.Load(context.Background(), &list, library.Builtin(), library.LayerOf("words", files))
	if err != nil {
		t.Fatal(err)
	}
	if list.Errors() > 0 || list.Len() < 50 || len(l.Others) > 0 {
		t.Errorf("%d errors of %d findings, %d languages", list.Errors(), list.Len(), len(l.Others))
	}
}

// What is sealed in the first language is sealed in each: a layer cannot put other words for a sign.
func TestSealInEachLanguage(t *testing.T) {
	ground := library.Builtin().With(pseudoWords(t)).With(map[string][]byte{"content/edition.yaml": append(library.Builtin().File("content/edition.yaml"), "languages: [qaa]\n"...)})
	screen := string(ground.File("content/qaa/trees/safety.yaml"))
	_, after, _ := strings.Cut(screen, "groups.help.signs.chest.caution:\n")
	entry, _, _ := strings.Cut(after, "\ngroups.")
	of, _, _ := strings.Cut(entry, "\n")
	layer := map[string][]byte{"content/qaa/trees/safety.yaml": fmt.Appendf(nil, "groups.help.signs.chest.caution: { %s, says: Íť ẃíĺĺ ṕáśś. }\n", strings.TrimSpace(of))}
	var list finding.List
	if _, err := library.Load(t.Context(), &list, ground, library.LayerOf("layer", layer)); err != nil {
		t.Fatal(err)
	}
	found := list.Sorted()
	if len(found) != 1 || found[0].Check != "safety-kept" || found[0].File != "layer/content/qaa/trees/safety.yaml" {
		t.Errorf("got %v", found)
	}
}
