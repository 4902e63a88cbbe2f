package firefoxtest

import (
	"context"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"keelpath/builder/internal/sitetest"
	"keelpath/builder/library"
)

// The built-in content, the site made of it, and the one browser of the run. The
// tests share it, so none of them runs beside another.
var (
	lib     *library.Library
	siteDir string
	browser *firefox
)

func TestMain(m *testing.M) {
	code, err := runAll(m)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		code = 1
	}
	os.Exit(code)
}

func runAll(m *testing.M) (code int, err error) {
	for _, command := range []string{"pdfinfo", "pdftotext"} {
		if _, err := exec.LookPath(command); err != nil {
			return 0, fmt.Errorf("these tests need the command %s: install Debian's package poppler-utils, or run `bash .ci/test`", command)
		}
	}
	dir, err := os.MkdirTemp("", "keelpath-firefox-")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(dir)
	if browser, err = startFirefox(dir); err != nil {
		return 0, err
	}
	defer browser.stop()
	siteDir = filepath.Join(dir, "site")
	if lib, err = sitetest.Build(context.Background(), siteDir); err != nil {
		return 0, err
	}
	return m.Run(), nil
}

// A tab is one page, in a tab of its own. When the test ends, it is an error if the
// browser complained of anything.
type tab struct {
	t      testing.TB
	handle string
}

func newTab(t testing.TB) *tab {
	t.Helper()
	b := &tab{t: t}
	made := call[struct{ Handle string }](b, "WebDriver:NewWindow", map[string]any{"type": "tab"})
	b.handle = made.Handle
	b.front()
	t.Cleanup(func() {
		for _, trouble := range b.forgive() {
			t.Errorf("the browser complains: %s", trouble)
		}
	})
	return b
}

// front makes the tab the one that the browser shows and that is driven.
func (b *tab) front() {
	b.t.Helper()
	call[any](b, "WebDriver:SwitchToWindow", map[string]any{"handle": b.handle, "focus": true})
}

func call[T any](b *tab, name string, params map[string]any) T {
	b.t.Helper()
	data, err := browser.call(name, params)
	b.must(err)
	var out T
	b.must(json.Unmarshal(data, &out))
	return out
}

func valueOf[T any](b *tab, name string, params map[string]any) T {
	b.t.Helper()
	v, err := value[T](browser, name, params)
	b.must(err)
	return v
}

func (b *tab) must(err error) {
	b.t.Helper()
	if err != nil {
		b.t.Fatal(err)
	}
}

func (b *tab) open(address string) {
	b.t.Helper()
	call[any](b, "WebDriver:Navigate", map[string]any{"url": address})
}

// eval runs a script of the test's own among the page's: it sees what they see.
// Promises are waited for.
func eval[T any](b *tab, script string, args ...any) T {
	b.t.Helper()
	return valueOf[T](b, "WebDriver:ExecuteScript", map[string]any{"script": script, "args": append([]any{}, args...), "sandbox": nil})
}

func (b *tab) run(script string, args ...any) { b.t.Helper(); eval[any](b, script, args...) }

// waitFor waits until an expression is true.
func (b *tab) waitFor(expression string) {
	b.t.Helper()
	b.waitUntil(expression, func() bool { return eval[bool](b, "return !!("+expression+")") })
}

func (b *tab) waitUntil(what string, done func() bool) {
	b.t.Helper()
	for end := time.Now().Add(20 * time.Second); !done(); time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			b.t.Fatalf("waited in vain until %s", what)
		}
	}
}

// tabKey is the key that leaves a field, as the protocol writes it.
const tabKey = "\ue004"

// write types with the keyboard into the field that a selector finds. Into a field
// for files it puts the file of that name.
func (b *tab) write(selector, text string) {
	b.t.Helper()
	found := valueOf[map[string]string](b, "WebDriver:FindElement", map[string]any{"using": "css selector", "value": selector})
	for _, id := range found { // it has one entry, behind a name that the standard gives
		call[any](b, "WebDriver:ElementSendKeys", map[string]any{"id": id, "text": text})
	}
}

// inBrowser runs a script among the browser's own.
func inBrowser[T any](b *tab, script string, args ...any) T {
	b.t.Helper()
	call[any](b, "Marionette:SetContext", map[string]any{"value": "chrome"})
	defer call[any](b, "Marionette:SetContext", map[string]any{"value": "content"})
	return valueOf[T](b, "WebDriver:ExecuteScript", map[string]any{"script": script, "args": append([]any{}, args...)})
}

// forgive gives what the browser's console holds of pages since last asked, and
// forgets it: what the browser complained of, and what scripts wrote there. The
// first stands with the browser, the second with the pages.
func (b *tab) forgive() []string {
	b.t.Helper()
	out := inBrowser[[]string](b, `
const out = Services.console.getMessageArray()
  .filter((m) => m instanceof Ci.nsIScriptError && !/^(chrome|resource|moz-extension|jar):/.test(m.sourceName) && !m.isFromChromeContext)
  .map((m) => m.category + ": " + m.errorMessage + " " + m.sourceName + ":" + m.lineNumber);
Services.console.reset();
return out;`)
	written := valueOf[[]string](b, "WebDriver:ExecuteScript", map[string]any{"sandbox": "system", "args": []any{}, "script": `
const storage = Cc["@mozilla.org/consoleAPI-storage;1"].getService(Ci.nsIConsoleAPIStorage);
const out = storage.getEvents().map((e) => "console." + e.level + ": " + Array.from(e.arguments, String).join(" ") + " " + e.filename);
storage.clearEvents();
return out;`})
	return append(out, written...)
}

// A printout is a PDF as a printer gets it.
type printout struct {
	Pages, Size string // as pdfinfo writes them
	Text        string // in reading order, on one line
	file        string
}

// print prints the page on A4.
func (b *tab) print() printout {
	b.t.Helper()
	coded := valueOf[string](b, "WebDriver:Print", map[string]any{"page": map[string]any{"width": 21.0, "height": 29.7}})
	data, err := base64.StdEncoding.DecodeString(coded)
	b.must(err)
	file := filepath.Join(b.t.TempDir(), "page.pdf")
	b.must(os.WriteFile(file, data, 0o600))
	p := printout{file: file}
	for line := range strings.Lines(b.command("pdfinfo", file)) {
		name, rest, _ := strings.Cut(line, ":")
		switch name {
		case "Pages":
			p.Pages = strings.TrimSpace(rest)
		case "Page size":
			p.Size = strings.TrimSpace(rest)
		}
	}
	p.Text = oneLine(b.command("pdftotext", file, "-"))
	return p
}

func (b *tab) command(name string, args ...string) string {
	b.t.Helper()
	out, err := exec.Command(name, args...).Output()
	b.must(err)
	return string(out)
}

// oneLine is text as a browser shows it.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }
