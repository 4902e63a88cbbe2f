package quantity

import (
	"errors"
	"math"
	"regexp"
	"strings"
	"testing"
)

func TestNewMeasureRefuses(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		unit           string
		accept         []string
		from, to, step float64
		says           string
	}{
		{"furlong", nil, 0, 1, 1, `there is no unit "furlong"`},
		{"mm", []string{"ell"}, 0, 1, 1, `there is no unit "ell"`},
		{"mm", []string{"kg"}, 0, 1, 1, `cannot accept "kg", which is a weight`},
		{"1:n", nil, 0, 1, 1, `use "%" as its unit`},
		{"mm", nil, 5, 5, 1, "from below to"},
		{"mm", nil, 0, 5, 0, "step above 0"},
		{"mm", nil, 0, nan, 1, "from below to"},
		{"mm", nil, 0, 5, nan, "step above 0"},
		{"mm", nil, 0, 5, 2, "whole multiples"},
		{"m", nil, 0, 1e6, 1, "too far out"},
		{"mm", nil, 0, 1000, 0.0001, "too far out"},
		{"mm", nil, 0, math.Inf(1), 1, "too far out"},
		{"deg", []string{"%"}, 0, 90, 1, "90 degrees or more is no slope"},
	} {
		_, err := NewMeasure(c.unit, c.accept, c.from, c.to, c.step)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%+v: %v", c, err)
		}
	}
}

// Every answer of every measure is a plain number: what a person would write,
// not 0.30000000000000004.
func TestAnswers(t *testing.T) {
	if n := heel.Answers(); n != 121 {
		t.Errorf("heel has %d answers", n)
	}
	tenths := measure("cm", nil, 0, 2, 0.01) // tenths of a millimeter
	if tenths.Answers() != 201 || tenths.At(3) != 0.3 || tenths.At(200) != 20 {
		t.Errorf("%d answers, %v, %v", tenths.Answers(), tenths.At(3), tenths.At(200))
	}
	if steep.At(7) != 0.035 || steep.At(28) != 0.14 || ankle.At(0) != -20 || ankle.At(41) != 0.5 {
		t.Error(steep.At(7), steep.At(28), ankle.At(0), ankle.At(41))
	}
	for name, m := range measures {
		if m.At(0) != m.From || m.At(m.Answers()-1) != m.To {
			t.Errorf("%s: from %v to %v, and answers from %v to %v", name, m.From, m.To, m.At(0), m.At(m.Answers()-1))
		}
	}
}

// The number of an answer, its amount and what a person types stand for each other.
func TestAnswersByNumber(t *testing.T) {
	for name, m := range measures {
		for i := range m.Answers() {
			if k := m.Index(m.At(i)); k != i {
				t.Fatalf("%s: answer %d is %v, which is the amount of answer %d", name, i, m.At(i), k)
			}
			if v, err := Read(m.Typed(i), m); err != nil || v.Num != m.At(i) {
				t.Fatalf("%s: answer %d is typed %q, which reads as %v (%v) and not %v", name, i, m.Typed(i), v.Num, err, m.At(i))
			}
		}
		if low, high := m.Index(m.From-3*m.Step), m.Index(m.To+3*m.Step); low != 0 || high != m.Answers()-1 {
			t.Errorf("%s: amounts outside have the numbers %d and %d", name, low, high)
		}
	}
	for _, c := range []struct {
		m    Measure
		i    int
		want string
	}{{heel, 38, "38 mm"}, {steep, 17, "8.5 %"}, {ankle, 3, "-18.5 deg"}} {
		if got := c.m.Typed(c.i); got != c.want {
			t.Errorf("answer %d is typed %q, want %q", c.i, got, c.want)
		}
	}
}

func TestDecimals(t *testing.T) {
	for _, c := range []struct {
		x      float64
		places int
		want   string
	}{{100, 0, "100"}, {100, 4, "100"}, {0.1 + 0.2, 9, "0.3"}, {-2.50, 2, "-2.5"}, {-0.0001, 3, "0"}, {0.0416666, 6, "0.041667"}} {
		if got := Decimals(c.x, c.places); got != c.want {
			t.Errorf("%v with %d decimals is %q, want %q", c.x, c.places, got, c.want)
		}
	}
}

// An answer is rounded to the step, ties away from zero, and Rest remembers.
func TestReadRounds(t *testing.T) {
	for _, c := range []struct {
		m    Measure
		text string
		want float64
	}{
		{plain, "38.4", 38},
		{plain, "38.5", 39},
		{heel, "1 1/2 in", 38},
		{heel, "120.4 mm", 120}, // inside once rounded
		{heel, "0.15 cm", 2},
		{ankle, "-8.25 deg", -8.5},
		{ankle, "8.25°", 8.5},
		{steep, "1:12", 0.085},
		{steep, "8.25 %", 0.085},
		{weight, "180 lb", 81.5},
		{change, "-3/32 in", -0.125 * 25.4}, // a tie between 1/16 and 1/8
		{measure("mm", nil, 0, 1, 0.1), "0.15", 0.2},
	} {
		v, err := Read(c.text, c.m)
		if err != nil || math.Abs(v.Num-c.want) > 1e-9 {
			t.Errorf("%q: %+v, %v; want %v", c.text, v, err, c.want)
		}
		if said, _ := Parse(c.text, c.m); math.Abs(v.Num+v.Rest-said.Num) > 1e-12 {
			t.Errorf("%q: %v and %v are not %v", c.text, v.Num, v.Rest, said.Num)
		}
	}
}

var hinted = regexp.MustCompile(`between (.+) and (.+), like (.+)\.$`)

// The limits and the example of a refusal are themselves accepted, in whatever
// unit they are said: nobody is sent round in circles.
func TestHintsAreAccepted(t *testing.T) {
	for name, m := range measures {
		for _, code := range m.Accept {
			far := map[Kind]string{Length: "999999 ", Mass: "99999 ", Angle: "89 ", Slope: "99999 ", Count: "99999"}[unit(code).Kind]
			if code == Ratio {
				far = "1:0.0001"
			} else if code != "1" {
				far += unit(code).Spell[0]
			}
			_, err := Read(far, m)
			var e *Error
			if !errors.As(err, &e) || e.Code != "range" {
				t.Errorf("%s: %q: %v", name, far, err)
				continue
			}
			limits := hinted.FindStringSubmatch(e.Text)[1:]
			for i, said := range limits {
				if _, mark, ok := strings.Cut(limits[1], " "); i == 0 && ok && !regexp.MustCompile(`[a-z%:]`).MatchString(said) {
					said += " " + mark[strings.LastIndex(mark, " ")+1:]
				}
				if _, err := Read(said, m); err != nil && said != "flat" {
					t.Errorf("%s in %s says %q, and then of %q: %v", name, code, e.Text, said, err)
				}
			}
		}
	}
}

// The largest limit, and the largest number of steps, are themselves allowed.
func TestMostIsAllowed(t *testing.T) {
	for _, from := range []float64{0, -Most} {
		if m, err := NewMeasure("mm", nil, from, from+Most, 1); err != nil || m.Answers() != Most+1 {
			t.Errorf("from %v: %d answers, %v", from, m.Answers(), err)
		}
	}
}
