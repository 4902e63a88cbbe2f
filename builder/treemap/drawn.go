package treemap

import "slices"

// drawn gives what was laid out as plain values.
func (p *page) drawn() *Map {
	m := &Map{Sheet: p.sheet, Edge: p.edge, Crossings: p.n.crossings(), Again: len(p.n.again)}
	for _, s := range p.spots {
		if !s.lane {
			m.Nodes = append(m.Nodes, p.node(s))
		}
		m.Lines = append(m.Lines, p.flat(s))
	}
	for _, s := range p.spots {
		for _, to := range s.down {
			m.Lines = append(m.Lines, p.link(s, p.spots[to]))
		}
	}
	return m
}

func (p *page) node(s *spot) Node {
	n := Node{X: s.end, Y: s.y, Name: s.name, ID: p.id(s.of)}
	if s.question {
		n.Line = p.n.g.Questions[s.of].Line
		n.Name.X, n.Name.Y = s.x, s.y-over-s.name.Height
		return n
	}
	e, again := p.n.ending(s.of)
	n.Ending, n.Again, n.Safety, n.Line = true, again, p.n.g.Endings[e].Safety, p.n.g.Endings[e].Line
	n.Name.X, n.Name.Y = s.end+leftOf, s.y-s.name.Height/2
	return n
}

func (p *page) id(node int) string {
	if p.n.isQuestion(node) {
		return p.n.g.Questions[node].ID
	}
	e, _ := p.n.ending(node)
	return p.n.g.Endings[e].ID
}

// flat is an item's own piece of line.
func (p *page) flat(s *spot) Line {
	l := Line{Flat: true, Begin: [2]float64{s.x, s.y}, End: [2]float64{s.end, s.y}, Label: s.label, Ways: p.steps(s)}
	if !s.edge {
		l.End[0] += level // behind a stone, before links part
	}
	l.Label.X, l.Label.Y = s.x, s.y+under
	return l
}

// steps are the ways that an item's flat piece is of.
func (p *page) steps(s *spot) []Step {
	if s.lane {
		return []Step{{p.id(s.from), p.id(s.to)}}
	}
	var out []Step
	for _, from := range s.up {
		step := Step{p.id(p.source(p.spots[from])), p.id(s.of)}
		if !slices.Contains(out, step) {
			out = append(out, step)
		}
	}
	return out
}

// source is the question that an item leads on from.
func (p *page) source(s *spot) int {
	if s.lane {
		return s.from
	}
	return s.of
}

// link leads from one column to the next. It begins level, so that it bends where no stone is.
func (p *page) link(a, b *spot) Line {
	to := b.of
	if b.lane {
		to = b.to
	}
	return Line{
		Ways:  []Step{{p.id(p.source(a)), p.id(to)}},
		Begin: [2]float64{p.begins[a.rank] + p.wides[a.rank] + level, a.y}, End: [2]float64{b.x, b.y},
	}
}
