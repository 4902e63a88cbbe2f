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

// conditionalTree writes a small tree with measures, values, routes and
// conditions on earlier answers, sound and unsound ones alike.
func conditionalTree(rnd *rand.Rand) string {
	g := &treeMaker{rnd: rnd, n: 2 + rnd.IntN(3), ends: 2 + rnd.IntN(2)}
	var b strings.Builder
	for i := range g.n {
		fmt.Fprintf(&b, "  q%d:\n    text: So?\n    why: To know.\n", i)
		switch kind := rnd.IntN(3); kind {
		case 0:
			g.measures = append(g.measures, i)
			fmt.Fprintf(&b, "    measure: { unit: mm, from: 0, to: %d, step: 1 }\n    skip: %s\n", 4+rnd.IntN(5), g.to(i))
			b.WriteString(g.ways(i))
		default:
			g.choices = append(g.choices, i)
			if kind == 2 {
				g.several = append(g.several, i)
				b.WriteString("    pick: any\n")
			}
			b.WriteString(g.answers(i))
		}
	}
	values := ""
	if len(g.measures) > 0 {
		values = fmt.Sprintf("values:\n  half: q%d/2\n  both: %s\n", g.measures[0], g.sum())
	}
	out := header + values + "questions:\n" + b.String() + "endings:\n"
	for i := range g.ends {
		out += fmt.Sprintf("  e%d: { title: End, text: Talk. }\n", i)
	}
	return out
}

type treeMaker struct {
	rnd                        *rand.Rand
	n, ends                    int
	measures, choices, several []int // questions made so far
}

// to gives a later question or an ending.
func (g *treeMaker) to(i int) string {
	if k := i + 1 + g.rnd.IntN(g.n-i+1); k < g.n {
		return fmt.Sprintf("q%d", k)
	}
	return fmt.Sprintf("e%d", g.rnd.IntN(g.ends))
}

func (g *treeMaker) answers(i int) string {
	var b strings.Builder
	routed := g.rnd.IntN(2) == 0
	b.WriteString("    answers:\n")
	for j := range 1 + g.rnd.IntN(3) {
		extra := ""
		if !routed || g.rnd.IntN(3) == 0 {
			extra = ", go: " + g.to(i)
		}
		fmt.Fprintf(&b, "      a%d: { text: So%s }\n", j, extra)
	}
	if routed {
		unsure := ""
		if g.rnd.IntN(3) == 0 {
			unsure = ", go: " + g.to(i)
		}
		fmt.Fprintf(&b, "      unsure: { text: Not sure%s }\n%s", unsure, g.ways(i))
	} else {
		fmt.Fprintf(&b, "      unsure: { text: Not sure, go: %s }\n", g.to(i))
	}
	return b.String()
}

// ways writes routes, mostly with a last one without a condition.
func (g *treeMaker) ways(i int) string {
	var b strings.Builder
	b.WriteString("    routes:\n")
	n := g.rnd.IntN(3)
	if slices.Contains(g.measures, i) && g.rnd.IntN(3) == 0 { // two that part the range
		at := 1 + g.rnd.IntN(3)
		fmt.Fprintf(&b, "      - { if: q%d < %d*mm, go: %s }\n      - { if: q%d >= %d*mm, go: %s }\n", i, at, g.to(i), i, at, g.to(i))
		if g.rnd.IntN(2) == 0 {
			return b.String()
		}
		n = 0
	}
	for range n {
		fmt.Fprintf(&b, "      - { if: '%s', go: %s }\n", g.condition(2), g.to(i))
	}
	if n == 0 || g.rnd.IntN(3) > 0 {
		fmt.Fprintf(&b, "      - { go: %s }\n", g.to(i))
	}
	return b.String()
}

