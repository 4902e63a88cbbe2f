package quantity

import (
	"slices"
	"strings"
	"sync"

	"keelpath/builder/say"
)

// signs are the texts of an amount in a unit, and names what a unit is called in a list of those that
// may be used. A count has no sign, and a slope of 1:n is written the same in every language.
var (
	signs = map[string]say.Name{
		"mm": "unit.mm", "cm": "unit.cm", "m": "unit.m", "[in_i]": "unit.inch", "[ft_i]": "unit.foot", "kg": "unit.kg", "g": "unit.gram",
		"[lb_av]": "unit.pound", "[oz_av]": "unit.ounce", "[stone_av]": "unit.stone", "deg": "unit.degree", "%": "unit.percent",
	}
	names = map[string]say.Name{
		"mm": "unit.mm-name", "cm": "unit.cm-name", "m": "unit.m-name", "[in_i]": "unit.inch-name", "[ft_i]": "unit.foot-name",
		"kg": "unit.kg-name", "g": "unit.gram-name", "[lb_av]": "unit.pound-name", "[oz_av]": "unit.ounce-name",
		"[stone_av]": "unit.stone-name", "deg": "unit.degree-name", "%": "unit.percent-name", "1": "amount.plain-number",
	}
)

// kinds is what each kind is called, with its article.
var kinds = map[Kind]say.Name{
	Length: "amount.length", Mass: "amount.weight", Angle: "amount.angle", Slope: "amount.slope", Count: "amount.plain-number",
}

// frames are the texts that amounts are put into.
var frames = map[string]say.Name{
	"also": "amount.also", "also-about": "amount.also-about", "also-flat": "amount.also-flat",
	"is": "amount.is", "is-about": "amount.is-about", "is-flat": "amount.is-flat",
	"flat": "amount.flat", "a-number": "amount.a-number", "a-slope": "amount.a-slope",
	"next": "formats.list-middle", "or-two": "formats.list-or-two", "or-last": "formats.list-or-last",
}

// sentences are those of each code of an [Error].
var sentences = map[string]say.Name{
	"empty": "amount.enter", "number": "amount.enter", "range": "amount.enter", "long": "amount.too-much-text", "digits": "amount.too-long",
	"bare": "amount.add-unit", "negative": "amount.below-zero", "whole": "amount.enter-whole", "comma": "amount.two-meanings",
	"fraction": "amount.hard-fraction", "several": "amount.several", "word": "amount.only-number", "unit": "amount.other-unit",
	"mixed": "amount.mixed", "parts": "amount.fewer-parts", "ratio": "amount.ratio-first", "kind": "amount.other-kind",
}

// Own is how amounts are written in a language otherwise than they are kept: its names of units, its digits, its
// sign before the parts of a whole.
type Own struct {
	Spell   map[string]string `json:"spell,omitempty"`   // a word to the code of its unit
	Letters string            `json:"letters,omitempty"` // those of the words that are not a to z
	Fold    map[string]string `json:"fold,omitempty"`    // as [Tables.Fold], beside it
	Comma   bool              `json:"comma,omitempty"`   // a comma stands before the parts of a whole
}

// english is the table in the program's own language.
var english = sync.OnceValue(func() *Tables { return made(say.English()) })

// In gives the table in the language of w. Nobody may change it.
func In(w *say.Words) *Tables {
	if w == say.English() {
		return english()
	}
	return w.Made("quantity", func() any { return made(w) }).(*Tables)
}

func made(w *say.Words) *Tables {
	t := &Tables{Lang: w.Lang, Units: units, Kinds: map[Kind]string{}, Names: map[string]string{Ratio: "1:12"},
		Says: map[string]string{}, Fold: folds, Fractions: fractions, Longest: longest, Digits: digits}
	for k, n := range kinds {
		t.Kinds[k] = w.Raw(n)[say.Other]
	}
	for code, n := range names {
		t.Names[code] = w.Raw(n)[say.Other]
	}
	for _, some := range []map[string]say.Name{frames, sentences} {
		for id, n := range some {
			t.Says[id] = w.Raw(n)[say.Other]
		}
	}
	if w.Lang != say.English().Lang { // in English amounts stand as they are kept
		t.Signs = signsOf(w)
		if point := w.Raw("formats.point")[say.Other]; point != "." {
			t.Point = point
		}
		t.Numerals = w.OwnDigits()
		t.Names[Ratio] = t.Number(t.Names[Ratio])
		t.Own, _ = t.own(w)
	}
	return t
}

// Clash is a word that a language has for one unit, and that is read as another one: what a page shows in it
// would come back as something else.
type Clash struct {
	Of    say.Name // of the text in which the word stands
	Word  string
	Unit  Unit // for which it stands there
	Means Unit
	By    say.Name // the text that gives it that meaning; empty where it has it in every language
}

// Clashes gives those of a language's words.
func Clashes(w *say.Words) []Clash {
	if w.Lang == say.English().Lang {
		return nil
	}
	_, out := In(w).own(w)
	return out
}

