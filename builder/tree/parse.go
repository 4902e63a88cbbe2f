package tree

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"keelpath/builder/drawing"
	"keelpath/builder/finding"
	"keelpath/builder/formula"
	"keelpath/builder/read"
)

// Limits of one tree. A patient's tree has some ten questions; these only keep
// every later step bounded.
const (
	MaxQuestions = 500
	MaxEndings   = 500
	MaxAnswers   = 20
	MaxExamples  = 500
	MaxValues    = 100
)

// Parse reads one tree file. It always goes on as far as it can: the tree that
// comes back may lack parts, and is nil only where the file is no mapping or is
// beyond the limits.
func Parse(file string, src []byte, list *finding.List) *Tree {
	return Read(read.Choice{}, file, src, list)
}

// Read is Parse for the words and the entries that are wanted.
func Read(want read.Choice, file string, src []byte, list *finding.List) *Tree {
	m := want.YAML(file, src, 0, list)
	if m == nil {
		return nil
	}
	t := &Tree{
		File:     file,
		ID:       m.NeedText("tree"),
		Title:    m.NeedWords("title"),
		Audience: m.OneOf("audience", "patient", "resident"),
		Purpose:  m.NeedWords("purpose"),
		Group:    m.OneOf("group", Groups...),
		Safety:   m.Text("safety"),
		Credits:  m.Credits(),
		Start:    m.NeedText("start"),
	}
	before := list.Len()
	m.Pairs("values", func(k read.Text, is []read.Text) {
		if !read.IsID(k.S) {
			list.Add(k.At, "bad-id", fmt.Sprintf("the value id %q has other signs in it than an id may have", k.S), "an id is lower-case words joined by hyphens")
		}
		w := &Worked{ID: k}
		if len(is) == 1 {
			w.Is = parseFormula(is[0], list)
		} else {
			list.Add(k.At, "wrong-type", fmt.Sprintf("value %q is a list, and a formula was expected", k.S), "write one formula")
		}
		t.Values = append(t.Values, w)
	})
	m.Each("questions", "question", func(id read.Text, q *read.Map) {
		t.Questions = append(t.Questions, parseQuestion(id, q, list))
	})
	t.Loose = loose(list.Since(before))
	m.Each("endings", "ending", func(id read.Text, e *read.Map) {
		t.Endings = append(t.Endings, parseEnding(id, e, list))
	})
	t.signEndings()
	for _, e := range m.Maps("examples", "an example") {
		t.Examples = append(t.Examples, parseExample(e))
	}
	m.Done()
	c := &checker{t: t, list: list, top: m}
	if c.tooLarge() {
		return nil
	}
	c.run()
	t.worked = map[string]*formula.Expr{}
	for _, w := range t.Values {
		t.worked[w.ID.S] = w.Is.Expr
	}
	return t
}

// loose tells whether what was found wrong with questions may have cost a way on.
func loose(found []finding.Finding) bool {
	return slices.ContainsFunc(found, func(f finding.Finding) bool {
		switch f.Check {
		case "wrong-type", "unknown-key", "repeated-key", "missing-key", "no-way-on", "no-answers", "formula", "measure", "route-order":
			return true
		}
		return false
	})
}

func parseQuestion(id read.Text, m *read.Map, list *finding.List) *Question {
	q := &Question{
		ID:    id,
		Text:  m.NeedWords("text"),
		Why:   m.NeedWords("why"),
		Hint:  m.Words("hint"),
		Pick:  Pick(m.OneOf("pick", string(PickOne), string(PickAny)).S),
		Go:    m.Text("go"),
		Skip:  m.Text("skip"),
		Tells: m.OneOrMore("tells"),
	}
	if sub := m.Sub("measure", fmt.Sprintf("the measure of question %q", id.S)); sub != nil {
		q.Measure = parseMeasure(sub, list)
	}
	q.Routes = parseRoutes(m, list)
	if q.Pick != PickOne {
		q.Pick = PickAny // also for a word that is neither: it asks the least of the rest
	}
	m.EachHere("answers", "answer", func(id read.Text, a *read.Map) {
		q.Answers = append(q.Answers, parseAnswer(id, a, q, m, list))
	})
	checkQuestion(q, m, list)
	m.Done()
	return q
}

