package prose

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Sentence is one sentence of running text. From is where it begins in its
// passage, in bytes. Where fragments were read on, it goes over several.
type Sentence struct {
	Text    string
	Passage int
	From    int
	Counts
}

// Split cuts running text into sentences: strings of words up to a full stop, a
// question mark or an exclamation mark (McLaughlin 1969). That is the whole
// rule. A colon, a semicolon and the end of a line or of a list entry end
// nothing, so a passage without an end mark runs on into the next one, and a
// list of phrases counts as the one long sentence it is: lists cannot make a
// text look easier than it is. An empty passage is a break, as a heading makes
// one; what is still open there ends.
//
// Headings, labels and cells of tables are not running text. Callers leave them
// out.
func Split(passages []string) []Sentence {
	out := Sentences(passages)
	for i := range out {
		out[i].Counts = wordCounts(wordsOf(out[i].Text))
	}
	return out
}

// Sentences is Split without the counts, which take most of its time.
func Sentences(passages []string) []Sentence {
	var out []Sentence
	var open *Sentence
	shut := func() {
		if open != nil && strings.ContainsFunc(open.Text, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) {
			out = append(out, *open)
		}
		open = nil
	}
	for i, p := range passages {
		if strings.TrimSpace(p) == "" {
			shut()
			continue
		}
		for from := 0; from < len(p); {
			n, ends := sentenceEnd(p[from:])
			part := p[from : from+n]
			if text := strings.TrimSpace(part); text != "" {
				if open == nil {
					open = &Sentence{Passage: i, From: from + strings.Index(part, text), Text: text}
				} else {
					open.Text += " " + text
				}
			}
			if ends {
				shut()
			}
			from += n
		}
	}
	shut()
	return out
}

// sentenceEnd gives the length of the first sentence of s with its end mark and
// the quotes or brackets behind it, and whether there is an end mark. A point
// that no space follows is none, nor one before a small letter: "8.33", "e.g. a".
func sentenceEnd(s string) (n int, ends bool) {
	for at := 0; at < len(s); {
		i := strings.IndexAny(s[at:], ".?!")
		if i < 0 {
			break
		}
		from := at + i
		marks := len(s) - len(strings.TrimLeft(s[from:], ".?!"))
		behind := len(s) - len(strings.TrimLeft(s[marks:], `"'”’)]`))
		rest := strings.TrimLeft(s[behind:], "\t\n\f\r ")
		end := len(s) - len(rest)
		at = marks
		if end == behind && rest != "" {
			continue // nothing parts it from what follows
		}
		next, _ := utf8.DecodeRuneInString(strings.TrimLeftFunc(rest, unicode.IsSpace))
		if s[from] == '.' && unicode.IsLower(next) {
			continue
		}
		return end, true
	}
	return len(s), false
}

// Heaviest gives the sentences whose loss would lower the grade most, the
// heaviest first; grade is Counts.Grade or Counts.SMOG.
func Heaviest(all []Sentence, grade func(Counts) float64, most int) []Sentence {
	var whole Counts
	for _, s := range all {
		whole = whole.plus(s.Counts)
	}
	out := slices.DeleteFunc(slices.Clone(all), func(s Sentence) bool { return grade(whole.minus(s.Counts)) >= grade(whole) })
	slices.SortStableFunc(out, func(a, b Sentence) int {
		return cmp.Compare(grade(whole.minus(a.Counts)), grade(whole.minus(b.Counts)))
	})
	return out[:min(most, len(out))]
}

// wordsOf gives the words of a sentence. A hyphenated word is one word, and a
// number is a word, read aloud (both are SMOG's rules).
func wordsOf(s string) []string {
	out := make([]string, 0, len(s)/5+1)
	for f := range strings.FieldsFuncSeq(s, func(r rune) bool { return unicode.IsSpace(r) || r == '/' || r == '—' || r == '–' }) {
		f = strings.TrimFunc(f, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '%' && r != '°' })
		if strings.ContainsFunc(f, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) {
			out = append(out, f)
		}
	}
	return out
}
