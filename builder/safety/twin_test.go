package safety_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/dop251/goja"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"keelpath/builder/clienttest"
	"keelpath/builder/safety"
)

// A twin runs the client's copy of the screen.
type twin struct {
	t      *testing.T
	script *clienttest.Script
	s      *safety.Screen
	table  goja.Value
}

func (w twin) call(to any, name string, args ...any) {
	w.t.Helper()
	in := []goja.Value{w.table}
	for _, v := range args {
		in = append(in, w.script.Value(v))
	}
	out, err := w.script.Call(name, in...)
	if err != nil {
		w.t.Fatalf("%s %v: %v", name, args, err)
	}
	w.script.Into(out, to)
}

// agree holds what both make of the answers against each other.
func (w twin) agree(a safety.Answers) {
	w.t.Helper()
	var got safety.Gathered
	w.call(&got, "gather", a)
	want := w.s.Gather(a)
	if diff := cmp.Diff(want, got, cmpopts.EquateEmpty()); diff != "" {
		w.t.Fatalf("%+v: Go (-) and the client (+) gather\n%s", a, diff)
	}
	for _, whole := range []bool{false, true} {
		var step safety.Step
		if w.call(&step, "next", a, whole); step != w.s.Next(a, whole) {
			w.t.Fatalf("%+v, whole %v: Go asks %v next, the client %v", a, whole, w.s.Next(a, whole), step)
		}
	}
	var prompts []string
	if w.call(&prompts, "promptsOf", append([]safety.Said{}, want.Said...)); !slices.Equal(prompts, w.s.Prompts(want)) {
		w.t.Fatalf("%+v: Go brings %v, the client %v", a, w.s.Prompts(want), prompts)
	}
}

// The client's copy asks, gathers and brings what Go does: for every sign, every
// pair of signs, and drawn answers, whole ones and half ones.
func TestClientGathersAsGoDoes(t *testing.T) {
	s := shipped(t)
	script := clienttest.Load(t, "safety/safety.ts")
	w := twin{t, script, s, script.Value(s.Table())}
	r := rand.New(rand.NewPCG(3, 5))
	for _, leg := range safety.LegAnswers {
		all := can(s, leg)
		for i, one := range all {
			for _, two := range all[i:] {
				told := slices.Compact([]safety.Said{one, two})
				a, _ := take(t, s, leg, i%2 == 0, told)
				w.agree(a)
			}
		}
		for range 1_000 {
			a, _ := take(t, s, leg, r.IntN(2) == 0, randomSet(r, all))
			w.agree(a)
		}
	}
	for range 1_000 {
		w.agree(anyAnswers(r, s))
	}
}

// anyAnswers may leave out anything, and may hold what this reader was not asked.
func anyAnswers(r *rand.Rand, s *safety.Screen) safety.Answers {
	a := safety.Answers{Groups: map[string][]string{}}
	if r.IntN(6) > 0 {
		a.Leg = safety.LegAnswers[r.IntN(3)]
	}
	a.Gate = [][]string{nil, {safety.None}, {safety.NotSure}, {"skin"}, {"fall", "leg"}, {"help", "despair"}}[r.IntN(6)]
	for _, d := range randomSet(r, can(s, safety.Worn)) {
		a.Groups[d.Group] = append(a.Groups[d.Group], d.Sign)
	}
	for _, g := range s.Groups {
		if len(a.Groups[g.ID.S]) == 0 && r.IntN(2) == 0 {
			a.Groups[g.ID.S] = []string{safety.None}
		}
	}
	return a
}
