// Package prose counts sentences, words and syllables, and gives reading
// grades from the counts. A grade is a smoke alarm, not a verdict: it is for
// whole pages, and swings on a few words.
package prose

import (
	"math"
	"strings"
)

// Highest grades of a page for patients: below 7 by Flesch-Kincaid, and below
// 9.5 by SMOG, which gives about three grades more for the same text (Grabeel
// 2018, J Med Libr Assoc: 148 leaflets, 6.5 and 9.6).
const (
	MaxGrade = 6.9
	MaxSMOG  = 9.5 // a page stays below it
)

// Judges tells whether there are formulas here for a language. Measures of English run lower on
// others, so no grade is better than one of those.
func Judges(lang string) bool { return lang == "en" || strings.HasPrefix(lang, "en-") }

// Counts is what the formulas need. Long counts words of three or more syllables.
type Counts struct {
	Sentences, Words, Syllables, Long int
}

// Of counts running text, given passage by passage; see Split.
func Of(passages []string) Counts {
	var c Counts
	for _, s := range Split(passages) {
		c = c.plus(s.Counts)
	}
	return c
}

func (c Counts) plus(d Counts) Counts {
	return Counts{c.Sentences + d.Sentences, c.Words + d.Words, c.Syllables + d.Syllables, c.Long + d.Long}
}

func (c Counts) minus(d Counts) Counts {
	return Counts{c.Sentences - d.Sentences, c.Words - d.Words, c.Syllables - d.Syllables, c.Long - d.Long}
}

// wordCounts counts a run of words as one sentence.
func wordCounts(words []string) Counts {
	c := Counts{Sentences: 1, Words: len(words)}
	for _, w := range words {
		n := Syllables(w)
		c.Syllables += n
		if n >= 3 {
			c.Long++
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

// SMOG is the SMOG grade. Source: McLaughlin 1969, J Reading 12:639.
func (c Counts) SMOG() float64 {
	if c.Sentences == 0 {
		return 0
	}
	return 1.0430*math.Sqrt(float64(c.Long)*30/float64(c.Sentences)) + 3.1291
}
