package browsertest

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/say"
	"keelpath/builder/tree"
)

// A walk with much to go back to: several questions, one of them answered with two
// ticks, and one at the end that is still open; last is an answer that ends it.
func longWalk(t *testing.T) (tr *tree.Tree, path tree.Path, answers tree.Answers, last []string) {
	t.Helper()
	for _, tr := range lib.Trees {
		if tr.Audience.S != "patient" {
			continue
		}
		for _, answers := range somePaths(t, tr) {
			path := walk(t, tr, answers)
			last := len(path.Steps) - 1
			if last < 3 || !slices.ContainsFunc(path.Steps[:last], func(s tree.Step) bool { return len(s.Chosen) == 2 }) ||
				tr.Question(path.Steps[last].Question).Measure != nil || skips(path) {
				continue
			}
			end := path.Steps[last]
			answers = maps.Clone(answers)
			delete(answers, end.Question)
			path.Steps, path.Open = path.Steps[:last], end.Question
			return tr, path, answers, end.Chosen
		}
	}
	t.Fatal("no tree has a path for this test")
	return
}

func skips(path tree.Path) bool {
	return slices.ContainsFunc(path.Steps, func(s tree.Step) bool { return slices.Equal(s.Chosen, []string{tree.Skip}) })
}

// given is what a question's screen holds: what is ticked or what is written.
func given(s screen) []string {
	if s.Written != "" {
		return []string{s.Written}
	}
	return ticked(s)
}

// Going back, changing an answer, and the browser's own buttons keep what was
// answered; what is missing is said.
func TestBackAndChange(t *testing.T) {
	t.Parallel()
	tr, path, answers, lastChosen := longWalk(t)
	steps := path.Steps
	b := newTab(t)
	b.openPlanner(onWeb)
	text := func(id string) string { return oneLine(tr.Question(id).Text.S) }
	wait := func(question string) screen {
		t.Helper()
		b.waitFor(fmt.Sprintf(`document.querySelector("#planner .question h2")?.innerText.replace(/\s+/g, " ").trim() === %q`, text(question)))
		return b.look()
	}
	want := func(s screen, question string, chosen ...string) {
		t.Helper()
		if s.Question != text(question) || !slices.Equal(given(s), append([]string{}, chosen...)) {
			t.Fatalf("at %q with %q, want %q with %q", s.Question, given(s), text(question), chosen)
		}
	}
	said := func(i int, chosen []string) asked {
		q := tr.Question(steps[i].Question)
		out := asked{Question: text(steps[i].Question)}
		for _, s := range q.Says(say.English(), chosen) {
			out.Answers = append(out.Answers, oneLine(s))
		}
		return out
	}

	s := b.choose(tr.ID.S)
	tried := 0
	for i, step := range steps {
		want(s, step.Question)
		if len(s.Trail) != i {
			t.Errorf("%d answers given, and the trail has %d", i, len(s.Trail))
		}
		if q := tr.Question(step.Question); q.Pick == tree.PickAny {
			tried++
			checkNothingChosen(t, b)
		} else if slices.Contains(s.Buttons, "Go on") != (q.Measure != nil) {
			t.Errorf("%q has the buttons %q", s.Question, s.Buttons)
		}
		s = b.choose(step.Chosen...)
	}
	want(s, path.Open)
	if tried == 0 {
		t.Error("no question took several answers")
	}
	for i, step := range steps {
		if diff := cmp.Diff(said(i, step.Chosen), s.Trail[i]); diff != "" {
			t.Errorf("the trail: %s", diff)
		}
	}

	// The planner's Back all the way, with what was given, and on again.
	for _, step := range slices.Backward(steps) {
		b.tap("back")
		want(wait(step.Question), step.Question, step.Chosen...)
	}
	s = b.look()
	for _, step := range steps {
		want(s, step.Question, step.Chosen...)
		s = b.hand(`again()`)
	}
	want(s, path.Open)

	// The browser's Back and Forward.
	last := steps[len(steps)-1]
	b.back()
	want(wait(last.Question), last.Question, last.Chosen...)
	b.back()
	want(wait(steps[len(steps)-2].Question), steps[len(steps)-2].Question, steps[len(steps)-2].Chosen...)
	b.forward()
	b.forward()
	want(wait(path.Open), path.Open)

	// Change each answer from the trail to each other one: the planner goes where the
	// tree then stands, says the changed answer, and keeps the others; then back again.
	same, other := 0, 0
	for i, step := range steps {
		for _, a := range tr.Question(step.Question).Answers {
			if slices.Equal(step.Chosen, []string{a.ID.S}) {
				continue
			}
			changed := maps.Clone(answers)
			changed[step.Question] = []string{a.ID.S}
			now, err := tr.Walk(changed)
			if err != nil {
				t.Fatal(err)
			}
			change := fmt.Sprintf(`change(%d)`, i)
			want(b.hand(change), step.Question, step.Chosen...)
			s = b.choose(a.ID.S)
			if now.Open != "" {
				want(s, now.Open)
			} else if s.View != "ending" || s.Ending.Title != oneLine(tr.Ending(now.Ending).Title.S) {
				t.Fatalf("after the change: %q %q, want the ending %s", s.View, s.Ending.Title, now.Ending)
			}
			if now.Open == path.Open {
				same++
			} else {
				other++
			}
			if diff := cmp.Diff(said(i, []string{a.ID.S}), s.Trail[i]); diff != "" {
				t.Errorf("the changed answer in the trail: %s", diff)
			}
			want(b.hand(change), step.Question, a.ID.S)
			want(b.choose(step.Chosen...), path.Open)
		}
	}
	if same == 0 || other == 0 {
		t.Errorf("%d changes kept the way and %d took another; this test wants both", same, other)
	}

	// Browser steps from an ending and over the sheet.
	if s = b.choose(lastChosen...); s.View != "ending" {
		t.Fatalf("after the last answer: %q", s.View)
	}
	had := b.tap("sheet").Sheet
	b.back()
	b.waitFor(`document.querySelector("#planner .ending") !== null`)
	b.forward()
	b.waitFor(`document.querySelector("#planner .sheet") !== null`)
	if diff := cmp.Diff(had, b.look().Sheet); diff != "" {
		t.Errorf("after back and forward the sheet differs: %s", diff)
	}
}

