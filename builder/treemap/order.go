package treemap

import (
	"cmp"
	"math/rand/v2"
	"slices"
)

// How long an order is looked for. None of these is a time, so that the same tree always has the same map.
const (
	starts    = 24 // orders to begin with; the first is that of the file
	sweeps    = 16 // forth and back
	fewStarts = 5  // where it is only looked whether setting an ending down again would help
	fewSweeps = 6
	enough    = 3  // starts where there is an order without crossings
	tried     = 8  // ways that are tried at each step
	mostAgain = 24 // endings that are set down again
)

// ordered gives a net whose columns are in an order with as few crossings as were found.
func ordered(g Graph) *net {
	at := newNet(g)
	at.order(starts, sweeps)
	best := at
	for len(at.again) < mostAgain && best.crossings() > 0 {
		next := at.helped()
		if next == nil {
			break
		}
		next.order(starts, sweeps)
		if at = next; at.crossings() < best.crossings() {
			best = at
		}
	}
	return best
}

// helped is the net with one ending set down again, where that leaves the fewest crossings of those that are tried; nil
// where no ending is met twice. One step alone may not help yet.
func (n *net) helped() *net {
	var best *net
	fewest := 0
	for _, c := range n.worst() {
		e, _ := n.ending(n.ways[c.from][c.way].to)
		next := n.clone()
		next.again = append(next.again, e)
		next.ways[c.from][c.way].to = next.nodes() - 1
		next.order(fewStarts, fewSweeps)
		if left := next.crossings(); best == nil || left < fewest {
			best, fewest = next, left
		}
		if fewest == 0 {
			break
		}
	}
	return best
}

// candidate is a way to an ending that others lead to as well, and how often it is crossed.
type candidate struct{ from, way, crossed int }

// worst are the ways that might lead to an ending set down again, those that are crossed most first.
func (n *net) worst() []candidate {
	met := make([]int, n.nodes())
	for _, ways := range n.ways {
		for _, w := range ways {
			met[w.to]++
		}
	}
	var out []candidate
	for u, ways := range n.ways {
		for i, w := range ways {
			if !n.isQuestion(w.to) && met[w.to] > 1 && n.ranks[u] >= 0 {
				out = append(out, candidate{u, i, n.crossed(u, w.to)})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b candidate) int { return cmp.Compare(b.crossed, a.crossed) })
	return out[:min(len(out), tried)]
}

// crossed counts the crossings of a way's links.
func (n *net) crossed(from, to int) int {
	c := 0
	at := n.at[from]
	for at != n.at[to] {
		next := n.at[to]
		for _, it := range n.items[at].down {
			if lane := n.items[it]; lane.lane && lane.from == from && lane.to == to {
				next = it
			}
		}
		for _, other := range n.byRank[n.items[at].rank] {
			c += n.over(at, next, other)
		}
		at = next
	}
	return c
}

// over counts how often the link from one item to another crosses those of a third.
func (n *net) over(at, next, other int) int {
	c := 0
	for _, to := range n.items[other].down {
		a, b := n.items[at].pos-n.items[other].pos, n.items[next].pos-n.items[to].pos
		if a*b < 0 {
			c++
		}
	}
	return c
}

// order sorts the columns: medians forth and back, then swaps of neighbours while crossings fall, from several starts.
func (n *net) order(starts, sweeps int) {
	n.lay()
	random := rand.New(rand.NewPCG(7, 7))
	var best [][]int
	fewest, lanes := 0, 0
	for start := range starts {
		n.begin(start, random)
		for sweep := range sweeps {
			moved := n.sweep(sweep%2 == 1)
			if !n.swaps() && !moved && sweep > 1 {
				break
			}
			c, l := n.crossings(), n.inside()
			if best == nil || c < fewest || c == fewest && l < lanes {
				best, fewest, lanes = copied(n.byRank), c, l
			}
		}
		if fewest == 0 && start >= enough {
			break
		}
	}
	n.byRank = best
	n.number()
}

func copied(ranks [][]int) [][]int {
	out := make([][]int, len(ranks))
	for i := range ranks {
		out[i] = slices.Clone(ranks[i])
	}
	return out
}

func (n *net) begin(start int, random *rand.Rand) {
	for _, r := range n.byRank {
		if start == 0 {
			slices.Sort(r)
		} else {
			random.Shuffle(len(r), func(i, j int) { r[i], r[j] = r[j], r[i] })
		}
	}
	n.number()
}

func (n *net) number() {
	for _, r := range n.byRank {
		for i, it := range r {
			n.items[it].pos = i
		}
	}
}

// sweep sorts each column by what its items hang on, in the column before or, going back, in the one behind. It
// tells whether anything moved.
func (n *net) sweep(back bool) bool {
	moved := false
	for i := range n.byRank {
		r := n.byRank[i]
		if back {
			r = n.byRank[len(n.byRank)-1-i]
		}
		for _, it := range r {
			n.items[it].wants = n.middle(it, back)
		}
		slices.SortStableFunc(r, func(a, b int) int { return cmp.Compare(n.items[a].wants, n.items[b].wants) })
		for k, it := range r {
			moved = moved || n.items[it].pos != k
			n.items[it].pos = k
		}
	}
	return moved
}

func (n *net) middle(it int, back bool) float64 {
	to := n.items[it].up
	if back {
		to = n.items[it].down
	}
	if len(to) == 0 {
		return float64(n.items[it].pos)
	}
	sum := 0
	for _, other := range to {
		sum += n.items[other].pos
	}
	return float64(sum) / float64(len(to))
}

// swaps changes neighbours while that takes crossings away, and tells whether it did.
func (n *net) swaps() bool {
	moved := false
	for again := true; again; {
		again = false
		for _, r := range n.byRank {
			for k := 0; k+1 < len(r); k++ {
				a, b := n.items[r[k]], n.items[r[k+1]]
				if n.between(b, a) < n.between(a, b) {
					r[k], r[k+1] = r[k+1], r[k]
					a.pos, b.pos = k+1, k
					again, moved = true, true
				}
			}
		}
	}
	return moved
}

// between counts crossings of the links of two neighbours, a standing over b.
func (n *net) between(a, b *item) int {
	return n.pairs(a.up, b.up) + n.pairs(a.down, b.down)
}

func (n *net) pairs(over, below []int) int {
	c := 0
	for _, x := range over {
		for _, y := range below {
			if n.items[x].pos > n.items[y].pos {
				c++
			}
		}
	}
	return c
}

// crossings counts those of all links.
func (n *net) crossings() int {
	c := 0
	for _, r := range n.byRank {
		for i, a := range r {
			for _, b := range r[i+1:] {
				c += n.pairs(n.items[a].down, n.items[b].down)
			}
		}
	}
	return c
}

// inside says how far lanes are from the margin, in items.
func (n *net) inside() int {
	sum := 0
	for _, it := range n.items {
		if it.lane {
			sum += min(it.pos, len(n.byRank[it.rank])-1-it.pos)
		}
	}
	return sum
}
