package read_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// found gives findings as "line:col check", and their sentences.
func found(list *finding.List) (places []string, texts string) {
	for _, f := range list.Sorted() {
		places = append(places, strings.TrimPrefix(f.Place.String(), "a.yaml:")+" "+f.Check)
		texts += f.Text + "\n" + strings.Join(f.Help, "\n") + "\n"
	}
	return places, texts
}

// The library's own line numbers are off for many of these; the true line is shown.
func TestTrueLineOfSyntaxErrors(t *testing.T) {
	const filler = "k%d: value\n"
	lines := func(n, from int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, filler, from+i)
		}
		return b.String()
	}
	for _, c := range []struct {
		name string
		src  string
		line string
	}{
		{"the first line", "title: \"Open\nnext: 1\n", "1"},
		{"a quote open to the end", lines(3, 0) + "bad: \"open\n" + lines(40, 9), "4"},
		{"a quote closed by the next one", lines(3, 0) + "bad: \"open\n" + lines(5, 9) + "x: \"shut\"\n" + lines(5, 90), "4"},
		{"a bracket open to the end", lines(7, 0) + "bad: [a, b\n" + lines(40, 9), "8"},
		{"a bracket closed by a later one", lines(7, 0) + "bad: [a, b\n" + lines(2, 9) + "x: [c]\n", "8"},
		{"a brace", lines(2, 0) + "bad: { a: b\n" + lines(4, 9), "3"},
		{"a tab", lines(2, 0) + "bad:\n\tdeep: 1\n" + lines(4, 9), "4"},
		{"a tab behind a text of several lines", "a: >\n  one\n  two\n\tthree\nb: 1\n", "4"},
		{"a colon in a text", lines(2, 0) + "bad: one: two\n" + lines(4, 9), "3"},
		{"no space behind a colon", lines(2, 0) + "bad:value\n" + lines(4, 9), "3"},
		{"an indent too far left", "a:\n    b: 1\n  c: 2\n", "3"},
		{"behind a long quoted text that is sound", "a: \"one\n  two\n\n  three\"\nbad: one: two\n", "5"},
		{"behind a list over several lines that is sound", "a: [\n  b,\n  c\n]\nbad: \"x\n", "5"},
		{"the last line, without a line end", lines(5, 0) + "bad: [", "6"},
		{"after remarks", "# one\n# two\n\nbad: \"x\n", "4"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var list finding.List
			if m := read.YAML("a.yaml", []byte(c.src), 0, &list); m != nil {
				t.Error("it was read all the same")
			}
			got, _ := found(&list)
			if diff := cmp.Diff([]string{c.line + " not-yaml"}, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// A file too long to try each line still gets its line, and soon.
func TestTrueLineInALongFile(t *testing.T) {
	var b strings.Builder
	for i := range 8000 {
		fmt.Fprintf(&b, "key-%d: { text: \"some words here\", go: there }\n", i)
		if i == 5000 {
			b.WriteString("bad: \"open\n")
		}
	}
	began := time.Now()
	var list finding.List
	read.YAML("a.yaml", []byte(b.String()), 0, &list)
	got, _ := found(&list)
	if diff := cmp.Diff([]string{"5002 not-yaml"}, got); diff != "" {
		t.Error(diff)
	}
	if d := time.Since(began); d > time.Minute {
		t.Errorf("it took %v", d)
	}
}

func TestLinesOfAHeaderCountFromTheTopOfTheFile(t *testing.T) {
	for _, c := range []struct {
		name, src, want string
	}{
		{"a key", "title: a\ntitle: b\n", "3:1 repeated-key"},
		{"a line that cannot be read", "title: a\nbad: \"b\n", "3 not-yaml"},
		{"nothing", "\n", "1 empty-file"},
		{"an alias", "title: *a\n", "2 not-yaml"},
		{"a tag", "title: !!str a\n", "2:8 not-plain"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var list finding.List
			read.YAML("a.yaml", []byte(c.src), 1, &list)
			got, texts := found(&list)
			if diff := cmp.Diff([]string{c.want}, got); diff != "" {
				t.Errorf("%s%s", diff, texts)
			}
		})
	}
}

func TestFilesThatAreNoText(t *testing.T) {
	for _, c := range []struct {
		name, src, want string
	}{
		{"too large", strings.Repeat("# remark\n", read.MaxBytes/9+1), "a.yaml too-large"},
		{"just not too large", "a: 1\n" + strings.Repeat("#", read.MaxBytes-5), ""},
		{"not UTF-8", "a: 1\nb: caf\xe9\n", "2:7 not-text"},
		{"a half letter at the end", "a: \xc3", "1:4 not-text"},
		{"a zero byte", "a: 1\n\x00", "2:1 not-text"},
		{"a bell", "a: \a", "1:4 not-text"},
		{"a rubout", "a: \x7f", "1:4 not-text"},
		{"an old line end", "a: 1\rb: 2\n", "1:5 not-text"},
		{"a line end that no editor shows", "a: one\u2028two\n", "1:7 not-text"},
		{"another", "a: one\u0085two\n", "1:7 not-text"},
		{"tabs and Windows lines are text", "a: b\t\r\n", ""},
		{"so is a mark at the very start", "\ufeffa: b\n", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			var list finding.List
			sound := read.Sound("a.yaml", []byte(c.src), &list)
			got, _ := found(&list)
			if strings.Join(got, "; ") != c.want || sound != (c.want == "") {
				t.Errorf("sound %v: %v, and %q was expected", sound, got, c.want)
			}
		})
	}
}

func TestOddYAML(t *testing.T) {
	for _, c := range []struct {
		name, src, want string
	}{
		{"a list without an end", "a: [" + strings.Repeat("b, ", read.MaxList) + "c]\n", "1:4 too-large"},
		{"a list as long as may be", "a: [" + strings.Repeat("b, ", read.MaxList-1) + "c]\n", ""},
		{"nested without an end", "a: " + strings.Repeat("[", 100000) + "\n", "1 not-yaml"},
		{"nested too deep in lines", deep(40), "34:34 not-plain"},
		{"a mark at the start of the first document", "---\na: 1\n", ""},
		{"a remark before it", "# one\n---\na: 1\n", ""},
		{"the end marked", "a: 1\n...\n", ""},
		{"a version line", "%YAML 1.1\n---\na: 1\n", ""},
		{"three dashes inside a line", "a: b --- c\n", ""},
		{"a second document with words on its line", "a: 1\n--- b\n", "2 second-document"},
		{"a second document that is empty", "a: 1\n---\n", "2 second-document"},
		{"a key of two lines", "? a\n  b\n: c\n", ""},
		{"a quoted merge key is a key", "\"<<\": 1\n", ""},
		{"yes and no are words", "yes: no\n", ""},
		{"an alias without an anchor", "a: *b\n", "1 not-yaml"},
		{"an alias of itself", "a: &x [*x]\n", "1:4 not-plain"},
		{"a bomb of aliases", "a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n", "1:4 not-plain; 2:4 not-plain; 3:5 not-plain; 3:9 not-plain"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var list finding.List
			read.YAML("a.yaml", []byte(c.src), 0, &list)
			got, texts := found(&list)
			if strings.Join(got, "; ") != c.want {
				t.Errorf("%v, and %q was expected\n%s", got, c.want, texts)
			}
		})
	}
}

