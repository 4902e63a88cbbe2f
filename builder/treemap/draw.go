package treemap

import (
	"fmt"
	"html"
	"html/template"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Drawing says what of a map is drawn. The classes are made visible by site/style/map.css.
type Drawing struct {
	Name   string                // for who listens
	Link   func(line int) string // where a node leads, by its line in the file; nil for nowhere
	Path   []string              // questions in the order in which they were answered, and the ending; drawn thick, with numbered beads
	Number func(int) string      // how the page says a bead's number; asked for where there is a path
	Known  map[string]bool       // the questions and endings whose words are shown; nil for all. The answers of a known question are shown
}

// SVG draws a map. Its units are millimetres.
func (m *Map) SVG(d Drawing) template.HTML {
	p := &picture{Map: m, Drawing: d}
	fmt.Fprintf(&p.b, `<svg class="tree-map" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %s %s" role="group" aria-label="%s">`, n(m.Sheet.Width), n(m.Sheet.Height), html.EscapeString(d.Name))
	fmt.Fprintf(&p.b, `<rect class="m-edge" x="%s" y="0" width="%s" height="%s"/>`, n(m.Edge), n(m.Sheet.Width-m.Edge), n(m.Sheet.Height))
	fmt.Fprintf(&p.b, `<path class="m-line" d="M%s 0V%s"/>`, n(m.Edge), n(m.Sheet.Height))
	p.lines()
	p.nodes()
	fmt.Fprintf(&p.b, `<path class="m-rule" d="%s"/>`, p.rules.String())
	p.b.WriteString("</svg>\n")
	return template.HTML(p.b.String())
}

type picture struct {
	*Map
	Drawing
	b     strings.Builder
	rules strings.Builder // lines to write on
}

// n is a length to a tenth of a millimetre.
func n(x float64) string { return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64) }

// lines draws what was not walked first, so that a path lies over it.
func (p *picture) lines() {
	for _, class := range []string{"m-fog", "m-line", "m-mine"} {
		all := ""
		for _, l := range p.Lines {
			if p.class(l) == class {
				all += l.d()
			}
		}
		if all != "" {
			fmt.Fprintf(&p.b, `<path class="%s" d="%s"/>`, class, all)
		}
	}
	for _, l := range p.Lines {
		if p.shown(l) {
			p.text("m-answer", l.Label)
		}
	}
}

func (p *picture) class(l Line) string {
	switch {
	case p.walked(l):
		return "m-mine"
	case !p.shown(l):
		return "m-fog"
	}
	return "m-line"
}

// walked tells whether a line is a piece of the path: of a step from one of its places to the next.
func (p *picture) walked(l Line) bool {
	if len(l.Ways) == 0 {
		return len(p.Path) > 0
	}
	return slices.ContainsFunc(l.Ways, func(w Step) bool {
		i := slices.Index(p.Path, w.From)
		return i >= 0 && i+1 < len(p.Path) && p.Path[i+1] == w.To
	})
}

// shown tells whether a line leads on from a question that is known.
func (p *picture) shown(l Line) bool {
	return p.Known == nil || len(l.Ways) == 0 || slices.ContainsFunc(l.Ways, func(w Step) bool { return p.Known[w.From] })
}

// d is the line's way in the words of SVG.
func (l Line) d() string {
	if l.Flat {
		return fmt.Sprintf("M%s %sH%s", n(l.Begin[0]), n(l.Begin[1]), n(l.End[0]))
	}
	mid := n((l.Begin[0] + l.End[0]) / 2)
	return fmt.Sprintf("M%s %sC%s %s %s %s %s %s", n(l.Begin[0]), n(l.Begin[1]), mid, n(l.Begin[1]), mid, n(l.End[1]), n(l.End[0]), n(l.End[1]))
}

func (p *picture) nodes() {
	for _, node := range p.Nodes {
		known := p.Known == nil || p.Known[node.ID]
		p.place(node, known)
		if !known {
			continue
		}
		class := "m-name"
		if node.Safety {
			class += " m-stop"
		}
		if p.Link == nil || node.Line == 0 {
			p.text(class, node.Name)
			continue
		}
		fmt.Fprintf(&p.b, `<a href="%s">`, html.EscapeString(p.Link(node.Line)))
		p.text(class, node.Name)
		p.b.WriteString("</a>")
	}
}

// place draws a question's stone, an ending's place on the edge, or the bead of a path.
func (p *picture) place(node Node, known bool) {
	bead, class := slices.Index(p.Path, node.ID), "m-stone"
	switch {
	case bead >= 0 && !node.Again:
		fmt.Fprintf(&p.b, `<circle class="m-bead" cx="%s" cy="%s" r="%s"/><text class="m-number" x="%s" y="%s" font-size="%s">%s</text>`,
			n(node.X), n(node.Y), n(beadRadius), n(node.X), n(node.Y+1), n(p.Sheet.Size), p.Number(bead+1))
		return
	case !known:
		class = "m-unknown"
	case node.Ending:
		class = "m-end"
	}
	radius := beadRadius * 0.8
	if node.Ending {
		radius = 0.9
	}
	fmt.Fprintf(&p.b, `<circle class="%s" cx="%s" cy="%s" r="%s"/>`, class, n(node.X), n(node.Y), n(radius))
}

const beadRadius = bead

// text writes lines of words, and keeps a line to write on in their place, which only the blank map shows.
func (p *picture) text(class string, t Text) {
	if len(t.Lines) == 0 {
		return
	}
	high := p.Sheet.Size * lineOf
	fmt.Fprintf(&p.b, `<text class="%s" font-size="%s">`, class, n(p.Sheet.Size))
	for i, line := range t.Lines {
		y := t.Y + high*float64(i) + p.Sheet.Size*0.88
		space := " "
		if i == len(t.Lines)-1 {
			space = ""
		}
		fmt.Fprintf(&p.b, `<tspan x="%s" y="%s">%s%s</tspan>`, n(t.X), n(y), html.EscapeString(line), space)
	}
	p.b.WriteString("</text>")
	fmt.Fprintf(&p.rules, "M%s %sh%s", n(t.X), n(t.Y+t.Height), n(t.Width))
}
