package browsertest

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A map prints on one page of the paper that it was laid out for, whatever paper the rest of its page is on.
func TestMapOnOnePage(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	for name, size := range map[string]string{"hills-and-ramps": "841.92 x 594.96", "level-reasoning": "1191.12 x 841.92"} {
		b.open(onDisk("teach/" + name + ".html"))
		file := filepath.Join(t.TempDir(), "page.pdf")
		if err := os.WriteFile(file, b.pdf("A4"), 0o644); err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(string(run(t, "pdfinfo", "-f", "1", "-l", "99", file)), size+" pts"); n != 1 {
			t.Errorf("the map of %s takes %d pages of %s points", name, n, size)
		}
	}
}

// An A4 map is as wide as its window where there is room for type of 11 px; on a phone it begins with its first question.
func TestMapInItsWindow(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.open(onDisk("teach/loads-and-weight.html"))
	for _, wide := range []int64{320, 1200, 1280} {
		b.size(wide, 640)
		got := eval[struct{ Window, Map, Type, First float64 }](b, `(() => {
  const around = document.querySelector(".map-window"), map = around.querySelector("svg"), text = map.querySelector(".m-name");
  return { Window: around.clientWidth, Map: around.scrollWidth, First: text.getBoundingClientRect().right,
    Type: parseFloat(getComputedStyle(text).fontSize) * map.getBoundingClientRect().width / map.viewBox.baseVal.width };
})()`)
		if wide >= 1200 && got.Map > got.Window {
			t.Errorf("at %d px the map is %.0f px wide in a window of %.0f", wide, got.Map, got.Window)
		}
		if got.Type < 11 {
			t.Errorf("at %d px its type has %.1f px", wide, got.Type)
		}
		if got.First > float64(wide) {
			t.Errorf("at %d px its first question ends at %.0f px", wide, got.First)
		}
	}
}
