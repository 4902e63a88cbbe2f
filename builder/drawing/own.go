package drawing

import (
	"fmt"
	"html/template"
	"math"
	"slices"
)

// Own is a picture of what a reader told, for endings and for the sheet: larger than a tile, with the reader's own amounts. Its
// ground is clay, for it is the reader's; what moves is ink. It says no more than degrees: what it shows is said beside it.
type Own struct {
	Name       string
	Wide, Tall int
	Body       template.HTML
}

type ownShape struct {
	name       string
	wide, tall int
	deep       float64  // it is taller by so many units times the first amount
	of         []string // tiles of the measures that tell its amounts, in order
	usual      []float64
	draw       func(p *pencil)
}

// owns lists the pictures, with the amounts that each takes, as quantities are kept.
var owns = []ownShape{
	{"slope", 360, 190, 180, []string{"slope"}, []float64{0.08}, ownSlope},             // the slope
	{"side-slope", 360, 200, 0, []string{"side-slope"}, []float64{0.08}, ownSideSlope}, // the slope across
	{"heels", 360, 140, 0, []string{"heel", "heel"}, []float64{10, 40}, ownHeels},      // of the usual shoes and of the others
	{"load", 360, 190, 0, []string{"load"}, []float64{10}, ownLoad},                    // what is carried
}

// OwnShape gives a picture without its amounts. It is false where none has that name.
func OwnShape(name string) (Shape, bool) {
	i := slices.IndexFunc(owns, func(o ownShape) bool { return o.name == name })
	if i < 0 {
		return Shape{}, false
	}
	o, p := owns[i], &pencil{}
	o.draw(p)
	return Shape{Wide: o.wide, Tall: o.tall, Body: template.HTML(p.b.String()), Usual: o.usual, Deep: o.deep}, true
}

// OwnAt draws a picture at the reader's amounts; it is false where none has that name, or takes another number of amounts.
func OwnAt(name string, amounts ...float64) (Own, bool) {
	s, ok := OwnShape(name)
	if !ok || len(amounts) != len(s.Usual) {
		return Own{}, false
	}
	return Own{name, s.Wide, s.Tall + int(math.Round(s.Deep*amounts[0])), template.HTML(setTo(string(s.Body), amounts...))}, true
}

// OwnTiles names the tiles of the measures that tell a picture's amounts, in its order. It is false where no picture has that name.
func OwnTiles(name string) ([]string, bool) {
	for _, o := range owns {
		if o.name == name {
			return o.of, true
		}
	}
	return nil, false
}

// OwnNames names the pictures.
func OwnNames() []string {
	var out []string
	for _, o := range owns {
		out = append(out, o.name)
	}
	return out
}

// SVG is the picture as an inline element, which says in words what it shows.
func (o Own) SVG(words string) template.HTML {
	return template.HTML(fmt.Sprintf(`<svg class="ground" viewBox="0 0 %d %d" role="img" aria-label="%s" data-own="%s">%s</svg>`,
		o.Wide, o.Tall, template.HTMLEscapeString(words), o.Name, o.Body))
}

// Where the two legs of a slope stand, on ground that goes down to the right, and how large they are.
const (
	downAt    = 178.0 // the level at the middle
	downMid   = 180.0
	downLeft  = 98.0
	downRight = 258.0
	downScale = 0.62
	downAnkle = ankleUp * downScale
	downArc   = 62.0
)

func ownSlope(p *pencil) {
	p.mix("g-earth", 0, 1, "M0 178L360 178L360 190L0 190Z", "M0 -2L360 358L360 370L0 370Z")
	p.downhill(downLeft, func() { // the ankle stays: the leg tips with the sole
		p.in("scale(.62)", func() {
			p.in("translate(-25 0)", p.laced)
			p.ownShank()
		})
		p.at(0, -downAnkle, 1, 0, func() {
			p.line("dash", 0, 0, 0, -84)
			p.move("turn -1 0 0", p.angleSaid)
		})
	})
	p.downhill(downRight, func() { // the ankle bends: the leg stands upright
		p.in("scale(.62)", func() { p.in("translate(-25 0)", p.laced) })
		p.at(0, -downAnkle, 1, 0, func() {
			p.move("turn -1 0 0", func() { p.in("scale(.62) translate(0 30)", p.ownShankUpright) })
			p.line("dash", 0, 0, 0, -84)
			p.move("turn -1 0 0", p.angleSaid)
		})
	})
	p.mix("g-line g-mine", 0, 1, "M0 178L360 178", "M0 -2L360 358")
}

