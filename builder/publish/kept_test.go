package publish

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"keelpath/builder/clienttest"
	"keelpath/builder/tree"
)

// opening is what the client makes of a saved text.
type opening struct {
	Refused string
	Kept    map[string]any
	Older   bool
	Left    []string
}

// opener gives a function that opens saved texts as the planner's page does.
func opener(t *testing.T) func(text string) opening {
	t.Helper()
	script := clienttest.Load(t, "state/opened.ts")
	data := script.Value(plannerJSON(t, builtin(t)))
	return func(text string) opening {
		t.Helper()
		v, err := script.Call("read", script.Value(text), data)
		if err != nil {
			t.Fatal(err)
		}
		var out opening
		script.Into(v, &out)
		return out
	}
}

// savedSheet is the text of a saved sheet.
func savedSheet(version int, kept string) string {
	return fmt.Sprintf(`{"form":"keelpath-sheet-%d","kept":%s}`, version, kept)
}

// A text that holds no sheet is refused, each kind for its own reason.
func TestNoSheetIsRefused(t *testing.T) {
	open := opener(t)
	for name, c := range map[string]struct{ text, want string }{
		"no JSON":            {"no sheet at all", "other"},
		"another JSON":       {`{"resourceType":"Bundle"}`, "other"},
		"a list":             {`[]`, "other"},
		"a form of no kind":  {`{"form":"keelpath-sheet-x","kept":{"day":"Walk."}}`, "other"},
		"nothing in it":      {`{"form":"keelpath-sheet-2"}`, "empty"},
		"nothing, before":    {`{"form":"keelpath-sheet-1"}`, "empty"},
		"only how it prints": {savedSheet(2, `{"large":true,"told":true,"moreOpen":true}`), "empty"},
		"of the wrong kinds": {savedSheet(2, `{"own":"no","taken":{"a":1},"day":["x"],"answers":[1,2],"visit":7}`), "empty"},
		"nothing known":      {savedSheet(2, `{"taken":["gone"],"picks":{"gone-1":true},"answers":{"gone":{"a":["b"]}}}`), "unknown"},
		"of a later version": {savedSheet(3, `{"day":"Walk."}`), "newer"},
		"too large":          {savedSheet(2, `{"day":"Walk.","x":"`+strings.Repeat("x", 500_000)+`"}`), "large"},
	} {
		if got := open(c.text); got.Refused != c.want {
			t.Errorf("%s: %+v, want it refused as %q", name, got, c.want)
		}
	}
}

// A sheet of the version before opens with what still fits, and tells that it is older
// and what was left out.
func TestOlderSheet(t *testing.T) {
	open := opener(t)
	got := open(savedSheet(1, `{"taken":["hills-and-ramps"],"answers":{"hills-and-ramps":{"a-question-that-is-gone":["no"]}},"own":[{"id":"own 1","ask":"May I climb?"}],"stars":["own 1"],"day":"Walk."}`))
	if got.Refused != "" || !got.Older || !slices.Equal(got.Left, []string{"answers"}) {
		t.Errorf("an older sheet opens as %+v", got)
	}
	if got.Kept["day"] != "Walk." || !strings.Contains(fmt.Sprint(got.Kept["own"]), "May I climb?") || fmt.Sprint(got.Kept["stars"]) != "[own 1]" {
		t.Errorf("the reader's own words: %+v", got.Kept)
	}
	if got := open(savedSheet(2, `{"day":"Walk."}`)); got.Older || len(got.Left) > 0 {
		t.Errorf("a sheet of today opens as %+v", got)
	}
}

// A figure's question keeps the amounts that it was made with, where this page's trees
// ask for them; a sheet from before such amounts were kept opens as it did.
func TestQuestionKeepsItsAmounts(t *testing.T) {
	open := opener(t)
	for kept, want := range map[string]string{
		`{"id":"own 1","ask":"Why?"}`: `{"ask":"Why?","id":"own 1"}`,
		`{"id":"own 1","ask":"Why?","of":{"hills-and-ramps/steepness":0.14,"hills-and-ramps/gone":1,"gone/steepness":1,"heel-height/usual":"12","hills-and-ramps/where":2}}`: `{"ask":"Why?","id":"own 1","of":{"hills-and-ramps/steepness":0.14}}`,
		`{"id":"own 1","ask":"Why?","of":{"gone/steepness":1}}`: `{"ask":"Why?","id":"own 1"}`,
		`{"id":"own 1","ask":"Why?","of":[1]}`:                  `{"ask":"Why?","id":"own 1"}`,
	} {
		got := open(savedSheet(2, `{"own":[`+kept+`]}`))
		text, err := json.Marshal(got.Kept["own"])
		if err != nil || string(text) != "["+want+"]" || got.Older || len(got.Left) > 0 {
			t.Errorf("%s opens as %s, left %v", kept, text, got.Left)
		}
	}
}

