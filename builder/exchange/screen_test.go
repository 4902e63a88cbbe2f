package exchange

import (
	"encoding/json"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/internal/librarytest"
	"keelpath/builder/safety"
	"keelpath/builder/tree"
)

// screensOf gives the safety screen of each form for patients.
func screensOf(t *testing.T) map[string]*filler {
	t.Helper()
	out := map[string]*filler{}
	for _, w := range written(t, librarytest.Load(t)) {
		if w.Tree.Audience.S != "patient" {
			continue
		}
		out[w.Tree.ID.S] = newFiller(t, w.JSON)
		var r questionnaire
		if err := json.Unmarshal(w.JSON, &r); err != nil {
			t.Fatal(err)
		}
		if r.Item[1].LinkID != screenLink {
			t.Errorf("%s: the form begins with %q, and not with the safety screen", w.Tree.ID.S, r.Item[1].LinkID)
		}
	}
	return out
}

func screenLinks(f *filler) []string {
	var out []string
	for _, i := range f.items {
		if strings.HasPrefix(i.LinkID, screenLink+".") {
			out = append(out, i.LinkID)
		}
	}
	return out
}

// The screen is one group with the same ids in every form; a form that asks all
// groups lacks the gate, and nothing else.
func TestScreenIsTheSameInEveryForm(t *testing.T) {
	l := librarytest.Load(t)
	screens := screensOf(t)
	want := screenLinks(screens["hills-and-ramps"])
	if len(want) < len(l.Safety.SignIDs()) {
		t.Fatalf("only %d items", len(want))
	}
	for id, f := range screens {
		expected := want
		if l.Tree(id).Safety.S == tree.SafetyWhole {
			expected = slices.DeleteFunc(slices.Clone(want), func(link string) bool { return strings.HasPrefix(link, screenLink+".gate") })
		}
		if got := screenLinks(f); !slices.Equal(got, expected) {
			t.Errorf("%s: %v", id, got)
		}
	}
}

// Whatever is told in a form, each sign told shows its caution, and no other
// does; what is said of the leg appears for those alone who wear one.
func TestFormsShowEveryCaution(t *testing.T) {
	s := librarytest.Load(t).Safety
	r := rand.New(rand.NewPCG(1, 2))
	for id, f := range screensOf(t) {
		for range 300 {
			a := randomAnswers(r, s)
			on := f.show(screenReplies(s, a))
			for _, g := range s.Groups {
				told := a.Groups[g.ID.S]
				for _, sign := range g.Signs {
					link := screenLink + "." + g.ID.S + "." + sign.ID.S
					asked := g.Asked(a.Leg) && (!sign.Leg || a.Leg == safety.Worn)
					if want := asked && slices.Contains(told, sign.ID.S); on[link] != want {
						t.Fatalf("%s: %+v: %s appears: %v", id, a, link, on[link])
					}
					if want := on[link] && a.Leg == safety.Worn && sign.Worn.S != ""; on[link+".worn"] != want {
						t.Fatalf("%s: %+v: %s.worn appears: %v", id, a, link, on[link+".worn"])
					}
				}
				link := screenLink + "." + g.ID.S + "." + safety.NotSure
				if want := g.Asked(a.Leg) && slices.Contains(told, safety.NotSure); on[link] != want {
					t.Fatalf("%s: %+v: %s appears: %v", id, a, link, on[link])
				}
			}
		}
	}
}

// randomAnswers ticks signs at random, and the gate's lines that they need.
func randomAnswers(r *rand.Rand, s *safety.Screen) safety.Answers {
	a := safety.Answers{Leg: safety.LegAnswers[r.IntN(3)], Groups: map[string][]string{}}
	for _, g := range s.Groups {
		for _, id := range append(signIDs(g), safety.NotSure) {
			if r.IntN(4) == 0 {
				a.Groups[g.ID.S] = append(a.Groups[g.ID.S], id)
			}
		}
	}
	a.Gate = slices.Sorted(maps.Keys(a.Groups))
	return a
}

func signIDs(g *safety.Group) []string {
	var out []string
	for _, s := range g.Signs {
		out = append(out, s.ID.S)
	}
	return out
}

// screenReplies fills in what a reader tells; signs of the leg stand in a list
// of their own where the group is for all.
func screenReplies(s *safety.Screen, a safety.Answers) map[string]reply {
	out := map[string]reply{screenLink + ".leg-worn": {codes: []string{a.Leg}}, screenLink + ".gate": {codes: a.Gate}}
	for group, told := range a.Groups {
		var all, worn []string
		for _, id := range told {
			if sign, g := s.Sign(id); sign != nil && sign.Leg && !g.Leg {
				worn = append(worn, id)
			} else {
				all = append(all, id)
			}
		}
		out[screenLink+"."+group+".signs"] = reply{codes: all}
		out[screenLink+"."+group+".leg-signs"] = reply{codes: worn}
	}
	return out
}
