package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"

	"keelpath/builder/prose"
)

// Parse is parse in English.
func Parse(text string, m Measure) (Value, error) { return english().parse(text, m, nil) }

func measure(name string, accept []string, from, to, step float64) Measure {
	m, err := NewMeasure(name, accept, from, to, step)
	if err != nil {
		panic(err)
	}
	return m
}

// The measures that tests ask about, such as trees have.
var (
	heel   = measure("mm", []string{"cm", "in"}, 0, 120, 1)
	height = measure("cm", []string{"ft", "in", "m"}, 120, 220, 1)
	weight = measure("kg", []string{"lb", "st"}, 30, 250, 0.5)
	steep  = measure("%", []string{"deg", "1:n"}, 0, 40, 0.5)
	ankle  = measure("deg", []string{"%"}, -20, 20, 0.5)
	steps  = measure("1", nil, 0, 20, 1)
	pack   = measure("lb", []string{"kg", "oz", "g", "st"}, 0, 100, 0.25)
	change = measure("in", []string{"mm"}, -2, 2, 0.0625)

	// What takes one unit alone takes a number without one.
	plain   = measure("mm", nil, 0, 120, 1)
	kilos   = measure("kg", nil, 30, 250, 0.5)
	percent = measure("%", nil, 0, 40, 0.5)
	bend    = measure("deg", nil, -20, 20, 0.5)

	measures = map[string]Measure{"heel": heel, "height": height, "weight": weight, "steep": steep,
		"ankle": ankle, "steps": steps, "plain": plain, "percent": percent, "bend": bend, "pack": pack, "change": change,
		"ramp":    measure("%", []string{"1:n"}, 2, 20, 0.01),
		"tall":    measure("ft", []string{"m"}, 4, 7.5, 0.5),
		"grade":   measure("deg", []string{"1:n", "%"}, 0, 60, 1),
		"narrow":  measure("mm", []string{"in", "ft"}, 26, 27, 0.1),
		"stone":   measure("st", []string{"kg"}, 4, 40, 0.5),
		"only-in": measure("in", nil, 0, 6, 0.125),
	}
)

