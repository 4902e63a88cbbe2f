package drawing

import "math"

// A person for tiles: 172 units tall, footing at 0, seen from the side and looking right. A limb is a tube; knees follow
// from hip and ankle. What varies is written in a someone, and nothing else does.
type someone struct {
	hip, neck    pt // neck is worked out where it is not given
	lean         float64
	bow          float64 // how far the body above the hips is turned forward, in degrees, with the head half as far
	near, far    footing
	nearLeg      madeOf // the leg that is nearer to the viewer
	farLeg       madeOf
	nearArm      []pt // elbow and hand
	farArm       []pt
	hair         string
	skin         string // p or t or e
	coat, legs   string
	stout, child bool
	hem          float64 // how far the coat goes below the hip
	hold, behind func(p *pencil)
	over         func(p *pencil) // what hangs over the coat, under the nearer arm
}

// footing is where a foot is: the place under its ankle, y up from the ground being negative, and how far its toe is up.
type footing struct{ x, y, toe float64 }

type madeOf int

const (
	ownLeg     madeOf = iota
	belowKnee         // artificial from below the knee
	aboveKnee         // artificial from above the knee, with a joint
	endedBelow        // no leg worn: the limb ends below the knee
	bareLeg           // one's own, with no shoe
)

const (
	personThigh = 41.0
	personShank = 39.5
)

func bentKnee(hip, ankle pt) pt {
	along := ankle.minus(hip)
	l := along.length()
	d := min(l, personThigh+personShank-0.3)
	up := (d*d + personThigh*personThigh - personShank*personShank) / (2 * d)
	u := along.times(1 / l)
	out := math.Sqrt(max(0, personThigh*personThigh-up*up))
	return hip.plus(u.times(up)).plus(pt{u.y, -u.x}.times(out))
}

func (s footing) ankle() pt { return pt{s.x, s.y}.plus(pt{0, -9}.turned(pt{}, -s.toe)) }

// one draws a person.
func (p *pencil) one(s someone) {
	s = s.filled()
	if s.behind != nil {
		s.behind(p)
	}
	p.arm(s, s.farArm)
	p.leg(s, s.far, s.farLeg)
	p.leg(s, s.near, s.nearLeg)
	if s.bow == 0 {
		p.body(s)
	} else {
		p.in("rotate("+num(s.bow)+" "+num(s.hip.x)+" "+num(s.hip.y)+")", func() { p.body(s) })
	}
	if s.over != nil {
		s.over(p)
	}
	if s.hold != nil {
		s.hold(p)
	}
	p.arm(s, s.nearArm)
}

func (s someone) filled() someone {
	if s.hip == (pt{}) {
		s.hip = pt{0, -87}
	}
	if s.neck == (pt{}) {
		s.neck = s.hip.plus(pt{s.lean, -52})
	}
	for _, d := range []struct {
		of *string
		is string
	}{{&s.skin, "p"}, {&s.coat, "e"}, {&s.legs, "t"}, {&s.hair, "short"}} {
		if *d.of == "" {
			*d.of = d.is
		}
	}
	if s.hem == 0 {
		s.hem = 9
	}
	return s
}

func (p *pencil) arm(s someone, at []pt) {
	if len(at) != 2 {
		return
	}
	shoulder := s.neck.plus(pt{-1, 7}).turned(s.hip, s.bow)
	p.disc(s.skin, at[1].x, at[1].y, 4.1)
	p.path(s.coat, tubeOf([]pt{shoulder, at[0], between(at[0], at[1], 0.88)}, []float64{12.5, 10, 7.4}, true, true))
}

func (p *pencil) shoeOf(s footing) {
	p.at(s.x, s.y, 1, -s.toe, func() { p.in("translate(-7 0) scale(.285)", p.plainShoe) })
}

