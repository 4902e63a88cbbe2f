package browsertest

import (
	"fmt"
	"net/url"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"

	"golang.org/x/net/html"
)

// Rules that axe-core has and does not run unless it is told to. The contrast one is
// the 7 : 1 of WCAG's criterion 1.4.6; it tells only of what passes the 4.5 : 1 of 1.4.3.
var askedRules = []string{"target-size", "color-contrast-enhanced", "identical-links-same-purpose", "meta-refresh-no-exceptions"}

var axeSource = sync.OnceValues(func() (string, error) {
	data, err := os.ReadFile(tool(axeFile))
	return string(data), err
})

type axeResult struct {
	Violations []axeViolation
	Unsure     []axeViolation // axe could not tell
	Ran        []string       // rules that were run
}

type axeViolation struct {
	ID   string
	Help string
	At   []string
}

func (b *tab) loadAxe() {
	b.t.Helper()
	source, err := axeSource()
	b.must(err)
	b.run(source + "; 0")
}

// axe checks the page as it is; loadAxe comes first. It looks at the given rules,
// or at all. It must not load styles again to read them: the pages forbid that.
func (b *tab) axe(only ...string) axeResult {
	b.t.Helper()
	return eval[axeResult](b, fmt.Sprintf(`(() => {
const options = { preload: false, resultTypes: ["violations", "incomplete"], selectors: false, rules: Object.fromEntries(%s.map((r) => [r, { enabled: true }])) };
const only = %s;
if (only.length) options.runOnly = { type: "rule", values: only };
const told = (list) => list.map((v) => ({ ID: v.id, Help: v.help, At: v.nodes.map((n) => n.html.slice(0, 200) + " " + n.any.concat(n.all, n.none).map((c) => c.message).join("; ")) }));
return axe.run(document, options).then((r) => ({ Violations: told(r.violations), Unsure: told(r.incomplete),
  Ran: [].concat(r.violations, r.passes, r.incomplete, r.inapplicable).map((v) => v.id) }));
})()`, quoted(b, askedRules), quoted(b, append([]string{}, only...))))
}

// colourRules are those whose outcome a theme of colours can change.
var colourRules = []string{"color-contrast", "color-contrast-enhanced", "link-in-text-block"}

// problems gives what was found, and what axe leaves to people to judge. Where it
// cannot tell a contrast (text that has to be scrolled to, marks that are no letters)
// the builder's own test counts: it measures every pair of the theme's colours.
func (r axeResult) problems() []string {
	var out []string
	unsure := slices.DeleteFunc(slices.Clone(r.Unsure), func(v axeViolation) bool { return slices.Contains(colourRules, v.ID) })
	for _, v := range append(slices.Clone(r.Violations), unsure...) {
		out = append(out, fmt.Sprintf("%s: %s, at %d places:\n\t%s", v.ID, v.Help, len(v.At), strings.Join(v.At[:min(4, len(v.At))], "\n\t")))
	}
	return out
}

// missing gives the rules that should have been run and were not.
func (r axeResult) missing(rules ...string) []string {
	return slices.DeleteFunc(slices.Clone(rules), func(rule string) bool { return slices.Contains(r.Ran, rule) })
}

// Looks at which each kind of page is held against the rules.
var looks = []struct {
	name          string
	width, height int64
	scheme        string
}{
	{"360", 360, 740, "light"}, {"360-dark", 360, 740, "dark"}, {"1100", 1100, 900, "light"}, {"1100-dark", 1100, 900, "dark"},
}

// sizeWhole makes the window as high as the page, where that is higher: what lies over the foot of
// a lower window covers there what can be scrolled from under it, and axe would measure the rest.
func (b *tab) sizeWhole(width, height int64) {
	b.t.Helper()
	b.size(width, height)
	if whole := eval[int64](b, `document.documentElement.scrollHeight`); whole > height {
		b.size(width, whole)
	}
}

func TestAccessible(t *testing.T) {
	eachState(t, states, func(t *testing.T, b *tab, s state) {
		b.loadAxe()
		for _, l := range looks {
			b.sizeWhole(l.width, l.height)
			b.media("prefers-color-scheme", l.scheme)
			only, must := []string(nil), append(slices.Clone(askedRules), "color-contrast", "label", "region", "heading-order")
			if l.scheme == "dark" { // all else is as it was in the light
				only, must = colourRules, colourRules
			}
			r := b.axe(only...)
			if not := r.missing(must...); len(not) > 0 {
				t.Errorf("%s at %s: axe did not run %q", s.name, l.name, not)
			}
			for _, p := range r.problems() {
				t.Errorf("%s at %s: %s", s.name, l.name, p)
			}
			keepPicture(t, s.name+"-"+l.name+".png", b.picture)
		}
	})
}

// Pages broken on purpose: the check must see each fault.
func TestAccessibleSeesFaults(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	for _, fault := range []struct{ rule, script string }{
		{"color-contrast", `document.querySelector("main .question h2").style.color = "#bbb"`},
		{"color-contrast-enhanced", `document.querySelector("main .why").style.color = "#666"`},
		{"target-size", `document.querySelector("#planner .bar .line").style.gap = "0"; for (const e of document.querySelectorAll("#planner .bar button")) { e.style.cssText = "display:inline-block; min-height:0; min-width:0; padding:0; margin:0; width:12px; height:12px; overflow:hidden" }`},
		{"label", `document.querySelector("#planner label.row .says").remove()`},
		{"identical-links-same-purpose", `document.querySelector("header .menu").open = true; document.querySelectorAll("header .menu a").forEach((a) => a.textContent = "Here")`},
	} {
		b.openPlanner(onDisk)
		takeHalf(b)
		b.sizeWhole(360, 740)
		b.loadAxe()
		if found := b.axe(fault.rule).problems(); len(found) > 0 {
			t.Fatalf("the page is at fault already: %q", found)
		}
		b.run(fault.script)
		if found := b.axe(fault.rule).problems(); len(found) != 1 {
			t.Errorf("a fault for %s was not seen: %q", fault.rule, found)
		}
	}
}

// On no page do two links of one name lead to two places; axe tells of the pages it
// sees, and this of all.
func TestLinksOfOneName(t *testing.T) {
	for _, name := range pages(t, siteDir) {
		to := map[string]string{}
		var look func(n *html.Node)
		look = func(n *html.Node) {
			if n.Data == "template" {
				return
			}
			if href := attr(n, "href"); n.Data == "a" && href != "" {
				if u, err := url.Parse(href); err != nil {
					t.Errorf("%s: %v", name, err)
				} else {
					href = (&url.URL{Path: "/" + name}).ResolveReference(u).String()
				}
				said := strings.ToLower(wholeText(n))
				if other, ok := to[said]; ok && other != href {
					t.Errorf("%s: the links named %q lead to %s and to %s", name, said, other, href)
				}
				to[said] = href
			}
			for c := range n.ChildNodes() {
				look(c)
			}
		}
		look(pageOf(t, siteDir, name))
		if len(to) < 5 {
			t.Errorf("%s has only %d links to look at", name, len(to))
		}
	}
}

func wholeText(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data)
		}
	}
	return oneLine(b.String())
}
