package library

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"keelpath/builder/drawing"
	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// DrawingsFile is where a layer says what drawings say.
const DrawingsFile = "content/en/drawings.yaml"

// Drawing gives the drawing with that id and its words.
func (l *Library) Drawing(id string) (drawing.Drawing, bool) {
	return drawing.Book(l.Drawings).Find(id, l.Say.OwnDigits())
}

// figuresSay gives the drawings of figures their words.
func (l *loader) figuresSay() {
	for _, f := range l.Figures {
		f.Drawing = f.Drawing.Saying(l.Drawings, l.Say.OwnDigits())
	}
}

// drawings reports drawings that nothing is said in, and labels for which a drawing
// has no room: that is an estimate, and so a warning. A library made of a few files
// may have no words for any.
func (c *checker) drawings() {
	if len(c.Drawings) == 0 {
		return
	}
	for _, id := range drawing.Book(c.Drawings).Silent() {
		c.list.Add(finding.Place{File: DrawingsFile, Line: 1}, "missing-key", fmt.Sprintf("nothing is said in the drawing %q", id),
			fmt.Sprintf(`add "%s:" under "drawings", with title, long and labels`, id))
	}
	for _, w := range c.Drawings {
		d, ok := c.Drawing(w.ID.S)
		if !ok {
			continue
		}
		tight := d.Tight()
		for _, id := range slices.Sorted(maps.Keys(tight)) {
			c.list.Warn(w.LabelPlace(id), "label-room", fmt.Sprintf("the label %q of drawing %q likely %s on a narrow screen", id, w.ID.S, tight[id]), "make it shorter, or break it into lines: [first, second]")
		}
	}
}

// namedDrawings reports endings and cards that name a drawing which there is not.
func (c *checker) namedDrawings() {
	named := func(who string, id read.Text) {
		if id.S != "" && !slices.Contains(drawing.IDs(), id.S) {
			c.list.Add(id.At, "unknown-name", fmt.Sprintf("%s names the drawing %q, and there is none", who, id.S), finding.NearestOrAll(id.S, drawing.IDs(), "drawings")...)
		}
	}
	for _, t := range c.Trees {
		for _, e := range t.Endings {
			named(fmt.Sprintf("ending %q", e.ID.S), e.Drawing)
		}
	}
	for _, k := range c.Cards {
		named(fmt.Sprintf("card %q", k.ID.S), k.Drawing)
	}
}

// everyDrawingText gives what drawings say. A label is one text, though it stands in
// lines: a phrase may go over their ends.
func (c *checker) everyDrawingText(do func(said)) {
	for _, w := range c.Drawings {
		who := fmt.Sprintf("drawing %q", w.ID.S)
		texts := [][]read.Text{{w.Title}, {w.Long}}
		for _, l := range w.Labels {
			texts = append(texts, l.Lines)
		}
		for _, lines := range texts {
			text := strings.Join(read.Strings(lines), " ")
			if text == "" {
				continue
			}
			do(said{who: who, text: text, at: lines[0].At, place: func(offset int) finding.Place {
				for _, line := range lines {
					if offset <= len(line.S) {
						return c.within(line, offset)
					}
					offset -= len(line.S) + 1
				}
				return lines[0].At
			}})
		}
	}
}
