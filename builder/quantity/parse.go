package quantity

import "strings"

// Value is an amount and the unit in which it is shown first.
type Value struct {
	Kind Kind    `json:"kind"`
	Num  float64 `json:"value"` // in the canonical unit of Kind
	Unit string  `json:"unit"`  // a unit's code; what the reader used

	// Rest is what rounding to the measure's step took away: the reader wrote
	// Num + Rest. Ways are decided by Num alone; what is shown, and what is worked
	// out to be shown, comes from [Value.Exact].
	Rest float64 `json:"rest,omitempty"`

	// Said is how the reader wrote it, in usual characters: "3 1/2 in", "1:12".
	// Empty for an amount that nobody wrote.
	Said string `json:"said,omitempty"`
}

// Exact is the amount as it was given, before any rounding to a step.
func (v Value) Exact() float64 { return v.Num + v.Rest }

// Error says why an answer was not taken. Code is for programs, Text for the
// reader; the page says the same words.
type Error struct {
	Code string `json:"code"`
	Text string `json:"text"`

	// Choices are the answers that a number without a unit may stand for, each
	// with its unit. They come with the code "bare" alone.
	Choices []string `json:"choices,omitempty"`
}

func (e *Error) Error() string { return e.Text }

// parse reads what a person typed as an answer to m, without looking at m's
// limits and step. A bare number is only taken where m accepts one unit alone;
// else the error asks for the unit. The error is an *Error. Own is nil for what is
// written as amounts are kept.
func (t *Tables) parse(text string, m Measure, own *Own) (Value, error) {
	p := parser{t: t, m: m, scanner: scanner{own}}
	p.toks, p.code = p.scan(text)
	p.read()
	if p.code == "bare" {
		return Value{}, t.ask(text, m, own)
	}
	if p.code != "" {
		return Value{}, t.refuse(m, p.code, unit(m.Unit), p.gaps...)
	}
	kind := m.Kind()
	c := across(p.num, p.unit.Kind, kind)
	if p.minus {
		c, p.said = -c, "-"+p.said
	}
	if c == 0 {
		c, p.said = 0, strings.TrimPrefix(p.said, "-") // a plain 0 of -0
	}
	return Value{Kind: kind, Num: c, Unit: p.unit.Code, Said: p.said}, nil
}

// parser walks over the tokens of one answer. It stops at the first code.
type parser struct {
	scanner
	t    *Tables
	m    Measure
	toks []token
	at   int

	minus bool
	num   float64 // canonical, of unit's kind
	unit  Unit
	said  string // without the sign

	code string
	gaps []string // for the sentence of code: name, words, name, words ...
}

// part is one number and its unit: "5 1/2 ft". A bare number has no unit.
type part struct {
	num   float64
	text  string
	whole bool
	below bool // only a fraction
	unit  Unit
}

func (p *parser) fail(code string, gaps ...string) {
	if p.code == "" {
		p.code, p.gaps = code, gaps
	}
}

// peek gives the token n places ahead, with no kind past the end.
func (p *parser) peek(n int) token {
	if p.at+n < len(p.toks) {
		return p.toks[p.at+n]
	}
	return token{}
}

// read takes the whole answer.
func (p *parser) read() {
	if p.code != "" {
		return
	}
	if len(p.toks) == 0 {
		p.fail("empty")
		return
	}
	if !hasNumber(p.toks) {
		p.fail("number")
		return
	}
	if w := p.peek(0).word; w == "-" || w == "+" {
		p.minus = w == "-"
		p.at++
	}
	if p.ratio() {
		return
	}
	first := p.part()
	if p.code != "" || p.at == len(p.toks) {
		p.single(first)
		return
	}
	p.separator(first)
	second := p.part()
	if p.code == "" && p.at < len(p.toks) {
		p.stray()
	}
	p.double(first, second)
}

func hasNumber(toks []token) bool {
	for _, t := range toks {
		if t.kind != 'w' {
			return true
		}
	}
	return false
}

// ratio takes "1:12", "1 to 12" and "1 in 12". It says whether it was its turn.
func (p *parser) ratio() bool {
	slope := fits(Slope, p.m.Kind())
	by := p.peek(1).word
	if p.peek(0).kind != 'n' || p.peek(2).kind != 'n' || by != ":" && !(slope && (by == "to" || by == "in")) {
		return false
	}
	p.unit = unit(Ratio)
	p.allowed()
	p.num, p.said = p.unit.Canonical(p.peek(2).num), p.unit.with(p.peek(2).text)
	if p.peek(0).num != 1 || p.peek(2).num == 0 || len(p.toks) != p.at+3 {
		p.fail("ratio")
	}
	return true
}

