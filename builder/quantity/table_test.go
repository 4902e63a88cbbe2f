package quantity

import (
	"bytes"
	"encoding/json"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/text/unicode/norm"
)

// Every code that a unit names exists, no spelling means two things, and what
// the parser relies on holds.
func TestTableHoldsTogether(t *testing.T) {
	seen := map[string]string{}
	for _, u := range units {
		for _, w := range append([]string{u.Code}, u.Spell...) {
			if had, ok := seen[w]; ok && had != u.Code {
				t.Errorf("%q is %s and %s", w, had, u.Code)
			}
			seen[w] = u.Code
		}
		for _, w := range u.Spell {
			if toks, code := (scanner{}).scan(w); w != strings.ToLower(w) || code != "" || len(toks) != 1+strings.Count(w, " ") {
				t.Errorf("spelling %q of %s is not read as it stands", w, u.Code)
			}
		}
		if english().Names[u.Code] == "" || kinds[u.Kind] == "" || u.Step <= 0 || u.Num <= 0 || u.Den <= 0 {
			t.Errorf("%s lacks a name, a named kind, a step or a factor", u.Code)
		}
		for _, code := range []string{u.Pair, u.Big, u.Sub} {
			if code != "" && unit(code).Kind != u.Kind {
				t.Errorf("%s and %s are not of one kind", u.Code, code)
			}
		}
		if u.Sub != "" && unit(u.Sub).Canonical(float64(u.Per)) != u.Canonical(1) {
			t.Errorf("%d %s are not 1 %s", u.Per, u.Sub, u.Code)
		}
		if u.Bare && u.Sub == "" {
			t.Errorf("%s takes a bare number after it, of nothing", u.Code)
		}
	}
	for char, to := range folds {
		if len([]rune(char)) != 1 || len([]rune(to)) > 1 {
			t.Errorf("%q folds to %q", char, to)
		}
	}
}

// Every way to write a unit that people use: full, short, with marks and dots.
func TestSpellings(t *testing.T) {
	for code, words := range map[string]string{
		"mm":         "mm millimeter millimeters millimetre millimetres",
		"cm":         "cm centimeter centimeters centimetre centimetres CM Cm",
		"m":          "m meter meters metre metres",
		"[in_i]":     "in inch inches \" \u2033 \u201d '' \u2032\u2032 IN in.",
		"[ft_i]":     "ft foot feet ' \u2032 \u2019 FT ft.",
		"kg":         "kg kgs kilo kilos kilogram kilograms KG kg.",
		"g":          "g gram grams",
		"[lb_av]":    "lb lbs pound pounds LB Lbs lbs.",
		"[oz_av]":    "oz ounce ounces",
		"[stone_av]": "st stone stones St",
		"deg":        "deg degree degrees \u00b0 \u00ba deg.",
		"%":          "% percent pct",
	} {
		for _, w := range strings.Fields(words) {
			for _, gap := range []string{"", " ", "\u00a0"} {
				m := Measure{Unit: code, Accept: []string{code}}
				v, err := Parse("7"+gap+w, m)
				if err != nil || v.Num != unit(code).Canonical(7) || v.Unit != code {
					t.Errorf("7%s%s: %+v, %v", gap, w, v, err)
				}
			}
		}
	}
}

// The browser gets the table as JSON: always the same bytes, and few of them.
func TestTableAsJSON(t *testing.T) {
	one, err := json.Marshal(Table())
	two, _ := json.Marshal(Table())
	if err != nil || !bytes.Equal(one, two) {
		t.Fatalf("two tables differ: %v", err)
	}
	if len(one) > 7000 {
		t.Errorf("the table has %d bytes", len(one))
	}
	var back Tables
	if err := json.Unmarshal(one, &back); err != nil || len(back.Units) != len(units) {
		t.Errorf("the table does not come back: %v", err)
	}
}

// Each gap of each sentence is one that refuse can fill.
func TestGaps(t *testing.T) {
	known := map[string]bool{"what": true, "from": true, "to": true, "like": true, "units": true,
		"given": true, "needed": true, "few": true, "sub": true, "major": true, "choices": true}
	for code := range sentences {
		text := english().Says[code]
		for _, gap := range regexp.MustCompile(`\{(.*?)\}`).FindAllStringSubmatch(text, -1) {
			if !known[gap[1]] {
				t.Errorf("%s has the gap %s", code, gap[0])
			}
		}
	}
}

// The fractions of one sign, held against the Unicode Character Database, whose
// compatibility decomposition of each is its digits about a fraction slash.
func TestFractionsOfUnicode(t *testing.T) {
	for sign, of := range fractions {
		if want := strings.Replace(norm.NFKD.String(sign), "\u2044", "/", 1); fmt.Sprintf("%d/%d", of[0], of[1]) != want {
			t.Errorf("%s is %v, and %s in Unicode", sign, of, want)
		}
	}
}
