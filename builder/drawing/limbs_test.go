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

// The weight comes down at one place. It passes in front of the knee in the shoes that the
// leg was set up with, further in front over a lower heel, and behind it over a higher one;
// the shin tips back and forward by the angles of the heel steps.
func TestHeelAndKnee(t *testing.T) {
	shin := func(heel float64) (knees, leans float64) {
		k, a := kneeShin(heel)(knee), kneeShin(heel)(ankle)
		return k.x, math.Atan2(k.x-a.x, k.y-a.y) * 180 / math.Pi
	}
	low, back := shin(0)
	mid, upright := shin(kneeStep)
	high, forward := shin(2 * kneeStep)
	if !(low < mid && mid < loadAt && loadAt < high) {
		t.Errorf("knees at %.0f, %.0f and %.0f, the weight at %.0f", low, mid, high, loadAt)
	}
	one, two := math.Atan(kneeStep/ball)*180/math.Pi, math.Atan(2*kneeStep/ball)*180/math.Pi
	if math.Abs(back+one) > 1e-6 || math.Abs(upright) > 1e-6 || math.Abs(forward-(two-one)) > 1e-6 {
		t.Errorf("the shins lean %.2f, %.2f and %.2f degrees", back, upright, forward)
	}
	lines := parsed(t, "heel-and-artificial-knee").with("d-load")
	axles := parsed(t, "heel-and-artificial-knee").with("d-solid")
	if len(lines) != 3 || len(axles) != 3 {
		t.Fatalf("%d lines and %d axles", len(lines), len(axles))
	}
	for i, front := range []bool{true, true, false} {
		line, axle := points(t, lines[i])[0].x, points(t, axles[i])
		if middle := (axle[0].x + axle[6].x) / 2; (line > middle) != front {
			t.Errorf("leg %d: the line is at %.0f, the axle at %.0f", i, line, middle)
		}
	}
}

// At first the hips are level. Later the hip over the artificial leg, at the left, is the
// lower one.
func TestChildGrows(t *testing.T) {
	hips := parsed(t, "child-grows").with("d-hips")
	if len(hips) != 2 {
		t.Fatalf("%d lines through the hips", len(hips))
	}
	first, later := points(t, hips[0]), points(t, hips[1])
	if first[0].y != first[1].y {
		t.Errorf("at first the hips are at %.1f and %.1f", first[0].y, first[1].y)
	}
	if later[0].x > later[1].x || later[0].y < later[1].y+5 {
		t.Errorf("later the line through the hips is %v", later)
	}
}
