package drawing

import (
	"math"
	"testing"
)

// A stiff sole that rolls touches the ground at one place, under the curve and in front
// of the end of the foot, and no part of it goes into the ground.
func TestRocker(t *testing.T) {
	for _, deg := range []float64{-8, -19, -26} {
		low, set := pt{0, math.Inf(1)}, rolled(rocker(), deg)
		for _, a := range rocker().flat(40)[0] {
			if set(a).y < low.y {
				low = pt{a.x, set(a).y}
			}
		}
		if math.Abs(low.y) > 1e-9 || low.x < footEnds || low.x > 283 {
			t.Errorf("turned by %g it stands at height %.3f, at %.0f mm from its heel", deg, low.y, low.x)
		}
	}
}

// The foot ends short of the filler, and the filler short of the shoe.
func TestPartOfFoot(t *testing.T) {
	reach := func(p path) (low, high float64) {
		low, high = math.Inf(1), math.Inf(-1)
		for _, a := range p.flat(40)[0] {
			low, high = min(low, a.x), max(high, a.x)
		}
		return low, high
	}
	_, foot := reach(ownFoot(soleHeel))
	from, to := reach(fillerToe(soleHeel))
	_, shoe := reach(upper(soleHeel, 38))
	if foot > from || to > shoe || foot/footLength > 0.65 {
		t.Errorf("the foot ends at %.0f, the filler goes from %.0f to %.0f, the shoe ends at %.0f", foot, from, to, shoe)
	}
}
