package drawing

import "fmt"

// Shoes, feet and what is worn, standing on the ground.
var shoeTiles = []tileShape{
	{name: "shoe", draw: func(p *pencil) { p.flat(func() { p.at(24, 75.4, 0.74, 0, p.laced) }) }},
	{name: "boot", draw: func(p *pencil) { p.flat(func() { p.at(24, 75.4, 0.74, 0, p.boot) }) }},
	{name: "heel", usual: 50, of: "length", draw: func(p *pencil) {
		p.flat(func() { p.at(22, 75.4, 0.74, 0, func() { p.heel(""); p.heelMark("", "", 112) }) })
	}},
	// Pairs apart by what an answer says: about the same, up to 1/2 in, more than that, and a heel over 2 in.
	{name: "heels-same", draw: func(p *pencil) { p.flat(func() { p.heelsOf(20, 20) }) }},
	{name: "heels-little", draw: func(p *pencil) { p.flat(func() { p.heelsOf(10, 22.7) }) }},
	{name: "heels-apart", draw: func(p *pencil) { p.flat(func() { p.heelsOf(5, 48) }) }},
	{name: "heels-high", draw: func(p *pencil) { p.flat(func() { p.at(24, 75.4, 0.74, 0, func() { p.fixedHeel(70) }) }) }},
	{name: "raised-heel", draw: func(p *pencil) { p.flat(func() { p.at(24, 75.4, 0.74, 0, func() { p.fixedHeel(40) }) }) }},
	{name: "sandal", draw: func(p *pencil) {
		p.flat(func() {
			p.at(4, 75.4, 0.54, 0, p.flatShoe)
			p.at(64, 75.4, 0.5, 0, func() { p.sandal("t") })
		})
	}},
	{name: "barefoot", draw: func(p *pencil) { p.flat(func() { p.at(26, 75.4, 0.74, 0, func() { p.bareFoot("e") }) }) }},
	{name: "shell", draw: func(p *pencil) {
		p.flat(func() {
			p.at(14, 75.4, 0.62, 0, func() { p.bareFoot("e") })
			for i, c := range []string{"p", "t", "e"} {
				p.box(c, 86, 46-float64(i)*16, 22, 12, 2)
			}
		})
	}},
	{name: "toes", draw: func(p *pencil) { p.flat(func() { p.at(24, 75.4, 0.74, 0, func() { p.sandal("t") }) }) }},
	{name: "own-look", draw: func(p *pencil) {
		p.flat(func() {
			p.at(24, 75.4, 0.74, 0, func() {
				p.d("p", footLine)
				p.d("h", "M6 -44C14 -38 22 -48 30 -42C34 -40 36 -42 38 -44")
				p.d("i", "M14 -10L17 -18L10 -23L19 -23L22 -31L25 -23L34 -23L27 -18L30 -10L22 -15Z")
				p.d("", "M42 -24L50 -14L60 -18L68 -9")
				p.d("f", toeLines)
			})
		})
	}},
	{name: "worn-shell", draw: func(p *pencil) {
		p.flat(func() {
			p.at(24, 75.4, 0.74, 0, func() {
				p.bareFoot("t")
				p.d("h", "M46 -29L51 -22L46 -17L52 -10L49 -4")
				p.d("f", "M6 -3L14 -5M20 -3L27 -5M70 -4L77 -6")
			})
		})
	}},
	{name: "shoe-horn", draw: func(p *pencil) {
		p.flat(func() {
			p.at(28, 75.4, 0.62, 0, func() {
				p.in("translate(-12 -28) rotate(22 30 0)", func() { p.pylon(74); p.bareFoot("e") })
				p.laced()
			})
			p.d("p", "M24 60C18 46 12 26 12 10C12 5 18 5 19 10C21 28 26 44 31 56Z")
		})
	}},
	{name: "tight-shoe", draw: func(p *pencil) {
		p.flat(func() {
			p.at(24, 75.4, 0.74, 0, p.laced)
			p.arrowTo("h", from(112, 62).line(101, 66), 6)
			p.arrowTo("h", from(86, 36).line(81, 50), 6)
			p.arrowTo("h", from(8, 62).line(20, 64), 6)
		})
	}},
	{name: "shoe-slides", draw: func(p *pencil) {
		p.flat(func() {
			p.at(40, 75.4, 0.66, 0, p.laced)
			p.at(20, 64, 0.6, 14, func() {
				p.in("translate(-25 0)", func() {
					p.pylon(104)
					p.bareFoot("e")
				})
			})
			p.arrowTo("h", from(76, 40).line(98, 46), 7)
		})
	}},
	{name: "clinic", draw: func(p *pencil) {
		p.flat(func() {
			p.at(66, 75.4, 0.5, 0, func() { p.in("translate(-25 0)", func() { p.pylon(112); p.laced() }) })
			// A hex key at the clamp.
			p.d("h", "M66 49H48C46 49 45 50 45 52V58")
		})
	}},
	{name: "socket", draw: func(p *pencil) {
		p.flat(func() {
			p.at(56, 75.4, 0.42, 0, func() {
				p.in("translate(-25 0)", func() { p.pylon(84); p.laced() })
				p.d("p h", socketLine)
				p.d("t", "M-20 -141C-10 -137 8 -139 20 -150L24 -172H-26Z")
			})
		})
	}},
}