func parseAnswer(id read.Text, m *read.Map, q *Question, of *read.Map, list *finding.List) *Answer {
	a := &Answer{
		ID: id, Text: m.NeedWords("text"), Short: m.Words("short"), Go: m.Text("go"), Cards: m.IDs("cards"), Alone: m.Bool("alone"),
		Sign: m.Text("sign"), Tells: m.OneOrMore("tells"),
	}
	who := fmt.Sprintf("answer %q of question %q", id.S, q.ID.S)
	a.Ground = parseGround(m, "", who, list)
	if id.S == Skip {
		list.Add(id.At, "reserved-id", who+" has an id that stands for skipping", "give the answer another id")
	}
	if a.Sign.Given() && a.Go.Given() {
		list.Add(a.Go.At, "needless-key", who+` has both "sign" and "go"`, `leave "go" out: a sign leads to help`)
	}
	switch {
	case a.Sign.Given():
		a.Go = read.Text{S: SignEnding(a.Sign.S), At: a.Sign.At, Inside: -1}
	case m.Lacks("go") && of.Lacks("routes") && (q.Pick == PickOne || of.Lacks("go")):
		list.Add(id.At, "no-way-on", who+" has no way on", `add "go:" with the question or ending that comes next`)
	}
	if a.Alone && q.Pick == PickOne {
		list.Add(id.At, "needless-key", who+` is "alone", which only a question with "pick: any" uses`, `leave it out, or write "pick: any"`)
	}
	m.Done()
	return a
}

// MaxShort is how many letters a short text may have, so that it stands on a map in two lines or fewer. The library counts them.
const MaxShort = 28

// parseGround reads the name of the tile that shows an answer, or the amounts of a measure of a kind. An unknown name is
// left out.
func parseGround(m *read.Map, kind, who string, list *finding.List) read.Text {
	ground := m.Text("ground")
	if !ground.Given() || ground.S == "" {
		return ground
	}
	of, known := drawing.TileKind(ground.S)
	switch {
	case !known:
		list.Add(ground.At, "unknown-name", fmt.Sprintf("%s is shown as %q, and no tile has that name", who, ground.S),
			nearestOr(ground.S, drawing.TileNames(), nil, "leave it out, or write the name of a tile of builder/drawing")...)
	case kind != "" && of != kind && !(kind == "angle" && of == "slope"):
		list.Add(ground.At, "not-allowed", fmt.Sprintf("%s takes %s, and tile %q is not drawn by that", who, articled(kind), ground.S),
			"tiles that are: "+strings.Join(drawing.TilesOf(kind), ", "))
	default:
		return ground
	}
	return read.Text{}
}

func articled(kind string) string {
	if kind == "angle" {
		return "an " + kind
	}
	return "a " + kind
}

// signEndings adds an ending for each sign that an answer tells.
func (t *Tree) signEndings() {
	for _, q := range t.Questions {
		for _, a := range q.Answers {
			if a.Sign.S != "" && t.Ending(SignEnding(a.Sign.S)) == nil {
				id := read.Text{S: SignEnding(a.Sign.S), At: a.Sign.At}
				t.Endings = append(t.Endings, &Ending{ID: id, Safety: true, Sign: a.Sign})
			}
		}
	}
}

// checkQuestion holds a question against the rules that it can break alone.
func checkQuestion(q *Question, m *read.Map, list *finding.List) {
	name := fmt.Sprintf("question %q", q.ID.S)
	if len(q.Answers) > MaxAnswers {
		list.Add(m.Key("answers"), "too-large", fmt.Sprintf("%s has %d answers, and at most %d are taken", name, len(q.Answers), MaxAnswers), "group them, or ask in two questions")
	}
	switch {
	case q.Measure != nil:
		checkMeasure(q, m, list)
	case len(q.Tells) > 0 && len(q.Answers) > 0:
		list.Add(q.Tells[0].At, "needless-key", name+` has "tells" of its own and no measure`, `write "tells" at the answers that tell it`)
	case m.Lacks("answers") && m.Lacks("measure"):
		list.Add(q.ID.At, "no-answers", name+" has no answers", `add "answers:" with at least two of them below`)
	case len(q.Answers) > 0 && q.Answer(Unsure) == nil && m.Lacks("skip"):
		list.Add(q.ID.At, "no-way-out", name+" has no \"not sure\" and cannot be skipped",
			`add an answer "unsure: { text: Not sure, go: ... }", or a line "skip: ..." that says where skipping leads`)
	}
	if len(q.Routes) > 0 && q.Go.Given() {
		list.Add(q.Go.At, "needless-key", name+` has both "routes" and "go"`, `write the "go" as the last route, without "if"`)
	} else if q.Pick == PickOne && q.Go.Given() && q.Measure == nil {
		list.Add(q.Go.At, "needless-key", name+` has "go" of its own, which only a question with "pick: any" uses`, `give each answer its "go", or write "pick: any"`)
	}
}

