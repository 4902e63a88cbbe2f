package drawing

import "fmt"

// Small things that stand in places. Each has its foot at 0.
func (p *pencil) tree(x, y, tall float64) {
	p.at(x, y, tall/60, 0, func() {
		p.d("", "M-2 0C-1.2 -12 -1.4 -18 -1.6 -27M2.4 0C1.6 -12 1.8 -18 1.8 -27")
		p.d("e", "M-1 -20C-6 -18 -10.4 -18.4 -12.4 -22.6C-16.6 -24 -19.6 -28 -18 -32C-18.6 -38 -16 -41 -13 -43C-11.6 -48 -8 -53.6 -3.6 -55C-1 -58.4 4 -59 6.4 -56.4C10.6 -55 13 -50.6 14.4 -46C17.4 -42.6 19.6 -38 18 -33.6C19 -28 16 -24 12 -22.6C8 -19 3 -19 -1 -20Z")
	})
}

func (p *pencil) house(x, y float64) {
	p.at(x, y, 1, 0, func() {
		p.box("p", 0, -30, 46, 30, 0)
		p.d("e", "M-6 -30L23 -48L52 -30Z")
		p.box("t", 6, -23, 12, 12, 0)
		p.line("f", 12, -23, 12, -11)
		p.box("p", 28, -24, 12, 24, 0)
		p.disc("i", 30.6, -12, 0.9)
	})
}

func (p *pencil) lamp(x, y, tall float64) {
	p.path("", from(x, y).line(x, y-tall).curve(x, y-tall-6, x+9, y-tall-6, x+9, y-tall))
	p.path("p", from(x+5, y-tall).line(x+13, y-tall, x+15, y-tall+5, x+3, y-tall+5).shut())
}

// floors is a building with windows; y0 and y1 are where its ends meet the ground.
func (p *pencil) floors(class string, x0, x1, top, y0, y1 float64, windows ...[2]float64) {
	p.path(class, from(x0, y0).line(x0, top, x1, top, x1, y1).shut())
	for _, w := range windows {
		p.box("p", w[0], w[1], 6.5, 8.5, 0)
	}
}

func (p *pencil) drop(x, y, size float64) {
	p.at(x, y, size, 0, func() {
		p.d("e", "M0 -12C3 -6 6.4 -2.4 6.4 2C6.4 6 3.6 8.6 0 8.6C-3.6 8.6 -6.4 6 -6.4 2C-6.4 -2.4 -3 -6 0 -12Z")
	})
}

// arrowTo draws an open arrow along a path.
func (p *pencil) arrowTo(class string, along path, size float64) {
	pts := along.flat(12)[0]
	tip := pts[len(pts)-1]
	back := pts[len(pts)-2].minus(tip)
	back = back.times(size / back.length())
	a, b := tip.plus(back.turned(pt{}, 30)), tip.plus(back.turned(pt{}, -30))
	p.path(class, along, from(a.x, a.y).line(tip.x, tip.y, b.x, b.y))
}

func (p *pencil) sun(x, y float64) {
	p.disc("t", x, y, 7)
	var rays []path
	for i := range 8 {
		a := pt{x + 10.5, y}.turned(pt{x, y}, float64(i)*45)
		b := pt{x + 14.5, y}.turned(pt{x, y}, float64(i)*45)
		rays = append(rays, from(a.x, a.y).line(b.x, b.y))
	}
	p.path("f", rays...)
}

// flake is a snow crystal.
func flake(x, y, r float64) path {
	var out path
	for i := range 3 {
		a := pt{x + r, y}.turned(pt{x, y}, 30+float64(i)*60)
		b := pt{x - r, y}.turned(pt{x, y}, 30+float64(i)*60)
		out = append(out, from(a.x, a.y).line(b.x, b.y)...)
	}
	return out
}

const waves = "M0 0C6 -5 12 -5 18 0C24 5 30 5 36 0"

