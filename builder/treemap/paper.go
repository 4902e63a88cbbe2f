package treemap

// Sheet is what a map is laid out on. Lengths are in millimetres. A map that does not fit is laid out on the
// next larger sheet; the last one grows as it has to.
type Sheet struct {
	Name          string
	Width, Height float64 // of the part that the map may take
	Size          float64 // of the letters, from the top of an ascender to the foot of a descender; a point is 0.3528 mm
}

// Point is a typographic point, in millimetres.
const Point = 25.4 / 72

// Margin is what the paper keeps free on each side; Head is what the map's name and its key take.
const (
	Margin = 8.0
	Head   = 17.0
)

// A4, A3 and A2 lie on their long side.
var (
	A4 = Sheet{"A4", 297 - 2*Margin, 210 - 2*Margin - Head, 8.1 * Point}
	A3 = Sheet{"A3", 420 - 2*Margin, 297 - 2*Margin - Head, 8.1 * Point}
	A2 = Sheet{"A2", 594 - 2*Margin, 420 - 2*Margin - Head, 8.1 * Point}
)

// measures of what is drawn, all in millimetres.
const (
	bead      = 2.3 // radius of a stone or a bead
	over      = 1.3 // between a question and its line
	under     = 0.9 // between a line and its answer
	apart     = 1.0 // least between what stands one over the other
	level     = bead + 0.7
	bend      = 4.6  // of the gap between columns, what links curve in
	wideBend  = 7.5  // the same before a column of many
	crowd     = 6    // so many stand in a column of many
	leftOf    = 3.2  // between the edge and an ending's title
	narrowest = 15.0 // of a column
	lineOf    = 1.18 // a line's height, in sizes
	slack     = 1.03 // what a browser may need more than was measured
)
