package told

import (
	"slices"

	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// Sitting is what a reader has said in the topics taken so far.
type Sitting struct {
	Trees   []*tree.Tree            // all that the planner offers
	Facts   []*Fact                 // all that can be told
	Taken   []string                // ids of the topics that were begun, in that order
	Answers map[string]tree.Answers // by topic

	// Asked names the questions that told something where the reader was asked,
	// "tree/question", in the order of the answers. What a question not named here
	// tells was carried over from another topic.
	Asked []string
}

// Telling is where a fact was told. Words is what the reader typed, or the id of a
// like; it is empty for a fact without an amount.
type Telling struct {
	Tree     string `json:"tree"`
	Question string `json:"question"`
	Words    string `json:"words"`
}

func (t Telling) name() string { return t.Tree + "/" + t.Question }

// Told gives the facts told on the paths of the topics taken, each where it was
// told first. Of a set only the first one counts.
func (s *Sitting) Told() map[string]Telling {
	out := map[string]Telling{}
	for _, at := range s.tellings() {
		for _, f := range By(s.question(at.Tree, at.Question), s.Answers[at.Tree][at.Question]) {
			if _, ok := out[f]; !ok && !s.contradicted(f, out) {
				out[f] = at
			}
		}
	}
	return out
}

// tellings gives the questions on the paths that tell something: those that were
// asked first, in that order, and then the others along the paths.
func (s *Sitting) tellings() []Telling {
	var out []Telling
	for _, id := range s.Taken {
		path, err := s.tree(id).Walk(s.Answers[id])
		if err != nil {
			continue
		}
		for _, step := range path.Steps {
			if q := s.question(id, step.Question); len(By(q, step.Chosen)) > 0 {
				out = append(out, telling(id, q, step.Chosen))
			}
		}
	}
	place := func(t Telling) int {
		if i := slices.Index(s.Asked, t.name()); i >= 0 {
			return i
		}
		return len(s.Asked)
	}
	slices.SortStableFunc(out, func(a, b Telling) int { return place(a) - place(b) })
	return out
}

func telling(id string, q *tree.Question, chosen []string) Telling {
	at := Telling{Tree: id, Question: q.ID.S}
	if q.Measure != nil {
		at.Words = chosen[0]
	}
	return at
}

// contradicted tells whether another fact of the same set has been told.
func (s *Sitting) contradicted(fact string, told map[string]Telling) bool {
	return slices.ContainsFunc(s.others(fact), func(f string) bool { _, ok := told[f]; return ok })
}

// others gives the facts that cannot be true beside one.
func (s *Sitting) others(fact string) []string {
	var out []string
	set := ""
	for _, f := range s.Facts {
		if f.ID.S == fact {
			set = f.Of.S
		}
	}
	for _, f := range s.Facts {
		if set != "" && f.Of.S == set && f.ID.S != fact {
			out = append(out, f.ID.S)
		}
	}
	return out
}

// Before tells whether what is answered at a question was told in another topic
// and carried over.
func (s *Sitting) Before(id, question string) bool {
	return len(By(s.question(id, question), s.Answers[id][question])) > 0 && !slices.Contains(s.Asked, id+"/"+question)
}

// Begin takes a topic up and answers in it what was told before.
func (s *Sitting) Begin(id string) {
	s.Taken = addOnce(s.Taken, []string{id})
	s.fill(id)
}

// fill answers the questions of a topic that have no answer yet.
func (s *Sitting) fill(id string) {
	told := s.Told()
	for _, q := range s.tree(id).Questions {
		if _, answered := s.Answers[id][q.ID.S]; !answered {
			s.put(id, q.ID.S, s.answerFrom(q, told))
		}
	}
}

// put notes an answer; nil takes the one that is there away.
func (s *Sitting) put(id, question string, chosen []string) {
	switch {
	case chosen == nil:
		delete(s.Answers[id], question)
	case s.Answers[id] == nil:
		s.Answers[id] = tree.Answers{question: chosen}
	default:
		s.Answers[id][question] = chosen
	}
}

// answerFrom gives the answer to a question that what was told comes to; nil where
// that is not known.
func (s *Sitting) answerFrom(q *tree.Question, told map[string]Telling) []string {
	if q.Measure != nil {
		for _, f := range q.Tells {
			if at, ok := told[f.S]; ok {
				return []string{s.wordsFor(q, at)}
			}
		}
		return nil
	}
	for _, a := range q.Answers {
		if asksFacts(q) && len(a.Tells) > 0 && allTold(a, told) {
			return []string{a.ID.S}
		}
	}
	return nil
}

// wordsFor gives a told amount as an answer to another measure: the same words, or
// what a like stands for where this question has not the same one.
func (s *Sitting) wordsFor(q *tree.Question, at Telling) string {
	like := s.question(at.Tree, at.Question).Measure.Like(at.Words)
	if like == nil {
		return at.Words
	}
	if same := q.Measure.Like(at.Words); same != nil && same.Is.S == like.Is.S {
		return at.Words
	}
	return like.Is.S
}

// asksFacts tells whether a question is about facts: it takes one answer, and each
// of its answers tells some, "not sure" aside.
func asksFacts(q *tree.Question) bool {
	tells := func(a *tree.Answer) bool { return len(a.Tells) > 0 }
	return q.Measure == nil && q.Pick == tree.PickOne && slices.ContainsFunc(q.Answers, tells) &&
		!slices.ContainsFunc(q.Answers, func(a *tree.Answer) bool { return !tells(a) && a.ID.S != tree.Unsure })
}

func allTold(a *tree.Answer, told map[string]Telling) bool {
	return !slices.ContainsFunc(a.Tells, func(f read.Text) bool { _, ok := told[f.S]; return !ok })
}

// Answer notes an answer and carries it over to the other topics taken: what it
// tells is answered there too, and what it takes back is taken back.
func (s *Sitting) Answer(id, question string, chosen []string) {
	q := s.question(id, question)
	now := By(q, chosen)
	gone := without(denied(q, s.Answers[id][question], chosen), now)
	told := map[string]Telling{}
	for _, f := range now {
		told[f] = telling(id, q, chosen)
		gone = addOnce(gone, s.others(f))
	}
	s.put(id, question, chosen)
	s.Asked = without(s.Asked, []string{id + "/" + question})
	if len(now) > 0 {
		s.Asked = append(s.Asked, id+"/"+question)
	}
	for _, other := range s.Taken {
		for _, o := range s.tree(other).Questions {
			if o != q {
				s.carry(other, o, told, gone)
			}
		}
	}
	for _, other := range s.Taken {
		s.fill(other)
	}
}

// denied gives the facts that an answer takes back: those that the one before it
// told, and where the question is about facts also those that the reader left out.
// Where it is not, another answer denies nothing.
func denied(q *tree.Question, before, chosen []string) []string {
	about := q.Pick == tree.PickAny || asksFacts(q)
	switch {
	case q.Measure != nil, about && (isSkip(q, chosen) || slices.Contains(chosen, tree.Unsure)):
		return By(q, before)
	case about:
		return Can(q)
	}
	return nil
}

// carry brings an answer that was given elsewhere into a question that is answered.
func (s *Sitting) carry(id string, q *tree.Question, told map[string]Telling, gone []string) {
	chosen, answered := s.Answers[id][q.ID.S]
	if !answered {
		return
	}
	lost := slices.ContainsFunc(By(q, chosen), func(f string) bool { return slices.Contains(gone, f) })
	to := s.answerFrom(q, told)
	switch {
	case q.Pick == tree.PickAny && !isSkip(q, chosen):
		s.put(id, q.ID.S, retick(q, chosen, told, gone))
	case to != nil && (lost || q.Measure != nil):
		s.put(id, q.ID.S, to)
	case lost && q.Measure != nil:
		s.put(id, q.ID.S, []string{tree.Skip})
	case lost:
		s.put(id, q.ID.S, nil)
	}
}

// retick ticks what was told elsewhere and unticks what was taken back; nil where
// nothing is left.
func retick(q *tree.Question, chosen []string, told map[string]Telling, gone []string) []string {
	var out, alone []string
	for _, a := range q.Answers {
		on := slices.Contains(chosen, a.ID.S)
		if len(a.Tells) > 0 {
			lost := slices.ContainsFunc(a.Tells, func(f read.Text) bool { return slices.Contains(gone, f.S) })
			on = (on || allTold(a, told)) && !lost
		}
		switch {
		case on && a.Alone:
			alone = []string{a.ID.S}
		case on:
			out = append(out, a.ID.S)
		}
	}
	if out == nil {
		return alone
	}
	return out
}

// Settle makes answers that came from elsewhere agree, and notes where they were
// asked: where two topics tell one fact differently, the first one counts.
func (s *Sitting) Settle() {
	for range s.tellings() {
		if !s.settleOne() {
			break
		}
	}
	for _, id := range s.Taken {
		s.fill(id)
	}
	var asked, known []string
	for _, at := range s.tellings() {
		q := s.question(at.Tree, at.Question)
		facts := By(q, s.Answers[at.Tree][at.Question])
		if slices.Contains(s.Asked, at.name()) || q.Measure == nil && !asksFacts(q) || len(without(facts, known)) > 0 {
			asked = append(asked, at.name())
		}
		known = addOnce(known, facts)
	}
	s.Asked = asked
}

// settleOne mends the first answer that does not agree with what was told before it.
func (s *Sitting) settleOne() bool {
	told := s.Told()
	for _, at := range s.tellings() {
		to := s.answerFrom(s.question(at.Tree, at.Question), told)
		if to != nil && to[0] != s.Answers[at.Tree][at.Question][0] {
			s.put(at.Tree, at.Question, to)
			return true
		}
	}
	return false
}

// Ticks gives the answers to a question that takes several which have been told.
func Ticks(q *tree.Question, told map[string]Telling) []string {
	var out []string
	for _, a := range q.Answers {
		if q.Pick == tree.PickAny && len(a.Tells) > 0 && allTold(a, told) {
			out = append(out, a.ID.S)
		}
	}
	return out
}

func (s *Sitting) tree(id string) *tree.Tree {
	for _, t := range s.Trees {
		if t.ID.S == id {
			return t
		}
	}
	return nil
}

func (s *Sitting) question(id, question string) *tree.Question { return s.tree(id).Question(question) }

func without(list, gone []string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(x string) bool { return slices.Contains(gone, x) })
}
