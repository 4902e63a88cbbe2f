// Package treemap lays a tree out as one picture, and draws it. Questions stand on lines from left to right, over the
// line the question and under it the answer that led there; all endings stand in the last column, the edge.
//
// An answer that leads over more than one column, or to what is met from several questions, has a flat piece of its
// own in each column that it passes: a lane. So each has one flat piece right after its fork, and there it is written.
// Links between two columns bend at the same place, so that two in the right order cannot cross; order finds that, and
// an ending that is met from several questions is set down again where nothing else helps.
package treemap

import "slices"

// item is what stands in a column: a question, an ending or a lane.
type item struct {
	rank, pos int
	of        int  // the question or, behind them, the ending; of a lane -1
	from, to  int  // of a lane: what it leads from and to
	lane      bool // an answer on its way
	labels    []labelled
	up, down  []int   // neighbours, as places in items
	wants     float64 // where a sweep would have it, among those of its column
}

// labelled is an answer that is written under an item's line, with the question that it answers.
type labelled struct {
	from int
	text string
}

// net is a graph in columns, without places on paper. Questions come first, then endings; an ending that is set down again
// comes behind them all, and again has which it is.
type net struct {
	g      Graph
	ways   [][]way
	again  []int // of what is behind questions and endings: the ending
	ranks  []int // by node; -1 where nothing leads
	last   int
	items  []*item
	byRank [][]int
	at     []int // node -> item
}

type way struct {
	to    int
	label string
}

func newNet(g Graph) *net {
	n := &net{g: g}
	place := map[string]int{}
	for i, q := range g.Questions {
		place[q.ID] = i
	}
	for i, e := range g.Endings {
		place[e.ID] = len(g.Questions) + i
	}
	for _, q := range g.Questions {
		var out []way
		for _, w := range q.Ways {
			if to, ok := place[w.To]; ok {
				out = append(out, way{to, w.Label})
			}
		}
		n.ways = append(n.ways, out)
	}
	return n
}

// clone has ways of its own, which may be changed, and is not in columns.
func (n *net) clone() *net {
	out := &net{g: n.g, again: slices.Clone(n.again)}
	for _, ways := range n.ways {
		out.ways = append(out.ways, slices.Clone(ways))
	}
	return out
}

func (n *net) isQuestion(node int) bool { return node < len(n.g.Questions) }

func (n *net) nodes() int { return len(n.g.Questions) + len(n.g.Endings) + len(n.again) }

// ending is the ending of the graph that a node is, and whether it stands there again.
func (n *net) ending(node int) (e int, again bool) {
	e = node - len(n.g.Questions)
	if e >= len(n.g.Endings) {
		return n.again[e-len(n.g.Endings)], true
	}
	return e, false
}

// columns gives each question its longest way from the start, and the endings the last column.
func (n *net) columns() {
	n.ranks = make([]int, n.nodes())
	for i := range n.ranks {
		n.ranks[i] = -1
	}
	start := slices.IndexFunc(n.g.Questions, func(q Question) bool { return q.ID == n.g.Start })
	n.last = 0
	order := n.sorted(start)
	n.ranks[start] = 0
	for _, u := range order {
		n.last = max(n.last, n.ranks[u]+1)
		for _, w := range n.ways[u] {
			if n.isQuestion(w.to) {
				n.ranks[w.to] = max(n.ranks[w.to], n.ranks[u]+1)
			}
		}
	}
	for _, u := range order {
		for _, w := range n.ways[u] {
			if !n.isQuestion(w.to) {
				n.ranks[w.to] = n.last
			}
		}
	}
}

// sorted gives the questions that can be reached, each before those that it leads to.
func (n *net) sorted(start int) []int {
	seen := make([]bool, len(n.g.Questions))
	var out []int
	var visit func(u int)
	visit = func(u int) {
		if seen[u] {
			return
		}
		seen[u] = true
		for _, w := range n.ways[u] {
			if n.isQuestion(w.to) {
				visit(w.to)
			}
		}
		out = append(out, u)
	}
	visit(start)
	slices.Reverse(out)
	return out
}

// lay puts questions, endings and lanes into columns.
func (n *net) lay() {
	n.columns()
	n.items, n.byRank, n.at = nil, make([][]int, n.last+1), make([]int, n.nodes())
	for node, rank := range n.ranks {
		if n.at[node] = -1; rank >= 0 {
			n.at[node] = n.add(&item{rank: rank, of: node})
		}
	}
	for u, ways := range n.ways {
		if n.ranks[u] >= 0 {
			for _, w := range ways {
				n.lead(u, w)
			}
		}
	}
}

func (n *net) add(it *item) int {
	n.items = append(n.items, it)
	n.byRank[it.rank] = append(n.byRank[it.rank], len(n.items)-1)
	return len(n.items) - 1
}

// lead draws a way from a question through lanes to where it leads.
func (n *net) lead(u int, w way) {
	at := n.at[u]
	written := false
	for rank := n.ranks[u] + 1; rank < n.ranks[w.to]; rank++ {
		lane := &item{rank: rank, of: -1, lane: true, from: u, to: w.to}
		if !written {
			lane.labels, written = []labelled{{u, w.label}}, true
		}
		next := n.add(lane)
		n.join(at, next)
		at = next
	}
	end := n.items[n.at[w.to]]
	if !written {
		end.labels = append(end.labels, labelled{u, w.label})
	}
	n.join(at, n.at[w.to])
}

func (n *net) join(a, b int) {
	n.items[a].down = append(n.items[a].down, b)
	n.items[b].up = append(n.items[b].up, a)
}
