package browsertest

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"

	"keelpath/builder/drawing"
	"keelpath/builder/figure"
)

func figurePage(id string) string { return "workbench/" + id + ".html" }

// figureText gives what a figure says, by the ids of its texts.
func (b *tab) figureText(id string) string {
	b.t.Helper()
	return oneLine(eval[string](b, fmt.Sprintf(`document.querySelector('.figure [data-says=%q]').textContent`, id)))
}

// settled waits until the next frame is drawn, and what is told has been told.
func (b *tab) settled() {
	b.t.Helper()
	b.run(`new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done))))`)
}

func (b *tab) told() string {
	b.t.Helper()
	return oneLine(eval[string](b, `document.querySelector('.figure [data-slot="status"]').textContent`))
}

// A figure is set by keys alone, and tells its result once a stop.
func TestFigureByKeyboard(t *testing.T) {
	everywhere(t, func(t *testing.T, address func(string) string) {
		t.Parallel()
		b := newTab(t)
		b.openPage(figurePage("heel-change"), address)
		b.tabTo("Other shoes: sole under the heel")
		b.run(`window.said = []; new MutationObserver(() => { const s = document.querySelector('.figure [data-slot="status"]').textContent; if (s) window.said.push(s); }).observe(document.querySelector('.figure [data-slot="status"]'), { childList: true, characterData: true, subtree: true })`)
		for range 10 {
			b.press("Up")
		}
		b.waitFor(`document.querySelector('.figure [data-slot="status"]').textContent !== ""`)
		if said := eval[[]string](b, `window.said`); len(said) != 1 {
			t.Errorf("ten steps up are told %d times: %q", len(said), said)
		}
		for _, want := range []string{"28 mm (1 1/8 in) higher", "forward", "to bend"} {
			if got := b.figureText("tips"); !strings.Contains(got, want) {
				t.Errorf("ten steps up, the figure says %q, want %q in it", got, want)
			}
			if told := oneLine(b.told()); !strings.Contains(told, want) {
				t.Errorf("ten steps up, it tells %q, want %q in it", told, want)
			}
		}
		if v := eval[string](b, `document.activeElement.getAttribute("aria-valuetext")`); v != "50 mm (2 in)" {
			t.Errorf("the slider says %q", v)
		}
		b.pressButton("Type a number, or set more") // the boxes are folded
		b.tabTo("Other shoes: sole under the heel")
		b.run(`document.activeElement.select()`)
		b.write("3/4 in")
		b.press("Tab")
		b.settled()
		if got := b.figureText("tips"); !strings.Contains(got, "lower at the heel") || !strings.Contains(got, " in (") {
			t.Errorf("with 3/4 in typed, the figure says %q", got)
		}
		b.run(`document.getElementById("heel-change-new-heel-typed").focus(); document.activeElement.select()`)
		b.write("three fingers")
		b.press("Tab")
		if no := eval[string](b, `document.getElementById("heel-change-new-heel-no").innerText`); !strings.Contains(no, "Enter a number between") {
			t.Errorf("what cannot be read is answered with %q", no)
		}
	})
}

// Every figure, at each look: the rules of axe; at 320 px, spaced wider, nothing is lost.
func TestFigureAccessible(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	for _, name := range append(figureNames(), "workbench/index.html", "learn/heel-height-measured.html", "learn/slopes-and-ramps.html") {
		b.openPage(name, onDisk)
		b.loadAxe()
		for _, l := range looks {
			b.size(l.width, l.height)
			b.media("prefers-color-scheme", l.scheme)
			for _, p := range b.axe().problems() {
				t.Errorf("%s at %s: %s", name, l.name, p)
			}
			keepPicture(t, "figure-"+name+"-"+l.name+".png", b.picture)
		}
		b.media("prefers-color-scheme", "light")
		b.size(320, 640)
		for _, wrong := range eval[[]string](b, layout) {
			t.Errorf("%s at 320 px: %s", name, wrong)
		}
		b.run(spacing)
		for _, wrong := range eval[[]string](b, layout) {
			t.Errorf("%s at 320 px, spaced: %s", name, wrong)
		}
		keepPicture(t, "figure-"+name+"-320-spaced.png", b.picture)
	}
}

func figureNames() []string {
	var out []string
	for _, f := range lib.Figures {
		out = append(out, figurePage(f.ID))
	}
	return out
}

// A drag redraws the drawing, says in the end what it says, and tells it once.
func TestFigureDrag(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.size(412, 900)
	for _, f := range lib.Figures {
		b.openPage(figurePage(f.ID), onDisk)
		first := eval[string](b, `document.querySelector(".figure-says").textContent`)
		b.drag(f.Drawing.Handles[0], 1)
		if now := eval[string](b, `document.querySelector(".figure-says").textContent`); now == first {
			t.Errorf("%s: the drag changed nothing", f.ID)
		}
		if told := b.told(); told == "" {
			t.Errorf("%s: the end of a drag is not told", f.ID)
		}
	}
}

