package browsertest

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/tree"
)

// An amount that was refused says so to those who do not see it, and says no more of it
// once it is corrected.
func TestCorrectedAmount(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	b.toAmount("heel-height")
	described := `(() => { const f = document.querySelector("#planner .entry input"); return (f.getAttribute("aria-describedby") || "").split(" ").map((id) => { const e = document.getElementById(id); return e ? e.textContent : ""; }).join(" "); })()`
	before := eval[string](b, described)
	if s := b.hand(`write(planner.querySelector(".entry input"), "three fingers"); next()`); s.Problem == "" || !strings.Contains(eval[string](b, described), s.Problem) {
		t.Fatalf("what cannot be read is not described as wrong: %q", s.Problem)
	}
	b.hand(`write(planner.querySelector(".entry input"), "10 mm")`)
	if now := eval[string](b, described); now != before {
		t.Errorf("the corrected amount is described as %q, and was as %q", now, before)
	}
	if eval[bool](b, `document.querySelector("#planner .entry input").hasAttribute("aria-invalid")`) {
		t.Error("the corrected amount counts as wrong")
	}
}

// toAmount goes through a topic until a question asks for an amount, along a worked example.
func (b *tab) toAmount(id string) {
	b.t.Helper()
	tr := lib.Tree(id)
	for _, ex := range tr.Examples {
		path := walk(b.t, tr, ex.Given())
		at := slices.IndexFunc(path.Steps, func(s tree.Step) bool { return tr.Question(s.Question).Measure != nil })
		if at < 0 {
			continue
		}
		b.choose(id)
		for _, step := range path.Steps[:at] {
			b.choose(step.Chosen...)
		}
		return
	}
	b.t.Fatalf("%s asks for no amount", id)
}

