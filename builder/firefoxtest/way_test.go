package firefoxtest

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"keelpath/builder/internal/sitetest"
	"keelpath/builder/tree"
)

const plannerName = "prepare/index.html"

// hands press what a reader would press: labels and buttons that are there to see.
const hands = `
const planner = document.getElementById("planner");
const seen = (e) => !!e && e.getClientRects().length > 0;
const press = (e, what) => { if (!seen(e)) throw new Error("cannot press " + what); e.click(); };
const act = (name, within = planner) => within.querySelector('[data-act="' + name + '"]');
// The line at the foot leads to the sheet, and the bar where there is no such line.
const button = (name, within = planner) => press(name === "bar-sheet" && seen(act("slip")) ? act("slip") : act(name, within), name);
const next = () => press(planner.querySelector('form button[type="submit"]'), "Go on");
const fold = (selector) => { const d = planner.querySelector(selector); if (!d.open) press(d.querySelector("summary"), selector); };
const tick = (id) => {
  const box = planner.querySelector('.rows input[value="' + CSS.escape(id) + '"]');
  press(box && box.closest("label"), id);
  if (!box.checked) throw new Error(id + " is not ticked");
};
// One answer or topic is a button that goes on; several topics are lined up, several answers ticked.
const answer = (ids) => {
  const one = planner.querySelector('button.row[value="' + CSS.escape(ids[0]) + '"]');
  if (one && ids.length === 1) return press(one, ids[0]);
  if (one) fold("details.several");
  ids.forEach(tick);
  next();
};
const listed = () => Array.from(planner.querySelectorAll("[data-slot=sections] [data-prompt]"));
`

func (b *tab) hand(script string, args ...any) { b.t.Helper(); b.run(hands+script, args...) }

// choose answers the question or takes topics, and goes on.
func (b *tab) choose(ids ...string) {
	b.t.Helper()
	b.hand(`answer(arguments[0])`, ids)
}

// A sheet is what stands on the reader's page of questions.
type sheet struct {
	Asks    []string // under the page's headings, folded ones too
	Own     []string
	Starred []string
	Day     string
}

func (b *tab) sheet() sheet {
	b.t.Helper()
	return eval[sheet](b, hands+`
if (!planner.querySelector(".sheet")) throw new Error("this is not the sheet");
const asks = (selector) => Array.from(planner.querySelectorAll(selector + " .ask"), (e) => e.textContent.replace(/\s+/g, " ").trim());
return { Asks: asks("[data-slot=sections]").concat(asks("[data-slot=folded]")), Own: asks("[data-slot=own]"), Starred: asks(".starred"), Day: document.getElementById("planner-day").value };`)
}

func (b *tab) same(by string, want sheet) {
	b.t.Helper()
	got := b.sheet()
	if !slices.Equal(got.Asks, want.Asks) || !slices.Equal(got.Own, want.Own) || !slices.Equal(got.Starred, want.Starred) || got.Day != want.Day {
		b.t.Errorf("by %s the sheet is\n%q\nand was\n%q", by, got, want)
	}
}

func (b *tab) openPlanner() {
	b.t.Helper()
	b.open(sitetest.OnDisk(siteDir, plannerName))
	b.waitFor(`!document.getElementById("planner").hidden`)
}

// stored tells what the page's browser keeps, beside what this tab does.
func (b *tab) stored() (inTab []string, elsewhere string) {
	b.t.Helper()
	kept := eval[struct {
		Tab       []string
		Elsewhere string
	}](b, `
const out = [];
if (localStorage.length) out.push("localStorage " + JSON.stringify(localStorage));
if (document.cookie) out.push("cookies " + document.cookie);
if (window.name) out.push("window.name " + window.name);
if (location.hash || location.search) out.push("address " + location.href);
return indexedDB.databases().then((all) => { if (all.length) out.push("databases " + JSON.stringify(all)); return { Tab: Object.keys(sessionStorage), Elsewhere: out.join(", ") }; });`)
	return kept.Tab, kept.Elsewhere
}

// The way most readers take, from a file on disk: a topic, the sheet, paper, a code,
// a file, and clearing it all.
func TestMainWay(t *testing.T) {
	b := newTab(t)
	b.openPlanner()
	takeHills(b)
	first := b.sheet()
	want := fillSheet(b, first)
	printed(b, want)
	code := makeCode(b)

	fresh := newTab(t)
	fresh.openPlanner()
	fresh.hand(`fold(".open-file")`)
	fresh.write("#planner-typed", strings.ToLower(strings.ReplaceAll(code, "-", " ")))
	fresh.hand(`button("open-code")`)
	fresh.waitFor(`document.querySelector("#planner .sheet")`)
	// A code holds neither the reader's own words nor the order, in which starred questions come first.
	got := fresh.sheet()
	slices.Sort(got.Asks)
	asks := slices.Sorted(slices.Values(first.Asks))
	if stars := slices.Sorted(slices.Values(got.Starred)); !slices.Equal(got.Asks, asks) || len(got.Own) > 0 || !slices.Equal(stars, slices.Sorted(slices.Values(want.Starred))) {
		t.Errorf("by code the sheet is\n%q\nand was\n%q with the stars %q", got, asks, want.Starred)
	}

	b.front()
	file := saved(b)
	other := newTab(t)
	other.openPlanner()
	other.hand(`fold(".open-file")`)
	other.write("#planner-file", file)
	other.waitFor(`document.querySelector("#planner .sheet")`)
	other.same("file", want)
	again := saved(other)
	if first, second := contents(t, file), contents(t, again); first != second {
		t.Errorf("saved again, the file is\n%s\nand was\n%s", second, first)
	}

	b.front()
	cleared(b, want)
}

