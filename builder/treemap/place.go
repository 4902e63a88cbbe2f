package treemap

import (
	"math"
	"slices"

	"keelpath/builder/say"
)

// Map is a tree as one picture: what stands where, in millimetres from the top left corner of the sheet's part.
type Map struct {
	Sheet     Sheet // its height is what the map takes
	Edge      float64
	Nodes     []Node
	Lines     []Line
	Crossings int
	Again     int // endings that are set down again
}

// Node is a question or an ending on a map. X, Y is its stone, or its place on the edge.
type Node struct {
	ID     string
	Ending bool
	Again  bool // it stands elsewhere too
	Safety bool
	Line   int // in the tree's file; 0 where it has none
	X, Y   float64
	Name   Text
}

// Text is lines of words. X, Y is the top left corner, and Width and Height are what they take.
type Text struct {
	Lines               []string
	X, Y, Width, Height float64
}

// Line is a piece of a way: a flat one, which may have an answer under it, or a link that bends between two columns.
type Line struct {
	Ways  []Step // the ways that it is a piece of; empty before the first question
	Begin [2]float64
	End   [2]float64
	Flat  bool
	Label Text
}

// Step is a way from a question to what it leads to.
type Step struct{ From, To string }

// spot is an item on paper. X is where its column begins, end where its line does.
type spot struct {
	*item
	name, label    Text
	above, below   float64 // what it takes over its line and under it
	x, end, y      float64
	weight         float64
	question, edge bool
}

// page lays a net out on one sheet.
type page struct {
	n      *net
	sheet  Sheet
	again  string // what is said of an ending that stands elsewhere too
	spots  []*spot
	begins []float64 // of columns
	wides  []float64
	edge   float64
}

// Lay lays a graph out on the first of the sheets that it fits on; on the last one, if need be, a larger one.
func Lay(g Graph, w *say.Words, sheets ...Sheet) *Map {
	return ordered(g).on(w, sheets...)
}

func (n *net) on(w *say.Words, sheets ...Sheet) *Map {
	for i, sheet := range sheets {
		p := &page{n: n, sheet: sheet}
		p.write(w)
		fits := p.columns()
		p.wrap()
		if need := p.need(); need > sheet.Height+0.01 {
			fits = false
			p.sheet.Height = need
		}
		if fits || i == len(sheets)-1 {
			p.heights()
			return p.drawn()
		}
	}
	return nil
}

// write gives each item its words, unbroken.
func (p *page) write(w *say.Words) {
	for _, it := range p.n.items {
		s := &spot{item: it, weight: 1, edge: it.rank == p.n.last}
		switch {
		case it.lane:
			s.weight = 6
		case p.n.isQuestion(it.of):
			q := p.n.g.Questions[it.of]
			s.question = true
			s.name = Text{Lines: []string{Numbered(w, q.Number, q.Text)}}
		default:
			e, again := p.n.ending(it.of)
			title := p.n.g.Endings[e].Title
			if again {
				title = w.Say("map.again", "ending", title)
			}
			s.name = Text{Lines: []string{title}}
		}
		if label := p.label(w, it.labels); label != "" {
			s.label = Text{Lines: []string{label}}
		}
		p.spots = append(p.spots, s)
	}
}

// Numbered is a text behind its number, where it has one.
func Numbered(w *say.Words, number int, text string) string {
	if number == 0 {
		return text
	}
	return w.Say("map.numbered", "number", number, "text", text)
}

// label is what stands under one line. Where answers to several questions come in on it and are not the same, each is
// told with its question's number.
func (p *page) label(w *say.Words, labels []labelled) string {
	same := true
	for _, l := range labels {
		same = same && l.text == labels[0].text
	}
	out := ""
	for i, l := range labels {
		text := l.text
		if !same {
			text = w.Say("map.from", "number", p.n.g.Questions[l.from].Number, "answer", text)
		}
		switch {
		case i == 0:
			out = text
		case !same:
			out = w.Say("map.either", "first", out, "second", text)
		}
	}
	return out
}

