package browsertest

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/proof"
	"keelpath/builder/safety"
	"keelpath/builder/say"
	talk "keelpath/builder/told"
	"keelpath/builder/tree"
)

// mostPaths is how many paths of a tree are walked in the browser. A tree with
// more is walked along as many drawn ones, each ending among them. All paths of
// all trees go through the same walker in builder/proof's tests.
const mostPaths = 60

func somePaths(t testing.TB, tr *tree.Tree) []tree.Answers {
	t.Helper()
	once, _ := drawn.LoadOrStore(tr.ID.S, sync.OnceValue(func() []tree.Answers { return drawPaths(t, tr) }))
	return once.(func() []tree.Answers)()
}

// drawn keeps the paths by tree, so that all tests walk the same ones.
var drawn sync.Map

func drawPaths(t testing.TB, tr *tree.Tree) []tree.Answers {
	t.Helper()
	if n := lib.Proofs[tr.ID.S].Listed; n.IsInt64() && n.Int64() <= mostPaths {
		return slices.Collect(proof.AllPaths(tr))
	}
	var out []tree.Answers
	for _, e := range tr.Endings {
		out = append(out, witness(tr, e.ID.S))
	}
	for draw := rand.New(rand.NewPCG(7, 11)); len(out) < mostPaths; {
		out = append(out, drawPath(t, tr, draw))
	}
	return out
}

// drawPath answers question by question until there is an ending.
func drawPath(t testing.TB, tr *tree.Tree, draw *rand.Rand) tree.Answers {
	t.Helper()
	answers := tree.Answers{}
	for {
		path, err := tr.Walk(answers)
		if err != nil {
			t.Fatal(err)
		}
		if path.Ending != "" {
			return answers
		}
		answers[path.Open] = drawAnswer(tr.Question(path.Open), draw)
	}
}

func drawAnswer(q *tree.Question, draw *rand.Rand) []string {
	if q.Skip.Given() && draw.IntN(6) == 0 {
		return []string{tree.Skip}
	}
	if m := q.Measure; m != nil {
		if n := draw.IntN(len(m.Likes) + 6); n < len(m.Likes) {
			return []string{m.Likes[n].ID.S}
		}
		amount := m.From + m.Step*float64(draw.IntN(int(math.Round((m.To-m.From)/m.Step))+1))
		return []string{fmt.Sprintf("%g %s", math.Round(amount*1e6)/1e6, m.Unit)}
	}
	first := q.Answers[draw.IntN(len(q.Answers))]
	set := []string{}
	for _, a := range q.Answers {
		if a == first || q.Pick == tree.PickAny && !first.Alone && !a.Alone && draw.IntN(3) == 0 {
			set = append(set, a.ID.S)
		}
	}
	return set
}

// The planner in the browser and Go's Walk come by the same questions, with the
// same answers to choose from, to the same ending, cards and sheet.
func TestPlannerWalksAsGoDoes(t *testing.T) {
	for _, tr := range lib.Trees {
		if tr.Audience.S != "patient" {
			continue
		}
		t.Run(tr.ID.S, func(t *testing.T) {
			t.Parallel()
			b := newTab(t)
			// The browser's history costs as much as all the rest, and other tests look at it.
			b.atStart(`history.pushState = () => {}`)
			b.openPlanner(onDisk)
			// An answer that tells a sign leads to the safety screen, which has tests of its own.
			plain := slices.DeleteFunc(slices.Clone(somePaths(t, tr)), func(a tree.Answers) bool { return tr.Ending(walk(t, tr, a).Ending).Sign.Given() })
			for some := range slices.Chunk(plain, 15) {
				var paths []tree.Path
				for _, answers := range some {
					paths = append(paths, walk(t, tr, answers))
				}
				all := b.manyScreens(tr, paths, "bar-sheet", "clear", "clear-now")
				for i, answers := range some {
					if diff := cmp.Diff(expected(t, tr, answers), journeyOf(t, paths[i], all[i])); diff != "" {
						t.Fatalf("%v: Go (-) and the page (+) differ:\n%s", answers, diff)
					}
				}
			}
		})
	}
}

