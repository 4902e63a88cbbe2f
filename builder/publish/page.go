package publish

import (
	"slices"
	"strings"
	"time"

	"keelpath/builder/explainer"
	"keelpath/builder/helpline"
	"keelpath/builder/library"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// page is one page to be: what the layout shows of it, and how to make its own part.
type page struct {
	name        string
	title       string
	description string
	room        string   // one of rooms; empty at home
	styles      []string // besides the site's own
	script      string
	credits     CreditsView
	newTab      bool   // links leave the page open, because it holds the reader's answers
	template    string // of its own part
	model       func(viewer, PageView) (any, error)
	text        func() []string // what the checker grades; nil where the page's words stand in its template
}

// rooms names the site's rooms by folder, as the trail shows them.
var rooms = map[string]string{"prepare": "Get ready", "learn": "Learn", "workbench": "Workbench", "teach": "Teach", "clinic": "Clinics"}

// pages lists all pages in the order in which they are handed on.
func (m *maker) pages() []page {
	out := []page{m.homePage(), m.plannerPage()}
	for _, t := range m.lib.Trees {
		if t.Audience.S == audiencePatient {
			out = append(out, m.treePage(t))
		}
	}
	out = append(out, m.learnPage())
	for _, p := range m.lib.Explainers {
		out = append(out, m.explainerPage(p))
	}
	out = append(out, m.workbenchPages()...)
	out = append(out, m.footTypesPage(), m.glossaryPage(), m.questionsPage(), m.teachPage())
	for _, t := range m.lib.Trees {
		out = append(out, m.listingPage(t))
	}
	if len(m.lib.Cases) > 0 {
		out = append(out, m.casesPage())
	}
	return append(out, m.clinicPage(), m.ratingsPage(), m.sourcesPage())
}

// pageView is what the layout needs, all but the page's own part.
func (m *maker) pageView(p page) PageView {
	root := rootOf(p.name)
	v := PageView{
		Name: p.name, Root: root, Title: p.title, Description: p.description, Room: p.room,
		Trail: trail(p, root), Styles: []string{root + m.site.name}, Mark: root + m.mark.name, Edition: editionView(m.lib.Edition), Credits: p.credits,
	}
	for _, s := range p.styles {
		v.Styles = append(v.Styles, root+s)
	}
	if p.script != "" {
		v.Script = root + p.script
	}
	return v
}

// trail is the way from home to the page, the page itself left out.
func trail(p page, root string) []LinkView {
	if p.room == "" {
		return nil
	}
	out := []LinkView{{Title: "Home", URL: root + homeName}}
	if index := p.room + "/index.html"; index != p.name {
		out = append(out, LinkView{ID: p.room, Title: rooms[p.room], URL: root + index})
	}
	return out
}

func editionView(e library.Edition) EditionView {
	return EditionView{
		Name: e.Name.S, Clinic: e.Clinic.S, Phone: e.Phone.S,
		Emergency: e.Lines.SentenceHTML(helpline.Emergency), Urgent: e.Lines.SentenceHTML(helpline.Urgent), Crisis: e.Lines.SentenceHTML(helpline.Crisis),
		Endorsement: e.Endorsement.S, Version: e.Version.S, Shared: e.Shared,
	}
}

func creditsView(c read.Credits) CreditsView {
	return CreditsView{
		Authors: read.Strings(c.Authors), Reviewers: read.Strings(c.Reviewers),
		Reviewed: dateView(c.Reviewed.S), ReviewBy: dateView(c.ReviewBy.S), Funding: []string{c.Funding.S},
	}
}

// sharedCredits are those of a page that stands for several texts: all who had
// a part in them, and the earliest of each date, so that no page looks fresher
// than what is on it. A reviewer counts only who reviewed every text.
func sharedCredits(all []read.Credits) CreditsView {
	var v CreditsView
	for i, c := range all {
		one := creditsView(c)
		v.Authors = union(v.Authors, one.Authors)
		v.Funding = union(v.Funding, one.Funding)
		if i == 0 {
			v.Reviewers = one.Reviewers
		}
		v.Reviewers = slices.DeleteFunc(v.Reviewers, func(r string) bool { return !slices.Contains(one.Reviewers, r) })
		v.Reviewed = earlier(v.Reviewed, one.Reviewed)
		v.ReviewBy = earlier(v.ReviewBy, one.ReviewBy)
	}
	return v
}

// siteCredits are those of pages that draw on everything.
func (m *maker) siteCredits() CreditsView { return sharedCredits(m.everyCredits()) }

func (m *maker) everyCredits() []read.Credits {
	all := treeCredits(m.lib.Trees)
	for _, p := range m.lib.Explainers {
		all = append(all, p.Credits)
	}
	return all
}

// people are all whom the pages name as authors or reviewers, with what the
// edition says of their training.
func (m *maker) people() []TrainingView {
	var names []string
	for _, c := range m.everyCredits() {
		names = union(names, read.Strings(slices.Concat(c.Authors, c.Reviewers)))
	}
	var out []TrainingView
	for _, name := range names {
		if t := m.lib.Edition.TrainingOf(name); t != nil {
			out = append(out, TrainingView{name, t.Says.S})
		}
	}
	return out
}

func treeCredits(ts []*tree.Tree) []read.Credits {
	var out []read.Credits
	for _, t := range ts {
		out = append(out, t.Credits)
	}
	return out
}

func union[T comparable](a, b []T) []T {
	for _, s := range b {
		if !slices.Contains(a, s) {
			a = append(a, s)
		}
	}
	return a
}

func earlier(a, b DateView) DateView {
	if a.ISO == "" || (b.ISO != "" && b.ISO < a.ISO) {
		return b
	}
	return a
}

// dateView writes "2026-11-25" out in words. A date that is none stays as it is.
func dateView(iso string) DateView {
	t, err := time.Parse(time.DateOnly, iso)
	if err != nil {
		return DateView{iso, iso}
	}
	return DateView{iso, t.Format("2 January 2006")}
}

// functions are what templates may call.
var functions = map[string]any{
	"listed": listed,
	"join":   func(sep string, parts []string) string { return strings.Join(parts, sep) },
}

// listed joins names as one says them: "a", "a or b", "a, b or c".
func listed(last string, names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " " + last + " " + names[n-1]
	}
	return strings.Join(names, "")
}

// viewer makes views for one page.
type viewer struct {
	*maker
	addresses
	newTab bool
}

// options are how texts on this page are rendered.
func (v viewer) options() explainer.Options {
	return explainer.Options{Target: v.target, NewTab: v.newTab, Partly: v.lib.Partly}
}
