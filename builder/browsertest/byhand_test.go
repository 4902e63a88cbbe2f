package browsertest

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"keelpath/builder/tree"
)

// With script off the planner's page leads to each tree's own page, and shows nothing
// that does not work.
func TestPlannerWithoutScript(t *testing.T) {
	everywhere(t, func(t *testing.T, address func(string) string) {
		t.Parallel()
		b := newTab(t)
		b.scriptOff()
		b.open(address(plannerName))
		if eval[bool](b, `Array.from(document.querySelectorAll("#planner, main button, main input")).some((e) => e.getClientRects().length)`) {
			t.Error("the planner shows controls that do nothing")
		}
		for _, tr := range lib.Trees {
			if tr.Audience.S != "patient" {
				continue
			}
			to := address("prepare/" + tr.ID.S + ".html")
			texts := eval[[]string](b, fmt.Sprintf(`Array.from(document.querySelectorAll("main a")).filter((a) => a.href === %q && a.getClientRects().length).map((a) => a.innerText)`, to))
			if len(texts) == 0 || !strings.HasPrefix(texts[0], tr.Title.S) {
				t.Errorf("%s: the links to its page are %q", tr.ID.S, texts)
			}
		}
	})
}

// A printed tree as a reader has it: numbers, texts and what is written beside them.
type printed struct {
	Start     string // "Start at 1."
	Questions []printedQuestion
	Endings   []printedEnding
	Notes     []string // titles of the notes to keep
}

type printedQuestion struct {
	Heading string
	Answers []struct{ Text, Way string }
	Then    []string // what is written below the answers
	Lines   []string // of which the first counts that fits
}

type printedEnding struct{ Heading, Text string }

// readTree reads the tree's page as it is shown. What is not shown is not read.
const readTree = `(() => {
const clean = (s) => s.replace(/\s+/g, " ").trim();
const shown = (e) => !!e && e.getClientRects().length > 0;
const text = (e) => shown(e) ? clean(e.innerText) : "";
const all = (s, r = document) => Array.from(r.querySelectorAll(s)).filter(shown);
return {
  Start: clean(document.querySelector("main").innerText).match(/Start at \d+\./)?.[0] || "",
  Questions: all(".question").map((q) => ({
    Heading: text(q.querySelector("legend")),
    Answers: all(".answers > li", q).map((li) => ({ Text: text(li.querySelector("label")), Way: text(li.querySelector(".way")) })),
    Then: all(".way, .routes > p", q).filter((w) => !w.closest(".answers")).map(text),
    Lines: all(".routes li", q).map(text),
  })),
  Endings: all(".ending").map((e) => ({ Heading: text(e.querySelector("h3")), Text: text(e) })),
  Notes: all(".card > h4").map(text),
};
})()`

var goTo = regexp.MustCompile(`\bgo to (\d+)\b`)
var number = regexp.MustCompile(`^(\d+)\. (.*)$`)
var noteNamed = regexp.MustCompile(`Keep the note “([^”]*)”`)

// Each tree can be followed on its own page with script off: from "Start at 1", by
// the numbers that are written there, to the ending and the notes that Go comes to.
func TestTreesByHand(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.scriptOff()
	for _, tr := range lib.Trees {
		room := "prepare"
		if tr.Audience.S != "patient" {
			room = "teach" // such a tree has no page but this
		}
		b.open(onDisk(room + "/" + tr.ID.S + ".html"))
		page := eval[printed](b, readTree)
		for _, answers := range somePaths(t, tr) {
			path := walk(t, tr, answers)
			gotEnding, gotNotes, trouble := page.follow(tr, path)
			if want := oneLine(tr.Ending(path.Ending).Title.S); trouble != "" || gotEnding != want {
				t.Fatalf("%s %v: by hand one comes to %q, want %q: %s", tr.ID.S, answers, gotEnding, want, trouble)
			}
			var want []string
			for _, id := range path.Cards {
				want = append(want, oneLine(lib.Card(id).Title.S))
			}
			if !slices.Equal(gotNotes, want) {
				t.Fatalf("%s %v: by hand one keeps the notes %q, want %q", tr.ID.S, answers, gotNotes, want)
			}
			for _, note := range gotNotes {
				if !slices.Contains(page.Notes, note) {
					t.Fatalf("%s: the note %q is named and not there", tr.ID.S, note)
				}
			}
		}
		// The paper holds the same, with nothing of the screen's.
		p := b.print("A4", "tree-"+tr.ID.S)
		for _, q := range page.Questions {
			if !strings.Contains(p.Text, q.Heading) {
				t.Errorf("%s: %q is not printed", tr.ID.S, q.Heading)
			}
		}
		if n := len(goTo.FindAllString(p.Text, -1)); n < len(page.Questions) {
			t.Errorf("%s: only %d ways on are printed", tr.ID.S, n)
		}
		for _, e := range page.Endings {
			if !strings.Contains(p.Text, e.Heading) {
				t.Errorf("%s: the ending %q is not printed", tr.ID.S, e.Heading)
			}
		}
		for _, part := range []string{"Skip to the text", "Get ready", "Workbench"} {
			if strings.Contains(p.Text, part) {
				t.Errorf("%s: %q is printed with it", tr.ID.S, part)
			}
		}
	}
}

