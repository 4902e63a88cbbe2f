package browsertest

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// benchView is how a figure stands in the window: places in px from its top.
type benchView struct {
	Drawing, Grip, Step, Results []float64 // top and bottom
	Lines                        []int     // of text, of each result
	Open                         int       // sentences in view that are neither result nor warning
}

const benchScript = `(() => {
	const root = document.querySelector(".figure");
	const box = (e) => { const r = e.getBoundingClientRect(); return [r.top, r.bottom]; };
	const seen = (sel) => Array.from(root.querySelectorAll(sel)).filter((e) => e.checkVisibility() && e.getBoundingClientRect().height > 0);
	const results = seen(".figure-says p:not(.warns)");
	const lines = (p) => { const r = document.createRange(); r.selectNodeContents(p); return new Set(Array.from(r.getClientRects(), (c) => Math.round(c.top))).size; };
	return {
		Drawing: box(root.querySelector(".bench")),
		Grip: box(seen(".d-grip")[0]),
		Step: box(seen(".step").pop()),
		Results: [box(results[0])[0], box(results[results.length - 1])[1]],
		Lines: results.map(lines),
		Open: seen("p[data-says]").filter((p) => !p.closest(".figure-says") && !p.classList.contains("ask")).length,
	};
})()`

// The bar of a bench: at 360 by 640 the drawing, its handle, - and +, and both lines of result are in
// one view, with nothing scrolled; the results are two lines at most, and all else is folded.
func TestBenchInOneView(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.size(360, 640)
	for _, f := range lib.Figures {
		b.openPage(figurePage(f.ID), onDisk)
		b.waitFor(`document.querySelector(".figure-live") !== null`)
		v := eval[benchView](b, benchScript)
		t.Logf("%s: drawing %.0f to %.0f, steps end at %.0f, results at %.0f", f.ID, v.Drawing[0], v.Drawing[1], v.Step[1], v.Results[1])
		for name, at := range map[string][]float64{"drawing": v.Drawing, "handle": v.Grip, "last step": v.Step, "results": v.Results} {
			if at[0] < 0 || at[1] > 640 {
				t.Errorf("%s: the %s is at %.0f to %.0f", f.ID, name, at[0], at[1])
			}
		}
		if len(v.Lines) > 2 {
			t.Errorf("%s has %d results", f.ID, len(v.Lines))
		}
		for i, n := range v.Lines {
			if n != 1 {
				t.Errorf("%s: result %d takes %d lines", f.ID, i+1, n)
			}
		}
		if v.Open > 0 {
			t.Errorf("%s: %d sentences are not folded", f.ID, v.Open)
		}
		keepPicture(t, "bench-"+f.ID+"-360.png", b.picture)
	}
}

// In an explainer the bench is as small: from the top of its drawing to the end of its results it
// takes no more than a view of 640 px, at the page's own settings.
func TestBenchInExplainers(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.size(360, 640)
	for _, name := range []string{"learn/heel-height-measured.html", "learn/slopes-and-ramps.html", "learn/foot-shell.html", "learn/weight-and-loads.html"} {
		b.openPage(name, onDisk)
		b.waitFor(`document.querySelector(".figure-live") !== null`)
		v := eval[benchView](b, benchScript)
		if tall := v.Results[1] - v.Drawing[0]; tall > 640 || len(v.Lines) > 2 {
			t.Errorf("%s: the bench takes %.0f px, with %d results", name, tall, len(v.Lines))
		}
	}
}

// + and - go by one step each, by touch and by key, move the drawing, and are told once.
func TestBenchSteps(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.size(360, 640)
	for _, f := range lib.Figures {
		b.openPage(figurePage(f.ID), onDisk)
		b.waitFor(`document.querySelector(".figure-live") !== null`)
		for _, in := range f.Inputs {
			step := fmt.Sprintf(`.step[data-step=%q]`, in.ID.S)
			if in.Hand.S == "" || !eval[bool](b, fmt.Sprintf(`document.querySelector('%s').checkVisibility()`, step)) {
				continue
			}
			state := func() [2]string {
				return eval[[2]string](b, fmt.Sprintf(`[document.querySelector(".figure .bench").innerHTML, document.querySelector('%s b').textContent]`, step))
			}
			before := state()
			b.run(fmt.Sprintf(`document.querySelector('%s [data-by="1"]').click()`, step))
			b.settled()
			up := state()
			if up[0] == before[0] || up[1] == before[1] {
				t.Errorf("%s: + of %s leaves the drawing, or its amount of %q", f.ID, in.ID.S, before[1])
			}
			b.waitFor(`document.querySelector('.figure [data-slot="status"]').textContent !== ""`)
			b.run(fmt.Sprintf(`document.querySelector('%s [data-by="-1"]').focus()`, step))
			b.press("Enter")
			b.settled()
			if down := state(); down[0] == up[0] {
				t.Errorf("%s: - of %s leaves the drawing", f.ID, in.ID.S)
			}
		}
	}
}

