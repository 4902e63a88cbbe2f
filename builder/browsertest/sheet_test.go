package browsertest

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	cdpbrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"
	"github.com/google/go-cmp/cmp"

	"keelpath/builder/tree"
)

// examplesToPrint gives those worked examples that keep the most notes, and examples of
// all patients' trees in turn, each with the tree it belongs to.
func examplesToPrint(t testing.TB, n int) []filled {
	var out []filled
	for _, tr := range lib.Trees {
		for _, ex := range tr.Examples {
			if tr.Audience.S == "patient" && len(walk(t, tr, ex.Given()).Cards) > 2 && len(out) < 6 && !tellsSign(t, tr, ex) {
				out = append(out, filled{tr, ex})
			}
		}
	}
	if len(out) == 0 {
		t.Fatal("no example keeps three notes")
	}
	n += len(out)
	for round := 0; len(out) < n && round < 40; round++ {
		for _, tr := range lib.Trees {
			if tr.Audience.S == "patient" && round < len(tr.Examples) && len(out) < n && !tellsSign(t, tr, tr.Examples[round]) {
				out = append(out, filled{tr, tr.Examples[round]})
			}
		}
	}
	return out
}

// tellsSign is true of an example that leads to the safety screen and to no ending of its own.
func tellsSign(t testing.TB, tr *tree.Tree, ex *tree.Example) bool {
	t.Helper()
	return strings.HasPrefix(walk(t, tr, ex.Given()).Ending, tree.SignEnding(""))
}

type filled struct {
	tree    *tree.Tree
	example *tree.Example
}

// Sheets filled by worked examples print on one side of A4 and of Letter, in
// large type on two at most, the starred ones first and nothing cut.
func TestFilledSheetsPrint(t *testing.T) {
	all := examplesToPrint(t, 20)
	if len(all) < 21 {
		t.Fatalf("only %d examples", len(all))
	}
	next := make(chan filled, len(all))
	for _, f := range all {
		next <- f
	}
	close(next)
	for n := range 2 {
		t.Run(fmt.Sprint("tab ", n+1), func(t *testing.T) {
			t.Parallel()
			b := newTab(t)
			for f := range next {
				printFilled(b, f)
			}
		})
	}
}

func printFilled(b *tab, f filled) {
	b.t.Helper()
	b.openPlanner(onDisk)
	b.take(f.tree, f.example.Given())
	b.tap("sheet")
	s := b.hand(`starThese([1, -1])`)
	name := f.tree.ID.S + "-" + f.example.Ending.S
	var notes []string
	for _, id := range walk(b.t, f.tree, f.example.Given()).Cards {
		notes = append(notes, oneLine(lib.Card(id).Title.S))
	}
	if !slices.Equal(s.Sheet.Notes, notes) {
		b.t.Errorf("%s: the sheet has the notes %q, want %q", name, s.Sheet.Notes, notes)
	}
	if shown := oneLine(eval[string](b, `document.querySelector("#planner .sheet").innerText`)); inOrder(shown, "My sheet", toDecide, "Star up to three questions that matter most to you.", madeBy) != nil {
		b.t.Errorf("%s: the screen does not say what is to be decided and who paid: %s", name, shown)
	}
	// What is asked first is 16 point, and what stands of the reader 14; with more than one note 14 and 12 at least. Nothing is below 12.
	size := eval[[]float64](b, `Array.from(document.querySelectorAll(".sheet-paper .first .ask, .sheet-paper .about .me, .sheet-paper"), (e) => parseFloat(getComputedStyle(e).fontSize) * 72 / 96)`)
	if least := slices.Min(size); least < 12 || len(notes) < 2 && slices.Max(size) < 15.9 {
		b.t.Errorf("%s: the sheet prints at %.1f point with %d notes", name, size, len(notes))
	}
	want := []string{"My questions for this visit", "I hand this to my prosthetist", "Please start with these"}
	starred := eval[[]string](b, `Array.from(document.querySelectorAll(".sheet .starred .ask"), (e) => e.textContent.trim())`)
	if len(starred) != 2 {
		b.t.Fatalf("%s: %d questions are starred", name, len(starred))
	}
	for _, paper := range []string{"A4", "Letter"} {
		p := b.print(paper, "filled-"+name)
		if p.Pages != 1 {
			b.t.Errorf("%s: %d pages of %s, want 1", name, p.Pages, paper)
		}
		holds(b, name, p, want, starred, s)
	}
	b.hand(`tapOn(unfold(planner.querySelector('label[for="planner-large"]')), "large")`)
	p := b.print("A4", "large-"+name)
	if p.Pages > 2 {
		b.t.Errorf("%s: %d pages in large type, want 2 at most", name, p.Pages)
	}
	holds(b, name+" in large type", p, want, starred, s)
	words, _, _ := p.words()
	for _, w := range words {
		if w.Text == "Answered" && w.Bottom-w.Top < 17 {
			b.t.Errorf("%s: large type stands %.1f points high", name, w.Bottom-w.Top)
		}
	}
}

