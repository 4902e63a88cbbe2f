package safety

import "keelpath/builder/read"

// Table is the screen as the client walks it: ids only, no text.
type Table struct {
	Leg    map[string][]string `json:"leg"` // the told facts of each answer
	Groups []TableGroup        `json:"groups"`
}

// TableGroup is one group of a Table.
type TableGroup struct {
	ID      string      `json:"id"`
	Leg     bool        `json:"leg,omitempty"`
	Prompts []string    `json:"prompts,omitempty"` // of "not sure"
	Signs   []TableSign `json:"signs"`
}

// TableSign is one sign of a TableGroup.
type TableSign struct {
	ID      string   `json:"id"`
	When    When     `json:"when"`
	Leg     bool     `json:"leg,omitempty"`
	Prompts []string `json:"prompts,omitempty"`
	Tells   []string `json:"tells,omitempty"`
}

// Table compiles the screen.
func (s *Screen) Table() Table {
	out := Table{Leg: map[string][]string{}, Groups: []TableGroup{}}
	for _, a := range s.Leg.Answers {
		out.Leg[a.ID.S] = read.Strings(a.Tells)
	}
	for _, g := range s.Groups {
		row := TableGroup{ID: g.ID.S, Leg: g.Leg, Prompts: read.Strings(g.Unsure.Prompts), Signs: []TableSign{}}
		for _, sign := range g.Signs {
			row.Signs = append(row.Signs, TableSign{
				ID: sign.ID.S, When: When(sign.When.S), Leg: sign.Leg, Prompts: read.Strings(sign.Prompts), Tells: read.Strings(sign.Tells),
			})
		}
		out.Groups = append(out.Groups, row)
	}
	return out
}

// promptsOf gives the questions for later of one thing told.
func (s *Screen) promptsOf(d Said) []string {
	if sign, _ := s.Sign(d.Sign); sign != nil {
		return read.Strings(sign.Prompts)
	}
	if g := s.Group(d.Group); g != nil {
		return read.Strings(g.Unsure.Prompts)
	}
	return nil
}
