package proof_test

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/finding"
	"keelpath/builder/formula"
	"keelpath/builder/proof"
	"keelpath/builder/tree"
)

// tellingTree is a conditionalTree whose answers and measures tell facts f0 to
// f3 and add cards c0 and c1, some of which stand alone.
func tellingTree(t *testing.T, rnd *rand.Rand) *tree.Tree {
	t.Helper()
	lines := strings.Split(conditionalTree(rnd), "\n")
	several := false
	for i, line := range lines {
		switch {
		case strings.HasPrefix(line, "  q"):
			several = false
		case strings.Contains(line, "pick: any"):
			several = true
		case strings.Contains(line, "measure:") && rnd.IntN(2) == 0:
			lines[i] += fmt.Sprintf("\n    tells: f%d", rnd.IntN(4))
		case strings.Contains(line, "{ text: So"):
			extra := ""
			if rnd.IntN(2) == 0 {
				extra += fmt.Sprintf(", tells: [f%d]", rnd.IntN(4))
			}
			if rnd.IntN(3) == 0 {
				extra += fmt.Sprintf(", cards: [c%d]", rnd.IntN(2))
			}
			if several && rnd.IntN(4) == 0 {
				extra += ", alone: true"
			}
			lines[i] = strings.Replace(line, " }", extra+" }", 1)
		}
	}
	src := strings.Join(lines, "\n")
	var list finding.List
	tr := tree.Parse("trees/random.yaml", []byte(src), &list)
	if list.Len() > 0 {
		t.Fatalf("%v\n%s", list.Sorted(), src)
	}
	return tr
}

// did is what one way through a tree comes to.
type did struct {
	ending      string
	told, cards map[string]bool
}

// everyWay walks a tree with every answer. It shares nothing with the proof but
// the meaning of a single step.
func everyWay(tr *tree.Tree, at string, known map[string]formula.Value, given tree.Answers, each func(did)) {
	q := tr.Question(at)
	if q == nil {
		path, err := tr.Walk(given)
		if err != nil || path.Ending != at {
			panic(fmt.Sprint(given, err, path.Ending, at))
		}
		d := did{at, map[string]bool{}, map[string]bool{}}
		for _, c := range path.Cards {
			d.cards[c] = true
		}
		for _, s := range path.Steps {
			asked := tr.Question(s.Question)
			if asked.Measure != nil && s.Chosen[0] != tree.Skip {
				for _, f := range asked.Tells {
					d.told[f.S] = true
				}
			}
			for _, id := range s.Chosen {
				if a := asked.Answer(id); a != nil {
					for _, f := range a.Tells {
						d.told[f.S] = true
					}
				}
			}
		}
		each(d)
		return
	}
	for _, chosen := range everyAnswer(q) {
		more := maps.Clone(known)
		more[at] = meaning(q, chosen)
		if to, _ := q.Next(chosen, tr.KnownWith(more)); to != "" {
			next := maps.Clone(given)
			next[at] = chosen
			everyWay(tr, to, more, next, each)
		}
	}
}

// Whether some way can do what is wanted, against trying every answer.
func TestCanAgainstEveryAnswer(t *testing.T) {
	rnd := rand.New(rand.NewPCG(17, 3))
	yes, no := 0, 0
	for i := range 400 {
		tr := tellingTree(t, rnd)
		var list finding.List
		p := proved(t, tr, &list)
		var ways []did
		everyWay(tr, tr.Start.S, map[string]formula.Value{}, tree.Answers{}, func(d did) { ways = append(ways, d) })
		for range 40 {
			w := proof.Wanted{}
			if rnd.IntN(2) == 0 {
				w.Ending = tr.Endings[rnd.IntN(len(tr.Endings))].ID.S
			}
			if rnd.IntN(2) == 0 {
				w.Card = fmt.Sprintf("c%d", rnd.IntN(2))
			}
			for f := range 4 {
				switch rnd.IntN(5) {
				case 0, 1:
					w.Told = append(w.Told, fmt.Sprintf("f%d", f))
				case 2:
					w.Untold = append(w.Untold, fmt.Sprintf("f%d", f))
				}
			}
			want := slices.ContainsFunc(ways, func(d did) bool {
				return (w.Ending == "" || d.ending == w.Ending) && (w.Card == "" || d.cards[w.Card]) &&
					!slices.ContainsFunc(w.Told, func(f string) bool { return !d.told[f] }) &&
					!slices.ContainsFunc(w.Untold, func(f string) bool { return d.told[f] })
			})
			if got := p.Can(w); got != want {
				t.Fatalf("tree %d, %+v: the proof says %v, and trying every answer %v", i, w, got, want)
			}
			if want {
				yes++
			} else {
				no++
			}
		}
	}
	if yes < 2000 || no < 2000 {
		t.Errorf("%d can and %d cannot: the trees are too plain", yes, no)
	}
}

