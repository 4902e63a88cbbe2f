package say

import (
	"slices"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
)

// Form is one of the forms that a language's words take by a number, as CLDR names them.
type Form string

const (
	Zero  Form = "zero"
	One   Form = "one"
	Two   Form = "two"
	Few   Form = "few"
	Many  Form = "many"
	Other Form = "other" // every language has it
)

// Forms are all, in CLDR's order.
var Forms = []Form{Zero, One, Two, Few, Many, Other}

var formOf = map[plural.Form]Form{
	plural.Zero: Zero, plural.One: One, plural.Two: Two, plural.Few: Few, plural.Many: Many, plural.Other: Other,
}

// millions are languages in which a whole number of millions has the form Many: "un millón
// de preguntas". The rules of golang.org/x/text are those of CLDR 32, which lacked it; these are of
// CLDR 48.
var millions = []string{"es"}

// FormOf gives the form that goes with a number that is not below 0.
func FormOf(tag language.Tag, n int) Form {
	base, _ := tag.Base()
	if n != 0 && n%1_000_000 == 0 && slices.Contains(millions, base.String()) {
		return Many
	}
	return formOf[plural.Cardinal.MatchPlural(tag, n, 0, 0, 0, 0)]
}

// formsOf gives the forms that whole numbers have in a language, in CLDR's order. A
// language that nobody knows has Other alone.
func formsOf(tag language.Tag) []Form {
	has := map[Form]bool{Other: true}
	for n := range 1000 {
		has[FormOf(tag, n)] = true
	}
	has[FormOf(tag, 1_000_000)] = true
	return slices.DeleteFunc(slices.Clone(Forms), func(f Form) bool { return !has[f] })
}
