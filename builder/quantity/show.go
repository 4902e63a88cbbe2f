package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Show words a value for a reader: as the reader wrote it, then in the other
// system, made from the amount that was written and rounded, ties away from zero.
// "38 mm (1 1/2 in)", "5 ft 10 in (178 cm)", "14 % (about 8 degrees, 1:7.1)".
// What rounds to 0 in the other system is left out there. A number that is none,
// or beyond all sense, gives no words.
func Show(v Value) string { return english().Show(Measure{}, v) }

// Show is as the function Show. An amount that nobody wrote, as one of a slider,
// is shown in the measure's own unit to no other than the measure's step.
func (m Measure) Show(v Value) string { return english().Show(m, v) }

// Back reads an amount back to whoever wrote it: "3.5 in is 88.9 mm", "35 mm is
// about 1 3/8 in", "1:12 is about 8.3 %, 4.8 degrees".
func (m Measure) Back(v Value) string { return english().Back(m, v) }

// Back is as the measure's, in the language.
func (t *Tables) Back(m Measure, v Value) string {
	w := t.words(m, v)
	switch {
	case w.flat:
		return t.fill("is-flat", "amount", w.first)
	case len(w.others) == 0:
		return w.first
	case w.exact:
		return t.fill("is", "amount", w.first, "others", t.next(w.others))
	}
	return t.fill("is-about", "amount", w.first, "others", t.next(w.others))
}

// tall is the length, in mm, from which the other system uses its longer unit.
const tall = 1000

// Show is as the measure's, in the language. An empty measure is none.
func (t *Tables) Show(m Measure, v Value) string {
	w := t.words(m, v)
	switch {
	case w.flat:
		return t.fill("also-flat", "amount", w.first)
	case len(w.others) == 0:
		return w.first
	case fits(v.Kind, Slope):
		return t.fill("also-about", "amount", w.first, "others", t.next(w.others))
	}
	return t.fill("also", "amount", w.first, "others", t.next(w.others))
}

// Alone is Show without what the amount also is.
func (t *Tables) Alone(m Measure, v Value) string { return t.words(m, v).first }

// worded is an amount in words: as it was given, and what that also is.
type worded struct {
	first  string
	others []string
	exact  bool // others are not rounded
	flat   bool
}

func (t *Tables) words(m Measure, v Value) worded {
	switch {
	case !(math.Abs(v.Num) <= 1000*Most): // written so that NaN is caught too
		return worded{}
	case fits(v.Kind, Slope):
		return t.slope(m, v)
	}
	u := unit(v.Unit)
	out := worded{first: t.first(m, v, u), exact: true}
	code := u.Pair
	if u.Big != "" && math.Abs(v.Num) >= tall {
		code = u.Big
	}
	if code != "" {
		t.add(&out, v.Exact(), unit(code), m.pairStep(v, unit(code)))
	}
	return out
}

// first words an amount in u: as it was written, where somebody wrote it.
func (t *Tables) first(m Measure, v Value, u Unit) string {
	if v.Said != "" {
		return t.said(v.Said, u)
	}
	step := m.stepOf(u)
	return t.write(u, u.rounded(across(v.Exact(), v.Kind, u.Kind), step, near), step)
}

// add words c, a canonical amount of u's kind, unless it would be said as nothing.
func (t *Tables) add(w *worded, c float64, u Unit, step float64) {
	x := u.rounded(c, step, near)
	if x == 0 && c != 0 && u.Kind != Angle && u.Kind != Slope {
		return
	}
	w.others = append(w.others, t.write(u, x, step))
	w.exact = w.exact && math.Abs(u.counter().From(c)-x) < tiny
}

// pairStep is the step of an amount in brackets. Of one that was written, the
// measure's step tells nothing.
func (m Measure) pairStep(v Value, pair Unit) float64 {
	own := v.Said == "" && m.takesStep(pair)
	switch {
	case pair.Round != 0 && !(own && pair.Code == m.Unit):
		return pair.Round
	case own:
		return m.stepOf(pair)
	}
	return pair.Step
}

// slope words a slope or an angle. An angle in degrees stands alone; behind any
// other stands what it also is.
func (t *Tables) slope(m Measure, v Value) worded {
	u, slope := unit(v.Unit), across(v.Exact(), v.Kind, Slope)
	switch {
	case v.Said != "":
	case math.IsInf(slope, 0):
		u = unit("deg")
	case u.Code == Ratio && !sayable(slope):
		u = unit("%")
	}
	out := worded{first: t.first(m, v, u), flat: v.Kind == Slope && v.Exact() == 0, exact: true}
	for _, code := range []string{"%", "deg", Ratio} {
		if code == u.Code || v.Kind == Angle && code != "deg" || code == Ratio && !sayable(slope) {
			continue
		}
		o := unit(code)
		t.add(&out, across(v.Exact(), v.Kind, o.Kind), o, m.pairStep(v, o))
	}
	return out
}

