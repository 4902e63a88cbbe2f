// Package conflict works out which wishes pull against each other: every
// smallest set of wishes that no kind of foot in the rating table meets
// together, and which add-on takes such a conflict away. It neither scores nor
// orders kinds of feet.
//
// A foot meets a wish where its mark on the wish's row reaches the wish's step.
// A mark that is not settled counts as it stands, and each statement that hangs
// on one says so:
//
//   - Holds: no foot meets the wishes together, and for each foot a settled mark
//     or one that is more than a step short stands in the way.
//   - AsMarked: no foot meets them as the marks stand. For some foot only marks
//     stand in the way that are not settled and one step short.
//   - May: some foot meets them, but only where marks are counted that are not
//     settled.
//
// A mark of trade practice counts as it stands too, and is counted apart: a
// conflict names each one on which it rests, which is one that would have to be
// right for what is said.
package conflict

import (
	"cmp"
	"math/bits"
	"slices"
)

// Most is how many wishes a reader marks at once. The words file says it as a word.
const Most = 5

// Marks run from 0 to top.
const top = 4

// Wish is a step on a row: from there up, or from there down.
type Wish struct {
	Row, Step int
	Down      bool // met by the step and all below it
}

// Mark is a cell of the table; on an add-on, a change.
type Mark struct {
	Step     int
	Open     bool // not settled
	Practice bool // rests on trade practice alone; never where it is open
}

// Table is what conflicts are worked out from. Each foot and each add-on has a
// mark for every row.
type Table struct {
	Wishes []Wish
	Feet   [][]Mark
	Addons [][]Mark
}

// State says how far a foot meets a wish, the least first.
type State int

const (
	No      State = iota // it does not
	Short                // it does not, but the mark is not settled and one step short
	Perhaps              // it does, by a mark that is not settled
	Yes                  // it does, by a settled mark
)

// Met tells whether the wish is met as the mark stands.
func (s State) Met() bool { return s >= Perhaps }

func (w Wish) state(m Mark) State {
	short := w.Step - m.Step
	if w.Down {
		short = -short
	}
	switch {
	case short <= 0 && !m.Open:
		return Yes
	case short <= 0:
		return Perhaps
	case short == 1 && m.Open:
		return Short
	}
	return No
}

// State gives how far a foot meets a wish.
func (t Table) State(foot, wish int) State {
	w := t.Wishes[wish]
	return w.state(t.Feet[foot][w.Row])
}

// Set is a set of wishes: bit i stands for wish i.
type Set uint32

// Of makes a set.
func Of(wishes ...int) Set {
	var s Set
	for _, w := range wishes {
		s |= 1 << w
	}
	return s
}

// In tells whether every wish of s is in all.
func (s Set) In(all Set) bool { return s&^all == 0 }

// Len counts the wishes.
func (s Set) Len() int { return bits.OnesCount32(uint32(s)) }

// List gives the wishes in their order.
func (s Set) List() []int {
	var out []int
	for ; s != 0; s &= s - 1 {
		out = append(out, bits.TrailingZeros32(uint32(s)))
	}
	return out
}

// Kind says how sure a conflict is.
type Kind int

const (
	Holds Kind = iota
	AsMarked
	May
)

// Spot is one cell behind a statement.
type Spot struct{ Foot, Wish int }

// Fix is an add-on that takes a conflict away: with it, some foot meets all of
// its wishes. Perhaps says that marks which are not settled have to be counted.
type Fix struct {
	Addon    int
	Perhaps  bool
	Practice bool // every foot that meets them with it does so by a mark of trade practice
}

// Conflict is a smallest set of wishes that no foot meets together. Open lists
// the marks that are not settled and on which it hangs; it is empty where the
// conflict holds. Practice lists the marks of trade practice on which it rests: those
// that keep a foot from meeting the wishes where nothing does that is settled or more
// than a step short; where it only may be a conflict, those by which a foot perhaps
// meets them. Fixes is empty where it only may be one.
type Conflict struct {
	Wishes   Set
	Kind     Kind
	Open     []Spot
	Practice []Spot
	Fixes    []Fix
}

// Note tells whether it is no conflict between wishes but a remark on one of
// them: no foot is sure to meet it.
func (c Conflict) Note() bool { return c.Wishes.Len() == 1 && c.Kind == May }

// Find gives every conflict of at most so many wishes, the small ones first and
// then by the wishes' order. Remarks stand at the end.
func (t Table) Find(most int) []Conflict {
	asMarked := smallest(t.missed(func(s State) bool { return !s.Met() }))
	settled := smallest(t.missed(func(s State) bool { return s != Yes }))
	var out []Conflict
	for _, s := range asMarked {
		c := Conflict{Wishes: s, Kind: AsMarked, Open: t.open(s, Short), Practice: t.inTheWay(s), Fixes: t.fixes(s)}
		if len(c.Open) == 0 {
			c.Kind = Holds
		}
		out = append(out, c)
	}
	for _, s := range settled {
		if !slices.ContainsFunc(asMarked, func(a Set) bool { return a.In(s) }) {
			out = append(out, Conflict{Wishes: s, Kind: May, Open: t.open(s, Perhaps), Practice: t.practised(s)})
		}
	}
	out = slices.DeleteFunc(out, func(c Conflict) bool { return c.Wishes.Len() > most })
	slices.SortFunc(out, func(a, b Conflict) int {
		return cmp.Or(last(a.Note(), b.Note()), cmp.Compare(a.Wishes.Len(), b.Wishes.Len()), slices.Compare(a.Wishes.List(), b.Wishes.List()))
	})
	return out
}

