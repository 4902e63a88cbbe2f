package safety_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"keelpath/builder/read"
	"keelpath/builder/safety"
)

// inGate are the words of its group's gate line that name a sign or its family
// (our own reading; no source).
var inGate = map[string]string{
	"chest": "chest pain", "breath": "trouble breathing", "faint": "fainting", "stroke": "sudden weakness, numbness", "sight": "sight loss",
	"cold": "cold, blue or blackened skin", "sepsis": "very ill", "blotch": "blue", "black": "blackened skin", "thin": "hit my head",
	"head": "hit my head", "hip": "cannot stand", "groin": "numbness", "bleed": "bleeding",

	"hot": "hot, swollen", "wound": "a wound that leaks", "sore": "sore or broken skin", "pain": "new or night pain", "calf": "other leg or foot: hot, swollen",
	"rest": "night pain", "other": "other leg or foot", "char": "foot: hot, swollen", "rash": "rash", "thick": "thick skin", "treat": "infection",

	"crack": "cracked", "loose": "loose", "knee": "its knee gives way", "stuck": "stuck", "strap": "too tight", "smoke": "smoking battery",
	"batt": "a hot or smoking battery", "noise": "a new noise, poor fit",

	"fall": "I fell", "own": "my own knee gave way", "dizzy": "faint or dizzy when I stand up",

	"end": "ending my life", "low": "hopeless",
}

func TestTheGateNamesEachSign(t *testing.T) {
	s := shipped(t)
	for _, id := range s.SignIDs() {
		_, g := s.Sign(id)
		if words := inGate[id]; words == "" || !strings.Contains(g.Line.S, words) {
			t.Errorf("the line of %q does not name the sign %q by %q: %s", g.ID.S, id, words, g.Line.S)
		}
	}
	for id := range inGate {
		if sign, _ := s.Sign(id); sign == nil {
			t.Errorf("the table names a sign %q, and the screen has none", id)
		}
	}
}

// The gate is read in one go, so a line has 24 words at most, and all have 110.
func TestTheGateIsShort(t *testing.T) {
	all := 0
	for _, g := range shipped(t).Groups {
		n := len(strings.Fields(g.Line.S))
		if all += n; n > 24 {
			t.Errorf("the line of %q has %d words: %s", g.ID.S, n, g.Line.S)
		}
	}
	if all == 0 || all > 110 {
		t.Errorf("the lines have %d words", all)
	}
}

// ofTheLeg are words that presume an artificial leg.
var ofTheLeg = regexp.MustCompile(`(?i)\b(leg (off|along)|(bring|wear) (the|your) leg|leg itself|loaner|(artificial|prosthetic) leg|(my|the) (foot|leg|socket|liner))\b`)

// Whoever has no leg reads what stands outside worn: and the signs of the leg.
func TestWhatIsSaidWithoutALegPresumesNone(t *testing.T) {
	s := shipped(t)
	for _, g := range s.Groups {
		if g.Leg {
			continue
		}
		holdsFor(t, "not sure of "+g.ID.S, g.Unsure.Title, g.Unsure.Caution)
		for _, sign := range g.Shown(safety.NotYet) {
			holdsFor(t, sign.ID.S, sign.Title, sign.Caution)
		}
	}
	for _, e := range s.Endings {
		holdsFor(t, e.When.S, e.Steps...)
	}
}

func holdsFor(t *testing.T, who string, texts ...read.Text) {
	t.Helper()
	for _, text := range texts {
		for _, found := range ofTheLeg.FindAllString(text.S, -1) {
			if !legOfOnesOwn[who][found] {
				t.Errorf("%s: %q is said to people without a leg: %s", who, found, text.S)
			}
		}
	}
}

// legOfOnesOwn are words that speak of a leg of flesh.
var legOfOnesOwn = map[string]map[string]bool{
	"hip":  {"the leg": true},
	"calf": {"the leg": true},
	"rest": {"the leg": true},
}

// A question for later presumes a leg only where the sign does.
func TestPromptsWithoutALegPresumeNone(t *testing.T) {
	s, asks := shipped(t), asks(t)
	for _, g := range s.Groups {
		if g.Leg {
			continue
		}
		ids := read.Strings(g.Unsure.Prompts)
		for _, sign := range g.Shown(safety.NotYet) {
			ids = append(ids, read.Strings(sign.Prompts)...)
		}
		for _, id := range ids {
			if ask := asks[id]; ask == "" || ofTheLeg.MatchString(ask) {
				t.Errorf("group %q brings the question %q to people without a leg: %s", g.ID.S, id, ask)
			}
		}
	}
}

// asks are the questions of trees/prompts.yaml by id.
func asks(t *testing.T) map[string]string {
	t.Helper()
	src, err := os.ReadFile("../../trees/prompts.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Themes map[string]struct {
			Prompts map[string]struct{ Ask string }
		}
	}
	if err := yaml.Unmarshal(src, &file); err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, theme := range file.Themes {
		for id, p := range theme.Prompts {
			out[id] = p.Ask
		}
	}
	return out
}

// calls is what the caution of a sign says, by how soon help is due.
var calls = map[safety.When]*regexp.Regexp{
	safety.Now:    regexp.MustCompile(`\[\]\(call:emergency\)`),
	safety.Crisis: regexp.MustCompile(`\[\]\(call:crisis\)`),
	safety.Today:  regexp.MustCompile(`(?s)\b([Cc]all|[Gg]o back to) .*\b(today|now)\b`),
	safety.Soon:   regexp.MustCompile(`Call (your|the) clinic`),
}

func TestWhomACautionCalls(t *testing.T) {
	s := shipped(t)
	for _, id := range s.SignIDs() {
		sign, _ := s.Sign(id)
		if want := calls[safety.When(sign.When.S)]; !want.MatchString(sign.Caution.S) {
			t.Errorf("%s: the caution does not say %s: %s", id, want, sign.Caution.S)
		}
	}
}

// A blood thinner never makes a blow to the head read as less urgent, and chest
// pain names the heart.
func TestHeadAndHeart(t *testing.T) {
	s := shipped(t)
	thin, _ := s.Sign("thin")
	head, _ := s.Sign("head")
	for _, sign := range []*safety.Sign{thin, head} {
		if sign.When.S != string(safety.Now) || !strings.Contains(sign.Caution.S, "[](call:emergency)") {
			t.Errorf("%s: when %q, caution: %s", sign.ID.S, sign.When.S, sign.Caution.S)
		}
	}
	if !strings.HasPrefix(thin.Caution.S, "This is an emergency even if you feel well. [](call:emergency)") {
		t.Errorf("with a blood thinner the first words are: %s", thin.Caution.S)
	}
	if chest, _ := s.Sign("chest"); !strings.Contains(chest.Because.S, "the heart") {
		t.Errorf("chest pain does not name the heart: %s", chest.Because.S)
	}
}
