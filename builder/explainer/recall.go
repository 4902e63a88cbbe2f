package explainer

import (
	"bytes"
	"crypto/sha256"

	"keelpath/builder/helpline"
	"keelpath/builder/read"
)

// Recall gives a page that was read before, from what is known of it and its file: what Parse
// gives, once its text has been read and forgotten again. The file has the same bytes as it had then.
func Recall(p Page, src []byte, lines helpline.Lines, figures []Shown, headings []Heading) *Page {
	_, body, above, _ := split(plainLines(src))
	p.Body = &Doc{src: body, at: placing(p.File, body, above), lines: lines, Figures: figures, Headings: headings}
	return &p
}

// plainLines gives a file without the mark that some editors put at its start, and with plain line ends.
func plainLines(src []byte) []byte {
	src = bytes.TrimPrefix(src, []byte("\ufeff"))
	if bytes.Contains(src, []byte("\r\n")) {
		src = bytes.ReplaceAll(src, []byte("\r\n"), []byte("\n"))
	}
	return src
}

// MadeOf gives all that decides what a page shows beside the edition, whose numbers its text names: its files by
// their sum, and the prompts that are not left out for the edition's place. Of a page whose sum is not known
// it is the page itself.
func (p *Page) MadeOf() any {
	if p.Sum == ([sha256.Size]byte{}) {
		return *p
	}
	return struct {
		ID, Sum string
		Prompts []string
	}{p.ID, string(p.Sum[:]), read.Strings(p.Prompts)}
}

// joined is the sum of two files that make one page.
func joined(a [sha256.Size]byte, src []byte) [sha256.Size]byte {
	b := sha256.Sum256(src)
	return sha256.Sum256(append(a[:], b[:]...))
}
