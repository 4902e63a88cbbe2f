package browsertest

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/library"
	"keelpath/builder/tree"
)

const plannerName = "prepare/index.html"

// A screen is what a reader sees of the planner, part by part. Texts are as shown:
// what the style hides is not in them.
type screen struct {
	View     string   // topics, leg, gate, signs, told, question, ending, sheet or missing
	Title    string   // the screen's own heading
	Place    string   // "At most 3 questions left after this one."
	Question string   // the question asked
	Choices  []choice // topics or answers
	Entry    string   // what to write in the place for an amount, where there is one
	Written  string   // what stands there
	Problem  string   // what is missing
	Trail    []asked
	Ending   ending
	Sheet    sheet
	Buttons  []string // in their order
	Status   string   // what is said to those who do not see it
	Focus    string   // what has the focus
}

type choice struct {
	ID      string
	Text    string
	Checked bool
}

type asked struct {
	Question string
	Answers  []string
}

type ending struct {
	Title   string
	Caution string
	Text    []string // its paragraphs
	Cards   []string
	Prompts []string
}

type sheet struct {
	Grave    string
	Stars    string
	Sections []section
	More     []section // folded in
	Own      []string
	Bring    []string
	Off      []string
	Notes    []string // titles of the cards
	Mind     string
	Long     string // says that it may not fit a page
}

type section struct {
	Title   string
	Prompts []string
}

// look reads the screen. It only reads.
const look = `(() => {
const root = document.getElementById("planner");
const shown = (e) => !!e && e.getClientRects().length > 0 && getComputedStyle(e).visibility !== "hidden";
const clean = (s) => s.replace(/\s+/g, " ").trim();
const text = (e) => shown(e) ? clean(e.innerText) : "";
const one = (s, r = root) => r && r.querySelector(s);
const all = (s, r = root) => r ? Array.from(r.querySelectorAll(s)) : [];
const at = (name, r = root) => one('[data-slot="' + name + '"]', r);
const out = { View: "", Title: "", Place: "", Question: "", Choices: [], Entry: "", Written: "", Problem: "", Trail: [], Buttons: [], Status: "", Focus: "",
  Ending: { Title: "", Caution: "", Text: [], Cards: [], Prompts: [] },
  Sheet: { Grave: "", Stars: "", Sections: [], More: [], Own: [], Bring: [], Off: [], Notes: [], Mind: "", Long: "" } };
if (!shown(root)) return out;
const view = at("view");
if (one("[data-topic]", view)) out.View = "topics";
if (one(".question", view)) out.View = "question";
if (one(".ending", view)) out.View = "ending";
if (one(".sheet", view)) out.View = "sheet";
if (one('[data-slot="by-hand"]', view)) out.View = "missing";
if (one(".safety", view)) out.View = one("[data-leg]", view) ? "leg" : one(".steps", view) ? "told" : one('[name="gate"]', view) ? "gate" : "signs";
const asks = out.View === "question";
out.Title = asks || out.View === "ending" ? text(at("tree", view)) : text(one("h2", view));
out.Place = text(asks ? at("left", view) : one(".place span", view));
out.Question = asks ? text(one("h2", view)) : "";
const safe = one("form.safety", view);
const choices = safe ? all(".signs input", view) : all(out.View === "topics" ? "[data-topic]" : ".question .rows [value]", view);
const says = (i) => { const e = safe ? one('label[for="' + i.id + '"]', view) : one(".says", i.closest(".row")), c = e.cloneNode(true); for (const x of c.querySelectorAll(".unseen")) x.remove(); return shown(e) ? clean(c.textContent) : ""; };
const entry = one(".question .entry", view);
out.Entry = text(one("label", entry));
out.Written = entry ? one("input", entry).value : "";
out.Choices = choices.map((i) => ({ ID: i.value, Text: says(i), Checked: i.checked || i.classList.contains("mine") }));
out.Problem = text(at("problem", view));
// The trail is folded, so it is read as it is written.
if (shown(at("trail", view))) out.Trail = all('[data-slot="steps"] > li', view).map((li) => ({ Question: clean(at("asked", li).textContent), Answers: all('[data-slot="answered"] > *', li).map((e) => clean(e.textContent)) }));
if (out.View === "ending") {
  const ending = one(".ending", view);
  out.Ending.Title = text(one("h2", ending));
  out.Ending.Caution = text(at("caution", ending));
  const plain = (e) => { const c = e.cloneNode(true); for (const x of c.querySelectorAll(".unseen, .by-hand, .cite")) x.remove(); return clean(c.textContent.replace(/ \(opens in a new tab\)/g, "")); };
  out.Ending.Text = all(".sky > p", ending).filter(shown).concat(all(".kinds > .to", ending)).map(plain); // what is folded is read as it is written
  out.Ending.Cards = all(".card > h4", ending).map(text);
  out.Ending.Prompts = all('[data-slot="prompts"] .ask, [data-slot="more-prompts"] .ask', ending).map((e) => clean(e.textContent));
}
if (out.View === "told") out.Ending.Title = out.Title;
if (out.View === "sheet") {
  // What is folded in is there and not shown, so it is read as it is written.
  const asks = (r) => all(".ask", r).map((e) => clean(e.textContent));
  const sections = (name) => all(".section", at(name, view)).map((g) => ({ Title: clean(one("h3", g).textContent), Prompts: asks(g) }));
  const listed = (name) => asks(at(name, view));
  Object.assign(out.Sheet, { Grave: text(at("grave", view)), Stars: text(at("stars", view)), Sections: sections("sections"), More: sections("folded"),
    Own: listed("own"), Bring: listed("bring"), Notes: all('[data-slot="notes"] .card > h4', view).filter(shown).map(text), Mind: text(at("mind", view)), Long: text(at("long", view)),
    Off: all('[data-slot="off"] > li', view).map((li) => clean(at("ask", li).textContent)) });
}
out.Buttons = all("button").filter(shown).map((b) => clean(b.innerText));
out.Status = clean(at("status").textContent);
const f = document.activeElement;
out.Focus = f && f !== document.body ? clean(f.innerText || (f.labels && f.labels[0] ? f.labels[0].innerText : "")) : "";
return out;
})()`

