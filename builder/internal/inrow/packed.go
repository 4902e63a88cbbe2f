// Package inrow writes numbers and texts one behind the other, and reads them in the same order: what a build leaves for the
// next one. Whoever reads says what comes, for nothing that is written does.
package inrow

import "encoding/binary"

// Writer writes. B is what was written.
type Writer struct{ B []byte }

// Raw writes a text without its length.
func (w *Writer) Raw(s string) { w.B = append(w.B, s...) }

// Number writes a whole number.
func (w *Writer) Number(n int) { w.B = binary.AppendVarint(w.B, int64(n)) }

// Text writes a text behind its length.
func (w *Writer) Text(s string) {
	w.Number(len(s))
	w.Raw(s)
}

// Reader reads what a Writer wrote. S is what is left. Once something is not as it should be it is Bad, and all that it gives from there on
// is empty.
type Reader struct {
	S   string
	Bad bool
}

// Raw gives n bytes.
func (r *Reader) Raw(n int) string {
	if r.Bad || n < 0 || n > len(r.S) {
		r.Bad = true
		return ""
	}
	out := r.S[:n]
	r.S = r.S[n:]
	return out
}

// Number gives a number.
func (r *Reader) Number() int {
	var buf [binary.MaxVarintLen64]byte
	n, size := binary.Varint(buf[:copy(buf[:], r.S)])
	if size <= 0 {
		r.Bad = true
		return 0
	}
	r.Raw(size)
	return int(n)
}

// Text gives a text.
func (r *Reader) Text() string { return r.Raw(r.Number()) }

// Whole tells whether all was as it should be and nothing is left.
func (r *Reader) Whole() bool { return !r.Bad && r.S == "" }
