package library_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"keelpath/builder/finding"
)

// heard is what the corpus made the program say.
type heard struct {
	sync.Mutex
	cases int
	said  strings.Builder
}

func (h *heard) add(fs []finding.Finding) {
	h.Lock()
	defer h.Unlock()
	h.cases++
	for _, f := range fs {
		h.said.WriteString(f.Text + "\n" + strings.Join(f.Help, "\n") + "\n")
	}
}

// everySentence holds that every sentence that the program can say was said once:
// each text in the code that is part of a finding is looked for in what was heard.
func (h *heard) everySentence(t *testing.T) {
	texts := sentencesIn(t, filepath.Join(root, "builder"))
	if len(texts) < 300 {
		t.Errorf("only %d texts were found in the code: is the search right?", len(texts))
	}
	for text, at := range texts {
		shown := spoken(text).MatchString(h.said.String())
		switch known := slices.Contains(unshown, text); {
		case !shown && !known:
			t.Errorf("%s: neither an archive in testdata/bad nor a fault beyond layers makes the program say %q", at, text)
		case shown && known:
			t.Errorf("%q is said now; take it off the list of those that are not shown", text)
		}
	}
	for _, text := range unshown {
		if _, ok := texts[text]; !ok {
			t.Errorf("%q stands on the list of what is not shown, and the program does not say it", text)
		}
	}
}

// unshown are texts that neither an archive nor beyondLayers shows: the list only
// gets shorter.
var unshown = []string{
	// Only "exchange" says these; tests there refuse trees that no form can say.
	"part the tree in two, or let fewer conditions weigh one amount against another",
	"the tree %q cannot be written as a form that acts as it does",
	// A pipe is made by TestOnlyFilesAreRead, where the system has pipes.
	"put a file of this name in its place, or remove it",
	"this is no file but a pipe, a device or a folder, and it is not read",
}

// spoken is a pattern for what a text of the code becomes.
func spoken(text string) *regexp.Regexp {
	verb := regexp.MustCompile(`%(?:\.\d)?[a-zA-Z]`)
	var b strings.Builder
	for i, part := range verb.Split(text, -1) {
		if i > 0 {
			b.WriteString(`.*`)
		}
		b.WriteString(regexp.QuoteMeta(part))
	}
	return regexp.MustCompile(b.String())
}

// sentencesIn gives the texts of three words or more that the code hands to Add or
// Warn, with their places.
func sentencesIn(t *testing.T, dir string) map[string]token.Position {
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
			if sel, ok := call.Fun.(*ast.SelectorExpr); !ok || sel.Sel.Name != "Add" && sel.Sel.Name != "Warn" {
				return true
			}
			for _, arg := range call.Args[2:] {
				ast.Inspect(arg, func(n ast.Node) bool {
					if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
						if text, err := strconv.Unquote(lit.Value); err == nil && len(strings.Fields(text)) > 2 {
							out[text] = files.Position(lit.Pos())
						}
					}
					return true
				})
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
