package library_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"keelpath/builder/finding"
	"keelpath/builder/library"
)

const placedLayer = `-- content/edition.yaml --
place: PLACE
-- trees/prompts.yaml --
themes:
  local:
    title: Around here
    about: Rules differ from place to place.
    prompts:
      local-1: { ask: "Which rule holds here?", whom: [prosthetist], why: [{ place: us, says: Plans ask. }, { says: Offices ask. }], basis: [common-practice] }
      local-2: { ask: "Does my plan cover it?", whom: [payer], why: Plans differ., basis: [common-practice], place: us }
  plans:
    place: us
    title: Plans
    about: Plans stand between you and a foot.
    prompts:
      plan-9: { ask: "Who at the plan decides?", whom: [payer], why: A name saves a week., basis: [common-practice] }
-- trees/local-rules.yaml --
tree: local-rules
title: Rules here
audience: resident
purpose: To see which rule holds.
authors: [Keelpath editors]
reviewers: []
reviewed: 2026-11-25
review-by: 2028-11-25
sources: []
funding: No outside funding.
start: who
questions:
  who:
    text: Who pays?
    why: Rules differ.
    answers:
      plan: { text: A plan, go: ask, place: us }
      office: { text: An office, go: ask }
      unsure: { text: Not sure, go: wait }
endings:
  ask: { title: Ask, text: Ask which rule holds., themes: [local, plans], prompts: [local-1, local-2, plan-9] }
  wait: { title: Find out, text: Ask who pays., themes: [local], prompts: [local-1] }
`

// placed gives the layer's files, under the same names for every place.
func placed(place string) map[string][]byte {
	out := map[string][]byte{}
	for _, f := range txtar.Parse([]byte(strings.Replace(placedLayer, "PLACE", place, 1))).Files {
		out[f.Name] = f.Data
	}
	return out
}

// The built-in edition is for the US, and so is a layer's that says nothing else. One whose emergency number is
// for elsewhere is for no place until it says which.
func TestPlaceOfAnEdition(t *testing.T) {
	for text, want := range map[string][2]string{
		"":             {"us", "November 25, 2026"},
		"name: Ours\n": {"us", "November 25, 2026"},
		"place: de\n":  {"de", "25 November 2026"},
		`emergency: { number: "112", where: Germany }`:           {"", "25 November 2026"},
		"place: us\nemergency: { number: \"112\", where: Guam }": {"us", "November 25, 2026"},
		`emergency: { number: "911", where: the US }`:            {"us", "November 25, 2026"},
	} {
		var list finding.List
		l := load(t, &list, library.Builtin(), library.LayerOf("ours", map[string][]byte{"content/edition.yaml": []byte(text)}))
		if got := [2]string{l.Edition.Place.S, l.Say.Date("2026-11-25")}; got != want {
			t.Errorf("%q: the place and a date are %q, want %q", text, got, want)
		}
	}
}

// What is for another place is left out with every name of it, and of a text in several the first
// that fits stands. The same file is another tree in another place, and is proved anew.
func TestPlace(t *testing.T) {
	for place, want := range map[string]struct{ answers, prompts, why string }{
		"us": {"plan office unsure", "local-1 local-2 plan-9", "Plans ask."},
		"de": {"office unsure", "local-1", "Offices ask."},
	} {
		var list finding.List
		l := load(t, &list, library.Builtin(), library.LayerOf("local", placed(place)))
		for _, f := range list.Sorted() {
			if f.Weight == finding.Error && f.Check != "no-examples" {
				t.Errorf("%s: %s: %s", place, f.Place, f.Text)
			}
		}
		tr := l.Tree("local-rules")
		var answers, prompts []string
		for _, a := range tr.Question("who").Answers {
			answers = append(answers, a.ID.S)
		}
		for _, p := range tr.Ending("ask").Prompts {
			prompts = append(prompts, p.S)
		}
		if got := strings.Join(answers, " "); got != want.answers {
			t.Errorf("%s: the answers are %s", place, got)
		}
		if got := strings.Join(prompts, " "); got != want.prompts || slices.Contains(prompts, "local-2") != (l.Prompt("local-2") != nil) {
			t.Errorf("%s: the prompts are %s", place, got)
		}
		if got := l.Prompt("local-1").Why.S; got != want.why {
			t.Errorf("%s: the reason is %q", place, got)
		}
		if n := l.Proofs["local-rules"].Paths; n.Int64() != int64(len(answers)) {
			t.Errorf("%s: %d paths are proved, and there are %d answers", place, n, len(answers))
		}
	}
}
