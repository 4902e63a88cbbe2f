package drawing

// What one foot bears, piled on a shoe, each box as high as it is heavy; and a person who wears and
// carries it. A pile that would leave the picture is drawn smaller as a whole.
const (
	loadWide, loadTall = 900, 250
	loadGround         = 226.0
	pileOn             = 194.0 // the level on which the pile stands
	pileAt, pileHalf   = 430.0, 24.0
	pileRoom           = 166.0 // units
	pileUsual          = 110.0 // the kilograms that fill the room; of more, each takes less
	loadWordsAt        = 478.0
)

const pileShare = "/max(110,load/kg)*166"

var loadInputs = []string{"body", "pack", "child", "tools"}

var loadStack = Live{
	Drawing: Drawing{ID: "load", Width: loadWide, Height: loadTall, make: benched(drawLoad)},
	Moves: func() []Move {
		var out []Move
		below := "0"
		for i, in := range loadInputs {
			out = append(out,
				Move{in + "-box", "d", filled("M%1 {%3-("+below+")"+pileShare+"}H%2V{%3-("+below+"+"+in+"/kg)"+pileShare+"}H%1Z", pileAt-pileHalf, pileAt+pileHalf, pileOn)},
				Move{in + "-lead", "d", filled("M%1 {%2-("+below+"+"+in+"/kg/2)"+pileShare+"}L%3 %4", pileAt+pileHalf, pileOn, loadWordsAt-5, loadWordLevel(i))},
				Move{in + "-box", "display", in + " > 0*kg"},
				Move{in + "-lead", "display", in + " > 0*kg"},
			)
			if in != "body" {
				out = append(out, Move{in + "-carried", "display", in + " > 0*kg"})
			}
			below += "+" + in + "/kg"
		}
		return append(out,
			Move{"body-handle", "transform", filled("translate(%1 {%2-body/kg"+pileShare+"})", pileAt-pileHalf-18, pileOn)},
			Move{"pack-handle", "transform", filled("translate(%1 {%2-(body+pack)/kg"+pileShare+"})", pileAt+pileHalf+18, pileOn)},
		)
	}(),
	Handles: []Handle{{Part: "body-handle", Input: "body", Down: -pileUsual / pileRoom}, {Part: "pack-handle", Input: "pack", Down: -pileUsual / pileRoom}},
}

// loadWordLevel keeps the words apart, however thin a box is.
func loadWordLevel(i int) float64 { return 152 - 40*float64(i) }

func drawLoad(b *bench) {
	b.b.WriteString(`<path class="g-earth" d="M-2400 226H3300V400H-2400Z"/>`)
	b.at(330, loadGround-1, 0.94, 0, func() {
		b.one(someone{lean: 2, near: footing{x: -3}, far: footing{x: 7}, nearLeg: belowKnee, nearArm: []pt{{-6, -110}, {4, -90}}, hair: "short", skin: "e", coat: "p", legs: "t",
			behind: func(p *pencil) {
				p.part("child-carried", func() {
					p.at(-5, -153, 0.6, 0, func() {
						p.one(someone{hip: pt{0, -8}, neck: pt{-3, -44}, near: footing{16, 26, 20}, far: footing{20, 24, 20}, nearArm: []pt{{-2, -26}, {10, -22}}, hair: "curls", skin: "e", coat: "p", legs: "t", child: true, hem: 6})
					})
				})
			},
			over: func(p *pencil) { p.part("pack-carried", func() { pack(p) }) },
			hold: func(p *pencil) {
				p.part("tools-carried", func() {
					p.path("h", from(-4, -74).line(-2, -88, 10, -88, 12, -74))
					p.box("e", -12, -74, 34, 22, 2)
					p.line("f", -12, -67, 22, -67)
				})
			}})
	})
	b.at(pileAt, loadGround-1, 0.62, 0, func() { b.in("translate(-25 0)", b.laced) })
	b.box("p", pileAt-3.4, pileOn+4, 6.8, 10, 0)
	b.box("i", pileAt-pileHalf-3, pileOn, 2*pileHalf+6, 4, 1)
	for i, in := range loadInputs {
		b.moving([]string{"t", "e", "p", "e"}[i], in+"-box")
		b.moving("s", in+"-lead")
	}
	b.line("g-line", -2400, loadGround, 3300, loadGround)
	b.handle("body-handle", true)
	b.handle("pack-handle", true)
	for i, in := range loadInputs {
		b.says("d-text", in+"-word", pt{loadWordsAt, loadWordLevel(i)}, right)
	}
}