func (g *treeMaker) condition(depth int) string {
	if depth > 0 && g.rnd.IntN(2) == 0 {
		switch g.rnd.IntN(5) {
		case 0:
			return "!(" + g.condition(depth-1) + ")"
		case 1, 2:
			return "(" + g.condition(depth-1) + ") || (" + g.condition(depth-1) + ")"
		}
		return "(" + g.condition(depth-1) + ") && (" + g.condition(depth-1) + ")"
	}
	sign := []string{"<", "<=", ">", ">=", "==", "!="}[g.rnd.IntN(6)]
	if len(g.measures) > 0 && (len(g.choices) == 0 || g.rnd.IntN(2) == 0) {
		name := fmt.Sprintf("q%d", g.measures[g.rnd.IntN(len(g.measures))])
		switch g.rnd.IntN(5) {
		case 0:
			name = "half"
		case 1:
			name = "both"
		case 2:
			return fmt.Sprintf("12*mm/%s %s 3", name, sign) // no number at 0
		}
		return fmt.Sprintf("%s %s %d*mm", name, sign, g.rnd.IntN(10))
	}
	q := g.choices[g.rnd.IntN(len(g.choices))]
	if slices.Contains(g.several, q) {
		return fmt.Sprintf(`has(q%d, "a0")`, q)
	}
	return fmt.Sprintf(`q%d %s "a0"`, q, []string{"==", "!="}[g.rnd.IntN(2)])
}

func (g *treeMaker) sum() string {
	return fmt.Sprintf("q%d + q%d", g.measures[g.rnd.IntN(len(g.measures))], g.measures[g.rnd.IntN(len(g.measures))])
}

// What the proof says of small trees with measures and conditions, against
// trying every answer that a reader could give: each amount of each measure,
// each set of answers.
func TestProofAgainstEveryAnswer(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 38))
	seen := map[string]int{}
	for i := range 600 {
		src := conditionalTree(rnd)
		var list finding.List
		tr := tree.Parse("trees/random.yaml", []byte(src), &list)
		if list.Len() > 0 {
			t.Fatalf("tree %d is not sound: %v\n%s", i, list.Sorted(), src)
		}
		p := proved(t, tr, &list)
		b := tryAll(tr)
		var said []string
		for _, f := range list.Sorted() {
			if f.Check == "out-of-reach" {
				t.Fatalf("tree %d is out of reach\n%s", i, src)
			}
			said = append(said, f.Check)
		}
		fail := func(what string, want, got any) {
			t.Helper()
			if diff := cmp.Diff(want, got); diff != "" {
				t.Fatalf("tree %d, %s, by trying (-) and by the proof (+):\n%s\n%v\n%s", i, what, diff, list.Sorted(), src)
			}
		}
		fail("places", slices.Sorted(maps.Keys(b.reached)), slices.Sorted(maps.Keys(p.Witness)))
		for id, steps := range b.reached {
			fail("the way to "+id, steps, len(p.Witness[id]))
			mustReach(t, tr, id, p.Witness[id])
		}
		fail("longest", b.longest, p.Longest)
		ways := map[string]bool{}
		for answers := range proof.AllPaths(tr) {
			path, err := tr.Walk(answers)
			if err != nil || path.Ending == "" {
				t.Fatalf("tree %d: %v %v", i, answers, err)
			}
			ways[way(path)] = true
			seen["paths"]++
		}
		fail("ways", slices.Sorted(maps.Keys(b.ways)), slices.Sorted(maps.Keys(ways)))
		fail("paths", fmt.Sprint(b.paths), p.Paths.String())
		if slices.ContainsFunc(tr.Questions, func(q *tree.Question) bool { return q.Measure != nil }) {
			seen["counted amounts"]++
		}
		fail("gaps", len(b.gaps), count(said, "route-gap"))
		fail("overlaps", len(b.overlap), count(said, "route-overlap"))
		fail("dead conditions", b.dead(tr), count(said, "dead-condition"))
		fail("dead routes", b.deadRoutes(tr), count(said, "dead-route"))
		if !slices.ContainsFunc(said, func(c string) bool { return strings.HasPrefix(c, "route-") || strings.HasPrefix(c, "dead-") }) && !b.lost(tr) {
			// Of idle questions that ask for each other only the last is named.
			fail("idle questions", b.idle(tr) > 0, count(said, "idle-question") > 0)
			for _, f := range list.Sorted() {
				if f.Check == "idle-question" && !b.isIdle(strings.Split(f.Text, `"`)[1]) {
					t.Fatalf("tree %d: %s\n%s", i, f.Text, src)
				}
			}
			seen["sound routes"]++
		}
		for _, c := range slices.Compact(said) {
			seen[c]++
		}
	}
	for _, want := range []string{"route-gap", "route-overlap", "dead-condition", "dead-route", "idle-question", "unreached", "counted amounts"} {
		if seen[want] < 15 {
			t.Errorf("%s came up %d times: the trees are too plain; %v", want, seen[want], seen)
		}
	}
	t.Log(seen)
}

