package library

import (
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/proof"
	"keelpath/builder/read"
	"keelpath/builder/told"
	"keelpath/builder/tree"
)

// told holds what trees, the safety screen and prompts say of told facts against
// each other.
//
// What a prompt presumes counts where a sitting brings it: at the endings of
// patients' trees and behind their cards. An explainer, and a tree for residents,
// is read without a sitting; its prompts stand there as a list from which a reader
// takes what fits, so nothing has to be told.
func (c *checker) told() {
	first := map[string]*tree.Question{} // by fact: the measure that tells it first
	for _, t := range c.Trees {
		for _, q := range t.Questions {
			c.tells(q, first)
		}
	}
	c.screenTold()
	c.aboutMe()
	for _, p := range c.Prompts() {
		c.promptTold(p)
	}
	for _, t := range c.Themes {
		c.presumingTitle(t)
	}
	if c.list.Errors() > 0 {
		return // what a wrong name would have told is not known
	}
	for _, t := range c.Trees {
		if t.Audience.S == "patient" {
			c.presumed(t)
		}
	}
}

// tells checks what one question tells.
func (c *checker) tells(q *tree.Question, first map[string]*tree.Question) {
	c.has(c.facts, fmt.Sprintf("question %q", q.ID.S), q.Tells...)
	for _, name := range q.Tells {
		f := c.Fact(name.S)
		if f == nil || q.Measure == nil || q.Measure.Unread {
			continue
		}
		if kind := q.Measure.Kind(); f.Kind() != kind {
			c.list.Add(name.At, "told-unit", fmt.Sprintf("question %q takes an amount in %s, and the fact %q is %s", q.ID.S, q.Measure.Unit, f.ID.S, kindOf(f)), "the fact is at "+f.ID.At.String(), "name a fact whose unit is of the same kind")
			continue
		}
		c.sameAmounts(q, name, first)
	}
	for i, a := range q.Answers {
		who := fmt.Sprintf("answer %q", a.ID.S)
		c.has(c.facts, who, a.Tells...)
		for _, name := range a.Tells {
			if f := c.Fact(name.S); f != nil && f.Shown() {
				c.list.Add(name.At, "told-unit", fmt.Sprintf("%s tells the fact %q, which is %s", who, f.ID.S, kindOf(f)), "the fact is at "+f.ID.At.String(), "name a fact that is true or not, or ask with a measure")
			}
		}
		c.toldTwice(q, q.Answers[:i], a)
	}
}

func kindOf(f *told.Fact) string {
	switch {
	case f.Own:
		return "told in the reader's own words"
	case f.Kind() == "":
		return "no amount"
	}
	return "an amount in " + f.Unit.S
}

// sameAmounts reports a measure that takes other amounts than the first one of the
// same fact: what the one was told, the other might refuse.
func (c *checker) sameAmounts(q *tree.Question, name read.Text, first map[string]*tree.Question) {
	old := first[name.S]
	if old == nil {
		first[name.S] = q
		return
	}
	a, b := old.Measure.Measure, q.Measure.Measure
	if a.From != b.From || a.To != b.To || a.Step != b.Step || !slices.Equal(sorted(a.Accept), sorted(b.Accept)) {
		c.list.Add(name.At, "told-apart", fmt.Sprintf("question %q takes other amounts than question %q, and both tell the fact %q", q.ID.S, old.ID.S, name.S), "the other is at "+old.Measure.Place.String(), "give both the same accept, from, to and step")
	}
}

func sorted(names []string) []string { return slices.Sorted(slices.Values(names)) }

// toldTwice reports an answer to a question that takes one which cannot be told
// from an earlier answer by what it tells: one's facts are all among the other's.
func (c *checker) toldTwice(q *tree.Question, before []*tree.Answer, a *tree.Answer) {
	if q.Pick != tree.PickOne || len(a.Tells) == 0 {
		return
	}
	for _, b := range before {
		if len(b.Tells) > 0 && (among(a.Tells, b.Tells) || among(b.Tells, a.Tells)) {
			same := slices.IndexFunc(a.Tells, func(f read.Text) bool { return slices.Contains(read.Strings(b.Tells), f.S) })
			c.list.Add(a.Tells[same].At, "told-twice", fmt.Sprintf("answers %q and %q of question %q tell the same fact %q", b.ID.S, a.ID.S, q.ID.S, a.Tells[same].S), "the first is at "+b.Tells[0].At.String(), "what was told elsewhere could be either of them; give each a fact of its own")
			return
		}
	}
}

