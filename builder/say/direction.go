package say

import (
	"slices"

	"golang.org/x/text/cases"
	"golang.org/x/text/language"
)

// rightToLeft are the scripts that are written from the right (Unicode, bidirectional class
// R or AL of their letters).
var rightToLeft = []string{"Adlm", "Arab", "Hebr", "Mand", "Nkoo", "Rohg", "Samr", "Syrc", "Thaa"}

// Dir is the direction in which a language is written: "ltr" or "rtl".
func Dir(lang string) string {
	script, _ := language.Make(lang).Script()
	if slices.Contains(rightToLeft, script.String()) {
		return "rtl"
	}
	return "ltr"
}

func (w *Words) upper(s string) string { return cases.Upper(w.tag).String(s) }
