package mechanics

import (
	"math"
	"math/rand"
	"testing"

	"keelpath/builder/clienttest"
)

// The sums by the names that formulas use. A letter stands for one input: h a
// thickness or height, c a change in length, L a length of a foot, lever or run,
// s a slope, a an angle, n a number, k a mass.
var named = map[string]struct {
	inputs string
	sum    func(x []float64) float64
}{
	"effective_heel":         {"hh", func(x []float64) float64 { return EffectiveHeel(x[0], x[1]) }},
	"heel_change":            {"cc", func(x []float64) float64 { return HeelChange(x[0], x[1]) }},
	"long_lever":             {"L", func(x []float64) float64 { return LongLever(x[0]) }},
	"short_lever":            {"L", func(x []float64) float64 { return ShortLever(x[0]) }},
	"tilt":                   {"cL", func(x []float64) float64 { return Tilt(x[0], x[1]) }},
	"least_tilt":             {"cL", func(x []float64) float64 { return LeastTilt(x[0], x[1]) }},
	"most_tilt":              {"cL", func(x []float64) float64 { return MostTilt(x[0], x[1]) }},
	"knee_shift":             {"ah", func(x []float64) float64 { return KneeShift(x[0], x[1]) }},
	"heel_wedge":             {"c", func(x []float64) float64 { return HeelWedge(x[0]) }},
	"ball_wedge":             {"c", func(x []float64) float64 { return BallWedge(x[0]) }},
	"slope_percent":          {"s", func(x []float64) float64 { return SlopePercent(x[0]) }},
	"percent_slope":          {"n", func(x []float64) float64 { return PercentSlope(x[0]) }},
	"slope_angle":            {"s", func(x []float64) float64 { return SlopeAngle(x[0]) }},
	"angle_slope":            {"a", func(x []float64) float64 { return AngleSlope(x[0]) }},
	"sine":                   {"a", func(x []float64) float64 { return Sine(x[0]) }},
	"slope_n":                {"s", func(x []float64) float64 { return SlopeN(x[0]) }},
	"one_in":                 {"n", func(x []float64) float64 { return OneIn(x[0]) }},
	"ankle_needed":           {"s", func(x []float64) float64 { return AnkleNeeded(x[0]) }},
	"heel_felt":              {"sL", func(x []float64) float64 { return HeelFelt(x[0], x[1]) }},
	"slope_of":               {"cL", func(x []float64) float64 { return SlopeOf(x[0], x[1]) }},
	"ramp_rise":              {"sL", func(x []float64) float64 { return RampRise(x[0], x[1]) }},
	"ramp_run":               {"cs", func(x []float64) float64 { return RampRun(x[0], x[1]) }},
	"ball_length":            {"L", func(x []float64) float64 { return BallLength(x[0]) }},
	"foot_from_stature":      {"L", func(x []float64) float64 { return FootFromStature(x[0]) }},
	"foot_size":              {"L", func(x []float64) float64 { return FootSize(x[0]) }},
	"foot_size_pointed":      {"L", func(x []float64) float64 { return FootSizePointed(x[0]) }},
	"load":                   {"kk", func(x []float64) float64 { return Load(x[0], x[1:]...) }},
	"ankle_foot_radius":      {"L", func(x []float64) float64 { return AnkleFootRadius(x[0]) }},
	"knee_ankle_foot_radius": {"L", func(x []float64) float64 { return KneeAnkleFootRadius(x[0]) }},
	"shoe_eu":                {"L", func(x []float64) float64 { return ShoeEU(x[0]).Usual }},
	"shoe_eu_low":            {"L", func(x []float64) float64 { return ShoeEU(x[0]).Low }},
	"shoe_eu_high":           {"L", func(x []float64) float64 { return ShoeEU(x[0]).High }},
	"shoe_uk":                {"L", func(x []float64) float64 { return ShoeUK(x[0]).Usual }},
	"shoe_uk_low":            {"L", func(x []float64) float64 { return ShoeUK(x[0]).Low }},
	"shoe_uk_high":           {"L", func(x []float64) float64 { return ShoeUK(x[0]).High }},
	"shoe_us_men":            {"L", func(x []float64) float64 { return ShoeUSMen(x[0]).Usual }},
	"shoe_us_men_low":        {"L", func(x []float64) float64 { return ShoeUSMen(x[0]).Low }},
	"shoe_us_men_high":       {"L", func(x []float64) float64 { return ShoeUSMen(x[0]).High }},
	"shoe_us_women":          {"L", func(x []float64) float64 { return ShoeUSWomen(x[0]).Usual }},
	"shoe_us_women_low":      {"L", func(x []float64) float64 { return ShoeUSWomen(x[0]).Low }},
	"shoe_us_women_high":     {"L", func(x []float64) float64 { return ShoeUSWomen(x[0]).High }},
	"foot_eu":                {"n", func(x []float64) float64 { return FootEU(x[0]).Usual }},
	"foot_eu_low":            {"n", func(x []float64) float64 { return FootEU(x[0]).Low }},
	"foot_eu_high":           {"n", func(x []float64) float64 { return FootEU(x[0]).High }},
	"foot_uk":                {"n", func(x []float64) float64 { return FootUK(x[0]).Usual }},
	"foot_uk_low":            {"n", func(x []float64) float64 { return FootUK(x[0]).Low }},
	"foot_uk_high":           {"n", func(x []float64) float64 { return FootUK(x[0]).High }},
	"foot_us_men":            {"n", func(x []float64) float64 { return FootUSMen(x[0]).Usual }},
	"foot_us_men_low":        {"n", func(x []float64) float64 { return FootUSMen(x[0]).Low }},
	"foot_us_men_high":       {"n", func(x []float64) float64 { return FootUSMen(x[0]).High }},
	"foot_us_women":          {"n", func(x []float64) float64 { return FootUSWomen(x[0]).Usual }},
	"foot_us_women_low":      {"n", func(x []float64) float64 { return FootUSWomen(x[0]).Low }},
	"foot_us_women_high":     {"n", func(x []float64) float64 { return FootUSWomen(x[0]).High }},
}

