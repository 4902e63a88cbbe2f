package publish

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"iter"
	"slices"

	"keelpath/builder/ledger"
)

// saidName is the file beside a site's ledger that holds what its pages say to readers, so that of pages that have not
// changed none is taken apart again for the search.
const saidName = "keelpath-search.bin"

// saidFor is what it is made for.
const saidFor = "pages taken apart"

// mostSaid is how many bytes it has at most, four times those of the built-in pages. Of a larger site the pages behind are taken
// apart each time, so that memory does not grow with the site.
const mostSaid = 8 << 20

const saidForm = "what pages say to readers, form 1\n"

// pagesSaid has pages taken apart, by the sums of their files: what a page says hangs on its bytes alone, and on the program.
type pagesSaid struct {
	before map[ledger.Sum]string // of the build before, as it was written down
	known  map[ledger.Sum]bool   // what is written down now
	now    []byte
}

// saidBefore reads what was written down in the build before. Where that cannot be had, nothing is known.
func saidBefore(b *Before) *pagesSaid {
	a := &pagesSaid{known: map[ledger.Sum]bool{}, now: []byte(saidForm)}
	if b == nil || b.Read == nil {
		return a
	}
	if f, ok := b.of[saidFor]; ok {
		a.before = readSaid(b.Read(f))
	}
	return a
}

// readSaid gives what stands in a text by the sums of the pages; nothing where that is not whole.
func readSaid(text []byte) map[ledger.Sum]string {
	rest, ok := bytes.CutPrefix(text, []byte(saidForm))
	if !ok {
		return nil
	}
	out := map[ledger.Sum]string{}
	r := saidReader{s: string(rest)}
	for r.s != "" && !r.bad {
		var sum ledger.Sum
		copy(sum[:], r.raw(len(sum)))
		out[sum] = r.text()
	}
	if r.bad {
		return nil
	}
	return out
}

// page gives what a finished page says. The page is read only where that is not known.
func (a *pagesSaid) page(f File, to Site) (iter.Seq[Paragraph], error) {
	if part, ok := a.before[f.Sum]; ok {
		if said, ok := readParagraphs(part); ok {
			a.note(f.Sum, part)
			return slices.Values(said), nil
		}
	}
	data, err := to.Read(f.Name)
	if err != nil {
		return nil, err
	}
	said := slices.Collect(Paragraphs(data))
	a.note(f.Sum, writtenParagraphs(said))
	return slices.Values(said), nil
}

// note writes down what a page says, once, as long as there is room.
func (a *pagesSaid) note(sum ledger.Sum, part string) {
	if a.known[sum] || len(a.now)+len(sum)+binary.MaxVarintLen64+len(part) > mostSaid {
		return
	}
	a.known[sum] = true
	a.now = appendText(append(a.now, sum[:]...), part)
}

// file gives the file that holds it.
func (a *pagesSaid) file(by *maker) File {
	return File{by: by, File: ledger.File{Of: saidFor, Name: saidName, Size: int64(len(a.now)), Sum: sha256.Sum256(a.now)}}
}

// What stands before each paragraph says how it differs from the one before it.
const (
	isHeading = 1 << iota
	isBeside
	isElsewhere // a place follows
	hasLead     // a lead follows
	hasLands    // by which words a link finds it follows
)

// kind says what a paragraph is behind one at a place.
func (p Paragraph) kind(at string) (kind byte) {
	if p.Heading {
		kind |= isHeading
	}
	if p.Beside {
		kind |= isBeside
	}
	if p.At != at {
		kind |= isElsewhere
	}
	if p.Lead != "" {
		kind |= hasLead
	}
	if p.Lands != [2]int{} {
		kind |= hasLands
	}
	return kind
}

// writtenParagraphs writes down what a page says.
func writtenParagraphs(said []Paragraph) string {
	var b []byte
	at := ""
	for _, p := range said {
		kind := p.kind(at)
		b = append(b, kind)
		if kind&isElsewhere != 0 {
			at = p.At
			b = appendText(b, at)
		}
		if kind&hasLead != 0 {
			b = appendText(b, p.Lead)
		}
		if kind&hasLands != 0 {
			b = binary.AppendUvarint(binary.AppendUvarint(b, uint64(p.Lands[0])), uint64(p.Lands[1]))
		}
		b = appendText(b, p.Text)
	}
	return string(b)
}

// readParagraphs reads it again; ok is false where it is not whole.
func readParagraphs(s string) (said []Paragraph, ok bool) {
	r := saidReader{s: s}
	at := ""
	for r.s != "" && !r.bad {
		kind := r.raw(1)[0]
		p := Paragraph{Heading: kind&isHeading != 0, Beside: kind&isBeside != 0}
		if kind&isElsewhere != 0 {
			at = r.text()
		}
		p.At = at
		if kind&hasLead != 0 {
			p.Lead = r.text()
		}
		if kind&hasLands != 0 {
			p.Lands = [2]int{r.number(), r.number()}
		}
		p.Text = r.text()
		said = append(said, p)
	}
	return said, !r.bad
}

// appendText writes a text behind its length.
func appendText(b []byte, s string) []byte {
	return append(binary.AppendUvarint(b, uint64(len(s))), s...)
}

// saidReader reads texts one behind the other. Once something is not as it should be it is bad, and all that it gives from
// there on is empty.
type saidReader struct {
	s   string
	bad bool
}

func (r *saidReader) raw(n int) string {
	if r.bad || n < 0 || n > len(r.s) {
		r.bad = true
		return ""
	}
	out := r.s[:n]
	r.s = r.s[n:]
	return out
}

// number is one that may count something in what is read: a larger one is bad.
func (r *saidReader) number() int {
	var buf [binary.MaxVarintLen64]byte
	n, size := binary.Uvarint(buf[:copy(buf[:], r.s)])
	if size <= 0 || n > mostSaid {
		r.bad = true
		return 0
	}
	r.raw(size)
	return int(n)
}

func (r *saidReader) text() string { return r.raw(r.number()) }
