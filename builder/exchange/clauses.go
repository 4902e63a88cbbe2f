package exchange

import "slices"

// What makes an item appear is worked out as clauses: every clause must hold,
// and a clause holds where one of its parts does. That is the form which nested
// groups can say: a group inside a group is "and", and a group's own conditions,
// with "any", are "or".

// kind is what sort of thing a variable is.
type kind int

const (
	oneOf   kind = iota // the answer of a choice item: none, then each option
	amounts             // of a quantity item: none, each stretch of amounts from below
	ticked              // one option of an item that takes several: no, yes
	given               // whether an item that takes several has an answer: no, yes
)

// variable is one thing that a condition can ask an item for. Value 0 of oneOf
// and amounts is "no answer".
type variable struct {
	kind kind
	link string
	size int

	options []coding // oneOf: of the values from 1 on; ticked: the one
	bounds  []bound  // amounts: where the value i+1 begins; the first and the last have no end outward
	unit    coding
	item    *variable // ticked: whether its item has an answer
}

// bound parts two stretches of amounts: the upper one has those from At on, with
// At in it or not.
type bound struct {
	at   number
	over bool // At belongs below
}

// values is a set of a variable's values.
type values []bool

func none(v *variable) values { return make(values, v.size) }

func all(v *variable) values {
	out := none(v)
	for i := range out {
		out[i] = true
	}
	return out
}

func only(v *variable, in ...int) values {
	out := none(v)
	for _, i := range in {
		out[i] = true
	}
	return out
}

func (s values) full() bool { return !slices.Contains(s, false) }

func (s values) meets(o values) bool {
	for i := range s {
		if s[i] && o[i] {
			return true
		}
	}
	return false
}

func (s values) within(o values) bool {
	for i := range s {
		if s[i] && !o[i] {
			return false
		}
	}
	return true
}

// box holds combinations of answers: for each variable the values it may have.
// A variable that is missing may have any.
type box map[*variable]values

func (b box) clone() box {
	out := make(box, len(b))
	for v, s := range b {
		out[v] = slices.Clone(s)
	}
	return out
}

func (b box) meets(o box) bool {
	for v, s := range b {
		if t, ok := o[v]; ok && !s.meets(t) {
			return false
		}
	}
	return true
}

func (b box) within(o box) bool {
	for v, t := range o {
		s, ok := b[v]
		if !ok {
			s = all(v)
		}
		if !s.within(t) {
			return false
		}
	}
	return true
}

// clause holds where one of its variables has one of the values.
type clause map[*variable]values

// implies tells whether c holding makes o hold.
func (c clause) implies(o clause) bool {
	for v, s := range c {
		if t, ok := o[v]; !ok || !s.within(t) {
			return false
		}
	}
	return true
}

func (c clause) or(o clause) clause {
	out := clause{}
	out.add(c)
	out.add(o)
	return out
}

// add makes c hold where o does too.
func (c clause) add(o clause) {
	for v, s := range o {
		mine := c[v]
		if mine == nil {
			c[v] = slices.Clone(s)
			continue
		}
		for i := range s {
			mine[i] = mine[i] || s[i]
		}
	}
}

// always tells whether the clause holds whatever is answered.
func (c clause) always() bool {
	for _, s := range c {
		if s.full() {
			return true
		}
	}
	return false
}

// cover gives clauses that hold in every combination of yes and fail in every
// one of no; combinations in neither cannot come up. keep, where it is not nil,
// is a combination in which every single clause must fail. order says which
// variables are given up first. It gives ok false beyond most clauses.
func cover(yes, no []box, keep box, order []*variable, most int) (out []clause, ok bool) {
	if len(yes) == 0 {
		return nil, false
	}
	var boxes []box
	for _, n := range no {
		if slices.ContainsFunc(boxes, func(b box) bool { return n.within(b) }) {
			continue
		}
		b := n.clone()
		for v, s := range keep {
			if t, ok := b[v]; ok {
				for i := range s {
					t[i] = t[i] || s[i]
				}
			}
		}
		if meetsAny(b, yes) {
			return nil, false // nothing else lets every clause fail there
		}
		for _, v := range order {
			b.grow(v, yes)
		}
		if boxes = append(boxes, b); len(boxes) > most {
			return nil, false
		}
	}
	for i := len(boxes) - 1; i >= 0; i-- {
		rest := slices.Delete(slices.Clone(boxes), i, i+1)
		if !slices.ContainsFunc(no, func(n box) bool {
			return !slices.ContainsFunc(rest, func(b box) bool { return n.within(b) })
		}) {
			boxes = rest
		}
	}
	for _, b := range boxes {
		c := clause{}
		for v, s := range b {
			not := none(v)
			for i := range s {
				not[i] = !s[i]
			}
			if slices.Contains(not, true) {
				c[v] = not
			}
		}
		out = append(out, c)
	}
	return out, true
}

