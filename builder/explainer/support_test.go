package explainer_test

import (
	"strings"
	"testing"

	"keelpath/builder/explainer"
)

// A mark shows its words, leads to what they mean, and is left out where marks are.
func TestSupport(t *testing.T) {
	const md = "It bends.[](source:s) [](support:little)\n\n- [](support:trade) It is set by eye."
	out := html(t, md, explainer.Options{Target: target})
	for _, want := range []string{
		`</sup> <span class="support">(<a href="support/little.html">little studied</a>)</span></p>`,
		`<li><span class="support">(<a href="support/trade.html">trade practice</a>)</span> It is set by eye.</li>`,
	} {
		if !strings.Contains(string(out.HTML), want) {
			t.Errorf("%q is not in\n%s", want, out.HTML)
		}
	}
	if out := html(t, md, explainer.Options{Target: target, NewTab: true}); !strings.Contains(string(out.HTML), `href="support/little.html" target="_blank"`) {
		t.Errorf("no new tab:\n%s", out.HTML)
	}
	if out := html(t, md, explainer.Options{Target: target, Unmarked: true}); strings.Contains(string(out.HTML), "studied") || strings.Contains(string(out.HTML), "support") {
		t.Errorf("a mark is left:\n%s", out.HTML)
	}
	ids, words := map[string]bool{}, map[string]bool{}
	for _, s := range explainer.Supports {
		if ids[s.ID] || words[s.Words] || s.Means == "" {
			t.Errorf("%+v", s)
		}
		ids[s.ID], words[s.Words] = true, true
	}
}