// socketLine is the socket of a lower leg over the axis at 0, in units of the shoe.
const socketLine = "M-8 -76C-13 -84 -19 -104 -21 -126C-21.6 -134 -21 -140 -18 -145C-12 -139 2 -138 8 -144C12 -148 17 -152 21 -154C23 -140 22.6 -128 19.4 -114C16 -98 12 -86 8 -76C5 -72 -5 -72 -8 -76Z"

// heelMark measures a heel from the ground to the level of the heel's top, at x.
func (p *pencil) heelMark(class, which string, x float64) {
	p.mixOf(class, which, 0, 100, fmt.Sprintf("M%s 0L%s 0M%s 0L%s 0M%s 0L%s 0", num(x-6), num(x+6), num(x), num(x), num(x-6), num(x+6)),
		fmt.Sprintf("M%s 0L%s 0M%s 0L%s -35.7M%s -35.7L%s -35.7", num(x-6), num(x+6), num(x), num(x), num(x-6), num(x+6)))
}

// heelsOf are two shoes of which each has a heel of so many millimetres.
func (p *pencil) heelsOf(one, other float64) {
	p.at(4, 75.4, 0.52, 0, func() { p.fixedHeel(one) })
	p.at(64, 75.4, 0.52, 0, func() { p.fixedHeel(other) })
}

func (p *pencil) fixedHeel(mm float64) {
	sole, up := heeled(mm)
	p.d("p", up)
	p.d("i", sole)
}

