package browsertest

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"os"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/cdproto/tracing"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// All of chromedp stands in this file. The rest of the package knows tabs.

// browser is the one browser of the run; startBrowser sets it.
var browser context.Context

// chromium finds the browser. Debian's command is a wrapper in sh; the binary
// beside it starts cleaner.
func chromium() (string, error) {
	if bin := os.Getenv("KEELPATH_CHROMIUM"); bin != "" {
		if _, err := os.Stat(bin); err != nil {
			return "", fmt.Errorf("KEELPATH_CHROMIUM names no browser: %w", err)
		}
		return bin, nil
	}
	const beside = "/usr/lib/chromium/chromium"
	if _, err := os.Stat(beside); err == nil {
		return beside, nil
	}
	if bin, err := exec.LookPath("chromium"); err == nil {
		return bin, nil
	}
	return "", errors.New("these tests need a browser: install Debian's package chromium, run `bash .ci/test`, or name a Chromium in KEELPATH_CHROMIUM")
}

// startBrowser starts it with its profile in dir. No name but this machine's own can
// be looked up, so a page cannot reach anything else even if it tries.
func startBrowser(dir string) (stop func(), err error) {
	bin, err := chromium()
	if err != nil {
		return nil, err
	}
	options := append(slices.Clone(chromedp.DefaultExecAllocatorOptions[:]),
		chromedp.ExecPath(bin), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.UserDataDir(dir),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-quic", true), chromedp.Flag("hide-scrollbars", true),
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND , EXCLUDE 127.0.0.1"),
	)
	all, endAll := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, end := chromedp.NewContext(all)
	if err := chromedp.Do(ctx); err != nil {
		end()
		endAll()
		return nil, fmt.Errorf("%s does not start: %w", bin, err)
	}
	browser = ctx
	return func() {
		_ = chromedp.Cancel(ctx) // it waits until the browser has let go of its profile
		endAll()
	}, nil
}

// A tab is one page in a browser with nothing stored. When the test ends, it is an
// error if the page's script failed or the page broke its own content policy.
type tab struct {
	t   testing.TB
	ctx context.Context

	mu       sync.Mutex
	asked    []string // addresses that the page asked for
	troubles []string // what the browser complained of
	trace    []traceEvent
	traced   chan struct{}
}

// A traceEvent is a piece of work as the browser notes it; times in microseconds:
// Ts and Dur by the clock, Tts and Tdur by the thread's own time, in which it works.
type traceEvent struct {
	Name      string
	Pid, Tid  int
	Ts, Dur   float64
	Tts, Tdur float64
	Args      struct{ Data struct{ Type string } }
}

// startTrace notes what the page's threads do, until endTrace.
func (b *tab) startTrace() {
	b.t.Helper()
	b.trace, b.traced = nil, make(chan struct{})
	command(b, tracing.Start, tracing.StartParams{TraceConfig: &tracing.TraceConfig{IncludedCategories: []string{"toplevel", "devtools.timeline"}}})
}

func (b *tab) endTrace() []traceEvent {
	b.t.Helper()
	command(b, tracing.End, cdp.Empty{})
	select {
	case <-b.traced:
	case <-time.After(30 * time.Second):
		b.t.Fatal("the browser does not end its trace")
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.trace
}

func newTab(t testing.TB) *tab {
	t.Helper()
	ctx, end := chromedp.NewContext(browser, chromedp.WithNewBrowserContext())
	b := &tab{t: t, ctx: ctx}
	t.Cleanup(func() {
		end()
		slices.Sort(b.troubles)
		for _, trouble := range slices.Compact(b.troubles) {
			t.Errorf("the browser complains: %s", trouble)
		}
	})
	b.must(chromedp.Do(ctx))
	b.must(chromedp.Listen(ctx, b.heard))
	command(b, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true})
	b.size(480, 400) // little to paint; tests for the eye set their own
	return b
}

