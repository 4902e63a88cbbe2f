package exchange

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"

	"keelpath/builder/clienttest"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/quantity"
	"keelpath/builder/tree"
)

// A filled form has an amount as it was given, not as the steps of a measure keep
// it: 1:12 is 8.333 %, 3.5 in is 88.9 mm, 210 lb is 95.25439770 kg (NIST SP 811,
// from memory). The amount lies on the same side of every bound of the form.
func TestFormHasTheAmountAsGiven(t *testing.T) {
	l := librarytest.Load(t)
	script := clienttest.Load(t, "carry/response.ts")
	units := script.Value(quantity.Table())
	for _, c := range []struct {
		tree, question, typed string
		want                  float64
	}{
		{"hills-and-ramps", "steepness", "1:12", 100.0 / 12},
		{"hills-and-ramps", "steepness", "8 degrees", 100 * math.Tan(8*math.Pi/180)},
		{"heel-height", "usual", "3.5 in", 88.9},
		{"loads-and-weight", "body", "210 lb", 210 * 0.45359237},
	} {
		tr := l.Tree(c.tree)
		table := tr.Table(nil)
		table.Start = c.question // the rest of the way says nothing of the amount
		form := map[string]any{"questionnaire": "urn:keelpath:" + c.tree, "system": "urn:keelpath:" + c.tree}
		v, err := script.Call("response", script.Value(table), script.Value(form), script.Value(tree.Answers{c.question: {c.typed}}), units)
		if err != nil {
			t.Fatal(err)
		}
		var r struct {
			Item []struct{ Item []responseItem }
		}
		if err := json.Unmarshal([]byte(v.String()), &r); err != nil {
			t.Fatal(err)
		}
		got := r.Item[0].Item[0]
		x, err := strconv.ParseFloat(string(got.Answer[0].ValueQuantity.Value), 64)
		if err != nil || math.Abs(x-c.want) > 1e-8 || !strings.HasSuffix(got.LinkID, amountLink) {
			t.Errorf("%s: the form has %v in %s (%v), want %v", c.typed, got.Answer[0].ValueQuantity.Value, got.LinkID, err, c.want)
		}
	}
}
