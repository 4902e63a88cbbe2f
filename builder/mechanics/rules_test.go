package mechanics

import "testing"

// Ramps that a rule gives twice: as a ratio, and in lengths or angles. Each row
// follows from the numbers printed in one place, so neither side is ours.
var printedTwice = []row{
	{"step ramp 1:10 up 190 mm, run mm", RampRun(190, OneIn(10)), 1900, 1e-9, "australia-ramp-standard"},
	{"threshold ramp 1:8 up 35 mm, run mm", RampRun(35, OneIn(8)), 280, 1e-9, "australia-ramp-standard"},
	{"step ramp 190 in 1900 mm, n", SlopeN(SlopeOf(190, 1900)), 10, 1e-9, "australia-ramp-standard"},
	{"threshold ramp 35 in 280 mm, %", SlopePercent(SlopeOf(35, 280)), 12.5, 1e-9, "australia-ramp-standard"},
	{"flight of at most 500 mm at 1:20, run mm", RampRun(500, OneIn(20)), 10000, 1e-9, "uk-ramp-guidance"},
}

// What follows by mathematics from one number of a rule.
var fromRules = []row{
	{"existing site 1:10 up 6 in, run in", RampRun(6*25.4, OneIn(10)) / 25.4, 60, 1e-9, "us-ramp-slope-rule-2010"},
	{"existing site 1:8 up 3 in, run in", RampRun(3*25.4, OneIn(8)) / 25.4, 24, 1e-9, "us-ramp-slope-rule-2010"},
	{"curb ramp flare 1:10, %", SlopePercent(OneIn(10)), 10, 1e-9, "us-curb-ramp-rule-2010"},
	{"gutter counter slope 1:20, deg", SlopeAngle(OneIn(20)), 2.8624, 1e-4, "us-curb-ramp-rule-2010"},
	{"trail cross slope 1:20, %", SlopePercent(OneIn(20)), 5, 1e-9, "us-trail-slope-rules"},
	{"landing 1:60, %", SlopePercent(OneIn(60)), 1.6667, 1e-4, "uk-ramp-guidance"},
	{"kerb ramp 1:8 up 190 mm, run mm", RampRun(190, OneIn(8)), 1520, 1e-9, "australia-ramp-standard"},
	{"driveway 10 %, deg", SlopeAngle(PercentSlope(10)), 5.7106, 1e-4, "us-driveway-codes"},
	{"standing up 5 deg, ankle deg", AnkleNeeded(AngleSlope(5)), 5, 1e-9, "standing-on-5-degree-slope-2020"},
	{"standing down 10 deg, ankle deg", AnkleNeeded(AngleSlope(-10)), -10, 1e-9, "standing-on-slopes-2017"},
}

func TestRules(t *testing.T) {
	checkRows(t, printedTwice)
	checkRows(t, fromRules)
	known := sourceIDs(t)
	for _, r := range append(append([]row{}, printedTwice...), fromRules...) {
		if !known[r.source] {
			t.Errorf("%s: %q is not in content/sources.yaml", r.what, r.source)
		}
	}
}
