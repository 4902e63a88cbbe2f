package browsertest

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/safety"
	"keelpath/builder/say"
	"keelpath/builder/tree"
)

// A state is a kind of page, or of screen, that a reader can come to.
type state struct {
	name  string
	reach func(b *tab, address func(string) string)
}

func pageState(name string) state {
	return state{name, func(b *tab, address func(string) string) { b.t.Helper(); b.openPage(name, address) }}
}

func planner(name string, steps func(b *tab)) state {
	return state{"planner-" + name, func(b *tab, address func(string) string) {
		b.t.Helper()
		b.openPlanner(address)
		steps(b)
	}}
}

// What readers write on the sheet in states, in their own words.
const (
	ownQuestion  = "May I climb the loft ladder with it?"
	longQuestion = "Is it so? "
)

// states are one of each kind of page, and each screen of the planner.
var states = []state{
	pageState("index.html"), pageState("learn/index.html"), pageState("learn/payer-levels.html"), pageState("learn/foot-types.html"), pageState("learn/glossary.html"),
	pageState("learn/questions.html"), pageState("teach/index.html"), pageState("teach/loads-and-weight.html"), pageState("teach/cases.html"), pageState("teach/cases/heels-three-days.html"), pageState("teach/keys/heels-three-days.html"), pageState("clinic/index.html"), pageState("clinic/sources.html"),
	pageState("prepare/loads-and-weight.html"), pageState("workbench/index.html"), pageState("workbench/heel-change.html"),
	pageState("learn/search.html"), searchState("found", "my stump sweats"), searchState("sign", "chest pain and I feel hopeless"), searchState("nothing", "xyzzyq"),
	planner("topics", func(*tab) {}),
	planner("topics-error", func(b *tab) { wantProblem(b, b.hand(`planner.querySelector("details.several").open = true; next()`)) }),
	planner("safety-leg", func(b *tab) { b.hand(`answer(["hills-and-ramps"])`) }),
	planner("safety-gate", func(b *tab) { toGate(b) }),
	planner("safety-signs", func(b *tab) { toGate(b); b.tap("unsure") }),
	planner("safety-call", func(b *tab) {
		toGate(b)
		b.tap("unsure")
		b.hand(`tapOn(planner.querySelector(".signs label"), "the first sign")`)
	}),
	planner("safety-told", func(b *tab) { tellAll(b, safety.Worn, "skin", "leg", "fall") }),
	planner("safety-emergency", func(b *tab) { tellAll(b, safety.NotYet, "help", "skin", "despair") }),
	planner("question", func(b *tab) { takeHalf(b) }),
	planner("question-error", func(b *tab) { takeHalf(b); wantProblem(b, b.hand(`next()`)) }),
	planner("ending", func(b *tab) { takeRich(b) }),
	planner("ending-safety", func(b *tab) { takeGrave(b) }),
	planner("sheet", func(b *tab) { fillSheet(b) }),
	planner("sheet-safety", func(b *tab) { takeGrave(b); b.tap("sheet") }),
	planner("sheet-too-long", func(b *tab) {
		fillSheet(b)
		b.hand(put+`put(unfold(document.getElementById("planner-own")), %s)`, strings.Repeat(longQuestion, 60))
	}),
	planner("asks", func(b *tab) {
		takeRich(b)
		b.tap("topics")
		b.hand(openFile, "no sheet")
		b.waitFor(`!document.getElementById("planner-file-problem").hidden`)
		b.hand(openFile, `{"form":"keelpath-sheet-1","kept":{"day":"Walk."}}`)
		b.waitFor(asksFirst)
	}),
	planner("replaced", func(b *tab) {
		takeRich(b)
		b.tap("topics")
		b.hand(openFile, `{"form":"keelpath-sheet-1","kept":{"day":"Walk."}}`)
		b.waitFor(asksFirst)
		b.tap("replace")
	}),
	planner("clear", func(b *tab) { takeRich(b); b.tap("clear") }),
	{"planner-missing", func(b *tab, address func(string) string) {
		b.t.Helper()
		b.run(`document.querySelector('#planner [data-act="clear-now"]')?.click()`)
		b.openBare(address(plannerName))
		b.run(`const append = Node.prototype.appendChild;
Node.prototype.appendChild = function (node) {
  if (node.tagName !== "SCRIPT") return append.call(this, node);
  setTimeout(() => node.onerror(new Event("error")));
  return node;
}`)
		b.hand(`answer(["hills-and-ramps"]); pass()`)
		b.missing("")
	}},
}

