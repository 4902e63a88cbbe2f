package library

import (
	"fmt"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// Both sides of a foot type get the same detail, so that the page leans neither
// way: in items and in words the smaller side has at least three quarters of
// the larger. Two short sentences can miss that by a word, so at an ending
// sides that are at most three words apart are equal as well.
const slackWords = 3

// even tells whether two counts are within a quarter of the larger.
func even(a, b int) bool { return 4*min(a, b) >= 3*max(a, b) }

func (c *checker) sidesOfType(t *FootType) {
	if len(t.Gain) == 0 || len(t.GiveUp) == 0 {
		return // reported as missing
	}
	if a, b := len(t.Gain), len(t.GiveUp); !even(a, b) {
		c.uneven(t.GiveUp[0].At, fmt.Sprintf("foot type %q", t.ID.S), "items", a, b)
	}
	if a, b := wordsIn(t.Gain...), wordsIn(t.GiveUp...); !even(a, b) {
		c.uneven(t.GiveUp[0].At, fmt.Sprintf("foot type %q", t.ID.S), "words", a, b)
	}
}

func (c *checker) sidesOfEnding(e *tree.Ending) {
	for _, talk := range e.Types {
		c.sidesOf(talk, fmt.Sprintf("ending %q", e.ID.S))
	}
}

func (c *checker) sidesOf(talk tree.Talk, whose string) {
	a, b := wordsIn(briefly(talk.For)), wordsIn(briefly(talk.Against))
	if a > 0 && b > 0 && !even(a, b) && max(a, b)-min(a, b) > slackWords {
		c.uneven(talk.Against.At, fmt.Sprintf("foot type %q of %s", talk.Type.S, whose), "words", a, b)
	}
}

// naming is how the other voices name the wearer, where the reader's own has one word.
var naming = strings.NewReplacer("the person you care for", "they", "The person you care for", "They", "your child", "they", "Your child", "They")

// briefly is a text with one word for the wearer, so that a side weighs the same in each voice.
func briefly(t read.Text) read.Text {
	t.S = naming.Replace(t.S)
	return t
}

func (c *checker) uneven(at finding.Place, who, what string, plus, minus int) {
	c.list.Add(at, "uneven-sides", fmt.Sprintf("%s has %d %s for it and %d against it", who, plus, what, minus),
		"say as much of what it gives as of what it takes: the shorter side has at least three quarters of the longer",
		"add to the shorter side, or tighten the longer one; do not pad")
}

func wordsIn(ts ...read.Text) int {
	n := 0
	for _, t := range ts {
		n += len(strings.Fields(t.S))
	}
	return n
}
