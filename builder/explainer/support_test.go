package explainer_test

import (
	"strings"
	"testing"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/say"
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
	checkNamed(t)
	ids, words := map[string]bool{}, map[string]bool{}
	for _, s := range explainer.Supports {
		if ids[s.ID] || words[string(s.Words)] || s.Means == "" {
			t.Errorf("%+v", s)
		}
		ids[s.ID], words[string(s.Words)] = true, true
	}
}

// Where sources are named, each stands at its claim and leads on; marks side by
// side share their brackets, and a blank parts them from the words before.
func checkNamed(t *testing.T) {
	t.Helper()
	name := func(id string) string { return "2020 " + id }
	for _, c := range []struct{ md, html, text string }{
		{"It bends.[](source:s) [](support:little)",
			`It bends. <span class="support">(<a href="source/s.html">2020 s</a>; <a href="support/little.html">little studied</a>)</span>`,
			"It bends. (2020 s; little studied)"},
		{"It bends. [](source:s)[](source:r)\n[](support:some) It holds.",
			`It bends. <span class="support">(<a href="source/s.html">2020 s</a>; <a href="source/r.html">2020 r</a>; <a href="support/some.html">some support</a>)</span> It holds.`,
			"It bends. (2020 s; 2020 r; some support) It holds."},
		{"It *bends*[](source:s) a lot\n[](support:trade)",
			`It <em>bends</em> <span class="support">(<a href="source/s.html">2020 s</a>)</span> a lot` + "\n" + `<span class="support">(<a href="support/trade.html">trade practice</a>)</span>`,
			"It bends (2020 s) a lot (trade practice)"},
		{"[](source:s) says so.", `<span class="support">(<a href="source/s.html">2020 s</a>)</span> says so.`, "(2020 s) says so."},
	} {
		if out := html(t, c.md, explainer.Options{Target: target, Name: name}); string(out.HTML) != "<p>"+c.html+"</p>\n" {
			t.Errorf("%q is shown as\n%s", c.md, out.HTML)
		}
		doc := explainer.ParseText(read.Text{S: c.md}, lines, &finding.List{})
		if got := doc.Text(say.English(), target, name, nil); got != c.text {
			t.Errorf("%q reads %q", c.md, got)
		}
		if got := doc.Text(say.English(), target, nil, nil); strings.ContainsAny(got, "()") {
			t.Errorf("%q keeps its marks where none are wanted: %q", c.md, got)
		}
	}
}

// A mark says so where none of the sources right before it was read far. Others in
// the same paragraph have no say, nor has a mark that stands before what it marks.
func TestPartlyRead(t *testing.T) {
	partly := func(ids []string) string {
		for _, id := range ids {
			if !strings.HasPrefix(id, "part") {
				return ""
			}
		}
		return "we read only part"
	}
	name := func(id string) string { return id }
	for _, c := range []struct{ md, want string }{
		{"It bends.[](source:part)[](support:some)", "It bends. (part; some support; we read only part)"},
		{"It bends.[](source:part) [](source:part2)\n[](support:some)", "It bends. (part; part2; some support; we read only part)"},
		{"It bends.[](source:whole)[](source:part)[](support:some)", "It bends. (whole; part; some support)"},
		{"It bends.[](source:part)[](source:whole)[](support:some)", "It bends. (part; whole; some support)"},
		{"It holds.[](source:whole) It bends.[](source:part)[](support:some)", "It holds. (whole) It bends. (part; some support; we read only part)"},
		{"[](support:little) It bends.[](source:part)", "(little studied) It bends. (part)"},
		{"It bends.[](source:part) It is set by eye.[](support:trade)", "It bends. (part) It is set by eye. (trade practice)"},
	} {
		doc := explainer.ParseText(read.Text{S: c.md}, lines, &finding.List{})
		if got := doc.Text(say.English(), target, name, partly); got != c.want {
			t.Errorf("%q reads\n%q, want\n%q", c.md, got, c.want)
		}
		if got := doc.Text(say.English(), target, name, nil); strings.Contains(got, "only part") {
			t.Errorf("%q reads %q", c.md, got)
		}
	}
}
