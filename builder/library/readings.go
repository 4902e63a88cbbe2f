package library

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// NotYet stands in place of a reading's date until it has been made.
const NotYet = "not yet"

// Reading is one reading of the site by its yardsticks: what one reader found of all that
// they rate. Each stands in a file of its own, so that the second reader need not see the first.
type Reading struct {
	Read  read.Text // the day, or NotYet
	Items []*ItemReading
}

// ItemReading is what one reader found of one item. In a reading that has been made, all that
// the yardstick rates is in one of Met, Partly, Not and Apart, once; the checker sees to it.
type ItemReading struct {
	Yardstick, Item    read.Text
	Met                []read.Text
	Partly, Not, Apart []Reason    // Apart is where it does not apply
	On                 PageReading // which pages of a kind fall short; empty where nobody has looked
	How                read.Text   // how it is met; may be empty
	See                []read.Text // pages of the site where one can see it: "learn/foot-types.html#page_table"
	Open               read.Text   // what has not been studied; may be empty
}

// PageReading names single pages, by the ids of explainers and trees. What it does not name of a kind
// of page of which it names some meets the item.
type PageReading struct{ Partly, Not, Apart []Reason }

// Reason says why something is not rated as met.
type Reason struct {
	Of  read.Text // id of what is rated; of a page that shares its id with one of another kind, the kind before it: "planner/work"
	Why read.Text
}

// Names tells whether the reason is of a page of that kind.
func (r Reason) Names(page, kind string) bool { return r.Of.S == page || r.Of.S == kind+"/"+page }

// Rating is what a reader found: met, partly met, not met, or that it does not apply.
type Rating string

// Unread is where no reader has looked.
const (
	Unread Rating = ""
	Met    Rating = "met"
	Partly Rating = "partly"
	Not    Rating = "not"
	Apart  Rating = "apart"
)

// Made tells whether the reading has been made.
func (r *Reading) Made() bool {
	_, err := time.Parse(time.DateOnly, r.Read.S)
	return err == nil
}

// Of gives what the reader found of an item, or nil.
func (r *Reading) Of(yardstick, item string) *ItemReading {
	for _, i := range r.Items {
		if i.Yardstick.S == yardstick && i.Item.S == item {
			return i
		}
	}
	return nil
}

// Rating gives what was found of a kind of page, or of the site.
func (i *ItemReading) Rating(of string) Rating {
	if i == nil {
		return Unread
	}
	if slices.Contains(read.Strings(i.Met), of) {
		return Met
	}
	return rated(func(r Reason) bool { return r.Of.S == of }, i.Partly, i.Not, i.Apart)
}

// OnKind gives what was found of each page of a kind; has tells which those are. A kind meets an item only if all
// of its pages do, so of a kind that does, nothing more is asked; of one that does not, the reading must have
// named the pages.
func (i *ItemReading) OnKind(kind string, has func(page string) bool) func(page string) Rating {
	whole := i.Rating(kind)
	if whole == Met || whole == Apart || whole == Unread {
		return func(string) Rating { return whole }
	}
	named := map[string]Rating{}
	other := Unread // of a page that is not named
	for _, group := range []struct {
		is  Rating
		all []Reason
	}{{Apart, i.On.Apart}, {Not, i.On.Not}, {Partly, i.On.Partly}} {
		for _, r := range group.all {
			for _, page := range []string{r.Of.S, strings.TrimPrefix(r.Of.S, kind+"/")} {
				named[page] = group.is
				if has(page) {
					other = Met
				}
			}
		}
	}
	return func(page string) Rating {
		if r, ok := named[page]; ok {
			return r
		}
		return other
	}
}

// None tells whether no page is named.
func (p PageReading) None() bool { return len(p.Partly)+len(p.Not)+len(p.Apart) == 0 }

func (p PageReading) all() []Reason { return slices.Concat(p.Partly, p.Not, p.Apart) }

