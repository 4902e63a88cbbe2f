package tree_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/finding"
	"keelpath/builder/tree"
)

const header = `tree: short
title: Short
purpose: A short tree.
authors: [Us]
reviewers: []
reviewed: 2026-11-25
review-by: 2028-11-25
funding: None.
start: ask
`

// parse reads the questions and endings of a tree that must have no findings.
func parse(t *testing.T, body string) *tree.Tree {
	t.Helper()
	var list finding.List
	tr := tree.Parse("trees/short.yaml", []byte(header+body), &list)
	for _, f := range list.Sorted() {
		t.Errorf("%s: %s", f.Place, f.Text)
	}
	if tr == nil {
		t.Fatal("no tree")
	}
	return tr
}

const walked = `questions:
  ask:
    text: Is it so?
    why: It sets the way.
    answers:
      "yes": { text: "Yes", go: where, cards: [a, b] }
      "no": { text: "No", go: done }
      unsure: { text: Not sure, go: where }
    skip: where
  where:
    text: Where?
    why: Places differ.
    pick: any
    answers:
      home: { text: At home, cards: [c] }
      hills: { text: On hills, go: steep, cards: [b, d] }
      trails: { text: On trails, go: rough, cards: [a] }
      none: { text: None of these, alone: true }
      unsure: { text: Not sure, alone: true, go: rough, cards: [e] }
    go: done
    skip: last
  last:
    text: One more?
    why: To be sure.
    answers:
      "yes": { text: "Yes", go: rough }
    skip: steep
endings:
  done: { title: Done, text: Talk it over. }
  steep: { title: Steep, text: Ask about hills. }
  rough: { title: Rough, text: Ask about trails. }
`

func TestWalk(t *testing.T) {
	tr := parse(t, walked)
	for _, c := range []struct {
		name    string
		answers string // "ask=yes where=home,hills"
		want    string // "steps > ending or open? [cards]", or the error
	}{
		{"nothing answered yet", "", "ask? []"},
		{"one answer, no card", "ask=no", "ask=no > done []"},
		{"stops at the next question", "ask=yes", "ask=yes > where? [a b]"},
		{"an ending by the question's own way", "ask=unsure where=home", "ask=unsure where=home > done [c]"},
		{"an ending by the answer's own way", "ask=unsure where=hills", "ask=unsure where=hills > steep [b d]"},
		{"a way of its own outranks the question's", "ask=unsure where=home,hills", "ask=unsure where=home,hills > steep [c b d]"},
		{"of two ways the first in the file counts", "ask=unsure where=hills,trails", "ask=unsure where=hills,trails > steep [b d a]"},
		{"however they were ticked", "ask=unsure where=trails,home,hills", "ask=unsure where=home,hills,trails > steep [c b d a]"},
		{"alone, with the question's way", "ask=unsure where=none", "ask=unsure where=none > done []"},
		{"alone, with a way of its own", "ask=unsure where=unsure", "ask=unsure where=unsure > rough [e]"},
		{"a card is picked up once", "ask=yes where=hills,trails", "ask=yes where=hills,trails > steep [a b d]"},
		{"skipping adds no card", "ask=skip where=skip last=skip", "ask=skip where=skip last=skip > steep []"},
		{"answers off the path are kept out", "ask=no where=hills last=yes", "ask=no > done []"},
		{"even wrong ones", "ask=no where=nowhere", "ask=no > done []"},
		{"an answer that there is not", "ask=yess", `question "ask" has no answer "yess"; nearest: "yes"`},
		{"two where one is taken", "ask=yes,no", `question "ask" takes one answer, and 2 were given`},
		{"alone with another", "ask=skip where=home,none", `question "where": answer "none" cannot be given together with others`},
		{"alone first", "ask=skip where=unsure,home", `question "where": answer "unsure" cannot be given together with others`},
		{"twice the same", "ask=skip where=home,home", `question "where" is answered with "home" twice`},
		{"skipped and answered", "ask=skip where=skip,home", `question "where" is both skipped and answered`},
		{"answered and skipped", "ask=skip where=home,skip", `question "where" is both skipped and answered`},
		{"answered with nothing", "ask=", `question "ask" is left without an answer`},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := tr.Walk(answers(c.answers))
			got := show(p)
			if err != nil {
				got = err.Error()
			}
			if got != c.want {
				t.Errorf("%s\nand expected was\n%s", got, c.want)
			}
		})
	}
}

func answers(s string) tree.Answers {
	out := tree.Answers{}
	for _, f := range strings.Fields(s) {
		q, a, _ := strings.Cut(f, "=")
		out[q] = strings.FieldsFunc(a, func(r rune) bool { return r == ',' })
	}
	return out
}

func show(p tree.Path) string {
	var parts []string
	for _, s := range p.Steps {
		parts = append(parts, s.Question+"="+strings.Join(s.Chosen, ","))
	}
	end := "> " + p.Ending
	if p.Open != "" {
		end = "> " + p.Open + "?"
	}
	if len(parts) == 0 {
		end = end[2:]
	}
	return strings.Join(append(parts, end), " ") + fmt.Sprint(" ", p.Cards)
}