// checkNothingChosen goes on from a question with several answers while none is chosen: the
// page says what is missing and stays.
func checkNothingChosen(t *testing.T, b *tab) {
	t.Helper()
	at := b.look().Question
	s := b.hand(`next()`)
	if s.Question != at || !strings.Contains(s.Problem, "check at least one") {
		t.Errorf("with no answer %q leads to %q and says %q", at, s.Question, s.Problem)
	}
	if !eval[bool](b, `(() => { const p = document.querySelector('#planner [data-slot="problem"]'), f = document.activeElement; return (f.getAttribute("aria-describedby") || "").split(" ").includes(p.id) && f.matches('.rows [type="checkbox"]') })()`) {
		t.Error("the message is not tied to the answers, or the focus is not there")
	}
}

// An amount that cannot be read is refused with a sentence and kept to be mended;
// what is written and what is like it are one answer; Back keeps it.
func TestAmounts(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	tried := 0
	backTo := func(q *tree.Question) screen {
		t.Helper()
		b.tap("back")
		b.waitFor(`document.querySelector("#planner .question h2")?.innerText.replace(/\s+/g, " ").trim() === ` + quoted(b, oneLine(q.Text.S)))
		return b.look()
	}
	for _, tr := range lib.Trees {
		for _, q := range tr.Questions {
			if q.Measure == nil || tr.Audience.S != "patient" {
				continue
			}
			tried++
			s := b.reachQuestion(tr, q)
			if s.Entry == "" || len(s.Choices) != len(q.Measure.Likes) {
				t.Fatalf("%s, %s: %q to write, %d to pick", tr.ID.S, q.ID.S, s.Entry, len(s.Choices))
			}
			for _, wrong := range []string{"as high as a cat", "999999", "-5"} {
				s = b.choose(wrong)
				if s.Question != oneLine(q.Text.S) || s.Problem == "" || s.Written != wrong {
					t.Errorf("%s, %s: %q is taken, or not refused in words: %q, written %q", tr.ID.S, q.ID.S, wrong, s.Problem, s.Written)
				}
			}
			for _, l := range q.Measure.Likes {
				if s = b.choose(l.ID.S); s.Question == oneLine(q.Text.S) {
					t.Errorf("%s, %s: %q does not go on", tr.ID.S, q.ID.S, l.ID.S)
				}
				s = backTo(q)
				if s.Written != "" || !slices.Equal(ticked(s), []string{l.ID.S}) {
					t.Errorf("%s, %s: %q is picked and %q is written", tr.ID.S, q.ID.S, ticked(s), s.Written)
				}
			}
			good := q.Measure.Typed(1)
			if s = b.choose(good); s.Question == oneLine(q.Text.S) {
				t.Errorf("%s, %s: %q is refused: %s", tr.ID.S, q.ID.S, good, s.Problem)
			}
			if s = backTo(q); s.Written != good || len(ticked(s)) > 0 {
				t.Errorf("%s, %s: back, %q is written and %q is picked", tr.ID.S, q.ID.S, s.Written, ticked(s))
			}
			b.clear()
		}
	}
	if tried == 0 {
		t.Error("no tree measures anything, so nothing was tried")
	}
}

