package finding_test

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/finding"
)

func at(line, col int) finding.Place {
	return finding.Place{File: "trees/a.yaml", Line: line, Col: col}
}

func TestPlace(t *testing.T) {
	for _, c := range []struct {
		name string
		at   finding.Place
		want string
	}{
		{"a place", at(3, 7), "trees/a.yaml:3:7"},
		{"a whole line", at(3, 0), "trees/a.yaml:3"},
		{"a whole file", at(0, 0), "trees/a.yaml"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := c.at.String(); got != c.want {
				t.Errorf("%q, and %q was expected", got, c.want)
			}
		})
	}
}

func TestPrint(t *testing.T) {
	long := strings.Repeat("a ", 100)
	for _, c := range []struct {
		name string
		src  string
		at   finding.Place
		want string // the excerpt; "" for none
	}{
		{"a caret under the column", "first\nkey: valeu\n", at(2, 6), "    | key: valeu\n    |      ^\n"},
		{"a whole line has no caret", "key: value\n", at(1, 0), "    | key: value\n"},
		{"a whole file has no excerpt", "key: value\n", at(0, 0), ""},
		{"a tab is as wide as a space", "\tkey: value\n", at(1, 2), "    |  key: value\n    |  ^\n"},
		{"letters of two bytes count as one", "déjà: vu\n", at(1, 7), "    | déjà: vu\n    |       ^\n"},
		{"a line from Windows", "key: value\r\nnext\r\n", at(1, 1), "    | key: value\n    | ^\n"},
		{"the end of a line", "key:\n", at(1, 5), "    | key:\n    |     ^\n"},
		{"a column beyond the line", "key:\n", at(1, 500), "    | key:\n    |     ^\n"},
		{"a line beyond the file", "key:\n", at(9, 1), ""},
		{"an empty line", "\n\n", at(2, 1), ""},
		{"control characters", "key: \x1b[31mred\n", at(1, 6), "    | key: ?[31mred\n    |      ^\n"},
		{"a text turned around", "key: \u202evalue\n", at(1, 6), "    | key: ?value\n    |      ^\n"},
		{"bytes that are no text", "key: \xff\n", at(1, 6), "    | key: ?\n    |      ^\n"},
		{"the start of a long line", long, at(1, 3), "    | " + long[:110] + "\n    |   ^\n"},
		{"the end of a long line", long, at(1, 199), "    | " + long[90:] + "\n    | " + strings.Repeat(" ", 108) + "^\n"},
		{"no file", "", at(1, 1), ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			var b strings.Builder
			f := finding.Finding{Place: c.at, Check: "slip", Weight: finding.Error, Text: `"valeu" is none`, Help: []string{`nearest: "value"`}}
			source := func(string) []byte { return []byte(c.src) }
			if err := finding.Print(&b, []finding.Finding{f}, source); err != nil {
				t.Fatal(err)
			}
			want := c.at.String() + `: "valeu" is none [slip]` + "\n" + c.want + "    nearest: \"value\"\n"
			if diff := cmp.Diff(want, b.String()); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestPrintWithoutSource(t *testing.T) {
	var b strings.Builder
	fs := []finding.Finding{{Place: finding.Place{File: "a\x1b[2J.yaml"}, Check: "slip", Weight: finding.Warning, Text: "so\nso"}}
	if err := finding.Print(&b, fs, nil); err != nil {
		t.Fatal(err)
	}
	if got, want := b.String(), "a?[2J.yaml: warning: so?so [slip]\n"; got != want {
		t.Errorf("%q, and %q was expected", got, want)
	}
}

type full struct{}

var errFull = errors.New("full")

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestPrintPassesErrorsOn(t *testing.T) {
	if err := finding.Print(full{}, []finding.Finding{{}}, nil); !errors.Is(err, errFull) {
		t.Errorf("the error is %v", err)
	}
}

func TestNearest(t *testing.T) {
	for _, c := range []struct {
		name, wrong, names, want string
	}{
		{"a letter too many", "keell", "heel keel shell", "keel"},
		{"a letter too few", "kel", "heel keel shell", "keel"},
		{"another letter", "kael", "heel keel shell", "keel"},
		{"two letters swapped", "heel-hieght", "heel-height hills-and-ramps", "heel-height"},
		{"a hyphen left out", "footshell", "foot-shell foot-shells", "foot-shell"},
		{"capitals do not count", "KEEL", "heel keel", "keel"},
		{"the closer of two", "done1", "undone done done-2", "done"},
		{"the first of equals", "bat", "cat rat", "cat"},
		{"nothing near", "wheelchair", "keel heel", ""},
		{"one letter tells nothing", "x", "a b", ""},
		{"the empty word", "", "a b", ""},
		{"no names", "keel", "", ""},
		{"letters of two bytes", "füße", "füsse fuß", "füsse"},
		{"a name without an end", strings.Repeat("k", 1<<20), "keel", ""},
		{"among names without an end", "keel", strings.Repeat("k", 1<<20) + " keels", "keels"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := finding.Nearest(c.wrong, strings.Fields(c.names)); got != c.want {
				t.Errorf("%q, and %q was expected", got, c.want)
			}
		})
	}
}

func TestNearestHelp(t *testing.T) {
	place := func(string) finding.Place { return at(4, 2) }
	unknown := func(string) finding.Place { return finding.Place{} }
	for _, c := range []struct {
		name  string
		wrong string
		at    func(string) finding.Place
		want  []string
	}{
		{"with its place", "kel", place, []string{`nearest: "keel", trees/a.yaml:4:2`}},
		{"without a place", "kel", unknown, []string{`nearest: "keel"`}},
		{"no places asked for", "kel", nil, []string{`nearest: "keel"`}},
		{"none near", "shoe-lace", place, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			if diff := cmp.Diff(c.want, finding.NearestHelp(c.wrong, []string{"keel"}, c.at)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestNearestOrAll(t *testing.T) {
	for wrong, want := range map[string][]string{"kel": {`nearest: "keel"`}, "shoe-lace": {"drawings: keel, ankle"}} {
		if diff := cmp.Diff(want, finding.NearestOrAll(wrong, []string{"keel", "ankle"}, "drawings")); diff != "" {
			t.Errorf("%q: %s", wrong, diff)
		}
	}
}

func TestListSorts(t *testing.T) {
	var l finding.List
	l.Add(at(9, 1), "b", "later")
	l.Add(at(2, 9), "a", "same line, further right")
	l.Add(at(2, 1), "a", "first")
	l.Add(at(2, 1), "a", "first", "said twice")
	l.Warn(finding.Place{File: "content/z.yaml"}, "w", "another file")
	n := l.Len()
	l.Append(finding.Finding{Place: at(0, 0), Check: "a", Weight: finding.Error, Text: "whole file"})
	var got []string
	for _, f := range l.Sorted() {
		got = append(got, f.Text)
	}
	want := []string{"another file", "whole file", "first", "same line, further right", "later"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if got := l.Errors(); got != 4 {
		t.Errorf("%d errors, and 4 were expected: warnings and repeats do not count", got)
	}
	if since := l.Since(n); len(since) != 1 || since[0].Text != "whole file" {
		t.Errorf("since then: %v", since)
	}
}

// Of very many findings some are shown, errors first, in order, and the others counted.
func TestShown(t *testing.T) {
	for _, c := range []struct {
		name                     string
		warnings, errors         int
		shownWarnings, shownMore int
	}{
		{"none", 0, 0, 0, 0},
		{"as many as are shown", 100, 100, 100, 0},
		{"one more", 101, 100, 100, 1},
		{"warnings alone", 300, 0, 200, 100},
		{"errors alone", 0, 50_000, 0, 49_800},
		{"errors push the warnings out", 300, 250, 0, 350},
		{"warnings fill up", 300, 150, 50, 250},
	} {
		t.Run(c.name, func(t *testing.T) {
			var l finding.List
			for i := range c.warnings { // they stand before the errors in the file
				l.Warn(at(i+1, 1), "w", "so")
			}
			for i := range c.errors {
				l.Add(at(1000+i, 1), "e", "so")
			}
			shown, more := l.Shown()
			warnings := 0
			for _, f := range shown {
				if f.Weight == finding.Warning {
					warnings++
				}
			}
			if warnings != c.shownWarnings || more != c.shownMore || len(shown)+more != c.warnings+c.errors {
				t.Errorf("%d are shown, %d of them warnings, and %d more", len(shown), warnings, more)
			}
			if !slices.IsSortedFunc(shown, func(a, b finding.Finding) int { return a.Line - b.Line }) {
				t.Error("they are not in order")
			}
		})
	}
}

// A file is split into lines once, however many findings it has.
func TestPrintSplitsOnce(t *testing.T) {
	asked := 0
	source := func(string) []byte { asked++; return []byte(strings.Repeat("key: value\n", 1000)) }
	var all []finding.Finding
	for i := range 1000 {
		all = append(all, finding.Finding{Place: at(i+1, 1), Check: "slip", Weight: finding.Error, Text: "so"})
	}
	var b strings.Builder
	if err := finding.Print(&b, all, source); err != nil {
		t.Fatal(err)
	}
	if asked != 1 || strings.Count(b.String(), "| key: value\n") != 1000 {
		t.Errorf("the file was asked for %d times", asked)
	}
}

func TestJSON(t *testing.T) {
	got, err := json.Marshal(finding.Finding{Place: at(3, 7), Check: "dead-link", Weight: finding.Error, Text: "so"})
	if err != nil {
		t.Fatal(err)
	}
	want := `{"file":"trees/a.yaml","line":3,"column":7,"check":"dead-link","weight":"error","text":"so"}`
	if string(got) != want {
		t.Errorf("%s, and %s was expected", got, want)
	}
}