// A patient takes two trees, stars three questions, adds one, prints, and clears,
// with no hand but the one on the keyboard. The test looks at the page by script and
// acts by keys alone.
func TestWholeVisitByKeyboard(t *testing.T) {
	everywhere(t, func(t *testing.T, address func(string) string) {
		t.Parallel()
		b := newTab(t)
		b.atStart(`window.printed = 0; window.print = () => { window.printed++ }`) // there is no printer to ask
		b.openPlanner(address)
		where := eval[string](b, "location.href")

		b.pressButton("Several topics")
		b.tickByKey("Hills and ramps")
		b.tickByKey("Foot shell and toes")
		b.pressButton("Start")
		b.pressButton(oneLine(lib.Safety.Leg.Answers[0].Text.S))
		b.pressButton("None of these")
		for _, id := range []string{"hills-and-ramps", "foot-shell-and-toes"} {
			tr := lib.Tree(id)
			ex := tr.Examples[len(tr.Examples)-1]
			if id == "hills-and-ramps" {
				ex = exampleWithCards(t, tr)
			}
			b.answerByKey(tr, walk(t, tr, ex.Given()))
			if id == "hills-and-ramps" {
				b.pressButton("Go on to: " + lib.Tree("foot-shell-and-toes").Title.S)
			}
		}
		b.pressButton("See my sheet")

		before := b.look()
		if before.View != "sheet" || before.Focus != "My sheet" {
			t.Fatalf("after See my sheet: %q, focus on %q", before.View, before.Focus)
		}
		general := before.Sheet.Sections[0].Prompts
		if len(general) != 3 {
			t.Fatalf("the sheet opens with %q, want three general questions", general)
		}
		var later []string
		for _, g := range before.Sheet.Sections[1:] {
			later = append(later, g.Prompts...)
		}
		if len(later) < 4 {
			t.Fatalf("the sheet has %d later questions, too few for this test", len(later))
		}
		stars := later[len(later)-3:] // the last three, backwards, so not the order of the page
		slices.Reverse(stars)
		b.pressButton(eval[string](b, `document.querySelector("#planner .others > summary").textContent`)) // folded, as on a phone
		for _, ask := range stars {
			b.tabTo("Star: " + ask)
			b.press("Space")
		}
		if got := b.look().Sheet.Stars; got != "3 of 3 stars used." {
			t.Errorf("three are starred, and the sheet says %q", got)
		}
		// A fourth is refused, and says why.
		b.tabTo("Star: " + general[0])
		b.press("Space")
		if s := b.look(); s.Sheet.Stars != "3 of 3 stars used." || !strings.Contains(s.Status, "three stars") {
			t.Errorf("a fourth star: %q, said %q", s.Sheet.Stars, s.Status)
		}

		const own = "May I climb the loft ladder with it?"
		b.pressButton("Write a question in your own words") // the fold, and then the field in it
		b.tabTo("Write a question in your own words")
		b.write(own)
		b.pressButton("Add this question")
		if got := b.look().Sheet.Own; !slices.Equal(got, []string{own}) {
			t.Fatalf("own questions: %q", got)
		}
		b.pressButton("Print my sheet")
		if n := eval[int](b, "window.printed"); n != 1 {
			t.Errorf("Print my sheet asked for %d printouts", n)
		}

		for paper, width := range map[string]float64{"A4": 595, "Letter": 612} {
			p := b.print(paper, "sheet-of-two-trees")
			if p.Pages != 1 {
				t.Errorf("%s: the sheet prints on %d pages, want one", paper, p.Pages)
			}
			if _, w, _ := p.words(); w < width-1 || w > width+1 {
				t.Errorf("%s: the page is %.0f points wide, want %.0f", paper, w, width)
			}
			order := slices.Concat([]string{"My questions for this visit", "I hand this to my prosthetist at the start of the visit."}, stars, general, []string{own, "What to bring:", lib.Edition.Lines.Sentence("emergency")})
			for _, wrong := range inOrder(p.Text, order...) {
				t.Errorf("%s: %s\n%s", paper, wrong, p.Text)
			}
			if got := p.furniture(); got != nil {
				t.Errorf("%s: printed with it: %q", paper, got)
			}
			if n := p.lines("start", "For"); n < 3 {
				t.Errorf("%s: %d lines to write on, want one below each of three questions or more", paper, n)
			}
			checkMargins(t, p)
		}

		b.pressButton("Clear everything")
		if s := b.look(); !slices.Contains(s.Buttons, "No, keep it") {
			t.Fatalf("clearing asks nothing: %q", s.Buttons)
		}
		b.pressButton("Yes, clear it all")
		s := b.look()
		if s.View != "topics" || !strings.Contains(s.Status, "All is cleared") {
			t.Errorf("after clearing: %q, said %q", s.View, s.Status)
		}
		for _, left := range leftovers(b, append(stars, own)...) {
			t.Error(left)
		}
		if now := eval[string](b, "location.href"); now != where {
			t.Errorf("the address is now %s", now)
		}
		// The browser's own way back finds nothing either.
		b.back()
		b.waitFor(`document.querySelector("#planner [data-topic]") !== null`)
		for _, left := range leftovers(b, append(stars, own)...) {
			t.Errorf("one step back: %s", left)
		}
		if buttons := b.look().Buttons; slices.Contains(buttons, "Look at my sheet") {
			t.Errorf("all is cleared, and there is still a sheet to look at: %q", buttons)
		}
		// Nor does the next reader, who takes a tree here and looks at the sheet.
		tr := lib.Tree("foot-shell-and-toes")
		next := tr.Examples[0].Given()
		b.take(tr, next)
		want := expected(t, tr, next).Sheet
		got := b.tap("sheet").Sheet
		got.Grave, got.Mind = "", ""
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("the next reader's sheet, as it should be (-) and as it is (+):\n%s", diff)
		}
	})
}

// exampleWithCards gives a worked example that picks up most cards.
func exampleWithCards(t testing.TB, tr *tree.Tree) *tree.Example {
	t.Helper()
	best := slices.MaxFunc(tr.Examples, func(a, b *tree.Example) int { return len(a.Cards) - len(b.Cards) })
	if len(best.Cards) == 0 {
		t.Fatalf("no example of %s picks up a card", tr.ID.S)
	}
	return best
}