func (p *pencil) leg(s someone, at footing, of madeOf) {
	thigh, knee := 23.0, 16.0
	if s.stout {
		thigh, knee = 27, 18
	}
	a := at.ankle()
	k := bentKnee(s.hip, a)
	switch of {
	case ownLeg, bareLeg:
		if of == bareLeg {
			p.at(at.x, at.y, 1, -at.toe, func() { p.in("translate(-7 0) scale(.285)", func() { p.bareFoot(s.skin) }) })
		} else {
			p.shoeOf(at)
		}
		p.path(s.legs, tubeOf([]pt{s.hip, between(s.hip, k, 0.5), k, between(k, a, 0.5), between(k, a, 0.98)}, []float64{thigh, thigh - 2, knee, 14, 11.5}, true, false))
	case belowKnee:
		p.path("i", tubeOf([]pt{between(k, a, 0.5), a}, []float64{4.6, 4.6}, false, false))
		p.shoeOf(at)
		p.path("p", tubeOf([]pt{between(k, a, -0.02), between(k, a, 0.2), between(k, a, 0.4), between(k, a, 0.56)}, []float64{15.5, 15, 12, 7}, true, true))
		p.path(s.legs, tubeOf([]pt{s.hip, between(s.hip, k, 0.5), between(s.hip, k, 0.86), between(k, a, 0.08)}, []float64{thigh + 1, thigh, knee + 3.4, knee + 3}, true, false))
	case aboveKnee:
		p.path("i", tubeOf([]pt{between(k, a, 0.2), a}, []float64{4.6, 4.6}, false, false))
		p.shoeOf(at)
		p.path("p", tubeOf([]pt{between(s.hip, k, 0.4), between(s.hip, k, 0.62), between(s.hip, k, 0.86)}, []float64{thigh - 2, thigh - 5, 9}, true, true))
		p.path("e", tubeOf([]pt{between(s.hip, k, 0.84), k, between(k, a, 0.3)}, []float64{9, 11.5, 8}, true, true))
		p.disc("i", k.x, k.y, 2.4)
		p.path(s.legs, tubeOf([]pt{s.hip, between(s.hip, k, 0.25), between(s.hip, k, 0.5)}, []float64{thigh + 1, thigh + 1, thigh + 1}, true, false))
	case endedBelow:
		p.path(s.skin, tubeOf([]pt{k, between(k, a, 0.2), between(k, a, 0.42)}, []float64{15, 14, 11}, true, true))
		p.path(s.legs, tubeOf([]pt{s.hip, between(s.hip, k, 0.5), between(s.hip, k, 0.86), between(k, a, 0.08)}, []float64{thigh + 1, thigh, knee + 3.4, knee + 3}, true, false))
	}
}

func (p *pencil) body(s someone) {
	wide := 31.0
	if s.stout {
		wide = 37
	}
	front := 0.0
	if s.stout {
		front = 3
	}
	n := s.neck
	p.path(s.skin, tubeOf([]pt{{n.x, n.y + 8}, {n.x + 1.6, n.y - 6}}, []float64{10, 9.5}, true, true))
	p.head(s, pt{n.x + 4, n.y - 17})
	mid := pt{s.hip.x + front, s.hip.y}
	p.path(s.coat, tubeOf([]pt{{s.hip.x - 0.5, s.hip.y + s.hem}, {s.hip.x + front*0.6, s.hip.y - 8}, between(mid, n, 0.42), between(s.hip, n, 0.78), {n.x - 0.4, n.y + 1.6}},
		[]float64{wide + 1, wide, wide - 1, wide - 3, 11}, false, true))
	p.path("f s", from(n.x+4.5, n.y+1).curve(n.x+7, n.y+10, n.x+6, n.y+24, s.hip.x+8, s.hip.y+6))
}

const faceLine = "M-4 15C-4.4 11.6 -6 9.6 -8 7.4C-10.6 4.4 -11.4 0.6 -11 -3.4C-10.4 -10 -5 -13.6 1 -13.6C7.4 -13.6 11 -9.6 11 -4.6C11.2 -3 12.8 -0.8 13.6 0.8C14 1.8 13.4 2.5 12.2 2.7C12.4 3.8 12.6 4.4 12 5.2C12.4 6 12.2 6.8 11.6 7.2C11.6 9.6 10 11 7.6 10.8C5.8 10.7 4.8 11 4.4 12L4.6 15Z"

