package drawing

import "fmt"

// One thing for each topic, in the planner's list; its name is "topic-" and the topic's.
var topicTiles = []tileShape{
	{name: "topic-something-changed", draw: func(p *pencil) {
		p.flat(func() {
			p.legShoe(44, 75.4, 0.52, 0, 128)
			p.d("h", "M46.4 12L42 18L47 24L42 30L46 36")
			p.path("", from(58, 22).curve(62, 19, 66, 19, 70, 22), from(56, 13).curve(62, 8, 70, 8, 75, 13))
		})
	}},
	{name: "foot-cut-open", draw: func(p *pencil) {
		p.flat(func() {
			h := headShape{foot: frame{16, 75.4, 0.345}}
			h.cutFoot(p)
			p.path("h", smooth(h.inFoot()...))
		})
	}},
	{name: "three-feet", draw: func(p *pencil) { // firm, hinged, springy
		p.flat(func() {
			for i, keel := range []string{"M24 -50V-10H62L40 -42Z", "M28 -56V-30M14 -12H70M28 -30H40M22 -30H28", "M28 -56C28 -30 36 -12 58 -9H90M58 -9C40 -12 24 -10 12 -6"} {
				p.at(5+38*float64(i), 75.4, 0.34, 0, func() {
					p.bareFoot("t")
					p.d("h", keel)
					p.path("p", from(21, -54).line(35, -54, 35, -130, 21, -130).shut())
				})
			}
			p.disc("p", 5+38+28*0.34, 75.4-22*0.34, 3)
		})
	}},
	{name: "people-counted", draw: func(p *pencil) {
		p.flat(func() {
			for i := range 10 {
				class := "p"
				if i < 4 {
					class = "i"
				}
				x, y := 20+20*float64(i%5), 39+35*float64(i/5)
				p.disc(class, x, y-24, 4)
				p.d(class, fmt.Sprintf("M%s %sV%sC%s %s %s %s %s %sV%sZ", num(x-5), num(y), num(y-12), num(x-5), num(y-19), num(x+5), num(y-19), num(x+5), num(y-12), num(y)))
			}
		})
	}},
	{name: "leg-in-bone", draw: func(p *pencil) { // a rod in the bone, and the leg that it holds
		p.flat(func() {
			p.legShoe(48, 75.4, 0.5, 0, 74)
			p.path("e", from(33, 4).curve(33, 20, 36, 28, 42, 28, 56, 28, 58, 18, 63, 4))
			p.path("p", from(43.5, 4).line(43.5, 20, 52.5, 20, 52.5, 4))
			p.path("h", from(48, 10).line(48, 42))
		})
	}},
	{name: "chart", draw: func(p *pencil) {
		p.flat(func() {
			p.at(36, 75.4, 1, 0, func() {
				p.d("t", "M0 0V-66H48V0Z")
				p.d("p", "M5 -5V-58H43V-5Z")
				p.d("i", "M16 -62V-70H32V-62Z")
				p.d("f", "M11 -46H37M11 -36H37M11 -26H30")
				p.d("h", "M12 -15L17 -10L26 -20")
			})
		})
	}},
	{name: "two-people", draw: func(p *pencil) {
		p.flat(func() {
			p.stand(36, 0.42, someone{lean: 2, near: footing{x: -3}, far: footing{x: 6}, nearArm: []pt{{0, -106}, {20, -102}}, farArm: []pt{{4, -108}, {26, -110}}, hair: "scarf", skin: "e", coat: "p", legs: "t", hem: 18})
			p.at(88, 75.4, 0.42, 0, func() {
				p.in("scale(-1 1)", func() {
					p.one(someone{lean: 2, near: footing{x: -3}, far: footing{x: 6}, nearLeg: belowKnee, nearArm: []pt{{-4, -110}, {6, -92}}, hair: "bald", coat: "e", legs: "t", stout: true})
				})
			})
		})
	}},
	{name: "topic-where-to-start", draw: func(p *pencil) {
		p.flat(func() {
			p.path("h", from(60, 76).line(60, 8))
			p.d("e", "M60 14H92L100 21L92 28H60Z")
			p.d("t", "M60 34H30L22 41L30 48H60Z")
			p.d("f", "M66 21H88M36 41H54")
		})
	}},
	{name: "topic-hills-and-ramps", draw: func(p *pencil) {
		p.ground("M0 76H26L112 66.5C116 66 116 76 120 76", func() {
			p.at(62, 71.2, 0.48, -6.3, func() {
				p.in("translate(-25 0)", func() { p.in("rotate(6.3 25 -30)", func() { p.pylon(112) }); p.laced() })
			})
		})
	}},
	{name: "topic-heel-height", draw: func(p *pencil) {
		p.flat(func() {
			p.at(18, 75.4, 0.78, 0, func() {
				p.fixedHeel(60)
				p.path("dash", from(4, -21.4).line(112, -21.4))
				p.path("", from(106, 0).line(106, -21.4), from(101, -21.4).line(111, -21.4), from(101, 0).line(111, 0))
			})
		})
	}},
	{name: "topic-foot-shell-and-toes", draw: func(p *pencil) { p.flat(func() { p.at(24, 75.4, 0.8, 0, func() { p.bareFoot("t") }) }) }},
	{name: "topic-motion-or-push", draw: func(p *pencil) {
		p.flat(func() {
			p.legShoe(42, 75.4, 0.52, 0, 120)
			p.d("h", "M100 34C104 44 104 54 98 66")
			p.d("h", "M95 40L99.6 33L106 38M93 59.6L97.4 67L104.4 62.6")
		})
	}},
	{name: "topic-loads-and-weight", draw: func(p *pencil) {
		p.flat(func() {
			p.stand(54, 0.42, someone{lean: -2, near: footing{-6, 0, 0}, far: footing{9, 0, 2}, nearLeg: belowKnee, nearArm: []pt{{0, -106}, {24, -102}}, farArm: []pt{{4, -106}, {26, -100}}, hair: "bald", stout: true, coat: "e", legs: "t",
				hold: func(p *pencil) { p.box("p", 14, -130, 42, 34, 1); p.line("f", 35, -130, 35, -96) }})
		})
	}},
	{name: "topic-uneven-ground", draw: func(p *pencil) {
		p.ground("M0 76C8 76 10 66 20 67C28 68 28 72 34 71C40 70 42 61 54 61C66 61 66 68 76 69C86 70 88 62 98 63C108 64 110 76 120 76", func() {
			p.at(48, 61.4, 0.5, 8, func() { p.in("translate(-25 0)", func() { p.pylon(104); p.laced() }) })
		})
	}},
	{name: "topic-water-and-weather", draw: func(p *pencil) {
		p.ground("M0 76H14C20 76 22 82 30 82H98C106 82 106 76 112 76H120", func() {
			p.path("t n", wavesAt(14, 60, 4).line(110, 76).line(104, 82, 24, 82, 14, 76).shut())
			p.legShoe(46, 81.4, 0.5, 0, 124)
			p.path("h", wavesAt(14, 64, 4))
			p.drop(96, 22, 1)
			p.drop(82, 40, 0.6)
		})
	}},
	{name: "topic-work", draw: func(p *pencil) {
		p.flat(func() {
			p.at(12, 75.4, 0.62, 0, p.boot)
			p.path("", from(84, 76).line(98, 6), from(100, 76).line(114, 6))
			p.path("", from(87.2, 60).line(103.2, 60), from(90.2, 45).line(106.2, 45), from(93.2, 30).line(109.2, 30), from(96.2, 15).line(112.2, 15))
		})
	}},
	{name: "topic-sport-and-play", draw: func(p *pencil) {
		p.flat(func() {
			p.legShoe(38, 75.4, 0.52, 0, 120)
			p.ball(96, 63, 12.4)
		})
	}},
	{name: "topic-ready-for-the-visit", draw: func(p *pencil) {
		p.flat(func() {
			p.at(34, 75.4, 1, 0, func() {
				p.d("p", "M0 0V-68H48V0Z")
				p.path("h", from(8, -57).line(28, -57))
				p.path("f s", from(8, -46).line(40, -46), from(8, -36).line(40, -36), from(8, -26).line(40, -26), from(8, -16).line(30, -16))
			})
			p.d("e", "M78 66L98 32L105 36L85 70L77.4 74Z")
			p.line("f", 78, 66, 85, 70)
		})
	}},
	{name: "topic-paying-for-it", draw: func(p *pencil) {
		p.flat(func() {
			p.at(22, 75.4, 1, 0, func() {
				p.d("p", "M0 0V-48H68V0Z")
				p.d("", "M0 -48L34 -20L68 -48")
				p.d("f s", "M0 0L26 -26M68 0L42 -26")
			})
			p.disc("e", 96, 64, 11.4)
			p.disc("f", 96, 64, 7.4)
		})
	}},
	{name: "topic-before-a-first-leg", draw: func(p *pencil) {
		p.flat(func() {
			p.box("p", 14, 14, 36, 50, 2)
			p.path("f", from(14, 26).line(50, 26))
			p.path("f s", from(26, 26).line(26, 64), from(38, 26).line(38, 64), from(14, 39).line(50, 39), from(14, 52).line(50, 52))
			p.at(86, 75.4, 0.42, 0, p.standingLeg)
		})
	}},
	{name: "topic-limb-and-phantom-pain", draw: func(p *pencil) {
		p.flat(func() {
			p.d("e", "M48 4H76L72 34C70 42 54 42 52 34Z")
			p.d("dash", "M56 40L58 64C58 70 62 75 70 75H92C92 70 84 66 76 62L70 40")
			p.d("h", "M96 30L90 38L97 44L91 52")
			p.d("h", "M36 30L42 38L35 44L41 52")
		})
	}},
	{name: "topic-sore-skin-sweat-and-rash", draw: func(p *pencil) {
		p.flat(func() {
			p.d("t", "M40 4H78L74 50C72 68 46 68 44 50Z")
			p.disc("i", 54, 34, 1.4)
			p.disc("i", 62, 42, 1.4)
			p.disc("i", 55, 49, 1.4)
			p.drop(96, 28, 0.9)
			p.drop(98, 58, 0.7)
			p.drop(24, 44, 0.9)
		})
	}},
	{name: "topic-socket-liner-and-fit", draw: func(p *pencil) {
		p.flat(func() {
			p.at(40, 75.4, 0.46, 0, p.standingLeg)
			p.d("p", "M74 20H92V54C92 62 104 62 106 66C108 71 104 75 96 75C84 75 74 68 74 56Z")
			p.path("f", from(74, 27).line(92, 27))
		})
	}},
	{name: "topic-a-long-trip", draw: func(p *pencil) {
		p.flat(func() {
			p.path("", from(44, 22).line(44, 12, 68, 12, 68, 22))
			p.box("e", 28, 22, 56, 48, 4)
			p.path("f", from(28, 34).line(84, 34))
			p.disc("p", 38, 72, 4)
			p.disc("p", 74, 72, 4)
			p.d("t", "M92 40H110L114 46L110 52H92Z")
		})
	}},
	{name: "topic-driving-again", draw: func(p *pencil) {
		p.flat(func() {
			p.disc("p", 46, 34, 28)
			p.disc("t", 46, 34, 22)
			p.disc("e", 46, 34, 7)
			p.path("", from(24.4, 30).line(39, 33), from(67.6, 30).line(53, 33), from(46, 41).line(46, 56))
			p.d("e", "M90 76L84 56H98L104 76Z")
		})
	}},
}
