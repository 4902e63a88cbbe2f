package library

import (
	"fmt"
	"regexp"
	"slices"

	"keelpath/builder/finding"
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