func among(some, all []read.Text) bool {
	return !slices.ContainsFunc(some, func(s read.Text) bool { return !slices.Contains(read.Strings(all), s.S) })
}

// promptTold checks the names that a prompt uses, and its words.
func (c *checker) promptTold(p *Prompt) {
	who := fmt.Sprintf("prompt %q", p.ID.S)
	c.has(c.facts, who, p.Presumes...)
	c.has(c.facts, who, p.Unless...)
	for _, id := range tree.Gaps(p.Ask.S) {
		f := c.Fact(id)
		switch {
		case f == nil:
			c.has(c.facts, who, read.Text{S: id, At: p.Ask.At})
		case !f.Shown():
			c.list.Add(p.Ask.At, "told-unit", fmt.Sprintf("%s shows the fact %q, which is no amount", who, id), "the fact is at "+f.ID.At.String(), "name a fact with a unit")
		case f.Unit.S != "" && !slices.ContainsFunc(p.Presumes, func(t read.Text) bool { return t.S == id }):
			c.list.Add(p.Ask.At, "presumes", fmt.Sprintf("%s shows the amount {%s} and does not presume it", who, id), fmt.Sprintf("add presumes: [%s], and another prompt for those who have not told it", id))
		}
	}
	for i, t := range p.Presumes {
		for _, s := range p.Presumes[:i] {
			a, b := c.Fact(s.S), c.Fact(t.S)
			if a != nil && b != nil && a.Of.S != "" && a.Of.S == b.Of.S {
				c.list.Add(t.At, "untold", fmt.Sprintf("%s presumes both %q and %q, and only one of them can be true", who, s.S, t.S), "leave one of them out")
			}
		}
	}
	c.presumingWords(p)
}

// presuming are words of a prompt that take something of the reader for granted,
// each with the facts of which the prompt has to presume one, or to be for nobody
// who told it (here with a "!"). It is a list of what prompts have got wrong, and not
// of all that could be.
var presuming = []struct {
	words string
	facts []string
}{
	{"my fall", []string{"fall"}},
	{"i fell", []string{"fall"}},
	{"scared to fall", []string{"afraid-to-fall"}},
	{"afraid of falling", []string{"afraid-to-fall"}},
	{"my back pain", []string{"back-pain"}},
	{"my child", []string{"child"}},
	{"my baby", []string{"pregnant"}},
	{"i am pregnant", []string{"pregnant"}},
	{"my artificial knee", []string{"artificial-knee"}},
	{"my other leg", []string{"!both-legs"}},
	{"my other foot", []string{"!both-legs"}},
	{"both of my feet", []string{"both-legs"}},
	{"two artificial feet", []string{"both-legs"}},
	{"one of my feet", []string{"both-legs"}},
	{"my right leg", []string{"right-leg"}},
	{"my appeal", []string{"plan-said-no"}},
	{"to appeal", []string{"plan-said-no"}},
	{"my foot squeaks", []string{"squeak"}},
	{"my foot clicks", []string{"noise"}},
	{"the noise in my foot", []string{"noise"}},
	{"my weight has changed", []string{"weight-changed"}},
	{"my weight may change", []string{"weight-may-change"}},
	{"my device", []string{"part-foot"}},
	{"i stand for hours", []string{"stands-for-hours"}},
	{"my work floor", []string{"dirty-work"}},
	{"i live far", []string{"far-away"}},
	{"i pray", []string{"prays"}},
	{"my foot right now", []string{"!leg-not-yet"}},
	{"set for right now", []string{"!leg-not-yet"}},
	{"my old foot", []string{"!leg-not-yet"}},
	{"take the leg off", []string{"!leg-not-yet"}},
	{"stop using my leg", []string{"!leg-not-yet"}},
	{"my daily foot", []string{"!leg-not-yet"}},
}

