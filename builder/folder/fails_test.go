package folder

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A staging folder in which the marker cannot be written is not filled.
func TestNoMarker(t *testing.T) {
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, Marker), 0o755); err != nil {
		t.Fatal(err)
	}
	filled := false
	err := (&stage{path: dir}).fill(func(*os.Root) error { filled = true; return nil })
	if err == nil || !strings.Contains(err.Error(), Marker) || filled {
		t.Errorf("got %v, and it was filled: %v", err, filled)
	}
}

// A swap that the system refuses is told, and the folder is as it was.
func TestSwapRefused(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	build(t, dir, "good")
	refused := errors.New("refused here")
	swapNames = func(string, string) error { return refused }
	t.Cleanup(func() { swapNames = exchange })
	err := Replace(t.Context(), dir, func(root *os.Root) error { return WriteFile(root, "index.html", []byte("new")) })
	if !errors.Is(err, refused) {
		t.Errorf("got %v", err)
	}
	if got, err := os.ReadFile(filepath.Join(dir, "index.html")); err != nil || string(got) == "new" {
		t.Errorf("the folder holds %q: %v", got, err)
	}
}
