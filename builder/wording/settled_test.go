package wording

import (
	"strings"
	"testing"
)

func TestSettled(t *testing.T) {
	for _, c := range []struct {
		text, place string
		want        string // the words, several joined by " | "
	}{
		{"A few short questions.", "", "short questions"},
		{"A poor line-up, and a wrong set-up or a set-up check.", "", "line-up | a wrong set-up | set-up check"},
		{"The set-up\nof your leg.", "", "The set-up"},
		{"A fluid ankle, or oil ankles.", "", "fluid ankle | oil ankles"},
		{"A twist unit and a rotation unit.", "", "twist unit | rotation unit"},
		{"A Computer ankle.", "", "Computer ankle"},
		{"Ask about your amputation level.", "", "amputation level"},
		{"A child with an ankle-level limb.", "", "ankle-level limb"},
		{"Walking on level ground, and the level in your chart.", "", ""},
		{"All questions, by topic.", "", "questions, by topic"},
		{"Its firmness.", "", "firmness"},
		{"The payer's form, and payers.", "", "payer | payers"},
		{"A try-out of tryouts.", "", "try-out | tryouts"},
		{"A heel you set, and heels that you can set yourself.", "", "heel you set | heels that you can set yourself"},
		{"My stump and stumps.", "", "stump | stumps"},
		{"The sound leg and the sound side.", "", "sound leg | sound side"},

		// What may be said.
		{"The set-up shoe. A used foot is not made for your set-up. A tool.", "", ""},
		{"An axial rotation unit.", "", ""},
		{"The payer levels, 0 to 4.", "", ""},
		{"A residual limb or a stump.", "", ""},
		{"Sound side means your other leg. It makes a sound as a leg does.", "", ""},
		{"A firm heel, and a level that was a trial.", "", ""},
		{"Three computers, oil and a hydraulic ankle, a torsion unit, alignment.", "", ""},

		// The words of a place hold there and nowhere else.
		{"Trainers on the pavement, by the kerb.", "the US", "Trainers | pavement | kerb"},
		{"The colour, discoloured; in the centre, a grey fibre.", "the US", "colour | discoloured | centre | grey | fibre"},
		{"Neighbours practise by the metre, and organise a programme for tyres.", "the US", "Neighbours | practise | metre | organise | programme | tyres"},
		{"Sneakers on the sidewalk: a color in the center, gray fibers, practice by the meter, organize.", "the US", ""},
		{"Trainers on the pavement, in colour, with firmness.", "the UK", "firmness"},
		{"Exercise, otherwise; raised, advised, promise.", "the US", ""},
	} {
		var got []string
		for _, h := range Settled(c.text, c.place) {
			got = append(got, h.Words)
			if h.Kind != Unsettled || h.Instead == "" || strings.Join(strings.Fields(c.text[h.From:h.To]), " ") != h.Words {
				t.Errorf("%q: a hit without its place or a way out: %+v", c.text, h)
			}
		}
		if s := strings.Join(got, " | "); s != c.want {
			t.Errorf("%q in %q gives %q, want %q", c.text, c.place, s, c.want)
		}
	}
}

// A way out names the word to use, and uses none that is not used.
func TestSettledWaysOut(t *testing.T) {
	for place, rules := range map[string][]settledRule{"everywhere": settledWords, "the US": wordsOfUS} {
		for _, r := range rules {
			if !strings.Contains(r.use, `"`) {
				t.Errorf("%s: the way out names no word to use: %s", place, r.use)
			}
			if hits := Settled(r.use, "the US"); len(hits) > 0 {
				t.Errorf("%s: the way out %q uses %q itself", place, r.use, hits[0].Words)
			}
		}
	}
}

// What is asked of a text first loses no word: each alternative of each rule is tried.
func TestSettledLosesNothing(t *testing.T) {
	tried := 0
	for _, l := range append([]*settledList{anywhere}, byPlace["the US"]) {
		for n, r := range l.rules {
			for _, alt := range alternatives(r.not.String()) {
				text := "So " + strings.ToUpper(alt) + " it"
				if !r.not.MatchString(text) {
					continue
				}
				tried++
				tries := false
				l.may().parts.In(text, func(m int) bool { tries = tries || m == n && l.may().words[n].may(small(text)); return true })
				if !tries {
					t.Errorf("%q is passed by", text)
				}
			}
		}
	}
	if tried < 40 {
		t.Errorf("only %d alternatives were tried", tried)
	}
}