func signsOf(w *say.Words) map[string]Forms {
	out := map[string]Forms{}
	for code, n := range signs {
		out[code] = w.Raw(n)
	}
	return out
}

func (t *Tables) own(w *say.Words) (*Own, []Clash) {
	out := &Own{Spell: map[string]string{}, Fold: map[string]string{}}
	spelling := spelling{out, map[string]say.Name{}, nil}
	for _, u := range units {
		if u.Kind == Count || u.Code == Ratio {
			continue
		}
		sign := w.Raw(signs[u.Code])
		for _, form := range say.Forms { // in order, for so stand the letters
			spelling.word(signs[u.Code], strings.ReplaceAll(sign[form], "{count}", ""), u)
		}
		spelling.word(names[u.Code], w.Raw(names[u.Code])[say.Other], u)
	}
	out.Comma = t.Point == ","
	if t.Point != "" && !out.Comma {
		out.Fold[t.Point] = "."
	}
	for i, r := range []rune(t.Numerals) {
		out.Fold[string(r)] = string(rune('0' + i))
	}
	return out, spelling.clashes
}

// spelling takes in the words of a language.
type spelling struct {
	*Own
	by      map[string]say.Name // word: the text that gave it
	clashes []Clash
}

// word takes in a word for u out of a text. One that means another unit everywhere, or in a text before it, is left
// to that, and is a clash.
func (o *spelling) word(of say.Name, word string, u Unit) {
	word = strings.ToLower(strings.Trim(word, " .\u00a0\u202f"))
	means, known := spelled(word)
	if code, had := o.Spell[word]; had {
		means, known = unit(code), true
	}
	if known && means.Code != u.Code {
		o.clashes = append(o.clashes, Clash{of, word, u, means, o.by[word]})
	}
	if word == "" || known {
		return
	}
	o.Spell[word], o.by[word] = u.Code, of
	for _, r := range word {
		if r > 'z' && !strings.ContainsRune(o.Letters, r) {
			o.Letters += string(r)
			if upper := strings.ToUpper(string(r)); upper != string(r) && len([]rune(upper)) == 1 {
				o.Fold[upper] = string(r)
			}
		}
	}
}

// fill puts what belongs into the gaps of a frame: names, each followed by its words.
func (t *Tables) fill(frame string, gaps ...string) string {
	pairs := slices.Clone(gaps)
	for i := 0; i < len(pairs); i += 2 {
		pairs[i] = "{" + pairs[i] + "}"
	}
	return strings.NewReplacer(pairs...).Replace(t.Says[frame])
}

// next puts amounts one after the other.
func (t *Tables) next(all []string) string {
	out := all[0]
	for _, one := range all[1:] {
		out = t.fill("next", "before", out, "next", one)
	}
	return out
}

// either lists words: "a, b or c".
func (t *Tables) either(words []string) string {
	last := len(words) - 1
	switch last {
	case -1:
		return ""
	case 0:
		return words[0]
	case 1:
		return t.fill("or-two", "before", words[0], "last", words[1])
	}
	return t.fill("or-last", "before", t.next(words[:last]), "last", words[last])
}

// Number writes a number of points and the digits 0 to 9 as the language does.
func (t *Tables) Number(number string) string {
	if t.Point != "" {
		number = strings.ReplaceAll(number, ".", t.Point)
	}
	if t.Numerals == "" {
		return number
	}
	ten := []rune(t.Numerals)
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return ten[r-'0']
		}
		return r
	}, number)
}

// With writes u behind a number of points and the digits 0 to 9, "5 degrees", in the words of the language.
func (t *Tables) With(u Unit, number string) string { return t.sign(u, number, t.Number(number)) }

// sign writes u behind shown, which is how a number stands there.
func (t *Tables) sign(u Unit, number, shown string) string {
	sign := t.Signs[u.Code]
	switch {
	case u.Code == Ratio:
		return t.Number("1") + ":" + shown
	case sign == nil:
		return u.with(shown)
	}
	form, ok := sign[say.FormOfText(t.Lang, number)]
	if !ok {
		form = sign[say.Other]
	}
	return strings.ReplaceAll(form, "{count}", shown)
}

// said puts into the words of the language what [Value.Said] keeps in those of the table; u is what it begins with.
func (t *Tables) said(said string, u Unit) string {
	text, minus := strings.CutPrefix(said, "-")
	sign := ""
	if minus {
		sign = "-"
	}
	if u.Code == Ratio {
		return sign + t.With(u, strings.TrimPrefix(text, "1:"))
	}
	if major, minor, two := strings.Cut(text, " "+u.Mark+" "); two && u.Sub != "" {
		sub := unit(u.Sub)
		return sign + t.With(u, major) + " " + t.With(sub, sub.without(minor))
	}
	return t.With(u, sign+u.without(text))
}

// without is a number that [Unit.with] wrote u behind.
func (u Unit) without(text string) string {
	if u.One != "" {
		text = strings.TrimSuffix(text, " "+u.One)
	}
	return strings.TrimSuffix(text, " "+u.Mark)
}
