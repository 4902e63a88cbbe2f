package library

import (
	"fmt"
	"slices"

	"keelpath/builder/drawing"
	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// shelves reads the shelves of the learn page, once all explainers are known. A
// layer adds to the shelves below it: a shelf of the same title gets the pages
// that the layer names, a new title makes a new shelf behind the others, and a
// page stands only where it was named last. A shelf without a page is left out.
func (l *loader) shelves() {
	l.Pictures = map[string]read.Text{}
	for _, m := range l.learn {
		l.parts(m)
	}
	l.Parts = slices.DeleteFunc(l.Parts, func(p *Part) bool { return len(p.Explainers) == 0 })
	l.rest()
}

// parts reads what one layer says of the shelves.
func (l *loader) parts(m *read.Map) {
	var named []string
	for _, p := range m.Maps("parts", "a part") {
		part := l.shelf(p.NeedWords("title"))
		if about := p.Words("about"); about.Given() {
			part.About = about
		}
		for _, id := range p.Texts("explainers") {
			page := l.Explainer(id.S)
			switch {
			case page == nil && l.unread["explainer "+id.S]:
			case page == nil:
				l.list.Add(id.At, "unknown-name", fmt.Sprintf("the learn page lists the explainer %q, and there is none", id.S), nearestOrLeave(id.S, l.explainerIDs())...)
			case slices.Contains(named, id.S):
				l.list.Add(id.At, "repeated-id", fmt.Sprintf("the learn page lists the explainer %q twice", id.S), "keep one of them")
			default:
				l.takeDown(page)
				part.Explainers = append(part.Explainers, page)
				named = append(named, id.S)
			}
		}
		p.Done()
	}
	l.pictures(m)
	m.Done()
}

// pictures reads which drawing or tile stands for each page.
func (l *loader) pictures(m *read.Map) {
	m.Pairs("pictures", func(id read.Text, names []read.Text) {
		if l.Explainer(id.S) == nil && !l.unread["explainer "+id.S] {
			l.list.Add(id.At, "unknown-name", fmt.Sprintf("a picture is named for the explainer %q, and there is none", id.S), nearestOrLeave(id.S, l.explainerIDs())...)
		}
		for _, name := range names {
			if _, tile := drawing.TileKind(name.S); name.Given() && !tile && !slices.Contains(drawing.IDs(), name.S) {
				help := finding.NearestHelp(name.S, slices.Concat(drawing.IDs(), drawing.TileNames()), nil)
				if help == nil {
					help = []string{"name another, or leave the line out"}
				}
				l.list.Add(name.At, "unknown-name", fmt.Sprintf("the page %q has the picture %q, and there is no such drawing or tile", id.S, name.S), help...)
				continue
			}
			l.Pictures[id.S] = name
		}
	})
}

// shelf gives the shelf of that title, a new one where there is none.
func (l *loader) shelf(title read.Text) *Part {
	for _, p := range l.Parts {
		if p.Title.S == title.S && title.S != "" {
			return p
		}
	}
	p := &Part{Title: title}
	l.Parts = append(l.Parts, p)
	return p
}

// takeDown takes a page off the shelf where a layer below put it.
func (l *loader) takeDown(page *explainer.Page) {
	for _, p := range l.Parts {
		p.Explainers = slices.DeleteFunc(p.Explainers, func(e *explainer.Page) bool { return e == page })
	}
}

// rest gathers explainers that no part names, so that a new page is never lost.
func (l *loader) rest() {
	const title = "More to read"
	var named []*explainer.Page
	for _, p := range l.Parts {
		named = append(named, p.Explainers...)
	}
	var rest []*explainer.Page
	for _, p := range l.Explainers {
		if !slices.ContainsFunc(named, func(n *explainer.Page) bool { return n.ID == p.ID }) {
			rest = append(rest, p)
		}
	}
	if len(rest) > 0 {
		l.Parts = append(l.Parts, &Part{Title: read.Text{S: title}, Explainers: rest})
	}
}
