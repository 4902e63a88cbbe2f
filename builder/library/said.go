package library

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/helpline"
	"keelpath/builder/read"
	"keelpath/builder/tree"
	"keelpath/builder/wording"
)

// said is one text that a reader sees, with the way to a place in it.
type said struct {
	who   string // what it belongs to: `question "slope"`
	text  string
	place func(offset int) finding.Place
	at    finding.Place // where the text begins; none in an explainer's body
	aside bool          // not among what patients read on their way: for residents and editors, and other names that search knows
}

// saidHeld holds all that readers see, and the authors of this content wrote, to the
// rules of words; the texts of pages are held to them as each is checked.
// Those of the first language alone are left out for any other.
func (c *checker) saidHeld(first bool) {
	c.everySaid(func(s said) { c.held(s, first) })
}

// headerSaid is saidHeld for what the header of an explainer says.
func (c *checker) headerSaid(p *explainer.Page) {
	c.everyHeaderText(p, func(s said) { c.held(s, c.Lang == FirstLanguage) })
}

func (c *checker) held(s said, first bool) {
	c.rawMark(s)
	if !first {
		return
	}
	c.worded(s, c.Edition.Lines.Emergency.Where.S)
	if s.who != "the edition" {
		c.ownNumber(s.who, s.text, s.place)
	}
}

// worded holds a text to the wording rules, and what patients read to the one word that
// was settled for each thing. Titles of published sources are left as they are.
func (c *checker) worded(s said, place string) {
	for _, h := range wording.In(s.text) {
		text := fmt.Sprintf("%s says %q, which sounds like choosing for the reader", s.who, h.Words)
		if h.Kind == wording.Steering {
			text = fmt.Sprintf("%s says %q, which sounds like a maker's words", s.who, h.Words)
		}
		c.list.Add(s.place(h.From), "wording", text, h.Instead)
	}
	if s.aside {
		return
	}
	text := s.text
	if strings.Contains(text, "](") {
		text = linkEnd.ReplaceAllStringFunc(text, blank)
	}
	for _, h := range wording.Settled(text, place) {
		c.list.Add(s.place(h.From), "settled-word", fmt.Sprintf("%s says %q, and another word was settled for it", s.who, h.Words), h.Instead)
	}
}

// linkEnd is where a link of a text in markdown leads, by name: no reader sees it.
var linkEnd = regexp.MustCompile(`\]\([^()\s]*\)`)

// blank leaves as many bytes as there were, so that places stay.
func blank(s string) string { return strings.Repeat(" ", len(s)) }

// everySaid gives every text that readers see, but the bodies of pages and the headers of explainers.
func (c *checker) everySaid(do func(said)) {
	to := func(aside bool) func(string, ...read.Text) {
		return func(who string, ts ...read.Text) {
			for _, t := range ts {
				if t.S != "" {
					do(said{who, t.S, func(offset int) finding.Place { return c.within(t, offset) }, t.At, aside})
				}
			}
		}
	}
	say, aside := to(false), to(true)
	e := c.Edition
	say("the edition", e.Name, e.Clinic, e.Phone, e.Endorsement, e.Version)
	for _, id := range helpline.IDs {
		say("the edition", e.Lines.Slot(id).Where)
	}
	for _, t := range c.Edition.Training {
		aside("the edition", t.Says)
	}
	for _, p := range c.Prompts() {
		say(fmt.Sprintf("prompt %q", p.ID.S), p.Ask, p.Why)
	}
	for _, t := range c.Themes {
		say(fmt.Sprintf("theme %q", t.ID.S), t.Title, t.About)
	}
	for _, k := range c.Cards {
		say(fmt.Sprintf("card %q", k.ID.S), k.Title, k.Text)
	}
	for _, f := range c.Facts {
		say(fmt.Sprintf("fact %q", f.ID.S), f.Says, f.Sheet)
	}
	for _, l := range c.About.Lines {
		texts := []read.Text{l.Amount, l.These}
		for _, s := range slices.Concat(l.List, l.Says) {
			texts = append(texts, s.Words)
		}
		say(fmt.Sprintf("what the sheet says of %q", l.ID), texts...)
	}
	for _, w := range c.Wishes {
		say(fmt.Sprintf("wish %q", w.ID.S), w.Title, w.Means)
	}
	c.everyWord(say)
	c.everyDrawingText(do)
	for _, k := range c.Cases {
		aside(fmt.Sprintf("case %q", k.ID.S), k.Texts()...)
	}
	c.everyScreenText(say)
	if s := c.Search; s != nil {
		aside("the search", s.Asked...)
		for _, t := range slices.Concat(s.TakenIn, s.LeftOut) {
			aside("the search", t.What)
		}
	}
	for _, w := range c.Words {
		aside(fmt.Sprintf("word %q", w.ID.S), w.Word)
		say(fmt.Sprintf("word %q", w.ID.S), w.Meaning)
	}
	for _, r := range c.Rows {
		say(fmt.Sprintf("row %q", r.ID.S), append([]read.Text{r.Title}, r.Steps...)...)
	}
	for _, p := range c.Parts {
		say("a part of the learn page", p.Title, p.About)
	}
	for _, t := range c.FootTypes {
		c.footTypeSaid(t, say)
		aside(fmt.Sprintf("foot type %q", t.ID.S), append([]read.Text{t.Name}, t.Also...)...) // what a kind is called is settled with its table
	}
	c.selfRatingsSaid(aside)
	for _, t := range c.Trees {
		treeSaid(t, to(t.Audience.S != "patient"))
	}
	for _, f := range c.Figures {
		figureSaid(f, say)
	}
	for _, p := range c.Pages {
		c.everyHeaderText(p, do)
	}
}

