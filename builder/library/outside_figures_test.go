package library_test

import (
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/internal/librarytest"
	"keelpath/builder/library"
	"keelpath/builder/tree"
)

// texts gives every explainer and tree file of the built-in content by name.
func texts(l *library.Library) map[string]string {
	out := map[string]string{}
	for _, p := range l.Explainers {
		out[path.Base(p.File)] = string(l.File(p.File))
	}
	for _, t := range l.Trees {
		out[path.Base(t.File)] = string(l.File(t.File))
	}
	return out
}

// Levels and codes on all pages: K0 to K4 and no halves; no code whose level no
// seen source gives; L5991 is a part for a bone implant and no foot; L5992 is a
// foot shell. Sources: as in TestLevelsAgainstThePolicy; the two last from code
// listings and a payer's bulletin.
func TestCodesOnEveryPage(t *testing.T) {
	levels, codes := 0, 0
	for name, text := range texts(librarytest.Load(t)) {
		for _, wrong := range wrongCodes(text) {
			t.Errorf("%s: %s", name, wrong)
		}
		levels += len(levelForm.FindAllString(text, -1))
		codes += strings.Count(text, "L5")
	}
	if levels < 5 || codes < 10 {
		t.Errorf("only %d levels and %d codes were looked at", levels, codes)
	}
	// What it must find, or it finds nothing.
	for text, want := range map[string]int{
		"K0, K1, K2, K3 and K4. L5987, and the foot shell L5992.": 0,
		"a K5 walker":  1,
		"a K2.5 level": 1,
		"K-3":          1,
		"L5968":        1,
		"L5971, L5975, L5982, L5985, L5986 and L5991": 6,
		"the foot L5992":                1,
		"L5992\nis a shell":             1,
		"K7 and L5968 at the same time": 2,
	} {
		if got := wrongCodes(text); len(got) != want {
			t.Errorf("%q: %q is found wrong, and %d things are", text, got, want)
		}
	}
}

var levelForm = regexp.MustCompile(`\bK-?\d[.,]?\d*`)

// wrongCodes gives what a text says wrong of levels and codes.
func wrongCodes(text string) (out []string) {
	for _, k := range levelForm.FindAllString(text, -1) {
		if k = strings.TrimRight(k, ".,"); !slices.Contains([]string{"K0", "K1", "K2", "K3", "K4"}, k) {
			out = append(out, "it speaks of "+k)
		}
	}
	for _, unknown := range []string{"L5968", "L5971", "L5975", "L5982", "L5985", "L5986", "L5991"} {
		if strings.Contains(text, unknown) {
			out = append(out, "it gives "+unknown)
		}
	}
	for line := range strings.Lines(text) {
		if strings.Contains(line, "L5992") && !strings.Contains(line, "shell") {
			out = append(out, "it gives L5992 and does not say that it is a shell: "+line)
		}
	}
	return out
}

// What pages say of measures, coverage and other countries, each against its source.
func TestFiguresAgainstTheSources(t *testing.T) {
	l := librarytest.Load(t)
	for _, c := range []struct {
		page, line, source string
		says               []string
	}{
		{"documenting-need", "Amputee Mobility Predictor", "Gailey and others 2002, Arch Phys Med Rehabil 83:613", []string{"191 people", "0.99", "four levels"}},
		{"documenting-need", "Two-minute walk", "Reid and others 2015, J Rehabil Med 47(3); seven at level 2: a news summary of Gaunaurd and others", []string{"0.91", "86 people", "seven in the level 2"}},
		{"documenting-need", "Timed walk over 10 m", "Batten and others 2019, Prosthet Orthot Int 43:196: medians with middle halves .25-.54 and .50-.71", []string{"110 people", "0.25 to 0.54 m/s at level 2", "0.50 to 0.71 at level 3"}},
		{"documenting-need", "L test", "Deathe and Miller 2005, Phys Ther 85:626", []string{"20 m", "two transfers", "four turns", "93 people", "0.96 and 0.97"}},
		{"documenting-need", "Self-report of mobility", "Hafner and others 2017, PMC5276724", []string{"0.54"}},
		{"documenting-need", "Socket comfort", "Hanspal and others 2003", []string{"0 to 10", "44 people"}},
		{"documenting-need", "varied in the community", "doi 10.1177/0309364620927608: 19.2 % in 49 people", []string{"49 people", "19 percent"}},
		{"falls", "walk, turn and sit down", "Dite and others 2007: 19 s; Sawers and Hafner 2020: 8.17 s", []string{"19 seconds", "about 8."}},
		{"paying-and-coverage", "The yes then holds", "a contractor's page on prior authorization", []string{"fifth business day", "within seven days", "two business days", "120 days"}},
		{"payer-levels", "A level is not a test score", "the study of 198 people on predicting levels", []string{"198 people", "over 80 times in 100"}},
		{"levels-in-other-countries", "| United Kingdom |", "the UK grades, six of them", []string{"from A to F"}},
		{"levels-in-other-countries", "| Germany |", "the German register of aids, product group 24", []string{"from 0 to 4"}},
		{"levels-in-other-countries", "| France |", "order of 30 November 2016", []string{"class 1, 2 or 3", "The foot"}},
	} {
		found := false
		for line := range strings.Lines(string(l.File("content/en/" + c.page + ".md"))) {
			if !strings.Contains(line, c.line) {
				continue
			}
			found = true
			for _, s := range c.says {
				if !strings.Contains(line, s) {
					t.Errorf("%s, %q: it does not say %q (%s)", c.page, c.line, s, c.source)
				}
			}
		}
		if !found {
			t.Errorf("%s no longer has a line with %q", c.page, c.line)
		}
	}
}