// Loads. A box is as large as its weight says: twice the content at twice the weight.
var loadTiles = []tileShape{
	{name: "load", usual: 10, of: "mass", draw: func(p *pencil) {
		p.flat(func() {
			p.scale(4, 46)
			p.at(22, 65.4, 0.36, 0, func() { p.in("translate(-12 0)", func() { p.pylon(128); p.laced() }) })
			p.at(58, 75.4, 1, 0, func() { p.move("grow 0", func() { p.crate(0, 24) }) })
		})
	}},
	{name: "weight", draw: func(p *pencil) {
		p.flat(func() {
			p.box("t", 36, 69, 46, 6.4, 2)
			p.at(57, 68.6, 0.39, 0, func() {
				p.one(someone{near: footing{x: -3}, far: footing{x: 6}, lean: 2, nearLeg: belowKnee, nearArm: []pt{{-6, -110}, {3, -91}}, hair: "curls", skin: "e", coat: "p", legs: "e", stout: true})
			})
			p.path("h", from(92, 75).line(92, 26))
			p.disc("p", 92, 20, 11)
			p.path("", from(92, 20).line(98, 14))
		})
	}},
	{name: "backpack", draw: func(p *pencil) {
		p.flat(func() {
			p.stand(56, 0.42, someone{hip: pt{0, -84.5}, lean: 9, near: footing{18, 0, 8}, far: footing{-22, -7, -22}, nearLeg: belowKnee, nearArm: []pt{{6, -110}, {22, -100}}, hair: "cap", coat: "p", legs: "t", skin: "e",
				over: pack})
		})
	}},
	{name: "carry-child", draw: func(p *pencil) {
		p.flat(func() {
			p.stand(52, 0.42, someone{lean: 0, near: footing{x: -3}, far: footing{12, 0, 4}, nearLeg: belowKnee, nearArm: []pt{{0, -106}, {26, -104}}, farArm: []pt{{6, -106}, {26, -98}}, hair: "tail", legs: "p", hem: 12,
				hold: func(p *pencil) {
					p.at(24, -84, 0.62, 0, func() {
						p.one(someone{hip: pt{0, -40}, neck: pt{-2, -76}, near: footing{16, -12, 20}, far: footing{22, -14, 20}, nearArm: []pt{{-6, -62}, {-22, -66}}, hair: "curls", skin: "e", coat: "p", legs: "t", child: true, hem: 6})
					})
				}})
		})
	}},
	{name: "tools", draw: func(p *pencil) {
		p.flat(func() {
			p.path("h", from(34, 50).line(34, 40).curve(34, 37, 36, 36, 38, 36).line(66, 36).curve(68, 36, 70, 37, 70, 40).line(70, 50))
			p.d("e", "M16 54C16 51 18 50 20 50H84C86 50 88 51 88 54V75.4H16Z")
			p.path("", from(16, 60).line(88, 60))
			p.box("p", 47, 57, 10, 7, 1)
			p.d("h", "M98 75L104 34")
			p.d("p", "M94 26L114 22L116 31L112 32L96 35Z")
		})
	}},
	{name: "groceries", draw: func(p *pencil) {
		p.flat(func() {
			p.path("e", from(24, 75.4).line(20, 36, 58, 36, 54, 75.4).shut())
			p.path("p", from(28, 36).curve(28, 26, 34, 20, 38, 26, 44, 18, 52, 26, 50, 36).shut())
			p.path("f", from(34, 36).line(36, 26), from(44, 36).line(44, 24))
			p.path("t", from(70, 75.4).line(70, 46).curve(70, 42, 75, 42, 75, 36).line(75, 30, 85, 30, 85, 36).curve(85, 42, 90, 42, 90, 46).line(90, 75.4).shut())
			p.path("f", from(70, 58).line(90, 58))
			p.at(104, 75.4, 1, 0, func() { p.d("p", "M-8 0V-8H8V0ZM-5 -8V-16H5V-8Z") })
		})
	}},
	{name: "lift", draw: func(p *pencil) {
		p.flat(func() {
			p.stand(54, 0.42, someone{lean: -2, near: footing{-6, 0, 0}, far: footing{9, 0, 2}, nearLeg: belowKnee, nearArm: []pt{{0, -106}, {24, -102}}, farArm: []pt{{4, -106}, {26, -100}}, hair: "bald", stout: true, coat: "e", legs: "t",
				hold: func(p *pencil) { p.box("p", 14, -130, 42, 34, 1); p.line("f", 35, -130, 35, -96) }})
			p.box("e", 88, 57.4, 24, 18, 1)
			p.line("f", 100, 57.4, 100, 75.4)
		})
	}},
}

func pack(p *pencil) {
	p.path("e", tubeOf([]pt{{-8, -126}, {-13, -108}, {-14, -92}}, []float64{16, 22, 18}, true, true))
	p.path("", from(2, -130).curve(14, -122, 12, -106, -2, -100))
}

// scale to stand on, with its top ten units above the ground.
func (p *pencil) scale(x, wide float64) {
	p.box("t", x, 65.6, wide, 6, 2)
	p.path("", from(x+5, 71.6).line(x+5, 75.4), from(x+wide-5, 71.6).line(x+wide-5, 75.4))
}

// crate is a box with its lower left corner at x.
func (p *pencil) crate(x, side float64) {
	p.box("e", x, -side, side, side, 0)
	p.path("f", from(x, -side*0.72).line(x+side, -side*0.72), from(x+side/2, -side).line(x+side/2, -side*0.72))
}

// Aids to walk with.
var aidTiles = []tileShape{
	{name: "aid-none", draw: func(p *pencil) { p.flat(func() { p.stand(56, 0.42, without) }) }},
	{name: "aid-cane", draw: func(p *pencil) { p.flat(func() { p.stand(54, 0.42, elder) }) }},
	{name: "aid-crutches", draw: func(p *pencil) { p.flat(func() { p.stand(54, 0.42, withCrutches) }) }},
	{name: "aid-walker", draw: func(p *pencil) {
		p.flat(func() { p.stand(44, 0.42, behindFrame("bob", "p", func(p *pencil) { p.frameWalker(30, false) })) })
	}},
	{name: "aid-wheeled-walker", draw: func(p *pencil) {
		p.flat(func() {
			p.stand(40, 0.42, behindFrame("scarf", "e", func(p *pencil) { p.rollator(32) }))
		})
	}},
	{name: "aid-wheelchair", draw: func(p *pencil) { p.flat(func() { p.stand(52, 0.46, sitting) }) }},
}

