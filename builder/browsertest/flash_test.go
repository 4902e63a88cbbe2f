package browsertest

import (
	"path/filepath"
	"testing"
)

// Where there is script the page for readers without it is never seen before the planner,
// and it is there where the planner does not come.
func TestPlainPageWaits(t *testing.T) {
	t.Parallel()
	const seen = `(() => { const seen = (id) => document.getElementById(id).checkVisibility({ visibilityProperty: true }); return [seen("planner-plain"), seen("planner-name")] })()`
	dir := brokenSite(t, plannerName, `<script src="../assets/planner.`, `<script src="../assets/none.`)
	b := newTab(t)
	b.open("file://" + filepath.ToSlash(filepath.Join(dir, filepath.FromSlash(plannerName))))
	if now := eval[[]bool](b, seen); now[0] || now[1] {
		t.Errorf("before the planner could come, the plain page and its name are seen: %v", now)
	}
	b.run(`document.getAnimations().forEach((a) => a.finish())`) // the wait is over
	if now := eval[[]bool](b, seen); !now[0] || !now[1] {
		t.Errorf("where the planner does not come, the plain page and its name are seen: %v", now)
	}
	b.forgive()

	off := newTab(t)
	off.scriptOff()
	off.open(onDisk(plannerName))
	if now := eval[[]bool](off, seen); !now[0] || !now[1] {
		t.Errorf("with script off, the plain page and its name are seen: %v", now)
	}
}
