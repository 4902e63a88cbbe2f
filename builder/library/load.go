package library

import (
	"cmp"
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
	"keelpath/builder/translation"
	"keelpath/builder/tree"
)

// Load reads the layers, the first being the ground, proves every tree and
// cross-checks everything. It gives a library as complete as the input allows;
// render it only when list has no errors. The error is that of ctx, which is heard
// between two files and while a tree is proved.
func Load(ctx context.Context, list *finding.List, layers ...Layer) (*Library, error) {
	return load(ctx, newLoader(list), layers)
}

// LoadAgain is Load with what is known of explainers from a load before; before is what Known gave, or nothing. What
// it gives, and what it finds, is what Load gives and finds.
func LoadAgain(ctx context.Context, list *finding.List, before []byte, layers ...Layer) (*Library, error) {
	l := newLoader(list)
	l.memory = newMemory(before, layers)
	l.known = l.memory.now
	return load(ctx, l, layers)
}

func load(ctx context.Context, l *loader, layers []Layer) (*Library, error) {
	ground, err := l.readAll(ctx, layers)
	if err != nil {
		return nil, err
	}
	for _, t := range l.Trees {
		if l.Proofs[t.ID.S], err = l.prove(ctx, t); err != nil {
			return nil, err
		}
		proof.Examples(t, func(id string) bool { return l.Card(id) != nil }, l.list)
	}
	if len(layers) > 1 {
		l.unchanged(ground)
	}
	if err := l.check(ctx); err != nil {
		return nil, err
	}
	if err := l.voices(ctx, layers); err != nil {
		return nil, err
	}
	return l.Library, l.others(ctx, layers)
}

func newLoader(list *finding.List) *loader {
	return &loader{
		Library: &Library{Lang: FirstLanguage, Proofs: map[string]*proof.Proof{}, files: map[string][]byte{}, inside: map[string]string{}, onDisk: map[string]func() ([]byte, error){}, counts: map[any]prose.Counts{}},
		list:    list, unread: map[string]bool{}, away: map[string]bool{},
	}
}

// readAll reads every layer, and gives what the later ones must leave as it is.
func (l *loader) readAll(ctx context.Context, layers []Layer) (ground seal, err error) {
	for _, y := range layers {
		if y.Dir != "" {
			l.dirs = append(l.dirs, y.name("")+"/")
		}
	}
	l.says(layers)
	l.editions(layers)
	l.Say = l.Say.In(l.Edition.Place.S)
	return l.readContent(ctx, layers)
}

// editions reads what the layers say of the edition. It comes first: texts name its
// numbers, and its place says which of them are for it.
func (l *loader) editions(layers []Layer) {
	for _, y := range layers {
		l.edition(l.open(y, "content/edition.yaml"))
	}
}

func (l *loader) readContent(ctx context.Context, layers []Layer) (ground seal, err error) {
	for i, y := range layers {
		if l.memory != nil {
			l.memory.layer = i
		}
		if err := l.layer(ctx, y); err != nil {
			return ground, err
		}
		if i == 0 {
			ground = l.sealGround()
		}
	}
	l.leaveAway()
	l.signEndings()
	l.order()
	l.figuresInOrder()
	l.figuresSay()
	l.shelves()
	return ground, nil
}

type loader struct {
	*Library
	list    *finding.List
	planner []read.Text // ids of trees in the planner's order
	learn   []*read.Map // the shelves of the learn page, of each layer that has some

	// Ids of trees, explainers and figures whose file is there but could not be read. That
	// was reported; names that lead to them are not wrong.
	unread map[string]bool
	away   map[string]bool // "prompt pay-2": left out of this edition for its place

	dirs []string // where the layers above the built-in one lie, each with a slash behind it

	memory *memory // of the load before; nil in other languages than the first, and where nobody asked for it

	book *translation.Book // the words of another language; nil for the first
	own  map[string]page   // the explainers of that language, by id

	spoken *translation.Voices // the words of the first language's other voices; nil for the reader's own
}

