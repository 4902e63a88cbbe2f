package firefoxtest

import (
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/internal/sitetest"
)

// kinds are one page of each kind that runs no script. All that run one are opened.
var kinds = []string{
	"index.html", "learn/index.html", "learn/payer-levels.html", "learn/foot-types.html", "learn/glossary.html", "learn/questions.html",
	"prepare/loads-and-weight.html", "teach/index.html", "teach/loads-and-weight.html", "clinic/index.html", "clinic/sources.html",
	"workbench/index.html", "workbench/motion-against-push.html",
}

var loadsScript = regexp.MustCompile(`<script[^>]* src=`)

// Each kind of page opens from disk with its style and its script, and the browser has
// nothing to say against it.
func TestPages(t *testing.T) {
	names := slices.Clone(kinds)
	err := fs.WalkDir(os.DirFS(siteDir), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || path.Ext(name) != ".html" || slices.Contains(kinds, name) {
			return err
		}
		if loadsScript.MatchString(contents(t, filepath.Join(siteDir, filepath.FromSlash(name)))) {
			names = append(names, name)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(names) < len(kinds)+5 || !slices.Contains(names, plannerName) {
		t.Errorf("only these pages were found: %q", names)
	}
	b := newTab(t)
	for _, name := range names {
		b.open(sitetest.OnDisk(siteDir, name))
		page := eval[struct {
			Heading       string
			Styled        bool
			Figures, Live int
			Planner       bool // shown, where there is one
		}](b, `return { Heading: document.querySelector("main h1")?.textContent || "", Styled: getComputedStyle(document.body).margin === "0px" && Array.from(document.querySelectorAll('link[rel="stylesheet"]')).every((link) => link.sheet !== null),
  Figures: document.querySelectorAll("main .figure").length, Live: document.querySelectorAll("main .figure-live").length,
  Planner: !document.getElementById("planner") || !document.getElementById("planner").hidden };`)
		if page.Heading == "" || !page.Styled || page.Figures != page.Live || !page.Planner {
			t.Errorf("%s is not whole: %+v", name, page)
		}
		for _, trouble := range b.forgive() {
			t.Errorf("%s: the browser complains: %s", name, trouble)
		}
	}
}

// The browser is as strict as a reader's: a page from disk reads no other file. And
// what goes wrong on a page is seen here.
func TestAsStrictAsAReaders(t *testing.T) {
	b := newTab(t)
	if !inBrowser[bool](b, `return Services.prefs.getBoolPref("security.fileuri.strict_origin_policy") && !Services.prefs.getBoolPref("remote.prefs.recommended")`) {
		t.Error("the rule that a page from disk may read no other file is off")
	}
	dir := t.TempDir()
	for name, text := range map[string]string{
		"page.html": `<!doctype html><title>Probe</title><script src="plain.js"></script><script type="module" src="module.js"></script>`,
		"plain.js":  `window.plain = true; setTimeout(() => { throw new Error("broken on purpose") }); console.error("said on purpose");`,
		"module.js": `window.module = true;`,
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	b.open(sitetest.OnDisk(dir, "page.html"))
	got := eval[[]bool](b, `return fetch("plain.js").then(() => true, () => false).then((fetched) => [!!window.plain, !!window.module, fetched])`)
	if !slices.Equal(got, []bool{true, false, false}) {
		t.Errorf("plain script, module, fetch: %v, want only the first", got)
	}
	var said string
	b.waitUntil("the console holds the fault", func() bool {
		said += strings.Join(b.forgive(), "\n") + "\n"
		return strings.Contains(said, "broken on purpose") && strings.Contains(said, "said on purpose") && strings.Contains(said, "module.js")
	})
}
