package tree

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// Limits of one tree. A patient's tree has some ten questions; these only keep
// every later step bounded.
const (
	MaxQuestions = 500
	MaxAnswers   = 20
)

// Parse reads one tree file. It always goes on as far as it can: the tree that
// comes back may lack parts, and is nil only where the file is no mapping.
func Parse(file string, src []byte, list *finding.List) *Tree {
	m := read.YAML(file, src, 0, list)
	if m == nil {
		return nil
	}
	t := &Tree{
		File:     file,
		ID:       m.NeedText("tree"),
		Title:    m.NeedText("title"),
		Audience: m.OneOf("audience", "patient", "resident"),
		Purpose:  m.NeedText("purpose"),
		Credits:  m.Credits(),
		Start:    m.NeedText("start"),
	}
	m.Each("questions", "question", func(id read.Text, q *read.Map) {
		t.Questions = append(t.Questions, parseQuestion(id, q, list))
	})
	m.Each("endings", "ending", func(id read.Text, e *read.Map) {
		t.Endings = append(t.Endings, parseEnding(id, e))
	})
	for _, e := range m.Maps("examples", "an example") {
		t.Examples = append(t.Examples, parseExample(e))
	}
	m.Done()
	c := &checker{t: t, list: list, top: m}
	c.run()
	return t
}

func parseQuestion(id read.Text, m *read.Map, list *finding.List) *Question {
	q := &Question{
		ID:   id,
		Text: m.NeedText("text"),
		Why:  m.NeedText("why"),
		Hint: m.Text("hint"),
		Pick: Pick(m.OneOf("pick", string(PickOne), string(PickAny)).S),
		Go:   m.Text("go"),
		Skip: m.Text("skip"),
	}
	m.Each("answers", "answer", func(id read.Text, a *read.Map) {
		q.Answers = append(q.Answers, &Answer{
			ID:    id,
			Text:  a.NeedText("text"),
			Go:    a.Text("go"),
			Cards: a.IDs("cards"),
			Alone: a.Bool("alone"),
		})
		a.Done()
	})
	m.Done()
	checkQuestion(q, m, list)
	return q
}

// checkQuestion holds a question against the rules that it can break alone.
func checkQuestion(q *Question, m *read.Map, list *finding.List) {
	name := fmt.Sprintf("question %q", q.ID.S)
	if len(q.Answers) == 0 {
		list.Add(q.ID.At, "no-answers", name+" has no answers", `add "answers:" with at least two of them below`)
		return
	}
	if len(q.Answers) > MaxAnswers {
		list.Add(m.Key("answers"), "too-large", fmt.Sprintf("%s has %d answers, and at most %d are taken", name, len(q.Answers), MaxAnswers), "group them, or ask in two questions")
	}
	if q.Answer(Unsure) == nil && !q.Skip.Given() {
		list.Add(q.ID.At, "no-way-out", name+" has no \"not sure\" and cannot be skipped",
			`add an answer "unsure: { text: Not sure, go: ... }", or a line "skip: ..." that says where skipping leads`)
	}
	if q.Pick == PickOne && q.Go.Given() {
		list.Add(q.Go.At, "needless-key", name+` has "go" of its own, which only a question with "pick: any" uses`, `give each answer its "go", or write "pick: any"`)
	}
	open := q.Pick == PickAny && q.Go.Given()
	for _, a := range q.Answers {
		who := fmt.Sprintf("answer %q of %s", a.ID.S, name)
		if a.ID.S == Skip {
			list.Add(a.ID.At, "reserved-id", who+" has an id that stands for skipping", "give the answer another id")
		}
		if !a.Go.Given() && !open {
			list.Add(a.ID.At, "no-way-on", who+" has no way on", `add "go:" with the question or ending that comes next`)
		}
		if a.Alone && q.Pick == PickOne {
			list.Add(a.ID.At, "needless-key", who+` is "alone", which only a question with "pick: any" uses`, `leave it out, or write "pick: any"`)
		}
	}
}

