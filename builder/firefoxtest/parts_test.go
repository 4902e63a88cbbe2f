package firefoxtest

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/internal/sitetest"
)

// From disk each part is loaded when it is needed and not before; one that is missing is told, loses
// nothing, and is taken once it is there.
func TestPartsFromDisk(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(siteDir)); err != nil {
		t.Fatal(err)
	}
	found, err := filepath.Glob(filepath.Join(dir, "assets", "tree-hills-and-ramps.*.js"))
	found = slices.DeleteFunc(found, func(name string) bool { return strings.Count(filepath.Base(name), ".") > 2 }) // other voices
	if err != nil || len(found) != 1 {
		t.Fatalf("the topic's part is %v: %v", found, err)
	}
	if err := os.Rename(found[0], found[0]+".gone"); err != nil {
		t.Fatal(err)
	}
	b := newTab(t)
	open := func() {
		t.Helper()
		b.open(sitetest.OnDisk(dir, plannerName))
		b.waitFor(`!document.getElementById("planner").hidden`)
	}
	open()
	const parts = `return Array.from(document.scripts, (s) => s.src).filter((src) => /assets\/(tree|figure|sheets|prompts)/.test(src)).length`
	if n := eval[int](b, parts); n != 0 {
		t.Errorf("%d parts are loaded before a topic is taken", n)
	}
	b.choose("hills-and-ramps")
	b.passLeg()
	const missing = `(document.querySelector('#planner [data-slot="view"] h2') || {}).textContent === "“Hills and ramps” did not load"`
	b.waitFor(missing)
	b.hand(`button("topics")`)
	b.choose("heel-height", "hills-and-ramps")
	b.waitFor(`document.querySelector("#planner .question")`)
	b.hand(`button("bar-topics"); fold("details.several"); next()`) // the topic that waits is still ticked
	b.waitFor(missing)
	if err := os.Rename(found[0]+".gone", found[0]); err != nil {
		t.Fatal(err)
	}
	b.hand(`button("again")`)
	b.waitFor(`document.querySelector("#planner .question")`)
	open() // the tab's own store waits for both topics
	b.waitFor(`document.querySelectorAll("#planner .standing:not([hidden])").length === 2`)
	if says := eval[string](b, `return document.querySelector('#planner [data-slot="status"]').textContent`); !strings.HasPrefix(says, "Your answers from before are still here") {
		t.Errorf("after a reload the planner says %q", says)
	}
	b.forgive() // a file that is missing
}

// passLeg goes through the safety screen as most readers would.
func (b *tab) passLeg() {
	b.t.Helper()
	b.hand(`press(planner.querySelector('[data-leg="worn"]'), "the leg answer"); button("none")`)
}
