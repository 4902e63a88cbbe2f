package publish

import (
	"fmt"
	"strings"

	"keelpath/builder/library"
	"keelpath/builder/read"
)

// ratingsView is how the editors rate the site by published measures.
type ratingsView struct {
	PageView
	Rated      []ratedView
	Yardsticks []yardstickView
	People     []TrainingView
}

// ratedView is something that is rated, with a link to one of its pages.
type ratedView struct {
	Name, What string
	See        LinkView
}

// yardstickView is one measure. Alone is set where it rates one thing only: then
// there is no table, and each item says how it is met.
type yardstickView struct {
	ID, Title, About string
	Alone            bool
	Parts            []yardstickPartView
	Scores           []scoreView // of all parts together; empty where each part has its own
	Sources          []LinkView
}

type yardstickPartView struct {
	ID, Title string
	Columns   []string
	Items     []itemView
	Scores    []scoreView // a column each
	Reasons   bool        // some item gives a reason
}

// itemView is one item. Ratings has a word a column: "yes", "no" or "–".
type itemView struct {
	ID, Number, Asks string
	Ratings          []string
	How, Open        string
	See              []LinkView
	Lacks, Apart     []reasonView
}

// reasonView is a reason with those that share it.
type reasonView struct{ Of, Why string }

// scoreView counts what is met of what applies.
type scoreView struct {
	Name       string
	Met, Apply int
}

// Percent is the share that is met, to the nearest whole number.
func (s scoreView) Percent() int {
	if s.Apply == 0 {
		return 0
	}
	return (200*s.Met + s.Apply) / (2 * s.Apply)
}

func (m *maker) ratingsPage() page {
	return page{
		name: ratingsName, title: "How we measure up", room: "clinic", template: "ratings", credits: m.siteCredits(),
		description: "How the editors rate these pages by published measures, point by point, with the reason for each “no”.",
		model: func(v viewer, p PageView) (any, error) {
			titles := map[string]string{}
			for _, other := range m.pages() {
				titles[other.name] = other.title
			}
			see := func(t read.Text) (LinkView, error) {
				name, _, _ := strings.Cut(t.S, "#") // links of one name lead to one place
				title, ok := titles[name]
				if !ok {
					return LinkView{}, fmt.Errorf("%s: the self-ratings lead to the page %q, and there is none", t.At, name)
				}
				return LinkView{Title: title, URL: v.page(name)}, nil
			}
			out := ratingsView{PageView: p, People: m.people()}
			for _, r := range m.lib.Rated {
				link, err := see(r.See)
				if err != nil {
					return nil, err
				}
				out.Rated = append(out.Rated, ratedView{r.Name.S, r.What.S, link})
			}
			for _, y := range m.lib.Yardsticks {
				view, err := v.yardstick(y, see)
				if err != nil {
					return nil, err
				}
				out.Yardsticks = append(out.Yardsticks, view)
			}
			return out, nil
		},
	}
}

func (v viewer) yardstick(y *library.Yardstick, see func(read.Text) (LinkView, error)) (yardstickView, error) {
	out := yardstickView{ID: y.ID.S, Title: y.Title.S, About: y.About.S, Alone: len(y.Rates) == 1, Sources: v.sourceLinks(y.Sources)}
	names := map[string]string{}
	for _, r := range v.lib.Rated {
		names[r.ID.S] = r.Name.S
	}
	for _, p := range y.Parts {
		part := yardstickPartView{ID: y.ID.S + "_" + p.ID.S, Title: p.Title.S}
		for _, of := range y.Rates {
			part.Columns = append(part.Columns, names[of.S])
		}
		for _, i := range p.Items {
			item := itemView{
				ID: y.ID.S + "_" + i.ID.S, Number: strings.ToUpper(i.ID.S), Asks: i.Asks.S, How: i.How.S, Open: i.Open.S,
				Lacks: together(i.Lacks, names), Apart: together(i.Apart, names),
			}
			for _, of := range y.Rates {
				item.Ratings = append(item.Ratings, map[string]string{"met": "yes", "lacks": "no", "apart": "–"}[i.Rating(of.S)])
			}
			for _, t := range i.See {
				link, err := see(t)
				if err != nil {
					return out, err
				}
				item.See = append(item.See, link)
			}
			part.Reasons = part.Reasons || len(item.Lacks)+len(item.Apart) > 0
			part.Items = append(part.Items, item)
		}
		part.Scores = scores(y, names, p)
		out.Parts = append(out.Parts, part)
	}
	if y.Joined {
		out.Scores = scores(y, names, y.Parts...)
	}
	return out, nil
}

// scores counts the items of some parts, one score for each thing rated.
func scores(y *library.Yardstick, names map[string]string, parts ...*library.YardstickPart) []scoreView {
	var out []scoreView
	for _, of := range y.Rates {
		s := scoreView{Name: names[of.S]}
		for _, p := range parts {
			for _, i := range p.Items {
				switch i.Rating(of.S) {
				case "met":
					s.Met++
					s.Apply++
				case "lacks":
					s.Apply++
				}
			}
		}
		out = append(out, s)
	}
	return out
}

// together joins the names of those that share a reason, in the order of the file.
func together(all []library.Reason, names map[string]string) []reasonView {
	var out []reasonView
next:
	for _, r := range all {
		for i := range out {
			if out[i].Why == r.Why.S {
				out[i].Of += ", " + names[r.Of.S]
				continue next
			}
		}
		out = append(out, reasonView{names[r.Of.S], r.Why.S})
	}
	return out
}
