package formula

import (
	"strings"
	"testing"
)

// A slip is a formula with something wrong: where, and words that the finding
// and its help must have.
type slip struct {
	src  string
	col  int
	text string
	help string
}

var slips = []slip{
	{"", 1, "empty", "steepness"},
	{"   ", 1, "empty", ""},
	{strings.Repeat("a && ", 120) + "a", 1, "601 characters", "values"},
	{strings.Repeat("(", 26) + "a" + strings.Repeat(")", 26), 26, "nested too deep", "values"},
	{strings.Repeat("!", 30) + "a", 26, "nested too deep", ""},

	// Numbers
	{"steepness > 8,33*percent", 13, "8,33 is not a number", "write 8.33"},
	{"steepness > 0x1F", 13, `"0x1F" is not a number`, "8.33"},
	{"steepness > 1_000", 13, `"1_000" is not a number`, ""},
	{"steepness > 1e3", 13, `"1e3" is not a number`, ""},
	{"steepness > 017", 13, `"017" is not a number`, ""},
	{"steepness > 5i", 13, "5i is not a number", ""},
	{"steepness > 14%", 15, `'%' has no place`, "8.5*percent"},
	{"steepness > 14 percent", 16, "no sign stands between 14 and percent", "write 14*percent"},
	{"heel > 10 20", 11, "no sign stands between 10 and 20", "join"},
	{"heel > 10 falls", 11, "no sign stands between 10 and falls", "join"},
	{"shoe mm > 3", 6, "no sign stands between shoe and mm", "shoe_mm"},
	{"heel > 2(3)", 9, "no sign stands between 2 and (", "write 2*("},
	{"steepness > 1:12", 14, `no ":"`, "one_in(12)"},
	{"heel > 2**3", 9, "no powers", ""},
	{"heel > 2^3", 9, `'^' has no place`, ""},
	{"heel > +3", 8, `"+" adds to nothing`, "leave it out"},
	{"heel > 5--3", 9, `no "--"`, "brackets"},

	// Words and signs of other languages
	{`safety = "no"`, 8, `single "="`, "write =="},
	{`safety === "no"`, 8, `no "==="`, "write =="},
	{`safety <> "no"`, 8, `no "<>"`, "write !="},
	{"heel => 3", 6, `no "=>"`, "write >="},
	{"heel =< 3", 6, `no "=<"`, "write <="},
	{`safety is "no"`, 8, `no word "is"`, "write =="},
	{`safety "no"`, 8, "no sign stands", `write safety == "no"`},
	{`a and b`, 3, `no word "and"`, "write &&"},
	{`a OR b`, 3, `no word "OR"`, "write ||"},
	{`not a`, 1, `no word "not"`, "write !"},
	{`not (a)`, 1, `no word "not"`, "write !"},
	{"a & b", 3, `single "&"`, "write &&"},
	{"a | b", 3, `single "|"`, "write ||"},
	{"shoe heel > 3", 6, "no sign stands between shoe and heel", "shoe_heel"},
	{"range > 3", 1, `"range" is a word`, "another id"},
	{"func() int { return 1 }", 12, `'{' has no place`, ""},
	{"func() > 1", 1, `"func" is a word`, ""},
	{"shoe.heel > 3", 5, `"." in it`, "8.33"},
	{"heel[0] > 3", 5, `'[' has no place`, ""},
	{"a := 3", 3, `no ":="`, ""},
	{"a <- b", 3, `no "<-"`, ""},
	{"a << b", 3, `no "<<"`, ""},
	{"load(a...)", 7, `no "..."`, ""},
	{"*a > 3", 1, `begins with "*"`, "something is missing"},
	{"&a", 1, `single "&"`, ""},

	// Quotes, comments, other signs
	{"safety == 'no'", 11, `has no place`, "double quotes"},
	{"safety == `no`", 11, "has no place", "double quotes"},
	{"safety == “no”", 11, "quote", "straight quote"},
	{`safety == "no`, 11, "no closing quote", `"yes"`},
	{`safety == "n\x6f"`, 13, "has no place", ""},
	{"heel > 3 // high", 10, "no comments", "#"},
	{"heel > 3 /* high */", 10, "no comments", ""},
	{"heel > 3; a", 9, "has no place", "one line"},
	{"heel >\n3", 7, "has no place", "one line"},
	{"heel ≥ 3", 6, "sign", ">="},
	{"heel × 3", 6, "sign", "write *"},
	{"heel − 3", 6, "sign", "plain minus"},
	{"héel > 3", 2, "sign", ""},
	{"heel\x00 > 3", 5, "sign", ""},

	// Brackets and gaps
	{"(a && b", 1, "never closed", `add ")"`},
	{"a && b)", 7, "closes nothing", ""},
	{"a && ()", 6, "nothing between", ""},
	{"a &&", 5, "stops too early", `"&&"`},
	{"a && > 3", 6, `missing between "&&" and ">"`, ""},
	{"slope_angle(a,)", 15, `missing between "," and ")"`, ""},
	{"a, b", 2, "comma stands only", ""},
	{"(a, b)", 3, "comma stands only", ""},
	{"(a)(b)", 4, "no sign stands between ) and (", ""},
	{`"no" "yes"`, 6, "no sign stands", ""},
}

