package drawing

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// node is one element of a drawing.
type node struct {
	XMLName xml.Name
	Attrs   []xml.Attr `xml:",any,attr"`
	Text    string     `xml:",chardata"`
	Nodes   []node     `xml:",any"`
}

func (n node) attr(name string) string {
	for _, a := range n.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func (n node) number(t *testing.T, name string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(n.attr(name), 64)
	if err != nil {
		t.Fatalf("<%s %s=%q>: %v", n.XMLName.Local, name, n.attr(name), err)
	}
	return v
}

func (n node) has(class string) bool {
	return slices.Contains(strings.Fields(n.attr("class")), class)
}

// every walks n and all below it.
func (n node) every(f func(node)) {
	f(n)
	for _, c := range n.Nodes {
		c.every(f)
	}
}

func (n node) with(class string) (found []node) {
	n.every(func(c node) {
		if c.has(class) {
			found = append(found, c)
		}
	})
	return found
}

func parsed(t *testing.T, id string) node {
	t.Helper()
	d, ok := english.Find(id, "")
	if !ok {
		t.Fatalf("no drawing %q", id)
	}
	dec := xml.NewDecoder(strings.NewReader(string(d.SVG("p"))))
	dec.Strict = true
	var n node
	if err := dec.Decode(&n); err != nil {
		t.Fatalf("%s: %v", id, err)
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		t.Fatalf("%s: something follows the svg element (%v)", id, err)
	}
	return n
}

func TestFind(t *testing.T) {
	want := []string{
		"foot-solid-ankle", "foot-single-axis", "foot-flexible-keel", "foot-multi-axis", "foot-carbon-spring",
		"foot-glass-spring", "foot-running-blade", "foot-heel-you-set", "foot-hydraulic-ankle",
		"foot-microprocessor-ankle", "foot-powered-ankle", "add-on-shock-unit", "add-on-torsion-unit",
		"shell-with-toes", "shell-without-toes", "heel-measured", "tilt-higher-heel", "tilt-lower-heel",
		"slope-foot-flat", "roll-over", "split-toe-on-a-stone", "build-height",
		"stairs-step-by-step", "foot-weekly-look", "shoe-on-with-a-horn", "five-tries", "what-to-bring", "part-of-the-foot",
		"heel-and-artificial-knee", "child-grows", "people-around-you", "first-days",
		"what-gets-a-grade", "level-in-the-chart", "round-after-a-no",
		"up-from-the-floor", "seat-and-grips", "over-ice", "sole-in-a-mirror", "slope-with-a-phone", "heel-with-a-ruler",
	}
	got := IDs()
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("drawings:\n%v\nwant\n%v", got, want)
	}
	if _, ok := english.Find("foot", ""); ok {
		t.Error("Find gives a drawing that is not there")
	}
}

// What a page relies on: one svg element with a name and a description, ids that
// begin with the prefix, no styling of its own, and small.
func TestShape(t *testing.T) {
	allowed := map[string][]string{
		"svg": {"class", "viewBox", "role", "aria-labelledby", "aria-describedby"}, "title": {"id"}, "desc": {"id"},
		"path": {"class", "d"}, "circle": {"class", "cx", "cy", "r"}, "text": {"class", "x", "y", "dy"},
		"g": {"class", "transform"}, "rect": {"class", "x", "y", "width", "height", "rx"},
	}
	for _, d := range drawings(t) {
		n := parsed(t, d.ID)
		ids := map[string]string{}
		n.every(func(c node) {
			name := c.XMLName.Local
			attrs, ok := allowed[name]
			if !ok {
				t.Errorf("%s: element <%s>", d.ID, name)
			}
			for _, a := range c.Attrs {
				if !slices.Contains(attrs, a.Name.Local) {
					t.Errorf("%s: <%s> has the attribute %s", d.ID, name, a.Name.Local)
				}
			}
			if id := c.attr("id"); id != "" {
				if ids[id] != "" || !strings.HasPrefix(id, "p-") {
					t.Errorf("%s: id %q is used twice or lacks the prefix", d.ID, id)
				}
				ids[id] = c.Text
			}
			for _, class := range strings.Fields(c.attr("class")) {
				if name != "svg" && !strings.HasPrefix(class, "d-") && !slices.Contains(penClasses, class) {
					t.Errorf("%s: class %q", d.ID, class)
				}
			}
		})
		if n.attr("role") != "img" || ids[n.attr("aria-labelledby")] != d.Title || ids[n.attr("aria-describedby")] != d.Long {
			t.Errorf("%s: the svg element is not named and described: %v", d.ID, n.Attrs)
		}
		if d.Title == "" || len(d.Long) < 80 || strings.Contains(d.Title, "  ") || !strings.HasSuffix(d.Long, ".") {
			t.Errorf("%s: title %q or description %q", d.ID, d.Title, d.Long)
		}
		if box := fmt.Sprintf("0 0 %d %d", d.Width, d.Height); n.attr("viewBox") != box || d.Width != 480 {
			t.Errorf("%s: viewBox %q of a drawing of width %d", d.ID, n.attr("viewBox"), d.Width)
		}
		most := 9000
		if len(n.with("d-pen")) == 4 { // a person four times
			most *= 2
		}
		if size := len(d.SVG(d.ID)); size > most {
			t.Errorf("%s: %d bytes, want at most %d", d.ID, size, most)
		}
	}
}

