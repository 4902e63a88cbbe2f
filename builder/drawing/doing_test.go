package drawing

import (
	"encoding/xml"
	"fmt"
	"math"
	"strings"
	"testing"
)

// Every leg reaches its foot with the same two lengths, and its knee bends forward.
func TestLegsReach(t *testing.T) {
	for name, p := range map[string]pose{"climbing": climbing, "descending": descending, "standing": standing, "walking": walking, "ramp": upRamp} {
		for side, s := range map[string]stance{"own": p.own, "artificial": p.other} {
			ankle := s.ankle()
			knee := kneeOf(p.hip, ankle)
			thigh, shank := knee.minus(p.hip).length(), ankle.minus(knee).length()
			if math.Abs(thigh-thighLong) > 0.5 || math.Abs(shank-shankLong) > 1.5 {
				t.Errorf("%s, %s leg: thigh %.1f and shank %.1f", name, side, thigh, shank)
			}
			if mid := between(p.hip, ankle, 0.5); knee.x < mid.x {
				t.Errorf("%s, %s leg: the knee bends back", name, side)
			}
		}
		if name == "standing" {
			continue // side by side
		}
		if knee := kneeOf(p.hip, p.own.ankle()); math.Abs(knee.x-kneeOf(p.hip, p.other.ankle()).x) < 10 {
			t.Errorf("%s: one knee hides the other", name)
		}
	}
}

// Both walk to the right. Going up, the own leg is ahead and a step higher; going
// down, the artificial leg is ahead and a step lower. All feet stand on treads.
func TestStairsOrder(t *testing.T) {
	if c := climbing; c.own.foot.x <= c.other.foot.x || c.own.foot.y-c.other.foot.y != stepRise {
		t.Errorf("going up, the own leg is not first: %+v", c)
	}
	if d := descending; d.other.foot.x <= d.own.foot.x || d.own.foot.y-d.other.foot.y != stepRise {
		t.Errorf("going down, the artificial leg is not first: %+v", d)
	}
	for name, s := range map[string][2]stance{"up": {climbing.other, climbing.own}, "down": {descending.own, descending.other}} {
		for i, from := range []float64{math.Inf(-1), 44} {
			sole := points(t, node{Attrs: []xml.Attr{{Name: xml.Name{Local: "d"}, Value: s[i].soleOn().d()}}})
			if sole[0].x < from || sole[1].x > 44+float64(i)*stepRun {
				t.Errorf("%s: foot %d reaches from %.0f to %.0f", name, i, sole[0].x, sole[1].x)
			}
		}
	}
	text := words(t, "stairs-step-by-step")
	for _, want := range []string{"going up hold the rail 1. your own leg 2. the artificial leg", "going down hold the rail 1. the artificial leg 2. your own leg", "ask your therapist first"} {
		if !strings.Contains(text, want) {
			t.Errorf("no words %q in %q", want, text)
		}
	}
}

// Each number of the weekly look stands once in the picture and once in its words.
func TestWeeklyLook(t *testing.T) {
	d, _ := english.Find("foot-weekly-look", "")
	text := words(t, d.ID)
	for i := 1; i <= 6; i++ {
		if strings.Count(text, fmt.Sprintf("%d. ", i)) != 1 || strings.Count(d.Long, fmt.Sprintf("%d: ", i)) != 1 {
			t.Errorf("%d stands not once in %q and in %q", i, text, d.Long)
		}
	}
}

// The shoe goes on in three steps, in their order; the horn is in the last two.
func TestShoeOn(t *testing.T) {
	text := words(t, "shoe-on-with-a-horn")
	last := -1
	for _, step := range []string{"1. loosen the laces", "2. toe in, horn at the heel", "3. push the heel down, horn out"} {
		i := strings.Index(text, step)
		if i <= last {
			t.Errorf("%q is missing or comes too early in %q", step, text)
		}
		last = i
	}
	if horns := parsed(t, "shoe-on-with-a-horn").with("d-solid"); len(horns) != 2 {
		t.Errorf("%d horns, want one in each of the last two pictures", len(horns))
	}
}

// The flat foot on the ramp lies on it, and each try has its name once.
func TestFiveTries(t *testing.T) {
	if s := upRamp.other; s.toe != rampRise || s.foot.y != onRamp(s.foot.x) {
		t.Errorf("the foot that stands on the ramp: %+v", s)
	}
	if got := words(t, "five-tries"); got != "stand walk ramp turn stairs" {
		t.Errorf("names: %q", got)
	}
}