// last puts what is so behind what is not.
func last(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

// Within gives the conflicts among the wishes that a reader marked.
func Within(all []Conflict, marked Set) []Conflict {
	var out []Conflict
	for _, c := range all {
		if c.Wishes.In(marked) {
			out = append(out, c)
		}
	}
	return out
}

// missed gives, for each foot, the wishes in a state that counts as missed.
func (t Table) missed(miss func(State) bool) []Set {
	return t.missedBy(func(f, w int) bool { return miss(t.State(f, w)) })
}

func (t Table) missedBy(miss func(foot, wish int) bool) []Set {
	out := make([]Set, len(t.Feet))
	for f := range t.Feet {
		for w := range t.Wishes {
			if miss(f, w) {
				out[f] |= Of(w)
			}
		}
	}
	return out
}

// smallest gives every smallest set that holds a missed wish of each foot. Foot
// by foot: a set that already holds one stays; any other grows by each wish that
// this foot misses, and what a smaller set makes needless is dropped.
func smallest(missed []Set) []Set {
	if len(missed) == 0 {
		return nil
	}
	sets := []Set{0}
	for _, m := range missed {
		var next []Set
		for _, s := range sets {
			if s&m != 0 {
				next = append(next, s)
				continue
			}
			for _, w := range m.List() {
				next = append(next, s|Of(w))
			}
		}
		sets = next[:0:0]
		for i, s := range next {
			needless := func(o Set) bool { return o != s && o.In(s) }
			if !slices.ContainsFunc(next, needless) && !slices.Contains(next[:i], s) {
				sets = append(sets, s)
			}
		}
	}
	return sets
}

// open gives the marks in one state, Short or Perhaps, of each foot that is in no
// worse state on any wish of s: all that keeps it from meeting s, or all by which
// it perhaps does.
func (t Table) open(s Set, state State) []Spot {
	var out []Spot
	for f := range t.Feet {
		var spots []Spot
		least := Yes
		for _, w := range s.List() {
			is := t.State(f, w)
			least = min(least, is)
			if is == state {
				spots = append(spots, Spot{f, w})
			}
		}
		if least >= state {
			out = append(out, spots...)
		}
	}
	return out
}

// mark gives the mark on which a foot is held against a wish.
func (t Table) mark(foot, wish int) Mark { return t.Feet[foot][t.Wishes[wish].Row] }

// inTheWay gives the marks of trade practice that keep a foot from meeting s, of
// each foot that nothing else surely keeps from it.
func (t Table) inTheWay(s Set) []Spot {
	var out []Spot
	for f := range t.Feet {
		var spots []Spot
		other := false
		for _, w := range s.List() {
			switch {
			case t.State(f, w) != No:
			case t.mark(f, w).Practice:
				spots = append(spots, Spot{f, w})
			default:
				other = true
			}
		}
		if !other {
			out = append(out, spots...)
		}
	}
	return out
}

// practised gives the marks of trade practice by which a foot meets a wish of s,
// of each foot that meets all of s, perhaps or surely.
func (t Table) practised(s Set) []Spot {
	var out []Spot
	for f := range t.Feet {
		var spots []Spot
		least := Yes
		for _, w := range s.List() {
			least = min(least, t.State(f, w))
			if t.mark(f, w).Practice {
				spots = append(spots, Spot{f, w})
			}
		}
		if least.Met() {
			out = append(out, spots...)
		}
	}
	return out
}

// Leans gives the smallest sets of wishes that some foot meets by marks that are
// settled or trade practice, and none without trade practice.
func (t Table) Leans(most int) []Set {
	settled := smallest(t.missed(func(s State) bool { return s != Yes }))
	var out []Set
	for _, s := range smallest(t.missedBy(func(f, w int) bool { return t.State(f, w) != Yes || t.mark(f, w).Practice })) {
		if s.Len() <= most && !slices.ContainsFunc(settled, func(o Set) bool { return o.In(s) }) {
			out = append(out, s)
		}
	}
	slices.SortFunc(out, func(a, b Set) int { return cmp.Or(cmp.Compare(a.Len(), b.Len()), slices.Compare(a.List(), b.List())) })
	return out
}

func (t Table) fixes(s Set) []Fix {
	var out []Fix
	for a := range t.Addons {
		met, bare := No, No // as the marks stand, and by those alone that are no trade practice
		for f := range t.Feet {
			least, practice := Yes, false
			for _, w := range s.List() {
				m := t.with(f, a, w)
				least, practice = min(least, t.Wishes[w].state(m)), practice || m.Practice
			}
			met = max(met, least)
			if !practice {
				bare = max(bare, least)
			}
		}
		if met.Met() {
			out = append(out, Fix{Addon: a, Perhaps: met == Perhaps, Practice: bare < met})
		}
	}
	return out
}

// with gives the mark of a foot with an add-on under it. The change is added to
// the foot's mark and cannot leave the row; the sum is settled only where both
// are, and it rests on trade practice where one of them does.
func (t Table) with(foot, addon, wish int) Mark {
	m, change := t.mark(foot, wish), t.Addons[addon][t.Wishes[wish].Row]
	open := m.Open || change.Open
	return Mark{Step: min(max(m.Step+change.Step, 0), top), Open: open, Practice: !open && (m.Practice || change.Practice)}
}

// Away gives the wishes from which an add-on moves a foot away.
func (t Table) Away(addon int) []int {
	var out []int
	for i, w := range t.Wishes {
		if change := t.Addons[addon][w.Row].Step; change != 0 && (change > 0) == w.Down {
			out = append(out, i)
		}
	}
	return out
}