// A journey is one path through a tree as it is seen.
type journey struct {
	Questions []seen
	Ending    ending
	Sheet     sheet
}

type seen struct {
	Question string
	Choices  []string
	Left     string
	Trail    []asked
}

// journeyOf reads the screens of a path: its questions, its ending, the sheet, and
// two of clearing.
func journeyOf(t testing.TB, path tree.Path, screens []screen) journey {
	t.Helper()
	var out journey
	for _, s := range screens[:len(path.Steps)] {
		q := seen{Question: s.Question, Left: s.Place, Trail: s.Trail}
		for _, c := range s.Choices {
			q.Choices = append(q.Choices, c.Text)
			if c.Checked {
				t.Fatalf("%s: %q is ticked before the reader chose", s.Question, c.Text)
			}
		}
		out.Questions = append(out.Questions, q)
	}
	after := screens[len(path.Steps):]
	out.Ending, out.Sheet = after[0].Ending, after[1].Sheet
	if cleared := after[3]; cleared.View != "topics" {
		t.Fatalf("after clearing the planner shows %q", cleared.View)
	}
	out.Sheet.Grave, out.Sheet.Mind = "", "" // the safety test looks at these
	return out
}

// expected works the same out in Go, from the tree and the library alone.
func expected(t testing.TB, tr *tree.Tree, answers tree.Answers) journey {
	t.Helper()
	path := walk(t, tr, answers)
	var out journey
	trail := []asked{}
	for _, step := range path.Steps {
		q := tr.Question(step.Question)
		s := seen{Question: oneLine(q.Text.S), Left: leftText(lib.Proofs[tr.ID.S].Left[q.ID.S]), Trail: slices.Clone(trail)}
		for _, a := range q.Answers {
			s.Choices = append(s.Choices, oneLine(a.Text.S))
		}
		if q.Measure != nil {
			for _, l := range q.Measure.Likes {
				s.Choices = append(s.Choices, oneLine(l.Text.S))
			}
		}
		now := asked{Question: s.Question}
		for _, said := range q.Says(say.English(), step.Chosen) {
			now.Answers = append(now.Answers, oneLine(said))
		}
		trail = append(trail, now)
		out.Questions = append(out.Questions, s)
	}

	e := tr.Ending(path.Ending)
	out.Ending = ending{Title: oneLine(e.Title.S), Text: []string{}, Cards: []string{}, Prompts: []string{}}
	var brought, first []string // the ending has what a reader's own cards bring first
	for _, p := range e.Prompts {
		brought = append(brought, p.S)
	}
	if e.Sign.Given() { // the gathered ending
		brought = nil
		out.Ending.Title, _ = gatheredInGo(safety.Worn, []safety.Said{saidBy(e)})
	}
	for _, id := range path.Cards {
		if !e.Sign.Given() {
			out.Ending.Cards = append(out.Ending.Cards, oneLine(lib.Card(id).Title.S))
		}
		for _, p := range lib.Card(id).Prompts {
			first = append(first, p.S)
		}
	}
	shown := append(slices.Clone(first), brought...)
	brought = append(brought, first...)
	personal := first
	if e.Sign.Given() {
		brought = append(brought, laterOf(e)...)
		personal = slices.Clone(brought)
	}
	r := readerOf(tr, answers)
	brought = r.fitting(once(brought))
	if !e.Sign.Given() {
		for _, id := range r.fitting(once(shown)) {
			out.Ending.Prompts = append(out.Ending.Prompts, r.ask(id))
		}
		out.Ending.Caution, out.Ending.Text = endingTexts(t, tr, path)
	}
	out.Sheet = r.expectedSheet(brought, personal)
	for _, id := range path.Cards {
		out.Sheet.Notes = append(out.Sheet.Notes, oneLine(lib.Card(id).Title.S))
	}
	return out
}

