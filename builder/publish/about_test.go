package publish

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"keelpath/builder/clienttest"
	"keelpath/builder/library"
	"keelpath/builder/told"
	"keelpath/builder/tree"
)

// aSheet is what the client makes of one worked example.
type aSheet struct {
	tree    *tree.Tree
	example *tree.Example
	path    tree.Path
	Me      []struct{ ID, Text string } // the sentences of "About me"
	Asked   []string                    // the questions, in the order of the paper
}

func (s aSheet) name() string { return s.tree.ID.S + ": " + s.example.Who.S }

func (s aSheet) texts() []string {
	var out []string
	for _, m := range s.Me {
		out = append(out, m.Text)
	}
	return out
}

// sheetsOf gives the sheet of every worked example of every patients' tree.
func sheetsOf(t *testing.T, l *library.Library) []aSheet {
	t.Helper()
	sheetsOnce.Do(func() { sheetsMade = makeSheets(t, l) })
	return sheetsMade
}

var (
	sheetsOnce sync.Once
	sheetsMade []aSheet
)

func makeSheets(t *testing.T, l *library.Library) []aSheet {
	t.Helper()
	script := clienttest.LoadAll(t, "state/state.ts", "sheet/about.ts", "sheet/compose.ts")
	data, err := json.Marshal(plannerJSON(t, builtin(t)))
	if err != nil {
		t.Fatal(err)
	}
	if err := script.Run(`var data = `+string(data)+`;
function sheetOf(tree, steps) {
  const s = new script.State(data);
  s.begin(tree);
  for (const step of steps) s.answer(tree, step.question, step.chosen);
  return {Me: script.sentences(s), Asked: script.asked(s).map((id) => s.ask(id))};
}
true`, new(any)); err != nil {
		t.Fatal(err)
	}
	var out []aSheet
	for _, tr := range l.PatientTrees() {
		for _, ex := range tr.Examples {
			one := aSheet{tree: tr, example: ex}
			if one.path, err = tr.Walk(ex.Given()); err != nil {
				t.Fatal(err)
			}
			type step struct {
				Question string   `json:"question"`
				Chosen   []string `json:"chosen"`
			}
			var steps []step
			for _, s := range one.path.Steps {
				steps = append(steps, step{s.Question, s.Chosen})
			}
			given, err := json.Marshal(steps)
			if err != nil {
				t.Fatal(err)
			}
			if err := script.Run(fmt.Sprintf("sheetOf(%q, %s)", tr.ID.S, given), &one); err != nil {
				t.Fatalf("%s: %v", one.name(), err)
			}
			out = append(out, one)
		}
	}
	return out
}

// written finds an amount as people write it: a number, and a unit that is one of these. The table is from memory of how
// people write units, and knows nothing of the program's own.
var written = regexp.MustCompile(`^(?:1 ?(?::|in) ?)?([0-9]+(?:[.,][0-9]+)?(?: [0-9]+/[0-9]+)?|[0-9]+/[0-9]+) ?(%|percent|°|deg|degrees|mm|cm|in|inches|"|kg|lb|lbs|pounds|st|stone)?$`)

var unitSigns = map[string][]string{
	"%": {"%"}, "percent": {"%"}, "°": {"degrees", "°"}, "deg": {"degrees", "°"}, "degrees": {"degrees", "°"},
	"mm": {"mm"}, "cm": {"cm"}, "in": {"in"}, "inches": {"in"}, `"`: {"in"}, "kg": {"kg"}, "lb": {"lb"}, "lbs": {"lb"}, "pounds": {"lb"}, "st": {"st"}, "stone": {"st"},
}

// shownAs gives the ways in which an amount may stand on the sheet in the unit in which it was told; one with two units
// stands as it was typed.
func shownAs(words string) []string {
	m := written.FindStringSubmatch(words)
	if m == nil {
		return []string{words}
	}
	number := strings.ReplaceAll(m[1], ",", ".")
	if strings.HasPrefix(words, "1:") || strings.HasPrefix(words, "1 in ") {
		return []string{"1:" + number}
	}
	var out []string
	for _, sign := range unitSigns[m[2]] {
		out = append(out, number+" "+sign, number+sign)
	}
	return out
}

// Every amount that an example tells stands once under "About me", in the unit in which it was told; and each sentence
// there is of an answer or a fact that was told, as Go's own walk and sitting have it.
func TestAboutMeSaysWhatWasTold(t *testing.T) {
	l := load(t)
	var amounts, lines int
	for _, s := range sheetsOf(t, l) {
		answers := s.example.Given()
		facts := (&told.Sitting{Trees: l.PatientTrees(), Facts: l.Facts, Taken: []string{s.tree.ID.S}, Answers: map[string]tree.Answers{s.tree.ID.S: answers}}).Told()
		for _, step := range s.path.Steps {
			q := s.tree.Question(step.Question)
			if q.Measure == nil || step.Chosen[0] == tree.Skip {
				continue
			}
			amounts++
			typed := step.Chosen[0]
			for _, like := range q.Measure.Likes {
				if like.ID.S == typed {
					typed = like.Is.S
				}
			}
			n := 0
			for _, text := range s.texts() {
				if slices.ContainsFunc(shownAs(typed), func(shown string) bool {
					return regexp.MustCompile(`(^|[ :])` + regexp.QuoteMeta(shown) + `([ ,.(]|$)`).MatchString(text)
				}) {
					n++
				}
			}
			// Two amounts that are alike, as the heels of two pairs may be, stand once each.
			alike := 0
			for _, other := range s.path.Steps {
				if s.tree.Question(other.Question).Measure != nil && slices.Equal(other.Chosen, step.Chosen) {
					alike++
				}
			}
			if n != alike {
				t.Errorf("%s: %q was told, and it stands %d times under About me: %q", s.name(), step.Chosen[0], n, s.texts())
			}
		}
		for _, m := range s.Me {
			lines++
			if _, ok := facts[m.ID]; ok || s.gave(m.ID) {
				continue
			}
			t.Errorf("%s: %q (%s) stands on the sheet, and it was not told", s.name(), m.Text, m.ID)
		}
	}
	if amounts < 40 || lines < 400 {
		t.Errorf("only %d amounts and %d sentences were looked at", amounts, lines)
	}
}

