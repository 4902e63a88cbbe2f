package library

import (
	"fmt"
	"iter"
	"slices"
	"strings"

	"keelpath/builder/read"
)

// How alike two prompts are is the share of the content words of the shorter one that
// the other has as well. Three quarters is where pairs that ask one thing began among
// the prompts of 2026, as "What would help my toe clear the floor?" and "Will my toe
// clear the floor when my leg swings?" do; at two thirds, half of the pairs ask two
// things. One word in common says nothing: many prompts are short.
const (
	twinShare = 0.75
	twinWords = 2
)

// twins reports prompts that ask almost the same where one sheet can bring both. A
// reader may take any topics together, and may add any prompt of a theme that an
// ending names, so every two prompts are held against each other but those of which
// a fact leaves one out.
func (c *checker) twins() {
	all := c.Prompts()
	words := make([][]string, len(all))
	for i, p := range all {
		words[i] = contentWords(p.Ask.S)
		for n, q := range all[:i] {
			if p.ID.S == q.ID.S || !alike(words[i], words[n]) || c.apart(p, q) {
				continue
			}
			c.list.Add(p.Ask.At, "near-twins", fmt.Sprintf("prompt %q asks almost the same as prompt %q, and one sheet can bring both", p.ID.S, q.ID.S),
				fmt.Sprintf("the other is at %s: %q", q.Ask.At, q.Ask.S), "let each ask something of its own, or bring one of them in both places")
		}
	}
}

// apart tells whether no reader can be brought both: one presumes what makes the
// other needless, or they presume two facts of which only one can be true.
func (c *checker) apart(p, q *Prompt) bool {
	shared := func(some, all []read.Text) bool {
		return slices.ContainsFunc(some, func(t read.Text) bool { return slices.Contains(read.Strings(all), t.S) })
	}
	if shared(p.Presumes, q.Unless) || shared(q.Presumes, p.Unless) {
		return true
	}
	return slices.ContainsFunc(p.presumes(), func(one string) bool {
		return slices.ContainsFunc(q.presumes(), func(other string) bool {
			a, b := c.Fact(one), c.Fact(other)
			return a != nil && b != nil && a != b && a.Of.S != "" && a.Of.S == b.Of.S
		})
	})
}

// alike holds the content words of two prompts against each other.
func alike(one, other []string) bool {
	both := 0
	for _, w := range one {
		if slices.Contains(other, w) {
			both++
		}
	}
	return both >= twinWords && float64(both) >= twinShare*float64(min(len(one), len(other)))
}

// idleWords tell nothing of what a prompt is about: the small words of a question, and
// the foot and the leg, which are what all of them are about.
var idleWords = setOf(strings.Fields(`a an the this that these those it its i i'm me my mine we our us you your he she his her they them
	am is are was were be been being do does did done don't doesn't have has had can can't could may might will won't would shall should must
	to of in on at for from with by as about over into onto up down out off through and or but if so than then
	what which who whom whose when where why how there here any some no not more most less much many very too also still
	get gets go goes going put make makes take takes foot feet leg legs able`))

func setOf(words []string) map[string]bool {
	out := map[string]bool{}
	for _, w := range words {
		out[w] = true
	}
	return out
}

// contentWords gives the words of a prompt that tell what it is about, each once and
// without its ending: "shoes" and "shoe" are one.
func contentWords(ask string) []string {
	var out []string
	for w := range wordsOfAsk(strings.ReplaceAll(strings.ToLower(ask), "’", "'")) {
		w = strings.TrimSuffix(w, "'s")
		if idleWords[w] {
			continue
		}
		if w = bare(w); !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	return out
}

// wordsOfAsk gives the words of a text in small letters, from the first letter to the last,
// and the gaps as they stand.
func wordsOfAsk(s string) iter.Seq[string] {
	letter := func(c byte) bool { return 'a' <= c && c <= 'z' }
	return func(yield func(string) bool) {
		for i := 0; i < len(s); i++ {
			end := i // of the word or the gap
			switch {
			case letter(s[i]):
				end = i + 1
				for n := end; n < len(s) && (letter(s[n]) || s[n] == '-' || s[n] == '\''); n++ {
					if letter(s[n]) {
						end = n + 1
					}
				}
			case s[i] == '{':
				if n := strings.IndexByte(s[i:], '}'); n > 1 && strings.Trim(s[i+1:i+n], "abcdefghijklmnopqrstuvwxyz0123456789-") == "" {
					end = i + n + 1
				}
			}
			if end > i {
				if !yield(s[i:end]) {
					return
				}
				i = end - 1
			}
		}
	}
}

// bare takes the ending off a word, roughly: it has to make one word of two forms, and
// need not give a word that there is.
func bare(w string) string {
	for _, end := range []string{"ing", "ed", "es", "s"} {
		if short, has := strings.CutSuffix(w, end); has && len(short) > 2 {
			w = short
			break
		}
	}
	if n := len(w); n > 3 && w[n-1] == w[n-2] {
		w = w[:n-1]
	}
	return strings.TrimSuffix(w, "e")
}
