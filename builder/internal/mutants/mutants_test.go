package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

const goSample = `package sample

import "fmt"

var table = map[string]bool{"a": true}

func f(a, b int) (int, error) {
	if a < b && !table["a"] {
		fmt.Println("less", 7)
	}
	for i := 0; i < a; i++ {
		if i == 3 {
			continue
		}
		b += i * 2
	}
	switch a {
	case 1:
		return a - 1, nil
	}
	return 0, nil
}
`

// Each operator makes the changes that it states, and no other.
func TestGoOperators(t *testing.T) {
	want := map[string][]string{
		"negate":     {"if !(a < b && !table[\"a\"]) {", "for i := 0; !(i < a); i++ {", "if !(i == 3) {"},
		"compare":    {"if a <= b && !table[\"a\"] {", "for i := 0; i <= a; i++ {", "if i != 3 {"},
		"logic":      {"if a < b || !table[\"a\"] {"},
		"not":        {"if a < b && table[\"a\"] {"},
		"one-more":   {`fmt.Println("less", 8)`, "for i := 1; i < a; i++ {", "if i == 4 {", "b += i * 3", "case 2:", "return a - 2, nil", "return 1, nil"},
		"drop":       {"", "for i := 0; i < a;  {", ""},
		"arithmetic": {"b -= i * 2", "b += i / 2", "return a + 1, nil"},
		"jump":       {"break"},
		"truth":      {`var table = map[string]bool{"a": false}`},
		"empty-if":   {"if a < b && !table[\"a\"] {}", "if i == 3 {}"},
		"empty-case": {""},
		"zero":       {"return *new(int), *new(error)"}, // the other return gives zero values as it is
	}
	all, err := goMutants("sample.go", []byte(goSample))
	if err != nil {
		t.Fatal(err)
	}
	same(t, want, all, goSample)
}

const tsSample = `// if (a < b) is said here
export function f(a: number, b: Array<number>): boolean {
  const text = "a < b && true";
  if (a < 1 && !b.length) {
    b.push(2);
    return true;
  }
  a = a + 10;
  return a === 3;
}
`

func TestTypeScriptOperators(t *testing.T) {
	want := map[string][]string{
		"negate":     {"if (!(a < 1 && !b.length)) {"},
		"compare":    {"if (a <= 1 && !b.length) {", "return a !== 3;"},
		"logic":      {"if (a < 1 || !b.length) {"},
		"not":        {"if (a < 1 &&  b.length) {"},
		"one-more":   {"if (a < 2 && !b.length) {", "b.push(3);", "a = a + 11;", "return a === 4;"},
		"drop":       {"", ""},
		"arithmetic": {"a = a - 10;"},
		"truth":      {"return false;"},
		"zero":       {"return;", "return;"},
	}
	same(t, want, tsMutants("sample.ts", []byte(tsSample)), tsSample)
}

// same holds the changed lines of mutants against those that are wanted, by operator.
func same(t *testing.T, want map[string][]string, all []mutant, src string) {
	t.Helper()
	got := map[string][]string{}
	for _, m := range all {
		lines := strings.Split(string(m.mutate([]byte(src))), "\n")
		got[m.operator] = append(got[m.operator], strings.TrimSpace(lines[m.line-1]))
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("wanted (-) and made (+):\n%s", d)
	}
}

// With the guards built in, a file is the same program on as many lines.
func TestGuardsNest(t *testing.T) {
	all, err := goMutants("sample.go", []byte(goSample))
	if err != nil {
		t.Fatal(err)
	}
	in := map[int]mutant{}
	for k, m := range all {
		if m.guard != nil {
			in[k] = m
		}
	}
	built := string(build([]byte(goSample), in))
	if strings.Count(built, "\n") != strings.Count(goSample, "\n") {
		t.Errorf("the lines are others:\n%s", built)
	}
	if _, err := goMutants("built.go", []byte(built)); err != nil {
		t.Errorf("it does not parse: %v\n%s", err, built)
	}
	if len(in) < 20 || strings.Contains(built, "#") {
		t.Errorf("%d guards:\n%s", len(in), built)
	}
}

// The same seed draws the same mutants, in another order than that of the files.
func TestDraw(t *testing.T) {
	root := filepath.Join("..", "..", "..")
	for _, of := range targets {
		files, err := sources(root, of.sources)
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: %v, %v", of.name, files, err)
		}
		one, err := draw(root, files, 1)
		if err != nil {
			t.Fatal(err)
		}
		again, _ := draw(root, files, 1)
		other, _ := draw(root, files, 2)
		if len(one) < 60 && of.name != "question" { // a small file, of which each is tried
			t.Errorf("%s has %d mutants only", of.name, len(one))
		}
		key := func(m mutant) string { return m.key().String() }
		if !slices.EqualFunc(one, again, func(a, b mutant) bool { return key(a) == key(b) }) || slices.EqualFunc(one, other, func(a, b mutant) bool { return key(a) == key(b) }) {
			t.Errorf("%s: the seed does not settle the draw", of.name)
		}
	}
}

// Each entry of the list stands for a mutant that there is.
func TestEquivalentsStand(t *testing.T) {
	known, err := equivalents(equivalentsText)
	if err != nil {
		t.Fatal(err)
	}
	there := map[key]bool{}
	root := filepath.Join("..", "..", "..")
	for _, of := range targets {
		files, err := sources(root, of.sources)
		if err != nil {
			t.Fatal(err)
		}
		all, err := draw(root, files, 1)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range all {
			there[m.key()] = true
		}
	}
	for k, why := range known {
		if !there[k] {
			t.Errorf("no mutant is %q any more: take it out of the list", k)
		}
		if len(strings.Fields(why)) < 4 {
			t.Errorf("%q: %q is no reason", k, why)
		}
	}
	if _, err := equivalents("a | b\n"); err == nil {
		t.Error("a line that is no entry is taken")
	}
}

// A mutant that a test must notice is killed, and one that no test looks at survives.
func TestKilledAndSurvived(t *testing.T) {
	defer func(was time.Duration) { least = was }(least)
	least = 4 * time.Second
	root := t.TempDir()
	for name, text := range map[string]string{
		"go.mod":          "module sample\n\ngo 1.24\n",
		"one/one.go":      "package one\n\nfunc More(a, b int) bool { return a > b }\n\nfunc Unseen() int { return 3 }\n\nfunc Wait(n int) {\n\tfor i := 0; i < n; i++ {\n\t}\n}\n",
		"one/one_test.go": "package one\n\nimport \"testing\"\n\nfunc TestMore(t *testing.T) {\n\tif More(1, 1) || !More(2, 1) {\n\t\tt.Error()\n\t}\n\tWait(1)\n}\n",
	} {
		file := filepath.Join(root, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	tried, err := tryTarget(root, target{name: "one", sources: []string{"one/*.go"}, tests: []string{"./one"}}, 100, 1)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]came{}
	for _, o := range tried {
		got[o.operator+" "+o.text+" "+o.with] = o.came
	}
	for what, want := range map[string]came{
		"compare func More(a, b int) bool { return a > b } >=":      killed,
		"zero func More(a, b int) bool { return a > b } *new(bool)": killed,
		"one-more func Unseen() int { return 3 } 4":                 survived,
		"zero func Unseen() int { return 3 } *new(int)":             survived,
		"compare for i := 0; i < n; i++ { <=":                       survived,
		"drop for i := 0; i < n; i++ { ":                            endless,
	} {
		if got[what] != want {
			t.Errorf("%s: %q, want %q", what, got[what], want)
		}
	}
}