func wavesAt(x, y float64, n int) path {
	out := from(x, y)
	for range n {
		out = out.curve(x+4, y-4, x+8, y-4, x+12, y, x+16, y+4, x+20, y+4, x+24, y)
		x += 24
	}
	return out
}

// stones lie along the ground from x0; each pair is how wide and how high one is.
func (p *pencil) stones(x0 float64, sizes ...[2]float64) {
	x := x0
	for _, s := range sizes {
		w, h := s[0], s[1]
		p.path("p", from(x, 76).curve(x-1, 76-h*0.6, x+w*0.16, 76-h, x+w*0.42, 76-h*1.02).curve(x+w*0.7, 76-h*1.04, x+w*0.96, 76-h*0.7, x+w, 76).shut())
		x += w
	}
}

func grass(x, y float64) string {
	return fmt.Sprintf("M%s %sC%s %s %s %s %s %sM%s %sL%s %sM%s %sC%s %s %s %s %s %s", num(x), num(y), num(x-0.4), num(y-4), num(x-2), num(y-7), num(x-4), num(y-8),
		num(x+1.6), num(y), num(x+1.8), num(y-10), num(x+3), num(y), num(x+3.4), num(y-4), num(x+5), num(y-7), num(x+7.4), num(y-8))
}

func (p *pencil) tufts(at ...float64) {
	d := ""
	for _, x := range at {
		d += grass(x, 76)
	}
	p.d("", d)
}

// stand puts a person at x on level ground.
func (p *pencil) stand(x, scale float64, s someone) {
	p.at(x, 75.4, scale, 0, func() { p.one(s) })
}

