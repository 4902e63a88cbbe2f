package drawing

import (
	"regexp"
	"strconv"
	"strings"
)

// One leg twice on one ground: in the usual shoes, where it stands upright, and in the others. The
// sole of each is as thick as it was told, and the leg leans as the sum says. The foot lies on
// the sole and turns about its ball; the leg is fixed to the foot.
const (
	heelWide, heelTall = 900, 250
	heelGround         = 222.0
	heelScale          = 0.95
	usualAt, otherAt   = 296.0, 438.0 // the back of each shoe
	heelHandleAt       = 414.0
	ballHandleAt       = 562.0

	heelBall = 70.0 // of the shoe, where the foot turns
)

// heelPerMM is the height of a millimeter in this drawing.
const heelPerMM = heelScale * heelUnit

// The shoe with a heel of heeled() once more, for any two thicknesses: h is the sole under the heel
// less that under the ball, s the one under the ball, a is h where that is above 0. Numbers
// without a letter are units of the shoe.
const (
	anySole = "M3 {0}H19C19.5 {0.4a} 20.5 {0.75a} 24 {0.96a}C38 {0.9a} 48 {0.42a} 57 {0.06a}C62 {0} 67 {0} 73 {0}H88C94 {0} 98.6 {0.4s} 100.6 {1s}" +
		"L99.4 {2.2+1s}C92 {0.2+1s} 82 {1s} 74 {0.2+1s}C62 {0.8+1s} 52 {1s+0.42h} 40 {1s+0.83h}C30 {1s+1.02h} 14 {1s+1h} 4 {1s+1h}Z"
	anyUpper = "M4 {1s+1h}C1 {9+1s+1h} 1.8 {19+1s+1h} 5 {27+1s+1h}C6.4 {29+1s+1h} 8.6 {29+1s+1h} 9.8 {27.4+1s+1h}C15 {19+1s+0.98h} 26 {14+1s+0.9h} 38 {13.4+1s+0.72h}" +
		"C50 {13+1s+0.42h} 58 {11.6+1s+0.14h} 70 {14.6+1s}C82 {13.6+1s} 92 {12+1s} 97.4 {7.6+1s}C99.6 {5.8+1s} 100.4 {3.8+1s} 99.4 {2.2+1s}" +
		"C92 {0.2+1s} 82 {1s} 74 {0.2+1s}C62 {0.8+1s} 52 {1s+0.42h} 40 {1s+0.83h}C30 {1s+1.02h} 14 {1s+1h} 4 {1s+1h}Z"
)

var (
	shoeLevel  = regexp.MustCompile(`\{[^}]*\}`)
	shoeFactor = regexp.MustCompile(`([\d.]+)([hsa])`)
)

// shoeMove is the move of a shape of the shoe: its heel height and its ball are values of the figure.
func shoeMove(shape, heel, ball string) string {
	amount := map[string]string{"h": heel + "/mm", "s": ball + "/mm", "a": "max(0," + heel + "/mm)"}
	return shoeLevel.ReplaceAllStringFunc(shape, func(up string) string {
		if up == "{0}" {
			return "0"
		}
		up = shoeFactor.ReplaceAllStringFunc(strings.Trim(up, "{}"), func(f string) string {
			m := shoeFactor.FindStringSubmatch(f)
			share, _ := strconv.ParseFloat(m[1], 64)
			return filled("%1*"+amount[m[2]], heelUnit*share)
		})
		return "{-(" + up + ")}"
	})
}

// heelFoot is how far a foot is turned by its shoe, and heelLean how far the leg leans, at the least
// and at the most, in degrees. The foot as drawn is 26 cm long; the sums are of the reader's own length.
func heelFoot(heel string) string { return "tilt(" + heel + ",long_lever(260*mm))/deg" }

const (
	heelLean = "tilt(change,long_lever(length))/deg"
	heelMost = "tilt(change,short_lever(length))/deg"
)

