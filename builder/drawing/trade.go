package drawing

import (
	"math"
	"strings"
)

// Trade is a figure of things that stand on two rows of steps at once: one row
// from left to right, one from the bottom up. It is told what stands where; it
// knows of no table. Its words are those of TradeID: what the two rows are, and
// what its shapes mean. Long says what stands where, behind what they say.
type Trade struct {
	Drawing
	Columns, Bands []string // the words of the rows' steps, the lowest first
	Places         []Place
}

// TradeID is the drawing whose words a Trade has.
const TradeID = "motion-against-push"

// given are drawings whose shapes follow from what they are given, so that none can
// be shown by its name alone. Made by themselves they only ask for their labels.
var given = []Drawing{{ID: TradeID, make: func(c *canvas) {
	c.lines("across")
	c.lines("up")
	for _, k := range tradeKey {
		c.lines(k.id)
	}
}}}

// Place is one mark. Where a side is open, the mark is not settled and may lie one
// step further either way; arrows say so. Practice says that one of its steps rests
// on trade practice; its shape says so.
type Place struct {
	Name               string
	Column, Band       int
	OpenAcross, OpenUp bool
	Practice           bool
}

// tradeKey is what the shapes mean, each with a mark that has it.
var tradeKey = []struct {
	id string
	of Place
}{
	{"settled", Place{}},
	{"practice", Place{Practice: true}},
	{"unsettled", Place{OpenAcross: true}},
	{"unsettled-practice", Place{OpenAcross: true, Practice: true}},
}

// Sizes of the figure, in the units of the drawings.
const (
	tradeWidth  = 480
	tradeHead   = 44 // for the upright row's name
	bandHead    = 33
	placeHeight = 34
	bandFoot    = 8
	keyHeight   = 28
	markSize    = 8.0
	reach       = 11.0 // how far a level arrow goes into the next step
	upright     = 10.0 // how long an upright one is: it ends before the next name
	largest     = 22.0 // the size of type on narrow screens
)

// placed is a place with where it is drawn: in a row of its own within its band.
type placed struct {
	Place
	at pt
}

// SVG is the figure as an inline element; ids inside it begin with idPrefix.
func (t Trade) SVG(idPrefix string) string {
	marks, lines, bottom := t.layout()
	names := wrapped(t.Columns, t.columnWidth())
	most := 0
	for _, n := range names {
		most = max(most, len(n))
	}
	across := t.named("across", "", " →")
	words := bottom + 10 + float64(len(across))*lead*largest + 6 // below the name of the level row
	key := words + float64(most)*lead*largest + 8
	height := key + 8
	for _, k := range tradeKey {
		height += t.keyHeight(k.id)
	}
	d := t.Drawing
	d.Width, d.Height = tradeWidth, int(math.Ceil(height))
	d.make = func(c *canvas) {
		t.ground(c, lines, bottom)
		for i, n := range names {
			c.words("d-text", pt{t.center(i), words}, below, n...)
		}
		c.words(bold, pt{tradeWidth - 4, bottom + 8 + float64(len(across))*lead*largest/2}, left, across...)
		for _, s := range marks {
			t.mark(c, s)
		}
		for _, s := range marks {
			at, to, lines := t.labelled(s)
			c.words("d-text", at, to, lines...)
		}
		y := key
		for _, k := range tradeKey {
			at := pt{40, y + t.keyHeight(k.id)/2}
			y += t.keyHeight(k.id)
			if k.of.OpenAcross {
				c.arrow(from(at.x-markSize, at.y).line(at.x-markSize-18, at.y))
				c.arrow(from(at.x+markSize, at.y).line(at.x+markSize+18, at.y))
			}
			shape(c, k.of, at)
			c.words("d-text", pt{at.x + 40, at.y}, right, t.keyLines(k.id)...)
		}
	}
	return string(d.SVG(idPrefix))
}

// named is the name of a row of steps with its arrow, in as many lines as it needs.
func (t Trade) named(id, before, behind string) []string {
	return broken(before+strings.Join(t.labels[id], " ")+behind, (tradeWidth-8)/1.1)
}

func (t Trade) keyLines(id string) []string {
	return broken(strings.Join(t.labels[id], " "), tradeWidth-84)
}

func (t Trade) keyHeight(id string) float64 { return tall(keyHeight, t.keyLines(id)) }

// tall is how high a row is that holds some lines, and in which one has room.
func tall(one float64, lines []string) float64 {
	return one + float64(len(lines)-1)*lead*largest
}

func (t Trade) columnWidth() float64 { return tradeWidth / float64(len(t.Columns)) }
func (t Trade) center(i int) float64 { return (float64(i) + 0.5) * t.columnWidth() }

