package publish

import (
	"fmt"
	"html/template"

	"keelpath/builder/explainer"
	"keelpath/builder/plan"
)

// ownText is what content/en/pages says on one of the site's own pages. Its gaps and
// slots are filled by the templates "PAGE/NAME", which see what the page's template
// sees. Templates call its methods, and what they ask for twice is made once.
type ownText struct {
	page   *explainer.Page
	viewer viewer
	make   func(template string, view any) (template.HTML, error)
	view   any // what the page's template shows

	body  *explainer.Out
	parts map[string]explainer.Part

	making bool // parts are being made
}

// pageText gives the text of a page; nil where its words stand in its template.
func (v viewer) pageText(p plan.Page, make func(string, any) (template.HTML, error)) *ownText {
	if text := v.shelf.OwnText(string(p.Kind)); text != nil {
		return &ownText{page: text, viewer: v, make: make}
	}
	return nil
}

func (t *ownText) options() explainer.Options {
	o := t.viewer.options()
	o.Name = t.viewer.shelf.SourceName
	o.Gap, o.Slot = t.fill, t.fill
	return o
}

// fill gives what stands in a gap or a slot.
func (t *ownText) fill(name string) (template.HTML, error) {
	return t.make(t.page.ID+"/"+name, t.view)
}

// Lead is the message.
func (t *ownText) Lead() (template.HTML, error) { return t.page.Lead.Line(t.options()) }

// Body is all of the text but the parts that the page puts elsewhere.
func (t *ownText) Body() (template.HTML, error) {
	if t.body == nil {
		out, err := t.page.Body.HTML(t.options())
		if err != nil {
			return "", err
		}
		t.body = &out
	}
	return t.body.HTML, nil
}

// Sections are the headings to jump to.
func (t *ownText) Sections() ([]explainer.Heading, error) {
	if _, err := t.Body(); err != nil {
		return nil, err
	}
	var out []explainer.Heading
	for _, h := range t.body.Headings {
		if h.Level == 2 {
			out = append(out, h)
		}
	}
	return out, nil
}

// Heading gives the words of the heading with an id.
func (t *ownText) Heading(id string) string {
	for _, h := range t.page.Body.Headings {
		if h.ID == id {
			return h.Text
		}
	}
	return ""
}

// Part is one that the page puts in a place of its own; empty where a gap left it out.
func (t *ownText) Part(id string) (explainer.Part, error) {
	if t.parts == nil {
		if t.making { // what fills a gap asks for a part, and the part for what fills the gap
			return explainer.Part{}, fmt.Errorf("the part %q is needed before there are any", id)
		}
		t.making = true
		var err error
		if t.parts, err = t.page.Body.Parts(t.options()); err != nil {
			return explainer.Part{}, fmt.Errorf("parts of the text: %w", err)
		}
	}
	return t.parts[id], nil
}
