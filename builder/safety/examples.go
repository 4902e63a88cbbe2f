package safety

import (
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/read"
)

// Answers gives what the example tells. Every group that is opened and of which
// it names nothing is answered "none".
func (s *Screen) Answers(e *Example) Answers {
	a := Answers{Leg: e.Leg.S, Gate: read.Strings(e.Gate), Groups: map[string][]string{}}
	for _, t := range e.Told {
		group, sign := strings.TrimSuffix(t.S, "/"+NotSure), NotSure
		if found, g := s.Sign(t.S); found != nil {
			group, sign = g.ID.S, t.S
		}
		a.Groups[group] = append(a.Groups[group], sign)
	}
	for _, g := range s.Groups {
		if g.Asked(a.Leg) && (len(a.Gate) == 0 || a.opens(g)) && len(a.Groups[g.ID.S]) == 0 {
			a.Groups[g.ID.S] = []string{None}
		}
	}
	return a
}

// prove reports an example that is not answered as the screen asks, or is not
// told what it says.
func (p *parser) prove(e *Example) {
	a := p.s.Answers(e)
	if err := p.s.Accepts(a); err != nil {
		p.list.Add(e.Who.At, "example", "the example does not answer what the screen asks: "+err.Error(), "write ids of groups under gate:, and of signs under told:")
		return
	}
	whole := len(e.Gate) == 0
	if step := p.s.Next(a, whole); step.Ask != Help && step.Ask != Done {
		p.list.Add(e.Who.At, "example", fmt.Sprintf("the example stops at the %s %s", step.Ask, step.Group), "answer it")
		return
	}
	for id := range a.Groups {
		if g := p.s.Group(id); !whole && !a.opens(g) {
			p.list.Add(e.Who.At, "example", fmt.Sprintf("the example tells a sign of group %q, and the gate did not open it", id), "add it to gate:")
			return
		}
	}
	p.proveGathered(e, p.s.Gather(a))
}

func (p *parser) proveGathered(e *Example, got Gathered) {
	ending := string(got.When)
	if ending == "" {
		ending = None
	}
	if e.Ending.S != ending {
		p.list.Add(e.Ending.At, "example", fmt.Sprintf("the example lands at %q, and %q was expected", ending, e.Ending.S), "change what it tells, or its ending")
	}
	var said []string
	for _, d := range got.Said {
		said = append(said, d.String())
	}
	if want := read.Strings(e.Cautions); !slices.Equal(said, want) {
		p.list.Add(e.Who.At, "example", fmt.Sprintf("the example is shown the cautions %s, and %s were expected", listed(said), listed(want)), "list them in the order in which they are shown: the gravest first")
	}
}

func listed(ids []string) string {
	if len(ids) == 0 {
		return "of no sign"
	}
	return strings.Join(ids, ", ")
}
