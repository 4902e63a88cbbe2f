package publish

import (
	"cmp"
	"slices"
	"strings"

	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/say"
)

// glossaryView lists the words in the order of the alphabet.
type glossaryView struct {
	PageView
	Letters []letterView
}

type letterView struct {
	Letter string
	Words  []entryView
}

type entryView struct {
	ID, Word, Meaning string
	Also              []string
}

func glossaryModel(v viewer, _ plan.Page) (any, error) {
	return glossaryView{PageView: v.view, Letters: letters(v.say(), v.shelf.Words())}, nil
}

func letters(in *say.Words, words []*library.Word) []letterView {
	words = slices.Clone(words)
	order, same := in.Order(), in.SameLetter()
	slices.SortStableFunc(words, func(a, b *library.Word) int {
		return cmp.Or(order(a.Word.S, b.Word.S), cmp.Compare(a.ID.S, b.ID.S))
	})
	var out []letterView
	for _, w := range words {
		letter := string([]rune(w.Word.S)[:1])
		if len(out) == 0 || !same(out[len(out)-1].Letter, letter) {
			out = append(out, letterView{Letter: in.Capital(letter)})
		}
		last := &out[len(out)-1]
		last.Words = append(last.Words, entryView{w.ID.S, w.Word.S, w.Meaning.S, otherNames(w)})
	}
	return out
}

// otherNames leaves out forms of a name that is there already ("keels"): they
// help the search for words in a text, not the reader.
func otherNames(w *library.Word) []string {
	names := []string{w.Word.S}
	for _, a := range w.Also {
		if !slices.ContainsFunc(names, func(n string) bool { return strings.Contains(flat(a.S), stem(n)) }) {
			names = append(names, a.S)
		}
	}
	return names[1:]
}

// flat gives a name without capitals, spaces and hyphens, so that "re-alignment"
// holds "align".
func flat(name string) string {
	return strings.NewReplacer("-", "", " ", "").Replace(strings.ToLower(name))
}

// stem is the part of a name that its forms share: its first letters.
func stem(name string) string {
	letters := []rune(flat(name))
	return string(letters[:min(len(letters), 5)])
}
