package say

import (
	"regexp"
	"strconv"
	"strings"
	"sync"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
)

// Raw gives a text as its file has it, gaps in braces, by plural forms; one that has none is under Other alone. It is
// for what is filled elsewhere. A name that is not there is a fault of the program, and Raw panics.
func (w *Words) Raw(name Name) map[Form]string {
	e := w.entries[name]
	if e == nil {
		panic("the words of " + strconv.Quote(w.Lang) + " have no " + strconv.Quote(string(name)))
	}
	out := map[Form]string{}
	for f, t := range e.forms {
		out[f] = t.String()
	}
	return out
}

// Made gives what another package makes of the words, which is made once for each key.
func (w *Words) Made(key string, make func() any) any { return w.made(key, make) }

// maker is a function, so that what was made is no part of what the words say.
func maker() func(key string, make func() any) any {
	var all sync.Map
	return func(key string, make func() any) any {
		one, _ := all.LoadOrStore(key, sync.OnceValue(make))
		return one.(func() any)()
	}
}

// decimal is a number that has a plural form. Longer ones are amounts of nothing.
var decimal = regexp.MustCompile(`^-?[0-9]{1,9}(\.[0-9]{1,9})?$`)

// FormOfText gives the form that goes with a number as it is written, "-1.50": what is shown counts, so in
// English it is "1 degree" and "1.0 degrees". What is no such number, as a fraction, has the form Other.
func FormOfText(lang, number string) Form {
	if !decimal.MatchString(number) {
		return Other
	}
	whole, part, _ := strings.Cut(strings.TrimPrefix(number, "-"), ".")
	n, _ := strconv.Atoi(whole)
	if part == "" {
		return FormOf(language.Make(lang), n)
	}
	f, _ := strconv.Atoi(part)
	short := strings.TrimRight(part, "0")
	t, _ := strconv.Atoi("0" + short)
	return formOf[plural.Cardinal.MatchPlural(language.Make(lang), n, len(part), len(short), f, t)]
}
