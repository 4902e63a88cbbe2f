package prose

import (
	"regexp"
	"strings"
	"sync"
	"unicode"
)

// field holds words that the rule counts wrong, as they are said: words of the
// field first, then common ones.
var field = map[string]int{
	// Of the field.
	"multiaxial": 5, "multiaxis": 4, "physiotherapist": 6, "fibre": 2, "axial": 3, "diabetes": 4, "realign": 3, "realigned": 3,
	"realigning": 4, "preauthorization": 6,

	// Common words.
	"anyone": 3, "business": 2, "chocolate": 2, "element": 3, "evening": 2, "every": 2, "forever": 3, "guideline": 2,
	"realize": 3, "realized": 3, "hour": 2, "idea": 3, "interest": 2, "interested": 3, "interesting": 3, "liar": 2, "maybe": 2,
	"naked": 2, "ok": 2, "our": 2, "ourselves": 3, "science": 2, "scientist": 3, "several": 2, "soldier": 2, "suicide": 3,
	"tv": 2, "uk": 2, "wicked": 2, "mr": 2, "naive": 2, "genuine": 3, "nuclear": 3, "museum": 3, "reality": 4, "league": 1,
	"colonel": 2, "aisle": 1, "opera": 2, "aspirin": 2, "recipe": 3, "karate": 3, "diamond": 2, "louis": 2, "area": 3,
	"doesn't": 2, "didn't": 2, "isn't": 2, "wasn't": 2, "couldn't": 2, "wouldn't": 2, "shouldn't": 2, "hadn't": 2, "hasn't": 2,
	"mustn't": 2, "needn't": 2, "mm": 2, "cm": 4, "kg": 4, "psi": 3, "catholic": 2, "shakespeare": 2, "bracelet": 2,
	"desperate": 2, "privilege": 2, "employee": 3, "theatre": 3, "centre": 2, "metre": 2,
	"readjust": 3, "readjusted": 4, "readjusting": 4, "heavier": 3, "repaired": 2, "compliance": 3, "modifier": 4, "questionnaire": 3,
	"averages": 3, "vague": 1, "notepad": 2, "fatigue": 2, "fatigued": 2, "realistic": 4, "tongue": 1, "retired": 2,
}

// Syllables says how many syllables a word is said with; at least one. Parts of
// a hyphenated word are counted by themselves and added up.
//
// A word's count comes from the table above or else from the rule. The CMU
// pronouncing dictionary cannot be had as a Go module, so it is not built in;
// the tests hold both against it.
func Syllables(word string) int {
	if n, ok := counted.Load(word); ok {
		return n.(int)
	}
	n := bySpelling(word)
	if len(word) <= longestKept {
		counted.Store(strings.Clone(word), n)
	}
	return n
}

// counted keeps the syllables of words, for the rule is slow and texts say the same words
// again and again. It grows with the words of the language and not with the texts.
var counted sync.Map

// longestKept is the longest word that is kept, in bytes. What is longer is no word that
// is said twice.
const longestKept = 32

func bySpelling(word string) int {
	n := 0
	for part := range strings.FieldsFuncSeq(word, func(r rune) bool { return r == '-' }) {
		part = strings.TrimSuffix(strings.ReplaceAll(part, "’", "'"), "'s")
		switch {
		case strings.ContainsAny(part, "0123456789"):
			n += spoken(part)
		case isSpelled(part):
			n += spelled(part)
		default:
			n += ofPart(strings.ToLower(part))
		}
	}
	return max(n, 1)
}

// isSpelled tells whether a word is said letter by letter: "US", "NHS".
func isSpelled(w string) bool {
	return len(w) >= 2 && len(w) <= 4 && strings.ToUpper(w) == w && onlyLetters(w) == w && w != "SACH"
}

func spelled(w string) int {
	return len(w) + 2*strings.Count(w, "W")
}

func ofPart(part string) int {
	if n, ok := field[part]; ok {
		return n
	}
	if bare, plural := strings.CutSuffix(part, "s"); plural && field[bare] > 0 && !hasAny(bare, "s", "x", "z", "ch", "sh", "ce", "ge") {
		return field[bare]
	}
	if letters := onlyLetters(part); letters != "" {
		return byRule(letters)
	}
	return 0
}

func onlyLetters(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) {
			return r
		}
		return -1
	}, s)
}

const vowels = "aeiouyáéíóúäöüàèâêôûï"

func isVowel(r rune) bool { return strings.ContainsRune(vowels, r) }

// fore and aft are parts of compounds: what is left is counted as a word by
// itself, so that the silent e of "sidewalk" and "safely" stays silent.
var fore = []string{"fore", "side", "bare", "house", "home", "life", "some", "there", "where", "base", "time", "ware"}

