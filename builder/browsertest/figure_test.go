package browsertest

import (
	"cmp"
	"fmt"
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
		for range 10 {
			b.press("Up")
		}
		b.settled()
		for _, want := range []string{"28 mm (1 1/8 in) higher", "forward", "to bend"} {
			if got := b.figureText("tips"); !strings.Contains(got, want) {
				t.Errorf("ten steps up, the figure says %q, want %q in it", got, want)
			}
			if told := b.told(); !strings.Contains(told, want) {
				t.Errorf("ten steps up, it tells %q, want %q in it", told, want)
			}
		}
		if v := eval[string](b, `document.activeElement.getAttribute("aria-valuetext")`); v != "50 mm (2 in)" {
			t.Errorf("the slider says %q", v)
		}
		b.press("Tab") // to the field beside it
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
	for _, id := range figure.IDs() {
		out = append(out, figurePage(id))
	}
	return out
}

// A drag is answered within one frame of 16 ms on a machine four times slower, at
// the width of a phone: the 95th percentile over 200 moves. What counts is the time
// for which the page's own thread works on a frame: the pointer's event, script,
// style, layout and paint. The browser's own slowing down counts by the clock, so what
// else runs on this machine counts four times; that number is told and not held to the
// limit. Held to it is the thread's time at full speed, times four, in the best of
// a few rounds.
func TestFigureDrag(t *testing.T) {
	b := newTab(t)
	b.size(412, 900)
	for _, f := range figure.All {
		b.openPage(figurePage(f.ID), onDisk)
		first := eval[string](b, `document.querySelector(".figure-says").textContent`)
		slowed := b.drag(f.Drawing.Handles[0], 4)
		t.Logf("%s, slowed 4 times: %.1f ms a frame at 95 of 100, %.1f ms at 50", f.ID, slowed[len(slowed)*95/100], slowed[len(slowed)/2])
		best := 1e9
		for round := 0; round < 4 && best > 16; round++ {
			full := b.drag(f.Drawing.Handles[0], 1)
			if len(full) < 190 {
				t.Fatalf("%s: 200 moves were drawn in only %d frames", f.ID, len(full))
			}
			p95 := 4 * full[len(full)*95/100]
			t.Logf("%s, 4 times the thread's time at full speed: %.1f ms a frame at 95 of 100, %.1f ms at 50, %d frames", f.ID, p95, 4*full[len(full)/2], len(full))
			best = min(best, p95)
		}
		if best > 16 {
			t.Errorf("%s: a move takes %.1f ms at 95 of 100, want at most 16", f.ID, best)
		}
		if now := eval[string](b, `document.querySelector(".figure-says").textContent`); now == first {
			t.Errorf("%s: the drag changed nothing", f.ID)
		}
		if told := b.told(); told == "" {
			t.Errorf("%s: the end of a drag is not told", f.ID)
		}
	}
}

// drag moves a handle to and fro 200 times and gives how long the page worked for
// each frame, in ms, the shortest first.
func (b *tab) drag(h drawing.Handle, slower float64) []float64 {
	b.t.Helper()
	command(b, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: slower})
	at := eval[struct{ X, Y float64 }](b, fmt.Sprintf(`(() => { const g = document.querySelector('[data-part=%q] .d-grip'); g.scrollIntoView({ block: "center" }); const r = g.getBoundingClientRect(); return { X: r.left + r.width / 2, Y: r.top + r.height / 2 } })()`, h.Part))
	mouse := func(kind input.DispatchMouseEventType, by float64) {
		p := input.DispatchMouseEventParams{Type: kind, X: at.X, Y: at.Y + by, Button: input.MouseButtonLeft, Buttons: 1, ClickCount: 1}
		if h.Right != 0 {
			p.X, p.Y = at.X+by, at.Y
		}
		command(b, input.DispatchMouseEvent, p)
	}
	mouse(input.DispatchMouseEventTypeMousePressed, 0)
	b.settled()
	b.startTrace()
	for i := range 200 {
		mouse(input.DispatchMouseEventTypeMouseMoved, float64(i%40)-20)
		time.Sleep(20 * time.Millisecond)
	}
	costs := frames(b.endTrace())
	slices.Sort(costs)
	mouse(input.DispatchMouseEventTypeMouseReleased, -15)
	command(b, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: 1})
	b.settled()
	b.settled()
	return costs
}

