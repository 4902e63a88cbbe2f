// Package shelf is the one door between a page and the content. What makes a page has a
// Shelf and no library, and a Shelf notes all that it hands out: so it is known what a
// page is made of, and nothing can be read past it.
package shelf

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"sync"

	"keelpath/builder/conflict"
	"keelpath/builder/drawing"
	"keelpath/builder/explainer"
	"keelpath/builder/figure"
	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/proof"
	"keelpath/builder/prose"
	"keelpath/builder/read"
	"keelpath/builder/safety"
	"keelpath/builder/say"
	"keelpath/builder/teaching"
	"keelpath/builder/told"
	"keelpath/builder/tree"
)

// Note names one thing that was handed out: what it is, and its id where there are
// several of its kind. A list as a whole, and each thing in it, are two.
type Note struct{ What, Of string }

// Stock is an edition's content with its plan, from which each page gets a shelf of its own.
type Stock struct {
	lib  *library.Library
	plan *plan.Plan

	words   func() *explainer.Words
	matter  func() *conflict.Matter
	credits func() []read.Credits
	ratings func() Ratings
	asset   func(from string) (name string, err error)
	prints  sync.Map // Print by Note
	wholes  sync.Map // Print by pointer
	notes   sync.Map // Note by itself

	drawings sync.Map // drawn by id
}

// NewStock needs a library that is free of errors. asset gives the name of the asset that
// is made of a file of the site.
func NewStock(l *library.Library, p *plan.Plan, asset func(from string) (string, error)) *Stock {
	return &Stock{
		lib: l, plan: p, asset: asset,
		words:   sync.OnceValue(func() *explainer.Words { return wordsOf(l) }),
		matter:  sync.OnceValue(func() *conflict.Matter { return conflict.In(l) }),
		credits: sync.OnceValue(func() []read.Credits { return creditsOf(l) }),
		ratings: sync.OnceValue(func() Ratings { return ratingsOf(l) }),
	}
}

// Shelf gives a new shelf, on which nothing is noted yet.
func (s *Stock) Shelf() *Shelf { return &Shelf{stock: s, noted: map[Note]bool{}} }

// Shelf is the content as one page sees it. It is for one goroutine. What it hands out is
// shared and must not be changed.
type Shelf struct {
	stock *Stock
	noted map[Note]bool
}

// Noted gives the notes of all that was handed out, in order.
func (s *Shelf) Noted() []Note {
	out := slices.SortedFunc(maps.Keys(s.noted), func(a, b Note) int { return cmp.Or(cmp.Compare(a.What, b.What), cmp.Compare(a.Of, b.Of)) })
	for i, n := range out { // the letters of many pages' notes are the same
		known, _ := s.stock.notes.LoadOrStore(n, n)
		out[i] = known.(Note)
	}
	return slices.Clip(out)
}

// take notes a thing and hands it out.
func take[T any](s *Shelf, what, of string) T {
	s.noted[Note{what, of}] = true
	return things[what](s.stock, of).(T)
}

func wordsOf(l *library.Library) *explainer.Words {
	var entries []explainer.Entry
	for _, w := range l.Words {
		e := explainer.Entry{ID: w.ID.S, Forms: []string{w.Word.S}}
		for _, f := range w.Also {
			e.Forms = append(e.Forms, f.S)
		}
		entries = append(entries, e)
	}
	return explainer.NewWords(entries)
}

func creditsOf(l *library.Library) []read.Credits {
	var all []read.Credits
	seen := map[string]bool{} // of many pages, few have others than the rest
	add := func(c read.Credits) {
		key := fmt.Sprintf("%q %q %q %q %q", read.Strings(c.Authors), read.Strings(c.Reviewers), c.Reviewed.S, c.ReviewBy.S, c.Funding.S)
		if !seen[key] {
			seen[key] = true
			all = append(all, c)
		}
	}
	for _, t := range l.Trees {
		add(t.Credits)
	}
	for _, p := range l.Explainers {
		add(p.Credits)
	}
	return all
}

// Find gives the page of a kind that shows what has that id.
func (s *Shelf) Find(kind plan.Kind, of string) (plan.Page, bool) {
	p := take[page](s, "page", string(kind)+" "+of)
	return p.Page, p.OK
}

// Named gives the page of that name.
func (s *Shelf) Named(name string) (plan.Page, bool) {
	p := take[page](s, "name", name)
	return p.Page, p.OK
}

// In gives the pages of a room.
func (s *Shelf) In(room string) []plan.Page { return take[[]plan.Page](s, "room", room) }

// Asset gives the name of the asset that is made of a file of the site.
func (s *Shelf) Asset(from string) (name string, err error) {
	a := take[named](s, "asset", from)
	return a.Name, a.err
}

// Site notes a file that the program carries.
func (s *Shelf) Site(name string) { _ = take[string](s, "site", name) }

// Rest notes all content but the texts of explainers, for what is made of a library as a whole.
func (s *Shelf) Rest() { _ = take[[]any](s, "the rest", "") }

// Edition gives what the clinic says of its copy.
func (s *Shelf) Edition() library.Edition { return take[library.Edition](s, "edition", "") }

