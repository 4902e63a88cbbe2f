package sheetcode

import (
	"math/big"
	"slices"

	"keelpath/builder/quantity"
	"keelpath/builder/tree"
)

// weights number the paths of a tree. Every question has room for as many paths
// from it on as its answers make possible; where a condition has a say, for the
// roomiest of the ways it could take. So some numbers stand for no path.
type weights struct {
	t  *tree.Tree
	of map[string]*big.Int // question or ending: the room from it on
	by map[string][]group  // question: its groups

	said map[string]*quantity.Sayings // measure: its amounts
}

// group is answers that have the same room behind them.
type group struct {
	count, room *big.Int
	answer      func(i *big.Int) []string
}

func weigh(t *tree.Tree) *weights {
	w := &weights{t, map[string]*big.Int{}, map[string][]group{}, map[string]*quantity.Sayings{}}
	for _, q := range t.Questions {
		if q.Measure != nil {
			w.said[q.ID.S] = q.Measure.Sayings()
		}
	}
	for _, q := range t.Questions {
		w.room(q.ID.S)
		w.groups(q)
	}
	w.room(t.Start.S)
	return w // all of it is worked out, so many may read it at once
}

// amounts lists what the answers of each measure are called.
func (w *weights) amounts() map[string][]string {
	out := map[string][]string{}
	for id, s := range w.said {
		for i := range s.Len() {
			out[id] = append(out[id], s.Text(i))
		}
	}
	return out
}

// all is the room of the whole tree.
func (w *weights) all() *big.Int { return w.room(w.t.Start.S) }

// room is 1 for an ending. A question may also be left open.
func (w *weights) room(at string) *big.Int {
	if n := w.of[at]; n != nil {
		return n
	}
	n := big.NewInt(1)
	if q := w.t.Question(at); q != nil {
		for _, g := range w.groups(q) {
			n.Add(n, product(g.count, g.room))
		}
	}
	w.of[at] = n
	return n
}

// routed is the room behind answers without a way of their own.
func (w *weights) routed(q *tree.Question) *big.Int {
	most := new(big.Int)
	ways := []string{q.Go.S}
	for _, r := range q.Routes {
		ways = append(ways, r.Go.S)
	}
	for _, to := range ways {
		if n := w.room(to); to != "" && n.Cmp(most) > 0 {
			most = n
		}
	}
	return most
}

func (w *weights) behind(q *tree.Question, a *tree.Answer) *big.Int {
	if a.Go.Given() {
		return w.room(a.Go.S)
	}
	return w.routed(q)
}

// groups lists all answers that a question takes, the skip last.
func (w *weights) groups(q *tree.Question) []group {
	if out, ok := w.by[q.ID.S]; ok {
		return out
	}
	out := w.grouped(q)
	w.by[q.ID.S] = out
	return out
}

func (w *weights) grouped(q *tree.Question) []group {
	var out []group
	add := func(count, room *big.Int, answer func(*big.Int) []string) {
		if count.Sign() > 0 {
			out = append(out, group{count, room, answer})
		}
	}
	single := func(room *big.Int, id string) {
		add(big.NewInt(1), room, func(*big.Int) []string { return []string{id} })
	}
	switch {
	case q.Measure != nil:
		said := w.said[q.ID.S]
		add(big.NewInt(int64(said.Len())), w.routed(q), func(i *big.Int) []string { return []string{said.Text(int(i.Int64()))} })
		for _, l := range q.Measure.Likes {
			single(w.routed(q), l.ID.S)
		}
	case q.Pick == tree.PickAny:
		w.sets(q, add)
		for _, a := range q.Answers {
			if a.Alone {
				single(w.behind(q, a), a.ID.S)
			}
		}
	default:
		for _, a := range q.Answers {
			single(w.behind(q, a), a.ID.S)
		}
	}
	if q.Skip.Given() {
		single(w.room(q.Skip.S), tree.Skip)
	}
	return out
}

// sets groups what can be ticked together by the answer that decides the way:
// the first in the file that has one of its own. Which of the others are ticked
// are the bits of the number, the first in the file lowest.
func (w *weights) sets(q *tree.Question, add func(count, room *big.Int, answer func(*big.Int) []string)) {
	free, own, _ := parted(q)
	for i, first := range own {
		others := append(slices.Clone(free), own[i+1:]...)
		add(power(len(others)), w.room(first.Go.S), func(bits *big.Int) []string { return ticked(q, others, bits, first) })
	}
	count := power(len(free))
	add(count.Sub(count, big.NewInt(1)), w.routed(q), func(i *big.Int) []string {
		return ticked(q, free, new(big.Int).Add(i, big.NewInt(1)), nil)
	})
}

