package drawing

// Feet that meet the ground.
var slopes = []Drawing{
	{ID: "slope-foot-flat", Width: 480, Height: 330, numbers: map[string]string{"slope": whole(slope)}, make: footFlat},
	{ID: "roll-over", Width: 480, Height: 312, make: rollOver},
}

// A slope on which standing has been studied, in degrees.
const slope = 10.0

func footFlat(c *canvas) {
	facing := func(f frame, angle float64) {
		rest := pt{tubeAt, 0}
		c.draw("d-sole", f.put(from(-100, 0).line(294, 0).turned(rest, angle)))
		c.draw("d-shell d-outer", f.put(shoeSole(14).turned(rest, angle)))
		c.draw("d-shell d-outer", f.put(shellOutline().moved(0, 14).turned(rest, angle)))
		hinge := pt{tubeAt, ankleHeight + 14}.turned(rest, angle)
		up := tube(100, 300).moved(hinge.x-tubeAt, hinge.y-ankleHeight)
		c.draw("d-metal", f.put(up))
		c.draw("d-metal", f.put(pill(tubeAt-22, 66, tubeAt+22, 118, 6).moved(hinge.x-tubeAt, hinge.y-ankleHeight)))
		square := hinge.plus(pt{0, 214}.turned(pt{}, angle))
		c.draw("d-ghost d-square", f.put(from(hinge.x, hinge.y).line(square.x, square.y)))
		c.draw("d-axis", f.put(from(hinge.x, hinge.y).line(hinge.x, hinge.y+226)))
		c.draw("d-solid", f.put(disc(hinge.x, hinge.y, 5)))
		c.arrow(f.put(arc(hinge, 200, 90+angle, 90)))
	}
	up, down := frame{62, 232, 0.58}, frame{300, 232, 0.58}
	facing(up, slope)
	facing(down, -slope)
	c.title(pt{118, 276}, below, "up")
	c.title(pt{362, 276}, below, "down")
}

func rollOver(c *canvas) {
	const ground = 226.0
	c.draw("d-sole", from(10, ground).line(470, ground))
	stand := func(x float64, set, bend func(pt) pt) {
		f := frame{x, ground, 0.46}
		c.draw("d-metal", f.put(tube(120, 400).each(set)))
		c.draw("d-shell d-outer", f.put(shoeSole(14).each(bend)))
		c.draw("d-shell d-outer", f.put(shellOutline().moved(0, 14).each(bend)))
		c.draw("d-metal", f.put(pill(tubeAt-22, 78, tubeAt+22, 130, 6).each(set)))
	}
	// Heel contact: the foot and leg turned about the back of the heel.
	land := func(p pt) pt { return p.turned(pt{6, 1}, 18) }
	stand(48, land, land)
	// Mid stance.
	stay := func(p pt) pt { return p }
	stand(188, stay, stay)
	// Like a piece of a wheel: a radius of 0.22 of a stature of 1.75 m (roll-over shapes
	// of ankle and foot, a study of 2010).
	f := frame{188, ground, 0.46}
	hub := pt{tubeAt + 20, 385}
	spoke := func(angle float64) path {
		end := arc(hub, 385, angle, angle+1)[0].p[2]
		return from(hub.x, hub.y).line(end.x, end.y)
	}
	c.draw("d-ghost", f.put(spoke(256)), f.put(spoke(287)), f.put(arc(hub, 385, 256, 287)))
	// Toe-off: all behind the ball turns about it, what lies at the ball bends.
	push := func(p pt) pt { return p.turned(ballPoint, -34) }
	bent := func(p pt) pt { return p.turned(ballPoint, -34*min(max((ball+22-p.x)/44, 0), 1)) }
	stand(318, push, bent)
	c.arrow(from(180, 20).line(300, 20))
	c.note(pt{84, 244}, below, "heel-lands")
	c.note(pt{236, 244}, below, "flat")
	c.note(pt{236, 276}, below, "rolls")
	c.note(pt{398, 244}, below, "toe-pushes")
}