func TestSlipsOfParsing(t *testing.T) {
	for _, s := range slips {
		e, err := Parse(s.src)
		if err == nil {
			t.Errorf("%q was read as %s", s.src, e)
			continue
		}
		checkSlip(t, s, err)
	}
}

func checkSlip(t *testing.T, s slip, err *Error) {
	t.Helper()
	if err.Col != s.col || !strings.Contains(err.Text, s.text) || !strings.Contains(strings.Join(err.Help, "\n"), s.help) {
		t.Errorf("%q\n got %d: %s\n     %q\nwant %d: %s\n     %q", s.src, err.Col, err.Text, err.Help, s.col, s.text, s.help)
	}
}

// What a clinician reads must not speak the parser's language.
func TestNoParserTalk(t *testing.T) {
	for _, s := range slips {
		_, err := Parse(s.src)
		if err == nil {
			continue
		}
		said := err.Text + " " + strings.Join(err.Help, " ")
		for _, word := range []string{"EOF", "operand", "expected", "token", "literal", "expression", "ident"} {
			if strings.Contains(said, word) {
				t.Errorf("%q: the finding says %q: %s", s.src, word, said)
			}
		}
	}
}

func TestReadsAndWrites(t *testing.T) {
	for src, want := range map[string]string{
		"a":                            "a",
		"shoe_heel>10*mm":              "shoe_heel > (10*mm)",
		"a&&b||!c":                     "(a && b) || !c",
		"a && (b || c)":                "a && (b || c)",
		"-x + 2*y/3":                   "-x + ((2*y)/3)",
		"x - (y - z)":                  "x - (y - z)",
		`safety == "not-sure"`:         `safety == "not-sure"`,
		`has(where,"home")`:            `has(where, "home")`,
		"max(a, 0.5*inch, -b) >= 1*mm": "max(a, 0.5*inch, -b) >= (1*mm)",
		"f()":                          "f()",
		"0.25 < x":                     "0.25 < x",
	} {
		e, err := Parse(src)
		if err != nil {
			t.Errorf("%q: %v", src, err)
			continue
		}
		if got := e.String(); got != want {
			t.Errorf("%q is written %q, want %q", src, got, want)
		}
	}
}

func TestLongChainsAreNotDeep(t *testing.T) {
	if _, err := Parse("a" + strings.Repeat(" && a", 90)); err != nil {
		t.Errorf("91 conditions in a row: %v", err)
	}
}

func TestUsesAndNames(t *testing.T) {
	e, err := Parse(`shoe_heel > 10*mm && has(where, "home") && shoe_heel < usual`)
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(e.Uses(), " "); got != "shoe-heel where usual" {
		t.Errorf("uses %q", got)
	}
	if got := strings.Join(e.Names(), " "); got != "shoe-heel mm where usual" {
		t.Errorf("names %q", got)
	}
}

func TestNameFault(t *testing.T) {
	for id, want := range map[string]string{
		"shoe-heel": "", "steepness": "", "load": "", "has": "",
		"mm": "unit", "range": "cannot use", "type": "cannot use", "2nd-shoe": "letter", "": "empty",
	} {
		if got := NameFault(id); (got == "") != (want == "") || !strings.Contains(got, want) {
			t.Errorf("%q: %q, want %q", id, got, want)
		}
	}
}