// set types an amount into a folded box.
func (b *tab) setAmount(figure, input, text string) {
	b.t.Helper()
	b.run(fmt.Sprintf(`(() => { const box = document.getElementById("%s-%s-typed"); box.value = %q; box.dispatchEvent(new Event("change", { bubbles: true })); })()`, figure, input, text))
	b.settled()
}

// angleOf is the turn of a part on the screen, in degrees, clockwise, whatever groups it is in.
func (b *tab) angleOf(part string) float64 {
	b.t.Helper()
	return eval[float64](b, fmt.Sprintf(`(() => { const m = document.querySelector('[data-part=%q]').getScreenCTM(); return Math.atan2(m.b, m.a) * 180 / Math.PI; })()`, part))
}

// spanOf is the length in the drawing's units between the ends of a path that is a part, across and down.
func (b *tab) spanOf(part string) [2]float64 {
	b.t.Helper()
	return eval[[2]float64](b, fmt.Sprintf(`(() => { const r = document.querySelector('[data-part=%q]').getBBox(); return [r.width, r.height]; })()`, part))
}

// What the drawings show is measured on the screen and held against sums made here, from the inputs
// alone: the angle of a slope is the arc tangent of its ratio (the ratios are those of the US rules for
// walkways and ramps, 2010); a leg tips by the arc tangent of the change over 0.74 to 0.6 of the foot's length
// (ball length over foot length: US Army body measures, 2012; the short lever: common practice, no source); lengths
// and loads are straight sums.
func TestBenchIsTrue(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.size(360, 640)
	degrees := func(ratio float64) float64 { return math.Atan(ratio) * 180 / math.Pi }
	near := func(what string, got, want, by float64) {
		t.Helper()
		if math.Abs(got-want) > by {
			t.Errorf("%s is drawn %.3f, want %.3f", what, got, want)
		}
	}
	live := func(id string) {
		b.openPage(figurePage(id), onDisk)
		b.waitFor(`document.querySelector(".figure-live") !== null`)
	}

	live("slope")
	for text, ratio := range map[string]float64{"1:20": 1.0 / 20, "1:12": 1.0 / 12, "1:8": 1.0 / 8, "20 %": 0.2, "45 deg": 1} {
		b.setAmount("slope", "steepness", text)
		want := degrees(ratio)
		near(text+": the ground", b.angleOf("ground"), -want, 0.02)
		near(text+": the foot that faces up", b.angleOf("up-foot"), -want, 0.02)
		near(text+": the leg that faces up", b.angleOf("up-leg"), 0, 0.001)
		// The other one is mirrored, so its own turn reads from the other side.
		down := math.Mod(b.angleOf("down-foot")+360, 180)
		near(text+": the foot that faces down", math.Min(down, 180-down), want, 0.02)
		over := eval[[2]float64](b, `(() => {
			const s = document.querySelector(".bench").getScreenCTM();
			const p = document.querySelector('[data-part="slope-handle"]').getScreenCTM();
			return [(p.e - s.e) / s.a, (p.f - s.f) / s.d];
		})()`)
		near(text+": the handle", degrees((194-over[1])/(over[0]-312)), want, 0.05)
	}
	// The published limits go through the point about which the ground turns, at their own angles.
	lines := eval[[]float64](b, `Array.from(document.querySelectorAll(".limits > g"), (g) => { const m = g.getScreenCTM(); return -Math.atan2(m.b, m.a) * 180 / Math.PI; })`)
	want := []float64{degrees(1.0 / 20), degrees(1.0 / 12), degrees(1.0 / 8), degrees(0.2)}
	if len(lines) != len(want) {
		t.Fatalf("%d limits are lines, want %d", len(lines), len(want))
	}
	for i := range want {
		near("a limit", lines[i], want[i], 0.02)
	}

	live("heel-change")
	for _, c := range []struct{ heel, ball, usualHeel, usualBall, foot float64 }{{40, 12, 22, 12, 260}, {60, 10, 22, 12, 240}, {12, 12, 22, 12, 300}, {22, 12, 22, 12, 260}} {
		for id, x := range map[string]float64{"new-heel": c.heel, "new-ball": c.ball, "usual-heel": c.usualHeel, "usual-ball": c.usualBall, "length": c.foot} {
			b.setAmount("heel-change", id, fmt.Sprintf("%g mm", x))
		}
		change := (c.heel - c.ball) - (c.usualHeel - c.usualBall)
		who := fmt.Sprintf("%g mm on %g mm", change, c.foot)
		near(who+": the leg", b.angleOf("other-leg"), degrees(change/(0.74*c.foot)), 0.03)
		near(who+": the line of the least", b.angleOf("least"), degrees(change/(0.74*c.foot)), 0.03)
		near(who+": the line of the most", b.angleOf("most"), degrees(change/(0.6*c.foot)), 0.03)
		near(who+": the leg in the usual shoes", b.angleOf("usual-leg"), 0, 0.02)
		near(who+": the heel by the ball", b.spanOf("heel-size")[1]/b.spanOf("ball-size")[1], c.heel/c.ball, 0.01)
	}

	live("foot-and-shoe")
	for inside, long := range map[float64]float64{276: 270, 248: 240, 300: 300} {
		b.setAmount("foot-and-shoe", "inside", fmt.Sprintf("%g mm", inside))
		const perMM = 0.82
		near(fmt.Sprintf("%g mm: the room at the toe", inside), b.spanOf("toe-room")[0]/perMM, inside-long, 0.05)
	}

	live("load")
	for _, c := range [][4]float64{{80, 8, 0, 0}, {95, 10, 15, 20}, {140, 24, 0, 12}} {
		for i, id := range []string{"body", "pack", "child", "tools"} {
			b.setAmount("load", id, fmt.Sprintf("%g kg", c[i]))
		}
		body := b.spanOf("body-box")[1]
		near(fmt.Sprintf("%v: the pack by the body", c), b.spanOf("pack-box")[1]/body, c[1]/c[0], 0.002)
		if c[3] > 0 {
			near(fmt.Sprintf("%v: the tools by the body", c), b.spanOf("tools-box")[1]/body, c[3]/c[0], 0.002)
		}
	}

	live("room-under-the-socket")
	for _, c := range [][3]float64{{260, 120, 40}, {400, 120, 40}, {300, 180, 30}} {
		for i, id := range []string{"room", "build", "parts"} {
			b.setAmount("room-under-the-socket", id, fmt.Sprintf("%g mm", c[i]))
		}
		for part, mm := range map[string]float64{"build-bar": c[1], "left-bar": c[0] - c[1] - c[2], "parts-bar": c[2], "room-size": c[0], "build-size": c[1]} {
			near(fmt.Sprintf("%v: %s", c, part), b.spanOf(part)[1]/0.5, mm, 0.05)
		}
	}
}

// A handle that goes about a point keeps the ground under the finger: where the pointer is, there is the ground.
func TestBenchFollowsTheFinger(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.size(360, 640)
	b.openPage(figurePage("slope"), onDisk)
	b.waitFor(`document.querySelector(".figure-live") !== null`)
	at := eval[[2]float64](b, `(() => { const r = document.querySelector(".d-grip").getBoundingClientRect(); return [r.left + r.width / 2, r.top + r.height / 2]; })()`)
	point := eval[[2]float64](b, `(() => { const m = document.querySelector(".bench").getScreenCTM(); return [312 * m.a + m.e, 194 * m.d + m.f]; })()`)
	b.dragTo(at, [2]float64{at[0], at[1] - 60})
	want := (point[1] - at[1] + 60) / (at[0] - point[0]) * 100
	if got := b.figureText("slope-is"); !strings.Contains(got, fmt.Sprintf("about %.1f %%", want)) {
		t.Errorf("60 px up, the figure says %q, want %.1f %%", got, want)
	}
}
