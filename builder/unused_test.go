package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// testsUse are functions and methods of the program that only tests use, each with the reason why it is no part of a test.
var testsUse = map[string]string{
	"builder/drawing.OwnAt":          inGo,
	"builder/drawing.Cuts":           inGo,
	"builder/figure.Figure.Settle":   inGo,
	"builder/squarecode.Code.Dark":   inGo,
	"builder/told.Sitting.Settle":    inGo,
	"builder/told.Sitting.settleOne": inGo,
	"builder/told.Ticks":             inGo,
	"builder/tree.Tree.Changes":      inGo,
	"builder/figure.Parse":           alone,
	"builder/safety.Parse":           alone,
	"builder/tree.Parse":             alone,
	"builder/publish.Render":         "makes a site without a ledger, wherever a test keeps it",
	"builder/library.Texts":          "gives what another language has to say, to the room that makes one for tests",
	"builder/translation.Book.Needs": "gives what another language has to say, to the room that makes one for tests",
	"builder/proof.AllPaths":         "gives the ways that walks of other rooms are tried with",
	"builder/proof.SomePaths":        "gives the ways that walks of other rooms are tried with",
	"builder/wording.InMade":         "holds sentences that are made as a page is, in the tests of the rooms that make them",
}

// Reasons of several.
const (
	inGo  = "is in Go what the page does in its script, which is held against it"
	alone = "reads one file with nothing else, for tests of this room and of those below"
)

// others call methods by these names: the standard library and the modules of go.mod, through their interfaces.
var others = strings.Fields(`String Error Unwrap Write Read Close Len Less Swap ServeHTTP MarshalJSON Dump RegisterFuncs End`)

// inTemplate is what a template asks of a value, such as .Text.Part.
var inTemplate = regexp.MustCompile(`[.$](\w+)`)

// Whatever the program declares it also uses: from main, from what is worked out as it starts, or from a
// template. What only tests use is no part of it, but for a few.
func TestNothingIsForTestsAlone(t *testing.T) {
	p := program{uses: map[string][]string{}, at: map[string]string{}}
	for room, isForTests := range rooms(t) {
		if !isForTests {
			p.add(t, room)
		}
	}
	err := filepath.WalkDir("../site/pages", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(name)
		for _, m := range inTemplate.FindAllSubmatch(text, -1) {
			p.roots = append(p.roots, "."+string(m[1]))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range others {
		p.roots = append(p.roots, "."+name)
	}
	live := p.live()
	if len(live) < 2000 {
		t.Errorf("only %d names are used: is the search right?", len(live))
	}
	for _, name := range slices.Sorted(maps.Keys(p.at)) {
		switch reason := testsUse[name]; {
		case !live[name] && reason == "":
			t.Errorf("%s: only tests use %s; move it into them, or say under testsUse why it stands here", p.at[name], name)
		case live[name] && reason != "":
			t.Errorf("%s: the program uses %s, so it is none that only tests use", p.at[name], name)
		}
	}
	for name := range testsUse {
		if p.at[name] == "" {
			t.Errorf("testsUse has %s, and there is none", name)
		}
	}
}

// program is what uses what. A function is "room.Name". Methods are told apart by name alone, ".Name", so one is used as
// soon as any of its name is; p.at has them as "room.Type.Name".
type program struct {
	uses  map[string][]string
	at    map[string]string
	roots []string
}

// rooms are all rooms, and whether they are for tests only.
func rooms(t *testing.T) map[string]bool {
	t.Helper()
	text, err := os.ReadFile("../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]bool{"builder": false, "content": false, "trees": false, "site": false}
	for _, r := range row.FindAllSubmatch(text, -1) {
		for _, name := range strings.Split(string(r[1]), ", ") {
			out[strings.Trim(name, "`")] = strings.Contains(string(r[2]), "tests only") || strings.Contains(string(r[2]), "run by `.ci/long`")
		}
	}
	return out
}

func (p *program) add(t *testing.T, room string) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", filepath.FromSlash(room), "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		set := token.NewFileSet()
		f, err := parser.ParseFile(set, name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		p.file(set, room, f)
	}
}

func (p *program) file(set *token.FileSet, room string, f *ast.File) {
	imports := map[string]string{}
	for _, i := range f.Imports {
		to, _ := strconv.Unquote(i.Path.Value)
		if ours, ok := strings.CutPrefix(to, "keelpath/"); ok {
			imports[path.Base(ours)] = ours
		}
	}
	for _, d := range f.Decls {
		of, ok := d.(*ast.FuncDecl)
		if !ok {
			p.roots = append(p.roots, used(room, imports, d)...) // what is worked out as the program starts, and types
			continue
		}
		name, node := of.Name.Name, room+"."+of.Name.Name
		if of.Recv != nil {
			node, name = "."+name, receiver(of.Recv.List[0].Type)+"."+name
		}
		if of.Name.Name == "init" || node == "builder.main" {
			p.roots = append(p.roots, node)
		}
		p.at[room+"."+name] = set.Position(of.Pos()).String()
		p.uses[node] = append(p.uses[node], used(room, imports, of)...)
	}
}

func receiver(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.StarExpr:
		return receiver(e.X)
	case *ast.IndexExpr:
		return receiver(e.X)
	case *ast.Ident:
		return e.Name
	}
	return ""
}

// used are the names in a declaration that may be functions of the program or methods.
func used(room string, imports map[string]string, d ast.Node) []string {
	var out []string
	ast.Inspect(d, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.FuncDecl: // its own name is no use of it
			for _, part := range []ast.Node{n.Type, n.Body} {
				out = append(out, used(room, imports, part)...)
			}
			return false
		case *ast.SelectorExpr:
			if of, ok := n.X.(*ast.Ident); ok && imports[of.Name] != "" {
				out = append(out, imports[of.Name]+"."+n.Sel.Name)
			}
			out = append(append(out, "."+n.Sel.Name), used(room, imports, n.X)...)
			return false
		case *ast.Field: // the names of what it is are its own
			out = append(out, used(room, imports, n.Type)...)
			return false
		case *ast.CompositeLit:
			if _, ofMap := n.Type.(*ast.MapType); ofMap {
				return true
			}
			for _, e := range n.Elts {
				if field, ok := e.(*ast.KeyValueExpr); ok { // which may be one of a struct
					e = field.Value
				}
				out = append(out, used(room, imports, e)...)
			}
			if n.Type != nil {
				out = append(out, used(room, imports, n.Type)...)
			}
			return false
		case *ast.Ident:
			out = append(out, room+"."+n.Name)
		}
		return true
	})
	return out
}

// live are the names that are used from the roots on, methods as p.at has them too.
func (p *program) live() map[string]bool {
	out, next := map[string]bool{}, p.roots
	for len(next) > 0 {
		name := next[len(next)-1]
		next = next[:len(next)-1]
		if !out[name] {
			out[name] = true
			next = append(next, p.uses[name]...)
		}
	}
	for name := range p.at {
		if i := strings.LastIndexByte(name, '.'); strings.Count(name[strings.LastIndexByte(name, '/')+1:], ".") == 2 && out[name[i:]] {
			out[name] = true
		}
	}
	return out
}
