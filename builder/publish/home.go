package publish

import (
	"html/template"

	"keelpath/builder/drawing"
	"keelpath/builder/plan"
)

// safetyTree is the tree that a reader with a fresh worry is sent to.
const safetyTree = "something-changed"

// homeView is the front door. Safety is nil where the edition has no such tree.
type homeView struct {
	PageView
	Safety *LinkView
	Head   template.HTML
}

func homeModel(v viewer, _ plan.Page) (any, error) {
	out := homeView{PageView: v.view, Head: drawing.Head(v.say().Say("home.head"))}
	if t := v.shelf.Tree(safetyTree); t != nil {
		link := v.treeLink(t)
		out.Safety = &link
	}
	return out, nil
}
