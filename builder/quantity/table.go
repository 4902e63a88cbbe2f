package quantity

import "keelpath/builder/say"

// Tables is what the browser needs to read and show amounts as Go does, in one language. It
// marshals to compact JSON, always the same bytes. Nobody may change it.
type Tables struct {
	Lang      string            `json:"lang"`
	Units     []Unit            `json:"units"`
	Kinds     map[Kind]string   `json:"kinds"`              // "a length"
	Names     map[string]string `json:"names"`              // of units, by code, as in "Please use mm or inches here"
	Signs     map[string]Forms  `json:"signs,omitempty"`    // in another language than English: an amount in a unit, by its code: "{count} mm"
	Says      map[string]string `json:"says"`               // sentences by code, and frames of amounts, with {gaps}
	Point     string            `json:"point,omitempty"`    // what stands before the parts of a whole, where it is no point
	Numerals  string            `json:"numerals,omitempty"` // the digits from 0, where they are not 0 to 9
	Own       *Own              `json:"own,omitempty"`      // in another language than English: how amounts are written in it
	Fold      map[string]string `json:"fold"`               // character to the one it stands for
	Fractions map[string][2]int `json:"fractions"`          // "½" to 1, 2
	Longest   int               `json:"longest"`            // most characters that are read
	Digits    int               `json:"digits"`             // most characters of one number
}

// Forms is a text by the plural forms of its language.
type Forms map[say.Form]string

// Table gives the table in the program's own language.
func Table() Tables { return *english() }

const (
	longest = 60
	digits  = 12
)

// folds maps what phones, word processors and other keyboards write. Spaces of
// all kinds become one kind; what has no width goes.
var folds = foldsOf(map[string]string{
	" ": "\t\n\v\f\r\u0085\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u2028\u2029\u202f\u205f\u3000",
	"":  "\u00ad\u200b\u200c\u200d\u200e\u200f\u2060\ufeff",
	"'": "\u2018\u2019\u201b\u2032\u02bc\u02b9\u00b4`",
	`"`: "\u201c\u201d\u201f\u2033\u02ba\u3003",
	"-": "\u2010\u2011\u2012\u2013\u2014\u2212",
	"/": "\u2044\u2215",
	":": "\u2236",
	"°": "\u00ba\u02da",
})

func foldsOf(to map[string]string) map[string]string {
	out := map[string]string{}
	for one, many := range to {
		for _, r := range many {
			out[string(r)] = one
		}
	}
	return out
}

var fractions = map[string][2]int{
	"½": {1, 2}, "⅓": {1, 3}, "⅔": {2, 3}, "¼": {1, 4}, "¾": {3, 4},
	"⅕": {1, 5}, "⅖": {2, 5}, "⅗": {3, 5}, "⅘": {4, 5}, "⅙": {1, 6}, "⅚": {5, 6},
	"⅛": {1, 8}, "⅜": {3, 8}, "⅝": {5, 8}, "⅞": {7, 8},
}
