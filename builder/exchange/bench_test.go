package exchange

import (
	"context"
	"sync"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/proof"
	"keelpath/builder/tree"
)

// What a site's forms cost: one after the other, each after another proof of its tree;
// one after the other with the proofs that the library has; and side by side. They
// are those of a build, of patients' trees.
func BenchmarkForms(b *testing.B) {
	l := librarytest.Load(b)
	trees := l.PatientTrees()
	one := func(b *testing.B, t *tree.Tree) {
		if _, err := write(l, t, &sync.Map{}); err != nil {
			b.Fatal(err)
		}
	}
	b.Run("proved-again", func(b *testing.B) {
		kept := l.Proofs
		defer func() { l.Proofs = kept }()
		for b.Loop() {
			l.Proofs = map[string]*proof.Proof{}
			for _, t := range trees {
				p, err := proof.Prove(context.Background(), t, &finding.List{})
				if err != nil {
					b.Fatal(err)
				}
				l.Proofs[t.ID.S] = p
				one(b, t)
			}
		}
	})
	b.Run("proof-kept", func(b *testing.B) {
		for b.Loop() {
			for _, t := range trees {
				one(b, t)
			}
		}
	})
	b.Run("side-by-side", func(b *testing.B) {
		for b.Loop() {
			Write(l, trees, &finding.List{})
		}
	})
}
