package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"regexp"
	"slices"
	"strconv"
)

// mutant is one change of one file: what stands between two bytes is replaced.
type mutant struct {
	file     string // below the root, with slashes
	operator string
	from, to int
	with     string
	line     int
	text     string // the line as it stands, without the spaces around it
	guard    *guard // nil where the change is only made by itself
}

// goMutants gives every mutant of a Go file, in the order of the text.
func goMutants(file string, src []byte) ([]mutant, error) {
	set := token.NewFileSet()
	tree, err := parser.ParseFile(set, file, src, 0)
	if err != nil {
		return nil, err
	}
	m := &maker{file: file, src: src, at: func(p token.Pos) int { return set.Position(p).Offset }, inline: map[ast.Stmt]bool{}}
	for _, d := range tree.Decls {
		if f, ok := d.(*ast.FuncDecl); ok && f.Body != nil {
			m.function(f.Type, f.Body)
		} else if !ok {
			ast.Inspect(d, m.inspect) // tables of a package are its rules, too
		}
	}
	return m.all, nil
}

// maker gathers the mutants of a file.
type maker struct {
	file string
	src  []byte
	at   func(token.Pos) int
	all  []mutant

	inline map[ast.Stmt]bool // statements that stand in the head of another
}

// function looks at a function's body, and knows what its returns are to give.
func (m *maker) function(is *ast.FuncType, body *ast.BlockStmt) {
	ast.Inspect(body, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.FuncLit:
			m.function(n.Type, n.Body)
			return false
		case *ast.ReturnStmt:
			m.zero(is, n)
		}
		return m.inspect(n)
	})
}

func (m *maker) inspect(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.ImportSpec:
		return false
	case *ast.FuncLit: // in a table
		m.function(n.Type, n.Body)
		return false
	case *ast.IfStmt:
		m.inline[n.Init] = true
		m.negate(n.Cond)
		m.replace("empty-if", n.Body.Lbrace, n.Body.Rbrace+1, "{}").guard = m.around(n.Body.Lbrace+1, n.Body.Rbrace, "if !mutantOn(#) {", "}")
	case *ast.SwitchStmt:
		m.inline[n.Init] = true
	case *ast.ForStmt:
		m.inline[n.Init], m.inline[n.Post] = true, true
		if n.Cond != nil {
			m.negate(n.Cond)
		}
	case *ast.CaseClause:
		if len(n.Body) > 0 {
			from, to := n.Body[0].Pos(), n.Body[len(n.Body)-1].End()
			m.replace("empty-case", from, to, "").guard = m.around(from, to, "if !mutantOn(#) {", "}")
		}
	case *ast.BinaryExpr:
		if c := m.swap(n.OpPos, n.Op); c != nil {
			c.guard = m.binary(n)
		}
	case *ast.UnaryExpr:
		if n.Op == token.NOT {
			m.replace("not", n.OpPos, n.OpPos+1, "").guard = m.around(n.X.Pos(), n.X.End(), "mutantNot(#, ", ")")
		}
	case *ast.BasicLit:
		if x, err := strconv.Atoi(n.Value); err == nil && n.Kind == token.INT {
			m.replace("one-more", n.Pos(), n.End(), fmt.Sprint(x+1)).guard = m.around(n.Pos(), n.End(), "mutantMore(#, ", ")")
		}
	case *ast.Ident:
		if other := map[string]string{"true": "false", "false": "true"}[n.Name]; other != "" {
			m.replace("truth", n.Pos(), n.End(), other).guard = m.around(n.Pos(), n.End(), "mutantNot(#, ", ")")
		}
	case *ast.BranchStmt:
		if other := map[token.Token]string{token.BREAK: "continue", token.CONTINUE: "break"}[n.Tok]; other != "" {
			m.replace("jump", n.TokPos, n.TokPos+token.Pos(len(n.Tok.String())), other).guard = m.around(n.Pos(), n.End(), "if mutantOn(#) { "+other+" } else { ", " }")
		}
	case *ast.ExprStmt:
		m.drop(n)
	case *ast.IncDecStmt:
		m.drop(n)
	case *ast.AssignStmt:
		if n.Tok != token.DEFINE {
			m.drop(n)
		}
		m.swap(n.TokPos, n.Tok)
	}
	return true
}

func (m *maker) negate(cond ast.Expr) {
	m.replace("negate", cond.Pos(), cond.End(), "!("+m.text(cond)+")").guard = m.around(cond.Pos(), cond.End(), "mutantNot(#, ", ")")
}

func (m *maker) drop(n ast.Stmt) {
	c := m.replace("drop", n.Pos(), n.End(), "")
	if !m.inline[n] {
		c.guard = m.around(n.Pos(), n.End(), "if !mutantOn(#) { ", " }")
	}
}

func (m *maker) text(n ast.Node) string { return string(m.src[m.at(n.Pos()):m.at(n.End())]) }

// swaps are operators that change places, and the mutation's name.
var swaps = map[token.Token]struct {
	operator string
	to       token.Token
}{
	token.LSS: {"compare", token.LEQ}, token.LEQ: {"compare", token.LSS}, token.GTR: {"compare", token.GEQ}, token.GEQ: {"compare", token.GTR},
	token.EQL: {"compare", token.NEQ}, token.NEQ: {"compare", token.EQL}, token.LAND: {"logic", token.LOR}, token.LOR: {"logic", token.LAND},
	token.ADD: {"arithmetic", token.SUB}, token.SUB: {"arithmetic", token.ADD}, token.MUL: {"arithmetic", token.QUO}, token.QUO: {"arithmetic", token.MUL},
	token.ADD_ASSIGN: {"arithmetic", token.SUB_ASSIGN}, token.SUB_ASSIGN: {"arithmetic", token.ADD_ASSIGN},
}

func (m *maker) swap(at token.Pos, is token.Token) *mutant {
	s, ok := swaps[is]
	if !ok {
		return nil
	}
	return m.replace(s.operator, at, at+token.Pos(len(is.String())), s.to.String())
}

var isZero = regexp.MustCompile(`^(0|""|nil|false|[\w.]+\{\})$`)

// zero makes a return give the zero values of the function's types.
func (m *maker) zero(is *ast.FuncType, r *ast.ReturnStmt) {
	if is.Results == nil || len(r.Results) == 0 {
		return
	}
	if !slices.ContainsFunc(r.Results, func(e ast.Expr) bool { return !isZero.MatchString(m.text(e)) }) {
		return // it gives them already
	}
	values := ""
	for _, f := range is.Results.List {
		of := m.text(f.Type)
		for range max(len(f.Names), 1) {
			if values != "" {
				values += ", "
			}
			values += "*new(" + of + ")"
		}
	}
	m.replace("zero", r.Results[0].Pos(), r.Results[len(r.Results)-1].End(), values).guard = m.around(r.Pos(), r.Pos(), "if mutantOn(#) { return "+values+" }; ", "")
}

func (m *maker) replace(operator string, from, to token.Pos, with string) *mutant {
	m.all = append(m.all, change(m.file, m.src, operator, m.at(from), m.at(to), with))
	return &m.all[len(m.all)-1]
}
