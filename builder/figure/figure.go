// Package figure makes the figures of the workbench: a drawing that answers to
// settings, with sentences that say the same. A figure is a table: inputs,
// values worked out by formulas, texts with gaps, moves of a drawing's parts.
// The build shows it at its start; site/client/figures/settle.ts shows it as the reader
// sets it, from the same table. A figure tells what a change does. It never
// says what to choose.
package figure

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"keelpath/builder/drawing"
	"keelpath/builder/formula"
	"keelpath/builder/quantity"
)

// Figure is one figure. Its drawing has the same ID.
type Figure struct {
	ID, Title string
	About     string // what it is for, one or two sentences
	Lead      string // the main message of its page
	Inputs    []Input
	Values    []Value
	Texts     []Text // in the page's order
	Typical   Typical
	Notes     string // markdown below the figure on its page
	Beside    []Beside
	At        []Spot // measure questions it helps with
	Drawing   drawing.Live

	kinds formula.Names
	moves [][]any // by move: literal text and formulas; of "display", one condition
	coded Coded
}

// Input is what the reader sets: an amount, or one of Choices.
type Input struct {
	ID, Label, Hint string
	If              string // a condition of choices: where it fails the input is not shown

	Unit           string // of an amount, with From, To, Step and Start
	Accept         []string
	From, To, Step float64
	Start          float64
	Slide          float64 // step of the slider; Step where 0
	Say            []Case  // what stands beside the label; the amount in both systems where empty

	Choices []Choice // the first is the start

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
type Choice struct{ ID, Text string }

// Value is worked out. Several with one ID are tried in order: the first whose
// If holds counts.
type Value struct {
	ID, If, Is string
	Unit       string  // in which it is said; empty for a plain number
	Step       float64 // to which it is said, in Unit
	Alone      bool    // said in Unit only

	expr, cond *formula.Expr
}

// Place says where a text stands.
type Place string

// Places of texts. A text of the drawing may stand in both.
const (
	Sentence Place = "sentence" // below the drawing
	Label    Place = "label"    // in the drawing
	Prompt   Place = "prompt"   // the question to bring
	Row      Place = "row"      // a cell of a Beside table
)

// Text is said as its first case that holds. A text with a gap that is unknown,
// or with no case that holds, is empty.
type Text struct {
	ID    string
	Place Place
	Cases []Case
}

// Case has gaps in braces: the name of an input or a value. An empty If holds.
type Case struct {
	If, Text string

	cond *formula.Expr
}

// Typical is the worked table of settings that are usual, for pages with no script.
type Typical struct {
	Caption string
	Heads   []string
	Cells   []string // texts with gaps, one a column
	Rows    []map[string]string
}

// Beside is a row of limits that stand next to the reader's own value.
type Beside struct {
	Where, Limit string
	Sources      []string
	Text         string // id of the text that compares
}

// All lists the figures in the order in which the workbench shows them.
var All = compiled(heelChange, slope, footAndShoe, load, room)

// Find gives the figure with that ID, or nil.
func Find(id string) *Figure {
	i := slices.IndexFunc(All, func(f *Figure) bool { return f.ID == id })
	if i < 0 {
		return nil
	}
	return All[i]
}

// IDs names every figure.
func IDs() []string {
	var out []string
	for _, f := range All {
		out = append(out, f.ID)
	}
	return out
}

// Input gives the input with that ID, or nil.
func (f *Figure) Input(id string) *Input {
	i := slices.IndexFunc(f.Inputs, func(in Input) bool { return in.ID == id })
	if i < 0 {
		return nil
	}
	return &f.Inputs[i]
}

// Measure is what an input takes that is an amount.
func (in *Input) Measure() quantity.Measure { return in.measure }

func compiled(all ...*Figure) []*Figure {
	for _, f := range all {
		f.compile()
	}
	return all
}

// compile reads all formulas. A figure is part of the program, so a mistake in
// one is a bug, and a test would not even start.
func (f *Figure) compile() {
	var ok bool
	if f.Drawing, ok = drawing.FindLive(f.ID); !ok {
		panic("figure: no drawing " + f.ID)
	}
	f.kinds = formula.Names{}
	for i := range f.Inputs {
		f.Inputs[i].compile(f)
	}
	for i := range f.Values {
		v := &f.Values[i]
		v.cond = f.condition(v.If)
		expr, kind := f.formula(v.Is)
		v.expr, f.kinds[v.ID] = expr, formula.Name{Kind: kind}
	}
	for i := range f.Inputs {
		f.cases(f.Inputs[i].Say)
		f.Inputs[i].cond = f.condition(f.Inputs[i].If)
	}
	for name := range f.kinds {
		if formula.IsUnit(name) {
			panic(fmt.Sprintf("figure %s: %q is the name of a unit", f.ID, name))
		}
	}
	for _, m := range f.Drawing.Moves {
		if m.Attr == "display" {
			f.moves = append(f.moves, []any{f.condition(m.Is)})
		} else {
			f.moves = append(f.moves, f.pieces(m.Is))
		}
	}
	for i := range f.Texts {
		f.cases(f.Texts[i].Cases)
	}
	f.coded = f.encode()
}

func (in *Input) compile(f *Figure) {
	if len(in.Choices) > 0 {
		var answers []string
		for _, c := range in.Choices {
			answers = append(answers, c.ID)
		}
		f.kinds[in.ID] = formula.Name{Kind: formula.Choice, Answers: answers}
		return
	}
	m, err := quantity.NewMeasure(in.Unit, in.Accept, in.From, in.To, in.Step)
	if err != nil {
		panic(fmt.Sprintf("figure %s, input %s: %v", f.ID, in.ID, err))
	}
	in.measure = m
	kind := formula.Kind(m.Kind())
	if m.Kind() == quantity.Count {
		kind = formula.Number
	}
	f.kinds[in.ID] = formula.Name{Kind: kind}
}

func (f *Figure) cases(cs []Case) {
	for i := range cs {
		cs[i].cond = f.condition(cs[i].If)
		for _, name := range gap.FindAllStringSubmatch(cs[i].Text, -1) {
			if _, ok := f.kinds[name[1]]; !ok {
				panic(fmt.Sprintf("figure %s: the text %q has a gap that nothing fills", f.ID, cs[i].Text))
			}
		}
	}
}

var gap = regexp.MustCompile(`\{([a-z0-9-]+)\}`)

func (f *Figure) formula(src string) (*formula.Expr, formula.Kind) {
	e, err := formula.Parse(src)
	if err != nil {
		panic(fmt.Sprintf("figure %s: %q: %s", f.ID, src, err.Text))
	}
	kind, errs := e.Check(f.kinds)
	if len(errs) > 0 {
		panic(fmt.Sprintf("figure %s: %q: %s", f.ID, src, errs[0].Text))
	}
	return e, kind
}

// condition gives nil for none.
func (f *Figure) condition(src string) *formula.Expr {
	if src == "" {
		return nil
	}
	e, kind := f.formula(src)
	if kind != formula.Truth {
		panic(fmt.Sprintf("figure %s: %q is no condition", f.ID, src))
	}
	return e
}

// pieces cuts a move's text into literal text and formulas that give plain numbers.
func (f *Figure) pieces(is string) []any {
	var out []any
	for is != "" {
		before, rest, found := strings.Cut(is, "{")
		if before != "" {
			out = append(out, before)
		}
		if !found {
			break
		}
		src, after, _ := strings.Cut(rest, "}")
		e, kind := f.formula(src)
		if kind != formula.Number {
			panic(fmt.Sprintf("figure %s: %q of a move is %s and no plain number", f.ID, src, kind.Says()))
		}
		out = append(out, e)
		is = after
	}
	return out
}
