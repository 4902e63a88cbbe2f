package publish

import (
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
	"unicode"

	"golang.org/x/net/html"

	"keelpath/builder/explainer"
	"keelpath/builder/search"
)

// asked is a question in somebody's own words, the page and heading where its
// answer stands ("learn/falls.html#key-points"), empty where no page answers it, and the first words of what answers.
type asked struct{ who, question, answer, words string }

// askers says how many questions each kind of reader asks in testdata/questions.txt.
var askers = map[string]int{"new patient": 20, "older patient": 15, "patient": 25, "carer": 15, "resident": 15, "clinic": 10}

func questionsAsked(t *testing.T) []asked { return questionsIn(t, "questions.txt") }

// questionsAside are those on which nothing is tuned.
func questionsAside(t *testing.T) []asked { return questionsIn(t, "questions-aside.txt") }

func questionsIn(t *testing.T, file string) []asked {
	t.Helper()
	src, err := os.ReadFile("../../testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	var all []asked
	for n, line := range strings.Split(strings.TrimSuffix(string(src), "\n"), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		parts := strings.Split(line, "\t")
		if len(parts) < 3 || len(parts) > 4 || parts[0] == "" || parts[1] == "" {
			t.Fatalf("%s:%d has %d parts, and needs who, question, place and the first words of the answer: %q", file, n+1, len(parts), line)
		}
		all = append(all, asked{parts[0], parts[1], parts[2], strings.Join(parts[3:], "")})
	}
	return all
}

// bareWords gives a text's words with nothing between them but a space, so that
// neither a capital nor a comma hides that two texts say the same.
func bareWords(s string) string {
	s = strings.NewReplacer("'", "", "’", "").Replace(strings.ToLower(s))
	letter := func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }
	return " " + strings.Join(strings.FieldsFunc(s, letter), " ") + " "
}

// The questions are what the site is held against, so there are as many of each kind
// of reader as they say, each once, and at least 90 of 100 have an answer.
func TestQuestionsAsked(t *testing.T) {
	count, said, answered := map[string]int{}, map[string]bool{}, 0
	for _, q := range questionsAsked(t) {
		count[q.who]++
		if said[bareWords(q.question)] {
			t.Errorf("%q is asked twice", q.question)
		}
		said[bareWords(q.question)] = true
		if q.answer != "" {
			answered++
		}
	}
	if !maps.Equal(count, askers) {
		t.Errorf("asked by %v, want %v", count, askers)
	}
	if len(said) != 100 || answered < 90 {
		t.Errorf("%d questions, of which %d have an answer; want 100 and at least 90", len(said), answered)
	}
}

// Each place named is a heading of the built site, and no page says a question word for
// word: a search that finds its answer has to know what people mean.
func TestQuestionsHaveTheirPlace(t *testing.T) {
	pages := pagesOf(t, builtin(t))
	words := map[string]string{}
	for name, page := range pages {
		words[name] = bareWords(textOf(page))
	}
	for _, q := range slices.Concat(questionsAsked(t), questionsAside(t)) {
		if name, id, _ := strings.Cut(q.answer, "#"); q.answer != "" && !hasHeading(pages[name], id) {
			t.Errorf("%q is said to be answered at %s, and no heading is there", q.question, q.answer)
		}
		for name, text := range words {
			if strings.Contains(text, bareWords(q.question)) {
				t.Errorf("%s says %q word for word", name, q.question)
			}
		}
	}
}

// What was done for the search knows none of the questions: no way of asking for a place that the content names has three
// words of one, where these are three in four of its own.
func TestQuestionsAreNotWrittenDown(t *testing.T) {
	l := load(t)
	skip := map[string]bool{}
	for _, w := range l.SearchWords.Skip {
		skip[w.S] = true
	}
	stems := func(s string) map[string]bool {
		out := map[string]bool{}
		for _, w := range search.Split(s) {
			if !skip[w] {
				out[search.Stem("en", w)] = true
			}
		}
		return out
	}
	ways := 0
	for _, w := range l.SearchWords.Asked {
		for _, says := range w.Says {
			ways++
			own := stems(says.S)
			for _, q := range questionsAsked(t) {
				asked, shared := stems(q.question), 0
				for s := range own {
					if asked[s] {
						shared++
					}
				}
				if shared >= 3 && shared*4 >= len(own)*3 {
					t.Errorf("%s: %q is the question %q in short", w.Place.S, says.S, q.question)
				}
			}
		}
	}
	if ways < 600 {
		t.Errorf("only %d ways of asking were looked at", ways)
	}
}

// hasHeading tells whether a page has a heading with that id; a page that there is not has none.
func hasHeading(page *html.Node, id string) bool {
	return page != nil && slices.ContainsFunc(elements(page, "h2", "h3", "h4"), func(h *html.Node) bool {
		own, ok := attr(h, "id")
		return ok && own == id
	})
}

// The pages of everyday questions answer at least 120 for patients and some for residents
// and for clinics. Each question is a heading, so that a link can lead to it, and its answer
// leads on to a heading that says more. What it says has a mark, a source or a number to
// call, but on the clinics' page, which is about the site itself.
func TestEverydayQuestions(t *testing.T) {
	count := map[string]int{}
	l := load(t)
	for _, e := range l.Explainers {
		if !strings.HasPrefix(e.ID, "everyday-") {
			continue
		}
		who := e.Audience.S
		if e.ID == "everyday-clinics" {
			who = "clinic"
		}
		for _, s := range answersOf(e.Body.Again().Blocks) {
			count[who]++
			if !s.leads {
				t.Errorf("%s: the answer to %q leads to no heading that says more", e.ID, s.question)
			}
			if !s.sure && who != "clinic" {
				t.Errorf("%s: the answer to %q has no mark, no source and no one to call", e.ID, s.question)
			}
		}
	}
	if count["patient"] < 120 || count["resident"] < 12 || count["clinic"] < 10 {
		t.Errorf("questions by reader: %v", count)
	}
}

// answerSeen is a question of an everyday page and what was seen in its answer.
type answerSeen struct {
	question    string
	leads, sure bool
}

// answersOf cuts a page of everyday questions at its headings and leaves out what to do next.
func answersOf(blocks []explainer.Block) []answerSeen {
	var out []answerSeen
	for _, b := range blocks {
		if b.Kind == explainer.Title {
			out = append(out, answerSeen{question: b.Text})
		}
		for _, r := range b.Refs {
			if len(out) == 0 {
				break
			}
			last := &out[len(out)-1]
			last.leads = last.leads || strings.Contains(r.ID, "#")
			last.sure = last.sure || r.Kind == "support" || r.Kind == "source" || r.Kind == "call"
		}
	}
	return slices.DeleteFunc(out, func(s answerSeen) bool {
		return strings.HasPrefix(s.question, "What can ") && strings.HasSuffix(s.question, " do next?")
	})
}
