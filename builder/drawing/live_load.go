package drawing

// Loads stacked on a foot, each as high as it is heavy.
const (
	stackFoot  = 300.0 // the level on which the stack stands
	stackScale = 0.6   // units a kilogram
	stackAt    = 150.0 // middle
	stackWide  = 60.0
)

var loadStack = Live{
	Drawing: Drawing{ID: "load", Width: 480, Height: 400, make: drawLoad},
	Moves: func() []Move {
		var out []Move
		below := "0"
		for i, in := range []string{"body", "pack", "child", "tools"} {
			half := stackWide / 2
			out = append(out,
				Move{in + "-box", "d", filled("M%1 {%3-%4*("+below+")}H%2V{%3-%4*("+below+"+"+in+"/kg)}H%1Z", stackAt-half, stackAt+half, stackFoot, stackScale)},
				Move{in + "-lead", "d", filled("M%1 {%2-%3*("+below+"+"+in+"/kg/2)}L%4 %5", stackAt+half, stackFoot, stackScale, 252, leadLevel(i))},
				Move{in + "-box", "display", in + " > 0*kg"},
				Move{in + "-lead", "display", in + " > 0*kg"},
			)
			below += "+" + in + "/kg"
		}
		return append(out,
			Move{"total", "transform", filled("translate(0 {-%1*load/kg})", stackScale)},
			Move{"body-handle", "transform", filled("translate(0 {-%1*body/kg})", stackScale)},
			Move{"pack-handle", "transform", filled("translate(0 {-%1*(body+pack)/kg})", stackScale)},
		)
	}(),
	Handles: []Handle{{"body-handle", "body", 0, -1 / stackScale}, {"pack-handle", "pack", 0, -1 / stackScale}},
}

func leadLevel(i int) float64 { return 268 - 46*float64(i) }

func drawLoad(c *canvas) {
	f := frame{stackAt - tubeAt*0.5, 382, 0.5}
	c.draw("d-sole", from(40, 382).line(320, 382))
	c.draw("d-metal", f.put(tube(96, 140)))
	c.draw("d-shell d-outer", f.put(shellOutline()))
	c.draw("d-thin", f.put(toeCrease()))
	c.draw("d-metal", from(stackAt-38, stackFoot).line(stackAt+38, stackFoot, stackAt+38, stackFoot+10, stackAt-38, stackFoot+10).shut())
	for i, in := range []string{"body", "pack", "child", "tools"} {
		c.moving([]string{"d-shell d-outer", "d-hole d-outer", "d-shell d-outer", "d-hole d-outer"}[i], in+"-box")
		c.moving("d-lead", in+"-lead")
		c.says("d-text", in+"-word", pt{258, leadLevel(i)}, right, "")
	}
	c.handle("body-handle", pt{stackAt - 70, stackFoot}, true)
	c.handle("pack-handle", pt{stackAt + 70, stackFoot}, true)
	c.says("d-text d-bold", "total", pt{stackAt, stackFoot - 30}, above, "total")
}