// What every sheet says at its top and at its foot, on screen, on paper and in the text to copy.
const (
	toDecide = "To decide: which kind of foot to talk about and try. You and your team decide."
	madeBy   = "Written by Keelpath editors. No outside funding. No advertising."
)

// holds looks for every question in a printout, the starred ones first.
func holds(b *tab, name string, p printout, head, starred []string, s screen) {
	b.t.Helper()
	for _, missing := range inOrder(p.Text, append(slices.Clone(head), "Answered")...) {
		if !strings.Contains(missing, `"Answered"`) {
			b.t.Errorf("%s: %s", name, missing)
		}
	}
	last, text := 0, p.asWritten()
	for _, ask := range starred {
		at := strings.Index(text, ask)
		if at < 0 {
			b.t.Errorf("%s: %q is missing", name, ask)
		}
		last = max(last, at)
	}
	for _, g := range s.Sheet.Sections {
		for _, ask := range g.Prompts {
			at := strings.Index(text, ask)
			if at < 0 {
				b.t.Errorf("%s: %q is missing", name, ask)
			} else if at < last && !slices.Contains(starred, ask) {
				b.t.Errorf("%s: %q stands before a starred one", name, ask)
			}
		}
	}
	for _, note := range s.Sheet.Notes {
		if !strings.Contains(p.Text, note+". ") {
			b.t.Errorf("%s: the note %q is missing", name, note)
		}
	}
	for _, part := range []string{"Answered", "Later", "They write back", "In an emergency: " + lib.Edition.Lines.Sentence("emergency"), "It is not medical advice and picks no foot.", toDecide, madeBy, lib.Edition.Version.S} {
		if !strings.Contains(p.Text, part) {
			b.t.Errorf("%s: %q is missing", name, part)
		}
	}
	if found := p.furniture(); len(found) > 0 {
		b.t.Errorf("%s: the paper shows %q", name, found)
	}
}

// A question goes up and down, first within its heading and then with it; it takes
// the reader's words, and gives its own back.
func TestMoveAndReword(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	b.take(lib.Tree("hills-and-ramps"), exampleAt(b, "hills-and-ramps", "steep-down"))
	before := asks(b.tap("sheet").Sheet)
	tool := func(n int, act string) screen {
		return b.hand(`const li = planner.querySelectorAll("[data-slot=sections] [data-prompt]")[%s]; li.querySelector("details").open = true; tapOn(li.querySelector('[data-act="`+act+`"]'), "`+act+`")`, n)
	}
	want := slices.Clone(before)
	want[0], want[1] = want[1], want[0]
	if diff := cmp.Diff(want, asks(tool(0, "down").Sheet)); diff != "" {
		t.Errorf("the first one moved down:\n%s", diff)
	}
	if diff := cmp.Diff(before, asks(tool(1, "up").Sheet)); diff != "" {
		t.Errorf("and up again:\n%s", diff)
	}
	sections := b.look().Sheet.Sections
	at := len(sections[0].Prompts) + len(sections[1].Prompts) // the first one of the second heading below those to start with
	moved := tool(at, "up").Sheet.Sections
	if moved[1].Title != sections[2].Title || moved[2].Title != sections[1].Title {
		t.Errorf("the first one of the second heading moved up: %v", moved)
	}
	if on := eval[string](b, `document.activeElement.getAttribute("data-act")`); on != "up" {
		t.Errorf("after moving up the focus is on %q", on)
	}
	own := b.hand(`const li = planner.querySelector("[data-slot=sections] [data-prompt]"); li.querySelector("details").open = true; li.querySelector("textarea").value = "  Will it hold   on my loft ladder? "; tapOn(li.querySelector('[data-act="reword"]'), "reword")`)
	if got := own.Sheet.Sections[0].Prompts[0]; got != "Will it hold on my loft ladder?" {
		t.Errorf("reworded it reads %q", got)
	}
	if p := b.print("A4", "reworded"); !strings.Contains(p.Text, "Will it hold on my loft ladder?") {
		t.Error("the paper does not have the reader's words")
	}
	back := b.hand(`const li = planner.querySelector("[data-slot=sections] [data-prompt]"); li.querySelector("details").open = true; li.querySelector("textarea").value = ""; tapOn(li.querySelector('[data-act="reword"]'), "reword")`)
	if got := back.Sheet.Sections[0].Prompts[0]; got != moved[0].Prompts[0] {
		t.Errorf("its own words back it reads %q, want %q", got, moved[0].Prompts[0])
	}
}

