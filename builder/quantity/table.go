package quantity

// Tables is what the browser needs to read and show amounts as Go does. It
// marshals to compact JSON, always the same bytes. Nobody may change it.
type Tables struct {
	Units     []Unit            `json:"units"`
	Kinds     map[Kind]string   `json:"kinds"`     // "a length"
	Says      map[string]string `json:"says"`      // sentences by code, with {gaps}
	Fold      map[string]string `json:"fold"`      // character to the one it stands for
	Fractions map[string][2]int `json:"fractions"` // "½" to 1, 2
	Longest   int               `json:"longest"`   // most characters that are read
	Digits    int               `json:"digits"`    // most characters of one number
}

// Table gives the one table.
func Table() Tables {
	return Tables{Units: units, Kinds: named, Says: says, Fold: folds, Fractions: fractions,
		Longest: longest, Digits: digits}
}

const (
	longest = 60
	digits  = 12
)

// named gives each kind with its article.
var named = map[Kind]string{
	Length: "a length",
	Mass:   "a weight",
	Angle:  "an angle",
	Slope:  "a slope",
	Count:  "a plain number",
}

// enter is what most refusals end with. The limits stand in the unit that the
// reader used, rounded inward, so each of them is itself accepted.
const enter = "Enter {what} between {from} and {to}, like {like}."

// says holds the sentence of each code of an [Error]. Gaps: {what}, {from},
// {to} and {like} as in enter; {units} those accepted; {given} and {needed} two kinds;
// {few}, {sub} and {major} of an amount in two units; {choices} the answers that a
// number without a unit may stand for.
var says = map[string]string{
	"empty":    enter,
	"number":   enter,
	"range":    enter,
	"long":     "That is too much text. " + enter,
	"digits":   "That number is too long. " + enter,
	"bare":     "Please add the unit: {choices}.",
	"negative": "A number below 0 does not fit here. " + enter,
	"whole":    "Enter a whole number between {from} and {to}, like {like}.",
	"comma":    "That comma can mean two things. Please write the number without it.",
	"fraction": "That fraction is hard to read. Write it like 1 1/2.",
	"several":  "That looks like more than one number. Enter just one, like {like}.",
	"word":     "Enter a number and a unit only, like {like}.",
	"unit":     "Please use {units} here, like {like}.",
	"mixed":    "Those do not go together. Write it like {like}.",
	"parts":    "Write fewer than {few} {sub} after the {major}.",
	"ratio":    "Write a slope with a 1 first, like 1:12.",
	"kind":     "That is {given}; {needed} is needed here.",
}

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
