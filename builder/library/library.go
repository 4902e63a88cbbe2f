// Package library holds everything that was read, cross-checked: the one
// read-only value that all pages render from.
package library

import (
	"slices"
	"sync"

	"keelpath/builder/drawing"
	"keelpath/builder/explainer"
	"keelpath/builder/figure"
	"keelpath/builder/finding"
	"keelpath/builder/helpline"
	"keelpath/builder/proof"
	"keelpath/builder/prose"
	"keelpath/builder/read"
	"keelpath/builder/safety"
	"keelpath/builder/say"
	"keelpath/builder/teaching"
	"keelpath/builder/told"
	"keelpath/builder/tree"
)

// Library is one edition's whole content. Slices keep the order of the files;
// Trees and Explainers are in the order in which pages list them.
type Library struct {
	Lang  string // the language of all words, as BCP 47 writes it
	Voice string // the voice in which they are said, of read.Voices; empty for the first

	// The same content in other words: in the edition's other languages. Ids, ways and
	// proofs are the same in each. Only the first language has them.
	Others []*Library

	// The same in the edition's other voices. All that patients take is said in them; the rest has one voice and is
	// the same value. Only the reader's own voice of the first language has them.
	Voices []*Library

	Edition     Edition
	Safety      *safety.Screen // the shared safety screen; nil where none could be read
	Facts       []*told.Fact   // what a reader can tell
	About       told.About     // what stands of that on the sheet
	Trees       []*tree.Tree
	Proofs      map[string]*proof.Proof // by tree id
	General     []*Prompt               // the questions that open every sheet
	Themes      []*Theme
	Cards       []*Card
	Cases       []*teaching.Case
	Rows        []*Row // of the foot types, side by side
	FootTypes   []*FootType
	Wishes      []*Wish
	Words       []*Word
	SearchWords SearchWords      // what everyday words mean, for the search
	Drawings    []*drawing.Words // what each drawing says
	Sources     []*Source
	Search      *Search // nil where nothing is told of one
	Parts       []*Part
	Pictures    map[string]read.Text // by explainer: the drawing or the tile that stands for it
	Explainers  []*explainer.Page
	Pages       []*explainer.Page // texts of the site's own pages
	Figures     []*figure.Figure  // of the workbench, in its order
	Rated       []*Rated
	Yardsticks  []*Yardstick

	Say *say.Words // what the program itself says

	First, Second Reading // of the site by the yardsticks

	files  map[string][]byte
	inside map[string]string                 // a file's path inside its layer, by its name
	onDisk map[string]func() ([]byte, error) // files that are not held any more, by their names: how to read them once more
	by     index
	docs   sync.Map // *explainer.Doc by read.Text

	known  *known               // for the next load; nil where nobody asked for it
	counts map[any]prose.Counts // of the running text of each explainer and each tree
}

// index finds entries by their ids. It is kept as they are read, and nothing changes
// it afterwards.
type index struct {
	trees      map[string]*tree.Tree
	explainers map[string]*explainer.Page
	pages      map[string]*explainer.Page
	figures    map[string]*figure.Figure
	themes     map[string]*Theme
	prompts    map[string]*Prompt // of several with one id, which is a finding, the first
	facts      map[string]*told.Fact
	cards      map[string]*Card
	rows       map[string]*Row
	footTypes  map[string]*FootType
	words      map[string]*Word
	sources    map[string]*Source
	yardsticks map[string]*Yardstick
}

// Edition is what a clinic says of its own copy. Name and the numbers for an
// emergency and a crisis are always there; the others may be empty.
type Edition struct {
	Name        read.Text // of the edition: "Keelpath"
	Clinic      read.Text // who publishes it
	Phone       read.Text // the clinic's
	Address     read.Text // of the copy on the web: https://feet.example.org/; may be empty
	Lines       helpline.Lines
	Endorsement read.Text // a sentence at the top of the sheet
	Version     read.Text
	Shared      bool        // many readers share the screen: nothing is kept, and an idle page clears itself
	Place       read.Text   // where it is read, "us"; what is marked for another place is left out. May be empty
	Languages   []read.Text // besides the first, in the order in which pages name them
	Voices      []read.Text // of read.Voices, besides the first
	Training    []*Training
}

