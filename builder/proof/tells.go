package proof

import (
	"maps"
	"slices"

	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// Wanted is what a way through a tree has to do.
type Wanted struct {
	Ending string   // ends there; "" for any ending
	Card   string   // picks that card up; "" where it may pick up what it likes
	Told   []string // tells all of these facts
	Untold []string // tells none of these
}

// Can tells whether some way through the tree does all that is wanted. It says
// yes where the tree could not be searched, which has been reported.
func (p *Proof) Can(w Wanted) bool {
	if p.search == nil || len(p.search.states) == 0 {
		return true
	}
	g := &going{search: p.search, Wanted: w, seen: map[mark]bool{}}
	return g.from(g.states[0], 0)
}

// mark is a state of the search with the facts told on the way there, a bit each,
// and one for the card.
type mark struct {
	at  *state
	had uint64
}

// going looks for a way that does what is wanted.
type going struct {
	*search
	Wanted
	seen map[mark]bool
}

func (g *going) from(st *state, had uint64) bool {
	if g.seen[mark{st, had}] {
		return false
	}
	g.seen[mark{st, had}] = true
	for _, on := range st.on {
		for _, chosen := range g.members(st.question, on) {
			to := had | g.told(st.question, chosen) | g.card(st, on, chosen)
			switch {
			case to>>63 == 1:
			case on.to != nil && g.from(on.to, to), on.to == nil && g.ends(on.ending, to):
				return true
			}
		}
	}
	return false
}

func (g *going) ends(ending string, had uint64) bool {
	all := uint64(1)<<len(g.Told) - 1
	if g.Card != "" {
		all |= 1 << len(g.Told)
	}
	return had == all && (g.Ending == "" || g.Ending == ending)
}

// told gives the bits of the wanted facts that an answer tells; the highest one
// stands for a fact that must stay untold.
func (g *going) told(q *tree.Question, chosen []string) uint64 {
	var bits uint64
	note := func(facts []read.Text) {
		for _, f := range facts {
			if i := slices.Index(g.Told, f.S); i >= 0 {
				bits |= 1 << i
			}
			if slices.Contains(g.Untold, f.S) {
				bits |= 1 << 63
			}
		}
	}
	if q.Measure != nil && chosen[0] != tree.Skip {
		note(q.Tells)
	}
	for _, a := range q.Answers {
		if slices.Contains(chosen, a.ID.S) {
			note(a.Tells)
		}
	}
	return bits
}

// card gives the bit of the wanted card. Where an answer leads is worked out only at a
// question that has the card at all, for that takes long.
func (g *going) card(st *state, on step, chosen []string) uint64 {
	if g.Card == "" || !adds(st.question, g.Card) {
		return 0
	}
	if _, cards := st.question.Next(chosen, g.after(st, on)); slices.Contains(cards, g.Card) {
		return 1 << len(g.Told)
	}
	return 0
}

// adds tells whether some answer or some way on from a question adds a card.
func adds(q *tree.Question, card string) bool {
	is := func(t read.Text) bool { return t.S == card }
	return slices.ContainsFunc(q.Answers, func(a *tree.Answer) bool { return slices.ContainsFunc(a.Cards, is) }) ||
		slices.ContainsFunc(q.Routes, func(r *tree.Route) bool { return slices.ContainsFunc(r.Cards, is) })
}

// after gives what is known once a choice has been taken.
func (g *going) after(st *state, on step) *tree.Known {
	known := maps.Clone(st.known)
	known[st.question.ID.S] = on.choice.value
	return g.t.KnownWith(known)
}

// members gives answers of a choice that differ in what matters here: the choice's
// own, and for a question that takes several all sets of the answers that tell a
// wanted fact or add the card, with another one beside them where one is needed.
func (g *going) members(q *tree.Question, on step) [][]string {
	if q.Pick != tree.PickAny || len(on.choice.chosen) == 1 && (on.choice.chosen[0] == tree.Skip || q.Answer(on.choice.chosen[0]).Alone) {
		return [][]string{on.choice.chosen}
	}
	var matter, rest []string
	for _, a := range q.Answers {
		switch {
		case a.Alone:
		case g.matters(a):
			matter = append(matter, a.ID.S)
		default:
			rest = append(rest, a.ID.S)
		}
	}
	base := slices.DeleteFunc(slices.Clone(on.choice.chosen), func(id string) bool { return slices.Contains(matter, id) })
	out := [][]string{}
	for mask := range 1 << len(matter) {
		set := slices.Clone(base)
		for i, id := range matter {
			if mask&(1<<i) != 0 {
				set = append(set, id)
			}
		}
		if g.same(q, on, set) {
			out = append(out, set)
			continue
		}
		for _, id := range rest {
			if with := append(slices.Clone(set), id); !slices.Contains(set, id) && g.same(q, on, with) {
				out = append(out, with)
				break
			}
		}
	}
	return out
}

func (g *going) matters(a *tree.Answer) bool {
	is := func(f read.Text) bool { return slices.Contains(g.Told, f.S) || slices.Contains(g.Untold, f.S) }
	return slices.ContainsFunc(a.Tells, is) || slices.ContainsFunc(a.Cards, func(c read.Text) bool { return c.S == g.Card })
}

// same tells whether a set of answers is one of those that a choice stands for:
// conditions see the same in it, and its own way is the same.
func (g *going) same(q *tree.Question, on step, set []string) bool {
	if len(set) == 0 || q.Accepts(set) != nil {
		return false
	}
	asked := func(ids []string) string {
		out := ""
		for _, a := range q.Answers {
			if slices.Contains(ids, a.ID.S) && slices.Contains(g.asked[q.ID.S], a.ID.S) {
				out += a.ID.S + " "
			}
		}
		return out
	}
	return asked(set) == asked(on.choice.chosen) && ownWay(q, set) == ownWay(q, on.choice.chosen)
}

// ownWay is the way of the first chosen answer that has one.
func ownWay(q *tree.Question, chosen []string) string {
	for _, a := range q.Answers {
		if a.Go.Given() && slices.Contains(chosen, a.ID.S) {
			return a.Go.S
		}
	}
	return ""
}
