package quantity

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// token is a number, a fraction below 1, or a word. A word is letters, or one
// other character.
type token struct {
	kind  byte // 'n', 'f' or 'w'
	word  string
	num   float64
	text  string // of a number: how it is usually written
	whole bool   // a number written without decimals
	near  bool   // touches what stands before it
}

// scanner cuts texts into tokens. own is nil for what is written as amounts are kept.
type scanner struct{ own *Own }

// scan cuts text into tokens. A code other than "" says why it cannot.
func (c scanner) scan(text string) (out []token, code string) {
	if utf8.RuneCountInString(text) > longest {
		return nil, "long"
	}
	s := c.fold(text)
	for i := 0; i < len(s); {
		touches := i > 0 && s[i-1] != ' '
		t, end, code := c.next(s, i)
		if code != "" {
			return nil, code
		}
		if t.kind != 0 {
			t.near = touches
			out = append(out, t)
		}
		i = end
	}
	return out, ""
}

// fold writes letters small and strange characters in their usual form.
func (c scanner) fold(text string) []rune {
	var out []rune
	for _, r := range text {
		to, ok := folds[string(r)]
		if c.own != nil && !ok {
			to, ok = c.own.Fold[string(r)]
		}
		switch {
		case ok:
			out = append(out, []rune(to)...)
		case r >= 'A' && r <= 'Z':
			out = append(out, r-'A'+'a')
		default:
			out = append(out, r)
		}
	}
	return out
}

// next gives the token at i, with no kind where there is nothing to keep.
func (c scanner) next(s []rune, i int) (t token, end int, code string) {
	r := s[i]
	switch {
	case r == ' ':
		return token{}, i + 1, ""
	case digit(s, i) || r == '.' && digit(s, i+1):
		return c.number(s, i)
	case r == '.' && i > 0 && (c.letter(s, i-1) || digit(s, i-1)): // "38 mm." and "5 ft. 10 in."
		return token{}, i + 1, ""
	case r == '\'' && i+1 < len(s) && s[i+1] == '\'': // two feet marks are an inch mark
		return token{kind: 'w', word: `"`}, i + 2, ""
	}
	if f, ok := fractions[string(r)]; ok {
		return below(f[0], f[1]), i + 1, ""
	}
	end = i + 1
	for c.letter(s, i) && c.letter(s, end) {
		end++
	}
	return token{kind: 'w', word: string(s[i:end])}, end, ""
}

func digit(s []rune, i int) bool { return i < len(s) && s[i] >= '0' && s[i] <= '9' }

func (c scanner) letter(s []rune, i int) bool {
	return i < len(s) && (s[i] >= 'a' && s[i] <= 'z' || c.own != nil && strings.ContainsRune(c.own.Letters, s[i]))
}

// number reads "38", "3.5", "3,5", ".5" and "3/8" at i.
func (c scanner) number(s []rune, i int) (token, int, string) {
	end := i
	for digit(s, end) || end < len(s) && (s[end] == '.' || s[end] == ',') && digit(s, end+1) {
		end++
	}
	raw := string(s[i:end])
	if len(raw) > digits {
		return token{}, end, "digits"
	}
	whole := !strings.ContainsAny(raw, ".,")
	if whole && end < len(s) && s[end] == '/' && digit(s, end+1) {
		return fraction(s, raw, end+1)
	}
	raw, code := c.decimal(raw)
	x, err := strconv.ParseFloat(raw, 64)
	if code == "" && err != nil {
		code = "number"
	}
	return token{kind: 'n', num: x, text: usual(raw), whole: whole}, end, code
}

// decimal gives raw with a point. A comma before just three digits may be meant
// for thousands; only after a lone 0 is it surely not. Where a comma stands before
// the parts of a whole, the same holds of a point.
func (c scanner) decimal(raw string) (string, string) {
	point, other := ".", ","
	if c.own != nil && c.own.Comma {
		point, other = other, point
	}
	before, after, found := strings.Cut(raw, other)
	switch {
	case !found:
		if strings.Count(raw, point) > 1 {
			return raw, "number"
		}
		return strings.Replace(raw, point, ".", 1), ""
	case strings.ContainsAny(after, ".,") || strings.Contains(before, point):
		return raw, "comma"
	case len(after) == 3 && len(before) <= 3 && before != "" && before[0] != '0':
		return raw, "comma"
	}
	return before + "." + after, ""
}

// fraction reads what stands below the stroke, at i. "11/4" may be a lost space
// in 1 1/4, so a fraction of 1 or more is refused.
func fraction(s []rune, above string, i int) (token, int, string) {
	end := i
	for digit(s, end) {
		end++
	}
	n, err1 := strconv.Atoi(above)
	d, err2 := strconv.Atoi(string(s[i:end]))
	if err1 != nil || err2 != nil || end-i > 4 || n == 0 || n >= d {
		return token{}, end, "fraction"
	}
	return below(n, d), end, ""
}

// below is the token of a fraction below 1.
func below(n, d int) token {
	return token{kind: 'f', num: float64(n) / float64(d), text: strconv.Itoa(n) + "/" + strconv.Itoa(d)}
}

// usual writes one 0 in front of a point, and none in front of another digit.
func usual(raw string) string {
	out := strings.TrimLeft(raw, "0")
	if out == "" || out[0] == '.' {
		return "0" + out
	}
	return out
}
