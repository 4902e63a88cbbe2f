package inrow

import (
	"strings"
	"testing"
)

// What was written is read as it was; of what is cut short anywhere, it is told.
func TestReadAgain(t *testing.T) {
	numbers, texts := []int{0, -1, 300, 1 << 40}, []string{"", "heel", strings.Repeat("ü", 300)}
	var w Writer
	for _, n := range numbers {
		w.Number(n)
	}
	for _, s := range texts {
		w.Text(s)
	}
	w.Raw("end")
	r := Reader{S: string(w.B)}
	for _, want := range numbers {
		if got := r.Number(); got != want {
			t.Errorf("%d, want %d", got, want)
		}
	}
	for _, want := range texts {
		if got := r.Text(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if got := r.Raw(3); got != "end" || !r.Whole() {
		t.Errorf("at the end %q, and %q is left", got, r.S)
	}
	for n := range w.B {
		r := Reader{S: string(w.B[:n])}
		for range numbers {
			r.Number()
		}
		for range texts {
			r.Text()
		}
		if r.Raw(3); r.Whole() {
			t.Errorf("cut after %d bytes, it is whole", n)
		}
	}
}
