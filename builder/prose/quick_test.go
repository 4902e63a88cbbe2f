package prose

import (
	"strings"
	"testing"
)

// Where mayPart is false the rules find nothing: in each word of a sample, and in words put together to meet each rule.
func TestMayPart(t *testing.T) {
	words := strings.Fields("fire fires fired tired settled handled sacred hundred prism prisms rhythm rhythms chaos poem layer foyer royal mayor react theatre " +
		"creation idea area video museum fuel cruel fluid ruin client science society radio lion million onion senior behaviour liar people jeopardy leopard persuade friend " +
		"walk walked stretch knee strength ankle gym myth red led sms why rhyme eye by")
	for _, front := range []string{"", "b", "br", "a", "y"} {
		for _, mid := range []string{"ia", "io", "iat", "eou", "eo", "ua", "uel", "uen", "ui", "ing", "iet", "ien", "iest", "ier", "poe", "coop", "chao", "eyo", "oya", "ire", "led", "red", "sm", "thm", "gian", "ium", "uous", "nion"} {
			for _, end := range []string{"", "s", "d", "e", "t"} {
				words = append(words, front+mid+end)
			}
		}
	}
	found := 0
	for _, w := range words {
		n := len(two.FindAllStringIndex(w, -1)) + len(one.FindAllStringIndex(w, -1))
		if n > 0 {
			found++
		}
		if n > 0 && !mayPart(w) {
			t.Errorf("%q is parted by a rule", w)
		}
	}
	if found < 100 || mayPart("strength") {
		t.Errorf("of %d words, rules find something in %d", len(words), found)
	}
}