func rated(is func(Reason) bool, partly, not, apart []Reason) Rating {
	switch {
	case slices.ContainsFunc(partly, is):
		return Partly
	case slices.ContainsFunc(not, is):
		return Not
	case slices.ContainsFunc(apart, is):
		return Apart
	}
	return Unread
}

// PagesOf gives the ids of the single pages that a rated kind is made of, in the order of the library.
func (l *Library) PagesOf(r *Rated) []string {
	var out []string
	if r.Of.S == "topics" {
		for _, t := range l.PatientTrees() {
			out = append(out, t.ID.S)
		}
		return out
	}
	for _, e := range l.Explainers {
		if e.Audience.S == r.audience() {
			out = append(out, e.ID)
		}
	}
	return out
}

// isPageOf tells whether PagesOf has an id.
func (l *Library) isPageOf(r *Rated, id string) bool {
	if r.Of.S == "topics" {
		t := l.Tree(id)
		return t != nil && t.Audience.S == "patient"
	}
	e := l.Explainer(id)
	return e != nil && e.Audience.S == r.audience()
}

// audience says for whom the explainers are that the kind is made of.
func (r *Rated) audience() string {
	return map[string]string{"pages": "patient", "residents": "resident"}[r.Of.S]
}

func (l *loader) reading(to *Reading, m *read.Map) {
	if m == nil {
		return
	}
	to.Read = m.NeedText("read")
	if to.Read.Given() && to.Read.S != NotYet && !to.Made() {
		l.list.Add(to.Read.At, "not-allowed", fmt.Sprintf("%q is %q, and a day or %q was expected", "read", to.Read.S, NotYet), `write the day on which it was read: "2026-11-30"`)
	}
	m.Each("readings", "yardstick", func(yardstick read.Text, y *read.Map) {
		y.Entries("item", func(id read.Text, i *read.Map) {
			out := &ItemReading{
				Yardstick: yardstick, Item: id, Met: i.Texts("met"), Partly: l.reasons(i, "partly"), Not: l.reasons(i, "not"), Apart: l.reasons(i, "apart"),
				How: i.Words("how"), See: i.Texts("see"), Open: i.Words("open"),
			}
			if on := i.Sub("on", `"on"`); on != nil {
				out.On = PageReading{l.reasons(on, "partly"), l.reasons(on, "not"), l.reasons(on, "apart")}
				on.Done()
			}
			i.Done()
			put(&to.Items, out, func(i *ItemReading) string { return i.Yardstick.S + " " + i.Item.S })
		})
	})
	m.Done()
}

