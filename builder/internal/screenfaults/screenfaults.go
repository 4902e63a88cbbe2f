// Package screenfaults holds faults of the safety screen, each with the finding that
// it gets. No layer can make them, since the screen is sealed, so testdata/bad has none
// of them. Only tests use it.
package screenfaults

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// Fault is a change of the small screen, and what is found of it.
type Fault struct {
	Name   string
	Change []string // what stands there and what takes its place, in turns
	Check  string   // empty where nothing is to be found
	Says   string   // is part of the finding's sentence
	At     string   // stands on the line of the finding
}

// Screen is the small screen, given the way to the repository's root.
func Screen(root string) (string, error) {
	src, err := os.ReadFile(filepath.Join(root, "builder/safety/testdata/small.yaml"))
	return string(src), err
}

// In gives the screen with the fault in it. Each thing to change stands there once.
func (f Fault) In(screen string) (string, error) {
	for i := 0; i+1 < len(f.Change); i += 2 {
		if n := strings.Count(screen, f.Change[i]); n != 1 {
			return "", fmt.Errorf("%s: %q stands %d times in the screen", f.Name, f.Change[i], n)
		}
		screen = strings.Replace(screen, f.Change[i], f.Change[i+1], 1)
	}
	return screen, nil
}

// All gives each fault, beside changes that are none.
func All() []Fault {
	words := func(n int) string { return strings.TrimSpace(strings.Repeat("word ", n)) }
	const help = `"I may need help right now: chest pain, or it is hard to breathe"`
	const fall = `"A fall, or nearly: I fell, my knee gives way, or I feel faint"`
	const skin = `"My limb, skin, wound or other foot: a sore, a wound, new pain or swelling"`
	const leg = `"My leg itself: a crack, a loose part, a knee that gives way"`
	const despair = `"I feel hopeless, or I think of ending my life"`
	lines := func(a, b, c, d, e int) []string {
		return []string{help, words(a), skin, words(b), leg, words(c), fall, words(d), despair, words(e)}
	}
	return []Fault{
		{"the screen as it is", nil, "", "", ""},
		{"a line of 24 words", []string{help, words(24)}, "", "", ""},
		{"a line of 25 words", []string{help, words(25)}, "safety-screen", `the gate's line of group "help" has 25 words, and at most 24`, "line: word"},
		{"lines of 110 words", lines(24, 24, 24, 24, 14), "", "", ""},
		{"lines of 111 words", lines(24, 24, 24, 24, 15), "safety-screen", "the gate's lines have 111 words together, and at most 110", "groups:"},
		{"a sign twice", []string{"      end: {", "      fall: {"}, "repeated-id", `sign "fall" has an id that another sign has`, "ending my life**"},
		{"a sign called none", []string{"      end: {", "      none: {"}, "reserved-id", `sign "none" has an id`, "ending my life**"},
		{"a sign called unsure", []string{"      end: {", "      unsure: {"}, "reserved-id", `sign "unsure" has an id`, "ending my life**"},
		{"a sign that rests on nothing", []string{", basis: [common-practice]", ""}, "missing-key", `sign "end" does not say what it rests on`, "ending my life**"},
		{"a time that is none", []string{"when: crisis", "when: crises"}, "not-allowed", `sign "end" has the "when" "crises"`, "ending my life**"},
		{"an ending that is none", []string{"  soon: { title", "  later: { title: Later, steps: [Later.] }\n  soon: { title"}, "not-allowed", `ending "later" is not one of the screen's`, "later:"},
		{"no ending for soon", []string{"  soon: { title: Tell the clinic, steps: [Tell the clinic this week.] }\n", ""}, "safety-screen", `the screen has no ending "soon"`, "endings:"},
		{"no way for not sure", []string{"    unsure: { title: If in doubt, caution: Talk to someone today. }\n", ""}, "missing-key", `group "despair" does not say what "not sure" leads to`, "  despair:"},
		{"a group without a sign", []string{"    signs:\n      end: { text: \"**I think of ending my life**\", when: crisis, title: Thoughts of ending your life, caution: Talk to someone now., basis: [common-practice] }\n", ""}, "missing-key", `group "despair" has no signs`, "  despair:"},
		{"groups in another order", []string{"  despair:\n", "  hope:\n"}, "safety-screen", "the groups are help, skin, leg, fall, hope, and help, skin, leg, fall, despair were expected", "groups:"},
		{"another answer about the leg", []string{"    not-now:", "    never:"}, "safety-screen", "the answers to the leg question are worn, not-yet, never", "leg:"},
		{"a key that a sign does not have", []string{"when: crisis,", "when: crisis, color: red,"}, "unknown-key", `"color"`, "ending my life**"},
		{"a key that an ending does not have", []string{"steps: [Call today.]", "steps: [Call today.], color: red"}, "unknown-key", `"color"`, "steps: [Call today.]"},
		{"a key that a group does not have", []string{"    why: You are not alone with it.\n", "    why: You are not alone with it.\n    color: red\n"}, "unknown-key", `"color"`, "color: red"},
		{"a key that not sure does not have", []string{"caution: Talk to someone today. }", "caution: Talk to someone today., color: red }"}, "unknown-key", `"color"`, "color: red"},
		{"a key that the gate does not have", []string{"gate:\n", "gate:\n  color: red\n"}, "unknown-key", `"color"`, "color: red"},
		{"a key that the leg question does not have", []string{"  why: It decides", "  color: red\n  why: It decides"}, "unknown-key", `"color"`, "color: red"},
		{"a key that an answer does not have", []string{"tells: leg-worn }", "tells: leg-worn, color: red }"}, "unknown-key", `"color"`, "color: red"},
		{"a key that an example does not have", []string{"gate: [none], ending", "color: red, gate: [none], ending"}, "unknown-key", `"color"`, "color: red"},
		{"a key that the screen does not have", []string{"endings:\n", "color: red\nendings:\n"}, "unknown-key", `"color"`, "color: red"},
		{"an example that lands elsewhere", []string{"ending: today, cautions", "ending: now, cautions"}, "example", `the example lands at "today", and "now" was expected`, "A courier"},
		{"an example that lands nowhere", []string{"ending: none }", "ending: soon }"}, "example", `the example lands at "none", and "soon" was expected`, "A woman"},
		{"cautions in another order", []string{"cautions: [sore, crack]", "cautions: [crack, sore]"}, "example", "shown the cautions sore, crack, and crack, sore were expected", "A courier"},
		{"no caution where two are shown", []string{"cautions: [sore, crack]", "cautions: []"}, "example", "shown the cautions sore, crack, and of no sign were expected", "A courier"},
		{"a caution where none is shown", []string{"gate: [none], ending: none }", "gate: [none], ending: none, cautions: [sore] }"}, "example", "shown the cautions of no sign, and sore were expected", "A woman"},
		{"a sign that the gate did not open", []string{"gate: [skin, leg]", "gate: [skin]"}, "example", `tells a sign of group "leg", and the gate did not open it`, "A courier"},
		{"a sign of nobody", []string{"told: [sore, crack]", "told: [sores, crack]"}, "example", "does not answer what the screen asks", "A courier"},
		{"an example without the gate is asked every group", []string{"gate: [skin, leg], told", "told"}, "", "", ""},
	}
}
