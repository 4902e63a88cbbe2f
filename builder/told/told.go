// Package told knows what a reader can tell: the facts of trees/told.yaml. An
// answer or a measure tells some; prompts presume them and show their amounts.
//
// A fact is told once in a sitting. What one topic heard answers the questions of
// the others: Spread carries an answer over as it is given, Fill answers a topic
// as it is begun, and Settle makes answers from elsewhere agree. They are the
// reference for site/client/walk/told.ts.
//
// A question with a measure is about the fact that it tells. A question that takes
// one answer is about facts where each of its answers tells some, "not sure" aside:
// only such a one can be answered from what was told before, and only there does
// another answer take a fact back. In all others an answer that tells a fact says
// more than the fact, so it cannot be put into a reader's mouth. A question that
// takes several answers asks each one apart: those that were told are ticked when it
// comes, and the reader sees to the rest.
package told

import (
	"slices"

	"keelpath/builder/finding"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// Fact is something that a reader can tell.
type Fact struct {
	ID   read.Text
	Says read.Text // in the reader's words
	Of   read.Text // a set of which only one fact can be true; may be empty
	Unit read.Text // of the amount; empty where the fact is true or not
	Own  bool      // told in words of the reader's own, on the sheet

	Part  read.Text // of "About me"; empty where the fact does not stand there
	Sheet read.Text // the sentence there; empty where Says is the whole of it
}

// Parse reads the facts of a file, in its order, and what stands of them on the sheet.
func Parse(m *read.Map, list *finding.List) ([]*Fact, *About) {
	var out []*Fact
	about := &About{Parts: m.Texts("about")}
	m.Each("facts", "fact", func(id read.Text, f *read.Map) {
		fact := &Fact{ID: id, Says: f.NeedWords("says"), Of: f.Text("of"), Unit: f.Text("unit"), Own: f.Bool("own-words"), Part: f.Text("part"), Sheet: f.Words("sheet")}
		f.Done()
		fact.check(list)
		fact.checkSheet(list)
		out = append(out, fact)
	})
	about.Lines = readLines(m)
	m.Done()
	return out, about
}

func (f *Fact) check(list *finding.List) {
	if f.Unit.S != "" {
		if _, ok := quantity.Lookup(f.Unit.S); !ok {
			list.Add(f.Unit.At, "told-unit", "fact \""+f.ID.S+"\" has the unit \""+f.Unit.S+"\", and there is none", `units look like mm, kg, deg and "%"`)
		}
	}
	if f.Unit.S != "" && (f.Of.S != "" || f.Own) {
		list.Add(f.Unit.At, "told-unit", "fact \""+f.ID.S+"\" has an amount, and is also one of a set or told in the reader's own words", "leave one of them out")
	}
	if f.Own && f.ID.S != Day {
		list.Add(f.ID.At, "not-allowed", "fact \""+f.ID.S+"\" is told in the reader's own words, and the sheet asks for no such words", "the sheet asks for \""+Day+"\" alone")
	}
}

// Day is the fact that the sheet asks for in the reader's own words.
const Day = "day"

// Kind is the kind of the fact's amount; "" where it has none.
func (f *Fact) Kind() quantity.Kind {
	if u, ok := quantity.Lookup(f.Unit.S); ok && f.Unit.S != "" {
		return u.Kind
	}
	return ""
}

// Shown tells whether a text can show what was told: an amount, or own words.
func (f *Fact) Shown() bool { return f.Unit.S != "" || f.Own }

// Can gives all facts that answers to a question can tell.
func Can(q *tree.Question) []string {
	out := read.Strings(q.Tells)
	for _, a := range q.Answers {
		out = addOnce(out, read.Strings(a.Tells))
	}
	return out
}

// By gives the facts that an accepted answer to a question tells.
func By(q *tree.Question, chosen []string) []string {
	if isSkip(q, chosen) {
		return nil
	}
	if q.Measure != nil {
		return read.Strings(q.Tells)
	}
	var out []string
	for _, a := range q.Answers {
		if slices.Contains(chosen, a.ID.S) {
			out = addOnce(out, read.Strings(a.Tells))
		}
	}
	return out
}

func isSkip(q *tree.Question, chosen []string) bool {
	return len(chosen) == 1 && chosen[0] == tree.Skip && q.Skip.Given()
}

func addOnce(list, more []string) []string {
	for _, m := range more {
		if !slices.Contains(list, m) {
			list = append(list, m)
		}
	}
	return list
}
