package quantity

import (
	"math"
	"strings"
	"testing"
)

func TestShow(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		num  float64
		unit string
		want string
	}{
		{Length, 38, "mm", "38 mm (1 1/2 in)"},
		{Length, 38, "[in_i]", "1 1/2 in (38 mm)"},
		{Length, 9.525, "[in_i]", "3/8 in (9.5 mm)"},
		{Length, 50.8, "[in_i]", "2 in (50.8 mm)"},
		{Length, 245, "cm", "24.5 cm (9 5/8 in)"},
		{Length, 1780, "cm", "178 cm (5 ft 10 in)"},
		{Length, 1790, "cm", "179 cm (5 ft 10 1/2 in)"},
		{Length, 1780, "m", "1.78 m (5 ft 10 in)"},
		{Length, 1778, "[ft_i]", "5 ft 10 in (178 cm)"},
		{Length, 1778, "[in_i]", "70 in (178 cm)"},
		{Length, 1524, "[ft_i]", "5 ft (152 cm)"},
		{Length, 152, "[ft_i]", "6 in (15 cm)"},
		{Angle, 95, "%", "95 degrees"},
		{Length, 0, "mm", "0 mm (0 in)"},
		{Length, 1, "mm", "1 mm"}, // in eighths of an inch it would be none
		{Length, -38, "mm", "-38 mm (-1 1/2 in)"},
		{Length, -3, "[in_i]", "-1/8 in (-3 mm)"},
		{Mass, 80, "kg", "80 kg (176 lb)"},
		{Mass, 81.65, "[lb_av]", "180 lb (81.7 kg)"},
		{Mass, 78, "[stone_av]", "12 st 4 lb (78 kg)"},
		{Mass, 0.5, "g", "500 g (17.5 oz)"},
		{Slope, 0.14, "%", "14 % (about 8 degrees, 1:7.1)"},
		{Slope, 0.14, "deg", "8 degrees (about 14 %, 1:7.1)"},
		{Slope, 1.0 / 12, Ratio, "1:12 (about 8.3 %, 4.8 degrees)"},
		{Slope, 0.01, "%", "1 % (about 0.6 degrees, 1:100)"},
		{Slope, 0.0175, "deg", "1 degree (about 1.8 %, 1:57.1)"},
		{Slope, 0, "%", "0 % (flat)"},
		{Slope, 0, Ratio, "0 % (flat)"},
		{Slope, -0.14, "%", "-14 % (about -8 degrees)"},
		{Slope, -0.14, Ratio, "-14 % (about -8 degrees)"},
		{Slope, 2, "%", "200 % (about 63.4 degrees)"},
		{Angle, 4.7636, "deg", "4.8 degrees"},
		{Angle, 1, "deg", "1 degree"},
		{Angle, -1, "deg", "-1 degree"},
		{Angle, 8, "%", "14.1 % (about 8 degrees)"},
		{Count, 3, "1", "3"},
		{Length, math.NaN(), "mm", ""},
		{Length, math.Inf(1), "mm", ""},
	} {
		if got := Show(Value{Kind: c.kind, Num: c.num, Unit: c.unit}); got != c.want {
			t.Errorf("%v %s in %s: %q, want %q", c.num, c.kind, c.unit, got, c.want)
		}
	}
}

