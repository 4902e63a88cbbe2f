package publish

import (
	"encoding/json"
	"fmt"
	"maps"
	"net/url"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"keelpath/builder/clienttest"
	"keelpath/builder/conflict"
	"keelpath/builder/library"
	"keelpath/builder/say"
)

// What the page's script looks up is what Go works out, for every set of wishes
// that a reader can tick.
func TestClientLooksUpTheSame(t *testing.T) {
	m := conflict.In(load(t))
	block := byID(t, pageNamed(t, builtin(t), pullsName), "pulls-data")
	var data any
	if err := json.Unmarshal([]byte(block.FirstChild.Data), &data); err != nil {
		t.Fatal(err)
	}
	script := clienttest.Load(t, "wishes/pulls.ts")
	value, n := script.Value(data), 0
	m.Markings(func(marked conflict.Set) {
		n++
		ticked, want := []string{}, []string{}
		for _, w := range marked.List() {
			ticked = append(ticked, m.Wishes[w].ID.S)
		}
		for _, c := range conflict.Within(m.All, marked) {
			want = append(want, m.ID(c))
		}
		out, err := script.Call("look", value, script.Value(ticked))
		if err != nil {
			t.Fatal(err)
		}
		var got struct {
			Shown []string
			Say   string
		}
		script.Into(out, &got)
		if !slices.Equal(got.Shown, want) || got.Say != m.Said(marked) {
			t.Fatalf("for %q the script gives %+v, and Go %q %q", ticked, got, want, m.Said(marked))
		}
	})
	if n != 1586 {
		t.Errorf("%d sets were tried, want 1586", n)
	}
}

// Every conflict stands in the page with its words, its questions, and the rows
// of every foot in the table's order.
func TestPullsPage(t *testing.T) {
	l := load(t)
	m := conflict.In(l)
	n := pageNamed(t, builtin(t), pullsName)
	for _, c := range m.All {
		part := byID(t, n, m.ID(c))
		text := textOf(part)
		for _, want := range append([]string{m.Title(c)}, m.Statement(c)...) {
			if !strings.Contains(text, want) {
				t.Errorf("%s does not say %q", m.ID(c), want)
			}
		}
		links := withClass(part, "put")
		qs := m.Questions(c)
		if len(links) != len(qs) {
			t.Fatalf("%s: %d questions and %d links to the sheet", m.ID(c), len(qs), len(links))
		}
		for i, q := range qs {
			checkOwnLink(t, links[i], q.Ask)
		}
		if _, hidden := attr(part, "hidden"); !hidden {
			t.Errorf("%s shows before anything is ticked", m.ID(c))
		}
		rows := elements(elements(part, "tbody")[0], "tr")
		if len(rows) != len(m.Feet) {
			t.Fatalf("%s: %d rows, want %d", m.ID(c), len(rows), len(m.Feet))
		}
		for f, foot := range m.Feet {
			cells := elements(rows[f], "td")
			if textOf(elements(rows[f], "th")[0]) != foot.Name.S || len(cells) != c.Wishes.Len() {
				t.Errorf("%s: row %d is %q", m.ID(c), f, textOf(rows[f]))
			}
			for i, w := range c.Wishes.List() {
				want := m.Row(w).Title.S + ": " + m.Row(w).Steps[m.Cell(f, w).Mark].S + " " + say.English().Say(stateWords[m.State(f, w)])
				if standingOf(m.Cell(f, w)) == "trade practice" {
					want += ", trade practice"
				}
				if got := textOf(cells[i]); got != want {
					t.Errorf("%s, %s: the cell says %q, want %q", m.ID(c), foot.ID.S, got, want)
				}
			}
		}
		if got := len(withClass(part, "fix")); got != len(c.Fixes) {
			t.Errorf("%s: %d add-ons, want %d", m.ID(c), got, len(c.Fixes))
		}
	}
	checkAddons(t, m, n)
}

