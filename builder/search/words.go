package search

import (
	"encoding/json"
	"slices"
	"strings"
	"sync"
	"unicode"

	"github.com/kljensen/snowball/english"
	"github.com/kljensen/snowball/spanish"
)

// Split gives the words of a text as the index knows them: small letters, no marks. The
// client's words in site/client/find/table.ts are the same.
func Split(text string) []string {
	text = straight.Replace(strings.ToLower(text))
	var out []string
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsNumber(r) && r != '\'' }) {
		w = strings.TrimSuffix(strings.Trim(w, "'"), "'s")
		if w = strings.ReplaceAll(w, "'", ""); w != "" {
			out = append(out, w)
		}
	}
	return out
}

// straight puts a straight apostrophe for each curved one.
var straight = strings.NewReplacer("’", "'", "‘", "'")

// stemmers are those of the languages that have one; the stems are those of Porter's
// algorithms in Snowball.
var stemmers = map[string]func(word string, stopWords bool) string{"en": english.Stem, "es": spanish.Stem}

// Stem gives what the forms of a word share; in a language without a stemmer, the word itself.
func Stem(lang, word string) string {
	base, _, _ := strings.Cut(lang, "-")
	if stem := stemmers[base]; stem != nil {
		return stem(word, true)
	}
	return word
}

// stems remembers the stem of each word of a language: a site says few words, each of them often, and to work out a stem takes long.
type stems struct {
	lang  string
	known map[string]string
}

func stemsOf(lang string) stems { return stems{lang, map[string]string{}} }

// of is Stem, remembered: here without waiting for anybody, and in stemmed for the next index.
func (s stems) of(word string) string {
	if stem, ok := s.known[word]; ok {
		return stem
	}
	key := stemKey{s.lang, word}
	if stem, ok := stemmed.Load(key); ok {
		s.known[word] = stem.(string)
		return stem.(string)
	}
	stem := Stem(s.lang, word)
	s.known[word] = stem
	if len(word) <= longestKept {
		key.word = strings.Clone(word)
		stemmed.Store(key, stem)
	}
	return stem
}

// stemmed keeps the stems of words while the program runs: one who writes builds the site again and again. It grows with the words
// of the language and not with the texts.
var stemmed sync.Map

type stemKey struct{ lang, word string }

// longestKept is the longest word whose stem is kept, in bytes. What is longer is hardly said twice.
const longestKept = 32

// endings are what is put behind a word, or behind it without its last letter, in English. Which of these are
// forms of the word, its stem tells.
var endings = []string{"", "s", "es", "ed", "d", "ing", "er", "ers", "ly", "y", "ies", "ied"}

// forms gives a word, and others that it may be written as, which have the same stem. Some of them nobody
// writes, which does no harm.
func (s stems) forms(word string) []string {
	out := []string{word}
	stem := s.of(word)
	n := len(word)
	if n < 3 {
		return out
	}
	for _, base := range []string{word, word[:n-1], word + word[n-1:]} {
		for _, end := range endings {
			if form := base + end; len(form) >= n-1 && s.of(form) == stem && !slices.Contains(out, form) && base+end != word[:n-1] {
				out = append(out, form)
			}
		}
	}
	return out
}

// Call is what every script of the index calls.
const Call = "keelpathFound"

// script makes a script of the index.
func script(kind, name string, brings any) []byte {
	text, err := json.Marshal(brings)
	if err != nil {
		panic("search: " + err.Error()) // of texts and numbers alone
	}
	quoted, _ := json.Marshal(name)
	return slices.Concat([]byte(Call+`("`+kind+`",`), quoted, []byte(","), text, []byte(")\n"))
}
