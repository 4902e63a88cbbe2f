package library

import (
	"fmt"
	"slices"

	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// Yardstick is a published measure, and how the editors rate this site by it.
type Yardstick struct {
	ID      read.Text
	Title   read.Text
	About   read.Text
	Sources []read.Text
	Rates   []read.Text // ids of what is rated by it
	Joined  bool        // one score for all parts, and not one for each
	Parts   []*YardstickPart
}

// YardstickPart is a group of items that are counted together.
type YardstickPart struct {
	ID    read.Text
	Title read.Text
	Items []*YardstickItem
}

// YardstickItem is one thing that a yardstick asks for. All that its yardstick
// rates is in one of Met, Lacks and Apart, once; the checker sees to it.
type YardstickItem struct {
	ID    read.Text
	Asks  read.Text   // in our own words
	How   read.Text   // how it is met; may be empty
	See   []read.Text // pages of the site where one can see it: "learn/foot-types.html#page_table"
	Open  read.Text   // what has not been studied; may be empty
	Met   []read.Text
	Lacks []Reason
	Apart []Reason // where it does not apply
}

// Reason says why something is not rated as met.
type Reason struct {
	Of  read.Text // id of what is rated
	Why read.Text
}

// Rated is something that is rated: a kind of page, or the whole site.
type Rated struct {
	ID   read.Text
	Name read.Text // short, for the head of a column
	What read.Text // which pages these are
	See  read.Text // one of them
}

// Yardstick gives the yardstick with that id, or nil.
func (l *Library) Yardstick(id string) *Yardstick {
	return find(l.Yardsticks, id, func(y *Yardstick) string { return y.ID.S })
}

// Rating gives the rating of an item: "met", "lacks" or "apart", or "" where there is none.
func (i *YardstickItem) Rating(of string) string {
	is := func(r Reason) bool { return r.Of.S == of }
	switch {
	case slices.Contains(read.Strings(i.Met), of):
		return "met"
	case slices.ContainsFunc(i.Lacks, is):
		return "lacks"
	case slices.ContainsFunc(i.Apart, is):
		return "apart"
	}
	return ""
}

func (l *loader) selfRatings(m *read.Map) {
	m.Each("rated", "rated page", func(id read.Text, r *read.Map) {
		put(&l.Rated, &Rated{ID: id, Name: r.NeedText("name"), What: r.NeedText("what"), See: r.NeedText("see")}, func(r *Rated) string { return r.ID.S })
		r.Done()
	})
	m.Each("yardsticks", "yardstick", func(id read.Text, y *read.Map) {
		out := &Yardstick{
			ID: id, Title: y.NeedText("title"), About: y.NeedText("about"), Sources: y.NeedTexts("sources"),
			Rates: y.NeedTexts("rates"), Joined: y.Bool("joined"),
		}
		y.Each("parts", "part", func(id read.Text, p *read.Map) {
			part := &YardstickPart{ID: id, Title: p.NeedText("title")}
			p.Each("items", "item", func(id read.Text, i *read.Map) {
				part.Items = append(part.Items, l.yardstickItem(id, i))
			})
			p.Done()
			out.Parts = append(out.Parts, part)
		})
		y.Done()
		put(&l.Yardsticks, out, func(y *Yardstick) string { return y.ID.S })
	})
	m.Done()
}

func (l *loader) yardstickItem(id read.Text, m *read.Map) *YardstickItem {
	i := &YardstickItem{
		ID: id, Asks: m.NeedText("asks"), How: m.Text("how"), See: m.Texts("see"), Open: m.Text("open"), Met: m.Texts("met"),
		Lacks: l.reasons(m, "lacks"), Apart: l.reasons(m, "apart"),
	}
	m.Done()
	return i
}

func (l *loader) reasons(m *read.Map, key string) []Reason {
	var out []Reason
	m.Pairs(key, func(of read.Text, values []read.Text) {
		r := Reason{Of: of}
		if len(values) == 1 {
			r.Why = values[0]
		}
		if r.Why.S == "" {
			l.list.Add(of.At, "no-reason", fmt.Sprintf("%q stands under %q without a reason", of.S, key), `write why behind it: "`+of.S+`: It has no summary."`)
		}
		out = append(out, r)
	})
	return out
}

func (c *checker) selfRatings() {
	rated := shelfOf("rated page", c.Rated, func(r *Rated) read.Text { return r.ID })
	for _, y := range c.Yardsticks {
		who := fmt.Sprintf("yardstick %q", y.ID.S)
		c.has(c.sources, who, y.Sources...)
		c.has(rated, who, y.Rates...)
		for _, p := range y.Parts {
			for _, i := range p.Items {
				c.ratedOnce(y, i)
			}
		}
	}
}

// ratedOnce holds an item to a rating for all that its yardstick rates.
func (c *checker) ratedOnce(y *Yardstick, i *YardstickItem) {
	given := slices.Clone(i.Met)
	for _, r := range slices.Concat(i.Lacks, i.Apart) {
		given = append(given, r.Of)
	}
	allowed := read.Strings(y.Rates)
	seen := map[string]bool{}
	for _, g := range given {
		switch {
		case !slices.Contains(allowed, g.S):
			help := append(finding.NearestHelp(g.S, allowed, nil), fmt.Sprintf("yardstick %q rates: %v", y.ID.S, allowed))
			c.list.Add(g.At, "unknown-name", fmt.Sprintf("item %q rates %q, and its yardstick does not", i.ID.S, g.S), help...)
		case seen[g.S]:
			c.list.Add(g.At, "repeated-id", fmt.Sprintf("item %q rates %q twice", i.ID.S, g.S), "keep one of them")
		}
		seen[g.S] = true
	}
	for _, of := range allowed {
		// A misspelt name was reported.
		near := slices.ContainsFunc(given, func(g read.Text) bool { return !slices.Contains(allowed, g.S) && finding.Nearest(g.S, allowed) == of })
		if !seen[of] && !near {
			c.list.Add(i.ID.At, "not-rated", fmt.Sprintf("item %q of yardstick %q has no rating for %q", i.ID.S, y.ID.S, of), "put it under met, or with a reason under lacks or apart")
		}
	}
}