// leftovers looks for what a cleared planner may not hold: the given texts anywhere
// in the page, answers given, written words, a trail, an ending, a sheet or its line at the foot.
func leftovers(b *tab, texts ...string) []string {
	b.t.Helper()
	return eval[[]string](b, fmt.Sprintf(`((texts) => {
const out = [];
const page = document.body.innerText + Array.from(document.querySelectorAll(".sheet-paper, #planner")).map((e) => e.textContent).join(" ");
for (const t of texts) if (page.replace(/\s+/g, " ").includes(t)) out.push("the page still says " + t);
for (const i of document.querySelectorAll("#planner input:checked")) out.push("still ticked: " + i.id);
for (const i of document.querySelectorAll("#planner textarea")) if (i.value) out.push("still written: " + i.value);
for (const e of document.querySelectorAll("#planner .mine, #planner .slip [data-slot='last'] > *, #planner .path li, #planner .ending, #planner .prompt, #planner .standing:not([hidden])")) out.push("still there: " + e.textContent);
return out;
})(%s)`, quoted(b, texts)))
}

// described is what the focus is on: its name as a screen reader would say it, or near it.
const described = `(() => {
const e = document.activeElement;
if (!e || e === document.body) return "";
const clean = (s) => s.replace(/\s+/g, " ").trim();
if (e.type === "range" && e.hasAttribute("aria-label")) return clean(e.getAttribute("aria-label"));
if (e.labels && e.labels.length) return clean(e.labels[0].innerText);
return clean(e.textContent);
})()`

// tabTo presses Tab until the focus is on what is called so. It goes round at most once.
func (b *tab) tabTo(name string) {
	b.t.Helper()
	var passed []string
	for range 250 {
		b.press("Tab")
		now := eval[string](b, described)
		if tidy(now) == tidy(name) {
			return
		}
		passed = append(passed, now)
	}
	b.t.Fatalf("Tab does not come by %q; it comes by %q", name, passed[:min(len(passed), 60)])
}

// tidy makes "Star : ask" and "Star: ask" one.
func tidy(s string) string { return strings.ReplaceAll(oneLine(s), " :", ":") }

func (b *tab) pressButton(name string) {
	b.t.Helper()
	b.tabTo(name)
	b.press("Enter")
}

func (b *tab) tickByKey(name string) {
	b.t.Helper()
	b.tabTo(name)
	b.press("Space")
	if now := eval[string](b, described); tidy(now) != tidy(name) || !eval[bool](b, `document.activeElement.checked === true`) {
		b.t.Fatalf("Space does not tick %q; the focus is on %q", name, now)
	}
}

// answerByKey answers each question of a path: Tab to the answer, where Enter answers and goes
// on; where several can be chosen Space ticks, and Enter on "Go on" gathers them.
func (b *tab) answerByKey(tr *tree.Tree, path tree.Path) {
	b.t.Helper()
	for _, step := range path.Steps {
		q := tr.Question(step.Question)
		s := b.look()
		if s.Question != oneLine(q.Text.S) {
			b.t.Fatalf("the planner asks %q, want %q", s.Question, q.Text.S)
		}
		if s.Focus != s.Question {
			b.t.Errorf("the focus is on %q, want the question %q", s.Focus, s.Question)
		}
		if slices.Equal(step.Chosen, []string{tree.Skip}) {
			b.pressButton("Skip")
			continue
		}
		if q.Measure != nil && q.Measure.Like(step.Chosen[0]) == nil {
			b.tabTo(s.Entry)
			b.write(step.Chosen[0])
			b.pressButton("Go on")
			continue
		}
		if q.Pick != tree.PickAny || q.Measure != nil {
			i := slices.IndexFunc(s.Choices, func(c choice) bool { return c.ID == step.Chosen[0] })
			b.pressButton(s.Choices[i].Text)
			continue
		}
		for _, a := range q.Answers {
			if slices.Contains(step.Chosen, a.ID.S) {
				b.tickByKey(oneLine(a.Text.S))
			}
		}
		now := b.look()
		if have := ticked(now); !slices.Equal(have, step.Chosen) {
			b.t.Fatalf("%s: ticked %q, want %q", s.Question, have, step.Chosen)
		}
		if now.Question != s.Question {
			b.t.Fatalf("ticking alone moved the page to %q", now.Question)
		}
		b.pressButton("Go on")
	}
	if s := b.look(); s.View != "ending" || s.Ending.Title != oneLine(tr.Ending(path.Ending).Title.S) {
		b.t.Fatalf("%s ends at %q, want %q", tr.ID.S, s.Ending.Title, tr.Ending(path.Ending).Title.S)
	}
}

