package publish

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"iter"
	"slices"

	"keelpath/builder/internal/inrow"
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
	now    inrow.Writer
}

// saidBefore reads what was written down in the build before. Where that cannot be had, nothing is known.
func saidBefore(b *Before) *pagesSaid {
	a := &pagesSaid{known: map[ledger.Sum]bool{}, now: inrow.Writer{B: []byte(saidForm)}}
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
	r := inrow.Reader{S: string(rest)}
	for r.S != "" && !r.Bad {
		var sum ledger.Sum
		copy(sum[:], r.Raw(len(sum)))
		out[sum] = r.Text()
	}
	if r.Bad {
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
	if a.known[sum] || len(a.now.B)+len(sum)+binary.MaxVarintLen64+len(part) > mostSaid {
		return
	}
	a.known[sum] = true
	a.now.Raw(string(sum[:]))
	a.now.Text(part)
}

// file gives the file that holds it.
func (a *pagesSaid) file(by *maker) File {
	return File{by: by, File: ledger.File{Of: saidFor, Name: saidName, Size: int64(len(a.now.B)), Sum: sha256.Sum256(a.now.B)}}
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
	var w inrow.Writer
	at := ""
	for _, p := range said {
		kind := p.kind(at)
		w.B = append(w.B, kind)
		if kind&isElsewhere != 0 {
			at = p.At
			w.Text(at)
		}
		if kind&hasLead != 0 {
			w.Text(p.Lead)
		}
		if kind&hasLands != 0 {
			w.Number(p.Lands[0])
			w.Number(p.Lands[1])
		}
		w.Text(p.Text)
	}
	return string(w.B)
}

// readParagraphs reads it again; ok is false where it is not whole.
func readParagraphs(s string) (said []Paragraph, ok bool) {
	r := inrow.Reader{S: s}
	at := ""
	for r.S != "" && !r.Bad {
		kind := r.Raw(1)[0]
		p := Paragraph{Heading: kind&isHeading != 0, Beside: kind&isBeside != 0}
		if kind&isElsewhere != 0 {
			at = r.Text()
		}
		p.At = at
		if kind&hasLead != 0 {
			p.Lead = r.Text()
		}
		if kind&hasLands != 0 {
			p.Lands = [2]int{r.Number(), r.Number()}
		}
		p.Text = r.Text()
		said = append(said, p)
	}
	return said, !r.Bad
}
