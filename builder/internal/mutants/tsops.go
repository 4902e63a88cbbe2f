package main

import (
	"regexp"
	"strconv"
)

// tsMutants gives every mutant of a TypeScript file, in the order of the text.
// It knows tokens only: texts, comments and patterns are left alone.
func tsMutants(file string, src []byte) []mutant {
	code := blanked(string(src))
	var out []mutant
	add := func(operator string, from, to int, with string) {
		out = append(out, change(file, src, operator, from, to, with))
	}
	for _, op := range tokens {
		for _, at := range op.pattern.FindAllStringSubmatchIndex(code, -1) {
			was := code[at[2]:at[3]]
			with := op.other[was]
			if op.operator == "one-more" {
				x, err := strconv.Atoi(was)
				if err != nil {
					continue
				}
				with = strconv.Itoa(x + 1)
			}
			add(op.operator, at[2], at[3], with)
		}
	}
	for _, at := range condition.FindAllStringIndex(code, -1) {
		if end := closing(code, at[1]-1); end > 0 {
			add("negate", at[1], end, "!("+string(src[at[1]:end])+")")
		}
	}
	return out
}

// tokens are the operators that look at one token. The first group is replaced.
var tokens = []struct {
	operator string
	pattern  *regexp.Regexp
	other    map[string]string
}{
	{"compare", regexp.MustCompile(` (===|!==|<=|>=|<|>) `), map[string]string{"===": "!==", "!==": "===", "<": "<=", "<=": "<", ">": ">=", ">=": ">"}},
	{"logic", regexp.MustCompile(` (&&|\|\|) `), map[string]string{"&&": "||", "||": "&&"}},
	{"arithmetic", regexp.MustCompile(` ([-+*/]) `), map[string]string{"+": "-", "-": "+", "*": "/", "/": "*"}},
	{"truth", regexp.MustCompile(`\b(true|false)\b`), map[string]string{"true": "false", "false": "true"}},
	{"not", regexp.MustCompile(`[ (!](!)[\w(]`), map[string]string{"!": " "}},
	{"one-more", regexp.MustCompile(`[^\w.](\d+)\b[^.]`), nil},
	{"drop", regexp.MustCompile(`(?m)^ +((?:this\.|[a-z])[\w.\[\]]*(?:\(.*\)| [-+]?= .*);)$`), map[string]string{}},
	{"zero", regexp.MustCompile(`\breturn( [^;]*);`), map[string]string{}},
}

var condition = regexp.MustCompile(`\bif \(`)

// closing gives the place of the bracket that closes the one at from, or 0.
func closing(code string, from int) int {
	depth := 0
	for i := from; i < len(code); i++ {
		switch code[i] {
		case '(':
			depth++
		case ')':
			if depth--; depth == 0 {
				return i
			}
		}
	}
	return 0
}

// blanked puts a sign that no operator looks for in place of what texts, comments
// and patterns hold.
func blanked(src string) string {
	return aside.ReplaceAllStringFunc(src, func(s string) string {
		out := []byte(s)
		for i := range out {
			if out[i] != '\n' {
				out[i] = '~'
			}
		}
		return string(out)
	})
}

var aside = regexp.MustCompile("(?s)/\\*.*?\\*/|//[^\n]*|\"(?:[^\"\\\\\n]|\\\\.)*\"|`(?:[^`\\\\]|\\\\.)*`|[(,=] ?/(?:[^/\\\\\n]|\\\\.)+/[a-z]*")
