package browsertest

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// put writes into a field as a paste does: all at once, whatever the field would let one type.
const put = `const put = (field, text) => { field.focus(); field.select(); document.execCommand("insertText", false, text); };`

// A question in the reader's own words is kept whole up to the limit, and beyond it is
// refused in words with nothing lost; so is a day, new words for a question, and a note.
func TestOwnWordsAreNotCut(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	fillSheet(b)
	fits := strings.TrimSpace(strings.Repeat("Stairs? ", 62)) + "ab?" // 498 characters
	own := func(text string) screen {
		return b.hand(put+`put(unfold(document.getElementById("planner-own")), %s); tapOn(planner.querySelector('[data-slot="add"] button'), "add")`, text)
	}
	before := len(b.look().Sheet.Own)
	if s := own(fits); len(s.Sheet.Own) != before+1 || s.Sheet.Own[before] != fits {
		t.Errorf("a question of %d characters is kept as %q", len(fits), s.Sheet.Own)
	}
	long := fits + " And then?"
	s := own(long)
	count := eval[string](b, `document.getElementById("planner-own-count").textContent`)
	if len(s.Sheet.Own) != before+1 || eval[string](b, `document.getElementById("planner-own").value`) != long {
		t.Errorf("a question of %d characters was taken, or is lost from its field: %q", len(long), s.Sheet.Own)
	}
	if want := "This is too long by 8 characters"; !strings.HasPrefix(count, want) || !strings.HasPrefix(s.Status, want) {
		t.Errorf("it is refused with %q, said as %q", count, s.Status)
	}
	b.hand(put+`put(document.getElementById("planner-own"), %s)`, strings.Repeat("👣", 450))
	if count := eval[string](b, `document.getElementById("planner-own-count").innerText`); count != "450 of 500 characters used." {
		t.Errorf("near the limit the field counts %q", count)
	}
	b.hand(put + `put(document.getElementById("planner-own"), "Short?")`)
	if eval[bool](b, `document.getElementById("planner-own-count").getClientRects().length > 0 || document.getElementById("planner-own").hasAttribute("aria-invalid")`) {
		t.Error("a short question is still counted, or counts as wrong")
	}
	b.hand(put+`put(unfold(document.getElementById("planner-day")), %s)`, fits)
	b.hand(put+`put(unfold(document.getElementById("planner-day")), %s)`, long)
	b.tap("bar-topics")
	b.tap("bar-sheet")
	if day := eval[string](b, `document.getElementById("planner-day").value`); day != fits {
		t.Errorf("the day reads %q", day)
	}
	b.hand(put+`const li = planner.querySelector("[data-slot=sections] [data-prompt]"); li.querySelector("details").open = true; put(li.querySelector("textarea"), %s); tapOn(li.querySelector('[data-act="reword"]'), "reword")`, long)
	if got := eval[string](b, `planner.querySelector("[data-slot=sections] .ask").textContent`); strings.Contains(got, "Stairs?") {
		t.Errorf("words that are too long were taken: %q", got)
	}
	b.tap("visit")
	note := strings.TrimSpace(strings.Repeat("We try it. ", 180)) // more than a field once held
	b.hand(put+`put(document.getElementById("visit-0-said"), %[1]s); put(document.getElementById("visit-decided"), %[1]s)`, note)
	b.tap("sheet")
	b.tap("visit")
	if got := eval[[]string](b, `[document.getElementById("visit-0-said").value, document.getElementById("visit-decided").value]`); got[0] != note || got[1] != note {
		t.Errorf("notes of %d characters are kept with %d and %d", len(note), len(got[0]), len(got[1]))
	}
}