func (l *loader) reasons(m *read.Map, key string) []Reason {
	var out []Reason
	m.WordPairs(key, func(of read.Text, values []read.Text) {
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

// askedFor stands below a name that no yardstick has.
const askedFor = "content/self-ratings.yaml lists what is asked for"

// readings holds each reading that has been made against the yardsticks.
func (c *checker) readings() {
	for _, r := range []*Reading{&c.First, &c.Second} {
		named := map[string]bool{}
		for _, i := range r.Items {
			y := c.Yardstick(i.Yardstick.S)
			if y == nil && named[i.Yardstick.S] {
				continue // told once
			}
			named[i.Yardstick.S] = true
			if y == nil {
				help := append(finding.NearestHelp(i.Yardstick.S, c.yardstickIDs(), nil), askedFor)
				c.list.Add(i.Yardstick.At, "unknown-name", fmt.Sprintf("the reading names the yardstick %q, and there is none", i.Yardstick.S), help...)
			} else if !slices.Contains(y.itemIDs(), i.Item.S) {
				help := append(finding.NearestHelp(i.Item.S, y.itemIDs(), nil), askedFor)
				c.list.Add(i.Item.At, "unknown-name", fmt.Sprintf("the reading names the item %q, and yardstick %q has none", i.Item.S, y.ID.S), help...)
			} else if r.Made() {
				c.ratedOnce(y, i)
			}
		}
		if !r.Made() {
			continue
		}
		for _, y := range c.Yardsticks {
			for _, id := range y.itemIDs() {
				if r.Of(y.ID.S, id) == nil {
					c.list.Add(r.Read.At, "not-rated", fmt.Sprintf("the reading lacks item %q of yardstick %q", id, y.ID.S), "rate it, or write that the reading is not whole: read: "+NotYet)
				}
			}
		}
	}
}

func (c *checker) yardstickIDs() []string {
	var out []string
	for _, y := range c.Yardsticks {
		out = append(out, y.ID.S)
	}
	return out
}

func (y *Yardstick) itemIDs() []string {
	var out []string
	for _, p := range y.Parts {
		for _, i := range p.Items {
			out = append(out, i.ID.S)
		}
	}
	return out
}

// ratedOnce holds what was found of an item to a rating for all that its yardstick rates.
func (c *checker) ratedOnce(y *Yardstick, i *ItemReading) {
	given := slices.Clone(i.Met)
	for _, r := range slices.Concat(i.Partly, i.Not, i.Apart) {
		given = append(given, r.Of)
	}
	allowed := read.Strings(y.Rates)
	seen := map[string]bool{}
	for _, g := range given {
		switch {
		case !slices.Contains(allowed, g.S):
			help := append(finding.NearestHelp(g.S, allowed, nil), fmt.Sprintf("yardstick %q rates: %v", y.ID.S, allowed))
			c.list.Add(g.At, "unknown-name", fmt.Sprintf("item %q rates %q, and its yardstick does not", i.Item.S, g.S), help...)
		case seen[g.S]:
			c.list.Add(g.At, "repeated-id", fmt.Sprintf("item %q rates %q twice", i.Item.S, g.S), "keep one of them")
		}
		seen[g.S] = true
	}
	for _, of := range allowed {
		// A misspelt name was reported.
		near := slices.ContainsFunc(given, func(g read.Text) bool { return !slices.Contains(allowed, g.S) && finding.Nearest(g.S, allowed) == of })
		if !seen[of] && !near {
			c.list.Add(i.Item.At, "not-rated", fmt.Sprintf("item %q of yardstick %q has no rating for %q", i.Item.S, y.ID.S, of), "put it under met, or with a reason under partly, not or apart")
		}
	}
	c.ratedPages(y, i)
}

// ratedPages holds the single pages that an item names to the kinds that fall short of it. A page
// whose id is that of a page of another kind is named with its kind, so that no reason goes to both.
func (c *checker) ratedPages(y *Yardstick, i *ItemReading) {
	short := func(name string) (kinds []string) { // the kinds that fall short and have a page that goes by the name
		for _, r := range c.Rated {
			if got := i.Rating(r.ID.S); slices.Contains(read.Strings(y.Rates), r.ID.S) && (got == Partly || got == Not) {
				if page, _ := strings.CutPrefix(name, r.ID.S+"/"); c.isPageOf(r, page) {
					kinds = append(kinds, r.ID.S)
				}
			}
		}
		return kinds
	}
	seen := map[string]bool{}
	for _, r := range i.On.all() {
		switch kinds := short(r.Of.S); {
		case len(kinds) == 0:
			c.list.Add(r.Of.At, "unknown-name", fmt.Sprintf("item %q names the page %q, and that is no page of a kind that falls short of it", i.Item.S, r.Of.S),
				"name an explainer or a topic by its id, and rate its kind as partly or not")
		case len(kinds) > 1:
			c.list.Add(r.Of.At, "two-pages", fmt.Sprintf("item %q names the page %q, and each of %v has a page of that id and falls short of it", i.Item.S, r.Of.S, kinds),
				fmt.Sprintf("name its kind as well: %q", kinds[0]+"/"+r.Of.S))
		case seen[r.Of.S]:
			c.list.Add(r.Of.At, "repeated-id", fmt.Sprintf("item %q names the page %q twice", i.Item.S, r.Of.S), "keep one of them")
		}
		seen[r.Of.S] = true
	}
}