func (c *checker) presumingWords(p *Prompt) {
	ask := strings.ToLower(p.Ask.S)
	if i := strings.Index(p.Ask.S, Blank); i >= 0 {
		c.list.Add(c.within(p.Ask, i), "presumes", fmt.Sprintf("prompt %q has a blank", p.ID.S), "write the name of the fact that belongs there: {load}")
	}
	if slices.ContainsFunc(slices.Concat(p.Presumes, p.Unless), func(t read.Text) bool { return c.Fact(t.S) == nil }) {
		return // a misspelt name may be the one that is looked for
	}
	for _, row := range presuming {
		i := wordsAt(ask, row.words)
		if i < 0 || slices.ContainsFunc(row.facts, func(f string) bool { return c.minded(p, f) }) {
			continue
		}
		id, against := strings.CutPrefix(row.facts[0], "!")
		help := fmt.Sprintf("add presumes: [%s], or word it so that it fits everybody", id)
		if against {
			help = fmt.Sprintf("add unless: [%s], or word it so that it fits everybody", id)
		}
		c.list.Add(c.within(p.Ask, i), "presumes", fmt.Sprintf("prompt %q says %q, and not every reader has told that", p.ID.S, p.Ask.S[i:i+len(row.words)]), help)
	}
}

// presumingTitles are words of a theme's title that take something for granted: the
// sheet prints it above each prompt of the theme. Every prompt below has to presume
// one of the facts; where no fact tells it, the words stand in no title.
var presumingTitles = []struct {
	words string
	facts []string
}{
	{"my first", []string{"first-leg"}},
	{"in place of an old one", []string{"new-foot"}},
	{"above the knee", []string{"artificial-knee"}},
	{"part of the foot", []string{"part-foot"}},
	{"children", []string{"child"}},
	{"my child", []string{"child"}},
	{"my fall", []string{"fall"}},
	{"my pain", nil},
	{"when the plan says no", []string{"plan-said-no"}},
	{"far-away clinics", []string{"far-away"}},
	{"my other leg", []string{"!both-legs"}},
	{"older", nil},
	{"women", nil},
}

// presumingTitle reports words of a theme's title that not every reader of its prompts
// has told.
func (c *checker) presumingTitle(t *Theme) {
	title := strings.ToLower(t.Title.S)
	for _, row := range presumingTitles {
		i := wordsAt(title, row.words)
		if i < 0 {
			continue
		}
		unminded := func(p *Prompt) bool {
			return !slices.ContainsFunc(row.facts, func(f string) bool { return c.minded(p, f) })
		}
		if k := slices.IndexFunc(t.Prompts, unminded); k >= 0 {
			c.list.Add(c.within(t.Title, i), "presumes", fmt.Sprintf("the title of the theme %q says %q, and not every reader to whom its prompt %q is brought has told that", t.ID.S, t.Title.S[i:i+len(row.words)], t.Prompts[k].ID.S),
				"name what the prompts are about, and not whom they are for")
		}
	}
}

// wordsAt gives the place of whole words in a text, or -1.
func wordsAt(text, words string) int {
	letter := func(i int) bool { return i >= 0 && i < len(text) && text[i] >= 'a' && text[i] <= 'z' }
	for from := 0; ; {
		i := strings.Index(text[from:], words)
		if i < 0 {
			return -1
		}
		if i += from; !letter(i-1) && !letter(i+len(words)) {
			return i
		}
		from = i + 1
	}
}

// minded tells whether a prompt has seen to a fact: it presumes it or, for one with
// a "!", it is not for those who told it.
func (c *checker) minded(p *Prompt, fact string) bool {
	id, against := strings.CutPrefix(fact, "!")
	if !against {
		return slices.Contains(p.presumes(), id)
	}
	return slices.Contains(read.Strings(p.Unless), id) || slices.ContainsFunc(p.presumes(), func(other string) bool {
		a, b := c.Fact(id), c.Fact(other)
		return a != nil && b != nil && a != b && a.Of.S != "" && a.Of.S == b.Of.S
	})
}

func (p *Prompt) presumes() []string { return read.Strings(p.Presumes) }

// presumed reports each prompt that an ending or a card of the tree brings, and that
// no way there can fit: what it presumes is never told on the way, or what makes it
// needless always is.
func (c *checker) presumed(t *tree.Tree) {
	for _, e := range t.Endings {
		for _, id := range e.Prompts {
			c.fits(t, fmt.Sprintf("ending %q", e.ID.S), id, proof.Wanted{Ending: e.ID.S})
		}
	}
	for _, card := range t.Cards() {
		for _, id := range c.Card(card).Prompts {
			c.fits(t, fmt.Sprintf("card %q", card), id, proof.Wanted{Card: card})
		}
	}
}