// Training says what training someone has whom a header names: an author or a
// reviewer, or a group of them.
type Training struct {
	Name read.Text // as headers write it
	Says read.Text
}

// TrainingOf gives what is said of a name, or nil.
func (e Edition) TrainingOf(name string) *Training {
	for _, t := range e.Training {
		if t.Name.S == name {
			return t
		}
	}
	return nil
}

// Theme groups prompts.
type Theme struct {
	ID      read.Text
	Title   read.Text
	About   read.Text
	Prompts []*Prompt
}

// Prompt is a question to bring.
type Prompt struct {
	ID    read.Text
	Theme read.Text // id of the one that it stands under; none for the general ones
	Ask   read.Text
	Whom  []read.Text // of Whom
	Why   read.Text
	Basis []read.Text // source ids, or CommonPractice

	// What a reader has to have told for the prompt to fit, and what makes it
	// needless. Ids of facts. A gap in Ask, "{load}", is a fact's amount.
	Presumes []read.Text
	Unless   []read.Text
}

// Blank stands in a text for what a reader has not told.
const Blank = "___"

// Plain is what the prompt asks where nobody has told anything: on paper and in
// forms, where a blank can be filled in by hand.
func (p *Prompt) Plain() string {
	return tree.FillGaps(p.Ask.S, func(string) string { return Blank })
}

// Fits tells whether the prompt suits a reader who told some facts.
func (p *Prompt) Fits(told func(fact string) bool) bool {
	untold := func(f read.Text) bool { return !told(f.S) }
	return !slices.ContainsFunc(p.Presumes, untold) && !slices.ContainsFunc(p.Unless, func(f read.Text) bool { return told(f.S) })
}

// Whom lists the people a prompt can be for, in the order pages name them.
var Whom = []string{"prosthetist", "physician", "therapist", "payer", "myself"}

// CommonPractice stands where a source id would, for a trade rule without one.
const CommonPractice = "common-practice"

// Card is a short note that an answer adds.
type Card struct {
	ID      read.Text
	Title   read.Text
	Text    read.Text // markdown
	Prompts []read.Text
	Drawing read.Text // of what to do, where it has one
}

// Search is how a planned search for sources went.
type Search struct {
	On       read.Text // the day
	Asked    []read.Text
	Searches int
	Results  int
	LookedAt int
	TakenIn  []Tally
	LeftOut  []Tally
}

// Tally counts texts of one sort.
type Tally struct {
	What  read.Text
	Count int
}

// Row is one line of the side-by-side table. Steps are five words for marks 0 to 4.
type Row struct {
	ID    read.Text
	Title read.Text
	Steps []read.Text
}

// FootType is a construction, as a class, since single feet differ; or a way to go
// on with no new foot, which stands beside them.
type FootType struct {
	ID        read.Text
	Name      read.Text
	Within    read.Text // an add-on's name in the middle of a sentence, with its article: "a shock unit"
	Also      []read.Text
	What      read.Text
	Explainer read.Text // id; may be empty
	Addon     bool      // marks are changes to the foot it is added to
	Way       bool      // what one can do with no new foot; its cells have words in place of marks
	Gain      []read.Text
	GiveUp    []read.Text
	Cells     map[string]*Cell // by row id; complete
}

// Cell is one mark with its reason. Sources may be CommonPractice.
type Cell struct {
	At      read.Text
	Mark    int       // 0..4, or -2..3 for an add-on
	Says    read.Text // in place of a mark, for a way
	Support read.Text // how sure it is, of explainer.Supports; empty where the sources alone say it
	Why     read.Text
	Sources []read.Text
}

