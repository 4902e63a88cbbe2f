package library

import (
	"context"
	"crypto/sha256"
	"sync"

	"keelpath/builder/finding"
	"keelpath/builder/proof"
	"keelpath/builder/tree"
)

// proven keeps the proofs of trees by their file's name and text, so that a
// tree that did not change is not proved again while one writes: measures that
// hang together can cost most of a second.
var proven = struct {
	sync.Mutex
	by map[[sha256.Size]byte]provenTree
}{by: map[[sha256.Size]byte]provenTree{}}

// provenTree is a proof with what it found.
type provenTree struct {
	proof    *proof.Proof
	findings []finding.Finding
}

// mostProven bounds the memory of a long run; beyond it all are forgotten.
const mostProven = 256

// prove is proof.Prove, remembered. A proof that was stopped is not.
func (l *loader) prove(ctx context.Context, t *tree.Tree) (*proof.Proof, error) {
	key := sha256.Sum256(append([]byte(t.File+"\x00"+l.Edition.Place.S+"\x00"), l.files[t.File]...)) // a tree has other answers in another place
	proven.Lock()
	known, ok := proven.by[key]
	proven.Unlock()
	if !ok {
		var list finding.List
		var err error
		if known.proof, err = proof.Prove(ctx, t, &list); err != nil {
			return nil, err
		}
		known.findings = list.Sorted()
		proven.Lock()
		if len(proven.by) >= mostProven {
			clear(proven.by)
		}
		proven.by[key] = known
		proven.Unlock()
	}
	l.list.Append(known.findings...)
	return known.proof, nil
}