// parted gives the answers without a way of their own, those with one, and those
// that stand alone.
func parted(q *tree.Question) (free, own, alone []*tree.Answer) {
	for _, a := range q.Answers {
		switch {
		case a.Alone:
			alone = append(alone, a)
		case a.Go.Given():
			own = append(own, a)
		default:
			free = append(free, a)
		}
	}
	return free, own, alone
}

func power(n int) *big.Int { return new(big.Int).Lsh(big.NewInt(1), uint(n)) }

// ticked gives a set in the order of the file.
func ticked(q *tree.Question, others []*tree.Answer, bits *big.Int, first *tree.Answer) []string {
	var out []string
	for _, a := range q.Answers {
		if i := slices.Index(others, a); a == first || i >= 0 && bits.Bit(i) == 1 {
			out = append(out, a.ID.S)
		}
	}
	return out
}

// find gives the group of an answer and its number in there. An answer is taken
// to be one that the question accepts.
func (w *weights) find(q *tree.Question, chosen []string) (before *big.Int, g group, i *big.Int) {
	before = big.NewInt(1)
	groups := w.groups(q)
	k, i := w.place(q, chosen, len(groups)-1)
	for _, g := range groups[:k] {
		before.Add(before, product(g.count, g.room))
	}
	return before, groups[k], i
}

// place gives the number of an answer's group, and its number in there; last is
// the number of the last group.
func (w *weights) place(q *tree.Question, chosen []string, last int) (k int, i *big.Int) {
	i = new(big.Int)
	switch {
	case len(chosen) == 1 && chosen[0] == tree.Skip && q.Skip.Given():
		return last, i
	case q.Measure != nil:
		for j, l := range q.Measure.Likes {
			if l.ID.S == chosen[0] {
				return 1 + j, i
			}
		}
		v, _ := q.Measure.Read(chosen[0])
		return 0, i.SetInt64(int64(w.said[q.ID.S].Of(v)))
	case q.Pick != tree.PickAny:
		return slices.IndexFunc(q.Answers, func(a *tree.Answer) bool { return a.ID.S == chosen[0] }), i
	}
	free, own, alone := parted(q)
	is := func(a *tree.Answer) bool { return slices.Contains(chosen, a.ID.S) }
	bits := func(of []*tree.Answer) *big.Int {
		n := new(big.Int)
		for j, a := range of {
			if is(a) {
				n.SetBit(n, j, 1)
			}
		}
		return n
	}
	if first := slices.IndexFunc(own, is); first >= 0 {
		return first, bits(append(slices.Clone(free), own[first+1:]...))
	}
	k = len(own)
	if n := bits(free); n.Sign() > 0 {
		return k, n.Sub(n, big.NewInt(1))
	}
	if len(free) > 0 {
		k++
	}
	return k + slices.IndexFunc(alone, is), i
}

// rank numbers a path. One that is open at its first question is number 0.
func (w *weights) rank(p tree.Path) *big.Int {
	out := new(big.Int)
	for _, s := range p.Steps {
		before, g, i := w.find(w.t.Question(s.Question), s.Chosen)
		out.Add(out, before).Add(out, i.Mul(i, g.room))
	}
	return out
}

// unrank gives the answers of a path; ok is false where the number stands for none.
func (w *weights) unrank(rank *big.Int) (tree.Answers, bool) {
	out := tree.Answers{}
	rank = new(big.Int).Set(rank)
	for {
		p, err := w.t.Walk(out)
		switch {
		case err != nil:
			return nil, false
		case p.Ending != "" || rank.Sign() == 0:
			return out, rank.Sign() == 0
		case rank.Cmp(w.room(p.Open)) >= 0:
			return nil, false
		}
		rank.Sub(rank, big.NewInt(1))
		for _, g := range w.groups(w.t.Question(p.Open)) {
			size := product(g.count, g.room)
			if rank.Cmp(size) < 0 {
				i := new(big.Int)
				i.QuoRem(rank, g.room, rank)
				out[p.Open] = g.answer(i)
				break
			}
			rank.Sub(rank, size)
		}
	}
}
