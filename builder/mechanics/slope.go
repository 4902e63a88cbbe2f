package mechanics

import "math"

// SlopePercent gives a slope in percent.
//
//	percent = 100 x slope
//
// Source: mathematics.
func SlopePercent(slope float64) float64 { return 100 * slope }

// PercentSlope gives the slope of so many percent.
//
//	slope = percent / 100
//
// Source: mathematics.
func PercentSlope(percent float64) float64 { return percent / 100 }

// SlopeAngle gives a slope as the angle with level ground, in degrees.
//
//	angle = atan(slope)
//
// Source: mathematics.
func SlopeAngle(slope float64) float64 { return degrees(math.Atan(slope)) }

// AngleSlope gives the slope that stands at an angle, which must be less than
// upright.
//
//	slope = tan(angle)
//
// Source: mathematics.
func AngleSlope(angle float64) float64 {
	if !(math.Abs(angle) < 90) {
		return none
	}
	return math.Tan(radians(angle))
}

// Sine gives how far across a line of length 1 reaches that leans by an angle
// in degrees. Figures draw with it.
//
// Source: mathematics.
func Sine(angle float64) float64 { return math.Sin(radians(angle)) }

// SlopeN gives the n of a slope written 1:n; downhill it is negative, and level
// ground has none.
//
//	n = 1 / slope
//
// A table of federal trail rules prints 1:8 as "12 %"; it is 12.5 %.
// Source: mathematics; us-trail-slope-rules for the misprint.
func SlopeN(slope float64) float64 { return run(1, slope) }

// OneIn gives the slope written 1:n.
//
//	slope = 1 / n
//
// Source: mathematics.
func OneIn(n float64) float64 { return run(1, n) }

// AnkleNeeded gives the ankle angle, in degrees, that lets a person stand with
// the foot flat and the shin upright, facing along the slope: + is toes up, for
// facing up the slope; - is toes down, for facing down it.
//
//	angle = atan(slope)
//
// It is about standing, and says nothing of walking. What the ankle does not
// give, the knee, the hip or the heel has to.
//
// Source: mathematics; studies of standing on 5 and 10 degrees use exactly this:
// standing-on-slopes-2017, standing-on-5-degree-slope-2020.
func AnkleNeeded(slope float64) float64 { return SlopeAngle(slope) }

// HeelFelt gives the heel change, in mm, that tips the shin of a fixed ankle as
// far as a slope does: facing down (-) it is like a heel that was raised (+),
// facing up like one that was lowered. lever is in mm; see [LongLever].
//
//	change = -slope x lever
//
// Source: mathematics (the same model as in [Tilt]).
func HeelFelt(slope, lever float64) float64 {
	if !(lever > 0) {
		return none
	}
	return -slope * lever
}

// SlopeOf gives the slope that rises by rise over a level run, both in mm. With
// a stair's riser and tread it gives the slope of the stair.
//
//	slope = rise / run
//
// Source: mathematics.
func SlopeOf(rise, over float64) float64 {
	if !(over > 0) {
		return none
	}
	return rise / over
}

// RampRise gives how far a slope rises over a level run, in mm.
//
//	rise = slope x run
//
// Source: mathematics.
func RampRise(slope, over float64) float64 {
	if negative(over) {
		return none
	}
	return slope * over
}

// RampRun gives how much level run a slope needs for a rise, both in mm. Rise
// and slope must have the same sign, and the ground must not be level.
//
//	run = rise / slope
//
// Source: mathematics.
func RampRun(rise, slope float64) float64 {
	if negative(rise * slope) {
		return none
	}
	return run(rise, slope)
}

func run(rise, slope float64) float64 {
	if slope == 0 {
		return none
	}
	return rise / slope
}
