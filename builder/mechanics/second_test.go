package mechanics

import (
	"math"
	"math/big"
	"math/rand"
	"testing"
)

// A second way to the same values: exact fractions for all that is linear, and
// 200-bit arithmetic with our own series for the angles.

func rat(x float64) *big.Rat { return new(big.Rat).SetFloat64(x) }

func frac(num, den int64) *big.Rat { return big.NewRat(num, den) }

func mul(x *big.Rat, more ...*big.Rat) *big.Rat {
	z := new(big.Rat).Set(x)
	for _, y := range more {
		z.Mul(z, y)
	}
	return z
}

func add(x *big.Rat, more ...*big.Rat) *big.Rat {
	z := new(big.Rat).Set(x)
	for _, y := range more {
		z.Add(z, y)
	}
	return z
}

func neg(x *big.Rat) *big.Rat      { return new(big.Rat).Neg(x) }
func over(x, by *big.Rat) *big.Rat { return new(big.Rat).Quo(x, by) }

const bits = 200

func wide(x float64) *big.Float { return new(big.Float).SetPrec(bits).SetFloat64(x) }

// arctan sums the series after halving the angle four times.
func arctan(x *big.Float) *big.Float {
	z := wide(0).Set(x)
	for range 4 {
		root := wide(0).Mul(z, z)
		root.Sqrt(root.Add(root, wide(1)))
		z.Quo(z, root.Add(root, wide(1)))
	}
	sum, power, square := wide(0), wide(0).Set(z), wide(0).Mul(z, z)
	for n := 1; n < 80; n += 2 {
		term := wide(0).Quo(power, wide(float64(n)))
		if n%4 == 3 {
			term.Neg(term)
		}
		sum.Add(sum, term)
		power.Mul(power, square)
	}
	return sum.Mul(sum, wide(16))
}

// angle gives atan(rise/run) in degrees.
func angle(rise, run float64) float64 {
	a := arctan(wide(0).Quo(wide(rise), wide(run)))
	a.Mul(a, perOctant)
	out, _ := a.Float64()
	return out
}

// perOctant is what turns radians into degrees: 45 / atan(1).
var perOctant = wide(0).Quo(wide(45), arctan(wide(1)))

func same(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-11*math.Max(1, math.Abs(want))) {
		t.Fatalf("%s: got %.15g, by the second way %.15g", what, got, want)
	}
}

func sameRat(t *testing.T, what string, got float64, want *big.Rat) {
	t.Helper()
	f, _ := want.Float64()
	same(t, what, got, f)
}

func TestAnglesBySeries(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 300 {
		change, lever, slope := r.Float64()*160-80, 80+r.Float64()*200, r.Float64()*2-1
		same(t, "Tilt", Tilt(change, lever), angle(change, lever))
		same(t, "SlopeAngle", SlopeAngle(slope), angle(slope, 1))
		same(t, "AnkleNeeded", AnkleNeeded(slope), angle(slope, 1))
		same(t, "AngleSlope", AngleSlope(angle(slope, 1)), slope)
		// sin(atan(c/l)) = c / hypot(c, l)
		h := r.Float64() * 500
		same(t, "KneeShift", KneeShift(angle(change, lever), h), h*change/math.Hypot(change, lever))
		foot := 150 + r.Float64()*200
		same(t, "LeastTilt", LeastTilt(change, foot), angle(change, 0.74*foot))
		same(t, "MostTilt", MostTilt(change, foot), angle(change, 0.60*foot))
	}
}

