// Package quantity reads and shows lengths, masses, angles, slopes and counts
// as people write them: "1 1/2 in", "3,5 cm", "5 ft 10", "1:12", "14%". It never
// guesses: what can be read in two ways is refused with a kind sentence, and so
// is a number without a unit where there is more than one to mean.
//
// Amounts are kept in one canonical unit a kind: millimeters, kilograms,
// degrees, rise over run (0.14 is 14 %), and plain counts. One table drives both
// this package and site/client/sums/quantity.ts, so that the page reads and says the
// same as the build; see [Table].
package quantity

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"
)

// Kind says what an amount measures.
type Kind string

// The kinds. Slope and Angle can stand for each other; no other two can.
const (
	Length Kind = "length" // in mm
	Mass   Kind = "mass"   // in kg
	Angle  Kind = "angle"  // in degrees
	Slope  Kind = "slope"  // rise over run
	Count  Kind = "count"  // whole things
)

// Ratio is the code of the slope form 1:n. It is our own: UCUM has no such
// unit, so a slope that leaves the page is sent in %.
const Ratio = "1:n"

// Unit is a row of the table. All codes but [Ratio] are UCUM codes.
type Unit struct {
	Code   string `json:"code"`
	Kind   Kind   `json:"kind"`
	System string `json:"system,omitempty"` // metric, us or uk; empty where all share it

	// One unit is exactly Num/Den canonical units. For Ratio the amount is the
	// n of 1:n, and the factor is not used.
	Num int64 `json:"num"`
	Den int64 `json:"den"`

	Spell []string `json:"spell,omitempty"` // lower case, most usual first
	Name  string   `json:"name,omitempty"`  // as in "Please use mm or inches here"
	Mark  string   `json:"mark,omitempty"`  // what stands behind a number where an amount is kept: [Value.Said]
	One   string   `json:"one,omitempty"`   // the same behind 1, where it differs

	Step  float64 `json:"step"`            // shown to multiples of this; where Bare, counted in Sub
	Round float64 `json:"round,omitempty"` // the same in brackets, where coarser
	Parts bool    `json:"parts,omitempty"` // shown as "1 1/2", not "1.5"
	Pair  string  `json:"pair,omitempty"`  // code of the unit shown in brackets
	Big   string  `json:"big,omitempty"`   // the same from one meter up

	Sub  string `json:"sub,omitempty"`  // code of the unit that may follow: 5 ft 10 in
	Per  int64  `json:"per,omitempty"`  // how many Sub make one
	Bare bool   `json:"bare,omitempty"` // a bare number after it counts in Sub, and it is shown so
}

// units holds every unit. Factors: UCUM essence file, version 2.2 of 2024-06-17
// (ucum-org/ucum): [in_i] = 2.54 cm, [ft_i] = 12 [in_i], [lb_av] = 7000 [gr]
// with [gr] = 64.79891 mg, deg = 2 [pi].rad/360, % = 10*-2. Stone and ounce were
// seen in that file's version 1.7: [stone_av] = 14 [lb_av], [oz_av] = [lb_av]/16.
// The display steps are a little finer than what a reader can measure at home, so
// that an amount in the other system is the same amount: common practice, no source.
var units = []Unit{
	{Code: "mm", Kind: Length, System: "metric", Num: 1, Den: 1, Mark: "mm",
		Spell: []string{"mm", "millimeter", "millimeters", "millimetre", "millimetres"},
		Step:  0.1, Pair: "[in_i]", Big: "[ft_i]"},
	{Code: "cm", Kind: Length, System: "metric", Num: 10, Den: 1, Mark: "cm",
		Spell: []string{"cm", "centimeter", "centimeters", "centimetre", "centimetres"},
		Step:  0.1, Round: 1, Pair: "[in_i]", Big: "[ft_i]"},
	{Code: "m", Kind: Length, System: "metric", Num: 1000, Den: 1, Mark: "m",
		Spell: []string{"m", "meter", "meters", "metre", "metres"},
		Step:  0.01, Pair: "[ft_i]", Sub: "cm", Per: 100},
	{Code: "[in_i]", Kind: Length, System: "us", Num: 254, Den: 10, Mark: "in",
		Spell: []string{"in", "inch", "inches", `"`},
		Step:  0.125, Parts: true, Pair: "mm", Big: "cm"},
	{Code: "[ft_i]", Kind: Length, System: "us", Num: 3048, Den: 10, Mark: "ft",
		Spell: []string{"ft", "foot", "feet", "'"},
		Step:  0.5, Pair: "cm", Sub: "[in_i]", Per: 12, Bare: true},

	{Code: "kg", Kind: Mass, System: "metric", Num: 1, Den: 1, Mark: "kg",
		Spell: []string{"kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"},
		Step:  0.1, Pair: "[lb_av]", Sub: "g", Per: 1000},
	{Code: "g", Kind: Mass, System: "metric", Num: 1, Den: 1000, Mark: "g",
		Spell: []string{"g", "gram", "grams", "gramme", "grammes"},
		Step:  10, Pair: "[oz_av]"},
	{Code: "[lb_av]", Kind: Mass, System: "us", Num: 45359237, Den: 100000000, Mark: "lb",
		Spell: []string{"lb", "lbs", "pound", "pounds"},
		Step:  1, Pair: "kg", Sub: "[oz_av]", Per: 16},
	{Code: "[oz_av]", Kind: Mass, System: "us", Num: 45359237, Den: 1600000000, Mark: "oz",
		Spell: []string{"oz", "ounce", "ounces"},
		Step:  0.5, Pair: "g"},
	{Code: "[stone_av]", Kind: Mass, System: "uk", Num: 635029318, Den: 100000000, Mark: "st",
		Spell: []string{"st", "stone", "stones"},
		Step:  1, Pair: "kg", Sub: "[lb_av]", Per: 14, Bare: true},

	{Code: "deg", Kind: Angle, Num: 1, Den: 1, Mark: "degrees", One: "degree",
		Spell: []string{"deg", "degree", "degrees", "degs", "°"},
		Step:  0.1},
	{Code: "%", Kind: Slope, Num: 1, Den: 100, Mark: "%",
		Spell: []string{"%", "percent", "per cent", "pct"},
		Step:  0.1},
	{Code: Ratio, Kind: Slope, Num: 1, Den: 1, Step: 0.1},
	{Code: "1", Kind: Count, Num: 1, Den: 1, Step: 1},
}

