package drawing

import (
	"math"
	"strings"
	"testing"
)

// Every leg of a person in a posture is as long as any other, and stands or kneels where the ground is.
func TestPosturesReach(t *testing.T) {
	for name, s := range map[string]someone{"hands and knees": onHandsAndKnees, "hands on the seat": handsOnSeat, "foot flat": strongerFootFlat,
		"seated": seatedDown, "bather": bather, "on ice": walkerOnIce, "looker": looker} {
		s = s.filled()
		for side, at := range map[string]footing{"near": s.near, "far": s.far} {
			ankle := at.ankle()
			knee := bentKnee(s.hip, ankle)
			thigh, shank := knee.minus(s.hip).length(), ankle.minus(knee).length()
			if math.Abs(thigh-personThigh) > 0.5 || math.Abs(shank-personShank) > 1.5 {
				t.Errorf("%s, %s leg: thigh %.1f and shank %.1f", name, side, thigh, shank)
			}
			if knee.y > 0 {
				t.Errorf("%s, %s leg: the knee is %.1f under the ground", name, side, knee.y)
			}
		}
		shoulder := s.neck.plus(pt{-1, 7}).turned(s.hip, s.bow)
		for _, arm := range [][]pt{s.nearArm, s.farArm} {
			if len(arm) == 2 && (arm[0].minus(shoulder).length() > 32 || arm[1].minus(arm[0]).length() > 32) {
				t.Errorf("%s: an arm of %.1f and %.1f", name, arm[0].minus(shoulder).length(), arm[1].minus(arm[0]).length())
			}
		}
	}
}

// The order and the places of hands and feet are those of the leaflets for older people (Devon, Suffolk) and for people with limb loss
// (a Welsh limb center) that the page on getting up cites: hands and knees; both hands on the seat; the foot of the
// stronger leg flat in front; push, turn and sit. That this is one's own leg is trade practice.
func TestUpFromFloor(t *testing.T) {
	on := func(arm []pt, y float64) bool { return math.Abs(arm[1].y-y) < 4.5 }
	if h := onHandsAndKnees; !on(h.nearArm, 0) || !on(h.farArm, 0) || h.bow < 80 {
		t.Errorf("not on both hands: %+v", h)
	}
	for name, s := range map[string]someone{"hands on the seat": handsOnSeat, "foot flat": strongerFootFlat} {
		if !on(s.nearArm, -seatHigh) || !on(s.farArm, -seatHigh) {
			t.Errorf("%s: a hand is not on the seat: %v %v", name, s.nearArm, s.farArm)
		}
	}
	for _, s := range []someone{onHandsAndKnees, handsOnSeat, strongerFootFlat} {
		if s.nearLeg != belowKnee || s.farLeg != ownLeg {
			t.Error("while the person faces right, the artificial leg is the nearer")
		}
		if knee := bentKnee(s.hip, s.near.ankle()); knee.y < -14 {
			t.Errorf("the knee of the artificial leg is %.1f over the floor", -knee.y)
		}
	}
	flat := func(f footing) bool { return f.y == 0 && f.toe == 0 }
	if s := strongerFootFlat; !flat(s.far) || flat(s.near) || s.far.x <= s.hip.x {
		t.Errorf("it is not the own foot that stands flat in front: %+v", s)
	}
	if s := seatedDown; s.farLeg != belowKnee || s.nearLeg != ownLeg || !flat(s.far) || !flat(s.near) {
		t.Errorf("seated and turned round, the artificial leg is the farther, and both feet are flat: %+v", s)
	}
	text, last := words(t, "up-from-the-floor"), -1
	for _, step := range []string{"1. on hands and knees", "2. both hands on the seat", "3. stronger foot flat in front", "4. push, turn, and sit"} {
		at := strings.Index(text, step)
		if at <= last {
			t.Errorf("%q is missing or out of order in %q", step, text)
		}
		last = at
	}
}

// The law of reflection (Euclid's Catoptrics): the lines from the eye and from the sole meet the mirror at one angle.
func TestMirrorShowsSole(t *testing.T) {
	d, _ := english.Find("sole-in-a-mirror", "")
	var sight []pt
	var mirror []pt
	for _, s := range traceTile(t, string(d.SVG("p"))) {
		if s.class == "dash" {
			sight = s.rings[0]
		}
		if s.class == "h" && len(s.rings[0]) == 2 {
			mirror = s.rings[0]
		}
	}
	if len(sight) != 3 || len(mirror) != 2 {
		t.Fatalf("sight %v, mirror %v", sight, mirror)
	}
	along := mirror[1].minus(mirror[0])
	angle := func(p pt) float64 {
		v := p.minus(sight[1])
		return degrees(math.Acos(math.Abs(v.x*along.x+v.y*along.y) / v.length() / along.length()))
	}
	if eye, sole := angle(sight[0]), angle(sight[2]); math.Abs(eye-sole) > 0.7 || eye < 20 {
		t.Errorf("light meets the mirror at %.1f degrees and leaves it at %.1f", sole, eye)
	}
	if looker.farLeg != bareLeg || looker.nearLeg != belowKnee {
		t.Error("the sole that is looked at is not the bare one of the own foot")
	}
}

// The board and the ramp rise by the angle that the phone shows, and the two rulers meet the line where the foot rests at the amounts beside them.
func TestMeasures(t *testing.T) {
	d, _ := english.Find("slope-with-a-phone", "")
	for _, s := range traceTile(t, string(d.SVG("p"))) {
		if s.class != "d-hole" && s.class != "d-sole" {
			continue
		}
		a, b := s.rings[0][0], s.rings[0][1]
		if s.class == "d-sole" {
			a, b = s.rings[0][1], s.rings[0][2]
		}
		if got := degrees(math.Atan2(a.y-b.y, b.x-a.x)); math.Abs(got-5) > 0.05 {
			t.Errorf("%s rises by %.2f degrees, want 5", s.class, got)
		}
	}
	if text := words(t, d.ID); !strings.Contains(text, "5°") || !strings.Contains(text, "table: 0°") {
		t.Errorf("words %q", text)
	}
	rest := points(t, only(t, "heel-with-a-ruler", "d-ghost"))
	const table, scale = 250, 1.05
	if heel, ball := (table-rest[0].y)/scale, (table-rest[len(rest)-1].y)/scale; math.Abs(heel-30) > 0.1 || math.Abs(ball-20) > 0.1 {
		t.Errorf("the foot rests %.1f mm up at the heel ruler and %.1f at the other", heel, ball)
	}
	if text := words(t, "heel-with-a-ruler"); !strings.Contains(text, "30 − 20 = 10 mm") {
		t.Errorf("words %q", text)
	}
}
