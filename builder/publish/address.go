package publish

import (
	"fmt"
	"path"
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/plan"
	"keelpath/builder/shelf"
)

// audiencePatient marks the trees and explainers that are for patients.
const audiencePatient = "patient"

// rootOf is the way from a page up to the site's root: "" or "../".
func rootOf(name string) string { return strings.Repeat("../", strings.Count(name, "/")) }

// addresses says where things are, seen from one page. All addresses are
// relative and name a file, so that they hold over file: as well.
type addresses struct {
	shelf *shelf.Shelf
	root  string
	here  plan.Page // links to itself are bare fragments
}

// of is the page of a kind that shows what has that id; the library has checked that
// there is one.
func (a addresses) of(kind plan.Kind, id string) plan.Page {
	p, ok := a.shelf.Find(kind, id)
	if !ok {
		panic(fmt.Sprintf("publish: a link to the page %s of %q, and there is none", kind, id))
	}
	return p
}

// page is the address of a page.
func (a addresses) page(p plan.Page) string { return a.root + p.Name }

// to is the address of the one page of a kind.
func (a addresses) to(kind plan.Kind) string { return a.page(a.of(kind, "")) }

// at is the address of a place on the one page of a kind.
func (a addresses) at(kind plan.Kind, place string) string { return a.on(a.of(kind, ""), place) }

// on is the address of a place on a page.
func (a addresses) on(p plan.Page, place string) string {
	if p.Name == a.here.Name {
		return "#" + place
	}
	return a.page(p) + "#" + place
}

func (a addresses) explainer(id string) string { return a.page(a.of(plan.Explainer, id)) }

// tree is where a topic begins: on the screen, at its first question, for a
// patient's tree. A page that is read by hand leads on to such pages, and a tree
// that is not a patient's has only its teaching page.
func (a addresses) tree(id string) string {
	if p := a.byHand(id); p.Kind != plan.Paper || a.here.ByHand {
		return a.page(p)
	}
	return a.take(id)
}

// take is the address that starts a patient's tree in the planner; without
// script it is the planner's list of pages to go through by hand.
func (a addresses) take(id string) string { return a.at(plan.Planner, "take="+id) }

// paper is the address of the page on which a tree is walked by hand.
func (a addresses) paper(id string) string { return a.page(a.byHand(id)) }

// byHand is the paper page of a patient's tree, and the teaching page of any other.
func (a addresses) byHand(id string) plan.Page {
	if p, ok := a.shelf.Find(plan.Paper, id); ok {
		return p
	}
	return a.of(plan.Inside, id)
}

func (a addresses) figure(id string) string { return a.page(a.of(plan.Figure, id)) }

// inside is the page that takes a tree apart for those who teach with it.
func (a addresses) inside(id string) string { return a.page(a.of(plan.Inside, id)) }

func (a addresses) footType(id string) string { return a.at(plan.FootTypes, id) }
func (a addresses) word(id string) string     { return a.at(plan.Glossary, id) }
func (a addresses) theme(id string) string    { return a.at(plan.Questions, id) }
func (a addresses) source(id string) string   { return a.at(plan.Sources, "source-"+id) }

// own leads to one of the site's own pages, or to a heading on it: "foot-types#page_table". Where a layer's
// text of the page has none of that id, the link leads to its top.
// In the same folder the name of the file will do.
func (a addresses) own(id string) explainer.Target {
	kind, place, anchored := strings.Cut(id, "#")
	p := a.of(plan.Kind(kind), "")
	t := explainer.Target{URL: a.page(p), Title: p.Title}
	if p.Room == a.here.Room {
		t.URL = path.Base(p.Name)
	}
	switch anchored = anchored && a.shelf.OwnHeading(kind, place); {
	case anchored && p.Name == a.here.Name:
		t.URL = "#" + place
	case anchored:
		t.URL += "#" + place
	}
	return t
}

// explained leads to an explainer, or to a heading on it: "falls#why-do-toes-catch". Where a
// page in another language has no heading of that id, the link leads to its top.
func (a addresses) explained(id string) explainer.Target {
	id, place, deep := strings.Cut(id, "#")
	t := explainer.Target{URL: a.explainer(id), Title: a.shelf.Title("explainer", id)}
	if deep && a.shelf.Heading(id, place) {
		t.URL = a.on(a.of(plan.Explainer, id), place)
	}
	return t
}

// target resolves a markdown link; the library has checked that it leads somewhere.
func (a addresses) target(kind, id string) explainer.Target {
	switch kind {
	case "explainer":
		return a.explained(id)
	case "tree":
		return explainer.Target{URL: a.tree(id), Title: a.shelf.Title(kind, id)}
	case "type":
		return explainer.Target{URL: a.footType(id), Title: a.shelf.Title(kind, id)}
	case "word":
		return explainer.Target{URL: a.word(id), Title: a.shelf.Title(kind, id)}
	case "source":
		return explainer.Target{URL: a.source(id), Title: a.shelf.Title(kind, id)}
	case "page":
		return a.own(id)
	}
	if kind == "support" {
		return explainer.Target{URL: a.at(plan.Clinic, "how-sure")}
	}
	panic("publish: a link of unknown kind " + kind)
}
