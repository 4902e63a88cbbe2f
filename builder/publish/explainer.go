package publish

import (
	"html/template"

	"keelpath/builder/drawing"
	"keelpath/builder/explainer"
	"keelpath/builder/plan"
	"keelpath/builder/prose"
	"keelpath/builder/read"
	"keelpath/builder/shelf"
)

// explainerView is one explainer with its sources in the order of their numbers.
type explainerView struct {
	PageView
	Message  string
	Picture  *picture // what it begins with; nil where nothing stands for it
	Resident bool
	Sections []explainer.Heading // to jump to; nil on a page of few
	Body     template.HTML
	Prompts  []PromptView
	Sources  []SourceView
	Figures  template.JS // the block of the figures on it; empty where it has none
}

// manySections is from how many sections on a page has a list of them at its top.
const manySections = 9

// sections gives the headings that a long page lists.
func sections(all []explainer.Heading) []explainer.Heading {
	var out []explainer.Heading
	for _, h := range all {
		if h.Level == 2 {
			out = append(out, h)
		}
	}
	if len(out) < manySections {
		return nil
	}
	return out
}

func explainerModel(v viewer, p plan.Page) (any, error) {
	e := v.shelf.Explainer(p.Of)
	o := v.options()
	o.Words = v.shelf.Forms()
	o.Figure = v.figureIn
	first, find, opens := v.shelf.Picture(p.Of), o.Drawing, false
	o.Drawing = func(id string) (drawing.Drawing, bool) {
		if id == first {
			opens = true // at the head of the page
			return drawing.Drawing{}, false
		}
		return find(id)
	}
	body, err := e.Body.HTML(o)
	if err != nil {
		return nil, err
	}
	var shown []string
	for _, s := range e.Body.Figures {
		shown = append(shown, s.Figure)
	}
	block, err := v.figureBlock(shown)
	return explainerView{
		Figures:  block,
		PageView: v.view, Message: e.Message.S, Picture: v.pictureOf(p.Of, opens), Resident: e.Audience.S != audiencePatient, Sections: sections(e.Body.Headings), Body: body.HTML,
		Prompts: v.prompts(e.Prompts), Sources: v.bibliography(body.Sources, true),
	}, err
}

// withFigures tells whether an explainer has a figure to try.
func withFigures(s *shelf.Shelf, of string) bool {
	return len(s.Explainer(of).Body.Figures) > 0
}

func explainerCredits(s *shelf.Shelf, of string) []read.Credits {
	return []read.Credits{s.Explainer(of).Credits}
}

func explainerText(s *shelf.Shelf, of string) prose.Counts { return s.PageCounts(of) }
