package mechanics

import "math"

// The lever is the distance on the floor from where the heel bears to where the
// ball bears, as a share of the foot's length.
const (
	// LongShare reaches from the very back of the heel to the ball. It is the mean
	// of ball length by foot length in 6,068 people.
	// Source: army-body-measures-2014 (our own sum on its public data).
	LongShare = 0.74

	// ShortShare is an assumption, not a measured value: load enters a shoe's heel
	// in front of its back edge.
	ShortShare = 0.60
)

// What wedges in shoes can take up, in mm: a quarter to half an inch.
// One expert's opinion. Source: shoe-heel-answer-2014.
const (
	WedgeFrom = 6.35
	WedgeMost = 12.7
)

// EffectiveHeel gives how much higher the heel stands than the ball of the foot
// inside a shoe, in mm: the sole's thickness under the heel minus its thickness
// under the ball. It is not the heel one sees from outside. A platform has
// none, and a shoe that is lower at the heel has a negative one.
//
//	H = heel - ball
//
// Source: foot-and-shoe-fit-1996, shoe-heel-answer-2014.
func EffectiveHeel(heel, ball float64) float64 {
	if negative(heel, ball) {
		return none
	}
	return heel - ball
}

// HeelChange gives how much the effective heel height changes, in mm, from the
// shoe in which the leg was set up to the new one; + is higher.
//
//	dH = new - setUp
//
// Source: mathematics.
func HeelChange(new, setUp float64) float64 { return new - setUp }

// LongLever gives the longest likely lever of a foot in mm; see [LongShare].
//
//	lever = 0.74 x foot
//
// Source: army-body-measures-2014.
func LongLever(foot float64) float64 { return share(LongShare, foot) }

// ShortLever gives a fair short bound of a foot's lever in mm; see [ShortShare].
//
//	lever = 0.60 x foot
//
// Source: assumption.
func ShortLever(foot float64) float64 { return share(ShortShare, foot) }

func share(of, length float64) float64 {
	if negative(length) {
		return none
	}
	return of * length
}

// Tilt gives how far the shin tips when the heel changes by change and nothing
// else is set anew, in degrees; + is forward. Both lengths are in mm, the lever
// along the floor.
//
//	tilt = atan(change / lever)
//
// The model is a rigid foot in a rigid shoe on a wearer who gives nothing. Soft
// heels, foam and a bending knee take up a part: say "up to". With a lever that
// is measured along the sole the exact form would be asin. On 200 mm the two
// differ by less than 0.05 degrees up to 20 mm and by less than half a degree up
// to 50 mm; on 150 mm, by less than 0.07 and 1.04.
//
// Source: mathematics. The direction: shoe-heel-answer-2014, gait-analysis-table,
// three-women-footwear-cases.
func Tilt(change, lever float64) float64 {
	if !(lever > 0) {
		return none
	}
	return degrees(math.Atan(change / lever))
}

// LeastTilt gives the smaller end of the range of [Tilt] for a foot: with the
// long lever. Show it together with [MostTilt].
//
//	tilt = atan(change / (0.74 x foot))
//
// Source: mathematics, on army-body-measures-2014.
func LeastTilt(change, foot float64) float64 { return Tilt(change, LongLever(foot)) }

// MostTilt gives the larger end of the range of [Tilt] for a foot: with the
// short lever.
//
//	tilt = atan(change / (0.60 x foot))
//
// Source: mathematics, on the assumption in [ShortShare].
func MostTilt(change, foot float64) float64 { return Tilt(change, ShortLever(foot)) }

// KneeShift gives how far the knee moves when the shin tips about the ankle, in
// mm; + is forward. kneeHeight is from ankle to knee in mm, tilt in degrees.
//
//	shift = kneeHeight x sin(tilt)
//
// Source: mathematics.
func KneeShift(tilt, kneeHeight float64) float64 {
	if negative(kneeHeight) {
		return none
	}
	return kneeHeight * math.Sin(radians(tilt))
}

// HeelWedge gives the thickness under the heel, in mm, that brings a shoe with a
// lower heel back to the height the leg was set up for. It belongs into both
// shoes: on one side alone it also changes the length of the leg. Small
// changes only; see [WedgeMost].
//
//	wedge = -change where the new heel is lower, else 0
//
// Source: shoe-heel-answer-2014.
func HeelWedge(change float64) float64 { return math.Max(0, -change) }

// BallWedge is the same for a shoe with a higher heel: the wedge lies under the
// ball of the foot, in both shoes.
//
//	wedge = change where the new heel is higher, else 0
//
// Source: shoe-heel-answer-2014.
func BallWedge(change float64) float64 { return math.Max(0, change) }
