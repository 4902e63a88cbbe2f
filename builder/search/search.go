// Package search makes the index by which a reader's page finds places of the site: the words of all
// pages with their stems, and of each stem the places where it stands. Stems are made here alone. The page looks
// words up in a table, and for a word that is not in it the nearest one is taken.
package search

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// Page is a page as the index takes it.
type Page struct {
	Name  string // of its file inside the site
	Title string
	Topic string // the id of the topic that it is the paper page of; empty for any other
	Units []Unit
}

// Unit is a place on a page that can be found: a heading with what stands below it.
type Unit struct {
	At         string // the id of the place; empty at the top of the page
	Heading    string
	Paragraphs []string
	Asked      []Asked // everyday questions whose answer leads here

	Part float64 // how much it counts beside others that fit alike: 1, or less where it says little of its own
}

// Asked is an everyday question with its short answer.
type Asked struct {
	Question, Answer string
	Name             string // of the place where it is answered: "learn/everyday-life.html#swim"
}

// Means says what everyday words stand for on the site.
type Means struct {
	Says  []string // phrases, as people say them
	Means []string // words of the site
}

// Words are what an index needs to know of a language.
type Words struct {
	Lang  string
	Skip  []string // words that say nothing of what is looked for
	Means []Means
}

// The weight of a word by where it stands. That what stands in a heading says more than what
// stands below it is common practice; the numbers were found by trying.
const (
	inTitle   = 1.5
	inHeading = 3
	inAsked   = 3
	inAnswer  = 1.5
	inText    = 1
)

// How often a word stands in a place counts less each time, and less in a long place: the formula is
// BM25 (Robertson and Zaragoza, "The Probabilistic Relevance Framework", 2009; from memory), with weights in
// the place of counts. K and B are its k1 and b.
const (
	K = 1.2
	B = 0.5
)

// Steps is how many a weight in the index has, from 1 up.
const Steps = 8

// Index is made page by page. The texts of pages are not held.
type Index struct {
	words Words
	stems stems
	skip  map[string]bool
	terms map[string]*term // by stem
	said  map[string]*term // by each word of a text; nil for one that is left out
	pages []indexed
	sizes []float64 // of each unit
	tops  []Topic
	leads [][2]int // of each unit that is a question, and the one that answers it
}

// Topic is the unit of a topic.
type Topic struct {
	Unit int    `json:"unit"`
	ID   string `json:"id"`
}

type indexed struct {
	name  string
	units int
}

// term is a stem: the words that have it, and where it stands.
type term struct {
	words map[string]bool
	in    []posting
}

type posting struct {
	unit   int
	weight float64
}

// New gives an index with no page.
func New(w Words) *Index {
	x := &Index{words: w, stems: stemsOf(w.Lang), skip: map[string]bool{}, terms: map[string]*term{}, said: map[string]*term{}}
	for _, s := range w.Skip {
		for _, word := range Split(s) {
			x.skip[word] = true
		}
	}
	entered := map[string]bool{}
	for _, m := range w.Means {
		for _, s := range slices.Concat(m.Says, m.Means) {
			for _, word := range Split(s) {
				if entered[word] {
					continue
				}
				entered[word] = true
				for _, form := range x.stems.forms(word) {
					x.term(form)
				}
			}
		}
	}
	return x
}

// term gives the term of a word, and enters the word.
func (x *Index) term(word string) *term {
	s := x.stems.of(word)
	t := x.terms[s]
	if t == nil {
		t = &term{words: map[string]bool{}}
		x.terms[s] = t
	}
	t.words[word] = true
	return t
}

// Add enters a page.
func (x *Index) Add(p Page) {
	first := len(x.sizes)
	if p.Topic != "" {
		x.tops = append(x.tops, Topic{len(x.sizes), p.Topic})
	}
	for _, u := range p.Units {
		x.unit(p.Title, u)
	}
	for i, u := range p.Units {
		for _, a := range u.Asked {
			x.leads = append(x.leads, [2]int{len(x.sizes), first + i})
			x.question(p.Title, u.Heading, a)
		}
	}
	x.pages = append(x.pages, indexed{p.Name, len(x.sizes) - first})
}

func (x *Index) unit(title string, u Unit) {
	x.counting(cmp.Or(u.Part, 1), func(count func(string, float64)) {
		count(title, inTitle)
		if u.Heading != title {
			count(u.Heading, inHeading)
		}
		for _, p := range u.Paragraphs {
			count(p, inText)
		}
	})
}

// question enters an everyday question as a unit of its own. It is found at the place to which its answer leads.
func (x *Index) question(title, heading string, a Asked) {
	x.counting(1, func(count func(string, float64)) {
		count(title, inText)
		count(heading, inText)
		count(a.Question, inAsked)
		count(a.Answer, inAnswer)
	})
}

// counting enters a unit.
func (x *Index) counting(part float64, of func(count func(text string, weight float64))) {
	at, size := len(x.sizes), 0.0
	of(func(text string, weight float64) {
		for _, word := range Split(text) {
			t, known := x.said[word]
			if !known {
				if !x.skip[word] {
					t = x.term(word)
				}
				x.said[word] = t
			}
			if t == nil {
				continue
			}
			size += weight
			if n := len(t.in); n > 0 && t.in[n-1].unit == at {
				t.in[n-1].weight += weight * part
			} else {
				t.in = append(t.in, posting{at, weight * part})
			}
		}
	})
	x.sizes = append(x.sizes, size)
}

