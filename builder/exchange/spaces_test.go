package exchange

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/clienttest"
	"keelpath/builder/finding"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/quantity"
)

// odd are spaces that the R4 schema's pattern for texts, "[ \r\n\t\S]+", does not
// take (ECMA-262's white space), and signs beside them that it does: next line,
// zero-width space and a backslash before what looks like an escape.
const odd = "a\u00a0b\u2028c\u2029d\ufeffe\u3000f\u202fg\u2003h\u1680i\u205fj\vk\fl\\u2028m\u0085n\u200bo"

const plainOdd = "a b c d e f g h i j k l\\u2028m\u0085n\u200bo"

// A text with such spaces, wherever it stands, gives a form and a filled form that
// the official R4 schema takes, and that say the same.
func TestOddSpaces(t *testing.T) {
	l := librarytest.Load(t)
	tr := l.Trees[0]
	tr.Title.S, tr.Purpose.S = odd, odd
	for _, q := range tr.Questions {
		q.Text.S, q.Why.S, q.Hint.S = odd, odd, odd
		for _, a := range q.Answers {
			a.Text.S = odd
		}
	}
	for _, e := range tr.Endings {
		e.Title.S, e.Text.S = odd, odd
	}
	var found finding.List
	all := Write(l, l.Trees[:1], &found)
	if len(all) != 1 {
		t.Fatal(found.Sorted())
	}
	w := all[0]
	script := clienttest.Load(t, "carry/response.ts")
	worded := map[string]any{}
	table, err := json.Marshal(tr.Table(nil))
	if err == nil {
		err = json.Unmarshal(table, &worded)
	}
	if err != nil {
		t.Fatal(err)
	}
	question := worded["questions"].(map[string]any)[tr.Start.S].(map[string]any)
	question["text"] = odd
	chosen := ""
	for _, a := range question["answers"].([]any) {
		a := a.(map[string]any)
		a["text"], chosen = odd, a["id"].(string)
	}
	v, err := script.Call("response", script.Value(worded), script.Value(w.Form), script.Value(map[string][]string{tr.Start.S: {chosen}}), script.Value(quantity.Table()))
	if err != nil {
		t.Fatal(err)
	}
	c := newChecker(t)
	for what, text := range map[string]string{"form": string(w.JSON), "filled form": v.String()} {
		for _, fault := range c.faults([]byte(text)) {
			t.Errorf("%s: %s", what, fault)
		}
		var all any
		if err := json.Unmarshal([]byte(text), &all); err != nil {
			t.Fatal(err)
		}
		said := texted(all)
		if !slices.Contains(said, plainOdd) {
			t.Errorf("the %s does not say %q: %q", what, plainOdd, said)
		}
		for _, s := range said {
			if spaces.MatchString(s) {
				t.Errorf("the %s says %q", what, s)
			}
		}
	}
}

var spaces = regexp.MustCompile(`[\v\f\x{a0}\x{1680}\x{2000}-\x{200a}\x{2028}\x{2029}\x{202f}\x{205f}\x{3000}\x{feff}]`)

// texted gives every text of a JSON value.
func texted(v any) []string {
	var out []string
	switch v := v.(type) {
	case string:
		out = append(out, v)
	case []any:
		for _, x := range v {
			out = append(out, texted(x)...)
		}
	case map[string]any:
		for _, x := range v {
			out = append(out, texted(x)...)
		}
	}
	return out
}

// Each space of Unicode but the plain one becomes plain, and no other sign changes.
func TestPlainSpaces(t *testing.T) {
	for r := rune(0x20); r < 0x10000; r++ {
		if r >= 0xd800 && r < 0xe000 {
			continue
		}
		data, err := encode("a" + string(r) + "b")
		if err != nil {
			t.Fatal(err)
		}
		var got string
		if err := json.Unmarshal(data, &got); err != nil {
			t.Fatalf("%U: %v", r, err)
		}
		want := "a" + string(r) + "b"
		if spaces.MatchString(want) {
			want = "a b"
		}
		if got != want {
			t.Errorf("%U: %q, want %q", r, got, want)
		}
	}
	if strings.Count(odd, " ") != 0 {
		t.Error("the odd text has plain spaces")
	}
}