func (l *loader) layer(ctx context.Context, y Layer) error {
	for _, n := range y.names(func(string) bool { return true }) {
		l.files[y.name(n)], l.inside[y.name(n)] = y.files[n], n
	}
	of := map[int][]string{} // names of files by their kind
	for _, n := range y.names(isInput) {
		i := fileKindOf(n)
		of[i] = append(of[i], n)
	}
	for i, k := range FileKinds() {
		for _, n := range of[i] {
			if err := ctx.Err(); err != nil {
				return err
			}
			if k.read != nil {
				k.read(l, y, n)
			}
		}
	}
	return ctx.Err()
}

// open reads one of the layer's tables; nil where it has none.
func (l *loader) open(y Layer, file string) *read.Map {
	src, ok := y.files[file]
	if !ok {
		return nil
	}
	return l.want(file).YAML(y.name(file), src, 0, l.list)
}

// want says which words of a file are read, and which of its entries.
func (l *loader) want(file string) read.Choice {
	c := read.Choice{Place: l.Edition.Place.S, Voice: l.Voice, File: translation.Name(file), Away: func(kind, id string) { l.away[kind+" "+id] = true }}
	if l.book != nil {
		c.Other = l.book
	}
	if l.spoken != nil {
		c.Other, c.Aside = l.spoken.In(l.Voice), true
	}
	return c
}

// whole is want for a file that stands in the place of the same one of the layers below.
func (l *loader) whole(file string) read.Choice {
	if l.book != nil {
		l.book.Again(translation.Name(file))
	}
	if l.spoken != nil {
		l.spoken.Again(translation.Name(file))
	}
	return l.want(file)
}

// enter adds x to a list that is looked up by id, or replaces what has its id.
func enter[T any](all *[]*T, by *map[string]*T, id string, x *T) {
	if *by == nil {
		*by = map[string]*T{}
	}
	if old := (*by)[id]; old != nil {
		(*all)[slices.Index(*all, old)] = x
	} else {
		*all = append(*all, x)
	}
	(*by)[id] = x
}

// put is enter for a short list that nobody looks up.
func put[T any](all *[]*T, x *T, id func(*T) string) {
	for i, old := range *all {
		if id(old) == id(x) {
			(*all)[i] = x
			return
		}
	}
	*all = append(*all, x)
}

func (l *loader) edition(m *read.Map) {
	if m == nil {
		return
	}
	set := func(to *read.Text, key string) {
		if t := m.Text(key); t.Given() {
			*to = t
		}
	}
	e := &l.Edition
	set(&e.Name, "name")
	if ls := m.IDs("languages"); len(ls) > 0 {
		e.Languages = ls
	}
	if vs := m.IDs("voices"); len(vs) > 0 {
		e.Voices = vs
	}
	set(&e.Clinic, "clinic")
	set(&e.Phone, "phone")
	l.address(m.Text("address"))
	before := e.Lines.Emergency.Where.S
	has := l.lines(m)
	switch place := m.Text("place"); {
	case place.Given():
		e.Place = place
	case before != "" && e.Lines.Emergency.Where.S != before:
		e.Place = read.Text{} // it is for elsewhere, and does not say where
	}
	set(&e.Endorsement, "endorsement")
	set(&e.Version, "version")
	if shared := m.Bool("shared-screen"); !m.Lacks("shared-screen") {
		e.Shared = shared
	}
	m.WordPairs("training", func(name read.Text, says []read.Text) {
		t := &Training{Name: name}
		if len(says) == 1 {
			t.Says = says[0]
		}
		if t.Says.S == "" {
			l.list.Add(name.At, "no-training", fmt.Sprintf("%q stands under \"training\" with nothing behind it", name.S), "say in a sentence or two what they learned, and whether they hold a license")
		}
		put(&e.Training, t, func(t *Training) string { return t.Name.S })
	})
	m.Done()
	l.needed(m, has)
}

