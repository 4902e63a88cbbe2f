package memo

import (
	"strconv"
	"testing"
)

func TestOf(t *testing.T) {
	worked := 0
	length := Of(func(text string) int { worked++; return len(text) })
	for range 3 {
		for _, text := range []string{"", "a", "keel"} {
			if n := length(text); n != len(text) {
				t.Errorf("%q has %d letters, and %d was given", text, len(text), n)
			}
		}
	}
	if worked != 3 {
		t.Errorf("three texts were worked out %d times", worked)
	}
	for n := range most + 5 { // and it forgets rather than grow without end
		length(strconv.Itoa(n))
	}
	if length("a"); worked < most+5 {
		t.Errorf("worked out %d times", worked)
	}
}
