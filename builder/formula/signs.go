package formula

import (
	"fmt"
	"go/scanner"
	"go/token"
	"strings"
)

// Before go/parser reads a formula, signs follows it sign by sign and checks
// that each may stand where it stands. So the author hears of a missing "*" or
// an "and" in our words; the parser's own are for programmers.

// sign is one sign, word, number or text. at is its column.
type sign struct {
	tok  token.Token
	text string
	at   int
}

func (s sign) end() int { return s.at + len(s.text) }

// split cuts src into signs; the last is token.EOF.
func split(src string) []sign {
	var out []sign
	var sc scanner.Scanner
	file := token.NewFileSet().AddFile("", 1, len(src))
	sc.Init(file, []byte(src), func(token.Position, string) {}, 0)
	for {
		pos, tok, text := sc.Scan()
		switch {
		case tok == token.EOF:
			return append(out, sign{token.EOF, "", len(src) + 1})
		case tok == token.SEMICOLON: // one that the scanner adds at the end
			continue
		case text == "":
			text = tok.String()
		}
		out = append(out, sign{tok, text, int(pos)})
	}
}

// follower holds what came before the present sign.
type follower struct {
	prev sign
	open []sign // the brackets that are open
	call []bool // whether each of them holds a function's values
}

func signs(src string) *Error {
	all := split(src)
	f := follower{prev: sign{tok: token.ILLEGAL}}
	wanted := true // a name, number, text or bracket comes next
	for i, s := range all {
		var err *Error
		if err = foreign(s, f.prev, all[min(i+1, len(all)-1)]); err == nil {
			if wanted {
				wanted, err = f.operand(s)
			} else {
				wanted, err = f.operator(s, all[min(i+1, len(all)-1)])
			}
		}
		if err != nil {
			return err
		}
		f.prev = s
	}
	return nil
}

// operand takes the sign that begins a part, or goes on towards one.
func (f *follower) operand(s sign) (wanted bool, err *Error) {
	switch s.tok {
	case token.STRING:
		if len(s.text) < 2 || !strings.HasSuffix(s.text, `"`) {
			return false, fail(s.at, "the text that begins here has no closing quote", `write it like "yes"`)
		}
		return false, nil
	case token.IDENT, token.INT, token.FLOAT, token.IMAG:
		return false, nil
	case token.LPAREN:
		f.push(s, false)
		return true, nil
	case token.NOT, token.SUB:
		return true, nil
	case token.RPAREN:
		if f.prev.tok == token.LPAREN && f.call[len(f.call)-1] { // f()
			f.pop()
			return false, nil
		}
	}
	return true, f.missing(s)
}

// missing says that something must stand before s.
func (f *follower) missing(s sign) *Error {
	switch {
	case s.tok == token.EOF:
		return fail(s.at, "the formula stops too early", fmt.Sprintf("something is missing after %q: a name, a number or a bracket", f.prev.text))
	case f.prev.tok == token.LSS && s.tok == token.GTR:
		return fail(f.prev.at, `formulas have no "<>"`, `write != for "is not equal to"`)
	case f.prev.tok == token.MUL && s.tok == token.MUL:
		return fail(f.prev.at, "formulas have no powers", "write the factor twice: x*x")
	case s.tok == token.ADD:
		return fail(s.at, `this "+" adds to nothing`, "leave it out, or write what it adds to")
	case f.prev.tok == token.LPAREN && s.tok == token.RPAREN:
		return fail(f.prev.at, "there is nothing between these brackets", "fill them or take them away")
	case f.prev.tok == token.ILLEGAL:
		return fail(s.at, fmt.Sprintf("the formula begins with %q", s.text), "something is missing before it: a name, a number or a bracket")
	}
	return fail(s.at, fmt.Sprintf("something is missing between %q and %q", f.prev.text, s.text), "a name, a number or a bracket belongs there")
}

// operator takes the sign after a finished part.
func (f *follower) operator(s, next sign) (wanted bool, err *Error) {
	switch {
	case operators[s.tok] != "":
		return true, nil
	case s.tok == token.LPAREN && f.prev.tok == token.IDENT && strings.ToLower(f.prev.text) != "not":
		f.push(s, true)
		return true, nil
	case s.tok == token.RPAREN:
		if len(f.open) == 0 {
			return false, fail(s.at, "this bracket closes nothing", `take it away, or add "(" before it`)
		}
		f.pop()
		return false, nil
	case s.tok == token.COMMA:
		return true, f.comma(s, next)
	case s.tok == token.EOF:
		if n := len(f.open); n > 0 {
			return false, fail(f.open[n-1].at, "this bracket is never closed", `add ")" where it ends`)
		}
		return false, nil
	}
	return false, f.unjoined(s)
}

