package drawing

import (
	"fmt"
	"html/template"
	"slices"
)

// A tile is a small drawing of a thing that a reader can answer with. Every tile begins and
// ends on one ground line, so that tiles in a row are one landscape. What differs by an amount is
// drawn from the amount: a slope at its true angle, a heel as high as it is.
//
// A tile says nothing: where it stands, the words of the answer carry the meaning.
const (
	TileWide = 120
	TileTall = 84

	groundAt = 76.0 // the level of the ground at both ends of a tile
)

// Tile is a tile at an amount.
type Tile struct {
	Name string
	Rise float64 // by how much the ground at its right end lies above that at its left, in units of the viewBox
	Body template.HTML
}

// tileShape is a tile before it has an amount.
type tileShape struct {
	name string
	draw func(p *pencil)

	// moves is what an amount changes, in the order of its parts; usual is the amount that is drawn where none is
	// given: a ratio for a slope, millimetres for a heel, kilograms for a load.
	usual float64
	of    string // what the amount is: slope, length or mass, as builder/quantity calls it
	rises bool   // its right end lies amount times slopeRun above its left
}

// TileAt draws a tile. It is false where no tile has that name. An amount has the unit in which quantities are
// kept: a ratio, millimetres or kilograms; a tile of one shape takes no notice of it.
func TileAt(name string, amount float64) (Tile, bool) {
	s, ok := TileShape(name)
	return Tile{Name: name, Rise: amount * s.Run, Body: template.HTML(setTo(string(s.Body), amount))}, ok
}

// TileNames names every tile, in the order in which they are drawn.
func TileNames() []string {
	out := make([]string, len(tiles))
	for i, s := range tiles {
		out[i] = s.name
	}
	return out
}

// TileKind tells of what kind the amount is by which a tile is drawn, as builder/quantity calls it; empty for one of one
// shape. It is false where no tile has that name.
func TileKind(name string) (kind string, known bool) {
	for _, s := range tiles {
		if s.name == name {
			return s.of, true
		}
	}
	return "", false
}

// TilesOf names the tiles that are drawn by an amount of a kind.
func TilesOf(kind string) []string {
	var out []string
	for _, s := range tiles {
		if s.of == kind || kind == "angle" && s.of == "slope" {
			out = append(out, s.name)
		}
	}
	return out
}

// Usual is the amount at which a tile is drawn that was given none.
func Usual(name string) float64 {
	for _, s := range tiles {
		if s.name == name {
			return s.usual
		}
	}
	return 0
}

// Shape is a tile or a picture in which no amount is set yet; setTo does that, here and in the reader's page.
type Shape struct {
	Wide, Tall int
	Body       template.HTML
	Usual      []float64 // the amounts at which it is drawn where none are given
	Run        float64   // the ground rises by so many units times the first amount
	Deep       float64   // it is taller by so many
}

// TileShape gives a tile without an amount. It is false where no tile has that name.
func TileShape(name string) (Shape, bool) {
	i := slices.IndexFunc(tiles, func(s tileShape) bool { return s.name == name })
	if i < 0 {
		return Shape{}, false
	}
	t, p := tiles[i], &pencil{}
	t.draw(p)
	out := Shape{Wide: TileWide, Tall: TileTall, Body: template.HTML(p.b.String())}
	if t.of != "" {
		out.Usual = []float64{t.usual}
	}
	if t.rises {
		out.Run = slopeRun
	}
	return out, true
}

// SVG is the tile as an inline element that is not read aloud.
func (t Tile) SVG() template.HTML {
	return template.HTML(fmt.Sprintf(`<svg class="ground" viewBox="0 0 %d %d" aria-hidden="true" focusable="false" data-ground="%s" data-rise="%s">%s</svg>`,
		TileWide, TileTall, t.Name, num(t.Rise), t.Body))
}

// Opening is the tile at the head of a page: its ground goes on to the right as well.
func (t Tile) Opening() template.HTML {
	t.Body = `<path class="g-earth" d="M120 76H1200V84H120Z"/><path class="g-line" d="M120 76H1200"/>` + t.Body
	return t.SVG()
}

// leadIn is the ground before a tile: under the words of its row. A landscape hides it.
const leadIn = `<path class="g-lead g-earth" d="M-900 76H0V84H-900Z"/>`
const leadLine = `<path class="g-lead g-line" d="M-900 76H0"/>`

// ground draws what stands on a ground that is a line from the left end of the tile to its right end.
func (p *pencil) ground(line string, things func()) {
	p.b.WriteString(leadIn)
	p.d("g-earth", line+"V84H0Z")
	if things != nil {
		things()
	}
	p.b.WriteString(leadLine)
	p.d("g-line", line)
}

const level = "M0 76H120"

func (p *pencil) flat(things func()) { p.ground(level, things) }
