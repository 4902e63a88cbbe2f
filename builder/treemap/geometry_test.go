package treemap_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"keelpath/builder/internal/librarytest"
	"keelpath/builder/say"
	"keelpath/builder/tree"
	"keelpath/builder/treemap"
)

// What this file holds a map against is worked out anew from the map's plain values: boxes, circles, and lines
// taken apart into short straight pieces. It knows nothing of columns or orders.

type point struct{ x, y float64 }

type box struct {
	what                     string
	left, top, right, bottom float64
}

// piece is a short straight part of a line; line says of which.
type piece struct {
	a, b point
	line int
}

// stone is the circle of a question, of the radius that is drawn.
type stone struct {
	id string
	at point
}

const (
	stoneRadius  = 2.3
	touches      = 0.05 // what is nearer than this counts as one over the other
	piecesOfBend = 40
)

// faults are what a map may not have.
type faults struct {
	overlaps, through, outside []string
	crossings                  int
}

func (f faults) String() string {
	return fmt.Sprintf("overlaps %q, through %q, outside %q", f.overlaps, f.through, f.outside)
}

func look(m *treemap.Map) faults {
	var f faults
	boxes, stones, pieces := boxesOf(m), stonesOf(m), piecesOf(m)
	for i, a := range boxes {
		if a.left < -touches || a.top < -touches || a.right > m.Sheet.Width+touches || a.bottom > m.Sheet.Height+touches {
			f.outside = append(f.outside, a.what)
		}
		for _, b := range boxes[i+1:] {
			if a.left+touches < b.right && b.left+touches < a.right && a.top+touches < b.bottom && b.top+touches < a.bottom {
				f.overlaps = append(f.overlaps, a.what+" | "+b.what)
			}
		}
		for _, s := range stones {
			if s.at.distance(point{min(max(s.at.x, a.left), a.right), min(max(s.at.y, a.top), a.bottom)}) < stoneRadius-touches {
				f.overlaps = append(f.overlaps, a.what+" | stone "+s.id)
			}
		}
	}
	for i, s := range stones {
		for _, other := range stones[i+1:] {
			if s.at.distance(other.at) < 2*stoneRadius-touches {
				f.overlaps = append(f.overlaps, "stones "+s.id+" | "+other.id)
			}
		}
	}
	for _, p := range pieces {
		for _, b := range boxes {
			if cuts(p, b) {
				f.through = append(f.through, fmt.Sprintf("line %d %v through %s", p.line, m.Lines[p.line].Ways, b.what))
			}
		}
		for _, s := range stones {
			if !belongs(m.Lines[p.line], s.id) && nearest(p, s.at) < stoneRadius-touches {
				f.through = append(f.through, fmt.Sprintf("line %d %v through stone %s", p.line, m.Lines[p.line].Ways, s.id))
			}
		}
	}
	f.crossings = crossings(pieces, m)
	return f
}

// belongs tells whether a line begins or ends at a question.
func belongs(l treemap.Line, id string) bool {
	for _, w := range l.Ways {
		if w.From == id || w.To == id {
			return true
		}
	}
	return len(l.Ways) == 0 // what leads to the first question
}

func boxesOf(m *treemap.Map) []box {
	var out []box
	add := func(what string, t treemap.Text) {
		if len(t.Lines) > 0 {
			out = append(out, box{what + " " + strings.Join(t.Lines, " "), t.X, t.Y, t.X + t.Width, t.Y + t.Height})
		}
	}
	for _, n := range m.Nodes {
		add("name", n.Name)
	}
	for _, l := range m.Lines {
		add("label", l.Label)
	}
	return out
}

func stonesOf(m *treemap.Map) []stone {
	var out []stone
	for _, n := range m.Nodes {
		if !n.Ending {
			out = append(out, stone{n.ID, point{n.X, n.Y}})
		}
	}
	return out
}

// piecesOf takes lines apart. A link is the curve that the drawing has: level at both ends, its bend in the middle.
func piecesOf(m *treemap.Map) []piece {
	var out []piece
	for i, l := range m.Lines {
		a, b := point{l.Begin[0], l.Begin[1]}, point{l.End[0], l.End[1]}
		if l.Flat {
			out = append(out, piece{a, b, i})
			continue
		}
		mid := (a.x + b.x) / 2
		at := a
		for k := 1; k <= piecesOfBend; k++ {
			t := float64(k) / piecesOfBend
			u := 1 - t
			next := point{
				u*u*u*a.x + 3*u*u*t*mid + 3*u*t*t*mid + t*t*t*b.x,
				u*u*u*a.y + 3*u*u*t*a.y + 3*u*t*t*b.y + t*t*t*b.y,
			}
			out = append(out, piece{at, next, i})
			at = next
		}
	}
	return out
}

func (a point) distance(b point) float64 { return math.Hypot(a.x-b.x, a.y-b.y) }