// A drag is to be answered within one frame of 16 ms on a machine four times slower, at
// the width of a phone: the 95th percentile over 200 moves. It is measured and told, and
// not held: how long a thing takes is the machine's affair too. A move's time is how long the
// page's own thread works from the dispatch of the pointer's event until its redraw is
// committed: script, style, layout and paint, slowed four times by the browser.
//
// The thread's own time stands still while another program has the processor. But the
// browser slows by the clock: a pause that others make in a move is waited out three
// times more, by work that counts, and a shared processor is slower by itself. Against
// that the same 200 moves are done again, up to two rounds, and each move counts with
// its least time. Where others leave the processor no rest, even that is their load and
// not the page's work. Then the limit is held against four times the thread's own time at full
// speed, which no pause enters, again with each move at its least. Each round is
// told as it was. What hits
// a move only now and then, as clearing up of memory does, is told and not held.
func BenchmarkFigureDrag(bench *testing.B) {
	b := newTab(bench)
	b.size(412, 900)
	for range bench.N {
		for _, f := range lib.Figures {
			b.openPage(figurePage(f.ID), onDisk)
			p95 := b.dragLeast(f, "slowed 4 times", 4, 1, 2)
			if p95 > 16 {
				b.dragLeast(f, "4 times the time at full speed", 1, 4, 1)
			}
			bench.ReportMetric(p95, f.ID+"-ms")
		}
	}
}

// dragLeast does rounds of the same moves until 95 of 100 took 16 ms or less, each at
// its least, and gives their time.
func (b *tab) dragLeast(f *figure.Figure, how string, slower, times float64, rounds int) float64 {
	b.t.Helper()
	var least []float64
	p95 := math.Inf(1)
	for round := 1; round <= rounds && p95 > 16; round++ {
		b.openPage(figurePage(f.ID), onDisk) // from the start values, so no move meets a limit
		costs := b.drag(f.Drawing.Handles[0], slower)
		for i := range costs {
			costs[i] *= times
		}
		b.t.Logf("%s, %s, round %d: %.1f ms a move at 95 of 100, %.1f ms at 50, %d moves", f.ID, how, round, percentile(costs, 95), percentile(costs, 50), len(costs))
		switch {
		case len(costs) != drags: // some moves shared a frame, so which is which is not known
			continue
		case least == nil:
			least = costs
		default:
			for i, cost := range costs {
				least[i] = min(least[i], cost)
			}
		}
		p95 = percentile(least, 95)
	}
	b.t.Logf("%s, %s, each move at its least: %.1f ms at 95 of 100, %.1f ms at 50", f.ID, how, p95, percentile(least, 50))
	return p95
}

const drags = 200

func percentile(costs []float64, n int) float64 {
	if len(costs) == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(costs))
	return sorted[(len(sorted)*n+99)/100-1]
}

// drag moves a handle to and fro and gives how long the page took for each move, in
// ms, in their order. Each move changes the drawing.
func (b *tab) drag(h drawing.Handle, slower float64) []float64 {
	b.t.Helper()
	at := eval[struct{ X, Y float64 }](b, fmt.Sprintf(`(() => { const g = document.querySelector('[data-part=%q] .d-grip'); g.scrollIntoView({ block: "center" }); const r = g.getBoundingClientRect(); return { X: r.left + r.width / 2, Y: r.top + r.height / 2 } })()`, h.Part))
	mouse := func(kind input.DispatchMouseEventType, by float64) {
		if h.Right+h.Down < 0 || h.About != nil { // one about a point goes up as what it sets does
			by = -by
		}
		p := input.DispatchMouseEventParams{Type: kind, X: at.X, Y: at.Y + by, Button: input.MouseButtonLeft, Buttons: 1, ClickCount: 1}
		if h.Right != 0 {
			p.X, p.Y = at.X+by, at.Y
		}
		command(b, input.DispatchMouseEvent, p)
	}
	mouse(input.DispatchMouseEventTypeMousePressed, 0)
	b.settled()
	command(b, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: slower})
	b.startTrace()
	same, before := 0, ""
	for i := range drags {
		mouse(input.DispatchMouseEventTypeMouseMoved, sway(i))
		time.Sleep(30 * time.Millisecond)
		now := eval[string](b, `document.querySelector(".figure .bench").innerHTML`)
		if now == before {
			same++
		}
		before = now
	}
	costs := moves(b.endTrace())
	command(b, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: 1})
	mouse(input.DispatchMouseEventTypeMouseReleased, sway(drags-1))
	b.settled()
	b.settled()
	if same > drags*2/100 {
		b.t.Fatalf("%s: %d of %d moves left the drawing as it was", h.Part, same, drags)
	}
	return costs
}

