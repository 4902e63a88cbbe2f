package conflict

import (
	"keelpath/builder/library"
	"keelpath/builder/say"
)

// Matter is a library's wishes, feet and add-ons with what is worked out of
// them. Wishes, feet and add-ons count from 0 in the library's order.
type Matter struct {
	Table
	Words  *say.Words // what all is said in
	Wishes []*library.Wish
	Feet   []*library.FootType
	Addons []*library.FootType
	Rows   []*library.Row
	All    []Conflict // of at most Most wishes
	Leans  []Set      // of at most Most wishes: those that are met by trade practice alone
	Summary
}

// In works out the conflicts of a library that is free of errors. Ways have no
// marks and are left out.
func In(l *library.Library) *Matter {
	m := &Matter{Words: l.Say, Wishes: l.Wishes, Rows: l.Rows}
	row := map[string]int{}
	for i, r := range l.Rows {
		row[r.ID.S] = i
	}
	for _, w := range l.Wishes {
		m.Table.Wishes = append(m.Table.Wishes, Wish{Row: row[w.Row.S], Step: w.Step, Down: w.Down})
	}
	for _, t := range l.Marked() {
		marks := make([]Mark, len(l.Rows))
		for i, r := range l.Rows {
			c := t.Cells[r.ID.S]
			marks[i] = Mark{c.Mark, c.Standing() == library.Unsettled, c.Standing() == library.Practice}
		}
		if t.Addon {
			m.Addons, m.Table.Addons = append(m.Addons, t), append(m.Table.Addons, marks)
		} else {
			m.Feet, m.Table.Feet = append(m.Feet, t), append(m.Table.Feet, marks)
		}
	}
	m.All, m.Leans = m.Table.Find(Most), m.Table.Leans(Most)
	m.Summary = m.summary()
	return m
}

// Row gives the row of a wish.
func (m *Matter) Row(wish int) *library.Row { return m.Rows[m.Table.Wishes[wish].Row] }

// Cell gives the cell on which a foot is held against a wish.
func (m *Matter) Cell(foot, wish int) *library.Cell { return m.Feet[foot].Cells[m.Wishes[wish].Row.S] }
