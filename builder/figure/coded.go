package figure

import (
	"keelpath/builder/formula"
	"keelpath/builder/quantity"
)

// Coded is the figure's table for the browser. It marshals to JSON, always the
// same bytes.
type Coded struct {
	Inputs  []codedInput  `json:"inputs"`
	Values  []codedValue  `json:"values"`
	Texts   []codedText   `json:"texts"`
	Moves   []codedMove   `json:"moves"`
	Handles []codedHandle `json:"handles"`
	At      []*Spot       `json:"at,omitempty"`
}

type codedInput struct {
	ID      string            `json:"id"`
	If      formula.Coded     `json:"if,omitempty"`
	Measure *quantity.Measure `json:"measure,omitempty"`
	Say     []codedCase       `json:"say,omitempty"`
	Choices map[string]string `json:"choices,omitempty"`
}

type codedValue struct {
	ID    string        `json:"id"`
	If    formula.Coded `json:"if,omitempty"`
	Is    formula.Coded `json:"is"`
	Unit  string        `json:"unit,omitempty"`
	Step  float64       `json:"step,omitempty"` // canonical where there is a unit
	Alone bool          `json:"alone,omitempty"`
}

type codedText struct {
	ID    string      `json:"id"`
	Cases []codedCase `json:"cases"`
}

type codedCase struct {
	If   formula.Coded `json:"if,omitempty"`
	Text string        `json:"text"`
}

type codedMove struct {
	Part string      `json:"part"`
	Attr string      `json:"attr"`
	Is   []codedPart `json:"is"`
}

// codedPart is a text, or the list of "n" and a formula whose number stands there. Of "display" it is one condition.
type codedPart any

type codedHandle struct {
	Part  string    `json:"part"`
	Input string    `json:"input"`
	Right float64   `json:"right,omitempty"`
	Down  float64   `json:"down,omitempty"`
	About []float64 `json:"about,omitempty"` // x and y of the point whose line to the handle is the slope
}

// Coded gives the table.
func (f *Figure) Coded() Coded { return f.coded }

func (f *Figure) encode() Coded {
	out := Coded{Handles: []codedHandle{}, At: f.At}
	for _, in := range f.Inputs {
		c := codedInput{ID: in.ID.S, If: code(in.cond), Say: codeCases(in.Say)}
		if len(in.Choices) == 0 {
			c.Measure = &in.measure
		} else {
			c.Choices = map[string]string{}
			for _, choice := range in.Choices {
				c.Choices[choice.ID.S] = choice.Text.S
			}
		}
		out.Inputs = append(out.Inputs, c)
	}
	for _, v := range f.Values {
		c := codedValue{ID: v.ID.S, If: code(v.cond), Is: v.expr.Encode(), Unit: v.Unit, Step: v.Step, Alone: v.Alone}
		if u, ok := quantity.Lookup(v.Unit); ok && v.Unit != "" {
			c.Unit, c.Step = u.Code, u.Canonical(v.Step)
		}
		out.Values = append(out.Values, c)
	}
	for _, t := range f.Texts {
		out.Texts = append(out.Texts, codedText{t.ID.S, codeCases(t.Cases)})
	}
	for i, m := range f.Drawing.Moves {
		c := codedMove{Part: m.Part, Attr: m.Attr}
		for _, p := range f.moves[i] {
			e, ok := p.(*formula.Expr)
			switch {
			case !ok:
				c.Is = append(c.Is, p)
			case m.Attr == "display":
				c.Is = append(c.Is, e.Encode())
			default:
				c.Is = append(c.Is, []any{"n", e.Encode()})
			}
		}
		out.Moves = append(out.Moves, c)
	}
	for _, h := range f.Drawing.Handles {
		one := codedHandle{h.Part, h.Input, h.Right, h.Down, nil}
		if h.About != nil {
			one.About = []float64{h.About.X, h.About.Y}
		}
		out.Handles = append(out.Handles, one)
	}
	return out
}

func code(e *formula.Expr) formula.Coded {
	if e == nil {
		return nil
	}
	return e.Encode()
}

func codeCases(cs []*Case) []codedCase {
	var out []codedCase
	for _, c := range cs {
		out = append(out, codedCase{code(c.cond), c.Text.S})
	}
	return out
}
