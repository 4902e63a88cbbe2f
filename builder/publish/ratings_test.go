package publish

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// The page says that the ratings are the editors' own, shows every point with
// its ratings, and every "no" and every dash has its reason on the page.
func TestRatingsPage(t *testing.T) {
	l := load(t)
	n := pageNamed(t, builtin(t), ratingsName)
	text := textOf(n)
	for _, want := range []string{"These are self-ratings.", "Nobody from outside has rated it.", "No one has studied what happens to people who use it"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	items := 0
	for _, y := range l.Yardsticks {
		for _, p := range y.Parts {
			items += len(p.Items)
			for _, i := range p.Items {
				if !strings.Contains(text, strings.ToUpper(i.ID.S)+". "+i.Asks.S) {
					t.Errorf("%s %s is not on the page", y.ID.S, i.ID.S)
				}
				for _, r := range slices.Concat(i.Lacks, i.Apart) {
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
	rows, cells := 0, 0
	for _, table := range elements(n, "table") {
		rows += len(elements(table, "tr"))
		cells += len(elements(table, "td"))
	}
	// 24 and 20 points in two and four tables, each with a head, two with a line of scores.
	if wantRows, wantCells := 24+20+6+2, 5*(24+20+2); rows != wantRows || cells != wantCells {
		t.Errorf("%d rows and %d cells, want %d and %d", rows, cells, wantRows, wantCells)
	}
}

func TestPercent(t *testing.T) {
	for _, c := range []struct{ met, of, want int }{{0, 0, 0}, {0, 3, 0}, {1, 3, 33}, {2, 3, 67}, {1, 8, 13}, {5, 5, 100}} {
		if got := (scoreView{Met: c.met, Apply: c.of}).Percent(); got != c.want {
			t.Errorf("%d of %d is %d %%, want %d", c.met, c.of, got, c.want)
		}
	}
}

// The scores count what is met of what applies.
func TestScores(t *testing.T) {
	l := load(t, map[string]string{"content/self-ratings.yaml": `rated:
  desk: { name: Desk, what: a page, see: index.html }
  shelf: { name: Shelf, what: a page, see: index.html }
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
          a: { asks: A thing, met: [desk, shelf] }
          b: { asks: B thing, met: [shelf], lacks: { desk: It is too small. } }
          c: { asks: C thing, lacks: { desk: It is too small., shelf: It is too small. } }
          d: { asks: D thing, met: [desk], apart: { shelf: It has no legs. } }
`})
	y := l.Yardstick("own")
	got := fmt.Sprint(scores(y, map[string]string{"desk": "Desk", "shelf": "Shelf"}, y.Parts...))
	if want := "[{Desk 2 4} {Shelf 2 3}]"; got != want {
		t.Errorf("scores %s, want %s", got, want)
	}
	out := renderAll(t, l)
	if text := textOf(pageNamed(t, out, ratingsName)); !strings.Contains(text, "No (Desk, Shelf). It is too small.") {
		t.Error("two pages that share a reason are not named together")
	}
}

// A page that is not there stops the build and says where it was named.
func TestRatingsNameAPage(t *testing.T) {
	l := load(t, map[string]string{"content/self-ratings.yaml": "rated:\n  desk: { name: Desk, what: a page, see: learn/desk.html }\n"})
	err := Render(t.Context(), l, func(string, []byte) error { return nil }, nil)
	if err == nil || !strings.Contains(err.Error(), `content/self-ratings.yaml:2:42: the self-ratings lead to the page "learn/desk.html", and there is none`) {
		t.Errorf("got %v", err)
	}
}