// frames gives the thread time of each task of the page that drew an own frame.
func frames(events []traceEvent) []float64 {
	var tasks, drawn []traceEvent
	for _, e := range events {
		switch e.Name {
		case "FireAnimationFrame":
			drawn = append(drawn, e)
		case "ThreadControllerImpl::RunTask", "RunTask":
			tasks = append(tasks, e)
		}
	}
	slices.SortFunc(tasks, func(a, b traceEvent) int { return cmp.Compare(a.Ts, b.Ts) })
	var out []float64
	for _, task := range tasks {
		if slices.ContainsFunc(drawn, func(d traceEvent) bool {
			return d.Tid == task.Tid && d.Pid == task.Pid && d.Ts >= task.Ts && d.Ts < task.Ts+task.Dur
		}) {
			out = append(out, task.Tdur/1000)
		}
	}
	return out
}

// Paper shows the figure as last set, without what only a screen can use.
func TestFigurePrinted(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPage(figurePage("slope"), onDisk)
	b.run(`document.getElementById("slope-steepness-typed").focus(); document.activeElement.select()`)
	b.write("1:8")
	b.press("Tab")
	b.settled()
	p := b.print("A4", "figure-slope")
	for _, want := range []string{"toe up 7.1°", "about 12.5 %, 7.1 degrees, or 1 in 8", "My slope is about 12.5 %", "yours is steeper"} {
		if !strings.Contains(p.Text, want) {
			t.Errorf("%q is not printed", want)
		}
	}
	for _, no := range []string{"or type it", "Copy it", "Some slopes, and how far"} {
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
	for _, f := range figure.All {
		b.open(onDisk(figurePage(f.ID)))
		text := eval[string](b, `document.querySelector("main").innerText`)
		if !strings.Contains(text, f.Typical.Caption) || !strings.Contains(text, "A question to bring") {
			t.Errorf("%s shows no worked table, or no question: %s", f.ID, text)
		}
		for _, no := range []string{"or type it", "Copy it", "Put this question"} {
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
		b.open(onDisk(plannerName) + "#own=%3Cimg%20src%3Dx%20onerror%3Dalert(1)%3E" + strings.Repeat("%41", 400))
		b.waitFor(`document.querySelector('#planner [data-slot="offer"]:not([hidden])') !== null`)
		text := eval[string](b, `document.querySelector('[data-slot="offered"]').textContent`)
		if !strings.HasPrefix(text, "<img src=x") || len(text) != 300 || eval[int](b, `document.querySelectorAll(".offer img").length`) != 0 {
			t.Errorf("the planner offers %q", text)
		}
		b.pressButton("No, leave it")
		if s := b.look(); s.View != "topics" || slices.Contains(s.Buttons, "Yes, put it on") {
			t.Errorf("left alone, the offer is still there: %q", s.Buttons)
		}
		b.open("about:blank")
		b.open(onDisk(plannerName) + "#own=%E0%A4%A")
		b.waitFor(`document.querySelector("#planner:not([hidden])") !== null`)
		if eval[bool](b, `document.querySelector('[data-slot="offer"]').hidden`) == false {
			t.Error("what cannot be read is offered")
		}
	})
}

// In the planner a figure stands closed below the amount it helps with.
func TestFigureInPlanner(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	b.choose("heel-height")
	b.choose("no")
	b.choose("none")
	s := b.choose("day")
	if s.Entry == "" {
		t.Fatalf("not at an amount: %+v", s)
	}
	if eval[int](b, `document.querySelectorAll("#planner .figure").length`) != 0 {
		t.Error("the figure is made before it is opened")
	}
	b.run(`document.querySelector("#planner .see summary").click()`)
	b.waitFor(`document.querySelector("#planner .figure-live") !== null`)
	b.loadAxe()
	for _, p := range b.axe().problems() {
		t.Error(p)
	}
	b.size(320, 640)
	for _, wrong := range eval[[]string](b, layout) {
		t.Errorf("at 320 px: %s", wrong)
	}
	ask := b.figureText("prompt")
	b.run(`document.querySelector('#planner .figure [data-act="own"]').click()`)
	b.run(`document.querySelector('[data-act="bar-sheet"]').click()`)
	if got := b.look().Sheet.Own; !slices.Equal(got, []string{ask}) {
		t.Errorf("own questions: %q, want %q", got, ask)
	}
}