func mark(t *testing.T, l *library.Library, id, row string) int {
	t.Helper()
	ft := l.FootType(id)
	if ft == nil || ft.Cells[row] == nil {
		t.Fatalf("there is no cell %s of %s", row, id)
	}
	return ft.Cells[row].Mark
}

// endingsWith gives the endings of a tree that bring a foot type up.
func endingsWith(l *library.Library, id, footType string) []string {
	var out []string
	for _, e := range l.Tree(id).Endings {
		if slices.ContainsFunc(e.Types, func(talk tree.Talk) bool { return talk.Type.S == footType }) {
			out = append(out, e.ID.S)
		}
	}
	return out
}

// There are over two hundred feet on the market, and about nine in ten of them
// are of class three. Common practice, no source. The page gives no such count; its chart
// agrees in that most codes begin at level 3.
func TestMostFeetBeginAtThree(t *testing.T) {
	page := string(librarytest.Load(t).File("content/en/payer-levels.md"))
	count := map[string]int{}
	for _, m := range regexp.MustCompile(`(?m)^\| (\d) and up \|(.*)\|$`).FindAllStringSubmatch(page, -1) {
		count[m[1]] = len(regexp.MustCompile(`L5\d{3}`).FindAllString(m[2], -1))
	}
	if count["3"] <= count["1"]+count["2"] {
		t.Errorf("codes by level: %v, and most begin at level 3", count)
	}
}

// There are feet rated for 136 to 181 kg (300 to 400 lb). Common practice, no
// source. So no weight in that range may be refused, and the page must not say
// that there is no such foot.
func TestHeavyWearers(t *testing.T) {
	l := librarytest.Load(t)
	for _, body := range []string{"136 kg", "181 kg", "300 lb", "400 lb"} {
		types(t, l, "loads-and-weight", tree.Answers{"signs": {"none"}, "change": {"same"}, "body": {body}, "things": {"pack"}, "carried": {"24.5 kg"}})
	}
	if page := string(l.File("content/en/weight-and-loads.md")); !strings.Contains(page, "There are feet for higher weights") {
		t.Error("the page on weight no longer says that there are feet for higher weights")
	}
}

// Heels of about 50 mm (2 in) call for a foot whose heel can be set, and those
// are low to medium performers. Common practice, no source. The heel itself is tested by
// TestHeelRule.
func TestHeelYouSetIsNoStrongSpring(t *testing.T) {
	l := librarytest.Load(t)
	if got, spring := mark(t, l, "heel-you-set", "push"), mark(t, l, "carbon-spring", "push"); got > 2 || got >= spring {
		t.Errorf("the push of a heel you set is %d, and of a carbon spring %d", got, spring)
	}
	for _, ft := range l.FootTypes {
		if !ft.Addon && ft.ID.S != "heel-you-set" && ft.Cells["heel-change"].Mark >= mark(t, l, "heel-you-set", "heel-change") {
			t.Errorf("%s changes heels as far as a foot that is made for it", ft.ID.S)
		}
	}
}

