package library

import (
	"fmt"
	"regexp"
	"slices"
	"unicode/utf8"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// fixedPages are the names that a folder of the site holds for pages which are
// there once. An explainer goes to learn/, a tree to prepare/, to start/ and to teach/.
var fixedPages = map[string][]string{
	"explainer": {"index", "foot-types", "glossary", "questions", "search"},
	"tree":      {"index", "cases"},
}

// device knows the names that Windows keeps for devices, with any ending
// (Microsoft, "Naming Files, Paths, and Namespaces"; from memory).
var device = regexp.MustCompile(`^(con|prn|aux|nul|com[0-9]|lpt[0-9])$`)

// Reserved tells whether the site has a page of its own by the name that an
// explainer or a tree with that id would get.
func Reserved(kind, id string) bool { return slices.Contains(fixedPages[kind], id) }

// fileNames reports ids that cannot be the name of a page's file, or not on every
// machine.
func (c *checker) fileNames() {
	for _, t := range c.Trees {
		c.fileName("tree", t.ID.S, t.ID.At)
	}
	for _, p := range c.Explainers {
		c.fileName("explainer", p.ID, finding.Place{File: p.File})
	}
}

func (c *checker) fileName(kind, id string, at finding.Place) {
	switch {
	case Reserved(kind, id):
		c.list.Add(at, "reserved-name", fmt.Sprintf("the site has a page of its own called %q, so no %s may have that name", id, kind), "give the file another name, such as "+id+"-2")
	case device.MatchString(id):
		c.list.Add(at, "reserved-name", fmt.Sprintf("Windows keeps the name %q for a device, so a site with such a page cannot be kept there", id), "give the file another name, such as "+id+"-2")
	}
}

// moreElsewhere is how many letters a short text may have in another language for 28 of the first: those that say a
// thing at most length, such as German, take a third more (the W3C's "Text size in translation", from memory).
const moreElsewhere = 10

// shorts reports short texts that have no room on a map.
func (c *checker) shorts() {
	most := tree.MaxShort
	if c.Lang != FirstLanguage {
		most += moreElsewhere
	}
	short := func(t read.Text) {
		if n := utf8.RuneCountInString(t.S); n > most {
			c.list.Add(t.At, "too-long", fmt.Sprintf("the short text %q has %d letters, and at most %d were expected", t.S, n, most),
				"say it in fewer words; the whole answer stands on the tree's other pages")
		}
	}
	for _, t := range c.Trees {
		for _, q := range t.Questions {
			for _, a := range q.Answers {
				short(a.Short)
			}
			for _, r := range q.Routes {
				short(r.Short)
			}
		}
	}
}