// An answer that stands alone unticks the others, and they it.
func TestAnswersThatStandAlone(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	tr := lib.Tree("heel-height")
	b.choose(tr.ID.S)
	tick := func(id string) string {
		b.hand(`tapOn(planner.querySelector('.question input[value="' + %s + '"]').closest("label"), "answer")`, id)
		return eval[string](b, `Array.from(document.querySelectorAll("#planner .question input:checked")).map((i) => i.value).join(",")`)
	}
	for _, step := range []struct{ press, want string }{
		{"weak", "weak"}, {"fell", "weak,fell"}, {"none", "none"}, {"unsure", "unsure"}, {"both", "both"}, {"both", ""}, {"none", "none"},
	} {
		if got := tick(step.press); got != step.want {
			t.Errorf("after %q: ticked %q, want %q", step.press, got, step.want)
		}
	}
	if s := b.hand(`next()`); s.Question != oneLine(tr.Question("shoes").Text.S) {
		t.Errorf("then %q", s.Question)
	}
}

// Every question that can be skipped has a button for it that leads on as the
// tree says; no other question has one.
func TestSkip(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	skipped := 0
	for _, tr := range lib.Trees {
		if tr.Audience.S != "patient" {
			continue
		}
		var plain, can []tree.Path
		for _, q := range tr.Questions {
			if path := b.pathTo(tr, q); q.Skip.Given() {
				can = append(can, path)
			} else {
				plain = append(plain, path)
			}
		}
		for i, all := range b.manyScreens(tr, plain, "clear", "clear-now") {
			if at := all[len(plain[i].Steps)]; slices.Contains(at.Buttons, "Skip") {
				t.Errorf("%s: %q has a button to skip it, and no way on for that", tr.ID.S, at.Question)
			}
		}
		for i, all := range b.manyScreens(tr, can, "skip", "clear", "clear-now") {
			skipped++
			q := tr.Question(can[i].Open)
			at, s := all[len(can[i].Steps)], all[len(can[i].Steps)+1]
			if !slices.Contains(at.Buttons, "Skip") {
				t.Errorf("%s: %q has no button to skip it: %q", tr.ID.S, at.Question, at.Buttons)
			}
			want := q.Skip.S
			if e := tr.Ending(want); e != nil && s.Ending.Title != oneLine(e.Title.S) || e == nil && s.Question != oneLine(tr.Question(want).Text.S) {
				t.Errorf("%s: skipping %s leads to %q%q, want %q", tr.ID.S, q.ID.S, s.Question, s.Ending.Title, want)
			}
			if last := s.Trail[len(s.Trail)-1]; !slices.Equal(last.Answers, []string{"Skipped"}) {
				t.Errorf("%s: the trail says %q of a skipped question", tr.ID.S, last.Answers)
			}
		}
	}
	if skipped == 0 {
		t.Error("no question can be skipped, so nothing was tried")
	}
}

// pathTo gives a shortest path to a question.
func (b *tab) pathTo(tr *tree.Tree, q *tree.Question) tree.Path {
	b.t.Helper()
	path, err := tr.Walk(witness(tr, q.ID.S))
	if err != nil || path.Open != q.ID.S {
		b.t.Fatalf("%s: %q is not reached: %v, at %q", tr.ID.S, q.ID.S, err, path.Open)
	}
	return path
}

// reachQuestion goes there.
func (b *tab) reachQuestion(tr *tree.Tree, q *tree.Question) screen {
	b.t.Helper()
	all := b.screens(tr, b.pathTo(tr, q))
	s := all[len(all)-1]
	if s.Question != oneLine(q.Text.S) {
		b.t.Fatalf("%s: at %q, want %q", tr.ID.S, s.Question, q.Text.S)
	}
	return s
}

// What would change an ending is worked out when a reader opens it: each line that it
// gives leads where it says.
func TestWhatWouldChange(t *testing.T) {
	everywhere(t, func(t *testing.T, address func(string) string) {
		t.Parallel()
		b := newTab(t)
		b.openPlanner(address)
		tr := lib.Tree("hills-and-ramps")
		ex := exampleWithCards(t, tr)
		s := b.take(tr, ex.Given())
		if eval[int](b, `document.querySelectorAll("#planner .would").length`) != 0 {
			t.Error("it is worked out before a reader asks")
		}
		b.hand(`tapOn(planner.querySelector('[data-slot="changes"] summary'), "what would change this")`)
		b.waitFor(`document.querySelector("#planner .would") !== null`)
		path := walk(t, tr, ex.Given())
		for _, part := range eval[[][]string](b, `Array.from(document.querySelectorAll("#planner .would"), (w) => [w.querySelector("p").textContent, ...Array.from(w.querySelectorAll("li strong"), (e) => e.textContent)])`) {
			asked := slices.ContainsFunc(path.Steps, func(step tree.Step) bool { return oneLine(tr.Question(step.Question).Text.S) == part[0] })
			if !asked || len(part) < 2 || slices.Contains(part[1:], s.Ending.Title) {
				t.Errorf("a change of the answer to %q leads to %q", part[0], part[1:])
			}
		}
	})
}
