package proof_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/finding"
	"keelpath/builder/proof"
	"keelpath/builder/tree"
)

// wordsOf proves a tree of questions and endings and gives each finding as its check and its help.
func wordsOf(t *testing.T, body string) ([]string, *proof.Proof) {
	t.Helper()
	var list finding.List
	tr := tree.Parse("trees/random.yaml", []byte(header+body), &list)
	if tr == nil {
		t.Fatal(list.Sorted())
	}
	p := proved(t, tr, &list)
	var out []string
	for _, f := range list.Sorted() {
		out = append(out, f.Check+"|"+strings.Join(f.Help, "|"))
	}
	return out, p
}

// lateGap asks one or two things and then has no route for one pair of answers.
const lateGap = `questions:
  q0:
    text: So?
    why: To know.
    answers: { a: { text: A, go: %first }, b: { text: B, go: %first } }
    skip: end
  q1:
    text: So?
    why: To know.
    answers: { a: { text: A }, b: { text: B } }
    routes: [{ go: q2 }]
    skip: q2
  q2:
    text: So?
    why: To know.
    answers: { a: { text: A } }
    routes: [{ if: 'q0 == "b"', go: end }, %routes]
    skip: end
endings:
  end: { title: End, text: Talk. }
`

// A gap is told with the answers before it, in the order in which they are asked, be it one or two.
func TestGapAfterAnswers(t *testing.T) {
	for _, c := range []struct{ first, routes, want string }{
		{"q1", `{ if: 'q0 == "a" && q1 == "a"', go: end }`, "for instance after q0=a q1=b"},
		{"q2", `{ if: 'q0 == "b" && q0 == "a"', go: end }`, "for instance after q0=a"},
	} {
		got, _ := wordsOf(t, strings.NewReplacer("%first", c.first, "%routes", c.routes).Replace(lateGap))
		want := "route-gap|" + c.want + "|let a route cover it"
		if !strings.Contains(strings.Join(got, "\n"), want) {
			t.Errorf("%q does not stand in %q", want, got)
		}
	}
}

// What comes behind amounts that no route takes is still known: it has its way.
func TestWayBehindAGap(t *testing.T) {
	_, p := wordsOf(t, `questions:
  q0:
    text: So?
    why: To know.
    measure: { unit: mm, from: 3, to: 9, step: 1 }
    skip: end
    routes: [{ if: q0 > 5*mm, go: far }]
endings:
  end: { title: End, text: Talk. }
  far: { title: Far, text: Talk. }
`)
	if got := p.Witness["far"].String(); got != "q0=6 mm" {
		t.Errorf("the way to far is %q", got)
	}
}

// A measure that no condition weighs is answered by its lowest amount.
func TestWayByAMeasure(t *testing.T) {
	_, p := wordsOf(t, `questions:
  q0:
    text: So?
    why: To know.
    measure: { unit: mm, from: 3, to: 9, step: 1 }
    skip: end
    routes: [{ go: far }]
endings:
  end: { title: End, text: Talk. }
  far: { title: Far, text: "About {q0}." }
`)
	if got := p.Witness["far"].String(); got != "q0=3 mm" {
		t.Errorf("the way to far is %q", got)
	}
}

// In a tree with a circle a way by routes is told by the first answer that has none of its own.
func TestWayByARouteInACircle(t *testing.T) {
	_, p := wordsOf(t, `questions:
  q0:
    text: So?
    why: To know.
    answers: { a: { text: A, go: q1 }, b: { text: B }, c: { text: C } }
    routes: [{ go: far }]
    skip: end
  q1: { text: "So?", why: To know., answers: { a: { text: So, go: q0 } }, skip: end }
endings:
  end: { title: End, text: Talk. }
  far: { title: Far, text: Talk. }
`)
	if got := p.Witness["far"].String(); got != "q0=b" {
		t.Errorf("the way to far is %q", got)
	}
}

// Behind a condition that is always true the routes are never taken: what only they lead to is named there, and not again.
func TestLostBehindACondition(t *testing.T) {
	got, _ := wordsOf(t, `questions:
  q0:
    text: So?
    why: To know.
    measure: { unit: mm, from: 0, to: 9, step: 1 }
    skip: end
    routes: [{ if: q0 >= 0*mm, go: end }, { go: other }]
endings:
  end: { title: End, text: Talk. }
  other: { title: Other, text: Talk. }
`)
	var dead []string
	for _, g := range got {
		if !strings.HasPrefix(g, "idle-question") {
			dead = append(dead, g)
		}
	}
	want := []string{`dead-condition|look at the limits of the measures it uses, and at what earlier questions leave open|as it is, nothing leads to "other"`}
	if diff := cmp.Diff(want, dead); diff != "" {
		t.Error(diff)
	}
}

// An example is held against a tree with routes too, the last one without a condition.
func TestExampleByARoute(t *testing.T) {
	var list finding.List
	tr := tree.Parse("trees/random.yaml", []byte(header+`questions:
  q0:
    text: So?
    why: To know.
    measure: { unit: mm, from: 0, to: 9, step: 1 }
    skip: end
    routes: [{ if: q0 > 5*mm, go: far }, { go: end }]
endings:
  end: { title: End, text: Talk. }
  far: { title: Far, text: Talk. }
examples:
  - { who: One, answers: { q0: 7 mm }, ending: end, cards: [] }
`), &list)
	proof.Examples(tr, func(string) bool { return true }, &list)
	if got := list.Sorted(); len(got) != 1 || got[0].Text != `the example lands at "far", and "end" was expected` {
		t.Errorf("findings: %v", got)
	}
}

// A question with a single way on that changes nothing says where that way leads.
func TestIdleQuestionWithOneWay(t *testing.T) {
	var list finding.List
	tr := tree.Parse("trees/random.yaml", []byte(header+`questions:
  q0:
    text: So?
    why: To know.
    pick: any
    go: end
    answers: { a: { text: A }, b: { text: B }, unsure: { text: Not sure } }
endings:
  end: { title: End, text: Talk. }
`), &list)
	proved(t, tr, &list)
	if got := list.Sorted(); len(got) != 1 || got[0].Text != `question "q0" changes nothing: whatever the answer, it leads to "end"` {
		t.Errorf("findings: %v", got)
	}
}
