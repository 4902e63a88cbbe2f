package figure

import (
	"math"
	"math/big"
	"math/rand"
	"strings"
	"testing"

	"keelpath/builder/wording"
)

// The values of the figures once more, by exact fractions and by a series of
// arcus tangent in fractions: nothing of package mechanics or formula is used.

func rat(x float64) *big.Rat { return new(big.Rat).SetFloat64(x) }

// degreesOf is atan(x) in degrees for 0 <= x <= 1, by Euler's series
// atan(x) = sum of 2^2n (n!)^2 / (2n+1)! * x^(2n+1) / (1+x^2)^(n+1).
func degreesOf(x *big.Rat) float64 {
	const precise = 200
	f := func(r *big.Rat) *big.Float { return new(big.Float).SetPrec(precise).SetRat(r) }
	square := new(big.Rat).Mul(x, x)
	over := new(big.Rat).Add(square, big.NewRat(1, 1))
	term := new(big.Float).SetPrec(precise).Quo(f(x), f(over))
	step := new(big.Float).SetPrec(precise).Quo(f(square), f(over))
	sum := new(big.Float).SetPrec(precise)
	for n := int64(1); n < 90; n++ {
		sum.Add(sum, term)
		term.Mul(term, step)
		term.Mul(term, f(big.NewRat(2*n, 2*n+1)))
	}
	pi, _, _ := big.ParseFloat("3.14159265358979323846264338327950288419716939937510582", 10, precise, big.ToNearestEven)
	sum.Mul(sum, new(big.Float).SetInt64(180)).Quo(sum, pi)
	out, _ := sum.Float64()
	return out
}

func TestSeriesIsRight(t *testing.T) {
	for _, x := range []float64{0, 1.0 / 12, 0.1, 0.5, 1} {
		if d := degreesOf(rat(x)) - math.Atan(x)*180/math.Pi; math.Abs(d) > 1e-12 {
			t.Errorf("atan(%v) is off by %g", x, d)
		}
	}
}

// amounts gives a figure's settings with some amounts in canonical units.
func at(t *testing.T, f *Figure, amounts map[string]float64, chosen map[string]string) Settings {
	t.Helper()
	s, err := f.Start(nil)
	if err != nil {
		t.Fatal(err)
	}
	for id, x := range amounts {
		v := s.Amounts[id]
		v.Num, v.Rest = x, 0
		s.Amounts[id] = v
	}
	for id, c := range chosen {
		s.Chosen[id] = c
	}
	return s
}

func degreesWord(x float64) string { return strings.TrimSuffix(tenths(x), ".0") }

func tenths(x float64) string {
	return new(big.Rat).SetFloat64(math.Floor(x*10+0.5) / 10).FloatString(1)
}

// nearTie leaves out inputs whose tenth a last digit could turn.
func nearTie(x float64) bool { f := math.Abs(x*10 - math.Floor(x*10) - 0.5); return f < 1e-6 }

// Which way the knee goes: shoe-heel-answer-2014, gait-analysis-table,
// three-women-footwear-cases; for the shin leaning back, clinic-shoe-page.
func TestHeelChangeBySecondComputation(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	f, told := Find("heel-change"), 0
	for range 2000 {
		nh, nb, uh, ub, foot := r.Intn(101), r.Intn(61), r.Intn(101), r.Intn(61), 180+r.Intn(141)
		s := at(t, f, map[string]float64{"new-heel": float64(nh), "new-ball": float64(nb), "usual-heel": float64(uh), "usual-ball": float64(ub), "length": float64(foot)}, nil)
		change := nh - nb - uh + ub
		settled := f.Settle(s)
		got, label := settled.Texts["tips"], settled.Texts["knee-3"]
		if change == 0 {
			if !strings.Contains(got, "the same heel height") {
				t.Fatalf("no change is told as %q", got)
			}
			if label != "" {
				t.Fatalf("no change pushes the knee %q", label)
			}
			continue
		}
		size := int64(change)
		word, knee := "higher at the heel. If nothing is readjusted, the leg tips forward", "pushed to bend"
		if change < 0 {
			size, word, knee = -size, "lower at the heel. If nothing is readjusted, the leg tips back", "pushed straight"
		}
		// lever 37/50 and 3/5 of the foot
		long, short := big.NewRat(50*size, 37*int64(foot)), big.NewRat(5*size, 3*int64(foot))
		if short.Cmp(big.NewRat(1, 1)) > 0 {
			continue
		}
		least, most := degreesOf(long), degreesOf(short)
		if nearTie(least) || nearTie(most) {
			continue
		}
		want := "by about " + degreesWord(least) + " to " + degreesWord(most) + " degree"
		if !strings.Contains(got, want) || !strings.Contains(got, word) || !strings.Contains(got, knee) || "pushed "+label != knee {
			t.Fatalf("change %d on a foot of %d: %q and %q, want %q, %q, %q", change, foot, got, label, want, word, knee)
		}
		told++
	}
	if told < 1500 {
		t.Errorf("only %d changes were compared", told)
	}
}