// dragTo drags with the mouse from one place to another.
func (b *tab) dragTo(from, to [2]float64) {
	b.t.Helper()
	mouse := func(kind input.DispatchMouseEventType, at [2]float64) {
		command(b, input.DispatchMouseEvent, input.DispatchMouseEventParams{Type: kind, X: at[0], Y: at[1], Button: input.MouseButtonLeft, Buttons: 1, ClickCount: 1})
	}
	mouse(input.DispatchMouseEventTypeMousePressed, from)
	mouse(input.DispatchMouseEventTypeMouseMoved, to)
	mouse(input.DispatchMouseEventTypeMouseReleased, to)
	b.settled()
	b.settled()
}

// sway goes to and fro, a pixel a move; the start values leave more room above.
func sway(i int) float64 {
	if i %= 40; i > 20 {
		i = 40 - i
	}
	return float64(i) - 5
}

// moves gives how long the page's thread worked from the dispatch of each move of the
// pointer to the end of the task that draws it and commits the frame.
func moves(events []traceEvent) []float64 {
	slices.SortStableFunc(events, func(a, b traceEvent) int { return cmp.Compare(a.Ts, b.Ts) })
	at := slices.IndexFunc(events, func(e traceEvent) bool { return e.Name == "FireAnimationFrame" })
	if at < 0 {
		return nil
	}
	page := events[at]
	var out []float64
	var task, from traceEvent
	for _, e := range events {
		if e.Pid != page.Pid || e.Tid != page.Tid {
			continue
		}
		switch {
		case e.Name == "EventDispatch" && e.Args.Data.Type == "pointermove" && from.Name == "":
			from = e // of two moves in one frame the first
		case e.Name == "ThreadControllerImpl::RunTask":
			task = e
		case e.Name == "FireAnimationFrame" && from.Name != "":
			out = append(out, (task.Tts+task.Tdur-from.Tts)/1000)
			from = traceEvent{}
		}
	}
	return out
}

// Paper shows the figure as last set, without what only a screen can use.
func TestFigurePrinted(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPage(figurePage("slope"), onDisk)
	b.run(`document.querySelector('[data-slot="sets"]').open = true; document.getElementById("slope-steepness-typed").focus(); document.activeElement.select()`)
	b.write("1:8")
	b.press("Tab")
	b.settled()
	p := b.print("A4", "figure-slope")
	for _, want := range []string{"toes up 7.1°", "about 12.5 %, 7.1 degrees, or 1:8", "My slope is 1:8 (about 12.5 %, 7.1 degrees). How far does my ankle bend", "yours is steeper"} {
		if !strings.Contains(p.Text, want) {
			t.Errorf("%q is not printed", want)
		}
	}
	for _, no := range []string{"or type it", "Type a number", "Copy it", "Some slopes, and how far"} {
		if strings.Contains(p.Text, no) {
			t.Errorf("%q is printed with it", no)
		}
	}
}

// With no script a figure is its start and a worked table, and nothing that would not work.
func TestFigureScriptOff(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.scriptOff()
	for _, f := range lib.Figures {
		b.open(onDisk(figurePage(f.ID)))
		text := eval[string](b, `document.querySelector("main").innerText`)
		if !strings.Contains(text, f.Typical.Caption.S) || !strings.Contains(text, "A question to bring") {
			t.Errorf("%s shows no worked table, or no question: %s", f.ID, text)
		}
		for _, no := range []string{"or type it", "Type a number", "Copy it", "Put this question"} {
			if strings.Contains(text, no) {
				t.Errorf("%s with no script shows %q", f.ID, no)
			}
		}
		if n := eval[int](b, `Array.from(document.querySelectorAll(".figure input, .figure select, .d-grip")).filter((e) => e.getBoundingClientRect().width > 0).length`); n > 0 {
			t.Errorf("%s with no script shows %d things to set", f.ID, n)
		}
	}
}

