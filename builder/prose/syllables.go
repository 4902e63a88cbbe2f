package prose

import (
	"strings"
	"unicode"
)

// field holds words of the field that the rule counts wrong, as they are said.
var field = map[string]int{
	"prosthetist": 3, "prosthetists": 3, "prosthesis": 3, "prostheses": 3, "prosthetic": 3,
	"multiaxial": 5, "physiatrist": 4, "axial": 3, "carbon": 2, "hydraulic": 3, "fiber": 2,
	"microprocessor": 5, "medicare": 3, "therapist": 3, "science": 2, "area": 3, "idea": 3,
	"lineup": 2, "someone": 2, "sometimes": 2, "something": 2, "somewhere": 2, "outside": 2,
	"household": 2, "whole": 1, "being": 2, "doing": 2, "going": 2, "seeing": 2, "able": 2,
	"people": 2, "battery": 3, "every": 2, "quiet": 2, "diabetes": 4, "usual": 3, "usually": 4,
	"isn't": 2, "create": 2, "sidewalk": 2, "doesn't": 2, "didn't": 2, "wasn't": 2, "hybrid": 2,
	"moment": 2, "movement": 2, "movements": 2, "homemade": 2, "reptilian": 3, "australian": 3,
}

// Syllables estimates how many syllables a word is said with; at least one.
// Parts of a hyphenated word are counted by themselves and added up.
func Syllables(word string) int {
	n := 0
	for part := range strings.FieldsFuncSeq(strings.ToLower(word), func(r rune) bool { return r == '-' }) {
		part = strings.TrimSuffix(strings.ReplaceAll(part, "’", "'"), "'s")
		if known, ok := field[part]; ok {
			n += known
			continue
		}
		if letters := onlyLetters(part); letters != "" {
			n += byRule(letters)
		}
	}
	return max(n, 1)
}

func onlyLetters(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) {
			return r
		}
		return -1
	}, s)
}

// byRule counts runs of vowels and takes back the silent endings of English.
func byRule(w string) int {
	n, before := 0, false
	for _, r := range w {
		vowel := strings.ContainsRune("aeiouyáéíóúäöüàèâêôûï", r)
		if vowel && !before {
			n++
		}
		before = vowel
	}
	for _, pair := range []string{"ia", "io", "eo", "ua", "uou", "ying", "iest", "ier"} {
		n += strings.Count(w, pair)
	}
	for _, one := range []string{"tion", "sion", "cia", "tia", "gio", "geo", "qua", "gua", "sua", "xio", "cio", "tio", "sio", "iou", "eou", "pion"} {
		n -= strings.Count(w, one)
	}
	for _, two := range []string{"tion", "sion"} { // counted twice above: as "tio" and as "tion"
		n += strings.Count(w, two)
	}
	switch {
	case strings.HasSuffix(w, "le") && len(w) > 2 && !strings.ContainsRune("aeiouy", rune(w[len(w)-3])):
	case strings.HasSuffix(w, "les") && len(w) > 3 && !strings.ContainsRune("aeiouy", rune(w[len(w)-4])):
	case strings.HasSuffix(w, "e") && !strings.HasSuffix(w, "ee") && !strings.HasSuffix(w, "ye") && !strings.HasSuffix(w, "oe") && !strings.HasSuffix(w, "ie") && !strings.HasSuffix(w, "ue"):
		n--
	case strings.HasSuffix(w, "ed") && len(w) > 3 && !strings.ContainsRune("td", rune(w[len(w)-3])) && !strings.ContainsRune("aeiouy", rune(w[len(w)-3])):
		n--
	case strings.HasSuffix(w, "es") && len(w) > 3 && !hasAny(w[:len(w)-2], "s", "x", "z", "ch", "sh", "c", "g") && !strings.ContainsRune("aeiouy", rune(w[len(w)-3])):
		n--
	}
	return max(n, 1)
}

func hasAny(s string, endings ...string) bool {
	for _, e := range endings {
		if strings.HasSuffix(s, e) {
			return true
		}
	}
	return false
}
