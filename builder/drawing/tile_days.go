package drawing

// What people do, and where.
var dayTiles = []tileShape{
	{name: "long-standing", draw: func(p *pencil) {
		p.flat(func() {
			p.stand(40, 0.42, someone{lean: 2, near: footing{x: -3}, far: footing{x: 6}, nearLeg: belowKnee, nearArm: []pt{{0, -108}, {22, -98}}, farArm: []pt{{4, -108}, {24, -98}}, hair: "scarf", skin: "e", coat: "p", legs: "t", hem: 16})
			p.path("h", from(54, 38).line(112, 38))
			p.path("", from(60, 38).line(60, 75.4), from(106, 38).line(106, 75.4))
			p.disc("p", 92, 18, 10)
			p.path("", from(92, 12).line(92, 18, 97, 20))
		})
	}},
	{name: "ladder", draw: func(p *pencil) {
		p.flat(func() {
			p.path("", from(52, 76).line(72, 2), from(68, 76).line(88, 2))
			p.path("", from(55.3, 64).line(71.3, 64), from(59.4, 48.6).line(75.4, 48.6), from(63.6, 33).line(79.6, 33), from(67.8, 17.4).line(83.8, 17.4))
			p.at(44, 63.4, 0.34, 0, func() {
				p.one(someone{hip: pt{4, -82}, lean: 12, near: footing{34, -36, 4}, far: footing{30, 0, 0}, nearLeg: belowKnee, nearArm: []pt{{26, -116}, {50, -128}}, farArm: []pt{{30, -130}, {52, -146}}, hair: "cap", coat: "e", legs: "t"})
			})
		})
	}},
	{name: "kneel", draw: func(p *pencil) {
		p.flat(func() {
			p.at(50, 75.4, 0.48, 0, func() {
				p.one(someone{hip: pt{0, -46}, neck: pt{14, -94}, near: footing{30, 0, 0}, far: footing{-42, -5, -52}, nearLeg: belowKnee, nearArm: []pt{{24, -68}, {44, -60}}, hair: "short", skin: "e", coat: "p", legs: "t", hem: 6})
			})
			p.d("e", "M88 75.4L92 58H104L108 75.4Z")
		})
	}},
	{name: "drive", draw: func(p *pencil) {
		p.flat(func() {
			p.path("p", from(4, 66).line(4, 52).curve(6, 46, 16, 45, 26, 44).line(40, 26).curve(42, 23, 46, 22, 50, 22).line(78, 22).curve(84, 22, 88, 26, 92, 32).line(100, 44).curve(110, 45, 116, 48, 116, 54).line(116, 66).shut())
			p.path("t", from(36, 44).line(46, 29, 62, 29, 62, 44).shut(), from(68, 44).line(68, 29, 80, 29, 90, 44).shut())
			p.line("f", 65, 44, 65, 64)
			for _, x := range []float64{26, 94} {
				p.disc("p", x, 66, 9.4)
				p.disc("i", x, 66, 3)
			}
		})
	}},
	{name: "dirty-place", draw: func(p *pencil) {
		p.flat(func() {
			p.at(34, 75.4, 0.5, 0, func() { p.in("translate(-25 0)", func() { p.pylon(100); p.laced() }) })
			p.box("t", 82, 40, 26, 35.4, 3)
			p.path("", from(82, 50).line(108, 50), from(82, 64).line(108, 64))
			p.drop(95, 58, 0.5)
			p.d("i", "M60 75.4C62 72 70 71.4 78 72.4C84 73 84 75.4 84 75.4Z")
		})
	}},
	{name: "desk", draw: func(p *pencil) {
		p.flat(func() {
			p.path("h", from(62, 46).line(114, 46), from(108, 46).line(108, 75.4))
			p.d("e", "M84 45L88 26H106L103 45Z")
			p.path("h", from(12, 30).line(16, 56, 42, 56), from(29, 56).line(29, 70))
			p.path("", from(17, 75).line(29, 69, 41, 75))
			p.at(26, 75.4, 0.44, 0, func() {
				p.one(someone{hip: pt{4, -52}, neck: pt{6, -104}, near: footing{44, 0, 0}, far: footing{50, 0, 0}, nearLeg: belowKnee, nearArm: []pt{{14, -76}, {54, -72}}, hair: "bob", skin: "p", coat: "e", legs: "t", hem: 6})
			})
		})
	}},
	{name: "roof", draw: func(p *pencil) {
		p.ground("M0 76H8L96 44L112 76H120", func() {
			p.at(52, 59.4, 0.5, -20, func() {
				p.in("translate(-25 0)", func() { p.in("rotate(20 25 -30)", func() { p.pylon(96) }); p.laced() })
			})
			p.path("f", from(66, 56).line(66, 61), from(78, 52).line(78, 57), from(90, 48).line(90, 53), from(30, 69).line(30, 74))
		})
	}},
	{name: "rough-ground", draw: func(p *pencil) {
		p.ground("M0 76C6 76 8 70 16 70C22 70 24 76 30 76C36 76 36 66 46 65C58 64 60 70 68 71C76 72 78 62 88 63C98 64 100 76 108 75C112 75 116 76 120 76", func() {
			p.at(48, 64.6, 0.5, 9, func() { p.in("translate(-25 0)", func() { p.pylon(108); p.laced() }) })
			p.d("p", "M14 70C15 65 23 65 24 70C22 73 16 73 14 70ZM92 64C94 58 104 59 104 66C101 70 94 68 92 64Z")
		})
	}},
	{name: "wash", draw: func(p *pencil) {
		p.flat(func() {
			p.path("h", from(20, 75.4).line(20, 10).curve(20, 5, 24, 4, 28, 4).line(44, 4).curve(47, 4, 48, 6, 48, 8))
			p.d("e", "M38 8H58L62 14H34Z")
			p.path("f dash", from(40, 19).line(37, 50), from(48, 19).line(48, 54), from(56, 19).line(59, 50))
			p.path("h", from(74, 52).line(106, 52))
			p.path("", from(78, 52).line(75, 75.4), from(102, 52).line(105, 75.4), from(77, 64).line(103, 64))
		})
	}},
	{name: "hurts-leg", draw: func(p *pencil) { p.whereItHurts(55.6, 55, 7, -1) }},
	{name: "hurts-hip", draw: func(p *pencil) { p.whereItHurts(65, 41, 8, 1) }},
	{name: "hurts-back", draw: func(p *pencil) { p.whereItHurts(60, 30, 8, 1) }},
	{name: "daily-leg-in-shower", draw: func(p *pencil) {
		p.flat(func() {
			p.path("h", from(104, 75.4).line(104, 10).curve(104, 4, 100, 4, 96, 4).line(60, 4))
			p.d("e", "M46 6H70L74 12H42Z")
			p.path("f dash", from(50, 16).line(46, 32), from(66, 16).line(70, 40))
			p.legShoe(54, 75.4, 0.5, 0, 112)
		})
	}},
	{name: "screen", draw: func(p *pencil) {
		p.flat(func() {
			p.box("p", 22, 18, 72, 48, 3)
			p.box("t", 27, 23, 62, 38, 1)
			p.path("h", from(12, 72).line(104, 72).line(100, 66, 16, 66, 12, 72))
			p.at(57, 63, 0.5, 0, func() {
				p.d("e", "M-24 -4C-24 -18 -14 -24 0 -24C14 -24 24 -18 24 -4Z")
				p.disc("p", 0, -38, 13)
				p.d("i", "M-13 -38C-14 -50 -8 -54 0 -54C8 -54 14 -50 13 -38C8 -44 -6 -44 -13 -38Z")
			})
		})
	}},
	{name: "bathtub", draw: func(p *pencil) {
		p.flat(func() {
			p.d("p", "M16 44H108C110 44 111 46 110 48L106 66C105 70 102 72 98 72H28C24 72 21 70 20 66L14 48C13 46 14 44 16 44Z")
			p.path("", from(30, 72).line(28, 75.4), from(96, 72).line(98, 75.4))
			p.path("h", wavesAt(26, 52, 3))
			p.path("h", from(14, 44).line(14, 26).curve(14, 20, 26, 20, 26, 26))
		})
	}},
	{name: "shower-seat", draw: func(p *pencil) {
		p.flat(func() {
			p.path("f dash", from(84, 16).line(80, 44), from(92, 16).line(92, 48), from(100, 16).line(104, 44))
			p.path("h", from(112, 75.4).line(112, 10).curve(112, 4, 108, 4, 104, 4).line(94, 4))
			p.d("e", "M82 6H102L106 12H78Z")
			p.path("h", from(22, 52).line(62, 52))
			p.path("", from(26, 52).line(22, 75.4), from(58, 52).line(62, 75.4))
			p.at(40, 75.4, 0.44, 0, func() {
				p.one(someone{hip: pt{0, -60}, neck: pt{2, -112}, near: footing{42, -14, 6}, far: footing{44, 0, 0}, nearLeg: endedBelow, nearArm: []pt{{8, -88}, {30, -70}}, hair: "short", skin: "e", coat: "p", legs: "p", hem: 4})
			})
		})
	}},
	{name: "hop", draw: func(p *pencil) {
		p.flat(func() {
			p.path("h", from(104, 75.4).line(104, 10).curve(104, 4, 100, 4, 96, 4).line(86, 4))
			p.d("e", "M74 6H94L98 12H70Z")
			p.path("f dash", from(76, 16).line(72, 40), from(84, 16).line(84, 44))
			p.at(44, 74, 0.42, 0, func() {
				p.one(someone{hip: pt{0, -87}, lean: 6, near: footing{14, -22, 10}, far: footing{-2, 0, 0}, nearArm: []pt{{16, -112}, {36, -122}}, hair: "curls", skin: "e", coat: "p", legs: "p", nearLeg: endedBelow})
			})
			p.path("f", from(34, 80).curve(38, 82, 48, 82, 52, 80))
		})
	}},
	{name: "wash-feet", draw: func(p *pencil) {
		p.flat(func() {
			p.d("p", "M30 54H96C96 66 90 75.4 80 75.4H46C36 75.4 30 66 30 54Z")
			p.at(48, 60, 0.5, 0, func() { p.bareFoot("e") })
			p.d("p", "M31 58H95C93 68 88 75.4 80 75.4H46C38 75.4 33 68 31 58Z")
			p.path("h", wavesAt(36, 58, 2))
			p.d("t", "M92 8C104 6 112 14 110 26C108 34 98 36 92 30L84 22L80 24L78 20L86 14Z")
			p.drop(76, 34, 0.5)
			p.drop(78, 46, 0.5)
		})
	}},
	{name: "swim", draw: func(p *pencil) {
		p.ground("M0 76H10C14 76 14 82 20 82H104C110 82 108 76 112 76H120", func() {
			p.path("t n", wavesAt(12, 54, 4).line(110, 54).line(106, 82, 18, 82, 12, 76).shut())
			p.at(64, 52, 0.62, 0, func() {
				p.path("e", tubeOf([]pt{{-52, 6}, {-20, 2}, {6, -2}}, []float64{9, 16, 20}, true, true))
				p.path("e", tubeOf([]pt{{4, -6}, {16, -26}, {36, -12}}, []float64{10, 9, 7}, true, true))
				p.at(20, -8, 0.9, 12, func() {
					p.d("e", faceLine)
					for _, h := range hairs["cap"][:1] {
						p.d(h[0], h[1])
					}
					p.d("i", "M-11.8 -3.4C-12 -11 -6 -15.6 1 -15.4C8 -15.2 11.2 -10.6 11.4 -6C4 -5.6 -4 -4.8 -11.8 -3.4Z")
				})
			})
			p.path("t n", wavesAt(14, 58, 4).line(108, 80, 20, 80).shut())
			p.path("h", wavesAt(12, 56, 4))
			p.path("f", wavesAt(24, 68, 1), wavesAt(72, 70, 1))
		})
	}},
	{name: "beside-water", draw: func(p *pencil) {
		p.ground("M0 76H66C74 76 74 82 82 82H104C110 82 110 76 114 76H120", func() {
			p.path("t n", wavesAt(72, 72, 2).line(118, 74, 110, 82, 80, 82).shut())
			p.path("h", from(10, 40).line(26, 66, 56, 66), from(22, 58).line(14, 75.4), from(52, 66).line(56, 75.4), from(30, 66).line(24, 75.4))
			p.path("", wavesAt(72, 72, 2).line(120, 72))
			p.d("e", "M22 20C26 4 54 0 66 14Z")
			p.path("", from(44, 11).line(50, 66))
			p.sun(102, 18)
		})
	}},
	{name: "heat", draw: func(p *pencil) {
		p.ground("M0 76C12 76 20 66 38 66C56 66 62 76 74 76C86 76 92 70 102 71C112 72 112 76 120 76", func() {
			p.disc("t", 60, 28, 14)
			var rays []path
			for i := range 10 {
				a := pt{79, 28}.turned(pt{60, 28}, float64(i)*36)
				b := pt{87, 28}.turned(pt{60, 28}, float64(i)*36)
				rays = append(rays, from(a.x, a.y).line(b.x, b.y))
			}
			p.path("", rays...)
		})
		p.d("dots", "M14 79H62M30 73H50M92 79H112")
	}},
	{name: "walk-and-games", draw: func(p *pencil) {
		p.ground("M0 76C20 76 30 73 60 73C90 73 100 76 120 76", func() {
			p.at(40, 73.6, 0.42, 0, func() { p.one(without) })
			p.ball(78, 68, 5)
			p.ball(94, 69.4, 5)
			p.tree(104, 75, 44)
		})
	}},
	{name: "turning-games", draw: func(p *pencil) {
		p.ground("M0 76C20 76 30 74 60 74C90 74 100 76 120 76", func() {
			p.at(42, 74, 0.42, 0, func() {
				p.one(someone{hip: pt{0, -85}, lean: 9, near: footing{-10, 0, 0}, far: footing{14, 0, 4}, nearLeg: belowKnee, nearArm: []pt{{18, -104}, {28, -84}}, farArm: []pt{{20, -104}, {30, -86}}, hair: "cap", coat: "p", legs: "e", skin: "e"})
				p.path("h", from(29, -86).line(52, -6).line(60, -4))
			})
			p.disc("p", 72, 72, 2.4)
			p.path("", from(104, 75).line(104, 26))
			p.d("e", "M104 26L86 32L104 39Z")
		})
	}},
	{name: "run", draw: func(p *pencil) {
		p.flat(func() {
			p.at(58, 73, 0.42, 0, func() {
				p.one(someone{hip: pt{0, -88}, lean: 14, near: footing{24, -4, 14}, far: footing{-40, -34, -60}, nearLeg: belowKnee, nearArm: []pt{{-8, -114}, {-22, -98}}, farArm: []pt{{26, -112}, {38, -126}}, hair: "tail", skin: "e", coat: "p", legs: "e", hem: 4})
			})
			p.path("f", from(8, 40).line(26, 40), from(4, 50).line(22, 50), from(10, 60).line(26, 60))
		})
	}},
	{name: "bike", draw: func(p *pencil) {
		p.flat(func() {
			for _, x := range []float64{34, 90} {
				p.disc("", x, 57, 18.4)
				p.disc("i", x, 57, 1.6)
			}
			p.path("h", from(34, 57).line(50, 30, 78, 30, 60, 57, 34, 57), from(50, 30).line(60, 57), from(90, 57).line(76, 22, 86, 20), from(44, 24).line(56, 24), from(50, 30).line(48, 24))
			p.disc("p", 60, 57, 4)
			p.path("", from(60, 57).line(66, 67), from(62, 68).line(70, 66))
		})
	}},
	{name: "row-boat", draw: func(p *pencil) {
		p.ground("M0 76H8C12 76 12 82 18 82H104C110 82 108 76 112 76H120", func() {
			p.path("t n", wavesAt(10, 62, 4).line(110, 62).line(104, 82, 16, 82, 10, 76).shut())
			p.d("p", "M22 52H88C86 62 80 68 70 68H40C30 68 24 62 22 52Z")
			p.path("h", from(48, 30).line(84, 72))
			p.path("", from(62, 52).line(62, 8))
			p.d("e", "M64 10L92 44H64Z")
			p.path("h", wavesAt(10, 66, 4))
			p.sun(24, 22)
		})
	}},
	{name: "ski", draw: func(p *pencil) {
		p.ground("M0 76C10 76 16 58 26 59L108 75C112 76 116 76 120 76", func() {
			p.at(60, 65.2, 0.36, 11, func() {
				p.one(someone{hip: pt{-6, -74}, lean: 20, near: footing{4, -4, 0}, far: footing{10, -4, 0}, nearLeg: belowKnee, nearArm: []pt{{10, -96}, {30, -92}}, hair: "cap", coat: "e", legs: "t"})
				p.path("h", from(-50, 0).line(62, 0).curve(68, 0, 72, -4, 73, -8), from(30, -92).line(2, -10))
			})
			p.path("", flake(98, 20, 8), flake(112, 40, 5))
		})
	}},
	{name: "side-step", draw: func(p *pencil) {
		p.flat(func() {
			p.at(60, 75.4, 0.62, 0, func() {
				p.at(-16, 0, 1, 0, func() { p.fromBehind(1, ownLeg, "") })
				p.at(20, 0, 1, 0, func() { p.fromBehind(1, belowKnee, "") })
			})
			p.arrowTo("h", from(88, 64).line(112, 64), 8)
			p.arrowTo("h", from(34, 64).line(10, 64), 8)
		})
	}},
	{name: "planted-turn", draw: func(p *pencil) {
		p.flat(func() {
			p.legShoe(48, 75.4, 0.5, 0, 128)
			p.d("h", "M37 26C28 28 26 34 34 37C42 40 56 40 62 37C66 35 67 32 65 29")
			p.d("h", "M60.6 33.4L65 28.6L70 33")
		})
	}},
	{name: "jump", draw: func(p *pencil) {
		p.flat(func() {
			p.at(52, 66, 0.34, 0, func() {
				p.one(someone{hip: pt{0, -84}, lean: 5, near: footing{12, 0, -16}, far: footing{-18, -12, -30}, nearLeg: belowKnee, nearArm: []pt{{14, -118}, {28, -132}}, farArm: []pt{{-12, -118}, {-20, -134}}, hair: "short", coat: "e", legs: "t", hem: 4})
			})
			p.d("f", "M34 73C44 75 60 75 70 73")
			p.arrowTo("h", from(92, 60).line(92, 34), 8)
		})
	}},
	{name: "toe-catches", draw: func(p *pencil) {
		p.ground("M0 76H86V69H113V76H120", func() {
			p.at(45, 71, 0.5, 9, func() { p.in("translate(-25 0)", func() { p.pylon(108); p.laced() }) })
			p.path("h", from(100, 56).line(94, 62), from(106, 64).line(99, 65.6), from(90, 51).line(88, 59))
		})
	}},
	{name: "over-the-toe", draw: func(p *pencil) {
		p.flat(func() {
			p.at(84, 75.4, 0.5, 24, func() { p.in("translate(-99 3)", func() { p.pylon(108); p.laced() }) })
			p.arrowTo("h", from(62, 10).curve(74, 6, 86, 10, 92, 20), 8)
		})
	}},
	{name: "drops-off-toe", draw: func(p *pencil) {
		p.flat(func() {
			p.at(80, 75.4, 0.5, 26, func() { p.in("translate(-99 3)", func() { p.pylon(108); p.laced() }) })
			p.arrowTo("h", from(100, 30).line(100, 60), 8)
		})
	}},
	{name: "board", draw: func(p *pencil) {
		p.flat(func() {
			p.box("e", 16, 69, 84, 6.4, 0)
			p.at(46, 68.6, 0.5, 0, func() { p.in("translate(-25 0)", func() { p.pylon(112); p.laced() }) })
			p.path("f", from(24, 72).line(52, 72), from(66, 72.6).line(92, 72.6))
		})
	}},
	{name: "hard-landing", draw: func(p *pencil) {
		p.ground("M0 76H8V58H34V76H120", func() {
			p.at(62, 72.6, 0.5, -10, func() { p.in("translate(-25 0)", func() { p.pylon(108); p.laced() }) })
			p.d("h", "M42 70L36 66M46 64L42 57M100 68L108 64")
		})
	}},
	{name: "twist", draw: func(p *pencil) {
		p.flat(func() {
			p.at(54, 75.4, 0.42, 0, p.standingLeg)
			p.d("h", "M42 30C30 32 30 39 40 42C48 44 62 44 68 41C72 39 73 36 71 33")
			p.d("h", "M66.6 37.4L71 32.6L76 37")
		})
	}},
	{name: "flat-and-hill", draw: func(p *pencil) {
		p.ground("M0 76H48L100 66C106 65 110 76 120 76", func() {
			p.at(26, 75.4, 0.34, 0, func() { p.in("translate(-25 0)", func() { p.pylon(120); p.laced() }) })
			p.at(74, 70.4, 0.34, -11, func() {
				p.in("translate(-25 0)", func() { p.in("rotate(11 25 -30)", func() { p.pylon(120) }); p.laced() })
			})
		})
	}},
	{name: "many-shoes", draw: func(p *pencil) {
		p.flat(func() {
			p.at(3, 75.4, 0.36, 0, p.boot)
			p.at(42, 75.4, 0.36, 0, p.laced)
			p.at(81, 75.4, 0.36, 0, func() { p.fixedHeel(60) })
		})
	}},
	{name: "scale-shows", draw: func(p *pencil) {
		p.flat(func() {
			p.scale(30, 60)
			p.at(58, 65.4, 0.5, 0, func() { p.in("translate(-25 0)", func() { p.pylon(104); p.laced() }) })
		})
	}},
}