// layout gives each place its row, the heights at which bands begin from the top
// one on, and where the lowest ends. Marks of one column stand beside each
// other, so that no arrow runs through another mark.
func (t Trade) layout() (marks []placed, lines []float64, bottom float64) {
	inColumn := map[int]int{}
	for _, p := range t.Places {
		inColumn[p.Column]++
	}
	done := map[int]int{}
	y := tall(tradeHead, t.named("up", "↑ ", ""))
	for band := len(t.Bands) - 1; band >= 0; band-- {
		lines = append(lines, y)
		y += bandHead
		for _, p := range t.Places {
			if p.Band != band {
				continue
			}
			gap := min(20, t.columnWidth()*0.7/float64(inColumn[p.Column]))
			x := t.center(p.Column) + gap*(float64(done[p.Column])-float64(inColumn[p.Column]-1)/2)
			done[p.Column]++
			m := placed{Place: p, at: pt{x, 0}}
			_, _, names := t.labelled(m)
			m.at.y = y + tall(placeHeight, names)/2
			marks = append(marks, m)
			y += tall(placeHeight, names)
		}
		y += bandFoot
	}
	return marks, lines, y
}

// ground draws the bands with their words and a short bar at each column's edge.
func (t Trade) ground(c *canvas, lines []float64, bottom float64) {
	up := t.named("up", "↑ ", "")
	c.words(bold, pt{4, tall(tradeHead, up) / 2}, right, up...)
	for i, y := range append(lines[:len(lines):len(lines)], bottom) {
		c.draw("d-thin", from(0, y).line(tradeWidth, y))
		for col := 1; col < len(t.Columns); col++ {
			x := float64(col) * t.columnWidth()
			c.draw("d-thin", from(x, y-5).line(x, y+5))
		}
		if i < len(lines) {
			c.words("d-text", pt{4, y + bandHead/2 + 2}, right, t.Bands[len(t.Bands)-1-i])
		}
	}
}

func (t Trade) mark(c *canvas, s placed) {
	if left, ok := t.across(s, -1); ok {
		c.arrow(from(s.at.x-markSize, s.at.y).line(left, s.at.y))
	}
	if right, ok := t.across(s, 1); ok {
		c.arrow(from(s.at.x+markSize, s.at.y).line(right, s.at.y))
	}
	if s.OpenUp && s.Band < len(t.Bands)-1 {
		c.arrow(from(s.at.x, s.at.y-markSize).line(s.at.x, s.at.y-markSize-upright))
	}
	if s.OpenUp && s.Band > 0 {
		c.arrow(from(s.at.x, s.at.y+markSize).line(s.at.x, s.at.y+markSize+upright))
	}
	shape(c, s.Place, s.at)
}

// shape draws the mark itself: full where both of its steps are settled or trade
// practice, hollow where one is not settled; a square where one is trade practice,
// and else a disc.
func shape(c *canvas, p Place, at pt) {
	class := "d-solid"
	if p.OpenAcross || p.OpenUp {
		class = "d-hole"
	}
	if p.Practice {
		c.draw(class, box(at.x-markSize, at.y-markSize, at.x+markSize, at.y+markSize))
		return
	}
	c.draw(class, disc(at.x, at.y, markSize))
}

// across gives where a level arrow ends, and whether there is one.
func (t Trade) across(s placed, way int) (x float64, ok bool) {
	next := s.Column + way
	if !s.OpenAcross || next < 0 || next >= len(t.Columns) {
		return 0, false
	}
	edge := float64(s.Column) * t.columnWidth()
	if way > 0 {
		edge += t.columnWidth()
	}
	return edge + float64(way)*reach, true
}

// labelled says where a name stands: right of its mark, or left where it would run
// out of the picture there; where it would on both sides, it is broken on the wider one.
func (t Trade) labelled(s placed) (at pt, to side, lines []string) {
	start := func(way int) float64 {
		if x, ok := t.across(s, way); ok {
			return x + float64(way)*8
		}
		return s.at.x + float64(way)*(markSize+8)
	}
	r, l, wide := start(1), start(-1), textWidth(s.Name)*largest
	if r+wide <= tradeWidth || l < wide && tradeWidth-r > l {
		return pt{r, s.at.y}, right, broken(s.Name, tradeWidth-r)
	}
	return pt{l, s.at.y}, left, broken(s.Name, l)
}

// broken is wrapped for one text.
func broken(text string, width float64) []string { return wrapped([]string{text}, width)[0] }

// wrapped breaks each text into lines that are not wider than a column.
func wrapped(texts []string, width float64) [][]string {
	out := make([][]string, len(texts))
	for i, t := range texts {
		line := ""
		for _, word := range strings.Fields(t) {
			if line != "" && textWidth(line+" "+word)*largest > width {
				out[i] = append(out[i], line)
				line = ""
			}
			line = strings.TrimSpace(line + " " + word)
		}
		out[i] = append(out[i], line)
	}
	return out
}

// textWidth estimates the width of a text in em, after the wider faces of the
// site's font list.
func textWidth(text string) float64 {
	w := 0.0
	for _, r := range text {
		switch {
		case strings.ContainsRune("ijl.,:'", r):
			w += 0.34
		case strings.ContainsRune("ft r°", r):
			w += 0.42
		case strings.ContainsRune("mwMW", r):
			w += 0.92
		case strings.ContainsRune("−=", r):
			w += 0.84
		default:
			w += 0.63
		}
	}
	return w
}
