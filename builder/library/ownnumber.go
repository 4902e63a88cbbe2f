package library

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	quick "keelpath/builder/internal/among"
)

// ownNumbersOn goes by the lines of the file: in the page's text the words of the
// edition stand already.
func (c *checker) ownNumbersOn(p *explainer.Page) {
	inHeader := 2 // lines "---" to come
	i := -1
	for line := range strings.SplitSeq(string(c.files[p.File]), "\n") {
		i++
		if inHeader > 0 {
			if strings.TrimRight(line, "\r") == "---" {
				inHeader--
			}
			continue
		}
		c.ownNumber("the page", line, func(offset int) finding.Place {
			return finding.Place{File: p.File, Line: i + 1, Col: len([]rune(line[:offset])) + 1}
		})
	}
}

// ownNumber reports a text that spells out whom to call in an emergency or a crisis.
// The edition says that once, and a text names it; otherwise a clinic elsewhere
// would leave a number in a text that is not its own.
func (c *checker) ownNumber(who, text string, place func(int) finding.Place) {
	for _, at := range ownNumberIn(text) {
		c.list.Add(place(at[0]), "own-number", fmt.Sprintf("%s spells out %q, and the edition says whom to call", who, text[at[0]:at[1]]),
			`name the line, and its words and number stand there: "[](call:emergency)", "[](call:crisis)" or "[](call:urgent)"`)
	}
}

var (
	ownWords = regexp.MustCompile(`(?i)\blocal emergency (?:number|line)s?\b`)
	dialling = regexp.MustCompile(`(?i)\b(?:call|dial|text|phone|ring)(?:ing|s)?(?: or (?:call|dial|text))?(?: the)?(?: number)? (?:911|988|112|999|111|000)\b`)
	famous   = regexp.MustCompile(`(^|[^0-9A-Za-z.,:/-])(911|988)(?:$|[.,](?:$|[^0-9])|[^0-9A-Za-z%/.,-])\s*([a-z%]*)`)
)

// mayOwn is false where no number to call and no words for one stand, which most texts
// show at a look.
func mayOwn(text string) bool {
	in := ownStems().In(text)
	return !in.None()
}

var ownStems = sync.OnceValue(func() *quick.Finder {
	return quick.New([]string{"emergency", "911", "988", "112", "999", "111", "000"})
})

// counted are words behind a number that make it a count.
var counted = []string{"people", "persons", "adults", "patients", "children", "users", "walkers", "wearers", "steps", "feet", "legs", "studies", "texts", "%", "g", "kg", "lb", "mm", "cm", "m"}

// ownNumberIn gives where a text spells out a number to call, or the words for one.
func ownNumberIn(text string) [][]int {
	if !mayOwn(text) {
		return nil
	}
	out := append(ownWords.FindAllStringIndex(text, -1), dialling.FindAllStringIndex(text, -1)...)
	for _, m := range famous.FindAllStringSubmatchIndex(text, -1) {
		count := slices.Contains(counted, text[m[6]:m[7]])
		known := slices.ContainsFunc(out, func(o []int) bool { return o[0] <= m[4] && m[5] <= o[1] })
		if !count && !known {
			out = append(out, m[4:6])
		}
	}
	return out
}
