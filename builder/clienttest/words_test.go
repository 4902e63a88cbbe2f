package clienttest_test

import (
	"testing"

	"keelpath/builder/clienttest"
)

// The sheet's date is that of the page's words, whatever language the browser is set to.
func TestMade(t *testing.T) {
	var got string
	if err := clienttest.Load(t, "words/words.ts").Run(`script.made(new Date(2026, 10, 5))`, &got); err != nil || got != "Made on 5 November 2026" {
		t.Errorf("%q (%v)", got, err)
	}
}
