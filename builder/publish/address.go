package publish

import (
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/library"
)

// Names of the pages that are there once.
const (
	homeName      = "index.html"
	plannerName   = "prepare/index.html"
	learnName     = "learn/index.html"
	footTypesName = "learn/foot-types.html"
	glossaryName  = "learn/glossary.html"
	questionsName = "learn/questions.html"
	workbenchName = "workbench/index.html"
	teachName     = "teach/index.html"
	clinicName    = "clinic/index.html"
	sourcesName   = "clinic/sources.html"
	ratingsName   = "clinic/self-ratings.html"
)

// audiencePatient marks the trees and explainers that are for patients.
const audiencePatient = "patient"

// rootOf is the way from a page up to the site's root: "" or "../".
func rootOf(name string) string { return strings.Repeat("../", strings.Count(name, "/")) }

// addresses says where things are, seen from one page. All addresses are
// relative and name a file, so that they hold over file: as well.
type addresses struct {
	all  *library.Library
	root string
	here string // name of the page; links to itself are bare fragments
}

func (a addresses) page(name string) string { return a.root + name }

// at is the address of a place on a page.
func (a addresses) at(name, id string) string {
	if name == a.here {
		return "#" + id
	}
	return a.root + name + "#" + id
}

func (a addresses) explainer(id string) string { return a.page("learn/" + id + ".html") }

// tree is where a topic begins: on the screen, at its first question, for a
// patient's tree. A page that is read by hand leads on to such pages, and a tree
// that is not a patient's has only its teaching page.
func (a addresses) tree(id string) string {
	if t := a.all.Tree(id); t == nil || t.Audience.S != audiencePatient || a.byHand() {
		return a.paper(id)
	}
	return a.take(id)
}

// take is the address that starts a patient's tree in the planner; without
// script it is the planner's list of pages to go through by hand.
func (a addresses) take(id string) string { return a.at(plannerName, "take="+id) }

// paper is the paper page of a patient's tree, and the teaching page of any other.
func (a addresses) paper(id string) string { return a.page(a.treeName(id)) }

func (a addresses) byHand() bool {
	return (strings.HasPrefix(a.here, "prepare/") || strings.HasPrefix(a.here, "teach/")) && a.here != plannerName
}

func (a addresses) treeName(id string) string {
	if t := a.all.Tree(id); t != nil && t.Audience.S != audiencePatient {
		return listingName(id)
	}
	return "prepare/" + id + ".html"
}

func (a addresses) figure(id string) string { return a.page("workbench/" + id + ".html") }

// listing is the page that takes a tree apart for those who teach with it.
func (a addresses) listing(id string) string { return a.page(listingName(id)) }

func listingName(id string) string { return "teach/" + id + ".html" }

func (a addresses) footType(id string) string { return a.at(footTypesName, id) }
func (a addresses) word(id string) string     { return a.at(glossaryName, id) }
func (a addresses) topic(id string) string    { return a.at(questionsName, id) }
func (a addresses) source(id string) string   { return a.at(sourcesName, "source-"+id) }

// target resolves a markdown link; the library has checked that it leads somewhere.
func (a addresses) target(kind, id string) explainer.Target {
	switch kind {
	case "explainer":
		return explainer.Target{URL: a.explainer(id), Title: a.all.Explainer(id).Title.S}
	case "tree":
		return explainer.Target{URL: a.tree(id), Title: a.all.Tree(id).Title.S}
	case "type":
		return explainer.Target{URL: a.footType(id), Title: a.all.FootType(id).Name.S}
	case "word":
		return explainer.Target{URL: a.word(id), Title: a.all.Word(id).Word.S}
	case "source":
		return explainer.Target{URL: a.source(id), Title: a.all.Source(id).Title.S}
	}
	if kind == "support" {
		return explainer.Target{URL: a.at(clinicName, "how-sure")}
	}
	panic("publish: a link of unknown kind " + kind)
}