func TestSlopeBySecondComputation(t *testing.T) {
	r := rand.New(rand.NewSource(6))
	f, told := Find("slope"), 0
	for range 2000 {
		rise, run := 1+int64(r.Intn(3000)), 100+int64(r.Intn(19900))
		if rise > run {
			continue
		}
		s := at(t, f, map[string]float64{"rise": float64(rise), "run": float64(run)}, map[string]string{"way": "measured"})
		d := degreesOf(big.NewRat(rise, run))
		p, _ := big.NewRat(100*rise, run).Float64()
		n, _ := big.NewRat(run, rise).Float64()
		if nearTie(d) || nearTie(p) || nearTie(n) {
			continue
		}
		unit := " degrees"
		if degreesWord(d) == "1" {
			unit = " degree"
		}
		want := "Your slope is about " + degreesWord(p) + " %, " + degreesWord(d) + unit + ", or 1:" + degreesWord(n) + "."
		if got := f.Settle(s).Texts["slope-said"]; got != want {
			t.Fatalf("%d over %d: %q, want %q", rise, run, got, want)
		}
		told++
	}
	if told < 1500 {
		t.Errorf("only %d slopes were compared", told)
	}
}

// Whole centimeters by whole numbers, and sizes by exact fractions.
func TestLengthsBySecondComputation(t *testing.T) {
	f := Find("foot-and-shoe")
	say := func(s Settings) string { return f.Settle(s).Texts["lengths"] }
	words := func(from, to int64) string {
		if from == to {
			return "Length to talk about: " + big.NewInt(to).String() + " cm."
		}
		return "Lengths to talk about: " + big.NewInt(from).String() + " to " + big.NewInt(to).String() + " cm."
	}
	for inside := int64(180); inside <= 340; inside++ {
		for _, shape := range []string{"round", "pointed"} {
			to := inside / 10
			if shape == "pointed" {
				to--
			}
			from := to
			if inside-10*to <= 6 { // whole mm below 6.35
				from--
			}
			if got := say(at(t, f, map[string]float64{"inside": float64(inside)}, map[string]string{"shape": shape})); got != words(from, to) {
				t.Fatalf("inside %d, %s: %q, want %q", inside, shape, got, words(from, to))
			}
		}
	}
	for other := int64(180); other <= 320; other++ {
		if got := say(at(t, f, map[string]float64{"other": float64(other)}, map[string]string{"from": "other"})); got != words(other/10, (other+9)/10) {
			t.Fatalf("other foot %d: %q", other, got)
		}
	}
	// zero of each system in barleycorns of the last, the last two steps longer than the foot
	systems := []struct {
		id            string
		zero2, other2 int64 // twice the zero, and twice the other rule's
	}{{"uk", 50, 50}, {"men", 48, 48}, {"women", 45, 46}}
	for half := int64(2); half <= 100; half++ {
		if half >= 64 { // European: (size - 2) * 20/3, 10 mm up and down
			mid := big.NewRat((half-4)*10, 3)
			checkSize(t, f, "eu", half, mid, mid, words)
		}
		for _, y := range systems {
			m := f.Input(y.id).measure
			if float64(half)/2 < m.From || float64(half)/2 > m.To {
				continue
			}
			barley := func(zero2 int64) *big.Rat { return big.NewRat((half+zero2-4)*254, 60) }
			checkSize(t, f, y.id, half, barley(y.zero2), barley(y.other2), words)
		}
	}
}

func checkSize(t *testing.T, f *Figure, system string, half int64, low, high *big.Rat, words func(from, to int64) string) {
	t.Helper()
	ten := big.NewRat(10, 1)
	from := new(big.Rat).Quo(new(big.Rat).Sub(low, ten), ten)
	to := new(big.Rat).Quo(new(big.Rat).Add(high, ten), ten)
	up := new(big.Int).Neg(new(big.Int).Div(new(big.Int).Neg(from.Num()), from.Denom())).Int64() // rounded up
	down := new(big.Int).Div(to.Num(), to.Denom()).Int64()
	if from.IsInt() || to.IsInt() { // on the very edge a last binary digit may decide
		return
	}
	s := at(t, f, map[string]float64{system: float64(half) / 2}, map[string]string{"from": "size", "system": system})
	if got := f.Settle(s).Texts["lengths"]; got != words(up, down) {
		t.Fatalf("%s size %v: %q, want %q", system, float64(half)/2, got, words(up, down))
	}
}

