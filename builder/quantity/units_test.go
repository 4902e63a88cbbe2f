package quantity

import (
	"go/constant"
	gotoken "go/token"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

// lit and the two helpers below are another library's exact arithmetic.
func lit(s string) constant.Value { return constant.MakeFromLiteral(s, gotoken.FLOAT, 0) }

func times(a, b constant.Value) constant.Value { return constant.BinaryOp(a, gotoken.MUL, b) }

func over(a, b constant.Value) constant.Value { return constant.BinaryOp(a, gotoken.QUO, b) }

// Each factor, worked out from the definitions in the UCUM essence file, version
// 2.2 of 2024-06-17 (source ucum-units-2024), as an exact number. Stone and ounce
// were seen in its version 1.7.
func TestFactorsOfUCUM(t *testing.T) {
	inch := times(lit("2.54"), lit("10"))                              // [in_i] = 2.54 cm
	pound := times(lit("7000"), over(lit("64.79891"), lit("1000000"))) // [lb_av] = 7000 [gr], [gr] = 64.79891 mg
	want := map[string]constant.Value{
		"mm":         lit("1"),
		"cm":         lit("10"),
		"m":          lit("1000"),
		"[in_i]":     inch,
		"[ft_i]":     times(lit("12"), inch), // [ft_i] = 12 [in_i]
		"kg":         lit("1"),
		"g":          lit("0.001"),
		"[lb_av]":    pound,
		"[oz_av]":    over(pound, lit("16")), // [oz_av] = [lb_av]/16
		"[stone_av]": times(lit("14"), pound),
		"deg":        lit("1"),
		"%":          lit("0.01"), // % = 10*-2
		"1":          lit("1"),
	}
	for _, u := range units {
		if u.Code == Ratio {
			continue
		}
		got := over(constant.MakeInt64(u.Num), constant.MakeInt64(u.Den))
		if want[u.Code] == nil || !constant.Compare(got, gotoken.EQL, want[u.Code]) {
			t.Errorf("%s is %v, want %v", u.Code, got, want[u.Code])
		}
		delete(want, u.Code)
		if f, _ := u.Exact().Float64(); f != u.Canonical(1) {
			t.Errorf("1 %s is %v, and the nearest float64 is %v", u.Code, u.Canonical(1), f)
		}
	}
	for code := range want {
		t.Errorf("there is no unit %s", code)
	}
}

// The 1959 agreement (source international-yard): yard 0.9144 m, pound
// 0.45359237 kg, both exact. From memory: NIST Special Publication 811 has the
// same inch and pound.
func TestFactorsOf1959(t *testing.T) {
	yard, _ := new(big.Rat).SetString("914.4")
	if got := new(big.Rat).Mul(unit("[ft_i]").Exact(), big.NewRat(3, 1)); got.Cmp(yard) != 0 {
		t.Errorf("3 ft are %v mm", got)
	}
	pound, _ := new(big.Rat).SetString("0.45359237")
	if got := unit("[lb_av]").Exact(); got.Cmp(pound) != 0 {
		t.Errorf("1 lb is %v kg", got)
	}
}

// Check values from published sources, named by their ids in
// content/sources.yaml where the source has one. All are verified rows; none is
// from memory. "math" follows from the formula: atan of rise over run.
func TestCheckValues(t *testing.T) {
	const ucum = "ucum-units-2024"
	for _, c := range []struct {
		x        float64
		from, to string
		want     float64
		tol      float64
		source   string
	}{
		{1, "in", "mm", 25.4, 0, ucum},
		{1, "lb", "kg", 0.45359237, 0, ucum + ", international-yard"},
		{1, "lb", "g", 453.59237, 1e-9, ucum + ": 7000 x 64.79891 mg"},
		{300, "lb", "kg", 136.0777, 1e-4, ucum},
		{400, "lb", "kg", 181.4369, 1e-4, ucum},
		{320, "lb", "kg", 145.1496, 1e-4, ucum},
		{100, "kg", "lb", 220.4623, 1e-4, ucum},
		{3.0 / 8, "in", "mm", 9.525, 0, ucum},
		{3.0 / 4, "in", "mm", 19.05, 0, ucum},
		{2, "in", "mm", 50.8, 0, ucum},
		{1.0 / 3, "in", "mm", 8.4667, 1e-4, "barleycorn: shoe-size-page-inches"},
		{2.0 / 3, "cm", "mm", 6.6667, 1e-4, "Paris point: shoe-size-standard-2015"},
		{12, "1:n", "%", 8.3333, 1e-4, "us-ramp-slope-rule-2010"},
		{12, "1:n", "deg", 4.7636, 1e-4, "us-ramp-slope-rule-2010, math"},
		{20, "1:n", "%", 5, 1e-4, "us-walking-slope-rule-2010"},
		{20, "1:n", "deg", 2.8624, 1e-4, "us-walking-slope-rule-2010, math"},
		{48, "1:n", "%", 2.0833, 1e-4, "us-walking-slope-rule-2010"},
		{48, "1:n", "deg", 1.1935, 1e-4, "us-walking-slope-rule-2010, math"},
		{10, "1:n", "deg", 5.7106, 1e-4, "us-ramp-slope-rule-2010, math"},
		{8, "1:n", "%", 12.5, 1e-4, "us-ramp-slope-rule-2010; us-trail-slope-rules prints 12 % for it"},
		{8, "1:n", "deg", 7.1250, 1e-4, "us-ramp-slope-rule-2010, math"},
		{14, "1:n", "%", 7.1429, 1e-4, "australia-ramp-standard"},
		{14, "1:n", "deg", 4.0856, 1e-4, "australia-ramp-standard, math"},
		{15, "1:n", "deg", 3.8141, 1e-4, "uk-ramp-guidance, math"},
		{40, "1:n", "%", 2.5, 1e-4, "australia-ramp-standard"},
		{40, "1:n", "deg", 1.4321, 1e-4, "australia-ramp-standard, math"},
		{2, "1:n", "deg", 26.5651, 1e-4, "ADA 2010 s.303, math"},
		{5, "deg", "%", 8.7489, 1e-3, "math"},
		{5, "deg", "1:n", 11.430, 1e-3, "math"},
		{10, "deg", "%", 17.6327, 1e-3, "math"},
		{10, "deg", "1:n", 5.671, 1e-3, "math"},
		{20, "%", "deg", 11.3099, 1e-4, "us-driveway-codes, math"},
		{16, "%", "deg", 9.0903, 1e-4, "us-driveway-codes, math"},
		{100, "%", "deg", 45, 1e-9, "math"},
		{100 * 0.25 / 12, "%", "1:n", 48, 1e-12, "1/4 in a foot: us-walking-slope-rule-2010, math"},
		{100 * 7.0 / 11, "%", "deg", 32.4712, 1e-4, "us-stair-rule-2010: riser 7 in, tread 11 in"},
		{100 * 7.75 / 10, "%", "deg", 37.7757, 1e-4, "us-home-stair-code-2018: riser 7 3/4 in, tread 10 in"},
		{100 * 4.0 / 11, "%", "deg", 19.9831, 1e-4, "us-stair-rule-2010: riser 4 in, tread 11 in"},
	} {
		got, err := Convert(c.x, c.from, c.to)
		if err != nil || math.Abs(got-c.want) > c.tol {
			t.Errorf("%v %s is %v %s, want %v within %v; source: %s (%v)", c.x, c.from, got, c.to, c.want, c.tol, c.source, err)
		}
	}
	if got, _ := Convert(8, Ratio, "%"); got == 12 {
		t.Error("1:8 must not come out as the 12 % that a trail rule prints")
	}
}

// Rise of a ramp over its run. Source: uk-ramp-guidance (1:12 over 2 m,
// 1:15 over 5 m, 1:20 over 10 m), to a tenth of a millimeter.
func TestRamps(t *testing.T) {
	for _, c := range []struct{ n, run, rise float64 }{{12, 2, 166.7}, {15, 5, 333.3}, {20, 10, 500}} {
		got := unit(Ratio).Canonical(c.n) * unit("m").Canonical(c.run)
		if math.Abs(got-c.rise) > 0.1 {
			t.Errorf("1:%v over %v m rises %v mm, want %v", c.n, c.run, got, c.rise)
		}
	}
	// math: 1:12 with a rise of 30 in needs a run of 30 ft.
	run := unit("[in_i]").Canonical(30) / unit(Ratio).Canonical(12)
	if got := unit("[ft_i]").From(run); got != 30 {
		t.Errorf("1:12 with a rise of 30 in runs %v ft", got)
	}
}

// Any unit to any other of its kind and back, to a billionth of the amount.
func TestRoundTrips(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	for _, f := range units {
		for _, to := range units {
			if !fits(f.Kind, to.Kind) {
				continue
			}
			for range 200 {
				x := r.Float64()*80 + 0.01
				there, err := Convert(x, f.Code, to.Code)
				back, err2 := Convert(there, to.Code, f.Code)
				if err != nil || err2 != nil || math.Abs(back-x) > 1e-9*x {
					t.Fatalf("%v %s by %s comes back as %v (%v, %v)", x, f.Code, to.Code, back, err, err2)
				}
			}
		}
	}
}

func TestConvertRefuses(t *testing.T) {
	for _, c := range [][2]string{{"mm", "kg"}, {"deg", "mm"}, {"%", "1"}, {"furlong", "mm"}, {"mm", "ell"}} {
		if x, err := Convert(1, c[0], c[1]); err == nil {
			t.Errorf("1 %s became %v %s", c[0], x, c[1])
		}
	}
}

func TestSteepestGround(t *testing.T) {
	for _, d := range []float64{90, 95, 1e9} {
		if !math.IsInf(Rise(d), 1) || !math.IsInf(Rise(-d), -1) {
			t.Errorf("%v degrees: %v and %v", d, Rise(d), Rise(-d))
		}
	}
}
