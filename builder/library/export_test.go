package library

import (
	"context"
	"testing"
	"time"

	"keelpath/builder/finding"
)

// Sealed reads layers and holds them against the first, and does nothing else that
// Load does: no proof, and no check across files.
func Sealed(ctx context.Context, list *finding.List, layers ...Layer) (*Library, error) {
	l := newLoader(list)
	ground, err := l.readAll(ctx, layers)
	if err == nil && len(layers) > 1 {
		l.unchanged(ground)
	}
	return l.Library, err
}

// Made gives a layer of these files, which lies nowhere.
func Made(dir string, files map[string]string) Layer {
	y := Layer{Dir: dir, files: map[string][]byte{}}
	for n, src := range files {
		y.files[n] = []byte(src)
	}
	return y
}

// Only gives the layer with those of its files that are kept.
func (y Layer) Only(keep func(file string) bool) Layer {
	out := Layer{Dir: y.Dir, files: map[string][]byte{}}
	for n, src := range y.files {
		if keep(n) {
			out.files[n] = src
		}
	}
	return out
}

// Soon fails where do, which has little to do, goes on without end.
func Soon(t *testing.T, do func()) {
	t.Helper()
	done := make(chan bool)
	go func() {
		defer close(done)
		do()
	}()
	select {
	case <-done:
	case <-time.After(3 * time.Second):
		t.Fatal("it goes on without end")
	}
}
