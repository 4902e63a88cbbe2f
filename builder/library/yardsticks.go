package library

import (
	"fmt"

	"keelpath/builder/read"
)

// Yardstick is a published measure by which this site is rated; a Reading says how.
type Yardstick struct {
	ID      read.Text
	Title   read.Text
	About   read.Text
	Sources []read.Text
	Rates   []read.Text // ids of what is rated by it
	Joined  bool        // one score for all parts, and not one for each
	Parts   []*YardstickPart
}

// RatedOf is what a rated kind of page may be made of: what is rated by itself, the
// topics of the planner, explainers for patients, or explainers for residents.
var RatedOf = []string{"alone", "topics", "pages", "residents"}

// YardstickPart is a group of items that are counted together.
type YardstickPart struct {
	ID    read.Text
	Title read.Text
	Items []*YardstickItem
}

// YardstickItem is one thing that a yardstick asks for.
type YardstickItem struct {
	ID   read.Text
	Asks read.Text // in our own words
}

// Rated is something that is rated: a kind of page, or the whole site.
type Rated struct {
	ID   read.Text
	Name read.Text // short, for the head of a column
	What read.Text // which pages these are
	See  read.Text // one of them
	Of   read.Text // "topics", "pages" or "residents" where each of its pages is rated; else "alone"
}

// Yardstick gives the yardstick with that id, or nil.
func (l *Library) Yardstick(id string) *Yardstick { return l.by.yardsticks[id] }

func (l *loader) selfRatings(m *read.Map) {
	m.Each("rated", "rated page", func(id read.Text, r *read.Map) {
		one := &Rated{ID: id, Name: r.NeedWords("name"), What: r.NeedWords("what"), See: r.NeedText("see"), Of: r.OneOf("of", RatedOf...)}
		put(&l.Rated, one, func(r *Rated) string { return r.ID.S })
		r.Done()
	})
	m.Each("yardsticks", "yardstick", func(id read.Text, y *read.Map) {
		out := &Yardstick{
			ID: id, Title: y.NeedWords("title"), About: y.NeedWords("about"), Sources: y.NeedTexts("sources"),
			Rates: y.NeedTexts("rates"), Joined: y.Bool("joined"),
		}
		y.Each("parts", "part", func(id read.Text, p *read.Map) {
			part := &YardstickPart{ID: id, Title: p.NeedWords("title")}
			p.Each("items", "item", func(id read.Text, i *read.Map) {
				part.Items = append(part.Items, &YardstickItem{ID: id, Asks: i.NeedWords("asks")})
				i.Done()
			})
			p.Done()
			out.Parts = append(out.Parts, part)
		})
		y.Done()
		enter(&l.Yardsticks, &l.by.yardsticks, out.ID.S, out)
	})
	m.Done()
}

func (c *checker) selfRatings() {
	rated := shelfOf("rated page", c.Rated, func(r *Rated) read.Text { return r.ID })
	for _, y := range c.Yardsticks {
		who := fmt.Sprintf("yardstick %q", y.ID.S)
		c.has(c.sources, who, y.Sources...)
		c.has(rated, who, y.Rates...)
	}
}
