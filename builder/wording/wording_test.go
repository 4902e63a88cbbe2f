package wording

import (
	"regexp/syntax"
	"slices"
	"strings"
	"testing"
)

func TestIn(t *testing.T) {
	for _, c := range []struct {
		text string
		want string // "choosing: words" or "steering: words", several joined by " | "
	}{
		// Choosing.
		{"This is the best foot.", "choosing: best"},
		{"It is ideal on hills, and ideally light.", "choosing: ideal | choosing: ideally"},
		{"A perfect fit.", "choosing: perfect"},
		{"We recommend a spring.", "choosing: recommend"},
		{"A recommended foot, and our recommendations.", "choosing: recommended | choosing: recommendations"},
		{"It is not suitable for wet rooms.", "choosing: suitable"},
		{"It is well suited to hills.", "choosing: well suited"},
		{"You need a softer heel.", "choosing: You need"},
		{"You’ll need a new foot.", "choosing: You’ll need"},
		{"It may be right for you.", "choosing: right for you"},
		{"Find the right foot for your day.", "choosing: right foot for"},
		{"You should get a hydraulic ankle.", "choosing: You should get"},
		{"People should wear a softer carbon foot.", "choosing: People should wear a softer carbon foot"},
		{"This is the foot for you.", "choosing: foot for you"},
		{"A good choice on grass.", "choosing: good choice"},
		{"Choosing your foot takes time.", "choosing: Choosing your foot"},
		{"It fits your needs.", "choosing: fits your needs"},
		{"You are a K3.", "choosing: You are a K3"},
		{"You're at level 2 now.", "choosing: You're at level 2"},
		{"You are probably a level 3 walker.", "choosing: You are probably a level 3"},
		{"Your level is 3.", "choosing: Your level is"},
		{"Your K-level is high.", "choosing: Your K-level is"},
		{"You qualify for more.", "choosing: You qualify"},
		{"That makes you a level 2.", "choosing: makes you a level"},
		{"You\nneed it.", "choosing: You\nneed"},

		{"Keelpath picks your foot.", "choosing: picks your foot"},
		{"Picks your foot", "choosing: Picks your foot"},
		{"Let us pick your next ankle.", "choosing: pick your next ankle"},
		{"It finds a foot in a minute.", "choosing: finds a foot"},
		{"It sets your level.", "choosing: sets your level"},

		// Steering.
		{"The Stepwell™ foot.", "steering: ™"},
		{"Stepwell(R) feet", "steering: (R)"},
		{"A revolutionary, state-of-the-art ankle.", "steering: revolutionary | steering: state-of-the-art"},
		{"From a leading maker.", "steering: leading"},
		{"The most advanced ankle.", "steering: most advanced"},
		{"A smart ankle for a natural gait.", "steering: smart ankle | steering: natural gait"},
		{"Clinically proven to help.", "steering: Clinically proven"},
		{"The next generation of feet.", "steering: next generation"},

		// What may be said.
		{"A tree never picks a foot.", ""},
		{"It does not pick your foot.", ""},
		{"The clinic sets your level.", ""},
		{"Keelpath does not pick the best foot.", ""},
		{"It never says which foot is best.", ""},
		{"There is no best foot.", ""},
		{"No foot is best on all ground.", ""},
		{"It saved a little at best.", ""},
		{"If you need help, call.", ""},
		{"Do you need a rail?", ""},
		{"The leading leg lands first.", ""},
		{"Ask for a foot for you to try.", ""},
		{"Your right foot is the artificial one.", ""},
		{"It can be steady if it is set right for the shoe.", ""},
		{"The clinic sets the level.", ""},
		{"Level 3 is for those who change speed.", ""},
		{"Have the heel checked; you should call today.", ""},
		{"You should have it checked.", ""},
		{"The bestowed thing, a suit and a recommencement.", ""},
		{"", ""},

		// An exception covers its own phrase and nothing more.
		{"Keelpath does not pick the best foot, but this is the best foot.", "choosing: best"},
		{"If you need help, you need a rail.", "choosing: you need"},
		{"At best it is ideal.", "choosing: ideal"},
	} {
		if fast, slow := In(c.text), without(c.text); !slices.Equal(fast, slow) {
			t.Errorf("%q: %v, and without the stems %v", c.text, fast, slow)
		}
		var got []string
		for _, h := range In(c.text) {
			got = append(got, string(h.Kind)+": "+h.Words)
			if c.text[h.From:h.To] != h.Words || h.Instead == "" {
				t.Errorf("%q: %+v", c.text, h)
			}
		}
		if s := strings.Join(got, " | "); s != c.want {
			t.Errorf("%q: found %q, want %q", c.text, s, c.want)
		}
	}
}

// without finds hits with all rules, whatever the stems and the single lines say.
func without(text string) []Hit { return look(text, rules) }

// The stems lose no hit: each alternative of each rule is tried as it stands,
// as far as it is made of plain words.
func TestStemsLoseNothing(t *testing.T) {
	tried := 0
	for _, r := range rules {
		for _, alt := range alternatives(r.words.String()) {
			text := "so " + alt + " it"
			if slow := without(text); len(slow) > 0 {
				tried++
				if fast := In(text); !slices.Equal(fast, slow) {
					t.Errorf("%q: %v, and without the stems %v", text, fast, slow)
				}
			}
		}
	}
	if tried < 150 {
		t.Errorf("only %d alternatives were tried", tried)
	}
}

// alternatives writes out what an expression's groups, options and classes
// allow, each choice at least once.
func alternatives(re string) []string {
	tree, err := syntax.Parse(re, syntax.Perl)
	if err != nil {
		panic(err)
	}
	return write(tree)
}

func write(re *syntax.Regexp) []string {
	switch re.Op {
	case syntax.OpLiteral:
		return []string{strings.ToLower(string(re.Rune))}
	case syntax.OpCharClass:
		if slices.Contains(re.Rune, ' ') || slices.Contains(re.Rune, '\t') {
			return []string{" "}
		}
		return []string{strings.ToLower(string(re.Rune[0])), strings.ToLower(string(re.Rune[len(re.Rune)-1]))}
	case syntax.OpCapture, syntax.OpPlus:
		return write(re.Sub[0])
	case syntax.OpQuest, syntax.OpStar:
		return append(write(re.Sub[0]), "")
	case syntax.OpRepeat:
		return write(re.Sub[0])
	case syntax.OpAlternate:
		var out []string
		for _, s := range re.Sub {
			out = append(out, write(s)...)
		}
		return out
	case syntax.OpConcat:
		out := []string{""}
		for _, s := range re.Sub {
			var next []string
			all := write(s)
			for i, o := range out {
				for j, w := range all {
					if len(out)*len(all) < 4000 || i%7 == 0 || j == 0 {
						next = append(next, o+w)
					}
				}
			}
			out = next
		}
		return out
	}
	return []string{""}
}

// What the program makes of a reader's answers neither grades nor presses, beyond
// what no text may do.
func TestInMade(t *testing.T) {
	for text, want := range map[string]string{
		"This foot is better, and that one worse.": "better worse",
		"It should be the one to choose.":          "should choose",
		"It ranks first and scores high.":          "ranks scores",
		"A good spring. The preferred one.":        "good preferred",
		"It is the best foot.":                     "best",
		"No foot type meets both wishes.":          "",
		"Which of the two matters more to you?":    "",
		"A goods lift by the mustard shop.":        "",
	} {
		var got []string
		for _, h := range InMade(text) {
			got = append(got, h.Words)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%q: %q, and %q was expected", text, got, want)
		}
	}
}
