// Package tree knows a tree file: it reads one, keeps every place, goes on
// after the first mistake, and walks a tree with given answers. Walk is the
// reference that the browser's walker must agree with.
package tree

import (
	"slices"

	"keelpath/builder/drawing"
	"keelpath/builder/finding"
	"keelpath/builder/formula"
	"keelpath/builder/read"
)

// Tree is one decision tree, as written in one file of trees/.
type Tree struct {
	File      string
	ID        read.Text
	Title     read.Text
	Purpose   read.Text
	Audience  read.Text // "patient" or "resident"
	Group     read.Text // one of Groups: with which others the planner shows a patient's tree; may not be given
	Safety    read.Text // how the shared safety screen comes before it; a patient's tree says so
	Credits   read.Credits
	Start     read.Text // the first question
	Values    []*Worked // worked out from answers; each may use those before it
	Questions []*Question
	Endings   []*Ending
	Examples  []*Example

	// NoScreen tells that the author did not say how the safety screen comes before it.
	NoScreen bool

	worked map[string]*formula.Expr // of Values, by id

	// Loose tells that a way on may be missing because what the author wrote
	// could not be used. That was reported; what then seems out of reach is not.
	Loose bool
}

// Groups are those in which the planner shows the topics, in its order. "start" is for who does not know which to take.
var Groups = []string{"start", "ground", "shoes", "days", "body", "visit"}

// How the shared safety screen comes before a tree.
const (
	SafetyShared = "shared" // its gate, and the groups that the gate opens
	SafetyWhole  = "whole"  // all its groups, without the gate
)

// Pick says how many answers a question takes.
type Pick string

const (
	PickOne Pick = "one"
	PickAny Pick = "any" // one or more
)

// Skip is the answer of a reader who skips a question. No answer may have it as its id.
const Skip = "skip"

// Unsure is the id of the answer "not sure".
const Unsure = "unsure"

// Question is what a tree asks. Answers is never empty in a tree without findings.
type Question struct {
	ID      read.Text
	Text    read.Text
	Why     read.Text // why it is asked; one line
	Hint    read.Text // optional help below the question
	Pick    Pick
	Answers []*Answer   // empty where Measure is set
	Measure *Measure    // for a question that is answered with an amount
	Routes  []*Route    // ways on for answers without one of their own
	Go      read.Text   // the same without conditions
	Skip    read.Text   // where skipping leads; not given where the question has a "not sure"
	Tells   []read.Text // with a measure: ids of told facts that its amount is
}

// Answer is one choice of a question.
type Answer struct {
	ID    read.Text
	Text  read.Text
	Short read.Text   // what a map of the tree says in its place; optional
	Go    read.Text   // a question or an ending; optional with pick any
	Cards []read.Text // ids of cards this answer adds
	Alone bool        // pick any: cannot be chosen together with others
	Sign  read.Text   // a sign of the shared safety screen that this answer tells; it leads to SignEnding
	Tells []read.Text // ids of told facts

	Ground read.Text // the tile of builder/drawing that shows it, where it is a thing
}

// Ending is where a path stops. All but title and text may be missing.
type Ending struct {
	ID      read.Text
	Title   read.Text
	Text    read.Text     // markdown
	Caution read.Text     // markdown, shown first
	Safety  bool          // asks for quick help; outranks everything else
	Marked  finding.Place // of the mark; of the ending where it has none
	Themes  []read.Text
	Types   []Talk
	Prompts []read.Text
	Next    []read.Text // trees to do next
	Ground  read.Text   // the picture of the reader's own amounts, where it has one
	Drawing read.Text   // a drawing of what to do, where it has one

	// Sign is the sign of the shared safety screen that this ending stands for;
	// its words are that sign's, and the library fills them in.
	Sign read.Text
}

// SignEnding is the id of the ending that an answer telling a sign leads to.
func SignEnding(sign string) string { return "safety-" + sign }

