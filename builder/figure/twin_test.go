package figure

import (
	"math"
	"math/rand"
	"regexp"
	"strconv"
	"testing"

	"keelpath/builder/clienttest"
	"keelpath/builder/quantity"
)

// draw sets every input of a figure at random, some at their ends.
func draw(r *rand.Rand, f *Figure) Settings {
	s := Settings{Amounts: map[string]quantity.Value{}, Chosen: map[string]string{}, US: r.Intn(2) == 0}
	for _, in := range f.Inputs {
		if len(in.Choices) > 0 {
			s.Chosen[in.ID.S] = in.Choices[r.Intn(len(in.Choices))].ID.S
			continue
		}
		m := in.measure
		at := r.Intn(m.Answers())
		switch r.Intn(12) {
		case 0:
			at = 0
		case 1:
			at = m.Answers() - 1
		}
		unit := m.Accept[r.Intn(len(m.Accept))]
		s.Amounts[in.ID.S] = quantity.Value{Kind: m.Kind(), Num: m.At(at), Unit: unit}
		if r.Intn(2) == 0 { // as one that was written, and is kept in steps
			rest := (r.Float64() - 0.5) * m.Step
			if x := m.At(at) + rest; x < m.From || x > m.To {
				rest = 0
			}
			s.Amounts[in.ID.S] = quantity.Value{Kind: m.Kind(), Num: m.At(at), Unit: unit, Rest: rest, Said: "as written"}
		}
	}
	return s
}

// The page and the build show the same at thousands of settings: every sentence,
// every label, every attribute of the drawing. The page keeps what it worked out
// before; every other time only one input is set anew, as a drag does it.
func TestClientShowsTheSame(t *testing.T) {
	script := clienttest.Load(t, "figures/settle.ts")
	units := script.Value(quantity.Table())
	r := rand.New(rand.NewSource(31))
	for _, f := range All {
		table := script.Value(f.Coded())
		kept, err := script.Call("nothingKept")
		if err != nil {
			t.Fatal(err)
		}
		texts, s := 0, draw(r, f)
		for n := range 500 {
			other := draw(r, f)
			if in := f.Inputs[r.Intn(len(f.Inputs))].ID.S; n%2 == 0 {
				s = other
			} else if _, ok := other.Chosen[in]; ok {
				s.Chosen[in] = other.Chosen[in]
			} else {
				s.Amounts[in] = other.Amounts[in]
			}
			got, err := script.Call("settle", table, script.Value(map[string]any{"amounts": s.Amounts, "chosen": s.Chosen, "us": s.US}), units, kept)
			if err != nil {
				t.Fatalf("%s at %v: %v", f.ID, s, err)
			}
			var client Shown
			script.Into(got, &client)
			ours := f.Settle(s)
			if len(client.Texts) != len(ours.Texts) || len(client.Attrs) != len(ours.Attrs) || len(client.Open) != len(ours.Open) {
				t.Fatalf("%s at %v: the client shows %+v, Go %+v", f.ID, s, client, ours)
			}
			for id, want := range ours.Texts {
				if client.Texts[id] != want {
					t.Fatalf("%s at %v: %s is %q in Go and %q in the client", f.ID, s, id, want, client.Texts[id])
				}
				if want != "" {
					texts++
				}
			}
			for id, want := range ours.Open {
				if client.Open[id] != want {
					t.Fatalf("%s at %v: open %s differs", f.ID, s, id)
				}
			}
			for id, want := range ours.Attrs {
				if !near(client.Attrs[id], want) {
					t.Fatalf("%s at %v: %s is %q in Go and %q in the client", f.ID, s, id, want, client.Attrs[id])
				}
			}
		}
		if texts < 2000 {
			t.Errorf("%s said only %d texts in 500 settings", f.ID, texts)
		}
	}
}

var number = regexp.MustCompile(`-?[0-9.]+(e-?[0-9]+)?`)

// near tells attributes alike whose numbers differ by the last rounded digit at most.
func near(a, b string) bool {
	if a == b {
		return true
	}
	x, y := number.FindAllString(a, -1), number.FindAllString(b, -1)
	if len(x) != len(y) || number.ReplaceAllString(a, "#") != number.ReplaceAllString(b, "#") {
		return false
	}
	for i := range x {
		p, _ := strconv.ParseFloat(x[i], 64)
		q, _ := strconv.ParseFloat(y[i], 64)
		if math.Abs(p-q) > 0.0101 {
			return false
		}
	}
	return true
}