func parseEnding(id read.Text, m *read.Map) *Ending {
	e := &Ending{
		ID:      id,
		Title:   m.NeedText("title"),
		Safety:  m.Bool("safety"),
		Text:    m.NeedText("text"),
		Caution: m.Text("caution"),
		Topics:  m.IDs("topics"),
		Prompts: m.IDs("prompts"),
		Next:    m.IDs("next"),
	}
	for _, t := range m.Maps("types", fmt.Sprintf("a foot type of ending %q", id.S)) {
		e.Types = append(e.Types, Talk{Type: t.NeedText("type"), For: t.NeedText("for"), Against: t.NeedText("against")})
		t.Done()
	}
	m.Done()
	return e
}

func parseExample(m *read.Map) *Example {
	e := &Example{Who: m.NeedText("who"), Ending: m.NeedText("ending"), Cards: m.IDs("cards")}
	m.Pairs("answers", func(k read.Text, chosen []read.Text) {
		e.Answers = append(e.Answers, Given{Question: k, Chosen: chosen})
	})
	m.Done()
	return e
}

// checker holds a whole tree against the rules that need only the tree itself.
type checker struct {
	t    *Tree
	list *finding.List
	top  *read.Map
}

func (c *checker) run() {
	t := c.t
	if want := strings.TrimSuffix(path.Base(t.File), ".yaml"); t.ID.Given() && t.ID.S != want {
		c.list.Add(t.ID.At, "wrong-name", fmt.Sprintf("the tree is called %q, and its file %q", t.ID.S, path.Base(t.File)), "give both the same name")
	} else if t.ID.Given() && !read.IsID(t.ID.S) {
		c.list.Add(t.ID.At, "bad-id", fmt.Sprintf("the tree id %q has other signs in it than an id may have", t.ID.S), "an id is lower-case words joined by hyphens")
	}
	if len(t.Questions) == 0 {
		c.list.Add(c.top.Key("questions"), "no-questions", "the tree has no questions", `add "questions:" with at least one below`)
	}
	if len(t.Endings) == 0 {
		c.list.Add(c.top.Key("endings"), "no-endings", "the tree has no endings", `add "endings:" with at least one below`)
	}
	if len(t.Questions) > MaxQuestions {
		c.list.Add(c.top.Key("questions"), "too-large", fmt.Sprintf("the tree has %d questions, and at most %d are taken", len(t.Questions), MaxQuestions), "split it into trees that hand over to each other")
	}
	for _, e := range t.Endings {
		c.ending(e)
	}
	c.links()
	for _, e := range t.Examples {
		c.example(e)
	}
}

func (c *checker) ending(e *Ending) {
	if q := c.t.Question(e.ID.S); q != nil {
		c.list.Add(e.ID.At, "repeated-id", fmt.Sprintf("ending %q has the same id as a question", e.ID.S),
			"the question is at "+q.ID.At.String(), "give one of them another name")
	}
	if !e.Safety {
		return
	}
	if !e.Caution.Given() {
		c.list.Add(e.ID.At, "safety-ending", fmt.Sprintf("ending %q is for safety and has no caution", e.ID.S), `add "caution:" that says what to do now`)
	}
	if len(e.Types) > 0 {
		c.list.Add(e.Types[0].Type.At, "safety-ending", fmt.Sprintf("ending %q is for safety and brings up foot types", e.ID.S), "leave the types out: help comes before any talk of a foot")
	}
}

// places gives all names that a way on may lead to.
func (c *checker) places() (names []string, at map[string]finding.Place) {
	at = map[string]finding.Place{}
	for _, q := range c.t.Questions {
		names, at[q.ID.S] = append(names, q.ID.S), q.ID.At
	}
	for _, e := range c.t.Endings {
		names, at[e.ID.S] = append(names, e.ID.S), e.ID.At
	}
	return names, at
}