func deep(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}

func TestMap(t *testing.T) {
	var list finding.List
	m := read.YAML("a.yaml", []byte(`name: "  Keel  "
nothing:
count: 7
on: true
day: 2026-11-25
pick: any
list: [one, "two"]
inner:
  b: { text: last }
  a: { text: first }
chosen: { x: one, y: [two, three], z: }
`), 0, &list)
	if name := m.NeedText("name"); name.S != "Keel" || name.At.String() != "a.yaml:1:7" {
		t.Errorf("the name is %q at %s", name.S, name.At)
	}
	if none := m.Text("nothing"); none.Given() {
		t.Errorf("a value left empty is given: %v", none)
	}
	if n, ok := m.Int("count", 0, 9); n != 7 || !ok || m.NeedInt("count", 0, 9) != 7 {
		t.Errorf("the count is %d, %v", n, ok)
	}
	if !m.Bool("on") || m.Bool("off") {
		t.Error("on is not on, or off is")
	}
	if d := m.Date("day"); d.S != "2026-11-25" {
		t.Errorf("the day is %q", d.S)
	}
	if p := m.OneOf("pick", "one", "any"); p.S != "any" {
		t.Errorf("pick is %q", p.S)
	}
	if p := m.OneOf("other", "one", "any"); p.S != "one" || p.Given() {
		t.Errorf("without a word, the first counts: %q", p.S)
	}
	if diff := cmp.Diff([]string{"one", "two"}, read.Strings(m.Texts("list"))); diff != "" {
		t.Error(diff)
	}
	var order []string
	m.Each("inner", "thing", func(id read.Text, e *read.Map) {
		order = append(order, id.S+" "+e.NeedText("text").S)
		e.Done()
	})
	m.Pairs("chosen", func(k read.Text, vs []read.Text) {
		order = append(order, k.S+" "+strings.Join(read.Strings(vs), "+"))
	})
	if diff := cmp.Diff([]string{"b last", "a first", "x one", "y two+three", "z "}, order); diff != "" {
		t.Error(diff)
	}
	m.Done()
	if places, texts := found(&list); places != nil {
		t.Errorf("%v\n%s", places, texts)
	}
}