// cuts tells whether a piece has a part inside a box (Liang and Barsky's way of clipping).
func cuts(p piece, b box) bool {
	from, to := 0.0, 1.0
	dx, dy := p.b.x-p.a.x, p.b.y-p.a.y
	for _, side := range [][2]float64{
		{-dx, p.a.x - (b.left + touches)}, {dx, b.right - touches - p.a.x},
		{-dy, p.a.y - (b.top + touches)}, {dy, b.bottom - touches - p.a.y},
	} {
		switch d, room := side[0], side[1]; {
		case d == 0 && room < 0:
			return false
		case d < 0:
			from = max(from, room/d)
		case d > 0:
			to = min(to, room/d)
		}
	}
	return from < to
}

// nearest is how far a piece is from a place.
func nearest(p piece, at point) float64 {
	dx, dy := p.b.x-p.a.x, p.b.y-p.a.y
	long := dx*dx + dy*dy
	if long == 0 {
		return p.a.distance(at)
	}
	t := min(max(((at.x-p.a.x)*dx+(at.y-p.a.y)*dy)/long, 0), 1)
	return at.distance(point{p.a.x + t*dx, p.a.y + t*dy})
}

// crossings counts pairs of lines that cross. Lines that begin or end at one place meet there and do not cross.
func crossings(pieces []piece, m *treemap.Map) int {
	crossed := map[[2]int]bool{}
	for i, p := range pieces {
		for _, q := range pieces[i+1:] {
			if p.line != q.line && !meet(m.Lines[p.line], m.Lines[q.line]) && cross(p, q) {
				crossed[[2]int{p.line, q.line}] = true
			}
		}
	}
	return len(crossed)
}

func meet(a, b treemap.Line) bool {
	for _, p := range [][2]float64{a.Begin, a.End} {
		for _, q := range [][2]float64{b.Begin, b.End} {
			if math.Hypot(p[0]-q[0], p[1]-q[1]) < 0.01 {
				return true
			}
		}
	}
	return false
}

// cross tells whether two pieces cross, or run over each other.
func cross(p, q piece) bool {
	side := func(a, b, c point) float64 { return (b.x-a.x)*(c.y-a.y) - (b.y-a.y)*(c.x-a.x) }
	qa, qb, pa, pb := side(p.a, p.b, q.a), side(p.a, p.b, q.b), side(q.a, q.b, p.a), side(q.a, q.b, p.b)
	if qa == 0 && qb == 0 {
		return min(max(p.a.x, p.b.x), max(q.a.x, q.b.x))-max(min(p.a.x, p.b.x), min(q.a.x, q.b.x)) > touches
	}
	return qa*qb < 0 && pa*pb < 0
}

// asWritten says conditions as the file has them, which is longer than what a page says.
func asWritten(_ *tree.Question, r *tree.Route) string { return r.If.S }

// Every tree of the site stands on one sheet: A4 or, where its words are many, A3 or A2. Nothing lies over anything else.
func TestShippedTrees(t *testing.T) {
	lib := librarytest.Load(t)
	if len(lib.Trees) < 16 {
		t.Fatalf("there are only %d trees", len(lib.Trees))
	}
	for _, tr := range lib.Trees {
		g := treemap.Of(tr, say.English(), asWritten)
		begun := time.Now()
		m := treemap.Lay(g, say.English(), treemap.A4, treemap.A3, treemap.A2)
		f := look(m)
		t.Logf("%-24s %2d nodes on %s: %.0f x %.0f, %d crossings, %d again, %v", tr.ID.S, len(m.Nodes), m.Sheet.Name, m.Sheet.Width, m.Sheet.Height, f.crossings, m.Again, time.Since(begun))
		if len(f.overlaps)+len(f.through)+len(f.outside) > 0 {
			t.Errorf("%s: %v", tr.ID.S, f)
		}
		if f.crossings != m.Crossings {
			t.Errorf("%s: %d crossings are drawn, and %d are told", tr.ID.S, f.crossings, m.Crossings)
		}
		if f.crossings > 1 || f.crossings > 0 && tr.ID.S != "gait-observation" {
			t.Errorf("%s: %d crossings", tr.ID.S, f.crossings)
		}
		if last := treemap.A2; m.Sheet.Width > last.Width || m.Sheet.Height > last.Height {
			t.Errorf("%s takes %.0f by %.0f mm, which is more than %s", tr.ID.S, m.Sheet.Width, m.Sheet.Height, last.Name)
		}
		whole(t, tr, m)
	}
}

