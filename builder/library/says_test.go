package library_test

import (
	"cmp"
	"context"
	"regexp"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/library"
	"keelpath/builder/say"
)

// wordsOfES is a file of what the program says, with one fault of each kind.
const wordsOfES = `formats:
  span: { of: 00000000, text: "{from} a {to} {más}" }
  date: { of: 00000000, text: "{day} de {mounth} de {year}" }
  month-1: enero
  month-2: { of: 00000000, text: "" }
  list-midle: "{before}, {next}"
  list-and-last: "{before} y {/last}"
tree:
  by-hand: { of: 00000000, text: "Empiece en {start}. Hay {count} preguntas. {link}En la pantalla.{/link}" }
sheets:
  forms: { one: una, other: muchas }
planner:
  back: { of: 8af8b08e, text: Volver, child: "Volver {here}" }
`

// saysFaults gives what is found in that file, in one that lacks a text, and of one that is not there.
func saysFaults(t *testing.T) []finding.Finding {
	t.Helper()
	clashing := map[say.Name]string{"unit.pound": "{count} livre", "unit.ounce-name": "Livre", "unit.inch": "{count} m"}
	same := string(say.English().For("fr", func(n say.Name, text string) string { return cmp.Or(clashing[n], text) }))
	skip := regexp.MustCompile(`  skip:\n.*\n.*\n`).FindString(same)
	var list finding.List
	layer := library.LayerOf("layer", map[string][]byte{
		"content/es/words.yaml":    []byte(wordsOfES),
		"content/fr/words.yaml":    []byte(strings.Replace(same, skip, "", 1)),
		"content/de/glossary.yaml": []byte("words.adapter.word: { of: 00000000, says: Adapter }\n"),
	})
	if _, err := library.Load(context.Background(), &list, library.Builtin(), layer); err != nil {
		t.Fatal(err)
	}
	return slices.DeleteFunc(list.Sorted(), func(f finding.Finding) bool { return !strings.HasSuffix(f.File, "/words.yaml") })
}

// What is wrong with what the program says in another language is told at its place, and what to do.
func TestSaysFaults(t *testing.T) {
	var got []string
	found := saysFaults(t)
	for _, f := range found {
		got = append(got, strings.TrimPrefix(strings.TrimPrefix(f.Place.String(), "layer/"), "content/es/words.yaml:")+" "+f.Check+" "+f.Text)
	}
	want := []string{
		`content/de/words.yaml missing-words there are no words in de for what the program itself says`,
		`1:1 missing-words there are no words in es for *`,
		`2:46 brace in the text "formats.span" the brace "{" belongs to no gap`,
		`3:3 unknown-name the text "formats.date" has the gap {mounth}, and nothing fills it`,
		`3:3 missing-key the text "formats.date" lacks the gap {month}`,
		`3:15 stale-words the words for "formats.date" were made for another text`,
		`4:3 missing-key the text "formats.month-1" does not say of which text it is the words`,
		`5:34 empty-text the text "formats.month-2" is empty`,
		`6:3 needless-words the program has no text "formats.list-midle"`,
		`7:19 brace in the text "formats.list-and-last" "{/last}" closes what is not open`,
		`9:3 missing-key the text "tree.by-hand" has one form, and the number in it asks for one: many: other:`,
		`9:18 stale-words the words for "tree.by-hand" were made for another text`,
		`11:3 missing-key text "forms" lacks "many"`,
		`11:3 needless-words the program has no text "sheets.forms"`,
		`13:3 missing-voice the text "planner.back" is said in one other voice, and not in all`,
		`13:46 voice-differs the text "planner.back" has other gaps in the voice "child"`,
		`content/fr/words.yaml:1:1 missing-words there are no words in fr for the program's text "layout.skip"`,
		`content/fr/words.yaml:* unit-words the text "unit.inch" has the word "m" for inches, and it is read as m`,
		`content/fr/words.yaml:* unit-words the text "unit.ounce-name" has the word "livre" for ounces, and it is read as pounds`,
	}
	if len(got) != len(want) {
		t.Fatalf("got\n%s", strings.Join(got, "\n"))
	}
	for i, w := range want {
		if begin, end, open := strings.Cut(w, "*"); got[i] != w && !(open && strings.HasPrefix(got[i], begin) && strings.HasSuffix(got[i], end)) {
			t.Errorf("got %s, want %s", got[i], w)
		}
	}
	helpful(t, found)
}
