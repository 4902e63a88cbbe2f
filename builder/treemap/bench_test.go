package treemap_test

import (
	"testing"

	"keelpath/builder/internal/librarytest"
	"keelpath/builder/say"
	"keelpath/builder/treemap"
)

// How long the maps of all trees of the site take.
func BenchmarkLay(b *testing.B) {
	lib := librarytest.Load(b)
	for _, tr := range lib.Trees {
		g := treemap.Of(tr, say.English(), asWritten)
		b.Run(tr.ID.S, func(b *testing.B) {
			for b.Loop() {
				treemap.Lay(g, say.English(), treemap.A4)
			}
		})
	}
}