// Readers see what they wrote, and beside it what that is: never a step of storage.
// Factors: NIST SP 811, appendix B.8, from memory (1 in = 25.4 mm, 1 ft = 0.3048 m,
// 1 lb = 0.45359237 kg, 1 st = 14 lb); the slopes are trigonometry, worked out apart:
// 100/12 = 8.33, atan(1/12) = 4.76 degrees, 100/6 = 16.67, 100/16 = 6.25, tan 8 = 0.1405.
var shownAgain = []struct {
	m                Measure
	text, show, back string
}{
	{heel, "1½\"", "1 1/2 in (38.1 mm)", "1 1/2 in is 38.1 mm"},
	{heel, "3.5 in", "3.5 in (88.9 mm)", "3.5 in is 88.9 mm"},
	{heel, "3 1/2 in", "3 1/2 in (88.9 mm)", "3 1/2 in is 88.9 mm"},
	{heel, "3-1/2 inches", "3 1/2 in (88.9 mm)", "3 1/2 in is 88.9 mm"},
	{heel, "4 in", "4 in (101.6 mm)", "4 in is 101.6 mm"},
	{heel, "3/8 in", "3/8 in (9.5 mm)", "3/8 in is about 9.5 mm"}, // 9.525
	{heel, "35 mm", "35 mm (1 3/8 in)", "35 mm is about 1 3/8 in"},
	{heel, "35.4 mm", "35.4 mm (1 3/8 in)", "35.4 mm is about 1 3/8 in"}, // kept as 35
	{heel, "3,5 cm", "3.5 cm (1 3/8 in)", "3.5 cm is about 1 3/8 in"},
	{heel, ".5 in", "0.5 in (12.7 mm)", "0.5 in is 12.7 mm"},
	{heel, "1 mm", "1 mm", "1 mm"}, // less than a sixteenth of an inch
	{heel, "0 in", "0 in (0 mm)", "0 in is 0 mm"},
	{height, "70 in", "70 in (178 cm)", "70 in is about 178 cm"},
	{height, "5 ft 10", "5 ft 10 in (178 cm)", "5 ft 10 in is about 178 cm"},
	{weight, "171 lb", "171 lb (77.6 kg)", "171 lb is about 77.6 kg"},  // 77.564, kept as 77.5
	{weight, "210 lbs", "210 lb (95.3 kg)", "210 lb is about 95.3 kg"}, // 95.254, kept as 95.5
	{weight, "12 st 4", "12 st 4 lb (78 kg)", "12 st 4 lb is about 78 kg"},
	{weight, "80 kilos", "80 kg (176 lb)", "80 kg is about 176 lb"},
	{steep, "1:12", "1:12 (about 8.3 %, 4.8 degrees)", "1:12 is about 8.3 %, 4.8 degrees"},
	{steep, "1 in 12", "1:12 (about 8.3 %, 4.8 degrees)", "1:12 is about 8.3 %, 4.8 degrees"},
	{steep, "1:6", "1:6 (about 16.7 %, 9.5 degrees)", "1:6 is about 16.7 %, 9.5 degrees"},
	{steep, "16%", "16 % (about 9.1 degrees, 1:6.3)", "16 % is about 9.1 degrees, 1:6.3"},
	{steep, "14 %", "14 % (about 8 degrees, 1:7.1)", "14 % is about 8 degrees, 1:7.1"},
	{steep, "8 degrees", "8 degrees (about 14.1 %, 1:7.1)", "8 degrees is about 14.1 %, 1:7.1"},
	{steep, "1 deg", "1 degree (about 1.7 %, 1:57.3)", "1 degree is about 1.7 %, 1:57.3"},
	{steep, "8.33 %", "8.33 % (about 4.8 degrees, 1:12)", "8.33 % is about 4.8 degrees, 1:12"}, // kept as 8.5
	{steep, "0 %", "0 % (flat)", "0 % is flat"},
	{steep, "1:48", "1:48 (about 2.1 %, 1.2 degrees)", "1:48 is about 2.1 %, 1.2 degrees"},
	{ankle, "-8.25 deg", "-8.25 degrees", "-8.25 degrees"},
	{change, "1 3/16 in", "1 3/16 in (30.2 mm)", "1 3/16 in is about 30.2 mm"},
	{pack, "8 lb 4 oz", "8 lb 4 oz (3.7 kg)", "8 lb 4 oz is about 3.7 kg"}, // 3.742
	{measures["ramp"], "8,33 %", "8.33 % (about 4.8 degrees, 1:12)", "8.33 % is about 4.8 degrees, 1:12"},
	{measures["tall"], "5 ft 6", "5 ft 6 in (168 cm)", "5 ft 6 in is about 168 cm"},
}

func TestShowAgain(t *testing.T) {
	for _, c := range shownAgain {
		v, err := Read(c.text, c.m)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if got := c.m.Show(v); got != c.show {
			t.Errorf("%q is shown as %q, want %q", c.text, got, c.show)
		}
		if got := c.m.Back(v); got != c.back {
			t.Errorf("%q is read back as %q, want %q", c.text, got, c.back)
		}
	}
}

// Any answer of any measure, shown in any of its units, can be typed again, and
// means the same to half of what is shown.
func TestShownCanBeTyped(t *testing.T) {
	for name, m := range measures {
		for i := 0; i < m.Answers(); i += 1 + m.Answers()/300 {
			for _, code := range m.Accept {
				text, _, _ := strings.Cut(m.Show(Value{Kind: m.Kind(), Num: m.At(i), Unit: code}), " (")
				v, err := Parse(text, m)
				if err != nil {
					t.Fatalf("%s: %q: %v", name, text, err)
				}
				u := unit(code)
				if code == Ratio { // "1 in 0.5" is said in % instead
					u = unit(v.Unit)
				}
				got, want := across(v.Num, m.Kind(), u.Kind), across(m.At(i), m.Kind(), u.Kind)
				half := u.counter().Canonical(m.stepOf(u)) / 2
				if u.Code == Ratio {
					got, want, half = 1/got, 1/want, 0.5
				}
				if math.Abs(got-want) > half+1e-9 {
					t.Fatalf("%s: %v is shown as %q, which is %v", name, want, text, got)
				}
			}
		}
	}
}

// A step that is in no parts of a ruler is written with a point.
func TestNumberInSteps(t *testing.T) {
	for _, c := range []struct {
		x, step float64
		want    string
	}{{1.5, 1.0 / 64, "1 1/2"}, {1.27, 0.01, "1.27"}, {1.5, 1.0 / 128, "1.5"}} {
		if got := unit("[in_i]").number(c.x, c.step); got != c.want {
			t.Errorf("%v in steps of %v is %q, want %q", c.x, c.step, got, c.want)
		}
	}
}