// hairs is hair by its kind: how it is filled, and its shape.
var hairs = map[string][][2]string{
	"bun": {{"i", "M-8.4 7C-11.6 3.6 -12.4 -1 -11.6 -5C-10.4 -11.6 -4.6 -15 1.6 -14.8C8.4 -14.6 12.2 -10.2 11.2 -6.2C7 -6.4 3 -8.6 1 -10.4C1 -6.6 -1 -2.6 -3.4 -0.6C-3 2 -4.6 5.6 -8.4 7Z"},
		{"i", "M-8.8 -4.4C-8.8 -1.9 -10.9 0.2 -13.4 0.2C-15.9 0.2 -18 -1.9 -18 -4.4C-18 -6.9 -15.9 -9 -13.4 -9C-10.9 -9 -8.8 -6.9 -8.8 -4.4Z"}},
	"short": {{"i", "M-8.6 7C-12 3.6 -12.4 -1 -11.6 -5C-10.4 -11.8 -4.6 -15.2 1.6 -15C8.6 -14.8 12.2 -10.2 11 -6.4C6.6 -5.8 2.4 -7 0.2 -8.6C0.2 -5.4 -1 -3 -2.2 -1.6C-4 -2.6 -6 -0.6 -4.6 1.8C-5 4 -6.4 6 -8.6 7Z"}},
	"bald":  {{"p", "M-8.8 6.4C-11.6 3.6 -12 0 -11.4 -3.2C-8.4 -4.6 -5.6 -3.6 -4.4 -1.2C-5.8 -0.4 -5.6 1.4 -4.8 2.4C-5.4 4.4 -6.8 5.8 -8.8 6.4Z"}},
	"cap": {{"i", "M-8.6 6.4C-11.4 3.6 -11.8 0 -11.2 -3L-3 -3C-3 0 -5 4.6 -8.6 6.4Z"},
		{"t", "M-11.8 -3.4C-12 -11 -6 -15.6 1 -15.4C8 -15.2 11.2 -10.6 11.4 -6C14.4 -5.6 17.6 -4.8 19 -3.4C13 -2.6 2 -3.6 -11.8 -3.4Z"}},
	"bob":    {{"p", "M-9.6 12C-13.4 6 -13.4 -1 -12 -5.6C-10.2 -12.4 -4.6 -15.4 1.6 -15.2C8.6 -15 12.2 -10.6 11.2 -6.6C7 -6.4 3 -8.2 1.2 -10C1.6 -4 0.4 4 -3 11.4C-5 13 -8 13.2 -9.6 12Z"}},
	"curls":  {{"i", "M-9 8C-13 8 -15 4 -13.4 1C-16.4 -1 -16.4 -5 -13.6 -7C-14 -11 -11 -14 -7.4 -13.6C-5.6 -17 -1 -18 1.8 -15.6C5 -17.4 9 -15.6 9.8 -12.6C12.6 -11.4 13.2 -8 11.4 -6.4C8 -6 4 -7 1 -9C0.6 -6 -1 -3.4 -3 -2C-3.4 2 -4.6 6 -9 8Z"}},
	"scarf":  {{"e", "M-7 14C-12 9 -14 2 -12.6 -4C-11 -12 -5 -16 1.6 -15.6C8 -15.2 12 -11 11.2 -7C8 -9 5 -9.4 2.6 -7.6C3.4 -1 3 6 1.6 12L4.8 14.6L5 19C0 20 -5 18 -7 14Z"}},
	"tail":   {{"i", "M-8.6 5C-11.6 2.6 -12.4 -1 -11.6 -5C-10.4 -11.6 -4.6 -15 1.6 -14.8C8.4 -14.6 12.2 -10.2 11.2 -6.2C7 -6.4 3 -8.6 1 -10.4C1 -6.6 -1 -2.6 -3.4 -0.6C-4 2 -6 4 -8.6 5Z"}, {"i", "M-11 -8C-16 -9 -19 -5 -18.4 0C-18 5 -19 9 -21 12C-16 11 -13.6 6 -13.8 1C-13.8 -2 -13 -4 -11 -4Z"}},
	"parted": {{"e", "M-8.6 7C-12 3.6 -12.4 -1 -11.6 -5C-10.4 -11.8 -4.6 -15.2 1.6 -15C8.6 -14.8 12.2 -10.2 11 -6.4C6.6 -5.8 2.4 -7 0.2 -8.6C0.2 -5.4 -1 -3 -2.2 -1.6C-4 -2.6 -6 -0.6 -4.6 1.8C-5 4 -6.4 6 -8.6 7Z"}},
}