// The sheet goes along as text, as a code, as a link and as a file, and opens again
// in another tab; nothing is sent on the way.
func TestTakeAlong(t *testing.T) {
	everywhere(t, func(t *testing.T, address func(string) string) {
		t.Parallel()
		b := newTab(t)
		b.openPlanner(address)
		fillSheet(b)
		want := b.look().Sheet
		b.hand(`tapOn(planner.querySelector('[data-slot="share"] summary'), "without paper")`)
		b.waitFor(`document.getElementById("planner-text").value !== ""`)
		text := eval[string](b, `document.getElementById("planner-text").value`)
		for _, ask := range asks(want) {
			shown := slices.ContainsFunc(want.More, func(s section) bool { return slices.Contains(s.Prompts, ask) })
			if strings.Contains(text, ask) == shown {
				t.Errorf("the text: %q is in it: %v", ask, !shown)
			}
		}
		b.hand(`tapOn(planner.querySelector('[data-act="code"]'), "code")`)
		b.waitFor(`document.getElementById("planner-code").value !== ""`)
		code := eval[string](b, `document.getElementById("planner-code").value`)
		if n := len(strings.ReplaceAll(code, "-", "")); n > 40 {
			t.Errorf("the code %s has %d symbols", code, n)
		}
		b.hand(`tapOn(planner.querySelector('[data-act="link"]'), "link")`)
		link := eval[string](b, `document.getElementById("planner-link").value`)
		own := want
		own.Own = []string{} // a code holds none of the reader's own words
		carried := asks(own)
		for _, typed := range []string{"3.8 cm (1 1/2 in)", "1:4 (about 25 %, 14 degrees)"} {
			if !strings.Contains(strings.Join(carried, "\n"), typed) {
				t.Errorf("the sheet asks about no %s: %q", typed, carried)
			}
		}
		for name, other := range map[string]*tab{
			"link": func() *tab {
				c := newTab(t)
				c.open(link)
				return c
			}(),
			"code": func() *tab {
				c := newTab(t)
				c.openPlanner(address)
				c.hand(`const fold = planner.querySelector(".open-file"); fold.open = true; document.getElementById("planner-typed").value = %s; tapOn(planner.querySelector('[data-act="open-code"]'), "open")`, strings.ToLower(strings.ReplaceAll(code, "-", " ")))
				return c
			}(),
		} {
			other.waitFor(`!!document.querySelector("#planner .sheet")`)
			got := other.look().Sheet
			if diff := cmp.Diff(slices.Sorted(slices.Values(carried)), slices.Sorted(slices.Values(asks(got)))); diff != "" || got.Stars != want.Stars {
				t.Errorf("by %s the sheet is another, %s:\n%s", name, got.Stars, diff)
			}
			if where := eval[string](other, `location.href`); where != address(plannerName) {
				t.Errorf("by %s the address holds more: %s", name, where)
			}
		}
		for typed, says := range map[string]string{
			code[:len(code)-1] + string("0123456789"[(strings.IndexByte("0123456789", code[len(code)-1])+1)%10]): "This code is not right.",
			"hello there": "This code is not right.",
		} {
			c := newTab(t)
			c.openPlanner(address)
			c.hand(`const fold = planner.querySelector(".open-file"); fold.open = true; document.getElementById("planner-typed").value = %s; tapOn(planner.querySelector('[data-act="open-code"]'), "open")`, typed)
			c.waitFor(`!document.querySelector('[data-slot="code-problem"]').hidden`)
			if got := eval[string](c, `document.querySelector('[data-slot="code-problem"]').textContent`); !strings.HasPrefix(got, says) {
				t.Errorf("%q gets %q", typed, got)
			}
		}
		b.wantOwnLoads(address)
		// A link that meets a reader's own answers asks before it takes their place.
		b.open("about:blank")
		b.open(link)
		b.waitFor(`!document.querySelector('[data-slot="replacing"]').hidden`)
		if s := b.look(); s.View != "topics" || !strings.HasPrefix(s.Focus, "Open the other sheet?") {
			t.Errorf("a link took the place of a sheet: %q, focus on %q", s.View, s.Focus)
		}
		if s := b.tap("leave"); s.Status != "Your sheet is as it was." {
			t.Errorf("left alone, the planner says %q", s.Status)
		}
		if diff := cmp.Diff(asks(want), asks(b.tap("bar-sheet").Sheet)); diff != "" {
			t.Errorf("after such a link the sheet is another:\n%s", diff)
		}
		b.hand(`tapOn(planner.querySelector('[data-slot="share"] summary'), "without paper")`)
		b.waitFor(`!document.querySelector('[data-slot="records-part"]').hidden`)
		sameFile(t, b, address, want)
	})
}