// passSafety goes through the safety screen as one who first tells of a crack by
// mistake: its caution must be there before the answer is changed to none.
func (b *tab) passSafety() {
	b.t.Helper()
	b.hand(`press(planner.querySelector('[data-leg="worn"]'), "the leg answer"); press(planner.querySelector('label[for="gate-leg"]'), "the line of the leg"); next()`)
	b.hand(`press(planner.querySelector('label[for="sign-crack"]'), "a crack"); next()`)
	crack, _ := lib.Safety.Sign("crack")
	if got := eval[string](b, `return document.querySelector("#planner .told h3").textContent.trim()`); got != oneLine(crack.Title.S) {
		b.t.Fatalf("a crack is told, and the caution is %q", got)
	}
	b.hand(`button("back")`)
	b.waitFor(`document.querySelector('#planner label[for="sign-crack"]')`)
	b.hand(`press(planner.querySelector('label[for="sign-crack"]'), "a crack"); button("none")`)
	b.waitFor(`document.querySelector("#planner .question")`)
}

// takeHills walks the tree about hills, with the figure beside its amount.
func takeHills(b *tab) {
	b.t.Helper()
	tr := lib.Tree("hills-and-ramps")
	answers := tree.Answers{}
	for _, g := range lib.Proofs[tr.ID.S].Witness["steepness"] {
		answers[g.Question] = g.Chosen
	}
	answers["where"] = []string{"home", "trails"}
	path, err := tr.Walk(answers)
	b.must(err)
	b.choose(tr.ID.S)
	b.passSafety()
	for _, step := range path.Steps {
		b.choose(step.Chosen...)
	}
	if n := eval[int](b, `return document.querySelectorAll("#planner .figure").length + document.querySelectorAll('script[src*="assets/workbench."]').length`); n != 0 {
		b.t.Error("the figure is there before a reader opens it")
	}
	b.hand(`fold(".see")`)
	b.waitFor(`document.querySelector("#planner .figure-live")`)
	b.run(`document.querySelector('#planner .figure [data-slot="sets"]').open = true`)
	const field = "#planner .figure [id$=steepness-typed]"
	b.run(`document.querySelector(arguments[0]).select()`, field)
	b.write(field, "1:8"+tabKey)
	const says = `document.querySelector("#planner .figure [data-says=slope-said]").textContent`
	b.waitFor(says + `.includes("12.5 %")`)
	if got := eval[string](b, "return "+says); got != "Your slope is about 12.5 %, 7.1 degrees, or 1:8." {
		b.t.Errorf("with 1:8 typed, the figure says %q", got)
	}
	b.write("#planner .question .entry input", "1:8")
	b.hand(`next()`)
	b.choose("down")
	b.choose("own")
	answers["steepness"], answers["hardest"], answers["going-down"] = []string{"1:8"}, []string{"down"}, []string{"own"}
	path, err = tr.Walk(answers)
	b.must(err)
	if got, want := eval[string](b, `return document.querySelector("#planner .ending h2").textContent.trim()`), oneLine(tr.Ending(path.Ending).Title.S); got != want {
		b.t.Fatalf("the tree ends at %q, want %q", got, want)
	}
	b.hand(`button("sheet")`)
	b.waitFor(`document.querySelector("#planner .sheet")`)
}

// fillSheet stars two questions, moves one, and adds what only the reader knows.
func fillSheet(b *tab, before sheet) sheet {
	b.t.Helper()
	if len(before.Asks) < 5 || len(before.Starred) > 0 {
		b.t.Fatalf("the sheet begins with %q", before)
	}
	b.hand(`button("star", listed()[1]); button("star", listed()[listed().length - 1])`)
	b.hand(`const li = listed()[0]; press(li.querySelector("details.adjust summary"), "the fold"); button("down", li)`)
	const own, day = "May I climb the loft ladder with it?", "Walk the dog up the lane."
	b.hand(`for (const fold of planner.querySelectorAll("details.write > summary")) press(fold, "a fold")`)
	b.write("#planner-own", own)
	b.hand(`press(planner.querySelector('[data-slot="add"] button'), "add")`)
	b.write("#planner-day", day+tabKey)
	s := b.sheet()
	// Two are starred, the first star goes below the second, and the question that came first fills the third place.
	want := []string{before.Asks[len(before.Asks)-1], before.Asks[1], before.Asks[0]}
	if !slices.Equal(s.Asks[:3], want) || !slices.Equal(slices.Sorted(slices.Values(s.Asks)), slices.Sorted(slices.Values(before.Asks))) {
		b.t.Errorf("the first star moved down, the sheet is\n%q, want first\n%q", s.Asks, want)
	}
	if !slices.Equal(s.Starred, want[:2]) || !slices.Equal(s.Own, []string{own}) || s.Day != day {
		b.t.Fatalf("the sheet is not as filled: %q", s)
	}
	return s
}