// part takes one amount and the unit behind it, if there is one.
func (p *parser) part() part {
	out := p.amount()
	n := 0
	if p.peek(0).word == "-" && p.peek(0).near && p.peek(1).near { // "12-inch"
		n = 1
	}
	for _, long := range []int{2, 1} { // "per cent" before "per"
		word := p.peek(n).word
		if long == 2 {
			word += " " + p.peek(n+1).word
		}
		if u, ok := p.spelled(word); ok {
			p.at += n + long
			out.unit = u
			return out
		}
	}
	return out
}

// amount takes "38", "1.5", "3/8", "1 3/8", "1-3/8" and "1 and 3/8".
func (p *parser) amount() part {
	t := p.peek(0)
	if t.kind == 'n' || t.kind == 'f' {
		p.at++
	} else {
		p.stray()
	}
	out := part{num: t.num, text: t.text, whole: t.whole, below: t.kind == 'f'}
	n := 0
	if w := p.peek(0); w.word == "-" && w.near && p.peek(1).near || w.word == "and" {
		n = 1
	}
	if f := p.peek(n); f.kind == 'f' && t.kind == 'n' {
		if !t.whole {
			p.fail("fraction")
		}
		p.at += n + 1
		out.num += f.num
		out.text += " " + f.text
		out.whole = false
	}
	return out
}

// separator takes what may stand between feet and inches: "5 ft, 10 in",
// "5'-10", "5 feet and 10 inches".
func (p *parser) separator(first part) {
	w := p.peek(0).word
	if first.unit.Code != "" && (w == "," || w == "-" || w == "and") && p.peek(1).kind != 0 {
		p.at++
	}
}

// stray says what is wrong with the token that nothing was waiting for.
func (p *parser) stray() {
	t, after := p.peek(0), p.peek(1)
	switch _, known := p.spelled(t.word); {
	case t.kind == 'n' || t.kind == 'f' || (t.word == "-" || t.word == "and") && after.kind != 'w' && after.kind != 0:
		p.fail("several")
	case t.word == "/":
		p.fail("fraction")
	case t.word == ":" && fits(Slope, p.m.Kind()):
		p.fail("ratio")
	case known:
		p.fail("mixed")
	default:
		p.fail("word")
	}
}

// single takes an answer of one part.
func (p *parser) single(one part) {
	bare := one.unit.Code == ""
	if p.unit = one.unit; bare {
		p.unit = unit(p.m.Unit)
	}
	p.num, p.said = p.unit.Canonical(one.num), p.unit.with(one.text)
	p.allowed()
	switch {
	case bare && one.below && fits(Slope, p.unit.Kind): // "1/12" is more likely 1:12 than a part of a percent
		p.fail("ratio")
	case bare && len(p.m.Accept) > 1:
		p.fail("bare")
	}
}

// double takes an answer of two parts: "5 ft 10", "12 st 4 lb".
func (p *parser) double(major, minor part) {
	if p.code != "" {
		return
	}
	u := major.unit
	bare := minor.unit.Code == ""
	switch {
	case u.Code == "" || bare && !u.Bare || minor.unit.Code == u.Code:
		p.fail("several")
		return
	case !bare && minor.unit.Code != u.Sub || !major.whole:
		p.fail("mixed")
		return
	}
	p.unit = u
	p.allowed()
	per, sub := float64(u.Per), unit(u.Sub)
	if minor.num >= per {
		p.fail("parts", "few", p.t.Number(format(per, 1)), "sub", p.t.Names[sub.Code], "major", p.t.Names[u.Code])
	}
	p.num = sub.Canonical(float64(major.num*per) + minor.num) // float64 keeps every machine from fusing the two
	p.said = u.with(major.text) + " " + sub.with(minor.text)
}

// allowed checks that the measure takes the unit.
func (p *parser) allowed() {
	if kind := p.m.Kind(); !fits(p.unit.Kind, kind) {
		p.fail("kind", "given", p.t.Kinds[p.unit.Kind], "needed", p.t.Kinds[kind])
	} else if !p.m.takes(p.unit.Code) {
		p.fail("unit")
	}
}
