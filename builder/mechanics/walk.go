package mechanics

// AnkleFootRadius gives the radius of the rocker that ankle and foot together
// make in level walking, in mm, by stature in mm.
//
//	radius = 0.22 x stature
//
// Measured in 153 children; the authors found adults similar.
// Source: roll-over-shapes-children-2010.
func AnkleFootRadius(stature float64) float64 { return share(0.22, stature) }

// KneeAnkleFootRadius is the same for knee, ankle and foot together.
//
//	radius = 0.17 x stature
//
// Source: roll-over-shapes-children-2010.
func KneeAnkleFootRadius(stature float64) float64 { return share(0.17, stature) }

// CostPerMeter gives the oxygen that a meter of walking takes, in ml per kg: the
// rate in ml/kg/min over the speed in m/min. It has no kind in formulas.
//
//	cost = rate / speed
//
// Source: mathematics; values in walking-energy-below-knee.
func CostPerMeter(rate, speed float64) float64 {
	if negative(rate) || !(speed > 0) {
		return none
	}
	return rate / speed
}

// PassiveReturn gives the share of stored work that a foot without a motor gives
// back. It cannot give back more than it stored, so more than 1 is NaN: then one
// of the two numbers is wrong, or belongs to another step or source.
//
//	share = back / stored
//
// Source: mathematics (work is conserved).
func PassiveReturn(back, stored float64) float64 {
	if negative(back) || !(stored > 0) || back > stored {
		return none
	}
	return back / stored
}
