package publish

import (
	"fmt"
	"html/template"

	"keelpath/builder/say"
	"keelpath/builder/tree"
	"keelpath/builder/treemap"
)

// mapView is a tree as one picture, and the same as a list. Sheet names the paper that it is printed on.
type mapView struct {
	Sheet  string
	SVG    template.HTML
	Walked template.HTML // the first worked example's path, with what it does not come by in the fog; empty where there is none, or the map is large
	Who    string        // of that example
	Rows   []mapRowView
}

// mapRowView is a question of the map with its ways, for the list.
type mapRowView struct {
	Text, URL string
	Ways      []mapWayView
}

type mapWayView struct {
	Label, To, URL string
}

// lineID is the id of a line of a tree's listing.
func lineID(line int) string { return fmt.Sprintf("line-%d", line) }

// placesIn are the lines of a tree's file at which its questions and endings begin, those of signs where they are told.
func placesIn(t *tree.Tree) map[int]bool {
	out := map[int]bool{}
	for _, q := range t.Questions {
		out[q.ID.At.Line] = true
	}
	for _, e := range t.Endings {
		out[e.ID.At.Line], out[e.Sign.At.Line] = true, e.Sign.Given()
	}
	return out
}

func (v viewer) treeMap(t *tree.Tree) (mapView, error) {
	g := treemap.Of(t, v.say(), func(q *tree.Question, r *tree.Route) string { return teller{v.say(), t, q}.says(r.If) })
	m := treemap.Lay(g, v.say(), treemap.A4, treemap.A3, treemap.A2)
	link := func(line int) string { return "#" + lineID(line) }
	out := mapView{Sheet: m.Sheet.Name, SVG: m.SVG(treemap.Drawing{Name: v.say().Say("map.name", "tree", t.Title.S), Link: link}), Rows: mapRows(g, v.say())}
	if len(t.Examples) == 0 || m.Sheet.Name == treemap.A2.Name {
		return out, nil // a second map of that size would be heavy, and says little
	}
	e := t.Examples[len(t.Examples)-1] // the grave ones come first, and are short
	walked, err := t.Walk(e.Given())
	if err != nil {
		return out, fmt.Errorf("the example %q: %w", e.Who.S, err)
	}
	path, known := pathOf(g, walked)
	out.Who = e.Who.S
	out.Walked = m.SVG(treemap.Drawing{Name: v.say().Say("map.walked", "who", e.Who.S), Path: path, Known: known, Number: v.say().Number})
	return out, nil
}

// pathOf is a walk as a map draws it: through the safety screen, where that comes first, and each place by its id.
func pathOf(g treemap.Graph, walked tree.Path) (path []string, known map[string]bool) {
	if g.Start == treemap.Screen {
		path = append(path, treemap.Screen)
	}
	for _, s := range walked.Steps {
		path = append(path, s.Question)
	}
	path = append(path, walked.Ending)
	known = map[string]bool{}
	for _, id := range path {
		known[id] = true
	}
	return path, known
}

// mapRows are the questions of a graph, each with its ways in words.
func mapRows(g treemap.Graph, w *say.Words) []mapRowView {
	names, lines := map[string]string{}, map[string]int{}
	for _, q := range g.Questions {
		names[q.ID], lines[q.ID] = treemap.Numbered(w, q.Number, q.Text), q.Line
	}
	for _, e := range g.Endings {
		names[e.ID], lines[e.ID] = e.Title, e.Line
	}
	url := func(id string) string {
		if lines[id] == 0 {
			return ""
		}
		return "#" + lineID(lines[id])
	}
	var out []mapRowView
	for _, q := range g.Questions {
		row := mapRowView{Text: names[q.ID], URL: url(q.ID)}
		for _, way := range q.Ways {
			row.Ways = append(row.Ways, mapWayView{way.Label, names[way.To], url(way.To)})
		}
		out = append(out, row)
	}
	return out
}