func (l *loader) sources(m *read.Map) {
	m.Each("sources", "source", func(id read.Text, s *read.Map) {
		src := &Source{
			ID: id, Title: s.NeedText("title"), Kind: l.sourceKind(s), By: s.Text("by"), Where: s.Text("where"), Address: s.Text("address"),
			Seen: s.OneOf("seen", "opening", "page", "abstract", "summary"), Note: s.Words("note"),
		}
		src.Year, _ = s.Int("year", 1900, 2100)
		if a := src.Address; a.S != "" && !strings.HasPrefix(a.S, "https://") && !strings.HasPrefix(a.S, "http://") {
			l.list.Add(a.At, "not-allowed", fmt.Sprintf(`the address %q does not begin with "https://" or "http://"`, a.S), "write the page's whole address")
		}
		s.Done()
		enter(&l.Sources, &l.by.sources, src.ID.S, src)
	})
	if s := m.Sub("search", "the search"); s != nil {
		l.Search = &Search{
			On: s.Date("on"), Asked: s.NeedWordList("asked"),
			Searches: s.NeedInt("searches", 0, MaxCount), Results: s.NeedInt("results", 0, MaxCount), LookedAt: s.NeedInt("looked-at", 0, MaxCount),
			TakenIn: tallies(s, "taken-in"), LeftOut: tallies(s, "left-out"),
		}
		s.Done()
	}
	m.Done()
}

// MaxCount is more than any search comes to, so that a slip of the hand is seen.
const MaxCount = 1_000_000

func tallies(m *read.Map, key string) []Tally {
	var out []Tally
	for _, t := range m.Maps(key, "a line of "+key) {
		out = append(out, Tally{t.NeedWords("what"), t.NeedInt("count", 0, MaxCount)})
		t.Done()
	}
	return out
}

func (l *loader) sourceKind(s *read.Map) read.Text {
	kind := s.NeedText("kind")
	if kind.S != "" && !slices.Contains(SourceKinds, kind.S) {
		help := append(finding.NearestHelp(kind.S, SourceKinds, nil), "allowed: "+strings.Join(SourceKinds, ", "))
		l.list.Add(kind.At, "not-allowed", fmt.Sprintf("\"kind\" is %q, and that is not one of its values", kind.S), help...)
	}
	return kind
}

func (l *loader) words(m *read.Map) {
	m.EachHere("words", "word", func(id read.Text, w *read.Map) {
		enter(&l.Words, &l.by.words, id.S, &Word{ID: id, Word: w.NeedWords("word"), Also: w.WordList("also"), Meaning: w.NeedWords("meaning")})
		w.Done()
	})
	m.Done()
}

func (l *loader) facts(m *read.Map) {
	if m == nil {
		return
	}
	facts, about := told.Parse(m, l.list)
	for _, f := range facts {
		enter(&l.Facts, &l.by.facts, f.ID.S, f)
	}
	for _, part := range l.About.Parts { // those that a layer does not name keep their order behind
		if !slices.Contains(read.Strings(about.Parts), part.S) {
			about.Parts = append(about.Parts, part)
		}
	}
	l.About.Parts = about.Parts
	for _, line := range about.Lines {
		put(&l.About.Lines, line, func(line *told.Line) string { return line.ID })
	}
}

func (l *loader) prompts(m *read.Map) {
	if m == nil {
		return
	}
	byID := func(p *Prompt) string { return p.ID.S }
	m.EachHere("general", "prompt", func(id read.Text, p *read.Map) {
		put(&l.General, l.prompt(id, p, read.Text{}), byID)
	})
	m.EachOrAway("themes", "theme", func(id read.Text, t *read.Map) {
		theme := l.Theme(id.S)
		if theme == nil {
			theme = &Theme{ID: id}
			enter(&l.Themes, &l.by.themes, id.S, theme)
		}
		theme.Title, theme.About = t.NeedWords("title"), t.NeedWords("about")
		t.EachHere("prompts", "prompt", func(id read.Text, p *read.Map) {
			put(&theme.Prompts, l.prompt(id, p, theme.ID), byID)
		})
		t.Done()
	}, func(_ read.Text, t *read.Map) {
		t.EachHere("prompts", "prompt", func(id read.Text, _ *read.Map) { l.away["prompt "+id.S] = true })
	})
	m.Done()
	l.by.prompts = map[string]*Prompt{}
	for _, p := range slices.Backward(l.Prompts()) {
		l.by.prompts[p.ID.S] = p
	}
}

