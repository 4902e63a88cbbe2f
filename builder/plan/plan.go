// Package plan lists the pages of a site: where each lies, what it is called and what
// it shows. Whatever leads to a page or speaks of one looks it up here; how a page is
// made is the affair of room publish.
package plan

import (
	"fmt"

	"keelpath/builder/library"
	"keelpath/builder/say"
)

// Page is one page of the site.
type Page struct {
	Name  string // of its file inside the site: "learn/glossary.html"
	Title string // its own; the window adds the edition's name
	About string // one sentence for search engines and lists of links
	Room  string // the id of one of Rooms; empty at home, and of a page that only leads on
	Lang  string // the language of its words, as BCP 47 writes it
	Kind  Kind
	Of    string // the id of what it shows, where there are several of its kind

	ByHand bool // it is read by hand: a topic leads from it to the topic's paper page, and not into the planner
}

// Room is a part of the site. Its id is the name of the folder in which its pages lie.
type Room struct {
	ID    string
	Title say.Name
}

// Rooms are the site's rooms in the order in which every page names them.
var Rooms = []Room{{"prepare", "room.prepare"}, {"learn", "room.learn"}, {"workbench", "room.workbench"}, {"teach", "room.teach"}, {"clinic", "room.clinic"}}

// Front is the name of the room's first page.
func (r Room) Front() string { return r.ID + "/index.html" }

// Plan is a site's pages in the order in which they are handed on.
type Plan struct {
	Pages  []Page
	named  map[string]int
	placed map[place]int
}

// place is what a page shows.
type place struct {
	kind Kind
	of   string
}

// Of lists the pages that a library fills. The error is that of two pages with one name.
func Of(l *library.Library) (*Plan, error) {
	p := &Plan{named: map[string]int{}, placed: map[place]int{}}
	for _, r := range rows {
		for _, page := range r.pages(l) {
			if _, ok := p.named[page.Name]; ok {
				return nil, fmt.Errorf("two pages would both be %s; give the explainer or the tree another id", page.Name)
			}
			p.named[page.Name], p.placed[place{page.Kind, page.Of}] = len(p.Pages), len(p.Pages)
			p.Pages = append(p.Pages, page)
		}
	}
	return p, nil
}

// Named gives the page of that name.
func (p *Plan) Named(name string) (Page, bool) {
	i, ok := p.named[name]
	return p.at(i, ok)
}

// Find gives the page of a kind that shows what has that id. A page that is the only
// one of its kind shows "".
func (p *Plan) Find(kind Kind, of string) (Page, bool) {
	i, ok := p.placed[place{kind, of}]
	return p.at(i, ok)
}

func (p *Plan) at(i int, ok bool) (Page, bool) {
	if !ok {
		return Page{}, false
	}
	return p.Pages[i], true
}

// In gives the pages of a room.
func (p *Plan) In(room string) []Page {
	var out []Page
	for _, page := range p.Pages {
		if page.Room == room {
			out = append(out, page)
		}
	}
	return out
}
