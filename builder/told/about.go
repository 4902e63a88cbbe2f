package told

import (
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// About is "About me", the band at the top of the sheet: sentences in the reader's own voice, made of what was told and
// of nothing else.
type About struct {
	Parts []read.Text // in the order of the sheet
	Lines []*Line
}

// Line is what the answers to one question say there.
type Line struct {
	ID       string // "tree/question"
	Tree     read.Text
	Question read.Text
	Part     read.Text

	Amount read.Text // the sentence of an amount, where it is not the fact's own; with a gap for it
	These  read.Text // one sentence for those of List that are ticked; with a gap {these}
	List   []Saying
	Says   []Saying // sentences
}

// Saying is what one answer says, or one amount that is picked by its likeness.
type Saying struct{ Answer, Words read.Text }

// These is the gap in which the ticked answers of a list stand.
const These = "these"

// readLines reads what answers say, by topic and question.
func readLines(m *read.Map) []*Line {
	var out []*Line
	m.Each("answers", "topic", func(topic read.Text, t *read.Map) {
		t.Entries("question", func(question read.Text, q *read.Map) {
			line := &Line{ID: topic.S + "/" + question.S, Tree: topic, Question: question,
				Part: q.NeedText("part"), Amount: q.Words("amount"), These: q.Words("these"), List: sayings(q, "list"), Says: sayings(q, "says")}
			q.Done()
			out = append(out, line)
		})
	})
	return out
}

func sayings(q *read.Map, key string) []Saying {
	var out []Saying
	q.EachWords(key, "answer", func(answer, words read.Text) { out = append(out, Saying{answer, words}) })
	return out
}

// Check reports each part that facts and lines name and that there is none of.
func (a *About) Check(facts []*Fact, list *finding.List) {
	part := func(who string, t read.Text) {
		if t.Given() && !slices.Contains(read.Strings(a.Parts), t.S) {
			list.Add(t.At, "unknown-name", fmt.Sprintf("%s stands in the part %q of the sheet, and there is none", who, t.S), finding.NearestHelp(t.S, read.Strings(a.Parts), func(id string) finding.Place {
				return a.Parts[slices.Index(read.Strings(a.Parts), id)].At
			})...)
		}
	}
	for _, f := range facts {
		part(fmt.Sprintf("fact %q", f.ID.S), f.Part)
	}
	for _, l := range a.Lines {
		part(fmt.Sprintf("what is said of question %q", l.Question.S), l.Part)
	}
}

// checkSheet holds a fact's own sentence: it shows the amount, and nothing else.
func (f *Fact) checkSheet(list *finding.List) {
	if f.Shown() && f.Part.Given() && !f.Sheet.Given() {
		list.Add(f.ID.At, "no-sentence", fmt.Sprintf("fact %q stands on the sheet, and no sentence shows what was told", f.ID.S), fmt.Sprintf("add sheet: with the gap {%s}", f.ID.S))
		return
	}
	gap := ""
	if f.Shown() && f.Sheet.Given() {
		gap = f.ID.S
	}
	holds(fmt.Sprintf("the sheet's sentence of fact %q", f.ID.S), f.Sheet, gap, list)
}

// Check holds a line against the question that it speaks of: each name is an answer's or a likeness's, and a gap shows
// the amount that the question tells, once. Away tells which answers are left out of the edition for their place.
func (l *Line) Check(q *tree.Question, away func(answer string) bool, list *finding.List) {
	amount := ""
	if q.Measure != nil && len(q.Tells) == 1 {
		amount = q.Tells[0].S
	}
	known := l.names(q)
	for _, s := range slices.Concat(l.List, l.Says) {
		if !slices.Contains(known, s.Answer.S) && !away(s.Answer.S) {
			list.Add(s.Answer.At, "unknown-name", fmt.Sprintf("the sheet says something for the answer %q of question %q, and there is none", s.Answer.S, q.ID.S), "its answers are: "+strings.Join(known, ", "))
		}
		holds(fmt.Sprintf("what answer %q says on the sheet", s.Answer.S), s.Words, amount, list)
	}
	if l.Amount.Given() {
		holds(fmt.Sprintf("what the amount of question %q says on the sheet", q.ID.S), l.Amount, amount, list)
	}
	if l.These.Given() {
		holds(fmt.Sprintf("the sentence of the list of question %q", q.ID.S), l.These, These, list)
	}
	if l.These.Given() != (len(l.List) > 0) {
		list.Add(l.Question.At, "no-sentence", fmt.Sprintf("question %q has only one of these: and list:", q.ID.S), "a list stands in the gap {these} of a sentence")
	}
}

func (l *Line) names(q *tree.Question) []string {
	var out []string
	for _, a := range q.Answers {
		out = append(out, a.ID.S)
	}
	if q.Measure != nil {
		for _, like := range q.Measure.Likes {
			out = append(out, like.ID.S)
		}
	}
	return out
}

// holds reports a text that does not have the one gap that it should have, once, or that has another.
func holds(who string, text read.Text, gap string, list *finding.List) {
	gaps := tree.Gaps(text.S)
	switch {
	case gap == "" && len(gaps) > 0:
		list.Add(text.At, "told-unit", fmt.Sprintf("%s shows {%s}, and no amount is told there", who, gaps[0]), "take the gap out")
	case gap != "" && !slices.Equal(gaps, []string{gap}):
		list.Add(text.At, "told-unit", fmt.Sprintf("%s has to show {%s} once, and nothing else", who, gap), fmt.Sprintf("write {%s} where it belongs", gap))
	}
}
