package search

import (
	"maps"
	"slices"
	"strings"
)

// Sign is a sign of the safety screen and how people say it. A wording is words that all have to be
// there, in any order; of words with a stroke between them one is enough: "chest hurt/pain/tight".
type Sign struct {
	ID   string
	Says []string
}

// SignsSaid is what a page needs to know the signs by. It has every form of each word, so that no index is
// needed for a sign to be seen.
type SignsSaid struct {
	Words string     `json:"words"` // as in First
	Signs []SignSaid `json:"signs"` // the gravest first
}

// SignSaid has a wording as words, and each word as the places of the stems that will do.
type SignSaid struct {
	ID   string    `json:"id"`
	Says [][][]int `json:"says"`
}

// SignsOf codes how signs are said.
func SignsOf(lang string, signs []Sign) SignsSaid {
	forms, all, entered := map[string]map[string]bool{}, stemsOf(lang), map[string]bool{}
	each(signs, func(word string) {
		if entered[word] {
			return
		}
		entered[word] = true
		s := all.of(word)
		if forms[s] == nil {
			forms[s] = map[string]bool{}
		}
		for _, f := range all.forms(word) {
			forms[s][f] = true
		}
	})
	var out SignsSaid
	var table []string
	place := map[string]int{}
	for i, s := range slices.Sorted(maps.Keys(forms)) {
		place[s] = i
		table = append(table, frontCoded(slices.Sorted(maps.Keys(forms[s]))))
	}
	out.Words = strings.Join(table, "|")
	for _, s := range signs {
		said := SignSaid{ID: s.ID}
		for _, wording := range s.Says {
			var words [][]int
			for _, some := range Wording(wording) {
				var stems []int
				for _, word := range some {
					stems = append(stems, place[all.of(word)])
				}
				words = append(words, stems)
			}
			said.Says = append(said.Says, words)
		}
		out.Signs = append(out.Signs, said)
	}
	return out
}

// Wording parts a wording into its words, and each into those that will do.
func Wording(s string) [][]string {
	var out [][]string
	for _, word := range strings.Fields(s) {
		var some []string
		for _, one := range strings.Split(word, "/") {
			some = append(some, Split(one)...)
		}
		if len(some) > 0 {
			out = append(out, some)
		}
	}
	return out
}

func each(signs []Sign, do func(word string)) {
	for _, s := range signs {
		for _, wording := range s.Says {
			for _, some := range Wording(wording) {
				for _, word := range some {
					do(word)
				}
			}
		}
	}
}
