package browsertest

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	cdpbrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"

	"keelpath/builder/tree"
)

// A slope, a normal day and a load in one sitting: asked once, and the same amount and
// words in the question, the trail, the ending, the sheet, on paper, in the text, in the
// code, in the saved file and in the form for a clinic's records.
func TestAmountsAreToldOnce(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	const typed, shown = "1 in 7", "1:7 (about 14.3 %, 8.1 degrees)"
	ask := "My steepest slope is " + shown + ". Can my foot bend enough for it, up and down?"

	hills := lib.Tree("hills-and-ramps")
	given := tree.Answers{"change": {"no"}, "where": {"home"}, "steepness": {typed}, "hardest": {"down"}, "going-down": {"fast"}, "safety": {"no"}}
	s := b.take(hills, given)
	if !slices.ContainsFunc(s.Trail, func(a asked) bool { return slices.Contains(a.Answers, shown) }) {
		t.Errorf("the trail tells it as %+v", s.Trail)
	}
	if !slices.Contains(s.Ending.Prompts, ask) || slices.ContainsFunc(s.Ending.Prompts, func(p string) bool { return strings.Contains(p, "measure") }) {
		t.Errorf("the ending brings %q", s.Ending.Prompts)
	}

	// Another topic that asks for it passes it over, and says that it was told.
	b.tap("topics")
	s = b.choose("motion-or-push")
	for n := 0; s.View == "question" && n < 8; n++ {
		if strings.HasPrefix(s.Question, "How steep") {
			t.Fatalf("the slope is asked again")
		}
		push := lib.Tree("motion-or-push")
		i := slices.IndexFunc(push.Questions, func(q *tree.Question) bool { return oneLine(q.Text.S) == s.Question })
		s = b.choose(map[string]string{"ground": "slopes", "standing": "no", "safety": "no"}[push.Questions[i].ID.S])
	}
	if s.View != "ending" {
		t.Fatalf("motion or push stops at %q", s.Question)
	}
	i := slices.IndexFunc(s.Trail, func(a asked) bool { return strings.HasPrefix(a.Question, "How steep") })
	if i < 0 || !slices.Equal(s.Trail[i].Answers, []string{shown, "You told us this before."}) {
		t.Errorf("the trail of the second topic: %+v", s.Trail)
	}

	s = b.tap("bar-sheet")
	b.hand(`write(document.getElementById("planner-day"), %s)`, "I walk to the shop, and back up the hill.")
	b.tap("bar-topics")
	b.tap("bar-sheet")
	holdsAmount(b, ask, shown)

	// Changed in the second topic, it is changed everywhere.
	b.tap("bar-topics")
	b.hand(`answer(["motion-or-push"]); pass()`)
	s = b.look()
	for n := 0; !strings.HasPrefix(s.Question, "How steep") && n < 8; n++ {
		s = b.hand(`const n = Array.from(planner.querySelectorAll('[data-slot="steps"] > li')).findIndex((li) => li.textContent.includes("How steep")); if (n >= 0) change(n); else again()`)
	}
	if s.Written != typed {
		t.Errorf("the box of the second topic holds %q", s.Written)
	}
	b.choose("5 %")
	s = b.tap("bar-sheet")
	b.hand(`tapOn(planner.querySelector('[data-slot="share"] summary'), "without paper")`)
	b.waitFor(`document.getElementById("planner-text").value !== ""`)
	text := eval[string](b, `document.getElementById("planner-text").value`)
	if strings.Contains(text+strings.Join(asks(s.Sheet), "\n"), "1:7") || strings.Count(text, "5 % (about 2.9 degrees, 1:20)") != 3 { // about the reader, and in the answers of both topics
		t.Errorf("after the change the sheet asks %q, and the text says\n%s", asks(s.Sheet), text)
	}
}