// printed looks at the sheet on paper.
func printed(b *tab, s sheet) {
	b.t.Helper()
	p := b.print()
	if p.Pages != "1" || !strings.Contains(p.Size, "A4") {
		b.t.Errorf("it prints on %s pages of %s, want one of A4", p.Pages, p.Size)
	}
	last := 0
	for _, part := range append([]string{"My questions for this visit", "About me", s.Day, "I hand this to my prosthetist", "Please start with these"}, s.Starred...) {
		at := strings.Index(p.Text, part)
		if at < last {
			b.t.Errorf("%q does not stand where it should (%d): %s", part, at, p.Text)
		}
		last = max(last, at)
	}
	folded := eval[[]string](b, `return Array.from(document.querySelectorAll("[data-slot=folded] .ask"), (e) => e.textContent.trim())`)
	for _, ask := range append(slices.Clone(s.Asks), s.Own...) {
		at := strings.Index(p.Text, ask)
		switch {
		case slices.Contains(folded, ask) || slices.Contains(s.Starred, ask):
		case at < 0:
			b.t.Errorf("%q is not printed", ask)
		case at < last:
			b.t.Errorf("%q stands before a starred one", ask)
		}
	}
	for _, part := range []string{"Answered", "Later", "They write back", "In an emergency: " + lib.Edition.Lines.Sentence("emergency"), "It is not medical advice and picks no foot."} {
		if !strings.Contains(p.Text, part) {
			b.t.Errorf("%q is not printed", part)
		}
	}
	for _, part := range []string{"Clear everything", "Take off", "Move up", "Skip to the text"} {
		if strings.Contains(p.Text, part) {
			b.t.Errorf("the paper shows the screen's %q", part)
		}
	}
}

func makeCode(b *tab) string {
	b.t.Helper()
	const carried = `document.querySelectorAll('script[src*="assets/carry."]').length`
	if eval[int](b, "return "+carried) != 0 {
		b.t.Error("what makes a code is loaded before a reader asks")
	}
	b.hand(`fold('[data-slot="share"]'); button("code")`)
	b.waitFor(`document.getElementById("planner-code").value`)
	if eval[int](b, "return "+carried) == 0 {
		b.t.Error("what makes a code did not come from its file")
	}
	return eval[string](b, `return document.getElementById("planner-code").value`)
}

// saved saves the sheet and gives the file that the browser made.
func saved(b *tab) string {
	b.t.Helper()
	before, err := filepath.Glob(filepath.Join(browser.saved, "my-sheet*.json"))
	b.must(err)
	b.hand(`fold('[data-slot="share"]'); button("save", planner.querySelector('[data-slot="share"]'))`)
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		now, err := filepath.Glob(filepath.Join(browser.saved, "my-sheet*.json"))
		b.must(err)
		for _, file := range now {
			if data, err := os.ReadFile(file); err == nil && json.Valid(data) && !slices.Contains(before, file) {
				return file
			}
		}
	}
	b.t.Fatal("no file was saved")
	return ""
}

func contents(t testing.TB, file string) string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// cleared reloads, which keeps the sheet in this tab and nowhere else, and then clears
// everything, which leaves nothing.
func cleared(b *tab, want sheet) {
	b.t.Helper()
	b.openPlanner()
	inTab, elsewhere := b.stored()
	slices.Sort(inTab)
	if !slices.Equal(inTab, []string{"keelpath-sheet", "keelpath-sitting"}) || elsewhere != "" {
		b.t.Errorf("the tab keeps %q, and elsewhere there is %q", inTab, elsewhere)
	}
	b.hand(`button("bar-sheet")`)
	b.same("reload", want)
	b.hand(`button("clear"); button("clear-now")`)
	for range 2 {
		if inTab, elsewhere := b.stored(); len(inTab) > 0 || elsewhere != "" {
			b.t.Errorf("after clearing, the tab keeps %q, and elsewhere there is %q", inTab, elsewhere)
		}
		left := eval[string](b, hands+`return [seen(planner.querySelector('[data-slot="bar"]')) && "the bar", !planner.querySelector("[data-topic]") && "another view",
  planner.querySelector("input:checked") && "a tick", document.querySelector(".sheet-paper")?.textContent].filter((s) => s).join(", ")`)
		if left != "" {
			b.t.Errorf("after clearing there is %s", left)
		}
		b.openPlanner()
	}
	call[any](b, "WebDriver:Back", map[string]any{})
	b.waitFor(`document.readyState === "complete"`)
	if left := eval[string](b, `return document.querySelector("#planner .sheet, #planner .question, #planner input:checked, .sheet-paper > *")?.outerHTML || ""`); left != "" {
		b.t.Errorf("after clearing, Back shows %s", left)
	}
}
