package library

import (
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/prose"
	"keelpath/builder/read"
)

// SourceKinds are the kinds of sources: one study (of people or of parts), a
// review of several, a clinical guideline, a law or a payer's rule, a technical
// standard or published criteria, a textbook or course, advice that a health
// service or a clinician gives, what the trade publishes, a report in the press
// or at first hand, and measurements or tables.
var SourceKinds = []string{"study", "review", "guideline", "rule", "standard", "textbook", "advice", "trade", "report", "data"}

// claim is what one mark of certainty speaks for: a sentence, a row of a table, or,
// where the mark stands before its first word, a whole paragraph or entry of a list.
type claim struct {
	text string
	refs []explainer.Ref
	mark *explainer.Ref // nil where it has none; of several the one that is not "trade"
}

// claims holds a text to the marks of certainty: what rests on a study or a review
// says how sure it is. A heading has no room for it.
func (c *checker) claims(blocks []explainer.Block) {
	for _, whole := range passages(blocks) {
		c.markFits(claimOf(whole.text, whole.refs))
		for _, k := range whole.claims() {
			if studied := c.studied(k.refs); studied != nil && k.mark == nil {
				c.list.Add(studied.At, "how-sure", fmt.Sprintf("the claim rests on %q, which is a %s, and does not say how sure it is", studied.ID, c.Source(studied.ID).Kind.S),
					`put a mark behind it, in the same sentence or row: "[](support:little)" for one small study, "some" for a few studies or a review, "well" for reviews that agree or a guideline, "trade" for what clinics do`)
			}
			if k.mark != nil {
				c.said(k.text, k.sources(), k.mark.ID, k.mark.At)
			}
		}
	}
}

// passage is a paragraph, an entry of a list or a row of a table.
type passage struct {
	text string
	refs []explainer.Ref
	row  bool
}

func passages(blocks []explainer.Block) []passage {
	var out []passage
	row := 0 // the last one, of which out ends in the cells so far
	for _, b := range blocks {
		switch {
		case b.Kind == explainer.Cell && b.Row == row:
			last := &out[len(out)-1]
			last.text, last.refs = last.text+" "+b.Text, append(last.refs, b.Refs...)
		case b.Kind == explainer.Paragraph, b.Kind == explainer.Item, b.Kind == explainer.Cell:
			out = append(out, passage{b.Text, slices.Clone(b.Refs), b.Kind == explainer.Cell})
			row = b.Row
		}
	}
	return out
}

// claims cuts a passage into what its marks speak for. A link belongs to the
// sentence that it stands in or behind.
func (p passage) claims() []claim {
	first := slices.IndexFunc(p.refs, func(r explainer.Ref) bool { return r.Kind == "support" && r.Offset == 0 })
	if p.row || first >= 0 {
		return []claim{claimOf(p.text, p.refs)}
	}
	sentences := prose.Sentences([]string{p.text})
	refs := make([][]explainer.Ref, len(sentences)+1)
	for _, r := range p.refs {
		n := 0
		for n < len(sentences) && sentences[n].From < r.Offset {
			n++
		}
		refs[n] = append(refs[n], r)
	}
	var out []claim
	for i, r := range refs {
		text := ""
		if i > 0 {
			text = sentences[i-1].Text
		}
		out = append(out, claimOf(text, r))
	}
	return out
}

func claimOf(text string, refs []explainer.Ref) claim {
	k := claim{text: text, refs: refs}
	for i, r := range refs {
		if r.Kind == "support" && (k.mark == nil || k.mark.ID == "trade") {
			k.mark = &refs[i]
		}
	}
	return k
}

// sources gives the ids of what a claim cites.
func (k claim) sources() []string {
	var out []string
	for _, r := range k.refs {
		if r.Kind == "source" {
			out = append(out, r.ID)
		}
	}
	return out
}