func (l *loader) prompt(id read.Text, m *read.Map, theme read.Text) *Prompt {
	p := &Prompt{ID: id, Theme: theme, Ask: m.NeedWords("ask"), Whom: m.Texts("whom"), Why: m.NeedWords("why"), Basis: m.Texts("basis"),
		Presumes: m.OneOrMore("presumes"), Unless: m.OneOrMore("unless")}
	l.promptForm(p, m)
	m.Done()
	return p
}

// maxWords is the most words of a prompt that can be said in one breath (facts:
// standards, 2.12).
const maxWords = 20

// moreInVoice is how many words more a prompt has where it names someone: "the person I care for".
const moreInVoice = 4

// amountWords is how many words of a prompt an amount in it counts as: 20 kg (44 lb).
const amountWords = 4

func (l *loader) promptForm(p *Prompt, m *read.Map) {
	if ask := p.Ask.S; ask != "" && l.Lang == FirstLanguage {
		if !strings.HasSuffix(ask, "?") {
			l.list.Add(p.Ask.At, "prompt-form", fmt.Sprintf("prompt %q does not end with a question mark", p.ID.S), "word it as a question that the reader can say")
		}
		if strings.Count(ask, "?") > 1 {
			l.list.Add(p.Ask.At, "prompt-form", fmt.Sprintf("prompt %q asks more than one question", p.ID.S), "keep one, or make two prompts of it")
		}
		most := maxWords
		if l.Voice != "" {
			most += moreInVoice
		}
		if n := len(strings.Fields(ask)) + (amountWords-1)*len(tree.Gaps(ask)); n > most {
			l.list.Add(p.Ask.At, "prompt-form", fmt.Sprintf("prompt %q has %d words, and at most %d can be said in one breath", p.ID.S, n, most), "shorten it")
		}
	}
	if m.Lacks("whom") {
		l.list.Add(p.ID.At, "missing-key", fmt.Sprintf("prompt %q does not say whom to ask", p.ID.S), "add whom: ["+Whom[0]+"]")
	}
	if m.Lacks("basis") {
		l.list.Add(p.ID.At, "missing-key", fmt.Sprintf("prompt %q does not say what it rests on", p.ID.S), "add basis: with source ids, or ["+CommonPractice+"]")
	}
	for _, w := range p.Whom {
		if !slices.Contains(Whom, w.S) {
			help := append(finding.NearestHelp(w.S, Whom, nil), "allowed: "+strings.Join(Whom, ", "))
			l.list.Add(w.At, "not-allowed", fmt.Sprintf("prompt %q is for %q, and nobody here has that name", p.ID.S, w.S), help...)
		}
	}
}

func (l *loader) cards(m *read.Map) {
	m.EachHere("cards", "card", func(id read.Text, c *read.Map) {
		enter(&l.Cards, &l.by.cards, id.S, &Card{ID: id, Title: c.NeedWords("title"), Text: c.NeedWords("text"), Prompts: c.IDs("prompts"), Drawing: c.Text("drawing")})
		c.Done()
	})
	m.Done()
}

// steps is how many marks a row has words for: 0 to 4.
const steps = 5