func TestLoadAndRoomBySecondComputation(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	lf, rf := Find("load"), Find("room-under-the-socket")
	pounds := func(kg *big.Rat) string {
		lb := new(big.Rat).Quo(kg, big.NewRat(45359237, 100000000))
		return lb.FloatString(0) + " lb"
	}
	for range 2000 {
		halves := []int64{20 + int64(r.Intn(480)), int64(r.Intn(121)), int64(r.Intn(121)), int64(r.Intn(121))}
		s := at(t, lf, map[string]float64{"body": float64(halves[0]) / 2, "pack": float64(halves[1]) / 2, "child": float64(halves[2]) / 2, "tools": float64(halves[3]) / 2}, nil)
		sum := big.NewRat(halves[0]+halves[1]+halves[2]+halves[3], 2)
		want := "The load to mention is " + strings.TrimSuffix(sum.FloatString(1), ".0") + " kg (" + pounds(sum) + ")"
		if got := lf.Settle(s).Texts["sum"]; !strings.HasPrefix(got, want) {
			t.Fatalf("%v: %q, want %q", halves, got, want)
		}
		a, b, c := 100+r.Intn(301), 40+r.Intn(311), r.Intn(121)
		texts := rf.Settle(at(t, rf, map[string]float64{"room": float64(a), "build": float64(b), "parts": float64(c)}, nil)).Texts
		got := texts["sum"] + texts["lacking"] // what warns is not folded, so it is a text of its own
		left := int64(a - b - c)
		switch {
		case left > 0 && !strings.HasPrefix(got, "By this sum, "+big.NewInt(left).String()+" mm"):
			t.Fatalf("%d - %d - %d: %q", a, b, c, got)
		case left == 0 && !strings.Contains(got, "nothing is left"):
			t.Fatalf("%d - %d - %d: %q", a, b, c, got)
		case left < 0 && !strings.Contains(got, "need "+big.NewInt(-left).String()+" mm"):
			t.Fatalf("%d - %d - %d: %q", a, b, c, got)
		}
	}
}

// Rows of the table of check values that the figures show (biomechanics of the
// sources named in package mechanics): building rules, and the two standing studies.
func TestPublishedSlopes(t *testing.T) {
	f := Find("slope")
	for text, want := range map[string]string{
		"1:12": "about 8.3 %, 4.8 degrees, or 1:12.", "1:20": "about 5 %, 2.9 degrees, or 1:20.", "1:48": "about 2.1 %, 1.2 degrees, or 1:48",
		"1:8": "about 12.5 %, 7.1 degrees, or 1:8.", "1:14": "about 7.1 %, 4.1 degrees, or 1:14.", "1:10": "about 10 %, 5.7 degrees, or 1:10.",
		"5 deg": "about 8.7 %, 5 degrees, or 1:11.4.", "10 deg": "about 17.6 %, 10 degrees, or 1:5.7.", "20 %": "about 20 %, 11.3 degrees, or 1:5.",
		"16 %": "about 16 %, 9.1 degrees, or 1:6.3.", "100 %": "about 100 %, 45 degrees, or 1:1.",
	} {
		s, err := f.Start(map[string]string{"steepness": text})
		if err != nil {
			t.Fatal(err)
		}
		if got := f.Settle(s).Texts["slope-said"]; !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
	// Stairs: 7 over 11 inches, and 7 3/4 over 10.
	for _, row := range []struct {
		rise, run float64
		want      string
	}{{7, 11, "32.5 degrees"}, {7.75, 10, "37.8 degrees"}, {4, 11, "20 degrees"}} {
		s := at(t, f, map[string]float64{"rise": row.rise * 25.4, "run": row.run * 25.4}, map[string]string{"way": "measured"})
		if got := f.Settle(s).Texts["slope-said"]; !strings.Contains(got, row.want) {
			t.Errorf("%v: %q", row, got)
		}
	}
}

// No text of a figure may choose for the reader, and every prompt fits the link.
func TestFiguresChooseNothing(t *testing.T) {
	r := rand.New(rand.NewSource(9))
	for _, f := range All {
		for range 300 {
			for id, text := range f.Settle(draw(r, f)).Texts {
				for _, h := range wording.In(text) {
					t.Errorf("%s says %q: %s", f.ID, h.Words, text)
				}
				if id == "prompt" && (len(text) > 300 || !strings.HasSuffix(text, "?")) {
					t.Errorf("%s: the prompt %q is empty, no question, or too long", f.ID, text)
				}
			}
		}
	}
}
