package publish

import (
	"strings"
	"testing"

	"keelpath/builder/drawing"
)

// Each page on the shelf has a small drawing beside its name. A drawing that stands for a page is one that the page shows, and
// then stands at its head alone.
func TestEachPageHasAPicture(t *testing.T) {
	l, files := load(t), builtin(t).files
	for _, e := range l.Explainers {
		name := l.Picture(e.ID)
		if smallPicture(name) == "" {
			t.Errorf("%s: nothing stands beside its name on the shelf", e.ID)
			continue
		}
		page := string(files["learn/"+e.ID+".html"])
		head, rest, ok := strings.Cut(page, `<div class="opening`)
		if !ok || strings.Contains(head, "<h1>") || !strings.Contains(rest, "<h1>") {
			t.Errorf("%s: the page does not begin with its picture", e.ID)
		}
		if n := strings.Count(page, `id="`+name+`-title"`); isDrawing(name) && n != 1 {
			t.Errorf("%s: its drawing %q stands there %d times", e.ID, name, n)
		}
		if kind, _ := drawing.TileKind(name); kind != "" {
			t.Errorf("%s: the tile %q shows an amount, and the page is about none", e.ID, name)
		}
	}
}
