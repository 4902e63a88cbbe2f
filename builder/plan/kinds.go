package plan

import (
	"keelpath/builder/library"
)

// Kind tells what a page shows.
type Kind string

// Of these kinds a site has several pages, each of one thing.
const (
	Paper     Kind = "paper"     // a patients' tree, to be gone through by hand
	Inside    Kind = "inside"    // a tree taken apart, for those who teach with it
	Explainer Kind = "explainer" // an explainer
	Figure    Kind = "figure"    // a figure of the workbench
)

// Of these there is one page.
const (
	Home       Kind = "home"
	Planner    Kind = "planner"
	Learn      Kind = "learn"
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
)

// English is the language of all words so far.
const English = "en"

// row says which pages of a kind a site has.
type row struct {
	kind Kind
	room string // the folder too; empty at home

	// Of a page that is the only one of its kind: its file's name without ".html", and
	// what it is called and what it is about, unless its text says so.
	file, title, about string

	// Of a kind with several pages: Of, Title and About of each. The file has the name of the id.
	each func(*library.Library) []Page

	without func(*library.Library) bool // whether a site has no such page; nil where every site has it
}

// rows has each kind once, in the order in which pages are handed on. How a page of
// the kind is made stands in the table of the same kinds in room publish.
var rows = []row{
	{kind: Home, file: "index", title: "Questions to bring about your artificial foot",
		about: "Answer a few questions about your day and get one page of questions for your prosthetist. Nothing you answer leaves your screen."},
	{kind: Planner, room: "prepare", file: "index", title: "Get ready for a visit",
		about: "Answer a few questions about your day and get one page of questions to bring."},
	{kind: Paper, room: "prepare", each: papers},
	{kind: Learn, room: "learn", file: "index", title: "Learn",
		about: "How artificial feet work, what you gain and give up with each kind, and what happens at a visit."},
	{kind: Explainer, room: "learn", each: explainers},
	{kind: Workbench, room: "workbench", file: "index", title: "Workbench",
		about: "Figures to try with your own numbers: heels, slopes, shoe and foot length, loads, and room under the socket."},
	{kind: Figure, room: "workbench", each: figures},
	{kind: Pulls, room: "workbench", file: "what-pulls-against-what"},
	{kind: MotionPush, room: "workbench", file: "motion-against-push"},
	{kind: FootTypes, room: "learn", file: "foot-types"},
	{kind: Glossary, room: "learn", file: "glossary", title: "Words you may hear",
		about: "What the trade’s words mean, in plain language."},
	{kind: Questions, room: "learn", file: "questions", title: "All questions to bring",
		about: "Every question to bring, by theme, with whom to ask and why it helps."},
	{kind: Teach, room: "teach", file: "index", title: "Teach",
		about: "Every tree from the inside: its questions, its paths, its worked examples and its file."},
	{kind: Inside, room: "teach", each: insides},
	{kind: Cases, room: "teach", file: "cases", title: "Teaching cases",
		about:   "Made-up people to discuss: what to ask first, which trees to walk through, and both sides of each kind of foot.",
		without: func(l *library.Library) bool { return len(l.Cases) == 0 }},
	{kind: Clinic, room: "clinic", file: "index"},
	{kind: Ratings, room: "clinic", file: "self-ratings"},
	{kind: Sources, room: "clinic", file: "sources"},
}

// pages are those of the row's kind that a library fills.
func (r row) pages(l *library.Library) []Page {
	out := []Page{{Title: r.title, About: r.about}}
	if own := l.Page(string(r.kind)); own != nil {
		out[0].Title, out[0].About = own.Title.S, own.About.S
	}
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
		p.Kind, p.Room, p.Lang, p.Name = r.kind, r.room, English, file+".html"
		if r.room != "" {
			p.Name = r.room + "/" + p.Name
		}
	}
	return out
}

func papers(l *library.Library) []Page {
	var out []Page
	for _, t := range l.PatientTrees() {
		out = append(out, Page{Of: t.ID.S, Title: t.Title.S, About: t.Purpose.S})
	}
	return out
}

func insides(l *library.Library) []Page {
	var out []Page
	for _, t := range l.Trees {
		out = append(out, Page{Of: t.ID.S, Title: "Inside the tree: " + t.Title.S, About: t.Purpose.S})
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
