package library_test

import (
	"testing"

	"keelpath/builder/internal/librarytest"
)

// readWhole are the sources of which all was at hand, and where it was. The stored
// copies that the other facts were taken from show a page's opening and the passages
// that were asked for, and not all of it.
var readWhole = map[string]string{
	"ucum-units-2024": "the table of units itself, as a file of its public repository",
}

// No source says that all of it was read unless all of it was at hand.
func TestReadWhole(t *testing.T) {
	for _, s := range librarytest.Load(t).Sources {
		if _, known := readWhole[s.ID.S]; (s.Seen.S == "page") != known {
			t.Errorf("%s is told to be read as %q; all of it was at hand: %t", s.ID.S, s.Seen.S, known)
		}
	}
}
