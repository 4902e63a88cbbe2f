// Package search makes the index by which a reader's page finds places of the site: the words of all
// pages with their stems, and of each stem the places where it stands. Stems are made here alone. The page looks
// words up in a table, and for a word that is not in it the nearest one is taken.
package search

import (
	"cmp"
	"fmt"
	"maps"
	"math"
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
	At      string // the id of the place; empty at the top of the page
	Heading string
	Lines   []Line
	Asked   []Asked  // everyday questions whose answer leads here
	Also    []string // other ways in which people ask for it

	Part float64 // how much it counts beside others that fit alike: 1, or less where it says little of its own
}

// Line is a paragraph, a line of a list or a row of a table.
type Line struct {
	Text string
	Lead string // what it begins with, set apart: bold words, or a row's first cell

	Beside bool // it stands beside what is said, as what stands under a picture does

	Lands [2]int // by which of its words a link finds it: from which one on, and how many; 0 where the link leads to the heading
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
	inTitle   = 1.2
	inHeading = 3
	inText    = 1
	inLead    = 1.5 // beside inText
	inBeside  = 0.3
)

// alsoPart is how much another way of asking counts beside a question that a page asks and answers.
const alsoPart = 0.95

// How often a word stands in a place counts less each time, and less in a long place: the formula is
// BM25 (Robertson and Zaragoza, "The Probabilistic Relevance Framework", 2009; from memory), with weights in
// the place of counts. K and B are its k1 and b. A place's headings are weighed by themselves, and so is each of its lines.
const (
	K = 1.2
	B = 0.5
)

// Steps is how many a weight in the index has, from 1 up.
const Steps = 12

// Parts is how many there are to one of how much a unit counts.
const Parts = 20

// Rarities is how many steps there are to one of how rare a stem is (the IDF of BM25).
const Rarities = 5

// mostListed is in how many lines a stem is looked up: where it stands in more, in those in which it weighs most. So the time
// that a search takes has a limit, however large a site is.
const mostListed = 4000

