package library

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/figure"
	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// readFigure reads a figure. One of a later layer stands in the place of the
// whole figure of the same id.
func (l *loader) readFigure(y Layer, name string) {
	if f := figure.Read(l.whole(name), y.name(name), y.files[name], l.list); f != nil {
		enter(&l.Figures, &l.by.figures, f.ID, f)
	} else {
		l.unread["figure "+stem(path.Base(name))] = true
	}
}

func (l *loader) figuresInOrder() {
	slices.SortStableFunc(l.Figures, func(a, b *figure.Figure) int {
		return cmp.Or(cmp.Compare(a.Order, b.Order), cmp.Compare(a.ID, b.ID))
	})
}

// figure checks what a figure names beyond itself.
func (c *checker) figure(f *figure.Figure) {
	who := fmt.Sprintf("figure %q", f.ID)
	for _, r := range f.Limits.Rows {
		c.has(c.sources, "a limit of "+who, r.Sources...)
	}
	c.marked[f.Notes.At] = true
	d := c.notes(f, c.list)
	c.refs(who, d)
	c.claims(d.Blocks)
}

// notes gives the notes of a figure parsed.
func (l *Library) notes(f *figure.Figure, list *finding.List) *explainer.Doc {
	return explainer.ParseNotes(f.Notes, func(offset int) finding.Place {
		if !f.Notes.Given() {
			return finding.Place{File: f.File}
		}
		return l.within(f.Notes, min(offset, len(f.Notes.S)))
	}, l.Edition.Lines, list)
}

// figurePage gives the lead and the notes of a figure as a page has them. What was
// wrong in them is reported elsewhere.
func (l *Library) figurePage(f *figure.Figure) *explainer.Page {
	return &explainer.Page{File: f.File, ID: f.ID, Title: f.Title, Message: f.Lead, Body: l.notes(f, &finding.List{})}
}

// figureShown checks a listing marked "figure": it names a figure that there is, and
// sets what can be set of it.
func (c *checker) figureShown(s explainer.Shown) {
	f := c.Figure(s.Figure)
	switch {
	case f == nil && c.unread["figure "+s.Figure]:
	case f == nil:
		var ids []string
		for _, f := range c.Figures {
			ids = append(ids, f.ID)
		}
		c.list.Add(s.At, "unknown-name", fmt.Sprintf("the page shows the figure %q, and there is none", s.Figure), finding.NearestOrAll(s.Figure, ids, "figures")...)
	case f.Sound:
		if _, err := f.Start(s.Given); err != nil {
			c.list.Add(s.At, "figure-setting", fmt.Sprintf("the figure %q cannot begin so: %s", s.Figure, strings.TrimSuffix(err.Error(), ".")), "its settings: "+strings.Join(f.Settings(), ", "))
		}
	}
}

// figureSaid gives all that a figure can say.
func figureSaid(f *figure.Figure, say func(string, ...read.Text)) {
	who := fmt.Sprintf("figure %q", f.ID)
	say(who, f.Title, f.About, f.Lead)
	for _, in := range f.Inputs {
		who := fmt.Sprintf("input %q of %s", in.ID.S, who)
		say(who, in.Label, in.Hint, in.Hand)
		for _, c := range in.Choices {
			say(who, c.Text)
		}
		for _, c := range in.Say {
			say(who, c.Text)
		}
	}
	for _, t := range f.Texts {
		if t.Place == figure.Row {
			continue // the words of the limits, once below
		}
		for _, c := range t.Cases {
			say(fmt.Sprintf("text %q of %s", t.ID.S, who), c.Text)
		}
	}
	say("the worked table of "+who, f.Typical.Caption)
	say("the worked table of "+who, f.Typical.Heads...)
	say("the worked table of "+who, f.Typical.Cells...)
	limits := "a limit of " + who
	say(limits, f.Limits.Caption, f.Limits.Same, f.Limits.More, f.Limits.Less)
	for _, r := range f.Limits.Rows {
		say(limits, r.Where, r.Limit, r.Line)
	}
	say("the notes of "+who, f.Notes)
}

// figureText is what a reader of a figure's page reads as sentences. Labels and
// heads are labels.
func (l *Library) figureText(f *figure.Figure) *running {
	r := &running{}
	l.readOn(r, f.Lead)
	for _, t := range f.Texts {
		if t.Place == figure.Label || t.Place == figure.Row || t.Place == figure.Fold {
			continue
		}
		for _, c := range t.Cases {
			r.stop()
			l.readOn(r, c.Text)
		}
	}
	r.stop()
	l.readOn(r, f.Notes)
	return r
}
