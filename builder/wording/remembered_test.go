package wording

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
)

// What is found the second time is what was found the first, for each list of words by itself, and whoever changes it changes no other's.
func TestRemembered(t *testing.T) {
	for _, text := range []string{"We recommend this foot for you.", "The best foot on the market.", "A heel that is soft.", ""} {
		want := in(text)
		for range 2 {
			got := In(text)
			if len(got) != len(want) || len(want) > 0 && !reflect.DeepEqual(got, want) {
				t.Fatalf("%q: %v, want %v", text, got, want)
			}
			for i := range got {
				got[i].Words = "changed"
			}
		}
	}
	if len(in("We recommend this foot for you.")) == 0 {
		t.Error("nothing is found at all")
	}
	text := "The prothesis and the colour of the tyre."
	for range 2 {
		for _, place := range []string{"", "the US"} {
			if got, want := Settled(text, place), settled(text, place); len(got) != len(want) || len(want) > 0 && !reflect.DeepEqual(got, want) {
				t.Errorf("in %q: %v, want %v", place, got, want)
			}
		}
	}
	if reflect.DeepEqual(settled(text, ""), settled(text, "the US")) {
		t.Error("the lists of two places find the same, so the sample shows nothing")
	}
}

// However many texts there are, what is kept of them is bounded.
func TestRememberedIsBounded(t *testing.T) {
	for i := range 200 {
		In(fmt.Sprint(i, strings.Repeat(" a soft heel", 4000)))
		kept := 0
		for of := range remembered.by {
			kept += len(of.text)
		}
		if kept > mostRemembered || kept != remembered.size {
			t.Fatalf("%d bytes of texts are kept, and %d are counted", kept, remembered.size)
		}
	}
}
