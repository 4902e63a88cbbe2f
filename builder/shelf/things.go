package shelf

import (
	"strings"

	"keelpath/builder/drawing"
	"keelpath/builder/explainer"
	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/proof"
	"keelpath/builder/prose"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// things are what a shelf can hand out, by the name in a note. A note's print is taken of
// the same value that is handed out, so that nothing can be in the one and not in the other.
// of is empty for what there is one of.
var things = map[string]func(s *Stock, of string) any{
	"page":    func(s *Stock, of string) any { return found(s.plan.Find(kindOf(of))) },
	"name":    func(s *Stock, of string) any { return found(s.plan.Named(of)) },
	"room":    func(s *Stock, of string) any { return s.plan.In(of) },
	"title":   func(s *Stock, of string) any { return s.lib.TitleOf(kindAndID(of)) },
	"heading": func(s *Stock, of string) any { return s.lib.HasHeading(kindAndID(of)) },

	"own-heading": func(s *Stock, of string) any { return s.lib.HasOwnHeading(kindAndID(of)) },

	"edition": func(s *Stock, _ string) any { return s.lib.Edition },
	"voices":  func(s *Stock, _ string) any { return voicesOf(s.lib) },
	"credits": func(s *Stock, _ string) any { return s.credits() },
	"count":   func(s *Stock, _ string) any { return countOf(s.lib) },
	"counts":  func(s *Stock, of string) any { return s.countsOf(kindAndID(of)) },
	"forms":   func(s *Stock, _ string) any { return s.words() },
	"safety":  func(s *Stock, _ string) any { return s.lib.Safety },
	"facts":   func(s *Stock, _ string) any { return s.lib.Facts },
	"about":   func(s *Stock, _ string) any { return &s.lib.About },
	"tree":    func(s *Stock, of string) any { return s.lib.Tree(of) },
	"trees":   func(s *Stock, _ string) any { return s.lib.Trees },
	"proof": func(s *Stock, of string) any {
		return proved{s.lib.Tree(of), func() *proof.Proof { return s.lib.Proofs[of] }}
	},
	"file":     func(s *Stock, of string) any { return s.fileOf(s.lib.Tree(of)) },
	"text":     func(s *Stock, of string) any { return s.lib.Explainer(of) },
	"own text": func(s *Stock, of string) any { return s.lib.Page(of) },
	"entry":    func(s *Stock, of string) any { return entryOf(s.lib.Explainer(of)) },
	"parts":    func(s *Stock, _ string) any { return partsOf(s.lib) },

	"picture":      func(s *Stock, of string) any { return s.lib.Picture(of) },
	"figure":       func(s *Stock, of string) any { return s.lib.Figure(of) },
	"figures":      func(s *Stock, _ string) any { return s.lib.Figures },
	"drawing":      func(s *Stock, of string) any { return s.drawn(of) },
	"general":      func(s *Stock, _ string) any { return s.lib.General },
	"themes":       func(s *Stock, _ string) any { return s.lib.Themes },
	"prompt":       func(s *Stock, of string) any { return s.lib.Prompt(of) },
	"theme":        func(s *Stock, of string) any { return titleOf(s.lib.Theme(of)) },
	"card":         func(s *Stock, of string) any { return s.lib.Card(of) },
	"cards":        func(s *Stock, _ string) any { return s.lib.Cards },
	"case":         func(s *Stock, of string) any { return s.lib.Case(of) },
	"cases":        func(s *Stock, _ string) any { return s.lib.Cases },
	"row":          func(s *Stock, of string) any { return s.lib.Row(of) },
	"rows":         func(s *Stock, _ string) any { return s.lib.Rows },
	"type":         func(s *Stock, of string) any { return s.lib.FootType(of) },
	"types":        func(s *Stock, _ string) any { return s.lib.FootTypes },
	"wishes":       func(s *Stock, _ string) any { return []any{s.lib.Rows, s.lib.FootTypes, s.lib.Wishes} },
	"word":         func(s *Stock, of string) any { return s.lib.Word(of) },
	"words":        func(s *Stock, _ string) any { return s.lib.Words },
	"source":       func(s *Stock, of string) any { return s.lib.Source(of) },
	"say":          func(s *Stock, _ string) any { return s.lib.Say },
	"sources":      func(s *Stock, _ string) any { return s.lib.Sources },
	"search-words": func(s *Stock, _ string) any { return &s.lib.SearchWords },
	"search":       func(s *Stock, _ string) any { return s.lib.Search },
	"ratings":      func(s *Stock, _ string) any { return s.ratings() },
	"site":         func(s *Stock, of string) any { return of }, // a file that the program carries: the same from one program
	"asset":        func(s *Stock, of string) any { return s.nameOf(of) },
	"the rest":     func(s *Stock, _ string) any { return restOf(s) },
}

// page is a page of the plan, if there is one.
type page struct {
	plan.Page
	OK bool
}

func found(p plan.Page, ok bool) page { return page{p, ok} }

// named is the name of an asset, or why there is none.
type named struct {
	Name string
	err  error
}

func (s *Stock) nameOf(from string) named {
	name, err := s.asset(from)
	return named{name, err}
}

// proved is a tree with its proof. The proof follows from the tree, so it has no part in a
// print.
type proved struct {
	*tree.Tree
	proof func() *proof.Proof
}

// file is a tree's file as it was read.
type file struct {
	Inside string // where it lies inside its layer
	Text   []byte
}

func (s *Stock) fileOf(t *tree.Tree) file {
	if t == nil {
		return file{}
	}
	return file{s.lib.Inside(t.File), s.lib.File(t.File)}
}

func (s *Stock) countsOf(kind, id string) prose.Counts {
	if kind == "tree" {
		return s.lib.TreeCounts(s.lib.Tree(id))
	}
	if kind == "page" {
		return s.lib.PageCounts(s.lib.Page(id))
	}
	return s.lib.PageCounts(s.lib.Explainer(id))
}

func voicesOf(l *library.Library) []string {
	var out []string
	for _, o := range l.Voices {
		out = append(out, o.Voice)
	}
	return out
}

func entryOf(e *explainer.Page) *Entry {
	if e == nil {
		return nil
	}
	return &Entry{e.ID, e.Title.S, e.Message.S, e.Audience.S, e.Credits, e.Prompts}
}

func titleOf(t *library.Theme) read.Text {
	if t == nil {
		return read.Text{}
	}
	return t.Title
}

// restOf is all content but the texts of explainers: what scripts are made of.
func restOf(s *Stock) []any {
	l := s.lib
	return []any{
		l.Lang, l.Voice, l.Edition, l.Safety, l.Facts, l.About, l.Trees, l.General, l.Themes, l.Cards, l.Cases, l.Rows, l.FootTypes, l.Wishes,
		l.Words, l.SearchWords, l.Drawings, l.Sources, l.Search, l.Figures, l.Say, s.plan.Pages,
	}
}

type drawn struct {
	drawing.Drawing
	OK bool
}

// drawn gives a drawing, whose markup is made once for all pages that show it.
func (s *Stock) drawn(id string) drawn {
	if known, ok := s.drawings.Load(id); ok {
		return known.(drawn)
	}
	d, ok := s.lib.Drawing(id)
	known, _ := s.drawings.LoadOrStore(id, drawn{d.Kept(), ok})
	return known.(drawn)
}

// kindOf and kindAndID part what a note is of.
func kindOf(of string) (plan.Kind, string) {
	kind, id, _ := strings.Cut(of, " ")
	return plan.Kind(kind), id
}

func kindAndID(of string) (kind, id string) {
	kind, id, _ = strings.Cut(of, " ")
	return kind, id
}
