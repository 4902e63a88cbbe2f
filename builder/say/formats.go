package say

import (
	"html/template"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/collate"
)

// The entries by which numbers, dates and lists are put together. Every language has them.
const (
	digits    Name = "formats.digits"     // the ten, from 0
	point     Name = "formats.point"      // before the parts of a whole
	group     Name = "formats.group"      // between thousands
	groupFrom Name = "formats.group-from" // how many digits a number has at least where they are grouped
	span      Name = "formats.span"       // from an amount to another
	dateAny   Name = "formats.date"
	dateUS    Name = "formats.date-us"
	middle    Name = "formats.list-middle"
	andTwo    Name = "formats.list-and-two"
	andLast   Name = "formats.list-and-last"
	orTwo     Name = "formats.list-or-two"
	orLast    Name = "formats.list-or-last"
	setApart  Name = "formats.list-apart"
)

// months are the names of the months as a date has them.
var months = []Name{
	"formats.month-1", "formats.month-2", "formats.month-3", "formats.month-4", "formats.month-5", "formats.month-6",
	"formats.month-7", "formats.month-8", "formats.month-9", "formats.month-10", "formats.month-11", "formats.month-12",
}

// Number writes a whole number.
func (w *Words) Number(n int) string { return w.Decimal(strconv.Itoa(n)) }

// Decimal writes a number that is given with a point and no groups, "-1234.5", as the language does.
func (w *Words) Decimal(number string) string {
	whole, part, broken := strings.Cut(strings.TrimPrefix(number, "-"), ".")
	out := w.grouped(whole)
	if broken {
		out += w.Say(point) + part
	}
	if strings.HasPrefix(number, "-") {
		out = "-" + out
	}
	return w.Digits(out)
}

// grouped puts marks between thousands, where a number is long enough.
func (w *Words) grouped(whole string) string {
	from, err := strconv.Atoi(w.Say(groupFrom))
	if err != nil || len(whole) < from {
		return whole
	}
	var parts []string
	for len(whole) > 3 {
		parts = append([]string{whole[len(whole)-3:]}, parts...)
		whole = whole[:len(whole)-3]
	}
	return strings.Join(append([]string{whole}, parts...), w.Say(group))
}

// Digits writes the digits 0 to 9 of a text, such as the number of a list's entry, with those of the language.
func (w *Words) Digits(s string) string {
	own := []rune(w.OwnDigits())
	if len(own) == 0 {
		return s
	}
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return own[r-'0']
		}
		return r
	}, s)
}

// OwnDigits are the ten digits of the language from 0; empty where they are 0 to 9.
func (w *Words) OwnDigits() string {
	own := w.Say(digits)
	if strings.HasPrefix(own, "0") || utf8.RuneCountInString(own) != 10 {
		return ""
	}
	return own
}

// Year writes a year, which has no marks between thousands.
func (w *Words) Year(n int) string { return w.Digits(strconv.Itoa(n)) }

// Western gives a text with the digits 0 to 9 in place of those of any script, and a point in place of the Arabic one
// before the parts of a whole, so that numbers in it can be found.
func Western(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\u066b':
			return '.'
		case r > unicode.MaxASCII && unicode.IsDigit(r):
			return '0' + digitOf(r)
		}
		return r
	}, s)
}

// digitOf is what a digit stands for: in Unicode, digits of a script follow each other from 0.
func digitOf(r rune) rune {
	for _, t := range unicode.Nd.R16 {
		if from := rune(t.Lo); r >= from && r <= rune(t.Hi) {
			return (r - from) % 10
		}
	}
	for _, t := range unicode.Nd.R32 {
		if from := rune(t.Lo); r >= from && r <= rune(t.Hi) {
			return (r - from) % 10
		}
	}
	return 0
}

// Span says from an amount to another.
func (w *Words) Span(from, to string) string { return w.Say(span, "from", from, "to", to) }

// In gives the words as an edition for a place says them: in the United States the month comes before the day.
func (w *Words) In(place string) *Words {
	out := *w
	out.made = maker()
	if place == "us" {
		out.date = dateUS
	}
	return &out
}

// Date writes "2026-11-25" with the month as a word. A date that is none stays as it is.
func (w *Words) Date(iso string) string {
	t, err := time.Parse(time.DateOnly, iso)
	if err != nil {
		return iso
	}
	return w.Say(w.date, "day", t.Day(), "month", w.Say(months[t.Month()-1]), "year", w.Year(t.Year()))
}

// Row puts things one after the other, with no word between the last two.
func (w *Words) Row(all ...string) string {
	if len(all) == 0 {
		return ""
	}
	out := all[0]
	for _, next := range all[1:] {
		out = w.Say(middle, "before", out, "next", next)
	}
	return out
}

// And joins names as one says them: "a", "a and b", "a, b and c".
func (w *Words) And(names ...string) string { return listed(w.Say, names, andTwo, andLast) }

// AndHTML is And for what goes into a page as it is.
func (w *Words) AndHTML(names ...template.HTML) template.HTML {
	return listed(w.HTML, names, andTwo, andLast)
}

// Or is And for a choice: "a, b or c".
func (w *Words) Or(names ...string) string { return listed(w.Say, names, orTwo, orLast) }

func listed[T string | template.HTML](say func(Name, ...any) T, names []T, two, last Name) T {
	switch n := len(names); n {
	case 0:
		return ""
	case 1:
		return names[0]
	case 2:
		return say(two, "before", names[0], "last", names[1])
	default:
		before := names[0]
		for _, next := range names[1 : n-1] {
			before = say(middle, "before", before, "next", next)
		}
		return say(last, "before", before, "last", names[n-1])
	}
}

// Apart sets things apart of which each may have words of several kinds, such as titles.
func (w *Words) Apart(all ...template.HTML) template.HTML {
	if len(all) == 0 {
		return ""
	}
	out := all[0]
	for _, next := range all[1:] {
		out = w.HTML(setApart, "before", out, "next", next)
	}
	return out
}

// ApartTexts is Apart for letters.
func (w *Words) ApartTexts(all ...string) template.HTML {
	var out []template.HTML
	for _, s := range all {
		out = append(out, template.HTML(template.HTMLEscapeString(s)))
	}
	return w.Apart(out...)
}

// Order gives a function that tells which of two texts comes first in an alphabetical list. It is for
// one goroutine at a time.
func (w *Words) Order() func(a, b string) int { return collate.New(w.tag).CompareString }

// SameLetter gives a function that tells whether two letters stand under one heading of such a list: "é" under
// "E" in most languages, and "ñ" apart from "n" in Spanish. It is for one goroutine at a time.
func (w *Words) SameLetter() func(a, b string) bool {
	c := collate.New(w.tag, collate.Loose)
	return func(a, b string) bool { return c.CompareString(a, b) == 0 }
}

// Dir is the direction in which the language is written: "ltr" or "rtl".
func (w *Words) Dir() string { return Dir(w.Lang) }

// Capital gives a text with a capital where it begins a sentence.
func (w *Words) Capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return w.upper(string(r)) + s[n:]
}
