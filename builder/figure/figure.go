// Package figure makes the figures of the workbench: a drawing that answers to
// settings, with sentences that say the same. A figure is a file of content,
// content/en/figures/ID.yaml: inputs, values worked out by formulas, texts with
// gaps, published limits, a worked table and notes. How its drawing moves stands
// with the drawing. The build shows it at its start; site/client/figures/settle.ts
// shows it as the reader sets it, from the same table. A figure tells what a
// change does. It never says what to choose.
package figure

import (
	"regexp"
	"slices"

	"keelpath/builder/drawing"
	"keelpath/builder/finding"
	"keelpath/builder/formula"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
)

// Figure is one figure. Its drawing has the same ID.
type Figure struct {
	File  string
	ID    string // the file's name without ".yaml"
	Title read.Text
	Order int       // where it stands in the workbench; the lowest comes first
	About read.Text // what it is for, one or two sentences
	Lead  read.Text // the main message of its page

	Inputs  []*Input
	Values  []*Value
	Texts   []*Text // in the page's order
	Typical Typical
	Limits  Limits
	Notes   read.Text // markdown below the figure on its page
	At      []*Spot   // measure questions it helps with
	Drawing drawing.Live

	// Sound tells that nothing was wrong with it. Ask a figure that is not sound
	// for its texts only: it cannot be shown.
	Sound bool

	kinds formula.Names
	moves [][]any // by move: literal text and formulas; of "display", one condition
	coded Coded
}

// Input is what the reader sets: an amount, or one of Choices.
type Input struct {
	ID, Label, Hint read.Text
	If              read.Text // a condition of choices: where it fails the input is not shown
	Hand            read.Text // a few words beside its slider; with them it is set under the drawing, and is folded away without

	// Of an amount.
	Begin read.Text // as a person would type it
	Slide float64   // step of the slider, in the measure's own unit as the file names it; the measure's where 0
	Say   []*Case   // what stands beside the label; the amount in both systems where empty

	Choices []Choice // the first is the start

	unit    string // as the file names it
	measure quantity.Measure
	cond    *formula.Expr
}

// Spot is a measure question beside which the planner shows a figure. The figure
// begins at the reader's amount, and what it comes to can be taken for an answer.
type Spot struct {
	Question string   `json:"question"`       // as tree/question
	Input    string   `json:"input"`          // begins at the amount
	Less     string   `json:"less,omitempty"` // an input that the amount is without: Input begins higher by it
	Sum      []string `json:"sum,omitempty"`  // inputs that make up the amount with Input; they begin at 0
	Is       string   `json:"is"`             // the input or value that is the amount

	// By is an earlier question of the tree: where just one of Other was chosen
	// there, the input that it names begins at the amount, in place of Input.
	By    string            `json:"by,omitempty"`
	Other map[string]string `json:"other,omitempty"`
}

// Choice is one answer of an input. Text goes into sentences.
type Choice struct{ ID, Text read.Text }

// Value is worked out. Several with one ID are tried in order: the first whose
// If holds counts.
type Value struct {
	ID, If, Is read.Text
	Unit       string  // in which it is said; empty for a plain number
	Step       float64 // to which it is said, in Unit
	Alone      bool    // said in Unit only

	expr, cond *formula.Expr
}

// Place says where a text stands.
type Place string

// Places of texts. A text of the drawing may stand in both.
const (
	Result   Place = "result"   // below the drawing; MaxResults at most
	Warning  Place = "warning"  // below the results; what a reader has to see
	Sentence Place = "sentence" // folded, below both
	Fold     Place = "fold"     // what opens the limits; their caption where there is none
	Label    Place = "label"    // in the drawing
	Prompt   Place = "prompt"   // the question to bring
	Row      Place = "row"      // a cell of the table of limits
)

// MaxResults is how many results stand below a drawing.
const MaxResults = 2

// Text is said as its first case that holds. A text with a gap that is unknown,
// or with no case that holds, is empty.
type Text struct {
	ID    read.Text
	Place Place
	Cases []*Case
}

// Case has gaps in braces: the name of an input or a value. An empty If holds.
type Case struct {
	If, Text read.Text

	cond *formula.Expr
}

// Typical is the worked table of settings that are usual, for pages with no script.
type Typical struct {
	Caption read.Text
	Heads   []read.Text
	Cells   []read.Text // texts with gaps, one a column
	Rows    []TypicalRow
}

// TypicalRow is one row of Typical: settings as a person would type them.
type TypicalRow struct {
	At    finding.Place
	Given map[string]string
}

// Limits are published limits that stand next to the reader's own value. Same, More
// and Less say how that lies to a limit.
type Limits struct {
	Caption          read.Text
	Same, More, Less read.Text
	Rows             []*Limit

	marks map[string]*formula.Expr // the limits by id
}

// Limit is one row of Limits.
type Limit struct {
	Where, Limit read.Text
	Sources      []read.Text
	Mark         read.Text // id of the text that compares
	Line         read.Text // where given, the limit is a line in the drawing too, with these words
}

// Input gives the input with that ID, or nil.
func (f *Figure) Input(id string) *Input {
	i := slices.IndexFunc(f.Inputs, func(in *Input) bool { return in.ID.S == id })
	if i < 0 {
		return nil
	}
	return f.Inputs[i]
}

// Settings names the inputs.
func (f *Figure) Settings() []string {
	var out []string
	for _, in := range f.Inputs {
		out = append(out, in.ID.S)
	}
	return out
}

// Measure is what an input takes that is an amount.
func (in *Input) Measure() quantity.Measure { return in.measure }

var gap = regexp.MustCompile(`\{([a-z0-9-]+)\}`)

// place of a character of a text that a pattern found at a byte.
func placeIn(t read.Text, offset int) finding.Place {
	if t.Inside < 0 {
		return t.At
	}
	return t.Place(len([]rune(t.S[:offset])) + 1)
}
