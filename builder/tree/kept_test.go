package tree_test

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/clienttest"
	"keelpath/builder/quantity"
)

const measured = `questions:
  ask:
    text: How high is it?
    why: It sets the way.
    measure: { unit: mm, accept: [mm, cm, in], from: 0, to: 120, step: 1, like: { low: { text: Low, is: 5 mm } } }
    skip: done
    go: on
  on:
    text: Is it so?
    why: It sets the way.
    answers:
      "yes": { text: "Yes", go: done }
      "no": { text: "No", go: done }
    skip: done
endings:
  done: { title: Done, text: Ready. }
`

// A saved sheet from before amounts had to have a unit opens: the amount without
// one is asked again, and the reader is told. What no longer leads on is told too.
func TestOldSheetIsTold(t *testing.T) {
	script := clienttest.Load(t, "state/opened.ts")
	table := parse(t, measured).Table(nil)
	text, err := json.Marshal(table)
	if err != nil {
		t.Fatal(err)
	}
	var data map[string]any
	if err := json.Unmarshal(text, &data); err != nil {
		t.Fatal(err)
	}
	page := script.Value(map[string]any{"trees": []any{data}, "topics": []any{}, "prompts": map[string]any{}, "edition": map[string]any{}, "units": quantity.Table()})
	for _, c := range []struct {
		name    string
		answers map[string][]string
		kept    map[string][]string // nil where the tree begins anew
		left    []string            // what of it is told to have been left out
	}{
		{"a unit", map[string][]string{"ask": {"35 mm"}, "on": {"yes"}}, map[string][]string{"ask": {"35 mm"}, "on": {"yes"}}, nil},
		{"a like", map[string][]string{"ask": {"low"}}, map[string][]string{"ask": {"low"}}, nil},
		{"skipped", map[string][]string{"ask": {"skip"}}, map[string][]string{"ask": {"skip"}}, nil},
		{"none", map[string][]string{"ask": {"35"}, "on": {"yes"}}, map[string][]string{"on": {"yes"}}, []string{"units"}},
		{"unknown", map[string][]string{"ask": {"35 mm"}, "on": {"perhaps"}}, nil, []string{"answers"}},
	} {
		file, _ := json.Marshal(map[string]any{"form": "keelpath-sheet-1", "kept": map[string]any{"day": "To walk to the shop", "answers": map[string]any{"short": c.answers}}})
		v, err := script.Call("read", script.Value(string(file)), page)
		if err != nil {
			t.Fatal(err)
		}
		var opened struct {
			Kept struct {
				Answers map[string]map[string][]string `json:"answers"`
			} `json:"kept"`
			Left []string `json:"left"`
		}
		script.Into(v, &opened)
		if diff := cmp.Diff(c.kept, opened.Kept.Answers["short"]); diff != "" {
			t.Errorf("%s: kept are others (-want +got)\n%s", c.name, diff)
		}
		if diff := cmp.Diff(append([]string{}, c.left...), opened.Left); diff != "" {
			t.Errorf("%s: told is something else (-want +got)\n%s", c.name, diff)
		}
	}
}
