package browsertest

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// Every page is faultless HTML to the Nu checker, as written and as the planner's
// script leaves it. One Java run looks at all: starting Java is the costly part.
func TestValidHTML(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	b := newTab(t)
	for _, s := range states {
		if !slices.Contains([]string{"planner-question-error", "planner-ending-safety", "planner-sheet"}, s.name) {
			continue
		}
		s.reach(b, onDisk)
		// A property that a script sets is written out like an attribute, and is none: the policy lets it
		// pass. Of an attribute the browser itself would complain, for it applies the policy.
		keepHTML(t, dir, s.name, eval[string](b, `"<!DOCTYPE html>\n" + document.documentElement.outerHTML.replace(/ style="(--[a-z]+: [^;"]+; ?)+"/g, "")`))
	}
	// Faults of our own making show that the checker looks, and looks there.
	keepHTML(t, dir, "bad-error", `<!DOCTYPE html><html lang="en"><head><title>a</title></head><body><p id="a"></p><p id="a"></p></body></html>`)
	keepHTML(t, dir, "bad-warning", `<!DOCTYPE html><html lang="en"><head><title>a</title></head><body><section><p>a</p></section></body></html>`)

	server := httptest.NewServer(http.FileServerFS(os.DirFS(dir)))
	defer server.Close()
	var addresses []string
	for _, name := range files(t, siteDir, ".html") {
		addresses = append(addresses, onWeb(name))
	}
	for _, name := range files(t, dir) {
		addresses = append(addresses, server.URL+"/"+name)
	}
	if n := len(files(t, dir)); n != 5 {
		t.Fatalf("%d pages were kept, want three states and two bad pages", n)
	}
	found := checkHTML(t, addresses...)
	for _, bad := range []string{"bad-error", "bad-warning"} {
		at := server.URL + "/" + bad + ".html"
		if len(found[at]) == 0 {
			t.Errorf("the checker finds nothing wrong with %s", bad)
		}
		delete(found, at)
	}
	for name, messages := range found {
		t.Errorf("%s:\n\t%s", name, strings.Join(messages[:min(10, len(messages))], "\n\t"))
	}
}

func keepHTML(t testing.TB, dir, name, text string) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(dir, name+".html"), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// pardoned are words of the checker's that are not true of our pages, with the reason.
var pardoned = []struct{ message, extract string }{
	// The policy is about script that runs. The planner's data is a block of JSON, which
	// HTML calls a data block: no browser runs it, and none applies the policy to it.
	{"Inline script violates Content Security Policy", `<script type="application/json" id="planner-data">`},
	{"Inline script violates Content Security Policy", `<script type="application/json" id="pulls-data">`},
	{"Inline script violates Content Security Policy", `<script type="application/json" id="figure-data">`},
	{"Inline script violates Content Security Policy", `<script type="application/json" id="search-data">`},
	// In a table that has given up its role to the box around it, the parts have none by themselves.
	{"role is unnecessary for element", `role="row`}, // and rowgroup, rowheader
	{"role is unnecessary for element", `role="columnheader"`},
	{"role is unnecessary for element", `role="cell"`},
}

// checkHTML gives the checker's errors and warnings by address. It reads the pages
// over http: of a file it cannot tell what the policy's 'self' is.
func checkHTML(t testing.TB, addresses ...string) map[string][]string {
	t.Helper()
	args := append([]string{"-Xss2m", "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Dnu.validator.servlet.allow-forbidden-hosts=true", "-jar", tool(vnuFile), "--stdout", "--format", "json", "--exit-zero-always"}, addresses...)
	c := exec.Command("java", args...)
	c.Stderr = os.Stderr
	out, err := c.Output()
	if err != nil {
		t.Fatalf("the HTML checker does not run: %v", err)
	}
	var told struct {
		Messages []struct {
			Type, SubType, URL, Message, Extract string
			LastLine                             int
		}
	}
	if err := json.Unmarshal(out, &told); err != nil {
		t.Fatalf("the HTML checker says %s: %v", out[:min(300, len(out))], err)
	}
	found := map[string][]string{}
next:
	for _, m := range told.Messages {
		for _, p := range pardoned {
			if strings.Contains(m.Message, p.message) && strings.Contains(m.Extract, p.extract) {
				continue next
			}
		}
		found[m.URL] = append(found[m.URL], fmt.Sprintf("line %d: %s %s: %s: %s", m.LastLine, m.Type, m.SubType, m.Message, oneLine(m.Extract)))
	}
	return found
}