func count(all []string, one string) int {
	n := 0
	for _, s := range all {
		if s == one {
			n++
		}
	}
	return n
}

// tried is what trying every answer shows.
type tried struct {
	reached map[string]int // least questions before a question or an ending
	ways    map[string]bool
	longest int
	paths   int
	gaps    map[string]bool
	overlap map[string]bool
	was     map[*formula.Expr]bool // parts of conditions that were true once
	wasNot  map[*formula.Expr]bool
	asked   map[*tree.Question]bool               // its routes decided once
	last    map[*tree.Question]bool               // its last route was taken once
	follows map[string]map[string]map[string]bool // question, all that can follow it: what follows each of its answers
}

// tryAll walks the tree with every answer. It shares nothing with the proof but
// the meaning of a single walk.
func tryAll(tr *tree.Tree) *tried {
	b := &tried{reached: map[string]int{}, ways: map[string]bool{}, gaps: map[string]bool{}, overlap: map[string]bool{},
		was: map[*formula.Expr]bool{}, wasNot: map[*formula.Expr]bool{}, asked: map[*tree.Question]bool{}, last: map[*tree.Question]bool{}, follows: map[string]map[string]map[string]bool{}}
	b.visit(tr, tr.Start.S, map[string]formula.Value{}, nil)
	return b
}

// visit gives all that can follow from a place on.
func (b *tried) visit(tr *tree.Tree, at string, known map[string]formula.Value, path []string) string {
	if n, ok := b.reached[at]; !ok || len(path) < n {
		b.reached[at] = len(path)
	}
	q := tr.Question(at)
	if q == nil {
		b.paths++
		b.longest = max(b.longest, len(path))
		b.ways[strings.Join(append(path, at), " > ")] = true
		return at
	}
	path = append(slices.Clone(path), at)
	var all strings.Builder
	same := map[string]bool{}
	for _, chosen := range everyAnswer(q) {
		more := maps.Clone(known)
		more[at] = meaning(q, chosen)
		k := tr.KnownWith(more)
		b.routes(q, chosen, k)
		to, _ := q.Next(chosen, k)
		if to == "" {
			b.longest = max(b.longest, len(path))
			continue
		}
		next := b.visit(tr, to, more, path)
		same[next] = true
		fmt.Fprintf(&all, "%s=%s;", strings.Join(chosen, ","), next)
	}
	if b.follows[at] == nil {
		b.follows[at] = map[string]map[string]bool{}
	}
	out := at + "(" + all.String() + ")"
	b.follows[at][out] = same
	return out
}

// everyAnswer lists each amount, or each set of answers, and the skip.
func everyAnswer(q *tree.Question) [][]string {
	var out [][]string
	switch {
	case q.Measure != nil:
		for i := range q.Measure.Answers() {
			out = append(out, []string{q.Measure.Typed(i)})
		}
	case q.Pick == tree.PickAny:
		for mask := 1; mask < 1<<len(q.Answers); mask++ {
			var set []string
			for j, a := range q.Answers {
				if mask&(1<<j) != 0 {
					set = append(set, a.ID.S)
				}
			}
			if q.Accepts(set) == nil {
				out = append(out, set)
			}
		}
	default:
		for _, a := range q.Answers {
			out = append(out, []string{a.ID.S})
		}
	}
	if q.Skip.Given() {
		out = append(out, []string{tree.Skip})
	}
	return out
}

func meaning(q *tree.Question, chosen []string) formula.Value {
	switch {
	case chosen[0] == tree.Skip || slices.Contains(chosen, tree.Unsure):
		return formula.Value{}
	case q.Measure != nil:
		v, err := q.Measure.Read(chosen[0])
		if err != nil {
			panic(err)
		}
		return formula.Of(v.Num)
	}
	return formula.Value{Known: true, Chosen: chosen}
}

