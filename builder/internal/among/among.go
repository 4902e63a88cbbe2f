// Package among tells which of many words a text holds, in one pass over it. Expressions
// are slow, and most texts hold nothing that any of them is after: so a text is
// first asked for the parts of words without which an expression finds nothing.
package among

import (
	"regexp"
	"regexp/syntax"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Most is how many groups a Finder can tell apart.
const Most = 256

// Set holds groups.
type Set [Most / 64]uint64

// Has tells whether a group is in the set.
func (s *Set) Has(group int) bool { return s[group/64]&(1<<(group%64)) != 0 }

// None tells whether no group is in it.
func (s *Set) None() bool { return *s == Set{} }

func (s *Set) add(group int) { s[group/64] |= 1 << (group % 64) }

// Finder looks for groups of stems, in capitals or small letters.
type Finder struct {
	class [256]uint8 // of each byte; 0 of those that no stem has
	many  int        // classes
	next  []uint16   // by state and class
	found [][]uint16 // by state: the groups of which a stem ends here
	all   Set        // every group
	none  Set        // groups without a stem, which are always found
}

// New makes a finder of groups of stems in small letters. A group without stems is found
// in every text.
func New(groups ...[]string) *Finder {
	if len(groups) > Most {
		panic("among: too many groups")
	}
	f := &Finder{many: 1}
	for g, stems := range groups {
		f.all.add(g)
		if len(stems) == 0 {
			f.none.add(g)
		}
		for _, s := range stems {
			for i := range len(s) {
				if f.class[s[i]] == 0 {
					f.class[s[i]] = uint8(f.many)
					f.many++
				}
			}
		}
	}
	for c := 'a'; c <= 'z'; c++ {
		f.class[unicode.ToUpper(c)] = f.class[c]
	}
	f.build(groups)
	return f
}

// build makes the automaton of Aho and Corasick (1975, Commun ACM 18:333).
func (f *Finder) build(groups [][]string) {
	grow := func() uint16 {
		f.next = append(f.next, make([]uint16, f.many)...)
		f.found = append(f.found, nil)
		return uint16(len(f.found) - 1)
	}
	grow()
	for g, stems := range groups {
		for _, s := range stems {
			at := uint16(0)
			for i := range len(s) {
				way := int(at)*f.many + int(f.class[s[i]])
				if f.next[way] == 0 {
					n := grow()
					f.next[way] = n
				}
				at = f.next[way]
			}
			f.found[at] = append(f.found[at], uint16(g))
		}
	}
	fall := make([]uint16, len(f.found))
	var queue []uint16
	for c := range f.many {
		if n := f.next[c]; n != 0 {
			queue = append(queue, n)
		}
	}
	for len(queue) > 0 {
		at := queue[0]
		queue = queue[1:]
		for c := range f.many {
			way, back := int(at)*f.many+c, f.next[int(fall[at])*f.many+c]
			if n := f.next[way]; n != 0 {
				fall[n] = back
				f.found[n] = append(f.found[n], f.found[back]...)
				queue = append(queue, n)
			} else {
				f.next[way] = back
			}
		}
	}
}

// In gives the groups of which the text holds a stem.
func (f *Finder) In(text string) Set {
	out, at := f.none, 0
	for i := range len(text) {
		at = int(f.next[at*f.many+int(f.class[text[i]])])
		for _, g := range f.found[at] {
			out.add(int(g))
		}
	}
	if strings.Contains(text, "\u017f") || strings.Contains(text, "\u212a") {
		return f.all // a long s and the sign of kelvin are an s and a k, as expressions see it
	}
	return out
}

// Needs gives lists of parts of words. Every text that the expression finds something in
// holds one of each list, in small letters or capitals.
func Needs(e *regexp.Regexp) [][]string {
	tree, err := syntax.Parse(e.String(), syntax.Perl)
	if err != nil {
		return nil
	}
	return all(tree.Simplify())
}

// Loose gives an expression for texts in small letters. It finds something in each text, made small by
// [strings.ToLower], in which e finds something, and in some more, for it asks for no ends of words; and it is much
// quicker to find nothing. Nil where it has no such form.
//
// A long s stays as it is in a text made small, and e may take it for an s.
func Loose(e *regexp.Regexp) *regexp.Regexp {
	tree, err := syntax.Parse(e.String(), syntax.Perl)
	if err != nil || !loosen(tree) {
		return nil
	}
	loose, err := regexp.Compile(tree.String())
	if err != nil {
		return nil
	}
	return loose
}

// loosen makes an expression loose; false where it has a part that might find less in small letters.
func loosen(e *syntax.Regexp) bool {
	switch e.Op {
	case syntax.OpLiteral:
		e.Flags &^= syntax.FoldCase
		for i, r := range e.Rune {
			if e.Rune[i] = unicode.ToLower(r); !small(r) {
				return false
			}
		}
	case syntax.OpCharClass:
		for i := 0; i < len(e.Rune); i += 2 {
			if !smallToo(e.Rune, e.Rune[i], e.Rune[i+1]) {
				return false
			}
		}
	case syntax.OpWordBoundary, syntax.OpNoWordBoundary:
		e.Op = syntax.OpEmptyMatch
	}
	for _, s := range e.Sub {
		if !loosen(s) {
			return false
		}
	}
	if e.Op == syntax.OpConcat {
		e.Sub = slices.DeleteFunc(e.Sub, func(s *syntax.Regexp) bool { return s.Op == syntax.OpEmptyMatch })
		if len(e.Sub) == 0 {
			e.Op = syntax.OpEmptyMatch
		}
	}
	return true
}

// small tells whether a letter and all that (?i) takes for it are one letter once they are small.
func small(r rune) bool {
	for f := unicode.SimpleFold(r); f != r; f = unicode.SimpleFold(f) {
		if f != longS && unicode.ToLower(f) != unicode.ToLower(r) {
			return false
		}
	}
	return true
}

const longS = '\u017f'

// smallToo tells whether a class has the small letter of each letter from first to last too, as far as that can
// be seen at a look.
func smallToo(class []rune, first, last rune) bool {
	for r := max(first, 'A'); r <= min(last, 'Z'); r++ {
		if !inClass(class, unicode.ToLower(r)) {
			return false
		}
	}
	if last <= unicode.MaxASCII || last == unicode.MaxRune {
		return true
	}
	return first == last && inClass(class, unicode.ToLower(first))
}

// inClass tells whether a class, of pairs of first and last, has r.
func inClass(class []rune, r rune) bool {
	for i := 0; i < len(class); i += 2 {
		if class[i] <= r && r <= class[i+1] {
			return true
		}
	}
	return false
}

// all gives what each part of a sequence needs.
func all(e *syntax.Regexp) [][]string {
	var out [][]string
	switch e.Op {
	case syntax.OpConcat:
		for _, s := range e.Sub {
			out = append(out, all(s)...)
		}
	case syntax.OpCapture:
		return all(e.Sub[0])
	default:
		if n := needs(e); n != nil {
			out = append(out, n)
		}
	}
	return out
}

// Any tells quickly which of some expressions may find something in a text.
type Any struct {
	finder *Finder
	groups [][]int // of each expression; all of them have to be there
}

// NewAny makes ready for these expressions.
func NewAny(each ...*regexp.Regexp) *Any {
	a := &Any{}
	var groups [][]string
	for _, e := range each {
		var own []int
		for _, n := range Needs(e) {
			if len(groups) < Most { // what is over is not asked for
				own = append(own, len(groups))
				groups = append(groups, n)
			}
		}
		a.groups = append(a.groups, own)
	}
	a.finder = New(groups...)
	return a
}

// In calls try for each expression that may find something, by its number, until try gives
// false.
func (a *Any) In(text string, try func(n int) bool) {
	in := a.finder.In(text)
expressions:
	for n, own := range a.groups {
		for _, g := range own {
			if !in.Has(g) {
				continue expressions
			}
		}
		if !try(n) {
			return
		}
	}
}

func needs(e *syntax.Regexp) []string {
	switch e.Op {
	case syntax.OpLiteral:
		return []string{strings.ToLower(string(e.Rune))}
	case syntax.OpCapture, syntax.OpPlus:
		return needs(e.Sub[0])
	case syntax.OpConcat:
		var best []string
		for _, s := range e.Sub {
			if n := needs(s); n != nil && (best == nil || sharper(n, best)) {
				best = n
			}
		}
		return best
	case syntax.OpAlternate:
		var all []string
		for _, s := range e.Sub {
			n := needs(s)
			if n == nil {
				return nil
			}
			all = append(all, n...)
		}
		return all
	}
	return nil
}

// sharper tells whether fewer texts will hold one of a than of b, as a guess: by the
// shortest of each.
func sharper(a, b []string) bool {
	if x, y := shortest(a), shortest(b); x != y {
		return x > y
	}
	return len(a) < len(b)
}

func shortest(all []string) int {
	least := utf8.RuneCountInString(all[0])
	for _, s := range all {
		least = min(least, utf8.RuneCountInString(s))
	}
	return least
}