// Of a tree that goes round in a circle nothing is known, and so all can be.
func TestCanOfACircle(t *testing.T) {
	body := `questions:
  q0:
    text: So?
    why: To know.
    answers: { a: { text: A, go: q0 }, unsure: { text: Not sure, go: end } }
endings:
  end: { title: End, text: Talk. }
`
	var list finding.List
	tr := tree.Parse("trees/random.yaml", []byte(header+body), &list)
	if p := proved(t, tr, &list); !p.Can(proof.Wanted{Told: []string{"never"}}) {
		t.Error("it says what cannot be, and nothing is known")
	}
}

func chartOf(t *testing.T, tr *tree.Tree) (*proof.Chart, bool) {
	t.Helper()
	p, err := proof.Prove(t.Context(), tr, &finding.List{})
	if err != nil {
		t.Fatal(err)
	}
	return p.Chart(tr)
}

// A proof is kept while its tree is read again: its chart has the questions of the
// tree that it is asked for.
func TestChartOfATreeReadAgain(t *testing.T) {
	tr := tellingTree(t, rand.New(rand.NewPCG(4, 4)))
	p, err := proof.Prove(t.Context(), tr, &finding.List{})
	if err != nil {
		t.Fatal(err)
	}
	again := tellingTree(t, rand.New(rand.NewPCG(4, 4)))
	c, ok := p.Chart(again)
	if !ok {
		t.Fatal("it has no chart")
	}
	for _, st := range c.States {
		if st.Question != again.Question(st.Question.ID.S) {
			t.Errorf("a state has a question of the tree before: %s", st.Question.ID.S)
		}
		for _, w := range st.Ways {
			if w.To != nil && w.To.Question != again.Question(w.To.Question.ID.S) {
				t.Errorf("%s leads to a question of the tree before", st.Question.ID.S)
			}
		}
	}
}

// What a chart says of each question, against what the file says and against
// trying every amount.
func TestChartOfConditionalTrees(t *testing.T) {
	rnd := rand.New(rand.NewPCG(4, 4))
	asked, told, live := 0, 0, 0
	for i := range 300 {
		tr := tellingTree(t, rnd)
		c, ok := chartOf(t, tr)
		if !ok {
			t.Fatalf("tree %d has no chart", i)
		}
		for _, q := range tr.Questions {
			// Named by a condition, in the order of the file; beside one, "not sure"
			// matters as well, which makes all that is ticked unknown.
			var want []string
			some := slices.ContainsFunc(q.Answers, func(a *tree.Answer) bool { return namedByRoute(tr, q.ID.S, a.ID.S) })
			for _, a := range q.Answers {
				if namedByRoute(tr, q.ID.S, a.ID.S) || some && a.ID.S == tree.Unsure {
					want = append(want, a.ID.S)
				}
			}
			if diff := cmp.Diff(want, c.Asked(q)); diff != "" {
				t.Fatalf("tree %d, answers of %s that are asked for:\n%s", i, q.ID.S, diff)
			}
			asked += len(want)
			if q.Measure != nil {
				told += classesHold(t, tr, q, c.Classes(q))
			}
			for _, id := range c.Live(q) {
				live++
				if id == q.ID.S || !slices.ContainsFunc(c.States, func(s *proof.State) bool { _, ok := s.Known[id]; return s.Question == q && ok }) {
					t.Errorf("tree %d: %s tells no states of %s apart", i, id, q.ID.S)
				}
			}
			for _, s := range c.States {
				for id := range s.Known {
					if s.Question == q && id != q.ID.S && !slices.Contains(c.Live(q), id) {
						t.Errorf("tree %d: a state of %s knows %s, which is not live there", i, q.ID.S, id)
					}
				}
			}
		}
	}
	if asked < 50 || told < 50 || live < 50 {
		t.Errorf("%d answers asked for, %d classes of amounts, %d live: the trees are too plain", asked, told, live)
	}
}

// namedByRoute tells whether some route's condition names an answer of a question.
// All values of these trees are of measures.
func namedByRoute(tr *tree.Tree, question, answer string) bool {
	for _, q := range tr.Questions {
		for _, r := range q.Routes {
			if !r.Else() && (strings.Contains(r.If.Expr.String(), fmt.Sprintf("%s == %q", question, answer)) ||
				strings.Contains(r.If.Expr.String(), fmt.Sprintf("%s != %q", question, answer)) ||
				strings.Contains(r.If.Expr.String(), fmt.Sprintf("has(%s, %q)", question, answer))) {
				return true
			}
		}
	}
	return false
}