// downhill draws at x on the ground, turned with it.
func (p *pencil) downhill(x float64, draw func()) {
	p.move("drop "+num(x-downMid), func() {
		p.at(x, downAt-1, 1, 0, func() { p.move("turn 1 0 0", draw) })
	})
}

// angleSaid is the angle between upright and the thought line square to the sole, at the ankle.
func (p *pencil) angleSaid() {
	p.line("dash", 0, 0, 0, -84)
	fmt.Fprintf(&p.b, `<path class="h" data-is="arc 1 %s"/>`, num(downArc))
	fmt.Fprintf(&p.b, `<text x="50" y="-%s" data-is="says"></text>`, num(downArc-4))
}

// ownShank is the leg over the ankle, with its knee bent as far as the slope tips it, so that the hip stays over the foot.
func (p *pencil) ownShank() {
	p.limbOver(func(draw func()) { p.move("turn -2 0 -162", draw) })
}

func (p *pencil) ownShankUpright() { p.limbOver(func(draw func()) { draw() }) }

// limbOver draws the leg over the ankle; thigh draws what is above the knee.
func (p *pencil) limbOver(thigh func(draw func())) {
	shin := tubeOf([]pt{{0, -100}, {0, -136}, {1, -162}}, []float64{24, 38, 41}, true, true)
	upper := tubeOf([]pt{{1, -162}, {1, -186}, {1, -214}}, []float64{41, 45, 49}, true, false)
	p.pylonOver()
	p.path("t u", shin)
	thigh(func() { p.path("t u", upper) })
	p.path("t n", shin)
	thigh(func() {
		p.path("t n", upper)
		p.path("e", tubeOf([]pt{{1, -196}, {1, -214}, {1, -236}}, []float64{56, 57, 60}, false, false))
		p.d("f s", "M-27 -201H29")
	})
	p.d("p h", socketLine)
}

// pylonOver is the tube from the clamp to the socket, over the axis at 0.
func (p *pencil) pylonOver() {
	p.box("p", -tubeHalf, -82, 2*tubeHalf, 54, 0)
	p.box("p", -8.5, -62, 17, 19, 2.5)
	p.disc("i", 0, -52.5, 2.2)
}

func ownSideSlope(p *pencil) {
	p.mix("g-earth", 0, 1, "M0 176L40 176L360 176L360 200L0 200Z", "M0 176L40 176L360 -144L360 200L0 200Z")
	for _, leg := range []struct {
		x  float64
		of madeOf
	}{{104, ownLeg}, {158, belowKnee}} {
		p.move("drop "+num(40-leg.x), func() {
			p.at(leg.x, 175, 1, 0, func() { p.fromBehind(1.15, leg.of, "turn -1 0 0") })
		})
	}
	p.d("dash", "M40 176H330")
	p.at(40, 176, 1, 0, func() {
		p.in("rotate(90)", func() { fmt.Fprint(&p.b, `<path class="h" data-is="arc -1 236"/>`) })
	})
	p.move("drop -264", func() { fmt.Fprint(&p.b, `<text x="300" y="164" data-is="says"></text>`) })
	p.mix("g-line g-mine", 0, 1, "M0 176L40 176L360 176", "M0 176L40 176L360 -144")
}

func ownHeels(p *pencil) {
	p.d("g-earth", "M0 124H360V140H0Z")
	for i, x := range []float64{10, 196} {
		which := num(float64(i))
		p.at(x, 123, 1.4, 0, func() {
			p.heel(which)
			p.heelMark("g-told", which, 108)
		})
	}
	// The level of the usual heel, for the other one to be seen against.
	p.mixOf("dash", "0", 0, 100, "M161 123L355 123", "M161 73L355 73")
	p.d("g-line", "M0 124H360")
}

// ownLoad is the load as large as so much water, beside a person of 172 cm at the same scale.
func ownLoad(p *pencil) {
	p.d("g-earth", "M0 176H360V190H0Z")
	p.at(120, 175, 1, 0, func() {
		p.one(someone{lean: 2, near: footing{x: -3}, far: footing{x: 6}, nearLeg: belowKnee, nearArm: []pt{{-6, -110}, {3, -91}}, hair: "parted", skin: "e", coat: "p", legs: "t"})
	})
	p.at(172, 175, 1, 0, func() { p.move("grow 0", func() { p.crate(0, 21.5) }) })
	p.d("g-line", "M0 176H360")
}