// Voices are those besides the reader's own in which everything that patients take is said.
func (s *Shelf) Voices() []string { return take[[]string](s, "voices", "") }

// Say gives what the program itself says.
func (s *Shelf) Say() *say.Words { return take[*say.Words](s, "say", "") }

// Credits are those of all trees, then of all explainers; of several that are alike, one.
func (s *Shelf) Credits() []read.Credits { return take[[]read.Credits](s, "credits", "") }

// Safety is the safety screen; nil where the library has none.
func (s *Shelf) Safety() *safety.Screen { return take[*safety.Screen](s, "safety", "") }

// Facts are what a reader can tell.
func (s *Shelf) Facts() []*told.Fact { return take[[]*told.Fact](s, "facts", "") }

// About is what stands on the sheet of what a reader told.
func (s *Shelf) About() *told.About { return take[*told.About](s, "about", "") }

// Tree gives the tree with that id, or nil.
func (s *Shelf) Tree(id string) *tree.Tree { return take[*tree.Tree](s, "tree", id) }

// Trees gives all trees.
func (s *Shelf) Trees() []*tree.Tree { return take[[]*tree.Tree](s, "trees", "") }

// PatientTrees gives the trees that are for patients.
func (s *Shelf) PatientTrees() []*tree.Tree {
	return slices.DeleteFunc(slices.Clone(s.Trees()), func(t *tree.Tree) bool { return t.Audience.S != "patient" })
}

// Proof gives what was proved of a tree.
func (s *Shelf) Proof(id string) *proof.Proof { return take[proved](s, "proof", id).proof() }

// File gives a tree's file as it was read, and where it lies inside its layer.
func (s *Shelf) File(t *tree.Tree) (inside string, text []byte) {
	f := take[file](s, "file", t.ID.S)
	return f.Inside, f.Text
}

// TreeCounts counts the running text of a tree.
func (s *Shelf) TreeCounts(id string) prose.Counts {
	return take[prose.Counts](s, "counts", "tree "+id)
}

// Explainer gives the explainer with that id, with its text, or nil.
func (s *Shelf) Explainer(id string) *explainer.Page {
	_ = s.Edition() // whose numbers are in the text
	return take[*explainer.Page](s, "text", id)
}

// Entry is what is said of an explainer beside its text.
type Entry struct {
	ID, Title, Message, Audience string

	Credits read.Credits
	Prompts []read.Text
}

// Entry gives what is said of the explainer with that id, or nil.
func (s *Shelf) Entry(id string) *Entry { return take[*Entry](s, "entry", id) }

// OwnText gives what one of the site's own pages says; nil where its words stand in its template.
func (s *Shelf) OwnText(id string) *explainer.Page { return take[*explainer.Page](s, "own text", id) }

// PageCounts counts the running text of an explainer.
func (s *Shelf) PageCounts(id string) prose.Counts {
	return take[prose.Counts](s, "counts", "explainer "+id)
}

// OwnCounts is PageCounts for one of the site's own pages whose words are content.
func (s *Shelf) OwnCounts(id string) prose.Counts {
	return take[prose.Counts](s, "counts", "page "+id)
}

// Title gives the title of what a link by id names, or "".
func (s *Shelf) Title(kind, id string) string { return take[string](s, "title", kind+" "+id) }

// Heading tells whether an explainer has a heading with that id.
func (s *Shelf) Heading(page, id string) bool { return take[bool](s, "heading", page+" "+id) }

// OwnHeading tells whether one of the site's own pages has a heading with that id.
func (s *Shelf) OwnHeading(page, id string) bool { return take[bool](s, "own-heading", page+" "+id) }

// Part is one part of the learn page.
type Part struct {
	Title, About string
	Explainers   []Entry
}

// Parts are those of the learn page, with the explainers of each.
func (s *Shelf) Parts() []Part { return take[[]Part](s, "parts", "") }

func partsOf(l *library.Library) []Part {
	var out []Part
	for _, p := range l.Parts {
		part := Part{Title: p.Title.S, About: p.About.S}
		for _, e := range p.Explainers {
			part.Explainers = append(part.Explainers, *entryOf(e))
		}
		out = append(out, part)
	}
	return out
}

// Picture names the drawing or the tile that stands for an explainer; empty where there is none.
func (s *Shelf) Picture(explainer string) string { return take[string](s, "picture", explainer) }

// Count says how many there are of some things.
type Count struct{ Explainers, Prompts, Words, Sources int }

// Count counts.
func (s *Shelf) Count() Count { return take[Count](s, "count", "") }

func countOf(l *library.Library) Count {
	return Count{len(l.Explainers), len(l.Prompts()), len(l.Words), len(l.Sources)}
}

// Figure gives the figure with that id, or nil.
func (s *Shelf) Figure(id string) *figure.Figure { return take[*figure.Figure](s, "figure", id) }

// Figures gives all figures.
func (s *Shelf) Figures() []*figure.Figure { return take[[]*figure.Figure](s, "figures", "") }

// Drawing gives a drawing with its words.
func (s *Shelf) Drawing(id string) (drawing.Drawing, bool) {
	d := take[drawn](s, "drawing", id)
	return d.Drawing, d.OK
}