// Standing says what a mark stands on.
type Standing int

const (
	Settled   Standing = iota // what it cites says so, and nothing that we read disagrees
	Practice                  // trade practice alone: clinics say so, and nobody has tested it
	Unsettled                 // one small study, sources that disagree, feet that differ, or our judgment
)

// Words names a standing as pages show it.
func (s Standing) Name() say.Name {
	return []say.Name{"standing.settled", "standing.practice", "standing.unsettled"}[s]
}

// Standing follows from how sure the mark is and from what it cites.
func (c *Cell) Standing() Standing {
	cites := func(s read.Text) bool { return s.S != CommonPractice }
	switch {
	case c.Support.S == "little":
		return Unsettled
	case c.Support.S == "trade", !slices.ContainsFunc(c.Sources, cites):
		return Practice
	}
	return Settled
}

// Wish is something that may matter to a reader, held against one row. A foot
// type meets it from Step up, or from Step down where Down is set.
type Wish struct {
	ID    read.Text
	Title read.Text // in the reader's words
	Row   read.Text
	Step  int
	Down  bool
	Means read.Text // the step in daily life
	Want  read.Text // "I want ...": "to change heels"
	Name  read.Text // the wish as a thing: "heel change"
	Less  read.Text // a question about giving it up, without its end
}

// Word is one entry of the glossary.
type Word struct {
	ID      read.Text
	Word    read.Text
	Also    []read.Text
	Meaning read.Text
}

// Source is one entry of the bibliography.
type Source struct {
	ID      read.Text
	Title   read.Text
	Kind    read.Text // of SourceKinds
	By      read.Text
	Year    int // 0 where unknown
	Where   read.Text
	Address read.Text // of a page; may be empty
	Seen    read.Text // page, abstract, opening or summary: how much of it was read
	Note    read.Text
}

// Part is one shelf of the learn page. The last one gathers explainers that no
// part names.
type Part struct {
	Title      read.Text
	About      read.Text
	Explainers []*explainer.Page
}

// Picture names the drawing or the tile that stands for an explainer; empty where there is none.
func (l *Library) Picture(explainer string) string { return l.Pictures[explainer].S }

// Tree gives the tree with that id, or nil.
func (l *Library) Tree(id string) *tree.Tree { return l.by.trees[id] }

// PatientTrees gives the trees that are for patients: those of the planner.
func (l *Library) PatientTrees() []*tree.Tree {
	return slices.DeleteFunc(slices.Clone(l.Trees), func(t *tree.Tree) bool { return t.Audience.S != "patient" })
}

// Explainer gives the explainer with that id, or nil.
func (l *Library) Explainer(id string) *explainer.Page { return l.by.explainers[id] }

// Figure gives the figure with that id, or nil.
func (l *Library) Figure(id string) *figure.Figure { return l.by.figures[id] }

// Theme gives the theme with that id, or nil.
func (l *Library) Theme(id string) *Theme { return l.by.themes[id] }

// Prompt gives the prompt with that id, general ones included, or nil.
func (l *Library) Prompt(id string) *Prompt { return l.by.prompts[id] }

// Prompts gives all prompts, the general ones first.
func (l *Library) Prompts() []*Prompt {
	out := append([]*Prompt(nil), l.General...)
	for _, t := range l.Themes {
		out = append(out, t.Prompts...)
	}
	return out
}

// Case gives the teaching case with that id, or nil.
func (l *Library) Case(id string) *teaching.Case {
	for _, c := range l.Cases {
		if c.ID.S == id {
			return c
		}
	}
	return nil
}

// Fact gives the fact with that id, or nil.
func (l *Library) Fact(id string) *told.Fact { return l.by.facts[id] }

// Card gives the card with that id, or nil.
func (l *Library) Card(id string) *Card { return l.by.cards[id] }