func TestLinearByFractions(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for range 2000 {
		a, b, s := r.Float64()*400, 1+r.Float64()*400, r.Float64()*0.5+0.001
		sameRat(t, "EffectiveHeel", EffectiveHeel(a, b), add(rat(a), neg(rat(b))))
		sameRat(t, "HeelChange", HeelChange(a, b), add(rat(a), neg(rat(b))))
		sameRat(t, "BallLength", BallLength(a), mul(rat(a), frac(74, 100)))
		sameRat(t, "ShortLever", ShortLever(a), mul(rat(a), frac(60, 100)))
		sameRat(t, "FootFromStature", FootFromStature(a), mul(rat(a), frac(153, 1000)))
		sameRat(t, "AnkleFootRadius", AnkleFootRadius(a), mul(rat(a), frac(22, 100)))
		sameRat(t, "KneeAnkleFootRadius", KneeAnkleFootRadius(a), mul(rat(a), frac(17, 100)))
		sameRat(t, "SlopePercent", SlopePercent(s), mul(rat(s), frac(100, 1)))
		sameRat(t, "SlopeN", SlopeN(s), over(frac(1, 1), rat(s)))
		sameRat(t, "OneIn", OneIn(a+1), over(frac(1, 1), rat(a+1)))
		sameRat(t, "SlopeOf", SlopeOf(a, b), over(rat(a), rat(b)))
		sameRat(t, "HeelFelt", HeelFelt(s, b), neg(mul(rat(s), rat(b))))
		sameRat(t, "RampRise", RampRise(s, b), mul(rat(s), rat(b)))
		sameRat(t, "RampRun", RampRun(a, s), over(rat(a), rat(s)))
		sameRat(t, "Load", Load(a, b, s), add(rat(a), rat(b), rat(s)))
	}
}

func TestShoesByFractions(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	inch := frac(254, 10)
	for range 2000 {
		foot := rat(150 + r.Float64()*200)
		f, _ := foot.Float64()
		eu := add(mul(foot, frac(15, 100)), frac(2, 1))
		corns := add(over(mul(foot, frac(3, 1)), inch), frac(2, 1))
		checkRange(t, "ShoeEU", ShoeEU(f), eu, eu, eu, 1)
		uk, men := add(corns, frac(-25, 1)), add(corns, frac(-24, 1))
		checkRange(t, "ShoeUK", ShoeUK(f), uk, uk, uk, 1)
		checkRange(t, "ShoeUSMen", ShoeUSMen(f), men, men, men, 1)
		checkRange(t, "ShoeUSWomen", ShoeUSWomen(f), add(men, frac(1, 1)), add(men, frac(3, 2)), add(men, frac(3, 2)), 1)
		size := r.Float64() * 40
		feet := func(zero *big.Rat) *big.Rat {
			return over(mul(add(rat(size), zero, frac(-2, 1)), inch), frac(3, 1))
		}
		if size >= 2 {
			back := over(add(rat(size), frac(-2, 1)), frac(15, 100))
			checkRange(t, "FootEU", FootEU(size), back, back, back, 10)
		}
		uk, men = feet(frac(25, 1)), feet(frac(24, 1))
		checkRange(t, "FootUK", FootUK(size), uk, uk, uk, 10)
		checkRange(t, "FootUSMen", FootUSMen(size), men, men, men, 10)
		checkRange(t, "FootUSWomen", FootUSWomen(size), feet(frac(45, 2)), feet(frac(45, 2)), feet(frac(23, 1)), 10)
	}
}

func checkRange(t *testing.T, what string, got Range, low, usual, high *big.Rat, spread int64) {
	t.Helper()
	sameRat(t, what+" low", got.Low, add(low, frac(-spread, 1)))
	sameRat(t, what+" usual", got.Usual, usual)
	sameRat(t, what+" high", got.High, add(high, frac(spread, 1)))
}

// The rows of the check list that hold without any tolerance, each worked out by
// this package and by hand in fractions.
func TestExactRows(t *testing.T) {
	inch := frac(254, 10)
	foot := mul(inch, frac(12, 1))
	for _, r := range []struct {
		what string
		got  float64
		want *big.Rat
	}{
		{"1/4 in per ft is 1:48", SlopeOf(25.4/4, 12*25.4), over(mul(inch, frac(1, 4)), foot)},
		{"and so 1 in 48", SlopeN(SlopeOf(25.4/4, 12*25.4)), frac(48, 1)},
		{"1:12 up 30 in runs 30 ft", RampRun(30*25.4, OneIn(12)), over(mul(inch, frac(30, 1)), frac(1, 12))},
		{"1:8 is 12.5 %", SlopePercent(OneIn(8)), frac(25, 2)},
		{"a foot of 24 cm and two Paris points make 38", ShoeEU(240).Usual, over(add(frac(240, 1), frac(40, 3)), frac(20, 3))},
	} {
		sameRat(t, r.what, r.got, r.want)
	}
}