// sameFile saves the sheet as a file and opens it in another tab, and saves the
// answers for a clinic's records.
func sameFile(t *testing.T, b *tab, address func(string) string, want sheet) {
	t.Helper()
	dir := t.TempDir()
	command(b, cdpbrowser.SetDownloadBehavior, cdpbrowser.SetDownloadBehaviorParams{Behavior: cdpbrowser.SetDownloadBehaviorBehaviorAllow, DownloadPath: dir, BrowserContextID: chromedp.FromContext(b.ctx).BrowserContextID})
	b.hand(`tapOn(planner.querySelector('[data-slot="share"] [data-act="save"]'), "save"); for (const one of planner.querySelectorAll('[data-slot="records"] button')) tapOn(one, "records")`)
	file := filepath.Join(dir, "my-sheet.json")
	record := filepath.Join(dir, "heel-height.questionnaire-response.json")
	for n := 0; ; n++ {
		_, one := os.Stat(file)
		data, _ := os.ReadFile(record)
		if one == nil && json.Valid(data) {
			break
		}
		if n > 100 {
			t.Fatalf("the files were not saved: %v", one)
		}
		time.Sleep(50 * time.Millisecond)
	}
	var response struct {
		ResourceType, Questionnaire, Status string
		Subject                             any
	}
	data, err := os.ReadFile(record)
	if err == nil {
		err = json.Unmarshal(data, &response)
	}
	if err != nil || response.ResourceType != "QuestionnaireResponse" || response.Status != "completed" || response.Subject != nil || !strings.HasPrefix(response.Questionnaire, "urn:keelpath:") {
		t.Errorf("the answers for the records: %v %+v", err, response)
	}
	c := newTab(t)
	c.openPlanner(address)
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	c.hand(openFile, "no sheet at all")
	c.waitFor(`!document.querySelector('[data-slot="file-problem"]').hidden`)
	c.hand(openFile, string(text))
	c.waitFor(`!!document.querySelector("#planner .sheet")`)
	if diff := cmp.Diff(asks(want), asks(c.look().Sheet)); diff != "" {
		t.Errorf("from the file the sheet is another:\n%s", diff)
	}
}

