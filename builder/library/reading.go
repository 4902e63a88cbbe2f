package library

import (
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/prose"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// minSMOG is the fewest sentences that SMOG is asked for. It was made for 30 of
// them; on a handful one long word moves it by a grade.
const minSMOG = 10

// running is the running text of a page or a whole tree, with the way to a
// place in it. An empty passage is a break.
type running struct {
	passages []string
	places   []func(offset int) finding.Place
}

func (r *running) add(passage string, place func(int) finding.Place) {
	r.passages = append(r.passages, passage)
	r.places = append(r.places, place)
}

func (r *running) stop() { r.add("", nil) }

// readingGrades holds all but the pages to the highest grades; those are held to them
// while their text is at hand.
func (c *checker) readingGrades(first bool) {
	for _, t := range c.Trees {
		text := c.treeText(t)
		n := prose.Of(text.passages)
		c.counts[t] = n
		if first && t.Audience.S == "patient" {
			c.graded(t.ID.At, "the whole tree", text, n)
		}
	}
	if !first {
		return
	}
	for _, f := range c.Figures {
		text := c.figureText(f)
		c.graded(f.Title.At, "the figure", text, prose.Of(text.passages))
	}
	if s := c.Safety; s != nil {
		text := c.screenText()
		c.graded(s.Leg.Text.At, "the safety screen", text, prose.Of(text.passages))
	}
}

// PageCounts counts the running text of an explainer. It was taken as the page was checked.
func (l *Library) PageCounts(p *explainer.Page) prose.Counts { return l.counts[p] }

// TreeCounts is PageCounts for a tree.
func (l *Library) TreeCounts(t *tree.Tree) prose.Counts { return l.counts[t] }

// textOf is the running text of an explainer, as package prose counts it.
func (l *Library) textOf(p *explainer.Page, body *explainer.Doc) *running {
	r := &running{}
	l.readDoc(r, p.Message, explainer.ParseText(p.Message, l.Edition.Lines, &finding.List{})) // of many pages, none is kept
	r.stop()
	for _, b := range body.Blocks {
		if b.Kind == explainer.Title || b.Kind == explainer.Cell || b.Kind == explainer.Picture || leadsOn(b) {
			r.stop()
			continue
		}
		r.add(b.Text, b.Place)
	}
	r.stop()
	for _, id := range p.Prompts {
		l.promptText(r, id.S)
	}
	return r
}

// leadsOn tells whether an entry of a list is a link and no sentence, as in an index.
func leadsOn(b explainer.Block) bool {
	return b.Kind == explainer.Item && len(b.Refs) == 1 && !strings.ContainsAny(b.Text, ".!?:")
}

// screenText is what readers of the safety screen read as sentences. Signs are
// labels, as answers are.
func (l *Library) screenText() *running {
	r := &running{}
	l.everyScreenText(func(_ string, ts ...read.Text) {
		r.stop()
		l.readOn(r, ts...)
	})
	return r
}

// treeText is all that a reader of a tree may read as sentences, but for the safety screen before it, which is the
// same for all trees and has its own grade: what it asks
// and why, and what its endings, their prompts and its cards say. Answers are
// labels, and names are names.
func (l *Library) treeText(t *tree.Tree) *running {
	r := &running{}
	l.readOn(r, t.Purpose)
	var prompts []string
	keep := func(ids []read.Text) {
		for _, id := range ids {
			if !slices.Contains(prompts, id.S) {
				prompts = append(prompts, id.S)
			}
		}
	}
	for _, q := range t.Questions {
		r.stop()
		l.readOn(r, q.Text, q.Why, q.Hint)
	}
	for _, e := range t.Endings {
		r.stop()
		l.readOn(r, e.Caution, e.Text)
		for _, talk := range e.Types {
			r.stop()
			l.readOn(r, talk.For, talk.Against)
		}
		keep(e.Prompts)
	}
	for _, id := range t.Cards() {
		if k := l.Card(id); k != nil {
			r.stop()
			l.readOn(r, k.Text)
			keep(k.Prompts)
		}
	}
	for _, id := range prompts {
		l.promptText(r, id)
	}
	return r
}

func (l *Library) promptText(r *running, id string) {
	if p := l.Prompt(id); p != nil {
		r.stop()
		l.readOn(r, p.Ask, p.Why)
	}
}

// readOn adds markdown texts of YAML values. What was wrong in them has been
// reported elsewhere.
func (l *Library) readOn(r *running, ts ...read.Text) {
	for _, t := range ts {
		if t.S != "" {
			l.readDoc(r, t, l.Doc(t))
		}
	}
}

func (l *Library) readDoc(r *running, t read.Text, d *explainer.Doc) {
	for _, passage := range d.Plain {
		r.add(passage, func(offset int) finding.Place {
			// The passage is the text without its marks: its place is found by its words.
			words := strings.Fields(passage[offset:])
			for n := min(4, len(words)); n > 0; n-- {
				if i := strings.Index(t.S, strings.Join(words[:n], " ")); i >= 0 {
					return l.within(t, i)
				}
			}
			return t.At
		})
	}
}

// graded reports a text beyond the highest grades, with the sentences that weigh most.
func (c *checker) graded(at finding.Place, who string, r *running, n prose.Counts) {
	if g := n.Grade(); g > prose.MaxGrade {
		c.list.Add(at, "reading-grade", fmt.Sprintf("%s reads at grade %.1f by Flesch-Kincaid, and at most %.1f was expected", who, g, prose.MaxGrade),
			c.heaviest(r, prose.Heaviest(prose.Split(r.passages), prose.Counts.Grade, 3), "make two sentences of one, and take shorter words, where it weighs most:")...)
	}
	if g := n.SMOG(); g >= prose.MaxSMOG && n.Sentences >= minSMOG {
		c.list.Add(at, "reading-grade", fmt.Sprintf("%s reads at grade %.1f by SMOG, and less than %.1f was expected", who, g, prose.MaxSMOG),
			c.heaviest(r, prose.Heaviest(prose.Split(r.passages), prose.Counts.SMOG, 3), "take words of one or two syllables where it weighs most:")...)
	}
}

func (c *checker) heaviest(r *running, most []prose.Sentence, help string) []string {
	out := []string{help}
	for _, s := range most {
		words := strings.Fields(s.Text)
		begin := strings.Join(words[:min(8, len(words))], " ")
		if len(words) > 8 {
			begin += " ..."
		}
		out = append(out, fmt.Sprintf("%s: %q has %d words, %d of them long", r.places[s.Passage](s.From), begin, s.Words, s.Long))
	}
	return out
}
