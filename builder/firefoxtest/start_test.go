package firefoxtest

import (
	"path"
	"path/filepath"
	"testing"

	"keelpath/builder/internal/sitetest"
)

// Each page of start/ leads, from a file on disk, to the safety screen of the planner; behind an
// invitation to several topics the first of them comes.
func TestStartPages(t *testing.T) {
	names, err := filepath.Glob(filepath.Join(siteDir, "start", "*.html"))
	if err != nil || len(names) < 10 {
		t.Fatalf("%d pages: %v", len(names), err)
	}
	b := newTab(t)
	for _, name := range names {
		b.open(sitetest.OnDisk(siteDir, "start/"+path.Base(filepath.ToSlash(name))))
		if filepath.Base(name) == "index.html" {
			b.waitFor(`document.querySelector("#planner [data-topic]") !== null`)
		} else {
			b.waitFor(`document.querySelector("#planner [data-leg]") !== null`)
		}
		if at := eval[string](b, `return location.href`); at != sitetest.OnDisk(siteDir, plannerName) {
			t.Errorf("%s leads to %s", name, at)
		}
		b.forgive()
	}
	b.open(sitetest.OnDisk(siteDir, plannerName) + "#take=work,hills-and-ramps")
	b.waitFor(`document.querySelector("#planner [data-leg]") !== null`)
	b.hand(`press(planner.querySelector('[data-leg="worn"]'), "worn"); button("none")`)
	b.waitFor(`document.querySelector("#planner .question h2") !== null`)
	if got := eval[string](b, `return document.querySelector('#planner [data-slot="tree"]').textContent`); got != "Your work day" {
		t.Errorf("the invitation begins with %q", got)
	}
}
