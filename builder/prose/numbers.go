package prose

import (
	"strconv"
	"strings"
	"unicode"
)

// spoken counts the syllables of a word with digits or signs, as it is read
// aloud: "12", "8.33%", "1:12", "L5981", "2,000", "1997".
func spoken(w string) int {
	n := 0
	for w != "" {
		digits := len(w) - len(strings.TrimLeft(w, "0123456789,"))
		switch r := rune(w[0]); {
		case digits > 0 && unicode.IsDigit(r):
			n += ofNumber(strings.ReplaceAll(w[:digits], ",", ""))
			w = w[digits:]
			if strings.HasPrefix(w, ".") && len(w) > 1 && unicode.IsDigit(rune(w[1])) { // "point", then figure by figure
				n++
				for w = w[1:]; w != "" && unicode.IsDigit(rune(w[0])); w = w[1:] {
					n += ofNumber(w[:1])
				}
			}
		case strings.HasPrefix(w, "%"):
			n, w = n+2, w[1:]
		case strings.HasPrefix(w, "°"):
			n, w = n+2, w[len("°"):]
		case r == ':':
			n, w = n+1, w[1:] // "to"
		default:
			letters := len(w) - len(strings.TrimLeftFunc(w, unicode.IsLetter))
			if letters == 0 {
				w = strings.TrimLeftFunc(w, func(r rune) bool { return r == []rune(w)[0] })
				continue
			}
			n += ofPart(strings.ToLower(w[:letters]))
			w = w[letters:]
		}
	}
	return n
}

// figures are the syllables of 0 to 19, tens those of twenty to ninety.
var (
	figures = []int{2, 1, 1, 1, 1, 1, 1, 2, 1, 1, 1, 3, 1, 2, 2, 2, 2, 3, 2, 2}
	tens    = []int{0, 0, 2, 2, 2, 2, 2, 3, 2, 2}
)

// ofNumber counts a whole number's syllables; a year is read in pairs.
func ofNumber(digits string) int {
	x, err := strconv.Atoi(digits)
	if err != nil || x >= 1e9 {
		n := 0 // figure by figure
		for _, d := range digits {
			n += figures[d-'0']
		}
		return n
	}
	if x >= 1100 && x < 2100 && x%100 >= 10 && (x < 2000 || x > 2009) {
		return small(x/100) + small(x%100)
	}
	return small(x)
}

func small(x int) int {
	switch {
	case x < 20:
		return figures[x]
	case x < 100:
		if x%10 == 0 {
			return tens[x/10]
		}
		return tens[x/10] + figures[x%10]
	}
	for _, unit := range []struct{ size, count int }{{1e6, 2}, {1000, 2}, {100, 2}} { // million, thousand, hundred
		if x >= unit.size {
			n := small(x/unit.size) + unit.count
			if x%unit.size > 0 {
				n += small(x % unit.size)
			}
			return n
		}
	}
	return 0
}