// Who wears what.
var legTiles = []tileShape{
	{name: "leg-worn", draw: func(p *pencil) { p.flat(func() { p.stand(54, 0.42, withCane) }) }},
	{name: "leg-not-yet", draw: func(p *pencil) { p.flat(func() { p.stand(56, 0.42, onCrutches) }) }},
	{name: "leg-not-now", draw: func(p *pencil) {
		p.flat(func() {
			p.chair(14)
			p.at(80, 75.4, 0.42, 0, p.standingLeg)
		})
	}},
	{name: "one-leg", draw: func(p *pencil) {
		p.flat(func() {
			p.at(32, 75.4, 0.42, 0, p.trouserLeg)
			p.at(80, 75.4, 0.42, 0, p.standingLeg)
		})
	}},
	{name: "two-legs", draw: func(p *pencil) {
		p.flat(func() {
			p.at(32, 75.4, 0.42, 0, p.standingLeg)
			p.at(80, 75.4, 0.42, 0, p.standingLeg)
		})
	}},
	{name: "two-legs-walking", draw: func(p *pencil) { p.flat(func() { p.stand(58, 0.42, bothLegs) }) }},
	{name: "knee-joint", draw: func(p *pencil) { p.flat(func() { p.at(50, 75.4, 0.36, 0, p.jointedLeg) }) }},
	{name: "knee-joint-walking", draw: func(p *pencil) { p.flat(func() { p.stand(58, 0.42, kneeWalker) }) }},
	{name: "own-knee-bends", draw: func(p *pencil) {
		p.ground("M0 76C10 76 14 60.4 22 61.6L112 76H120", func() { p.at(60, 67, 0.33, 0, func() { p.kneePushed(false) }) })
	}},
	{name: "joint-bends", draw: func(p *pencil) {
		p.ground("M0 76C10 76 14 60.4 22 61.6L112 76H120", func() { p.at(60, 67, 0.33, 0, func() { p.kneePushed(true) }) })
	}},
	{name: "child", draw: func(p *pencil) {
		p.flat(func() {
			p.stand(46, 0.3, childStanding)
			p.ball(84, 67, 8.4)
		})
	}},
	{name: "child-at-play", draw: func(p *pencil) {
		p.flat(func() {
			p.stand(32, 0.42, someone{hip: pt{0, -84}, lean: 12, near: footing{14, 0, 4}, far: footing{-20, -6, -20}, nearLeg: belowKnee, nearArm: []pt{{12, -104}, {30, -96}}, hair: "tail", legs: "p", coat: "e", hem: 12})
			p.stand(88, 0.27, someone{hip: pt{0, -80}, lean: -2, near: footing{-16, 0, 8}, far: footing{12, -10, -10}, nearArm: []pt{{-12, -112}, {-26, -122}}, farArm: []pt{{10, -112}, {26, -124}}, hair: "curls", skin: "e", coat: "p", legs: "t", child: true})
			p.ball(66, 70, 5.4)
		})
	}},
	{name: "part-foot", draw: func(p *pencil) {
		p.flat(func() {
			p.at(26, 75.4, 0.74, 0, func() {
				p.d("t", "M5 0C-1 -3 -2 -13 1 -21C4 -29 8 -36 8 -46V-70H38V-47C38 -38 44 -33 52 -28C60 -23 64 -16 63 -9C62 -3 58 0 52 0C40 -2 34 0 22 0Z")
				p.d("dash", "M54 -27C70 -20 82 -17 92 -14C99 -12 102 -7 100 -3C99 -1 96 0 93 0C87 1 72 1 56 0")
			})
		})
	}},
	{name: "left-leg", draw: func(p *pencil) { p.flat(func() { p.fromBehindBoth(true, false) }) }},
	{name: "right-leg", draw: func(p *pencil) { p.flat(func() { p.fromBehindBoth(false, true) }) }},
	{name: "both-sides", draw: func(p *pencil) { p.flat(func() { p.fromBehindBoth(true, true) }) }},
	{name: "first-leg", draw: func(p *pencil) {
		p.flat(func() {
			p.stand(38, 0.42, onCrutches)
			p.at(84, 75.4, 0.42, 0, p.standingLeg)
		})
	}},
	{name: "in-use", draw: func(p *pencil) { p.flat(func() { p.at(44, 75.4, 0.46, 0, p.standingLeg) }) }},
}

