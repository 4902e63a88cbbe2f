package browsertest

import (
	"fmt"
	"slices"
	"testing"

	"keelpath/builder/tree"
)

// What the way to a sheet may cost, from the home page, without the safety screen: half of the worked examples stay
// within the first pair, nine in ten within the second. The line at the foot that is the same on every screen (the sheet as it
// grows, all topics, clear) is not counted again and again.
const (
	halfTaps, halfWords = 9, 600
	mostTaps, mostWords = 14, 900
	// With nothing to tell, the safety screen costs the leg's answer and "None of these". 99 of its words are the gate's
	// lines, which name each family of signs, and 13 say whom to call; with the two questions, their answers and the way back
	// that is 141. The rest says how to answer: with the leg off just now, in part, what a limb is, and where to look if one cannot feel. None of
	// that is cut or folded for a count.
	safetyTaps, safetyWords = 2, 187
)

// cost is what one worked example has to press and to read.
type cost struct {
	Who         string
	Taps, Words int
}

// countWords counts what stands on the page to be read: what is folded, hidden or only for those who listen is not.
const countWords = `
const wordsIn = (e) => {
  const count = (s) => (s.match(/\S+/g) || []).length;
  let n = count(e.innerText);
  for (const u of e.querySelectorAll(".unseen")) if (u.getClientRects().length) n -= count(u.innerText);
  return n;
};`

// taps gives how often someone presses who answers a question so: in the box, and on "Go on" behind what is written or ticked.
func taps(q *tree.Question, chosen []string) int {
	switch {
	case len(chosen) == 1 && chosen[0] == tree.Skip:
		return 1
	case q.Measure != nil && q.Measure.Like(chosen[0]) == nil:
		return 2
	case q.Measure == nil && q.Pick == tree.PickAny:
		return len(chosen) + 1
	}
	return 1
}

// Every worked example that ends in an ordinary ending is taken from the home page to the sheet, and counted.
func TestWayToASheet(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.size(360, 740)
	b.open(onDisk("index.html"))
	home := eval[int](b, countWords+`wordsIn(document.querySelector("main"))`)
	var all []cost
	for _, tr := range lib.PatientTrees() {
		var some []cost
		ways := [][][]string{}
		for _, ex := range tr.Examples {
			path := walk(t, tr, ex.Given())
			if e := tr.Ending(path.Ending); e.Safety || e.Sign.Given() {
				continue
			}
			one := cost{Who: tr.ID.S + ": " + ex.Who.S, Taps: 1 + 1 + 1} // the door, the topic, the sheet
			steps := [][]string{}
			for _, s := range path.Steps {
				steps = append(steps, s.Chosen)
				one.Taps += taps(tr.Question(s.Question), s.Chosen)
			}
			some, ways = append(some, one), append(ways, steps)
		}
		b.openPlanner(onDisk)
		for i, n := range eval[[]int](b, fmt.Sprintf(`(() => {%s%s
const view = () => wordsIn(planner.querySelector('[data-slot="view"]'));
return %s.map((steps) => {
  let n = view();
  answer([%q]); pass();
  for (const ids of steps) {
    n += view();
    if (String(ids) === %q) button("skip"); else answer(ids);
  }
  n += view();
  button("clear"); button("clear-now");
  return n;
}); })()`, hands, countWords, quoted(b, ways), tr.ID.S, tree.Skip)) {
			some[i].Words = home + n
		}
		all = append(all, some...)
	}
	if len(all) < 100 {
		t.Fatalf("only %d examples were counted", len(all))
	}
	for _, c := range []struct {
		name       string
		of         func(cost) int
		half, most int
	}{{"taps", func(c cost) int { return c.Taps }, halfTaps, mostTaps}, {"words", func(c cost) int { return c.Words }, halfWords, mostWords}} {
		slices.SortFunc(all, func(a, b cost) int { return c.of(a) - c.of(b) })
		half, most := all[(len(all)-1)/2], all[len(all)*9/10]
		t.Logf("%s of %d examples: half within %d, nine in ten within %d, at most %d (%s); the home page has %d words", c.name, len(all), c.of(half), c.of(most), c.of(all[len(all)-1]), all[len(all)-1].Who, home)
		if c.of(half) > c.half || c.of(most) > c.most {
			t.Errorf("%s: half of the examples need %d (want %d at most), nine in ten %d (want %d)", c.name, c.of(half), c.half, c.of(most), c.most)
		}
	}
}

// The safety screen is quick to pass for who has nothing to tell.
func TestCostOfTheSafetyScreen(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.size(360, 740)
	b.openPlanner(onDisk)
	got := eval[[]int](b, fmt.Sprintf(`(() => {%s%s
const view = () => wordsIn(planner.querySelector('[data-slot="view"]'));
answer(["hills-and-ramps"]);
let taps = 0, n = 0;
for (; planner.querySelector(".safety") && taps < 9; taps++) {
  n += view();
  const leg = planner.querySelector('[data-leg="worn"]');
  if (leg) tapOn(leg, "leg"); else button("none");
}
return [taps, n]; })()`, hands, countWords))
	if got[0] != safetyTaps || got[1] > safetyWords {
		t.Errorf("with nothing to tell the safety screen takes %d taps and %d words, want %d and at most %d", got[0], got[1], safetyTaps, safetyWords)
	}
}