// routes notes what the conditions of a question come to.
func (b *tried) routes(q *tree.Question, chosen []string, k *tree.Known) {
	if len(q.Routes) == 0 || chosen[0] == tree.Skip && q.Skip.Given() {
		return
	}
	for _, a := range q.Answers {
		if slices.Contains(chosen, a.ID.S) && a.Go.Given() {
			return
		}
	}
	b.asked[q] = true
	holding, last := 0, false
	for _, r := range q.Routes {
		if r.Else() {
			last = true
			continue
		}
		if r.Holds(k.Value) {
			holding++
		}
		b.note(r.If.Expr, k)
	}
	switch {
	case holding == 0 && last:
		b.last[q] = true
	case holding == 0:
		b.gaps[q.ID.S] = true
	}
	if holding > 1 {
		b.overlap[q.ID.S] = true
	}
}

func (b *tried) note(e *formula.Expr, k *tree.Known) {
	v := e.Eval(k.Value)
	if v.Known && v.Truth {
		b.was[e] = true
	} else {
		b.wasNot[e] = true
	}
	if e.Op == "&&" || e.Op == "||" {
		b.note(e.Args[0], k)
		b.note(e.Args[1], k)
	}
}

// dead counts the outermost parts of conditions that never changed.
func (b *tried) dead(tr *tree.Tree) int {
	n := 0
	for _, q := range tr.Questions {
		if b.gaps[q.ID.S] || b.overlap[q.ID.S] || !b.asked[q] {
			continue
		}
		for _, r := range q.Routes {
			if !r.Else() && !b.lacks(tr, r.If.Expr) {
				n += b.deadParts(r.If.Expr)
			}
		}
	}
	return n
}

// deadRoutes counts the questions whose routes, or the last of them, are never
// taken and that have no dead condition to say so.
func (b *tried) deadRoutes(tr *tree.Tree) int {
	n := 0
	for _, q := range tr.Questions {
		if _, ok := b.reached[q.ID.S]; !ok || len(q.Routes) == 0 || b.gaps[q.ID.S] || b.overlap[q.ID.S] {
			continue
		}
		dead := 0
		for _, r := range q.Routes {
			if !r.Else() && b.asked[q] && !b.lacks(tr, r.If.Expr) {
				dead += b.deadParts(r.If.Expr)
			}
		}
		if !b.asked[q] || q.Routes[len(q.Routes)-1].Else() && !b.last[q] && dead == 0 {
			n++
		}
	}
	return n
}

func (b *tried) deadParts(e *formula.Expr) int {
	switch {
	case !b.was[e] || !b.wasNot[e]:
		return 1
	case e.Op == "&&" || e.Op == "||":
		return b.deadParts(e.Args[0]) + b.deadParts(e.Args[1])
	}
	return 0
}

// idle counts the questions that change nothing wherever they are asked.
func (b *tried) idle(tr *tree.Tree) int {
	n := 0
	for _, q := range tr.Questions {
		if b.isIdle(q.ID.S) {
			n++
		}
	}
	return n
}

func (b *tried) isIdle(question string) bool {
	for _, same := range b.follows[question] {
		if len(same) > 1 {
			return false
		}
	}
	return len(b.follows[question]) > 0
}

// lost tells whether some condition rests on a question that nobody is asked.
func (b *tried) lost(tr *tree.Tree) bool {
	return slices.ContainsFunc(tr.Questions, func(q *tree.Question) bool {
		return slices.ContainsFunc(q.Routes, func(r *tree.Route) bool { return !r.Else() && b.lacks(tr, r.If.Expr) })
	})
}

// lacks tells whether a condition rests on a question that nobody is asked.
func (b *tried) lacks(tr *tree.Tree, e *formula.Expr) bool {
	for _, name := range e.Uses() {
		if w := slices.IndexFunc(tr.Values, func(w *tree.Worked) bool { return w.ID.S == name }); w >= 0 {
			if b.lacks(tr, tr.Values[w].Is.Expr) {
				return true
			}
		} else if _, ok := b.reached[name]; !ok {
			return true
		}
	}
	return false
}

func way(p tree.Path) string {
	var out []string
	for _, s := range p.Steps {
		out = append(out, s.Question)
	}
	return strings.Join(append(out, p.Ending), " > ")
}