var heelChange = Live{
	Drawing: Drawing{ID: "heel-change", Width: heelWide, Height: heelTall, make: benched(drawHeelChange)},
	Moves: func() []Move {
		var out []Move
		for _, s := range []struct{ name, heel, ball, lean string }{{"usual", "usual", "usual_ball", "0"}, {"other", "new", "new_ball", heelLean}} {
			out = append(out,
				Move{s.name + "-sole", "d", shoeMove(anySole, s.heel, s.ball)},
				Move{s.name + "-upper", "d", shoeMove(anyUpper, s.heel, s.ball)},
				Move{s.name + "-foot", "transform", filled("translate(0 {-%1*"+s.ball+"/mm}) rotate({"+heelFoot(s.heel)+"} %2 0)", heelUnit, heelBall)},
				Move{s.name + "-leg", "transform", filled("rotate({"+s.lean+"-"+heelFoot(s.heel)+"} %1 %2)", axisAt, -ankleUp)},
			)
		}
		// A knee that is pushed bends; pushed the other way it only stays straight.
		thigh := "rotate({-min(45,max(0,2*" + heelLean + "))} 0 -162)"
		const r = 122
		bar := func(x float64, thick string) string {
			return filled("M%1 %4H%3M%2 %4V{%4-%5*"+thick+"/mm}M%1 {%4-%5*"+thick+"/mm}H%3", x-5, x, x+5, heelGround, heelPerMM)
		}
		rise := func(x float64, thick string) string {
			return filled("translate(%1 {%2-%3*"+thick+"/mm})", x, heelGround, heelPerMM)
		}
		return append(out,
			Move{"thigh-under", "transform", thigh},
			Move{"thigh-over", "transform", thigh},
			Move{"upright", "transform", "rotate({0-" + heelFoot("new") + "})"},
			Move{"least", "transform", "rotate({" + heelLean + "})"},
			Move{"most", "transform", "rotate({" + heelMost + "})"},
			Move{"lean-arc", "d", filled("M0 -%1Q{%1*sine(lean/2)/sine(90*deg-lean/2)} -%1 {%1*sine(lean)} {-%1*sine(90*deg-lean)}", r)},
			Move{"heel-size", "d", bar(heelHandleAt, "new_heel")},
			Move{"ball-size", "d", bar(ballHandleAt, "new_ball")},
			Move{"heel-handle", "transform", rise(heelHandleAt, "new_heel")},
			Move{"ball-handle", "transform", rise(ballHandleAt, "new_ball")},
		)
	}(),
	Handles: []Handle{{Part: "heel-handle", Input: "new-heel", Down: -1 / heelPerMM}, {Part: "ball-handle", Input: "new-ball", Down: -1 / heelPerMM}},
}

func drawHeelChange(b *bench) {
	b.b.WriteString(`<path class="g-earth" d="M-2400 ` + num(heelGround) + `H3300V400H-2400Z"/>`)
	for _, s := range []struct {
		name string
		x    float64
	}{{"usual", usualAt}, {"other", otherAt}} {
		b.at(s.x, heelGround-1, heelScale, 0, func() {
			b.part(s.name+"-foot", func() {
				b.part(s.name+"-leg", func() {
					b.in("translate(25 0)", func() { b.limbOver(b.thighOf(s.name)) })
				})
				b.in("translate(3) scale(0.94)", func() { b.d("t", footLine) })
				if s.name == "other" {
					b.in("translate(25 -30)", func() {
						b.part("upright", func() {
							b.line("dash", 0, 0, 0, -176)
							b.part("least", func() { b.line("dash", 0, 0, 0, -176) })
							b.part("most", func() { b.line("dash", 0, 0, 0, -176) })
							b.moving("h", "lean-arc")
						})
					})
				}
			})
			b.moving("p", s.name+"-upper")
			b.moving("i", s.name+"-sole")
		})
	}
	b.line("g-line", -2400, heelGround, 3300, heelGround)
	b.moving("g-told", "heel-size")
	b.moving("g-told", "ball-size")
	b.handle("heel-handle", true)
	b.handle("ball-handle", true)
	// Between the shin and the edge of the narrowest screen: longer words grow to both sides.
	for i, id := range []string{"knee-1", "knee-2", "knee-3"} {
		b.says("d-text d-halo", id, pt{567, 109 + float64(i)*19}, above)
	}
	b.says("d-text", "usual-word", pt{usualAt, 239}, right)
	b.says("d-text", "other-word", pt{otherAt, 239}, right)
}

// thighOf draws what is above a knee: in the usual shoes it stands, in the others it turns. It has two parts, for
// limbOver draws the outline of a limb under what fills it.
func (p *pencil) thighOf(name string) func(func()) {
	if name == "usual" {
		return func(draw func()) { draw() }
	}
	names := []string{"thigh-under", "thigh-over"}
	return func(draw func()) {
		p.part(names[0], draw)
		names = names[1:]
	}
}
