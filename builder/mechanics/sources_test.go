package mechanics

import (
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"os"
	"regexp"
	"strings"
	"testing"
)

// Every function names its source, and every id named is in the bibliography.
func TestFunctionsNameSources(t *testing.T) {
	known := sourceIDs(t)
	fset := token.NewFileSet()
	names, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	var files []*ast.File
	for _, n := range names {
		if !strings.HasSuffix(n.Name(), ".go") || strings.HasSuffix(n.Name(), "_test.go") {
			continue
		}
		f, err := parser.ParseFile(fset, n.Name(), nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		checkIDs(t, n.Name(), f.Comments, known)
		files = append(files, f)
	}
	pkg, err := doc.NewFromFiles(fset, files, "keelpath/builder/mechanics")
	if err != nil {
		t.Fatal(err)
	}
	if len(pkg.Funcs) < 30 {
		t.Fatalf("found only %d functions", len(pkg.Funcs))
	}
	for _, f := range pkg.Funcs {
		if !strings.Contains(f.Doc, "Source:") {
			t.Errorf("%s names no source", f.Name)
		}
	}
	for _, ty := range pkg.Types {
		for _, f := range ty.Funcs {
			if !strings.Contains(f.Doc, "Source:") {
				t.Errorf("%s names no source", f.Name)
			}
		}
	}
}

var sourceID = regexp.MustCompile(`\b[a-z0-9]+(-[a-z0-9]+){2,}\b`)

func checkIDs(t *testing.T, file string, groups []*ast.CommentGroup, known map[string]bool) {
	for _, g := range groups {
		_, after, _ := strings.Cut(g.Text(), "Source")
		for _, id := range sourceID.FindAllString(after, -1) {
			if !known[id] {
				t.Errorf("%s names %q, and content/sources.yaml has no such entry", file, id)
			}
		}
	}
}

func sourceIDs(t *testing.T) map[string]bool {
	text, err := os.ReadFile("../../content/sources.yaml")
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{}
	for _, m := range regexp.MustCompile(`(?m)^  ([a-z0-9-]+):$`).FindAllSubmatch(text, -1) {
		known[string(m[1])] = true
	}
	return known
}

// The same for the tables of check values.
func TestRowsNameKnownSources(t *testing.T) {
	known := sourceIDs(t)
	for _, r := range append(append([]row{}, verified...), fromMemory...) {
		for _, id := range sourceID.FindAllString(r.source, -1) {
			if !known[id] {
				t.Errorf("%s: %q is not in content/sources.yaml", r.what, id)
			}
		}
	}
}
