package told_test

import (
	"encoding/json"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/clienttest"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/library"
	"keelpath/builder/proof"
	"keelpath/builder/quantity"
	"keelpath/builder/told"
	"keelpath/builder/tree"
)

// forScript is a sitting as the script has it.
type forScript struct {
	Trees   []tree.Table            `json:"trees"`
	Facts   map[string]factTable    `json:"facts"`
	Taken   []string                `json:"taken"`
	Answers map[string]tree.Answers `json:"answers"`
	Asked   []string                `json:"asked"`
	Units   quantity.Tables         `json:"units"`
}

type factTable struct {
	Of string `json:"of,omitempty"`
}

func patients(l *library.Library) []*tree.Tree {
	return slices.DeleteFunc(slices.Clone(l.Trees), func(t *tree.Tree) bool { return t.Audience.S != "patient" })
}

func sitting(l *library.Library) *told.Sitting {
	return &told.Sitting{Trees: patients(l), Facts: l.Facts, Taken: []string{}, Answers: map[string]tree.Answers{}, Asked: []string{}}
}

func tableOf(s *told.Sitting) forScript {
	out := forScript{Facts: map[string]factTable{}, Taken: s.Taken, Answers: s.Answers, Asked: s.Asked, Units: quantity.Table()}
	for _, t := range s.Trees {
		out.Trees = append(out.Trees, t.Table(nil))
	}
	for _, f := range s.Facts {
		out.Facts[f.ID.S] = factTable{f.Of.S}
	}
	return out
}

// A draw of what a reader does next.
type draw struct {
	rnd *rand.Rand
	s   *told.Sitting
}

// shared are topics that ask for facts which others ask for too.
var shared = []string{"hills-and-ramps", "motion-or-push", "work", "where-to-start"}

func (d *draw) tree() *tree.Tree {
	if d.rnd.IntN(4) > 0 {
		return trees(d.s, shared[d.rnd.IntN(len(shared))])
	}
	return d.s.Trees[d.rnd.IntN(len(d.s.Trees))]
}

// plans are ways through each topic that tell most of what other topics ask for too.
var plans = map[string][]tree.Answers{}

func (d *draw) plan(t *tree.Tree) tree.Answers {
	if plans[t.ID.S] == nil {
		all := slices.Collect(proof.SomePaths(t, 60, 1))
		tells := func(given tree.Answers) (n int) {
			for q, chosen := range given {
				for _, f := range told.By(t.Question(q), chosen) {
					if slices.Contains([]string{"slope", "one-leg", "both-legs"}, f) {
						n++
					}
				}
			}
			return n
		}
		slices.SortStableFunc(all, func(a, b tree.Answers) int { return tells(b) - tells(a) })
		plans[t.ID.S] = all[:min(8, len(all))]
	}
	some := plans[t.ID.S]
	return some[d.rnd.IntN(len(some))]
}

// leads gives the plan's answer, or another one.
func (d *draw) leads(plan tree.Answers, q *tree.Question) []string {
	if chosen, ok := plan[q.ID.S]; ok && d.rnd.IntN(8) > 0 {
		return chosen
	}
	return d.answer(q)
}

// question gives one on the path of a topic taken, the open one more often than not.
func (d *draw) question(t *tree.Tree) *tree.Question {
	path, err := t.Walk(d.s.Answers[t.ID.S])
	if err != nil {
		panic(err) // a sitting holds only answers that its topics take
	}
	if n := len(path.Steps); path.Ending != "" || n > 0 && d.rnd.IntN(5) == 0 {
		return t.Question(path.Steps[d.rnd.IntN(n)].Question)
	}
	return t.Question(path.Open)
}

