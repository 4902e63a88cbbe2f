package figure

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"keelpath/builder/drawing"
	"keelpath/builder/finding"
	"keelpath/builder/formula"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
)

// MaxOrder is more than the figures of any workbench.
const MaxOrder = 1000

// asks is the id of the text that is the question to bring.
const asks = "prompt"

// Parse reads one figure's file and checks what can be known of it alone: its
// formulas, its gaps, its amounts, and that its drawing finds all by which it moves.
// It gives nil where the file cannot be read at all.
func Parse(file string, src []byte, list *finding.List) *Figure {
	return Read(read.Choice{}, file, src, list)
}

// Read is Parse for the words that are wanted.
func Read(want read.Choice, file string, src []byte, list *finding.List) *Figure {
	var found finding.List
	f := parse(want, file, src, &found)
	for _, w := range found.Sorted() {
		list.Append(w)
	}
	if f != nil && len(found.Sorted()) == 0 {
		f.Sound, f.coded = true, f.encode()
		f.typical(list)
	}
	return f
}

func parse(want read.Choice, file string, src []byte, list *finding.List) *Figure {
	m := want.YAML(file, src, 0, list)
	if m == nil {
		return nil
	}
	f := &Figure{File: file, ID: strings.TrimSuffix(path.Base(file), ".yaml"), kinds: formula.Names{}}
	p := &parser{f, list}
	f.Title, f.About, f.Lead = m.NeedWords("title"), m.NeedWords("about"), m.NeedWords("lead")
	f.Order = m.NeedInt("order", 1, MaxOrder)
	m.Each("inputs", "input", func(id read.Text, in *read.Map) { f.Inputs = append(f.Inputs, p.input(id, in)) })
	if m.Lacks("inputs") {
		list.Add(m.At(), "missing-key", `the file lacks "inputs"`, `add "inputs:" with what a reader sets`)
	}
	m.Each("values", "value", p.values)
	m.Each("texts", "text", p.text)
	p.ask(m.Sub("ask", "the question to bring"), m)
	p.limits(m.Sub("limits", "the limits"))
	p.table(m.Sub("typical", "the worked table"), m)
	for _, s := range m.Maps("beside", "a place beside a question") {
		p.spot(s)
	}
	f.Notes = m.NeedWords("notes")
	m.Done()
	for _, in := range f.Inputs { // after all values, which these may show
		p.cases(in.Say)
		in.cond = p.condition(in.If)
	}
	for _, t := range f.Texts {
		p.cases(t.Cases)
	}
	for _, t := range f.Typical.Cells {
		p.gaps(t)
	}
	p.drawing(m)
	return f
}

// parser reads one figure.
type parser struct {
	*Figure
	list *finding.List
}

// name takes the id of an input or a value for formulas.
func (p *parser) name(id read.Text, kind string, is formula.Name) {
	if why := formula.NameFault(id.S); why != "" {
		p.list.Add(id.At, "reserved-id", fmt.Sprintf("%s %q has an id that formulas cannot use: %s", kind, id.S, why), "give it another id")
	}
	if _, twice := p.kinds[id.S]; twice {
		p.list.Add(id.At, "repeated-id", fmt.Sprintf("%s %q has an id that an input or another value has", kind, id.S), "give one of them another id")
	}
	p.kinds[id.S] = is
}

func (p *parser) input(id read.Text, m *read.Map) *Input {
	in := &Input{ID: id, Label: m.NeedWords("label"), Hint: m.Words("hint"), If: orNone(m, "if")}
	m.WordPairs("choices", func(k read.Text, says []read.Text) {
		c := Choice{ID: k}
		if len(says) == 1 {
			c.Text = says[0]
		}
		if c.Text.S == "" {
			p.list.Add(k.At, "empty-text", fmt.Sprintf("choice %q of input %q has no words", k.S, id.S), `write it as "`+k.S+`: the words"`)
		}
		in.Choices = append(in.Choices, c)
	})
	measure := m.Sub("measure", fmt.Sprintf("the measure of input %q", id.S))
	if len(in.Choices) > 0 {
		if measure != nil {
			p.list.Add(m.Key("measure"), "needless-key", fmt.Sprintf("input %q has choices and a measure", id.S), "keep one of them")
		}
		var answers []string
		for _, c := range in.Choices {
			answers = append(answers, c.ID.S)
		}
		p.name(id, "input", formula.Name{Kind: formula.Choice, Answers: answers})
	} else {
		p.name(id, "input", p.amount(in, m, measure))
	}
	m.Done()
	return in
}