// room is what the words over and under an item's line may take of its column.
func (s *spot) room(column float64) float64 {
	if s.question {
		column -= bead + 0.6
	}
	return column / slack
}

// columns shares the width: to each column what its widest word needs, and what is left to those that have least.
// It tells whether the sheet is wide enough.
func (p *page) columns() bool {
	least := make([]float64, p.n.last+1)
	titles, title := 0.0, 0.0
	for _, s := range p.spots {
		extra := 0.0
		if s.question {
			extra = bead + 0.6
		}
		if s.edge {
			titles = max(titles, Width(s.name.Lines[0], true, p.sheet.Size)*slack)
			title = max(title, widest(s.name.Lines[0], true, p.sheet.Size)*slack)
		} else {
			least[s.rank] = max(least[s.rank], widest(first(s.name.Lines), true, p.sheet.Size)*slack+extra)
		}
		least[s.rank] = max(least[s.rank], narrowest, widest(first(s.label.Lines), false, p.sheet.Size)*slack+extra)
	}
	titles = max(title, min(titles, p.sheet.Width*0.16))
	free := p.sheet.Width - titles - leftOf - bead - p.gaps()
	p.wides = shared(free, least)
	x := 0.0
	for k, wide := range p.wides {
		p.begins = append(p.begins, x)
		x += wide + level
		if k < p.n.last {
			x += p.bend(k)
		}
	}
	p.edge = x
	for _, s := range p.spots {
		s.x, s.end = p.begins[s.rank], p.begins[s.rank]+p.wides[s.rank]
		if s.edge {
			s.end = p.edge
		}
	}
	wide := p.edge + leftOf + bead + titles
	fits := wide <= p.sheet.Width+0.01
	p.sheet.Width = max(p.sheet.Width, wide)
	return fits
}

func first(lines []string) string {
	if len(lines) == 0 {
		return ""
	}
	return lines[0]
}

// gaps is what stands between columns.
func (p *page) gaps() float64 {
	sum := float64(p.n.last+1) * level
	for k := range p.n.last {
		sum += p.bend(k)
	}
	return sum
}

// bend is what links curve in behind a column.
func (p *page) bend(k int) float64 {
	if len(p.n.byRank[k+1]) > crowd {
		return wideBend
	}
	return bend
}

// shared gives each column its least, and brings those that have least up to one width with what is left.
func shared(free float64, least []float64) []float64 {
	out := slices.Clone(least)
	for wide := slices.Max(least); wide < free; wide += 0.25 {
		sum := 0.0
		for _, l := range least {
			sum += max(l, wide)
		}
		if sum > free {
			break
		}
		for i, l := range least {
			out[i] = max(l, wide)
		}
	}
	return leveled(free, least, out)
}

// leveled brings narrow columns up where not all can have the width of the widest.
func leveled(free float64, least, out []float64) []float64 {
	sum := func(wide float64) float64 {
		s := 0.0
		for _, l := range least {
			s += max(l, wide)
		}
		return s
	}
	for wide := slices.Min(least); sum(wide) <= free; wide += 0.25 {
		for i, l := range least {
			out[i] = max(out[i], l, wide)
		}
	}
	return out
}

// wrap breaks the words and says how high each item is.
func (p *page) wrap() {
	size := p.sheet.Size
	high := size * lineOf
	for _, s := range p.spots {
		room := s.room(p.wides[s.rank])
		if s.edge {
			s.name = broken(s.name, true, size, (p.sheet.Width-p.edge-leftOf-bead)/slack)
		} else {
			s.name = broken(s.name, true, size, room)
		}
		s.label = broken(s.label, false, size, room)
		s.above, s.below = bead+0.4, bead+0.4
		if !s.question {
			s.above, s.below = 0.6, 0.6 // it has no stone in its column
		}
		if n := float64(len(s.label.Lines)); n > 0 {
			s.below = max(s.below, n*high+under)
		}
		if n := float64(len(s.name.Lines)) * high; s.edge {
			s.above, s.below = max(s.above, n/2), max(s.below, n/2)
		} else if n > 0 {
			s.above = max(s.above, n+over)
		}
	}
}