// The classes of the pen of the tiles (pencil.go), inside a group d-pen.
var penClasses = []string{"p", "t", "e", "i", "f", "h", "s", "n", "dash"}

func TestPrefix(t *testing.T) {
	d, _ := english.Find("roll-over", "")
	if got := string(d.SVG("")); !strings.Contains(got, `id="roll-over-title"`) {
		t.Error("an empty prefix does not stand for the drawing's ID")
	}
	if got := string(d.SVG(`a"><b`)); strings.Contains(got, `<b`) {
		t.Error("a prefix can break out of its attribute")
	}
}

func TestDeterministic(t *testing.T) {
	point := regexp.MustCompile(`\d\.\d{2}`)
	for _, d := range drawings(t) {
		if d.SVG("x") != d.SVG("x") {
			t.Errorf("%s differs from one call to the next", d.ID)
		}
		parsed(t, d.ID).every(func(n node) {
			if n.XMLName.Local == "path" && (point.MatchString(n.attr("d")) || strings.Contains(n.attr("d"), "NaN") || strings.Contains(n.attr("d"), "e")) {
				t.Errorf("%s: path %q is not written with one decimal", d.ID, n.attr("d"))
			}
		})
	}
}

// Every class in use has a rule, and every rule a use.
func TestStyleSheet(t *testing.T) {
	styled := map[string]bool{}
	for _, name := range []string{"drawing.css", "open.css"} { // the second for a page that begins with its drawing
		css, err := os.ReadFile("../../site/style/" + name)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range regexp.MustCompile(`\.(d-[a-z]+)`).FindAllStringSubmatch(string(css), -1) {
			styled[m[1]] = true
		}
	}
	// Marks that only name a line for the tests below.
	marks := []string{"d-text", "d-upright", "d-square", "d-line", "d-load", "d-hips"}
	used := map[string]bool{}
	for _, d := range drawings(t) {
		parsed(t, d.ID).every(func(n node) {
			if n.XMLName.Local == "svg" {
				return
			}
			for _, class := range strings.Fields(n.attr("class")) {
				if !slices.Contains(penClasses, class) {
					used[class] = true
				}
			}
		})
	}
	for _, m := range regexp.MustCompile(`class="(d-[a-z]+)"`).FindAllStringSubmatch(string(drawings(t)[0].Opening()), -1) {
		used[m[1]] = true // with the ground of a page that begins with it
	}
	for class := range used {
		if !styled[class] && !slices.Contains(marks, class) {
			t.Errorf("drawing.css has no rule for %s", class)
		}
	}
	for class := range styled {
		if !used[class] {
			t.Errorf("no drawing uses %s", class)
		}
	}
}

// The widths of letters in em, after the wider faces of the site's font list.
func wide(text string, bold bool) float64 {
	w := 0.0
	for _, r := range text {
		switch {
		case strings.ContainsRune("ijl.,:'", r):
			w += 0.34
		case strings.ContainsRune("ft r°", r):
			w += 0.42
		case strings.ContainsRune("mwM", r):
			w += 0.92
		case r == '−' || r == '=':
			w += 0.84
		default:
			w += 0.63
		}
	}
	if bold {
		w *= 1.1
	}
	return w
}

