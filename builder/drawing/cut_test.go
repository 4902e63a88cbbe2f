package drawing

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// Every foot and every add-on has a cut: with the part that gives way in it, with no word and no arrow, and at one
// scale, so that the foot's own length is the width of each.
func TestCuts(t *testing.T) {
	cuts := Cuts()
	if len(cuts) != 13 {
		t.Errorf("%d drawings have a cut, want 13: %q", len(cuts), cuts)
	}
	number := regexp.MustCompile(`-?\d+(?:\.\d+)?`)
	for _, id := range cuts {
		s, _ := CutShape(id)
		body := string(s.Body)
		if n := strings.Count(body, `class="d-moving"`); n != 1 {
			t.Errorf("%s: %d parts give way, want 1", id, n)
		}
		for _, left := range append([]string{"<text", "<circle"}, uncut...) {
			if strings.Contains(body, left) {
				t.Errorf("%s: the cut has %q in it", id, left)
			}
		}
		if s.Wide != int(CutWide) {
			t.Errorf("%s is %d wide, and the others are %v", id, s.Wide, CutWide)
		}
		for _, d := range regexp.MustCompile(` d="([^"]*)"`).FindAllStringSubmatch(body, -1) {
			for i, n := range number.FindAllString(d[1], -1) {
				v, _ := strconv.ParseFloat(n, 64)
				if most := []float64{float64(s.Wide), 1}[i%2]; v > most || v < []float64{-1, -float64(s.Tall)}[i%2] {
					t.Errorf("%s: %v lies outside %d by %d", id, v, s.Wide, s.Tall)
				}
			}
		}
		if svg, ok := CutSVG(id); !ok || !strings.HasPrefix(string(svg), fmt.Sprintf(`<svg class="cut" viewBox="0 0 %d %d" aria-hidden="true"`, s.Wide, s.Tall)) {
			t.Errorf("%s is %.90s", id, svg)
		}
	}
	for _, id := range []string{"split-toe-on-a-stone", "heel-measured", "none"} {
		if _, ok := CutShape(id); ok {
			t.Errorf("%s is a cut of a foot", id)
		}
	}
}