func (b *tab) heard(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		b.asked = append(b.asked, e.Request.URL)
	case *tracing.EventDataCollected:
		for _, v := range e.Value {
			var one traceEvent
			if json.Unmarshal(v, &one) == nil || one.Name != "" { // other events have other arguments
				b.trace = append(b.trace, one)
			}
		}
	case *tracing.EventTracingComplete:
		close(b.traced)
	case *network.EventWebSocketCreated:
		b.asked = append(b.asked, e.URL)
	case *runtime.EventExceptionThrown:
		text := e.ExceptionDetails.Text
		if e.ExceptionDetails.Exception != nil {
			text += " " + e.ExceptionDetails.Exception.Description
		}
		b.troubles = append(b.troubles, text)
	case *log.EventEntryAdded:
		// A browser looks for a site's icon by itself, and there is none.
		if (e.Entry.Level == log.EntryLevelError || e.Entry.Level == log.EntryLevelWarning) && !strings.HasSuffix(e.Entry.URL, "/favicon.ico") {
			b.troubles = append(b.troubles, e.Entry.Text+" "+e.Entry.URL)
		}
	}
}

// requests gives the addresses asked for so far.
func (b *tab) requests() []string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return slices.Clone(b.asked)
}

// forgive gives what the browser complained of so far and forgets it: for pages
// that were broken on purpose.
func (b *tab) forgive() []string {
	b.mu.Lock()
	defer b.mu.Unlock()
	out := b.troubles
	b.troubles = nil
	return out
}

func (b *tab) must(err error) {
	b.t.Helper()
	if err != nil {
		b.t.Fatal(err)
	}
}

// limit keeps one step from hanging the whole run.
func (b *tab) limit() (context.Context, context.CancelFunc) {
	return context.WithTimeout(b.ctx, 60*time.Second)
}

func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	ctx, end := b.limit()
	defer end()
	b.must(chromedp.Do(ctx, steps...))
}

func (b *tab) open(address string) {
	b.t.Helper()
	b.do(chromedp.Navigate(address))
}

// eval looks at the page with a script of the test's own; promises are waited for.
func eval[T any](b *tab, script string) T {
	b.t.Helper()
	ctx, end := b.limit()
	defer end()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	b.must(err)
	return v
}

func (b *tab) run(script string) {
	b.t.Helper()
	b.do(chromedp.Evaluate[chromedp.Void](script, chromedp.EvalAwaitPromise))
}

