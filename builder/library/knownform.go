package library

import (
	"keelpath/builder/finding"
	"keelpath/builder/internal/inrow"
	"keelpath/builder/read"
)

// knownWriter writes what is known of texts and places.
type knownWriter struct{ inrow.Writer }

func (w *knownWriter) texts(all []string) {
	w.Number(len(all))
	for _, s := range all {
		w.Text(s)
	}
}

// placed writes a text with its place, but for its file.
func (w *knownWriter) placed(t read.Text) {
	w.Text(t.S)
	w.Number(t.At.Line)
	w.Number(t.At.Col)
	w.Number(t.Inside)
}

// knownReader reads what a knownWriter wrote.
type knownReader struct {
	inrow.Reader
	file string // of the places
}

func (r *knownReader) texts() []string {
	var out []string
	for range r.many() {
		out = append(out, r.Text())
	}
	return out
}

// many is number for how many things follow: each takes a byte at least.
func (r *knownReader) many() int {
	n := r.Number()
	if n < 0 || n > len(r.S) {
		r.Bad = true
		return 0
	}
	return n
}

func (r *knownReader) print() (out print) {
	copy(out[:], r.Raw(len(out)))
	return out
}

// placed reads a text with its place. A text that was not given has none.
func (r *knownReader) placed() read.Text {
	t := read.Text{S: r.Text(), At: finding.Place{File: r.file, Line: r.Number(), Col: r.Number()}, Inside: r.Number()}
	if t.At.Line == 0 {
		t.At = finding.Place{}
	}
	return t
}