// look gives the screen as it is now.
func (b *tab) look() screen {
	b.t.Helper()
	return eval[screen](b, look)
}

// The fast hands of the tests that go through many screens: they press what a
// reader would press, by its mark in the page, and give the screen that follows.
const hands = `
const tapOn = (e, what) => {
  if (!e || !e.getClientRects().length) throw new Error("cannot press " + what);
  e.click();
};
const planner = document.getElementById("planner");
const act = (name) => planner.querySelector('[data-act="' + name + '"]');
// The line at the foot leads to the sheet, and the bar where there is no such line.
const button = (name) => tapOn(name === "bar-sheet" && act("slip").getClientRects().length ? act("slip") : act(name), name);
const next = () => tapOn(planner.querySelector('form button[type="submit"]'), "Go on");
// What is folded is opened by its fold.
const unfold = (e) => { for (let d = e && e.parentElement.closest("details"); d; d = d.parentElement.closest("details")) if (!d.open) tapOn(d.querySelector("summary"), "a fold"); return e; };
// A question's tool, and stars by the places that questions have before the first is starred.
const tool = (id, name) => tapOn(unfold(Array.from(planner.querySelectorAll("[data-prompt]")).find((li) => li.dataset.prompt === id).querySelector('[data-act="' + name + '"]')), name);
const prompts = () => Array.from(planner.querySelectorAll("[data-prompt]"), (li) => li.dataset.prompt);
const starThese = (places) => { const all = prompts(); for (const n of places) tool(all[n < 0 ? all.length + n : n], "star"); };
const addOwn = (text) => { unfold(document.getElementById("planner-own")).value = text; tapOn(planner.querySelector('[data-slot="add"] button'), "add"); };
const write = (field, text) => { field.value = text; field.dispatchEvent(new Event("input", { bubbles: true })); };
// What most readers tell on the safety screen: they wear a leg, and nothing is wrong.
const pass = () => {
  const leg = planner.querySelector('[data-leg="worn"]');
  if (leg) tapOn(leg, "a leg that is worn");
  for (let n = 0; n < 6 && planner.querySelector("form.safety"); n++) button("none");
};
// An answer is changed from the trail, which is folded.
const change = (n) => {
  planner.querySelector("details.path").open = true;
  tapOn(planner.querySelectorAll('[data-act="change"]')[n], "change " + n);
};
// Goes on with what was given here before.
const again = () => {
  const mine = planner.querySelector("button.row.mine");
  if (mine) tapOn(mine, "the answer given"); else next();
};
// One answer or topic is a button that goes on; several topics are lined up, several answers ticked.
const answer = (ids) => {
  const named = (id) => planner.querySelector('.question .rows [value="' + CSS.escape(id) + '"], [data-topic][value="' + CSS.escape(id) + '"]');
  const one = named(ids[0]);
  if (one && one.tagName === "BUTTON" && ids.length === 1) return tapOn(one, ids[0]);
  const entry = planner.querySelector(".question .entry input");
  if (entry && !one) { write(entry, ids[0]); return next(); }
  const line = planner.querySelector("details.several");
  if (line) line.open = true;
  const boxes = Array.from(planner.querySelectorAll(".rows input"));
  for (const i of boxes) if (i.checked !== ids.includes(i.value)) tapOn(i.closest("label"), i.value);
  const have = boxes.filter((i) => i.checked).map((i) => i.value);
  if (String(have) !== String(ids)) throw new Error("ticked " + have + ", wanted " + ids);
  next();
};
`