// atStart runs a script in each page before the page's own.
func (b *tab) atStart(script string) {
	b.t.Helper()
	command(b, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
}

// waitFor waits until an expression is true.
func (b *tab) waitFor(script string) {
	b.t.Helper()
	ctx, end := b.limit()
	defer end()
	for {
		_, err := chromedp.Run(ctx, chromedp.Poll[bool](script, chromedp.WithPollingInterval(5*time.Millisecond), chromedp.WithPollingTimeout(10*time.Second)))
		if err == nil {
			return
		}
		gone := func(says string) bool { return strings.Contains(err.Error(), says) } // the page gave way to another meanwhile
		if ctx.Err() != nil || !gone("Cannot find context") && !gone("Inspected target navigated") {
			b.t.Fatalf("waiting for %s: %v", script, err)
		}
	}
}

// Keys by the names that people use.
var keys = map[string]string{"Tab": kb.Tab, "Space": " ", "Enter": kb.Enter, "Down": kb.ArrowDown, "Up": kb.ArrowUp}

func (b *tab) press(names ...string) {
	b.t.Helper()
	for _, name := range names {
		key, ok := keys[name]
		if !ok {
			b.t.Fatalf("no key %q", name)
		}
		b.do(chromedp.KeyEvent(key))
	}
}

func (b *tab) write(text string) {
	b.t.Helper()
	b.do(chromedp.KeyEvent(text))
}

// tapAt presses and lets go, as a finger or a mouse does.
func (b *tab) tapAt(x, y float64) {
	b.t.Helper()
	for _, kind := range []input.DispatchMouseEventType{input.DispatchMouseEventTypeMousePressed, input.DispatchMouseEventTypeMouseReleased} {
		command(b, input.DispatchMouseEvent, input.DispatchMouseEventParams{Type: kind, X: x, Y: y, Button: input.MouseButtonLeft, ClickCount: 1})
	}
}

// back and forward are the browser's own buttons.
func (b *tab) back() { b.t.Helper(); b.step(-1) }

func (b *tab) forward() { b.t.Helper(); b.step(1) }

func (b *tab) step(by int64) {
	b.t.Helper()
	ctx, end := b.limit()
	defer end()
	h, err := chromedp.Run(ctx, chromedp.NavigationEntries())
	b.must(err)
	at := h.CurrentIndex + by
	if at < 0 || at >= int64(len(h.Entries)) {
		b.t.Fatalf("the browser has no page there: %d of %d", at, len(h.Entries))
	}
	command(b, page.NavigateToHistoryEntry, page.NavigateToHistoryEntryParams{EntryID: h.Entries[at].ID})
}

// addresses gives all entries of the browser's history, which others may look at.
func (b *tab) addresses() []string {
	b.t.Helper()
	ctx, end := b.limit()
	defer end()
	h, err := chromedp.Run(ctx, chromedp.NavigationEntries())
	b.must(err)
	var out []string
	for _, e := range h.Entries {
		out = append(out, e.URL+" "+e.Title)
	}
	return out
}

func (b *tab) size(width, height int64) {
	b.t.Helper()
	command(b, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: width, Height: height, DeviceScaleFactor: 1})
}

// media sets features such as "prefers-color-scheme", "dark", in pairs.
func (b *tab) media(pairs ...string) {
	b.t.Helper()
	var features []*emulation.MediaFeature
	for i := 0; i < len(pairs); i += 2 {
		features = append(features, &emulation.MediaFeature{Name: pairs[i], Value: pairs[i+1]})
	}
	command(b, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: features})
}

// scriptOff switches off the page's script, from the next page on; eval still works.
func (b *tab) scriptOff() {
	b.t.Helper()
	command(b, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
}

// Papers by name.
var papers = map[string]chromedp.PaperSize{"A4": chromedp.PaperA4, "Letter": chromedp.PaperLetter}

// pdf prints the page as the reader's own print dialog would.
func (b *tab) pdf(paper string) []byte {
	b.t.Helper()
	ctx, end := b.limit()
	defer end()
	data, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(papers[paper]), chromedp.PDFPreferCSSPageSize()))
	b.must(err)
	return data
}

// picture takes the whole page, also what one would scroll to.
func (b *tab) picture() []byte {
	b.t.Helper()
	whole := true
	return command(b, page.CaptureScreenshot, page.CaptureScreenshotParams{CaptureBeyondViewport: &whole}).Data
}

// A box is a part of the page, in its pixels from the top left.
type box struct{ X, Y, Width, Height float64 }

// pixels takes a part of what is on the screen.
func (b *tab) pixels(at box) *image.RGBA {
	b.t.Helper()
	fast := true
	res := command(b, page.CaptureScreenshot, page.CaptureScreenshotParams{
		OptimizeForSpeed: &fast, Clip: &page.Viewport{X: at.X, Y: at.Y, Width: at.Width, Height: at.Height, Scale: 1},
	})
	m, err := png.Decode(bytes.NewReader(res.Data))
	b.must(err)
	out := image.NewRGBA(m.Bounds())
	draw.Draw(out, m.Bounds(), m, m.Bounds().Min, draw.Src)
	return out
}

// command sends one command of the browser's protocol.
func command[P, R any](b *tab, cmd cdp.Command[P, R], params P) R {
	b.t.Helper()
	ctx, end := b.limit()
	defer end()
	res, err := chromedp.Call(ctx, cmd, params)
	b.must(err)
	return res
}
