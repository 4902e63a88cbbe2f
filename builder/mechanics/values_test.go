package mechanics

import (
	"math"
	"testing"
)

// A row is one value known from outside this package.
type row struct {
	what   string
	got    float64
	want   float64
	within float64
	source string
}

// Values that a published source gives, or that follow by mathematics from one.
var verified = []row{
	// Steps of shoe sizes
	{"barleycorn, mm", Barleycorn, 8.4667, 1e-4, "shoe-size-page-inches: a third of an inch"},
	{"Paris point, mm", ParisPoint, 6.6667, 1e-4, "ISO/TS 19407:2015, introduction: two thirds of a centimeter"},

	// Slopes in rules
	{"ramp 1:12, %", SlopePercent(OneIn(12)), 8.3333, 1e-4, "2010 ADA Standards 405.2"},
	{"ramp 1:12, deg", SlopeAngle(OneIn(12)), 4.7636, 1e-4, "2010 ADA Standards 405.2"},
	{"walking surface 1:20, %", SlopePercent(OneIn(20)), 5, 1e-4, "2010 ADA Standards 403.3"},
	{"walking surface 1:20, deg", SlopeAngle(OneIn(20)), 2.8624, 1e-4, "2010 ADA Standards 403.3"},
	{"cross slope 1:48, %", SlopePercent(OneIn(48)), 2.0833, 1e-4, "2010 ADA Standards 403.3, 405.3"},
	{"cross slope 1:48, deg", SlopeAngle(OneIn(48)), 1.1935, 1e-4, "2010 ADA Standards 403.3, 405.3"},
	{"existing ramp 1:10, deg", SlopeAngle(OneIn(10)), 5.7106, 1e-4, "2010 ADA Standards 405.2, existing sites"},
	{"existing ramp 1:8, %", SlopePercent(OneIn(8)), 12.5, 1e-4, "2010 ADA Standards 405.2; a trail table prints 12"},
	{"existing ramp 1:8, deg", SlopeAngle(OneIn(8)), 7.1250, 1e-4, "2010 ADA Standards 405.2, existing sites"},
	{"ramp 1:14, %", SlopePercent(OneIn(14)), 7.1429, 1e-4, "AS 1428.1"},
	{"ramp 1:14, deg", SlopeAngle(OneIn(14)), 4.0856, 1e-4, "AS 1428.1"},
	{"ramp 1:15, deg", SlopeAngle(OneIn(15)), 3.8141, 1e-4, "UK Approved Document M"},
	{"cross slope 1:40, %", SlopePercent(OneIn(40)), 2.5, 1e-4, "AS 1428.1"},
	{"cross slope 1:40, deg", SlopeAngle(OneIn(40)), 1.4321, 1e-4, "AS 1428.1"},
	{"bevel 1:2, deg", SlopeAngle(OneIn(2)), 26.5651, 1e-4, "2010 ADA Standards 303"},
	{"5 deg, %", SlopePercent(AngleSlope(5)), 8.7489, 1e-3, "standing-on-5-degree-slope-2020; mathematics"},
	{"5 deg, n", SlopeN(AngleSlope(5)), 11.430, 1e-3, "standing-on-5-degree-slope-2020; mathematics"},
	{"10 deg, %", SlopePercent(AngleSlope(10)), 17.6327, 1e-3, "standing-on-slopes-2017; mathematics"},
	{"10 deg, n", SlopeN(AngleSlope(10)), 5.671, 1e-3, "standing-on-slopes-2017; mathematics"},
	{"driveway 20 %, deg", SlopeAngle(PercentSlope(20)), 11.3099, 1e-4, "us-driveway-codes"},
	{"driveway 16 %, deg", SlopeAngle(PercentSlope(16)), 9.0903, 1e-4, "us-driveway-codes"},
	{"100 %, deg", SlopeAngle(PercentSlope(100)), 45, 1e-9, "mathematics"},
	{"1/4 in per ft, n", SlopeN(SlopeOf(25.4/4, 12*25.4)), 48, 1e-12, "mathematics; the ADA's cross slope"},

	// Ramps and stairs
	{"1:12 over 2 m, mm", RampRise(OneIn(12), 2000), 166.7, 0.1, "UK Approved Document M"},
	{"1:15 over 5 m, mm", RampRise(OneIn(15), 5000), 333.3, 0.1, "UK Approved Document M"},
	{"1:20 over 10 m, mm", RampRise(OneIn(20), 10000), 500, 0.1, "UK Approved Document M"},
	{"1:12 up 30 in, ft", RampRun(30*25.4, OneIn(12)) / 304.8, 30, 1e-12, "mathematics; 2010 ADA Standards 405.2"},
	{"stair 7 by 11 in, deg", SlopeAngle(SlopeOf(7, 11)), 32.4712, 1e-4, "2010 ADA Standards 504.2"},
	{"stair 7.75 by 10 in, deg", SlopeAngle(SlopeOf(7.75, 10)), 37.7757, 1e-4, "International Residential Code 2018 R311.7.5"},
	{"stair 4 by 11 in, deg", SlopeAngle(SlopeOf(4, 11)), 19.9831, 1e-4, "2010 ADA Standards 504.2"},

	// Heel and tilt
	{"sole 30 and 12, mm", EffectiveHeel(30, 12), 18, 0, "foot-and-shoe-fit-1996"},
	{"platform 40 and 40, mm", EffectiveHeel(40, 40), 0, 0, "shoe-heel-answer-2014"},
	{"no change, short lever, deg", Tilt(0, 100), 0, 0, "mathematics"},
	{"no change, long lever, deg", Tilt(0, 230), 0, 0, "mathematics"},
	{"+10 on 180, deg", Tilt(10, 180), 3.1798, 0.01, "mathematics"},
	{"-10 on 180, deg", Tilt(-10, 180), -3.1798, 0.01, "mathematics; clinic-shoe-page, three-women-footwear-cases"},
	{"+10, foot 270, long lever, deg", LeastTilt(10, 270), 2.865, 0.01, "mathematics on ANSUR II"},
	{"+20 on 200, deg", Tilt(20, 200), 5.7106, 0.01, "mathematics; the change of heel-height-roll-over-2009"},
	{"+5 on 180, deg", Tilt(5, 180), 1.5911, 0.01, "mathematics; the change of heel-rise-small-changes-2022"},
	{"+1/4 in on 180, deg", Tilt(6.35, 180), 2.0204, 0.01, "mathematics; the change of shoe-heel-answer-2014"},
	{"+2 in on 200, deg", Tilt(50.8, 200), 14.252, 0.01, "mathematics; the change of heel-foot-news-2016"},
	{"lever/12, deg", Tilt(200.0/12, 200), SlopeAngle(OneIn(12)), 1e-12, "mathematics: the angle of 1:12"},
	{"facing down 1:12 on 200, mm", HeelFelt(-OneIn(12), 200), 16.667, 1e-3, "mathematics"},
	{"knee at 389, tilt 3.1798, mm", KneeShift(3.1798, 389), 21.6, 0.1, "mathematics on ANSUR II (shank)"},
	{"10 mm flatter, heel wedge", HeelWedge(-10), 10, 0, "shoe-heel-answer-2014"},
	{"10 mm flatter, ball wedge", BallWedge(-10), 0, 0, "shoe-heel-answer-2014"},
	{"10 mm higher, heel wedge", HeelWedge(10), 0, 0, "shoe-heel-answer-2014"},
	{"10 mm higher, ball wedge", BallWedge(10), 10, 0, "shoe-heel-answer-2014"},

	// Feet
	{"foot 270, ball mm", BallLength(270), 199.8, 1e-9, "mathematics on ANSUR II"},
	{"foot 270, ball mm", BallLength(270), 199.9, 0.5, "ANSUR II, mean of feet of 27 cm"},
	{"foot 250, ball mm", BallLength(250), 185.4, 0.5, "ANSUR II, mean of feet of 25 cm"},
	{"foot 220, ball mm", BallLength(220), 163.9, 1.5, "ANSUR II, mean of feet of 22 cm"},
	{"ball by foot", LongShare, 0.7404, 0.0005, "ANSUR II, pooled mean"},
	{"women's mean foot, ball mm", BallLength(246.29), 182.1, 0.5, "ANSUR II, women's means"},
	{"men's mean foot, ball mm", BallLength(271.18), 200.9, 0.5, "ANSUR II, men's means"},
	{"pooled mean foot, ball mm", BallLength((1986*246.29 + 4082*271.18) / 6068), 194.75, 0.2, "ANSUR II, pooled mean ball length"},
	{"foot by stature", StatureShare, 0.1534, 0.0005, "ANSUR II, pooled mean"},
	{"shoe inside 27.6 cm", FootSize(276), 270, 0, "foot-and-shoe-fit-1996"},
	{"shoe inside 27.6 cm, pointed", FootSizePointed(276), 260, 0, "foot-and-shoe-fit-1996"},
	{"shoe inside 27.0 cm", FootSize(270), 270, 0, "foot-and-shoe-fit-1996; a whole length stays"},

	// Shoe sizes
	{"foot 24 cm, EU", ShoeEU(240).Usual, 38, 0.01, "shoe-size-page-two-points, worked example"},
	{"foot 27 cm, EU", ShoeEU(270).Usual, 42.5, 0.01, "shoe-size-page-two-points"},
	{"foot 27 cm, EU, 15 mm room", EUSize(270, LastRoom), 42.75, 0.01, "shoe-size-page-allowance"},
	{"foot 26.2467 cm, UK", ShoeUK(262.467).Usual, 8, 0.01, "shoe-size-page-inches"},
	{"foot 26.2467 cm, US men", ShoeUSMen(262.467).Usual, 9, 0.01, "shoe-size-page-inches, shoe-size-page-allowance"},
	{"foot 26.2467 cm, US women", ShoeUSWomen(262.467).Usual, 10.5, 0.01, "shoe-size-page-inches: 22.5 on the last"},
	{"UK 8, foot mm", FootUK(8).Usual, 262.47, 0.01, "inverse of shoe-size-page-inches"},
	{"EU 40, foot mm", FootEU(40).Usual, 253.33, 0.01, "inverse of shoe-size-page-two-points"},

	// Walking and load
	{"stature 1750, rocker of ankle and foot", AnkleFootRadius(1750), 385, 0.5, "roll-over-shapes-children-2010"},
	{"stature 1750, rocker with knee", KneeAnkleFootRadius(1750), 297.5, 0.5, "roll-over-shapes-children-2010"},
	{"body 80 kg, pack 24.5 kg", Load(80, 24.5), 104.5, 0, "carried-load-studies: the pack's mass"},
	{"standing up 1:12, deg", AnkleNeeded(OneIn(12)), 4.7636, 1e-4, "mathematics; standing-on-slopes-2017"},
	{"standing down 1:12, deg", AnkleNeeded(-OneIn(12)), -4.7636, 1e-4, "mathematics; standing-on-slopes-2017"},
}

