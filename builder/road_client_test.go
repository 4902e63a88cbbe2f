package main

import (
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// clientRow is a row of the table of the client's folders.
var clientRow = regexp.MustCompile("(?m)^\\| `site/client/([a-z]+)` \\| (.*) \\|$")

// clientImport is what a line of a script imports or exports again; types count as well.
var clientImport = regexp.MustCompile(`(?m)(?:^import| from) "([^"\n]+)";$`)

// touchesPage is what a script that knows no page does not say.
var touchesPage = regexp.MustCompile(`\b(?:document|window|location|history|HTML\w+|ParentNode)\b`)

var comment = regexp.MustCompile(`(?m)^\s*(?://|/?\*).*$|\s// .*$`)

// Every folder of the client stands in the table of DEVELOPERS.md. A file imports only
// from folders that stand above its own, and from files of its own folder in no circle.
// A folder that "knows no page" is run by Go tests alone and names nothing of a page.
func TestRoadOfTheClient(t *testing.T) {
	text, err := os.ReadFile("../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	var folders []string // in the table's order
	pageless := map[string]bool{}
	for _, r := range clientRow.FindAllSubmatch(text, -1) {
		folders = append(folders, string(r[1]))
		pageless[string(r[1])] = strings.Contains(string(r[2]), "no page")
	}
	scripts := clientScripts(t)
	if len(scripts) < 50 || len(folders) < 8 {
		t.Errorf("only %d scripts and %d folders were found", len(scripts), len(folders))
	}
	held := map[string]bool{}
	for name, script := range scripts {
		dir := path.Dir(name)
		held[dir] = true
		if !slices.Contains(folders, dir) {
			t.Errorf("site/client/%s stands in a folder that is not in the table of DEVELOPERS.md", name)
			continue
		}
		if word := touchesPage.FindString(code(script)); word != "" && pageless[dir] {
			t.Errorf("site/client/%s says %q, and its folder knows no page", name, word)
		}
		for _, to := range imports(name, script) {
			if _, ok := scripts[to]; !ok {
				t.Errorf("site/client/%s imports %s, and there is none", name, to)
			}
			if slices.Index(folders, path.Dir(to)) > slices.Index(folders, dir) {
				t.Errorf("site/client/%s imports %s, which stands below its own folder", name, to)
			}
		}
		if round := circle(scripts, name); round != nil {
			t.Errorf("site/client: %s import each other in a circle", strings.Join(round, " -> "))
		}
	}
	for _, f := range folders {
		if !held[f] {
			t.Errorf("the table has the folder site/client/%s, and no script is in it", f)
		}
	}
}

// clientScripts gives the text of each script by its name below site/client.
func clientScripts(t *testing.T) map[string]string {
	t.Helper()
	root := "../site/client"
	out := map[string]string{}
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".ts") {
			return err
		}
		below, err := filepath.Rel(root, name)
		if err != nil {
			return err
		}
		text, err := os.ReadFile(name)
		out[filepath.ToSlash(below)] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// imports gives the scripts that a script imports, by their names below site/client.
func imports(name, script string) []string {
	var out []string
	for _, m := range clientImport.FindAllStringSubmatch(script, -1) {
		out = append(out, path.Join(path.Dir(name), m[1])+".ts")
	}
	return out
}

// circle gives a way along imports from a script back to itself; nil where there is none.
func circle(scripts map[string]string, from string) []string {
	seen := map[string]bool{}
	var follow func(way []string) []string
	follow = func(way []string) []string {
		last := way[len(way)-1]
		for _, to := range imports(last, scripts[last]) {
			if to == from {
				return append(way, to)
			}
			if seen[to] {
				continue
			}
			seen[to] = true
			if round := follow(append(slices.Clone(way), to)); round != nil {
				return round
			}
		}
		return nil
	}
	return follow([]string{from})
}

// code is a script without the lines of its comments.
func code(script string) string {
	return comment.ReplaceAllString(script, "")
}
