package library

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/say"
)

// pagesFolder is the folder of the texts of the site's own pages, one file a page.
const pagesFolder = "content/en/pages/"

// PageForms says of each page that has its words in a file of its own what the program puts
// into them, and what the page takes out of them. The templates "PAGE/NAME" fill gaps
// and slots; a test in room publish holds both against each other.
var PageForms = []*explainer.Form{
	{
		ID:    "clinic",
		Gaps:  []string{"trees", "examples", "explainers", "foot-types", "prompts", "words", "sources", "made-by", "when-people", "edition"},
		Slots: []string{"layer", "supports", "people"},
		Heads: []string{"checked", "how-sure", "privacy"}, // to which the foot of every page leads, and every mark of certainty
	},
	{ID: "learn", Heads: []string{"find"}},
	{
		ID:    "foot-types",
		Gaps:  []string{"all", "settled", "practice", "unsettled", "ways"},
		Slots: []string{"standings", "kinds", "table", "feet"},
		Parts: []string{"settled", "practice", "unsettled"},
		Heads: []string{"page_table", "page_choice"}, // to which links on other pages and self-ratings lead
	},
	{
		ID:    "pulls",
		Gaps:  []string{"practice", "conflicts", "ways"},
		Slots: []string{"how", "pulls"},
		Parts: []string{"kept", "unsure", "practice", "how", "worked", "one"},
	},
	{
		ID:    "motion-push",
		Gaps:  []string{"clear", "strong", "both", "when-none", "all", "kinds", "settled", "practice", "unsettled"},
		Slots: []string{"figure", "feet", "sources", "questions"},
		Parts: []string{"shows", "addons"},
	},
	{
		ID:    "ratings",
		Gaps:  []string{"when-made", "when-not-made", "first", "second", "when-people", "when-pages", "when-open"},
		Slots: []string{"people", "jumps", "rated", "measures", "open", "each"},
	},
	{
		ID:    "invite",
		Gaps:  []string{"when-address", "when-none", "address"},
		Slots: []string{"maker", "topics"},
	},
	{
		ID:    "sources",
		Gaps:  []string{"sources", "page", "abstract", "opening", "summary", "when-search", "on", "when-three", "three"},
		Slots: []string{"asked", "went", "list"},
		Parts: []string{"read"},
	},
}

// OwnPages are the pages of the site of which there is one, by the names that a link by id
// knows them by: "[our table](page:foot-types#page_table)".
var OwnPages = []string{"home", "planner", "learn", "search", "foot-types", "glossary", "questions", "workbench", "pulls", "motion-push", "teach", "clinic", "ratings", "invite", "sources"}

func formOf(file string) *explainer.Form {
	dir, base := path.Split(file)
	if i := slices.IndexFunc(PageForms, func(f *explainer.Form) bool { return f.ID+".md" == base }); dir == pagesFolder && i >= 0 {
		return PageForms[i]
	}
	return nil
}

// Page gives the text of one of the site's own pages, or nil where its words stand in
// its template.
func (l *Library) Page(id string) *explainer.Page { return l.by.pages[id] }

// ownTitle is what one of the site's own pages is called, by its text or by the program's words. A link may
// lead to a heading on it.
func (l *Library) ownTitle(id string) string {
	id, _, _ = strings.Cut(id, "#")
	if p := l.Page(id); p != nil {
		return p.Title.S
	}
	if name := say.Name(id + ".title"); l.Say.Has(name) {
		return l.Say.Say(name)
	}
	return ""
}

// written are all texts with a header: explainers, and those of the site's own pages.
func (l *Library) written() []*explainer.Page { return slices.Concat(l.Explainers, l.Pages) }

// readPageText reads the text of a page. One of a later layer stands in the place of
// the whole text of the same page.
func (l *loader) readPageText(y Layer, name string) {
	f := formOf(name)
	if p := explainer.ParseOwn(y.name(name), y.files[name], f, l.Edition.Lines, l.list); p != nil {
		l.enterText(p, f)
	} else {
		l.unread["page "+f.ID] = true
	}
}

// pageTextsThere reports a page without its text. A library made of a few files, which
// has no words for drawings either, may have none of them.
func (c *checker) pageTextsThere() {
	for _, f := range PageForms {
		if len(c.Drawings) > 0 && c.Page(f.ID) == nil && !c.unread["page "+f.ID] {
			c.list.Add(finding.Place{File: pagesFolder + f.ID + ".md"}, "missing-key", fmt.Sprintf("the page %q has no text", f.ID), "write it into this file, with a header")
		}
	}
}

// ownText checks what the text of one of the site's own pages names beyond itself.
func (c *checker) ownText(p *explainer.Page) {
	const who = "the page"
	c.marked[p.Message.At] = true
	c.has(c.sources, "the header", p.Credits.Sources...)
	var cited []string
	for _, d := range []*explainer.Doc{p.Lead, p.Body} {
		c.refs(who, d)
		cited = append(cited, c.cited(d, p.Credits)...)
		c.claims(d.Blocks)
	}
	c.allCited(p, cited)
	c.pageSaid(p)
}

// pageNamed checks a link to one of the site's own pages: "foot-types#page_table".
func (c *checker) pageNamed(who string, r explainer.Ref) {
	id, place, anchored := strings.Cut(r.ID, "#")
	if !slices.Contains(OwnPages, id) {
		c.list.Add(r.At, "unknown-name", fmt.Sprintf("%s names the page %q, and the site has none of its own by that name", who, id), finding.NearestOrAll(id, OwnPages, "pages")...)
		return
	}
	needed := slices.ContainsFunc(PageForms, func(f *explainer.Form) bool { return f.ID == id && slices.Contains(f.Heads, place) })
	p := c.Page(id)
	if !anchored || needed || c.unread["page "+id] || p != nil && c.laidOver(p.File, r.At.File) {
		return // where a heading that the page needs is missing, that was reported
	}
	var ids []string
	if p != nil {
		for _, h := range p.Body.Headings {
			ids = append(ids, h.ID)
		}
	}
	if !slices.Contains(ids, place) {
		help := []string{fmt.Sprintf("link to the page as a whole: page:%s", id)}
		if len(ids) > 0 {
			help = finding.NearestOrAll(place, ids, "headings there")
		}
		c.list.Add(r.At, "unknown-name", fmt.Sprintf("%s links to %q on the page %q, and that is no heading of its text", who, "#"+place, id), help...)
	}
}
