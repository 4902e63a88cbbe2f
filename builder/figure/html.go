package figure

import (
	_ "embed"
	"html/template"
	"strconv"
	"strings"
	"sync"

	"keelpath/builder/drawing"
	"keelpath/builder/formula"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
	"keelpath/builder/say"
)

//go:embed figure.html
var source string

// page is read when the first figure is shown: most commands show none, and the words of the program take long to read.
var page = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("figure").Funcs(functions(say.English())).Parse(source))
})

// functions are what the template may call.
func functions(w *say.Words) template.FuncMap {
	return template.FuncMap{"say": w.Show, "tag": say.Tag}
}

// pageIn is the template as it says its words in a language.
func pageIn(w *say.Words) (*template.Template, error) {
	p, err := page().Clone()
	if err != nil || w == nil {
		return p, err
	}
	return p.Funcs(functions(w)), nil
}

// Options say how a figure stands on a page.
type Options struct {
	Words  *say.Words                    // what is said around it; in English where it is nil
	Prefix string                        // of the ids inside; the figure's ID where empty
	Given  map[string]string             // settings to begin with
	Sheet  string                        // address of the planner; empty inside the planner itself
	Cite   func(id string) template.HTML // marks a source; where nil, limits that need one are left out
	Page   string                        // address of the figure's own page, to lead there; may be empty
}

// The views are what the template sees.
type view struct {
	*Figure
	Options
	SVG       template.HTML
	Inputs    []inputView
	Results   []textView
	Warnings  []textView
	Sentences []textView
	Prompt    string
	Beside    textView // over the limits: how the reader's own lies to them
	Rows      [][]string
	Compared  []comparedView
}

type inputView struct {
	*Input
	Prefix             string
	Open               bool
	Said, Typed, Short string
	Value              string
	Low, High, Slider  string
	Mode               string
	Chosen             string
}

type textView struct{ ID, Text string }

type comparedView struct {
	*Limit
	Cites []template.HTML
	Said  string
}

// HTML gives the figure at its start. Settings were checked with Start.
func (f *Figure) HTML(o Options) (template.HTML, error) {
	s, err := f.Start(o.Given)
	if err != nil {
		return "", err
	}
	if o.Prefix == "" {
		o.Prefix = f.ID
	}
	amounts := quantity.In(o.Words)
	shown := f.settle(amounts, s)
	v := view{Figure: f, Options: o}
	v.SVG = f.Drawing.SVG(o.Prefix+"-drawing", func(part string) string { return shown.attributes(f, part) }, func(id string) string { return shown.Texts[id] }, f.lines())
	for _, in := range f.Inputs {
		one := f.inputView(amounts, in, s, shown)
		one.Prefix = o.Prefix
		v.Inputs = append(v.Inputs, one)
	}
	for _, t := range f.Texts {
		one := textView{t.ID.S, shown.Texts[t.ID.S]}
		switch t.Place {
		case Result:
			v.Results = append(v.Results, one)
		case Warning:
			v.Warnings = append(v.Warnings, one)
		case Sentence:
			v.Sentences = append(v.Sentences, one)
		case Fold:
			v.Beside = one
		case Prompt:
			v.Prompt = shown.Texts[t.ID.S]
		}
	}
	if v.Rows, err = f.typicalRows(amounts); err != nil {
		return "", err
	}
	for _, b := range f.Limits.Rows {
		if o.Cite == nil {
			break
		}
		c := comparedView{Limit: b, Said: shown.Texts[b.Mark.S]}
		for _, id := range b.Sources {
			c.Cites = append(c.Cites, o.Cite(id.S))
		}
		v.Compared = append(v.Compared, c)
	}
	var b strings.Builder
	in, err := pageIn(o.Words)
	if err != nil {
		return "", err
	}
	err = in.Execute(&b, v)
	return template.HTML(b.String()), err
}

// lines are the limits that the drawing shows, by their marks: a layer's own among them.
func (f *Figure) lines() []drawing.Limit {
	var out []drawing.Limit
	for _, row := range f.Limits.Rows {
		e := f.Limits.marks[row.Mark.S]
		if row.Line.S == "" || e == nil {
			continue
		}
		if v := e.Eval(func(string) formula.Value { return formula.Value{} }); v.Known {
			out = append(out, drawing.Limit{Rise: v.Num, Words: row.Line.S})
		}
	}
	return out
}

func (f *Figure) inputView(t *quantity.Tables, in *Input, s Settings, shown Shown) inputView {
	v := inputView{Input: in, Open: shown.Open[in.ID.S], Said: shown.Texts[in.ID.S], Chosen: s.Chosen[in.ID.S], Mode: "text"}
	if len(in.Choices) > 0 {
		return v
	}
	m, amount := in.measure, s.Amounts[in.ID.S]
	v.Low, v.High, v.Slider = plain(m.From), plain(m.To), plain(in.slider())
	v.Value = plain(amount.Num)
	v.Typed = t.Alone(m, amount)
	v.Short = v.Typed
	if len(m.Accept) == 1 {
		v.Mode = "decimal"
	}
	return v
}

// slider gives the step of the slider, in the canonical unit.
func (in *Input) slider() float64 {
	if in.Slide == 0 {
		return in.measure.Step
	}
	u, _ := quantity.Lookup(in.unit)
	return u.Canonical(in.Slide)
}

// plain writes an amount for a slider, which can be of any size: ten digits in
// all, wherever the point stands.
func plain(x float64) string { return strconv.FormatFloat(x, 'g', 10, 64) }

// typicalRows works out the table for pages with no script.
func (f *Figure) typicalRows(t *quantity.Tables) ([][]string, error) {
	var out [][]string
	for _, r := range f.Typical.Rows {
		s, err := f.Start(r.Given)
		if err != nil {
			return nil, err
		}
		var row []string
		for _, c := range f.Typical.Cells {
			row = append(row, f.say(t, s, c.S))
		}
		out = append(out, row)
	}
	return out, nil
}

// say fills one text at some settings.
func (f *Figure) say(t *quantity.Tables, s Settings, text string) string {
	g := *f
	g.Texts, g.Drawing.Moves = []*Text{{ID: read.Text{S: "cell"}, Cases: []*Case{{Text: read.Text{S: text}}}}}, nil
	return g.settle(t, s).Texts["cell"]
}