var groundTiles = []tileShape{
	{name: "flat", draw: func(p *pencil) { p.flat(func() { p.legShoe(52, 75.4, 0.5, 0, 112) }) }},
	{name: "slope", usual: 0.08, of: "slope", rises: true, draw: drawSlopeTile},
	{name: "side-slope", usual: 0.08, of: "slope", rises: true, draw: drawSideSlope},
	{name: "up-hill", draw: func(p *pencil) {
		p.ground("M0 76H8L98 61.6C106 60.4 110 76 120 76", func() {
			p.at(56, 67.6, 0.37, 0, func() {
				p.one(someone{hip: pt{2, -85}, lean: 10, near: footing{18, -3, 12}, far: footing{-18, -1, -12}, nearLeg: belowKnee, nearArm: []pt{{8, -112}, {24, -100}}, farArm: []pt{{-6, -110}, {-8, -88}}, hair: "cap", skin: "e", coat: "p", legs: "t"})
			})
		})
	}},
	{name: "down-hill", draw: func(p *pencil) {
		p.ground("M0 76C10 76 14 60.4 22 61.6L112 76H120", func() {
			p.at(58, 66.8, 0.37, 0, func() {
				p.one(someone{hip: pt{-3, -83}, lean: -3, near: footing{17, 2.6, -2}, far: footing{-15, -3, -14}, nearLeg: belowKnee, nearArm: []pt{{-6, -110}, {14, -98}}, farArm: []pt{{4, -110}, {16, -96}}, hair: "bun", legs: "t", hem: 14})
			})
		})
	}},
	{name: "hill", draw: func(p *pencil) {
		p.ground("M0 76H8L54 61.4C58 60 62 60 66 61.4L112 76H120", func() {
			p.arrowTo("", from(14, 62).line(46, 51.6), 6)
			p.arrowTo("", from(74, 51.6).line(106, 62), 6)
			p.at(60, 60, 0.28, 0, func() { p.one(woman) })
		})
	}},
	{name: "stand-on-slope", draw: func(p *pencil) {
		p.ground("M0 76H8L98 61.6C106 60.4 110 76 120 76", func() {
			p.at(56, 67.9, 0.37, 0, func() {
				p.one(someone{hip: pt{0, -86}, lean: 2, near: footing{-3, 0.4, 9}, far: footing{8, -1.2, 9}, nearLeg: belowKnee, nearArm: []pt{{-6, -110}, {3, -91}}, hair: "curls", skin: "e", coat: "p", legs: "t"})
			})
		})
	}},
	{name: "stairs", draw: func(p *pencil) {
		p.ground("M0 76H26V66H44V56H62V46H80V36H112V76H120", func() {
			p.path("", from(31, 66).line(31, 38, 93, 4, 112, 4), from(93, 36).line(93, 4), from(53, 56).line(53, 26), from(71, 46).line(71, 16))
			p.legShoe(48, 55.4, 0.32, 0, 112)
		})
	}},
	{name: "ramp-door", draw: func(p *pencil) {
		p.ground("M0 76H4L64 71H116V76H120", func() {
			p.path("f", from(10, 75.5).line(10, 58, 62, 53.6, 62, 71), from(27, 74).line(27, 56.6), from(45, 72.6).line(45, 55))
			p.path("", from(10, 58).line(62, 53.6))
			p.house(66, 71)
		})
	}},
	{name: "street", draw: func(p *pencil) {
		p.ground("M0 76H4L60 69.4L116 76H120", func() {
			p.floors("p", 8, 32, 40, 75.5, 72.7, [2]float64{12, 46}, [2]float64{22, 46})
			p.floors("e", 32, 62, 28, 72.7, 69.6, [2]float64{37, 34}, [2]float64{50, 34}, [2]float64{37, 49})
			p.floors("p", 62, 86, 44, 69.6, 72.5, [2]float64{66, 50}, [2]float64{76, 50})
			p.path("p", from(50, 70.8).line(50, 51, 58, 51, 58, 70).shut())
			p.path("p", from(18, 74.2).line(18, 59, 26, 59, 26, 73.4).shut())
			p.lamp(98, 74, 40)
		})
	}},
	{name: "work-ramp", draw: func(p *pencil) {
		p.ground("M0 76H4L64 71H116V76H120", func() {
			p.path("p", from(68, 71).line(68, 34, 116, 34, 116, 71).shut())
			p.path("e", from(64, 34).line(92, 22, 120, 34).shut())
			p.box("t", 76, 44, 32, 27, 0)
			p.path("f", from(76, 50).line(108, 50), from(76, 57).line(108, 57), from(76, 64).line(108, 64))
			p.at(34, 73.4, 1, -5, func() {
				p.path("h", from(-8, -2).line(14, -2, 25, -34))
				p.box("e", -8, -18, 18, 16, 1)
				p.disc("p", 13, -4, 4)
			})
		})
	}},
	{name: "trail", draw: func(p *pencil) {
		p.ground("M0 76C14 74 26 70 40 60C54 48 60 44 70 44C84 44 88 62 98 70C104 75 112 76 120 76", func() {
			p.tree(22, 71, 40)
			p.tree(98, 70, 36)
			p.tree(34, 65, 34)
			p.d("f dash", "M58 84C66 76 58 70 66 63C72 57 66 52 70 46")
		})
	}},
	{name: "curb", draw: func(p *pencil) {
		p.ground("M0 76H44V68H112V76H120", func() {
			p.legShoe(70, 67.4, 0.46, 0, 116)
			p.path("f", from(56, 68).line(56, 76), from(84, 68).line(84, 76))
			p.path("dash", from(6, 76).line(6, 76))
		})
	}},
	{name: "grass", draw: func(p *pencil) {
		p.ground("M0 76C10 76 14 72 22 73C30 74 34 78 44 76C54 73 58 71 68 73C78 75 84 78 94 76C104 74 110 76 120 76", func() {
			p.legShoe(52, 75, 0.5, -3, 112)
			p.tufts(8, 22, 34, 84, 97, 108)
		})
	}},
	{name: "gravel", draw: func(p *pencil) {
		p.flat(func() {
			p.at(50, 66, 0.5, -9, func() { p.in("translate(-25 0)", func() { p.pylon(112); p.laced() }) })
			p.stones(12, [2]float64{14, 8}, [2]float64{10, 6}, [2]float64{12, 9}, [2]float64{18, 6}, [2]float64{18, 16}, [2]float64{13, 8}, [2]float64{10, 6}, [2]float64{8, 5})
		})
	}},
	{name: "sand", draw: func(p *pencil) {
		p.ground("M0 76C8 76 14 70 26 70C34 70 36 74 42 75C50 76 74 77 84 75C92 73 96 68 106 71C112 73 114 76 120 76", func() {
			p.at(50, 77.6, 0.5, 4, func() { p.in("translate(-25 0)", func() { p.pylon(112); p.laced() }) })
			p.sun(104, 18)
		})
		p.d("dots", "M8 80H116M14 77H36M92 76H112")
	}},
	{name: "wet", draw: func(p *pencil) {
		p.flat(func() {
			p.legShoe(48, 75.4, 0.5, 0, 112)
			p.drop(96, 20, 0.8)
			p.drop(110, 34, 0.6)
			p.drop(84, 40, 0.6)
			p.d("t", "M12 78C14 74.6 26 74 40 74.6C60 73.6 84 73.6 98 75C108 75 112 77 110 78.6C100 82 22 82 12 78Z")
			p.d("f", "M24 78.4H36M64 79H84")
		})
	}},
	{name: "ice", draw: func(p *pencil) {
		p.flat(func() {
			p.at(44, 71.6, 0.5, -13, func() { p.in("translate(-25 0)", func() { p.pylon(108); p.laced() }) })
			p.path("f", from(12, 66).line(30, 66), from(6, 58).line(24, 58))
			p.path("", flake(102, 20, 9), flake(84, 42, 6), flake(112, 46, 5))
			p.d("f", "M20 80L32 77M58 80L74 77M92 80L104 77")
		})
	}},
	{name: "snow", draw: func(p *pencil) {
		p.ground("M0 76C10 76 16 68 30 67C42 66 46 70 54 70C66 70 76 64 90 65C104 66 108 76 120 76", func() {
			p.legShoe(50, 77.6, 0.5, 0, 112)
			p.path("", flake(96, 18, 9), flake(80, 38, 6), flake(110, 44, 6))
			p.d("p n", "M4 76C10 75 16 68 30 67C42 66 46 70 54 70C66 70 76 64 90 65C104 66 108 75 116 76V83H4Z")
			p.d("dots", "M20 79H104M32 73H42M78 72H98")
		})
	}},
	{name: "indoors", draw: func(p *pencil) {
		p.flat(func() {
			p.box("t", 12, 14, 26, 28, 0)
			p.path("f", from(25, 14).line(25, 42), from(12, 28).line(38, 28))
			p.box("p", 62, 44, 48, 32, 0)
			p.path("f", from(62, 50).line(110, 50), from(86, 50).line(86, 76))
			p.path("h", from(58, 44).line(114, 44))
			p.d("e", "M68 43V34H88V43Z")
			p.path("", from(88, 37).line(95, 37), from(72, 30).line(84, 30), from(78, 30).line(78, 27))
		})
	}},
	{name: "water", draw: func(p *pencil) {
		p.ground("M0 76H14C20 76 22 82 30 82H98C106 82 106 76 112 76H120", func() {
			p.path("t n", wavesAt(14, 50, 4).line(110, 76).line(104, 82, 24, 82, 14, 76).shut())
			p.legShoe(50, 81.4, 0.5, 0, 124)
			p.path("h", wavesAt(14, 50, 4))
			p.path("f", wavesAt(20, 62, 1), wavesAt(78, 62, 1), wavesAt(84, 72, 1))
		})
	}},
	{name: "bus", draw: func(p *pencil) {
		p.ground("M0 76H120", func() {
			p.path("p", from(30, 72).line(30, 16).curve(30, 13, 32, 12, 34, 12).line(116, 12).line(116, 72).shut())
			p.box("t", 38, 20, 22, 48, 1)
			p.line("f", 49, 20, 49, 68)
			p.box("t", 68, 22, 20, 20, 1)
			p.box("t", 94, 22, 18, 20, 1)
			p.path("f", from(66, 52).line(116, 52))
			p.disc("p", 92, 68, 8)
			p.disc("i", 92, 68, 2)
			p.path("h", from(36, 68).line(62, 68))
			p.path("", from(12, 76).line(12, 30))
			p.d("e", "M5 18H19V30H5Z")
		})
	}},
	{name: "bedroom", draw: func(p *pencil) {
		p.flat(func() {
			p.path("h", from(8, 76).line(8, 36), from(76, 76).line(76, 52))
			p.box("p", 8, 56, 68, 8, 2)
			p.d("e", "M10 56C10 50 14 49 22 49C28 49 30 52 30 56Z")
			p.d("t", "M30 56C34 50 66 50 76 54V64H30Z")
			p.at(86, 76, 1, 0, func() {
				p.path("h", from(0, 0).line(2, -38, 22, -38, 24, 0))
				p.path("", from(1, -22).line(23, -22))
			})
		})
	}},
	{name: "field", draw: func(p *pencil) {
		p.flat(func() {
			p.path("", from(74, 76).line(90, 8), from(88, 76).line(104, 8))
			p.path("", from(77.8, 60).line(91.8, 60), from(81.3, 45).line(95.3, 45), from(84.8, 30).line(98.8, 30), from(88.4, 15).line(102.4, 15))
			p.ball(60, 66, 9.4)
			p.at(8, 75.4, 0.44, 0, p.boot)
		})
	}},
	{name: "far", draw: func(p *pencil) {
		p.ground("M0 76H40C52 76 54 62 66 62C78 62 80 76 92 76H120", func() {
			p.at(8, 76, 0.8, 0, func() { p.house(0, 0) })
			p.d("f dash", "M40 82C56 82 58 68 66 68C74 68 76 82 100 82")
			p.at(104, 76, 0.5, 0, func() {
				p.box("p", -20, -60, 40, 60, 0)
				p.d("h", "M0 -52V-34M-9 -43H9")
				p.box("e", -7, -22, 14, 22, 0)
			})
		})
	}},
}