// The text copy holds what the paper does: the gravest caution first, questions, cautions,
// notes, what to bring; and the answers.
func TestTextIsWhole(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	var want, answers []string
	for _, f := range threeToCopy(t) {
		path := walk(t, f.tree, f.example.Given())
		s := b.take(f.tree, f.example.Given())
		for _, id := range path.Cards {
			if note := "- " + oneLine(lib.Card(id).Title.S) + ". "; !slices.Contains(want, note) {
				want = append(want, note)
			}
		}
		answers = append(answers, "My answers: "+f.tree.Title.S)
		for _, step := range s.Trail {
			answers = append(answers, "- "+step.Question+" "+strings.Join(step.Answers, ", "))
		}
		b.tap("topics")
	}
	s := b.tap("bar-sheet")
	b.hand(`tapOn(planner.querySelector('[data-slot="share"] summary'), "without paper")`)
	b.waitFor(`document.getElementById("planner-text").value !== ""`)
	text := eval[string](b, `document.getElementById("planner-text").value`)
	flat := func(text string) string {
		return strings.Join(strings.Fields(strings.ReplaceAll(text, "\n", " ")), " ")
	}
	all := flat(text)
	// Of what the screen says, in the order of the text; the emergency line stands apart.
	grave, _, _ := strings.Cut(s.Sheet.Grave, "In an emergency:")
	order := []string{"My questions for this visit", flat(grave), "In an emergency:", toDecide, "Please start with these", "For my prosthetist", "Keep in mind", "Notes for this visit"}
	order = append(order, want...)
	order = append(order, "What to bring", "- This sheet, your leg and all you wear with it")
	order = append(order, answers...)
	order = append(order, "In an emergency:", "It is not medical advice and picks no foot.", madeBy)
	if wrong := inOrder(all, order...); wrong != nil {
		t.Errorf("%s\n%s", strings.Join(wrong, "\n"), text)
	}
	for _, caution := range eval[[]string](b, `Array.from(document.querySelectorAll('#planner [data-slot="cautions"] .caution p'), (e) => e.textContent)`) {
		if !strings.Contains(all, flat(caution)) {
			t.Errorf("the text lacks the caution %q", caution)
		}
	}
	if len(want) < 3 || s.Sheet.Mind == "" || grave == "" {
		t.Errorf("the sheet of this test is too poor: %d notes, %q, %q", len(want), s.Sheet.Mind, grave)
	}
}

// threeToCopy gives worked examples of three trees: one whose ending is for safety, one
// with another caution, and one that keeps notes.
func threeToCopy(t testing.TB) []filled {
	t.Helper()
	var out []filled
	find := func(fits func(e *tree.Ending, p tree.Path) bool) {
		for _, tr := range lib.Trees {
			for _, ex := range tr.Examples {
				path := walk(t, tr, ex.Given())
				taken := slices.ContainsFunc(out, func(f filled) bool { return f.tree == tr })
				if tr.Audience.S == "patient" && !taken && !tellsSign(t, tr, ex) && independent(t, out, filled{tr, ex}) && fits(tr.Ending(path.Ending), path) {
					out = append(out, filled{tr, ex})
					return
				}
			}
		}
		t.Fatalf("no example for the part %d of this test", len(out)+1)
	}
	find(func(_ *tree.Ending, p tree.Path) bool { return len(p.Cards) > 2 })
	find(func(e *tree.Ending, _ tree.Path) bool { return e.Caution.S != "" && e.Safety })
	find(func(e *tree.Ending, _ tree.Path) bool { return e.Caution.S != "" && !e.Safety })
	return out
}

// openFile gives the planner a file with the text.
const openFile = `const fold = planner.querySelector(".open-file"); fold.open = true; const field = document.getElementById("planner-file"); const all = new DataTransfer(); all.items.add(new File([%s], "sheet.json")); field.files = all.files; field.dispatchEvent(new Event("change"))`

