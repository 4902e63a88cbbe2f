package drawing

import "fmt"

// A shoe cut open with a foot in it, over a ruler. The inside of heelMeasured's
// shoe runs from 8 to 278 mm.
const (
	shoeScale            = 1.2
	shoeAt, shoeGround   = 34.0, 196.0
	insideFrom, insideOf = 8.0, 270.0
)

var footInShoe = Live{
	Drawing: Drawing{ID: "foot-and-shoe", Width: 480, Height: 270, make: drawFootInShoe},
	Moves: []Move{
		{"shoe", "display", `from == "inside"`},
		{"shoe", "transform", filled("translate({%1-%2*inside/(%3*mm)} %4) scale({%5*inside/(%3*mm)} %5)", shoeAt, insideFrom*shoeScale, insideOf, shoeGround, shoeScale)},
		{"foot", "transform", filled("translate(%1 %2) scale({%3*longest/(260*mm)})", shoeAt, shoeGround-soleBall*shoeScale, shoeScale)},
		{"short", "d", filled("M{%1+%2*shortest/mm} 96V232", shoeAt, shoeScale)},
		{"long", "d", filled("M{%1+%2*longest/mm} 96V232", shoeAt, shoeScale)},
		{"end", "d", filled("M{%1+%2*told/mm} 64V214", shoeAt, shoeScale)},
		{"end-handle", "transform", filled("translate({%1*told/mm} 0)", shoeScale)},
		{"end-handle", "display", `from != "size"`},
		{"end", "display", `from != "size"`},
	},
	Handles: []Handle{{"end-handle", "inside", 1 / shoeScale, 0}, {"end-handle", "other", 1 / shoeScale, 0}},
}

func drawFootInShoe(c *canvas) {
	c.open("shoe")
	f := frame{0, 0, 1}
	c.draw("d-line", f.put(upper(soleHeel, 34)))
	c.draw("d-hole", f.put(sole()))
	c.close()
	c.open("foot")
	c.draw("d-shell d-outer", f.put(shellOutline()))
	c.draw("d-thin", f.put(toeCrease()))
	c.close()
	c.moving("d-ghost", "short")
	c.moving("d-thin", "long")
	c.moving("d-heavy", "end")
	var marks path
	for cm := range 36 {
		x, h := shoeAt+float64(cm)*10*shoeScale, 7.0
		if cm%5 == 0 {
			h = 14
			c.words("d-text", pt{x, 242}, below, fmt.Sprint(cm))
		}
		marks = append(marks, from(x, 224).line(x, 224+h)...)
	}
	c.draw("d-thin", from(shoeAt, 224).line(shoeAt+350*shoeScale, 224), marks)
	c.handle("end-handle", pt{shoeAt, 48}, false)
	c.says("d-text d-bold", "lengths", pt{shoeAt, 16}, right, "")
}
