package drawing

var heights = []Drawing{
	{ID: "build-height", Width: 480, Height: 460, make: buildHeight},
}

func buildHeight(c *canvas) {
	f := frame{96, 420, 0.86}
	const limbEnd, top = 268, 440
	c.draw("d-sole", f.put(from(-100, 0).line(300, 0)))
	c.hollowFoot(f)
	c.draw("d-solid", f.put(heelLeaf()), f.put(leaf(9, 5, roundSpine...)))
	c.draw("d-metal", f.put(box(tubeAt-15, 130, tubeAt+15, 216)))
	c.joint(f, 91, 205)
	c.draw("d-metal", f.put(pill(tubeAt-19, 200, tubeAt+19, 236, 4)), f.put(box(tubeAt-24, 238, tubeAt+24, 244)))
	c.draw("d-metal", f.put(from(tubeAt-30, 244).line(tubeAt+30, 244).curve(tubeAt+66, 270, tubeAt+72, 340, tubeAt+78, top).line(tubeAt+70, top).
		curve(tubeAt+64, 340, tubeAt+58, 284, tubeAt+20, limbEnd-8, tubeAt+10, limbEnd-12, tubeAt-10, limbEnd-12, tubeAt-20, limbEnd-8, tubeAt-58, 284, tubeAt-64, 340, tubeAt-70, top).
		line(tubeAt-78, top).curve(tubeAt-72, 340, tubeAt-66, 270, tubeAt-30, 244).shut()))
	c.draw("d-shell d-outer", f.put(from(tubeAt-66, top).curve(tubeAt-60, 340, tubeAt-52, limbEnd, tubeAt, limbEnd, tubeAt+52, limbEnd, tubeAt+60, 340, tubeAt+66, top)))
	c.measure(f.at(280, 0), f.at(280, limbEnd))
	c.draw("d-thin", f.put(from(tubeAt, limbEnd).line(290, limbEnd)))
	c.measure(f.at(-28, 0), f.at(-28, 110))
	c.draw("d-thin", f.put(from(-38, 110).line(tubeAt-24, 110)))
	c.label(pt{250, 110}, right, f.at(tubeAt+6, limbEnd+12), "limb-end")
	c.title(pt{350, 300}, right, "room")
	c.title(pt{54, 312}, above, "build-height")
}