// FootType gives the foot type with that id, or nil.
func (l *Library) FootType(id string) *FootType { return l.by.footTypes[id] }

// Marked gives the foot types and add-ons that have marks.
func (l *Library) Marked() []*FootType {
	return slices.DeleteFunc(slices.Clone(l.FootTypes), func(t *FootType) bool { return t.Way })
}

// Ways gives what one can do with no new foot.
func (l *Library) Ways() []*FootType {
	return slices.DeleteFunc(slices.Clone(l.FootTypes), func(t *FootType) bool { return !t.Way })
}

// Row gives the row with that id, or nil.
func (l *Library) Row(id string) *Row { return l.by.rows[id] }

// Word gives the glossary entry with that id, or nil.
func (l *Library) Word(id string) *Word { return l.by.words[id] }

// Source gives the source with that id, or nil.
func (l *Library) Source(id string) *Source { return l.by.sources[id] }

// TitleOf gives the title of what a link by id names, or "".
func (l *Library) TitleOf(kind, id string) string {
	switch kind {
	case "explainer":
		if p := l.Explainer(id); p != nil {
			return p.Title.S
		}
	case "tree":
		if t := l.Tree(id); t != nil {
			return t.Title.S
		}
	case "type":
		if t := l.FootType(id); t != nil {
			return t.Name.S
		}
	case "word":
		if w := l.Word(id); w != nil {
			return w.Word.S
		}
	case "page":
		return l.ownTitle(id)
	case "source":
		if s := l.Source(id); s != nil {
			return s.Title.S
		}
	}
	return ""
}

// Partly says that none of the sources was read as a whole or as the authors' own
// abstract; it is "" where one was.
func (l *Library) Partly(ids []string) string {
	for _, id := range ids {
		if s := l.Source(id); s == nil || s.Seen.S == "page" || s.Seen.S == "abstract" {
			return ""
		}
	}
	return l.Say.Say("support.read-partly")
}

// kindWords are the kinds of sources in words.
var kindWords = map[string]say.Name{
	"study": "source-kind.study", "review": "source-kind.review", "guideline": "source-kind.guideline", "rule": "source-kind.rule", "standard": "source-kind.standard",
	"textbook": "source-kind.textbook", "advice": "source-kind.advice", "trade": "source-kind.trade", "report": "source-kind.report", "data": "source-kind.data",
}

// SourceName says what kind of source it is and of which year, "2023 study", for a
// place that has no room for its title.
func (l *Library) SourceName(id string) string {
	s := l.Source(id)
	if s == nil {
		return ""
	}
	kind := kindWords[s.Kind.S]
	if kind == "" {
		return "" // which was reported
	}
	if s.Year != 0 {
		return l.Say.Say("source-kind.of-year", "year", l.Say.Year(s.Year), "kind", l.Say.Say(kind))
	}
	return l.Say.Say(kind)
}

// Doc gives a markdown text of a YAML value, parsed. What is wrong in it has been
// reported while it was checked. Each text is parsed once.
func (l *Library) Doc(t read.Text) *explainer.Doc {
	if d, ok := l.docs.Load(t); ok {
		return d.(*explainer.Doc)
	}
	return l.parse(t, &finding.List{})
}

func (l *Library) parse(t read.Text, list *finding.List) *explainer.Doc {
	d := explainer.ParseText(t, l.Edition.Lines, list)
	l.docs.Store(t, d)
	return d
}

// File gives the text of an input file as it was read, for listings and
// findings; nil where there is none.
func (l *Library) File(name string) []byte {
	if again := l.onDisk[name]; again != nil {
		src, _ := again() // a finding without its line is better than none
		return src
	}
	return l.files[name]
}

// Inside gives a file's path inside its layer: "trees/heel-height.yaml". Where the
// layer lies is the affair of the one who builds, and no page may tell it.
func (l *Library) Inside(name string) string { return l.inside[name] }