// links reports each way on that leads nowhere.
func (c *checker) links() {
	names, at := c.places()
	find := func(n string) finding.Place { return at[n] }
	dead := func(to read.Text, what string) {
		if to.Given() && at[to.S].Line == 0 {
			c.list.Add(to.At, "dead-link", fmt.Sprintf("%s goes to %q, and no question or ending has that name", what, to.S), finding.NearestHelp(to.S, names, find)...)
		}
	}
	if s := c.t.Start; s.Given() && c.t.Question(s.S) == nil {
		var questions []string
		for _, q := range c.t.Questions {
			questions = append(questions, q.ID.S)
		}
		c.list.Add(s.At, "dead-link", fmt.Sprintf("the tree starts at %q, and no question has that name", s.S), finding.NearestHelp(s.S, questions, find)...)
	}
	for _, q := range c.t.Questions {
		for _, a := range q.Answers {
			dead(a.Go, fmt.Sprintf("answer %q", a.ID.S))
		}
		dead(q.Go, fmt.Sprintf("question %q", q.ID.S))
		dead(q.Skip, fmt.Sprintf("skipping %q", q.ID.S))
	}
}

// example reports answers of an example that the tree does not have. Where the
// example lands is the proof's affair.
func (c *checker) example(e *Example) {
	var questions, endings []string
	for _, q := range c.t.Questions {
		questions = append(questions, q.ID.S)
	}
	for _, n := range c.t.Endings {
		endings = append(endings, n.ID.S)
	}
	if e.Ending.Given() && c.t.Ending(e.Ending.S) == nil {
		c.list.Add(e.Ending.At, "unknown-name", fmt.Sprintf("the example ends at %q, and no ending has that name", e.Ending.S),
			finding.NearestHelp(e.Ending.S, endings, func(n string) finding.Place { return c.t.Ending(n).ID.At })...)
	}
	for _, g := range e.Answers {
		q := c.t.Question(g.Question.S)
		if q == nil {
			c.list.Add(g.Question.At, "unknown-name", fmt.Sprintf("the example answers %q, and no question has that name", g.Question.S),
				finding.NearestHelp(g.Question.S, questions, func(n string) finding.Place { return c.t.Question(n).ID.At })...)
			continue
		}
		if err := q.Accepts(read.Strings(g.Chosen)); err != nil {
			at := g.Question.At
			if len(g.Chosen) > 0 && g.Chosen[0].Given() {
				at = g.Chosen[0].At
			}
			c.list.Add(at, "unknown-answer", "the example's "+err.Error(), "answers of this question: "+strings.Join(q.answerNames(), ", "))
		}
	}
}

func (q *Question) answerNames() []string {
	var out []string
	for _, a := range q.Answers {
		out = append(out, a.ID.S)
	}
	if q.Skip.Given() {
		out = append(out, Skip)
	}
	return out
}

// Accepts tells what is wrong with the chosen answers, if anything: an id that
// the question does not have, none or too many, or one that must stand alone.
func (q *Question) Accepts(chosen []string) error {
	if len(chosen) == 0 {
		return fmt.Errorf("question %q is left without an answer", q.ID.S)
	}
	for i, c := range chosen {
		if slices.Contains(chosen[:i], c) {
			return fmt.Errorf("question %q is answered with %q twice", q.ID.S, c)
		}
		if c == Skip && q.Skip.Given() {
			if len(chosen) > 1 {
				return fmt.Errorf("question %q is both skipped and answered", q.ID.S)
			}
			continue
		}
		a := q.Answer(c)
		switch {
		case a == nil:
			err := fmt.Errorf("question %q has no answer %q", q.ID.S, c)
			if n := finding.Nearest(c, q.answerNames()); n != "" {
				err = fmt.Errorf("%w; nearest: %q", err, n)
			}
			return err
		case len(chosen) > 1 && q.Pick != PickAny:
			return fmt.Errorf("question %q takes one answer, and %d were given", q.ID.S, len(chosen))
		case len(chosen) > 1 && a.Alone:
			return fmt.Errorf("question %q: answer %q cannot be given together with others", q.ID.S, c)
		}
	}
	return nil
}