// holdsAmount looks for a question with an amount on the sheet, the paper, the text, in
// the code's sheet and the file's, and for the amount in the form.
func holdsAmount(b *tab, ask, shown string) {
	b.t.Helper()
	s := b.look()
	if !slices.Contains(asks(s.Sheet), ask) {
		b.t.Errorf("the sheet asks %q", asks(s.Sheet))
	}
	if all := strings.Join(asks(s.Sheet), "\n"); strings.Contains(all, "___") || strings.Contains(all, "{") {
		b.t.Errorf("a blank is left on the sheet:\n%s", all)
	}
	if p := b.print("Letter", "told-once"); !strings.Contains(p.Text, ask) {
		b.t.Errorf("the paper lacks %q:\n%s", ask, p.Text)
	}
	b.hand(`tapOn(planner.querySelector('[data-slot="share"] summary'), "without paper")`)
	b.waitFor(`document.getElementById("planner-text").value !== "" && !document.querySelector('[data-slot="records-part"]').hidden`)
	if text := eval[string](b, `document.getElementById("planner-text").value`); !strings.Contains(text, ask) || strings.Count(text, shown) < 3 {
		b.t.Errorf("the text has the amount %d times:\n%s", strings.Count(text, shown), text)
	}
	dir := b.t.TempDir()
	command(b, cdpbrowser.SetDownloadBehavior, cdpbrowser.SetDownloadBehaviorParams{Behavior: cdpbrowser.SetDownloadBehaviorBehaviorAllow, DownloadPath: dir, BrowserContextID: chromedp.FromContext(b.ctx).BrowserContextID})
	b.hand(`tapOn(planner.querySelector('[data-slot="share"] [data-act="save"]'), "save"); for (const one of planner.querySelectorAll('[data-slot="records"] button')) tapOn(one, "records")`)
	want := slopeOf(b, filepath.Join(dir, "hills-and-ramps.questionnaire-response.json"))
	if got := slopeOf(b, filepath.Join(dir, "motion-or-push.questionnaire-response.json")); want == 0 || got != want {
		b.t.Errorf("the forms say %v and %v", want, got)
	}
	file := saved(b, filepath.Join(dir, "my-sheet.json"))
	c := newTab(b.t)
	c.openPlanner(onDisk)
	c.hand(openFile, string(file))
	c.waitFor(`!!document.querySelector("#planner .sheet")`)
	if got := asks(c.look().Sheet); !slices.Contains(got, ask) {
		b.t.Errorf("the file's sheet asks %q", got)
	}
	c = newTab(b.t)
	c.openPlanner(onDisk)
	c.hand(`const fold = planner.querySelector(".open-file"); fold.open = true; document.getElementById("planner-typed").value = %s; tapOn(planner.querySelector('[data-act="open-code"]'), "open")`, b.code())
	c.waitFor(`!!document.querySelector("#planner .sheet")`)
	if got := asks(c.look().Sheet); !slices.Contains(got, ask) {
		b.t.Errorf("the code's sheet asks %q", got)
	}
}

// saved waits for a file and gives its text.
func saved(b *tab, file string) []byte {
	b.t.Helper()
	for range 100 {
		if data, err := os.ReadFile(file); err == nil && json.Valid(data) {
			return data
		}
		time.Sleep(50 * time.Millisecond)
	}
	b.t.Fatalf("%s was not saved", file)
	return nil
}

// slopeOf gives the slope that a filled form holds, 0 where it holds none.
func slopeOf(b *tab, file string) float64 {
	b.t.Helper()
	var form struct {
		Item []item `json:"item"`
	}
	b.must(json.Unmarshal(saved(b, file), &form))
	return slopeIn(form.Item)
}

type item struct {
	LinkID string `json:"linkId"`
	Answer []struct {
		Quantity struct {
			Value float64 `json:"value"`
		} `json:"valueQuantity"`
	} `json:"answer"`
	Item []item `json:"item"`
}

func slopeIn(items []item) float64 {
	for _, i := range items {
		if strings.Contains(i.LinkID, "steepness") && len(i.Answer) > 0 {
			return i.Answer[0].Quantity.Value
		}
		if v := slopeIn(i.Item); v != 0 {
			return v
		}
	}
	return 0
}
