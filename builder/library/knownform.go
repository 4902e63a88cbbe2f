package library

import (
	"encoding/binary"

	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// knownWriter writes numbers and texts one behind the other. They are read in the same order.
type knownWriter struct{ b []byte }

func (w *knownWriter) raw(s string) { w.b = append(w.b, s...) }

func (w *knownWriter) number(n int) { w.b = binary.AppendVarint(w.b, int64(n)) }

func (w *knownWriter) text(s string) {
	w.number(len(s))
	w.raw(s)
}

func (w *knownWriter) texts(all []string) {
	w.number(len(all))
	for _, s := range all {
		w.text(s)
	}
}

// placed writes a text with its place, but for its file.
func (w *knownWriter) placed(t read.Text) {
	w.text(t.S)
	w.number(t.At.Line)
	w.number(t.At.Col)
	w.number(t.Inside)
}

// knownReader reads what a knownWriter wrote. Once something is not as it should be it is bad, and all
// that it gives from there on is empty.
type knownReader struct {
	s    string
	file string // of the places
	bad  bool
}

func (r *knownReader) raw(n int) string {
	if r.bad || n < 0 || n > len(r.s) {
		r.bad = true
		return ""
	}
	out := r.s[:n]
	r.s = r.s[n:]
	return out
}

// number gives a number.
func (r *knownReader) number() int {
	var buf [binary.MaxVarintLen64]byte
	n, size := binary.Varint(buf[:copy(buf[:], r.s)])
	if size <= 0 {
		r.bad = true
		return 0
	}
	r.raw(size)
	return int(n)
}

func (r *knownReader) text() string { return r.raw(r.number()) }

func (r *knownReader) texts() []string {
	var out []string
	for range r.many() {
		out = append(out, r.text())
	}
	return out
}

// many is number for how many things follow: each takes a byte at least.
func (r *knownReader) many() int {
	n := r.number()
	if n < 0 || n > len(r.s) {
		r.bad = true
		return 0
	}
	return n
}

func (r *knownReader) print() (out print) {
	copy(out[:], r.raw(len(out)))
	return out
}

// placed reads a text with its place. A text that was not given has none.
func (r *knownReader) placed() read.Text {
	t := read.Text{S: r.text(), At: finding.Place{File: r.file, Line: r.number(), Col: r.number()}, Inside: r.number()}
	if t.At.Line == 0 {
		t.At = finding.Place{}
	}
	return t
}