// An add-on comes up once, with both of its sides and nothing folded, for all
// conflicts that it takes away.
func checkAddons(t *testing.T, m *conflict.Matter, n *html.Node) {
	t.Helper()
	parts := withClass(n, "add-on")
	for a, addon := range m.Addons {
		var of []string
		for _, c := range m.All {
			if slices.ContainsFunc(c.Fixes, func(f conflict.Fix) bool { return f.Addon == a }) {
				of = append(of, m.ID(c))
			}
		}
		at := slices.IndexFunc(parts, func(p *html.Node) bool { return strings.Contains(textOf(p), addon.Name.S) })
		if (at >= 0) != (len(of) > 0) {
			t.Errorf("%s takes %d conflicts away, and stands on the page: %v", addon.ID.S, len(of), at >= 0)
		}
		if at < 0 {
			continue
		}
		if got, _ := attr(parts[at], "data-addon"); got != strings.Join(of, " ") {
			t.Errorf("%s stands for %q, want %q", addon.ID.S, got, of)
		}
		for _, side := range append(slices.Clone(addon.Gain), addon.GiveUp...) {
			if !strings.Contains(textOf(parts[at]), side.S) {
				t.Errorf("the page does not say of %s %q", addon.ID.S, side.S)
			}
		}
		for up := parts[at].Parent; up != nil; up = up.Parent {
			if up.Data == "details" {
				t.Errorf("%s stands in a fold", addon.ID.S)
			}
		}
	}
}

// How many ratings of trade practice a conflict rests on can be counted on the page
// itself: in the rows behind it, the feet that no other rating keeps from the wishes.
func TestPracticeIsCounted(t *testing.T) {
	m := conflict.In(load(t))
	n := pageNamed(t, builtin(t), pullsName)
	resting := 0
	for _, c := range m.All {
		part := byID(t, n, m.ID(c))
		count := 0
		for _, row := range elements(elements(part, "tbody")[0], "tr") {
			practice, meets, other := 0, 0, 0
			for _, cell := range elements(row, "td") {
				switch state := textOf(withClass(cell, "from")[0]); {
				case strings.Contains(state, "does not meet it, trade practice"):
					practice++
				case strings.Contains(state, "does not meet it"):
					other++
				case strings.HasPrefix(state, "meets it, trade practice"):
					meets++
				case strings.HasPrefix(state, "one step short"):
					if c.Kind == conflict.May {
						other++
					}
				}
			}
			if c.Kind == conflict.May && practice == 0 && other == 0 {
				count += meets
			} else if c.Kind != conflict.May && other == 0 {
				count += practice
			}
		}
		if got := len(withClass(part, "rests")); got != count {
			t.Errorf("%s: %d ratings are shown as those it rests on, and %d are counted", m.ID(c), got, count)
		}
		said := fmt.Sprintf("This rests on %d rating", count)
		if text := textOf(part); strings.Contains(text, "This rests on") != (count > 0) || count > 0 && !strings.Contains(text, said) {
			t.Errorf("%s rests on %d ratings of trade practice, and the page does not say so", m.ID(c), count)
		}
		if count > 0 && !c.Note() {
			resting++
			row := elements(byID(t, n, "pulls-worked").Parent, "tr")
			if !slices.ContainsFunc(row, func(r *html.Node) bool {
				return strings.HasPrefix(textOf(r), m.Title(c)) && strings.Contains(textOf(r), fmt.Sprintf("Ratings of trade practice behind it: %d.", count))
			}) {
				t.Errorf("the whole table does not say of %s that it rests on %d", m.ID(c), count)
			}
		}
	}
	if resting == 0 || !strings.Contains(textOf(n), fmt.Sprintf("%d of the %d conflicts rest on at least one.", resting, len(m.All)-notes(m))) {
		t.Errorf("%d conflicts rest on trade practice, and the page does not say so", resting)
	}
}

func notes(m *conflict.Matter) (n int) {
	for _, c := range m.All {
		if c.Note() {
			n++
		}
	}
	return n
}

func checkOwnLink(t *testing.T, a *html.Node, ask string) {
	t.Helper()
	href, _ := attr(a, "href")
	where, carried, _ := strings.Cut(href, "#own=")
	if text, err := url.PathUnescape(carried); where != "../prepare/index.html" || err != nil || text != ask {
		t.Errorf("%q leads to %q", ask, href)
	}
	if strings.ContainsAny(carried, "+ '\"") {
		t.Errorf("the address %q holds signs that encodeURIComponent does not leave or a plus", href)
	}
}