// hand runs a few presses and looks.
func (b *tab) hand(script string, values ...any) screen {
	b.t.Helper()
	args := make([]any, len(values))
	for i, v := range values {
		args[i] = quoted(b, v)
	}
	return eval[screen](b, "(() => {"+hands+fmt.Sprintf(script, args...)+"; return "+look+"})()")
}

// quoted writes a value the way a script does.
func quoted(b *tab, v any) string {
	b.t.Helper()
	text, err := json.Marshal(v)
	b.must(err)
	return string(text)
}

// tap presses one of the planner's buttons by its mark.
func (b *tab) tap(name string) screen { b.t.Helper(); return b.hand(`button(%s)`, name) }

// choose answers the question or ticks topics, in the page's order, and goes on. Where
// the safety screen comes first, it is answered as most readers would.
func (b *tab) choose(ids ...string) screen {
	b.t.Helper()
	if len(ids) == 1 && ids[0] == tree.Skip {
		return b.tap("skip")
	}
	return b.hand(`answer(%s); pass()`, ids)
}

// openPlanner opens it anew, without what this tab may have kept, and waits until it
// has taken over from the plain page.
func (b *tab) openPlanner(address func(string) string) screen {
	b.t.Helper()
	b.run(`document.querySelector('#planner [data-act="clear-now"]')?.click()`)
	b.open(address(plannerName))
	b.waitFor(`!document.getElementById("planner").hidden`)
	b.loadParts()
	s := b.look()
	if s.View != "topics" {
		b.t.Fatalf("the planner opens with %q", s.View)
	}
	return s
}

// loadParts loads all that the planner would load by and by, so that each button does at once what
// it does. How it loads them, and what where one is missing, parts_test.go looks at.
func (b *tab) loadParts() {
	b.t.Helper()
	b.run(`(() => {
const planner = document.getElementById("planner");
const scripts = Array.from(document.getElementById("view-topics").content.querySelectorAll("[data-script]"), (e) => e.getAttribute("data-script"));
scripts.push(planner.getAttribute("data-sheets"), planner.getAttribute("data-prompts"), planner.getAttribute("data-about"));
const add = (element) => new Promise((done, fail) => { element.onload = done; element.onerror = () => fail(new Error(element.src || element.href)); document.head.appendChild(element); });
const style = document.createElement("link");
style.rel = "stylesheet";
style.setAttribute("href", planner.getAttribute("data-sheet-style"));
return Promise.all([add(style), ...scripts.map((src) => { const script = document.createElement("script"); script.src = src; return add(script); })]).then(() => 0);
})()`)
}

