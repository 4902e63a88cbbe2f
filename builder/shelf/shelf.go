// Package shelf is the one door between a page and the content. What makes a page has a
// Shelf and no library, and a Shelf notes all that it hands out: so it is known what a
// page is made of, and nothing can be read past it.
package shelf

import (
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

func (s *Shelf) note(what, of string) *library.Library {
	s.noted[Note{what, of}] = true
	return s.stock.lib
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
	for _, t := range l.Trees {
		all = append(all, t.Credits)
	}
	for _, p := range l.Explainers {
		all = append(all, p.Credits)
	}
	return all
}

// Find gives the page of a kind that shows what has that id.
func (s *Shelf) Find(kind plan.Kind, of string) (plan.Page, bool) {
	s.note("page", string(kind)+" "+of)
	return s.stock.plan.Find(kind, of)
}

// Named gives the page of that name.
func (s *Shelf) Named(name string) (plan.Page, bool) {
	s.note("name", name)
	return s.stock.plan.Named(name)
}

// In gives the pages of a room.
func (s *Shelf) In(room string) []plan.Page {
	s.note("room", room)
	return s.stock.plan.In(room)
}

// Asset gives the name of the asset that is made of a file of the site.
func (s *Shelf) Asset(from string) (name string, err error) {
	s.note("asset", from)
	return s.stock.asset(from)
}

// Edition gives what the clinic says of its copy.
func (s *Shelf) Edition() library.Edition { return s.note("edition", "").Edition }

// Say gives what the program says. It is of the program and the language, and so it is not noted.
func (s *Shelf) Say() *say.Words { return s.stock.lib.Say }

// Credits are those of all trees, then of all explainers.
func (s *Shelf) Credits() []read.Credits {
	s.note("credits", "")
	return s.stock.credits()
}

// Safety is the safety screen; nil where the library has none.
func (s *Shelf) Safety() *safety.Screen { return s.note("safety", "").Safety }

// Facts are what a reader can tell.
func (s *Shelf) Facts() []*told.Fact { return s.note("facts", "").Facts }

// Tree gives the tree with that id, or nil.
func (s *Shelf) Tree(id string) *tree.Tree { return s.note("tree", id).Tree(id) }

// Trees gives all trees.
func (s *Shelf) Trees() []*tree.Tree { return s.note("trees", "").Trees }

// PatientTrees gives the trees that are for patients.
func (s *Shelf) PatientTrees() []*tree.Tree { return s.note("trees", "").PatientTrees() }

// Proof gives what was proved of a tree.
func (s *Shelf) Proof(id string) *proof.Proof { return s.note("tree", id).Proofs[id] }

// File gives a tree's file as it was read, and where it lies inside its layer.
func (s *Shelf) File(t *tree.Tree) (inside string, text []byte) {
	l := s.note("tree", t.ID.S)
	return l.Inside(t.File), l.File(t.File)
}

// TreeCounts counts the running text of a tree.
func (s *Shelf) TreeCounts(id string) prose.Counts {
	l := s.note("counts", "tree "+id)
	return l.TreeCounts(l.Tree(id))
}

// Explainer gives the explainer with that id, or nil.
func (s *Shelf) Explainer(id string) *explainer.Page { return s.note("explainer", id).Explainer(id) }

// OwnText gives what one of the site's own pages says; nil where its words stand in its template.
func (s *Shelf) OwnText(id string) *explainer.Page { return s.note("page text", id).Page(id) }

// PageCounts counts the running text of an explainer.
func (s *Shelf) PageCounts(id string) prose.Counts {
	l := s.note("counts", "explainer "+id)
	return l.PageCounts(l.Explainer(id))
}

// Title gives the title of what a link by id names, or "".
func (s *Shelf) Title(kind, id string) string { return s.note("title", kind+" "+id).TitleOf(kind, id) }

// Part is one part of the learn page.
type Part struct {
	Title, About string
	Explainers   []Entry
}

// Entry is what a list says of an explainer.
type Entry struct{ ID, Title, Message, Audience string }

// Parts are those of the learn page, with the explainers of each.
func (s *Shelf) Parts() []Part {
	return partsOf(s.note("parts", ""))
}

func partsOf(l *library.Library) []Part {
	var out []Part
	for _, p := range l.Parts {
		part := Part{Title: p.Title.S, About: p.About.S}
		for _, e := range p.Explainers {
			part.Explainers = append(part.Explainers, Entry{e.ID, e.Title.S, e.Message.S, e.Audience.S})
		}
		out = append(out, part)
	}
	return out
}

// Count says how many there are of what the site is proud of.
type Count struct{ Explainers, Prompts, Words, Sources int }

// Count counts.
func (s *Shelf) Count() Count { return countOf(s.note("count", "")) }

func countOf(l *library.Library) Count {
	return Count{len(l.Explainers), len(l.Prompts()), len(l.Words), len(l.Sources)}
}

// Figure gives the figure with that id, or nil.
func (s *Shelf) Figure(id string) *figure.Figure { return s.note("figure", id).Figure(id) }

// Figures gives all figures.
func (s *Shelf) Figures() []*figure.Figure { return s.note("figures", "").Figures }

// Drawing gives a drawing with its words.
func (s *Shelf) Drawing(id string) (drawing.Drawing, bool) { return s.note("drawing", id).Drawing(id) }

// General are the questions that open every sheet.
func (s *Shelf) General() []*library.Prompt { return s.note("prompts", "").General }

// Themes gives all themes with their prompts.
func (s *Shelf) Themes() []*library.Theme { return s.note("prompts", "").Themes }

// Prompts gives all prompts, the general ones first.
func (s *Shelf) Prompts() []*library.Prompt { return s.note("prompts", "").Prompts() }

// Prompt gives the prompt with that id, or nil.
func (s *Shelf) Prompt(id string) *library.Prompt { return s.note("prompt", id).Prompt(id) }

// ThemeTitle gives the title of a theme.
func (s *Shelf) ThemeTitle(id string) string {
	if t := s.note("theme", id).Theme(id); t != nil {
		return t.Title.S
	}
	return ""
}

// Card gives the card with that id, or nil.
func (s *Shelf) Card(id string) *library.Card { return s.note("card", id).Card(id) }

// Cards gives all cards.
func (s *Shelf) Cards() []*library.Card { return s.note("cards", "").Cards }

// Cases gives all teaching cases.
func (s *Shelf) Cases() []*library.Case { return s.note("cases", "").Cases }

// Rows gives the rows of the table of foot types.
func (s *Shelf) Rows() []*library.Row { return s.note("foot types", "").Rows }

// Row gives the row with that id, or nil.
func (s *Shelf) Row(id string) *library.Row { return s.note("foot types", "").Row(id) }

// FootType gives the foot type with that id, or nil.
func (s *Shelf) FootType(id string) *library.FootType { return s.note("foot type", id).FootType(id) }

// Marked gives the foot types and add-ons that have marks.
func (s *Shelf) Marked() []*library.FootType { return s.note("foot types", "").Marked() }

// Ways gives what one can do with no new foot.
func (s *Shelf) Ways() []*library.FootType { return s.note("foot types", "").Ways() }

// Conflicts gives what is between the wishes.
func (s *Shelf) Conflicts() *conflict.Matter {
	s.note("foot types", "")
	s.note("wishes", "")
	return s.stock.matter()
}

// Word gives the glossary entry with that id, or nil.
func (s *Shelf) Word(id string) *library.Word { return s.note("word", id).Word(id) }

// Words gives the glossary.
func (s *Shelf) Words() []*library.Word { return s.note("words", "").Words }

// Forms finds glossary words in a text.
func (s *Shelf) Forms() *explainer.Words {
	s.note("forms", "")
	return s.stock.words()
}

// Source gives the source with that id, or nil.
func (s *Shelf) Source(id string) *library.Source { return s.note("source", id).Source(id) }

// Sources gives all sources.
func (s *Shelf) Sources() []*library.Source { return s.note("sources", "").Sources }

// Search says how the planned search for sources went; nil where nothing is told of one.
func (s *Shelf) Search() *library.Search { return s.note("search", "").Search }

// SourceName says what kind of source it is and of which year.
func (s *Shelf) SourceName(id string) string { return s.note("source", id).SourceName(id) }

// Partly says that none of the sources was read far; it is "" where one was.
func (s *Shelf) Partly(ids []string) string {
	for _, id := range ids {
		s.note("source", id)
	}
	return s.stock.lib.Partly(ids)
}

// Doc gives a markdown text of a YAML value, parsed. What it says hangs on the text, which
// came off the shelf, and on the numbers of the edition.
func (s *Shelf) Doc(t read.Text) *explainer.Doc { return s.note("edition", "").Doc(t) }

// Ratings are the site by published measures.
type Ratings struct {
	Rated         []*library.Rated
	Yardsticks    []*library.Yardstick
	First, Second *library.Reading
	Pages         map[string][]string // ids of the pages of each kind that is rated, by its id
}

// Ratings gives how the site is rated.
func (s *Shelf) Ratings() Ratings {
	s.note("ratings", "")
	return s.stock.ratings()
}

func ratingsOf(l *library.Library) Ratings {
	r := Ratings{Rated: l.Rated, Yardsticks: l.Yardsticks, First: &l.First, Second: &l.Second, Pages: map[string][]string{}}
	for _, kind := range l.Rated {
		r.Pages[kind.ID.S] = l.PagesOf(kind)
	}
	return r
}
