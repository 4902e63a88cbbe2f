package proof_test

import (
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/tree"
)

// sound is a small tree without a fault, with a bit of everything: answers,
// several answers, measures, a worked-out value, routes on earlier answers.
const sound = `values:
  needed: ankle_needed(steepness)
questions:
  safety:
    text: Any fall or new pain?
    why: Some things cannot wait.
    answers:
      "yes": { text: "Yes", go: stop }
      "no": { text: "No", go: knee }
      unsure: { text: Not sure, go: stop }
  knee:
    text: Which knee is on that side?
    why: The foot and the knee work as a team.
    answers:
      own: { text: My own, go: where }
      unit: { text: An artificial one, go: where }
      unsure: { text: Not sure, go: where }
  where:
    text: Where are your slopes?
    why: Places differ.
    pick: any
    answers:
      home: { text: At home }
      trails: { text: On trails }
      none: { text: None of these, alone: true, go: few }
    go: steepness
    skip: steepness
  steepness:
    text: How steep is the steepest?
    why: A steep one asks for more.
    measure: { unit: "%", from: 0, to: 40, step: 0.5 }
    routes:
      - { if: steepness < 5*percent, go: heel }
      - { if: steepness >= 5*percent && steepness < 20*percent, go: few }
      - { if: steepness >= 20*percent, go: steep }
    skip: heel
  heel:
    text: How high is your usual heel?
    why: A heel feels like a slope.
    measure: { unit: mm, from: 0, to: 60, step: 1 }
    routes:
      - { if: heel > 30*mm && knee == "unit", go: team }
      - { if: heel > 30*mm && knee != "unit", go: high }
      - { go: trip }
    skip: trip
  trip:
    text: Does the toe catch?
    why: It can make you fall.
    answers:
      "yes": { text: "Yes", go: team }
      "no": { text: "No" }
      unsure: { text: Not sure }
    routes:
      - { if: 'has(where, "trails")', go: high }
      - { go: few }
endings:
  stop: { title: Stop, safety: true, caution: Sit down., text: Call the clinic. }
  few: { title: Few, text: Talk it over. }
  steep: { title: Steep, text: "It asks for about {needed}." }
  high: { title: High, text: Ask about heels. }
  team: { title: Team, text: Ask about both. }
`

