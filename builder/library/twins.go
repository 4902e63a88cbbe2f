package library

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"keelpath/builder/internal/memo"
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
	for i, p := range all {
		for _, q := range all[:i] {
			if p.ID.S == q.ID.S || !alike(p.Ask.S, q.Ask.S) || c.apart(p, q) {
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

func alike(a, b string) bool {
	one, other := contentWords(a), contentWords(b)
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
var idleWords = strings.Fields(`a an the this that these those it its i i'm me my mine we our us you your he she his her they them
	am is are was were be been being do does did done don't doesn't have has had can can't could may might will won't would shall should must
	to of in on at for from with by as about over into onto up down out off through and or but if so than then
	what which who whom whose when where why how there here any some no not more most less much many very too also still
	get gets go goes going put make makes take takes foot feet leg legs able`)

var wordOfAsk = regexp.MustCompile(`\{[a-z0-9-]+\}|[a-z][a-z'-]*[a-z]|[a-z]`)

// contentWords gives the words of a prompt that tell what it is about, each once and
// without its ending: "shoes" and "shoe" are one.
var contentWords = memo.Of(func(ask string) []string {
	var out []string
	for _, w := range wordOfAsk.FindAllString(strings.ReplaceAll(strings.ToLower(ask), "’", "'"), -1) {
		w = strings.TrimSuffix(w, "'s")
		if slices.Contains(idleWords, w) {
			continue
		}
		if w = bare(w); !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	return out
})

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
