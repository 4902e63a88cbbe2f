package sheetcode

import (
	"math/big"
	"strings"
)

// symbols are Douglas Crockford's Base 32 (crockford.com/base32.html): no I, L,
// O and U. The check symbol is the number modulo 37, and has five signs more.
const (
	symbols = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
	checks  = symbols + "*~$=U"
)

// spell writes a number with its check symbol, in groups of four.
func spell(n *big.Int) string {
	digits := []byte{checks[new(big.Int).Mod(n, big.NewInt(37)).Int64()]}
	rest, digit := new(big.Int).Set(n), new(big.Int)
	for {
		rest.QuoRem(rest, big.NewInt(32), digit)
		digits = append([]byte{symbols[digit.Int64()]}, digits...)
		if rest.Sign() == 0 {
			break
		}
	}
	var b strings.Builder
	for i, d := range digits {
		if i > 0 && i%4 == 0 {
			b.WriteByte('-')
		}
		b.WriteByte(d)
	}
	return b.String()
}

// alike are letters that are read as the digits they look like.
var alike = strings.NewReplacer("I", "1", "L", "1", "O", "0")

// strip leaves the symbols of what a person typed: in capitals, without hyphens
// and blanks. A dash of any kind is a hyphen.
func strip(text string) string {
	return alike.Replace(strings.Map(func(r rune) rune {
		if strings.ContainsRune(" \t\n\r\u00a0-\u2010\u2011\u2012\u2013\u2014\u2212", r) {
			return -1
		}
		if r >= 'a' && r <= 'z' {
			r += 'A' - 'a'
		}
		return r
	}, text))
}

// unspell reads a number; ok is false where a symbol is none or the check
// symbol does not fit.
func unspell(text string) (n *big.Int, ok bool) {
	s := strip(text)
	if len(s) < 2 || len(s) > mostSymbols {
		return nil, false
	}
	n = new(big.Int)
	for i := range len(s) - 1 {
		d := strings.IndexByte(symbols, s[i])
		if d < 0 {
			return nil, false
		}
		n.Add(n.Mul(n, big.NewInt(32)), big.NewInt(int64(d)))
	}
	check := strings.IndexByte(checks, s[len(s)-1])
	return n, check >= 0 && new(big.Int).Mod(n, big.NewInt(37)).Int64() == int64(check)
}

// mostSymbols bounds what is read at all.
const mostSymbols = 400
