package safety

import (
	"cmp"
	"fmt"
	"slices"
)

// Answers is what a reader has said on the screen so far. Leg is empty and a
// key is missing where nothing was answered yet.
type Answers struct {
	Leg    string              `json:"leg,omitempty"`
	Gate   []string            `json:"gate,omitempty"`   // ids of groups, or None or NotSure alone
	Groups map[string][]string `json:"groups,omitempty"` // by group: ids of signs, with NotSure or not; or None alone
}

// Step is what comes next.
type Step struct {
	Ask   Ask    `json:"ask"`
	Group string `json:"group,omitempty"` // where Ask is AskGroup
}

// Ask is a kind of step.
type Ask string

const (
	AskLeg   Ask = "leg"
	AskGate  Ask = "gate"
	AskGroup Ask = "group"
	Help     Ask = "help" // done, with something told: the gathered ending
	Done     Ask = "done" // done, with nothing told: on to the topic
)

// Next gives the first thing that is not answered. With whole the gate is left
// out and all groups are asked.
func (s *Screen) Next(a Answers, whole bool) Step {
	if a.Leg == "" {
		return Step{Ask: AskLeg}
	}
	if !whole && len(a.Gate) == 0 {
		return Step{Ask: AskGate}
	}
	for _, g := range s.Groups {
		if g.Asked(a.Leg) && (whole || a.opens(g)) && len(a.Groups[g.ID.S]) == 0 {
			return Step{Ask: AskGroup, Group: g.ID.S}
		}
	}
	if len(s.Gather(a).Said) > 0 {
		return Step{Ask: Help}
	}
	return Step{Ask: Done}
}

// opens tells whether the gate's answer opens a group.
func (a Answers) opens(g *Group) bool {
	return slices.Contains(a.Gate, g.ID.S) || slices.Contains(a.Gate, NotSure)
}

// Said is one sign that was told, or a group's "not sure".
type Said struct {
	Group string `json:"group"`
	Sign  string `json:"sign"` // NotSure for a group's "not sure"
}

// String gives it as examples write it: "crack", "skin/unsure".
func (d Said) String() string {
	if d.Sign == NotSure {
		return d.Group + "/" + NotSure
	}
	return d.Sign
}

// Gathered is all that was told, the gravest first. When is that of the
// gravest, and empty where nothing was told.
type Gathered struct {
	When When   `json:"when,omitempty"`
	Said []Said `json:"said,omitempty"`
}

// Gather brings together every sign told. None is left out, whatever else was
// told and whichever way it came to be told: an answer of a topic can tell a sign
// of the leg to who said that they wear none now. What is asked, and the words of
// a leg that is worn, go by that answer; what was told does not. Signs of equal
// gravity stand in the order of the file, a group's "not sure" behind its signs.
func (s *Screen) Gather(a Answers) Gathered {
	var out Gathered
	for _, g := range s.Groups {
		told := a.Groups[g.ID.S]
		for _, sign := range g.Signs {
			if slices.Contains(told, sign.ID.S) {
				out.Said = append(out.Said, Said{g.ID.S, sign.ID.S})
			}
		}
		if slices.Contains(told, NotSure) {
			out.Said = append(out.Said, Said{g.ID.S, NotSure})
		}
	}
	slices.SortStableFunc(out.Said, func(x, y Said) int { return cmp.Compare(s.gravity(x), s.gravity(y)) })
	if len(out.Said) > 0 {
		out.When = s.when(out.Said[0])
	}
	return out
}

func (s *Screen) gravity(d Said) int { return slices.Index(Whens, string(s.when(d))) }

func (s *Screen) when(d Said) When {
	if sign, _ := s.Sign(d.Sign); sign != nil {
		return When(sign.When.S)
	}
	return Today // "not sure"
}

// Prompts gives the ids of the questions for later that all that was told
// brings, each once.
func (s *Screen) Prompts(g Gathered) []string {
	var out []string
	for _, d := range g.Said {
		for _, p := range s.promptsOf(d) {
			if !slices.Contains(out, p) {
				out = append(out, p)
			}
		}
	}
	return out
}

// Accepts tells what is wrong with the answers, if anything.
func (s *Screen) Accepts(a Answers) error {
	if a.Leg != "" && !slices.Contains(LegAnswers, a.Leg) {
		return fmt.Errorf("the leg question has no answer %q", a.Leg)
	}
	if err := alone("the gate", a.Gate); err != nil {
		return err
	}
	for _, id := range a.Gate {
		if g := s.Group(id); id != None && id != NotSure && (g == nil || !g.Asked(a.Leg)) {
			return fmt.Errorf("the gate has no line %q", id)
		}
	}
	for id, told := range a.Groups {
		if err := s.acceptsGroup(id, told, a.Leg); err != nil {
			return err
		}
	}
	return nil
}

func (s *Screen) acceptsGroup(id string, told []string, leg string) error {
	g := s.Group(id)
	if g == nil || !g.Asked(leg) {
		return fmt.Errorf("the screen asks no group %q", id)
	}
	for _, t := range told {
		asked := slices.ContainsFunc(g.Shown(leg), func(sign *Sign) bool { return sign.ID.S == t })
		if t != None && t != NotSure && !asked {
			return fmt.Errorf("group %q asks no sign %q", id, t)
		}
	}
	if len(told) > 1 && slices.Contains(told, None) {
		return fmt.Errorf("group %q: %q cannot be told together with others", id, None)
	}
	return nil
}

func alone(who string, ids []string) error {
	for _, id := range []string{None, NotSure} {
		if len(ids) > 1 && slices.Contains(ids, id) {
			return fmt.Errorf("%s: %q cannot be told together with others", who, id)
		}
	}
	return nil
}