// markFits reports a mark that says more than what is cited beside it can bear.
func (c *checker) markFits(k claim) {
	cites := slices.ContainsFunc(k.refs, func(r explainer.Ref) bool { return r.Kind == "source" })
	switch {
	case k.mark == nil:
	case k.mark.ID == "well" && cites && !c.readThrough(k.refs):
		c.list.Add(k.mark.At, "how-sure", `the mark "well" rests on sources that were read no further than the opening, or only as others tell them`,
			`mark it "some" until one of them has been read further, and its "seen" says so`)
	case (k.mark.ID == "well" || k.mark.ID == "some") && !cites:
		c.list.Add(k.mark.At, "how-sure", fmt.Sprintf("the mark %q says that a claim has been studied, and the text cites no source", k.mark.ID),
			`cite the source: "[](source:its-id)"`, `or mark it "little", if nobody has studied it, or "trade", if clinics do it and nobody has`)
	}
}

// studied gives the first link to a study or a review, or nil.
func (c *checker) studied(refs []explainer.Ref) *explainer.Ref {
	for i, r := range refs {
		if r.Kind == "source" && c.Source(r.ID).isStudy() {
			return &refs[i]
		}
	}
	return nil
}

// cellClaim holds a mark of the table to the same: one that cites a study or a
// review says how sure it is, and one that says it was studied cites something.
func (c *checker) cellClaim(who string, cell *Cell) {
	if cell.Support.Given() {
		c.said(cell.Why.S, read.Strings(cell.Sources), cell.Support.S, cell.Support.At)
	}
	studied, cited := c.studyAmong(cell.Sources), slices.ContainsFunc(cell.Sources, func(s read.Text) bool { return s.S != CommonPractice })
	switch {
	case studied != nil && !cell.Support.Given():
		c.list.Add(cell.At.At, "how-sure", fmt.Sprintf("%s cites %q, which is a %s, and does not say how sure the mark is", who, studied.ID.S, studied.Kind.S),
			`add "support: little" for one small study, "some" for a few studies or a review, "well" for reviews that agree or a guideline`)
	case studied != nil && cell.Support.S == "trade":
		c.list.Add(cell.Support.At, "how-sure", fmt.Sprintf("%s is marked \"trade\", which says that nobody has tested it, and cites %q, which is a %s", who, studied.ID.S, studied.Kind.S),
			`mark it "little", if that is one small study or no study of this`, "or take the source out, if it says nothing of this")
	case !cited && (cell.Support.S == "some" || cell.Support.S == "well"):
		c.list.Add(cell.Support.At, "how-sure", fmt.Sprintf("%s is marked %q, which says that it has been studied, and cites no source", who, cell.Support.S),
			"name the study under sources:", `or mark it "little", if nobody has studied it, or leave the mark out, if clinics say so`)
	}
}

// studyAmong gives the first study or review among the sources, or nil.
func (c *checker) studyAmong(ids []read.Text) *Source {
	for _, id := range ids {
		if s := c.Source(id.S); s.isStudy() {
			return s
		}
	}
	return nil
}

// isStudy tells whether what a text takes from the source has to say how sure it is.
func (s *Source) isStudy() bool { return s != nil && (s.Kind.S == "study" || s.Kind.S == "review") }

// readThrough tells whether one of the sources cited was read further than its
// opening: as a whole, or as the authors' own abstract.
func (c *checker) readThrough(refs []explainer.Ref) bool {
	for _, r := range refs {
		if s := c.Source(r.ID); r.Kind == "source" && s != nil && (s.Seen.S == "page" || s.Seen.S == "abstract") {
			return true
		}
	}
	return false
}

// made is a claim with its mark, as it is compared with others. Of those that cite the
// same and say the same words with the same mark, all are one.
type made struct {
	*saying
	at finding.Place
}

// saying is what a claim says and on what: the studies and reviews that it cites, in
// order, and the numbers of its content words, in order too.
type saying struct {
	key     string // all of it in one
	mark    string
	studies []string
	words   []int
	first   int // where it was met first
	other   int // the first claim that is the same with another mark; -1 where there is none
}

// sayings knows all claims that were met.
type sayings struct {
	all   []made
	known map[string]*saying
	each  []*saying      // in the order in which they were met
	words map[string]int // numbers of content words
}

// said takes a claim down for comparison. One that cites no study is like no other.
func (c *checker) said(text string, sources []string, mark string, at finding.Place) {
	studies := c.studies(sources)
	if len(studies) == 0 {
		return
	}
	words := contentWords(text)
	slices.Sort(words)
	c.made.again(sayingKey(mark, studies, words), at)
}

