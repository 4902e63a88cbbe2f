// Package proof says what can be proved of a tree: what can be reached and by
// which answers, that every path ends, how long the longest is and how many
// there are. It reasons over the tree's shape and lists no paths.
package proof

import (
	"fmt"
	"math/big"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/tree"
)

// Proof is what is known for certain of one tree.
type Proof struct {
	Longest int                // questions on the longest path
	Left    map[string]int     // question id: most questions that can still follow it
	Paths   *big.Int           // number of distinct paths
	Witness map[string]Witness // question or ending id: a shortest way to it
}

// Witness is a shortest list of answers that reaches a question or an ending.
type Witness []Given

// Given is one answered question of a witness.
type Given struct {
	Question string   `json:"question"`
	Chosen   []string `json:"chosen"`
}

func (w Witness) String() string {
	if len(w) == 0 {
		return "the start"
	}
	parts := make([]string, len(w))
	for i, g := range w {
		parts[i] = g.Question + "=" + strings.Join(g.Chosen, ",")
	}
	return strings.Join(parts, " ")
}

// Prove reports what a tree's shape gets wrong and gives what is known of it.
// Ways on that lead nowhere are left aside: the reader has reported them.
func Prove(t *tree.Tree, list *finding.List) *Proof {
	p := &prover{t: t, list: list, ways: map[string][]way{}}
	for _, q := range t.Questions {
		p.ways[q.ID.S] = ways(q)
	}
	p.circles()
	out := &Proof{Left: map[string]int{}, Paths: new(big.Int), Witness: p.reach()}
	if !p.circle && t.Question(t.Start.S) != nil {
		out.Longest = 1 + p.left(t.Start.S, out.Left)
		out.Paths = p.count(t.Start.S, map[string]*big.Int{})
	}
	p.unreached(out.Witness)
	p.examples()
	return out
}

type prover struct {
	t      *tree.Tree
	list   *finding.List
	ways   map[string][]way
	circle bool
}

// reach walks outward from the start, nearest first, and notes the first and
// so shortest way to each question and ending.
func (p *prover) reach() map[string]Witness {
	seen := map[string]Witness{p.t.Start.S: {}}
	for queue := []string{p.t.Start.S}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		for _, w := range p.ways[at] {
			if _, ok := seen[w.to]; ok {
				continue
			}
			before := seen[at]
			seen[w.to] = append(before[:len(before):len(before)], Given{at, w.chosen})
			queue = append(queue, w.to)
		}
	}
	return seen
}

func (p *prover) unreached(seen map[string]Witness) {
	if p.t.Question(p.t.Start.S) == nil {
		return // with no start nothing is reached, and that has been said
	}
	for _, q := range p.t.Questions {
		if _, ok := seen[q.ID.S]; !ok {
			p.list.Add(q.ID.At, "unreached", fmt.Sprintf("question %q cannot be reached from the start", q.ID.S), "lead an answer to it, or remove it")
		}
	}
	for _, e := range p.t.Endings {
		if _, ok := seen[e.ID.S]; !ok {
			p.list.Add(e.ID.At, "unreached", fmt.Sprintf("ending %q cannot be reached from the start", e.ID.S), "lead an answer to it, or remove it")
		}
	}
}

// circles reports each way on that leads back to a question of its own path.
func (p *prover) circles() {
	const white, grey, black = 0, 1, 2
	colour := map[string]int{}
	var path []string
	var visit func(id string)
	visit = func(id string) {
		colour[id] = grey
		path = append(path, id)
		q := p.t.Question(id)
		for _, to := range q.WaysOn() {
			if p.t.Question(to.S) == nil {
				continue
			}
			switch colour[to.S] {
			case white:
				visit(to.S)
			case grey:
				p.circle = true
				p.list.Add(to.At, "circle", fmt.Sprintf("question %q leads back to %q, so a reader could go round without end", id, to.S),
					"the way round: "+strings.Join(from(path, to.S), " -> ")+" -> "+to.S, "lead this answer on to a later question or to an ending")
			}
		}
		path = path[:len(path)-1]
		colour[id] = black
	}
	for _, q := range p.t.Questions {
		if colour[q.ID.S] == white {
			visit(q.ID.S)
		}
	}
}

func from(path []string, id string) []string {
	for i, p := range path {
		if p == id {
			return path[i:]
		}
	}
	return path
}

// left gives the most questions that can follow id; the tree has no circle.
func (p *prover) left(id string, known map[string]int) int {
	if n, ok := known[id]; ok {
		return n
	}
	most := 0
	for _, w := range p.ways[id] {
		if p.t.Question(w.to) != nil {
			most = max(most, 1+p.left(w.to, known))
		}
	}
	known[id] = most
	return most
}

// count gives the number of paths from id on; the tree has no circle.
func (p *prover) count(id string, known map[string]*big.Int) *big.Int {
	if p.t.Question(id) == nil {
		return big.NewInt(1)
	}
	if n, ok := known[id]; ok {
		return n
	}
	sum := new(big.Int)
	for _, w := range p.ways[id] {
		sum.Add(sum, new(big.Int).Mul(w.count, p.count(w.to, known)))
	}
	known[id] = sum
	return sum
}
