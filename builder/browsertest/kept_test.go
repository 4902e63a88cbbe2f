package browsertest

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"keelpath/builder/internal/sitetest"
)

// A reload keeps what the reader said, in this tab; after clearing, nothing is
// left, and the browser's Back finds nothing.
func TestReloadKeepsAndClearEnds(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onWeb)
	fillSheet(b)
	want := b.look().Sheet
	b.run(`document.querySelector("#planner-day").value = "Walk to the shop."; document.querySelector("#planner-day").dispatchEvent(new Event("input", { bubbles: true }))`)
	b.openAgain(onWeb)
	got := b.tap("bar-sheet").Sheet
	if strings.Join(asks(got), "\n") != strings.Join(asks(want), "\n") || got.Stars != want.Stars {
		t.Errorf("after a reload the sheet is %v, and was %v", got, want)
	}
	if day := eval[string](b, `document.querySelector("#planner-day").value`); day != "Walk to the shop." {
		t.Errorf("after a reload the day reads %q", day)
	}
	b.clear()
	b.back()
	if s := b.look(); s.View != "topics" {
		t.Errorf("after clearing, Back shows %q", s.View)
	}
	b.openAgain(onWeb)
	if n := eval[int](b, `sessionStorage.length`); n != 0 {
		t.Errorf("after clearing and a reload %d things are stored", n)
	}
	if !eval[bool](b, `document.querySelector('#planner [data-slot="bar"]').hidden`) {
		t.Error("after clearing and a reload there is something to clear")
	}
}

// openAgain opens the planner in the same tab, with all that the tab has kept.
func (b *tab) openAgain(address func(string) string) {
	b.t.Helper()
	b.open(address(plannerName))
	b.waitFor(`!document.getElementById("planner").hidden`)
	b.loadParts()
}

func asks(s sheet) []string {
	var out []string
	for _, g := range append(append([]section{}, s.Sections...), s.More...) {
		out = append(out, g.Prompts...)
	}
	return append(out, s.Own...)
}

// A shared screen stores nothing, asks before it clears, and lets a reader stay.
func TestSharedScreen(t *testing.T) {
	t.Parallel()
	dir := filepath.Join(t.TempDir(), "site")
	sharedSite(t, dir)
	at := func(name string) string { return sitetest.OnDisk(dir, name) }
	b := newTab(t)
	b.atStart(`window.ahead = 0; const now = Date.now.bind(Date); Date.now = () => now() + window.ahead`)
	b.openPlanner(at)
	fillSheet(b)
	b.hand(`tapOn(planner.querySelector('[data-slot="share"] summary'), "without paper"); tapOn(planner.querySelector('[data-act="code"]'), "code")`)
	b.waitFor(`document.getElementById("planner-code").value !== ""`)
	for _, name := range []string{"copy", "save", "copy-code", "link"} {
		if eval[bool](b, fmt.Sprintf(`document.querySelector('#planner [data-act=%q]').getClientRects().length > 0`, name)) {
			t.Errorf("a shared screen offers %q, which leaves something behind", name)
		}
	}
	b.run(`window.ahead = 110000`)
	b.run(`new Promise((done) => setTimeout(done, 1500))`)
	idle := `document.querySelector('[data-slot="idle"]').hidden`
	if !eval[bool](b, idle) {
		t.Fatal("it asks too early")
	}
	b.run(`window.ahead = 122000`)
	b.waitFor(`!` + idle)
	if on := eval[string](b, `document.activeElement.textContent`); !strings.Contains(on, "Are you still there?") {
		t.Errorf("the focus is on %q", on)
	}
	// Twelve times longer than the rule asks for: a reader may always stay.
	for n := range 12 {
		b.run(`document.querySelector('[data-act="stay"]').click(); document.dispatchEvent(new Event("pointerdown"))`)
		if !eval[bool](b, idle) {
			t.Fatalf("the question stays open after answer %d", n)
		}
		b.run(`window.ahead += 121000`)
		b.waitFor(`!` + idle)
	}
	b.run(`window.ahead += 31000`)
	time.Sleep(4 * time.Second) // it looks once a second; nothing can be asked of a page that is going
	if all := b.addresses(); !strings.HasPrefix(all[len(all)-1], at("index.html")+" ") {
		t.Errorf("it does not go back to the start: %q", all)
	}
	b.openAgain(at)
	if n := eval[int](b, `sessionStorage.length`); n != 0 {
		t.Errorf("%d things are stored", n)
	}
	if s := b.look(); s.View != "topics" {
		t.Errorf("it opens at %q", s.View)
	}
	for _, name := range pages(t, dir) {
		page := pageOf(t, dir, name)
		found := false
		for d := range page.Descendants() {
			found = found || d.Data == "p" && hasClass(d, "start-over")
		}
		if !found {
			t.Errorf("%s has no way to start over", name)
		}
	}
}

// The ordinary edition has no timer of that kind.
func TestNoTimerInOrdinaryEdition(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.atStart(`window.timers = 0; const every = setInterval; setInterval = (...a) => { window.timers++; return every(...a) }`)
	b.openPlanner(onDisk)
	if n := eval[int](b, `window.timers`); n != 0 {
		t.Errorf("%d timers run", n)
	}
}

func sharedSite(t testing.TB, dir string) {
	t.Helper()
	layer := t.TempDir()
	if err := os.MkdirAll(filepath.Join(layer, "content"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(layer, "content", "edition.yaml"), []byte("name: Keelpath\nclinic: Alder Quay Limb Clinic (a made-up place)\nshared-screen: true\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := sitetest.Build(t.Context(), dir, layer); err != nil {
		t.Fatal(err)
	}
}