func (d *draw) answer(q *tree.Question) []string {
	if q.Skip.Given() && d.rnd.IntN(6) == 0 {
		return []string{tree.Skip}
	}
	if m := q.Measure; m != nil {
		if n := len(m.Likes); n > 0 && d.rnd.IntN(2) == 0 {
			return []string{m.Likes[d.rnd.IntN(n)].ID.S}
		}
		return []string{m.Typed(d.rnd.IntN(m.Answers()))}
	}
	for {
		var out []string
		for _, a := range q.Answers {
			if d.rnd.IntN(len(q.Answers)) == 0 {
				out = append(out, a.ID.S)
			}
		}
		if q.Accepts(out) == nil {
			return out
		}
	}
}

// Sittings drawn from a seed, through Go and through the browser's copy: after each
// step the same answers, the same facts in the same words, the same told before.
func TestBrowserTellsTheSame(t *testing.T) {
	l := librarytest.Load(t)
	script := clienttest.Load(t, "walk/told.ts")
	rnd := rand.New(rand.NewPCG(5, 11))
	carried, taken := 0, 0
	for range 10 {
		s := sitting(l)
		in := script.Value(tableOf(s))
		d := &draw{rnd, s}
		for range 7 {
			tr := d.tree()
			id := tr.ID.S
			s.Begin(id)
			if _, err := script.Call("begin", in, script.Value(id)); err != nil {
				t.Fatal(err)
			}
			plan := d.plan(tr)
			for range 12 {
				if path, _ := tr.Walk(s.Answers[id]); path.Ending != "" && rnd.IntN(4) > 0 {
					break // what was carried over stays as it is, more often than not
				}
				q := d.question(tr)
				chosen := d.leads(plan, q)
				s.Answer(id, q.ID.S, chosen)
				if _, err := script.Call("answer", in, script.Value(id), script.Value(q.ID.S), script.Value(chosen)); err != nil {
					t.Fatal(err)
				}
			}
			var got forScript
			script.Into(in, &got)
			if diff := cmp.Diff(flat(s.Answers), flat(got.Answers)) + cmp.Diff(s.Taken, got.Taken) + cmp.Diff(s.Asked, got.Asked); diff != "" {
				t.Fatalf("Go and the script differ:\n%s", diff)
			}
			v, err := script.Call("told", in)
			if err != nil {
				t.Fatal(err)
			}
			var facts map[string]told.Telling
			script.Into(v, &facts)
			if diff := cmp.Diff(s.Told(), facts); diff != "" {
				t.Fatalf("other facts are told:\n%s", diff)
			}
			agrees(t, s)
			for _, id := range s.Taken {
				path, _ := trees(s, id).Walk(s.Answers[id])
				for _, step := range path.Steps {
					v, err := script.Call("before", in, script.Value(id), script.Value(step.Question))
					if err != nil || v.ToBoolean() != s.Before(id, step.Question) {
						t.Fatalf("%s/%s: told before in Go: %v, in the script: %v %v", id, step.Question, s.Before(id, step.Question), v, err)
					}
					if taken++; s.Before(id, step.Question) {
						carried++
					}
				}
			}
		}
	}
	t.Logf("%d of %d steps were carried over", carried, taken)
	if carried < 10 {
		t.Errorf("only %d steps were carried over; the draws say too little", carried)
	}
}

// flat leaves out topics without an answer, which the one side has and the other not.
func flat(all map[string]tree.Answers) map[string]tree.Answers {
	out := maps.Clone(all)
	maps.DeleteFunc(out, func(_ string, a tree.Answers) bool { return len(a) == 0 })
	return out
}

// agrees holds a sitting to its rule: no fact is two different amounts, and each
// answer is one that its question takes.
func agrees(t *testing.T, s *told.Sitting) {
	t.Helper()
	amounts := map[string]quantity.Value{}
	for _, id := range s.Taken {
		tr := trees(s, id)
		path, err := tr.Walk(s.Answers[id])
		if err != nil {
			t.Fatalf("%s: %v", id, err)
		}
		for _, step := range path.Steps {
			q := tr.Question(step.Question)
			if q.Measure == nil || step.Chosen[0] == tree.Skip {
				continue
			}
			v, err := q.Measure.Read(step.Chosen[0])
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range q.Tells {
				if was, ok := amounts[f.S]; ok && was.Num != v.Num {
					t.Fatalf("%s is %v and %v", f.S, was, v)
				}
				amounts[f.S] = v
			}
		}
	}
}