func (p *pencil) ball(x, y, r float64) {
	p.disc("t", x, y, r)
	p.at(x, y, r/11, 0, func() { p.d("f", "M-10 -4C-4 0 4 0 10.4 -3.6M-5 10C-2 4 -2 -4 -5.4 -9.6") })
}

// A slope begins behind a piece of level ground and goes on to the right end. Its line is straight from where it
// begins to a place that the amount lifts, so it leans by exactly the amount.
const (
	slopeFrom = 22.0
	slopeRun  = TileWide - slopeFrom
)

func (p *pencil) leaning(things func()) {
	p.b.WriteString(leadIn)
	p.mix("g-earth", 0, 1, "M0 76L22 76L120 76L120 84L0 84Z", "M0 76L22 76L120 -22L120 84L0 84Z")
	things()
	p.b.WriteString(leadLine)
	p.mix("g-line", 0, 1, "M0 76L22 76L120 76", "M0 76L22 76L120 -22")
}

// on draws at x on the slope, with level 0 on its ground.
func (p *pencil) on(x float64, draw func()) {
	p.move("drop "+num(slopeFrom-x), func() { p.at(x, groundAt-0.6, 1, 0, draw) })
}

func drawSlopeTile(p *pencil) {
	p.leaning(func() {
		p.on(58, func() {
			p.in("scale(.5)", func() {
				p.move("turn -1 0 0", func() {
					p.move("turn 1 0 -30", func() { p.in("translate(-25 0)", func() { p.pylon(112) }) })
					p.in("translate(-25 0)", p.laced)
				})
			})
		})
	})
}

// Two legs from behind, on ground that leans across the way.
func drawSideSlope(p *pencil) {
	p.leaning(func() {
		p.on(52, func() { p.fromBehind(0.5, ownLeg, "turn -1 0 0") })
		p.on(76, func() { p.fromBehind(0.5, belowKnee, "turn -1 0 0") })
	})
}