func meetsAny(b box, all []box) bool {
	return slices.ContainsFunc(all, func(o box) bool { return b.meets(o) })
}

// grow lets v have as many values more as keep the box clear of yes. Of amounts
// it takes neighbours only, so that what is left out is what lies below and above.
func (b box) grow(v *variable, yes []box) {
	s, ok := b[v]
	if !ok {
		return
	}
	delete(b, v)
	if !meetsAny(b, yes) {
		return
	}
	b[v] = s
	try := func(i int) bool {
		if s[i] {
			return true
		}
		s[i] = true
		if meetsAny(b, yes) {
			s[i] = false
		}
		return s[i]
	}
	if v.kind != amounts {
		for i := range s {
			try(i)
		}
		return
	}
	try(0)
	first := slices.Index(s[1:], true)
	if first < 0 {
		first = 0
		for first < len(s)-1 && !try(first+1) {
			first++
		}
		if first == len(s)-1 {
			return
		}
	}
	for i := first; i >= 1 && try(i); i-- {
	}
	for i := first + 2; i < len(s) && try(i); i++ {
	}
}

// either joins what several sources ask for by "or": each clause of one with
// each of the other. It gives ok false beyond most clauses.
func either(a, b []clause, most int) ([]clause, bool) {
	var out []clause
	for _, x := range a {
		for _, y := range b {
			if c := x.or(y); !c.always() {
				out = append(out, c)
			}
		}
		if out = fewer(out); len(out) > 8*most {
			return nil, false
		}
	}
	return out, len(out) <= most
}

// fewer leaves out clauses that another one implies.
func fewer(cs []clause) []clause {
	var out []clause
	for i, c := range cs {
		if !slices.ContainsFunc(cs[:i], func(o clause) bool { return o.implies(c) }) &&
			!slices.ContainsFunc(cs[i+1:], func(o clause) bool { return o.implies(c) && !c.implies(o) }) {
			out = append(out, c)
		}
	}
	return out
}

// abreast joins sources of which never more than one is answered, and whose
// clauses all fail where they are not: the first clause of each, the second, ...
func abreast(sources [][]clause) []clause {
	n := 0
	for _, s := range sources {
		n = max(n, len(s))
	}
	out := make([]clause, n)
	for i := range out {
		out[i] = clause{}
		for _, s := range sources {
			out[i].add(s[min(i, len(s)-1)])
		}
	}
	return out
}

// firm makes clauses hold in both readings of "not this answer" where there is
// no answer at all: the standard says that it is true, and some programs say
// that it is false. Where the other clauses do not decide it, the clause says so.
func firm(cs []clause) {
	as := slices.Clone(cs)
	for i, c := range as {
		for v, s := range c {
			if v.kind == ticked && s[0] && !settled(as, i, v.item) {
				cs[i] = cs[i].or(clause{v.item: only(v.item, 0)})
			}
		}
	}
}

// settled tells whether another clause leaves, without an answer to an item, no
// case open in which clause i rests on that item alone.
func settled(cs []clause, i int, item *variable) bool {
	rest := func(c clause) (out clause, holds bool) {
		out = clause{}
		for v, s := range c {
			switch {
			case v == item || v.item == item:
				holds = holds || s[0]
			default:
				out[v] = s
			}
		}
		return out, holds
	}
	mine, _ := rest(cs[i])
	for j, c := range cs {
		if other, holds := rest(c); j != i && !holds && other.implies(mine) {
			return true
		}
	}
	return false
}
