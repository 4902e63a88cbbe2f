package library

import (
	"fmt"
	"regexp"

	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// Case is an invented person for residents to argue about. It has no right
// answer: at least two foot types come up, each with both sides.
type Case struct {
	ID      read.Text
	Title   read.Text
	Who     read.Text   // the vignette
	Ask     []read.Text // what to ask first
	Trees   []read.Text // ids of trees to walk
	Argue   []tree.Talk
	Change  []read.Text // one fact changed, each
	Errors  []read.Text // common errors (markdown)
	Sources []read.Text // ids
}

// MinArgued is how many foot types a case brings up at least. With one it
// would pick a foot.
const MinArgued = 2

func (l *loader) cases(m *read.Map) {
	m.EachHere("cases", "case", func(id read.Text, m *read.Map) {
		c := &Case{
			ID: id, Title: m.NeedWords("title"), Who: m.NeedWords("who"), Ask: m.NeedWordList("ask"), Trees: m.IDs("trees"),
			Change: m.WordList("change"), Errors: m.NeedWordList("errors"), Sources: m.IDs("sources"),
		}
		for _, t := range m.Maps("argue", fmt.Sprintf("a foot type of case %q", id.S)) {
			c.Argue = append(c.Argue, tree.Talk{Type: t.NeedText("type"), For: t.NeedWords("for"), Against: t.NeedWords("against")})
			t.Done()
		}
		m.Done()
		put(&l.Cases, c, func(c *Case) string { return c.ID.S })
	})
	m.Done()
}

// rank is a functional level given to somebody. The id of a source may hold one
// behind a hyphen.
var rank = regexp.MustCompile(`(?i)(?:^|[^-\w])(K-?[0-4]|level\s+[0-4])\b`)

func (c *checker) cases() {
	for _, k := range c.Cases {
		who := fmt.Sprintf("case %q", k.ID.S)
		c.has(c.trees, who, k.Trees...)
		c.has(c.sources, who, k.Sources...)
		if len(k.Trees) == 0 {
			c.list.Add(k.ID.At, "missing-key", who+" names no tree to walk", "add trees: with ids")
		}
		seen := map[string]bool{}
		for _, talk := range k.Argue {
			c.has(c.types, who, talk.Type)
			seen[talk.Type.S] = true
			c.sidesOf(talk, who)
		}
		if len(seen) < MinArgued {
			c.list.Add(k.ID.At, "one-sided", fmt.Sprintf("%s brings up too few foot types: %d, and at least %d were expected", who, len(seen), MinArgued),
				"a case that brings up one would pick a foot: add another under argue:")
		}
		for _, e := range k.Errors {
			c.cited(c.text(who, e), read.Credits{Sources: k.Sources})
		}
	}
	c.everyCaseText(func(who string, ts ...read.Text) {
		for _, t := range ts {
			if at := rank.FindStringSubmatchIndex(t.S); at != nil {
				c.list.Add(c.within(t, at[2]), "level-given", fmt.Sprintf("%s says %q, and no case has a level", who, t.S[at[2]:at[3]]),
					"say what the person does, where and how often: the clinic sets the level")
			}
		}
	})
}

// everyCaseText gives all that readers see of the cases.
func (c *checker) everyCaseText(say func(who string, ts ...read.Text)) {
	for _, k := range c.Cases {
		who := fmt.Sprintf("case %q", k.ID.S)
		say(who, k.Title, k.Who)
		say(who, k.Ask...)
		for _, talk := range k.Argue {
			say(who, talk.For, talk.Against)
		}
		say(who, k.Change...)
		say(who, k.Errors...)
	}
}
