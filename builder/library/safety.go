package library

import (
	"fmt"

	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// safetyRule stands below every finding of this file.
const safetyRule = "an edition may add to a tree, but not change its endings for safety or what leads to them"

// safetyKept holds the tree that a layer put in a built-in one's place against
// it. A layer may change a tree, but not take an ending for safety away, reword
// it, lead its answers elsewhere, or lead past the question that asks.
func (l *loader) safetyKept(old, now *tree.Tree) {
	for _, e := range old.Endings {
		if e.Safety {
			l.safetyEnding(e, now)
		}
	}
	for _, q := range old.Questions {
		grave := graveAnswers(old, now, q)
		if len(grave) == 0 {
			continue
		}
		n := now.Question(q.ID.S)
		if n == nil {
			l.unsafe(now.ID, fmt.Sprintf("the tree lacks the question %q of the built-in one, which leads to safety", q.ID.S), "copy it from "+q.ID.At.String())
			continue
		}
		for _, a := range grave {
			l.safetyAnswer(q, n, a)
		}
		if e := endingWithout(now, q.ID.S); e != nil && endingWithout(old, q.ID.S) == nil && !now.Loose {
			l.unsafe(n.ID, fmt.Sprintf("question %q leads to safety, and a reader can now reach the ending %q without it", q.ID.S, e.ID.S),
				"the ending is at "+e.ID.At.String(), "put the question before every way to an ending")
		}
	}
}

// graveAnswers gives the answers of a built-in question that lead straight to
// an ending for safety, unless the new tree lacks that ending: this is reported.
func graveAnswers(old, now *tree.Tree, q *tree.Question) []*tree.Answer {
	var out []*tree.Answer
	for _, a := range q.Answers {
		to, _ := q.Next([]string{a.ID.S}, nil)
		if e := old.Ending(to); e != nil && e.Safety && now.Ending(to) != nil {
			out = append(out, a)
		}
	}
	return out
}

func (l *loader) safetyEnding(old *tree.Ending, now *tree.Tree) {
	e := now.Ending(old.ID.S)
	switch {
	case e == nil:
		l.unsafe(now.ID, fmt.Sprintf("the tree lacks the ending %q of the built-in one, which is for safety", old.ID.S), "copy it from "+old.ID.At.String())
	case !e.Safety || e.Title.S != old.Title.S || e.Text.S != old.Text.S || e.Caution.S != old.Caution.S:
		l.unsafe(e.ID, fmt.Sprintf("the ending %q differs from the built-in one, which is for safety", e.ID.S), "the built-in one is at "+old.ID.At.String())
	}
}

// safetyAnswer holds a grave answer of the built-in question q to its way.
func (l *loader) safetyAnswer(q, now *tree.Question, a *tree.Answer) {
	n := now.Answer(a.ID.S)
	if n == nil {
		l.unsafe(now.ID, fmt.Sprintf("question %q lacks the answer %q of the built-in one, which leads to safety", q.ID.S, a.ID.S), "copy it from "+a.ID.At.String())
		return
	}
	want, _ := q.Next([]string{a.ID.S}, nil)
	if got, _ := now.Next([]string{a.ID.S}, nil); got != "" && got != want {
		l.unsafe(n.ID, fmt.Sprintf("answer %q leads to %q, and the built-in one to %q, which is for safety", a.ID.S, got, want), "the built-in one is at "+a.ID.At.String())
	}
}

func (l *loader) unsafe(at read.Text, text string, help ...string) {
	l.list.Add(at.At, "safety-kept", text, append([]string{safetyRule}, help...)...)
}

// endingWithout gives an ending, not one for safety, that a reader can reach
// without being asked the question; nil where there is none.
func endingWithout(t *tree.Tree, question string) *tree.Ending {
	seen := map[string]bool{question: true}
	for queue := []string{t.Start.S}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		if seen[at] {
			continue
		}
		seen[at] = true
		if e := t.Ending(at); e != nil && !e.Safety {
			return e
		}
		if q := t.Question(at); q != nil {
			for _, to := range q.WaysOn() {
				queue = append(queue, to.S)
			}
		}
	}
	return nil
}
