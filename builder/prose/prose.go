// Package prose counts sentences, words and syllables, and gives reading
// grades from the counts. A grade is a smoke alarm, not a verdict: it is for
// whole pages, and swings on a few words.
package prose

import (
	"math"
	"strings"
	"unicode"
)

// Counts is what the formulas need. Long counts words of three or more syllables.
type Counts struct {
	Sentences, Words, Syllables, Long int
}

// Of counts a text given block by block: paragraphs, list entries, headings,
// cells. A block ends a sentence even where it has no full stop.
func Of(blocks []string) Counts {
	var c Counts
	for _, b := range blocks {
		for _, s := range Sentences(b) {
			words := wordsOf(s)
			if len(words) == 0 {
				continue
			}
			c.Sentences++
			c.Words += len(words)
			for _, w := range words {
				n := Syllables(w)
				c.Syllables += n
				if n >= 3 {
					c.Long++
				}
			}
		}
	}
	return c
}

// Grade is the Flesch-Kincaid grade: the US school year that can read the text.
// Source: Kincaid, Fishburne, Rogers, Chissom 1975, Research Branch Report 8-75.
func (c Counts) Grade() float64 {
	if c.Sentences == 0 || c.Words == 0 {
		return 0
	}
	return 0.39*float64(c.Words)/float64(c.Sentences) + 11.8*float64(c.Syllables)/float64(c.Words) - 15.59
}

// Ease is the Flesch reading ease: higher is easier, about 0 to 100.
// Source: Flesch 1948, J Appl Psychol 32:221.
func (c Counts) Ease() float64 {
	if c.Sentences == 0 || c.Words == 0 {
		return 0
	}
	return 206.835 - 1.015*float64(c.Words)/float64(c.Sentences) - 84.6*float64(c.Syllables)/float64(c.Words)
}

// SMOG is the SMOG grade. Source: McLaughlin 1969, J Reading 12:639.
func (c Counts) SMOG() float64 {
	if c.Sentences == 0 {
		return 0
	}
	return 1.0430*math.Sqrt(float64(c.Long)*30/float64(c.Sentences)) + 3.1291
}

// Sentences cuts a block at full stops, question and exclamation marks that a
// space or the block's end follows, so a decimal point does not cut.
func Sentences(block string) []string {
	var out []string
	rs := []rune(block)
	from := 0
	for i, r := range rs {
		if !strings.ContainsRune(".?!", r) {
			continue
		}
		if end := i + 1; end == len(rs) || unicode.IsSpace(rs[end]) || strings.ContainsRune(`"')”’`, rs[end]) {
			out = append(out, strings.TrimSpace(string(rs[from:end])))
			from = end
		}
	}
	if rest := strings.TrimSpace(string(rs[from:])); rest != "" {
		out = append(out, rest)
	}
	return out
}

// wordsOf gives the words of a sentence. A hyphenated word is one word (SMOG's
// rule); what has no letter is none.
func wordsOf(s string) []string {
	var out []string
	for _, f := range strings.FieldsFunc(s, func(r rune) bool { return unicode.IsSpace(r) || r == '/' || r == '—' || r == '–' }) {
		f = strings.TrimFunc(f, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
		if strings.ContainsFunc(f, unicode.IsLetter) {
			out = append(out, f)
		}
	}
	return out
}
