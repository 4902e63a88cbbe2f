package publish

import (
	"html/template"
	"slices"
	"strings"

	"keelpath/builder/drawing"
	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/read"
)

// The two rows that the figure holds against each other, and the step of each
// from which one speaks of a clear motion and of a strong push.
const (
	motionRow, pushRow = "ankle-motion", "push"
	clearStep          = 3
)

// motionPushView is the figure, and for each mark its reason one tap away. Both
// are the feet that stand high on the two rows at once.
type motionPushView struct {
	PageView
	Figure        template.HTML
	Motion, Push  rowView
	Feet          []tradeView
	Both          []tradeView
	Addons        []tradeView
	Count         standingCount // of the feet's marks on the two rows
	Questions     []ownView
	Sources       []SourceView
	Clear, Strong string // the words of the steps from which Both counts
}

// tradeView is one foot with its two marks.
type tradeView struct {
	ID, Name, URL string
	Motion, Push  cellView
	Kind          string // "not settled" or "trade practice" where one of the marks is, or both
	Gain, GiveUp  []string
}

func motionPushModel(v viewer, _ plan.Page) (any, error) {
	motion, push := v.shelf.Row(motionRow), v.shelf.Row(pushRow)
	out := motionPushView{
		PageView: v.view,
		Motion:   rowView{motionRow, motion.Title.S, read.Strings(motion.Steps)}, Push: rowView{pushRow, push.Title.S, read.Strings(push.Steps)},
		Clear: motion.Steps[clearStep].S, Strong: push.Steps[clearStep].S,
	}
	var cited []string
	for _, t := range v.shelf.Marked() {
		f := v.trade(t, motion, push)
		if t.Addon {
			out.Addons = append(out.Addons, f)
		} else {
			out.Feet = append(out.Feet, f)
			if t.Cells[motionRow].Mark >= clearStep && t.Cells[pushRow].Mark >= clearStep {
				out.Both = append(out.Both, f)
			}
			out.Count.add(f.Motion.Standing)
			out.Count.add(f.Push.Standing)
		}
		for _, row := range []string{motionRow, pushRow} {
			for _, s := range t.Cells[row].Sources {
				if v.shelf.Source(s.S) != nil {
					cited = union(cited, []string{s.S})
				}
			}
		}
	}
	out.Sources = v.bibliography(cited, false)
	if e := v.shelf.Entry("motion-against-push"); e != nil {
		for _, id := range e.Prompts {
			q := v.prompt(v.shelf.Prompt(id.S))
			out.Questions = append(out.Questions, ownView{q.Ask, q.Whom, v.ownQuestion(q.Ask)})
		}
	}
	out.Figure = v.tradeFigure(motion, push)
	return out, nil
}

func (v viewer) trade(t *library.FootType, motion, push *library.Row) tradeView {
	out := tradeView{
		ID: "trade-" + t.ID.S, Name: t.Name.S, URL: v.footType(t.ID.S), Motion: v.cell(t, motion), Push: v.cell(t, push),
		Gain: read.Strings(t.Gain), GiveUp: read.Strings(t.GiveUp),
	}
	kinds := slices.DeleteFunc([]string{out.Motion.Kind, out.Push.Kind}, func(k string) bool { return k == "" })
	slices.Sort(kinds)
	out.Kind = strings.Join(slices.Compact(kinds), ", ")
	return out
}

// placeSaid is a mark in the words of its row, and what it stands on where it is not settled.
func (v viewer) placeSaid(r *library.Row, c *library.Cell) string {
	if s := c.Standing(); s != library.Settled {
		return v.say().Say("motion-push.place-standing", "place", r.Steps[c.Mark].S, "standing", v.say().Say(s.Name()))
	}
	return r.Steps[c.Mark].S
}

// tradeFigure draws the feet; add-ons have no place of their own on the rows.
func (v viewer) tradeFigure(motion, push *library.Row) template.HTML {
	d := drawing.Trade{Columns: read.Strings(motion.Steps), Bands: read.Strings(push.Steps)}
	d.Drawing, _ = v.shelf.Drawing(drawing.TradeID)
	says := []string{d.Long}
	for _, t := range v.shelf.Marked() {
		if t.Addon {
			continue
		}
		x, y := t.Cells[motionRow], t.Cells[pushRow]
		d.Places = append(d.Places, drawing.Place{Name: t.Name.S, Column: x.Mark, Band: y.Mark,
			OpenAcross: x.Standing() == library.Unsettled, OpenUp: y.Standing() == library.Unsettled,
			Practice: x.Standing() == library.Practice || y.Standing() == library.Practice})
		says = append(says, v.say().Say("motion-push.foot-said", "foot", t.Name.S, "motion", v.placeSaid(motion, x), "push", v.placeSaid(push, y)))
	}
	d.Long = strings.Join(says, " ")
	return template.HTML(d.SVG("trade-figure"))
}
