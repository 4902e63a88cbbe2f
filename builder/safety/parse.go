package safety

import (
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// The gate is read in one glance: a line, and all lines together, hold at most
// this many words (our own rule, no source).
const (
	MaxLineWords = 24
	MaxGateWords = 110
)

// GroupIDs are the groups that every edition asks, in this order.
var GroupIDs = []string{"help", "skin", "leg", "fall", "despair"}

// Parse reads trees/safety.yaml. It always goes on as far as it can; nil is
// given only where the file is no mapping.
func Parse(file string, src []byte, list *finding.List) *Screen {
	return Read(read.Choice{}, file, src, list)
}

// Read is Parse for the words that are wanted.
func Read(want read.Choice, file string, src []byte, list *finding.List) *Screen {
	m := want.YAML(file, src, 0, list)
	if m == nil {
		return nil
	}
	p := &parser{s: &Screen{File: file, Credits: m.Credits()}, list: list, top: m}
	p.leg(m.Sub("leg", "the leg question"))
	p.gate(m.Sub("gate", "the gate"))
	m.Each("groups", "group", p.group)
	m.Each("endings", "ending", p.ending)
	for _, e := range m.Maps("examples", "an example") {
		p.example(e)
	}
	m.Done()
	p.whole()
	for _, e := range p.s.Examples {
		p.prove(e)
	}
	return p.s
}

type parser struct {
	s    *Screen
	list *finding.List
	top  *read.Map
}

func (p *parser) leg(m *read.Map) {
	p.s.Leg = Leg{Text: m.NeedWords("text"), Why: m.NeedWords("why")}
	m.Each("answers", "answer", func(id read.Text, a *read.Map) {
		p.s.Leg.Answers = append(p.s.Leg.Answers, &LegAnswer{ID: id, Text: a.NeedWords("text"), Tells: a.OneOrMore("tells")})
		a.Done()
	})
	m.Done()
}

func (p *parser) gate(m *read.Map) {
	p.s.Gate = Gate{Text: m.NeedWords("text"), Why: m.NeedWords("why"), Hint: m.Words("hint")}
	m.Done()
}

func (p *parser) group(id read.Text, m *read.Map) {
	g := &Group{
		ID: id, Line: m.NeedWords("line"), Title: m.NeedWords("title"), Text: m.NeedWords("text"), Why: m.NeedWords("why"),
		Hint: m.Words("hint"), Leg: m.Bool("leg"),
	}
	u := m.Sub("unsure", fmt.Sprintf("\"not sure\" of group %q", id.S))
	if u == nil && m.Lacks("unsure") {
		p.list.Add(id.At, "missing-key", fmt.Sprintf("group %q does not say what \"not sure\" leads to", id.S), "add unsure: with a title and a caution")
	}
	g.Unsure = Unsure{Title: u.NeedWords("title"), Caution: u.NeedWords("caution"), Worn: u.Words("worn"), Prompts: u.IDs("prompts")}
	u.Done()
	m.Each("signs", "sign", func(id read.Text, s *read.Map) { g.Signs = append(g.Signs, p.sign(id, s, g)) })
	if m.Lacks("signs") {
		p.list.Add(id.At, "missing-key", fmt.Sprintf("group %q has no signs", id.S), "add signs: with at least one below")
	}
	m.Done()
	p.s.Groups = append(p.s.Groups, g)
}

func (p *parser) sign(id read.Text, m *read.Map, g *Group) *Sign {
	s := &Sign{
		ID: id, Text: m.NeedWords("text"), More: m.Words("more"), When: m.NeedText("when"), Leg: m.Bool("leg") || g.Leg,
		Title: m.NeedWords("title"), Caution: m.NeedWords("caution"), Worn: m.Words("worn"), Because: m.Words("because"),
		Prompts: m.IDs("prompts"), Tells: m.OneOrMore("tells"), Basis: m.IDs("basis"),
	}
	who := fmt.Sprintf("sign %q", id.S)
	if s.When.S != "" && !slices.Contains(Whens, s.When.S) {
		help := append(finding.NearestHelp(s.When.S, Whens, nil), "allowed: "+strings.Join(Whens, ", "))
		p.list.Add(s.When.At, "not-allowed", fmt.Sprintf("%s has the \"when\" %q, and that is not one of its values", who, s.When.S), help...)
	}
	if id.S == None || id.S == NotSure {
		p.list.Add(id.At, "reserved-id", who+" has an id that stands for no sign", "give it another id")
	}
	if m.Lacks("basis") {
		p.list.Add(id.At, "missing-key", who+" does not say what it rests on", "add basis: with source ids, or [common-practice]")
	}
	m.Done()
	return s
}

func (p *parser) ending(id read.Text, m *read.Map) {
	e := &Ending{When: id, Title: m.NeedWords("title"), Steps: m.NeedWordList("steps"), Worn: m.WordList("worn")}
	if !slices.Contains(Whens, id.S) {
		p.list.Add(id.At, "not-allowed", fmt.Sprintf("ending %q is not one of the screen's", id.S), "allowed: "+strings.Join(Whens, ", "))
	}
	m.Done()
	p.s.Endings = append(p.s.Endings, e)
}

func (p *parser) example(m *read.Map) {
	p.s.Examples = append(p.s.Examples, &Example{
		Who: m.NeedWords("who"), Leg: m.NeedText("leg"), Gate: m.IDs("gate"), Told: m.IDs("told"), Ending: m.NeedText("ending"), Cautions: m.IDs("cautions"),
	})
	m.Done()
}

// whole reports what the screen as a whole lacks.
func (p *parser) whole() {
	var legs, groups, endings []string
	for _, a := range p.s.Leg.Answers {
		legs = append(legs, a.ID.S)
	}
	for _, g := range p.s.Groups {
		groups = append(groups, g.ID.S)
	}
	for _, e := range p.s.Endings {
		endings = append(endings, e.When.S)
	}
	p.same("leg", "the answers to the leg question", legs, LegAnswers)
	p.same("groups", "the groups", groups, GroupIDs)
	p.holds("endings", endings)
	p.repeated()
	p.gateWords()
}

// same reports a list of ids that is not the one expected.
func (p *parser) same(key, what string, have, want []string) {
	if !slices.Equal(have, want) {
		p.list.Add(p.top.Key(key), "safety-screen", fmt.Sprintf("%s are %s, and %s were expected", what, strings.Join(have, ", "), strings.Join(want, ", ")), "write them in this order")
	}
}

func (p *parser) holds(key string, have []string) {
	for _, w := range Whens {
		if !slices.Contains(have, w) {
			p.list.Add(p.top.Key(key), "safety-screen", fmt.Sprintf("the screen has no ending %q", w), "add it with a title and steps")
		}
	}
}

// repeated reports a sign's id that stands in two groups.
func (p *parser) repeated() {
	first := map[string]read.Text{}
	for _, g := range p.s.Groups {
		for _, s := range g.Signs {
			if old, twice := first[s.ID.S]; twice {
				p.list.Add(s.ID.At, "repeated-id", fmt.Sprintf("sign %q has an id that another sign has", s.ID.S), "the first is at "+old.At.String(), "give one of them another id")
			}
			first[s.ID.S] = s.ID
		}
	}
}

func (p *parser) gateWords() {
	all := 0
	for _, g := range p.s.Groups {
		n := len(strings.Fields(g.Line.S))
		all += n
		if n > MaxLineWords {
			p.list.Add(g.Line.At, "safety-screen", fmt.Sprintf("the gate's line of group %q has %d words, and at most %d are read in a glance", g.ID.S, n, MaxLineWords), "name the group's main signs, and no more")
		}
	}
	if all > MaxGateWords {
		p.list.Add(p.top.Key("groups"), "safety-screen", fmt.Sprintf("the gate's lines have %d words together, and at most %d were expected", all, MaxGateWords), "shorten them")
	}
}