// Each wish says from which step it is met, and lists every foot once, in the
// table's order, with the cell's own words; those that meet it with both sides.
func TestWishSections(t *testing.T) {
	m := conflict.In(load(t))
	n := pageNamed(t, builtin(t), pullsName)
	parts := withClass(n, "wish")
	if len(parts) != len(m.Wishes) {
		t.Fatalf("%d wishes on the page, want %d", len(parts), len(m.Wishes))
	}
	for w, wish := range m.Wishes {
		text := textOf(parts[w])
		for _, want := range []string{wish.Title.S, wish.Means.S, m.Steps(w), m.Row(w).Title.S} {
			if !strings.Contains(text, want) {
				t.Errorf("%s does not say %q", wish.ID.S, want)
			}
		}
		var names []string
		for _, li := range elements(parts[w], "li") {
			names = append(names, textOf(elements(li, "a")[0]))
		}
		var meet, not []string
		for f, foot := range m.Feet {
			for _, want := range []string{m.Cell(f, w).Why.S, m.Row(w).Steps[m.Cell(f, w).Mark].S} {
				if !strings.Contains(text, want) {
					t.Errorf("%s does not say of %s %q", wish.ID.S, foot.ID.S, want)
				}
			}
			if !m.State(f, w).Met() {
				not = append(not, foot.Name.S)
				continue
			}
			meet = append(meet, foot.Name.S)
			for _, side := range append(slices.Clone(foot.Gain), foot.GiveUp...) {
				if !strings.Contains(text, side.S) {
					t.Errorf("%s brings up %s without %q", wish.ID.S, foot.ID.S, side.S)
				}
			}
		}
		if want := append(meet, not...); !slices.Equal(names, want) {
			t.Errorf("%s lists %q, want %q", wish.ID.S, names, want)
		}
	}
}

// checkTradeShapes counts the figure's own marks by shape, without those of its key.
func checkTradeShapes(t *testing.T, l *library.Library, svg *html.Node) {
	t.Helper()
	want, got := map[string]int{}, map[string]int{}
	shape := func(open, practice bool) string { return fmt.Sprintf("hollow %v, square %v", open, practice) }
	for _, ft := range l.Marked() {
		if ft.Addon {
			continue
		}
		either := func(words string) bool {
			return standingOf(ft.Cells[motionRow]) == words || standingOf(ft.Cells[pushRow]) == words
		}
		want[shape(either("not settled"), either("trade practice"))]++
	}
	for _, open := range []bool{false, true} { // one of each in the key
		want[shape(open, false)]++
		want[shape(open, true)]++
	}
	for class, open := range map[string]bool{"d-solid": false, "d-hole": true} {
		for _, p := range withClass(svg, class) {
			d, _ := attr(p, "d")
			got[shape(open, !strings.Contains(d, "C"))]++ // a disc is drawn in curves
		}
	}
	if !maps.Equal(want, got) {
		t.Errorf("the figure has the marks %v, and the table %v", got, want)
	}
}

// The figure marks each foot once; each mark's reason stands below with both sides
// of the foot, and what the page says of the far corner is what the table says.
func TestMotionPushPage(t *testing.T) {
	l := load(t)
	n := pageNamed(t, builtin(t), motionPushName)
	svg := elements(n, "svg")
	if len(svg) != 1 {
		t.Fatalf("%d figures", len(svg))
	}
	figure, text := textOf(svg[0]), textOf(n)
	checkTradeShapes(t, l, svg[0])
	for _, ft := range l.Marked() {
		part := byID(t, n, "trade-"+ft.ID.S)
		for _, row := range []string{motionRow, pushRow} {
			c := ft.Cells[row]
			if !strings.Contains(textOf(part), c.Why.S) {
				t.Errorf("%s: the reason for %s is not there", ft.ID.S, row)
			}
			for _, s := range c.Sources {
				if src := l.Source(s.S); src != nil && strings.Count(text, src.Title.S) < 2 {
					t.Errorf("%s: the source %s is not named beside the mark and in the list", ft.ID.S, s.S)
				}
			}
		}
		for _, side := range append(slices.Clone(ft.Gain), ft.GiveUp...) {
			if !strings.Contains(textOf(part), side.S) {
				t.Errorf("%s: %q is not there", ft.ID.S, side.S)
			}
		}
		if ft.Addon {
			continue
		}
		if strings.Count(figure, ft.Name.S) != 2 { // its label and the words for those who cannot see
			t.Errorf("%s is named %d times in the figure", ft.ID.S, strings.Count(figure, ft.Name.S))
		}
		far := ft.Cells[motionRow].Mark >= clearStep && ft.Cells[pushRow].Mark >= clearStep
		_, line, _ := strings.Cut(text, "High on the right")
		line, _, _ = strings.Cut(line, "Each of these")
		if far != strings.Contains(line, ft.Name.S) {
			t.Errorf("%s stands in the far corner: %v, and the page says %q", ft.ID.S, far, line)
		}
	}
}
