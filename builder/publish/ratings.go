package publish

import (
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/read"
	"keelpath/builder/say"
)

// ratingsView is how the makers rate the site by published measures, in two readings.
type ratingsView struct {
	PageView
	Rated         []ratedView
	Yardsticks    []yardstickView
	People        []TrainingView
	First, Second readingView
	Pages         []pageScoreView // the lowest first
	Open          []openView      // points that are short of a kind and not read page by page
}

// readingView says when a reading was made; Made is false where it is not yet.
type readingView struct {
	Made bool
	On   DateView
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
	Scores           []twoScores // of all parts together, the lowest first; empty where each part has its own
	Sources          []LinkView
}

// yardstickPartView has its items with the lowest first.
type yardstickPartView struct {
	ID, Title string
	Columns   []string
	Items     []itemView
	Scores    []twoScores // a column each
	Reasons   bool        // some item gives a reason
}

// itemView is one item. Ratings has a rating for each column.
type itemView struct {
	ID, Number, Asks string
	Ratings          []twoRatings
	Hows             []howView
	Open             string
	See              []LinkView
	Reasons          []reasonView
}

// howView is how one reading found an item to be met.
type howView struct {
	Second bool
	How    string
}

// twoRatings are what the two readings found: "yes", "in part", "no", "–" or, where it was not read, "".
type twoRatings struct {
	First, Second string
	Plain         bool // no reading has anything to explain
}

// reasonView is a reason of one reading with those that share it.
type reasonView struct {
	Second       bool
	Says         string // "No", "In part" or "Does not apply"
	Of, Why      string
	Number, Asks string // of the item, where the reason is of one page
}

// scoreView counts what is met, and met in part, of what applies. Open counts what nobody has looked at.
type scoreView struct {
	Name                     string
	Met, Partly, Apply, Open int
}

// twoScores are the scores of the two readings; Second is nil until it has been made.
type twoScores struct {
	First  scoreView
	Second *scoreView
}

// pageScoreView is one page with its scores by all points that rate its kind.
type pageScoreView struct {
	LinkView
	Kind string
	twoScores
	Reasons []reasonView
}

// openView names the points of a measure that are short of a kind of page and not read page by page.
type openView struct{ Reading, Kind, Yardstick, Points string }

var ratingWords = map[library.Rating]say.Name{
	library.Met: "ratings.yes", library.Partly: "ratings.partly", library.Not: "ratings.no", library.Unread: "ratings.not-read",
}

// rating says what a reading found of a point; a dash where it does not apply.
func (v viewer) rating(r library.Rating) string {
	if r == library.Apart {
		return "–"
	}
	return v.say().Say(ratingWords[r])
}

// scoreWords says how much is met, and met in part, of what applies.
func scoreWords(w *say.Words, s scoreView) string {
	if s.Partly > 0 {
		return w.Say("ratings.score-partly", "met", s.Met, "apply", s.Apply, "partly", s.Partly, "percent", s.Percent())
	}
	return w.Say("ratings.score", "met", s.Met, "apply", s.Apply, "percent", s.Percent())
}

// pageScoreWords counts what was found of a page's points.
func pageScoreWords(w *say.Words, s scoreView) string {
	out := w.Say("ratings.of", "met", s.Met, "apply", s.Apply)
	for _, c := range []struct {
		n    int
		name say.Name
	}{{s.Partly, "ratings.count-partly"}, {s.No(), "ratings.count-no"}, {s.Open, "ratings.count-unread"}} {
		if c.n > 0 {
			out = w.Say("ratings.next", "before", out, "next", w.Say(c.name, "number", c.n))
		}
	}
	return out
}

// Percent is the share that is met, to the nearest whole number. What is met in part is not met.
func (s scoreView) Percent() int {
	if s.Apply == 0 {
		return 0
	}
	return (200*s.Met + s.Apply) / (2 * s.Apply)
}

// No is what does not meet a point, of what was looked at.
func (s scoreView) No() int { return s.Apply - s.Met - s.Partly - s.Open }

func (s *scoreView) count(r library.Rating) {
	switch r {
	case library.Apart:
		return
	case library.Met:
		s.Met++
	case library.Partly:
		s.Partly++
	case library.Unread:
		s.Open++
	}
	s.Apply++
}

// lowest is the lower share of the readings that were made.
func (t twoScores) lowest() float64 {
	share := func(s scoreView) float64 {
		if s.Apply == 0 {
			return 1
		}
		return float64(s.Met) / float64(s.Apply)
	}
	if t.Second != nil {
		return min(share(t.First), share(*t.Second))
	}
	return share(t.First)
}

