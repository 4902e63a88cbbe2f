package publish

import (
	"cmp"
	"html/template"
	"path"
	"slices"

	"golang.org/x/text/language"
	"golang.org/x/text/language/display"

	"keelpath/builder/explainer"
	"keelpath/builder/helpline"
	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
	"keelpath/builder/say"
	"keelpath/builder/shelf"
	"keelpath/builder/tree"
)

// pageView is what the layout needs, all but the page's own part.
func pageView(s *shelf.Shelf, p plan.Page, k kind) (PageView, error) {
	root := rootOf(p.Name)
	v := PageView{
		Name: p.Name, Root: root, Title: p.Title, Description: p.About, Lang: p.Lang, Dir: say.Dir(p.Lang), Room: p.Room, Look: k.look,
		Rooms: roomLinks(s.Say(), root), Edition: editionView(s.Edition()), Credits: creditsOn(s, p, k),
		Languages: languageLinks(s.Edition().Languages, p, root),
		Home:      root + plan.Only(plan.Home), Sources: root + plan.Only(plan.Sources), Clinic: root + plan.Only(plan.Clinic), Search: root + plan.Only(plan.Search),
	}
	if p.Kind == plan.Clinic {
		v.Clinic = "" // links to itself are bare fragments
	}
	if !k.screens {
		v.Trail = trail(s.Say(), p, root)
	}
	picture, err := s.Asset(mark)
	if err != nil {
		return v, err
	}
	v.Mark = root + picture
	for _, from := range loads(s, p, k) {
		name, err := s.Asset(from)
		if err != nil {
			return v, err
		}
		if path.Ext(name) == ".js" {
			v.Scripts = append(v.Scripts, root+name)
		} else {
			v.Styles = append(v.Styles, root+name)
		}
	}
	return v, nil
}

// loads lists the entries that a page names, in its order.
func loads(s *shelf.Shelf, p plan.Page, k kind) []string {
	out := []string{siteStyle}
	if !k.screens {
		out = append(out, textStyle)
	}
	out = append(out, k.loads...)
	if k.figures != nil && k.figures(s, p.Of) {
		out = append(out, forFigures...)
	}
	if k.aloud && !s.Edition().Shared {
		out = append(out, aloudScript)
	}
	return out
}

// languageLinks leads to the same page in each of the site's languages, by the language's own
// name; there are none where the site has only the first.
func languageLinks(others []read.Text, p plan.Page, root string) []LinkView {
	if len(others) == 0 {
		return nil
	}
	if p.Lang != library.FirstLanguage {
		root += "../"
	}
	out := []LinkView{{library.FirstLanguage, ownName(library.FirstLanguage), root + p.Name}}
	for _, lang := range read.Strings(others) {
		out = append(out, LinkView{lang, ownName(lang), root + lang + "/" + p.Name})
	}
	return out
}

// ownName is what a language calls itself, or its tag where that is not known.
func ownName(lang string) string {
	return cmp.Or(display.Self.Name(language.Make(lang)), lang)
}

// roomLinks leads to the rooms, as every page names them.
func roomLinks(w *say.Words, root string) []LinkView {
	var out []LinkView
	for _, r := range plan.Rooms {
		out = append(out, LinkView{r.ID, w.Say(r.Title), root + r.Front()})
	}
	return out
}

// trail is the way from home to the page, the page itself left out.
func trail(w *say.Words, p plan.Page, root string) []LinkView {
	if p.Room == "" {
		return nil
	}
	out := []LinkView{{Title: w.Say("layout.home"), URL: root + plan.Only(plan.Home)}}
	for _, r := range plan.Rooms {
		if r.ID == p.Room && r.Front() != p.Name {
			out = append(out, LinkView{ID: r.ID, Title: w.Say(r.Title), URL: root + r.Front()})
		}
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

func creditsView(w *say.Words, c read.Credits) CreditsView {
	return CreditsView{
		Authors: read.Strings(c.Authors), Reviewers: read.Strings(c.Reviewers),
		Reviewed: dateView(w, c.Reviewed.S), ReviewBy: dateView(w, c.ReviewBy.S), Funding: []string{c.Funding.S},
	}
}

// sharedCredits are those of a page that stands for several texts: all who had
// a part in them, and the earliest of each date, so that no page looks fresher
// than what is on it. A reviewer counts only who reviewed every text.
func sharedCredits(w *say.Words, all []read.Credits) CreditsView {
	var v CreditsView
	for i, c := range all {
		one := creditsView(w, c)
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

// creditsOn are those of the texts that a page shows.
func creditsOn(s *shelf.Shelf, p plan.Page, k kind) CreditsView {
	if k.credits == nil {
		return sharedCredits(s.Say(), s.Credits())
	}
	return sharedCredits(s.Say(), k.credits(s, p.Of))
}

// people are all whom the pages name as authors or reviewers, with what the
// edition says of their training.
func (v viewer) people() []TrainingView {
	var names []string
	for _, c := range v.shelf.Credits() {
		names = union(names, read.Strings(slices.Concat(c.Authors, c.Reviewers)))
	}
	var out []TrainingView
	for _, name := range names {
		if t := v.shelf.Edition().TrainingOf(name); t != nil {
			out = append(out, TrainingView{name, t.Says.S})
		}
	}
	return out
}

func creditsOf(ts []*tree.Tree) []read.Credits {
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

// dateView writes "2026-11-25" out in words.
func dateView(w *say.Words, iso string) DateView { return DateView{iso, w.Date(iso)} }

// viewer makes views for one page.
type viewer struct {
	addresses          // and with them the shelf, which is the only way to the content
	view      PageView // what the layout has of the page, for its own part
	kind      kind     // how it is made

	part func(base string) string                                                             // the name of one of the planner's parts, in the voice at hand
	once func(what string, on any, html func() (template.HTML, error)) (template.HTML, error) // for what other pages show alike
}

// say gives what the program says, in the language of the page.
func (v viewer) say() *say.Words { return v.shelf.Say() }

func (v viewer) amounts() *quantity.Tables { return quantity.In(v.say()) }

// options are how texts on this page are rendered.
func (v viewer) options() explainer.Options {
	return explainer.Options{Say: v.say(), Target: v.target, NewTab: v.kind.screens, Partly: v.shelf.Partly, Drawing: v.shelf.Drawing}
}
