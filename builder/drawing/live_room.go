package drawing

// A leg cut open at the socket, from the end of the limb down to the sole of the foot, and the same
// lengths beside it in one bar: the foot, what is left, and the end of the socket with what joins it.
const (
	roomWide, roomTall = 900, 250
	roomGround         = 232.0
	roomScale          = 0.5
	roomBar, roomWords = 494.0, 512.0
	roomHandleAt       = 308.0
	buildHandleAt      = 342.0
)

var roomFrame = frame{358, roomGround, roomScale}

// The joint's plate as buildHeight draws it: its foot is built 110 mm high.
const drawnBuild = 110.0

// Where the limb ends in its drawing.
const limbEnd = 268.0

var roomUnder = Live{
	Drawing: Drawing{ID: "room-under-the-socket", Width: roomWide, Height: roomTall, make: benched(drawRoom)},
	Moves: func() []Move {
		f := roomFrame
		x0, x1 := f.at(tubeAt-15, 0).x, f.at(tubeAt+15, 0).x
		rise := func(high string, drawn float64) string {
			return filled("translate(0 {-%1*("+high+"/mm-%2)})", roomScale, drawn)
		}
		from := func(low, high string) string { // a piece of the bar
			return filled("M%1 {%3-%4*"+low+"/mm}H%2V{%3-%4*"+high+"/mm}H%1Z", roomBar-7, roomBar+7, roomGround, roomScale)
		}
		bar := func(x float64, high string) string {
			return filled("M%1 %4H%3M%2 %4V{%4-%5*"+high+"/mm}M%1 {%4-%5*"+high+"/mm}H%3", x-5, x, x+5, roomGround, roomScale)
		}
		grip := func(x float64, high string) string {
			return filled("translate(%1 {%2-%3*"+high+"/mm})", x, roomGround, roomScale)
		}
		word := func(middle string) string {
			return filled("translate(%1 {%2-%3*"+middle+"/mm})", roomWords, roomGround, roomScale)
		}
		return []Move{
			{"block", "d", filled("M%1 {%3-%4*min(84, build/mm-20)}H%2V{%3-%4*(build/mm-14)}H%1Z", x0, x1, f.y, f.scale)},
			{"tube", "d", filled("M%1 {%3-%4*build/mm}H%2V{%3-%4*(room-parts)/mm}H%1Z", x0, x1, f.y, f.scale)},
			{"tube", "display", "left > 0*mm"},
			{"parts", "d", filled("M%1 {%3-%4*room/mm}H%2V{%3-%4*(room-parts)/mm}H%1Z", x0-5, x1+5, f.y, f.scale)},
			{"connector", "transform", rise("build", drawnBuild)},
			{"socket", "transform", rise("room", limbEnd)},
			{"limb-level", "d", filled("M%1 {%3-%4*room/mm}H%2", f.at(tubeAt, 0).x, roomBar+7, roomGround, roomScale)},
			{"foot-level", "d", filled("M%1 {%3-%4*build/mm}H%2", f.at(tubeAt+20, 0).x, roomBar+7, roomGround, roomScale)},
			{"build-bar", "d", from("(build-build)", "build")},
			{"left-bar", "d", from("build", "(room-parts)")},
			{"left-bar", "display", "left > 0*mm"},
			{"parts-bar", "d", from("(room-parts)", "room")},
			{"build-at", "transform", word("(build/2)")},
			{"left-at", "transform", word("(build+left/2)")},
			{"parts-at", "transform", word("(room-parts/2+20*mm)")},
			{"room-size", "d", bar(roomHandleAt, "room")},
			{"build-size", "d", bar(buildHandleAt, "build")},
			{"room-handle", "transform", grip(roomHandleAt, "room")},
			{"build-handle", "transform", grip(buildHandleAt, "build")},
		}
	}(),
	Handles: []Handle{{Part: "room-handle", Input: "room", Down: -1 / roomScale}, {Part: "build-handle", Input: "build", Down: -1 / roomScale}},
}

func drawRoom(b *bench) {
	f := roomFrame
	const brim, top = 400.0, 1100.0 // the limb goes on past the upper edge, however low its end stands
	b.b.WriteString(`<path class="g-earth" d="M-2400 232H3300V400H-2400Z"/>`)
	b.path("t", f.put(shellOutline()))
	b.path("p f", f.put(shellHollow()))
	b.path("i", f.put(heelLeaf()), f.put(leaf(9, 5, roundSpine...)))
	b.moving("p", "block")
	b.moving("p", "tube")
	b.part("connector", func() {
		b.path("p", f.put(box(tubeAt-20, 91, tubeAt+20, 96)))
		b.path("p", f.put(pill(tubeAt-19, 98, tubeAt+19, drawnBuild, 3)))
	})
	b.part("socket", func() {
		b.path("p", f.put(from(tubeAt-30, 252).line(tubeAt+30, 252).curve(tubeAt+66, 276, tubeAt+70, 330, tubeAt+76, brim).line(tubeAt+92, top, tubeAt+84, top, tubeAt+68, brim).
			curve(tubeAt+62, 330, tubeAt+56, 290, tubeAt+20, limbEnd-4, tubeAt+10, limbEnd-8, tubeAt-10, limbEnd-8, tubeAt-20, limbEnd-4, tubeAt-56, 290, tubeAt-62, 330, tubeAt-68, brim).
			line(tubeAt-84, top, tubeAt-92, top, tubeAt-76, brim).curve(tubeAt-70, 330, tubeAt-66, 276, tubeAt-30, 252).shut()))
		b.path("t", f.put(from(tubeAt-80, top).line(tubeAt-64, brim).curve(tubeAt-58, 340, tubeAt-50, limbEnd, tubeAt, limbEnd, tubeAt+50, limbEnd, tubeAt+58, 340, tubeAt+64, brim).line(tubeAt+80, top)))
	})
	b.moving("e", "parts")
	b.moving("dash", "limb-level")
	b.moving("dash", "foot-level")
	b.moving("t", "build-bar")
	b.moving("p", "left-bar")
	b.moving("e", "parts-bar")
	b.line("g-line", -2400, roomGround, 3300, roomGround)
	b.moving("g-told", "room-size")
	b.moving("g-told", "build-size")
	b.handle("room-handle", true)
	b.handle("build-handle", true)
	for _, id := range []string{"build", "left", "parts"} {
		b.together(id+"-at", func() {
			b.says("d-text", id+"-word", pt{0, -9}, right)
			b.says(bold, id+"-size", pt{0, 10}, right)
		})
	}
}