// lowestFirst sorts by the lower of the two readings and leaves equals as they are.
func lowestFirst[T any](all []T, of func(T) twoScores) {
	slices.SortStableFunc(all, func(a, b T) int {
		switch x, y := of(a).lowest(), of(b).lowest(); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
}

func ratingsModel(v viewer, _ plan.Page) (any, error) {
	see := func(t read.Text) (LinkView, error) {
		name, _, _ := strings.Cut(t.S, "#") // links of one name lead to one place
		page, ok := v.shelf.Named(name)
		if !ok {
			return LinkView{}, fmt.Errorf("%s: the self-ratings lead to the page %q, and there is none", t.At, name)
		}
		return LinkView{Title: page.Title, URL: v.page(page)}, nil
	}
	l := v.shelf.Ratings()
	out := ratingsView{PageView: v.view, People: v.people(), First: readingOf(v.say(), l.First), Second: readingOf(v.say(), l.Second)}
	for _, r := range l.Rated {
		link, err := see(r.See)
		if err != nil {
			return nil, err
		}
		out.Rated = append(out.Rated, ratedView{r.Name.S, r.What.S, link})
	}
	for _, y := range l.Yardsticks {
		view, err := v.yardstick(y, see)
		if err != nil {
			return nil, err
		}
		out.Yardsticks = append(out.Yardsticks, view)
	}
	out.Pages, out.Open = v.pageScores()
	return out, nil
}

func readingOf(w *say.Words, r *library.Reading) readingView {
	return readingView{r.Made(), dateView(w, r.Read.S)}
}

// readings gives those that were made, the first before the second.
func (v viewer) readings() []*library.Reading {
	all := v.shelf.Ratings()
	out := []*library.Reading{all.First}
	if all.Second.Made() {
		out = append(out, all.Second)
	}
	return out
}

func (v viewer) ratedNames() map[string]string {
	names := map[string]string{}
	for _, r := range v.shelf.Ratings().Rated {
		names[r.ID.S] = r.Name.S
	}
	return names
}

func (v viewer) yardstick(y *library.Yardstick, see func(read.Text) (LinkView, error)) (yardstickView, error) {
	out := yardstickView{ID: y.ID.S, Title: y.Title.S, About: y.About.S, Alone: len(y.Rates) == 1, Sources: v.sourceLinks(y.Sources)}
	names := v.ratedNames()
	for _, p := range y.Parts {
		part := yardstickPartView{ID: y.ID.S + "_" + p.ID.S, Title: p.Title.S, Scores: v.scores(y, p)}
		for _, of := range y.Rates {
			part.Columns = append(part.Columns, names[of.S])
		}
		of := map[string]twoScores{}
		for _, i := range p.Items {
			item, err := v.item(y, i, names, see)
			if err != nil {
				return out, err
			}
			of[item.ID] = v.itemScore(y, i)
			part.Reasons = part.Reasons || len(item.Reasons) > 0
			part.Items = append(part.Items, item)
		}
		lowestFirst(part.Items, func(i itemView) twoScores { return of[i.ID] })
		out.Parts = append(out.Parts, part)
	}
	if y.Joined {
		out.Scores = v.scores(y, y.Parts...)
		lowestFirst(out.Scores, func(s twoScores) twoScores { return s })
	}
	return out, nil
}

func (v viewer) item(y *library.Yardstick, i *library.YardstickItem, names map[string]string, see func(read.Text) (LinkView, error)) (itemView, error) {
	out := itemView{ID: y.ID.S + "_" + i.ID.S, Number: v.say().Digits(strings.ToUpper(i.ID.S)), Asks: i.Asks.S}
	for _, of := range y.Rates {
		two := twoRatings{Plain: true}
		for n, r := range v.readings() {
			found := r.Of(y.ID.S, i.ID.S).Rating(of.S)
			*[]*string{&two.First, &two.Second}[n] = v.rating(found)
			two.Plain = two.Plain && found == library.Met
		}
		out.Ratings = append(out.Ratings, two)
	}
	for n, r := range v.readings() {
		got := r.Of(y.ID.S, i.ID.S)
		if got == nil {
			continue
		}
		if got.How.Given() {
			out.Hows = append(out.Hows, howView{n == 1, got.How.S})
		}
		if out.Open == "" {
			out.Open = got.Open.S
		}
		out.Reasons = append(out.Reasons, together(v.say(), n == 1, got.Partly, got.Not, got.Apart, names)...)
		for _, t := range got.See {
			link, err := see(t)
			if err != nil {
				return out, err
			}
			if !slices.Contains(out.See, link) {
				out.See = append(out.See, link)
			}
		}
	}
	return out, nil
}

// scored puts the scores of the readings together, each counted by count.
func (v viewer) scored(name string, count func(*library.Reading, *scoreView)) twoScores {
	var out twoScores
	for n, r := range v.readings() {
		s := scoreView{Name: name}
		count(r, &s)
		if n == 0 {
			out.First = s
		} else {
			out.Second = &s
		}
	}
	return out
}

// scores counts the items of some parts, one score for each thing rated.
func (v viewer) scores(y *library.Yardstick, parts ...*library.YardstickPart) []twoScores {
	names := v.ratedNames()
	var out []twoScores
	for _, of := range y.Rates {
		out = append(out, v.scored(names[of.S], func(r *library.Reading, s *scoreView) {
			for _, p := range parts {
				for _, i := range p.Items {
					s.count(r.Of(y.ID.S, i.ID.S).Rating(of.S))
				}
			}
		}))
	}
	return out
}

// itemScore counts what an item was found to be, over all that its yardstick rates.
func (v viewer) itemScore(y *library.Yardstick, i *library.YardstickItem) twoScores {
	return v.scored("", func(r *library.Reading, s *scoreView) {
		for _, of := range y.Rates {
			s.count(r.Of(y.ID.S, i.ID.S).Rating(of.S))
		}
	})
}

// point is what one reading found of one item, for the pages of a kind.
type point struct {
	item      *library.YardstickItem
	yardstick *library.Yardstick
	found     *library.ItemReading // nil where it was not read
	rating    func(page string) library.Rating
}

// points are those of a reading that rate a kind of page.
func (v viewer) points(kind *library.Rated, r *library.Reading, pages []string) []point {
	is := map[string]bool{}
	for _, id := range pages {
		is[id] = true
	}
	var out []point
	for _, y := range v.shelf.Ratings().Yardsticks {
		if !slices.Contains(read.Strings(y.Rates), kind.ID.S) {
			continue
		}
		for _, i := range itemsOf(y) {
			found := r.Of(y.ID.S, i.ID.S)
			out = append(out, point{i, y, found, found.OnKind(kind.ID.S, func(page string) bool { return is[page] })})
		}
	}
	return out
}

// pageScores rates each explainer and each topic by the points of all yardsticks that rate its kind.
func (v viewer) pageScores() ([]pageScoreView, []openView) {
	var out []pageScoreView
	var open []openView
	for _, kind := range v.shelf.Ratings().Rated {
		pages := v.shelf.Ratings().Pages[kind.ID.S]
		if len(pages) == 0 {
			continue
		}
		var points [][]point // a reading each
		for _, r := range v.readings() {
			points = append(points, v.points(kind, r, pages))
		}
		for _, id := range pages {
			out = append(out, v.pageScore(kind, id, points))
		}
		for n, all := range points {
			for _, y := range v.shelf.Ratings().Yardsticks {
				var unread []string
				for _, p := range all {
					if p.yardstick == y && p.rating(pages[0]) == library.Unread {
						unread = append(unread, v.say().Digits(strings.ToUpper(p.item.ID.S)))
					}
				}
				if len(unread) > 0 {
					open = append(open, openView{v.say().Say([]say.Name{"ratings.first", "ratings.second"}[n]), kind.Name.S, y.Title.S, v.say().And(unread...)})
				}
			}
		}
	}
	lowestFirst(out, func(p pageScoreView) twoScores { return p.twoScores })
	return out, open
}

// pageScore counts a page's points of each reading, and gives the reasons that are its own.
func (v viewer) pageScore(kind *library.Rated, id string, readings [][]point) pageScoreView {
	out := pageScoreView{Kind: kind.Name.S}
	if t := v.shelf.Tree(id); t != nil && kind.Of.S == "topics" {
		out.LinkView = LinkView{ID: id, Title: t.Title.S, URL: v.paper(id)}
	} else if e := v.shelf.Entry(id); e != nil {
		out.LinkView = LinkView{ID: id, Title: e.Title, URL: v.explainer(id)}
	}
	for n, points := range readings {
		s := scoreView{Name: out.Title}
		for _, p := range points {
			s.count(p.rating(id))
			if p.found == nil || p.found.On.None() {
				continue
			}
			for _, why := range together(v.say(), n == 1, only(p.found.On.Partly, id, kind.ID.S), only(p.found.On.Not, id, kind.ID.S), only(p.found.On.Apart, id, kind.ID.S), nil) {
				why.Number, why.Asks = v.say().Digits(strings.ToUpper(p.item.ID.S)), p.item.Asks.S
				out.Reasons = append(out.Reasons, why)
			}
		}
		if n == 0 {
			out.First = s
		} else {
			out.Second = &s
		}
	}
	return out
}

func only(all []library.Reason, page, kind string) []library.Reason {
	var out []library.Reason
	for _, r := range all {
		if r.Names(page, kind) {
			out = append(out, r)
		}
	}
	return out
}

func itemsOf(y *library.Yardstick) []*library.YardstickItem {
	var out []*library.YardstickItem
	for _, p := range y.Parts {
		out = append(out, p.Items...)
	}
	return out
}

// together joins the names of those that share a reason, in the order of the file.
func together(w *say.Words, second bool, partly, not, apart []library.Reason, names map[string]string) []reasonView {
	if len(partly)+len(not)+len(apart) == 0 {
		return nil // so it is for most pages
	}
	var out []reasonView
	for _, group := range []struct {
		says string
		all  []library.Reason
	}{{w.Say("ratings.says-no"), not}, {w.Say("ratings.says-partly"), partly}, {w.Say("ratings.says-apart"), apart}} {
	next:
		for _, r := range group.all {
			for i := range out {
				if out[i].Why == r.Why.S && out[i].Says == group.says {
					out[i].Of += ", " + names[r.Of.S]
					continue next
				}
			}
			out = append(out, reasonView{Second: second, Says: group.says, Of: names[r.Of.S], Why: r.Why.S})
		}
	}
	return out
}
