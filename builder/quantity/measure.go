package quantity

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Measure says which amounts a question takes. [NewMeasure] makes it; From, To
// and Step are in the canonical unit of Unit's kind.
//
// An answer is rounded to the nearest whole multiple of Step, ties away from
// zero. So a measure has finitely many answers, and a proof can try them all.
type Measure struct {
	Unit   string   `json:"unit"`   // code; a bare number counts in it, if no other unit is accepted
	Accept []string `json:"accept"` // codes, Unit first
	From   float64  `json:"from"`   // a multiple of Step
	To     float64  `json:"to"`     // a multiple of Step, more than From
	Step   float64  `json:"step"`
}

// Most is the largest limit of a measure, in canonical units: a kilometer, or a
// thousand tonnes. Up to there every answer is exact to a billionth.
const Most = 1e6

// NewMeasure checks and converts what an author writes: from, to and step are in
// unit, names are codes or spellings. Errors are for authors.
func NewMeasure(name string, accept []string, from, to, step float64) (Measure, error) {
	u, ok := Lookup(name)
	switch {
	case !ok:
		return Measure{}, noUnit(name)
	case u.Code == Ratio:
		return Measure{}, fmt.Errorf(`a measure cannot count in "1:n", for its steps are not even; use "%%" as its unit, and accept "1:n"`)
	case !(step > 0) || !(from < to): // written so that NaN fails too
		return Measure{}, fmt.Errorf("a measure needs from below to, and a step above 0; found from %v, to %v, step %v", from, to, step)
	}
	m := Measure{Unit: u.Code, Accept: []string{u.Code}, From: clean(u.Canonical(from)), To: clean(u.Canonical(to)), Step: u.Canonical(step)}
	for _, name := range accept {
		other, ok := Lookup(name)
		if !ok {
			return Measure{}, noUnit(name)
		}
		if !fits(other.Kind, u.Kind) {
			return Measure{}, fmt.Errorf("a measure in %s cannot accept %q, which is %s", english().Names[u.Code], name, english().Kinds[other.Kind])
		}
		if !m.takes(other.Code) {
			m.Accept = append(m.Accept, other.Code)
		}
	}
	if math.Abs(m.From) > Most || math.Abs(m.To) > Most || (m.To-m.From)/m.Step > Most {
		return Measure{}, fmt.Errorf("the limits %v and %v %s are too far out, or the step %v is too small", from, to, english().Names[u.Code], step)
	}
	if !even(m.From/m.Step) || !even(m.To/m.Step) {
		return Measure{}, fmt.Errorf("from %v and to %v must be whole multiples of the step %v", from, to, step)
	}
	if u.Kind == Angle && slices.ContainsFunc(m.Accept, isSlope) && math.Max(math.Abs(m.From), math.Abs(m.To)) >= 90 {
		return Measure{}, fmt.Errorf("an angle of 90 degrees or more is no slope; found from %v, to %v", from, to)
	}
	return m, nil
}

func isSlope(code string) bool { return unit(code).Kind == Slope }

func noUnit(name string) error {
	var all []string
	for _, u := range units {
		if len(u.Spell) > 0 {
			all = append(all, u.Spell[0])
		}
	}
	return fmt.Errorf(`there is no unit %q; the units are %s, "1:n", and "1" for a count`, name, strings.Join(all, ", "))
}

// Kind is the kind of the measure's own unit.
func (m Measure) Kind() Kind { return unit(m.Unit).Kind }

func (m Measure) takes(code string) bool { return slices.Contains(m.Accept, code) }

// Answers is how many different answers the measure has.
func (m Measure) Answers() int { return int(nearest((m.To-m.From)/m.Step)) + 1 }

// At is the i-th answer from below, counted from 0, in canonical units.
func (m Measure) At(i int) float64 {
	return clean(float64(nearest(m.From/m.Step)+float64(i)) * m.Step)
}

// Index is the number of the answer nearest to an amount in canonical units, as
// At counts. An amount outside the limits has the number of the nearer end.
func (m Measure) Index(canonical float64) int {
	i := int(nearest(canonical/m.Step) - nearest(m.From/m.Step))
	return min(max(i, 0), m.Answers()-1)
}

// Typed is the i-th answer as a person could type it, in the measure's own unit.
// Six decimals, for a percentage is a hundred times a number of nine good ones.
func (m Measure) Typed(i int) string {
	u := unit(m.Unit)
	text := Decimals(u.From(m.At(i)), 6)
	if len(u.Spell) == 0 {
		return text
	}
	return text + " " + u.Spell[0]
}

// Read reads what a person typed, checks the limits and rounds to the step. The
// error is an *Error.
func Read(text string, m Measure) (Value, error) { return english().Read(text, m) }

// Read is as the function Read, and says why in the language. It reads what any language
// reads, which is how amounts are kept.
func (t *Tables) Read(text string, m Measure) (Value, error) { return t.read(text, m, nil) }

// Typed is Read for what is written on a page in the language: with its own names of units, its
// digits and its sign before the parts of a whole.
func (t *Tables) Typed(text string, m Measure) (Value, error) { return t.read(text, m, t.Own) }

