package drawing

import (
	"encoding/xml"
	"os"
	"strings"
	"testing"

	"keelpath/builder/say"
)

// As many people are filled as are counted, all others are outlines, and nobody
// stands on another or outside the picture.
func TestShare(t *testing.T) {
	for _, s := range []Share{{58, 100, "58 in 100 fell within a year"}, {0, 100, "0 in 100"}, {100, 100, "100 in 100"}, {3, 7, "3 of 7 <walk>"}, {11, 30, "11 of 30"}, {18, 46, "18 of 46"}} {
		svg := string(s.SVG(say.English(), `a"b`))
		var n node
		if err := xml.Unmarshal([]byte(svg), &n); err != nil {
			t.Fatalf("%+v: %v", s, err)
		}
		if n.attr("role") != "img" || n.attr("aria-labelledby") != `a"b-title` || n.Nodes[0].Text != s.Says || n.Nodes[1].Text != s.Long(say.English()) {
			t.Errorf("%+v is not named and described: %+v", s, n)
		}
		if !strings.HasPrefix(s.Long(say.English()), s.Says) {
			t.Errorf("the long description of %+v does not say the same: %s", s, s.Long(say.English()))
		}
		if len(svg) > 8000 {
			t.Errorf("%+v takes %d bytes", s, len(svg))
		}
		stand := map[[2]string]bool{}
		for class, want := range map[string]int{"p-counted": s.Count, "p-other": s.Of - s.Count} {
			found := 0
			for _, p := range n.with(class) {
				moves := strings.Split(p.attr("d"), "M")[1:]
				for i := 0; i+1 < len(moves); i += 2 { // head, body
					found++
					stand[[2]string{strings.TrimSuffix(moves[i], head), strings.TrimSuffix(moves[i+1], body)}] = true
				}
			}
			if found != want {
				t.Errorf("%+v: %d people are %s, want %d", s, found, class, want)
			}
		}
		if len(stand) != s.Of {
			t.Errorf("%+v: people stand in %d places", s, len(stand))
		}
	}
}

func TestShareLong(t *testing.T) {
	for s, want := range map[Share]string{
		{58, 100, "58 in 100 fell"}: "58 in 100 fell. The picture has 100 small figures in 10 rows of 10, one for each person: 58 are filled and 42 are outlines.",
		{2, 7, "2 of 7 fell."}:      "2 of 7 fell. The picture has 7 small figures in a row, one for each person: 2 are filled and 5 are outlines.",
		{2, 17, "2 of 17 fell"}:     "2 of 17 fell. The picture has 17 small figures in 2 rows of up to 10, one for each person: 2 are filled and 15 are outlines.",
	} {
		if got := s.Long(say.English()); got != want {
			t.Errorf("got  %s\nwant %s", got, want)
		}
	}
}

// What tells the two kinds of people apart is that one is filled.
func TestShareStyle(t *testing.T) {
	css, err := os.ReadFile("../../site/style/drawing.css")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(css), ".p-counted { fill: var(--ink); }") || strings.Contains(string(css), ".p-other") {
		t.Error("drawing.css does not fill those who are counted, or says more of the others")
	}
}
