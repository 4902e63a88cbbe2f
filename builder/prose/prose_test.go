package prose

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// The formulas, from counts. Values: arithmetic on the published formulas, and
// the published scores named in each row.
func TestFormulas(t *testing.T) {
	for _, c := range []struct {
		name        string
		counts      Counts
		grade, smog float64 // NaN: not checked
		within      float64
	}{
		{"cat on the mat (arithmetic)", Counts{1, 6, 6, 0}, -1.450, 3.1291, 0.0005},
		{"platypus sentence (encyclopaedia article on the Flesch tests: grade 11.3)", Counts{1, 13, 24, 4}, 11.265, math.NaN(), 0.0006},
		{"US State of the Union 2023 (published 6.5, 10.2)", Counts{754, 9334, 13686, 1154}, 6.540, 10.197, 0.0006},
		{"SMOG, 30 sentences, 1 long word (formula)", Counts{30, 300, 400, 1}, math.NaN(), 4.1721, 0.0001},
		{"SMOG, 30 sentences, 64 long words (formula)", Counts{30, 300, 400, 64}, math.NaN(), 11.4731, 0.0001},
	} {
		for _, v := range []struct {
			what      string
			got, want float64
		}{{"grade", c.counts.Grade(), c.grade}, {"SMOG", c.counts.SMOG(), c.smog}} {
			if !math.IsNaN(v.want) && math.Abs(v.got-v.want) > c.within {
				t.Errorf("%s: %s is %.4f, want %.4f", c.name, v.what, v.got, v.want)
			}
		}
	}
}

// said are words of the field, and of this site, as they are said.
var said = map[string]int{
	"the": 1, "foot": 1, "ankle": 2, "carbon": 2, "spring": 1, "heel": 1, "height": 1, "prosthetist": 3,
	"question": 2, "questions": 2, "walked": 1, "wanted": 2, "shoes": 1, "changes": 2, "makes": 1, "table": 2,
	"reason": 2, "quiet": 2, "decision": 3, "motion": 2, "multi-axis": 4, "family": 3, "material": 4, "radio": 3,
	"side": 1, "sidewalk": 2, "battery": 3, "doctor": 2, "emergency": 4, "simple": 2, "hydraulic": 3, "people": 2,
	"physiatrist": 4, "multiaxial": 5, "microprocessor": 5, "transtibial": 4, "transfemoral": 4, "dorsiflexion": 4,
	"plantarflexion": 4, "physiotherapist": 6, "prosthetists": 3, "prosthesis": 3, "prosthetic": 3, "prosthetics": 3, "orthotist": 3,
	"amputation": 4, "alignment": 3, "misaligned": 3, "adapter": 3, "pylon": 2, "torsion": 2, "rotation": 3, "liner": 2, "liners": 2,
	"residual": 4, "neuropathy": 4, "contracture": 3, "fibreglass": 3, "insole": 2, "midstance": 2, "explainer": 3, "therapist": 3,
	"diabetes": 4, "carbons": 2, "cushions": 2, "keel": 1, "keels": 1, "bumper": 2, "bumpers": 2, "uneven": 3, "sidewalks": 2, "barefoot": 2,
	"driveway": 2, "safely": 2, "safety": 2, "footwear": 2, "forefoot": 2, "medicare": 3, "insurance": 3, "coverage": 3, "level": 2,
	"multiaxis": 4, "preauthorization": 6, "cm": 4, "kg": 4, "sach": 1, "SACH": 1, "ischaemia": 4, "oedema": 3, "tibial": 3, "orthopaedics": 4, "eversion": 3,
	"they": 1, "you're": 1, "isn't": 2, "socket": 2, "pieces": 2, "bodies": 2, "create": 2, "bent": 1, "special": 2,
}

func TestSyllables(t *testing.T) {
	for word, want := range said {
		got := Syllables(word)
		if d := got - want; d < 0 || d > 0 {
			t.Errorf("%q: %d syllables, want %d", word, got, want)
		}
	}
}

func TestSplit(t *testing.T) {
	for _, c := range []struct {
		name     string
		passages []string
		want     []string
	}{
		{"three marks", []string{"One. Two? Three!"}, []string{"One.", "Two?", "Three!"}},
		{"a decimal point", []string{"A slope of 8.33 percent is steep"}, []string{"A slope of 8.33 percent is steep"}},
		{"a mark in quotes", []string{`He said "stop." Then he went.`}, []string{`He said "stop."`, "Then he went."}},
		{"a point before a small letter", []string{"Ask about e.g. a heel. Then go."}, []string{"Ask about e.g. a heel.", "Then go."}},
		{"a semicolon and a colon end nothing", []string{"It bends; it gives: so."}, []string{"It bends; it gives: so."}},
		{"nothing", []string{"", " "}, nil},
		{"a list of phrases is one sentence", []string{"Bring these:", "your shoes", "your leg", "a list. Then go."}, []string{"Bring these: your shoes your leg a list.", "Then go."}},
		{"a break ends what is open", []string{"Bring these:", "your shoes", "", "It bends."}, []string{"Bring these: your shoes", "It bends."}},
		{"entries that are sentences", []string{"It bends.", "It gives."}, []string{"It bends.", "It gives."}},
		{"marks without words", []string{"...", "", "- ."}, nil},
	} {
		var got []string
		for _, s := range Split(c.passages) {
			got = append(got, s.Text)
			if !strings.HasPrefix(c.passages[s.Passage][s.From:], strings.Fields(s.Text)[0]) {
				t.Errorf("%s: %q is said to begin at %d of passage %d", c.name, s.Text, s.From, s.Passage)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// The sentences that weigh most come first, each by its own formula.
func TestHeaviest(t *testing.T) {
	all := Split([]string{"It bends. A very long sentence goes on and on and on with short words to its end. Prosthetist physician therapist. It gives."})
	if got := Heaviest(all, Counts.SMOG, 1); got[0].Long != 3 {
		t.Errorf("by SMOG: %+v", got)
	}
	if got := Heaviest(all, Counts.Grade, 9); len(got) != 1 || got[0].Long != 3 {
		t.Errorf("by grade: %+v", got)
	}
}

// Numbers and short forms count as they are read aloud (SMOG's rule).
func TestSpoken(t *testing.T) {
	for word, want := range map[string]int{
		"7": 2, "12": 1, "20": 2, "21": 3, "77": 5, "100": 3, "145": 6, "1,000": 3, "2,500": 6, "1997": 6, "2018": 4, "2004": 4,
		"8.33": 4, "8.33%": 6, "1:12": 3, "L5981": 10, "K3": 2, "US": 2, "NHS": 3, "us": 1, "VW": 4, "50.8": 4, "0": 2,
	} {
		if got := Syllables(word); got != want {
			t.Errorf("%q: %d syllables, want %d", word, got, want)
		}
	}
}

// A word counter must agree with the published counts on whole sentences.
func TestCounts(t *testing.T) {
	got := Of([]string{"The Australian platypus is seemingly a hybrid of a mammal and reptilian creature."})
	if got.Sentences != 1 || got.Words != 13 || got.Syllables != 24 {
		t.Errorf("platypus sentence: %+v, want 1 sentence, 13 words, 24 syllables", got)
	}
}
