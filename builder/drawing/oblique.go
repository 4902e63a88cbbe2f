package drawing

import "math"

// spot is a place on a foot in three directions, in millimetres: x toward the
// toe, y up, z to the side that is nearer to the viewer.
type spot struct{ x, y, z float64 }

// seen is where a spot lies in an oblique view: the toe points down to the left.
func (s spot) seen() pt { return pt{-0.62*s.x + 0.80*s.z, s.y - 0.36*s.x - 0.22*s.z} }

// toeKeel is a J-shaped keel in the oblique view; its toe is cut in two or in one
// piece, and one side of it stands on a stone.
type toeKeel struct {
	frame
	tip   float64 // how far all of it leans away from the stone, degrees
	raise float64 // how far the near half of the toe bends up
}

const (
	keelHalf  = 32.0  // half the width of a keel
	slitFrom  = 112.0 // where the slit begins
	stoneTall = 20.0
)

// at is a spot of the keel after it has bent and leaned, on the page.
func (k toeKeel) at(s spot) pt {
	if along := (s.x - slitFrom) / (230 - slitFrom); s.z > 0 && along > 0 {
		s.y += k.raise * along * along
	}
	lean := pt{s.z, s.y}.turned(pt{-keelHalf, 0}, k.tip)
	return k.to(spot{s.x, lean.y, lean.x}.seen())
}

// side puts a path of the side view into the plane z.
func (k toeKeel) side(p path, z float64) path {
	return p.each(func(a pt) pt { return k.at(spot{a.x, a.y, z}) })
}

// band is the face of the keel between two planes.
func (k toeKeel) band(spine []pt, z0, z1 float64) path {
	out := k.side(smooth(spine...), z0)
	back := append([]pt{}, spine...)
	for i, j := 0, len(back)-1; i < j; i, j = i+1, j-1 {
		back[i], back[j] = back[j], back[i]
	}
	for _, s := range k.side(smooth(back...), z1) {
		if s.verb == 'M' {
			s.verb = 'L'
		}
		out = append(out, s)
	}
	return out.shut()
}

var (
	keelRoot = []pt{{78, 112}, {78, 94}, {78, 74}, {83, 54}, {96, 38}, {112, 30}}
	keelToe  = []pt{{112, 30}, {140, 22}, {172, 12}, {202, 5}, {230, 3}}
)

// half draws one part of the toe, with its end, and its edge at the slit, in black.
func (c *canvas) half(k toeKeel, z0, z1 float64) {
	c.draw("d-hole", k.band(keelToe, z0, z1))
	if z1 < keelHalf {
		c.draw("d-solid", k.side(leaf(6, 5, keelToe...), z1))
	}
	a, b := k.at(spot{230, 3, z0}), k.at(spot{230, 3, z1})
	c.draw("d-solid", from(a.x, a.y).line(b.x, b.y, b.x, b.y+5, a.x, a.y+5).shut())
}

func (c *canvas) keelOnStone(k toeKeel, split bool) {
	flat := func(x, z float64) pt { return k.to(spot{x, 0, z}.seen()) }
	p := [4]pt{flat(40, -48), flat(252, -48), flat(252, 52), flat(40, 52)}
	c.draw("d-ground", from(p[0].x, p[0].y).line(p[1].x, p[1].y, p[2].x, p[2].y, p[3].x, p[3].y).shut())
	on := flat(206, 20)
	c.fill("d-stone", "d-dots", 90, 7, from(on.x-26, on.y+3).curve(on.x-26, on.y-16, on.x-14, on.y-27, on.x, on.y-26, on.x+14, on.y-26, on.x+26, on.y-14, on.x+24, on.y+4).
		curve(on.x+12, on.y+12, on.x-16, on.y+12, on.x-26, on.y+3).shut())
	halves := [][2]float64{{-keelHalf, keelHalf}}
	if split {
		halves = [][2]float64{{-keelHalf, -2.5}, {2.5, keelHalf}}
	}
	for _, z := range halves {
		c.half(k, z[0], z[1])
	}
	c.draw("d-hole", k.band(keelRoot, -keelHalf, keelHalf))
	// Root and toe are one leaf: no line between them.
	for _, z := range halves {
		a, b := k.at(spot{slitFrom, 30, z[0] + 3}), k.at(spot{slitFrom, 30, z[1] - 3})
		c.draw("d-cover", from(a.x, a.y).line(b.x, b.y))
	}
	c.draw("d-solid", k.side(leaf(6, 5, append(keelRoot[:len(keelRoot):len(keelRoot)], keelToe[1:]...)...), keelHalf))
	c.draw("d-metal", k.post(100, 138, 20), k.post(138, 186, 15))
}

// post is a piece of tube upright on the keel.
func (k toeKeel) post(y0, y1, half float64) path {
	a, b := k.at(spot{74, y0, 0}), k.at(spot{74, y1, 0})
	up := b.minus(a)
	w := pt{-up.y, up.x}.times(half * k.scale / up.length())
	dip := up.times(-5 * k.scale / up.length())
	corner := [4]pt{a.minus(w), a.plus(w), b.plus(w), b.minus(w)}
	at := func(p pt, q float64) pt { return p.plus(dip.times(q)) }
	h0, h1 := at(corner[0], 1), at(corner[1], 1)
	t0, t1 := at(corner[2], 1), at(corner[3], 1)
	u0, u1 := at(corner[3], -1), at(corner[2], -1)
	return from(corner[0].x, corner[0].y).
		curve(h0.x, h0.y, h1.x, h1.y, corner[1].x, corner[1].y).
		line(corner[2].x, corner[2].y).
		curve(t0.x, t0.y, t1.x, t1.y, corner[3].x, corner[3].y).
		curve(u0.x, u0.y, u1.x, u1.y, corner[2].x, corner[2].y).
		line(corner[2].x, corner[2].y, corner[3].x, corner[3].y, corner[0].x, corner[0].y).shut()
}

func splitToe(c *canvas) {
	lean := math.Atan(stoneTall/(2*keelHalf)) * 180 / math.Pi
	c.keelOnStone(toeKeel{frame{200, 188, 1}, lean, 0}, false)
	c.keelOnStone(toeKeel{frame{432, 188, 1}, 0, stoneTall + 6}, true)
	c.note(pt{164, 36}, right, "leg-tips")
	c.note(pt{348, 56}, left, "stays-up")
	c.label(pt{170, 240}, right, pt{104, 256}, "stone")
	c.label(pt{296, 150}, left, toeKeel{frame{432, 188, 1}, 0, 0}.at(spot{130, 25, 0}), "slit")
	c.title(pt{120, 296}, below, "in-one-piece")
	c.title(pt{360, 296}, below, "split-toe")
}