// General are the questions that open every sheet.
func (s *Shelf) General() []*library.Prompt { return take[[]*library.Prompt](s, "general", "") }

// Themes gives all themes with their prompts.
func (s *Shelf) Themes() []*library.Theme { return take[[]*library.Theme](s, "themes", "") }

// Prompts gives all prompts, the general ones first.
func (s *Shelf) Prompts() []*library.Prompt {
	out := slices.Clone(s.General())
	for _, t := range s.Themes() {
		out = append(out, t.Prompts...)
	}
	return out
}

// Prompt gives the prompt with that id, or nil.
func (s *Shelf) Prompt(id string) *library.Prompt { return take[*library.Prompt](s, "prompt", id) }

// ThemeTitle gives the title of a theme.
func (s *Shelf) ThemeTitle(id string) string { return take[read.Text](s, "theme", id).S }

// Card gives the card with that id, or nil.
func (s *Shelf) Card(id string) *library.Card { return take[*library.Card](s, "card", id) }

// Cards gives all cards.
func (s *Shelf) Cards() []*library.Card { return take[[]*library.Card](s, "cards", "") }

// Cases gives all teaching cases.
func (s *Shelf) Cases() []*teaching.Case { return take[[]*teaching.Case](s, "cases", "") }

// Case gives the teaching case with that id, or nil.
func (s *Shelf) Case(id string) *teaching.Case { return take[*teaching.Case](s, "case", id) }

// Rows gives the rows of the table of foot types.
func (s *Shelf) Rows() []*library.Row { return take[[]*library.Row](s, "rows", "") }

// Row gives the row with that id, or nil.
func (s *Shelf) Row(id string) *library.Row { return take[*library.Row](s, "row", id) }

// FootType gives the foot type with that id, or nil.
func (s *Shelf) FootType(id string) *library.FootType { return take[*library.FootType](s, "type", id) }

// Marked gives the foot types and add-ons that have marks.
func (s *Shelf) Marked() []*library.FootType { return s.types(false) }

// Ways gives what one can do with no new foot.
func (s *Shelf) Ways() []*library.FootType { return s.types(true) }

func (s *Shelf) types(ways bool) []*library.FootType {
	all := take[[]*library.FootType](s, "types", "")
	return slices.DeleteFunc(slices.Clone(all), func(t *library.FootType) bool { return t.Way != ways })
}

// Conflicts gives what is between the wishes. It follows from the rows, the foot types and
// the wishes.
func (s *Shelf) Conflicts() *conflict.Matter {
	_ = take[[]any](s, "wishes", "")
	return s.stock.matter()
}

// Word gives the glossary entry with that id, or nil.
func (s *Shelf) Word(id string) *library.Word { return take[*library.Word](s, "word", id) }

// Words gives the glossary.
func (s *Shelf) Words() []*library.Word { return take[[]*library.Word](s, "words", "") }

// Forms finds glossary words in a text.
func (s *Shelf) Forms() *explainer.Words { return take[*explainer.Words](s, "forms", "") }

// Source gives the source with that id, or nil.
func (s *Shelf) Source(id string) *library.Source { return take[*library.Source](s, "source", id) }

// Sources gives all sources.
func (s *Shelf) Sources() []*library.Source { return take[[]*library.Source](s, "sources", "") }

// SearchWords says what everyday words mean here, for the search.
func (s *Shelf) SearchWords() *library.SearchWords {
	return take[*library.SearchWords](s, "search-words", "")
}

// Search says how the planned search for sources went; nil where nothing is told of one.
func (s *Shelf) Search() *library.Search { return take[*library.Search](s, "search", "") }

// SourceName says what kind of source it is and of which year.
func (s *Shelf) SourceName(id string) string {
	_ = s.Source(id)
	return s.stock.lib.SourceName(id)
}

// Partly says that none of the sources was read far; it is "" where one was.
func (s *Shelf) Partly(ids []string) string {
	for _, id := range ids {
		_ = s.Source(id)
	}
	return s.stock.lib.Partly(ids)
}

// Doc gives a markdown text of a YAML value, parsed. What it says hangs on the text, which
// came off the shelf, and on the numbers of the edition.
func (s *Shelf) Doc(t read.Text) *explainer.Doc {
	_ = s.Edition()
	return s.stock.lib.Doc(t)
}

// Ratings are the site by published measures.
type Ratings struct {
	Rated         []*library.Rated
	Yardsticks    []*library.Yardstick
	First, Second *library.Reading
	Pages         map[string][]string // ids of the pages of each kind that is rated, by its id
}

// Ratings gives how the site is rated.
func (s *Shelf) Ratings() Ratings { return take[Ratings](s, "ratings", "") }

func ratingsOf(l *library.Library) Ratings {
	r := Ratings{Rated: l.Rated, Yardsticks: l.Yardsticks, First: &l.First, Second: &l.Second, Pages: map[string][]string{}}
	for _, kind := range l.Rated {
		r.Pages[kind.ID.S] = l.PagesOf(kind)
	}
	return r
}
