package command

import (
	"io"
	"time"

	"github.com/vbauerster/mpb/v8"
	"github.com/vbauerster/mpb/v8/decor"
)

// patience is how long a build may take before a bar appears; most are done sooner.
const patience = time.Second

// bar shows how far a long build is, on a terminal only.
type bar struct {
	w     io.Writer
	began time.Time
	off   bool
	group *mpb.Progress
	line  *mpb.Bar
}

func newBar(w io.Writer, quiet bool) *bar {
	b := &bar{w: w, began: time.Now(), off: quiet || !isTerminal(w)}
	if s, ok := w.(*sink); ok {
		b.w = s.w // the bar asks the terminal how wide it is
	}
	return b
}

func (b *bar) step(done, total int) {
	if b.off || time.Since(b.began) < patience {
		return
	}
	if b.group == nil {
		b.group = mpb.New(mpb.WithOutput(b.w), mpb.WithWidth(40))
		b.line = b.group.AddBar(int64(total), mpb.BarRemoveOnComplete(),
			mpb.PrependDecorators(decor.Name("building "), decor.CountersNoUnit("%d of %d")))
	}
	b.line.SetCurrent(int64(done))
}

func (b *bar) done() {
	if b.group == nil {
		return
	}
	b.line.Abort(true)
	b.group.Wait()
}
