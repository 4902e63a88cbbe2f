// Package librarytest reads the content for tests to look at. Only tests import it.
package librarytest

import (
	"context"
	"fmt"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/library"
)

// Load gives the built-in content, with layers from their folders over it. Content
// with an error ends the test.
func Load(tb testing.TB, layers ...string) *library.Library {
	tb.Helper()
	l, err := Read(layers...)
	if err != nil {
		tb.Fatal(err)
	}
	return l
}

// Read is Load where there is no one test to end.
func Read(layers ...string) (*library.Library, error) {
	var list finding.List
	all := []library.Layer{library.Builtin()}
	for _, from := range layers {
		y, err := library.ReadLayer(context.Background(), from, &list)
		if err != nil {
			return nil, err
		}
		all = append(all, y)
	}
	l, err := library.Load(context.Background(), &list, all...)
	if err != nil {
		return nil, err
	}
	for _, f := range list.Sorted() {
		if f.Weight == finding.Error {
			return nil, fmt.Errorf("the content has a finding: %s: %s", f.Place, f.Text)
		}
	}
	return l, nil
}