type rect struct {
	x0, y0, x1, y1 float64
	text           string
}

func (r rect) meets(o rect) bool { return r.x0 < o.x1 && o.x0 < r.x1 && r.y0 < o.y1 && o.y0 < r.y1 }

// texts estimates where each text stands at a font size.
func texts(t *testing.T, n node, size float64) (out []rect) {
	n.every(func(c node) {
		if c.XMLName.Local != "text" {
			return
		}
		dy, err := strconv.ParseFloat(strings.TrimSuffix(c.attr("dy"), "em"), 64)
		if err != nil {
			t.Fatal(err)
		}
		x, y, w := c.number(t, "x"), c.number(t, "y")+dy*size, wide(c.Text, c.has("d-bold"))*size
		switch {
		case c.has("d-mid"):
			x -= w / 2
		case c.has("d-end"):
			x -= w
		}
		out = append(out, rect{x, y - 0.78*size, x + w, y + 0.23*size, c.Text})
	})
	return out
}

// The two sizes of drawing.css: 16 on wide screens and paper, 22 on narrow ones.
var sizes = []float64{16, 22}

func TestTextFits(t *testing.T) {
	css, err := os.ReadFile("../../site/style/drawing.css")
	if err != nil {
		t.Fatal(err)
	}
	for _, size := range sizes {
		if !strings.Contains(string(css), fmt.Sprintf("font-size: %.0fpx", size)) {
			t.Errorf("drawing.css does not set the size %.0f that this test measures", size)
		}
		for _, d := range drawings(t) {
			found := texts(t, parsed(t, d.ID), size)
			if len(found) < 2 {
				t.Errorf("%s: %d texts", d.ID, len(found))
			}
			for i, a := range found {
				if a.x0 < 0 || a.y0 < 0 || a.x1 > float64(d.Width) || a.y1 > float64(d.Height) {
					t.Errorf("%s at %.0f: %q leaves the picture: %+v", d.ID, size, a.text, a)
				}
				for _, b := range found[:i] {
					if a.meets(b) {
						t.Errorf("%s at %.0f: %q overlaps %q", d.ID, size, a.text, b.text)
					}
				}
			}
		}
	}
}

// points reads the numbers of a path, two by two.
func points(t *testing.T, n node) (out []pt) {
	t.Helper()
	var v []float64
	for _, s := range regexp.MustCompile(`-?\d+(\.\d+)?`).FindAllString(n.attr("d"), -1) {
		x, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		v = append(v, x)
	}
	for i := 0; i+1 < len(v); i += 2 {
		out = append(out, pt{v[i], v[i+1]})
	}
	return out
}

func crossing(a, b, c, d pt) bool {
	turn := func(p, q, r pt) float64 { return (q.x-p.x)*(r.y-p.y) - (q.y-p.y)*(r.x-p.x) }
	return turn(a, b, c)*turn(a, b, d) < 0 && turn(c, d, a)*turn(c, d, b) < 0
}

// Leaders neither cross one another nor run through a text.
func TestLeaders(t *testing.T) {
	for _, d := range drawings(t) {
		n := parsed(t, d.ID)
		leads := n.with("d-lead")
		if dots := n.with("d-dot"); len(dots) != len(leads) {
			t.Errorf("%s: %d leaders and %d dots", d.ID, len(leads), len(dots))
		}
		for i, lead := range leads {
			a := points(t, lead)
			if len(a) != 2 {
				t.Fatalf("%s: leader %q", d.ID, lead.attr("d"))
			}
			for _, p := range a {
				if p.x < 0 || p.y < 0 || p.x > float64(d.Width) || p.y > float64(d.Height) {
					t.Errorf("%s: a leader leaves the picture at %v", d.ID, p)
				}
			}
			for _, other := range leads[:i] {
				if b := points(t, other); crossing(a[0], a[1], b[0], b[1]) {
					t.Errorf("%s: leaders %q and %q cross", d.ID, lead.attr("d"), other.attr("d"))
				}
			}
			for _, size := range sizes {
				for _, r := range texts(t, n, size) {
					for k := 0.0; k <= 1; k += 0.05 {
						if p := between(a[0], a[1], k); p.x > r.x0 && p.x < r.x1 && p.y > r.y0 && p.y < r.y1 {
							t.Errorf("%s at %.0f: a leader runs through %q", d.ID, size, r.text)
							break
						}
					}
				}
			}
		}
	}
}

