package plan

import (
	"path"

	"keelpath/builder/library"
	"keelpath/builder/say"
)

// Kind tells what a page shows.
type Kind string

// Of these kinds a site has several pages, each of one thing.
const (
	Paper     Kind = "paper"     // a patients' tree, to be gone through by hand
	Inside    Kind = "inside"    // a tree taken apart, for those who teach with it
	Explainer Kind = "explainer" // an explainer
	Figure    Kind = "figure"    // a figure of the workbench
	Case      Kind = "case"      // a teaching case, as a learner has it
	CaseKey   Kind = "case-key"  // the key of a teaching case
	Start     Kind = "start"     // leads on to a patients' tree in the planner, or to the planner itself, of StartAll
)

// StartAll is of what the page of Start is that leads to all topics. No tree has that id.
const StartAll = "index"

// Of these there is one page.
const (
	Home       Kind = "home"
	Planner    Kind = "planner"
	Learn      Kind = "learn"
	Search     Kind = "search"
	FootTypes  Kind = "foot-types"
	Glossary   Kind = "glossary"
	Questions  Kind = "questions"
	Workbench  Kind = "workbench"
	Pulls      Kind = "pulls"
	MotionPush Kind = "motion-push"
	Teach      Kind = "teach"
	Cases      Kind = "cases"
	Clinic     Kind = "clinic"
	Ratings    Kind = "ratings"
	Sources    Kind = "sources"
	Invite     Kind = "invite"
)

// row says which pages of a kind a site has.
type row struct {
	kind   Kind
	room   string // the folder too; empty at home
	folder string // within the room's, or of pages in no room

	// Of a page that is the only one of its kind: its file's name without ".html", and
	// what it is called and what it is about, unless its text says so.
	file         string
	title, about say.Name

	// Of a kind with several pages: Of, Title and About of each. The file has the name of the id.
	each func(*library.Library) []Page

	byHand  bool                        // see Page
	without func(*library.Library) bool // whether a site has no such page; nil where every site has it
}

// rows has each kind once, in the order in which pages are handed on. How a page of
// the kind is made stands in the table of the same kinds in room publish.
var rows = []row{
	{kind: Home, file: "index", title: "home.title", about: "home.page-about"},
	{kind: Planner, room: "prepare", file: "index", title: "planner.title", about: "planner.page-about"},
	{kind: Paper, room: "prepare", each: papers, byHand: true},
	{kind: Start, folder: "start", each: starts},
	{kind: Learn, room: "learn", file: "index"},
	{kind: Search, room: "learn", file: "search", title: "search.title", about: "search.page-about"},
	{kind: Explainer, room: "learn", each: explainers},
	{kind: Workbench, room: "workbench", file: "index", title: "workbench.title", about: "workbench.page-about"},
	{kind: Figure, room: "workbench", each: figures},
	{kind: Pulls, room: "workbench", file: "what-pulls-against-what"},
	{kind: MotionPush, room: "workbench", file: "motion-against-push"},
	{kind: FootTypes, room: "learn", file: "foot-types"},
	{kind: Glossary, room: "learn", file: "glossary", title: "glossary.title", about: "glossary.page-about"},
	{kind: Questions, room: "learn", file: "questions", title: "questions.title", about: "questions.page-about"},
	{kind: Teach, room: "teach", file: "index", title: "teach.title", about: "teach.page-about", byHand: true},
	{kind: Inside, room: "teach", each: insides, byHand: true},
	{kind: Cases, room: "teach", file: "cases", title: "cases.title", about: "cases.page-about", byHand: true,
		without: func(l *library.Library) bool { return len(l.Cases) == 0 }},
	{kind: Case, room: "teach", folder: "cases", each: cases, byHand: true},
	{kind: CaseKey, room: "teach", folder: "keys", each: caseKeys, byHand: true},
	{kind: Clinic, room: "clinic", file: "index"},
	{kind: Ratings, room: "clinic", file: "self-ratings"},
	{kind: Invite, room: "clinic", file: "invite"},
	{kind: Sources, room: "clinic", file: "sources"},
}

// pages are those of the row's kind that a library fills.
func (r row) pages(l *library.Library) []Page {
	out := r.one(l)
	if r.each != nil {
		out = r.each(l)
	}
	if r.without != nil && r.without(l) {
		return nil
	}
	for i := range out {
		p := &out[i]
		file := r.file
		if r.each != nil {
			file = p.Of
		}
		p.Kind, p.Room, p.ByHand, p.Lang, p.Name = r.kind, r.room, r.byHand, l.Lang, r.name(file)
	}
	return out
}

func (r row) name(file string) string { return path.Join(r.room, r.folder, file+".html") }

// Only is the name of the page that is the only one of its kind, in every site that has it.
func Only(kind Kind) string {
	for _, r := range rows {
		if r.kind == kind && r.each == nil {
			return r.name(r.file)
		}
	}
	panic("plan: of this kind there is not one page: " + string(kind))
}

// one is the only page of its kind; its text says what it is called, or the program does.
func (r row) one(l *library.Library) []Page {
	if own := l.Page(string(r.kind)); own != nil {
		return []Page{{Title: own.Title.S, About: own.About.S}}
	}
	if r.title == "" {
		return []Page{{}}
	}
	return []Page{{Title: l.Say.Say(r.title), About: l.Say.Say(r.about)}}
}

func papers(l *library.Library) []Page {
	var out []Page
	for _, t := range l.PatientTrees() {
		out = append(out, Page{Of: t.ID.S, Title: t.Title.S, About: t.Purpose.S})
	}
	return out
}

// starts are what a typed address, a code on paper or a double-click on a file leads to: none of
// these can bring the part of an address behind "#", by which the planner begins a topic.
func starts(l *library.Library) []Page {
	out := []Page{{Of: StartAll, Title: l.Say.Say("start.title"), About: l.Say.Say("start.page-about")}}
	for _, t := range l.PatientTrees() {
		out = append(out, Page{Of: t.ID.S, Title: l.Say.Say("start.topic", "topic", t.Title.S), About: t.Purpose.S})
	}
	return out
}

func insides(l *library.Library) []Page {
	var out []Page
	for _, t := range l.Trees {
		out = append(out, Page{Of: t.ID.S, Title: l.Say.Say("inside.title", "tree", t.Title.S), About: t.Purpose.S})
	}
	return out
}

func cases(l *library.Library) []Page {
	var out []Page
	for _, c := range l.Cases {
		out = append(out, Page{Of: c.ID.S, Title: c.Title.S, About: l.Say.Say("case.about", "case", c.Title.S)})
	}
	return out
}

// caseKeys are pages of their own, so that whoever has a case open does not have its key.
func caseKeys(l *library.Library) []Page {
	var out []Page
	for _, c := range l.Cases {
		out = append(out, Page{Of: c.ID.S, Title: l.Say.Say("case.key-title", "case", c.Title.S), About: l.Say.Say("case.key-about", "case", c.Title.S)})
	}
	return out
}

func explainers(l *library.Library) []Page {
	var out []Page
	for _, e := range l.Explainers {
		out = append(out, Page{Of: e.ID, Title: e.Title.S, About: e.Message.S})
	}
	return out
}

func figures(l *library.Library) []Page {
	var out []Page
	for _, f := range l.Figures {
		out = append(out, Page{Of: f.ID, Title: f.Title.S, About: f.About.S})
	}
	return out
}
