package quantity

import (
	"math"
	"slices"
)

// Sayings numbers the amounts of a measure as people write them, in each of the
// units that it accepts: all that are usual, as whole pounds, quarter inches or
// half degrees are, and one for each step that has no usual one. So an amount that
// is kept as a number comes back in its own unit, and never in another step.
type Sayings struct {
	m     Measure
	texts []string
	nums  []float64 // canonical, before rounding to a step
	first []int     // by unit and step: where its texts begin
}

// mostRatio is how flat a slope of 1:n is usual with each whole n; beyond it, tens are.
const mostRatio = 100

// Sayings lists them, the measure's own unit first and the lowest step first.
func (m Measure) Sayings() *Sayings {
	s := &Sayings{m: m}
	for _, code := range m.Accept {
		u := unit(code)
		list := &stepTexts{m: m, u: u, texts: make([][]string, m.Answers()), nums: make([][]float64, m.Answers())}
		list.usual()
		for k := range list.texts {
			if len(list.texts[k]) == 0 {
				list.fill(k)
			}
			s.first = append(s.first, len(s.texts))
			s.texts, s.nums = append(s.texts, list.texts[k]...), append(s.nums, list.nums[k]...)
		}
	}
	s.first = append(s.first, len(s.texts))
	return s
}

// Len is how many there are.
func (s *Sayings) Len() int { return len(s.texts) }

// Text is the i-th.
func (s *Sayings) Text(i int) string { return s.texts[i] }

// Of is the number of what an accepted amount is kept as: the same words where they
// are listed, else the nearest amount of the same unit and step.
func (s *Sayings) Of(v Value) int {
	n := s.m.Answers()
	k := s.m.Index(v.Num)
	from := slices.Index(s.m.Accept, v.Unit)*n + k
	if from < 0 || s.first[from] == s.first[from+1] {
		from = k // it cannot be said in that unit
	}
	best := s.first[from]
	for i := best; i < s.first[from+1]; i++ {
		if s.texts[i] == v.Said {
			return i
		}
		if math.Abs(s.nums[i]-v.Exact()) < math.Abs(s.nums[best]-v.Exact())-tiny {
			best = i
		}
	}
	return best
}

// stepTexts gathers what a unit's amounts are called, by step.
type stepTexts struct {
	m     Measure
	u     Unit
	texts [][]string
	nums  [][]float64
}

// usual notes what people write: the measure's own steps, or what the unit is shown
// to; quarters, tenths and parts of an inch; and each whole n of a slope of 1:n.
func (l *stepTexts) usual() {
	if l.u.Code == Ratio {
		for n := 1.0; n <= 10*mostRatio; n++ {
			if n <= mostRatio || math.Mod(n, 10) == 0 {
				l.put(n, 0)
				l.put(-n, 0)
			}
		}
		return
	}
	at := func(c float64) float64 { return l.u.counter().From(across(c, l.m.Kind(), l.u.Kind)) }
	from, to, step := at(l.m.From), at(l.m.To), at(l.m.Step)
	grid := func(g, d float64) {
		for j := math.Floor((from - step) / g); j <= math.Ceil((to+step)/g); j++ {
			l.put(clean(float64(j*g)), d)
		}
	}
	g := step
	if !l.m.takesStep(l.u) {
		for g = l.u.Step; g*10 <= step || (to-from)/g > float64(10*l.m.Answers()); {
			g *= 10
		}
	}
	grid(g, 0)
	if d := parts(g); l.u.Parts && d > 1 {
		grid(0.25, 0)
		grid(0.1, 0)
		grid(g, d)
	}
}

// fill notes an amount of the k-th step, as short as one can be written.
func (l *stepTexts) fill(k int) {
	c := l.m.At(k)
	if c == 0 && l.u.Code == Ratio {
		c = l.m.Step / 4 // nothing is flat in 1:n
	}
	u := l.u.counter()
	x := u.From(across(c, l.m.Kind(), u.Kind))
	for _, d := range []float64{1, 2, 4, 10, 20, 100, 1e3, 1e4, 1e5, 1e6} {
		if l.put(nearest(float64(x*d))/d, 0); len(l.texts[k]) > 0 {
			return
		}
	}
}

// put notes x, counted as u's display counts, in parts of 1/d or, where d is 0, in
// decimals, if it is one of the measure's amounts.
func (l *stepTexts) put(x, d float64) {
	u, n := l.u.counter(), math.Abs(x)
	text := ""
	if l.u.Bare {
		whole := math.Floor(n/float64(l.u.Per) + tiny)
		text = l.u.with(Decimals(whole, 0))
		n = clean(n - float64(whole*float64(l.u.Per)))
		if n > 0 {
			text += " "
		}
	}
	if n > 0 || text == "" {
		text += u.with(decimalOrParts(n, d))
	}
	c := across(u.Canonical(x), u.Kind, l.m.Kind())
	k := int(nearest(c/l.m.Step) - nearest(l.m.From/l.m.Step))
	text = signed(x, text)
	if k < 0 || k >= len(l.texts) || x < 0 && l.m.From >= 0 || slices.Contains(l.texts[k], text) {
		return
	}
	l.texts[k], l.nums[k] = append(l.texts[k], text), append(l.nums[k], c)
}

func decimalOrParts(x, d float64) string {
	if d > 0 {
		return mixed(x, d)
	}
	return Decimals(x, 6)
}
