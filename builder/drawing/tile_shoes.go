package drawing

import "fmt"

// The one shoe: 100 units long, its back at 0, its sole on 0, and the leg's axis at 25 (the shell of
// this room has its tube at 26 % of its length). Boot, heel and sandal share its toe and its sole.
const (
	shoeSoleLine  = "M4 0H37C43 0 45 -2.2 51 -2.2C57 -2.2 60 0 67 0H82C90 0 97 -2 100.5 -6.2C101 -7.3 100.6 -8.6 99.5 -9.2C84 -7.2 60 -8.6 2 -9.2C0.6 -6 1.4 -1.6 4 0Z"
	shoeUpperLine = "M2 -9.2C-1.6 -18 0.6 -28 5 -37C6 -38.6 8 -38.8 9.2 -37.6C15 -33.4 26 -31.6 34.5 -34.2C38 -35.4 39.6 -39.4 43.4 -40.4C45.4 -40.8 47 -39.6 48 -38C52 -31.6 60 -27 69 -24.6C80 -21.8 91 -21 96.5 -16C99.6 -13.2 100.6 -11 99.5 -9.2C84 -7.2 60 -8.6 2 -9.2Z"

	axisAt   = 25.0
	ankleUp  = 30.0 // of the pivot above the sole
	tubeHalf = 5.5
)

// laced is the shoe with its seams and laces; plainShoe is for small sizes.
func (p *pencil) laced() {
	p.d("p", shoeUpperLine)
	p.d("f", "M78.4 -22.4C75.6 -18.6 74.8 -13 75.6 -8M22 -32.6C25.6 -25 26.8 -16.4 26 -8.7M48.6 -31.4L42.4 -27.4M53.8 -26.8L47.6 -22.4M60 -23.4L54 -18.6")
	p.d("i", shoeSoleLine)
}

func (p *pencil) plainShoe() {
	p.d("p", shoeUpperLine)
	p.d("i", shoeSoleLine)
}

// pylon is the tube of an artificial leg in its clamp, as it stands in the shoe; it ends at top.
func (p *pencil) pylon(top float64) {
	p.box("p", axisAt-tubeHalf, -top, 2*tubeHalf, top-26, 0)
	p.box("p", axisAt-8.5, -64, 17, 20, 2.5)
	p.disc("i", axisAt, -54, 2.2)
}

// legShoe is the shoe with its tube, standing at x.
func (p *pencil) legShoe(x, y, scale, deg, top float64) {
	p.at(x, y, scale, deg, func() {
		p.in("translate(-25 0)", func() {
			p.pylon(top)
			p.laced()
		})
	})
}

const (
	bootLine     = "M2 -10C-1 -22 0 -36 1.6 -52C1.4 -60 1 -64 1.6 -70C2 -72 3.4 -73 5 -73H38C40 -73 41.4 -71.6 41.4 -70C41 -62 41.4 -54 44.4 -46C48 -37 58 -30.6 70 -27C82 -24 92 -23 97.4 -17C100 -14 100.6 -11.4 99.6 -10C84 -8 60 -9.4 2 -10Z"
	bootSoleLine = "M4 0H34V-3H40V0H46C52 -2.2 56 0 62 0H68V-3H74V0H82C90 0 97 -2 100.5 -6.2L99.6 -10C84 -8 60 -9.4 2 -10C0.6 -6 1.4 -1.6 4 0Z"
)

func (p *pencil) boot() {
	p.d("e", bootLine)
	p.d("f", "M1 -62H41M43 -50L36 -48M46 -42L38 -39M51 -36L44 -32M78 -25.6C74 -21 73 -14 74 -9")
	p.d("i", bootSoleLine)
}

// A shoe of 100 units stands for one of 28 cm, so a heel of 1 mm is 0.357 units high.
const heelUnit = 100.0 / 280