// A sheet that is opened takes the place of another only after asking, and the other
// comes back whole: by file, by code and by link alike. What holds nothing is refused.
func TestReplaceAsksAndBringsBack(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	hills := lib.Tree("hills-and-ramps")
	b.take(hills, exampleWithCards(t, hills).Given())
	b.tap("sheet")
	code := b.code()
	b.openPlanner(onDisk)
	fillSheet(b)
	b.run(`document.querySelector("#planner-day").value = "Walk to the shop."; document.querySelector("#planner-day").dispatchEvent(new Event("input", { bubbles: true }))`)
	want := eval[string](b, whole)
	for name, open := range map[string]func(){
		"file": func() {
			b.tap("bar-topics")
			b.hand(openFile, `{"form":"keelpath-sheet-2","kept":{"day":"Another day."}}`)
		},
		"code": func() {
			b.tap("bar-topics")
			b.hand(`planner.querySelector(".open-file").open = true; document.getElementById("planner-typed").value = %s; button("open-code")`, code)
		},
		"link": func() {
			b.open("about:blank")
			b.open(onDisk(plannerName) + "#code=" + code)
		},
	} {
		open()
		b.waitFor(asksFirst)
		b.tap("leave")
		if s := b.tap("bar-sheet"); eval[string](b, whole) != want {
			t.Fatalf("%s: kept, the sheet is another: %+v", name, s)
		}
		open()
		b.waitFor(asksFirst)
		s := b.tap("replace")
		if s.View != "sheet" || eval[string](b, whole) == want || !slices.Contains(s.Buttons, "Bring my earlier sheet back") {
			t.Fatalf("%s: opened, the screen is %q with %q", name, s.View, s.Buttons)
		}
		b.openAgain(onDisk) // a reload forgets neither
		b.tap("bar-sheet")
		if s := b.tap("bring-back"); eval[string](b, whole) != want || s.Status != "Your earlier sheet is back." {
			t.Errorf("%s: what comes back is another: %+v", name, s)
		}
	}
	b.tap("bar-topics")
	for text, says := range map[string]string{
		`{"form":"keelpath-sheet-1"}`: "There is nothing on the sheet in this file",
		`{"form":"keelpath-sheet-2","kept":{"day":"` + strings.Repeat("x", 2_200_000) + `"}}`: "This file is too large",
		`{"form":"keelpath-sheet-9","kept":{"day":"x"}}`:                                      "This file was saved with a newer version",
	} {
		b.hand(openFile, text)
		b.waitFor(`document.getElementById("planner-file-problem").textContent.startsWith(` + quoted(b, says) + `)`)
		if s := b.look(); s.View != "topics" || eval[bool](b, asksFirst) {
			t.Errorf("%s: the screen is %q", says, s.View)
		}
	}
	b.tap("bar-sheet")
	if eval[string](b, whole) != want {
		t.Error("a file that was refused changed the sheet")
	}
	b.clear()
	b.openAgain(onDisk)
	if n := eval[int](b, `sessionStorage.length`); n != 0 {
		t.Errorf("after clearing %d things are stored", n)
	}
}

// whole is all that the sheet on the screen says.
const whole = `document.querySelector("#planner .sheet").textContent + document.getElementById("planner-day").value`

// asksFirst is true while the planner asks whether to open another sheet.
const asksFirst = `!document.querySelector('[data-slot="replacing"]').hidden`

// code gives the code of the sheet on the screen.
func (b *tab) code() string {
	b.t.Helper()
	b.hand(`const d = planner.querySelector('[data-slot="share"]'); d.open = true; button("code")`)
	b.waitFor(`document.getElementById("planner-code").value !== ""`)
	return eval[string](b, `document.getElementById("planner-code").value`)
}

// A sheet that an earlier version saved opens, and the reader sees what to look at again.
func TestOlderFileSaysSo(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	b.hand(openFile, `{"form":"keelpath-sheet-1","kept":{"day":"Walk.","taken":["gone"]}}`)
	b.waitFor(`!!document.querySelector("#planner .sheet")`)
	s := b.look()
	for _, want := range []string{"Your sheet is open again.", "saved with an earlier version", "left out: answers to questions that have changed."} {
		if !strings.Contains(s.Status, want) {
			t.Errorf("it says %q, want %q in it", s.Status, want)
		}
	}
	if !eval[bool](b, `!document.querySelector('#planner [data-slot="status"]').classList.contains("unseen")`) {
		t.Error("it is said to those alone who do not see it")
	}
}

