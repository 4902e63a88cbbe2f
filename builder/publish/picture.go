package publish

import (
	"html/template"
	"slices"

	"keelpath/builder/drawing"
)

// picture is what stands for a page: at its head, and smaller beside its name on the shelf.
type picture struct {
	Tile    bool // a thing that says no more than the page's name; a drawing has words
	Opening template.HTML
	Caption string // of a drawing
}

// pictureOf gives what an explainer begins with. A drawing begins only the page that shows it, which then shows it there
// alone; on another it stands where the text has it, and the page begins with its name.
func (v viewer) pictureOf(id string, shown bool) *picture {
	name := v.shelf.Picture(id)
	if d, ok := v.shelf.Drawing(name); ok && isDrawing(name) {
		if !shown {
			return nil
		}
		return &picture{Opening: d.Opening(), Caption: d.Title}
	}
	if t, ok := drawing.TileAt(name, drawing.Usual(name)); ok && name != "" {
		return &picture{Tile: true, Opening: t.Opening()}
	}
	return nil
}

// isDrawing tells a drawing's name from a tile's.
func isDrawing(name string) bool { return slices.Contains(drawing.IDs(), name) }

// smallPicture is what stands beside a page's name, hidden from who listens: a foot cut open, a tile, or a drawing without its words.
func smallPicture(name string) template.HTML {
	if cut, ok := drawing.CutSVG(name); ok {
		return cut
	}
	if bare, ok := drawing.BareSVG(name); ok {
		return bare
	}
	if t, ok := drawing.TileAt(name, drawing.Usual(name)); ok && name != "" {
		return t.SVG()
	}
	return ""
}
