package drawing

import (
	"encoding/xml"
	"math"
	"strconv"
	"strings"
	"testing"
)

// plane is how a group places what stands in it: x and y of a point become a*x + c*y + e and b*x + d*y + f.
type plane struct{ a, b, c, d, e, f float64 }

func (m plane) to(p pt) pt { return pt{m.a*p.x + m.c*p.y + m.e, m.b*p.x + m.d*p.y + m.f} }

func (m plane) then(n plane) plane {
	return plane{m.a*n.a + m.c*n.b, m.b*n.a + m.d*n.b, m.a*n.c + m.c*n.d, m.b*n.c + m.d*n.d, m.a*n.e + m.c*n.f + m.e, m.b*n.e + m.d*n.f + m.f}
}

// planeOf reads a transform as SVG 1.1 defines it (7.6, the transform attribute).
func planeOf(t *testing.T, text string) plane {
	t.Helper()
	m := plane{a: 1, d: 1}
	for _, one := range strings.SplitAfter(text, ")") {
		name, args, ok := strings.Cut(strings.TrimSuffix(strings.TrimSpace(one), ")"), "(")
		if !ok {
			continue
		}
		var v []float64
		for _, f := range strings.Fields(strings.ReplaceAll(args, ",", " ")) {
			x, err := strconv.ParseFloat(f, 64)
			if err != nil {
				t.Fatalf("transform %q: %v", text, err)
			}
			v = append(v, x)
		}
		for len(v) < 3 {
			v = append(v, 0)
		}
		switch name {
		case "translate":
			m = m.then(plane{1, 0, 0, 1, v[0], v[1]})
		case "scale":
			y := v[1]
			if y == 0 {
				y = v[0]
			}
			m = m.then(plane{v[0], 0, 0, y, 0, 0})
		case "rotate":
			sin, cos := math.Sincos(v[0] * math.Pi / 180)
			m = m.then(plane{1, 0, 0, 1, v[1], v[2]}).then(plane{cos, sin, -sin, cos, 0, 0}).then(plane{1, 0, 0, 1, -v[1], -v[2]})
		default:
			t.Fatalf("transform %q", text)
		}
	}
	return m
}

// traced is a shape of a tile where it stands: its class and the lines of its outline.
type traced struct {
	class string
	rings [][]pt
}

// traceTile gives every shape of a tile.
func traceTile(t *testing.T, svg string) []traced {
	t.Helper()
	var top node
	if err := xml.Unmarshal([]byte(svg), &top); err != nil {
		t.Fatalf("%v in %s", err, svg)
	}
	var out []traced
	var walk func(n node, m plane)
	walk = func(n node, m plane) {
		m = m.then(planeOf(t, n.attr("transform")))
		var p path
		switch n.XMLName.Local {
		case "path":
			p = written(arcless(n.attr("d")))
		case "circle":
			p = disc(n.number(t, "cx"), n.number(t, "cy"), n.number(t, "r"))
		case "rect":
			x, y := n.number(t, "x"), n.number(t, "y")
			p = box(x, y, x+n.number(t, "width"), y+n.number(t, "height"))
		case "svg", "g", "text", "title", "desc":
		default:
			t.Errorf("an element <%s>", n.XMLName.Local)
		}
		if p != nil {
			rings := p.flat(8)
			for _, r := range rings {
				for i := range r {
					r[i] = m.to(r[i])
				}
			}
			out = append(out, traced{n.attr("class"), rings})
		}
		for _, c := range n.Nodes {
			walk(c, m)
		}
	}
	walk(top, plane{a: 1, d: 1})
	return out
}

// arcless draws an arc as the line between its ends, which is near enough to see where it is.
func arcless(d string) string {
	before, arc, ok := strings.Cut(d, "A")
	if !ok {
		return d
	}
	f := strings.Fields(arc)
	return before + "L" + strings.Join(f[len(f)-2:], " ")
}