func (c *checker) fits(t *tree.Tree, who string, id read.Text, w proof.Wanted) {
	p := c.Prompt(id.S)
	always := c.toldByScreen()
	w.Told = slices.DeleteFunc(p.presumes(), func(f string) bool { return slices.Contains(always, f) || c.Fact(f).Own })
	w.Untold = read.Strings(p.Unless)
	proven := c.Proofs[t.ID.S]
	if proven.Can(w) {
		return
	}
	untold := w
	untold.Untold = nil
	if len(w.Untold) > 0 && proven.Can(untold) {
		c.list.Add(id.At, "untold", fmt.Sprintf("%s of the tree %q brings the prompt %q, and every way there tells what makes it needless", who, t.ID.S, id.S),
			"the prompt is at "+p.ID.At.String(), "bring another prompt here")
		return
	}
	c.list.Add(id.At, "untold", fmt.Sprintf("%s of the tree %q brings the prompt %q, which presumes %s, and no way there tells that", who, t.ID.S, id.S, strings.Join(quoted(w.Told), " and ")),
		"the prompt is at "+p.ID.At.String(), "bring another prompt here, or let an answer on the way tell it")
}

func quoted(names []string) []string {
	var out []string
	for _, n := range names {
		out = append(out, fmt.Sprintf("%q", n))
	}
	return out
}

// toldByVoice is the fact that the choice of a voice tells.
var toldByVoice = map[string]string{"child": "child", "person": "carer"}

// ToldBy gives the fact that the choice of a voice tells; "" where there is none. An edition without the fact has no prompt that asks for it.
func (l *Library) ToldBy(voice string) string {
	if id := toldByVoice[voice]; l.Fact(id) != nil {
		return id
	}
	return ""
}

// toldByScreen gives the facts that the safety screen can tell before any topic.
func (c *checker) toldByScreen() []string {
	var out []string
	if c.Safety == nil {
		return nil
	}
	for _, a := range c.Safety.Leg.Answers {
		out = append(out, read.Strings(a.Tells)...)
	}
	for _, g := range c.Safety.Groups {
		for _, s := range g.Signs {
			out = append(out, read.Strings(s.Tells)...)
		}
	}
	return out
}

// screenTold checks what the safety screen tells, and what its prompts presume.
func (c *checker) screenTold() {
	if c.Safety == nil {
		return
	}
	for _, a := range c.Safety.Leg.Answers {
		c.has(c.facts, fmt.Sprintf("answer %q", a.ID.S), a.Tells...)
	}
	tells := c.toldByScreen()
	fits := func(who string, prompts []read.Text) {
		for _, id := range prompts {
			p := c.Prompt(id.S)
			if p == nil {
				continue // reported as an unknown name
			}
			if untold := slices.DeleteFunc(p.presumes(), func(f string) bool { return slices.Contains(tells, f) }); len(untold) > 0 {
				c.list.Add(id.At, "untold", fmt.Sprintf("%s of the safety screen brings the prompt %q, which presumes %s, and the screen does not tell that", who, id.S, strings.Join(quoted(untold), " and ")),
					"the prompt is at "+p.ID.At.String(), "bring another prompt here")
			}
		}
	}
	for _, g := range c.Safety.Groups {
		fits(fmt.Sprintf("group %q", g.ID.S), g.Unsure.Prompts)
		for _, s := range g.Signs {
			c.has(c.facts, fmt.Sprintf("sign %q", s.ID.S), s.Tells...)
			fits(fmt.Sprintf("sign %q", s.ID.S), s.Prompts)
		}
	}
}

// aboutMe holds what stands on the sheet of answers against the trees that ask.
func (c *checker) aboutMe() {
	c.About.Check(c.Facts, c.list)
	for _, l := range c.About.Lines {
		t := c.Tree(l.Tree.S)
		if t == nil {
			c.has(c.trees, "what stands on the sheet", l.Tree)
			continue
		}
		q := t.Question(l.Question.S)
		if q == nil {
			c.list.Add(l.Question.At, "unknown-name", fmt.Sprintf("what stands on the sheet names the question %q of the tree %q, and there is none", l.Question.S, t.ID.S), "take it out, or mend the name")
			continue
		}
		l.Check(q, func(answer string) bool { return c.away["answer "+answer] }, c.list)
	}
}