// A word of any length, signs of any script: the screen stays within its window and the
// print within its margins, with nothing cut.
func TestOwnWordsOfAnyKindFit(t *testing.T) {
	t.Parallel()
	long := strings.Repeat("Donaudampfschiff", 12) + "fahrt?"
	arabic, hebrew := "هل يمكنني المشي على المنحدر؟", "האם אוכל לטפס במדרגות?"
	all := []string{long, strings.Repeat("👣🏽", 100), arabic, hebrew, "1/2 in " + strings.Repeat("=", 200), "<b>bold</b> & \"quoted\""}
	b := newTab(t)
	b.openPlanner(onDisk)
	hills := lib.Tree("hills-and-ramps")
	b.take(hills, exampleWithCards(t, hills).Given())
	b.tap("sheet")
	for _, ask := range all {
		b.hand(put+`put(unfold(document.getElementById("planner-own")), %s); tapOn(planner.querySelector('[data-slot="add"] button'), "add")`, ask)
	}
	s := b.hand(put+`put(unfold(document.getElementById("planner-day")), %[1]s); const li = planner.querySelector("[data-slot=sections] [data-prompt]"); li.querySelector("details").open = true; put(li.querySelector("textarea"), %[1]s); tapOn(li.querySelector('[data-act="reword"]'), "reword")`, long)
	if !slices.Equal(s.Sheet.Own, all) {
		t.Errorf("own questions: %q", s.Sheet.Own)
	}
	b.hand(`const star = planner.querySelector('[data-slot=own] [data-act="star"]'); tapOn(star, "star"); const asks = planner.querySelectorAll("[data-slot=sections] [data-prompt]"); tool(asks[asks.length - 1].dataset.prompt, "off"); planner.querySelector('[data-slot="off-fold"]').open = true`)
	for _, width := range []int64{320, 1280} {
		b.size(width, 700)
		for _, wrong := range eval[[]string](b, layout) {
			t.Errorf("the sheet at %d px: %s", width, wrong)
		}
	}
	p := b.print("A4", "words-of-any-kind")
	checkMargins(t, p)
	letters := func(text string) string { return strings.Join(strings.Fields(text), "") }
	for _, ask := range []string{long, all[4], all[5]} {
		if !strings.Contains(letters(p.Text), letters(ask)) {
			t.Errorf("the print lacks %q", ask)
		}
	}
	if n := strings.Count(p.Text, "Answered"); n != 3 {
		t.Errorf("of three questions to start with %d can be checked", n)
	}
	if dir := eval[[]string](b, `Array.from(document.querySelectorAll(".sheet-paper .section li, .sheet-paper .first .ask"), (e) => e).filter((e) => /[\u0590-\u06ff]/.test(e.textContent)).map((e) => getComputedStyle(e).direction)`); !slices.Equal(dir, []string{"rtl", "rtl"}) {
		t.Errorf("Arabic and Hebrew run %q", dir)
	}
	b.tap("visit")
	b.hand(put+`for (const id of ["visit-0-said", "visit-decided"]) put(document.getElementById(id), %s)`, long)
	b.size(320, 700)
	for _, wrong := range eval[[]string](b, layout) {
		t.Errorf("after the visit at 320 px: %s", wrong)
	}
	checkMargins(t, b.print("A4", "visit-of-any-kind"))
	b.open("about:blank")
	b.open(onDisk(plannerName) + "#own=" + strings.Repeat("%41", 300))
	b.waitFor(`!document.querySelector('[data-slot="offer"]').hidden`)
	for _, wrong := range eval[[]string](b, layout) {
		t.Errorf("an offered question at 320 px: %s", wrong)
	}
}

// Whatever is pasted as an amount is answered at once, and in words.
func TestAnyAmountIsAnswered(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	b.toAmount("hills-and-ramps")
	for name, text := range map[string]string{
		"many digits":             strings.Repeat("1", 100_000),
		"many fractions":          strings.Repeat("1 1/2 ", 17_000),
		"many blanks":             "1" + strings.Repeat(" ", 100_000) + "%",
		"more than a sheet takes": "14" + strings.Repeat(" ", 60) + "%",
		"other digits":            "٣٤",
		"feet":                    "👣",
	} {
		took := eval[float64](b, fmt.Sprintf(`(() => {%s const t = performance.now(); write(planner.querySelector(".entry input"), %s); next(); return performance.now() - t; })()`, hands, quoted(b, text)))
		if s := b.look(); s.Entry == "" || s.Problem == "" {
			t.Fatalf("%s: the screen is %q with the problem %q", name, s.View, s.Problem)
		}
		if took > 1000 {
			t.Errorf("%s is answered in %.0f ms", name, took)
		}
	}
}
