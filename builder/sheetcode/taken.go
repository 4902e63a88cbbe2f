package sheetcode

import (
	"math/big"
	"slices"

	"keelpath/builder/tree"
)

// shelf numbers what readers can have answered: the trees taken and the path in
// each, in one number. Fewer trees have lower numbers, and of as many, those with
// few paths. So it has no more room than there are such sheets, where a mark for
// each tree beside a path for each would leave most of the room empty.
type shelf struct {
	ways []*weights   // the roomiest tree first
	of   [][]*big.Int // of[i][k]: how many there are with k trees, none before the i-th
}

func shelve(ways []*weights) *shelf {
	s := &shelf{ways: slices.Clone(ways)}
	slices.SortStableFunc(s.ways, func(x, y *weights) int { return y.all().Cmp(x.all()) })
	n := len(s.ways)
	s.of = make([][]*big.Int, n+1)
	for i := n; i >= 0; i-- {
		s.of[i] = make([]*big.Int, n+2)
		for k := range s.of[i] {
			s.of[i][k] = new(big.Int)
			if i == n {
				continue
			}
			s.of[i][k].Set(s.of[i+1][k])
			if k > 0 {
				s.of[i][k].Add(s.of[i][k], product(s.of[i+1][k-1], s.ways[i].all()))
			}
		}
		s.of[i][0].SetInt64(1)
	}
	return s
}

// symbols is how long the largest number is that paths can have.
func (s *shelf) symbols() int {
	all := new(big.Int)
	for _, n := range s.of[0] {
		all.Add(all, n)
	}
	return symbolsOf(all)
}

// symbolsOf is how many symbols, of five bits each, a number has; 0 has none.
func symbolsOf(n *big.Int) int { return (n.BitLen() + 4) / 5 }

// rank numbers the paths of the trees taken.
func (s *shelf) rank(paths map[string]tree.Path) *big.Int {
	out, in, k := new(big.Int), big.NewInt(1), len(paths)
	for j := range k {
		out.Add(out, s.of[0][j])
	}
	for i, w := range s.ways {
		p, ok := paths[w.t.ID.S]
		if !ok {
			continue
		}
		before := new(big.Int).Add(s.of[i+1][k], w.rank(p))
		out.Add(out, before.Mul(before, in))
		in = product(in, w.all())
		k--
	}
	return out
}

// unrank gives the answers in the trees taken, by tree; ok is false where the
// number stands for none.
func (s *shelf) unrank(rank *big.Int) (answers map[string]tree.Answers, ok bool) {
	rank, k := new(big.Int).Set(rank), 0
	for ; k <= len(s.ways) && rank.Cmp(s.of[0][k]) >= 0; k++ {
		rank.Sub(rank, s.of[0][k])
	}
	if k > len(s.ways) {
		return nil, false
	}
	answers = map[string]tree.Answers{}
	for i, w := range s.ways {
		if k == 0 || rank.Cmp(s.of[i+1][k]) < 0 {
			continue
		}
		rank.Sub(rank, s.of[i+1][k])
		path := new(big.Int)
		rank.QuoRem(rank, w.all(), path)
		if answers[w.t.ID.S], ok = w.unrank(path); !ok {
			return nil, false
		}
		k--
	}
	return answers, true
}
