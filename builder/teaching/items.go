package teaching

import (
	"fmt"
	"path"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"keelpath/builder/finding"
)

// banned are words that give an option away, or make one guess what is meant: absolutes, negatives and vague
// frequencies (the National Board's guide of 2020, as a checklist after it has them).
var banned = []string{"always", "never", "all", "none", "only", "must", "except", "not", "usually", "often", "rarely", "sometimes", "may"}

// Limits of cues. A key that is longer than the others gives itself away (Pham 2018: one of few flaws that acted as predicted).
const (
	mostOfMean = 1.25 // a key's length, of the mean of the others
	cueLetters = 5    // of a word that the stem and the key alone share
)

// item holds the wording of options to the rules of item writers.
func (p *prover) item(b *Beat) {
	for _, o := range b.Options {
		for _, w := range wordsOf(o.Text.S) {
			if slices.Contains(banned, w) {
				p.list.Add(o.Text.At, "item-word", fmt.Sprintf("option %q of beat %q says %q", o.ID.S, b.ID.S, w), "say it without the word: absolutes, negatives and vague frequencies cue or confuse")
			}
		}
		if b.IsKey(o) {
			p.cue(b, o)
		}
	}
	for _, w := range wordsOf(b.Lead.S) {
		if w == "except" || w == "not" {
			p.list.Add(b.Lead.At, "item-word", fmt.Sprintf("the lead of beat %q asks by what is not so: %q", b.ID.S, w), "ask for what is so")
		}
	}
}

// cue looks for a word that the stem shares with a key alone.
func (p *prover) cue(b *Beat, key *Option) {
	stem := wordsOf(b.Says.S + " " + b.Lead.S)
	var others []string
	for _, o := range b.Options {
		if o != key {
			others = append(others, wordsOf(o.Text.S)...)
		}
	}
	for _, w := range wordsOf(key.Text.S) {
		if utf8.RuneCountInString(w) >= cueLetters && slices.Contains(stem, w) && !slices.Contains(others, w) {
			p.list.Add(key.Text.At, "item-cue", fmt.Sprintf("of all options of beat %q only the key has the stem's word %q", b.ID.S, w), "use the word in another option too, or in none")
		}
	}
}

// length looks for a key that is longer than the others.
func (p *prover) length(b *Beat) {
	for _, o := range b.Options {
		if others := b.meanBeside(o); b.IsKey(o) && float64(len(o.Text.S)) > mostOfMean*others {
			p.list.Add(o.Text.At, "item-cue", fmt.Sprintf("the key of beat %q has %d letters, and the others %.0f on average", b.ID.S, len(o.Text.S), others), "shorten the key, or say as much in the others")
		}
	}
}

// meanBeside gives the mean length of the other options.
func (b *Beat) meanBeside(one *Option) float64 {
	sum := 0
	for _, o := range b.Options {
		if o != one {
			sum += len(o.Text.S)
		}
	}
	return float64(sum) / float64(len(b.Options)-1)
}

// longest tells whether no option is as long as the key.
func (b *Beat) longest() bool {
	for _, o := range b.Options {
		if b.IsKey(o) {
			return !slices.ContainsFunc(b.Options, func(other *Option) bool { return other != o && len(other.Text.S) >= len(o.Text.S) })
		}
	}
	return false
}

func wordsOf(s string) []string {
	return strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' })
}

// bankFrom is how many one-best-answer questions there have to be before a share of them says anything.
const bankFrom = 10

// Bank holds the one-best-answer questions of a folder together, since whoever adds cases in a layer can change those alone.
func Bank(cs []*Case, list *finding.List) {
	folders := map[string][]*Case{}
	for _, c := range cs {
		dir := path.Dir(c.ID.At.File)
		folders[dir] = append(folders[dir], c)
	}
	for _, own := range folders {
		longestKeys(own, list)
	}
}

// longestKeys tells of keys that are the longest option: chance makes them so in one of as many as there are options, and
// ten points more is the most that passes.
func longestKeys(cs []*Case, list *finding.List) {
	n, longest, chance := 0, 0, 0.0
	for b := range items(cs) {
		n++
		chance += 1 / float64(len(b.Options))
		if b.longest() {
			longest++
		}
	}
	if n < bankFrom || float64(longest) <= chance+float64(n)/10 {
		return
	}
	for b := range items(cs) {
		if b.longest() {
			list.Warn(b.ID.At, "item-cue", "the key is the longest option here, and in too many questions of the bank", "lengthen another option, or shorten the key, in some of them")
		}
	}
}
