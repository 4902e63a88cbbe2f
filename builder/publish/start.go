package publish

import "keelpath/builder/plan"

// startView is a page that only leads on. URL is where it leads.
type startView struct {
	PageView
	Topic, URL string // of StartAll there is no topic
}

func startModel(v viewer, p plan.Page) (any, error) {
	if p.Of == plan.StartAll {
		return startView{PageView: v.view, URL: v.to(plan.Planner)}, nil
	}
	return startView{v.view, v.shelf.Title("tree", p.Of), v.take(p.Of)}, nil
}
