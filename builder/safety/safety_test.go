package safety_test

import (
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/safety"
)

// shipped is the screen of the built-in edition.
func shipped(t testing.TB) *safety.Screen {
	src, err := os.ReadFile("../../trees/safety.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var list finding.List
	s := safety.Parse("trees/safety.yaml", src, &list)
	for _, f := range list.Sorted() {
		t.Error(f)
	}
	if s == nil {
		t.Fatal("no screen")
	}
	return s
}

// take answers the screen step by step as a reader does who has these signs to
// tell, and gives what was asked on the way.
func take(t *testing.T, s *safety.Screen, leg string, whole bool, told []safety.Said) (safety.Answers, []safety.Step) {
	t.Helper()
	a := safety.Answers{Groups: map[string][]string{}}
	var asked []safety.Step
	for range 10 {
		step := s.Next(a, whole)
		asked = append(asked, step)
		switch step.Ask {
		case safety.AskLeg:
			a.Leg = leg
		case safety.AskGate:
			a.Gate = linesFor(told)
		case safety.AskGroup:
			a.Groups[step.Group] = toldIn(step.Group, told)
		default:
			if err := s.Accepts(a); err != nil {
				t.Fatal(err)
			}
			return a, asked
		}
	}
	t.Fatalf("the screen does not end: %v", asked)
	return a, nil
}

// linesFor gives the gate's lines of the groups of what is told.
func linesFor(told []safety.Said) []string {
	var out []string
	for _, d := range told {
		if !slices.Contains(out, d.Group) {
			out = append(out, d.Group)
		}
	}
	if len(out) == 0 {
		return []string{safety.None}
	}
	return out
}

func toldIn(group string, told []safety.Said) []string {
	var out []string
	for _, d := range told {
		if d.Group == group {
			out = append(out, d.Sign)
		}
	}
	if len(out) == 0 {
		return []string{safety.None}
	}
	return out
}

// can gives all that a reader with that leg answer can tell.
func can(s *safety.Screen, leg string) []safety.Said {
	var out []safety.Said
	for _, g := range s.Groups {
		if !g.Asked(leg) {
			continue
		}
		for _, sign := range g.Shown(leg) {
			out = append(out, safety.Said{Group: g.ID.S, Sign: sign.ID.S})
		}
		out = append(out, safety.Said{Group: g.ID.S, Sign: safety.NotSure})
	}
	return out
}

// holds fails unless the screen, taken with these signs, ends with each of
// them, none twice, the gravest first.
func holds(t *testing.T, s *safety.Screen, leg string, whole bool, told []safety.Said) {
	t.Helper()
	a, asked := take(t, s, leg, whole, told)
	got := s.Gather(a)
	for _, d := range told {
		if !slices.Contains(got.Said, d) {
			t.Errorf("%s, %v: %v is lost", leg, told, d)
		}
	}
	if len(got.Said) != len(told) {
		t.Errorf("%s, %v: shown %v", leg, told, got.Said)
	}
	grave := -1
	for _, d := range got.Said {
		now := gravity(s, d)
		if now < grave {
			t.Errorf("%s: %v does not stand before a lighter one: %v", leg, d, got.Said)
		}
		grave = now
	}
	last := asked[len(asked)-1].Ask
	if want := map[bool]safety.Ask{true: safety.Help, false: safety.Done}[len(told) > 0]; last != want {
		t.Errorf("%s, %v: ends with %q", leg, told, last)
	}
}

// gravity is written out here a second time, against a slip in the package.
func gravity(s *safety.Screen, d safety.Said) int {
	sign, _ := s.Sign(d.Sign)
	if sign == nil {
		return 2
	}
	return map[string]int{"now": 0, "crisis": 1, "today": 2, "soon": 3}[sign.When.S]
}

// Every sign, every pair of signs and 10,000 random sets, for each leg answer,
// with and without the gate, end with the caution of each sign told.
func TestNothingIsLost(t *testing.T) {
	s := shipped(t)
	r := rand.New(rand.NewPCG(1, 1))
	for _, leg := range safety.LegAnswers {
		all := can(s, leg)
		for _, whole := range []bool{false, true} {
			holds(t, s, leg, whole, nil)
			for i, one := range all {
				holds(t, s, leg, whole, []safety.Said{one})
				for _, two := range all[i+1:] {
					holds(t, s, leg, whole, []safety.Said{one, two})
				}
			}
		}
		for n := range 10_000 {
			holds(t, s, leg, n%2 == 0, randomSet(r, all))
		}
	}
}

func randomSet(r *rand.Rand, all []safety.Said) []safety.Said {
	var out []safety.Said
	share := r.Float64()
	for _, d := range all {
		if r.Float64() < share {
			out = append(out, d)
		}
	}
	return out
}

// Without a leg nothing is asked of a leg, and the screen takes no answer about it.
func TestWithoutALeg(t *testing.T) {
	s := shipped(t)
	for _, leg := range []string{safety.NotYet, safety.NotNow} {
		for _, d := range can(s, leg) {
			if sign, g := s.Sign(d.Sign); g != nil && (g.Leg || sign.Leg) {
				t.Errorf("%s is asked for the sign %q", leg, d.Sign)
			}
		}
		a := safety.Answers{Leg: leg, Gate: []string{safety.None}, Groups: map[string][]string{"leg": {"crack"}}}
		if s.Accepts(a) == nil {
			t.Errorf("%s: a sign of the leg is accepted", leg)
		}
	}
}

// A sign that an answer of a topic tells is gathered whatever was said of the leg:
// every sign there is, alone and beside all others.
func TestASignToldElsewhereIsGathered(t *testing.T) {
	s := shipped(t)
	all := can(s, safety.Worn)
	for _, leg := range append([]string{""}, safety.LegAnswers...) {
		every := map[string][]string{}
		for _, d := range all {
			every[d.Group] = append(every[d.Group], d.Sign)
			a := safety.Answers{Leg: leg, Gate: []string{safety.None}, Groups: map[string][]string{d.Group: {d.Sign}}}
			if got := s.Gather(a); !slices.Equal(got.Said, []safety.Said{d}) || gravity(s, d) != slices.Index(safety.Whens, string(got.When)) {
				t.Errorf("%q: %v is told, and gathered is %+v", leg, d, got)
			}
		}
		if got := s.Gather(safety.Answers{Leg: leg, Groups: every}); len(got.Said) != len(all) || got.When != safety.Now {
			t.Errorf("%q: %d of %d signs are gathered", leg, len(got.Said), len(all))
		}
	}
}

// "Not sure" at the gate opens every group, "none" opens no group, and without
// the gate all are asked.
func TestGate(t *testing.T) {
	s := shipped(t)
	for _, x := range []struct {
		leg  string
		gate []string
		want []string
	}{
		{safety.Worn, []string{safety.None}, nil},
		{safety.Worn, []string{safety.NotSure}, []string{"help", "skin", "leg", "fall", "despair"}},
		{safety.NotYet, []string{safety.NotSure}, []string{"help", "skin", "fall", "despair"}},
		{safety.Worn, []string{"fall", "skin"}, []string{"skin", "fall"}},
		{safety.Worn, nil, []string{"help", "skin", "leg", "fall", "despair"}},
		{safety.NotNow, nil, []string{"help", "skin", "fall", "despair"}},
	} {
		a := safety.Answers{Leg: x.leg, Gate: x.gate, Groups: map[string][]string{}}
		var asked []string
		for step := s.Next(a, x.gate == nil); step.Ask == safety.AskGroup; step = s.Next(a, x.gate == nil) {
			asked = append(asked, step.Group)
			a.Groups[step.Group] = []string{safety.None}
		}
		if !slices.Equal(asked, x.want) {
			t.Errorf("%s, gate %v: asked %v, want %v", x.leg, x.gate, asked, x.want)
		}
	}
}

// Answers that the screen did not offer are refused.
func TestAccepts(t *testing.T) {
	s := shipped(t)
	for _, a := range []safety.Answers{
		{Leg: "sometimes"},
		{Leg: safety.Worn, Gate: []string{"mood"}},
		{Leg: safety.Worn, Gate: []string{safety.None, "skin"}},
		{Leg: safety.Worn, Gate: []string{"skin", safety.NotSure}},
		{Leg: safety.NotYet, Gate: []string{"leg"}},
		{Leg: safety.Worn, Groups: map[string][]string{"skin": {"crack"}}},
		{Leg: safety.Worn, Groups: map[string][]string{"skin": {"sore", safety.None}}},
		{Leg: safety.Worn, Groups: map[string][]string{"mood": {safety.None}}},
	} {
		if s.Accepts(a) == nil {
			t.Errorf("%+v is accepted", a)
		}
	}
	if err := s.Accepts(safety.Answers{Leg: safety.Worn, Gate: []string{"skin"}, Groups: map[string][]string{"skin": {"sore", safety.NotSure}}}); err != nil {
		t.Error(err)
	}
}
