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
		{Length, 9.525, "[in_i]", "3/8 in (10 mm)"},
		{Length, 50.8, "[in_i]", "2 in (51 mm)"},
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
		{Mass, 81.65, "[lb_av]", "180 lb (81.5 kg)"},
		{Mass, 78, "[stone_av]", "12 st 4 lb (78 kg)"},
		{Mass, 0.5, "g", "500 g (17.5 oz)"},
		{Slope, 0.14, "%", "14 % (about 8 degrees, 1 in 7)"},
		{Slope, 0.14, "deg", "8 degrees (about 14 %, 1 in 7)"},
		{Slope, 1.0 / 12, Ratio, "1 in 12 (about 8.5 %, 5 degrees)"},
		{Slope, 0.01, "%", "1 % (about 0.5 degrees, 1 in 100)"},
		{Slope, 0.0175, "deg", "1 degree (about 2 %, 1 in 57)"},
		{Slope, 0, "%", "0 % (flat)"},
		{Slope, 0, Ratio, "0 % (flat)"},
		{Slope, -0.14, "%", "-14 % (about -8 degrees)"},
		{Slope, -0.14, Ratio, "-14 % (about -8 degrees)"},
		{Slope, 2, "%", "200 % (about 63.5 degrees)"},
		{Angle, 4.7636, "deg", "5 degrees"},
		{Angle, 1, "deg", "1 degree"},
		{Angle, -1, "deg", "-1 degree"},
		{Angle, 8, "%", "14 % (about 8 degrees)"},
		{Count, 3, "1", "3"},
		{Length, math.NaN(), "mm", ""},
		{Length, math.Inf(1), "mm", ""},
	} {
		if got := Show(Value{Kind: c.kind, Num: c.num, Unit: c.unit}); got != c.want {
			t.Errorf("%v %s in %s: %q, want %q", c.num, c.kind, c.unit, got, c.want)
		}
	}
}

// Readers see again what they wrote, beside what is reckoned with.
func TestShowAgain(t *testing.T) {
	for _, c := range []struct {
		m    Measure
		text string
		want string
	}{
		{heel, "1½\"", "1 1/2 in (38 mm)"},
		{heel, "38", "38 mm (1 1/2 in)"},
		{height, "70 in", "70 in (178 cm)"},
		{height, "5 ft 10", "5 ft 10 in (178 cm)"},
		{weight, "171 lb", "171 lb (77.5 kg)"},
		{weight, "12 st 4", "12 st 4 lb (78 kg)"},
		{steep, "1:12", "1 in 12 (about 8.5 %, 5 degrees)"},
		{change, "1 3/16 in", "1 3/16 in (30 mm)"}, // its step is 1/16
		{pack, "8 lb 4 oz", "8.25 lb (3.5 kg)"},
		{measures["ramp"], "8,33", "8.33 % (about 5 degrees, 1 in 12)"},
		{measures["tall"], "5 ft 6", "5 ft 6 in (168 cm)"},
	} {
		v, err := Read(c.text, c.m)
		if got := c.m.Show(v); err != nil || got != c.want {
			t.Errorf("%q: %q, %v; want %q", c.text, got, err, c.want)
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