// sayingKey writes a saying down: its mark, its studies and its words, each in order and with a blank behind
// it. None of them holds a blank.
func sayingKey(mark string, studies, words []string) string {
	var b strings.Builder
	b.WriteString(mark)
	for _, list := range [][]string{studies, words} {
		b.WriteByte('\n')
		for _, s := range list {
			b.WriteString(s)
			b.WriteByte(' ')
		}
	}
	return b.String()
}

// sayingOf reads what sayingKey wrote.
func sayingOf(key string) (mark string, studies, words []string) {
	list := func(s string) []string {
		all := strings.Split(s, " ")
		return all[:len(all)-1]
	}
	mark, rest, _ := strings.Cut(key, "\n")
	first, second, _ := strings.Cut(rest, "\n")
	return mark, list(first), list(second)
}

// again takes down a saying that is made at a place.
func (m *sayings) again(key string, at finding.Place) {
	s := m.known[key]
	if s == nil {
		mark, studies, words := sayingOf(key)
		s = &saying{key, mark, studies, m.numbers(words), len(m.all), -1}
		m.known[key] = s
		m.each = append(m.each, s)
	}
	m.all = append(m.all, made{s, at})
}

// numbers gives words as numbers, in order.
func (m *sayings) numbers(words []string) []int {
	var out []int
	for _, w := range words {
		n, ok := m.words[w]
		if !ok {
			n = len(m.words)
			m.words[w] = n
		}
		out = append(out, n)
	}
	slices.Sort(out)
	return out
}

// How many content words a claim has to have to be known again, and which share of
// those of the shorter text the longer one must have as well: where both cite the
// same studies, and where they share some only. More studies can make a claim surer,
// so there the words have to be almost the same. In the texts of 2026 a third is where
// pairs began that say one thing; at a quarter, half of them say two.
const (
	claimWords      = 4
	sameStudyShare  = 0.33
	otherStudyShare = 0.75
)

// sameClaim tells whether two texts make one claim, as far as a program can tell: by
// the studies that they cite and the words that they share. So a claim is known again
// where a page adds a sentence or a textbook to it. A name for each claim, written
// into its marks, would know more of them, but only where each author gives the same
// name to the same thing, which nothing could check; this asks nothing of them.
func sameClaim(a, b *saying) bool {
	few, many := a.words, b.words
	if len(few) > len(many) {
		few, many = many, few
	}
	share := otherStudyShare
	if slices.Equal(a.studies, b.studies) {
		share = sameStudyShare
	}
	return len(few) >= claimWords && float64(shared(few, many)) >= share*float64(len(few))
}

// shared counts what two sorted lists have in common.
func shared(a, b []int) int {
	n := 0
	for i, j := 0, 0; i < len(a) && j < len(b); {
		switch {
		case a[i] == b[j]:
			n, i, j = n+1, i+1, j+1
		case a[i] < b[j]:
			i++
		default:
			j++
		}
	}
	return n
}

// studies gives the studies and reviews among sources, each once and in order.
func (c *checker) studies(sources []string) []string {
	var out []string
	for _, s := range sources {
		if c.Source(s).isStudy() {
			out = append(out, s)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// oneMark reports a claim that is marked in two ways, at the second. Only what cites the
// same study is compared, and only where the marks differ, which is seldom.
func (c *checker) oneMark() {
	by := map[string]map[string][]*saying{} // by study and mark
	for _, s := range c.made.each {
		for _, study := range s.studies {
			if by[study] == nil {
				by[study] = map[string][]*saying{}
			}
			by[study][s.mark] = append(by[study][s.mark], s)
		}
	}
	for _, b := range c.made.each {
		for _, study := range b.studies {
			for mark, all := range by[study] {
				if mark == b.mark {
					continue
				}
				for _, a := range all {
					if b.other >= 0 && a.first >= b.other {
						break
					}
					if sameClaim(a, b) {
						b.other = a.first
					}
				}
			}
		}
	}
	for i, b := range c.made.all {
		if b.other < 0 || b.other >= i {
			continue
		}
		a := c.made.all[b.other]
		c.list.Add(b.at, "one-claim", fmt.Sprintf("the claim is marked %q, and what reads like the same claim is marked %q", b.mark, a.mark),
			"the other is at "+a.at.String(), "give both the mark that their sources bear", "or, if they say different things, cite and word each so that it shows")
	}
}