// classesHold checks that amounts of one class are told apart by no condition
// that rests on this measure alone, and gives how many classes there are.
func classesHold(t *testing.T, tr *tree.Tree, q *tree.Question, class []int) int {
	t.Helper()
	if len(class) != q.Measure.Answers() {
		t.Fatalf("%s: %d classes for %d amounts", q.ID.S, len(class), q.Measure.Answers())
	}
	looks := func(i int) string {
		known := tr.KnownWith(map[string]formula.Value{q.ID.S: formula.Of(q.Measure.At(i))})
		out := ""
		for _, other := range tr.Questions {
			for _, r := range other.Routes {
				if !r.Else() {
					out += atoms(r.If.Expr, known.Value)
				}
			}
		}
		return out
	}
	n := 0
	for i, k := range class {
		if k > i || class[k] != k {
			t.Fatalf("%s: amount %d is of class %d, which does not begin with itself", q.ID.S, i, k)
		}
		if k == i {
			n++
		}
		if looks(i) != looks(k) {
			t.Errorf("%s: a condition tells amount %d from %d, which stands for it", q.ID.S, i, k)
		}
		for j := range i {
			if class[j] == j && k == i && looks(j) == looks(i) && !mixes(tr, q.ID.S) {
				t.Errorf("%s: nothing tells amount %d from %d, and they are of two classes", q.ID.S, i, j)
			}
		}
	}
	return n
}

// atoms gives what each comparison in a condition comes to.
func atoms(e *formula.Expr, known func(string) formula.Value) string {
	switch e.Op {
	case "&&", "||", "!":
		out := ""
		for _, a := range e.Args {
			out += atoms(a, known)
		}
		return out
	}
	v := e.Eval(known)
	return fmt.Sprint(v.Known, v.Truth, ";")
}

// mixes tells whether a value weighs the measure together with another one.
func mixes(tr *tree.Tree, question string) bool {
	for _, v := range tr.Values {
		if s := v.Is.Expr.String(); strings.Contains(s, question) && strings.Contains(s, "+") && strings.Count(s, question) < 2 {
			return true
		}
	}
	return false
}

// A list of paths may be left before its end.
func TestPathsLeftEarly(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 9))
	for range 50 {
		tr := tellingTree(t, rnd)
		all := len(slices.Collect(proof.AllPaths(tr)))
		for _, most := range []int{1, 2, 3} {
			n := 0
			for range proof.AllPaths(tr) {
				if n++; n == most {
					break
				}
			}
			if n != min(most, all) {
				t.Errorf("left after %d of %d, the paths gave %d", most, all, n)
			}
			n = 0
			for range proof.SomePaths(tr, 5, 1) {
				if n++; n == most {
					break
				}
			}
			if n != most {
				t.Errorf("left after %d, the drawn paths gave %d", most, n)
			}
		}
	}
}

// A tree beyond the limits has no paths to list, no chart, and is said to be so.
func TestBeyondTheLimits(t *testing.T) {
	measure := "    measure: { unit: mm, from: 0, to: 100000, step: 0.1 }\n    skip: end\n"
	src := header + "questions:\n  q0:\n    text: So?\n    why: To know.\n" + measure + "    go: q1\n  q1:\n    text: So?\n    why: To know.\n" + measure +
		"    routes: [{ if: q1 > q0, go: other }, { go: end }]\nendings:\n  end: { title: End, text: Talk. }\n  other: { title: Other, text: Talk. }\n"
	var list finding.List
	tr := tree.Parse("trees/random.yaml", []byte(src), &list)
	p := proved(t, tr, &list)
	if fs := list.Sorted(); len(fs) != 1 || fs[0].Check != "out-of-reach" {
		t.Errorf("findings: %v", fs)
	}
	if !p.Can(proof.Wanted{Told: []string{"never"}}) {
		t.Error("it says what cannot be, and nothing is known")
	}
	for answers := range proof.AllPaths(tr) {
		t.Fatalf("a path is listed: %v", answers)
	}
	for answers := range proof.SomePaths(tr, 3, 1) {
		t.Fatalf("a path is drawn: %v", answers)
	}
	if _, ok := chartOf(t, tr); ok {
		t.Error("it has a chart")
	}
}