// amount reads an input that is an amount.
func (p *parser) amount(in *Input, m, measure *read.Map) formula.Name {
	if measure == nil && m.Lacks("measure") && m.Lacks("choices") {
		p.list.Add(in.ID.At, "missing-key", fmt.Sprintf("input %q has neither choices nor a measure", in.ID.S), "add choices: or measure:")
	}
	unit, accept := measure.NeedText("unit"), measure.Texts("accept")
	from, ok1 := measure.Amount("from")
	to, ok2 := measure.Amount("to")
	step, ok3 := measure.Amount("step")
	measure.Done()
	in.Begin = m.NeedText("start")
	if m.Text("slide").Given() {
		in.Slide, _ = m.Amount("slide")
	}
	in.Say = saidIn(m.Maps("cases", "a case"))
	in.Hand = m.Words("hand")
	if !ok1 || !ok2 || !ok3 || unit.S == "" {
		return formula.Name{}
	}
	made, err := quantity.NewMeasure(unit.S, read.Strings(accept), from, to, step)
	if err != nil {
		p.list.Add(measure.At(), "measure", err.Error(), "a measure looks like { unit: mm, accept: [mm, cm, in], from: 0, to: 140, step: 1 }")
		return formula.Name{}
	}
	in.unit, in.measure = unit.S, made
	if in.Begin.S != "" {
		if _, err := quantity.Read(in.Begin.S, made); err != nil {
			p.list.Add(in.Begin.At, "measure", fmt.Sprintf("input %q begins at %q, and the measure does not take that", in.ID.S, in.Begin.S), "what a reader would be told: "+err.Error())
		}
	}
	if in.Slide < 0 {
		p.list.Add(m.Key("slide"), "measure", fmt.Sprintf("the slider of input %q has a step below 0", in.ID.S), "write a step above 0, or leave the line out")
	}
	return formula.Name{Kind: kindOf(made.Kind())}
}

// kindOf gives what a formula makes of an amount.
func kindOf(k quantity.Kind) formula.Kind {
	if k == quantity.Count {
		return formula.Number
	}
	return formula.Kind(k)
}

// values reads one value: a formula, or several with conditions.
func (p *parser) values(id read.Text, m *read.Map) {
	v := Value{ID: id, Is: orNone(m, "is"), Unit: m.Text("unit").S, Alone: m.Bool("alone")}
	v.Step, _ = m.Amount("step")
	if !m.Lacks("step") && v.Step <= 0 {
		p.list.Add(m.Key("step"), "measure", fmt.Sprintf("value %q is said to a step that is not above 0", id.S), "write the step to which it is said: 0.1")
	}
	ways := m.Maps("ways", "a way")
	p.one(m, "value "+quoted(id), "is", "ways")
	m.Done()
	first, known := formula.Kind(""), formula.Name{}
	add := func(v Value) {
		v.cond = p.condition(v.If)
		expr, kind := p.formula(v.Is)
		v.expr = expr
		switch {
		case kind == "":
		case first == "":
			first, known = kind, formula.Name{Kind: kind}
			p.unit(m, v, kind)
		case kind != first:
			p.list.Add(v.Is.At, "formula", fmt.Sprintf("value %q is %s here, and %s in an earlier way", id.S, kind.Says(), first.Says()), "all ways of a value give the same kind of amount")
		}
		p.Values = append(p.Values, &v)
	}
	if len(ways) == 0 {
		add(v)
	}
	for _, w := range ways {
		one := v
		one.If, one.Is = orNone(w, "if"), w.NeedText("is")
		w.Done()
		add(one)
	}
	p.name(id, "value", known)
}