// checkMeasure holds a question that takes an amount against its own rules.
func checkMeasure(q *Question, m *read.Map, list *finding.List) {
	name := fmt.Sprintf("question %q", q.ID.S)
	if len(q.Answers) > 0 {
		list.Add(m.Key("answers"), "needless-key", name+` has both "measure" and "answers"`, `name amounts under the measure's "like", or ask in two questions`)
	}
	if m.Lacks("skip") {
		list.Add(q.ID.At, "no-way-out", name+" takes an amount and cannot be skipped", `add a line "skip: ..." that says where a reader goes who does not know it`)
	}
	if m.Lacks("routes") && m.Lacks("go") {
		list.Add(q.ID.At, "no-way-on", name+" has no way on", `add "routes:", or "go:" with the question or ending that comes next`)
	}
}

func parseEnding(id read.Text, m *read.Map, list *finding.List) *Ending {
	e := &Ending{
		ID:      id,
		Title:   m.NeedWords("title"),
		Safety:  m.Bool("safety"),
		Marked:  m.Key("safety"),
		Text:    m.NeedWords("text"),
		Caution: m.Words("caution"),
		Themes:  m.IDs("themes"),
		Prompts: m.IDs("prompts"),
		Next:    m.IDs("next"),
		Ground:  m.Text("ground"),
		Drawing: m.Text("drawing"),
	}
	for _, t := range m.Maps("types", fmt.Sprintf("a foot type of ending %q", id.S)) {
		e.Types = append(e.Types, Talk{Type: t.NeedText("type"), For: t.NeedWords("for"), Against: t.NeedWords("against")})
		t.Done()
	}
	if e.Safety && e.Caution.S == "" && (e.Caution.Given() || m.Lacks("caution")) {
		list.Add(id.At, "safety-ending", fmt.Sprintf("ending %q is for safety and has no caution", id.S), `add "caution:" that says what to do now`)
	}
	if e.Safety && len(e.Types) > 0 {
		list.Add(m.Key("types"), "safety-ending", fmt.Sprintf("ending %q is for safety and brings up foot types", id.S), "leave the types out: help comes before any talk of a foot")
	}
	m.Done()
	return e
}