// What a tab stores cannot hold the planner up: it is read in a moment or not at all, and
// the reader is told.
func TestHugeStoredState(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	for _, c := range []struct {
		ids  int
		says string
	}{{200_000, "What was kept in this tab can no longer be read"}, {40_000, "Your answers from before are still here"}} {
		b.open(onDisk("index.html"))
		b.run(fmt.Sprintf(`sessionStorage.setItem("keelpath-sheet", JSON.stringify({ form: "keelpath-sheet-2", kept: { day: "Walk.", order: Array.from({ length: %[1]d }, (_, i) => "u" + i), stars: [] } }))`, c.ids))
		from := time.Now()
		b.openAgain(onDisk)
		if took := time.Since(from); took > 5*time.Second {
			t.Errorf("with %d unknown ids the planner takes %v", c.ids, took)
		}
		if s := b.look(); !strings.HasPrefix(s.Status, c.says) {
			t.Errorf("with %d unknown ids it says %q", c.ids, s.Status)
		}
	}
}

// After the visit the same sheet is turned over: what was said is kept with it and
// prints.
func TestAfterTheVisit(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	fillSheet(b)
	b.tap("visit")
	b.hand(`tapOn(planner.querySelector('[data-slot="asked"] input[value="later"] + label'), "later");
for (const [id, text] of [["visit-0-said", "Ask again in May."], ["visit-decided", "We keep the foot."], ["visit-tries", "A softer bumper for four weeks."], ["visit-meet", "In June."]]) {
  const field = document.getElementById(id); field.value = text; field.dispatchEvent(new Event("input", { bubbles: true }));
}`)
	p := b.print("A4", "visit")
	if missing := inOrder(p.Text, "The back: what was said at this visit", "Later. Ask again in May.", "We keep the foot.", "A softer bumper for four weeks.", "In June."); len(missing) > 0 || p.Pages != 1 {
		t.Errorf("%d pages: %q", p.Pages, missing)
	}
	b.hand(`button("sheet")`)
	b.hand(`tapOn(unfold(planner.querySelector('label[for="planner-back"]')), "back"); tapOn(planner.querySelector('label[for="planner-told"]'), "told")`)
	both := b.print("A4", "sheet-and-back")
	if missing := inOrder(both.Text, "My questions for this visit", "The back: what was said at this visit", "We keep the foot.", "My answers"); len(missing) > 0 || both.Pages != 3 {
		t.Errorf("%d pages with answers and back: %q", both.Pages, missing)
	}
	words, _, _ := both.words()
	first := ""
	for _, w := range words {
		first += w.Text + " "
	}
	if !strings.Contains(first, "My questions for this visit") || strings.Contains(first, "My answers") {
		t.Errorf("the first page is not the questions alone: %s", first)
	}
}

// independent reports whether no answer of an example tells what another of these trees asks as well: a
// fact told in one topic is an answer in the other, too.
func independent(t testing.TB, others []filled, f filled) bool {
	t.Helper()
	for _, other := range others {
		if meets(tellings(t, f), couldTell(other.tree)) || meets(tellings(t, other), couldTell(f.tree)) {
			return false
		}
	}
	return true
}

func meets(a, b []string) bool {
	return slices.ContainsFunc(a, func(fact string) bool { return slices.Contains(b, fact) })
}

// tellings gives the facts that the answers of an example tell.
func tellings(t testing.TB, f filled) (out []string) {
	t.Helper()
	for _, step := range walk(t, f.tree, f.example.Given()).Steps {
		for _, q := range f.tree.Questions {
			if q.ID.S == step.Question {
				out = append(out, factsOf(q, func(a *tree.Answer) bool { return slices.Contains(step.Chosen, a.ID.S) })...)
			}
		}
	}
	return out
}

func couldTell(tr *tree.Tree) (out []string) {
	for _, q := range tr.Questions {
		out = append(out, factsOf(q, func(*tree.Answer) bool { return true })...)
	}
	return out
}

// factsOf gives the facts that some answers of a question tell, and its measure.
func factsOf(q *tree.Question, chosen func(*tree.Answer) bool) (out []string) {
	facts := slices.Clone(q.Tells)
	for _, a := range q.Answers {
		if chosen(a) {
			facts = append(facts, a.Tells...)
		}
	}
	for _, fact := range facts {
		out = append(out, fact.S)
	}
	return out
}
