package clienttest_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"keelpath/builder/clienttest"
	"keelpath/builder/quantity"
)

// What would change an ending is told without the steps in which amounts are kept: an
// end is said by the rounder one of its amount and the next amount beyond it. The steps are
// those of the built-in measures.
func TestSpans(t *testing.T) {
	units, err := json.Marshal(quantity.Table())
	if err != nil {
		t.Fatal(err)
	}
	page := clienttest.Load(t, "carry/spans.ts")
	const slope, heel, load = `{unit: "%", from: 0, to: 0.4, step: 0.0005}`, `{unit: "mm", from: 0, to: 150, step: 1}`, `{unit: "kg", from: 0, to: 60, step: 0.1}`
	for _, c := range []struct {
		measure  string
		from, to float64
		want     string
	}{
		{slope, 0.0855, 0.4, "it were more than 8.5 % (about 4.9 degrees, 1:11.8)"},
		{slope, 0.085, 0.4, "it were 8.5 % (about 4.9 degrees, 1:11.8) or more"},
		{slope, 0, 0.0495, "it were less than 5 % (about 2.9 degrees, 1:20)"},
		{slope, 0, 0.05, "it were 5 % (about 2.9 degrees, 1:20) or less"},
		{slope, 0, 0.4, "you had given any amount"},
		{slope, 0, 0, "it were 0 % (flat)"},
		{slope, 0.4, 0.4, "it were 40 % (about 21.8 degrees, 1:2.5)"},
		{slope, 0.0505, 0.0845, "it were more than 5 % (about 2.9 degrees, 1:20) and less than 8.5 % (about 4.9 degrees, 1:11.8)"},
		{slope, 0.0505, 0.085, "it were more than 5 % (about 2.9 degrees, 1:20) and at most 8.5 % (about 4.9 degrees, 1:11.8)"},
		{slope, 0.05, 0.0845, "it were 5 % (about 2.9 degrees, 1:20) or more, but less than 8.5 % (about 4.9 degrees, 1:11.8)"},
		{slope, 0.05, 0.085, "it were from 5 % (about 2.9 degrees, 1:20) to 8.5 % (about 4.9 degrees, 1:11.8)"},
		{slope, 0.0855, 0.0855, "it were more than 8.5 % (about 4.9 degrees, 1:11.8) and less than 8.6 % (about 4.9 degrees, 1:11.6)"},
		{slope, 0.0005, 0.4, "it were more than 0 % (flat)"},
		{heel, 51, 150, "it were more than 50 mm (2 in)"},
		{heel, 38, 150, "it were 38 mm (1 1/2 in) or more"},
		{heel, 20, 20, "it were 20 mm (3/4 in)"},
		{load, 13.6, 60, "it were 13.6 kg (30 lb) or more"},
		{load, 0, 13.5, "it were 13.5 kg (30 lb) or less"},
	} {
		var got string
		code := fmt.Sprintf("script.spanned(%s, %s, {from: %v, to: %v})", units, c.measure, c.from, c.to)
		if err := page.Run(code, &got); err != nil {
			t.Fatal(err)
		}
		if got != c.want {
			t.Errorf("%s from %v to %v: %q, want %q", c.measure, c.from, c.to, got, c.want)
		}
	}
}