// A question goes from a figure to the sheet, only when the reader says so, and
// nothing of it stays in the address.
func TestFigureQuestionToSheet(t *testing.T) {
	everywhere(t, func(t *testing.T, address func(string) string) {
		t.Parallel()
		b := newTab(t)
		b.openPage(figurePage("heel-change"), address)
		ask := b.figureText("prompt")
		b.tabTo("Put this question on my sheet")
		b.open(eval[string](b, `document.activeElement.href`))
		b.waitFor(`document.querySelector('#planner [data-slot="offer"]:not([hidden])') !== null`)
		if got := oneLine(eval[string](b, `document.querySelector('[data-slot="offered"]').innerText`)); got != ask {
			t.Errorf("the planner offers %q, want %q", got, ask)
		}
		if hash := eval[string](b, `location.hash`); hash != "" {
			t.Errorf("the address still holds %q", hash)
		}
		b.pressButton("Yes, put it on")
		b.waitFor(`document.querySelector("#planner .sheet") !== null`)
		s := b.look()
		if s.View != "sheet" || !slices.Equal(s.Sheet.Own, []string{ask}) {
			t.Errorf("the sheet is %q with %q", s.View, s.Sheet.Own)
		}
		for _, entry := range b.addresses() {
			if strings.Contains(entry, "own=") {
				t.Errorf("the history holds %s", entry)
			}
		}
	})
	t.Run("as text", func(t *testing.T) {
		t.Parallel()
		b := newTab(t)
		b.open(onDisk(plannerName) + "#own=%3Cimg%20src%3Dx%20onerror%3Dalert(1)%3E" + strings.Repeat("%41", 472))
		b.waitFor(`document.querySelector('#planner [data-slot="offer"]:not([hidden])') !== null`)
		text := eval[string](b, `document.querySelector('[data-slot="offered"]').textContent`)
		if !strings.HasPrefix(text, "<img src=x") || len(text) != 500 || eval[int](b, `document.querySelectorAll(".offer img").length`) != 0 {
			t.Errorf("the planner offers %q", text)
		}
		b.pressButton("No, leave it")
		if s := b.look(); s.View != "topics" || slices.Contains(s.Buttons, "Yes, put it on") {
			t.Errorf("left alone, the offer is still there: %q", s.Buttons)
		}
		b.open("about:blank")
		b.open(onDisk(plannerName) + "#own=" + strings.Repeat("%41", 501))
		b.waitFor(`document.querySelector('#planner [data-slot="status"]')?.textContent.includes("too long")`)
		if s := b.look(); slices.Contains(s.Buttons, "Yes, put it on") || !strings.Contains(s.Status, "too long for the sheet") {
			t.Errorf("a question of 501 characters is offered, cut: %q, said %q", s.Buttons, s.Status)
		}
		b.open("about:blank")
		b.open(onDisk(plannerName) + "#own=%E0%A4%A")
		b.waitFor(`document.querySelector("#planner:not([hidden])") !== null`)
		if eval[bool](b, `document.querySelector('[data-slot="offer"]:not([hidden])') !== null`) {
			t.Error("what cannot be read is offered")
		}
	})
}

// In the planner a figure stands closed below the amount it helps with.
func TestFigureInPlanner(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	b.at("heel-height", witness(lib.Tree("heel-height"), "usual"))
	if eval[int](b, `document.querySelectorAll("#planner .figure").length`) != 0 {
		t.Error("the figure is made before it is opened")
	}
	b.run(`document.querySelector("#planner .see summary").click()`)
	b.waitFor(`document.querySelector("#planner .figure-live") !== null`)
	b.size(360, 640)
	b.run(`document.querySelector("#planner .see").scrollIntoView()`)
	keepPicture(t, "bench-planner-360.png", b.picture)
	if tall := eval[float64](b, `(() => { const at = (s) => document.querySelector("#planner " + s).getBoundingClientRect(); return at(".figure-says").bottom - at(".bench").top; })()`); tall > 640 {
		t.Errorf("in the planner the bench takes %.0f px from its drawing to its results", tall)
	}
	b.sizeWhole(480, 400)
	b.loadAxe()
	for _, p := range b.axe().problems() {
		t.Error(p)
	}
	b.size(320, 640)
	for _, wrong := range eval[[]string](b, layout) {
		t.Errorf("at 320 px: %s", wrong)
	}
	b.hand(`write(planner.querySelector(".entry input"), "1/2 in")`)
	b.run(`const heel = document.querySelector('#planner .figure [data-slider="new-heel"]'); heel.value = "50"; for (const e of ["input", "change"]) heel.dispatchEvent(new Event(e, { bubbles: true }))`)
	b.settled()
	ask := b.figureText("prompt")
	if !strings.Contains(ask, "1 in (25.3 mm) more") { // 50 less 12, less half an inch
		t.Errorf("the figure asks %q", ask)
	}
	b.pressButton("Put this question on my sheet")
	if got := b.tap("bar-sheet").Sheet.Own; !slices.Equal(got, []string{ask}) {
		t.Errorf("own questions: %q, want %q", got, ask)
	}
}
