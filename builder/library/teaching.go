package library

import (
	"fmt"
	"path"
	"regexp"
	"strings"

	"keelpath/builder/proof"
	"keelpath/builder/read"
	"keelpath/builder/teaching"
)

// caseFile is the kind of the files of teaching cases.
const caseFile = "trees/cases/ID.yaml"

func (l *loader) readCase(y Layer, name string) {
	k := teaching.Read(l.whole(name), y.name(name), y.files[name], l.list)
	if k == nil {
		return
	}
	k.ID.S, k.ID.At.File = stem(path.Base(name)), y.name(name) // another name was reported, and the file's counts
	put(&l.Cases, k, func(k *teaching.Case) string { return k.ID.S })
}

// cases cross-checks the teaching cases and proves each.
func (c *checker) cases() {
	known := teaching.Known{Tree: c.Tree, Proof: func(id string) *proof.Proof { return c.Proofs[id] }, Told: c.Fact, Screen: c.Safety}
	for _, k := range c.Cases {
		who := fmt.Sprintf("case %q", k.ID.S)
		c.trained(k.Credits)
		c.has(c.sources, who, k.Credits.Sources...)
		for _, w := range k.Walks {
			c.has(c.trees, who, w.Tree)
		}
		for _, talk := range k.Argue {
			c.has(c.types, who, talk.Type)
			c.sidesOf(talk, who)
		}
		for _, t := range k.Marked() {
			c.cited(c.text(who, t), k.Credits)
		}
		c.noLevel(who, k)
		if c.Lang != FirstLanguage {
			continue // what is proved holds in every language, and the rules of wording are those of the first
		}
		c.noFoot(who, k)
		if c.Safety != nil {
			k.Prove(known, c.list)
		}
	}
	if c.Lang == FirstLanguage {
		teaching.Bank(c.Cases, c.list)
	}
}

// rank is a functional level given to somebody. The id of a source may hold one
// behind a hyphen.
var rank = regexp.MustCompile(`(?i)(?:^|[^-\w])(K-?[0-4]|level\s+[0-4])\b`)

// noLevel keeps levels out of a case. In the chart one may stand as history, with its day.
func (c *checker) noLevel(who string, k *teaching.Case) {
	history := map[read.Text]bool{}
	for _, f := range k.Facts {
		history[f.Says] = f.From.S == teaching.Chart && f.Dated.S != ""
	}
	for _, t := range k.Texts() {
		if at := rank.FindStringSubmatchIndex(t.S); at != nil && !history[t] {
			c.list.Add(c.within(t, at[2]), "level-given", fmt.Sprintf("%s says %q, and a level stands in a case as dated history alone", who, t.S[at[2]:at[3]]),
				"say what the person does, where and how often: the clinic sets the level", "a level that the chart had is a fact from: chart, with the day in dated:")
		}
	}
}

// noFoot keeps kinds of feet out of the keys of scored questions: a key that is a foot would pick one.
func (c *checker) noFoot(who string, k *teaching.Case) {
	for _, b := range k.Beats {
		if b.Format.S != teaching.OneBest && b.Format.S != teaching.KeyFeature {
			continue
		}
		for _, o := range b.Options {
			for _, t := range c.FootTypes {
				if b.IsKey(o) && !t.Way && says(o.Text.S, t.Name.S) {
					c.list.Add(o.Text.At, "picks-a-foot", fmt.Sprintf("the key of beat %q of %s names %q, and no scored question picks a foot", b.ID.S, who, t.Name.S),
						"ask for a finding, a step or a reason; feet are argued under argue:")
				}
			}
		}
	}
}

// says tells whether a text has a name in it, its words whole.
func says(text, name string) bool {
	return regexp.MustCompile(`\b` + regexp.QuoteMeta(strings.ToLower(name))).MatchString(strings.ToLower(text))
}
