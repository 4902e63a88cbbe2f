package publish

import (
	"html/template"
	"strings"

	"keelpath/builder/drawing"
	"keelpath/builder/explainer"
	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/read"
	"keelpath/builder/say"
)

// footTypesView is the one table of all foot types, the same rows for each, and
// an entry a type with the reasons.
type footTypesView struct {
	PageView
	Rows    []rowView
	Types   []footTypeView // the ways last
	Rated   int            // how many have ratings
	Ways    []LinkView
	Count   standingCount // of the ratings
	Sources []SourceView  // of all marks, numbered
	Cuts    string        // the script that has the kinds cut open
}

// Unsettled tells whether the signs end in a question mark.
func (c cellView) Unsettled() bool { return c.Standing == library.Unsettled }

// IsPractice tells whether the signs are those of trade practice.
func (c cellView) IsPractice() bool { return c.Standing == library.Practice }

// standingCount counts marks by what they stand on.
type standingCount struct{ Settled, Practice, Unsettled int }

// All counts the marks.
func (c standingCount) All() int { return c.Settled + c.Practice + c.Unsettled }

func (c *standingCount) add(s library.Standing) {
	switch s {
	case library.Practice:
		c.Practice++
	case library.Unsettled:
		c.Unsettled++
	default:
		c.Settled++
	}
}

// rowView is one line of comparison with the words for its five marks.
type rowView struct {
	ID, Title string
	Steps     []string
}

type footTypeView struct {
	ID, Name, What string
	Also           []string
	Addon, Way     bool
	Gain, GiveUp   []string
	Drawing        template.HTML // empty where there is none of it
	Title          string        // of the drawing
	Explainer      *LinkView     // nil where no page says more
	Cells          []cellView    // in the order of the rows
}

// cellView is one mark: its signs, the same in words, and the reason. The
// address of its reason is "#" and ID.
type cellView struct {
	ID, Row, Words string
	Signs          string // four dots or squares, as many filled as the mark; an add-on's change: "+ +"; a way's dash
	Standing       library.Standing
	Kind           string // the standing in words; empty where the mark is settled
	Support        string // how sure what it cites makes it, in words; may be empty
	Why            string
	Practice       bool // rests on common practice, alone or beside sources
	Sources        []LinkView
	Numbers        []int // of the sources in the list below the kinds of feet; nil elsewhere
}

func footTypesModel(v viewer, _ plan.Page) (any, error) {
	out := footTypesView{PageView: v.view}
	cuts, err := v.shelf.Asset(cutScript)
	if err != nil {
		return nil, err
	}
	out.Cuts = v.view.Root + cuts
	for _, r := range v.shelf.Rows() {
		out.Rows = append(out.Rows, rowView{r.ID.S, r.Title.S, read.Strings(r.Steps)})
	}
	for _, t := range v.shelf.Marked() {
		out.Types = append(out.Types, v.footTypeView(t))
		for _, c := range t.Cells {
			out.Count.add(c.Standing())
		}
	}
	out.Rated = len(out.Types)
	for _, t := range v.shelf.Ways() {
		out.Types = append(out.Types, v.footTypeView(t))
		out.Ways = append(out.Ways, LinkView{t.ID.S, t.Name.S, "#" + t.ID.S})
	}
	out.Sources = v.bibliography(numberSources(out.Types), true)
	return out, nil
}

// numberSources numbers what the marks cite, in the order in which it comes up,
// and gives the ids in that order.
func numberSources(types []footTypeView) []string {
	var ids []string
	numbers := map[string]int{}
	for _, t := range types {
		for i := range t.Cells {
			c := &t.Cells[i]
			for _, s := range c.Sources {
				if numbers[s.ID] == 0 {
					ids = append(ids, s.ID)
					numbers[s.ID] = len(ids)
				}
				c.Numbers = append(c.Numbers, numbers[s.ID])
			}
		}
	}
	return ids
}

func (v viewer) footTypeView(t *library.FootType) footTypeView {
	out := footTypeView{
		ID: t.ID.S, Name: t.Name.S, What: t.What.S, Also: read.Strings(t.Also), Addon: t.Addon, Way: t.Way,
		Gain: read.Strings(t.Gain), GiveUp: read.Strings(t.GiveUp),
	}
	if d, ok := v.drawingOf(t); ok {
		out.Drawing, out.Title = d.SVG(""), d.Title
	}
	if e := v.shelf.Entry(t.Explainer.S); e != nil {
		out.Explainer = &LinkView{e.ID, e.Title, v.explainer(e.ID)}
	}
	for _, r := range v.shelf.Rows() {
		out.Cells = append(out.Cells, v.cell(t, r))
	}
	return out
}

// drawingOf gives the drawing of a foot type. A clinic's own type may have none.
func (v viewer) drawingOf(t *library.FootType) (drawing.Drawing, bool) {
	return v.shelf.Drawing(drawingName(t))
}

// drawingName is the id of a foot type's drawing, which has its name.
func drawingName(t *library.FootType) string {
	if t.Addon {
		return "add-on-" + t.ID.S
	}
	return "foot-" + t.ID.S
}

func (v viewer) cell(t *library.FootType, r *library.Row) cellView {
	c := t.Cells[r.ID.S]
	out := cellView{ID: t.ID.S + "_" + r.ID.S, Row: r.Title.S, Standing: c.Standing(), Why: c.Why.S, Sources: v.sourceLinks(c.Sources)}
	out.Practice = len(out.Sources) < len(c.Sources)
	if out.Standing != library.Settled {
		out.Kind = v.say().Say(out.Standing.Name())
	}
	if s := explainer.SupportByID(c.Support.S); s.ID != "" && len(out.Sources) > 0 {
		out.Support = v.say().Say(s.Words)
	}
	if t.Addon || t.Way {
		out.Signs, out.Words = "–", c.Says.S
		if t.Addon {
			out.Signs, out.Words = change(v.say(), c.Mark)
		}
		if out.Standing == library.Practice {
			out.Signs = "[" + out.Signs + "]"
		}
		return out
	}
	out.Signs, out.Words = steps(c.Mark, len(r.Steps)-1, out.Standing), r.Steps[c.Mark].S
	return out
}

// steps draws a mark as dots, or as squares where it is trade practice, so that
// the shape alone tells them apart.
func steps(mark, most int, standing library.Standing) string {
	full, empty := "●", "○"
	if standing == library.Practice {
		full, empty = "■", "□"
	}
	return strings.Repeat(full, mark) + strings.Repeat(empty, most-mark)
}

// change puts an add-on's mark into signs and words. It says more or less of
// the row, never better or worse.
func change(w *say.Words, mark int) (signs, words string) {
	if mark < -2 || mark > 2 {
		mark = 3
	}
	c := changes[mark+2]
	return c.signs, w.Say(c.words)
}

// changes are those of the marks from -2 up.
var changes = []struct {
	signs string
	words say.Name
}{
	{"− −", "change.less"}, {"−", "change.little-less"}, {"=", "change.none"},
	{"+", "change.little-more"}, {"+ +", "change.more"}, {"+ + +", "change.lot-more"},
}