// Lookup finds a unit by its code or by any of its spellings.
func Lookup(name string) (Unit, bool) {
	for _, u := range units {
		if u.Code == name {
			return u, true
		}
	}
	return spelled(strings.ToLower(name))
}

// spelled is spelled for what the language itself calls a unit, too.
func (c scanner) spelled(word string) (Unit, bool) {
	if u, ok := spelled(word); ok || c.own == nil {
		return u, ok
	}
	code, ok := c.own.Spell[word]
	if !ok {
		return Unit{}, false
	}
	return unit(code), true
}

func spelled(word string) (Unit, bool) {
	for _, u := range units {
		if slices.Contains(u.Spell, word) {
			return u, true
		}
	}
	return Unit{}, false
}

// unit finds a code that the program itself wrote; any other is a bug.
func unit(code string) Unit {
	for _, u := range units {
		if u.Code == code {
			return u
		}
	}
	panic(fmt.Sprintf("quantity: no unit has the code %q", code))
}

// Exact is the factor to the canonical unit of u's kind. It is not for [Ratio].
func (u Unit) Exact() *big.Rat { return big.NewRat(u.Num, u.Den) }

// Canonical turns x of u into the canonical unit of u's kind. 1:0 gives infinity.
func (u Unit) Canonical(x float64) float64 {
	if u.Code == Ratio {
		return 1 / x
	}
	return x * float64(u.Num) / float64(u.Den)
}

// From turns c, in the canonical unit of u's kind, into u. It is Canonical's
// inverse; a flat slope as 1:n gives infinity.
func (u Unit) From(c float64) float64 {
	if u.Code == Ratio {
		return 1 / c
	}
	return c * float64(u.Den) / float64(u.Num)
}

// Degrees is the angle of a slope given as rise over run: atan.
func Degrees(slope float64) float64 { return math.Atan(slope) * (180 / math.Pi) }

// Rise is the slope, as rise over run, of an angle in degrees: tan. From 90
// degrees up, which no ground has, it is infinite.
func Rise(degrees float64) float64 {
	if math.Abs(degrees) >= 90 {
		return math.Copysign(math.Inf(1), degrees)
	}
	return math.Tan(degrees * (math.Pi / 180))
}

// across takes a canonical amount from one kind to another that it fits.
func across(c float64, from, to Kind) float64 {
	switch {
	case from == Slope && to == Angle:
		return Degrees(c)
	case from == Angle && to == Slope:
		return Rise(c)
	}
	return c
}

// fits says whether an amount of kind a can answer a question of kind b.
func fits(a, b Kind) bool {
	return a == b || a == Slope && b == Angle || a == Angle && b == Slope
}

// Convert turns x of one unit into another. Units are codes or spellings.
func Convert(x float64, from, to string) (float64, error) {
	f, ok := Lookup(from)
	if !ok {
		return 0, fmt.Errorf("there is no unit %q", from)
	}
	t, ok := Lookup(to)
	if !ok {
		return 0, fmt.Errorf("there is no unit %q", to)
	}
	if !fits(f.Kind, t.Kind) {
		return 0, fmt.Errorf("%s measures %s, and %s measures %s", from, english().Kinds[f.Kind], to, english().Kinds[t.Kind])
	}
	return t.From(across(f.Canonical(x), f.Kind, t.Kind)), nil
}