// follow does what the page says. It knows of the tree only what the reader answers.
func (p printed) follow(tr *tree.Tree, path tree.Path) (ending string, notes []string, trouble string) {
	at := regexp.MustCompile(`\d+`).FindString(p.Start)
	keep := func(line string) {
		for _, m := range noteNamed.FindAllStringSubmatch(line, -1) {
			if !slices.Contains(notes, m[1]) {
				notes = append(notes, m[1])
			}
		}
	}
	r := reader{said: map[string]said{}}
	for range len(p.Questions) + 1 {
		for _, e := range p.Endings {
			if m := number.FindStringSubmatch(e.Heading); m != nil && m[1] == at {
				return m[2], notes, ""
			}
		}
		i := slices.IndexFunc(p.Questions, func(q printedQuestion) bool {
			m := number.FindStringSubmatch(q.Heading)
			return m != nil && m[1] == at
		})
		if i < 0 {
			return "", notes, "there is no number " + strconv.Quote(at)
		}
		q := p.Questions[i]
		now, ok := answered(tr, path, number.FindStringSubmatch(q.Heading)[2])
		if !ok {
			return "", notes, "the page asks " + q.Heading + ", which is not on the path"
		}
		r.here, at = now, ""
		for _, a := range q.Answers {
			if !slices.Contains(now.texts, a.Text) {
				continue
			}
			keep(a.Way)
			if m := goTo.FindStringSubmatch(a.Way); m != nil && at == "" {
				at = m[1]
			}
			if _, amount, ok := strings.Cut(a.Way, "Count it as "); ok {
				r.here.amount = amountIn(now.measure, amount)
			}
		}
		r.said[number.FindStringSubmatch(q.Heading)[1]] = r.here
		for _, line := range q.Lines {
			if at != "" || now.skipped {
				break
			}
			fits, err := r.fits(line)
			if err != nil {
				return "", notes, err.Error()
			}
			if fits {
				keep(line)
				at = goTo.FindStringSubmatch(line)[1]
			}
		}
		for _, line := range q.Then {
			m := goTo.FindStringSubmatch(line)
			if skips := strings.HasPrefix(line, "To skip this question"); m != nil && at == "" && skips == now.skipped {
				keep(line)
				at = m[1]
			}
		}
		if at == "" {
			return "", notes, "at " + q.Heading + " nothing says where to go"
		}
	}
	return "", notes, "it goes round in a circle"
}

// said is what a reader said to a question.
type said struct {
	texts   []string // of the answers
	skipped bool
	measure *tree.Measure
	amount  float64 // in the measure's own unit; not a number where none was given
}

// answered is what the reader answers to a question, by its text.
func answered(tr *tree.Tree, path tree.Path, asked string) (said, bool) {
	for _, step := range path.Steps {
		q := tr.Question(step.Question)
		if oneLine(q.Text.S) != asked {
			continue
		}
		out := said{measure: q.Measure, amount: math.NaN()}
		if slices.Equal(step.Chosen, []string{tree.Skip}) {
			out.skipped = true
			return out, true
		}
		if q.Measure != nil {
			if v, err := q.Measure.Read(step.Chosen[0]); err == nil {
				out.amount = v.Num
			}
			if l := q.Measure.Like(step.Chosen[0]); l != nil {
				out.texts = []string{oneLine(l.Text.S)}
			}
			return out, true
		}
		for _, id := range step.Chosen {
			out.texts = append(out.texts, oneLine(q.Answer(id).Text.S))
		}
		return out, true
	}
	return said{}, false
}
