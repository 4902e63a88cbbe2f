package library_test

import (
	"os"
	"path/filepath"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/library"
)

// A layer's words stand in a drawing and in that of a figure; what it leaves out says
// what it said.
func TestDrawingsSayALayersWords(t *testing.T) {
	dir := t.TempDir()
	if err := os.MkdirAll(filepath.Join(dir, "content/en"), 0o755); err != nil {
		t.Fatal(err)
	}
	const words = "drawings:\n" +
		"  slope-foot-flat: { title: Uphill and downhill, long: \"Two feet on {slope}°.\", labels: { up: up, down: down } }\n" +
		"  slope: { title: A slope that moves, long: Two feet. }\n"
	if err := os.WriteFile(filepath.Join(dir, library.DrawingsFile), []byte(words), 0o644); err != nil {
		t.Fatal(err)
	}
	var list finding.List
	layer, err := library.ReadLayer(t.Context(), dir, &list)
	if err != nil {
		t.Fatal(err)
	}
	l, ground := load(t, &list, library.Builtin(), layer), load(t, &list, library.Builtin())
	for _, f := range list.Sorted() {
		t.Errorf("%s %s", f.Place, f.Text)
	}
	if d, ok := l.Drawing("slope-foot-flat"); !ok || d.Title != "Uphill and downhill" || d.Long != "Two feet on 10°." {
		t.Errorf("%v %q %q", ok, d.Title, d.Long)
	}
	was, _ := ground.Drawing("roll-over")
	if d, ok := l.Drawing("roll-over"); !ok || d.Title == "" || d.SVG("") != was.SVG("") {
		t.Errorf("%v %q", ok, d.Title)
	}
	if title := l.Figure("slope").Drawing.Title; title != "A slope that moves" {
		t.Errorf("the figure's drawing is called %q", title)
	}
	if title := l.Figure("load").Drawing.Title; title == "" {
		t.Error("a figure's drawing has no name")
	}
}
