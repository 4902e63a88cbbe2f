package publish

import (
	"encoding/json"
	"html/template"
	"slices"

	"keelpath/builder/explainer"
	"keelpath/builder/figure"
	"keelpath/builder/library"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
)

// workbenchView lists the figures.
type workbenchView struct {
	PageView
	Figures []pageLinkView
}

func (m *maker) workbenchPages() []page {
	out := []page{{
		name: workbenchName, title: "Workbench", room: "workbench", template: "workbench", credits: m.siteCredits(),
		description: "Figures to try with your own numbers: heels, slopes, shoe and foot length, loads, and room under the socket.",
		model: func(v viewer, p PageView) (any, error) {
			out := workbenchView{PageView: p}
			for _, f := range figure.All {
				out.Figures = append(out.Figures, pageLinkView{LinkView: LinkView{f.ID, f.Title, v.figure(f.ID)}, Message: f.About})
			}
			for _, w := range m.wishPages() {
				out.Figures = append(out.Figures, pageLinkView{LinkView: LinkView{Title: w.title, URL: v.page(w.name)}, Message: w.description})
			}
			return out, nil
		},
	}}
	for _, f := range figure.All {
		out = append(out, m.figurePage(f))
	}
	return append(out, m.wishPages()...)
}

// figureView is one figure with its notes.
type figureView struct {
	PageView
	Lead    string
	Figure  template.HTML
	Ankles  []ankleView
	Notes   template.HTML
	Sources []SourceView
	Figures template.JS
}

// ankleView tells in words what a kind of foot does as the ground tilts.
type ankleView struct {
	LinkView
	Motion, Slopes string
}

func (m *maker) figurePage(f *figure.Figure) page {
	return page{
		name: "workbench/" + f.ID + ".html", title: f.Title, description: f.About, room: "workbench", template: "figure",
		styles: []string{m.workbench.name}, script: m.figures.name, credits: m.siteCredits(),
		model: func(v viewer, p PageView) (any, error) {
			out := figureView{PageView: p, Lead: f.Lead}
			o := v.options()
			o.Words = m.words
			notes, err := v.parseText(read.Text{S: f.Notes}).HTML(o)
			if err != nil {
				return nil, err
			}
			out.Notes = notes.HTML
			cited := notes.Sources
			out.Figure, err = f.HTML(figure.Options{Sheet: v.page(plannerName), Cite: func(id string) template.HTML {
				cited = union(cited, []string{id})
				return explainer.Citation(slices.Index(cited, id) + 1)
			}})
			if err != nil {
				return nil, err
			}
			if f.ID == "slope" {
				out.Ankles = v.ankles()
			}
			out.Sources = v.bibliography(cited, true)
			out.Figures, err = v.figureBlock([]string{f.ID})
			return out, err
		},
	}
}

// ankles gives the words of the side-by-side table; marks and degrees are left out.
func (v viewer) ankles() []ankleView {
	var out []ankleView
	for _, t := range v.lib.Marked() {
		if t.Addon {
			continue
		}
		out = append(out, ankleView{LinkView{t.ID.S, t.Name.S, v.footType(t.ID.S)}, cellWords(t, "ankle-motion"), cellWords(t, "on-slopes")})
	}
	return out
}

func cellWords(t *library.FootType, row string) string {
	if c := t.Cells[row]; c != nil {
		return c.Why.S
	}
	return ""
}

// figureIn puts a figure into an explainer.
func (v viewer) figureIn(id string, given map[string]string) (template.HTML, error) {
	return figure.Find(id).HTML(figure.Options{Given: given, Sheet: v.page(plannerName), Page: v.figure(id)})
}

// figureData is the JSON block that the figures of a page read.
type figureData struct {
	Units   quantity.Tables         `json:"units"`
	Planner string                  `json:"planner"`
	Figures map[string]figure.Coded `json:"figures"`
}

func (v viewer) figureBlock(ids []string) (template.JS, error) {
	if len(ids) == 0 {
		return "", nil
	}
	out := figureData{quantity.Table(), v.page(plannerName), map[string]figure.Coded{}}
	for _, id := range ids {
		out.Figures[id] = figure.Find(id).Coded()
	}
	data, err := json.Marshal(out)
	return template.JS(ascii(data)), err
}
