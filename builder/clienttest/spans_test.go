package clienttest_test

import (
	"cmp"
	"encoding/json"
	"fmt"
	"testing"

	"keelpath/builder/clienttest"
	"keelpath/builder/finding"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
	"keelpath/builder/say"
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

// Which of two ends is the rounder does not hang on how the language writes numbers.
func TestSpansInOtherDigits(t *testing.T) {
	page := clienttest.Load(t, "carry/spans.ts")
	const slope = `{unit: "%", from: 0, to: 0.4, step: 0.0005}`
	for _, c := range []struct {
		own        map[say.Name]string
		from, want string
	}{
		{map[say.Name]string{"formats.digits": "٠١٢٣٤٥٦٧٨٩", "formats.point": "٫"}, "0.0855", "it were more than ٨٫٥ % (about ٤٫٩ degrees, ١:١١٫٨)"},
		{map[say.Name]string{"formats.point": ","}, "0.0855", "it were more than 8,5 % (about 4,9 degrees, 1:11,8)"},
		{map[say.Name]string{"formats.digits": "\U0001E950\U0001E951\U0001E952\U0001E953\U0001E954\U0001E955\U0001E956\U0001E957\U0001E958\U0001E959"}, "0.1005", "it were more than \U0001E951\U0001E950 % (about \U0001E955.\U0001E957 degrees, \U0001E951:\U0001E951\U0001E950)"},
	} {
		var list finding.List
		src := say.English().For("ff", func(n say.Name, text string) string { return cmp.Or(c.own[n], text) })
		units, err := json.Marshal(quantity.In(say.Read(read.YAML(say.File("ff"), src, 0, &list), "ff", &list)))
		if err != nil {
			t.Fatal(err)
		}
		var got string
		if err := page.Run(fmt.Sprintf("script.spanned(%s, %s, {from: %s, to: 0.4})", units, slope, c.from), &got); err != nil {
			t.Fatal(err)
		}
		if got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
