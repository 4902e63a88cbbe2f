package drawing

import (
	"math"
	"strings"
	"testing"
)

func angleOf(a, b pt) float64 { return degrees(math.Atan2(b.x-a.x, a.y-b.y)) } // of a line from a to b, clockwise from upright

// On the reader's slope the leg whose ankle stays tips by the slope's own angle, and the one whose ankle bends stands upright; each
// sole lies on the ground, and the ground leans by exactly what was told.
func TestOwnSlope(t *testing.T) {
	for _, slope := range []float64{0.02, 0.05, 1.0 / 12, 0.14, 0.4} {
		o, _ := OwnAt("slope", slope)
		svg := string(o.SVG("words"))
		want := degrees(math.Atan(slope))
		shapes := traceTile(t, svg)
		ground := withClass(shapes, "g-line g-mine")[0].rings[0]
		if got := degrees(math.Atan2(ground[1].y-ground[0].y, ground[1].x-ground[0].x)); math.Abs(got-want) > 0.02 {
			t.Errorf("a slope of %v is drawn at %.2f degrees, want %.2f", slope, got, want)
		}
		var clamps []float64 // the clamps of the two legs, from below to above
		for _, s := range withClass(shapes, "p") {
			if r := s.rings[0]; len(r) == 4 && math.Abs(r[0].minus(r[1]).length()-17*downScale) < 0.2 {
				clamps = append(clamps, angleOf(r[3], r[0]))
			}
		}
		if len(clamps) != 2 || math.Abs(clamps[0]-want) > 0.1 || math.Abs(clamps[1]) > 0.1 {
			t.Errorf("on a slope of %.1f degrees the legs stand at %.2f degrees, want %.2f and 0", want, clamps, want)
		}
		for _, s := range withClass(shapes, "i") {
			if low := lowest(s.rings); low.y > levelAt(ground, low.x)+0.1 {
				t.Errorf("slope %v: a sole is under the ground", slope)
			}
		}
		if said := saidDegrees(slope) + "<"; strings.Count(svg, said) != 2 {
			t.Errorf("slope %v: %q stands there %d times, want twice", slope, said, strings.Count(svg, said))
		}
	}
}

// Nothing of a picture of one's own leaves it, at any amount that a tree takes, but ground that goes on below its edge.
func TestOwnStaysInside(t *testing.T) {
	for name, all := range map[string][][]float64{
		"slope": {{0}, {0.05}, {0.14}, {0.4}}, "side-slope": {{0}, {0.05}, {0.4}}, "heels": {{0, 120}, {120, 0}, {10, 32}}, "load": {{0}, {25}, {150}},
	} {
		for _, amounts := range all {
			o, ok := OwnAt(name, amounts...)
			if !ok {
				t.Fatalf("no picture %s of %v", name, amounts)
			}
			for _, s := range traceTile(t, string(o.SVG("words"))) {
				if s.class == "g-earth" {
					continue
				}
				for _, r := range s.rings {
					for _, p := range r {
						if p.x < -0.1 || p.x > float64(o.Wide)+0.1 || p.y < -0.1 || p.y > float64(o.Tall)+0.1 {
							t.Errorf("%s of %v: %q is at %.1f %.1f", name, amounts, s.class, p.x, p.y)
							break
						}
					}
				}
			}
		}
	}
	if _, ok := OwnAt("slope", 0.1, 0.2); ok {
		t.Error("a slope is drawn by two amounts")
	}
	if _, ok := OwnAt("slop", 0.1); ok {
		t.Error("a picture with a name that is not there")
	}
}

// A person of 172 units is 172 cm tall, so 10 kg of water, 10 liters, are a box with sides of 21.5 cm beside them.
func TestOwnLoadIsWater(t *testing.T) {
	o, _ := OwnAt("load", 27)
	for _, s := range withClass(traceTile(t, string(o.SVG("words"))), "e") {
		if r := s.rings[0]; len(r) == 4 {
			if side := r[1].x - r[0].x; math.Abs(side-30) > 0.2 {
				t.Errorf("27 kg are drawn %.1f cm wide, want 30: a cube of 27 liters", side)
			}
		}
	}
}

// The way of the home page's head goes on from the keel in one line, to the right edge and beyond, in both widths.
func TestHead(t *testing.T) {
	html := string(Head(`a "foot"`))
	if !strings.Contains(html, `aria-label="a &#34;foot&#34;"`) {
		t.Errorf("its words: %.120s", html)
	}
	for _, h := range heads {
		p := &pencil{}
		h.draw(p)
		shapes := traceTile(t, `<svg xmlns="http://www.w3.org/2000/svg">`+p.b.String()+`</svg>`)
		way := withClass(shapes, "g-way")
		if len(way) != 1 || len(way[0].rings) != 1 {
			t.Fatalf("%s: the way is in %d pieces", h.class, len(way))
		}
		line := way[0].rings[0]
		start, end := line[0], line[len(line)-1]
		if top := h.foot.at(78, 118); start.minus(top).length() > 0.2 || end.x < h.wide {
			t.Errorf("%s: the way goes from %v to %v, want from the top of the keel at %v to beyond %v", h.class, start, end, top, h.wide)
		}
		if at := levelAt(line, h.walker.x); math.Abs(at-h.walker.y) > 3 {
			t.Errorf("%s: the walker stands at %.1f, and the way is at %.1f there", h.class, h.walker.y, at)
		}
	}
}
