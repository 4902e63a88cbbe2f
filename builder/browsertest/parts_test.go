package browsertest

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/internal/sitetest"
	"keelpath/builder/safety"
)

// Here the planner loads what it needs by itself, when it comes to need it. Other tests
// load all of it first (loadParts).

// openBare opens the planner with no part loaded.
func (b *tab) openBare(address string) {
	b.t.Helper()
	b.open(address)
	b.waitFor(`!document.getElementById("planner").hidden`)
}

// partsAsked gives the parts that were asked for, without their hashes: "tree-work".
func (b *tab) partsAsked() []string {
	b.t.Helper()
	out := []string{}
	for _, a := range b.requests() {
		name, _, _ := strings.Cut(a[strings.LastIndex(a, "/")+1:], ".")
		if name == "sheets" || name == "prompts" || strings.HasPrefix(name, "tree-") || strings.HasPrefix(name, "figure-") {
			out = append(out, name)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// A topic is loaded when it is taken, behind the safety screen; what the sheet needs while its first
// question is read; a figure when it is opened. Nothing else is.
func TestPartsComeWhenNeeded(t *testing.T) {
	everywhere(t, func(t *testing.T, address func(string) string) {
		t.Parallel()
		b := newTab(t)
		b.openBare(address(plannerName))
		want := func(when string, parts ...string) {
			t.Helper()
			if got := b.partsAsked(); !slices.Equal(got, parts) {
				t.Errorf("%s the page has asked for %v, want %v", when, got, parts)
			}
		}
		want("opened,")
		b.hand(`answer(["heel-height", "hills-and-ramps"])`)
		wantsScreen(t, b, "a topic that is not loaded")
		b.hand(`pass()`)
		b.waitFor(`document.querySelector("#planner .question") !== null`)
		b.waitFor(`!!window.keelpathSheets && document.getElementById("view-sheet") !== null && document.querySelector('link[href*="/sheets."]')?.sheet != null`)
		want("at the first question", "prompts", "sheets", "tree-heel-height")
		for _, step := range walk(t, lib.Tree("heel-height"), exampleAt(b, "heel-height", "set-it-yourself")).Steps {
			b.choose(step.Chosen...)
		}
		s := b.hand(`tapOn(planner.querySelector('[data-slot="onward"] button'), "the next topic")`)
		b.waitFor(`(document.querySelector('#planner [data-slot="tree"]') || {}).textContent === ` + quoted(b, lib.Tree("hills-and-ramps").Title.S))
		if s = b.look(); s.View != "question" {
			t.Errorf("the next topic shows %q", s.View)
		}
		want("at the next topic", "prompts", "sheets", "tree-heel-height", "tree-hills-and-ramps")
		if s = b.tap("bar-sheet"); s.View != "sheet" || len(s.Sheet.Sections) < 2 {
			t.Errorf("the sheet is %q: %+v", s.View, s.Sheet)
		}
		// A topic that comes after the part with all prompts takes nothing from it.
		b.tap("bar-topics")
		b.hand(`answer(["work"])`)
		b.waitFor(`(document.querySelector('#planner [data-slot="tree"]') || {}).textContent === ` + quoted(b, lib.Tree("work").Title.S))
		for _, step := range walk(t, lib.Tree("work"), exampleAt(b, "work", "")).Steps {
			s = b.choose(step.Chosen...)
		}
		if n := eval[int](b, `Array.from(document.querySelectorAll('#planner .prompt [data-slot="why"]')).filter((e) => !e.textContent).length`); s.View != "ending" || len(s.Ending.Prompts) == 0 || n > 0 {
			t.Errorf("at %q %d of the questions do not say why", s.View, n)
		}
		b.wantOwnLoads(address)
	})
}

// A sitePart is a copy of the site of which some files can be taken away and put back.
type sitePart struct {
	t       testing.TB
	address string // of the planner in it
	files   []string
}

// copyWith copies the site; names are how the names of the files begin. It is called before the tab is
// opened, so that the copy goes after the tab that may still be loading from it.
func copyWith(t testing.TB, names ...string) *sitePart {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(siteDir)); err != nil {
		t.Fatal(err)
	}
	out := &sitePart{t: t, address: sitetest.OnDisk(dir, plannerName)}
	for _, name := range names {
		found, err := filepath.Glob(filepath.Join(dir, "assets", name+"*.*"))
		if err != nil || len(found) == 0 {
			t.Fatalf("the site has no asset %s: %v", name, err)
		}
		out.files = append(out.files, found...)
	}
	return out
}

func (s *sitePart) takeAway() { s.t.Helper(); s.rename("", ".gone") }

func (s *sitePart) putBack() { s.t.Helper(); s.rename(".gone", "") }

func (s *sitePart) rename(from, to string) {
	s.t.Helper()
	for _, name := range s.files {
		if err := os.Rename(name+from, name+to); err != nil {
			s.t.Fatal(err)
		}
	}
}

// missing waits for the view that stands in place of one that did not load.
func (b *tab) missing(title string) screen {
	b.t.Helper()
	b.waitFor(`document.querySelector('#planner [data-slot="by-hand"]') !== null`)
	s := b.look()
	if title != "" && s.Title != title {
		b.t.Errorf("what is missing is told as %q, want %q", s.Title, title)
	}
	return s
}

// With every part missing the whole safety screen works: each sign is there to tick, and
// brings its caution and its questions for later.
func TestSafetyWithoutParts(t *testing.T) {
	t.Parallel()
	site := copyWith(t, "tree-", "figure-", "sheets", "prompts", "carry", "workbench")
	b := newTab(t)
	site.takeAway()
	b.openBare(site.address)
	signs, prompts := 0, 0
	for _, g := range lib.Safety.Groups {
		ids := []string{}
		said := []safety.Said{}
		for _, s := range g.Signs {
			ids = append(ids, s.ID.S)
			said = append(said, safety.Said{Group: g.ID.S, Sign: s.ID.S})
		}
		b.hand(`answer(["hills-and-ramps"]); tapOn(planner.querySelector('[data-leg="worn"]'), "leg")`)
		b.hand(`tapOn(planner.querySelector('label[for="gate-' + %s + '"]'), "line"); next()`, g.ID.S)
		s := b.hand(`for (const id of %s) tapOn(planner.querySelector('label[for="sign-' + id + '"]'), id); next()`, ids)
		if s.View != "told" {
			t.Fatalf("%s: after all signs the planner shows %q", g.ID.S, s.View)
		}
		got := eval[struct {
			Cautions []string
			Later    []string
		}](b, `({ Cautions: Array.from(document.querySelectorAll("#planner .told .caution"), (e) => e.innerText.trim()), Later: Array.from(document.querySelectorAll('#planner [data-slot="prompts"] .ask'), (e) => e.textContent) })`)
		if len(got.Cautions) != len(said) || slices.Contains(got.Cautions, "") {
			t.Errorf("%s: of %d signs %d cautions are shown", g.ID.S, len(said), len(got.Cautions))
		}
		signs += len(said)
		prompts += len(got.Later)
		for _, ask := range got.Later {
			if ask == "" {
				t.Errorf("%s: a question for later says nothing", g.ID.S)
			}
		}
		b.hand(`button("onward")`)
		s = b.missing("“Hills and ramps” did not load")
		if i := slices.Index(s.Buttons, "Safety answers"); i < 0 || !slices.Contains(s.Buttons, "Something is wrong now") {
			t.Errorf("%s: what did not load leaves %q", g.ID.S, s.Buttons)
		}
		b.clear()
	}
	if signs < 20 || prompts < 10 {
		t.Errorf("%d signs and %d questions were looked at", signs, prompts)
	}
	b.forgive()
}

// A topic that does not load is told with a way on, nothing that was said is lost, other topics
// work, and once it is there it is taken as any other.
func TestMissingTopic(t *testing.T) {
	t.Parallel()
	site := copyWith(t, "tree-hills-and-ramps")
	b := newTab(t)
	site.takeAway()
	b.openBare(site.address)
	b.hand(`answer(["hills-and-ramps"]); pass()`)
	s := b.missing("“Hills and ramps” did not load")
	if want := []string{"Try again", "All topics"}; !slices.Equal(s.Buttons[:2], want) || !strings.HasPrefix(s.Focus, "“Hills") {
		t.Errorf("the ways on are %q, the focus is on %q", s.Buttons, s.Focus)
	}
	text := eval[string](b, `document.querySelector('#planner [data-slot="view"]').innerText`)
	for _, want := range []string{"Nothing that you said is lost.", "You can also take this topic by hand: Hills and ramps"} {
		if !strings.Contains(text, want) {
			t.Errorf("it does not say %q: %s", want, text)
		}
	}
	if strings.Contains(text, "answers of topics") || strings.Contains(text, "all questions to bring") {
		t.Errorf("it says what is for other parts: %s", text)
	}
	paper := eval[[]string](b, `(() => { const a = document.querySelector('#planner [data-slot="paper"]'); return [a.href, a.target]; })()`)
	if want := strings.Replace(site.address, "index.html", "hills-and-ramps.html", 1); paper[0] != want || paper[1] != "_blank" {
		t.Errorf("the way by hand is %v", paper)
	}
	b.tap("again")
	b.missing("“Hills and ramps” did not load")
	b.tap("topics")
	b.hand(`answer(["heel-height", "hills-and-ramps"])`)
	b.waitFor(`document.querySelector("#planner .question") !== null`)
	if s = b.look(); s.Title != lib.Tree("heel-height").Title.S {
		t.Errorf("another topic shows %q, %q", s.View, s.Title)
	}
	b.tap("bar-topics")
	b.hand(`answer(["hills-and-ramps"])`)
	b.missing("“Hills and ramps” did not load")
	site.putBack()
	b.tap("again")
	b.waitFor(`document.querySelector('#planner .question') !== null`)
	if s = b.look(); s.View != "question" || s.Title != lib.Tree("hills-and-ramps").Title.S {
		t.Errorf("once it is there the topic shows %q, %q", s.View, s.Title)
	}
	b.back()
	b.waitFor(`document.querySelector("#planner [data-topic]") !== null`)
	b.forgive()
}

// What the tab kept is never lost because a topic does not load: it waits, also over more reloads,
// with the safety screen open all the while, and comes back whole.
func TestKeptWaitsForItsTopics(t *testing.T) {
	t.Parallel()
	site := copyWith(t, "tree-hills-and-ramps")
	b := newTab(t)
	b.openBare(site.address)
	b.loadParts()
	fillSheet(b)
	want := b.look().Sheet
	site.takeAway()
	again := func() screen {
		t.Helper()
		b.open("about:blank")
		b.openBare(site.address)
		return b.missing("Your answers did not load")
	}
	again()
	kept := eval[string](b, `sessionStorage["keelpath-sheet"]`)
	s := again()
	if want := []string{"Try again", "Go on with what is here"}; !slices.Equal(s.Buttons[:2], want) || slices.Contains(s.Buttons, "My sheet") || slices.Contains(s.Buttons, "All topics") {
		t.Errorf("the ways on are %q", s.Buttons)
	}
	s = b.tap("bar-wrong")
	if s.View != "signs" {
		t.Errorf("something is wrong now leads to %q", s.View)
	}
	b.run(`location.hash = "#take=heel-height"`) // nothing else is begun over it
	b.missing("Your answers did not load")
	b.tap("again")
	b.missing("Your answers did not load")
	if now := eval[string](b, `sessionStorage["keelpath-sheet"]`); now != kept || !strings.Contains(kept, "loft ladder") {
		t.Errorf("the tab keeps\n%s\nand kept\n%s", now, kept)
	}
	site.putBack()
	b.tap("again")
	b.waitFor(`document.querySelector("#planner [data-topic]") !== null`)
	if s = b.look(); !strings.HasPrefix(s.Status, "Your answers from before are still here") {
		t.Errorf("once it is there the planner says %q", s.Status)
	}
	if got := b.tap("bar-sheet").Sheet; !slices.Equal(asks(got), asks(want)) || got.Stars != want.Stars {
		t.Errorf("the sheet that came back is %v, and was %v", asks(got), asks(want))
	}

	// Or the reader goes on without it, and is told what is left out.
	site.takeAway()
	again()
	s = b.tap("without")
	if s.View != "topics" || !strings.Contains(s.Status, "still here") || !strings.Contains(s.Status, "left out") {
		t.Errorf("without it the planner shows %q and says %q", s.View, s.Status)
	}
	s = b.tap("bar-sheet")
	if !slices.Equal(s.Sheet.Own, want.Own) || len(s.Sheet.Sections) < 2 {
		t.Errorf("without it the sheet is %+v", s.Sheet)
	}
	b.forgive()
}

// Where what shows the sheet did not load, the topic is gone through to its ending, with
// its caution and what to ask, and the sheet says what it waits for.
func TestMissingSheet(t *testing.T) {
	t.Parallel()
	site := copyWith(t, "sheets", "prompts")
	b := newTab(t)
	site.takeAway()
	b.openBare(site.address)
	tr := lib.Tree("heel-height")
	answers := exampleAt(b, tr.ID.S, "set-it-yourself")
	b.hand(`answer(["heel-height"]); pass()`)
	b.waitFor(`document.querySelector("#planner .question") !== null`)
	var s screen
	for _, step := range walk(t, tr, answers).Steps {
		s = b.choose(step.Chosen...)
	}
	if s.View != "ending" || s.Ending.Caution == "" || len(s.Ending.Prompts) == 0 || slices.Contains(s.Ending.Prompts, "") || len(s.Ending.Cards) == 0 {
		t.Errorf("the ending is %q: %+v", s.View, s.Ending)
	}
	asked := s.Ending.Prompts
	b.tap("sheet")
	s = b.missing("Your sheet did not load")
	if want := []string{"Try again", "All topics"}; !slices.Equal(s.Buttons[:2], want) {
		t.Errorf("the ways on are %q", s.Buttons)
	}
	if to := eval[string](b, `document.querySelector('#planner [data-slot="all-questions"] a').href`); !strings.HasSuffix(to, "/learn/questions.html") {
		t.Errorf("it leads to %s", to)
	}
	site.putBack()
	b.tap("again")
	b.waitFor(`document.querySelector("#planner .sheet") !== null`)
	s = b.look()
	if all := slices.Concat(asks(s.Sheet), s.Sheet.Bring); !slices.Contains(all, asked[0]) {
		t.Errorf("the sheet has %q, and the ending brought %q", all, asked)
	}
	if why := eval[int](b, `Array.from(document.querySelectorAll('#planner .prompt [data-slot="why"]')).filter((e) => e.textContent).length`); why == 0 {
		t.Error("no question says why")
	}
	b.forgive()

	// Nor is the sheet shown without its style, which the paper is measured with.
	c := newTab(t)
	site.files = slices.DeleteFunc(site.files, func(name string) bool { return filepath.Ext(name) != ".css" })
	site.takeAway()
	c.openBare(site.address)
	c.hand(`answer(["heel-height"]); tapOn(planner.querySelector('[data-leg="worn"]'), "a leg"); button("bar-sheet")`)
	c.missing("Your sheet did not load")
	c.tap("again")
	c.missing("Your sheet did not load")
	site.putBack()
	c.tap("again")
	c.waitFor(`document.querySelector("#planner .sheet") !== null`)
	if where := eval[string](c, `getComputedStyle(document.querySelector(".sheet-paper")).display`); where != "none" {
		t.Errorf("the paper's display is %s on the screen", where)
	}
	c.forgive()
}

// hold keeps each script that the page adds until release is called.
const hold = `
const append = Node.prototype.appendChild, held = [];
Node.prototype.appendChild = function (node) {
  if (node.tagName !== "SCRIPT") return append.call(this, node);
  held.push(() => append.call(this, node));
  return node;
};
window.release = () => { for (const one of held.splice(0)) one(); };
`

// Two presses while a topic loads take it once; the page says that it loads; and what was asked for
// last is what is shown.
func TestLastAskedIsShown(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.atStart(hold)
	b.openBare(onDisk(plannerName))
	b.hand(`answer(["hills-and-ramps"])`)
	wantsScreen(t, b, "a topic that does not come")
	s := b.hand(`pass()`)
	if s.View != "signs" && s.View != "gate" {
		t.Errorf("while the topic loads the planner shows %q", s.View)
	}
	b.waitFor(`document.querySelector('#planner [data-slot="status"]').textContent === "One moment. A part of this page is loading."`)
	b.hand(`button("none"); button("none")`)
	length := eval[int](b, `history.length`)
	b.run(`release()`)
	b.waitFor(`document.querySelector("#planner .question") !== null`)
	if s = b.look(); s.Status != "" || eval[int](b, `history.length`) != length+1 {
		t.Errorf("it was shown more than once, or still loads: %q", s.Status)
	}

	b.tap("bar-topics")
	b.hand(`answer(["heel-height"])`)
	b.hand(`answer(["work"])`)
	b.run(`release()`)
	b.waitFor(`document.querySelector("#planner .question") !== null`)
	b.run(`new Promise((done) => setTimeout(done, 300))`)
	if s = b.look(); s.Title != lib.Tree("work").Title.S {
		t.Errorf("asked for last was work, and %q is shown", s.Title)
	}
	b.tap("bar-topics")
	b.hand(`answer(["sport-and-play"]); button("bar-sheet")`)
	b.run(`release(); new Promise((done) => setTimeout(done, 300))`)
	if s = b.look(); s.View != "sheet" {
		t.Errorf("a reader who went to the sheet meanwhile is shown %q", s.View)
	}
}

// Nobody waits for ever: after 20 seconds the planner says that a topic did not load, and where it
// comes after all it is taken at once.
func TestSlowTopic(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.atStart(hold + `const later = setTimeout; window.setTimeout = (does, ms) => later(does, ms === 20000 ? 100 : ms);`)
	b.openBare(onDisk(plannerName))
	b.hand(`answer(["hills-and-ramps"]); pass()`)
	b.missing("“Hills and ramps” did not load")
	b.run(`release(); new Promise((done) => setTimeout(done, 300))`)
	if s := b.tap("again"); s.View != "question" {
		t.Errorf("a topic that came late shows %q", s.View)
	}
}

// A sheet that a code or a file brings is opened with the topics that it names, and where
// one of them is missing the field says so and the sheet at hand stays.
func TestOpenedSheetBringsItsTopics(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	fillSheet(b)
	want := asks(b.look().Sheet)
	code := b.code()

	for _, missing := range []bool{false, true} {
		site := copyWith(t, "tree-hills-and-ramps")
		c := newTab(t)
		if missing {
			site.takeAway()
		}
		c.openBare(site.address)
		c.hand(`planner.querySelector(".open-file").open = true; document.getElementById("planner-typed").value = %s; button("open-code")`, code)
		if missing {
			c.waitFor(`!document.querySelector('[data-slot="code-problem"]').hidden`)
			if says := eval[string](c, `document.querySelector('[data-slot="code-problem"]').textContent`); !strings.HasPrefix(says, "This part could not be loaded.") {
				t.Errorf("a code with a topic that is missing gets %q", says)
			}
			c.hand(openFile, `{"form":"keelpath-sheet-2","kept":{"taken":["hills-and-ramps"],"answers":{"hills-and-ramps":{"change":["no"]}}}}`)
			c.waitFor(`!document.querySelector('[data-slot="file-problem"]').hidden`)
			if says := eval[string](c, `document.querySelector('[data-slot="file-problem"]').textContent`); !strings.HasPrefix(says, "This part could not be loaded.") {
				t.Errorf("a file with a topic that is missing gets %q", says)
			}
			c.forgive()
			continue
		}
		c.waitFor(`document.querySelector("#planner .sheet") !== null`)
		got := asks(c.look().Sheet)
		slices.Sort(got)
		held := slices.DeleteFunc(slices.Clone(want), func(ask string) bool { return strings.Contains(ask, "loft ladder") }) // a code has none of the reader's own
		slices.Sort(held)
		if !slices.Equal(got, held) {
			t.Errorf("by a code the sheet is %q, and was %q", got, held)
		}
		if parts := c.partsAsked(); !slices.Equal(parts, []string{"prompts", "sheets", "tree-heel-height", "tree-hills-and-ramps"}) {
			t.Errorf("for it the page asked for %v", parts)
		}
	}
}

// A script that came in part runs not at all, and the browser says that it loaded: the planner
// sees that it brought nothing.
func TestBrokenTopic(t *testing.T) {
	t.Parallel()
	site := copyWith(t, "tree-hills-and-ramps")
	b := newTab(t)
	whole, err := os.ReadFile(site.files[0])
	if err != nil {
		t.Fatal(err)
	}
	write := func(data []byte) {
		t.Helper()
		if err := os.WriteFile(site.files[0], data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(whole[:len(whole)/2])
	b.openBare(site.address)
	b.hand(`answer(["hills-and-ramps"]); pass()`)
	b.missing("“Hills and ramps” did not load")
	write(whole)
	b.tap("again")
	b.waitFor(`document.querySelector("#planner .question") !== null`)
	b.forgive()
}

// A host that can no longer be reached takes nothing from what is there: the safety screen, the
// topic at hand and its ending, and the sheet, which came ahead of need.
func TestHostGone(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	host := httptest.NewServer(http.FileServerFS(os.DirFS(siteDir)))
	defer host.Close()
	b.openBare(host.URL + "/prepare/")
	b.hand(`answer(["heel-height"]); pass()`)
	b.waitFor(`document.querySelector("#planner .question") !== null`)
	b.waitFor(`!!window.keelpathSheets && document.getElementById("view-sheet") !== null && document.querySelector('link[href*="/sheets."]')?.sheet != null &&
		performance.getEntriesByType("resource").some((r) => /prompts/.test(r.name) && r.responseEnd > 0)`)
	host.CloseClientConnections()
	host.Close()
	var s screen
	for _, step := range walk(t, lib.Tree("heel-height"), exampleAt(b, "heel-height", "set-it-yourself")).Steps {
		s = b.choose(step.Chosen...)
	}
	if s.View != "ending" || len(s.Ending.Prompts) == 0 {
		t.Errorf("the ending is %q", s.View)
	}
	if s = b.tap("sheet"); s.View != "sheet" || len(s.Sheet.Sections) < 2 {
		t.Errorf("the sheet is %q", s.View)
	}
	b.tap("bar-topics")
	b.hand(`answer(["work"])`)
	b.missing("“Your work day” did not load")
	if s = b.tap("bar-wrong"); s.View != "signs" {
		t.Errorf("something is wrong now leads to %q", s.View)
	}
	b.tap("bar-sheet")
	if s = b.look(); s.View != "sheet" {
		t.Errorf("the sheet is %q", s.View)
	}
	b.forgive()
}
