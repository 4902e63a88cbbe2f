package mechanics

import (
	"math"
	"math/rand"
	"testing"
)

func TestTiltLaws(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	for range 5000 {
		change, lever, more := r.Float64()*80+0.01, 80+r.Float64()*200, 0.01+r.Float64()*50
		here := Tilt(change, lever)
		switch {
		case Tilt(-change, lever) != -here:
			t.Fatalf("tilt of %v on %v is not odd", change, lever)
		case !(Tilt(change+more, lever) > here):
			t.Fatalf("tilt on %v does not rise from %v to %v", lever, change, change+more)
		case !(Tilt(change, lever+more) < here):
			t.Fatalf("tilt of %v does not fall from lever %v to %v", change, lever, lever+more)
		}
		foot := 150 + r.Float64()*200
		if !(MostTilt(change, foot) > LeastTilt(change, foot)) {
			t.Fatalf("range for foot %v is upside down", foot)
		}
		if !(MostTilt(-change, foot) < LeastTilt(-change, foot)) {
			t.Fatalf("range for foot %v is upside down for a lower heel", foot)
		}
	}
}

// A slope and the heel it feels like tip the shin by the same angle.
func TestSlopeFeelsLikeHeel(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	for range 5000 {
		slope, lever := r.Float64()-0.5, 80+r.Float64()*200
		if a, b := Tilt(HeelFelt(slope, lever), lever), -AnkleNeeded(slope); math.Abs(a-b) > 1e-9 {
			t.Fatalf("slope %v on lever %v: %v against %v", slope, lever, a, b)
		}
	}
}

func TestRoundTrips(t *testing.T) {
	trips := map[string]func(x float64) float64{
		"percent":  func(x float64) float64 { return PercentSlope(SlopePercent(x)) },
		"angle":    func(x float64) float64 { return AngleSlope(SlopeAngle(x)) },
		"1:n":      func(x float64) float64 { return OneIn(SlopeN(x)) },
		"the lot":  func(x float64) float64 { return OneIn(SlopeN(AngleSlope(SlopeAngle(PercentSlope(SlopePercent(x)))))) },
		"ramp":     func(x float64) float64 { return SlopeOf(RampRise(x, 1234), 1234) },
		"ramp run": func(x float64) float64 { return RampRise(0.07, RampRun(x, 0.07)) },
		"EU":       func(x float64) float64 { return FootEU(ShoeEU(x).Usual).Usual },
		"UK":       func(x float64) float64 { return FootUK(ShoeUK(x).Usual).Usual },
		"US men":   func(x float64) float64 { return FootUSMen(ShoeUSMen(x).Usual).Usual },
		"US women": func(x float64) float64 { return FootUSWomen(ShoeUSWomen(x).Usual).Usual },
	}
	r := rand.New(rand.NewSource(6))
	for name, trip := range trips {
		for range 2000 {
			x := 0.001 + r.Float64()*5
			if got := trip(x); math.Abs(got-x) > 1e-9 {
				t.Fatalf("%s: %v came back as %v", name, x, got)
			}
		}
	}
}

func TestShoeSizesRise(t *testing.T) {
	for name, size := range map[string]func(float64) Range{
		"EU": ShoeEU, "UK": ShoeUK, "US men": ShoeUSMen, "US women": ShoeUSWomen,
		"foot from EU": FootEU, "foot from UK": FootUK, "foot from US men": FootUSMen, "foot from US women": FootUSWomen,
	} {
		for x := 10.0; x < 320; x += 0.25 {
			a, b := size(x), size(x+0.25)
			if !(a.Low < b.Low && a.Usual < b.Usual && a.High < b.High) {
				t.Fatalf("%s does not rise at %v", name, x)
			}
			if !(a.Low < a.Usual && a.Usual < a.High) {
				t.Fatalf("%s: the spread at %v does not hold its middle: %+v", name, x, a)
			}
		}
	}
}

// The other rules in use stay inside the spread that is shown.
func TestSpreadHoldsTheOtherRules(t *testing.T) {
	for foot := 200.0; foot <= 320; foot++ {
		inside := func(what string, r Range, x float64) {
			if !(r.Low <= x && x <= r.High) {
				t.Errorf("foot %v: %s %v is outside %+v", foot, what, x, r)
			}
		}
		inside("EU with 15 mm", ShoeEU(foot), EUSize(foot, LastRoom))
		inside("US women by + 1", ShoeUSWomen(foot), ShoeUSMen(foot).Usual+1)
		inside("US women by + 1.5", ShoeUSWomen(foot), ShoeUSMen(foot).Usual+1.5)
		inside("foot, if + 1 was the rule", FootUSWomen(ShoeUSMen(foot).Usual+1), foot)
	}
}

func TestFootSizeNeverLonger(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	for range 20000 {
		inside := 10 + r.Float64()*350
		if r.Intn(3) == 0 {
			inside = math.Round(inside/10) * 10
		}
		size, pointed := FootSize(inside), FootSizePointed(inside)
		if size > inside || inside-size >= 10 || math.Mod(size, 10) != 0 || pointed != size-10 {
			t.Fatalf("inside %v: size %v, pointed %v", inside, size, pointed)
		}
	}
}

func TestOneWedgeOrTheOther(t *testing.T) {
	for c := -60.0; c <= 60; c += 0.5 {
		if BallWedge(c)-HeelWedge(c) != c || math.Min(BallWedge(c), HeelWedge(c)) != 0 {
			t.Fatalf("change %v: heel wedge %v, ball wedge %v", c, HeelWedge(c), BallWedge(c))
		}
	}
}