func (f *follower) comma(s, next sign) *Error {
	if n := len(f.call); n > 0 && f.call[n-1] {
		return nil
	}
	if f.prev.tok == token.INT && next.tok == token.INT && f.prev.end() == s.at && s.end() == next.at {
		return fail(f.prev.at, fmt.Sprintf("%s,%s is not a number that formulas use", f.prev.text, next.text),
			fmt.Sprintf("write %s.%s, with a point", f.prev.text, next.text))
	}
	return fail(s.at, "a comma stands only between the values of a function", "write numbers with a point, like 8.33; join conditions with && or ||")
}

// unjoined says that no sign joins s to what stands before it.
func (f *follower) unjoined(s sign) *Error {
	p := f.prev
	if write := inPlace[strings.ToLower(s.text)]; write != "" && s.tok == token.IDENT {
		return fail(s.at, fmt.Sprintf("formulas have no word %q", s.text), "write "+write)
	}
	text := fmt.Sprintf("no sign stands between %s and %s", p.text, s.text)
	number := p.tok == token.INT || p.tok == token.FLOAT
	switch {
	case number && s.tok == token.IDENT && IsUnit(s.text):
		return fail(s.at, text, fmt.Sprintf("write %s*%s", p.text, s.text))
	case strings.ToLower(p.text) == "not" && p.tok == token.IDENT:
		return fail(p.at, fmt.Sprintf("formulas have no word %q", p.text), "write ! before what is not so")
	case p.tok == token.IDENT && s.tok == token.STRING:
		return fail(s.at, text, fmt.Sprintf("write %s == %s", p.text, s.text))
	case p.tok == token.IDENT && s.tok == token.IDENT:
		return fail(s.at, text, fmt.Sprintf("join conditions with && or ||; a name of two words is written %s_%s", p.text, s.text))
	case number && s.tok == token.LPAREN:
		return fail(s.at, text, fmt.Sprintf("write %s*(", p.text))
	}
	return fail(s.at, text, "join conditions with && or ||, and compare with ==, !=, <, <=, > or >=")
}

// inPlace are words and signs that people write, and what formulas have.
var inPlace = map[string]string{"and": "&&", "or": "||", "is": "==", "equals": "=="}

// foreign refuses what the language does not have at all.
func foreign(s, prev, next sign) *Error {
	switch {
	case s.tok.IsKeyword():
		return fail(s.at, fmt.Sprintf("%q is a word that formulas cannot use", s.text), "a question or value that a formula asks for needs another id")
	case s.tok == token.ASSIGN && prev.tok == token.EQL:
		return fail(prev.at, `formulas have no "==="`, "write ==")
	case s.tok == token.ASSIGN && (next.tok == token.LSS || next.tok == token.GTR):
		return fail(s.at, fmt.Sprintf(`formulas have no "=%s"`, next.text), fmt.Sprintf("write %s=", next.text))
	case s.tok == token.ASSIGN:
		return fail(s.at, `a single "=" compares nothing`, "write == to compare")
	case s.tok == token.AND || s.tok == token.OR:
		return fail(s.at, fmt.Sprintf("a single %q joins nothing", s.text), fmt.Sprintf("write %s%s", s.text, s.text))
	case s.tok == token.DEC || s.tok == token.INC:
		return fail(s.at, fmt.Sprintf("formulas have no %q", s.text), "put the second one in brackets: 5 - (-3)")
	case s.tok == token.COLON:
		return fail(s.at, `formulas have no ":"`, "write the slope 1:12 as one_in(12)")
	case s.tok == token.PERIOD:
		return fail(s.at, `no name or answer has a "." in it`, "a point stands only inside a number, like 8.33")
	case known(s.tok):
		return nil
	}
	return fail(s.at, fmt.Sprintf("formulas have no %q", s.text), "use &&, ||, !, ==, !=, <, <=, >, >=, +, -, * or /")
}

func known(t token.Token) bool {
	switch t {
	case token.IDENT, token.INT, token.FLOAT, token.IMAG, token.STRING,
		token.LPAREN, token.RPAREN, token.COMMA, token.NOT, token.EOF:
		return true
	}
	return operators[t] != ""
}

func (f *follower) push(s sign, call bool) {
	f.open, f.call = append(f.open, s), append(f.call, call)
}

func (f *follower) pop() {
	f.open, f.call = f.open[:len(f.open)-1], f.call[:len(f.call)-1]
}
