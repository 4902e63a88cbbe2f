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
