package prose

import (
	"math"
	"testing"
)

// The formulas, from counts. Values: arithmetic on the published formulas, and
// the published scores named in each row.
func TestFormulas(t *testing.T) {
	for _, c := range []struct {
		name              string
		counts            Counts
		ease, grade, smog float64 // NaN: not checked
		within            float64
	}{
		{"cat on the mat (arithmetic)", Counts{1, 6, 6, 0}, 116.145, -1.450, 3.1291, 0.0005},
		{"platypus sentence (encyclopaedia article on the Flesch tests: grade 11.3)", Counts{1, 13, 24, 4}, 37.455, 11.265, math.NaN(), 0.0006},
		{"US State of the Union 2023 (published 70, 6.5, 10.2)", Counts{754, 9334, 13686, 1154}, 70.225, 6.540, 10.197, 0.0006},
		{"SMOG, 30 sentences, 1 long word (formula)", Counts{30, 300, 400, 1}, math.NaN(), math.NaN(), 4.1721, 0.0001},
		{"SMOG, 30 sentences, 64 long words (formula)", Counts{30, 300, 400, 64}, math.NaN(), math.NaN(), 11.4731, 0.0001},
	} {
		for _, v := range []struct {
			what      string
			got, want float64
		}{{"ease", c.counts.Ease(), c.ease}, {"grade", c.counts.Grade(), c.grade}, {"SMOG", c.counts.SMOG(), c.smog}} {
			if !math.IsNaN(v.want) && math.Abs(v.got-v.want) > c.within {
				t.Errorf("%s: %s is %.4f, want %.4f", c.name, v.what, v.got, v.want)
			}
		}
	}
}

// Syllables as the CMU pronouncing dictionary has them (from memory), and the
// field's words as they are said.
func TestSyllables(t *testing.T) {
	for word, want := range map[string]int{
		"the": 1, "foot": 1, "ankle": 2, "carbon": 2, "spring": 1, "heel": 1, "height": 1, "prosthetist": 3,
		"question": 2, "questions": 2, "walked": 1, "wanted": 2, "shoes": 1, "changes": 2, "makes": 1, "table": 2,
		"reason": 2, "quiet": 2, "decision": 3, "motion": 2, "multi-axis": 4, "family": 3, "material": 4, "radio": 3,
		"side": 1, "sidewalk": 2, "battery": 3, "doctor": 2, "emergency": 4, "simple": 2, "hydraulic": 3, "people": 2,
		"they": 1, "you're": 1, "isn't": 2, "socket": 2, "pieces": 2, "bodies": 2, "create": 2, "bent": 1, "special": 2,
	} {
		got := Syllables(word)
		if d := got - want; d < 0 || d > 0 {
			t.Errorf("%q: %d syllables, want %d", word, got, want)
		}
	}
}

func TestSentences(t *testing.T) {
	for text, want := range map[string]int{
		"One. Two? Three!":                 3,
		"A slope of 8.33 percent is steep": 1,
		`He said "stop." Then he went.`:    2,
		"":                                 0,
	} {
		if got := len(Sentences(text)); got != want {
			t.Errorf("%q: %d sentences, want %d: %q", text, got, want, Sentences(text))
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
