package browsertest

import (
	"fmt"
	"math"
	"strings"

	"keelpath/builder/quantity"
	"keelpath/builder/tree"
)

// A reader reads the lines of a printed tree that begin with "If", and tells whether
// one fits. It takes the words as a person would who has a pen and no formula; words
// that it does not know are a fault of the page.
type reader struct {
	said map[string]said // by the question's number
	here said            // to the question at hand
	rest string          // of the line
}

// fits tells of "If it is 14 % or more, go to 5.": does it?
func (r *reader) fits(line string) (ok bool, err error) {
	if strings.HasPrefix(line, "If no line above fits, go to ") {
		return true, nil
	}
	condition, _, found := strings.Cut(strings.TrimPrefix(line, "If "), ", go to ")
	if !found || !strings.HasPrefix(line, "If ") {
		return false, fmt.Errorf("no reader can follow the line %q", line)
	}
	defer func() {
		if trouble, is := recover().(unreadable); is {
			err = fmt.Errorf("no reader can follow %q at %q", line, string(trouble))
		}
	}()
	r.rest = condition
	ok = r.either()
	if r.rest != "" {
		panic(unreadable(r.rest))
	}
	return ok, nil
}

// unreadable is where a line stops making sense.
type unreadable string

func (r *reader) take(words string) bool {
	after, ok := strings.CutPrefix(r.rest, words)
	if ok {
		r.rest = after
	}
	return ok
}

func (r *reader) need(words string) {
	if !r.take(words) {
		panic(unreadable(r.rest))
	}
}

func (r *reader) either() bool {
	ok := r.both()
	for r.take(", or ") {
		ok = r.both() || ok
	}
	return ok
}

func (r *reader) both() bool {
	ok := r.one()
	for r.take(" and ") || r.take(", and ") {
		ok = r.one() && ok
	}
	return ok
}

func (r *reader) one() bool {
	switch {
	case r.take("("):
		ok := r.either()
		r.need(")")
		return ok
	case r.take("it is not so that "):
		return !r.one()
	case r.take("you checked "), r.take("you chose “") && r.untake("“"):
		text, who := r.quoted(), r.at()
		return has(who.texts, text)
	case r.take("you chose another answer than "):
		text, who := r.quoted(), r.at()
		return len(who.texts) > 0 && !has(who.texts, text)
	}
	left := r.amount()
	r.need(" is ")
	return r.compared(left)
}

// untake puts words back.
func (r *reader) untake(words string) bool {
	r.rest = words + r.rest
	return true
}

func (r *reader) quoted() string {
	r.need("“")
	text, after, ok := strings.Cut(r.rest, "”")
	if !ok {
		panic(unreadable(r.rest))
	}
	r.rest = after
	return text
}

func (r *reader) at() said {
	r.need(" at ")
	return r.said[r.digits()]
}

func (r *reader) digits() string {
	n := len(r.rest) - len(strings.TrimLeft(r.rest, "0123456789"))
	out := r.rest[:n]
	if n == 0 {
		panic(unreadable(r.rest))
	}
	r.rest = r.rest[n:]
	return out
}

// compared reads what an amount is held against. Nothing fits an amount not given.
func (r *reader) compared(left float64) bool {
	switch {
	case r.take("less than "):
		return left < r.amount()
	case r.take("more than "):
		return left > r.amount()
	case r.take("not "):
		return left != r.amount()
	case r.take("any amount"):
		return !math.IsNaN(left)
	case r.take("from "):
		low := r.amount()
		r.need(" to ")
		high := r.amount()
		return left >= low && left <= high
	}
	right := r.amount()
	switch {
	case r.take(" or less"):
		return left <= right
	case r.take(" or more"):
		return left >= right
	}
	return left == right
}

func (r *reader) amount() float64 {
	v := r.single()
	for {
		switch {
		case r.take(" plus "):
			v += r.single()
		case r.take(" minus "):
			v -= r.single()
		default:
			return v
		}
	}
}

func (r *reader) single() float64 {
	switch {
	case r.take("the larger of "):
		return r.pair(math.Max)
	case r.take("the smaller of "):
		return r.pair(math.Min)
	case r.take("the difference between "):
		return r.pair(func(a, b float64) float64 { return math.Abs(a - b) })
	case r.take("your answer to "):
		who := r.said[r.digits()]
		if who.measure == nil {
			return math.NaN()
		}
		return who.amount
	case r.take("this answer"), r.take("it"):
		return r.here.amount
	}
	// An amount ends where the sentence goes on.
	end := len(r.rest)
	for _, on := range []string{" or less", " or more", " and ", ", and ", ", or ", " to ", " plus ", " minus "} {
		if i := strings.Index(r.rest, on); i >= 0 && i < end {
			end = i
		}
	}
	if i := strings.Index(r.rest, ")"); i >= 0 && i < end && !strings.Contains(r.rest[:i], "(") {
		end = i
	}
	text := r.rest[:end]
	v := amountIn(r.measureOf(), text)
	if math.IsNaN(v) {
		panic(unreadable(text))
	}
	r.rest = r.rest[end:]
	return v
}

func (r *reader) pair(of func(a, b float64) float64) float64 {
	a := r.amount()
	r.need(" and ")
	return of(a, r.amount())
}

// measureOf is what tells units: that of the question at hand, else of any before it.
func (r *reader) measureOf() *tree.Measure {
	if r.here.measure != nil {
		return r.here.measure
	}
	for _, s := range r.said {
		if s.measure != nil {
			return s.measure
		}
	}
	return nil
}

// amountIn reads "8.5 % (about 5 degrees, 1 in 12)": the first amount is the one
// that counts, in the measure's own unit.
func amountIn(m *tree.Measure, text string) float64 {
	if m == nil {
		return math.NaN()
	}
	text, _, _ = strings.Cut(strings.TrimSuffix(strings.TrimSpace(text), "."), " (")
	any := m.Measure // an amount to compare with may lie between the steps
	any.Step = 1e-6
	v, err := quantity.Read(text, any)
	if err != nil {
		return math.NaN()
	}
	return v.Num
}

func has(texts []string, text string) bool {
	for _, t := range texts {
		if t == text {
			return true
		}
	}
	return false
}
