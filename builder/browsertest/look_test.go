package browsertest

import (
	"bytes"
	"fmt"
	"image"
	"math"
	"slices"
	"strings"
	"testing"
)

// spacing sets what a reader with low vision may set: WCAG's criterion 1.4.12.
const spacing = `(() => {
const s = new CSSStyleSheet();
s.replaceSync("* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important } p { margin-bottom: 2em !important }");
document.adoptedStyleSheets = [s];
})()`

// layout reports text that is cut off, runs over other text, or makes the page
// wider than the window. A box that can be scrolled with keys may be wider inside.
const layout = `(() => {
const out = [];
const all = new CSSStyleSheet(); // what is below the screen is laid out as when it comes up
all.replaceSync(".found li { content-visibility: visible !important }");
document.adoptedStyleSheets.push(all);
const wide = document.documentElement.clientWidth;
const name = (e) => e.tagName.toLowerCase() + (e.id ? "#" + e.id : "") + Array.from(e.classList, (c) => "." + c).join("") + " " + JSON.stringify(e.textContent.replace(/\s+/g, " ").trim().slice(0, 50));
const seen = (e) => e.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && !e.closest(".unseen, .skip, .sheet-paper");
const scrolls = (e) => { const b = e.closest('[tabindex="0"]'); return b && ["auto", "scroll"].includes(getComputedStyle(b).overflowX); };
if (document.documentElement.scrollWidth > wide) out.push("the page is " + document.documentElement.scrollWidth + " wide in a window of " + wide);
const fixed = (e) => { if (e.closest("header .menu ul")) return true; for (; e; e = e.parentElement) if (["fixed", "sticky"].includes(getComputedStyle(e).position)) return true; return false; }; // lies over what scrolls beneath it
const short = (e) => !!e.closest('.slip [data-slot="last"]'); // what was told last, which stands whole among the answers and on the sheet
const lines = [];
for (const e of document.body.querySelectorAll("*")) {
  if (!seen(e) || short(e)) continue;
  const s = getComputedStyle(e);
  if (["hidden", "clip"].some((o) => s.overflowX === o || s.overflowY === o) && (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 1)) out.push("cut off: " + name(e));
  for (const n of e.childNodes) {
    if (n.nodeType !== Node.TEXT_NODE || !n.data.trim()) continue;
    const range = document.createRange();
    range.selectNodeContents(n);
    for (const r of range.getClientRects()) {
      if (r.width < 2) continue;
      if ((r.right > wide + 1 || r.left < -1) && !scrolls(e)) out.push("beyond the edge: " + name(e));
      const drawing = e.closest("svg"), d = drawing && drawing.getBoundingClientRect();
      if (d && getComputedStyle(drawing).overflow === "hidden" && (r.left < d.left - 1 || r.right > d.right + 1 || r.top < d.top - 1 || r.bottom > d.bottom + 1)) out.push("cut off: " + name(e));
      lines.push({ e, fixed: fixed(e), top: r.top + r.height * 0.25, bottom: r.bottom - r.height * 0.25, left: r.left, right: r.right });
    }
  }
}
lines.sort((a, b) => a.top - b.top);
for (let i = 0; i < lines.length; i++) {
  for (let j = i + 1; j < lines.length && lines[j].top < lines[i].bottom; j++) {
    const a = lines[i], b = lines[j];
    if (a.e !== b.e && a.fixed === b.fixed && Math.min(a.right, b.right) - Math.max(a.left, b.left) > 3 && Math.min(a.bottom, b.bottom) - b.top > 1) out.push("one over the other: " + name(a.e) + " and " + name(b.e));
  }
}
return Array.from(new Set(out)).slice(0, 8);
})()`