// heeled is a shoe with a raised heel: its shape at two heights, between which and beyond which all
// of its points lie on straight lines, so that the heel is as high as it is told to be.
//
// The upper's back rises with the heel, and the ball and the toe stay.
func heeled(mm float64) (sole, up string) {
	h := mm * heelUnit // under the heel, over the ball
	s := 4.4           // the sole under the ball
	y := func(v float64) string { return num(-v) }
	sole = fmt.Sprintf("M3 0H%s C%s %s %s %s %s %s C38 %s 48 %s 57 %s C62 0 67 0 73 0H88C94 0 98.6 -1.8 100.6 -4.4L99.4 -6.6C92 -4.6 82 -4 74 -4.6C62 -5.2 52 %s 40 %s C30 %s 14 %s 4 %s C2.4 %s 2 %s 3 0Z",
		num(19), num(19.5), y(h*0.4), num(20.5), y(h*0.75), num(24), y(h*0.96), y(h*0.9), y(h*0.42), y(0.6+h*0.06),
		y(s+h*0.42), y(s+h*0.83), y(s+h*1.02), y(s+h), y(s+h), y(s+h*0.6), y(h*0.3))
	up = fmt.Sprintf("M4 %s C1 %s 1.8 %s 5 %s C6.4 %s 8.6 %s 9.8 %s C15 %s 26 %s 38 %s C50 %s 58 %s 70 -19 C82 -18 92 -16.4 97.4 -12C99.6 -10.2 100.4 -8.2 99.4 -6.6C92 -4.6 82 -4 74 -4.6C62 -5.2 52 %s 40 %s C30 %s 14 %s 4 %s Z",
		y(s+h), y(s+h+9), y(s+h+19), y(s+h+27), y(s+h+29), y(s+h+29), y(s+h+27.4), y(s+h*0.98+19), y(s+h*0.9+14), y(s+h*0.72+13.4),
		y(s+h*0.42+13), y(16+h*0.14),
		y(s+h*0.42), y(s+h*0.83), y(s+h*1.02), y(s+h), y(s+h))
	return sole, up
}

// heel is that shoe at the amount, with its height marked from the ground; live from 0 to 120 mm.
func (p *pencil) heel(which string) {
	sole0, up0 := heeled(0)
	sole1, up1 := heeled(100)
	p.mixOf("p", which, 0, 100, up0, up1)
	p.mixOf("i", which, 0, 100, sole0, sole1)
}

// flatShoe is a shoe without a heel, and slipper one that stays open behind.
func (p *pencil) flatShoe() {
	p.d("p", "M4 -6C1.6 -16 2.4 -24 5.6 -32C7 -34 9 -34 10 -32.4C15 -25 26 -21 38 -20C50 -19 58 -21 70 -20C82 -19 92 -17 97.4 -12.4C99.6 -10.4 100.4 -8.2 99.4 -6Z")
	p.d("f", "M38 -20C46 -14 58 -14 70 -20")
	p.d("i", "M3 0H92C97 0 100.6 -2.4 100.6 -6H2.6C2 -3.6 2 -1.4 3 0Z")
}

// A foot of flesh, or a shell that looks like one, with five toes; its top is cut off round.
const (
	footLine = "M5 0C-1 -3 -2 -13 1 -21C4 -29 8 -36 8 -46V-58H38V-47C38 -38 46 -31 58 -25C70 -20 82 -17 92 -14C99 -12 102 -7 100 -3C99 -1 96 0 93 0C87 1 80 1 72 0C62 -1 56 -5 46 -5C36 -5 32 0 22 0Z"
	toeLines = "M99 -8C95 -9.4 91 -8 90.4 -4M92 -13.8C88 -13.6 85 -11.6 84.6 -8M84.6 -16.4C81 -15.8 78.6 -13.6 78.4 -10.6M77 -18.8C74 -18 72.2 -16 72.2 -13.2"
)

func (p *pencil) bareFoot(skin string) {
	p.d(skin, footLine)
	p.d("f", toeLines)
}

// sandal has a sole, two straps and the foot in it.
func (p *pencil) sandal(skin string) {
	p.in("translate(0 -6)", func() { p.bareFoot(skin) })
	p.d("i", "M1 0H93C99 0 102 -3 102 -7C98 -5.6 92 -5.6 72 -5.6C62 -6 56 -7 46 -7C36 -7 32 -6 1 -6C-1 -4 -1 -1 1 0Z")
	p.d("p h", "M66 -6C66 -14 69 -21 75 -25.4L82 -22.6C76 -18 74 -12 74 -6Z")
	p.d("p h", "M6 -31C14 -27 24 -27 41 -42L45 -36C30 -21 14 -20 3 -24Z")
}
