// Package proof says what can be proved of a tree: what can be reached and by
// which answers, that every path ends, how long the longest is and how many
// there are. It reasons over the tree's shape and lists no paths.
package proof

import (
	"context"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// Proof is what is known for certain of one tree.
type Proof struct {
	Longest int                // questions on the longest path
	Left    map[string]int     // question id: most questions that can still follow it
	Paths   *big.Int           // every way to answer from the start to an ending; see PathsRule
	Listed  *big.Int           // the paths that AllPaths lists
	Witness map[string]Witness // question or ending id: a shortest way to it

	search *search // what Can goes over; nil where the tree could not be searched
}

// PathsRule says what Paths counts.
const PathsRule = `Two paths are two as soon as one question is answered in another way: by another
answer, another set of ticked answers, another amount in the measure's steps, or
a skip.`

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
// Where the worked examples land is the affair of Examples. The error is that of
// ctx, and then nothing is known of the tree.
func Prove(ctx context.Context, t *tree.Tree, list *finding.List) (*Proof, error) {
	p := &prover{ctx: ctx, t: t, list: list}
	out := &Proof{Left: map[string]int{}, Paths: new(big.Int), Listed: new(big.Int), Witness: map[string]Witness{}}
	p.circles()
	if p.circle || t.Question(t.Start.S) == nil {
		out.Witness = p.shape()
		p.unreached(out.Witness)
		return out, ctx.Err()
	}
	s, ok := p.search()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if !ok {
		list.Add(t.ID.At, "out-of-reach", fmt.Sprintf("the tree %q has too many conditions that hang together to be proved", t.ID.S),
			"nothing is known of dead conditions, gaps and idle questions here", "part it into trees that hand over to each other, or compare fewer measures with each other")
		out.Witness = p.shape()
		p.unreached(out.Witness)
		return out, nil
	}
	out.Witness, out.search = s.witness, s
	first := s.states[0]
	out.Longest = s.longest(first)
	for _, st := range s.states {
		out.Left[st.question.ID.S] = max(out.Left[st.question.ID.S], s.longest(st)-1)
	}
	out.Paths, out.Listed = s.count(first), s.listed(first)
	if !t.Loose {
		s.routes()
		s.idle()
	}
	p.unreached(out.Witness)
	return out, nil
}

type prover struct {
	ctx    context.Context // heard between two steps of a search, which can take seconds
	t      *tree.Tree
	list   *finding.List
	circle bool
	closed []*tree.Route // routes that were reported: what only they lead to is no fault of its own
}

// shape gives what the bare ways on reach, and answers that take them where no
// condition has a say.
func (p *prover) shape() map[string]Witness {
	seen := map[string]Witness{p.t.Start.S: {}}
	for queue := []string{p.t.Start.S}; len(queue) > 0; queue = queue[1:] {
		q := p.t.Question(queue[0])
		if q == nil {
			continue
		}
		for _, to := range q.WaysOn() {
			if _, ok := seen[to.S]; !ok {
				before := seen[q.ID.S]
				seen[to.S] = append(before[:len(before):len(before)], Given{q.ID.S, answerTo(q, to.S)})
				queue = append(queue, to.S)
			}
		}
	}
	return seen
}

// answerTo gives an answer whose own way leads to a place, or the first one
// without a way of its own.
func answerTo(q *tree.Question, to string) []string {
	open := ""
	for _, a := range q.Answers {
		switch {
		case a.Go.S == to:
			return []string{a.ID.S}
		case !a.Go.Given() && open == "":
			open = a.ID.S
		}
	}
	if q.Skip.S == to || open == "" {
		open = tree.Skip
	}
	return []string{open}
}

// unreached reports each question and ending that no path comes by. One that
// only others out of reach lead to is named with them: it has no fault of its own.
func (p *prover) unreached(seen map[string]Witness) {
	if p.t.Loose || p.t.Question(p.t.Start.S) == nil {
		return // a way on that is missing has been reported
	}
	lost := map[string]bool{}
	var order []read.Text
	kind := map[string]string{}
	note := func(id read.Text, what string) {
		if _, ok := seen[id.S]; !ok {
			order = append(order, id)
			kind[id.S], lost[id.S] = what, true
		}
	}
	for _, q := range p.t.Questions {
		note(q.ID, "question")
	}
	for _, e := range p.t.Endings {
		note(e.ID, "ending")
	}
	for _, id := range order {
		if p.led(id.S, lost) {
			continue
		}
		help := []string{"lead an answer to it, or remove it"}
		if with := p.behind(id.S, lost); len(with) > 0 {
			help = append(help, "only this leads on to "+strings.Join(with, ", "))
		}
		p.list.Add(id.At, "unreached", fmt.Sprintf("%s %q cannot be reached from the start", kind[id.S], id.S), help...)
	}
}

// led tells whether another of the lost questions, or a route that was
// reported, leads to id.
func (p *prover) led(id string, lost map[string]bool) bool {
	for _, q := range p.t.Questions {
		if lost[q.ID.S] && q.ID.S != id && slices.ContainsFunc(q.WaysOn(), func(to read.Text) bool { return to.S == id }) {
			return true
		}
	}
	return slices.ContainsFunc(p.closed, func(r *tree.Route) bool { return r.Go.S == id })
}

// behind gives what is lost together with id, in quotes.
func (p *prover) behind(id string, lost map[string]bool) []string {
	var out []string
	seen := map[string]bool{id: true}
	for queue := []string{id}; len(queue) > 0; queue = queue[1:] {
		q := p.t.Question(queue[0])
		if q == nil {
			continue
		}
		for _, to := range q.WaysOn() {
			if lost[to.S] && !seen[to.S] {
				seen[to.S] = true
				out = append(out, fmt.Sprintf("%q", to.S))
				queue = append(queue, to.S)
			}
		}
	}
	return out
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