// everyPage gives a state for each page of the site, the planner's among them.
func everyPage(t testing.TB) []state {
	t.Helper()
	var out []state
	for _, name := range pages(t, siteDir) {
		out = append(out, pageState(name))
	}
	return out
}

// eachState brings a tab to each state and runs the test there. Two tabs share the work.
func eachState(t *testing.T, all []state, test func(t *testing.T, b *tab, s state)) {
	t.Helper()
	next := make(chan state, len(all))
	for _, s := range all {
		next <- s
	}
	close(next)
	for n := range 2 {
		t.Run(fmt.Sprint("tab ", n+1), func(t *testing.T) {
			t.Parallel()
			b := newTab(t)
			for s := range next {
				s.reach(b, onDisk)
				test(t, b, s)
			}
		})
	}
}

func wantProblem(b *tab, s screen) {
	b.t.Helper()
	if s.Problem == "" {
		b.t.Fatalf("nothing says what is missing at %q", s.View)
	}
}

// toGate stops before the gate of the safety screen.
func toGate(b *tab) {
	b.t.Helper()
	if s := b.hand(`answer(["hills-and-ramps"]); tapOn(planner.querySelector('[data-leg="worn"]'), "leg")`); s.View != "gate" {
		b.t.Fatalf("not at the gate: %q", s.View)
	}
}

// tellAll tells every sign of these groups.
func tellAll(b *tab, leg string, groups ...string) {
	b.t.Helper()
	var told []safety.Said
	for _, d := range canTell(leg) {
		if slices.Contains(groups, d.Group) {
			told = append(told, d)
		}
	}
	b.hand(`answer(["hills-and-ramps"])`)
	if s := b.tell(leg, told); s.View != "told" {
		b.t.Fatalf("not at what was told: %q", s.View)
	}
}

// takeHalf stops at a question that takes several answers, with a trail.
func takeHalf(b *tab) {
	b.t.Helper()
	for _, tr := range lib.Trees {
		for _, q := range tr.Questions {
			path, err := tr.Walk(witness(tr, q.ID.S))
			if err != nil || tr.Audience.S != "patient" || q.Pick != tree.PickAny || path.Open != q.ID.S || len(path.Steps) < 2 {
				continue
			}
			b.screens(tr, path)
			return
		}
	}
	b.t.Fatal("no tree asks for several answers after two others")
}

// takeRich ends where cards, feet and questions come up.
func takeRich(b *tab) {
	b.t.Helper()
	tr := lib.Tree("heel-height")
	s := b.take(tr, exampleAt(b, tr.ID.S, "set-it-yourself"))
	if len(s.Ending.Cards) == 0 || s.Ending.Caution == "" || len(s.Ending.Prompts) == 0 {
		b.t.Fatalf("the ending is not rich enough: %+v", s.Ending)
	}
}

func takeGrave(b *tab) {
	b.t.Helper()
	if s := b.take(lib.Tree("something-changed"), exampleAt(b, "something-changed", "rest-limb")); s.Ending.Caution == "" {
		b.t.Fatalf("the ending has no caution: %+v", s.Ending)
	}
}

// fillSheet has a star, an own question, one taken off, and a fold.
func fillSheet(b *tab) {
	b.t.Helper()
	takeRich(b)
	b.tap("topics")
	b.take(lib.Tree("hills-and-ramps"), exampleAt(b, "hills-and-ramps", ""))
	b.tap("sheet")
	b.hand(`addOwn("` + ownQuestion + `")`)
	b.hand(`starThese([4]); tool(prompts()[3], "off")`)
	s := b.hand(`tapOn(planner.querySelector('[data-slot="off-fold"] summary'), "taken off")`)
	if stars := say.Western(s.Sheet.Stars); !strings.Contains(stars, "1") || !strings.Contains(stars, "3") || len(s.Sheet.Own) != 1 || len(s.Sheet.Off) != 1 {
		b.t.Fatalf("the sheet is not as wanted: %+v", s.Sheet)
	}
}

// exampleAt gives the answers of the worked example that ends there; of the one
// with most cards where no ending is given.
func exampleAt(b *tab, id, ending string) map[string][]string {
	b.t.Helper()
	tr := lib.Tree(id)
	if ending == "" {
		return exampleWithCards(b.t, tr).Given()
	}
	for _, e := range tr.Examples {
		if e.Ending.S == ending {
			return e.Given()
		}
	}
	b.t.Fatalf("no example of %s ends at %s", id, ending)
	return nil
}