// gave tells whether the example gives the answer "tree/question/answer", or some answer to "tree/question".
func (s aSheet) gave(id string) bool {
	names := strings.Split(id, "/")
	if len(names) < 2 || names[0] != s.tree.ID.S {
		return false
	}
	return slices.ContainsFunc(s.path.Steps, func(step tree.Step) bool {
		return step.Question == names[1] && (len(names) == 2 || slices.Contains(step.Chosen, names[2]))
	})
}

// A sentence has the words of the question and of the answer that it speaks of, beside such as hold a sentence together.
func TestAboutMeUsesTheAnswersOwnWords(t *testing.T) {
	l, n := load(t), 0
	for _, line := range l.About.Lines {
		q := l.Tree(line.Tree.S).Question(line.Question.S)
		asked := strings.Join([]string{l.Tree(line.Tree.S).Title.S, l.Tree(line.Tree.S).Purpose.S, q.Text.S, q.Hint.S}, " ")
		if line.Amount.Given() {
			strangers(t, line.ID, line.Amount.S, asked)
		}
		if line.These.Given() {
			strangers(t, line.ID, line.These.S, asked)
		}
		for _, say := range slices.Concat(line.List, line.Says) {
			answer := ""
			for _, a := range q.Answers {
				if a.ID.S == say.Answer.S {
					answer = a.Text.S
				}
			}
			if q.Measure != nil {
				for _, like := range q.Measure.Likes {
					if like.ID.S == say.Answer.S {
						answer = like.Text.S
					}
				}
			}
			n++
			strangers(t, line.ID+"/"+say.Answer.S, say.Words.S, asked+" "+answer)
		}
	}
	if n < 180 {
		t.Errorf("only %d sentences were looked at", n)
	}
}

// joins are words that hold a sentence together and tell nothing of a reader by themselves.
var joins = strings.Fields(`a an the and or of in on at to from by for with as it its that this there here is are be was were am have has had do does did
	i me my mine we our their you your not no so if but when where who what which than then sure may would could how`)

var wordsIn = regexp.MustCompile(`[a-z']+`)

func strangers(t *testing.T, who, text, from string) {
	t.Helper()
	known := map[string]bool{}
	for _, w := range wordsIn.FindAllString(strings.ToLower(from), -1) {
		known[endless(w)] = true
	}
	for _, w := range wordsIn.FindAllString(strings.ToLower(regexp.MustCompile(`\{[^}]*\}`).ReplaceAllString(text, "")), -1) {
		if !known[endless(w)] && !slices.Contains(joins, w) && !slices.Contains(grown[who], w) {
			t.Errorf("%s says %q, and neither the question nor the answer has %q", who, text, w)
		}
	}
}

// endless takes the commonest endings off, so that "carries" and "carry" are one.
func endless(w string) string {
	for _, end := range []string{"ies", "ied", "ing", "es", "ed", "s", "e", "y"} {
		if len(w) > len(end)+2 && strings.HasSuffix(w, end) {
			return strings.TrimSuffix(w, end)
		}
	}
	return w
}

// grown are words that say the same as the question or the answer in a form that it does not have, each looked at.
var grown = map[string][]string{
	"heel-height/apart/far":          {"about", "mm"}, // the measure of the answer above it
	"hills-and-ramps/hardest/both":   {"going"},
	"motion-or-push/harder/both":     {"slopes", "flat", "ground"}, // the two answers above it
	"water-and-weather/steady/fell":  {"fell"},                     // "I have fallen"
	"loads-and-weight/signs/over":    {"foot"},                     // "my foot's"
	"foot-shell-and-toes/about/look": {"foot"},
	"foot-shell-and-toes/about/fit":  {"foot"},
	"ready-for-the-visit/time/long":  {"minutes"},            // of the answer above it
	"sport-and-play/sport/walk":      {"take", "go", "play"}, // what one does with a walk, a gym and a game
	"sport-and-play/sport/turn":      {"play"},
	"sport-and-play/sport/run":       {"play"},
	"sport-and-play/sport/water":     {"swim", "use", "go"}, // "swimming" doubles its m
}

// Ten people's sheets, shuffled, can be told apart by their first lines: no two of those that have told different things
// begin alike.
func TestSheetsAreTheirOwn(t *testing.T) {
	all := sheetsOf(t, load(t))
	r := rand.New(rand.NewPCG(10, 6))
	for round := range 200 {
		ten := slices.Clone(all)
		r.Shuffle(len(ten), func(i, j int) { ten[i], ten[j] = ten[j], ten[i] })
		first := map[string]aSheet{}
		for _, s := range ten[:10] {
			lines := append(s.texts(), s.Asked...)
			top := strings.Join(lines[:min(6, len(lines))], "\n")
			if other, ok := first[top]; ok {
				t.Errorf("round %d: %s and %s begin alike:\n%s", round, other.name(), s.name(), top)
			}
			first[top] = s
		}
	}
}
