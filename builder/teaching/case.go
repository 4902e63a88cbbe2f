// Package teaching knows a teaching case: an invented person, what is known of
// them and how it comes to be known, the answers of the trees that the case walks,
// the beats that a group works through, and what one changed fact changes. It reads
// trees/cases/ID.yaml and proves it: each walk ends where the case says, each answer
// rests on a stated fact, and each flip parts where it says.
//
// A case has no right foot and gives no level. What it tests is reasoning; facts on
// items and formats are those of the National Board's and the Medical Council of
// Canada's guides for writers of items.
package teaching

import (
	"slices"

	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// Case is one file of trees/cases/.
type Case struct {
	File    string
	ID      read.Text
	Title   read.Text
	Who     read.Text // who comes, and why, in a sentence or two
	Setting read.Text // where it takes place, and with whom
	Credits read.Credits
	Tasks   []read.Text // of Tasks: those of its beats
	Minutes int         // of all beats together
	Limb    read.Text   // of Limbs
	Facts   []*Fact
	Screen  *Screen // nil where no walk comes by the safety screen
	Walks   []*Walk
	Argue   []tree.Talk
	Before  read.Text // why it ends before any foot; given where nothing is argued
	Beats   []*Beat
	Flips   []*Flip
	Later   Later
	Errors  []read.Text // common ones, each with what is better (markdown)
}

// Tasks are what a resident should be able to do about a foot, in the order of a visit.
var Tasks = []string{
	"history", "examination", "level-evidence", "load", "clearance", "heel-height", "classes", "matching", "gait", "shell-and-care",
	"prescription", "follow-up", "shared-decision", "red-flags",
}

// Limbs are the places where a leg ends, as far as they change the case.
var Limbs = []string{"transtibial", "transfemoral", "bilateral", "ankle", "partial-foot"}

// Fact is something that is known of the person, or can be found out. Its id is that of
// a told fact (package told) where it is one of those.
type Fact struct {
	ID      read.Text
	Says    read.Text
	From    read.Text // of Origins
	Request read.Text // what a learner asks for; of facts that are hidden until then
	Dated   read.Text // the day on which the chart says it was so; a level needs one
	Amount  read.Text // as a reader would type it, where a measure rests on it
}

// Where a fact comes from.
const (
	Told     = "told"     // the person says it unasked
	Asked    = "asked"    // the person says it when asked
	Examined = "examined" // the examination shows it
	Chart    = "chart"    // it stands in the chart
)

// Origins lists them.
var Origins = []string{Told, Asked, Examined, Chart}

// Hidden tells whether a learner has to spend a request on the fact.
func (f *Fact) Hidden() bool { return f.From.S == Asked || f.From.S == Examined }

// Answer is how the person answers one question, and the facts on which that rests.
type Answer struct {
	Question read.Text
	Is       []read.Text
	Rests    []read.Text
}

// Screen is what the person answers on the shared safety screen. A group that is opened
// and not named is answered with "none".
type Screen struct {
	At     read.Text
	Leg    *Answer
	Gate   *Answer // nil where every group is asked
	Groups []*Answer
}

// Walk is the case's own way through one tree.
type Walk struct {
	Tree    read.Text
	Answers []*Answer
	Ending  read.Text // or Help, where the safety screen ends it
}

// Help is the ending of a walk that the safety screen ends.
const Help = "help"

// Flip is one fact changed, and where that leads.
type Flip struct {
	ID      read.Text
	Fact    read.Text // the one that is changed
	Says    read.Text // what is so instead
	Tree    read.Text
	Answers []*Answer // those that are new or other than in the case's walk
	Parts   read.Text // the last question that both walks ask; not given where nothing changes
	Ending  read.Text
	Because read.Text
}

// Later is how the person is followed up.
type Later struct {
	Measure read.Text
	Day     int // days after the fitting
	Change  read.Text
}

// Beat is one step of a session. What is not of its format is empty.
type Beat struct {
	ID      read.Text
	Format  read.Text // of Formats
	Minutes int
	Tasks   []read.Text
	Says    read.Text // what comes to be known, before the task
	Lead    read.Text // the task, in one line
	Options []*Option
	Key     []read.Text // ids of options

	Feature  read.Text // key-feature: the critical step that it tests
	Picks    int       // key-feature: how many options may be picked at most
	Requests int       // ask: how many facts may be asked for

	Tree, After, Of read.Text // predict: which walk, after which question, what of it

	Checklist     []read.Text // write
	Model         read.Text   // write: one way to say it
	Toward, Away  read.Text   // shift: a reason each way
	Opening       read.Text   // role-play: what the person says first
	Freely, If    []read.Text // role-play: facts that are told unasked, and when asked
	Never         []read.Text // role-play: what the person does not know
	Feels, Closes read.Text   // role-play: and what ends the scene
	TeachBack     []read.Text // role-play: what the person has to be able to say back
}

// Option is one choice of a beat.
type Option struct {
	ID      read.Text // of a fact in "ask", of a question or an ending in "predict"
	Text    read.Text
	Because read.Text // markdown: why it is right, or why not
	Worth   read.Text // key-feature: of Worths
	Cause   read.Text // order: of Causes
}

// The formats of a beat.
const (
	OneBest    = "one-best"
	KeyFeature = "key-feature"
	Predict    = "predict"
	Ask        = "ask"
	Write      = "write"
	Shift      = "shift"
	Defend     = "defend-two"
	RolePlay   = "role-play"
	Order      = "order"
)

// Formats lists them. Shift, Defend and RolePlay are never scored.
var Formats = []string{OneBest, KeyFeature, Predict, Ask, Write, Shift, Defend, RolePlay, Order}

// What an option of a key-feature problem is worth: a share, nothing, or all that was gained.
const (
	Right = "right"
	Idle  = "idle"
	Harm  = "harm"
)

// Worths lists them.
var Worths = []string{Right, Idle, Harm}

// What a prediction is about.
const (
	NextQuestion = "next"    // what the tree asks next, or the ending it comes to
	OpenEndings  = "endings" // which endings can still be reached
)

// Causes are the categories of causes of a gait deviation, in the trade's order of
// testing (common practice, no source). The person is looked at beside all of them, and so has no place in it.
// Nothing is ever ordered by how likely it is: no source gives frequencies.
var Causes = []string{"shoe", "wear", "hold", "fit", "length", "alignment", "knee"}

// Fact gives the fact with that id, or nil.
func (c *Case) Fact(id string) *Fact {
	for _, f := range c.Facts {
		if f.ID.S == id {
			return f
		}
	}
	return nil
}

// Walk gives the walk through that tree, or nil.
func (c *Case) Walk(id string) *Walk {
	for _, w := range c.Walks {
		if w.Tree.S == id {
			return w
		}
	}
	return nil
}

// Option gives the option with that id, or nil.
func (b *Beat) Option(id string) *Option {
	for _, o := range b.Options {
		if o.ID.S == id {
			return o
		}
	}
	return nil
}

// IsKey tells whether an option is right.
func (b *Beat) IsKey(o *Option) bool {
	return o.Worth.S == Right || slices.Contains(read.Strings(b.Key), o.ID.S)
}

// Given are answers as tree.Walk takes them.
func given(as []*Answer) tree.Answers {
	out := tree.Answers{}
	for _, a := range as {
		out[a.Question.S] = read.Strings(a.Is)
	}
	return out
}
