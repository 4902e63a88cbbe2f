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
			t.Errorf("%s: no archive in testdata/bad makes the program say %q", at, text)
		case shown && known:
			t.Errorf("%q is said now; take it off the list of those that no archive shows", text)
		}
	}
	for _, text := range unshown {
		if _, ok := texts[text]; !ok {
			t.Errorf("%q stands on the list of what no archive shows, and the program does not say it", text)
		}
	}
}

// unshown are texts that no archive can show, or shows yet: the list only gets
// shorter.
var unshown = []string{
	// Faults of the safety screen itself, which no layer can reach, for it is sealed. Nothing shows these words yet.
	" has an id that stands for no sign",
	"%s are %s, and %s were expected",
	"%s has the \"when\" %q, and that is not one of its values",
	"add it to gate:",
	"add it with a title and steps",
	"add signs: with at least one below",
	"add unsure: with a title and a caution",
	"change what it tells, or its ending",
	"ending %q is not one of the screen's",
	"group %q does not say what \"not sure\" leads to",
	"group %q has no signs",
	"list them in the order in which they are shown: the gravest first",
	"name the group's main signs, and no more",
	"sign %q has an id that another sign has",
	"the example does not answer what the screen asks: ",
	"the example is shown the cautions %s, and %s were expected",
	"the example stops at the %s %s",
	"the example tells a sign of group %q, and the gate did not open it",
	"the gate's line of group %q has %d words, and at most %d are read in a glance",
	"the gate's lines have %d words together, and at most %d were expected",
	"the screen has no ending %q",
	"write ids of groups under gate:, and of signs under told:",
	"write them in this order",
	// Sizes: an archive would be as large. builder/read, builder/explainer and builder/tree have tests of them.
	"%d characters up to here cannot be seen, or are no plain spaces, and the rest of the file was not looked at",
	"a block of more than %d bytes begins here, and no more are read",
	"make several pages of it",
	"part it with empty lines",
	"split it into smaller files",
	"split it into trees that hand over to each other",
	"split the file into smaller ones",
	"take the text in anew as plain text, without the form it had elsewhere",
	"the file has more than %d bytes, and no more are read",
	"the text has more than %d bytes, and no more are read",
	"the tree has %d %s, and at most %d are taken",
	"this list has %d entries, and at most %d are read",
	// What no archive can hold, or only another command says.
	"part the tree in two, or let fewer conditions weigh one amount against another",
	"put a file of this name in its place, or remove it",
	"the tree %q cannot be written as a form that acts as it does",
	"this is no file but a pipe, a device or a folder, and it is not read",
	// Shown by nothing yet.
	"%s of the safety screen brings the prompt %q, which presumes %s, and the screen does not tell that",
	": { number: \"...\", where: ... }",
	"every edition says whom to call in an emergency and in a crisis: ",
	"name one of values:, or a question with a measure",
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