// All that is drawn lies inside the picture.
func TestInside(t *testing.T) {
	for _, d := range drawings(t) {
		for _, shape := range traceTile(t, string(d.SVG("p"))) {
			for _, ring := range shape.rings {
				for _, p := range ring {
					if p.x < 0 || p.y < 0 || p.x > float64(d.Width) || p.y > float64(d.Height) {
						t.Errorf("%s: a shape %q reaches %v", d.ID, shape.class, p)
						break
					}
				}
			}
		}
	}
}

// lean is how far a drawn line stands from upright, in degrees, positive to the
// right (toward the toe).
func lean(t *testing.T, n node) float64 {
	t.Helper()
	p := points(t, n)
	if len(p) != 2 {
		t.Fatalf("%q is no straight line", n.attr("d"))
	}
	up := p[1].minus(p[0])
	if up.y > 0 {
		up = up.times(-1)
	}
	return math.Atan2(up.x, -up.y) * 180 / math.Pi
}

func only(t *testing.T, id, class string) node {
	t.Helper()
	found := parsed(t, id).with(class)
	if len(found) != 1 {
		t.Fatalf("%s has %d lines %s, want one", id, len(found), class)
	}
	return found[0]
}

func words(t *testing.T, id string) string {
	var all []string
	parsed(t, id).every(func(n node) {
		if n.XMLName.Local == "text" {
			all = append(all, n.Text)
		}
	})
	return strings.Join(all, " ")
}

// The leg in the drawing leans by atan(step / lever), forward over a higher heel and
// back over a lower one, and the label says the same angle and step. The numbers
// are worked out here again, from 30 mm and 0.74 of a 26 cm foot: 8.8625 degrees.
func TestTilt(t *testing.T) {
	want := math.Atan(30/(0.74*260)) * 180 / math.Pi
	if math.Abs(want-8.8625) > 0.0001 {
		t.Fatalf("atan(30/192.4) is %.4f", want)
	}
	for _, c := range []struct {
		id  string
		way float64
	}{{"tilt-higher-heel", 1}, {"tilt-lower-heel", -1}} {
		if got := lean(t, only(t, c.id, "d-axis")); math.Abs(got-c.way*want) > 0.05 {
			t.Errorf("%s: the leg leans %.3f, want %.3f", c.id, got, c.way*want)
		}
		if got := lean(t, only(t, c.id, "d-upright")); got != 0 {
			t.Errorf("%s: the leg as it was set up leans %.3f", c.id, got)
		}
		text := words(t, c.id)
		if !strings.Contains(text, fmt.Sprintf("up to %.0f°", want)) || !strings.Contains(text, "30 mm") {
			t.Errorf("%s: labels %q", c.id, text)
		}
		// The step that the picture measures is 30 mm at its scale of 0.6.
		bars := parsed(t, c.id).with("d-move")
		p := points(t, bars[0])
		if got := math.Abs(p[1].y-p[0].y) / 0.6; math.Abs(got-30) > 0.2 {
			t.Errorf("%s: the step is drawn %.2f mm high", c.id, got)
		}
	}
}

// The same rule at the sizes that the facts file lists as check values.
func TestTiltCheckValues(t *testing.T) {
	for _, c := range []struct{ step, lever, want float64 }{
		{10, 180, 3.1798}, {10, 0.74 * 270, 2.865}, {20, 200, 5.7106}, {5, 180, 1.5911},
	} {
		if got := tiltOf(c.step, c.lever); math.Abs(got-c.want) > 0.01 {
			t.Errorf("%g mm over %g mm: %.4f degrees, want %.4f", c.step, c.lever, got, c.want)
		}
	}
}

