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
	"keelpath/builder/internal/inrow"
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
	w := &knownWriter{inrow.Writer{B: make([]byte, 0, size)}} // of many pages it is large
	w.Raw(knownForm)
	w.Raw(string(k.rests[:]))
	w.Number(len(k.sayings))
	for _, id := range slices.SortedFunc(maps.Keys(k.sayings), func(a, b print) int { return bytes.Compare(a[:], b[:]) }) {
		w.Raw(string(id[:]))
		w.Text(k.sayings[id])
	}
	w.Number(len(k.pages))
	for _, key := range slices.SortedFunc(maps.Keys(k.pages), func(a, b pageKey) int { return cmp.Or(a.layer-b.layer, strings.Compare(a.name, b.name)) }) {
		w.Number(key.layer)
		w.Text(key.name)
		w.Text(k.pages[key])
	}
	return w.B
}

// readKnown reads what was written down; it is empty where that cannot be read, or rests on other files.
func readKnown(text []byte, rests print) *known {
	out := &known{rests: rests, pages: map[pageKey]string{}, sayings: map[print]string{}}
	if !bytes.HasPrefix(text, []byte(knownForm+string(rests[:]))) {
		return out
	}
	r := &knownReader{Reader: inrow.Reader{S: string(text[len(knownForm)+len(rests):])}}
	for range r.many() {
		id := r.print()
		out.sayings[id] = r.Text()
	}
	for range r.many() {
		key := pageKey{layer: r.Number(), name: r.Text()}
		out.pages[key] = r.Text()
	}
	if !r.Whole() {
		return readKnown(nil, rests)
	}
	return out
}

// written gives what is known of a page as it is written down.
func (k *knownPage) written() string {
	w := &knownWriter{}
	w.Raw(string(k.sum[:]))
	p := &k.page
	for _, t := range []read.Text{p.Title, p.Audience, p.Message, p.Credits.Reviewed, p.Credits.ReviewBy, p.Credits.Funding} {
		w.placed(t)
	}
	for _, ts := range [][]read.Text{p.Credits.Authors, p.Credits.Reviewers, p.Credits.Sources, p.Prompts} {
		w.Number(len(ts))
		for _, t := range ts {
			w.placed(t)
		}
	}
	w.Text(p.Of)
	w.Number(len(k.figures))
	for _, f := range k.figures {
		w.Text(f.Figure)
		w.Number(f.At.Line)
		w.Number(f.At.Col)
		w.Number(len(f.Given))
		for _, name := range slices.Sorted(maps.Keys(f.Given)) {
			w.Text(name)
			w.Text(f.Given[name])
		}
	}
	w.Number(len(k.headings))
	for _, h := range k.headings {
		w.Number(h.Level)
		w.Text(h.ID)
		w.Text(h.Text)
	}
	for _, n := range []int{k.counts.Sentences, k.counts.Words, k.counts.Syllables, k.counts.Long} {
		w.Number(n)
	}
	w.texts(k.leads)
	w.Number(len(k.claims))
	for _, c := range k.claims {
		w.Raw(string(c.saying[:]))
		w.Number(c.line)
		w.Number(c.col)
	}
	return string(w.B)
}

// readKnownPage reads it again, for a page that lies in a file. ok is false where it cannot be read, or is not of the
// file's sum.
func readKnownPage(text, file string, sum print) (k *knownPage, ok bool) {
	r := &knownReader{inrow.Reader{S: text}, file}
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
	p.Of = r.Text()
	for range r.many() {
		f := explainer.Shown{Figure: r.Text(), Given: map[string]string{}, At: finding.Place{File: file, Line: r.Number(), Col: r.Number()}}
		for range r.many() {
			name := r.Text()
			f.Given[name] = r.Text()
		}
		k.figures = append(k.figures, f)
	}
	for range r.many() {
		k.headings = append(k.headings, explainer.Heading{Level: r.Number(), ID: r.Text(), Text: r.Text()})
	}
	for _, n := range []*int{&k.counts.Sentences, &k.counts.Words, &k.counts.Syllables, &k.counts.Long} {
		*n = r.Number()
	}
	k.leads = r.texts()
	for range r.many() {
		k.claims = append(k.claims, knownClaim{r.print(), r.Number(), r.Number()})
	}
	return k, r.Whole()
}