// sayable says whether a slope can be worded as 1:n: not flat, not downward,
// not steeper than 1 in 1.
func sayable(slope float64) bool { return slope <= 1+tiny && slope >= 0.001-tiny }

// stepOf is the step to which u is shown, in what u's display counts. Where that
// is the measure's own unit, it is the measure's own step.
func (m Measure) stepOf(u Unit) float64 {
	if m.takesStep(u) {
		return clean(u.counter().From(m.Step))
	}
	return u.Step
}

// takesStep says whether u is shown in the measure's own unit.
func (m Measure) takesStep(u Unit) bool { return u.Code == m.Unit || u.counter().Code == m.Unit }

// counter is the unit that u's display counts: inches for feet and inches.
func (u Unit) counter() Unit {
	if u.Bare {
		return unit(u.Sub)
	}
	return u
}

// Which way an amount is rounded.
const (
	down = -1
	near = 0
	up   = 1
)

// rounded gives c, in the canonical unit of u's kind, as u's display counts it:
// a multiple of step. Up and down are said of c; the n of 1:n goes the other
// way.
func (u Unit) rounded(c, step float64, way int) float64 {
	x := u.counter().From(c)
	if u.Code == Ratio {
		way = -way
	}
	k := nearest(x / step)
	switch way {
	case down:
		k = math.Floor(x/step + tiny)
	case up:
		k = math.Ceil(x/step - tiny)
	}
	return clean(k*step) + 0
}

// write words x, which rounded gave: "1 1/2 in", "5 ft 10 in", "1:12".
func (t *Tables) write(u Unit, x, step float64) string {
	if u.Code == Ratio {
		return t.With(u, format(x, u.Step))
	}
	if u.Bare {
		return t.double(u, x, step)
	}
	return t.With(u, u.number(x, step))
}

// double words x, counted in Sub, as an amount of two units.
func (t *Tables) double(u Unit, x, step float64) string {
	sub, per := unit(u.Sub), float64(u.Per)
	whole := math.Floor(math.Abs(x)/per + tiny)
	rest := clean(math.Abs(x) - float64(whole*per))
	var words []string
	if whole > 0 {
		words = append(words, t.With(u, format(whole, 1)))
	}
	if rest > 0 || whole == 0 {
		words = append(words, t.write(sub, rest, step))
	}
	return signed(x, strings.Join(words, " "))
}

// number words x, a multiple of step, without its unit.
func (u Unit) number(x, step float64) string {
	if u.Parts {
		if d := parts(step); d > 0 {
			return mixed(x, d)
		}
	}
	return format(x, step)
}

// parts is the least number of parts of 1 that step is a multiple of: 8 for
// 0.125. It is 0 where there is none up to 64.
func parts(step float64) float64 {
	for d := 1.0; d <= 64; d++ {
		if even(step * d) {
			return d
		}
	}
	return 0
}

// mixed writes x in parts of 1/d: "1 1/2".
func mixed(x, d float64) string {
	n := nearest(math.Abs(x) * d)
	whole, above := math.Floor(n/d), math.Mod(n, d)
	var words []string
	if whole > 0 || above == 0 {
		words = append(words, format(whole, 1))
	}
	if above > 0 {
		by := common(above, d)
		words = append(words, format(above/by, 1)+"/"+format(d/by, 1))
	}
	return signed(x, strings.Join(words, " "))
}

// common is the greatest number that divides both.
func common(a, b float64) float64 {
	for b != 0 {
		a, b = b, math.Mod(a, b)
	}
	return a
}

func signed(x float64, text string) string {
	if x < 0 {
		return "-" + text
	}
	return text
}

// Plain words a number without a unit, to the nearest multiple of step.
func (t *Tables) Plain(x, step float64) string {
	return t.Number(format(clean(nearest(x/step)*step)+0, step))
}

// format writes x, a multiple of step, with as many decimals as step has, and
// none that is needless.
func format(x, step float64) string {
	places := 0
	for scale := 1.0; places < 9 && math.Abs(step*scale-nearest(step*scale)) > tiny*scale; scale *= 10 {
		places++
	}
	return Decimals(x, places)
}

// Decimals writes x with at most that many decimals, and none that is needless.
func Decimals(x float64, places int) string {
	text := strconv.FormatFloat(x, 'f', places, 64)
	if places > 0 {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}
