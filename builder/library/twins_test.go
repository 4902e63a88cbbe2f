package library

import (
	"slices"
	"testing"
)

func TestAlike(t *testing.T) {
	for _, row := range []struct {
		a, b string
		want bool
	}{
		{"What would help my toe clear the floor?", "Will my toe clear the floor when my leg swings?", true},
		{"Who could help me pay for a sport foot?", "Where could I get help to pay?", true},
		{"How many people like me have you fit with this kind of foot?", "Have you fit this kind of foot on people built like me?", true},
		{"Can we practice curbs in my own shoes?", "Did we practice a curb with my own shoe?", true},
		{"Can I stop on a slope?", "Will this foot let me stop as slopes get wet?", true},
		{"What could my knee do if I change shoes?", "Is it easier to change shoes with the leg on or off?", false}, // two of three
		{"What walking level is in my chart?", "When will my walking level be looked at again?", false},             // two of three
		{"What foot shells could go on my foot?", "How will I know that my shell is worn out?", false},              // one word in common
		{"What will this foot not do for me?", "What would I do if my foot gets wet?", false},                       // no word of its own
	} {
		if got := alike(contentWords(row.a), contentWords(row.b)); got != row.want {
			t.Errorf("alike(%q, %q) = %v: %q and %q", row.a, row.b, got, contentWords(row.a), contentWords(row.b))
		}
		if alike(contentWords(row.a), contentWords(row.b)) != alike(contentWords(row.b), contentWords(row.a)) {
			t.Errorf("%q and %q are alike in one order only", row.a, row.b)
		}
	}
}

func TestContentWords(t *testing.T) {
	got := contentWords("I'm told my child’s {side-slope} stops me, stopping at shoes and a shoe: is it so?")
	if want := []string{"told", "child", "{side-slope}", "stop", "sho"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}