// readings are answers that must be understood, with the exact amount meant.
var readings = []struct {
	m    Measure
	text string
	want float64 // canonical
	unit string
}{
	{heel, "38 mm", 38, "mm"},
	{heel, "38mm", 38, "mm"},
	{plain, " 38 ", 38, "mm"},
	{plain, "38", 38, "mm"},
	{plain, "38.", 38, "mm"},
	{plain, "+38", 38, "mm"},
	{plain, "038", 38, "mm"},
	{heel, "\u00a038\u202fmm\u2009", 38, "mm"},
	{heel, "\ufeff38\u200b mm", 38, "mm"},
	{heel, "38 MILLIMETRES", 38, "mm"},
	{heel, "3,5 cm", 35, "cm"},
	{heel, "3.5cm", 35, "cm"},
	{heel, "3,25 cm", 32.5, "cm"},
	{heel, "0,125 in", 3.175, "[in_i]"},
	{heel, ".5 in", 12.7, "[in_i]"},
	{heel, "1 1/2 in", 38.1, "[in_i]"},
	{heel, "1-1/2 in", 38.1, "[in_i]"},
	{heel, "1 and 1/2 inches", 38.1, "[in_i]"},
	{heel, "1½\"", 38.1, "[in_i]"},
	{heel, "1 ½ in.", 38.1, "[in_i]"},
	{heel, "1-½ in", 38.1, "[in_i]"},
	{heel, "1⁄2 inch", 12.7, "[in_i]"},
	{heel, "½″", 12.7, "[in_i]"},
	{heel, "3/8 in", 9.525, "[in_i]"},
	{heel, "1.5''", 38.1, "[in_i]"},
	{heel, "1.5”", 38.1, "[in_i]"},
	{heel, "2-inch", 50.8, "[in_i]"},
	{plain, "1 1/2", 1.5, "mm"},
	{plain, "1/2", 0.5, "mm"},
	{plain, "-0", 0, "mm"},

	{height, "5 ft 10", 1778, "[ft_i]"},
	{height, "5ft10in", 1778, "[ft_i]"},
	{height, "5'10\"", 1778, "[ft_i]"},
	{height, "5’10”", 1778, "[ft_i]"},
	{height, "5′ 10″", 1778, "[ft_i]"},
	{height, "5' 10''", 1778, "[ft_i]"},
	{height, "5'-10\"", 1778, "[ft_i]"},
	{height, "5-foot-10", 1778, "[ft_i]"},
	{height, "5 ft. 10 in.", 1778, "[ft_i]"},
	{height, "5 ft, 10 in", 1778, "[ft_i]"},
	{height, "5 feet and 10 inches", 1778, "[ft_i]"},
	{height, "5' 10 1/2\"", 1790.7, "[ft_i]"},
	{height, "5 ft", 1524, "[ft_i]"},
	{height, "70 in", 1778, "[in_i]"},
	{height, "1 m 78 cm", 1780, "m"},
	{height, "1,78 m", 1780, "m"},
	{height, "1.78 m.", 1780, "m"}, // a full stop behind one letter
	{heel, "8. mm", 8, "mm"},       // and behind one digit

	{measure("mm", nil, 0, 2000, 0.5), "1234,567 mm", 1234.567, "mm"}, // four digits before it: no comma of thousands

	{weight, "12 st 4", 172 * 0.45359237, "[stone_av]"},
	{weight, "12st 4lb", 172 * 0.45359237, "[stone_av]"},
	{weight, "12 stone 4 pounds", 172 * 0.45359237, "[stone_av]"},
	{weight, "180 lbs", 180 * 0.45359237, "[lb_av]"},
	{kilos, "80,5", 80.5, "kg"},
	{weight, "80 kilos", 80, "kg"},
	{weight, "80 kg 500 g", 80.5, "kg"},
	{pack, "8 lb 4 oz", 8.25 * 0.45359237, "[lb_av]"},

	{steep, "1:12", 1.0 / 12, Ratio},
	{steep, "1 : 12", 1.0 / 12, Ratio},
	{steep, "1∶12", 1.0 / 12, Ratio},
	{steep, "1 in 12", 1.0 / 12, Ratio},
	{steep, "1 to 12", 1.0 / 12, Ratio},
	{steep, "1:7.5", 1 / 7.5, Ratio},
	{steep, "14%", 0.14, "%"},
	{steep, "14 %", 0.14, "%"},
	{percent, "14", 0.14, "%"},
	{steep, "14 per cent", 0.14, "%"},
	{steep, "14 percent", 0.14, "%"},
	{steep, "1/2 %", 0.005, "%"},
	{steep, "8°", math.Tan(8 * math.Pi / 180), "deg"},
	{steep, "8 degrees", math.Tan(8 * math.Pi / 180), "deg"},

	{bend, "-8", -8, "deg"},
	{ankle, "−8°", -8, "deg"},
	{ankle, "- 8 deg", -8, "deg"},
	{ankle, "100%", 45, "%"},
	{steps, "3", 3, "1"},
}

func TestParse(t *testing.T) {
	for _, c := range readings {
		v, err := Parse(c.text, c.m)
		if err != nil || math.Abs(v.Num-c.want) > 1e-9 || v.Unit != c.unit || v.Kind != c.m.Kind() {
			t.Errorf("%q: %+v, %v; want %v, in %s", c.text, v, err, c.want, c.unit)
		}
	}
}

