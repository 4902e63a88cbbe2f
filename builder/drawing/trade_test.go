package drawing

import (
	"encoding/xml"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

func tradeNode(t *testing.T, d Trade) node {
	t.Helper()
	var n node
	if err := xml.Unmarshal([]byte(d.SVG("p")), &n); err != nil {
		t.Fatal(err)
	}
	return n
}

// The rating table's own two rows, as they stood when the figure was laid out.
var someFeet = Trade{
	Drawing: func() Drawing { d, _ := english.Find(TradeID, ""); return d }(),
	Columns: []string{"none", "slight give", "some", "clear", "wide, or adapts to slopes"},
	Bands:   []string{"little or none", "a little", "some", "strong", "adds power, or made for running"},
	Places: []Place{
		{"Solid ankle", 1, 0, false, false, false}, {"Single axis", 2, 0, false, false, true}, {"Flexible keel", 2, 1, true, false, false}, {"Multi-axis", 3, 1, true, true, false},
		{"Carbon spring", 2, 3, false, false, false}, {"Glass spring", 3, 3, true, true, false}, {"Running blade", 2, 4, true, false, true}, {"Adjustable heel height", 1, 2, true, true, false},
		{"Hydraulic ankle", 3, 2, false, true, false}, {"Microprocessor ankle", 4, 2, false, false, true}, {"Powered ankle", 4, 4, false, false, false},
	},
}

// Each mark stands in the column and the band of its steps, in the order that was
// given, full where it is settled and hollow where not.
func TestTradePlaces(t *testing.T) {
	marks, lines, bottom := someFeet.layout()
	n := tradeNode(t, someFeet)
	if len(marks) != len(someFeet.Places) || len(lines) != 5 {
		t.Fatalf("%d marks in %d bands", len(marks), len(lines))
	}
	edges := append(slices.Clone(lines), bottom)
	for i, m := range marks {
		if column := int(m.at.x / (tradeWidth / 5.0)); column != m.Column {
			t.Errorf("%s stands in column %d, want %d", m.Name, column, m.Column)
		}
		band := 4 - m.Band
		if m.at.y < edges[band]+bandHead || m.at.y > edges[band+1] {
			t.Errorf("%s stands at %.0f, and its band is from %.0f to %.0f", m.Name, m.at.y, edges[band], edges[band+1])
		}
		if i > 0 && marks[i-1].Band == m.Band && slices.Index(someFeet.Places, marks[i-1].Place) > slices.Index(someFeet.Places, m.Place) {
			t.Errorf("%s stands before %s, against the order given", marks[i-1].Name, m.Name)
		}
	}
	if full, hollow := len(n.with("d-solid")), len(n.with("d-hole")); full != 5+2 || hollow != 6+2 {
		t.Errorf("%d full marks and %d hollow ones, want 5 and 6, and two of each in the key", full, hollow)
	}
	squares := 0
	for _, m := range append(n.with("d-solid"), n.with("d-hole")...) {
		if !strings.Contains(m.attr("d"), "C") {
			squares++
		}
	}
	if squares != 3+2 {
		t.Errorf("%d marks are squares, want three of trade practice and two in the key", squares)
	}
	// An arrow for each way in which an open side can go: two level ones for five
	// feet and two upright ones for four; and four in the key.
	if arrows := len(n.with("d-move")); arrows != 18+4 {
		t.Errorf("%d arrows, want 22", arrows)
	}
}

// An arrow that would leave the steps is not drawn.
func TestTradeAtTheEdge(t *testing.T) {
	d := someFeet
	d.Places = []Place{{"Low", 0, 0, true, true, false}, {"High", 4, 4, true, true, false}}
	if arrows := tradeNode(t, d).with("d-move"); len(arrows) != 4+4 {
		t.Errorf("%d arrows, want one level and one upright for each, and four in the key", len(arrows))
	}
}

// At both sizes of type: no text leaves the figure or runs over another, over a
// mark or over an arrow.
func TestTradeText(t *testing.T) {
	for _, wrong := range tradeFaults(t, someFeet) {
		t.Error(wrong)
	}
	// A name that fits on neither side is broken into lines, and so are the other words of the figure.
	long := someFeet
	long.Places = slices.Clone(long.Places)
	long.Places[3].Name = "A name that is far too long for any figure"
	long.labels = map[string][]string{}
	for id, lines := range someFeet.labels {
		long.labels[id] = []string{strings.Join(lines, " ") + ", said in rather more words than fit beside each other"}
	}
	for _, wrong := range tradeFaults(t, long) {
		t.Errorf("with long words: %s", wrong)
	}
	// A word that no line is wide enough for must be seen.
	d := someFeet
	d.Places = slices.Clone(d.Places)
	d.Places[3].Name = strings.Repeat("long", 15)
	if len(tradeFaults(t, d)) == 0 {
		t.Error("a word that is too long is not seen")
	}
}

func tradeFaults(t *testing.T, d Trade) (out []string) {
	t.Helper()
	n := tradeNode(t, d)
	var box rect
	box.x1, box.y1 = boxOf(t, n)
	for _, size := range sizes {
		found := texts(t, n, size)
		for i, a := range found {
			if a.x0 < 0 || a.y0 < 0 || a.x1 > box.x1 || a.y1 > box.y1 {
				out = append(out, a.text+" leaves the figure")
			}
			for _, b := range found[:i] {
				if a.meets(b) {
					out = append(out, a.text+" runs over "+b.text)
				}
			}
			for _, class := range []string{"d-move", "d-solid", "d-hole"} {
				for _, line := range n.with(class) {
					p := points(t, line)
					for k := 0.0; k <= 1; k += 0.02 {
						if q := between(p[0], p[len(p)-1], k); q.x > a.x0 && q.x < a.x1 && q.y > a.y0 && q.y < a.y1 {
							out = append(out, "a "+class+" runs through "+a.text)
							break
						}
					}
				}
			}
		}
	}
	return out
}

func boxOf(t *testing.T, n node) (w, h float64) {
	t.Helper()
	p := points(t, node{Attrs: []xml.Attr{{Name: xml.Name{Local: "d"}, Value: n.attr("viewBox")}}})
	return p[1].x, p[1].y
}

// Whatever the table comes to say, marks stay apart and inside, and the element
// is whole.
func TestTradeAnyTable(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2026))
	for range 200 {
		d := someFeet
		d.Places = nil
		for range 1 + r.IntN(14) {
			d.Places = append(d.Places, Place{"Some <kind> & more", r.IntN(5), r.IntN(5), r.IntN(2) == 0, r.IntN(2) == 0, r.IntN(2) == 0})
		}
		n := tradeNode(t, d)
		w, h := boxOf(t, n)
		n.every(func(c node) {
			if c.XMLName.Local != "path" {
				return
			}
			for _, p := range points(t, c) {
				if p.x < -0.1 || p.y < 0 || p.x > w+0.1 || p.y > h {
					t.Fatalf("%v lies outside", p)
				}
			}
		})
		marks, _, _ := d.layout()
		for i, a := range marks {
			for _, b := range marks[:i] {
				if math.Hypot(a.at.x-b.at.x, a.at.y-b.at.y) < 2*markSize {
					t.Fatalf("%+v and %+v stand on each other", a, b)
				}
			}
		}
	}
	if !strings.Contains(someFeet.SVG("x"), `aria-labelledby="x-title"`) {
		t.Error("the figure has no name")
	}
}

// The rows and the key are in the words that the figure is given.
func TestTradeWords(t *testing.T) {
	d := someFeet
	d.Title, d.labels = "Bewegung", map[string][]string{"across": {"mehr", "Bewegung"}, "up": {"mehr Abstoß"}, "settled": {"geklärt"}, "practice": {"üblich"}, "unsettled": {"offen"}, "unsettled-practice": {"offen, üblich"}}
	svg := d.SVG("p")
	for _, want := range []string{">Bewegung</title>", ">mehr Bewegung →<", ">↑ mehr Abstoß<", ">geklärt<", ">üblich<", ">offen<", ">offen, üblich<"} {
		if strings.Count(svg, want) != 1 {
			t.Errorf("%q stands not once in %s", want, svg)
		}
	}
}