// Index is made page by page. The texts of pages are not held.
type Index struct {
	words Words
	stems stems
	skip  map[string]bool
	terms map[string]*term // by stem
	said  map[string]*term // by each word of a text; nil for one that is left out
	pages []indexed
	heads sizes     // how much stands in the headings of each unit
	lines sizes     // and in each line
	of    []int     // how many lines each unit has
	count []float64 // how much each unit counts
	tops  []Topic
	leads [][2]int // of each unit that is a question, and the one that answers it; those with an answer of their own first
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

// term is a stem: the words that have it, in which units' headings and in which lines it stands, and in how many units.
type term struct {
	words        map[string]bool
	heads, lines []posting
	units, last  int // last is the one counted last, from 1
}

// posting is a place of a stem: a unit or a line.
type posting struct {
	at     int
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
	first := len(x.heads)
	if p.Topic != "" {
		x.tops = append(x.tops, Topic{first, p.Topic})
	}
	for _, u := range p.Units {
		x.unit(p.Title, u)
	}
	for i, u := range p.Units {
		for _, a := range u.Asked {
			x.leads = append(x.leads, [2]int{len(x.heads), first + i})
			x.unit(u.Heading, Unit{Heading: a.Question, Lines: []Line{{Text: a.Answer}}, Part: u.Part})
		}
		for _, also := range u.Also {
			x.leads = append(x.leads, [2]int{len(x.heads), first + i})
			x.unit(u.Heading, Unit{Heading: also, Part: alsoPart * cmp.Or(u.Part, 1)})
		}
	}
	x.pages = append(x.pages, indexed{p.Name, len(x.heads) - first})
}

// unit enters a place. The title of its page says what it is about and is not counted among its own words.
func (x *Index) unit(title string, u Unit) {
	at := len(x.heads)
	heading := x.termsOf(u.Heading)
	size := enter(heading, inHeading, at, headsOf)
	if u.Heading != title {
		size += enter(x.termsOf(title), inTitle, at, headsOf)
	}
	stands(heading, at)
	x.heads = append(x.heads, size)
	for _, l := range u.Lines {
		x.lines = append(x.lines, x.line(len(x.lines), at, l))
	}
	x.of, x.count = append(x.of, len(u.Lines)), append(x.count, cmp.Or(u.Part, 1))
}

// line enters a line of a unit.
func (x *Index) line(at, unit int, l Line) float64 {
	text := x.termsOf(l.Text)
	stands(text, unit)
	if l.Beside {
		return enter(text, inBeside, at, linesOf)
	}
	return enter(text, inText, at, linesOf) + enter(x.termsOf(l.Lead), inLead, at, linesOf)
}

func headsOf(t *term) *[]posting { return &t.heads }
func linesOf(t *term) *[]posting { return &t.lines }

// termsOf gives the terms of a text's words, in their order, without those that are left out.
func (x *Index) termsOf(text string) []*term {
	words := Split(text)
	out := make([]*term, 0, len(words))
	for _, word := range words {
		if t := x.counts(word); t != nil {
			out = append(out, t)
		}
	}
	return out
}

// enter enters the terms of a text that stands at a place, and gives how much it counts.
func enter(text []*term, weight float64, at int, list func(*term) *[]posting) float64 {
	size := 0.0
	for _, t := range text {
		size += weight
		in := list(t)
		if n := len(*in); n > 0 && (*in)[n-1].at == at {
			(*in)[n-1].weight += weight
		} else {
			*in = append(*in, posting{at, weight})
		}
	}
	return size
}

// counts gives the term of a word of a text; nil for one that is left out.
func (x *Index) counts(word string) *term {
	t, known := x.said[word]
	if !known {
		if !x.skip[word] {
			t = x.term(word)
		}
		x.said[word] = t
	}
	return t
}

// stands counts a unit for each stem of a text, once.
func stands(text []*term, unit int) {
	for _, t := range text {
		if t.last != unit+1 {
			t.units++
			t.last = unit + 1
		}
	}
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
		Lines: x.of, Counted: x.counted(), Topics: x.tops, Leads: x.leads, Means: x.means(place),
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
	Words   string       `json:"words"`   // of each stem, in order; see frontCoded
	Skip    string       `json:"skip"`    // words that are left out
	Lines   []int        `json:"lines"`   // how many lines each unit has
	Counted string       `json:"counted"` // how much each unit counts, in steps of Parts: a digit each
	Pages   []string     `json:"pages"`   // names without ".html"
	Counts  []int        `json:"counts"`  // how many units each page has
	Topics  []Topic      `json:"topics,omitempty"`
	Leads   [][2]int     `json:"leads,omitempty"` // units that are questions, and those that answer them
	Means   []MeansCoded `json:"means,omitempty"`
	Parts   []Part       `json:"parts"`
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
	heads, lines := x.heads.weigher(), x.lines.weigher()
	for i, s := range stems {
		list := x.list(x.terms[s], heads, lines)
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

// counted writes down how much each unit counts.
func (x *Index) counted() string {
	var b strings.Builder
	for _, part := range x.count {
		b.WriteByte(digits[int(part*Parts+0.5)])
	}
	return b.String()
}

// sizes are how much stands at each place.
type sizes []float64

func (s sizes) mean() float64 {
	sum := 0.0
	for _, n := range s {
		sum += n
	}
	return cmp.Or(sum/float64(max(1, len(s))), 1)
}

// weigher gives how much a stem counts at a place, of K+1 at most.
func (s sizes) weigher() weigher {
	mean := s.mean()
	return func(p posting) float64 {
		return p.weight * (K + 1) / (p.weight + K*(1-B+B*s[p.at]/mean))
	}
}

type weigher func(posting) float64

// list writes a stem down: how rare it is, the units in whose headings it stands, and the lines.
func (x *Index) list(t *term, heads, lines weigher) string {
	n, all := float64(t.units), float64(len(x.heads))
	rare := int(math.Log(1+(all-n+0.5)/(n+0.5))*Rarities + 0.5)
	return string(digits[min(rare, len(digits)-1)]) + coded(t.heads, heads) + "," + coded(strongest(t.lines, lines), lines)
}

// strongest gives the lines in which a stem weighs most, in their order.
func strongest(in []posting, weigh weigher) []posting {
	if len(in) <= mostListed {
		return in
	}
	in = slices.Clone(in)
	slices.SortStableFunc(in, func(a, b posting) int { return cmp.Compare(weigh(b), weigh(a)) })
	in = in[:mostListed]
	slices.SortFunc(in, func(a, b posting) int { return cmp.Compare(a.at, b.at) })
	return in
}

// coded writes places down: the way from each to the next, then the weight of each.
func coded(in []posting, weigh weigher) string {
	var ways, weights strings.Builder
	before := -1
	for _, p := range in {
		n := p.at - before
		before = p.at
		for ; n >= 32; n >>= 5 {
			ways.WriteByte(digits[32+n&31])
		}
		ways.WriteByte(digits[n])
		step := int(weigh(p)/(K+1)*Steps + 0.5)
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