// clear clears everything the way a reader does.
func (b *tab) clear() screen {
	b.t.Helper()
	return b.hand(`button("clear"); button("clear-now")`)
}

// screens takes a tree from the topics along a path, then presses the given
// buttons, and gives what each question, the ending and each screen after it looked
// like.
func (b *tab) screens(tr *tree.Tree, path tree.Path, then ...string) []screen {
	b.t.Helper()
	return b.manyScreens(tr, []tree.Path{path}, then...)[0]
}

// manyScreens does so with one path after the other; the buttons must lead back to
// the topics. It is one script, so that the browser need not paint in between.
func (b *tab) manyScreens(tr *tree.Tree, paths []tree.Path, then ...string) [][]screen {
	b.t.Helper()
	chosen := [][][]string{}
	for _, path := range paths {
		one := [][]string{}
		for _, step := range path.Steps {
			one = append(one, step.Chosen)
		}
		chosen = append(chosen, one)
	}
	return eval[[][]screen](b, fmt.Sprintf(`(() => {%s
const look = () => %s;
return %s.map((path) => {
  const screens = [];
  try {
    answer([%q]); pass();
    for (const ids of path) {
      screens.push(look());
      if (String(ids) === %q) button("skip");
      else answer(ids);
    }
    screens.push(look());
    for (const name of %s) { button(name); screens.push(look()); }
  } catch (e) {
    throw new Error(JSON.stringify(path) + " after " + screens.length + " screens: " + e.message);
  }
  return screens;
}); })()`, hands, look, quoted(b, chosen), tr.ID.S, tree.Skip, quoted(b, append([]string{}, then...))))
}

// take walks one tree from the topics to its ending.
func (b *tab) take(tr *tree.Tree, answers tree.Answers) screen {
	b.t.Helper()
	all := b.screens(tr, walk(b.t, tr, answers))
	s := all[len(all)-1]
	if s.View != "ending" {
		b.t.Fatalf("%s: after all answers the planner shows %q: %s", tr.ID.S, s.View, s.Question)
	}
	return s
}

// walk is Go's own walk along answers that reach an ending.
func walk(t testing.TB, tr *tree.Tree, answers tree.Answers) tree.Path {
	t.Helper()
	path, err := tr.Walk(answers)
	if err != nil || path.Ending == "" {
		t.Fatalf("%s %v: %v, stops at %q", tr.ID.S, answers, err, path.Open)
	}
	return path
}

// oneLine is text as a browser shows it.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// The planner shows topics in groups, and lines them up in the edition's order: by that order
// a sheet's code names them, and what was told first in it counts.
func TestTopicsInOrder(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	var want []string
	for _, tr := range lib.PatientTrees() {
		want = append(want, tr.ID.S)
	}
	got := eval[[][]string](b, `["#planner .several input", "#planner [data-topic]"].map((s) => Array.from(document.querySelectorAll(s), (e) => e.value))`)
	if !slices.Equal(got[0], want) {
		t.Errorf("topics are lined up as %q, want %q", got[0], want)
	}
	if slices.Sort(got[1]); !slices.Equal(got[1], slices.Sorted(slices.Values(want))) {
		t.Errorf("the groups show %q, want %q", got[1], want)
	}
}

// What an ending says of a kind and of a word stands elsewhere in the page: the
// reader has it at the ending.
func TestEndingSaysWhatKindsAre(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	takeRich(b)
	got := eval[[][]string](b, `[".talk li > p:not(.name)", ".words dd"].map((s) => Array.from(document.querySelectorAll("#planner .ending " + s), (e) => e.textContent))`)
	for i, all := range got {
		if len(all) == 0 || slices.Contains(all, "") {
			t.Errorf("of list %d the ending says %q", i, all)
		}
	}
	for _, what := range got[0] {
		if !slices.ContainsFunc(lib.FootTypes, func(f *library.FootType) bool { return f.What.S == what }) {
			t.Errorf("no kind of foot is %q", what)
		}
	}
}
