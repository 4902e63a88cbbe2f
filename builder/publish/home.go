package publish

import (
	"keelpath/builder/plan"
)

// safetyTree is the tree that a reader with a fresh worry is sent to.
const safetyTree = "something-changed"

// homeView is the front door. Safety is nil where the edition has no such tree.
type homeView struct {
	PageView
	Safety *LinkView
}

func homeModel(v viewer, _ plan.Page) (any, error) {
	out := homeView{PageView: v.view}
	if t := v.shelf.Tree(safetyTree); t != nil {
		link := v.treeLink(t)
		out.Safety = &link
	}
	return out, nil
}