// faults are single slips of an author in the tree above. at is part of the
// line where the finding belongs.
var faults = []struct {
	name, old, new string
	check, words   string
	at             string
}{
	// No route takes an amount, or an answer.
	{"a gap between two routes", "if: steepness >= 20*percent, go", "if: steepness >= 25*percent, go", "route-gap", `"20 %"`, "steepness:"},
	{"a gap of one amount, at a limit", "steepness < 20*percent, go", "steepness < 19.5*percent, go", "route-gap", `"19.5 %"`, "steepness:"},
	{"a gap at the limit itself", "if: steepness >= 20*percent, go", "if: steepness > 20*percent, go", "route-gap", `"20 %"`, "steepness:"},
	{"a gap at the low end", "if: steepness < 5*percent, go", "if: steepness > 0*percent && steepness < 5*percent, go", "route-gap", `"0 %"`, "steepness:"},
	{"a gap at the high end", "if: steepness >= 20*percent, go", "if: steepness >= 20*percent && steepness < 40*percent, go", "route-gap", `"40 %"`, "steepness:"},
	{"a gap where an earlier answer is not known", "      - { go: trip }\n", "      - { if: heel <= 30*mm, go: trip }\n", "route-gap", `"31 mm"`, "heel:"},
	{"a gap for several answers", "      - { go: few }\n", "      - { if: '!has(where, \"trails\")', go: few }\n", "route-gap", `"no"`, "trip:"},
	{"a gap by a unit", "if: steepness >= 20*percent, go", "if: steepness >= 20*deg_slope, go", "formula", `"deg_slope"`, "steepness >= 20"},

	// Two routes take the same.
	{"an overlap at a limit", "steepness < 20*percent, go", "steepness <= 20*percent, go", "route-overlap", `"20 %"`, "if: steepness >= 20*percent"},
	{"an overlap over a stretch", "if: steepness < 5*percent", "if: steepness < 8*percent", "route-overlap", `"5 %"`, "steepness >= 5*percent"},
	{"an overlap by an earlier answer", `knee != "unit"`, `knee != "own"`, "route-overlap", `"31 mm"`, `knee != "own"`},
	{"an overlap of all", `heel > 30*mm && knee != "unit"`, `heel > 30*mm`, "route-overlap", `"31 mm"`, "if: heel > 30*mm, go: high"},

	// A condition that says nothing.
	{"beyond the measure", `if: heel > 30*mm && knee == "unit"`, `if: heel > 60*mm && knee == "unit"`, "dead-condition", "can never be true", `heel > 60*mm`},
	{"another unit than meant", `if: heel > 30*mm && knee != "unit"`, `if: heel > 30*cm && knee != "unit"`, "dead-condition", "can never be true", "30*cm"},
	{"always so", `if: heel > 30*mm && knee == "unit"`, `if: heel > 30*mm && heel >= 0*mm && knee == "unit"`, "dead-condition", "is always true", "heel >= 0*mm"},
	{"a part that is never so", `if: heel > 30*mm && knee == "unit"`, `if: heel > 30*mm && (knee == "unit" || heel > 90*mm)`, "dead-condition", "can never be true", "heel > 90*mm"},
	{"against itself", `if: heel > 30*mm && knee == "unit"`, `if: heel > 30*mm && knee == "unit" && knee == "own"`, "dead-condition", "can never be true", `knee == "own"`},
	{"an answer that led away before", `if: 'has(where, "trails")'`, `if: 'has(where, "trails") && has(where, "none")'`, "dead-condition", "can never be true", `has(where, "none")`},
	{"by an answer that leads elsewhere", `knee == "unit", go: team`, `knee == "unit" && safety != "yes", go: team`, "dead-condition", "is always true", `safety != "yes"`},
	{"a question that comes later", `if: heel > 30*mm && knee == "unit"`, `if: heel > 30*mm && trip == "yes"`, "dead-condition", "can never be true", `trip == "yes"`},
	{"by what an earlier measure let through", `if: heel > 30*mm && knee == "unit"`, `if: heel > 30*mm && steepness > 10*percent`, "dead-condition", "can never be true", "steepness > 10*percent"},
	{"by a worked-out value", `if: heel > 30*mm && knee == "unit"`, `if: heel > 30*mm && needed > 80*deg`, "dead-condition", "can never be true", "needed > 80*deg"},
	{"a condition on the route's own left-over", "      - { go: few }\n", "      - { if: 'trip == \"yes\"', go: team }\n      - { go: few }\n", "dead-condition", "can never be true", `trip == "yes"`},

	// A route that is never taken.
	{"after routes that cover all", "      - { if: steepness >= 20*percent, go: steep }\n", "      - { if: steepness >= 20*percent, go: steep }\n      - { go: few }\n", "dead-route", "never taken", "- { go: few }\n    skip: heel"},
	{"routes behind answers that all lead on", "      \"no\": { text: \"No\" }\n      unsure: { text: Not sure }\n", "      \"no\": { text: \"No\", go: few }\n      unsure: { text: Not sure, go: high }\n", "dead-route", "ever taken", "has(where"},
	{"a route after the one for all", "      - { if: 'has(where, \"trails\")', go: high }\n      - { go: few }\n", "      - { go: few }\n      - { if: 'has(where, \"trails\")', go: high }\n", "route-order", "before others", "- { go: few }"},

	// Out of reach.
	{"an ending that nothing leads to", "endings:\n", "endings:\n  lost: { title: Lost, text: Nobody comes here. }\n", "unreached", `ending "lost"`, "lost:"},
	{"an ending that its only way misses", "go: steep }", "go: high }", "unreached", `ending "steep"`, "steep: {"},
	{"a question that nothing leads to", "endings:\n", "  lost:\n    text: So?\n    why: To know.\n    answers: { \"yes\": { text: \"Yes\", go: few }, unsure: { text: Not sure, go: high } }\nendings:\n", "unreached", `question "lost"`, "lost:"},
	{"two questions that only lead on to each other's ending", "endings:\n", "  lost:\n    text: So?\n    why: To know.\n    answers: { \"yes\": { text: \"Yes\", go: late }, unsure: { text: Not sure, go: high } }\n  late:\n    text: So?\n    why: To know.\n    answers: { \"yes\": { text: \"Yes\", go: few }, unsure: { text: Not sure, go: high } }\nendings:\n", "unreached", `question "lost"`, "lost:"},
	{"the wrong start", "go: knee }", "go: where }", "unreached", `question "knee"`, "knee:"},

	// Round and round.
	{"an answer that leads back", "own: { text: My own, go: where }", "own: { text: My own, go: safety }", "circle", `back to "safety"`, "own:"},
	{"a skip that leads back", "    skip: trip\n", "    skip: where\n", "circle", `back to "where"`, "skip: where"},
	{"a route that leads back", "      - { go: few }\n", "      - { go: steepness }\n", "circle", `back to "steepness"`, "- { go: steepness }"},
	{"a question that leads to itself", "\"yes\": { text: \"Yes\", go: team }", "\"yes\": { text: \"Yes\", go: trip }", "circle", `back to "trip"`, "go: trip }\n      \"no\""},

	// Asked for nothing.
	{"all answers lead on alike", "\"no\": { text: \"No\", go: knee }", "\"no\": { text: \"No\", go: idle }", "idle-question", `"idle"`, "idle:"},
	{"an answer that no condition asks for", `      - { if: heel > 30*mm && knee == "unit", go: team }` + "\n" + `      - { if: heel > 30*mm && knee != "unit", go: high }` + "\n", "      - { if: heel > 30*mm, go: high }\n", "idle-question", `"knee"`, "knee:"},
	{"a measure whose routes all lead alike", "if: heel > 30*mm && knee == \"unit\", go: team }\n      - { if: heel > 30*mm && knee != \"unit\", go: high }", "if: heel > 30*mm && knee == \"unit\", go: trip }\n      - { if: heel > 30*mm && knee != \"unit\", go: trip }", "idle-question", `"heel"`, "heel:"},
}

