package library

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"fmt"
	"maps"
	"slices"
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/prose"
	"keelpath/builder/read"
)

// KnownName is the file beside a site's ledger that holds what is known of its explainers.
const KnownName = "keelpath-known.bin"

// known is what a load found out about the explainers in which nothing was wrong, in the first
// language. In the next load a page of the same bytes need not be read, as long as all that its findings rest
// on has the same bytes too: every other file of the layers, and that the explainers to which it
// leads are there. So nothing is known of a page in which anything was found.
type known struct {
	rests   print // the fingerprint of those files
	pages   map[pageKey]string
	sayings map[print]string // each once, however many pages say it
}

type print = [sha256.Size]byte

// pageKey names a page by the number of its layer and its name inside it.
type pageKey struct {
	layer int
	name  string
}

// knownPage is what is known of a page.
type knownPage struct {
	sum      print // of its file
	page     explainer.Page
	figures  []explainer.Shown
	headings []explainer.Heading
	counts   prose.Counts
	leads    []string // ids of explainers
	claims   []knownClaim
}

// knownClaim is a claim that a page makes, and where.
type knownClaim struct {
	saying    print
	line, col int
}

// restsOn takes the fingerprint of all files of the layers but explainers.
func restsOn(layers []Layer) print {
	sum := sha256.New()
	for _, y := range layers {
		names := y.names(func(n string) bool { return !isExplainer(n) })
		fmt.Fprintf(sum, "layer %d\n", len(names))
		for _, n := range names {
			s := y.sum(n)
			fmt.Fprintf(sum, "%q\n", n)
			sum.Write(s[:])
		}
	}
	return print(sum.Sum(nil))
}

const knownForm = "what is known of explainers, form 1\n"

// bytes writes it down, the same for the same content.
func (k *known) bytes() []byte {
	size := len(knownForm) + len(k.rests) + 64
	for _, s := range k.sayings {
		size += len(s) + 64
	}
	for key, s := range k.pages {
		size += len(key.name) + len(s) + 64
	}
	w := &knownWriter{b: make([]byte, 0, size)} // of many pages it is large
	w.raw(knownForm)
	w.raw(string(k.rests[:]))
	w.number(len(k.sayings))
	for _, id := range slices.SortedFunc(maps.Keys(k.sayings), func(a, b print) int { return bytes.Compare(a[:], b[:]) }) {
		w.raw(string(id[:]))
		w.text(k.sayings[id])
	}
	w.number(len(k.pages))
	for _, key := range slices.SortedFunc(maps.Keys(k.pages), func(a, b pageKey) int { return cmp.Or(a.layer-b.layer, strings.Compare(a.name, b.name)) }) {
		w.number(key.layer)
		w.text(key.name)
		w.text(k.pages[key])
	}
	return w.b
}

// readKnown reads what was written down; it is empty where that cannot be read, or rests on other files.
func readKnown(text []byte, rests print) *known {
	out := &known{rests: rests, pages: map[pageKey]string{}, sayings: map[print]string{}}
	if !bytes.HasPrefix(text, []byte(knownForm+string(rests[:]))) {
		return out
	}
	r := &knownReader{s: string(text[len(knownForm)+len(rests):])}
	for range r.many() {
		id := r.print()
		out.sayings[id] = r.text()
	}
	for range r.many() {
		key := pageKey{layer: r.number(), name: r.text()}
		out.pages[key] = r.text()
	}
	if r.bad || r.s != "" {
		return readKnown(nil, rests)
	}
	return out
}

// written gives what is known of a page as it is written down.
func (k *knownPage) written() string {
	w := &knownWriter{}
	w.raw(string(k.sum[:]))
	p := &k.page
	for _, t := range []read.Text{p.Title, p.Audience, p.Message, p.Credits.Reviewed, p.Credits.ReviewBy, p.Credits.Funding} {
		w.placed(t)
	}
	for _, ts := range [][]read.Text{p.Credits.Authors, p.Credits.Reviewers, p.Credits.Sources, p.Prompts} {
		w.number(len(ts))
		for _, t := range ts {
			w.placed(t)
		}
	}
	w.text(p.Of)
	w.number(len(k.figures))
	for _, f := range k.figures {
		w.text(f.Figure)
		w.number(f.At.Line)
		w.number(f.At.Col)
		w.number(len(f.Given))
		for _, name := range slices.Sorted(maps.Keys(f.Given)) {
			w.text(name)
			w.text(f.Given[name])
		}
	}
	w.number(len(k.headings))
	for _, h := range k.headings {
		w.number(h.Level)
		w.text(h.ID)
		w.text(h.Text)
	}
	for _, n := range []int{k.counts.Sentences, k.counts.Words, k.counts.Syllables, k.counts.Long} {
		w.number(n)
	}
	w.texts(k.leads)
	w.number(len(k.claims))
	for _, c := range k.claims {
		w.raw(string(c.saying[:]))
		w.number(c.line)
		w.number(c.col)
	}
	return string(w.b)
}

// readKnownPage reads it again, for a page that lies in a file. ok is false where it cannot be read, or is not of the
// file's sum.
func readKnownPage(text, file string, sum print) (k *knownPage, ok bool) {
	r := &knownReader{s: text, file: file}
	k = &knownPage{sum: r.print()}
	if k.sum != sum {
		return nil, false
	}
	p := &k.page
	for _, t := range []*read.Text{&p.Title, &p.Audience, &p.Message, &p.Credits.Reviewed, &p.Credits.ReviewBy, &p.Credits.Funding} {
		*t = r.placed()
	}
	for _, ts := range []*[]read.Text{&p.Credits.Authors, &p.Credits.Reviewers, &p.Credits.Sources, &p.Prompts} {
		for range r.many() {
			*ts = append(*ts, r.placed())
		}
	}
	p.Of = r.text()
	for range r.many() {
		f := explainer.Shown{Figure: r.text(), Given: map[string]string{}, At: finding.Place{File: file, Line: r.number(), Col: r.number()}}
		for range r.many() {
			name := r.text()
			f.Given[name] = r.text()
		}
		k.figures = append(k.figures, f)
	}
	for range r.many() {
		k.headings = append(k.headings, explainer.Heading{Level: r.number(), ID: r.text(), Text: r.text()})
	}
	for _, n := range []*int{&k.counts.Sentences, &k.counts.Words, &k.counts.Syllables, &k.counts.Long} {
		*n = r.number()
	}
	k.leads = r.texts()
	for range r.many() {
		k.claims = append(k.claims, knownClaim{r.print(), r.number(), r.number()})
	}
	return k, !r.bad && r.s == ""
}
