package tree

import (
	"keelpath/builder/formula"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
)

// Table is a tree as the browser walks it: ids only, no text. It holds the same
// rules as Walk does, in the plainest form; the client's walker reads it.
type Table struct {
	ID        string              `json:"id"`
	Start     string              `json:"start"`
	Questions map[string]TableRow `json:"questions"`
	Endings   map[string]TableEnd `json:"endings"`
	Values    []TableValue        `json:"values,omitempty"`
}

// TableValue is a worked-out value.
type TableValue struct {
	ID   string        `json:"id"`
	Kind string        `json:"kind"`
	Unit string        `json:"unit,omitempty"` // that it is shown in
	Is   formula.Coded `json:"is"`
}

// TableMeasure is what a question takes that is answered with an amount.
type TableMeasure struct {
	quantity.Measure
	Likes  []TableLike `json:"likes,omitempty"`
	Ground string      `json:"ground,omitempty"` // the tile that its amounts are drawn as
}

// TableLike is an amount with a name.
type TableLike struct {
	ID    string         `json:"id"`
	Is    string         `json:"is"` // as a person would type it
	Value quantity.Value `json:"value"`
}

// TableRoute is a way on; without If it is taken where no other is.
type TableRoute struct {
	If    formula.Coded `json:"if,omitempty"`
	Go    string        `json:"go"`
	Cards []string      `json:"cards,omitempty"`
}

// TableRow is one question of a Table.
type TableRow struct {
	Any     bool          `json:"any,omitempty"` // several answers may be chosen
	Answers []TableAnswer `json:"answers,omitempty"`
	Measure *TableMeasure `json:"measure,omitempty"`
	Routes  []TableRoute  `json:"routes,omitempty"`
	Go      string        `json:"go,omitempty"`
	Skip    string        `json:"skip,omitempty"`
	Left    int           `json:"left"` // most questions still to come after this one
	Tells   []string      `json:"tells,omitempty"`
}

// TableAnswer is one answer of a TableRow.
type TableAnswer struct {
	ID    string   `json:"id"`
	Go    string   `json:"go,omitempty"`
	Cards []string `json:"cards,omitempty"`
	Alone bool     `json:"alone,omitempty"`
	Tells []string `json:"tells,omitempty"`

	Ground string `json:"ground,omitempty"` // the tile that shows it
}

// TableEnd is what an ending brings to the sheet.
type TableEnd struct {
	Safety  bool     `json:"safety,omitempty"`
	Prompts []string `json:"prompts,omitempty"`
	Themes  []string `json:"themes,omitempty"`
	Next    []string `json:"next,omitempty"`

	Own *TableOwn `json:"own,omitempty"`
}

// TableOwn is a picture of the reader's own amounts, and the questions that tell them.
type TableOwn struct {
	Name string   `json:"name"`
	Of   []string `json:"of"`
}

// Table compiles the tree. left says for each question how many may still
// follow it at most; it comes from the proof.
func (t *Tree) Table(left map[string]int) Table {
	out := Table{ID: t.ID.S, Start: t.Start.S, Questions: map[string]TableRow{}, Endings: map[string]TableEnd{}}
	for _, q := range t.Questions {
		row := TableRow{Any: q.Pick == PickAny, Go: q.Go.S, Skip: q.Skip.S, Left: left[q.ID.S], Tells: texts(q.Tells)}
		for _, a := range q.Answers {
			row.Answers = append(row.Answers, TableAnswer{ID: a.ID.S, Go: a.Go.S, Cards: texts(a.Cards), Alone: a.Alone, Tells: texts(a.Tells), Ground: a.Ground.S})
		}
		row.Measure, row.Routes = q.tableMeasure(), q.tableRoutes()
		out.Questions[q.ID.S] = row
	}
	for _, e := range t.Endings {
		end := TableEnd{Safety: e.Safety, Prompts: texts(e.Prompts), Themes: texts(e.Themes), Next: texts(e.Next)}
		if of := t.OwnOf(e.Ground.S); len(of) > 0 {
			end.Own = &TableOwn{e.Ground.S, of}
		}
		out.Endings[e.ID.S] = end
	}
	for _, w := range t.Values {
		if w.Is.Expr != nil {
			out.Values = append(out.Values, TableValue{ID: w.ID.S, Kind: string(w.Kind), Unit: shownIn[w.Kind], Is: w.Is.Expr.Encode()})
		}
	}
	return out
}

func (q *Question) tableMeasure() *TableMeasure {
	if q.Measure == nil {
		return nil
	}
	out := &TableMeasure{Measure: q.Measure.Measure, Ground: q.Measure.Ground.S}
	for _, l := range q.Measure.Likes {
		out.Likes = append(out.Likes, TableLike{ID: l.ID.S, Is: l.Is.S, Value: l.Value})
	}
	return out
}

func (q *Question) tableRoutes() []TableRoute {
	var out []TableRoute
	for _, r := range q.Routes {
		row := TableRoute{Go: r.Go.S, Cards: texts(r.Cards)}
		if r.If.Expr != nil {
			row.If = r.If.Expr.Encode()
		}
		out = append(out, row)
	}
	return out
}

func texts(ts []read.Text) []string {
	if len(ts) == 0 {
		return nil
	}
	return read.Strings(ts)
}
