package main

import (
	"bytes"
	"cmp"
	_ "embed"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

//go:embed guards.go.txt
var guardsText string

// guard builds a change in beside what stands there, so that many mutants share
// one build: the tests' environment says which of them is on. A "#" in before
// stands for the mutant's number.
type guard struct {
	from, to      int // what is wrapped
	before, after string

	cutFrom, cutTo int // an operator that becomes between
	between        string
}

func (m *maker) around(from, to token.Pos, before, after string) *guard {
	return &guard{from: m.at(from), to: m.at(to), before: before, after: after}
}

// calls are functions in guards.go.txt that take an operator's place.
var calls = map[token.Token]string{
	token.LSS: "mutantLess", token.LEQ: "mutantAtMost", token.GTR: "mutantMoreThan", token.GEQ: "mutantAtLeast", token.EQL: "mutantSame", token.NEQ: "mutantOther",
	token.ADD: "mutantAdd", token.SUB: "mutantTake", token.MUL: "mutantTimes", token.QUO: "mutantInto", token.LAND: "mutantAnd", token.LOR: "mutantOr",
}

func (m *maker) binary(n *ast.BinaryExpr) *guard {
	g := m.around(n.Pos(), n.End(), calls[n.Op]+"(#, ", ")")
	g.cutFrom, g.cutTo, g.between = m.at(n.OpPos), m.at(n.OpPos)+len(n.Op.String()), ","
	if n.Op == token.LAND || n.Op == token.LOR {
		g.between, g.after = ", func() bool { return bool(", ") })"
	}
	return g
}

// edit is a piece of text that is put in, and how much it takes the place of.
type edit struct {
	at, cut int
	text    string
	order   [3]int // among those at one place: ends before beginnings, the outer outside
}

// build puts the guards of mutants, by their numbers, into a file.
func build(src []byte, all map[int]mutant) []byte {
	var edits []edit
	for k, m := range all {
		g := m.guard
		before := strings.ReplaceAll(g.before, "#", strconv.Itoa(k+1))
		edits = append(edits, edit{g.from, 0, before, [3]int{1, -g.to, k}})
		if g.after != "" {
			edits = append(edits, edit{g.to, 0, g.after, [3]int{0, -g.from, -k}})
		}
		if g.cutTo > g.cutFrom {
			edits = append(edits, edit{g.cutFrom, g.cutTo - g.cutFrom, g.between, [3]int{2, 0, 0}})
		}
	}
	slices.SortFunc(edits, func(a, b edit) int { return cmp.Or(cmp.Compare(a.at, b.at), slices.Compare(a.order[:], b.order[:])) })
	var out bytes.Buffer
	at := 0
	for _, e := range edits {
		out.Write(src[at:e.at])
		out.WriteString(e.text)
		at = e.at + e.cut
	}
	out.Write(src[at:])
	return out.Bytes()
}

// guarded tries the mutants that can share one build, and gives what became of
// them by number. What does not compile in this form is left out of it.
func (b *bench) guarded(all []mutant) (map[int]came, error) {
	in := map[string]map[int]mutant{}
	for k, m := range all {
		if m.guard != nil {
			if in[m.file] == nil {
				in[m.file] = map[int]mutant{}
			}
			in[m.file][k] = m
		}
	}
	if len(in) == 0 {
		return nil, nil
	}
	for {
		files, err := b.files(in)
		if err != nil {
			return nil, err
		}
		overlay, err := b.overlay(files)
		if err != nil {
			return nil, err
		}
		is, said := b.build(overlay)
		if is == "" {
			break
		}
		if !leaveOut(in, said) {
			return nil, fmt.Errorf("%s: the mutants cannot be built in: %s", b.name, said)
		}
	}
	defer func() { b.env = nil }()
	if is := b.run(); is != survived {
		return nil, fmt.Errorf("%s: with the mutants built in and all of them off, the tests came to %q: %s", b.name, is, b.said)
	}
	out := map[int]came{}
	for _, some := range in {
		for k := range some {
			b.env = []string{fmt.Sprintf("KEELPATH_MUTANT=%d", k+1)}
			out[k] = b.run()
		}
	}
	return out, nil
}

// files gives the changed files, and in each of their folders one with the functions.
func (b *bench) files(in map[string]map[int]mutant) (map[string][]byte, error) {
	out := map[string][]byte{}
	for file, some := range in {
		src, err := os.ReadFile(filepath.Join(b.root, filepath.FromSlash(file)))
		if err != nil {
			return nil, err
		}
		f, err := parser.ParseFile(token.NewFileSet(), file, src, parser.PackageClauseOnly)
		if err != nil {
			return nil, err
		}
		out[file] = slices.Concat([]byte("//line "+filepath.Join(b.root, filepath.FromSlash(file))+":1\n"), build(src, some)) // so that faults are said of the lines as they were
		out[path.Join(path.Dir(file), "mutants_on.go")] = []byte("package " + f.Name.Name + "\n" + guardsText)
	}
	return out, nil
}

var place = regexp.MustCompile(`([\w/.-]+\.go):(\d+):`)

// leaveOut takes the mutants away on whose lines the compiler finds fault, and
// tells whether there were any. A finding on a line without one takes away those
// of the lines around it.
func leaveOut(in map[string]map[int]mutant, said string) bool {
	any := false
	for _, m := range place.FindAllStringSubmatch(said, -1) {
		line, _ := strconv.Atoi(m[2])
		found := false
		for file, some := range in {
			for near := 0; near < 200 && path.Base(file) == path.Base(m[1]) && !found; near++ {
				for k, one := range some {
					if one.line <= line && line <= one.line+near {
						delete(some, k)
						found = true
					}
				}
			}
		}
		any = any || found
	}
	return any
}
