package drawing

import (
	"fmt"
)

// stood is where a label stands in its drawing.
type stood struct {
	id   string
	at   pt
	side side
	bold bool
}

// area is what one line of text covers, as it is estimated.
type area struct {
	id             string
	x0, y0, x1, y1 float64
}

func (a area) meets(b area) bool { return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1 }

// Tight tells in words which labels leave the picture or overlap others, by label, at
// the type of narrow screens, which is the largest. Widths are estimates: no browser
// is asked.
func (d Drawing) Tight() map[string]string {
	out := map[string]string{}
	var before []area
	c := d.drawn()
	for _, s := range c.stands {
		for _, a := range s.areas(c.labels[s.id]) {
			if a.x0 < 0 || a.y0 < 0 || a.x1 > float64(d.Width) || a.y1 > float64(d.Height) {
				out[a.id] = "leaves the picture"
			}
			for _, b := range before {
				if a.meets(b) {
					out[a.id] = fmt.Sprintf("overlaps the label %q", b.id)
				}
			}
			before = append(before, a)
		}
	}
	return out
}

func (s stood) areas(lines []string) []area {
	first := [...]float64{right: 0.35, left: 0.35, above: 0, below: 0.8}[s.side]
	rest := float64(len(lines)-1) * lead
	switch s.side {
	case right, left:
		first -= rest / 2
	case above:
		first -= rest
	}
	var out []area
	for i, line := range lines {
		w := textWidth(line) * largest
		if s.bold {
			w *= 1.1
		}
		x, y := s.at.x, s.at.y+(first+float64(i)*lead)*largest
		switch s.side {
		case left:
			x -= w
		case above, below:
			x -= w / 2
		}
		out = append(out, area{s.id, x, y - 0.78*largest, x + w, y + 0.23*largest})
	}
	return out
}
