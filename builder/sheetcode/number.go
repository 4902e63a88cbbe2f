package sheetcode

import (
	"math/big"
	"sync"
)

// packer gathers digits of a number with mixed bases, least significant first.
type packer struct {
	digits, bases []*big.Int
}

func (p *packer) put(digit, base *big.Int) {
	p.digits, p.bases = append(p.digits, digit), append(p.bases, base)
}

func (p *packer) add(digit, base int64) { p.put(big.NewInt(digit), big.NewInt(base)) }

// number puts them together. The last digit needs no base.
func (p *packer) number() *big.Int {
	last := len(p.digits) - 1
	n := new(big.Int).Set(p.digits[last])
	for i := last - 1; i >= 0; i-- {
		n.Add(n.Mul(n, p.bases[i]), p.digits[i])
	}
	return n
}

// unpacker takes the digits off again.
type unpacker struct{ rest *big.Int }

// get takes the next digit. One of base 0, which no sheet has, is 0.
func (u *unpacker) get(base *big.Int) *big.Int {
	digit := new(big.Int)
	if base.Sign() == 0 {
		return digit
	}
	u.rest, digit = new(big.Int).QuoRem(u.rest, base, digit)
	return digit
}

func (u *unpacker) take(base int64) int64 { return u.get(big.NewInt(base)).Int64() }

// choose is the number of sets of k out of n. Nobody may change it.
func choose(n, k int) *big.Int {
	switch {
	case k < 0 || k > n:
		return new(big.Int)
	case n < len(pascal()) && k < len(pascal()[n]):
		return pascal()[n][k]
	}
	return new(big.Int).Binomial(int64(n), int64(k))
}

// pascal holds what short sheets ask for again and again.
var pascal = sync.OnceValue(func() *[400][mostShort + 2]*big.Int {
	var out [400][mostShort + 2]*big.Int
	for n := range out {
		for k := range out[n] {
			switch {
			case k == 0:
				out[n][k] = big.NewInt(1)
			case n == 0:
				out[n][k] = new(big.Int)
			default:
				out[n][k] = new(big.Int).Add(out[n-1][k-1], out[n-1][k])
			}
		}
	}
	return &out
})

func product(a, b *big.Int) *big.Int { return new(big.Int).Mul(a, b) }

// set ranks a rising list among all of its length: the sum of choose(place, i+1).
func set(places []int) *big.Int {
	out := new(big.Int)
	for i, p := range places {
		out.Add(out, choose(p, i+1))
	}
	return out
}

// unset is set's inverse.
func unset(rank *big.Int, k int) []int {
	out := make([]int, k)
	rank = new(big.Int).Set(rank)
	for i := k; i > 0; i-- {
		p := i - 1
		for choose(p+1, i).Cmp(rank) <= 0 {
			p++
		}
		out[i-1] = p
		rank.Sub(rank, choose(p, i))
	}
	return out
}

// few is the number of sets of at most k out of n.
func few(n, k int) *big.Int {
	out := new(big.Int)
	for i := range k + 1 {
		out.Add(out, choose(n, i))
	}
	return out
}

// upTo ranks a rising list of at most k out of n places, shorter lists first.
func upTo(n int, places []int) *big.Int {
	out := set(places)
	for i := range len(places) {
		out.Add(out, choose(n, i))
	}
	return out
}

func unUpTo(n int, rank *big.Int) []int {
	rank, k := new(big.Int).Set(rank), 0
	for ; k < n && rank.Cmp(choose(n, k)) >= 0; k++ {
		rank.Sub(rank, choose(n, k))
	}
	return unset(rank, k)
}