// Facing up the slope rises toward the toe, facing down it falls, both by the
// angle in the label; the leg stays upright and the dashed line square.
func TestSlope(t *testing.T) {
	n := parsed(t, "slope-foot-flat")
	ground, axes, square := n.with("d-sole"), n.with("d-axis"), n.with("d-square")
	if len(ground) != 2 || len(axes) != 2 || len(square) != 2 {
		t.Fatalf("%d slopes, %d legs, %d dashed lines", len(ground), len(axes), len(square))
	}
	text := words(t, "slope-foot-flat")
	for i, c := range []struct {
		label string
		rise  float64
	}{{"facing up: toe up 10°", 10}, {"facing down: toe down 10°", -10}} {
		if !strings.Contains(text, c.label) {
			t.Errorf("no label %q in %q", c.label, text)
		}
		if got := 90 - lean(t, ground[i]); math.Abs(turnedFlat(got)-c.rise) > 0.05 {
			t.Errorf("%s: the slope is drawn at %.3f", c.label, turnedFlat(got))
		}
		if got := lean(t, axes[i]); got != 0 {
			t.Errorf("%s: the leg leans %.3f", c.label, got)
		}
		if got := lean(t, square[i]); math.Abs(got+c.rise) > 0.05 {
			t.Errorf("%s: the dashed line leans %.3f", c.label, got)
		}
	}
}

// turnedFlat brings the rise of a line to between -90 and 90 degrees.
func turnedFlat(deg float64) float64 {
	if deg > 90 {
		deg -= 180
	}
	return deg
}

// The sole of the measured shoe is as thick as its labels say, at the scale of
// the drawing, and the label subtracts the ball from the heel.
func TestHeelMeasured(t *testing.T) {
	moves := parsed(t, "heel-measured").with("d-move")
	if len(moves) != 3 {
		t.Fatalf("%d measures, want heel, ball and the wrong one", len(moves))
	}
	for i, want := range []float64{30, 20} {
		p := points(t, moves[i])
		if got := math.Abs(p[1].y-p[0].y) / 1.05; math.Abs(got-want) > 0.15 {
			t.Errorf("measure %d is drawn %.2f mm long, want %.0f", i, got, want)
		}
	}
	text := words(t, "heel-measured")
	for _, want := range []string{"30 mm", "20 mm", "30 − 20 = 10 mm", "right", "wrong"} {
		if !strings.Contains(text, want) {
			t.Errorf("no label %q in %q", want, text)
		}
	}
}

// Proportions of the foot: the lowest place of the shell is the ball, at 0.74 of
// its length; the tube stands about a quarter of the length from the heel.
func TestFootProportions(t *testing.T) {
	low, left, right := pt{0, math.Inf(1)}, math.Inf(1), math.Inf(-1)
	for _, p := range shellOutline().flat(40)[0] {
		if p.y < low.y-1e-9 {
			low = p
		}
		left, right = min(left, p.x), max(right, p.x)
	}
	if math.Abs(right-left-footLength) > 3 {
		t.Errorf("the foot is %.1f mm long", right-left)
	}
	if got := low.x / footLength; math.Abs(got-0.74) > 0.04 {
		t.Errorf("the ball lies at %.3f of the length", got)
	}
	if got := tubeAt / footLength; got < 0.23 || got > 0.28 {
		t.Errorf("the tube stands at %.3f of the length", got)
	}
}

func TestHatchStaysInside(t *testing.T) {
	ring := append(disc(50, 50, 40), box(40, 40, 60, 60)...)
	lines := hatch(ring, 45, 7).flat(1)
	if len(lines) < 10 {
		t.Fatalf("only %d lines", len(lines))
	}
	for _, l := range lines {
		for k := 0.0; k <= 1; k += 0.1 {
			p := between(l[0], l[1], k)
			if p.minus(pt{50, 50}).length() > 40 || (p.x > 40 && p.x < 60 && p.y > 40 && p.y < 60) {
				t.Fatalf("a hatch line runs outside or through the hole at %v", p)
			}
		}
	}
}

func TestNum(t *testing.T) {
	for v, want := range map[float64]string{1: "1", 1.25: "1.3", -0.04: "0", 12.34: "12.3", -7.96: "-8", 100: "100"} {
		if got := num(v); got != want {
			t.Errorf("num(%g) is %q, want %q", v, got, want)
		}
	}
}
