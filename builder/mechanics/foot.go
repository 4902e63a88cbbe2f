package mechanics

import "math"

// BallLength gives the likely length from the back of the heel to the ball, in
// mm, of a foot of so many mm.
//
//	ball = 0.74 x foot
//
// In 6,068 adults this was right on average to 0.1 mm, with a standard
// deviation of 3.8 mm. They were young and fit: not everyone.
// Source: army-body-measures-2014 (our own sum on its public data).
func BallLength(foot float64) float64 { return share(LongShare, foot) }

// StatureShare is foot length by stature, the mean of the same 6,068 adults
// (women 0.151, men 0.154). It is not exact across populations.
// Source: army-body-measures-2014, foot-length-and-stature-2005,
// foot-length-thesis.
const StatureShare = 0.153

// FootFromStature gives the mean foot length of adults of so many mm, in mm. A
// rough check on a measured foot, never in its place.
//
//	foot = 0.153 x stature
//
// Source: see [StatureShare].
func FootFromStature(stature float64) float64 { return share(StatureShare, stature) }

// FootSize gives the longest prosthetic foot size that a shoe takes, in mm:
// feet come in whole centimeters, so the inside length of the shoe, in mm, is
// rounded down. An inside length of whole centimeters stays as it is. Whether
// it fits well is to be tried in the shoe.
//
//	size = 10 x floor(inside / 10)
//
// Source: foot-and-shoe-fit-1996; the same rounding on clinic-shoe-page.
func FootSize(inside float64) float64 {
	if negative(inside) {
		return none
	}
	return 10 * math.Floor(inside/10)
}

// FootSizePointed is [FootSize] for a very pointed shoe: one centimeter less. It
// gives NaN where nothing would be left.
//
//	size = 10 x floor(inside / 10) - 10
//
// Source: foot-and-shoe-fit-1996.
func FootSizePointed(inside float64) float64 {
	size := FootSize(inside) - 10
	if negative(size) {
		return none
	}
	return size
}

// Room wanted between toe and shoe, in mm: a quarter to half an inch.
// Source: foot-and-shoe-fit-1996.
const (
	ToeRoomFrom = 6.35
	ToeRoomTo   = 12.7
)