func (t *Tables) read(text string, m Measure, own *Own) (Value, error) {
	v, err := t.parse(text, m, own)
	if err != nil {
		return Value{}, err
	}
	u := unit(v.Unit)
	k := nearest(v.Num / m.Step)
	switch {
	case v.Num < 0 && m.From >= 0:
		return Value{}, t.refuse(m, "negative", u)
	case k < nearest(m.From/m.Step) || k > nearest(m.To/m.Step):
		return Value{}, t.refuse(m, "range", u)
	case v.Kind == Count && even(m.Step) && !even(v.Num):
		return Value{}, t.refuse(m, "whole", u)
	}
	given := v.Num
	v.Num = clean(k * m.Step)
	v.Rest = given - v.Num
	return v, nil
}

// nearest rounds to a whole number, ties away from zero. Within a billionth of a
// tie is a tie, so that 0.15 in steps of 0.1 does not hang on binary digits.
func nearest(x float64) float64 {
	k := math.Floor(math.Abs(x) + 0.5 + tiny)
	if x < 0 && k != 0 {
		return -k
	}
	return k
}

const tiny = 1e-9

func even(x float64) bool { return math.Abs(x-nearest(x)) <= 1e-6 }

// clean takes away what binary arithmetic added: 3 times 0.1 becomes 0.3. It
// rounds to a billionth.
func clean(x float64) float64 { return nearest(float64(x*1e9)) / 1e9 }

// refuse fills the sentence of code. Limits and example are in u where they can
// be said in it, else in the measure's own unit.
func (t *Tables) refuse(m Measure, code string, u Unit, gaps ...string) *Error {
	all := append(t.hint(m, u), "units", t.list(m))
	return &Error{Code: code, Text: t.fill(code, append(all, gaps...)...)}
}

// ask refuses a number without a unit, and offers the same number with each
// unit in which the measure takes it. Where there is none, the number lies
// outside in all of them, and that is said.
func (t *Tables) ask(text string, m Measure, own *Own) *Error {
	var out *Error
	var choices []string
	for _, code := range m.Accept {
		number := scanner{own}.tidy(text)
		choice := t.sign(unit(code), number, number)
		_, err := t.read(choice, m, own)
		if err == nil {
			choices = append(choices, choice)
		} else if out == nil {
			out = err.(*Error)
		}
	}
	if len(choices) > 0 {
		out = t.refuse(m, "bare", unit(m.Unit), "choices", t.either(choices))
		out.Choices = choices
	}
	return out
}

// tidy gives a text in usual characters, with single blanks.
func (c scanner) tidy(text string) string {
	return strings.Join(strings.Fields(string(c.fold(text))), " ")
}

// with writes u behind a number, as a person types it.
func (u Unit) with(number string) string {
	switch {
	case u.Code == Ratio:
		return "1:" + number
	case u.One != "" && (number == "1" || number == "-1"):
		return number + " " + u.One
	case u.Mark != "":
		return number + " " + u.Mark
	}
	return number
}

// list names the accepted units: "mm, cm or inches".
func (t *Tables) list(m Measure) string {
	var names []string
	for _, code := range m.Accept {
		names = append(names, t.Names[code])
	}
	return t.either(names)
}

// hint words the limits and an example in u, as gaps to fill. The limits are
// rounded inward to what is shown, so a reader who types them is let in.
func (t *Tables) hint(m Measure, u Unit) []string {
	own := unit(m.Unit)
	in := func(c float64, k Kind) float64 { return across(c, own.Kind, k) }
	if u.Code == Ratio {
		if gaps := t.hintRatio(u, in(m.From, Slope), in(m.To, Slope)); gaps != nil {
			return gaps
		}
		u = own
	}
	step := m.stepOf(u)
	lo, hi := u.rounded(in(m.From, u.Kind), step, up), u.rounded(in(m.To, u.Kind), step, down)
	if lo > hi { // no amount of u is inside
		return t.hint(m, own)
	}
	like := u.rounded(in(m.From+(m.To-m.From)/3, u.Kind), easy(hi-lo, step), near)
	if like < lo || like > hi {
		like = hi
	}
	from := t.Number(u.number(lo, step))
	if u.Bare {
		from = t.write(u, lo, step)
	}
	return []string{"what", t.Says["a-number"], "from", from, "to", t.write(u, hi, step), "like", t.write(u, like, step)}
}

// hintRatio is hint for slopes said as 1:n. It is nil where that cannot say them.
func (t *Tables) hintRatio(u Unit, from, to float64) []string {
	if !sayable(to) || from > 0 && !sayable(from) {
		return nil
	}
	steepest, flattest, flat := u.rounded(to, u.Step, down), math.Inf(1), t.Says["flat"]
	if from > 0 {
		flattest = u.rounded(from, u.Step, up)
		flat = t.write(u, flattest, u.Step)
	}
	if steepest > flattest {
		return nil
	}
	like := math.Max(math.Min(nearest(1/(from+(to-from)/3)), flattest), steepest)
	return []string{"what", t.Says["a-slope"], "from", flat, "to", t.write(u, steepest, u.Step), "like", t.write(u, like, u.Step)}
}

// easy is the largest easy number that is a multiple of step and gives about ten
// examples to choose from over wide.
func easy(wide, step float64) float64 {
	out := step
	for _, s := range []float64{0.25, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000} {
		if s <= wide/10 && s >= step && even(s/step) {
			out = s
		}
	}
	return out
}