// The edges that every input is tried at, and the stretch that people live in.
var tried = map[byte]struct{ from, to float64 }{
	'h': {-20, 500}, 'c': {-80, 80}, 'L': {-20, 2000}, 's': {-1, 1}, 'a': {-89, 89}, 'n': {-10, 60}, 'k': {-5, 200},
}

// The browser's sums, called as a formula calls them, agree with these.
func TestClientAgrees(t *testing.T) {
	client := clienttest.Load(t, "sums/formula.ts")
	r := rand.New(rand.NewSource(8))
	values := client.Value(map[string]any{})
	for name, f := range named {
		answers := 0
		for i := range 300 {
			x := make([]float64, len(f.inputs))
			code := []any{"f", name}
			for j := range x {
				from, to := tried[f.inputs[j]].from, tried[f.inputs[j]].to
				switch x[j] = from + r.Float64()*(to-from); {
				case i < 9: // all pairs of nothing and both ends
					x[j] = [3]float64{0, from, to}[i/[2]int{1, 3}[j]%3]
				case i%3 == 0:
					x[j] = math.Round(x[j])
				}
				code = append(code, x[j])
			}
			got, err := client.Call("evaluate", client.Value(code), values)
			if err != nil {
				t.Fatalf("%s%v threw: %v", name, x, err)
			}
			want := f.sum(x)
			none := got.Export() == nil
			switch {
			case none != math.IsNaN(want):
				t.Fatalf("%s%v: Go gives %v, the client %v", name, x, want, got)
			case none:
			case !(math.Abs(got.ToFloat()-want) <= 1e-9):
				t.Fatalf("%s%v: Go gives %.17g, the client %.17g", name, x, want, got.ToFloat())
			default:
				answers++
			}
		}
		if answers < 100 {
			t.Errorf("%s: only %d inputs had an answer to compare", name, answers)
		}
	}
}
