package teaching

import (
	"cmp"
	"hash/fnv"
	"slices"
)

// Shown gives the options in the order in which they are shown. Where a key could be found
// by its place, that is by chance and the same in every build: test-takers exploit places
// that a writer has balanced (Attali and Bar-Hillel 2003), so nobody sets them. An order to
// find begins in such an order too. What a learner may ask for stands as the file has it.
func (b *Beat) Shown(of *Case) []*Option {
	out := slices.Clone(b.Options)
	if b.Format.S == Ask {
		return out
	}
	slices.SortStableFunc(out, func(x, y *Option) int { return cmp.Compare(b.lot(of, x), b.lot(of, y)) })
	return out
}

func (b *Beat) lot(of *Case, o *Option) uint64 {
	h := fnv.New64a()
	for _, id := range []string{of.ID.S, b.ID.S, o.ID.S} {
		h.Write([]byte(id + "\n"))
	}
	return mixed(h.Sum64())
}

// mixed spreads a sum over all its bits: what ids end with would else stand in the low ones alone.
func mixed(x uint64) uint64 {
	x ^= x >> 33
	x *= 0xff51afd7ed558ccd
	x ^= x >> 33
	x *= 0xc4ceb9fe1a85ec53
	return x ^ x>>33
}

// InOrder gives the options by the trade's order of causes.
func (b *Beat) InOrder() []*Option {
	out := slices.Clone(b.Options)
	place := func(o *Option) int { return slices.Index(Causes, o.Cause.S) }
	slices.SortStableFunc(out, func(x, y *Option) int { return cmp.Compare(place(x), place(y)) })
	return out
}
