package browsertest

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/safety"
)

// wantsScreen wants the safety screen's first question, and nothing of a topic.
func wantsScreen(t *testing.T, b *tab, way string) {
	t.Helper()
	s := b.look()
	if s.View != "leg" {
		t.Errorf("%s leads to %q, %q; the safety screen must come first", way, s.View, s.Question+s.Ending.Title)
	}
	if n := eval[int](b, `document.querySelectorAll('#planner [data-slot="view"] :is(.question, .ending)').length`); n > 0 {
		t.Errorf("%s shows something of a topic", way)
	}
}

// told is what readers of these tests tell where it matters.
var told = []safety.Said{{Group: "skin", Sign: "sore"}, {Group: "fall", Sign: "fall"}}

// Every way to a topic passes the safety screen, and it is asked once in a sitting.
func TestEveryWayPassesTheScreen(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onWeb)
	first := func(s screen) {
		t.Helper()
		if s.View != "question" {
			t.Fatalf("behind the screen stands %q, not a question", s.View)
		}
	}
	b.hand(`answer(["hills-and-ramps"])`)
	wantsScreen(t, b, "the list of topics")
	b.back()
	b.waitFor(`document.querySelector("#planner [data-topic]") !== null`)
	b.forward()
	b.waitFor(`document.querySelector("#planner [data-leg]") !== null`)
	wantsScreen(t, b, "Back and Forward")
	first(b.hand(`pass()`))
	b.tap("bar-topics")
	if s := b.hand(`answer(["heel-height"])`); s.View != "question" {
		t.Errorf("a second topic asks the screen again: %q", s.View)
	}
	// A hand-over within the sitting asks nothing again, and one by a link does.
	b.open("about:blank")
	b.openAgain(onWeb)
	if s := b.hand(`answer(["hills-and-ramps"])`); s.View != "question" {
		t.Errorf("a reload within the sitting asks the screen again: %q", s.View)
	}
	b.clear()
	b.hand(`answer(["heel-height"])`)
	wantsScreen(t, b, "a topic after clearing")
	b.clear()

	for name, from := range map[string]string{"home": "index.html", "a page to learn from": "learn/slopes-and-ramps.html"} {
		c := newTab(t)
		c.open(onWeb(from))
		c.open(eval[string](c, `document.querySelector('main a[href*="#take="]').href`))
		c.waitFor(`document.querySelector("#planner [data-leg]") !== null`)
		wantsScreen(t, c, "a link on "+name)
		if at := eval[string](c, `location.href`); strings.Contains(at, "#") {
			t.Errorf("the address keeps the topic: %s", at)
		}
		first(c.hand(`pass()`))
	}
}

// In the middle of a topic, "Something is wrong now" asks every group, without the gate,
// and leads back.
func TestWrongNow(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	s := b.choose("hills-and-ramps")
	at := s.Question
	s = b.tap("bar-wrong")
	for range lib.Safety.Groups {
		if s.View != "signs" {
			t.Fatalf("something is wrong now: %q, %q", s.View, s.Title)
		}
		s = b.tap("none")
	}
	if s.Question != at {
		t.Errorf("with nothing told the reader comes back to %q, and was at %q", s.Question, at)
	}
	// "What to do now" does not wait for the other groups.
	s = b.tap("bar-wrong")
	s = b.hand(`tapOn(planner.querySelector('label[for="sign-chest"]'), "chest pain"); button("what-now")`)
	if s.View != "told" || s.Title != oneLine(lib.Safety.Ending(safety.Now).Title.S) {
		t.Errorf("what to do now leads to %q, %q", s.View, s.Title)
	}
	if picks := eval[int](b, `document.querySelectorAll("#planner .safety .pick input:checked").length`); picks > 0 {
		t.Errorf("an emergency leaves %d questions ticked", picks)
	}
	if mains := eval[int](b, `document.querySelectorAll("#planner .safety button.main").length`); mains > 0 {
		t.Error("an emergency's ending has a main button")
	}
}