func TestLacks(t *testing.T) {
	var list finding.List
	m := read.YAML("a.yaml", []byte("empty: []\nnothing:\nwrong: word\nmisspelld: 1\n"), 0, &list)
	for _, k := range []string{"empty", "nothing", "wrong", "misspelled", "absent"} {
		m.Texts(k)
	}
	for _, c := range []struct {
		key, why string
		want     bool
	}{
		{"absent", "is not there", true},
		{"empty", "has nothing in it", true},
		{"nothing", "has no value", true},
		{"wrong", "has a value of another kind, which is reported", false},
		{"misspelled", "is there under a misspelt name, which is reported", false},
	} {
		t.Run(c.key, func(t *testing.T) {
			if got := m.Lacks(c.key); got != c.want {
				t.Errorf("%v: the key %s", got, c.why)
			}
		})
	}
	var none *read.Map
	if none.Lacks("key") {
		t.Error("of a part that could not be read, nothing is missing")
	}
}

// A part that is missing can be asked anything.
func TestNilMap(t *testing.T) {
	var m *read.Map
	m.Each("a", "thing", func(read.Text, *read.Map) { t.Error("an entry of nothing") })
	m.Pairs("a", func(read.Text, []read.Text) { t.Error("a pair of nothing") })
	m.Done()
	if m.NeedText("a").Given() || m.Date("a").Given() || m.NeedInt("a", 0, 9) != 0 || m.Bool("a") || m.Texts("a") != nil || m.NeedTexts("a") != nil || m.IDs("a") != nil ||
		m.Maps("a", "a") != nil || m.Sub("a", "a") != nil || m.Key("a").Line > 0 || m.At().Line > 0 {
		t.Error("nothing gives something")
	}
	if c := m.Credits(); c.Reviewed.At.Line > 0 {
		t.Error("nothing has credits")
	}
}

func TestIsID(t *testing.T) {
	for s, want := range map[string]bool{
		"heel": true, "heel-height": true, "fit4me-5": true, "a": true, "4": true,
		"": false, "-heel": false, "heel-": false, "heel--height": false, "Heel": false, "heel_height": false, "heel height": false,
		"füße": false, "heel\n": false, strings.Repeat("a", 60): true, strings.Repeat("a", 61): false,
	} {
		if got := read.IsID(s); got != want {
			t.Errorf("%q: %v", s, got)
		}
	}
}