// At 320 px no page scrolls sideways and no text is lost, also with wider spacing.
func TestNarrowAndSpaced(t *testing.T) {
	all := everyPage(t)
	for _, s := range states {
		if strings.HasPrefix(s.name, "planner-") {
			all = append(all, s)
		}
	}
	eachState(t, all, func(t *testing.T, b *tab, s state) {
		b.size(320, 640)
		for _, wrong := range eval[[]string](b, layout) {
			t.Errorf("%s at 320 px: %s", s.name, wrong)
		}
		for _, wide := range eval[[]string](b, `Array.from(document.querySelectorAll(".table")).filter((e) => e.scrollWidth > e.clientWidth).map((e) => e.textContent.trim().slice(0, 50))`) {
			t.Errorf("%s at 320 px: a table scrolls sideways: %q", s.name, wide)
		}
		b.run(spacing)
		for _, wrong := range eval[[]string](b, layout) {
			t.Errorf("%s at 320 px, spaced: %s", s.name, wrong)
		}
		keepPicture(t, s.name+"-320-spaced.png", b.picture)
	})
}

// Each part of a shelf's entry stands on a line of its own: the link, what it is about, and
// what is counted of it. None runs on behind another.
func TestShelvesStandApart(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.size(1280, 900)
	for _, name := range []string{"teach/index.html", "learn/index.html", "workbench/index.html"} {
		b.open(onDisk(name))
		lines := eval[[][]string](b, `Array.from(document.querySelectorAll(".shelf > li"), (li) => li.innerText.split("\n").map((line) => line.trim()).filter((line) => line))`)
		if len(lines) == 0 {
			t.Errorf("%s has no shelf", name)
		}
		for _, entry := range lines {
			for _, line := range entry {
				if words := strings.Fields(line); strings.Contains(line, " questions, ") && len(words) > 1 && words[1] != "questions," {
					t.Errorf("%s: what is counted runs on behind the words before it: %q", name, line)
				}
			}
			if len(entry) < 2 {
				t.Errorf("%s: an entry is on one line: %q", name, entry)
			}
		}
	}
	b.scriptOff()
	b.open(onDisk(plannerName))
	if gaps := eval[[]float64](b, `Array.from(document.querySelectorAll("#planner-plain .shelf > li"), (li) => { const r = document.createRange(); r.selectNodeContents(li.lastChild); return r.getBoundingClientRect().top - li.querySelector("a").getBoundingClientRect().bottom; })`); len(gaps) == 0 || slices.Max(gaps) > 4 {
		t.Errorf("between a topic and what it is about stands an empty line: %v", gaps)
	}
}

// Pages broken on purpose: each fault must be seen.
func TestLayoutFaultsAreSeen(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.size(320, 640)
	for want, script := range map[string]string{
		"the page is":        `document.querySelector("main p").style.width = "400px"`,
		"cut off":            `document.querySelector("main .lead").style.cssText = "height: 2em; overflow: hidden"`,
		"beyond the edge":    `document.querySelector("main .lead").style.cssText = "white-space: nowrap"`,
		"one over the other": `document.querySelector("main .lead").style.cssText = "margin-bottom: -4.5em"`,
	} {
		b.open(onDisk("learn/payer-levels.html"))
		if found := eval[[]string](b, layout); len(found) > 0 {
			t.Fatalf("the page is at fault already: %q", found)
		}
		b.run(script)
		if found := strings.Join(eval[[]string](b, layout), "\n"); !strings.Contains(found, want) {
			t.Errorf("%q was not seen: %s", want, found)
		}
	}
}