// Values from memory: no stored source gives them, so they only guard against
// a slip of ours and must not reach a page.
var fromMemory = []row{
	{"stature 1750, foot mm", FootFromStature(1750), 0.152 * 1750, 5, "from memory: 0.152 of stature, as quoted after Drillis and Contini"},
	{"+10, foot 270, short lever, deg", MostTilt(10, 270), 3.532, 0.01, "from memory: the short lever of 0.60 is an assumption"},
}

func TestVerifiedValues(t *testing.T)   { checkRows(t, verified) }
func TestFromMemoryValues(t *testing.T) { checkRows(t, fromMemory) }

func checkRows(t *testing.T, rows []row) {
	for _, r := range rows {
		if !(math.Abs(r.got-r.want) <= r.within) {
			t.Errorf("%s: got %.10g, want %g within %g (%s)", r.what, r.got, r.want, r.within, r.source)
		}
	}
}

// A published table of trail rules prints 1:8 as "12 %".
func TestTrailTableMisprint(t *testing.T) {
	if got := SlopePercent(OneIn(8)); got != 12.5 {
		t.Errorf("1:8 is %v %%, want 12.5", got)
	}
}

// asin is the form for a lever along the sole. Values of asin from a general
// calculator: 10/180 and 50.8/200.
func TestLeverAlongSoleDiffersLittle(t *testing.T) {
	asin := func(change, lever float64) float64 { return degrees(math.Asin(change / lever)) }
	for _, r := range []row{
		{"10 on 180", asin(10, 180), 3.1847, 1e-4, "mathematics"},
		{"50.8 on 200", asin(50.8, 200), 14.714, 1e-3, "mathematics"},
		{"20 on 200", asin(20, 200), Tilt(20, 200), 0.05, "the bound in Tilt's comment"},
		{"50 on 200", asin(50, 200), Tilt(50, 200), 0.5, "the bound in Tilt's comment"},
		{"20 on 150", asin(20, 150), Tilt(20, 150), 0.07, "the bound in Tilt's comment"},
		{"50 on 150", asin(50, 150), Tilt(50, 150), 1.04, "the bound in Tilt's comment"},
	} {
		checkRows(t, []row{r})
	}
}

func TestOutsideTheDomain(t *testing.T) {
	for name, got := range map[string]float64{
		"sole below nothing":      EffectiveHeel(-1, 5),
		"lever of nothing":        Tilt(10, 0),
		"foot of nothing":         MostTilt(10, 0),
		"foot below nothing":      BallLength(-270),
		"knee below the ankle":    KneeShift(3, -1),
		"upright ground":          AngleSlope(90),
		"level ground as 1:n":     SlopeN(0),
		"1:0":                     OneIn(0),
		"no run":                  SlopeOf(10, 0),
		"run below nothing":       RampRise(0.1, -1),
		"rise without slope":      RampRun(10, 0),
		"rise against the slope":  RampRun(10, -0.1),
		"felt heel without lever": HeelFelt(0.1, 0),
		"shoe below nothing":      FootSize(-1),
		"pointed shoe too short":  FootSizePointed(9),
		"size of no foot":         FootUK(-40).Usual,
		"body below nothing":      Load(-1, 5),
		"pack below nothing":      Load(80, 5, -1),
		"no number":               ShoeEU(none).Low,
	} {
		if !math.IsNaN(got) {
			t.Errorf("%s: got %v, want no value", name, got)
		}
	}
}
