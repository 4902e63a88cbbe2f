package publish

import (
	"go/ast"
	"go/parser"
	"go/token"
	"html/template"
	"io/fs"
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
	for _, u := range all {
		used[u.name] = true
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
