package formula

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/scanner"
	"go/token"
	"math"
	"strconv"
	"strings"
)

// Limits of one formula. They keep every later step small; no rule that a
// person can follow comes near them.
const (
	MaxLength = 500 // characters
	maxDepth  = 24  // of brackets, "!" and "-" inside each other
)

// Expr is a part of a formula. Op says which:
//
//	"num"                      a number, in Num
//	"text"                     an answer's id, in Text
//	"name"                     a question, value or unit, its id in Text
//	"call"                     a function, its name in Text
//	"!" "neg"                  one operand in Args
//	"&&" "||" "==" "!=" "<" "<=" ">" ">=" "+" "-" "*" "/"   two operands
type Expr struct {
	Op   string
	Num  float64
	Text string
	Args []*Expr
	Col  int // from 1, in characters
}

// Error is what is wrong with a formula. Col counts characters from 1.
type Error struct {
	Col  int
	Text string
	Help []string
}

func (e *Error) Error() string { return e.Text }

func fail(col int, text string, help ...string) *Error { return &Error{col, text, help} }

// Parse reads a formula. The error is nil exactly when the formula can be read.
func Parse(src string) (*Expr, *Error) {
	if err := letters(src); err != nil {
		return nil, err
	}
	if err := signs(src); err != nil {
		return nil, err
	}
	tree, err := parser.ParseExpr(src)
	if err != nil {
		return nil, said(src, err)
	}
	r := &reader{src: src}
	e := r.expr(tree, 0)
	return e, r.err
}

// letters refuses signs that the language does not have, before go/parser
// makes something of them.
func letters(src string) *Error {
	if strings.TrimSpace(src) == "" {
		return fail(1, "the formula is empty", `write a condition like "steepness > 8.5*percent"`)
	}
	if len(src) > MaxLength {
		return fail(1, fmt.Sprintf("the formula has %d characters, and at most %d are read", len(src), MaxLength), "part it into values with names of their own")
	}
	col := 0
	for i, r := range src {
		col++
		switch {
		case r == '“' || r == '”' || r == '„' || r == '‘' || r == '’':
			return fail(col, fmt.Sprintf("the quote %q is not one that formulas use", r), `write the straight quote: "`)
		case r == '≤' || r == '≥' || r == '≠':
			return fail(col, fmt.Sprintf("the sign %q is not one that formulas use", r), "write <=, >= or !=")
		case r > 126 || (r < 32 && r != ' ') || strings.ContainsRune("`'\\;{}[]#@$?~^%", r):
			return fail(col, fmt.Sprintf("the sign %q has no place in a formula", r), instead(r))
		case strings.HasPrefix(src[i:], "//") || strings.HasPrefix(src[i:], "/*"):
			return fail(col, "a formula has no comments", `write the comment behind "#" outside of the quotes`)
		}
	}
	return nil
}

// instead tells what to write in place of a sign that formulas do not have.
func instead(r rune) string {
	switch r {
	case '%':
		return "write 8.5*percent"
	case '\'', '`':
		return `write an answer in straight double quotes: "yes"`
	case '×', '·':
		return "write *"
	case '÷':
		return "write /"
	case '−', '–', '—':
		return "write the plain minus: -"
	case '°':
		return "write 5*deg"
	case ';', '\n':
		return "a formula is one condition in one line; join conditions with && or ||"
	}
	return `signs that a formula may have: letters, digits, _ . " ( ) , + - * / < > = ! & |`
}

// said puts the parser's complaint into plain words. signs leaves it little to
// complain of.
func said(src string, err error) *Error {
	col, text := 1, err.Error()
	var list scanner.ErrorList
	if errors.As(err, &list) && len(list) > 0 {
		col, text = list[0].Pos.Column, list[0].Msg
	}
	col = min(max(col, 1), len(src)+1)
	switch {
	case strings.Contains(text, "found 'EOF'") || strings.Contains(text, "newline"):
		return fail(len(src)+1, "the formula stops too early", "something is missing at its end: a number, a name or a bracket")
	case strings.Contains(text, "string literal not terminated"):
		return fail(col, "the text that begins here has no closing quote", `write it like "yes"`)
	case strings.Contains(text, "expected ')'"):
		return fail(col, "a bracket is not closed before this", `add ")"`)
	}
	word := src[col-1:]
	if i := strings.IndexAny(word, " ()"); i > 0 {
		word = word[:i]
	}
	return fail(col, fmt.Sprintf("the formula cannot be read from %q on", word), `join conditions with && or ||, and compare with ==, !=, <, <=, > or >=`)
}

// reader turns go/parser's tree into ours and keeps the first error.
type reader struct {
	src string
	err *Error
}

