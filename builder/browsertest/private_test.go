package browsertest

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// Nothing leaves the page: a whole visit asks for the planner's own files and no
// more, stores nothing, and leaves no trace in the address or the history.
func TestNothingLeavesThePage(t *testing.T) {
	everywhere(t, func(t *testing.T, address func(string) string) {
		t.Parallel()
		b := newTab(t)
		for _, trace := range visit(b, address) {
			t.Error(trace)
		}
		want := loads(t, siteDir, plannerName)
		var got []string
		for _, a := range b.requests() {
			if strings.HasPrefix(a, "http") && strings.HasSuffix(a, "/favicon.ico") {
				continue // the browser's own wish
			}
			got = append(got, a)
		}
		for i := range want {
			want[i] = address(want[i])
		}
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("the planner asked for\n\t%s\nwant\n\t%s", strings.Join(got, "\n\t"), strings.Join(want, "\n\t"))
		}
	})
}

// visit uses all that the planner has and gives the traces that are left.
func visit(b *tab, address func(string) string) []string {
	b.t.Helper()
	fillSheet(b.opened(address))
	b.tap("topics")
	takeGrave(b)
	b.tap("sheet")
	b.print("A4", "sheet-of-a-visit")
	var out []string
	tell := func(when string) {
		out = append(out, eval[[]string](b, fmt.Sprintf(`((when, was) => (async () => {
const out = [];
const told = (what, n) => { if (n) out.push(when + ": " + what + ": " + n); };
const reach = (f) => { try { return f(); } catch { return 0; } }; // from disk some are refused, which is as good
told("localStorage", reach(() => JSON.stringify(localStorage) === "{}" ? 0 : JSON.stringify(localStorage)));
told("sessionStorage", reach(() => JSON.stringify(sessionStorage) === "{}" ? 0 : JSON.stringify(sessionStorage)));
told("cookies", reach(() => document.cookie));
told("databases", await reach(() => indexedDB.databases().then((d) => d.length)));
if (self.caches) told("caches", await caches.keys().then((k) => k.length, () => 0));
if (location.href !== was) told("address", location.href);
if (document.referrer) told("referrer", document.referrer);
if (window.name) told("window name", window.name);
if (history.state && String(Object.keys(history.state)) !== "n") told("history state", JSON.stringify(history.state));
return out; })())(%q, %q)`, when, address(plannerName)))...)
	}
	tell("with answers")
	b.clear()
	tell("after clearing")
	for _, entry := range b.addresses() {
		if where, _, _ := strings.Cut(entry, " "); where != address(plannerName) && where != "about:blank" {
			out = append(out, "in the history: "+entry)
		}
	}
	return out
}

// opened opens the planner and gives the tab.
func (b *tab) opened(address func(string) string) *tab {
	b.t.Helper()
	b.openPlanner(address)
	return b
}

// A planner that does leave traces: the test must see them.
func TestTracesAreSeen(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.atStart(`addEventListener("click", () => { localStorage.x = "1"; sessionStorage.y = "2"; history.replaceState({ n: 1, secret: 1 }, "", "#answer") })`)
	traces := strings.Join(visit(b, onWeb), "\n")
	for _, want := range []string{"localStorage", "sessionStorage", "history state", "address", "in the history"} {
		if !strings.Contains(traces, want) {
			t.Errorf("a trace was not seen, %s: %s", want, traces)
		}
	}
	c := newTab(t)
	c.atStart(`addEventListener("DOMContentLoaded", () => { new Image().src = "https://elsewhere.example/x.png"; fetch("extra.json").catch(() => 0) })`)
	c.openPlanner(onWeb)
	c.run(`new Promise((done) => setTimeout(done, 100))`)
	// The page's own policy stops both before they are sent, and the browser says so.
	if said := strings.Join(c.forgive(), "\n"); !strings.Contains(said, "elsewhere.example") || !strings.Contains(said, "extra.json") {
		t.Errorf("the page may ask for more than its files: %s", said)
	}
}

// isMark tells the picture of the tab: a browser may ask for it or not, as it
// shows tabs or not.
func isMark(address string) bool {
	return strings.HasSuffix(address, "/favicon.ico") || strings.Contains(address, "assets/mark.")
}

// Every page, from disk and from the web, loads what it names and nothing else.
func TestPagesLoadOnlyTheirOwn(t *testing.T) {
	everywhere(t, func(t *testing.T, address func(string) string) {
		t.Parallel()
		b := newTab(t)
		for _, name := range files(t, siteDir, ".html") {
			before := len(b.requests())
			b.open(address(name))
			var got []string
			for _, a := range b.requests()[before:] {
				if !isMark(a) {
					got = append(got, a)
				}
			}
			var want []string
			for _, w := range loads(t, siteDir, name) {
				if !isMark(w) {
					want = append(want, address(w))
				}
			}
			slices.Sort(got)
			slices.Sort(want)
			if !slices.Equal(got, want) {
				t.Errorf("%s asked for %q, want %q", name, got, want)
			}
			if font := eval[string](b, `getComputedStyle(document.querySelector("main")).maxWidth`); font == "none" {
				t.Errorf("%s: its style did not reach it", name)
			}
		}
	})
}

// loads gives the files that a page names to be loaded with it, itself first.
func loads(t testing.TB, dir, name string) []string {
	t.Helper()
	out := []string{name}
	for d := range pageOf(t, dir, name).Descendants() {
		to := ""
		switch d.Data {
		case "link":
			to = attr(d, "href")
		case "script", "img":
			to = attr(d, "src")
		}
		if to == "" {
			continue
		}
		file := filepath.ToSlash(filepath.Join(filepath.Dir(name), filepath.FromSlash(to)))
		if _, err := os.Stat(filepath.Join(dir, filepath.FromSlash(file))); err != nil {
			t.Errorf("%s loads %s, which is not there", name, to)
		}
		out = append(out, file)
	}
	return out
}
