package library_test

import (
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/internal/corpus"
	"keelpath/builder/library"
)

const root = "../.."

var refresh = flag.Bool("refresh", false, "write the findings that there are into testdata/bad")

// Every broken input gets its findings, each at its place, and no others.
func TestBad(t *testing.T) {
	cases := corpus.Cases(t, root)
	all := &heard{}
	t.Cleanup(func() {
		if all.cases == len(cases) { // not where some were chosen by -run
			all.add(beyondLayers(t))
			all.everySentence(t)
		}
	})
	for _, c := range cases {
		t.Run(c.Name, func(t *testing.T) {
			t.Parallel()
			dir := c.Write(t)
			var list finding.List
			layer, err := library.ReadLayer(t.Context(), dir, &list)
			if err != nil {
				t.Fatal(err)
			}
			l := load(t, &list, library.Builtin(), layer)
			l.Overdue(corpusDay, &list)
			got := list.Sorted()
			all.add(got)
			if *refresh {
				c.Refresh(t, dir, got)
				return
			}
			if diff := c.Diff(dir, got); diff != "" {
				t.Errorf("%s%s", c.About, diff)
			}
			helpful(t, got)
			if err := finding.Print(&strings.Builder{}, got, l.File); err != nil {
				t.Error(err)
			}
		})
	}
}

// helpful holds findings to the voice: a sentence without a full stop, and a way out.
func helpful(t *testing.T, fs []finding.Finding) {
	t.Helper()
	for _, f := range fs {
		if f.Text == "" || strings.HasSuffix(f.Text, ".") {
			t.Errorf("%s: %q is empty or ends with a full stop", f.Check, f.Text)
		}
		if len(f.Help) == 0 {
			t.Errorf("%s: %q does not say what to do", f.Check, f.Text)
		}
	}
}

// A check without a broken input that shows it is not finished.
func TestEveryCheckHasACase(t *testing.T) {
	shown := map[string]bool{}
	for _, c := range corpus.Cases(t, root) {
		for _, w := range c.Want {
			shown[w.Check] = true
		}
	}
	shown["not-a-file"] = true // no archive can hold a pipe; TestOnlyFilesAreRead makes one
	for _, f := range saysFaults(t) {
		shown[f.Check] = true
	}
	shown["words-differ"] = true // beside it an archive would list all words that the language lacks; TestLanguageFaults shows it
	checks := checksIn(t, filepath.Join(root, "builder"))
	if len(checks) < 40 {
		t.Errorf("only %d checks were found in the code: is the search right?", len(checks))
	}
	for name, at := range checks {
		if !shown[name] {
			t.Errorf("%s: no archive in testdata/bad shows the check %q", at, name)
		}
	}
}

// checksIn gives the checks that the program's code names, each with a place:
// the second value of a call of Add or Warn with three or more.
func checksIn(t *testing.T, dir string) map[string]token.Position {
	t.Helper()
	out := map[string]token.Position{}
	err := filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return err
		}
		files := token.NewFileSet()
		f, err := parser.ParseFile(files, name, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		ast.Inspect(f, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) < 3 {
				return true
			}
			sel, ok := call.Fun.(*ast.SelectorExpr)
			lit, isLit := call.Args[1].(*ast.BasicLit)
			if ok && isLit && lit.Kind == token.STRING && (sel.Sel.Name == "Add" || sel.Sel.Name == "Warn") {
				check, err := strconv.Unquote(lit.Value)
				if err != nil {
					t.Fatal(err)
				}
				out[check] = files.Position(call.Pos())
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