func (r *reader) fail(at token.Pos, text string, help ...string) *Expr {
	if r.err == nil {
		r.err = fail(int(at), text, help...)
	}
	return &Expr{Op: "num", Col: int(at)}
}

// operators of two operands.
var operators = map[token.Token]string{
	token.LAND: "&&", token.LOR: "||", token.EQL: "==", token.NEQ: "!=", token.LSS: "<", token.LEQ: "<=",
	token.GTR: ">", token.GEQ: ">=", token.ADD: "+", token.SUB: "-", token.MUL: "*", token.QUO: "/",
}

func (r *reader) expr(n ast.Expr, depth int) *Expr {
	if depth > maxDepth {
		return r.fail(n.Pos(), "brackets are nested too deep here", "part the formula into values with names of their own")
	}
	switch n := n.(type) {
	case *ast.ParenExpr:
		return r.expr(n.X, depth+1)
	case *ast.BasicLit:
		return r.literal(n)
	case *ast.Ident:
		return &Expr{Op: "name", Text: strings.ReplaceAll(n.Name, "_", "-"), Col: int(n.Pos())}
	case *ast.UnaryExpr:
		switch n.Op {
		case token.NOT:
			return &Expr{Op: "!", Args: []*Expr{r.expr(n.X, depth+1)}, Col: int(n.Pos())}
		case token.SUB:
			return &Expr{Op: "neg", Args: []*Expr{r.expr(n.X, depth+1)}, Col: int(n.Pos())}
		}
	case *ast.BinaryExpr:
		if op := operators[n.Op]; op != "" {
			return &Expr{Op: op, Args: []*Expr{r.expr(n.X, depth), r.expr(n.Y, depth)}, Col: int(n.OpPos)}
		}
		return r.fail(n.OpPos, fmt.Sprintf("formulas have no operator %q", n.Op), "use &&, ||, !, ==, !=, <, <=, >, >=, +, -, * or /")
	case *ast.CallExpr:
		return r.call(n, depth)
	}
	return r.fail(n.Pos(), "this is not something that a formula may hold", "a formula holds names, numbers, units, answers in quotes, and functions")
}

func (r *reader) call(n *ast.CallExpr, depth int) *Expr {
	name, ok := n.Fun.(*ast.Ident)
	if !ok || n.Ellipsis.IsValid() {
		return r.fail(n.Pos(), "this is not a function that a formula may call", "a function is called by its name: slope_angle(steepness)")
	}
	e := &Expr{Op: "call", Text: name.Name, Col: int(n.Pos())}
	for _, a := range n.Args {
		e.Args = append(e.Args, r.expr(a, depth+1))
	}
	return e
}

func (r *reader) literal(n *ast.BasicLit) *Expr {
	switch n.Kind {
	case token.STRING:
		text, err := strconv.Unquote(n.Value)
		if err != nil {
			return r.fail(n.Pos(), fmt.Sprintf("%s is not a text that can be read", n.Value))
		}
		return &Expr{Op: "text", Text: text, Col: int(n.Pos())}
	case token.INT, token.FLOAT:
		x, err := strconv.ParseFloat(n.Value, 64)
		if err != nil || strings.ContainsAny(n.Value, "xXoObBpPeE_") || math.IsInf(x, 0) || (len(n.Value) > 1 && n.Value[0] == '0' && n.Value[1] != '.') {
			return r.fail(n.Pos(), fmt.Sprintf("%q is not a number that formulas use", n.Value), "write digits with a point, like 8.33")
		}
		return &Expr{Op: "num", Num: x, Col: int(n.Pos())}
	}
	return r.fail(n.Pos(), fmt.Sprintf("%s is not a number that formulas use", n.Value))
}

// Names gives the ids of questions, values and units that the formula uses,
// each once, in order of use.
func (e *Expr) Names() []string {
	var out []string
	seen := map[string]bool{}
	e.each(func(x *Expr) {
		if x.Op == "name" && !seen[x.Text] {
			seen[x.Text] = true
			out = append(out, x.Text)
		}
	})
	return out
}

// Asks calls do for every answer that the formula asks for by name.
func (e *Expr) Asks(do func(question, answer string)) {
	e.each(func(x *Expr) {
		if len(x.Args) != 2 {
			return
		}
		a, b := x.Args[0], x.Args[1]
		if a.Op == "text" {
			a, b = b, a
		}
		if a.Op == "name" && b.Op == "text" {
			do(a.Text, b.Text)
		}
	})
}

func (e *Expr) each(do func(*Expr)) {
	do(e)
	for _, a := range e.Args {
		a.each(do)
	}
}
