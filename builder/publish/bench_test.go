package publish

import (
	"context"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/internal/librarytest"
)

// A whole build: everything read, checked and made, and nothing written. What is kept
// between builds, as the proofs of trees, is there from the second on.
func BenchmarkBuild(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		l := librarytest.Load(b)
		if err := Render(context.Background(), l, &finding.List{}, func(string, []byte) error { return nil }, nil); err != nil {
			b.Fatal(err)
		}
	}
}
