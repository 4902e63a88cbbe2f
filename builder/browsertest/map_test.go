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