func trees(s *told.Sitting, id string) *tree.Tree {
	return s.Trees[slices.IndexFunc(s.Trees, func(t *tree.Tree) bool { return t.ID.S == id })]
}

// A slope told on hills is not asked again where motion or push asks for it; changed
// there, it is changed on hills; taken back, it is taken back.
func TestASlopeIsToldOnce(t *testing.T) {
	s := sitting(librarytest.Load(t))
	s.Begin("hills-and-ramps")
	hills := func(chosen ...string) {
		path, _ := trees(s, "hills-and-ramps").Walk(s.Answers["hills-and-ramps"])
		s.Answer("hills-and-ramps", path.Open, chosen)
	}
	for path, _ := trees(s, "hills-and-ramps").Walk(nil); path.Open != "steepness"; path, _ = trees(s, "hills-and-ramps").Walk(s.Answers["hills-and-ramps"]) {
		hills(map[string]string{"change": "no", "where": "home", "safety": "no"}[path.Open])
	}
	hills("16 %")
	s.Begin("motion-or-push")
	at := func() string {
		return strings.Join(append(slices.Clone(s.Answers["hills-and-ramps"]["steepness"]), s.Answers["motion-or-push"]["steepness"]...), "|")
	}
	if got := at(); got != "16 %|16 %" || !s.Before("motion-or-push", "steepness") || s.Before("hills-and-ramps", "steepness") {
		t.Errorf("after hills: %s", got)
	}
	s.Answer("motion-or-push", "steepness", []string{"1 in 10"})
	if got := at(); got != "1 in 10|1 in 10" || s.Before("motion-or-push", "steepness") {
		t.Errorf("changed in motion or push: %s", got)
	}
	s.Answer("hills-and-ramps", "steepness", []string{"trail"})
	if got := at(); got != "trail|1:8" {
		t.Errorf("a like that the other question has not: %s", got)
	}
	s.Answer("hills-and-ramps", "steepness", []string{tree.Skip})
	if got := at(); got != "skip|skip" {
		t.Errorf("taken back: %s", got)
	}
}

// What a file or a code brings may hold two amounts of one fact: the first counts.
func TestSettledAnswersAgree(t *testing.T) {
	l := librarytest.Load(t)
	script := clienttest.Load(t, "walk/told.ts")
	rnd := rand.New(rand.NewPCG(7, 3))
	apart := 0
	for range 20 {
		s := sitting(l)
		d := &draw{rnd, s}
		for range 6 { // each topic by itself, as if nothing were carried over
			alone := sitting(l)
			tr := d.tree()
			alone.Begin(tr.ID.S)
			one := &draw{rnd, alone}
			plan := one.plan(tr)
			for range 14 {
				q := one.question(tr)
				alone.Answer(tr.ID.S, q.ID.S, one.leads(plan, q))
			}
			if !slices.Contains(s.Taken, tr.ID.S) {
				s.Taken = append(s.Taken, tr.ID.S)
				s.Answers[tr.ID.S] = alone.Answers[tr.ID.S]
			}
		}
		was, _ := json.Marshal(s.Answers)
		in := script.Value(tableOf(s))
		s.Settle()
		if _, err := script.Call("settle", in); err != nil {
			t.Fatal(err)
		}
		var got forScript
		script.Into(in, &got)
		if diff := cmp.Diff(flat(s.Answers), flat(got.Answers)) + cmp.Diff(s.Asked, got.Asked); diff != "" && len(s.Asked)+len(got.Asked) > 0 {
			t.Fatalf("Go and the script differ:\n%s", diff)
		}
		agrees(t, s)
		if now, _ := json.Marshal(s.Answers); string(was) != string(now) {
			apart++
		}
	}
	if apart < 5 {
		t.Errorf("only %d of the sittings had to be settled", apart)
	}
}