// whole holds the words on a map against the tree: nothing is cut or left out.
func whole(t *testing.T, tr *tree.Tree, m *treemap.Map) {
	t.Helper()
	written := map[string]string{}
	for _, n := range m.Nodes {
		written[n.ID] = strings.Join(n.Name.Lines, " ")
	}
	for _, q := range tr.Questions {
		if !strings.HasSuffix(written[q.ID.S], strings.Join(strings.Fields(q.Text.S), " ")) {
			t.Errorf("%s: question %s is written as %q", tr.ID.S, q.ID.S, written[q.ID.S])
		}
	}
	for _, e := range tr.Endings {
		if !strings.HasPrefix(written[e.ID.S], strings.Join(strings.Fields(e.Title.S), " ")) {
			t.Errorf("%s: ending %s is written as %q", tr.ID.S, e.ID.S, written[e.ID.S])
		}
	}
}

// Made trees of up to 30 nodes come out without a fault as well.
func TestMadeTrees(t *testing.T) {
	random := rand.New(rand.NewPCG(42, 1))
	crossed, again, paper := 0, 0, 0
	var longest, sum time.Duration
	const trees = 100
	for i := range trees {
		g := made(random, 10+random.IntN(21))
		begun := time.Now()
		m := treemap.Lay(g, say.English(), treemap.A4, treemap.A3)
		took := time.Since(begun)
		longest, sum = max(longest, took), sum+took
		f := look(m)
		if len(f.overlaps)+len(f.through)+len(f.outside) > 0 {
			t.Errorf("tree %d on %s: %v", i, m.Sheet.Name, f)
		}
		if f.crossings != m.Crossings {
			t.Errorf("tree %d: %d crossings are drawn, and %d are told", i, f.crossings, m.Crossings)
		}
		crossed += f.crossings
		again += m.Again
		if m.Sheet.Name == treemap.A4.Name {
			paper++
		}
	}
	t.Logf("%d trees: %d crossings, %d endings set down again, %d on A4, %v a tree, at most %v", trees, crossed, again, paper, sum/trees, longest)
	if crossed > trees/20 {
		t.Errorf("%d crossings in %d trees", crossed, trees)
	}
}

// made is a graph with so many nodes: a question leads from one of the four before it, and there are some ways more.
func made(random *rand.Rand, nodes int) treemap.Graph {
	words := strings.Fields("Which part of the slope is hardest for you now when shoes are new and leg feels loose")
	text := func(n int) string {
		var out []string
		for range n {
			out = append(out, words[random.IntN(len(words))])
		}
		return strings.Join(out, " ")
	}
	questions := max(2, nodes*36/100)
	g := treemap.Graph{Start: "q0"}
	for i := range questions {
		g.Questions = append(g.Questions, treemap.Question{ID: fmt.Sprintf("q%d", i), Number: i + 1, Text: text(4 + random.IntN(14))})
	}
	put := func(from int, to string) {
		for _, w := range g.Questions[from].Ways {
			if w.To == to {
				return
			}
		}
		g.Questions[from].Ways = append(g.Questions[from].Ways, treemap.Way{To: to, Label: text(1 + random.IntN(7))})
	}
	ending := func() string { return fmt.Sprintf("e%d", random.IntN(nodes-questions)) }
	for i := 1; i < questions; i++ {
		put(max(0, i-1-random.IntN(3)), fmt.Sprintf("q%d", i))
	}
	for i := range nodes - questions {
		g.Endings = append(g.Endings, treemap.Ending{ID: fmt.Sprintf("e%d", i), Title: text(2 + random.IntN(5))})
		put(random.IntN(questions), fmt.Sprintf("e%d", i))
	}
	for i := range g.Questions {
		if len(g.Questions[i].Ways) < 2 {
			put(i, ending())
		}
	}
	put(random.IntN(questions), ending())
	put(random.IntN(questions), ending())
	return g
}

// What looks for faults finds those that are there.
func TestLookFindsFaults(t *testing.T) {
	g := made(rand.New(rand.NewPCG(3, 3)), 24)
	fresh := func() *treemap.Map { return treemap.Lay(g, say.English(), treemap.A3) }
	if f := look(fresh()); len(f.overlaps)+len(f.through)+len(f.outside) > 0 {
		t.Fatalf("a map without faults has some: %v", f)
	}
	m := fresh()
	m.Nodes[1].Name.X, m.Nodes[1].Name.Y = m.Nodes[0].Name.X, m.Nodes[0].Name.Y
	if f := look(m); len(f.overlaps) == 0 {
		t.Error("a name over another was not found")
	}
	m = fresh()
	m.Lines[0].Begin, m.Lines[0].End = [2]float64{0, 0}, [2]float64{m.Sheet.Width, m.Sheet.Height}
	if f := look(m); len(f.through) == 0 || f.crossings == 0 {
		t.Errorf("a line across the map was not found: %v, %d crossings", f, f.crossings)
	}
	m = fresh()
	m.Nodes[0].Name.X = -20
	if f := look(m); len(f.outside) == 0 {
		t.Error("a name outside the sheet was not found")
	}
}
