package drawing

import "strconv"

// A shoe with a foot in it, over a ruler whose zero is at the heel, inside. Everything lies at its
// true length along the ruler.
const (
	lengthWide, lengthTall = 900, 250
	lengthScale            = 0.82
	lengthZero             = 302.0
	lengthBed              = 166.0 // on which the foot stands
	lengthRuler            = 200.0

	shoeInsideAt, shoeInsideLong = 3.0, 94.0 // of the one shoe, in its own units
)

var footInShoe = Live{
	Drawing: Drawing{ID: "foot-and-shoe", Width: lengthWide, Height: lengthTall, make: benched(drawFootInShoe)},
	Moves: func() []Move {
		at := func(length string) string { return filled("{%1+%2*"+length+"/mm}", lengthZero, lengthScale) }
		grown := filled("%1*inside/mm", lengthScale/shoeInsideLong)
		return []Move{
			{"shoe", "display", `from == "inside"`},
			{"board", "display", `from != "inside"`},
			{"shoe", "transform", filled("translate({%1-%2*"+grown+"} {%3+9.2*"+grown+"}) scale({"+grown+"})", lengthZero, shoeInsideAt, lengthBed)},
			{"foot", "transform", filled("translate(%1 %2) scale({%3*longest/(260*mm)})", lengthZero, lengthBed, lengthScale)},
			{"short", "d", "M" + at("shortest") + " 126V200"},
			{"long", "d", "M" + at("longest") + " 114V200"},
			{"lengths-bar", "d", filled("M"+at("shortest")+" %1H"+at("longest"), lengthRuler+1)},
			{"end", "d", "M" + at("told") + " 74V200"},
			{"end", "display", `from != "size"`},
			{"end-handle", "transform", filled("translate({%1+%2*told/mm} 58)", lengthZero, lengthScale)},
			{"end-handle", "display", `from != "size"`},
			{"toe-room", "d", "M" + at("longest") + " 90H" + at("told")},
			{"toe-room", "display", `from == "inside"`},
		}
	}(),
	Handles: []Handle{{Part: "end-handle", Input: "inside", Right: 1 / lengthScale}, {Part: "end-handle", Input: "other", Right: 1 / lengthScale}},
}

func drawFootInShoe(b *bench) {
	b.b.WriteString(`<path class="g-earth" d="M-2400 200H3300V400H-2400Z"/>`)
	b.part("shoe", func() { b.plainShoe() })
	b.part("board", func() { b.box("e", lengthZero-6, lengthBed, 306, lengthRuler-lengthBed, 2) })
	b.part("foot", func() {
		f := frame{0, 0, 1}
		b.path("p", f.put(tube(112, 170)))
		b.path("p", f.put(pill(tubeAt-20, 88, tubeAt+20, 122, 5)))
		b.path("t", f.put(shellOutline()))
		b.path("f", f.put(toeCrease()))
	})
	var marks path
	for cm := range 36 {
		x, h := lengthZero+float64(cm)*10*lengthScale, 6.0
		if cm%5 == 0 {
			h = 12
			b.text("r", x, lengthRuler+28, b.c.number(strconv.Itoa(cm)))
		}
		marks = append(marks, from(x, lengthRuler).line(x, lengthRuler+h)...)
	}
	b.path("f", marks)
	b.line("g-line", -2400, lengthRuler, 3300, lengthRuler)
	b.moving("u", "lengths-bar")
	b.moving("dash", "short")
	b.moving("f", "long")
	b.moving("h", "toe-room")
	b.moving("g-told", "end")
	b.handle("end-handle", false)
}
