package library_test

import (
	"context"
	"errors"
	"math"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/internal/ending"
	"keelpath/builder/library"
)

// Reading, proving and checking listen to their context: between two files, while
// a tree is proved and between two checks. Wherever it ends, they end.
func TestLoadStops(t *testing.T) {
	var list finding.List
	all := ending.After(t.Context(), math.MaxInt32)
	l, err := library.Load(all, &list, library.Builtin())
	if err != nil {
		t.Fatal(err)
	}
	if least := len(l.Trees) + 2*len(l.Explainers); all.Asked() < least {
		t.Errorf("the context was asked %d times, and at least %d were expected: for each tree and page", all.Asked(), least)
	}
	for i := range 16 { // each takes as long as a build; the places are spread over all of it
		n := i * (all.Asked() - 1) / 15
		ctx := ending.After(t.Context(), n)
		l, err := library.Load(ctx, &finding.List{}, library.Builtin())
		if !errors.Is(err, context.Canceled) || l != nil {
			t.Fatalf("ended at question %d of %d, it gives %v and %v", n, all.Asked(), l != nil, err)
		}
		if more := ctx.Asked() - n; more > 3 {
			t.Fatalf("ended at question %d, it asked %d times more", n, more)
		}
	}
}

// So does the reading of a folder.
func TestReadLayerStops(t *testing.T) {
	dir := t.TempDir()
	layerIn(t, dir, tableLayer)
	all := ending.After(t.Context(), math.MaxInt32)
	if _, err := library.ReadLayer(all, dir, &finding.List{}); err != nil {
		t.Fatal(err)
	}
	if all.Asked() < 5 {
		t.Errorf("the context was asked %d times, and the layer has 5 files", all.Asked())
	}
	for n := range all.Asked() {
		if _, err := library.ReadLayer(ending.After(t.Context(), n), dir, &finding.List{}); !errors.Is(err, context.Canceled) {
			t.Errorf("ended at question %d, it gives %v", n, err)
		}
	}
}
