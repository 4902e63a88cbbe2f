package figure

import (
	"errors"
	"io/fs"
	"maps"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/quantity"
	"keelpath/builder/say"
	"keelpath/content"
)

// All are the figures that the program carries, as the workbench shows them.
var All = must(shipped())

func shipped() ([]*Figure, error) {
	var out []*Figure
	var list finding.List
	names, err := fs.Glob(content.FS, "en/figures/*.yaml")
	for _, n := range names {
		src, err := content.FS.ReadFile(n)
		if err != nil {
			return nil, err
		}
		if f := Parse("content/"+n, src, &list); f != nil {
			out = append(out, f)
		}
	}
	for _, w := range list.Sorted() {
		return nil, errors.New(w.Place.String() + ": " + w.Text)
	}
	slices.SortFunc(out, func(a, b *Figure) int { return a.Order - b.Order })
	return out, err
}

// Find gives the figure with that ID, or nil.
func Find(id string) *Figure {
	i := slices.IndexFunc(All, func(f *Figure) bool { return f.ID == id })
	if i < 0 {
		return nil
	}
	return All[i]
}

func TestFiveFiguresAreShipped(t *testing.T) {
	if len(All) != 5 {
		t.Errorf("there are %d figures", len(All))
	}
}

// Each amount that a reader sets moves the drawing, wherever its box is shown. Only names that go into
// sentences do not.
func TestEachAmountMovesTheDrawing(t *testing.T) {
	r := rand.New(rand.NewSource(12))
	for _, f := range All {
		for _, in := range f.Inputs {
			if len(in.Choices) > 0 {
				continue
			}
			moved := false
			for range 200 {
				s := draw(r, f)
				before := f.Settle(s)
				if !before.Open[in.ID.S] {
					continue
				}
				s.Amounts[in.ID.S] = draw(r, f).Amounts[in.ID.S]
				moved = moved || !maps.Equal(before.Attrs, f.Settle(s).Attrs)
			}
			if !moved {
				t.Errorf("%s: nothing in the drawing moves with %q", f.ID, in.ID.S)
			}
		}
	}
}

// A figure has one or two results, and says each at every setting at which its values are known.
func TestResultsAreSaid(t *testing.T) {
	for _, f := range All {
		s := must(f.Start(nil))
		shown, n := f.Settle(s), 0
		for _, text := range f.Texts {
			if text.Place == Result {
				n++
				if said := shown.Texts[text.ID.S]; said == "" || len([]rune(said)) > 46 { // what one line of a phone holds
					t.Errorf("%s: the result %q is %q", f.ID, text.ID.S, said)
				}
			}
		}
		if n == 0 || n > MaxResults {
			t.Errorf("%s has %d results", f.ID, n)
		}
	}
}

func TestFiguresRender(t *testing.T) {
	for _, f := range All {
		h, err := f.HTML(Options{Sheet: "../prepare/index.html", Words: say.English()})
		if err != nil {
			t.Fatalf("%s: %v", f.ID, err)
		}
		for _, bad := range []string{"<!--", "%1", "{", "NaN"} {
			if strings.Contains(string(h), bad) {
				t.Errorf("%s holds %q", f.ID, bad)
			}
		}
		for _, row := range must(f.typicalRows(quantity.In(say.English()))) {
			for _, c := range row {
				if c == "" {
					t.Errorf("%s: an empty cell in %q", f.ID, row)
				}
			}
			t.Log(f.ID, row)
		}
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