func parseExample(m *read.Map) *Example {
	e := &Example{Who: m.NeedWords("who"), Ending: m.NeedText("ending"), Cards: m.IDs("cards")}
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

// tooLarge reports a tree that is beyond the limits.
func (c *checker) tooLarge() bool {
	over := false
	for _, x := range []struct {
		key    string
		n, max int
	}{
		{"questions", len(c.t.Questions), MaxQuestions},
		{"endings", len(c.t.Endings), MaxEndings},
		{"examples", len(c.t.Examples), MaxExamples},
		{"values", len(c.t.Values), MaxValues},
	} {
		if x.n > x.max {
			over = true
			c.list.Add(c.top.Key(x.key), "too-large", fmt.Sprintf("the tree has %d %s, and at most %d are taken", x.n, x.key, x.max), "split it into trees that hand over to each other")
		}
	}
	for _, q := range c.t.Questions {
		over = over || len(q.Answers) > MaxAnswers
	}
	return over
}

func (c *checker) run() {
	t := c.t
	c.safetyKey()
	if want := strings.TrimSuffix(path.Base(t.File), ".yaml"); t.ID.Given() && t.ID.S != want {
		c.list.Add(t.ID.At, "wrong-name", fmt.Sprintf("the tree is called %q, and its file %q", t.ID.S, path.Base(t.File)), "give both the same name")
	} else if t.ID.Given() && !read.IsID(t.ID.S) {
		c.list.Add(t.ID.At, "bad-id", fmt.Sprintf("the tree id %q has other signs in it than an id may have", t.ID.S), "an id is lower-case words joined by hyphens")
	}
	if c.top.Lacks("questions") {
		c.list.Add(c.top.Key("questions"), "no-questions", "the tree has no questions", `add "questions:" with at least one below`)
	}
	if c.top.Lacks("endings") {
		c.list.Add(c.top.Key("endings"), "no-endings", "the tree has no endings", `add "endings:" with at least one below`)
	}
	for _, e := range t.Endings {
		if q := t.Question(e.ID.S); q != nil {
			c.list.Add(e.ID.At, "repeated-id", fmt.Sprintf("ending %q has the same id as a question", e.ID.S),
				"the question is at "+q.ID.At.String(), "give one of them another name")
		}
	}
	if len(t.Questions) == 0 || len(t.Endings) == 0 {
		t.Loose = true // every name would look wrong
		return
	}
	c.links()
	c.formulas()
	c.gaps()
	c.pictures()
	for _, q := range t.Questions {
		c.safetyFirst(q)
	}
	for _, e := range t.Examples {
		c.example(e)
	}
}

// safetyKey reports a tree that does not say rightly how the shared safety screen
// comes before it.
func (c *checker) safetyKey() {
	s := c.t.Safety
	c.t.NoScreen = c.top.Lacks("safety")
	if q := c.t.Question("safety"); q != nil && s.Given() {
		c.list.Add(q.ID.At, "reserved-id", `question "safety" has an id that stands for the safety screen`, "give it another id")
	}
	switch {
	case s.Given() && c.t.Audience.S == "resident":
		c.list.Add(s.At, "safety-screen", "a tree for residents has no safety screen before it", "leave the line out: it asks in questions of its own")
	case s.Given() && s.S != SafetyShared && s.S != SafetyWhole:
		help := append(finding.NearestHelp(s.S, []string{SafetyShared, SafetyWhole}, nil), "allowed: "+SafetyShared+", "+SafetyWhole)
		c.list.Add(s.At, "not-allowed", fmt.Sprintf("\"safety\" is %q, and that is not one of its values", s.S), help...)
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

// links reports each way on that leads nowhere. Where a name is near, the tree
// is read on as if that had been meant, so that one slip is one finding.
func (c *checker) links() {
	names, at := c.places()
	find := func(n string) finding.Place { return at[n] }
	dead := func(to *read.Text, names []string, what, kind string) {
		if !to.Given() || slices.Contains(names, to.S) {
			return
		}
		c.list.Add(to.At, "dead-link", fmt.Sprintf("%s %q, and no %s has that name", what, to.S, kind),
			nearestOr(to.S, names, find, fmt.Sprintf("add a %s with that name, or write one that is there", kind))...)
		to.S = finding.Nearest(to.S, names)
		c.t.Loose = c.t.Loose || to.S == ""
	}
	const kind = "question or ending"
	dead(&c.t.Start, names[:len(c.t.Questions)], "the tree starts at", "question")
	for _, q := range c.t.Questions {
		for _, a := range q.Answers {
			dead(&a.Go, names, fmt.Sprintf("answer %q goes to", a.ID.S), kind)
		}
		for _, r := range q.Routes {
			dead(&r.Go, names, fmt.Sprintf("a route of question %q goes to", q.ID.S), kind)
		}
		dead(&q.Go, names, fmt.Sprintf("question %q goes to", q.ID.S), kind)
		dead(&q.Skip, names, fmt.Sprintf("skipping %q goes to", q.ID.S), kind)
	}
}

// pictures reports each ending with a picture of the reader's own amounts that is not there, or whose amounts nobody is asked for.
func (c *checker) pictures() {
	for _, e := range c.t.Endings {
		ground := e.Ground
		if !ground.Given() || ground.S == "" {
			continue
		}
		of, known := drawing.OwnTiles(ground.S)
		switch {
		case !known:
			c.list.Add(ground.At, "unknown-name", fmt.Sprintf("ending %q shows %q, and no picture of the reader's amounts has that name", e.ID.S, ground.S),
				nearestOr(ground.S, drawing.OwnNames(), nil, "pictures: "+strings.Join(drawing.OwnNames(), ", "))...)
		case c.t.OwnOf(ground.S) == nil:
			c.list.Add(ground.At, "no-amount", fmt.Sprintf("ending %q shows the reader's own %s, and the tree does not ask for it", e.ID.S, ground.S),
				"ask in a measure with ground: "+strings.Join(of, ", and in one with ground: "))
		}
	}
}

// safetyFirst holds a question with several answers to the rule that signs of
// danger outrank the rest: of several ticked answers the first in the file that
// has a way of its own leads on, so one that leads to safety must stand first.
func (c *checker) safetyFirst(q *Question) {
	if q.Pick != PickAny {
		return
	}
	safe := func(to read.Text) bool { e := c.t.Ending(to.S); return e != nil && e.Safety }
	var before *Answer
	for _, a := range q.Answers {
		switch {
		case a.Alone || !a.Go.Given():
		case !safe(a.Go):
			before = a
		case before != nil:
			c.list.Add(a.ID.At, "safety-first", fmt.Sprintf("answer %q leads to safety, and a reader who also ticks %q is led elsewhere", a.ID.S, before.ID.S),
				"of several ticked answers the first in the file leads on", fmt.Sprintf("move %q above %q, which is at %s", a.ID.S, before.ID.S, before.ID.At))
		}
	}
	ways := []read.Text{q.Go}
	for _, r := range q.Routes {
		ways = append(ways, r.Go)
	}
	if i := slices.IndexFunc(ways, safe); i >= 0 && before != nil {
		c.list.Add(ways[i].At, "safety-first", fmt.Sprintf("question %q leads to safety, and a reader who also ticks %q is led elsewhere", q.ID.S, before.ID.S),
			"an answer with a way of its own outranks the question's", fmt.Sprintf(`give the grave answers their own "go" above %q, which is at %s`, before.ID.S, before.ID.At))
	}
}

// example reports names of an example that the tree does not have. Where the
// example lands is the proof's affair.
func (c *checker) example(e *Example) {
	names, at := c.places()
	questions, endings := names[:len(c.t.Questions)], names[len(c.t.Questions):]
	find := func(n string) finding.Place { return at[n] }
	if e.Ending.Given() && c.t.Ending(e.Ending.S) == nil {
		c.list.Add(e.Ending.At, "unknown-name", fmt.Sprintf("the example ends at %q, and no ending has that name", e.Ending.S),
			nearestOr(e.Ending.S, endings, find, "write the id of the ending that the person should reach")...)
	}
	for _, g := range e.Answers {
		q := c.t.Question(g.Question.S)
		if q == nil {
			c.list.Add(g.Question.At, "unknown-name", fmt.Sprintf("the example answers %q, and no question has that name", g.Question.S),
				nearestOr(g.Question.S, questions, find, "leave the answer out, or write the id of a question")...)
			continue
		}
		if slices.ContainsFunc(g.Chosen, func(t read.Text) bool { return !t.Given() }) || (q.Measure != nil && q.Measure.Unread) {
			continue // what the answer, or the measure, should be is not known; that was reported
		}
		if err := q.Accepts(read.Strings(g.Chosen)); err != nil {
			at := g.Question.At
			if len(g.Chosen) > 0 {
				at = g.Chosen[0].At
			}
			c.list.Add(at, "unknown-answer", "the example's "+strings.TrimSuffix(err.Error(), "."), "answers of this question: "+strings.Join(q.answerNames(), ", "))
		}
	}
}

func nearestOr(wrong string, names []string, at func(string) finding.Place, otherwise string) []string {
	if help := finding.NearestHelp(wrong, names, at); help != nil {
		return help
	}
	return []string{otherwise}
}

func (q *Question) answerNames() []string {
	var out []string
	for _, a := range q.Answers {
		out = append(out, a.ID.S)
	}
	if q.Measure != nil {
		for _, l := range q.Measure.Likes {
			out = append(out, l.ID.S)
		}
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
	if q.Measure != nil {
		return q.acceptsAmount(chosen)
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

func (q *Question) acceptsAmount(chosen []string) error {
	if len(chosen) > 1 {
		return fmt.Errorf("question %q takes one answer, and %d were given", q.ID.S, len(chosen))
	}
	if chosen[0] == Skip && q.Skip.Given() {
		return nil
	}
	if _, err := q.Measure.Read(chosen[0]); err != nil {
		return fmt.Errorf("question %q does not take %q: %w", q.ID.S, chosen[0], err)
	}
	return nil
}