// Spring feet cost from about one thousand to ten thousand dollars. Common
// practice, no source. So they stand above simple feet and no higher than computer
// ankles, and no page for patients gives a price but the one that could be checked: what US Medicare allows for a new shell, with its
// month (a listing of its fee file, code L5992).
func TestCostOfSprings(t *testing.T) {
	l := librarytest.Load(t)
	for _, spring := range []string{"carbon-spring", "glass-spring"} {
		for _, simple := range []string{"solid-ankle", "single-axis", "flexible-keel"} {
			if mark(t, l, spring, "cost") <= mark(t, l, simple, "cost") {
				t.Errorf("%s does not cost more than %s", spring, simple)
			}
		}
		if mark(t, l, spring, "cost") > mark(t, l, "microprocessor-ankle", "cost") {
			t.Errorf("%s costs more than a microprocessor ankle", spring)
		}
	}
	for name, text := range texts(l) {
		const shell = "$127.11"
		if p := price.FindString(strings.ReplaceAll(text, shell, "")); p != "" {
			t.Errorf("%s gives a price: %s", name, p)
		}
		if strings.Contains(text, shell) && (!strings.Contains(text, "US Medicare") || !strings.Contains(text, "April 2026")) {
			t.Errorf("%s gives the price of a shell without its place and time", name)
		}
	}
	// What it must find, and what it must pass.
	for _, text := range []string{"from $1,000", "$ 10", "about €900", "£5", "1000 dollars", "2,000 euros", "9 USD", "9EUR", "300 pounds sterling", "ten thousand dollars", "1000 Dollars"} {
		if !price.MatchString(text) {
			t.Errorf("%q is a price, and is not found", text)
		}
	}
	for _, text := range []string{"300 pounds of weight", "a dollar here or there", "what will it cost me?", "K3 in 2,000 people"} {
		if p := price.FindString(text); p != "" {
			t.Errorf("%q is taken for a price: %q", text, p)
		}
	}
}

var price = regexp.MustCompile(`(?i)[$€£]\s?\d|(?:\d|\b(?:hundred|thousand|million))\s?(?:dollars|euros|pounds sterling|USD|EUR)\b`)

// A hydraulic ankle serves slopes and uneven ground, and not heel height. Common
// practice, no source.
func TestHydraulicAnkleIsForGround(t *testing.T) {
	l := librarytest.Load(t)
	for _, fixed := range []string{"solid-ankle", "carbon-spring"} {
		for _, row := range []string{"on-slopes", "side-tilt"} {
			if mark(t, l, "hydraulic-ankle", row) <= mark(t, l, fixed, row) {
				t.Errorf("%s: a hydraulic ankle has no more of it than %s", row, fixed)
			}
		}
	}
	if got := mark(t, l, "hydraulic-ankle", "heel-change"); got > 1 {
		t.Errorf("heel change is %d, and at most a small change was expected", got)
	}
	if got := endingsWith(l, "heel-height", "hydraulic-ankle"); len(got) > 0 {
		t.Errorf("the heel tree brings up a hydraulic ankle at %v", got)
	}
	if len(endingsWith(l, "hills-and-ramps", "hydraulic-ankle")) == 0 {
		t.Error("the hills tree never brings up a hydraulic ankle")
	}
}

// The more an ankle moves, the less its spring gives back. Common practice, no
// source. It is a rule for ankles that give way: a glass spring bends as a spring, and a
// powered ankle adds power.
func TestMotionCostsPush(t *testing.T) {
	l := librarytest.Load(t)
	const spring = "carbon-spring"
	for _, moves := range []string{"single-axis", "multi-axis", "hydraulic-ankle", "microprocessor-ankle"} {
		if mark(t, l, moves, "ankle-motion") < mark(t, l, spring, "ankle-motion") {
			t.Errorf("%s moves less than %s", moves, spring)
		}
		if mark(t, l, moves, "push") >= mark(t, l, spring, "push") {
			t.Errorf("%s gives as much push as %s", moves, spring)
		}
	}
	if got := l.Explainer("motion-against-push").Message.S; !strings.Contains(got, "The more an ankle gives way, the less its spring gives back.") {
		t.Errorf("the page's message reads %q", got)
	}
}