// Talk is a foot type that comes up at an ending, with both sides of it.
type Talk struct {
	Type    read.Text
	For     read.Text
	Against read.Text
}

// Example is an invented person whose answers must lead to the stated ending,
// with exactly the stated cards in any order.
type Example struct {
	Who     read.Text
	Answers []Given
	Ending  read.Text
	Cards   []read.Text
}

// Given is one answered question of an example.
type Given struct {
	Question read.Text
	Chosen   []read.Text
}

// Question gives the question with that id, or nil.
func (t *Tree) Question(id string) *Question {
	for _, q := range t.Questions {
		if q.ID.S == id {
			return q
		}
	}
	return nil
}

// Ending gives the ending with that id, or nil.
func (t *Tree) Ending(id string) *Ending {
	for _, e := range t.Endings {
		if e.ID.S == id {
			return e
		}
	}
	return nil
}

// Cards gives the cards that the tree adds, each once, in the file's order.
func (t *Tree) Cards() []string {
	var out []string
	add := func(cards []read.Text) {
		for _, c := range cards {
			if !slices.Contains(out, c.S) {
				out = append(out, c.S)
			}
		}
	}
	for _, q := range t.Questions {
		for _, a := range q.Answers {
			add(a.Cards)
		}
		for _, r := range q.Routes {
			add(r.Cards)
		}
	}
	return out
}

// OwnOf gives the questions that tell the amounts of a picture of one's own, in its order; nil where the tree does not ask for all.
func (t *Tree) OwnOf(picture string) []string {
	var out []string
	of, _ := drawing.OwnTiles(picture)
	for _, tile := range of {
		i := slices.IndexFunc(t.Questions, func(q *Question) bool {
			return q.Measure != nil && q.Measure.Ground.S == tile && !slices.Contains(out, q.ID.S)
		})
		if i < 0 {
			return nil
		}
		out = append(out, t.Questions[i].ID.S)
	}
	return out
}

// Grounds names the tiles that show the tree's answers, each once, in the file's order.
func (t *Tree) Grounds() []string {
	var out []string
	add := func(ground read.Text) {
		if ground.S != "" && !slices.Contains(out, ground.S) {
			out = append(out, ground.S)
		}
	}
	for _, q := range t.Questions {
		for _, a := range q.Answers {
			add(a.Ground)
		}
		if q.Measure != nil {
			add(q.Measure.Ground)
		}
	}
	return out
}

// RestsOn gives what a formula rests on, by way of values too: the worked-out
// values and the questions, each once.
func (t *Tree) RestsOn(e *formula.Expr) (values, questions []string) {
	seen := map[string]bool{}
	var visit func(e *formula.Expr)
	visit = func(e *formula.Expr) {
		for _, name := range e.Uses() {
			of, worked := t.worked[name]
			switch {
			case seen[name]:
			case of != nil:
				values = append(values, name)
				visit(of)
			case !worked:
				questions = append(questions, name)
			}
			seen[name] = true
		}
	}
	visit(e)
	return values, questions
}

// Answer gives the answer with that id, or nil.
func (q *Question) Answer(id string) *Answer {
	for _, a := range q.Answers {
		if a.ID.S == id {
			return a
		}
	}
	return nil
}

// WaysOn gives every way on that the question names, in the file's order.
func (q *Question) WaysOn() []read.Text {
	var out []read.Text
	add := func(t read.Text) {
		if t.Given() {
			out = append(out, t)
		}
	}
	for _, a := range q.Answers {
		add(a.Go)
	}
	for _, r := range q.Routes {
		add(r.Go)
	}
	add(q.Go)
	add(q.Skip)
	return out
}

// Numbers gives each question, then each ending, its number on paper, from 1.
func (t *Tree) Numbers() map[string]int {
	n := map[string]int{}
	for _, q := range t.Questions {
		n[q.ID.S] = len(n) + 1
	}
	for _, e := range t.Endings {
		n[e.ID.S] = len(n) + 1
	}
	return n
}