// One measure of more amounts than may be looked at is out of reach as well, and
// so is a question of more states than may be kept.
func TestTooMuchWork(t *testing.T) {
	body := "questions:\n"
	for i := range 12 {
		body += fmt.Sprintf("  q%d:\n    text: So?\n    why: To know.\n    measure: { unit: mm, from: 0, to: 99999, step: 0.1 }\n    skip: end\n    routes: [{ if: q%d > 7*mm, go: other }, { go: %s }]\n", i, i, after(i, 12))
	}
	var list finding.List
	tr := tree.Parse("trees/random.yaml", []byte(header+body+"endings:\n  end: { title: End, text: Talk. }\n  other: { title: Other, text: Talk. }\n"), &list)
	proved(t, tr, &list)
	if fs := list.Sorted(); len(fs) != 1 || fs[0].Check != "out-of-reach" {
		t.Errorf("findings: %v", fs)
	}
}

// As many paths are listed as the proof says; amounts that look alike stand in it once.
func TestListedPaths(t *testing.T) {
	rnd := rand.New(rand.NewPCG(6, 6))
	fewer := 0
	for range 200 {
		tr := tellingTree(t, rnd)
		var list finding.List
		p := proved(t, tr, &list)
		n := int64(0)
		for range proof.AllPaths(tr) {
			n++
		}
		if p.Listed == nil || p.Listed.Int64() != n {
			t.Fatalf("%d paths are listed, and the proof says %v", n, p.Listed)
		}
		if p.Listed.Cmp(p.Paths) < 0 {
			fewer++
		}
	}
	if fewer < 20 {
		t.Errorf("only %d trees have amounts that look alike", fewer)
	}
}

// lostTree has three questions that nothing leads to. The first of them leads to
// the second and to an ending of its own, and the second to the third.
const lostTree = `questions:
  q0:
    text: So?
    why: To know.
    answers: { a: { text: A, go: end }, unsure: { text: Not sure, go: start } }
  lost:
    text: So?
    why: To know.
    answers: { a: { text: A, go: second }, unsure: { text: Not sure, go: own } }
  second:
    text: So?
    why: To know.
    answers: { a: { text: A, go: third }, unsure: { text: Not sure, go: end } }
  third:
    text: So?
    why: To know.
    answers: { a: { text: A, go: own }, unsure: { text: Not sure, go: far } }
endings:
  end: { title: End, text: Talk. }
  start: { title: Start, text: Talk. }
  own: { title: Own, text: Talk. }
  far: { title: Far, text: Talk. }
`

