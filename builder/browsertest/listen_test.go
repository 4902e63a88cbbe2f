package browsertest

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/safety"
	"keelpath/builder/tree"
)

var refresh = flag.Bool("refresh", false, "write what is listened to into testdata/listening")

// heard are the states whose accessibility tree stands in testdata/listening.
var heard = []state{
	pageState("index.html"),
	planner("topics", func(*tab) {}),
	planner("leg", func(b *tab) { b.hand(`answer(["hills-and-ramps"])`) }),
	planner("gate", func(b *tab) { toGate(b) }),
	planner("group", func(b *tab) {
		toGate(b)
		b.hand(`tapOn(planner.querySelector(".signs label"), "the first line"); next()`)
	}),
	planner("emergency", func(b *tab) { tellAll(b, safety.NotYet, "despair") }),
	planner("gathered", func(b *tab) { tellAll(b, safety.Worn, "skin", "leg") }),
	planner("question-one", func(b *tab) {
		toForm(b, "uneven-ground", func(q *tree.Question) bool { return q.Measure == nil && q.Pick != tree.PickAny })
	}),
	planner("question-several", func(b *tab) { takeHalf(b) }),
	planner("question-amount", func(b *tab) {
		toForm(b, "loads-and-weight", func(q *tree.Question) bool { return q.Measure != nil && len(q.Measure.Likes) == 0 })
	}),
	planner("question-likes", func(b *tab) {
		toForm(b, "hills-and-ramps", func(q *tree.Question) bool { return q.Measure != nil && len(q.Measure.Likes) > 0 })
	}),
	planner("question-problem", func(b *tab) { takeHalf(b); wantProblem(b, b.hand(`next()`)) }),
	planner("ending", func(b *tab) { takeRich(b) }),
	planner("ending-grave", func(b *tab) { takeGrave(b) }),
	planner("sheet", func(b *tab) { takeRich(b); b.tap("sheet") }),
	planner("visit", func(b *tab) { takeGrave(b); b.tap("sheet"); b.tap("visit") }),
	{"wishes", func(b *tab, address func(string) string) {
		b.t.Helper()
		b.openPage(pullsPage, address)
		b.run(`for (const id of ["slopes", "side-slopes", "push", "light-weight"]) document.getElementById("mark-" + id).click()`)
	}},
	pageState("workbench/heel-change.html"),
	pageState("learn/spring-feet.html"),
}

// toForm stops at the first question of a topic that has this form.
func toForm(b *tab, id string, fits func(*tree.Question) bool) {
	b.t.Helper()
	tr := lib.Tree(id)
	for _, q := range tr.Questions {
		path, err := tr.Walk(witness(tr, q.ID.S))
		if err != nil || !fits(q) || path.Open != q.ID.S {
			continue
		}
		b.screens(tr, path)
		return
	}
	b.t.Fatalf("%s has no question of this form", id)
}

// What a reader who listens comes by on each kind of page, and on each screen of the
// planner, stands in testdata/listening: the title, the focus, what is said, and the
// tree of names, roles and states as Chromium gives it to a screen reader.
func TestListening(t *testing.T) {
	dir := filepath.Join("testdata", "listening")
	var names []string
	for _, s := range heard {
		names = append(names, fileOf(s))
	}
	eachState(t, heard, func(t *testing.T, b *tab, s state) {
		b.settled() // the slip comes behind the screen
		got := b.listen()
		name := filepath.Join(dir, fileOf(s))
		if *refresh {
			if err := os.WriteFile(name, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			return
		}
		want, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
			t.Errorf("%s: what is heard has changed; if it is right, run this test with -refresh and read the difference.\n%s", s.name, diff)
		}
	})
	files, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !slices.Contains(names, f.Name()) {
			t.Errorf("%s is of no state; delete it", f.Name())
		}
	}
}

func fileOf(s state) string {
	return strings.NewReplacer("/", "-", ".html", "").Replace(s.name) + ".txt"
}

// Where several things of one kind stand on a screen, their names differ: a list of all
// buttons, boxes or links is of use only then (WCAG 2.2, 2.4.4 and 2.4.6, for links and labels).
func TestNamesDiffer(t *testing.T) {
	eachState(t, heard, func(t *testing.T, b *tab, s state) {
		b.run(`for (const d of document.querySelectorAll("main details")) d.open = true`)
		for _, same := range sameNames(b.axTree()) {
			t.Errorf("%s: %s", s.name, same)
		}
	})
}

// sameNames gives the controls that cannot be told apart by their names.
func sameNames(root *axNode) []string {
	var out []string
	count := map[string]int{}
	root.walk(func(n *axNode) {
		if slices.Contains([]string{"button", "checkbox", "radio", "textbox", "DisclosureTriangle", "spinbutton", "slider"}, n.role) {
			key := fmt.Sprintf("%s %q", n.role, n.within()+n.name)
			if count[key]++; count[key] == 2 || n.name == "" {
				out = append(out, key)
			}
		}
	})
	return out
}

// On a list of topics with its fold for saved sheets open nothing is wider than a
// phone's narrowest window, with wider spacing too (WCAG 2.2, 1.4.10 and 1.4.12).
func TestSavedSheetFits(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	b.size(320, 640)
	b.run(`document.querySelector("#planner .open-file").open = true`)
	for _, spaced := range []bool{false, true} {
		if spaced {
			b.run(spacing)
		}
		for _, wrong := range eval[[]string](b, layout) {
			t.Errorf("spaced: %v: %s", spaced, wrong)
		}
		if right := eval[float64](b, `document.getElementById("planner-file").getBoundingClientRect().right`); right > 320 {
			t.Errorf("spaced: %v: the field for a file ends at %.0f px", spaced, right)
		}
	}
}