// amounts are those at which a tile is looked at: for a slope from flat to 40 %, for a heel to 120 mm, for a load to 150 kg, as
// the trees take them.
func amountsOf(name string) []float64 {
	switch name {
	case "slope", "side-slope":
		return []float64{0, 1.0 / 48, 0.05, 1.0 / 12, 0.125, 0.16, 0.4}
	case "heel":
		return []float64{0, 9.525, 25, 50.8, 120}
	case "load":
		return []float64{0, 5, 18.14, 25, 150}
	}
	return []float64{Usual(name)}
}

func eachTile(t *testing.T, see func(name string, amount float64, tile Tile, shapes []traced)) {
	t.Helper()
	for _, name := range TileNames() {
		for _, amount := range amountsOf(name) {
			tile, ok := TileAt(name, amount)
			if !ok {
				t.Fatalf("no tile %q", name)
			}
			see(name, amount, tile, traceTile(t, string(tile.SVG())))
		}
	}
}

func withClass(shapes []traced, class string) (out []traced) {
	for _, s := range shapes {
		if s.class == class {
			out = append(out, s)
		}
	}
	return out
}

// Tiles in a row are one landscape: the ground of each begins at one level at its left edge, and ends there at its right
// edge, or as much above it as the tile says.
func TestTilesJoin(t *testing.T) {
	eachTile(t, func(name string, amount float64, tile Tile, shapes []traced) {
		lines := withClass(shapes, "g-line")
		if len(lines) != 1 {
			t.Fatalf("%s has %d lines of ground, want one", name, len(lines))
		}
		line := lines[0].rings[0]
		first, last := line[0], line[len(line)-1]
		if first != (pt{0, groundAt}) || last.x != TileWide || math.Abs(last.y-(groundAt-tile.Rise)) > 0.06 {
			t.Errorf("%s at %v: the ground goes from %v to %v, and the tile says that it rises by %v", name, amount, first, last, tile.Rise)
		}
		for i := 1; i < len(line); i++ {
			if line[i].x < line[i-1].x-1e-9 {
				t.Errorf("%s: the ground runs back at %v", name, line[i])
			}
		}
	})
}

// No angle is exaggerated. 1:12 is 4.76 degrees and 1:20 is 2.86, as the US Access Board's guide to its ramp standards
// rounds them (4.8 and 2.9); the rest is the arc tangent of the ratio.
func TestTrueAngle(t *testing.T) {
	known := map[float64]float64{1.0 / 12: 4.76, 0.05: 2.86}
	for _, name := range []string{"slope", "side-slope"} {
		for _, amount := range amountsOf(name) {
			tile, _ := TileAt(name, amount)
			shapes := traceTile(t, string(tile.SVG()))
			line := withClass(shapes, "g-line")[0].rings[0]
			a, b := line[len(line)-2], line[len(line)-1]
			got, want := degrees(math.Atan2(a.y-b.y, b.x-a.x)), degrees(math.Atan(amount))
			if math.Abs(got-want) > 0.06 {
				t.Errorf("%s of %v is drawn at %.2f degrees, want %.2f", name, amount, got, want)
			}
			if k, ok := known[amount]; ok && math.Abs(got-k) > 0.06 {
				t.Errorf("%s of %v is drawn at %.2f degrees, and published as %.2f", name, amount, got, k)
			}
			for _, sole := range withClass(shapes, "i") {
				if low := lowest(sole.rings); low.y > levelAt(line, low.x)+0.1 {
					t.Errorf("%s of %v: a sole is %.2f under the ground", name, amount, low.y-levelAt(line, low.x))
				}
			}
		}
	}
}

func lowest(rings [][]pt) pt {
	low := pt{0, math.Inf(-1)}
	for _, r := range rings {
		for _, p := range r {
			if p.y > low.y {
				low = p
			}
		}
	}
	return low
}

// levelAt is how high a line of ground is at x.
func levelAt(line []pt, x float64) float64 {
	for i := 1; i < len(line); i++ {
		if a, b := line[i-1], line[i]; b.x > a.x && x <= b.x {
			return a.y + (b.y-a.y)*(x-a.x)/(b.x-a.x)
		}
	}
	return line[len(line)-1].y
}

