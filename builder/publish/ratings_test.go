package publish

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/library"
	"keelpath/builder/read"
)

// The page says that the ratings are the makers' own, in two readings with the second blind, shows every
// point with its ratings, and every "no" and every dash has its reason on the page.
func TestRatingsPage(t *testing.T) {
	l := load(t)
	n := pageNamed(t, builtin(t), ratingsName)
	text := textOf(n)
	for _, want := range []string{
		"These are self-ratings.", "Nobody from outside has rated it.", "No one has studied what happens to people who use it",
		"There are two readings, both by the makers. The second is blind", "No clinician and no outside body took part.",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if unread := strings.Contains(text, "Second reading: not read yet."); unread == l.Second.Made() {
		t.Errorf("the second reading was made: %v, and the page says that it was not: %v", l.Second.Made(), unread)
	}
	items := 0
	for _, y := range l.Yardsticks {
		for _, p := range y.Parts {
			items += len(p.Items)
			for _, i := range p.Items {
				if !strings.Contains(text, strings.ToUpper(i.ID.S)+". "+i.Asks.S) {
					t.Errorf("%s %s is not on the page", y.ID.S, i.ID.S)
				}
				r := l.First.Of(y.ID.S, i.ID.S)
				for _, r := range slices.Concat(r.Partly, r.Not, r.Apart) {
					if at := textOf(byID(t, n, y.ID.S+"_"+i.ID.S)); !strings.Contains(at, r.Why.S) {
						t.Errorf("%s %s: the reason reads %q, want %q in it", y.ID.S, i.ID.S, at, r.Why.S)
					}
				}
			}
		}
	}
	if want := 6 + 6 + 15 + 24 + 20; items != want {
		t.Errorf("%d points, want %d", items, want)
	}
	if tables := withClass(n, "points"); len(tables) != 2+4 {
		t.Errorf("%d tables of points", len(tables))
	}
	rows, cells := 0, 0
	for _, table := range withClass(n, "points") {
		rows += len(elements(table, "tr"))
		cells += len(elements(table, "td"))
	}
	// 24 and 20 points in two and four tables, each with a head, two with a line of scores for each reading.
	second := 1
	if l.Second.Made() {
		second = 5
	}
	if wantRows, wantCells := 24+20+6+2*2, 5*(24+20+2)+2*second; rows != wantRows || cells != wantCells {
		t.Errorf("%d rows and %d cells, want %d and %d", rows, cells, wantRows, wantCells)
	}
}

// Each explainer and each topic stands in one table, the lowest first.
func TestRatingsPageByPage(t *testing.T) {
	l := load(t)
	table := withClass(pageNamed(t, builtin(t), ratingsName), "each")[0]
	want := len(l.Explainers)
	for _, tr := range l.Trees {
		if tr.Audience.S == audiencePatient {
			want++
		}
	}
	last := 0.0
	rows := elements(elements(table, "tbody")[0], "tr")
	for _, row := range rows {
		cells := elements(row, "td")
		var met, apply int
		if _, err := fmt.Sscanf(textOf(cells[0]), "%d of %d", &met, &apply); err != nil {
			t.Fatalf("%s: %v", textOf(row), err)
		}
		low := float64(met) / float64(apply)
		if l.Second.Made() {
			var met, apply int
			if _, err := fmt.Sscanf(textOf(cells[1]), "%d of %d", &met, &apply); err != nil {
				t.Fatalf("%s: %v", textOf(row), err)
			}
			low = min(low, float64(met)/float64(apply))
		} else if textOf(cells[1]) != "not read yet" {
			t.Errorf("%s: nobody has read it a second time", textOf(row))
		}
		if low < last {
			t.Errorf("%s stands below a page with %.2f", textOf(row), last)
		}
		last = low
	}
	if len(rows) != want {
		t.Errorf("%d pages, want %d", len(rows), want)
	}
}

// Where an explainer and a topic have one id, each shows its own reasons.
func TestReasonsOfOnePage(t *testing.T) {
	all := []library.Reason{{Of: read.Text{S: "planner/work"}}, {Of: read.Text{S: "pages/work"}}, {Of: read.Text{S: "falls"}}}
	for _, c := range []struct{ page, kind, want string }{
		{"work", "planner", "planner/work"}, {"work", "pages", "pages/work"}, {"falls", "pages", "falls"}, {"stairs", "pages", ""},
	} {
		var got []string
		for _, r := range only(all, c.page, c.kind) {
			got = append(got, r.Of.S)
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("%s of %s shows the reasons of %q, want %q", c.page, c.kind, s, c.want)
		}
	}
}

func TestPercent(t *testing.T) {
	for _, c := range []struct{ met, of, want int }{{0, 0, 0}, {0, 3, 0}, {1, 3, 33}, {2, 3, 67}, {1, 8, 13}, {5, 5, 100}} {
		if got := (scoreView{Met: c.met, Apply: c.of}).Percent(); got != c.want {
			t.Errorf("%d of %d is %d %%, want %d", c.met, c.of, got, c.want)
		}
	}
}

// twoReadings is a yardstick of four points over two desks, one of them made of the patients' explainers.
var twoReadings = map[string]string{
	"content/self-ratings.yaml": `rated:
  desk: { name: Desk, what: a page, see: index.html }
  shelf: { name: Shelf, what: many pages, see: index.html, of: pages }
yardsticks:
  own:
    title: Our own
    about: For a test.
    sources: []
    rates: [desk, shelf]
    parts:
      one:
        title: One
        items:
          a: { asks: A thing }
          b: { asks: B thing }
          c: { asks: C thing }
          d: { asks: D thing }
`,
	"content/first-reading.yaml": `read: 2026-11-25
readings:
  own:
    a: { met: [desk, shelf] }
    b: { met: [shelf], not: { desk: It is too small. } }
    c: { not: { desk: It is too small., shelf: It is too small. }, on: { not: { falls: It has no drawers. } } }
    d: { met: [desk], apart: { shelf: It has no legs. } }
`,
}

// The scores count what is met of what applies; what is met in part is not met. Until the second reading
// has been made, there is none of it.
func TestScores(t *testing.T) {
	l := load(t, twoReadings, map[string]string{"content/second-reading.yaml": "read: not yet\nreadings: {}\n"})
	y := l.Yardstick("own")
	v := viewOn(t, l)
	if got := v.scores(y, y.Parts...); got[0].Second != nil || got[0].First != (scoreView{Name: "Desk", Met: 2, Apply: 4}) || got[1].First != (scoreView{Name: "Shelf", Met: 2, Apply: 3}) {
		t.Errorf("scores %+v", got)
	}
	n := pageNamed(t, renderAll(t, l), ratingsName)
	text := textOf(n)
	for _, want := range []string{"No (Desk, Shelf). It is too small.", "made on November 25, 2026", "No (C. C thing). It has no drawers."} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
}

// Both readings stand side by side, each with how it is met and its reasons, and what is lower in either comes first.
func TestBothReadings(t *testing.T) {
	second := `read: 2026-11-30
readings:
  own:
    a: { met: [shelf], partly: { desk: One leg is short. } }
    b: { met: [desk, shelf] }
    c: { not: { desk: It wobbles. }, met: [shelf] }
    d: { not: { desk: It creaks. }, apart: { shelf: It has no legs at all. } }
`
	for _, y := range load(t).Yardsticks { // all the others have to be read as well
		second += "  " + y.ID.S + ":\n"
		for _, i := range itemsOf(y) {
			second += fmt.Sprintf("    %q: { met: [%s], how: Seen at %s. }\n", i.ID.S, strings.Join(read.Strings(y.Rates), ", "), i.ID.S)
		}
	}
	l := load(t, twoReadings, map[string]string{"content/second-reading.yaml": second})
	v := viewOn(t, l)
	y := l.Yardstick("own")
	got := v.scores(y, y.Parts...)
	if desk := got[0]; desk.Second == nil || *desk.Second != (scoreView{Name: "Desk", Met: 1, Partly: 1, Apply: 4}) || desk.Second.No() != 2 || desk.lowest() != 0.25 {
		t.Errorf("the desk has %+v", desk)
	}
	n := pageNamed(t, renderAll(t, l), ratingsName)
	text := textOf(n)
	for _, want := range []string{
		"First reading: No (Desk, Shelf). It is too small.", "Second reading: No (Desk). It wobbles.", "Second reading: In part (Desk). One leg is short.",
		"First reading: made on November 25, 2026", "Second reading: made on November 30, 2026", "yes / in part", "no / yes",
		"First reading: " + l.First.Of("decision-aids", "q1").How.S, "Second reading: Seen at q1.",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if strings.Contains(text, "Second reading: not read yet") {
		t.Error("the page says that the second reading was not made")
	}
	var order []string
	for _, h := range elements(byID(t, n, "own_one").Parent, "th") {
		if s := textOf(h); strings.HasSuffix(s, " thing") {
			order = append(order, s[:1])
		}
	}
	if got := strings.Join(order, ""); got != "CDAB" {
		t.Errorf("the points stand in the order %s", got)
	}
}

// A page that is not there stops the build and says where it was named.
func TestRatingsNameAPage(t *testing.T) {
	l := load(t, map[string]string{"content/self-ratings.yaml": "rated:\n  desk: { name: Desk, what: a page, see: learn/desk.html }\n"})
	err := Render(t.Context(), l, &finding.List{}, func(string, []byte) error { return nil }, nil)
	if err == nil || !strings.Contains(err.Error(), `content/self-ratings.yaml:2:42: the self-ratings lead to the page "learn/desk.html", and there is none`) {
		t.Errorf("got %v", err)
	}
}
