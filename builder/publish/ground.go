package publish

import (
	"encoding/json"
	"fmt"
	"path"
	"strings"

	"keelpath/builder/drawing"
	"keelpath/builder/tree"
)

// groundPart is what a script of drawings brings: tiles of answers by name, pictures of the reader's own amounts, and
// where the rest lies.
type groundPart struct {
	Tiles map[string]groundShape `json:"tiles,omitempty"`
	Owns  map[string]groundShape `json:"owns,omitempty"`
	More  map[string]string      `json:"more,omitempty"` // the script that has the tiles of a topic
	Style string                 `json:"style,omitempty"`
	Cuts  string                 `json:"cuts,omitempty"`  // the script that has the cutaways of kinds of feet
	Shown string                 `json:"shown,omitempty"` // the script that has the drawings of what to do
	Drawn string                 `json:"drawn,omitempty"` // their style
}

// groundShape is a drawing that an amount has not been set in.
type groundShape struct {
	Wide  int       `json:"wide"`
	Tall  int       `json:"tall"`
	Body  string    `json:"body"`
	Usual []float64 `json:"usual,omitempty"` // the amount at which it is drawn where none is given
	Run   float64   `json:"run,omitempty"`   // its ground rises by this many units times the amount
	Deep  float64   `json:"deep,omitempty"`  // it is taller by this many units times the first amount
	Of    []string  `json:"of,omitempty"`    // of a picture: the tiles of the measures that tell its amounts, in order
}

const (
	groundScript = "client/planner/ground.ts"
	groundStyle  = "style/ground.css"
)

// cutScript has every kind of foot cut open, by its id. It is loaded where a list of kinds is opened, and on their own page.
const cutScript = "cuts.js"

// shownScript has the drawings of what to do that endings and cards name, by id, and drawnStyle is what drawings look like. Both are
// loaded where one of them is asked for.
const (
	shownScript = "shown.js"
	drawnStyle  = "style/drawing.css"
)

func groundOfTree(id string) string { return "ground-" + id + ".js" }

func groundOf(s drawing.Shape) groundShape {
	return groundShape{Wide: s.Wide, Tall: s.Tall, Body: string(s.Body), Usual: s.Usual, Run: s.Run, Deep: s.Deep}
}

// groundTiles are the tiles with these names.
func groundTiles(names []string) map[string]groundShape {
	out := map[string]groundShape{}
	for _, name := range names {
		if s, ok := drawing.TileShape(name); ok {
			out[name] = groundOf(s)
		}
	}
	return out
}

// firstTiles are those that stand before any topic is taken: for the topics, and for whether a leg is worn.
func firstTiles(trees []*tree.Tree) []string {
	out := []string{"leg-worn", "leg-not-yet", "leg-not-now"}
	for _, t := range trees {
		out = append(out, "topic-"+t.ID.S)
	}
	return out
}

// ground is what the script of drawings has behind it.
func (m *maker) ground() ([]byte, error) {
	trees := m.lib.PatientTrees()
	out := groundPart{Tiles: groundTiles(firstTiles(trees)), Owns: map[string]groundShape{}, More: map[string]string{}}
	for _, name := range drawing.OwnNames() {
		s, _ := drawing.OwnShape(name)
		shape := groundOf(s)
		shape.Of, _ = drawing.OwnTiles(name)
		out.Owns[name] = shape
	}
	style, err := m.asset(groundStyle)
	if err != nil {
		return nil, err
	}
	out.Style = path.Base(style.name)
	cuts, err := m.asset(cutScript)
	if err != nil {
		return nil, err
	}
	out.Cuts = path.Base(cuts.name)
	shown, err := m.asset(shownScript)
	if err != nil {
		return nil, err
	}
	drawn, err := m.asset(drawnStyle)
	if err != nil {
		return nil, err
	}
	out.Shown, out.Drawn = path.Base(shown.name), path.Base(drawn.name)
	for _, t := range trees {
		if len(t.Grounds()) == 0 {
			continue
		}
		file, err := m.asset(groundOfTree(t.ID.S))
		if err != nil {
			return nil, err
		}
		out.More[t.ID.S] = path.Base(file.name)
	}
	return out.script()
}

// groundParts has the tiles of each topic, as an entry of the assets.
func groundParts(trees []*tree.Tree) []entry {
	var out []entry
	for _, t := range trees {
		if names := t.Grounds(); len(names) > 0 {
			out = append(out, entry{from: groundOfTree(t.ID.S), behind: func(*maker) ([]byte, error) {
				return groundPart{Tiles: groundTiles(names)}.script()
			}})
		}
	}
	return out
}

// cuts gives the cutaways of all kinds of feet that have one.
func (m *maker) cuts() ([]byte, error) {
	out := map[string]groundShape{}
	for _, t := range m.lib.FootTypes {
		if s, ok := drawing.CutShape(drawingName(t)); ok {
			out[t.ID.S] = groundOf(s)
		}
	}
	return called("keelpathCuts = %s;\n", out)
}

// shown gives the drawings that endings of patients' trees and cards name.
func (m *maker) shown() ([]byte, error) {
	out := map[string]string{}
	put := func(id string) {
		if d, ok := m.lib.Drawing(id); ok {
			out[id] = string(d.SVG(""))
		}
	}
	for _, t := range m.lib.PatientTrees() {
		for _, e := range t.Endings {
			put(e.Drawing.S)
		}
	}
	for _, k := range m.lib.Cards {
		put(k.Drawing.S)
	}
	return called("keelpathShown = %s;\n", out)
}

func (p groundPart) script() ([]byte, error) { return called("keelpathGround.take(%s);\n", p) }

// called is a script that hands a value on.
func called(format string, v any) ([]byte, error) {
	var b strings.Builder
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false) // the file is no HTML
	err := e.Encode(v)
	return fmt.Appendf(nil, format, strings.TrimSuffix(b.String(), "\n")), err
}