var aft = []struct {
	ending string
	count  int
}{
	{"body", 2}, {"thing", 1}, {"where", 1},
	{"ments", 1}, {"ment", 1}, {"ness", 1}, {"less", 1}, {"ful", 1}, {"some", 1}, {"ways", 1}, {"way", 1}, {"man", 1}, {"men", 1},
	{"day", 1}, {"days", 1}, {"ty", 1}, {"ly", 1}, {"well", 1},
}

// byRule counts runs of vowels, parts those that are said as two, and takes
// back the silent endings of English.
func byRule(w string) int {
	for _, a := range aft {
		if base, ok := strings.CutSuffix(w, a.ending); ok && len(base) >= 3 && strings.ContainsFunc(base, isVowel) {
			// "ty" and "ly" hang on the word's own end: only a silent e parts them.
			if a.ending == "ty" && !hasAny(base, "fe", "re", "ne") {
				continue
			}
			return ofPart(base) + a.count
		}
	}
	for _, f := range fore {
		if rest, ok := strings.CutPrefix(w, f); ok && len(rest) >= 3 && strings.ContainsFunc(rest, isVowel) && !isVowel(rune(rest[0])) {
			return 1 + ofPart(rest)
		}
	}
	return max(runs(w)+parted(w)-silent(w), 1)
}

func runs(w string) int {
	n, before := 0, false
	for _, r := range w {
		v := isVowel(r)
		if v && !before {
			n++
		}
		before = v
	}
	return n
}

// two are vowels side by side that are said as two syllables; one are the
// exceptions, of which each takes back one of them.
var (
	twoRules = []string{
		`[^cgstx]i[aou]`, `[cst]iat`, `[ct]io$`, `[ct]ios$`, `[^cgt]eou`, `eo(?:[^nru]|m|l|$)`, `creat[ei]`, `react`,
		`theat`, `[^gq]ua`, `[^gq]uel`, `[^gq]uen[ct]`, `[lr]ui[dn]`, `[aeiouy]ing`, `iet`, `[^ctsf]ien`, `[^r]iest`,
		`[aeiouylnrkdstgp]i[e]rs?$`, `poe`, `coop`, `chao`, `[aeo]y[eo]r`, `eyo`, `oya`, `ayo`, `ire[sd]?$`,
		`[bcdgkptz]led$`, `[cd]red$`, `sms?$`, `thms?$`, `gian`, `iu[ms]`, `[^q]uous`,
	}
	oneRules = []string{
		`ll[i]o`, `nion`, `nior`, `viour`, `vior`, `liar`, `llia`, `nia$`, `lia$`, `iage`, `shio`, `frien`, `lian`, `suad`,
		`people`, `jeop`, `leop`,
	}
	two, one = joined(twoRules), joined(oneRules)
)

func joined(rules []string) *regexp.Regexp { return regexp.MustCompile(strings.Join(rules, "|")) }

func parted(w string) int {
	if !mayPart(w) {
		return 0
	}
	return len(two.FindAllStringIndex(w, -1)) - len(one.FindAllStringIndex(w, -1))
}

// mayPart is false where none of the rules finds anything, and quicker than they are: each of them is after two vowels side by
// side, or an ending.
func mayPart(w string) bool {
	before := false
	for i := range len(w) {
		now := strings.IndexByte("aeiouy", w[i]) >= 0
		if now && before {
			return true
		}
		before = now
	}
	return hasAny(w, "ire", "ires", "ired", "led", "red", "sm", "sms", "thm", "thms")
}

// silent counts the silent e's at the end of a word.
func silent(w string) int {
	at := func(back int) rune {
		if len(w) < back {
			return ' '
		}
		return rune(w[len(w)-back])
	}
	switch {
	case strings.HasSuffix(w, "le") && len(w) > 2 && !isVowel(at(3)):
	case strings.HasSuffix(w, "les") && len(w) > 3 && !isVowel(at(4)):
	case strings.HasSuffix(w, "e") && !hasAny(w, "ee", "ye", "oe", "ie", "ue"):
		return 1
	case strings.HasSuffix(w, "ed") && len(w) > 3 && !strings.ContainsRune("td", at(3)) && !isVowel(at(3)):
		return 1
	case strings.HasSuffix(w, "es") && len(w) > 3 && !hasAny(w[:len(w)-2], "s", "x", "z", "ch", "sh", "c", "g") && !isVowel(at(3)):
		return 1
	}
	return 0
}

func hasAny(s string, endings ...string) bool {
	for _, e := range endings {
		if strings.HasSuffix(s, e) {
			return true
		}
	}
	return false
}