// unit holds the unit in which a value is said against what its formula gives.
func (p *parser) unit(m *read.Map, v Value, kind formula.Kind) {
	u, ok := quantity.Lookup(v.Unit)
	switch {
	case v.Unit == "" && kind != formula.Number:
		p.list.Add(v.ID.At, "measure", fmt.Sprintf("value %q is %s, and has no unit in which it is said", v.ID.S, kind.Says()), "add unit:, as in unit: mm")
	case v.Unit != "" && !ok:
		p.list.Add(m.Key("unit"), "measure", fmt.Sprintf("value %q is said in %q, and there is no such unit", v.ID.S, v.Unit), "take one such as mm, cm, kg, deg or %")
	case v.Unit != "" && kindOf(u.Kind) != kind:
		p.list.Add(m.Key("unit"), "measure", fmt.Sprintf("value %q is %s, and cannot be said in %q", v.ID.S, kind.Says(), v.Unit), "take a unit of the same kind, or change the formula")
	}
}

// one reports a mapping that has both of two keys, or neither.
func (p *parser) one(m *read.Map, who, a, b string) {
	if m == nil {
		return
	}
	switch lackA, lackB := m.Lacks(a), m.Lacks(b); {
	case !lackA && !lackB:
		p.list.Add(m.Key(b), "needless-key", fmt.Sprintf("%s has %q and %q", who, a, b), "keep one of them")
	case lackA && lackB:
		p.list.Add(m.At(), "missing-key", fmt.Sprintf("%s has neither %q nor %q", who, a, b), "add one of them")
	}
}

// orNone gives a text that may be left out, though not empty.
func orNone(m *read.Map, key string) read.Text {
	if m.Lacks(key) {
		return m.Text(key)
	}
	return m.NeedText(key)
}

func saysOrNone(m *read.Map) read.Text {
	if m.Lacks("says") {
		return m.Words("says")
	}
	return m.NeedWords("says")
}

func quoted(t read.Text) string { return fmt.Sprintf("%q", t.S) }

func (p *parser) text(id read.Text, m *read.Map) {
	t := &Text{ID: id, Place: Place(m.OneOf("place", string(Sentence), string(Result), string(Warning), string(Fold), string(Label)).S)}
	t.Cases = p.said(m, "text "+quoted(id))
	m.Done()
	p.put(t)
	results := 0
	for _, o := range p.Texts {
		if o.Place == Result {
			results++
		}
	}
	if t.Place == Result && results > MaxResults {
		p.list.Add(id.At, "figure-results", fmt.Sprintf("text %q is result number %d, and two lines have room below the drawing", id.S, results), "place it as a sentence, which is folded, or as a warning, which never is")
	}
}

// put adds a text. What stands beside an input's label has the input's id.
func (p *parser) put(t *Text) {
	asked := t.ID.S == asks && slices.ContainsFunc(p.Texts, func(o *Text) bool { return o.ID.S == asks })
	if t.ID.S == asks && t.Place != Prompt {
		p.list.Add(t.ID.At, "reserved-id", fmt.Sprintf("text %q has the id of the question to bring", t.ID.S), `give it another id; the question stands under "ask"`)
	}
	if !asked && (p.Input(t.ID.S) != nil || slices.ContainsFunc(p.Texts, func(o *Text) bool { return o.ID.S == t.ID.S })) {
		p.list.Add(t.ID.At, "repeated-id", fmt.Sprintf("text %q has an id that an input or another text has", t.ID.S), "give one of them another id")
	}
	p.Texts = append(p.Texts, t)
}