// The sheet's line lies over the foot of the window: nothing that has the focus is beneath it.
// (WCAG 2.2, criterion 2.4.12.)
func TestFocusIsNotCovered(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.size(360, 640)
	for name, reach := range map[string]func(b *tab){"question": takeHalf, "ending": takeRich} {
		b.openPlanner(onDisk)
		reach(b)
		below := 0
		for range 40 {
			b.press("Tab")
			at := eval[struct {
				Name                        string
				Top, Bottom, Foot, Scrolled float64
				Slip                        bool
			}](b, `(() => { const e = document.activeElement, r = e.getBoundingClientRect(), slip = document.querySelector('#planner [data-slot="slip"]');
return { Name: e.tagName + " " + e.textContent.trim().slice(0, 40), Top: r.top, Bottom: r.bottom, Foot: slip.getBoundingClientRect().top, Scrolled: scrollY, Slip: slip === e || e === document.body || slip.hidden } })()`)
			if at.Slip {
				continue
			}
			if at.Scrolled > 0 {
				below++
			}
			if at.Top < 0 || at.Bottom > at.Foot && at.Top < at.Foot+56 {
				t.Errorf("%s: %s has the focus from %.0f to %.0f px, and the sheet's line begins at %.0f", name, at.Name, at.Top, at.Bottom, at.Foot)
			}
		}
		if below == 0 {
			t.Errorf("%s: nothing had to be scrolled to", name)
		}
	}
}

// Wherever Tab leads, one sees where one is: in the light, in the dark, and in the
// reader's own colours. Seen means: with the focus there are pixels whose contrast with
// what was there before is 3 : 1 or more, and enough for a line around the place.
func TestFocusIsSeen(t *testing.T) {
	for _, mode := range [][]string{
		{"prefers-color-scheme", "light"}, {"prefers-color-scheme", "dark"},
		{"forced-colors", "active", "prefers-color-scheme", "light"}, {"forced-colors", "active", "prefers-color-scheme", "dark"},
	} {
		t.Run(strings.Join(mode, " "), func(t *testing.T) {
			t.Parallel()
			b := newTab(t)
			b.size(360, 640)
			b.media(mode...)
			for _, s := range states {
				if !slices.Contains([]string{"index.html", "planner-topics", "planner-question", "planner-sheet"}, s.name) {
					continue
				}
				s.reach(b, onDisk)
				for range 5 {
					b.press("Tab")
					for _, wrong := range unseenFocus(b) {
						t.Errorf("%s: %s", s.name, wrong)
					}
				}
			}
		})
	}
}

// unseenFocus says what is wrong with how the focus shows, if something is. Then
// the focus is gone, and the next Tab goes on from there.
func unseenFocus(b *tab) []string {
	b.t.Helper()
	at := eval[struct {
		Name string
		Box  box
	}](b, `(() => { const e = document.activeElement, r = e.getBoundingClientRect();
return { Name: e.tagName + " " + e.textContent.replace(/\s+/g, " ").trim().slice(0, 40) + (e.value || ""), Box: { X: r.left + scrollX, Y: r.top + scrollY, Width: r.width, Height: r.height } } })()`)
	// A box to tick may show it around its whole line, so look a little around it.
	around := box{max(0, at.Box.X-30), max(0, at.Box.Y-30), at.Box.Width + 60, at.Box.Height + 60}
	with := b.pixels(around)
	b.run(`document.activeElement.blur()`)
	without := b.pixels(around)
	n := strongChanges(without, with)
	if least := int(1.5 * (at.Box.Width + at.Box.Height)); n < least {
		return []string{fmt.Sprintf("the focus on %s changes %d pixels strongly, want %d or more", at.Name, n, least)}
	}
	return nil
}

// strongChanges counts the pixels that differ with a contrast of 3 : 1 or more.
func strongChanges(a, b *image.RGBA) int {
	n := 0
	for i := 0; i+3 < min(len(a.Pix), len(b.Pix)); i += 4 {
		p, q := a.Pix[i:i+3], b.Pix[i:i+3]
		if !bytes.Equal(p, q) && contrast(luminance(p), luminance(q)) >= 3 {
			n++
		}
	}
	return n
}

