package browsertest

import (
	"strings"
	"testing"

	"keelpath/builder/safety"
)

// The home page's way for something wrong right now asks every group, without the gate.
func TestHomeAsksEveryGroup(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.open(onDisk("index.html"))
	b.open(eval[string](b, `document.querySelector('main a.row[href*="#take="]').href`))
	b.waitFor(`document.querySelector("#planner [data-leg]") !== null`)
	s := b.hand(`tapOn(planner.querySelector('[data-leg="worn"]'), "leg")`)
	for _, g := range lib.Safety.Groups {
		if s.View != "signs" || s.Title != oneLine(g.Text.S) {
			t.Fatalf("group %s: shown is %q, %q", g.ID.S, s.View, s.Title)
		}
		s = b.tap("none")
	}
	if s.View != "question" {
		t.Errorf("behind the groups stands %q", s.View)
	}
}

// An answer inside a topic that tells a sign leads to the gathered ending, beside what was
// told before; Back leads to the question, and with another answer the sign is no longer
// told. It goes into no file.
func TestAnswerThatTellsASign(t *testing.T) {
	t.Parallel()
	found := 0
	for _, tr := range lib.Trees {
		for _, q := range tr.Questions {
			for _, a := range q.Answers {
				if tr.Audience.S != "patient" || !a.Sign.Given() {
					continue
				}
				found++
				b := newTab(t)
				b.openPlanner(onDisk)
				told := []safety.Said{{Group: "fall", Sign: "fall"}}
				b.hand(`answer([%s])`, tr.ID.S)
				b.tell(safety.NotNow, told)
				b.tap("onward")
				path, err := tr.Walk(witness(tr, q.ID.S))
				if err != nil {
					t.Fatal(err)
				}
				for _, step := range path.Steps {
					b.choose(step.Chosen...)
				}
				s := b.choose(a.ID.S)
				_, group := lib.Safety.Sign(a.Sign.S)
				title, names := gatheredInGo(safety.NotNow, append(told, safety.Said{Group: group.ID.S, Sign: a.Sign.S}))
				gotTitle, got, _ := b.shownCautions()
				if s.View != "told" || gotTitle != title || len(got) != len(names) {
					t.Errorf("%s, %s: shown is %q, %q with %q, want %q with %q", tr.ID.S, a.ID.S, s.View, gotTitle, got, title, names)
				}
				b.tap("bar-sheet")
				if file := savedText(b); strings.Contains(file, `"`+a.ID.S+`"`) {
					t.Errorf("%s: the saved file holds the answer %q: %s", tr.ID.S, a.ID.S, file)
				}
				b.back()
				b.waitFor(`document.querySelector("#planner .told") !== null`)
				b.tap("back")
				b.waitFor(`document.querySelector("#planner .question") !== null`)
				if s := b.look(); s.Question != oneLine(q.Text.S) {
					t.Errorf("%s: Back leads to %q %q, not to the question", tr.ID.S, s.View, s.Question)
				}
			}
		}
	}
	if found == 0 {
		t.Error("no answer tells a sign, so nothing was looked at")
	}
}