// said reads one text, or several with conditions.
func (p *parser) said(m *read.Map, who string) []*Case {
	one, cases := saysOrNone(m), m.Maps("cases", "a case")
	p.one(m, who, "says", "cases")
	if one.Given() {
		return []*Case{{Text: one}}
	}
	return saidIn(cases)
}

func saidIn(cases []*read.Map) []*Case {
	var out []*Case
	for _, c := range cases {
		out = append(out, &Case{If: orNone(c, "if"), Text: c.NeedWords("says")})
		c.Done()
	}
	return out
}

func (p *parser) ask(m, top *read.Map) {
	if m == nil {
		if top.Lacks("ask") {
			p.list.Add(top.At(), "missing-key", `the file lacks "ask"`, `add "ask:" with the question to bring`)
		}
		return
	}
	t := &Text{ID: read.Text{S: asks, At: m.At()}, Place: Prompt, Cases: p.said(m, "the question to bring")}
	m.Done()
	p.put(t)
}

// limits reads the published limits. Each mark becomes a text that compares.
func (p *parser) limits(m *read.Map) {
	if m == nil {
		return
	}
	l := &p.Limits
	l.Caption, l.Same, l.More, l.Less = m.NeedWords("caption"), m.NeedWords("same"), m.NeedWords("more"), m.NeedWords("less")
	of, near := m.NeedText("of"), m.NeedText("near")
	_, kind := p.formula(of)
	if _, k := p.formula(near); k != kind && k != "" && kind != "" {
		p.list.Add(near.At, "formula", fmt.Sprintf("the limits are %s, and \"near\" is %s", kind.Says(), k.Says()), "say how near counts as the same, in the kind of what is compared: 0.05*percent")
		kind = "" // with this, no mark could be compared
	}
	var marks []string
	l.marks = map[string]*formula.Expr{}
	m.Pairs("marks", func(id read.Text, is []read.Text) {
		marks = append(marks, id.S)
		t := &Text{ID: id, Place: Row}
		if len(is) == 1 && is[0].S != "" {
			p.mark(t, of.S, near.S, kind, is[0])
			l.marks[id.S], _ = formula.Parse(is[0].S)
		} else {
			p.list.Add(id.At, "missing-key", fmt.Sprintf("the mark %q has no formula", id.S), "write it as "+id.S+": 10*percent")
		}
		p.put(t)
	})
	for _, r := range m.Maps("rows", "a row of the limits") {
		row := &Limit{Where: r.NeedWords("where"), Limit: r.NeedWords("limit"), Sources: r.IDs("sources"), Mark: r.NeedText("mark"), Line: r.Words("line")}
		if r.Lacks("sources") {
			p.list.Add(r.At(), "missing-key", "a row of the limits names no source", "add sources: with ids")
		}
		r.Done()
		if row.Mark.S != "" && !slices.Contains(marks, row.Mark.S) {
			p.list.Add(row.Mark.At, "unknown-name", fmt.Sprintf("a row of the limits names the mark %q, and there is none", row.Mark.S), finding.NearestOrAll(row.Mark.S, marks, "marks")...)
		}
		l.Rows = append(l.Rows, row)
	}
	if m.Lacks("marks") || m.Lacks("rows") {
		p.list.Add(m.At(), "missing-key", `the limits lack "marks" or "rows"`, "add marks: with a formula for each limit, and rows: that name them")
	}
	m.Done()
}

// mark makes the text that compares with one limit.
func (p *parser) mark(t *Text, of, near string, kind formula.Kind, is read.Text) {
	switch _, k := p.formula(is); {
	case k == "" || kind == "":
		return // reported
	case k != kind:
		p.list.Add(is.At, "formula", fmt.Sprintf("the mark %q is %s, and what is compared is %s", t.ID.S, k.Says(), kind.Says()), "write it in the kind of what is compared: 10*percent")
		return
	}
	at := func(src string, says read.Text) *Case {
		return &Case{If: read.Text{S: src, At: is.At, Inside: -1}, Text: says}
	}
	t.Cases = []*Case{
		at(fmt.Sprintf("abs(%s - (%s)) < %s", of, is.S, near), p.Limits.Same),
		at(fmt.Sprintf("%s > (%s)", of, is.S), p.Limits.More),
		at(fmt.Sprintf("%s < (%s)", of, is.S), p.Limits.Less),
	}
}

