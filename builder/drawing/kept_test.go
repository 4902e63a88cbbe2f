package drawing

import "testing"

// A drawing that is kept has the markup that it has otherwise, and another where its words are
// others or it is shown by another id.
func TestKept(t *testing.T) {
	made := 0
	d := Drawing{ID: "a", Title: "A", Long: "B", Width: 10, Height: 10, make: func(*canvas) { made++ }}
	bare, kept := d.SVG(""), d.Kept()
	made = 0
	for range 3 {
		if got := kept.SVG(""); got != bare {
			t.Errorf("kept, it is %s", got)
		}
	}
	if made != 1 {
		t.Errorf("it was drawn %d times", made)
	}
	if other := kept.SVG("x"); other == bare || other != d.SVG("x") {
		t.Errorf("by another id it is %s", other)
	}
	kept.Long, d.Long = "C", "C"
	if other := kept.SVG(""); other == bare || other != d.SVG("") {
		t.Errorf("with other words it is %s", other)
	}
}
