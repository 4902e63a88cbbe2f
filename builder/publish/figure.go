package publish

import (
	"encoding/json"
	"fmt"
	"html/template"
	"slices"

	"keelpath/builder/explainer"
	"keelpath/builder/figure"
	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/quantity"
)

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

func figureModel(v viewer, p plan.Page) (any, error) {
	f := v.shelf.Figure(p.Of)
	out := figureView{PageView: v.view, Lead: f.Lead.S}
	o := v.options()
	o.Words = v.shelf.Forms()
	notes, err := v.shelf.Doc(f.Notes).HTML(o)
	if err != nil {
		return nil, err
	}
	out.Notes = notes.HTML
	cited := notes.Sources
	out.Figure, err = f.HTML(figure.Options{Words: v.say(), Sheet: v.to(plan.Planner), Cite: func(id string) template.HTML {
		cited = union(cited, []string{id})
		return explainer.Citation(v.say(), slices.Index(cited, id)+1)
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
}

// ankles gives the words of the side-by-side table; marks and degrees are left out.
func (v viewer) ankles() []ankleView {
	var out []ankleView
	for _, t := range v.shelf.Marked() {
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
	f := v.shelf.Figure(id)
	o := figure.Options{Words: v.say(), Given: given, Sheet: v.to(plan.Planner), Page: v.figure(id)}
	return v.once("figure", [4]string{id, fmt.Sprintf("%q", given), o.Sheet, o.Page}, func() (template.HTML, error) { return f.HTML(o) })
}

// figureData is the JSON block that the figures of a page read.
type figureData struct {
	Units   *quantity.Tables        `json:"units"`
	Planner string                  `json:"planner"`
	Figures map[string]figure.Coded `json:"figures"`
}

func (v viewer) figureBlock(ids []string) (template.JS, error) {
	if len(ids) == 0 {
		return "", nil
	}
	out := figureData{v.amounts(), v.to(plan.Planner), map[string]figure.Coded{}}
	for _, id := range ids {
		out.Figures[id] = v.shelf.Figure(id).Coded()
	}
	data, err := json.Marshal(out)
	return template.JS(ascii(data)), err
}