func (p *pencil) head(s someone, at pt) {
	size := 1.0
	if s.child {
		size = 1.38
		at.y -= 5
	}
	p.at(at.x, at.y, size, -s.bow/2, func() {
		p.d(s.skin, faceLine)
		for _, h := range hairs[s.hair] {
			p.d(h[0], h[1])
		}
	})
}

// The aids that a person walks with. A hand is where the person's own is.
func (p *pencil) cane(hand pt, foot float64) {
	p.path("h", from(foot, 0).line(hand.x+1, hand.y), from(hand.x-6, hand.y-1.6).curve(hand.x-3, hand.y-3, hand.x+3, hand.y-3, hand.x+7, hand.y-0.6))
}

// crutch goes from under the arm to the ground, with a grip at the hand.
func (p *pencil) crutch(top, hand pt, foot float64) {
	p.path("h", from(top.x-5, top.y-0.5).curve(top.x-2, top.y+1.4, top.x+2, top.y+1.4, top.x+5, top.y-0.5), from(hand.x-5, hand.y).line(hand.x+5, hand.y))
	p.path("", from(top.x-2.4, top.y).line(foot-1, -26, foot, 0), from(top.x+2.4, top.y).line(foot+1, -26, foot, 0))
}

// frameWalker stands in front of its user: two legs seen from the side, a grip, a bar; wheels where it rolls.
func (p *pencil) frameWalker(x float64, wheels bool) {
	p.path("h", from(x, 0).line(x+5, -76).curve(x+6, -82, x+3, -84, x-3, -84).line(x-12, -84), from(x+28, 0).line(x+18, -70).curve(x+17, -76, x+12, -80, x+4, -81))
	p.path("", from(x+2, -34).line(x+23.5, -34), from(x+3.4, -54).line(x+20.6, -54))
	if wheels {
		p.disc("p", x+28, -6, 6)
		p.disc("i", x+28, -6, 1.2)
	}
}

// rollator is a walker with four wheels, a seat and a bag.
func (p *pencil) rollator(x float64) {
	p.path("h", from(x+2, -9).line(x+16, -66).line(x+9, -88).line(x-6, -90), from(x+36, -9).line(x+16, -66))
	p.path("e", from(x+9, -46).line(x+31, -46).line(x+29, -30).line(x+11, -30).shut())
	p.path("h", from(x+6, -48).line(x+33, -48))
	for _, w := range []float64{x + 2, x + 36} {
		p.disc("p", w, -8, 8)
		p.disc("i", w, -8, 1.6)
	}
}

// wheelchair is a chair with a large wheel at 0 and a small one in front.
func (p *pencil) wheelchair() {
	p.path("h", from(-14, -96).line(-26, -97), from(-14, -96).line(-10, -48).line(30, -48).line(36, -12).line(50, -10))
	p.path("h", from(-8, -66).line(20, -66).line(22, -48))
	p.disc("p", 34, -7, 7)
	p.disc("i", 34, -7, 1.4)
}

func (p *pencil) bigWheel() {
	p.disc("", -2, -30, 30)
	p.disc("f", -2, -30, 25)
	p.disc("i", -2, -30, 2.4)
}

// People whom the tiles show, of several ages, sizes and skins. Each stands at 0.
var (
	woman = someone{hip: pt{0, -84.5}, lean: 4, near: footing{17, 0, 10}, far: footing{-21, -7, -20}, nearArm: []pt{{3, -110}, {20, -94}}, farArm: []pt{{-10, -108}, {-15, -88}}, hair: "bun", legs: "p", hem: 14, nearLeg: belowKnee}
)