// expectedSheet gives what a sheet shows of prompts that came up: with the reader's own numbers first, then for what was
// told or by a card, then the others, and the general ones last but among the first twelve; three to start with, the rest
// by whom to ask, and things to bring apart.
func (r toldReader) expectedSheet(brought, personal []string) sheet {
	out := sheet{Stars: "0 of 3 stars used.", Sections: []section{}, More: []section{}, Own: []string{}, Bring: []string{}, Off: []string{}, Notes: []string{}}
	rank := func(id string) int {
		told := func(fact string) bool { _, ok := r.facts[fact]; return ok }
		gaps := tree.Gaps(lib.Prompt(id).Ask.S)
		switch {
		case len(gaps) > 0 && !slices.ContainsFunc(gaps, func(fact string) bool { return !told(fact) }):
			return 0
		case len(lib.Prompt(id).Presumes) > 0 || slices.Contains(personal, id):
			return 1
		}
		return 2
	}
	var asked []string
	ordered := slices.Clone(brought)
	slices.SortStableFunc(ordered, func(a, b string) int { return rank(a) - rank(b) })
	for _, id := range ordered {
		if lib.Prompt(id).Theme.S == "bring" {
			out.Bring = append(out.Bring, r.ask(id))
		} else {
			asked = append(asked, id)
		}
	}
	var general []string
	for _, p := range lib.General {
		general = append(general, p.ID.S)
		asked = slices.DeleteFunc(asked, func(id string) bool { return id == p.ID.S })
	}
	asked = slices.Insert(asked, min(len(asked), 12-len(general)), general...)
	into := func(sections *[]section, title, id string) {
		i := slices.IndexFunc(*sections, func(s section) bool { return s.Title == title })
		if i < 0 {
			i, *sections = len(*sections), append(*sections, section{Title: title})
		}
		(*sections)[i].Prompts = append((*sections)[i].Prompts, r.ask(id))
	}
	whom := map[string]string{"prosthetist": "For my prosthetist", "physician": "For my doctor", "therapist": "For my therapist", "payer": "For my plan", "myself": "For myself"}
	for n, id := range asked {
		title := whom[lib.Prompt(id).Whom[0].S]
		switch {
		case n < 3:
			into(&out.Sections, "Please start with these", id)
		case n < 12:
			into(&out.Sections, title, id)
		default:
			into(&out.More, title, id)
		}
	}
	return out
}

// toldReader is a reader who took one topic and wears a leg.
type toldReader struct {
	tree  *tree.Tree
	facts map[string]talk.Telling
}

func readerOf(tr *tree.Tree, answers tree.Answers) toldReader {
	s := talk.Sitting{Trees: lib.Trees, Facts: lib.Facts, Taken: []string{tr.ID.S}, Answers: map[string]tree.Answers{tr.ID.S: answers}}
	return toldReader{tr, s.Told()}
}

func (r toldReader) fitting(prompts []string) []string {
	told := func(fact string) bool { _, ok := r.facts[fact]; return ok || fact == "leg-worn" }
	return slices.DeleteFunc(prompts, func(id string) bool { return !lib.Prompt(id).Fits(told) })
}

// ask is what a prompt asks of this reader, with the amounts that were told.
func (r toldReader) ask(id string) string {
	return oneLine(tree.FillGaps(lib.Prompt(id).Ask.S, func(fact string) string {
		at, ok := r.facts[fact]
		if !ok {
			return "___"
		}
		m := r.tree.Question(at.Question).Measure
		v, err := m.Read(at.Words)
		if err != nil {
			panic(err) // the path takes it
		}
		return m.Show(v)
	}))
}

func leftText(n int) string {
	if n == 0 {
		return "the last one"
	}
	return fmt.Sprintf("at most %d more", n)
}

func once(ids []string) []string {
	var out []string
	for _, id := range ids {
		if !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out
}

// saidBy is the sign that an ending stands for.
func saidBy(e *tree.Ending) safety.Said {
	_, group := lib.Safety.Sign(e.Sign.S)
	return safety.Said{Group: group.ID.S, Sign: e.Sign.S}
}

// laterOf gives the questions that such an ending leaves on the sheet: an emergency leaves none.
func laterOf(e *tree.Ending) []string {
	sign, _ := lib.Safety.Sign(e.Sign.S)
	if sign.When.S == string(safety.Now) || sign.When.S == string(safety.Crisis) {
		return nil
	}
	var out []string
	for _, p := range sign.Prompts {
		out = append(out, p.S)
	}
	return out
}
