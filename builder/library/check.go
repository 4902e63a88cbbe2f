package library

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/proof"
	"keelpath/builder/prose"
	"keelpath/builder/read"
	"keelpath/builder/told"
	"keelpath/builder/tree"
)

// shelf is everything of one kind that can be named: ids and where each stands.
type shelf struct {
	kind string
	at   map[string]finding.Place
	ids  []string
}

func shelfOf[T any](kind string, all []*T, of func(*T) read.Text) shelf {
	s := shelf{kind: kind, at: map[string]finding.Place{}}
	for _, x := range all {
		t := of(x)
		s.ids = append(s.ids, t.S)
		s.at[t.S] = t.At
	}
	return s
}

func (s shelf) has(id string) bool {
	_, ok := s.at[id]
	return ok
}

// checker cross-checks the names that files use for each other.
type checker struct {
	*loader
	trees, prompts, themes, cards, rows, types, words, sources, explainers, facts shelf

	lived map[string][]*FootType // by the page that tells of life with them

	led []anchored // links to headings of explainers

	made   sayings                // claims with a mark of certainty, as they were met
	marked map[finding.Place]bool // texts in which marks are read, by their place
}

func newChecker(l *loader) *checker {
	return &checker{
		loader:  l,
		marked:  map[finding.Place]bool{},
		made:    sayings{known: map[string]*saying{}, words: map[string]int{}},
		trees:   shelfOf("tree", l.Trees, func(t *tree.Tree) read.Text { return t.ID }),
		prompts: shelfOf("prompt", l.Prompts(), func(p *Prompt) read.Text { return p.ID }),
		themes:  shelfOf("theme", l.Themes, func(t *Theme) read.Text { return t.ID }),
		cards:   shelfOf("card", l.Cards, func(c *Card) read.Text { return c.ID }),
		rows:    shelfOf("row", l.Rows, func(r *Row) read.Text { return r.ID }),
		types:   shelfOf("foot type", l.FootTypes, func(t *FootType) read.Text { return t.ID }),
		words:   shelfOf("word", l.Words, func(w *Word) read.Text { return w.ID }),
		sources: shelfOf("source", l.Sources, func(s *Source) read.Text { return s.ID }),
		facts:   shelfOf("fact", l.Facts, func(f *told.Fact) read.Text { return f.ID }),
		explainers: shelfOf("explainer", l.Explainers, func(p *explainer.Page) read.Text {
			return read.Text{S: p.ID, At: finding.Place{File: p.File, Line: 1}}
		}),
	}
}

func (l *loader) check(ctx context.Context) error {
	c := newChecker(l)
	c.tables()
	c.screen()
	for _, t := range l.Trees {
		c.tree(t)
	}
	if l.Lang == FirstLanguage {
		c.lived = c.life()
	}
	for _, p := range l.Explainers { // one after the other, so that the text of one is in memory at a time
		if ctx.Err() != nil {
			break
		}
		c.page(p)
	}
	for _, p := range l.Pages {
		c.ownText(p)
	}
	for _, f := range c.Figures {
		c.figure(f)
	}
	first := l.Lang == FirstLanguage
	steps := []func(){c.fileNames, c.shorts, c.pageTextsThere, c.cases, c.drawings, c.namedDrawings, c.told, c.wordForms, c.searchWords, func() { c.saidHeld(first) }, func() { proof.HandOvers(l.Trees, l.list) }, func() { c.readingGrades(first) }}
	if first { // rules of its words
		steps = append(steps, c.oneMark, c.twins, c.anchors)
	}
	steps = append(steps, c.brought) // which is silent where anything was found
	for _, step := range steps {
		if err := ctx.Err(); err != nil {
			return err
		}
		step()
	}
	return ctx.Err()
}

// has reports each name that is not on the shelf. who says what uses it.
func (c *checker) has(s shelf, who string, names ...read.Text) {
	for _, n := range names {
		if !n.Given() || s.has(n.S) || c.unread[s.kind+" "+n.S] {
			continue
		}
		help := finding.NearestHelp(n.S, s.ids, func(id string) finding.Place { return s.at[id] })
		if help == nil {
			help = []string{fmt.Sprintf("add a %s with that id, or take the name out", s.kind)}
		}
		c.list.Add(n.At, "unknown-name", fmt.Sprintf("%s names the %s %q, and there is none", who, s.kind, n.S), help...)
	}
}

// basis is has for sources where a trade rule without one may stand.
func (c *checker) basis(who string, names []read.Text) {
	for _, n := range names {
		if n.S != CommonPractice {
			c.has(c.sources, who, n)
		}
	}
}