// File is a file of the index.
type File struct {
	Name string // inside the folder of the index
	Data []byte
}

// Files gives the index: one file that is loaded first, and the places of all words by the order of their
// stems, in parts of which only those of the words looked for are needed.
func (x *Index) Files() []File {
	stems := slices.Sorted(maps.Keys(x.terms))
	place := map[string]int{}
	var table []string
	for i, s := range stems {
		place[s] = i
		table = append(table, frontCoded(slices.Sorted(maps.Keys(x.terms[s].words))))
	}
	first := First{
		Words: strings.Join(table, "|"), Skip: strings.Join(slices.Sorted(maps.Keys(x.skip)), " "),
		Units: len(x.sizes), Topics: x.tops, Leads: x.leads, Means: x.means(place),
	}
	for _, p := range x.pages {
		first.Pages = append(first.Pages, strings.TrimSuffix(p.name, ".html"))
		first.Counts = append(first.Counts, p.units)
	}
	var files []File
	for _, part := range x.parts(stems) {
		data := script("part", part.file, part.lists)
		first.Parts = append(first.Parts, Part{part.from, part.file})
		files = append(files, File{part.file, data})
	}
	return append([]File{{FirstFile, script("first", "", first)}}, files...)
}

// FirstFile is the name of the file that is loaded first.
const FirstFile = "first.js"

// First is what the file that is loaded first brings.
type First struct {
	Words  string       `json:"words"`  // of each stem, in order; see frontCoded
	Skip   string       `json:"skip"`   // words that are left out
	Units  int          `json:"units"`  // how many there are
	Pages  []string     `json:"pages"`  // names without ".html"
	Counts []int        `json:"counts"` // how many units each page has
	Topics []Topic      `json:"topics,omitempty"`
	Leads  [][2]int     `json:"leads,omitempty"` // units that are questions, and those that answer them
	Means  []MeansCoded `json:"means,omitempty"`
	Parts  []Part       `json:"parts"`
}

// MeansCoded is a phrase and what it means, by the places of stems.
type MeansCoded struct {
	Says  []int `json:"says"`
	Means []int `json:"means"`
}

// Part is a file with the places of some stems, from one on.
type Part struct {
	From int    `json:"from"`
	File string `json:"file"`
}

func (x *Index) means(place map[string]int) []MeansCoded {
	coded := func(s string) []int {
		var out []int
		for _, word := range Split(s) {
			if n := place[x.stems.of(word)]; !slices.Contains(out, n) {
				out = append(out, n)
			}
		}
		return out
	}
	var out []MeansCoded
	for _, m := range x.words.Means {
		var means []int
		for _, s := range m.Means {
			for _, word := range Split(s) {
				if n := place[x.stems.of(word)]; !x.skip[word] && !slices.Contains(means, n) {
					means = append(means, n)
				}
			}
		}
		for _, s := range m.Says {
			if says := coded(s); len(says) > 0 && len(means) > 0 {
				out = append(out, MeansCoded{says, means})
			}
		}
	}
	return out
}

// partSize is how long the lists of a part are at least, but for the last.
const partSize = 48 << 10

type part struct {
	from  int
	file  string
	lists []string
}

func (x *Index) parts(stems []string) []part {
	var out []part
	now, size := part{}, 0
	for i, s := range stems {
		list := x.coded(x.terms[s].in)
		now.lists = append(now.lists, list)
		size += len(list)
		if size >= partSize || i == len(stems)-1 {
			now.file = fmt.Sprintf("places-%d.js", len(out)+1)
			out = append(out, now)
			now, size = part{from: i + 1}, 0
		}
	}
	return out
}

// coded writes a stem's places down: the way from each unit to the next, then the weight of each.
func (x *Index) coded(in []posting) string {
	if len(in) == 0 {
		return ""
	}
	mean := 0.0
	for _, s := range x.sizes {
		mean += s
	}
	mean = cmp.Or(mean/float64(max(1, len(x.sizes))), 1)
	var ways, weights strings.Builder
	before := -1
	for _, p := range in {
		n := p.unit - before
		before = p.unit
		for ; n >= 32; n >>= 5 {
			ways.WriteByte(digits[32+n&31])
		}
		ways.WriteByte(digits[n])
		part := p.weight * (K + 1) / (p.weight + K*(1-B+B*x.sizes[p.unit]/mean))
		step := int(part/(K+1)*Steps + 0.5)
		weights.WriteByte(digits[max(1, min(Steps, step))])
	}
	return ways.String() + "." + weights.String()
}

// digits are 64 signs that stand in a script as they are.
const digits = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_"

// frontCoded writes sorted words down, each as how many letters it shares with the one before it and
// those that follow.
func frontCoded(words []string) string {
	var b strings.Builder
	before := ""
	for i, w := range words {
		n := 0
		for n < len(w) && n < len(before) && n < 35 && w[n] == before[n] {
			n++
		}
		for n > 0 && n < len(w) && w[n]&0xC0 == 0x80 { // no letter is cut
			n--
		}
		if i > 0 {
			b.WriteByte(' ')
			b.WriteByte("0123456789abcdefghijklmnopqrstuvwxyz"[runes(w[:n])])
		}
		b.WriteString(w[n:])
		before = w
	}
	return b.String()
}

func runes(s string) int { return len([]rune(s)) }
