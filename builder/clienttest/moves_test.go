package clienttest

import (
	"testing"

	"keelpath/builder/drawing"
)

// What an amount changes in a drawing is the same in the page as in the build, letter for letter: every tile and every
// picture of the reader's own, from none to all that a tree takes.
func TestMoves(t *testing.T) {
	s := Load(t, "sums/moves.ts")
	same := func(name, body, want string, amounts []float64) {
		t.Helper()
		v, err := s.Call("setTo", s.Value(body), s.Value(amounts))
		if err != nil {
			t.Fatalf("%s at %v: %v", name, amounts, err)
		}
		if got := v.String(); got != want {
			t.Errorf("%s at %v:\n%s\nwant\n%s", name, amounts, got, want)
		}
	}
	amounts := []float64{0, 1.0 / 48, 0.05, 1.0 / 12, 0.1234, 0.16, 0.4, 5, 9.525, 18.14, 50.8, 120, 150}
	for _, name := range drawing.TileNames() {
		shape, _ := drawing.TileShape(name)
		if len(shape.Usual) == 0 {
			continue
		}
		for _, a := range amounts {
			tile, _ := drawing.TileAt(name, a)
			same(name, string(shape.Body), string(tile.Body), []float64{a})
		}
	}
	for _, name := range drawing.OwnNames() {
		shape, _ := drawing.OwnShape(name)
		for i, a := range amounts {
			of := []float64{a, amounts[len(amounts)-1-i]}[:len(shape.Usual)]
			own, ok := drawing.OwnAt(name, of...)
			if !ok {
				t.Fatalf("no picture %s of %v", name, of)
			}
			same(name, string(shape.Body), string(own.Body), of)
		}
	}
}
