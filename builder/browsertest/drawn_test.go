package browsertest

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/tree"
)

// sheetFigure is the drawing on the sheet's paper, as it is measured for print.
type sheetFigure struct {
	Shown    bool
	Own      string   // the picture of the reader's amounts
	Tiles    []string // or the things that were told
	Says     []string // what stands under it
	Degrees  []string // what stands inside it
	Hidden   bool     // from who listens
	Grounds  []string // colours of ground lines
	Sideways bool     // it is wider than the paper
}

// answering gives answers, each behind its question.
func answering(pairs ...string) tree.Answers {
	out := tree.Answers{}
	for i := 0; i < len(pairs); i += 2 {
		out[pairs[i]] = append(out[pairs[i]], pairs[i+1])
	}
	return out
}

// drawn takes a topic to its sheet and looks at the drawing there, once its parts have come.
func (b *tab) drawn(id string, answers tree.Answers) sheetFigure {
	b.t.Helper()
	b.openPlanner(onDisk)
	b.take(lib.Tree(id), answers)
	b.tap("sheet")
	return b.sheetFigure()
}

func (b *tab) sheetFigure() sheetFigure {
	b.t.Helper()
	b.run(`keelpathGround.ready(location.hash).then(() => new Promise((done) => setTimeout(done, 100)))`)
	return eval[sheetFigure](b, `(() => {
const paper = document.querySelector(".sheet-paper"), was = paper.className;
paper.classList.add("measuring");
const f = document.querySelector(".sheet-paper figure"), svgs = Array.from(f.querySelectorAll("svg")), texts = (at) => Array.from(f.querySelectorAll(at), (e) => e.textContent);
const out = { Shown: !f.hidden, Own: svgs.map((s) => s.getAttribute("data-own") || "").join(""), Tiles: svgs.map((s) => s.getAttribute("data-ground")).filter((n) => n), Says: texts("figcaption p"), Degrees: texts("text"),
  Hidden: svgs.every((s) => s.getAttribute("aria-hidden") === "true"), Grounds: Array.from(f.querySelectorAll(".g-line"), (e) => getComputedStyle(e).stroke), Sideways: f.getBoundingClientRect().right > f.closest(".walk").getBoundingClientRect().right + 1 };
paper.className = was;
return out; })()`)
}

// The sheet has the reader's own drawing: the amount that was told, else the thing; and none of what was not told. It is
// black on white, and one side of paper is still enough.
func TestSheetIsDrawn(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	for _, c := range []struct {
		id      string
		answers tree.Answers
		want    sheetFigure
	}{
		// An angle of 14 % is 8.0 degrees: atan 0.14.
		{"hills-and-ramps", answering("change", "no", "where", "home", "steepness", "14 %", "hardest", "down", "going-down", "fast"), sheetFigure{Own: "slope", Says: []string{"14 % (about 8 degrees, 1:7.1)"}, Degrees: []string{"8°", "8°"}}},
		{"heel-height", answering("knee", "none", "shoes", "heel", "usual", "10 mm", "other", "50 mm", "hands", "yes"), sheetFigure{Own: "heels", Says: []string{"10 mm (3/8 in)", "50 mm (2 in)"}}},
		{"loads-and-weight", answering("signs", "none", "change", "same", "things", "pack", "body", "80 kg", "carried", "20 kg"), sheetFigure{Own: "load", Says: []string{"20 kg (44 lb)"}}},
		{"sport-and-play", answering("sport", "hike"), sheetFigure{Tiles: []string{"trail"}}},
		// A slope that was not measured has no angle to be drawn at, and a letter from a plan is no thing to walk on.
		{"hills-and-ramps", answering("change", "no", "where", "home", "steepness", tree.Skip, "hardest", "down", "going-down", "fast"), sheetFigure{Tiles: []string{"ramp-door", "down-hill"}}},
		{"paying-for-it", tree.Answers{}, sheetFigure{}},
	} {
		answers := c.answers
		if len(answers) == 0 {
			answers = lib.Tree(c.id).Examples[0].Given()
		}
		got := b.drawn(c.id, answers)
		if got.Shown != (c.want.Own != "" || len(c.want.Tiles) > 0) || got.Own != c.want.Own || !slices.Equal(got.Tiles, c.want.Tiles) || !slices.Equal(got.Says, c.want.Says) || !slices.Equal(got.Degrees, c.want.Degrees) {
			t.Errorf("%s %v is drawn as %+v, want %+v", c.id, answers, got, c.want)
		}
		if !got.Shown {
			continue
		}
		if !got.Hidden || got.Sideways || slices.ContainsFunc(got.Grounds, func(s string) bool { return s != "rgb(0, 0, 0)" }) {
			t.Errorf("%s: the drawing is %+v; want it hidden from who listens, inside the margin and with a black ground", c.id, got)
		}
		for _, paper := range []string{"A4", "Letter"} {
			if p := b.print(paper, "drawn-"+c.id); p.Pages != 1 {
				t.Errorf("%s: %d pages of %s", c.id, p.Pages, paper)
			}
		}
	}
}

