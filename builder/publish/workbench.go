package publish

import (
	"keelpath/builder/plan"
)

// workbenchView lists the figures.
type workbenchView struct {
	PageView
	Figures []pageLinkView
}

func workbenchModel(v viewer, here plan.Page) (any, error) {
	out := workbenchView{PageView: v.view}
	for _, p := range v.shelf.In(here.Room) {
		if p != here {
			out.Figures = append(out.Figures, pageLinkView{LinkView: LinkView{p.Of, p.Title, v.page(p)}, Message: p.About})
		}
	}
	return out, nil
}
