package command

import (
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"runtime/debug"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/library"
)

// A build may hold so much for each file of its layers, a small one as much as the least; when it is
// over, the process has the limit that it had.
func TestLimitOfMemory(t *testing.T) {
	t.Setenv("GOMEMLIMIT", "")
	before := debug.SetMemoryLimit(math.MaxInt64)
	defer debug.SetMemoryLimit(before)
	dir := t.TempDir()
	for i := range 20_000 {
		name := filepath.Join(dir, "content", "en", fmt.Sprintf("page-%d.md", i))
		if i == 0 {
			if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.WriteFile(name, nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	big, err := library.ReadLayer(context.Background(), dir, &finding.List{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		layers []library.Layer
		want   int64
	}{{nil, 384 << 20}, {[]library.Layer{big}, 64<<20 + 20_000*36<<10}} {
		back := limitMemory(c.layers)
		if got := debug.SetMemoryLimit(-1); got != c.want {
			t.Errorf("the limit is %d, want %d", got, c.want)
		}
		if back(); debug.SetMemoryLimit(-1) != math.MaxInt64 {
			t.Error("the limit was not set back")
		}
	}
}