var (
	withCane     = someone{hip: pt{0, -84.5}, lean: 4, near: footing{17, 0, 10}, far: footing{-21, -7, -20}, nearArm: []pt{{3, -110}, {20, -94}}, farArm: []pt{{-10, -108}, {-15, -88}}, hair: "bun", legs: "p", hem: 14, nearLeg: belowKnee, hold: func(p *pencil) { p.cane(pt{20, -94}, 34) }}
	elder        = someone{hip: pt{0, -83}, lean: 8, near: footing{14, 0, 8}, far: footing{-17, -4, -16}, nearArm: []pt{{4, -108}, {22, -92}}, farArm: []pt{{-8, -108}, {-12, -88}}, hair: "bald", skin: "e", coat: "p", legs: "e", stout: true, hem: 16, nearLeg: belowKnee, hold: func(p *pencil) { p.cane(pt{22, -92}, 36) }}
	without      = someone{hip: pt{0, -84.5}, lean: 3, near: footing{17, 0, 10}, far: footing{-21, -7, -20}, nearArm: []pt{{-12, -110}, {-18, -92}}, farArm: []pt{{10, -110}, {20, -96}}, hair: "short", skin: "e", coat: "p", legs: "t", nearLeg: belowKnee}
	withCrutches = someone{hip: pt{0, -84.5}, lean: 8, near: footing{10, 0, 4}, far: footing{-14, -3, -14}, nearArm: []pt{{-2, -108}, {16, -96}}, farArm: []pt{{6, -108}, {22, -96}}, hair: "parted", coat: "p", legs: "e", nearLeg: belowKnee, hold: func(p *pencil) { p.crutch(pt{1, -124}, pt{16, -96}, 32) }, behind: func(p *pencil) { p.crutch(pt{8, -124}, pt{24, -96}, 44) }}
	onCrutches   = someone{hip: pt{0, -87}, lean: 5, near: footing{14, -22, 10}, far: footing{-2, 0, 0}, nearArm: []pt{{-4, -108}, {16, -97}}, hair: "bob", coat: "e", legs: "t", nearLeg: endedBelow, hold: func(p *pencil) { p.crutch(pt{6, -124}, pt{16, -97}, 30) }, behind: func(p *pencil) { p.crutch(pt{12, -124}, pt{26, -97}, 44) }}
	sitting      = someone{hip: pt{2, -54}, neck: pt{-2, -106}, near: footing{44, -12, 0}, far: footing{48, -12, 0}, nearLeg: belowKnee, nearArm: []pt{{2, -80}, {22, -70}}, hair: "parted", skin: "e", coat: "p", legs: "t", hem: 6,
		behind: func(p *pencil) { p.wheelchair() }, hold: func(p *pencil) { p.bigWheel() }}
	bothLegs   = someone{hip: pt{0, -85}, lean: 3, near: footing{16, 0, 8}, far: footing{-18, -4, -14}, nearLeg: belowKnee, farLeg: belowKnee, nearArm: []pt{{-10, -110}, {-14, -92}}, farArm: []pt{{10, -110}, {20, -96}}, hair: "curls", skin: "e", coat: "p", legs: "e"}
	kneeWalker = someone{hip: pt{0, -84}, lean: 2, near: footing{16, -1, 6}, far: footing{-18, -4, -14}, nearLeg: aboveKnee, nearArm: []pt{{-8, -110}, {-10, -92}}, farArm: []pt{{10, -110}, {20, -96}}, hair: "short", coat: "e", legs: "t"}

	childStanding = someone{hip: pt{0, -86}, lean: 2, near: footing{x: -4}, far: footing{10, 0, 2}, nearLeg: belowKnee, nearArm: []pt{{4, -112}, {22, -104}}, farArm: []pt{{8, -114}, {26, -112}}, hair: "short", skin: "e", coat: "p", legs: "t", child: true}
)

