package browsertest

import (
	"fmt"
	"os"
	"path"
	"path/filepath"
	"regexp"
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
		b.wantOwnLoads(address)
	})
}

// wantOwnLoads holds what a planner that was used asked for against what its page names to be
// loaded with it, or later.
func (b *tab) wantOwnLoads(address func(string) string) {
	b.t.Helper()
	later := partsNamed(b.t, siteDir, plannerName)
	for _, wrong := range wrongLoads(b.t, plannerName, b.requests(), address) {
		if !slices.ContainsFunc(later, func(file string) bool { return strings.HasSuffix(wrong, " asks for "+address(file)) }) {
			b.t.Error(wrong)
		}
	}
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

// Every page on the web loads what it names and nothing else. From disk the same is
// checked wherever a test opens a page.
func TestPagesLoadOnlyTheirOwn(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.size(320, 200) // little to paint
	for _, name := range pages(t, siteDir) {
		b.openPage(name, onWeb)
	}
}

// openPage opens a page and holds what it asks for against what it names.
func (b *tab) openPage(name string, address func(string) string) {
	b.t.Helper()
	before := len(b.requests())
	b.open(address(name))
	for _, wrong := range wrongLoads(b.t, name, b.requests()[before:], address) {
		b.t.Error(wrong)
	}
	if !eval[bool](b, `getComputedStyle(document.body).margin === "0px" && Array.from(document.querySelectorAll('link[rel="stylesheet"]')).every((link) => link.sheet !== null)`) {
		b.t.Errorf("%s: its style did not reach it", name)
	}
}

// wrongLoads holds what was asked for against what the page names. A browser asks
// for the site's icon when it likes, or not at all.
func wrongLoads(t testing.TB, name string, asked []string, address func(string) string) []string {
	t.Helper()
	must, may := []string{}, []string{}
	for _, l := range loads(t, siteDir, name) {
		may = append(may, address(l.file))
		if !l.free {
			must = append(must, address(l.file))
		}
	}
	for _, file := range partsNamed(t, siteDir, name) { // the planner asks ahead for its drawings
		may = append(may, address(file))
	}
	var out []string
	for _, a := range asked {
		if !slices.Contains(may, a) && !strings.HasSuffix(a, "/favicon.ico") {
			out = append(out, fmt.Sprintf("%s asks for %s", name, a))
		}
	}
	for _, m := range must {
		if !slices.Contains(asked, m) {
			out = append(out, fmt.Sprintf("%s does not ask for %s", name, m))
		}
	}
	return out
}

// assetName is the name of a file in assets/, as another one names it.
var assetName = regexp.MustCompile(`[a-z0-9-]+\.[0-9a-f]{10}\.(js|css)`)

// partsNamed gives the files that a page names to be loaded later, when its script comes to need them, and those that
// such a file names: the drawings' script has the style of the drawings and the script of each topic's.
func partsNamed(t testing.TB, dir, name string) []string {
	t.Helper()
	out := namedLater(t, dir, name)
	for _, file := range out {
		data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(file)))
		if err != nil {
			continue // what is missing is reported where it is asked for
		}
		for _, other := range assetName.FindAllString(string(data), -1) {
			out = append(out, "assets/"+other)
		}
	}
	return out
}

func namedLater(t testing.TB, dir, name string) []string {
	t.Helper()
	var out []string
	for d := range pageOf(t, dir, name).Descendants() {
		for _, a := range d.Attr {
			if file, ok := strings.CutPrefix(a.Val, "../assets/"); ok && strings.HasPrefix(a.Key, "data-") {
				out = append(out, "assets/"+file)
			}
		}
	}
	return out
}

// A load is a file that a page names to be loaded with it, or that its style names.
type load struct {
	file string
	free bool // a browser loads it when it needs it: the tab's picture, a typeface
}

// loads gives a page's loads, itself first.
func loads(t testing.TB, dir, name string) []load {
	t.Helper()
	out := []load{{file: name}}
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
		out = append(out, load{file, attr(d, "rel") == "icon"})
		if attr(d, "rel") == "stylesheet" {
			out = append(out, named(t, dir, file)...)
		}
	}
	return out
}

// named gives what a style names to be loaded.
func named(t testing.TB, dir, style string) []load {
	t.Helper()
	css, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(style)))
	if err != nil {
		t.Fatal(err)
	}
	var out []load
	for _, m := range styleNames.FindAllSubmatch(css, -1) {
		file := path.Join(path.Dir(style), string(m[1]))
		if _, err := os.Stat(filepath.Join(dir, filepath.FromSlash(file))); err != nil {
			t.Errorf("%s names %s, which is not there", style, m[1])
		}
		out = append(out, load{file, true})
	}
	return out
}

var styleNames = regexp.MustCompile(`url\(\s*["']?([^"')]+)`)