// Nothing leaves its tile, at any amount that a tree takes, but the ground that leads in from the left.
func TestTilesStayInside(t *testing.T) {
	eachTile(t, func(name string, amount float64, _ Tile, shapes []traced) {
		for _, s := range shapes {
			if strings.HasPrefix(s.class, "g-lead") {
				continue
			}
			for _, r := range s.rings {
				for _, p := range r {
					if p.x < 0 || p.x > TileWide || p.y < 0 || p.y > TileTall {
						t.Errorf("%s at %v: %q is at %.1f %.1f", name, amount, s.class, p.x, p.y)
						break
					}
				}
			}
		}
	})
}

// A heel is as high as it is told to be: the sole under the heel is by so much thicker than under the ball, at the scale of a
// shoe of 28 cm.
func TestHeelHeight(t *testing.T) {
	for _, mm := range amountsOf("heel") {
		sole, _ := heeled(mm)
		at := func(x float64) (low, high float64) {
			low, high = math.Inf(1), math.Inf(-1)
			ring := written(sole).flat(40)[0]
			for i, a := range ring {
				b := ring[(i+1)%len(ring)]
				if (a.x < x) != (b.x < x) {
					y := -(a.y + (b.y-a.y)*(x-a.x)/(b.x-a.x))
					low, high = min(low, y), max(high, y)
				}
			}
			return low, high
		}
		_, heel := at(10)
		_, ball := at(76)
		if got := (heel - ball) / heelUnit; math.Abs(got-mm) > 2 {
			t.Errorf("a heel of %v mm is drawn %.1f mm high", mm, got)
		}
	}
}

// A box of twice the weight has twice the content, and so a side that is longer by the cube root of two.
func TestLoadByContent(t *testing.T) {
	side := func(kg float64) float64 {
		tile, _ := TileAt("load", kg)
		for _, s := range withClass(traceTile(t, string(tile.SVG())), "e") {
			return s.rings[0][1].x - s.rings[0][0].x
		}
		t.Fatal("no box")
		return 0
	}
	for _, kg := range []float64{1, 5, 18.14, 60} {
		if got := math.Pow(side(2*kg)/side(kg), 3); math.Abs(got-2) > 0.02 {
			t.Errorf("%v kg: twice the weight has %.3f of the content", kg, got)
		}
	}
}

// No two tiles look alike: on a grid of two units, fewer than nine of ten cells that their lines meet are the same.
func TestTilesDiffer(t *testing.T) {
	type grid map[[2]int]bool
	seen := map[string]grid{}
	for _, name := range TileNames() {
		tile, _ := TileAt(name, Usual(name))
		g := grid{}
		for _, s := range traceTile(t, string(tile.SVG())) {
			if strings.HasPrefix(s.class, "g-") || s.class == "dash" { // a thought line is light
				continue
			}
			for _, r := range s.rings {
				for i := range r {
					a, b := r[i], r[(i+1)%len(r)]
					for k := range 20 {
						p := between(a, b, float64(k)/20)
						g[[2]int{int(p.x / 2), int(p.y / 2)}] = true
					}
				}
			}
		}
		for other, h := range seen {
			both := 0
			for c := range g {
				if h[c] {
					both++
				}
			}
			if share := float64(both) / float64(len(g)+len(h)-both); share > 0.9 {
				t.Errorf("%s and %s are alike: %.0f of 100", name, other, 100*share)
			}
		}
		seen[name] = g
	}
}

// The same name and amount give the same drawing, and a name that is not there gives none.
func TestTileAt(t *testing.T) {
	a, _ := TileAt("slope", 0.14)
	b, _ := TileAt("slope", 0.14)
	c, _ := TileAt("slope", 0.15)
	if a != b || a == c {
		t.Error("a tile does not follow its amount alone")
	}
	if _, ok := TileAt("slop", 0.1); ok {
		t.Error("a tile with a name that is not there")
	}
}