// behindFrame is someone behind a frame whose grips are before the hands.
func behindFrame(hair, skin string, frame func(p *pencil)) someone {
	return someone{hip: pt{-2, -83}, lean: 13, near: footing{8, 0, 4}, far: footing{-16, -3, -14}, nearLeg: belowKnee, nearArm: []pt{{4, -108}, {25, -88}}, farArm: []pt{{10, -108}, {28, -90}}, hair: hair, skin: skin, coat: "e", legs: "t", hem: 16, behind: frame}
}

// chair stands at x, with its back at the left.
func (p *pencil) chair(x float64) {
	p.path("h", from(x, 75.4).line(x-1, 22), from(x+34, 75.4).line(x+34, 48))
	p.path("", from(x-1, 30).line(x+4, 30), from(x, 64).line(x+34, 64))
	p.box("e", x-1, 44, 38, 5.4, 1)
}

// standingLeg is an artificial leg that nobody wears.
func (p *pencil) standingLeg() {
	p.in("translate(-25 0)", func() { p.pylon(84); p.laced() })
	p.d("p h", socketLine)
	p.d("e", "M-18 -145C-12 -139 2 -138 8 -144C12 -148 17 -152 21 -154C14 -158 -6 -156 -18 -145Z")
}

// trouserLeg is a leg in trousers, cut off over the knee.
func (p *pencil) trouserLeg() {
	p.in("translate(-25 0)", p.laced)
	p.path("e", tubeOf([]pt{{0, -26}, {0, -70}, {2, -110}, {1, -168}}, []float64{34, 38, 44, 52}, false, false))
}

// jointedLeg is an artificial leg with a knee joint and the socket of a thigh, that nobody wears.
func (p *pencil) jointedLeg() {
	p.in("translate(-25 0)", func() { p.pylon(104); p.laced() })
	p.path("e", tubeOf([]pt{{0, -92}, {-1, -112}, {0, -130}}, []float64{16, 24, 19}, true, true))
	p.disc("i", 0, -120, 4)
	p.path("p h", tubeOf([]pt{{0, -136}, {1, -152}, {1, -200}}, []float64{20, 34, 46}, true, false))
	p.d("e", "M-22 -200C-12 -194 12 -194 24 -200C14 -206 -12 -206 -22 -200Z")
}

// kneePushed is a leg on the way down whose knee is pushed to bend: an own knee over a socket, or a joint.
func (p *pencil) kneePushed(joint bool) {
	p.at(0, 0, 1, 9, func() {
		p.in("translate(-25 0)", func() { p.pylon(84); p.laced() })
		if joint {
			p.box("p", -5.5, -104, 11, 24, 0)
			p.path("e", tubeOf([]pt{{0, -98}, {0, -118}, {-2, -134}}, []float64{14, 20, 16}, true, true))
			p.in("rotate(-28 0 -118)", func() {
				p.path("p h", tubeOf([]pt{{0, -128}, {0, -140}, {0, -176}}, []float64{16, 28, 36}, true, false))
			})
			p.disc("i", 0, -118, 3.6)
		} else {
			p.in("rotate(-28 0 -140)", func() { p.path("t", tubeOf([]pt{{0, -132}, {0, -150}, {0, -184}}, []float64{34, 38, 44}, true, false)) })
			p.d("p h", socketLine)
		}
	})
	p.arrowTo("h", from(-58, -140).line(-22, -140), 16)
}

// fromBehindBoth is a person from behind, from the waist down.
func (p *pencil) fromBehindBoth(left, right bool) {
	p.at(60, 75.4, 0.7, 0, func() {
		for _, side := range []struct {
			x    float64
			made bool
		}{{-12, left}, {12, right}} {
			of := ownLeg
			if side.made {
				of = belowKnee
			}
			p.at(side.x, 0, 0.84, 0, func() { p.fromBehind(1, of, "") })
		}
		p.d("e", "M-24 -66C-25 -82 -24 -96 -20 -104C-8 -107 8 -107 20 -104C24 -96 25 -82 24 -66L3 -66L0 -74L-3 -66Z")
		p.d("f s", "M0 -105V-74")
	})
}
