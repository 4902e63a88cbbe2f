package publish

import (
	"html/template"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/content"
	"keelpath/site"
)

func makerOf(t *testing.T) *maker {
	t.Helper()
	return makerWith(t, load(t))
}

func makerWith(t *testing.T, l *library.Library) *maker {
	t.Helper()
	m, err := newMaker(l, site.Files, &finding.List{})
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// Each gap and slot that a page's text may have is filled by a template, and each
// such template has its place in a text.
func TestForms(t *testing.T) {
	m := makerOf(t)
	var want, got []string
	for _, f := range library.PageForms {
		for _, name := range slices.Concat(f.Gaps, f.Slots) {
			want = append(want, f.ID+"/"+name)
		}
		if m.lib.Page(f.ID) == nil {
			t.Errorf("the page %q has a form and no text", f.ID)
		}
	}
	for _, each := range m.templates.Templates() {
		if strings.Contains(each.Name(), "/") {
			got = append(got, each.Name())
		}
	}
	slices.Sort(want)
	slices.Sort(got)
	for _, name := range want {
		if !slices.Contains(got, name) {
			t.Errorf("no template fills %q", name)
		}
	}
	for _, name := range got {
		if !slices.Contains(want, name) {
			t.Errorf("the template %q fills what no text has", name)
		}
	}
}

// A link by id knows every page that the site has once, but for one that some
// editions lack.
func TestOwnPages(t *testing.T) {
	m := makerOf(t)
	for _, p := range m.plan.Pages {
		if p.Of == "" && p.Kind != plan.Cases && !slices.Contains(library.OwnPages, string(p.Kind)) {
			t.Errorf("no link by id leads to the page %q", p.Kind)
		}
	}
	for _, id := range library.OwnPages {
		p, ok := m.plan.Find(plan.Kind(id), "")
		if !ok {
			t.Errorf("a link by id leads to the page %q, and there is none", id)
		}
		if got := m.lib.TitleOf("page", id+"#here"); got != p.Title || got == "" {
			t.Errorf("a link to the page %q reads %q, and the page is called %q", id, got, p.Title)
		}
	}
	here, _ := m.plan.Find(plan.Sources, "")
	a := addresses{m.stock.Shelf(), "../", here}
	for id, want := range map[string]string{
		"clinic": "index.html", "clinic#how-sure": "index.html#how-sure", "sources": "sources.html", "sources#page_search": "#page_search", "sources#x": "sources.html",
		"foot-types#page_table": "../learn/foot-types.html#page_table", "home": "../index.html",
	} {
		if got := a.own(id); got.URL != want || got.Title == "" {
			t.Errorf("page:%s leads to %q (%q), want %q", id, got.URL, got.Title, want)
		}
	}
}

// A layer's text of a page is shown in the place of the built-in one: its own section, with a link to it,
// and what it cites, by kind and year and how sure it is.
func TestLayerPageText(t *testing.T) {
	built, err := content.FS.ReadFile("en/pages/clinic.md")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(built), "title: For clinics", "title: For our clinic", 1)
	text = strings.Replace(text, "\n---\n", "\nsources: [standing-on-slopes-2017]\n---\n", 1)
	text += "\n## Park here {#parking}\n\nMost people find the way.[](source:standing-on-slopes-2017) [](support:little)\n"
	v := makerWith(t, load(t, map[string]string{"content/en/pages/clinic.md": text}))
	data, _, err := v.html(v.plan.In("clinic")[0])
	if err != nil {
		t.Fatal(err)
	}
	page := string(data)
	for _, want := range []string{
		"<title>For our clinic ", "<h1>For our clinic</h1>", `<li><a href="#parking">Park here</a></li>`, `<h2 id="parking">Park here</h2>`,
		`<p>Most people find the way. <span class="support">(<a href="../clinic/sources.html#source-standing-on-slopes-2017">2017 study</a>; <a href="#how-sure">little studied`,
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %s", want)
		}
	}
	if strings.Contains(page, "For clinics</h1>") {
		t.Error("the built-in text is shown too")
	}
}

// A gap that asks for a part, which needs all gaps filled, is an error and no endless round.
func TestPartInGap(t *testing.T) {
	m := makerOf(t)
	page, _ := m.plan.Find(plan.Sources, "")
	v, err := m.viewer(page)
	if err != nil {
		t.Fatal(err)
	}
	var text *ownText
	text = v.pageText(page, func(name string, _ any) (template.HTML, error) {
		p, err := text.Part("read")
		return p.HTML, err
	})
	if _, err := text.Part("read"); err == nil || !strings.Contains(err.Error(), `the part "read" is needed before`) {
		t.Errorf("the error is %v", err)
	}
}