func broken(t Text, heavy bool, size, room float64) Text {
	if len(t.Lines) == 0 {
		return t
	}
	t.Lines = wrap(t.Lines[0], heavy, size, room)
	for _, line := range t.Lines {
		t.Width = max(t.Width, Width(line, heavy, size)*slack)
	}
	t.Height = float64(len(t.Lines)) * size * lineOf
	return t
}

// need is the height of the fullest column.
func (p *page) need() float64 {
	most := 0.0
	for _, r := range p.n.byRank {
		sum := 0.0
		for k, it := range r {
			sum += p.spots[it].above + p.spots[it].below
			if k > 0 {
				sum += apart
			}
		}
		most = max(most, sum)
	}
	return most
}

func (p *page) column(k int) []*spot {
	var out []*spot
	for _, it := range p.n.byRank[k] {
		out = append(out, p.spots[it])
	}
	return out
}

// heights places each item: the edge first, with what height is left shared out, then each column in the middle of what
// it leads to.
func (p *page) heights() {
	edge := p.column(p.n.last)
	need := 0.0
	for _, s := range edge {
		need += s.above + s.below + apart
	}
	spare := max(0, p.sheet.Height-need+apart) / float64(max(1, len(edge)-1))
	y := 0.0
	for i, s := range edge {
		if i > 0 {
			y += edge[i-1].below + apart + spare
		}
		y += s.above
		s.y = y
	}
	for k := p.n.last - 1; k >= 0; k-- {
		column := p.column(k)
		p.near(column)
		p.keep(column)
	}
	for _, s := range p.spots {
		s.y = math.Round(s.y*20) / 20
	}
}

// want is the height that an item would have: the middle of what it leads to, of its next questions if it has one or two.
func (p *page) want(s *spot) float64 {
	var all, questions []float64
	for _, to := range s.down {
		all = append(all, p.spots[to].y)
		if p.spots[to].question {
			questions = append(questions, p.spots[to].y)
		}
	}
	if n := len(questions); n == 1 || n == 2 {
		all = questions
	}
	if len(all) == 0 {
		return p.sheet.Height / 2
	}
	return (slices.Min(all) + slices.Max(all)) / 2
}

// near keeps order and distances, and places items as near to where they would be as can be: those that
// meet are one block, in the middle of what they want.
func (p *page) near(column []*spot) {
	type block struct {
		sum, weight float64
		n           int
	}
	var blocks []block
	off := make([]float64, len(column))
	for i, s := range column {
		if i > 0 {
			off[i] = off[i-1] + column[i-1].below + apart + s.above
		}
		blocks = append(blocks, block{(p.want(s) - off[i]) * s.weight, s.weight, 1})
		for last := len(blocks) - 1; last > 0 && blocks[last-1].sum/blocks[last-1].weight >= blocks[last].sum/blocks[last].weight; last-- {
			blocks[last-1].sum += blocks[last].sum
			blocks[last-1].weight += blocks[last].weight
			blocks[last-1].n += blocks[last].n
			blocks = blocks[:last]
		}
	}
	i := 0
	for _, b := range blocks {
		for range b.n {
			column[i].y = b.sum/b.weight + off[i]
			i++
		}
	}
}

// keep moves what stands over the sheet's upper end or under its lower one back in.
func (p *page) keep(column []*spot) {
	least := 0.0
	for _, s := range column {
		s.y = max(s.y, least+s.above)
		least = s.y + s.below + apart
	}
	most := p.sheet.Height
	for _, s := range slices.Backward(column) {
		s.y = min(s.y, most-s.below)
		most = s.y - s.above - apart
	}
}