func (p *parser) table(m, top *read.Map) {
	t := &p.Typical
	if m == nil {
		if top.Lacks("typical") {
			p.list.Add(top.At(), "missing-key", `the file lacks "typical"`, `add "typical:" with a worked table, for readers without script`)
		}
		return
	}
	t.Caption, t.Heads, t.Cells = m.NeedWords("caption"), m.NeedWordList("heads"), m.NeedWordList("cells")
	if len(t.Heads) != len(t.Cells) {
		p.list.Add(m.Key("cells"), "figure-table", fmt.Sprintf("the worked table has %d heads and %d cells", len(t.Heads), len(t.Cells)), "give each column a head and a cell")
	}
	for _, r := range m.Maps("rows", "a row of the worked table") {
		row := TypicalRow{At: r.At(), Given: map[string]string{}}
		r.Singles(func(k, v read.Text) { row.Given[k.S] = v.S })
		t.Rows = append(t.Rows, row)
	}
	if m.Lacks("rows") {
		p.list.Add(m.At(), "missing-key", "the worked table has no rows", "add rows: with settings, as in { new-heel: 32 mm }")
	}
	m.Done()
}

// typical reports rows of the worked table with settings that the figure does not take.
func (f *Figure) typical(list *finding.List) {
	for _, r := range f.Typical.Rows {
		if _, err := f.Start(r.Given); err != nil {
			f.Sound = false
			list.Add(r.At, "figure-setting", "a row of the worked table cannot be set: "+strings.TrimSuffix(err.Error(), "."), "the settings: "+strings.Join(f.Settings(), ", "))
		}
	}
}

// spot reads a place beside a measure question of a tree. An edition may have no
// such question, so only names of the figure's own are held to anything.
func (p *parser) spot(m *read.Map) {
	question, input, less, is, by := m.NeedText("question"), m.NeedText("input"), m.Text("less"), m.NeedText("is"), m.Text("by")
	sum := m.IDs("sum")
	s := &Spot{Question: question.S, Input: input.S, Less: less.S, Sum: read.Strings(sum), Is: is.S, By: by.S}
	if len(sum) == 0 {
		s.Sum = nil
	}
	amounts := append([]read.Text{input, less}, sum...)
	m.Pairs("other", func(answer read.Text, to []read.Text) {
		if len(to) != 1 || to[0].S == "" {
			p.list.Add(answer.At, "empty-text", fmt.Sprintf("the answer %q names no input", answer.S), "write the id of the input that begins at the amount")
			return
		}
		if s.Other == nil {
			s.Other = map[string]string{}
		}
		s.Other[answer.S] = to[0].S
		amounts = append(amounts, to[0])
	})
	m.Done()
	var takes []string
	for _, in := range p.Inputs {
		if len(in.Choices) == 0 {
			takes = append(takes, in.ID.S)
		}
	}
	for _, t := range amounts {
		if t.S != "" && !slices.Contains(takes, t.S) {
			p.list.Add(t.At, "unknown-name", fmt.Sprintf("the place beside %q names the amount %q, and no input of that id takes one", s.Question, t.S), finding.NearestOrAll(t.S, takes, "inputs that take an amount")...)
		}
	}
	p.known(is, fmt.Sprintf("the place beside %q names", s.Question))
	p.At = append(p.At, s)
}

// known reports a name of no input and no value.
func (p *parser) known(t read.Text, who string) {
	p.knownAt(t.S, t.At, who)
}