func (c *checker) tables() {
	seen := map[string]finding.Place{}
	for _, p := range c.Prompts() {
		if at, twice := seen[p.ID.S]; twice {
			c.list.Add(p.ID.At, "repeated-id", fmt.Sprintf("prompt %q has an id that another prompt has", p.ID.S), "the first is at "+at.String(), "give one of them another id")
		}
		seen[p.ID.S] = p.ID.At
		c.basis(fmt.Sprintf("prompt %q", p.ID.S), p.Basis)
	}
	for _, k := range c.Cards {
		who := fmt.Sprintf("card %q", k.ID.S)
		c.has(c.prompts, who, k.Prompts...)
		c.claims(c.text(who, k.Text).Blocks)
	}
	for _, r := range c.Rows {
		c.row(r)
	}
	for _, t := range c.FootTypes {
		c.footType(t)
	}
	c.wishes()
	c.selfRatings()
	c.readings()
}

// row reports the foot types that have no cell for it. Where all lack it, the
// row is new and that is one finding.
func (c *checker) row(r *Row) {
	var lack []*FootType
	for _, t := range c.FootTypes {
		if t.Cells[r.ID.S] == nil && len(t.Cells) > 0 && !c.nearly(t.Cells, r) {
			lack = append(lack, t)
		}
	}
	const help = "every foot type answers every row"
	if len(lack) == len(c.FootTypes) && len(lack) > 1 {
		c.list.Add(r.ID.At, "missing-cell", fmt.Sprintf("no foot type has a cell for the row %q", r.ID.S), help)
		return
	}
	for _, t := range lack {
		c.list.Add(t.ID.At, "missing-cell", fmt.Sprintf("foot type %q has no cell for the row %q", t.ID.S, r.ID.S), "the row is at "+r.ID.At.String(), help)
	}
}

func (c *checker) footType(t *FootType) {
	who := fmt.Sprintf("foot type %q", t.ID.S)
	c.has(c.explainers, who, t.Explainer)
	for _, cell := range t.Cells {
		c.has(c.rows, who, cell.At)
		c.basis(fmt.Sprintf("cell %q of %s", cell.At.S, who), cell.Sources)
		c.cellClaim(fmt.Sprintf("cell %q of %s", cell.At.S, who), cell)
	}
	c.sidesOfType(t)
}

// nearly tells whether one of the cells is a misspelt one of that row.
func (c *checker) nearly(cells map[string]*Cell, r *Row) bool {
	for id := range cells {
		if !c.rows.has(id) && finding.Nearest(id, c.rows.ids) == r.ID.S {
			return true
		}
	}
	return false
}

func (c *checker) tree(t *tree.Tree) {
	c.screenFirst(t)
	c.has(c.sources, "the tree", t.Credits.Sources...)
	c.trained(t.Credits)
	for _, q := range t.Questions {
		for _, a := range q.Answers {
			c.has(c.cards, fmt.Sprintf("answer %q", a.ID.S), a.Cards...)
		}
		for _, r := range q.Routes {
			c.has(c.cards, fmt.Sprintf("a route of question %q", q.ID.S), r.Cards...)
		}
	}
	for _, e := range t.Endings {
		who := fmt.Sprintf("ending %q", e.ID.S)
		c.has(c.themes, who, e.Themes...)
		c.has(c.prompts, who, e.Prompts...)
		c.has(c.trees, who, e.Next...)
		for _, talk := range e.Types {
			c.has(c.types, who, talk.Type)
		}
		c.sidesOfEnding(e)
		if e.Sign.Given() {
			continue // its words are the safety screen's
		}
		text := c.text(who, e.Text)
		c.cited(text, t.Credits)
		c.claims(text.Blocks)
		c.cited(c.text(who, e.Caution), t.Credits) // it shows no marks
	}
	for _, e := range t.Examples {
		c.has(c.cards, "an example", e.Cards...)
	}
}

// trained reports authors and reviewers of whom the edition does not say what
// training they have.
func (c *checker) trained(header read.Credits) {
	var known []string
	for _, t := range c.Edition.Training {
		known = append(known, t.Name.S)
	}
	for _, who := range slices.Concat(header.Authors, header.Reviewers) {
		if !slices.Contains(known, who.S) {
			help := append(finding.NearestHelp(who.S, known, nil),
				fmt.Sprintf("add a line under training: in content/edition.yaml: %q: what they learned, and whether they hold a license", who.S))
			c.list.Add(who.At, "no-training", fmt.Sprintf("the header names %q, and the edition does not say what training they have", who.S), help...)
		}
	}
}

// text checks a markdown text inside a YAML value and gives it parsed.
func (c *checker) text(who string, t read.Text) *explainer.Doc {
	c.marked[t.At] = true
	d := c.parse(t, c.list)
	c.refs(who, d)
	return d
}