// Every seeded fault is found, where it is, and nothing else is said; its
// mended twin gives nothing.
func TestSeededFaults(t *testing.T) {
	if fs := prove(t, sound); len(fs) > 0 {
		t.Fatalf("the tree without a fault has findings: %v", fs)
	}
	if len(faults) < 30 {
		t.Errorf("only %d faults", len(faults))
	}
	for _, c := range faults {
		t.Run(c.name, func(t *testing.T) {
			good := sound
			if strings.Contains(c.new, "go: idle") { // its twin asks the question for a reason
				good = strings.Replace(strings.Replace(sound, c.old, c.new, 1), "endings:\n", idle("knee", "high")+"endings:\n", 1)
				if fs := prove(t, good); len(fs) > 0 {
					t.Fatalf("the mended twin has findings: %v", fs)
				}
				good = strings.Replace(good, idle("knee", "high"), idle("knee", "knee"), 1)
			} else {
				if strings.Count(good, c.old) != 1 {
					t.Fatalf("%q stands %d times in the tree", c.old, strings.Count(good, c.old))
				}
				good = strings.Replace(good, c.old, c.new, 1)
			}
			fs := prove(t, good)
			if len(fs) == 0 {
				t.Fatal("nothing was found")
			}
			src := header + good
			for _, f := range fs {
				t.Logf("%s %s: %s %q", f.Place, f.Check, f.Text, f.Help)
			}
			f := fs[0]
			if f.Check != c.check || !strings.Contains(f.Text, c.words) {
				t.Errorf("%s with %q was expected", c.check, c.words)
			}
			if want := 1 + strings.Count(src[:strings.Index(src, c.at)], "\n"); f.Line != want {
				t.Errorf("it is said at line %d, and belongs to line %d", f.Line, want)
			}
			if len(fs) > 1 {
				t.Error("one fault gave more than one finding")
			}
		})
	}
}

func idle(yes, unsure string) string {
	return "  idle:\n    text: So?\n    why: To know.\n    answers: { \"yes\": { text: \"Yes\", go: " + yes + " }, unsure: { text: Not sure, go: " + unsure + " } }\n"
}

func prove(t *testing.T, body string) []finding.Finding {
	t.Helper()
	var list finding.List
	tr := tree.Parse("trees/random.yaml", []byte(strings.Replace(header, "start: q0", "start: safety", 1)+body), &list)
	if tr == nil {
		t.Fatal("no tree")
	}
	proved(t, tr, &list)
	return list.Sorted()
}