// Whatever a saved sheet holds too much of is left out whole, never cut, and told.
func TestLeftOutIsTold(t *testing.T) {
	open := opener(t)
	long := strings.Repeat("word ", 500)
	for name, c := range map[string]struct {
		kept string
		want []string
	}{
		"a day too long":          {`{"taken":["hills-and-ramps"],"day":"` + long + `"}`, []string{"words"}},
		"a question too long":     {`{"own":[{"id":"own 1","ask":"` + long + `"},{"id":"own 2","ask":"Short?"}]}`, []string{"words"}},
		"a topic that is gone":    {`{"day":"Walk.","taken":["gone"]}`, []string{"answers"}},
		"a prompt that is gone":   {`{"day":"Walk.","picks":{"gone-1":true}}`, []string{"questions"}},
		"an answer too long":      {`{"day":"Walk.","answers":{"hills-and-ramps":{"steepness":["` + long + `"]}}}`, []string{"answers"}},
		"more answers than exist": {`{"day":"Walk.","answers":{"hills-and-ramps":{"where":["home"` + strings.Repeat(`,"home"`, 50) + `]}}}`, []string{"answers"}},
	} {
		if got := open(savedSheet(2, c.kept)); got.Refused != "" || !slices.Equal(got.Left, c.want) || strings.Contains(fmt.Sprint(got.Kept), "word word") {
			t.Errorf("%s: %+v", name, got)
		}
	}
	own := `{"own":[` + strings.TrimSuffix(strings.Repeat(`{"id":"x","ask":"Why?"},`, 10_000), ",") + `]}`
	got := open(savedSheet(2, own))
	if n := len(got.Kept["own"].([]any)); n != 100 || !slices.Equal(got.Left, []string{"words"}) {
		t.Errorf("of 10,000 questions of one's own %d are kept, told: %v", n, got.Left)
	}
}

// As many unknown things as a text may hold are read at once; none of them stays.
func TestManyUnknownIDs(t *testing.T) {
	open := opener(t)
	list := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, `"u%05d",`, i)
		}
		return b.String()
	}(45_000)
	for _, field := range []string{"order", "stars", "taken", "waiting"} {
		from := time.Now()
		got := open(savedSheet(2, `{"day":"Walk.","`+field+`":[`+list+`"u"]}`))
		if took := time.Since(from); took > 5*time.Second { // in a script engine some fifty times slower than a browser's
			t.Errorf("%s: 45,000 unknown ids take %v", field, took)
		}
		if got.Refused != "" || len(fmt.Sprint(got.Kept)) > 1000 {
			t.Errorf("%s: %s, %d characters are kept", field, got.Refused, len(fmt.Sprint(got.Kept)))
		}
	}
	two := open(savedSheet(2, `{"order":[`+list+list+list+list+`"u"],"day":"Walk."}`))
	if two.Refused != "large" {
		t.Errorf("180,000 ids are %+v", two.Refused)
	}
}

// Sheets of every worked example open again as they were written.
func TestSavedExamplesOpen(t *testing.T) {
	open := opener(t)
	n := 0
	for _, tr := range load(t).Trees {
		if tr.Audience.S != audiencePatient {
			continue
		}
		for _, e := range tr.Examples {
			kept := map[string]any{"taken": []string{tr.ID.S}, "answers": map[string]tree.Answers{tr.ID.S: e.Given()}}
			text, err := json.Marshal(kept)
			if err != nil {
				t.Fatal(err)
			}
			got := open(savedSheet(2, string(text)))
			have, _ := json.Marshal(got.Kept["answers"])
			want, _ := json.Marshal(kept["answers"])
			if got.Refused != "" || len(got.Left) > 0 || string(have) != string(want) {
				t.Errorf("%s %s: %+v", tr.ID.S, e.Who.S, got)
			}
			n++
		}
	}
	if n < 40 {
		t.Errorf("only %d examples", n)
	}
}