// A sentence that is taken off takes its drawing along, and the text to copy has none of it.
func TestDrawingGoesWithItsSentence(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	if got := b.drawn("hills-and-ramps", answering("change", "no", "where", "home", "steepness", "14 %", "hardest", "down", "going-down", "fast")); got.Own != "slope" {
		t.Fatalf("the slope is drawn as %+v", got)
	}
	b.hand(`tapOn(unfold(planner.querySelector("#line-slope")), "the slope's sentence")`)
	if got := b.sheetFigure(); got.Own != "" || len(got.Tiles) == 0 {
		t.Errorf("with the slope taken off the sheet is drawn as %+v", got)
	}
	b.run(fmt.Sprintf(`(() => {%s for (const box of planner.querySelectorAll('[data-slot="lines"] input:checked')) box.click(); })()`, hands))
	if got := b.sheetFigure(); got.Shown {
		t.Errorf("with every sentence taken off the sheet is drawn as %+v", got)
	}
	if text := b.print("A4", "drawn-none").Text; strings.Contains(text, "8°") {
		t.Errorf("the paper still has the angle: %s", text)
	}
}

// Where the drawings do not come the sheet prints without one.
func TestSheetWithoutDrawings(t *testing.T) {
	t.Parallel()
	dir := brokenSite(t, plannerName, `data-ground="../assets/ground.`, `data-ground="../assets/gone.`)
	b := newTab(t)
	b.openPlanner(func(name string) string { return "file://" + dir + "/" + name })
	b.take(lib.Tree("sport-and-play"), answering("sport", "hike"))
	b.tap("sheet")
	if p := b.print("A4", "undrawn"); p.Pages != 1 || !strings.Contains(p.Text, "hike, hunt or fish") {
		t.Errorf("%d pages: %s", p.Pages, p.Text)
	}
	b.forgive() // of the file that is not there
}

// A kind of foot at an ending has its cutaway once the list is opened, and not before: for every kind that any ending names.
func TestKindsAreCutOpen(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.size(360, 740)
	seen := map[string]bool{}
	for _, tr := range lib.PatientTrees() {
		for _, ex := range tr.Examples {
			path := walk(t, tr, ex.Given())
			e := tr.Ending(path.Ending)
			if e == nil || !slices.ContainsFunc(e.Types, func(talk tree.Talk) bool { return !seen[talk.Type.S] }) {
				continue
			}
			b.openPlanner(onDisk)
			b.take(tr, ex.Given())
			if n := eval[int](b, `document.querySelectorAll("#planner .kinds .cut, script[src*='/cuts.']").length`); n != 0 {
				t.Errorf("%s: %d cutaways are there before the list is opened", tr.ID.S, n)
			}
			b.run(`(async () => {
document.querySelector("#planner details.kinds summary").click();
for (let i = 0; i < 60 && !document.querySelector("#planner .kinds .cut"); i++) await new Promise((then) => setTimeout(then, 50)); })()`)
			got := eval[[]string](b, `Array.from(document.querySelectorAll('#planner .kinds .talk > li'), (li) => {
const svg = li.querySelector(".cut"), heavy = svg && svg.querySelector(".d-moving"), thin = svg && svg.querySelector(".d-metal");
if (!svg || svg.getAttribute("aria-hidden") !== "true" || svg.getBoundingClientRect().width < 100) return "no cutaway of " + li.dataset.kind;
if (!(parseFloat(getComputedStyle(heavy).strokeWidth) > 1.5 * parseFloat(getComputedStyle(thin).strokeWidth))) return "nothing heavy in " + li.dataset.kind;
return svg.dataset.cut; })`)
			var want []string
			for _, talk := range e.Types {
				want = append(want, talk.Type.S)
				seen[talk.Type.S] = true
			}
			if !slices.Equal(got, want) {
				t.Errorf("%s: %s shows %q, want %q", tr.ID.S, path.Ending, got, want)
			}
			if wide := eval[float64](b, `document.documentElement.scrollWidth`); wide > 360 {
				t.Errorf("%s: with its kinds open the page is %v wide", tr.ID.S, wide)
			}
		}
	}
	if len(seen) < 10 {
		t.Errorf("only %d kinds were seen", len(seen))
	}
}

// What to do is drawn at an ending once a reader asks for it, with its name and what it shows; nothing of it is loaded before, and the sheet has none.
func TestEndingShowsWhatToDo(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	b.take(lib.Tree("water-and-weather"), exampleAt(b, "water-and-weather", "ice-and-falls"))
	const loaded = `document.querySelectorAll("#planner .shows svg, script[src*='/shown.']").length`
	if n := eval[int](b, loaded); n != 0 {
		t.Errorf("%d drawings or their script were there before anyone asked", n)
	}
	b.run(`(async () => { document.querySelector("#planner .shows summary").click();
for (let i = 0; i < 100 && !document.querySelector("#planner .shows svg"); i++) await new Promise((then) => setTimeout(then, 50)); })()`)
	d, _ := lib.Drawing("over-ice")
	got := eval[[]string](b, `Array.from(document.querySelectorAll("#planner .shows svg"), (s) => ["aria-labelledby", "aria-describedby"].map((a) => document.getElementById(s.getAttribute(a)).textContent)).flat()`)
	if !slices.Equal(got, []string{d.Title, d.Long}) {
		t.Errorf("the drawing says %q, want %q and %q", got, d.Title, d.Long)
	}
	b.run(`document.querySelector("#planner .ending ~ * [data-act=sheet], #planner [data-act=sheet]").click()`)
	if n := eval[int](b, `document.querySelectorAll("#planner .card .shows").length`); n != 0 {
		t.Errorf("the sheet has %d drawings of what to do", n)
	}
}
