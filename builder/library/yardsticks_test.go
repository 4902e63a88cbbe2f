package library_test

import (
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"keelpath/builder/internal/librarytest"
	"keelpath/builder/library"
	"keelpath/builder/read"
)

// The published measures are rated whole: 6 points that make a decision aid, the
// 6 of 10 for a certificate that are not about tests, and the 15 of quality that
// a site can meet by itself (IPDAS minimum standards, version 4.0: Joseph-Williams
// and others 2014; the numbering from L9 on is from memory); points 1 to 26 of
// PEMAT-P without 13 and 14, which are about sound and film (AHRQ, 2014); and 20
// points of the CDC's Clear Communication Index.
func TestYardsticksAreWhole(t *testing.T) {
	numbers := func(from, to int, leave ...int) []string {
		var out []string
		for i := from; i <= to; i++ {
			if !slices.Contains(leave, i) {
				out = append(out, strconv.Itoa(i))
			}
		}
		return out
	}
	letter := func(l string, ns []string) []string {
		var out []string
		for _, n := range ns {
			out = append(out, l+n)
		}
		return out
	}
	l := librarytest.Load(t)
	for id, parts := range map[string]map[string][]string{
		"decision-aids": {
			"must": letter("q", numbers(1, 6)), "certify": letter("c", numbers(1, 6)),
			"quality": letter("l", append(numbers(1, 11), numbers(18, 21)...)),
		},
		"patient-materials":   {"understand": numbers(1, 19, 13, 14), "act": numbers(20, 26)},
		"clear-communication": {"core": numbers(1, 11), "advice": numbers(12, 14), "numbers": numbers(15, 17), "risk": numbers(18, 20)},
	} {
		y := l.Yardstick(id)
		if y == nil {
			t.Errorf("there is no yardstick %q", id)
			continue
		}
		if len(y.Parts) != len(parts) || len(y.Sources) == 0 {
			t.Errorf("%s: %d parts and %d sources", id, len(y.Parts), len(y.Sources))
		}
		for _, p := range y.Parts {
			var got []string
			for _, i := range p.Items {
				got = append(got, i.ID.S)
				if l.First.Made() {
					ratedWithReason(t, y, l.First.Of(y.ID.S, i.ID.S))
				}
				if l.Second.Made() {
					ratedWithReason(t, y, l.Second.Of(y.ID.S, i.ID.S))
				}
			}
			if !slices.Equal(got, parts[p.ID.S]) {
				t.Errorf("%s, %s: the items are %v, want %v", id, p.ID.S, got, parts[p.ID.S])
			}
		}
	}
}

// ratedWithReason holds what was found of an item to one rating for each kind of page, a reason
// behind each that is not met, and, where the whole site is rated, a page where one can see it.
func ratedWithReason(t *testing.T, y *library.Yardstick, i *library.ItemReading) {
	t.Helper()
	if i == nil {
		t.Errorf("%s: an item was not read", y.ID.S)
		return
	}
	for _, of := range y.Rates {
		rating := i.Rating(of.S)
		if rating == library.Unread {
			t.Errorf("%s %s: %q is not rated", y.ID.S, i.Item.S, of.S)
		}
		if of.S == "site" && rating == library.Met && (i.How.S == "" || len(i.See) == 0) {
			t.Errorf("%s %s is met, and nobody says how, or where one can see it", y.ID.S, i.Item.S)
		}
	}
	for _, r := range slices.Concat(i.Partly, i.Not, i.Apart) {
		if len(strings.Fields(r.Why.S)) < 3 {
			t.Errorf("%s %s: the reason for %q is %q", y.ID.S, i.Item.S, r.Of.S, r.Why.S)
		}
	}
}

// The first reading was made. The second file lists every item with what it asks and says in so many
// words that nobody has read it yet, or it is a whole reading of its own; it never shows the first.
func TestTwoReadings(t *testing.T) {
	l := librarytest.Load(t)
	if !l.First.Made() {
		t.Error("the first reading was not made")
	}
	if !l.Second.Made() && l.Second.Read.S != library.NotYet {
		t.Errorf("the second reading says %q", l.Second.Read.S)
	}
	sheet, err := os.ReadFile(filepath.Join("..", "..", "content", "second-reading.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	for _, y := range l.Yardsticks {
		for _, p := range y.Parts {
			for _, i := range p.Items {
				if l.Second.Of(y.ID.S, i.ID.S) == nil || !strings.Contains(string(sheet), i.Asks.S) {
					t.Errorf("the second reading's file does not ask for %s %s: %s", y.ID.S, i.ID.S, i.Asks.S)
				}
			}
		}
	}
}

// A point that no study lets a site meet is rated so.
func TestSameTimeSameNumberIsNotMet(t *testing.T) {
	l := librarytest.Load(t)
	for _, id := range []string{"l6", "l7"} {
		i := l.First.Of("decision-aids", id)
		if i.Rating("site") != library.Not || !strings.HasPrefix(i.Not[0].Why.S, "No study gives it.") {
			t.Errorf("%s is rated %q: %v", id, i.Rating("site"), i.Not)
		}
	}
	for _, p := range l.Yardstick("decision-aids").Parts {
		for _, i := range p.Items {
			if (i.ID.S == "l6" || i.ID.S == "l7") != strings.HasPrefix(i.Asks.S, "Same time, same number for all options") {
				t.Errorf("%s asks %q", i.ID.S, i.Asks.S)
			}
		}
	}
}

// What a kind of page meets, each of its pages meets. Of a kind that falls short, the pages named do
// and the others do not; where none is named, nobody has looked. A page named with another kind is not meant.
func TestRatingOfOnePage(t *testing.T) {
	named := func(ids ...string) (out []library.Reason) {
		for _, id := range ids {
			out = append(out, library.Reason{Of: read.Text{S: id}})
		}
		return out
	}
	pages := []string{"a", "b", "c"}
	for _, c := range []struct {
		item *library.ItemReading
		want string
	}{
		{nil, " / / "},
		{&library.ItemReading{Met: []read.Text{{S: "pages"}}}, "met/met/met"},
		{&library.ItemReading{Apart: named("pages")}, "apart/apart/apart"},
		{&library.ItemReading{Not: named("pages")}, " / / "},
		{&library.ItemReading{Not: named("pages"), On: library.PageReading{Not: named("b")}}, "met/not/met"},
		{&library.ItemReading{Partly: named("pages"), On: library.PageReading{Partly: named("a"), Apart: named("c")}}, "partly/met/apart"},
		{&library.ItemReading{Not: named("pages"), On: library.PageReading{Not: named("elsewhere")}}, " / / "},
		{&library.ItemReading{Not: named("pages"), On: library.PageReading{Not: named("pages/b", "planner/c")}}, "met/not/met"},
		{&library.ItemReading{Not: named("pages"), On: library.PageReading{Not: named("planner/c")}}, " / / "},
	} {
		var got []string
		for _, p := range pages {
			r := string(c.item.OnKind("pages", func(page string) bool { return slices.Contains(pages, page) })(p))
			if r == "" {
				r = " "
			}
			got = append(got, r)
		}
		if s := strings.Join(got, "/"); s != c.want {
			t.Errorf("%+v gives %q, want %q", c.item, s, c.want)
		}
	}
}
