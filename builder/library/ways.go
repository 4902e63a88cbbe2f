package library

import (
	"fmt"
	"slices"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// waysKept holds the ways of a layer's tree against those of the built-in one:
// who had to pass a question that leads to safety still has to, and no added
// answer of such a question leads past it.
func (l *loader) waysKept(old, now *tree.Tree) {
	if now.Loose {
		return // a way may be missing because it could not be read
	}
	for _, q := range old.Questions {
		n := now.Question(q.ID.S)
		if n == nil || !leadsToSafety(old, q) {
			continue // that it is gone is reported elsewhere
		}
		l.addedAnswers(q, n, now)
		if e := endingWithout(now, now.Start.S, q.ID.S); e != nil && endingWithout(old, old.Start.S, q.ID.S) == nil {
			l.broken(n.ID.At, fmt.Sprintf("question %q leads to safety, and a reader can now reach the ending %q without it", q.ID.S, e.ID.S),
				"the ending is at "+e.ID.At.String(), "put the question before every way to an ending")
			continue
		}
		l.leadingWays(old, now, q)
	}
}

// leadingWays holds each way on that leads a reader to the question q, and past it to
// no ending, to doing so still.
func (l *loader) leadingWays(old, now *tree.Tree, q *tree.Question) {
	for _, from := range old.Questions {
		n := now.Question(from.ID.S)
		if n == nil || from == q {
			continue
		}
		then := named(n)
		for _, w := range named(from) {
			i := slices.IndexFunc(then, func(t way) bool { return t.name == w.name })
			if i < 0 || endingWithout(old, w.to.S, q.ID.S) != nil || !reaches(old, w.to.S, q.ID.S) {
				continue
			}
			if e := endingWithout(now, then[i].to.S, q.ID.S); e != nil {
				l.broken(then[i].at, fmt.Sprintf("the %s of question %q leads to question %q, which is for safety, and can now reach the ending %q without it", w.name, n.ID.S, q.ID.S, e.ID.S),
					"the ending is at "+e.ID.At.String(), "lead it to the question")
			}
		}
	}
}

// way is a way on of a question, with a name that two versions of it share.
type way struct {
	name string
	to   read.Text
	at   finding.Place
}

func named(q *tree.Question) []way {
	var out []way
	add := func(name string, to read.Text) {
		if to.S != "" {
			out = append(out, way{name, to, to.At})
		}
	}
	for _, a := range q.Answers {
		to := a.Go
		if to.S == "" {
			to = q.Go
		}
		add(fmt.Sprintf("answer %q", a.ID.S), to)
	}
	for i, r := range q.Routes {
		add(fmt.Sprintf("route %d", i+1), r.Go)
	}
	add("skip", q.Skip)
	return out
}

// addedAnswers reports answers that a layer adds to a question that leads to
// safety, and that do not lead there, or would be heard before one that does.
func (l *loader) addedAnswers(old, n *tree.Question, now *tree.Tree) {
	last := -1 // of the built-in answers that others can be ticked beside
	for i, a := range n.Answers {
		if b := old.Answer(a.ID.S); b != nil && !b.Alone {
			last = i
		}
	}
	for i, a := range n.Answers {
		if old.Answer(a.ID.S) != nil {
			continue
		}
		to, _ := n.Next([]string{a.ID.S}, nil)
		switch {
		case !isSafety(now, to):
			l.broken(a.ID.At, fmt.Sprintf("answer %q is added to question %q, which is for safety, and leads past it to %q", a.ID.S, n.ID.S, to), "lead it to an ending with safety: true, or ask in a question of your own")
		case n.Pick == tree.PickAny && i < last && !l.sameWay(old, a, to):
			l.broken(a.ID.At, fmt.Sprintf("answer %q is added to question %q before answers that lead to other help", a.ID.S, n.ID.S), "put it last: of several ticked answers the first one leads on")
		}
	}
}

// sameWay tells whether all grave answers of the question lead where the added one does.
func (l *loader) sameWay(old *tree.Question, added *tree.Answer, to string) bool {
	return !slices.ContainsFunc(old.Answers, func(a *tree.Answer) bool {
		way, _ := old.Next([]string{a.ID.S}, nil)
		return way != to && a.Go.S != "" && !a.Alone
	})
}

// endingWithout gives an ending, not one for safety, that a reader can reach from a
// question or ending without being asked the question; nil where there is none.
func endingWithout(t *tree.Tree, from, question string) *tree.Ending {
	var found *tree.Ending
	visit(t, from, func(at string) bool {
		if e := t.Ending(at); e != nil && !e.Safety && found == nil {
			found = e
		}
		return at != question && found == nil
	})
	return found
}

// reaches tells whether a way leads from one question to another.
func reaches(t *tree.Tree, from, question string) bool {
	found := false
	visit(t, from, func(at string) bool {
		found = found || at == question
		return !found
	})
	return found
}

// visit calls on for each question and ending that can be reached, and goes on from
// where it says so.
func visit(t *tree.Tree, from string, on func(at string) bool) {
	seen := map[string]bool{}
	for queue := []string{from}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		if seen[at] {
			continue
		}
		seen[at] = true
		if !on(at) {
			continue
		}
		if q := t.Question(at); q != nil {
			queue = append(queue, read.Strings(q.WaysOn())...)
		}
	}
}