// A sheet, a code or a link that is opened asks the screen again.
func TestOpenedSheetAsksAgain(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onWeb)
	takeRich(b)
	b.tap("sheet")
	file := savedText(b)
	code := madeCode(b)

	c := newTab(t)
	c.openPlanner(onWeb)
	c.choose("heel-height") // passes the screen
	c.tap("bar-topics")
	place := filepath.Join(t.TempDir(), "sheet.json")
	if err := os.WriteFile(place, []byte(file), 0o644); err != nil {
		t.Fatal(err)
	}
	again := func(way string) {
		t.Helper()
		c.waitFor(`document.querySelector("#planner .sheet") !== null`)
		c.tap("bar-topics")
		c.hand(`answer(["heel-height"])`)
		wantsScreen(t, c, way)
	}
	c.run(fmt.Sprintf(`(() => { const d = new DataTransfer(); d.items.add(new File([%s], "sheet.json")); const f = document.querySelector("#planner-file"); f.files = d.files; f.dispatchEvent(new Event("change")); })()`, quoted(c, file)))
	c.run(`new Promise((done) => setTimeout(done, 300)).then(() => { const r = document.querySelector('[data-slot="replacing"]'); if (r && !r.hidden) r.querySelector(".main").click(); })`)
	again("a saved file")
	c.hand(`pass()`)
	c.tap("bar-topics")
	c.hand(`planner.querySelector(".open-file").open = true; document.getElementById("planner-typed").value = %s; button("open-code")`, code)
	c.run(`new Promise((done) => setTimeout(done, 300)).then(() => { const r = document.querySelector('[data-slot="replacing"]'); if (r && !r.hidden) r.querySelector(".main").click(); })`)
	again("a code")

	d := newTab(t)
	d.open(onWeb(plannerName) + "#code=" + code)
	d.waitFor(`document.querySelector("#planner .sheet") !== null`)
	d.tap("bar-topics")
	d.hand(`answer(["heel-height"])`)
	wantsScreen(t, d, "a link with a code")
}

// savedText gives the file that the sheet's button saves.
func savedText(b *tab) string {
	b.t.Helper()
	return eval[string](b, `(async () => {
let blob; const was = URL.createObjectURL;
URL.createObjectURL = (x) => { blob = x; return was.call(URL, x); };
document.querySelector('#planner [data-slot="share"]').open = true;
const click = HTMLAnchorElement.prototype.click; HTMLAnchorElement.prototype.click = () => {};
document.querySelector('#planner [data-act="save"]').click();
HTMLAnchorElement.prototype.click = click; URL.createObjectURL = was;
return blob.text();
})()`)
}

func madeCode(b *tab) string {
	b.t.Helper()
	b.run(`document.querySelector('#planner [data-slot="share"]').open = true; document.querySelector('#planner [data-act="code"]').click()`)
	b.waitFor(`document.getElementById("planner-code").value !== ""`)
	return eval[string](b, `document.getElementById("planner-code").value`)
}

// A sitting ends after twelve hours by the clock, also for a page that was left open.
func TestTwelveHours(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.atStart(`window.ahead = 0; const now = Date.now.bind(Date); Date.now = () => now() + window.ahead`)
	b.openPlanner(onWeb)
	hours := func(n float64) { b.run(fmt.Sprintf(`window.ahead = %g * 3600000`, n)) }
	b.choose("heel-height")
	b.tap("bar-topics")
	hours(11.99)
	if s := b.hand(`answer(["hills-and-ramps"])`); s.View != "question" {
		t.Fatalf("within twelve hours the screen is asked again: %q", s.View)
	}
	hours(12.01)
	b.run(`document.dispatchEvent(new Event("visibilitychange"))`)
	wantsScreen(t, b, "a page that comes back after twelve hours")
	if s := b.hand(`pass()`); s.View != "question" {
		t.Fatalf("behind the screen stands %q", s.View)
	}
	b.tap("bar-topics")
	hours(25)
	b.hand(`answer(["heel-height"])`)
	wantsScreen(t, b, "a topic after twelve hours")
	b.hand(`pass()`)
	hours(1) // a clock set back counts as another day
	b.tap("bar-topics")
	b.hand(`answer(["heel-height"])`)
	wantsScreen(t, b, "a topic at an earlier hour")
}

// A second tap within half a second of a change of screen answers nothing: the row or
// the button that has come under the finger stays as it is. Later taps count.
func TestSecondTapAnswersNothing(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.size(480, 800)
	b.openPlanner(onDisk)
	// The test's own clock, so that a busy machine makes no tap late.
	b.run(`window.clock = 1e6; performance.now = () => window.clock`)
	middle := func(selector string) (x, y float64) {
		t.Helper()
		at := eval[[]float64](b, fmt.Sprintf(`(() => { const e = document.querySelector(%q); e.scrollIntoView({ block: "center" }); const r = e.getBoundingClientRect(); return [r.left + r.width / 2, r.top + r.height / 2]; })()`, selector))
		return at[0], at[1]
	}
	tapOn := func(selector string) { t.Helper(); x, y := middle(selector); b.tapAt(x, y) }
	after := func(ms int) { b.run(fmt.Sprintf(`window.clock += %d`, ms)) }

	b.hand(`answer(["hills-and-ramps"])`)
	tapOn(`#planner [data-leg="worn"]`)
	if s := b.look(); s.View != "leg" {
		t.Fatalf("a tap at once answers the leg question: %q", s.View)
	}
	after(499)
	tapOn(`#planner [data-leg="worn"]`)
	if s := b.look(); s.View != "leg" {
		t.Fatalf("a tap after 499 ms answers the leg question: %q", s.View)
	}
	after(1)
	tapOn(`#planner [data-leg="worn"]`)
	if s := b.look(); s.View != "gate" {
		t.Fatalf("a tap after half a second answers nothing: %q", s.View)
	}
	after(100)
	tapOn(`#planner [data-act="none"]`)
	tapOn(`#planner .signs label`)
	if s := b.look(); s.View != "gate" || len(ticked(s)) > 0 {
		t.Fatalf("a second tap answers the gate: %q, %v", s.View, ticked(s))
	}
	after(500)
	tapOn(`#planner [data-act="none"]`)
	if s := b.look(); s.View != "question" {
		t.Fatalf("after the gate: %q", s.View)
	}
	first := b.look().Question
	after(200)
	tapOn(`#planner .question .row`)
	if s := b.look(); s.Question != first {
		t.Errorf("a second tap answers the topic's first question and leads to %q", s.Question)
	}
	// Keys do no such harm, and go on at any time.
	b.press("Tab", "Space")
	second := b.look().Question
	if second == first {
		t.Error("a key answers nothing")
	}
	b.tap("back")
	b.waitFor(`document.querySelector("#planner .question h2").innerText === ` + quoted(b, first))
	// Twice on one row, as by habit or with a hand that trembles.
	after(500)
	x, y := middle(`#planner .question .row[value="no"]`)
	for range 2 {
		b.tapAt(x, y)
		after(499)
		if s := b.look(); s.View != "question" || s.Question != second || len(ticked(s)) > 0 {
			t.Errorf("two taps on one row lead to %q, %q with %q", s.View, s.Question, ticked(s))
		}
	}
	after(1)
	tapOn(`#planner .question .row`)
	if s := b.look(); s.Question == second && len(ticked(s)) == 0 {
		t.Error("a later tap answers nothing")
	}
}

