package drawing

import "math"

// A person seen from the right, walking to the right, in units of 6 mm: so tall
// that the hip of a straight leg stands at 152. The leg that is nearer to the
// viewer is the artificial one.
const (
	thighLong = 70.0
	shankLong = 70.0
	ankleTall = 12.0
)

// pose is where a person's parts are. Each foot is given by the point under its
// ankle, and by how far its toe is up; a foot in the air stands on nothing.
type pose struct {
	hip, shoulder, head pt
	own, other          stance // other is the artificial leg
	near, far           []pt   // the arms: elbow and hand, or nothing for an arm that is not drawn
}

type stance struct {
	foot pt
	toe  float64 // degrees up
}

func (s stance) ankle() pt { return pt{s.foot.x, s.foot.y + ankleTall}.turned(s.foot, s.toe) }

// kneeOf is where the knee of a leg is; it bends forward. A leg that is too short
// for its pose comes out nearly straight, with its shank stretched.
func kneeOf(hip, ankle pt) pt {
	along := ankle.minus(hip)
	d := min(along.length(), thighLong+shankLong-0.1)
	up := (d*d + thighLong*thighLong - shankLong*shankLong) / (2 * d)
	out := pt{-along.y, along.x}.times(1 / along.length())
	return hip.plus(along.times(up / along.length())).plus(out.times(math.Sqrt(thighLong*thighLong - up*up)))
}

// limb is a round-ended piece that goes from one width to another.
func limb(a, b pt, wide, thin float64) path {
	dir := b.minus(a)
	dir = dir.times(1 / dir.length())
	side := pt{-dir.y, dir.x}
	const k = 1.333 // one curve is close to half a circle with its handles at 4/3 of the radius
	turn := func(out path, at pt, r, way float64) path {
		h0 := at.plus(side.times(r)).plus(dir.times(way * k * r))
		h1 := at.minus(side.times(r)).plus(dir.times(way * k * r))
		end := at.minus(side.times(r))
		if way < 0 {
			h0, h1, end = h1, h0, at.plus(side.times(r))
		}
		return out.curve(h0.x, h0.y, h1.x, h1.y, end.x, end.y)
	}
	wide, thin = wide/2, thin/2
	start, over, back := a.plus(side.times(wide)), b.plus(side.times(thin)), a.minus(side.times(wide))
	out := turn(from(start.x, start.y).line(over.x, over.y), b, thin, 1)
	return turn(out.line(back.x, back.y), a, wide, -1).shut()
}

// shoeOn is a laced shoe from the side.
func (s stance) shoeOn() path {
	return from(-13, 0).curve(-15, 8, -14, 18, -10, 23).line(8, 23).
		curve(12, 15, 24, 16, 30, 10, 34, 6, 34, 0, 31, 0).shut().moved(s.foot.x, s.foot.y).turned(s.foot, s.toe)
}

func (s stance) soleOn() path {
	return from(-13, 0).line(31, 0).moved(s.foot.x, s.foot.y).turned(s.foot, s.toe)
}

// person draws a pose.
func (c *canvas) person(f frame, p pose) {
	put := func(p path) path { return f.put(p) }
	arm := func(joints []pt) {
		if len(joints) == 2 {
			hand := joints[1]
			c.draw("d-shell d-outer", put(limb(joints[0], hand, 10, 8)))
			c.draw("d-shell d-outer", put(disc(hand.x, hand.y, 6)))
			c.draw("d-hole", put(limb(p.shoulder, joints[0], 15, 12)))
		}
	}
	foot := func(s stance) {
		c.draw("d-hole", put(s.shoeOn()))
		c.draw("d-heavy", put(s.soleOn()))
	}
	thigh := func(knee pt) {
		c.draw("d-shell d-outer", put(limb(p.hip, knee, 28, 21)))
		c.draw("d-hole", put(limb(p.hip, between(p.hip, knee, 0.58), 34, 29)))
	}
	arm(p.far)
	// Own leg.
	a := p.own.ankle()
	knee := kneeOf(p.hip, a)
	c.draw("d-shell d-outer", put(limb(knee, a, 20, 11)))
	thigh(knee)
	foot(p.own)
	// Artificial leg: socket, tube, foot.
	a = p.other.ankle()
	knee = kneeOf(p.hip, a)
	c.draw("d-metal", put(limb(between(knee, a, 0.4), a, 8, 8)))
	thigh(knee)
	c.fill("d-socket", "d-hatch", 45, 5, put(limb(between(knee, a, -0.02), between(knee, a, 0.5), 24, 15)))
	foot(p.other)
	neck := between(p.shoulder, p.head, 0.5)
	c.draw("d-shell d-outer", put(limb(p.shoulder, neck, 13, 13)))
	c.draw("d-hole", put(limb(p.shoulder, p.hip, 36, 34)))
	c.draw("d-shell d-outer", put(face().moved(p.head.x, p.head.y)))
	arm(p.near)
}

// sign draws a pose as a small sign: thick lines, and the artificial leg hollow from
// the knee down.
func (c *canvas) sign(f frame, p pose) {
	through := func(pts ...pt) path {
		out := from(pts[0].x, pts[0].y)
		for _, a := range pts[1:] {
			out = out.line(a.x, a.y)
		}
		return f.put(out)
	}
	toe := func(s stance) pt { return s.foot.plus(pt{26, 5}.turned(pt{}, s.toe)) }
	heel := func(s stance) pt { return s.foot.plus(pt{-4, 5}.turned(pt{}, s.toe)) }
	a := p.own.ankle()
	c.draw("d-limb", through(p.hip, kneeOf(p.hip, a), a, heel(p.own), toe(p.own)))
	arm := func(joints []pt) {
		if len(joints) == 2 {
			c.draw("d-limb", through(p.shoulder, joints[0], joints[1]))
		}
	}
	arm(p.far)
	arm(p.near)
	a = p.other.ankle()
	knee := kneeOf(p.hip, a)
	c.draw("d-limb", through(p.hip, knee))
	c.draw("d-metal", f.put(limb(between(knee, a, 0.4), a, 8, 8)), f.put(limb(heel(p.other), toe(p.other), 12, 10)))
	c.draw("d-metal", f.put(limb(between(knee, a, 0.04), between(knee, a, 0.5), 26, 16)))
	c.draw("d-trunk", through(p.shoulder, p.hip))
	c.draw("d-solid", f.put(disc(p.head.x, p.head.y, 15)))
}

// face is a head from the side, looking right.
func face() path {
	return from(0, 17).curve(9, 17, 13, 11, 13, 5).line(16, -2, 13, -4).curve(13, -10, 10, -16, 3, -16,
		-8, -16, -14, -8, -14, 2, -14, 11, -9, 17, 0, 17).shut()
}