// refusals are answers that must not be taken, with what the reader is told.
var refusals = []struct {
	m          Measure
	text, code string
	says       string
}{
	{heel, "", "empty", "Enter a number between 0 and 120 mm, like 40 mm."},
	{heel, " \u00a0\t", "empty", "Enter a number between 0 and 120 mm, like 40 mm."},
	{heel, "ten", "number", "Enter a number between 0 and 120 mm, like 40 mm."},
	{heel, "NaN", "number", "Enter a number between 0 and 120 mm, like 40 mm."},
	{heel, "Infinity", "number", "Enter a number between 0 and 120 mm, like 40 mm."},
	{heel, "mm", "number", "Enter a number between 0 and 120 mm, like 40 mm."},
	{heel, "-", "number", "Enter a number between 0 and 120 mm, like 40 mm."},
	{heel, "1.2.3", "number", "Enter a number between 0 and 120 mm, like 40 mm."},

	{heel, "3.5", "bare", "Please add the unit: 3.5 mm, 3.5 cm or 3.5 in."},
	{heel, "3,5", "bare", "Please add the unit: 3,5 mm, 3,5 cm or 3,5 in."},
	{heel, " 1  1/2 ", "bare", "Please add the unit: 1 1/2 mm, 1 1/2 cm or 1 1/2 in."},
	{heel, "3½", "bare", "Please add the unit: 3½ mm, 3½ cm or 3½ in."},
	{heel, "50", "bare", "Please add the unit: 50 mm."}, // 50 cm and 50 in are no heels
	{heel, "0", "bare", "Please add the unit: 0 mm, 0 cm or 0 in."},
	{weight, "210", "bare", "Please add the unit: 210 kg or 210 lb."},
	{weight, "12", "bare", "Please add the unit: 12 st."},
	{steep, "12", "bare", "Please add the unit: 12 %, 12 degrees or 1:12."},
	{steep, "1", "bare", "Please add the unit: 1 % or 1 degree."}, // 1:1 is too steep
	{steep, "30", "bare", "Please add the unit: 30 % or 1:30."},
	{steep, "2 1/2", "bare", "Please add the unit: 2 1/2 % or 2 1/2 degrees."},
	{ankle, "-8", "bare", "Please add the unit: -8 degrees or -8 %."},
	{height, "5", "bare", "Please add the unit: 5 ft."},
	{heel, "٣٨", "number", "Enter a number between 0 and 120 mm, like 40 mm."},

	{heel, "1,234", "comma", "That comma can mean two things. Please write the number without it."},
	{heel, "1,234.5", "comma", ""},
	{heel, "1.234,5", "comma", ""},
	{heel, "1,2,3", "comma", ""},
	{heel, "12,345,678", "comma", ""},
	{heel, "123,456 mm", "comma", ""}, // 123456, or 123.456
	{plain, "123,456", "comma", ""},
	{height, "999,125 mm", "comma", ""},

	{heel, "1/2/3", "fraction", "That fraction is hard to read. Write it like 1 1/2."},
	{heel, "11/4 in", "fraction", ""}, // or 1 1/4?
	{heel, "3/2 in", "fraction", ""},
	{heel, "2/2 in", "fraction", ""},
	{heel, "0/2 in", "fraction", ""},
	{heel, "1/0", "fraction", ""},
	{heel, "1/12345 in", "fraction", ""}, // no ruler has such parts
	{heel, "1.5 1/2 in", "fraction", ""},
	{heel, "1 / 2 in", "fraction", ""},

	{heel, "5 10", "several", "That looks like more than one number. Enter just one, like 40 mm."},
	{height, "5 10", "several", ""},
	{heel, "5-10 mm", "several", ""},
	{heel, "38 to 40", "word", ""},
	{heel, "38 mm 40", "several", ""},
	{heel, "38 mm - 40 mm", "several", ""},
	{heel, "½ ½", "several", ""},
	{height, "5 ft 10 3", "several", ""},

	{heel, "1e5", "word", "Enter a number and a unit only, like 40 mm."},
	{heel, "0x1F", "word", ""},
	{heel, "1_000", "word", ""},
	{heel, "about 38", "word", ""},
	{heel, "38 thumbs", "word", ""},
	{heel, "$38", "word", ""},
	{heel, "38?", "word", ""},
	{heel, "𝟛8", "word", ""},

	{heel, "38 mm in", "mixed", "Those do not go together. Write it like 40 mm."},
	{heel, "38 mm 2 in", "mixed", ""},
	{height, "5.5 ft 3 in", "mixed", ""},
	{height, "5 ft 3 cm", "mixed", ""},
	{height, "5 ft 12", "parts", "Write fewer than 12 inches after the feet."},
	{weight, "12 st 14", "parts", "Write fewer than 14 pounds after the stone."},

	{heel, "80 kg", "kind", "That is a weight; a length is needed here."},
	{heel, "1:12", "kind", "That is a slope; a length is needed here."},
	{heel, "14%", "kind", "That is a slope; a length is needed here."},
	{weight, "5 ft 10", "kind", "That is a length; a weight is needed here."},
	{steep, "3 in", "kind", "That is a length; a slope is needed here."},
	{steps, "3 mm", "kind", "That is a length; a plain number is needed here."},
	{heel, "2 ft", "unit", "Please use mm, cm or inches here, like 40 mm."},
	{steep, "41", "bare", "Please add the unit: 1:41."},
	{ankle, "1:12", "unit", "Please use degrees or % here, like -6 degrees."},
	{weight, "12 oz", "unit", "Please use kg, pounds or stone here, like 100 kg."},

	{steep, "12:1", "ratio", "Write a slope with a 1 first, like 1:12."},
	{steep, "1:0", "ratio", ""},
	{steep, "2:24", "ratio", ""},
	{steep, "1/12", "ratio", ""}, // in percent it would be a twelfth of one
	{steep, "1:12 %", "ratio", ""},
	{steep, "1:", "ratio", ""},

	{heel, "12345678901234567890", "digits", "That number is too long. Enter a number between 0 and 120 mm, like 40 mm."},
	{heel, strings.Repeat("9", 50), "digits", ""},
	{heel, "0000000000038 mm", "digits", ""}, // one more than are read
	{heel, strings.Repeat("38 ", 30), "long", "That is too much text. Enter a number between 0 and 120 mm, like 40 mm."},

	{heel, "38 mm.x", "word", ""}, // the letter behind the stop is not swallowed with it
	{heel, "-3", "negative", "A number below 0 does not fit here. Enter a number between 0 and 120 mm, like 40 mm."},
	{heel, "121", "range", "Enter a number between 0 and 120 mm, like 40 mm."},
	{heel, "13 cm", "range", "Enter a number between 0 and 12 cm, like 4 cm."},
	{heel, "5 in", "range", "Enter a number between 0 and 4 5/8 in, like 1 1/2 in."},
	{heel, "999999999999", "range", ""},
	{height, "7 ft 6", "range", "Enter a number between 3 ft 11 1/2 in and 7 ft 2 1/2 in, like 5 ft."},
	{height, "1.78", "bare", "Please add the unit: 1.78 m."},
	{weight, "5 lb", "range", "Enter a number between 67 and 551 lb, like 220 lb."},
	{weight, "50 st", "range", "Enter a number between 4 st 11 lb and 39 st 5 lb, like 15 st 10 lb."},
	{steep, "50 %", "range", "Enter a number between 0 and 40 %, like 14 %."},
	{steep, "1:1", "range", "Enter a slope between flat and 1:2.5, like 1:8."},
	{steep, "30 deg", "range", "Enter a number between 0 and 21.8 degrees, like 8 degrees."},
	{steep, "95 deg", "range", ""},
	{ankle, "50", "range", "Enter a number between -20 and 20 degrees, like -6 degrees."},
	{ankle, "25 deg", "range", "Enter a number between -20 and 20 degrees, like -6 degrees."},
	{steps, "2.5", "whole", "Enter a whole number between 0 and 20, like 6."},
	{steps, "30", "range", "Enter a number between 0 and 20, like 6."},
}

func TestRefusals(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range refusals {
		v, err := Read(c.text, c.m)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("%q was read as %+v", c.text, v)
			continue
		}
		if e.Code != c.code || c.says != "" && e.Text != c.says {
			t.Errorf("%q: %s: %s\n\twant %s: %s", c.text, e.Code, e.Text, c.code, c.says)
		}
		seen[e.Code] = true
	}
	for code := range sentences {
		if !seen[code] {
			t.Errorf("no answer is refused as %q", code)
		}
	}
}

// What a refused reader reads is no harder than the sixth year of school.
func TestRefusalsAreEasyToRead(t *testing.T) {
	var all []string
	for _, c := range refusals {
		if _, err := Read(c.text, c.m); err != nil {
			all = append(all, err.Error(), "")
		}
	}
	if grade := prose.Of(all).Grade(); grade > 6 {
		t.Errorf("the refusals read at grade %.1f", grade)
	}
}