// Nothing told on the screen leaves the tab: who told of a sore and a fall saves the
// same file, makes the same code and has the same address as who told of nothing. The
// text has the cautions, which say what to do, and no answer.
func TestToldStaysInTheTab(t *testing.T) {
	t.Parallel()
	take := func(told []safety.Said) *tab {
		b := newTab(t)
		b.openPlanner(onWeb)
		b.hand(`answer(["hills-and-ramps"])`)
		if len(told) == 0 {
			b.hand(`pass()`)
		} else {
			b.tell(safety.Worn, told)
			b.tap("onward")
		}
		tr := lib.Tree("hills-and-ramps")
		for _, step := range walk(t, tr, exampleAt(b, tr.ID.S, "")).Steps {
			b.choose(step.Chosen...)
		}
		b.tap("sheet")
		return b
	}
	with, without := take(told), take(nil)
	// One question that came up there and is taken off again is in no file either.
	skin, _ := lib.Safety.Sign("sore")
	with.run(fmt.Sprintf(`document.querySelector('#planner [data-prompt=%q] [data-act="off"]').click()`, skin.Prompts[0].S))
	if a, b := savedText(with), savedText(without); a != b {
		t.Errorf("the saved files differ:\n%s\n%s", a, b)
	}
	if a, b := madeCode(with), madeCode(without); a != b {
		t.Errorf("the codes differ: %s, %s", a, b)
	}
	for name, b := range map[string]*tab{"told": with, "nothing told": without} {
		if at := eval[string](b, `location.href`); at != onWeb(plannerName) {
			t.Errorf("%s: the address is %s", name, at)
		}
	}
	text := oneLine(eval[string](with, `document.getElementById("planner-text").value`))
	for _, d := range told {
		s, _ := lib.Safety.Sign(d.Sign)
		if row := eval[string](with, fmt.Sprintf(`(() => { const t = document.getElementById("signs-%s").content.querySelector('label[for="sign-%s"] span'); return t.textContent.replace(/\s+/g, " ").trim(); })()`, d.Group, d.Sign)); strings.Contains(text, row) {
			t.Errorf("the text has the answer %q", row)
		}
		if !strings.Contains(text, oneLine(s.Title.S)) {
			t.Errorf("the text lacks the caution %q", s.Title.S)
		}
	}
	if kept := eval[string](with, `(() => { dispatchEvent(new Event("pagehide")); return sessionStorage.getItem("keelpath-sheet") || ""; })()`); strings.Contains(kept, `"sore"`) {
		t.Errorf("the sheet's own store holds what was told: %s", kept)
	}
}

// The sheet has every caution told, the gravest first, on the screen and on paper.
func TestToldOnTheSheet(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	b.hand(`answer(["hills-and-ramps"])`)
	set := append(slices.Clone(told), safety.Said{Group: "help", Sign: "chest"})
	b.tell(safety.Worn, set)
	_, names := gatheredInGo(safety.Worn, set)
	s := b.tap("bar-sheet")
	for _, wrong := range inOrder(s.Sheet.Grave, append(slices.Clone(names), lib.Edition.Lines.Emergency.Number.S)...) {
		t.Errorf("the sheet: %s", wrong)
	}
	p := b.print("A4", "sheet-told")
	for _, wrong := range inOrder(p.Text, append(slices.Clone(names), s.Sheet.Sections[0].Prompts[0])...) {
		t.Errorf("on paper: %s\n%s", wrong, p.Text)
	}
}