// luminance is WCAG's relative luminance of red, green and blue.
func luminance(p []byte) float64 {
	part := func(v byte) float64 {
		c := float64(v) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*part(p[0]) + 0.7152*part(p[1]) + 0.0722*part(p[2])
}

func contrast(a, b float64) float64 { return (max(a, b) + 0.05) / (min(a, b) + 0.05) }

// A focus that does not show must be seen as such.
func TestHiddenFocusIsSeen(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.size(360, 640)
	b.open(onDisk("index.html"))
	b.run(`(() => { const s = new CSSStyleSheet(); s.replaceSync(":focus-visible { outline: none !important }"); document.adoptedStyleSheets = [s] })()`)
	b.press("Tab", "Tab", "Tab") // past the link that shows up on focus
	if wrong := unseenFocus(b); len(wrong) != 1 {
		t.Errorf("a focus without an outline was not seen: %q", wrong)
	}
}

// A page to read prints as a page to read: its text, without what leads around the site.
func TestPrintedPages(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	for _, p := range lib.Explainers {
		name := "learn/" + p.ID + ".html"
		b.open(onDisk(name))
		texts := eval[[]string](b, `Array.from(document.querySelectorAll("main h1, main .lead, main h2")).map((e) => e.innerText.replace(/\s+/g, " ").trim())`)
		if len(texts) < 4 {
			t.Fatalf("%s has only %q to look for", name, texts)
		}
		print := b.print("A4", name)
		for _, wrong := range inOrder(print.Text, texts...) {
			t.Errorf("%s, printed: %s", name, wrong)
		}
		for _, part := range []string{"Skip to the text", "Get ready", "›", "What was checked"} {
			if strings.Contains(print.Text, part) && !strings.Contains(eval[string](b, `document.querySelector("main").innerText`), part) {
				t.Errorf("%s: %q is printed with it", name, part)
			}
		}
		// Who wrote it and when it was checked belongs to the text.
		if !strings.Contains(print.Text, "Written by") || !strings.Contains(print.Text, "Facts last checked") {
			t.Errorf("%s: who wrote it is not printed", name)
		}
	}
	// The same page with its navigation left in must be seen.
	b.open(onDisk("learn/" + lib.Explainers[0].ID + ".html"))
	b.run(`(() => { const s = new CSSStyleSheet(); s.replaceSync("header.top nav { display: block !important }"); document.adoptedStyleSheets = [s] })()`)
	if !strings.Contains(b.print("A4", "with-navigation").Text, "Get ready") {
		t.Error("a printed navigation would not be seen")
	}
}

// All kinds of feet fit a few sheets of paper, with every reason and every source on them.
func TestPrintedFeet(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.open(onDisk("learn/foot-types.html"))
	print := b.print("A4", "learn/foot-types.html")
	if print.Pages > 13 {
		t.Errorf("the kinds of feet take %d pages of A4, want 13 or fewer", print.Pages)
	}
	// In the order of the page, for text stands beside the drawings; and without spaces
	// and hyphens, for a word or an address may go on in the next line.
	bare := strings.NewReplacer(" ", "", "\n", "", "\f", "", "-", "").Replace
	text := bare(string(run(t, "pdftotext", "-raw", print.file, "-")))
	for _, f := range lib.FootTypes {
		for _, r := range lib.Rows {
			if why := f.Cells[r.ID.S].Why.S; !strings.Contains(text, bare(why)) {
				t.Errorf("%s, %s: the reason %q is not printed", f.ID.S, r.ID.S, why)
			}
		}
	}
	for _, part := range []string{"Open the source", "Select a rating", "Get ready"} {
		if strings.Contains(text, bare(part)) {
			t.Errorf("%q is printed", part)
		}
	}
	addresses := eval[[]string](b, `Array.from(document.querySelectorAll(".sources .address"), (e) => e.href)`)
	if len(addresses) < 10 {
		t.Fatalf("the page has only %d addresses of sources", len(addresses))
	}
	for _, a := range addresses {
		if n := strings.Count(text, bare(a)); n != 1 {
			t.Errorf("%s is printed %d times, want once", a, n)
		}
	}
}
