package drawing

import (
	"fmt"
	"html/template"
	"strings"
)

// headShape is the head of the home page in one width: a foot cut open, whose keel goes on as the way over a hill.
type headShape struct {
	class      string
	wide, tall float64
	foot       frame
	way        []pt // from behind the toe on; it is the top of the hill
	far        []pt // a hill behind it
	walker     pt
	size       float64 // of the walker
	trees      []pt
	house      pt
	houseSize  float64
}

var heads = []headShape{
	{
		"g-wide", 1280, 330, frame{150, 292, 1.25},
		[]pt{{505, 292}, {580, 297}, {690, 276}, {800, 214}, {890, 176}, {950, 172}, {1030, 192}, {1110, 214}, {1190, 218}, {1290, 208}},
		[]pt{{690, 276}, {790, 190}, {900, 122}, {1010, 128}, {1110, 152}, {1290, 110}},
		pt{930, 172}, 0.66, []pt{{1052, 198}, {1014, 188}}, pt{1140, 216}, 1.3,
	},
	{
		"g-narrow", 360, 166, frame{28, 138, 0.52},
		[]pt{{176, 139}, {200, 139}, {226, 126}, {252, 107}, {274, 100}, {296, 104}, {318, 111}, {338, 112}, {366, 107}},
		[]pt{{212, 134}, {240, 92}, {274, 68}, {310, 72}, {366, 58}},
		pt{266, 101}, 0.42, []pt{{240, 116}}, pt{300, 111}, 0.74,
	},
}

// Head is the head of the home page, once for wide screens and once for narrow ones, of which a style shows one; words say what
// it shows, once.
func Head(words string) template.HTML {
	var b strings.Builder
	fmt.Fprintf(&b, `<div class="way" role="img" aria-label="%s">`, template.HTMLEscapeString(words))
	for _, h := range heads {
		p := &pencil{}
		h.draw(p)
		fmt.Fprintf(&b, `<svg class="ground %s" viewBox="0 0 %s %s" aria-hidden="true" focusable="false">%s</svg>`, h.class, num(h.wide), num(h.tall), p.b.String())
	}
	return template.HTML(b.String() + "</div>")
}

func (h headShape) draw(p *pencil) {
	sole := h.foot.y + 1
	way := append(h.inFoot(), h.way...)
	top := smooth(append([]pt{{-10, sole}, h.foot.at(110, -1), h.foot.at(250, -1)}, h.way[1:]...)...)
	p.path("g-earth", top.line(h.wide+10, h.tall, -10, h.tall).shut())
	p.path("f s", smooth(h.far...))
	for _, t := range h.trees {
		p.tree(t.x, t.y, 74*h.size)
	}
	p.at(h.house.x, h.house.y, h.houseSize, 0, func() { p.house(0, 0) })
	h.cutFoot(p)
	p.path("g-way", smooth(way...))
	p.path("p", h.foot.put(pill(56, 84, 73.5, 118, 2)))
	p.path("p", h.foot.put(bolt(89, 109, 60, 109, 3.2)), h.foot.put(bolt(89, 94, 60, 94, 3.2)))
	p.at(h.walker.x, h.walker.y-1, h.size, 0, func() { p.one(withCane) })
}

// inFoot is the middle of the keel, from the ankle to the toe.
func (h headShape) inFoot() []pt {
	var out []pt
	for _, a := range shankSpine {
		out = append(out, h.foot.to(a))
	}
	return out
}

// cutFoot is the foot around its keel.
func (h headShape) cutFoot(p *pencil) {
	put := h.foot.put
	p.path("t s", put(shellOutline()))
	p.path("p s", put(shellHollow()))
	p.path("i", put(heelLeaf()))
	const y = 118.0 // as in carbonSpring
	p.path("p", put(tube(y+40, 205)))
	p.path("p", put(box(tubeAt-20, y, tubeAt+20, y+5)))
	p.path("p", put(pill(tubeAt-19, y+10, tubeAt+19, y+46, 4)))
	p.path("", put(disc(tubeAt, y+19, 4)), put(disc(tubeAt, y+37, 2.6)))
	p.path("f", put(from(tubeAt-19, y+29).line(tubeAt+19, y+29)))
	p.path("p", put(bolt(134, 34, 134, 18, 3)), put(bolt(146, 31, 146, 15.5, 3)))
}
