package publish

import (
	"go/ast"
	"go/parser"
	"go/token"
	"html/template"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"keelpath/builder/say"
	"keelpath/site"
)

// templatesWith gives the site's templates, and one more.
func templatesWith(t *testing.T, more string) *template.Template {
	t.Helper()
	ts, err := template.New("pages").Funcs(functions(say.English())).ParseFS(site.Files, "pages/*.html")
	if err == nil {
		_, err = ts.New("more").Parse(more)
	}
	if err != nil {
		t.Fatal(err)
	}
	return ts
}

// What a template says is found wherever it stands in it, and a name or a gap that is not there
// stops the build.
func TestSayable(t *testing.T) {
	for _, more := range []string{
		`{{say "layout.main"}}`, `{{if true}}{{else}}{{say "layout.phone" "phone" .X}}{{end}}`,
		`{{with say "layout.us-grade" "grade" "5"}}{{.}}{{end}}`, `{{range .X}}<p title="{{say "layout.main"}}"></p>{{end}}`,
	} {
		if err := sayable(templatesWith(t, more), say.English()); err != nil {
			t.Errorf("%s: %v", more, err)
		}
	}
	for more, want := range map[string]string{
		`{{say "layout.mian"}}`:                                `more:1:2: there is no text "layout.mian"`,
		`{{if true}}{{else}}{{say "layout.phone"}}{{end}}`:     `more:1:21: the text "layout.phone" has the gaps ["phone"], and filled are []`,
		`{{say "layout.main" "x" 1}}`:                          `has the gaps [], and filled are ["x"]`,
		`{{with print (say "layout.mian")}}{{end}}`:            `there is no text "layout.mian"`,
		`{{range .X}}{{else}}{{say .X}}{{end}}`:                `.X stands where a name must be written out`,
		`{{say "layout.phone" .X "phone"}}`:                    `.X stands where a name must be written out`,
		`{{say "layout.phone" "phone"}}`:                       `gaps each with what fills it`,
		`{{say}}`:                                              `a name was expected`,
		`{{template "opening" (say "layout.mian")}}`:           `there is no text "layout.mian"`,
		`{{with .X}}{{.}}{{else}}{{say "layout.mian"}}{{end}}`: `there is no text "layout.mian"`,
	} {
		if err := sayable(templatesWith(t, more), say.English()); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want an error that says %q", more, err, want)
		}
	}
}

// Every text is used by a template, by the program or by the client, and each name that stands
// in the program's code is that of a text.
func TestEveryWordIsUsed(t *testing.T) {
	w := say.English()
	used := map[say.Name]bool{}
	all, err := uses(templatesWith(t, ""))
	if err != nil {
		t.Fatal(err)
	}
	all = append(all, usesOfFigures(t)...)
	for _, u := range all {
		used[u.name] = true
	}
	inScript, err := w.InScript(wordsOfScript(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range inScript {
		used[n] = true
	}
	groups := map[string]bool{}
	for _, n := range w.Names() {
		group, _, _ := strings.Cut(string(n), ".")
		groups[group] = true
	}
	for name, at := range namesInGo(t, groups) {
		used[name] = true
		if !w.Has(name) {
			t.Errorf("%s: there is no text %q", at, name)
		}
	}
	for _, n := range w.Names() {
		if !used[n] {
			t.Errorf("nothing says %q; take it out of %s", n, say.File("en"))
		}
	}
}

// usesOfFigures is what the template of room figure says.
func usesOfFigures(t *testing.T) []use {
	t.Helper()
	ts, err := template.New("figures").Funcs(functions(say.English())).ParseFiles("../figure/figure.html")
	if err != nil {
		t.Fatal(err)
	}
	if err := sayable(ts, say.English()); err != nil {
		t.Error(err)
	}
	all, err := uses(ts)
	if err != nil || len(all) < 10 {
		t.Fatalf("%d uses, %v", len(all), err)
	}
	return all
}

func wordsOfScript(t *testing.T) string {
	t.Helper()
	script, err := fs.ReadFile(site.Files, wordsScript)
	if err != nil {
		t.Fatal(err)
	}
	return string(script)
}

// The module that Go tests and the checker of types see is the one that the bundler makes of the words file.
func TestSaidScript(t *testing.T) {
	want, err := saidIn(site.Files, say.English())
	if err != nil {
		t.Fatal(err)
	}
	if *refresh {
		if err := os.WriteFile(filepath.Join("../../site", saidScript), want, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if got, err := fs.ReadFile(site.Files, saidScript); err != nil || string(got) != string(want) {
		t.Errorf("site/%s is not made from %s as it is (%v); run this test with -refresh", saidScript, say.File("en"), err)
	}
}

// filled are the calls by which the script fills the gaps of a text that it names.
var filled = regexp.MustCompile(`\b(fill|counted)\((?:voiced\(|\w+ \? (script\w+) : )?(script\w+)\)?(?:, \w+)?(?:, \{ ([^{}]*) \})?`)

// The script fills each gap of the texts that it says, and no other.
func TestScriptFillsGaps(t *testing.T) {
	w, script := say.English(), wordsOfScript(t)
	names, err := w.InScript(script)
	if err != nil {
		t.Fatal(err)
	}
	gaps := map[string][]string{}
	for _, m := range filled.FindAllStringSubmatch(script, -1) {
		var fills []string
		if m[1] == "counted" {
			fills = append(fills, "count")
		}
		for _, f := range strings.FieldsFunc(m[4], func(r rune) bool { return r == ',' }) {
			if strings.Contains(f, ")") && !strings.Contains(f, "(") {
				continue // the end of a call
			}
			gap, _, _ := strings.Cut(strings.TrimSpace(f), ":")
			fills = append(fills, gap)
		}
		slices.Sort(fills)
		gaps[m[2]], gaps[m[3]] = fills, fills
	}
	for _, n := range names {
		id, has := string(n), w.Gaps(n)
		if !strings.HasPrefix(id, "script.") || strings.HasPrefix(id, "script.if-over-") || id == "script.if-from-to" || id == "script.if-at-least-under" {
			continue // filled by a call that chooses between texts, or by one for every list
		}
		key := idOf(id)
		if !slices.Equal(gaps[key], has) {
			t.Errorf("%s has the gaps %q, and the script fills %q", n, has, gaps[key])
		}
	}
}

// idOf is a text's name as a script writes it.
func idOf(name string) string {
	parts := strings.FieldsFunc(name, func(r rune) bool { return r == '.' || r == '-' })
	for i := 1; i < len(parts); i++ {
		parts[i] = strings.ToUpper(parts[i][:1]) + parts[i][1:]
	}
	return strings.Join(parts, "")
}

// nameForm is what the name of a text looks like.
var nameForm = regexp.MustCompile(`^([a-z0-9-]+)\.[a-z0-9-]+$`)

// endings are of names of files, which look like names of texts.
var endings = []string{".yaml", ".html", ".ts", ".css", ".md", ".json"}

// namesInGo finds the names of texts in the program's code: strings that look like one of a group.
func namesInGo(t *testing.T, groups map[string]bool) map[say.Name]token.Position {
	t.Helper()
	out := map[say.Name]token.Position{}
	err := filepath.WalkDir("..", func(name string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return err
		}
		files := token.NewFileSet()
		f, err := parser.ParseFile(files, name, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				s, _ := strconv.Unquote(lit.Value)
				if m := nameForm.FindStringSubmatch(s); m != nil && groups[m[1]] && !slices.Contains(endings, path.Ext(s)) {
					out[say.Name(s)] = files.Position(lit.Pos())
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}