// cited reports a source that a text cites and its header does not list. It
// gives the ids of all that are cited.
func (c *checker) cited(d *explainer.Doc, header read.Credits) []string {
	var cited []string
	listed := read.Strings(header.Sources)
	for _, r := range d.Refs {
		if r.Kind != "source" || slices.Contains(cited, r.ID) {
			continue
		}
		cited = append(cited, r.ID)
		if c.sources.has(r.ID) && !c.meant(r.ID, listed) {
			c.list.Add(r.At, "uncited", fmt.Sprintf("the text cites the source %q, and the header does not list it", r.ID), "add it to sources: in the header")
		}
	}
	return cited
}

// meant tells whether the source stands on a list, or a misspelt name of it
// does, which has been reported.
func (c *checker) meant(id string, list []string) bool {
	return slices.ContainsFunc(list, func(n string) bool {
		return n == id || (!c.sources.has(n) && finding.Nearest(n, c.sources.ids) == id)
	})
}

func (c *checker) refs(who string, d *explainer.Doc) {
	shelves := map[string]shelf{"tree": c.trees, "type": c.types, "word": c.words, "source": c.sources}
	for _, r := range d.Refs {
		switch r.Kind {
		case "heading":
			c.heading(who, d, r)
			continue
		case "page":
			c.pageNamed(who, r)
			continue
		case "explainer":
			c.explainerNamed(who, r)
			continue
		case "support", "call", "on":
			continue // closed lists, which the reader of texts has checked
		}
		c.has(shelves[r.Kind], who, read.Text{S: r.ID, At: r.At})
	}
	for _, s := range d.Figures {
		c.figureShown(s)
	}
}

func (c *checker) heading(who string, d *explainer.Doc, r explainer.Ref) {
	var ids []string
	for _, h := range d.Headings {
		ids = append(ids, h.ID)
	}
	if slices.Contains(ids, r.ID) {
		return
	}
	c.list.Add(r.At, "unknown-name", fmt.Sprintf("%s links to the heading %q, and there is none", who, "#"+r.ID), finding.NearestOrAll(r.ID, ids, "headings here")...)
}

func (c *checker) page(p *explainer.Page) {
	defer c.giveAway(p)
	if c.recalled(p) {
		return
	}
	found, claims := c.list.Len(), len(c.made.all)
	who := "the page"
	c.has(c.prompts, who, p.Prompts...)
	c.has(c.sources, "the header", p.Credits.Sources...)
	c.trained(p.Credits)
	p.Body.Read(c.list)
	c.refs(who, p.Body)
	c.allCited(p, c.cited(p.Body, p.Credits))
	c.claims(p.Body.Blocks)
	if p.Audience.S == "patient" && len(p.Credits.Sources) == 0 && p.Title.Given() {
		c.list.Add(p.Title.At, "no-sources", "a page for patients rests on no source", "list what it rests on under sources: and cite it in the text")
	}
	c.pageSaid(p)
	c.headerSaid(p)
	if c.list.Len() == found {
		c.remember(p, c.made.all[claims:])
	}
	p.Body.Forget()
}

// pageSaid holds what a page says to the rules of the first language's words, and counts it,
// while its text is at hand. No mark of it is raw.
func (c *checker) pageSaid(p *explainer.Page) {
	text := c.textOf(p, p.Body)
	n := prose.Of(text.passages)
	c.counts[p] = n
	if c.Lang != FirstLanguage {
		return
	}
	place := c.Edition.Lines.Emergency.Where.S
	for _, b := range p.Body.Blocks {
		c.worded(said{"the page", b.Text, b.Place, finding.Place{}, p.Audience.S != "patient"}, place)
	}
	c.ownNumbersOn(p)
	if of := c.lived[p.ID]; len(of) > 0 && p.Title.Given() && p.Lead == nil {
		c.lifeOn(p, of)
	}
	if p.Audience.S == "patient" {
		c.graded(p.Title.At, "the page", text, n)
	}
}

// allCited reports a source that a header lists and the text does not cite.
func (c *checker) allCited(p *explainer.Page, cited []string) {
	for _, s := range p.Credits.Sources {
		if c.sources.has(s.S) && !c.meant(s.S, cited) {
			c.list.Add(s.At, "uncited", fmt.Sprintf("the header lists the source %q, and the text does not cite it", s.S), fmt.Sprintf(`put "[](source:%s)" behind the claim it bears out, or take it off the list`, s.S))
		}
	}
}

// wordForms reports a form that two glossary words share: a link could only
// lead to one of them.
func (c *checker) wordForms() {
	first := map[string]*Word{}
	for _, w := range c.Words {
		for _, f := range append([]read.Text{w.Word}, w.Also...) {
			key := strings.ToLower(f.S)
			if old := first[key]; old != nil && old != w {
				c.list.Add(f.At, "repeated-form", fmt.Sprintf("the glossary words %q and %q share the form %q", old.ID.S, w.ID.S, f.S), "the first is at "+old.ID.At.String(), "leave it to one of them")
				continue
			}
			first[key] = w
		}
	}
}
