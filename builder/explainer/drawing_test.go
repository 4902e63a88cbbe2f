package explainer_test

import (
	"strings"
	"testing"

	"keelpath/builder/drawing"
	"keelpath/builder/explainer"
)

// A drawing stands in a text with the words that it is given, its name below it.
func TestDrawingHasItsWords(t *testing.T) {
	const md = "Before.\n\n```drawing\nroll-over\n```\n"
	asked := ""
	out := html(t, md, explainer.Options{Drawing: func(id string) (drawing.Drawing, bool) {
		asked = id
		d := drawing.Shapes()[0]
		d.Title, d.Long = "Ein <Fuß>", "Er rollt ab."
		return d, true
	}})
	for _, want := range []string{"<title id=\"", ">Ein &lt;Fuß&gt;</title>", ">Er rollt ab.</desc>", "<figcaption>Ein &lt;Fuß&gt;</figcaption>"} {
		if strings.Count(string(out.HTML), want) != 1 {
			t.Errorf("%q stands not once in %s", want, out.HTML)
		}
	}
	if asked != "roll-over" {
		t.Errorf("asked for %q", asked)
	}
	if out := html(t, md, explainer.Options{}); strings.Contains(string(out.HTML), "figure") {
		t.Errorf("a drawing without words is shown: %s", out.HTML)
	}
}