// everyHeaderText gives what the header of a page says.
func (c *checker) everyHeaderText(p *explainer.Page, do func(said)) {
	for _, t := range []read.Text{p.Title, p.About, p.Message} {
		if t.S != "" {
			do(said{"the header", t.S, func(offset int) finding.Place { return c.within(t, offset) }, t.At, p.Audience.S != "patient"})
		}
	}
}

func (c *checker) footTypeSaid(t *FootType, say func(string, ...read.Text)) {
	who := fmt.Sprintf("foot type %q", t.ID.S)
	say(who, t.What)
	say(who, t.Gain...)
	say(who, t.GiveUp...)
	for _, r := range c.Rows { // in order, and not as a map would give them
		if cell := t.Cells[r.ID.S]; cell != nil {
			say(fmt.Sprintf("cell %q of %s", r.ID.S, who), cell.Says, cell.Why)
		}
	}
}

func (c *checker) selfRatingsSaid(say func(string, ...read.Text)) {
	for _, r := range c.Rated {
		say(fmt.Sprintf("rated page %q", r.ID.S), r.Name, r.What)
	}
	for _, y := range c.Yardsticks {
		who := fmt.Sprintf("yardstick %q", y.ID.S)
		say(who, y.Title, y.About)
		for _, p := range y.Parts {
			say(who, p.Title)
			for _, i := range p.Items {
				say(fmt.Sprintf("item %q of %s", i.ID.S, who), i.Asks)
			}
		}
	}
	for _, i := range slices.Concat(c.First.Items, c.Second.Items) {
		who := fmt.Sprintf("the reading of item %q of yardstick %q", i.Item.S, i.Yardstick.S)
		say(who, i.How, i.Open)
		for _, r := range slices.Concat(i.Partly, i.Not, i.Apart, i.On.all()) {
			say(who, r.Why)
		}
	}
}

func treeSaid(t *tree.Tree, say func(string, ...read.Text)) {
	say("the tree", t.Title, t.Purpose)
	for _, q := range t.Questions {
		who := fmt.Sprintf("question %q", q.ID.S)
		say(who, q.Text, q.Why, q.Hint)
		for _, a := range q.Answers {
			say(fmt.Sprintf("answer %q", a.ID.S), a.Text)
		}
		if q.Measure != nil {
			for _, like := range q.Measure.Likes {
				say(who, like.Text)
			}
		}
	}
	for _, e := range t.Endings {
		who := fmt.Sprintf("ending %q", e.ID.S)
		say(who, e.Title, e.Text, e.Caution)
		for _, talk := range e.Types {
			say(who, talk.For, talk.Against)
		}
	}
}

// within gives the place of a byte of a YAML text. Where the text runs over
// lines, it looks for the word that stands there in the file; where it is
// written with escapes, that fails, and the text's own place must do.
func (l *Library) within(t read.Text, offset int) finding.Place {
	word := t.S[offset:]
	if i := strings.IndexFunc(word, unicode.IsSpace); i > 0 {
		word = word[:i]
	}
	lines := strings.Split(string(l.files[t.At.File]), "\n")
	if t.Inside >= 0 && t.At.Line <= len(lines) {
		p := t.Place(utf8.RuneCountInString(t.S[:offset]) + 1)
		if rs := []rune(lines[p.Line-1]); p.Col <= len(rs) && strings.HasPrefix(string(rs[p.Col-1:]), word) {
			return p
		}
	}
	before := strings.Count(t.S[:offset], word) // uses of it that come first
	for i := max(t.At.Line-1, 0); i < len(lines); i++ {
		line := lines[i]
		if i == t.At.Line-1 { // the key and the sign before the text are not part of it
			rs := []rune(line)
			line = strings.Repeat(" ", min(t.At.Col-1, len(rs))) + string(rs[min(t.At.Col-1, len(rs)):])
		}
		for from := 0; ; {
			k := strings.Index(line[from:], word)
			if k < 0 {
				break
			}
			from += k
			if before == 0 {
				return finding.Place{File: t.At.File, Line: i + 1, Col: utf8.RuneCountInString(line[:from]) + 1}
			}
			before--
			from += len(word)
		}
		if i+1-t.At.Line > strings.Count(t.S, " ")+1 {
			break // more lines than words: it is not there
		}
	}
	return t.At
}