// Where a question cannot be skipped, "skip" is an answer like any other, and it has none.
func TestSkipIsRefusedWhereThereIsNone(t *testing.T) {
	tr := parse(t, `questions:
  ask:
    text: Is it so?
    why: It sets the way.
    answers:
      unsure: { text: Not sure, go: done }
endings:
  done: { title: Done, text: Talk it over. }
`)
	if _, err := tr.Walk(answers("ask=skip")); err == nil || err.Error() != `question "ask" has no answer "skip"` {
		t.Errorf("the error is %v", err)
	}
}

// Walk comes back from trees that the checker would refuse.
func TestWalkOfBrokenTrees(t *testing.T) {
	for _, c := range []struct {
		name, body, answers, want string
	}{
		{"a circle", "questions:\n  ask: { text: A?, why: B., answers: { unsure: { text: C, go: ask } } }\nendings: { done: { title: D, text: E. } }\n", "ask=unsure", `tree "short" runs in a circle at "ask"`},
		{"a dead link", "questions:\n  ask: { text: A?, why: B., answers: { unsure: { text: C, go: wheelchair } } }\nendings: { done: { title: D, text: E. } }\n", "ask=unsure", `tree "short" has no question or ending ""`},
		{"no way on", "questions:\n  ask: { text: A?, why: B., answers: { unsure: { text: C } } }\nendings: { done: { title: D, text: E. } }\n", "ask=unsure", `tree "short" has no question or ending ""`},
		{"no questions", "endings: { done: { title: D, text: E. } }\n", "", `tree "short" has no question or ending "ask"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			var list finding.List
			body := strings.ReplaceAll(c.body, "A?", `"A?"`)
			tr := tree.Parse("trees/short.yaml", []byte(header+body), &list)
			if tr == nil {
				t.Fatalf("no tree: %v", list.Sorted())
			}
			if _, err := tr.Walk(answers(c.answers)); err == nil || err.Error() != c.want {
				t.Errorf("the error is %v, and %s was expected", err, c.want)
			}
		})
	}
}

func TestLimits(t *testing.T) {
	question := func(i int) string {
		return fmt.Sprintf("  q%d: { text: \"A?\", why: B., answers: { unsure: { text: C, go: done } } }\n", i)
	}
	repeat := func(n int, one func(int) string) string {
		var b strings.Builder
		for i := range n {
			b.WriteString(one(i))
		}
		return b.String()
	}
	const endings = "endings:\n  done: { title: D, text: E. }\n"
	for _, c := range []struct {
		name, body, want string
	}{
		{"questions", "questions:\n" + repeat(tree.MaxQuestions+1, question) + endings, "the tree has 501 questions, and at most 500 are taken"},
		{"endings", "questions:\n" + question(0) + endings + repeat(tree.MaxEndings, func(i int) string { return fmt.Sprintf("  e%d: { title: D, text: E. }\n", i) }), "the tree has 501 endings, and at most 500 are taken"},
		{"values", "values:\n" + repeat(tree.MaxValues+1, func(i int) string { return fmt.Sprintf("  v%d: 1*mm\n", i) }) + "questions:\n" + question(0) + endings, "the tree has 101 values, and at most 100 are taken"},
		{"examples", "questions:\n" + question(0) + endings + "examples:\n" + repeat(tree.MaxExamples+1, func(int) string { return "  - { who: A, answers: {}, ending: done }\n" }), "the tree has 501 examples, and at most 500 are taken"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var list finding.List
			if tree.Parse("trees/short.yaml", []byte(header+c.body), &list) != nil {
				t.Error("the tree was taken")
			}
			fs := list.Sorted()
			if len(fs) != 1 || fs[0].Check != "too-large" || fs[0].Text != c.want {
				t.Errorf("%v, and %q was expected", fs, c.want)
			}
		})
	}
}

func TestNumbers(t *testing.T) {
	want := map[string]int{"ask": 1, "where": 2, "last": 3, "done": 4, "steep": 5, "rough": 6}
	if diff := cmp.Diff(want, parse(t, walked).Numbers()); diff != "" {
		t.Error(diff)
	}
}

func TestTable(t *testing.T) {
	tr := parse(t, walked)
	got := tr.Table(map[string]int{"ask": 2, "where": 1})
	if got.ID != "short" || got.Start != "ask" || len(got.Questions) != 3 || len(got.Endings) != 3 {
		t.Errorf("the table is %+v", got)
	}
	want := tree.TableRow{Any: true, Go: "done", Skip: "last", Left: 1, Answers: []tree.TableAnswer{
		{ID: "home", Cards: []string{"c"}},
		{ID: "hills", Go: "steep", Cards: []string{"b", "d"}},
		{ID: "trails", Go: "rough", Cards: []string{"a"}},
		{ID: "none", Alone: true},
		{ID: "unsure", Go: "rough", Alone: true, Cards: []string{"e"}},
	}}
	if diff := cmp.Diff(want, got.Questions["where"]); diff != "" {
		t.Error(diff)
	}
}