// What only a lost question leads to is named with it, once, and has no finding of its own.
func TestWhatIsLostTogether(t *testing.T) {
	for _, c := range []struct {
		name, old, new string
		want           []string // question or ending, and what is lost with it
	}{
		{"a chain", "", "", []string{`question "lost" cannot be reached from the start|only this leads on to "second", "own", "third", "far"`}},
		{"an ending alone", "  lost:", "  kept:", nil},
		{"nothing behind", "go: second }, unsure: { text: Not sure, go: own }", "go: end }, unsure: { text: Not sure, go: end }",
			[]string{`question "lost" cannot be reached from the start|`, `question "second" cannot be reached from the start|only this leads on to "third", "own", "far"`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			src := strings.Replace(lostTree, c.old, c.new, 1)
			if c.want == nil {
				src = lostTree[:strings.Index(lostTree, "  lost:")] + lostTree[strings.Index(lostTree, "endings:"):]
				c.want = []string{`ending "far" cannot be reached from the start|`, `ending "own" cannot be reached from the start|`}
			}
			var list finding.List
			tr := tree.Parse("trees/random.yaml", []byte(header+src), &list)
			proved(t, tr, &list)
			var got []string
			for _, f := range list.Sorted() {
				got = append(got, f.Text+"|"+strings.Join(f.Help[1:], "|"))
			}
			slices.Sort(got)
			slices.Sort(c.want)
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// The last route of several is never taken; what stands behind it is named.
func TestRouteNeverTaken(t *testing.T) {
	body := `questions:
  q0:
    text: So?
    why: To know.
    measure: { unit: mm, from: 0, to: 9, step: 1 }
    skip: end
    routes: [{ if: q0 < 4*mm, go: end }, { if: q0 >= 4*mm, go: end }, { go: %s }]
endings:
  end: { title: End, text: Talk. }
  other: { title: Other, text: Talk. }
`
	for to, want := range map[string][]string{
		"other": {`dead-route|leave it out|as it is, nothing leads to "other"`},
		"end":   {`dead-route|leave it out`, `unreached|lead an answer to it, or remove it`},
	} {
		var list finding.List
		tr := tree.Parse("trees/random.yaml", []byte(header+fmt.Sprintf(body, to)), &list)
		proved(t, tr, &list)
		var got []string
		for _, f := range list.Sorted() {
			if f.Check != "idle-question" {
				got = append(got, f.Check+"|"+strings.Join(f.Help, "|"))
			}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("to %s:\n%s", to, diff)
		}
	}
}

// A worked example is held against its tree only where all it names is known.
func TestExamples(t *testing.T) {
	body := `questions:
  q0:
    text: So?
    why: To know.
    answers: { a: { text: A, go: q1, cards: [c0] }, unsure: { text: Not sure, go: end } }
  q1:
    text: So?
    why: To know.
    pick: any
    answers: { a: { text: A, go: far }, b: { text: B, go: end, cards: [c1] }, unsure: { text: Not sure, go: end } }
endings:
  end: { title: End, text: Talk. }
  far: { title: Far, text: Talk. }
examples:
  - { who: One, answers: %s, ending: %s, cards: %s }
`
	for _, c := range []struct{ answers, ending, cards, want string }{
		{"{ q0: unsure }", "end", "[]", ""},
		{"{ q0: a, q1: [a] }", "far", "[c0]", ""},
		{"{ q0: a, q1: [b] }", "end", "[c0, c1]", ""},
		{"{ q0: a, q1: [b] }", "end", "[c0]", `the example picks up the card "c1", and does not list it`},
		{"{ q0: a, q1: [a] }", "far", "[c0, c1]", `the example lists the card "c1", and its path does not add it`},
		{"{ q0: a, q1: [a] }", "far", "[c0, strange]", ""}, // a card that is not known has been reported
		{"{ q0: a, q1: [a] }", "nowhere", "[c0]", "ending"},
		{"{ q0: a }", "far", "[c0]", `the example stops at question "q1", which it does not answer`},
		{"{ q0: unsure, q1: [a] }", "end", "[]", `the example answers "q1", and its path does not come by that question`},
		{"{ q0: a, q1: [a] }", "end", "[c0]", `the example lands at "far", and "end" was expected`},
		{"{ q0: odd, q1: [a] }", "end", "[c0]", "odd"},
	} {
		var list finding.List
		tr := tree.Parse("trees/random.yaml", fmt.Appendf([]byte(header), body, c.answers, c.ending, c.cards), &list)
		if tr == nil {
			t.Fatal(list.Sorted())
		}
		proof.Examples(tr, func(id string) bool { return id == "c0" || id == "c1" }, &list)
		got := list.Sorted()
		switch {
		case c.want == "" && len(got) > 0:
			t.Errorf("%+v: %v", c, got)
		case c.want != "" && (len(got) != 1 || !strings.Contains(got[0].Text, c.want)):
			t.Errorf("%+v: %v", c, got)
		}
	}
}

// So are more states than may be kept: each of 17 answers is asked for at the end.
func TestTooManyStates(t *testing.T) {
	var all []string
	for j := range 17 {
		all = append(all, fmt.Sprintf(`q%d == "a"`, j))
	}
	body := many(18, func(i int) string {
		if i < 17 {
			return fmt.Sprintf("    answers: { a: { text: A }, b: { text: B } }\n    skip: q%d\n    routes: [{ go: q%d }]\n", i+1, i+1)
		}
		return "    answers: { a: { text: A } }\n    skip: end\n    routes: [{ if: '" + strings.Join(all, " && ") + "', go: other }, { go: end }]\n"
	})
	var list finding.List
	tr := tree.Parse("trees/random.yaml", []byte(header+"questions:\n"+body+"endings:\n  end: { title: End, text: Talk. }\n  other: { title: Other, text: Talk. }\n"), &list)
	proved(t, tr, &list)
	if fs := list.Sorted(); len(fs) != 1 || fs[0].Check != "out-of-reach" {
		t.Errorf("findings: %v", fs)
	}
}

// A circle is shown from where it begins, not from the start of the tree.
func TestWayRound(t *testing.T) {
	body := many(3, func(i int) string {
		return "    answers: { a: { text: A, go: " + []string{"q1", "q2", "q1"}[i] + " }, unsure: { text: Not sure, go: end } }\n"
	})
	var list finding.List
	tr := tree.Parse("trees/random.yaml", []byte(header+"questions:\n"+body+"endings:\n  end: { title: End, text: Talk. }\n"), &list)
	proved(t, tr, &list)
	if fs := list.Sorted(); len(fs) != 1 || fs[0].Help[0] != "the way round: q1 -> q2 -> q1" {
		t.Errorf("findings: %v", fs)
	}
}