func (l *loader) footTypes(m *read.Map) {
	m.EachHere("rows", "row", func(id read.Text, r *read.Map) {
		row := &Row{ID: id, Title: r.NeedWords("title"), Steps: r.WordList("steps")}
		if n := len(row.Steps); (n > 0 && n != steps) || r.Lacks("steps") {
			l.list.Add(r.Key("steps"), "row-steps", fmt.Sprintf("row %q has %d words for its marks, and %d were expected", id.S, len(row.Steps), steps), "give one word or phrase for each mark from 0 to 4")
		}
		r.Done()
		enter(&l.Rows, &l.by.rows, row.ID.S, row)
	})
	m.EachHere("types", "foot type", func(id read.Text, t *read.Map) {
		enter(&l.FootTypes, &l.by.footTypes, id.S, l.footType(id, t))
	})
	m.Done()
}

func (l *loader) footType(id read.Text, m *read.Map) *FootType {
	t := &FootType{
		ID: id, Name: m.NeedWords("name"), Also: m.WordList("also"), What: m.NeedWords("what"), Explainer: m.Text("explainer"),
		Addon: m.Bool("addon"), Way: m.Bool("way"), Gain: m.NeedWordList("gain"), GiveUp: m.NeedWordList("give-up"), Cells: map[string]*Cell{},
	}
	low, high := 0, steps-1
	if t.Addon {
		t.Within = m.NeedWords("in-sentence")
		low, high = -2, 3
	}
	if t.Addon && t.Way {
		l.list.Add(m.Key("way"), "needless-key", fmt.Sprintf("foot type %q is an add-on and a way to go on with no new foot", id.S), `keep one of "addon" and "way"`)
	}
	m.Each("cells", "cell", func(row read.Text, c *read.Map) {
		cell := &Cell{At: row, Why: c.NeedWords("why"), Sources: c.Texts("sources")}
		if c.Text("support").Given() {
			cell.Support = c.OneOf("support", explainer.SupportIDs()...)
		}
		if t.Way {
			cell.Says = c.NeedWords("says")
		} else if mark := c.NeedText("mark"); mark.S != "" {
			cell.Mark, _ = c.Int("mark", low, high)
		}
		if c.Lacks("sources") {
			l.list.Add(row.At, "missing-key", fmt.Sprintf("cell %q of foot type %q names no source", row.S, id.S), "add sources: with ids, or ["+CommonPractice+"]")
		}
		c.Done()
		t.Cells[row.S] = cell
	})
	if m.Lacks("cells") {
		l.list.Add(id.At, "missing-key", fmt.Sprintf("foot type %q lacks \"cells\"", id.S), `add "cells:" with a mark for each row below`)
	}
	m.Done()
	return t
}

func (l *loader) plannerOrder(m *read.Map) {
	if m == nil {
		return
	}
	// What a later layer names comes first; the others keep the order they had.
	now := m.IDs("order")
	named := read.Strings(now)
	for _, before := range l.planner {
		if !slices.Contains(named, before.S) {
			now = append(now, before)
		}
	}
	l.planner = now
	m.Done()
}

// order brings the trees into the planner's order; those that no order names
// follow by id.
func (l *loader) order() {
	place := func(t *tree.Tree) int {
		for i, p := range l.planner {
			if p.S == t.ID.S {
				return i
			}
		}
		return len(l.planner)
	}
	slices.SortStableFunc(l.Trees, func(a, b *tree.Tree) int {
		return cmp.Or(cmp.Compare(place(a), place(b)), cmp.Compare(a.ID.S, b.ID.S))
	})
	var ids []string
	for _, t := range l.Trees {
		ids = append(ids, t.ID.S)
	}
	for _, p := range l.planner {
		if l.Tree(p.S) == nil && !l.unread["tree "+p.S] {
			l.list.Add(p.At, "unknown-name", fmt.Sprintf("the planner's order names the tree %q, and there is none", p.S), nearestOrLeave(p.S, ids)...)
		}
	}
}

func nearestOrLeave(wrong string, names []string) []string {
	if help := finding.NearestHelp(wrong, names, nil); help != nil {
		return help
	}
	return []string{"add a file for it, or take it off the list"}
}

func (l *loader) explainerIDs() []string {
	var out []string
	for _, p := range l.Explainers {
		out = append(out, p.ID)
	}
	return out
}