// ticked gives the ids of what is ticked.
func ticked(s screen) []string {
	out := []string{}
	for _, c := range s.Choices {
		if c.Checked {
			out = append(out, c.ID)
		}
	}
	return out
}

// checkMargins wants white on all four sides, as printers need it.
func checkMargins(t testing.TB, p printout) {
	t.Helper()
	words, w, h := p.words()
	const least = 10 * 72 / 25.4
	for _, word := range words {
		if word.Left < least || word.Top < least || word.Right > w-least || word.Bottom > h-least {
			t.Errorf("%q is printed into the margin: %+v on a page of %.0f x %.0f", word.Text, word, w, h)
			return
		}
	}
}

// A full sheet still fits one side: the two paths that bring most, three long
// questions of the reader's own, three stars. Where it may not, the page says so.
func TestHeavySheetFitsOnePage(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	for _, id := range []string{"hills-and-ramps", "heel-height"} {
		tr := lib.Tree(id)
		heavy, most := tree.Answers{}, -1
		for _, answers := range somePaths(t, tr) {
			if n := weight(tr, walk(t, tr, answers)); n > most {
				heavy, most = answers, n
			}
		}
		b.take(tr, heavy)
		b.tap("topics")
	}
	s := b.tap("bar-sheet")
	n := 0
	for _, g := range s.Sheet.Sections {
		n += len(g.Prompts)
	}
	if n < 12 {
		t.Fatalf("only %d questions on the sheet, so it is not heavy", n)
	}
	own := []string{}
	for i := range 3 {
		ask := "My own question is " + strings.Repeat("what about my long walk to the far shed and back, ", 4)
		ask = ask[:190] + fmt.Sprintf(" then%d?", i+1) // near the 200 letters that the field takes
		own = append(own, ask)
		b.hand(`addOwn(%s)`, ask)
	}
	s = b.hand(`starThese([4, 5, 6])`)
	if s.Sheet.Stars != "3 of 3 stars used." || !slices.Equal(s.Sheet.Own, own) {
		t.Fatalf("the sheet is not as this test wants it: %q %q", s.Sheet.Stars, s.Sheet.Own)
	}
	if s.Sheet.Long != "" {
		t.Errorf("with %d questions and three own ones the page already warns: %s", n, s.Sheet.Long)
	}
	for _, paper := range []string{"A4", "Letter"} {
		p := b.print(paper, "sheet-heavy")
		if p.Pages != 1 {
			t.Errorf("%s: a full sheet prints on %d pages, want one", paper, p.Pages)
		}
		for _, g := range s.Sheet.Sections {
			for _, ask := range g.Prompts {
				if !strings.Contains(p.Text, ask) {
					t.Errorf("%s: %q is not printed", paper, ask)
				}
			}
		}
		if wrong := inOrder(p.Text, own...); wrong != nil {
			t.Errorf("%s: %s", paper, wrong)
		}
		if n := p.lines("start", "For"); n < 3 {
			t.Errorf("%s: %d lines to write on, want one below each of three questions or more", paper, n)
		}
		checkMargins(t, p)
	}

	// With the fold open everything prints. Either that fits, or the page has said.
	s = b.hand(`tapOn(planner.querySelector('[data-slot="more"] summary'), "more")`)
	b.waitFor(`document.querySelector('#planner [data-slot="more"]').open`)
	b.run(`new Promise((done) => requestAnimationFrame(() => setTimeout(done)))`) // the fold tells of itself a moment later
	s = b.look()
	p := b.print("Letter", "sheet-all-open")
	if p.Pages > 1 && s.Sheet.Long == "" {
		t.Errorf("with all open the sheet prints on %d pages, and the page says %q", p.Pages, s.Sheet.Long)
	}
	for _, g := range s.Sheet.More {
		for _, ask := range g.Prompts {
			if !strings.Contains(p.asWritten(), ask) {
				t.Errorf("with all open, %q is not printed", ask)
			}
		}
	}
}

// weight is how much a path brings to the sheet.
func weight(tr *tree.Tree, path tree.Path) int {
	n := len(tr.Ending(path.Ending).Prompts)
	for _, id := range path.Cards {
		n += 3 + len(lib.Card(id).Prompts)
	}
	return n
}
