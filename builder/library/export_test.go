package library

import (
	"context"

	"keelpath/builder/finding"
)

// Sealed reads layers and holds them against the first, and does nothing else that
// Load does: no proof, and no check across files.
func Sealed(ctx context.Context, list *finding.List, layers ...Layer) error {
	l := newLoader(list)
	ground, err := l.readAll(ctx, layers)
	if err == nil {
		l.unchanged(ground)
	}
	return err
}
