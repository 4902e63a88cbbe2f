package library

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/prose"
)

// lifeHeading is the heading under which the page of a kind of foot tells what
// life with it is like.
const lifeHeading = "What is it like to live with?"

// lifeParts are what it tells there, each in a paragraph that begins with these
// words in bold: daily life in body, mind and company.
var lifeParts = []string{"Stairs", "Feelings", "Looks", "Other people", "Care", "Shoes"}

// life holds each kind of foot, and each way to go on with no new one, to a page
// that tells of life with it in the same six parts. A page of several kinds names each of them there, since two kinds
// seldom are alike in all six.
//
// life gives the kinds by the page that tells of them, and reports those without one.
func (c *checker) life() map[string][]*FootType {
	kinds := map[string][]*FootType{}
	for _, t := range c.FootTypes {
		switch {
		case t.Explainer.Given():
			kinds[t.Explainer.S] = append(kinds[t.Explainer.S], t)
		case t.Name.Given() && len(t.Cells) > 0:
			c.list.Add(t.ID.At, "no-daily-life", fmt.Sprintf("foot type %q names no page, so nothing tells what it is like to live with", t.ID.S),
				`add a line "explainer: ..." with the id of a page that has the part "`+lifeHeading+`"`)
		}
	}
	return kinds
}

// lifeOn holds one page to the six parts of life with the kinds that name it.
func (c *checker) lifeOn(p *explainer.Page, kinds []*FootType) {
	at, told, found := lifeTold(p)
	if !found {
		c.list.Add(p.Title.At, "no-daily-life", fmt.Sprintf("foot type %q names this page, and the page has no part %q", kinds[0].ID.S, lifeHeading),
			`add "## `+lifeHeading+`" with a paragraph for each of these, which begins with it in bold: `+strings.Join(lifeParts, ", "))
		return
	}
	for _, part := range lifeParts {
		if told[part] == "" {
			c.list.Add(at, "no-daily-life", fmt.Sprintf("the part %q says nothing of %s", lifeHeading, strings.ToLower(part)),
				`begin a paragraph with "**`+part+`.**", and say in a sentence what a source says, what the trade does, or that no study was found`)
		}
	}
	if len(kinds) < 2 || len(told) == 0 {
		return
	}
	all := strings.ToLower(strings.Join(slices.Collect(maps.Values(told)), " "))
	for _, t := range kinds {
		if !strings.Contains(all, strings.ToLower(t.Name.S)) {
			c.list.Add(at, "no-daily-life", fmt.Sprintf("the part %q is about %d kinds of feet, and does not name the %s", lifeHeading, len(kinds), strings.ToLower(t.Name.S)),
				"say by name where the kinds differ")
		}
	}
}

// lifeTold gives what the page tells in each of the six parts, without the bold
// words, and where the heading above them stands. Bold words with no sentence
// behind them tell nothing.
func lifeTold(p *explainer.Page) (at finding.Place, told map[string]string, found bool) {
	told = map[string]string{}
	inside := false
	for _, b := range p.Body.Blocks {
		if b.Kind == explainer.Title {
			if inside = b.Text == lifeHeading; inside {
				at, found = b.Place(0), true
			}
			continue
		}
		part := strings.TrimRight(b.Lead, ".:")
		rest := strings.TrimPrefix(b.Text, b.Lead)
		if inside && slices.Contains(lifeParts, part) && prose.Of([]string{rest}).Words >= fewestLifeWords {
			told[part] += rest + " "
		}
	}
	return at, told, found
}

// fewestLifeWords is how many words a part has at least: fewer make no sentence.
const fewestLifeWords = 4