func (p *parser) knownAt(name string, at finding.Place, who string) {
	if _, ok := p.kinds[name]; ok || name == "" {
		return
	}
	names := p.Settings()
	for _, v := range p.Values {
		names = append(names, v.ID.S)
	}
	p.list.Add(at, "unknown-name", fmt.Sprintf("%s %q, and no input or value has that name", who, name), finding.NearestOrAll(name, names, "inputs and values")...)
}

func (p *parser) cases(cs []*Case) {
	for _, c := range cs {
		c.cond = p.condition(c.If)
		p.gaps(c.Text)
	}
}

// gaps reports the gaps of a text that nothing fills.
func (p *parser) gaps(t read.Text) {
	for _, g := range gap.FindAllStringSubmatchIndex(t.S, -1) {
		p.knownAt(t.S[g[2]:g[3]], placeIn(t, g[2]), "a text shows")
	}
}

// formula gives a nil Expr and no kind where it was not given or is wrong.
func (p *parser) formula(t read.Text) (*formula.Expr, formula.Kind) {
	if t.S == "" {
		return nil, ""
	}
	e, err := formula.Parse(t.S)
	if err != nil {
		p.list.Add(placeOf(t, err.Col), "formula", err.Text, err.Help...)
		return nil, ""
	}
	kind, errs := e.Check(p.kinds)
	for _, err := range errs {
		p.list.Add(placeOf(t, err.Col), "formula", err.Text, err.Help...)
	}
	if len(errs) > 0 {
		return nil, ""
	}
	return e, kind
}

func placeOf(t read.Text, col int) finding.Place {
	if t.Inside < 0 {
		return t.At
	}
	return t.Place(col)
}

// condition gives nil for none.
func (p *parser) condition(t read.Text) *formula.Expr {
	e, kind := p.formula(t)
	if kind != "" && kind != formula.Truth {
		p.list.Add(t.At, "formula", fmt.Sprintf("the condition is %s, and something true or false was expected", kind.Says()), "compare it with something: slope > 0*percent")
		return nil
	}
	return e
}

// drawing finds the figure's drawing, and holds what it moves by against the
// figure's inputs and values. The drawing is a part of the program; findings stand
// at what the file lacks for it.
func (p *parser) drawing(m *read.Map) {
	live, ok := drawing.FindLive(p.ID)
	if !ok {
		p.list.Add(finding.Place{File: p.File}, "figure-drawing", fmt.Sprintf("there is no drawing for a figure %q, and each figure has one of its own name", p.ID), "name the file after one of the workbench's figures, as those of content/en/figures are named")
		return
	}
	p.Drawing = live
	if len(p.Inputs) == 0 {
		return // that was reported, and nothing can be moved without
	}
	moved := &parser{p.Figure, &finding.List{}}
	for _, move := range live.Moves {
		if move.Attr == "display" {
			p.moves = append(p.moves, []any{moved.condition(read.Text{S: move.Is})})
		} else {
			p.moves = append(p.moves, moved.pieces(move.Is))
		}
	}
	for _, h := range live.Handles {
		if in := p.Input(h.Input); in == nil || len(in.Choices) > 0 {
			moved.list.Add(finding.Place{}, "figure-drawing", fmt.Sprintf("the handle sets the amount %q, and no input of that id takes one", h.Input))
		}
	}
	said := map[string]bool{}
	for _, w := range moved.list.Sorted() {
		if text := w.Text; !said[text] {
			said[text] = true
			p.list.Add(m.Key("values"), "figure-drawing", "the drawing of this figure cannot be moved: "+text, "keep the inputs and values by which the drawing moves, each with its kind of amount")
		}
	}
}

// pieces cuts a move's text into literal text and formulas that give plain numbers.
func (p *parser) pieces(is string) []any {
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
		e, kind := p.formula(read.Text{S: src})
		if kind != formula.Number && kind != "" {
			p.list.Add(finding.Place{}, "figure-drawing", fmt.Sprintf("%q is %s and no plain number", src, kind.Says()))
		}
		out = append(out, e)
		is = after
	}
	return out
}
