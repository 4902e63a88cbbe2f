// Package sheetcode packs what a reader answered and picked into a short code
// that can be read out, or typed in on another copy of the same edition, with
// nothing sent. It is the reference for site/client/sheetcode.ts.
//
// The code is one number in Crockford's Base 32 with his check symbol. It holds,
// least significant first: the edition's mark; which trees were taken; for
// each of them the rank of its path among all paths that the table makes
// possible; whether the sheet is a short one; the starred prompts; and the set of
// prompts on the sheet, as what differs from what the paths bring. What is usual
// has a low rank, so a usual sheet has a short code.
//
// Not in the code: questions of the reader's own, the order in which trees were
// taken, answers that the paths do not come by, the order in which prompts were
// added or starred, and the unit in which an amount was typed. Amounts are kept
// as steps of their measure.
package sheetcode

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"math/big"
	"slices"

	"keelpath/builder/library"
	"keelpath/builder/read"
	"keelpath/builder/told"
	"keelpath/builder/tree"
)

// Book is what both ends must know alike: an edition's trees and prompts.
type Book struct {
	Edition uint32 // its mark, below 1<<editionBits

	trees   []*tree.Tree // that the planner offers
	prompts []string     // general ones first, then in the order of the topics
	general []string
	cards   map[string][]string
	facts   []*told.Fact
	fits    map[string]fit      // by prompt: what it hangs on
	ways    map[string]*weights // by tree
}

// fit is what has to be told for a prompt to come up, and what must not have been.
type fit struct {
	Presumes []string `json:"presumes,omitempty"`
	Unless   []string `json:"unless,omitempty"`
}

// editionBits is how many bits of the edition's mark the code holds: another
// edition's code passes for one of this edition once in 32,768 times.
const editionBits = 15

// mostShort is how many prompts a short sheet has at most, and mostStars how
// many of them may be starred.
const (
	mostShort = 12
	mostStars = 3
)

// Sheet is what a code holds.
type Sheet struct {
	Taken   []string                `json:"taken"`
	Answers map[string]tree.Answers `json:"answers"` // by tree; only those on the path
	Picks   map[string]bool         `json:"picks"`   // prompts put on or taken off against what came up
	Stars   []string                `json:"stars"`   // in the order of the book
}

// Refused says why a code was not read.
type Refused string

const (
	Mistyped     Refused = "mistyped"      // a symbol is wrong or missing
	OtherEdition Refused = "other edition" // the code is whole, and was made with another edition
)

func (r Refused) Error() string { return "the code is not taken: " + string(r) }

// BookOf gives an edition's book. trees are those that the planner offers, in its order.
func BookOf(l *library.Library, trees []*tree.Tree) *Book {
	b := &Book{trees: trees, cards: map[string][]string{}, facts: l.Facts, fits: map[string]fit{}, ways: map[string]*weights{}}
	for _, p := range l.General {
		b.general = append(b.general, p.ID.S)
	}
	for _, p := range l.Prompts() {
		b.prompts = append(b.prompts, p.ID.S)
		b.fits[p.ID.S] = fit{read.Strings(p.Presumes), read.Strings(p.Unless)}
	}
	for _, c := range l.Cards {
		b.cards[c.ID.S] = read.Strings(c.Prompts)
	}
	for _, t := range trees {
		b.ways[t.ID.S] = weigh(t)
	}
	b.Edition = b.mark()
	return b
}

// mark changes with all that a code rests on.
func (b *Book) mark() uint32 {
	var tables []tree.Table
	for _, t := range b.trees {
		tables = append(tables, t.Table(nil))
	}
	data, err := json.Marshal([]any{tables, b.prompts, b.general, b.cards, b.sets(), b.fits})
	if err != nil {
		panic(err) // tables hold only what JSON takes
	}
	sum := sha256.Sum256(data)
	return (uint32(sum[0])<<16 | uint32(sum[1])<<8 | uint32(sum[2])) & (1<<editionBits - 1)
}

// Encode gives the code of a sheet.
func (b *Book) Encode(s Sheet) (string, error) {
	p := &packer{}
	p.add(int64(b.Edition), 1<<editionBits)
	marks, err := b.which(s.Taken)
	if err != nil {
		return "", err
	}
	p.put(marks, b.choices())
	paths := map[string]tree.Path{}
	taken := b.taken(marks)
	for _, id := range taken {
		t := b.tree(id)
		path, err := t.Walk(s.Answers[id])
		if err != nil {
			return "", err
		}
		paths[id] = path
		p.put(b.ways[id].rank(path), b.ways[id].all())
	}
	b.packPrompts(p, b.cameUp(taken, paths, s.Answers), s)
	return spell(p.number()), nil
}

// Decode reads a code. The error is a Refused.
func (b *Book) Decode(text string) (Sheet, error) {
	n, ok := unspell(text)
	if !ok {
		return Sheet{}, Mistyped
	}
	u := &unpacker{rest: n}
	if u.take(1<<editionBits) != int64(b.Edition) {
		return Sheet{}, OtherEdition
	}
	s := Sheet{Answers: map[string]tree.Answers{}, Picks: map[string]bool{}, Stars: []string{}}
	s.Taken = b.taken(u.get(b.choices()))
	paths := map[string]tree.Path{}
	for _, id := range s.Taken {
		w := b.ways[id]
		answers, ok := w.unrank(u.get(w.all()))
		if !ok {
			return Sheet{}, Mistyped
		}
		path, err := b.tree(id).Walk(answers)
		if err != nil {
			return Sheet{}, Mistyped
		}
		s.Answers[id], paths[id] = answers, path
	}
	if !b.unpackPrompts(u, b.cameUp(s.Taken, paths, s.Answers), &s) || u.rest.Sign() != 0 {
		return Sheet{}, Mistyped
	}
	return s, nil
}

func (b *Book) tree(id string) *tree.Tree {
	return b.trees[slices.IndexFunc(b.trees, func(t *tree.Tree) bool { return t.ID.S == id })]
}

// which marks the trees taken, a bit each, in the planner's order.
func (b *Book) which(taken []string) (*big.Int, error) {
	out := new(big.Int)
	for _, id := range taken {
		i := slices.IndexFunc(b.trees, func(t *tree.Tree) bool { return t.ID.S == id })
		if i < 0 || out.Bit(i) == 1 {
			return nil, fmt.Errorf("the edition's planner has no tree %q, or it was taken twice", id)
		}
		out.SetBit(out, i, 1)
	}
	return out, nil
}

// choices is how many sets of trees there are.
func (b *Book) choices() *big.Int { return power(len(b.trees)) }

func (b *Book) taken(marks *big.Int) []string {
	out := []string{}
	for i, t := range b.trees {
		if marks.Bit(i) == 1 {
			out = append(out, t.ID.S)
		}
	}
	return out
}

// cameUp gives the prompts that a sheet has before the reader picks any: the
// general ones, and what endings and cards bring and what was told on the paths
// fits. In the order of the book.
func (b *Book) cameUp(taken []string, paths map[string]tree.Path, answers map[string]tree.Answers) []string {
	up := slices.Clone(b.general)
	for _, id := range taken {
		if e := b.tree(id).Ending(paths[id].Ending); e != nil {
			up = append(up, read.Strings(e.Prompts)...)
		}
		for _, c := range paths[id].Cards {
			up = append(up, b.cards[c]...)
		}
	}
	known := (&told.Sitting{Trees: b.trees, Facts: b.facts, Taken: taken, Answers: answers}).Told()
	is := func(f string) bool { _, ok := known[f]; return ok }
	in := member(up)
	return b.among(func(id string) bool {
		fit := b.fits[id]
		return in(id) && !slices.ContainsFunc(fit.Unless, is) && !slices.ContainsFunc(fit.Presumes, func(f string) bool { return !is(f) })
	})
}

// sets gives the facts of which only one can be true, as the script has them.
func (b *Book) sets() map[string]map[string]string {
	out := map[string]map[string]string{}
	for _, f := range b.facts {
		out[f.ID.S] = map[string]string{"of": f.Of.S}
	}
	return out
}

func member(ids []string) func(string) bool {
	in := map[string]bool{}
	for _, id := range ids {
		in[id] = true
	}
	return func(id string) bool { return in[id] }
}

func (b *Book) among(in func(string) bool) []string {
	out := []string{}
	for _, id := range b.prompts {
		if in(id) {
			out = append(out, id)
		}
	}
	return out
}

// packPrompts adds the sheet's prompts, as those taken off and those put on.
func (b *Book) packPrompts(p *packer, up []string, s Sheet) {
	var off, on, sheet []int // places among those that came up, among the others, and on the sheet's own list
	isUp := member(up)
	rest := b.among(func(id string) bool { return !isUp(id) })
	kept := map[string]bool{}
	for i, id := range up {
		if pick, ok := s.Picks[id]; ok && !pick {
			off = append(off, i)
		} else {
			kept[id] = true
		}
	}
	for i, id := range rest {
		if s.Picks[id] {
			on = append(on, i)
			kept[id] = true
		}
	}
	for i, id := range b.among(func(id string) bool { return kept[id] }) {
		if slices.Contains(s.Stars, id) && len(sheet) < mostStars {
			sheet = append(sheet, i)
		}
	}
	d, e := len(up), len(rest)
	if len(kept) <= mostShort {
		p.add(0, 2)
		p.put(upTo(mostShort, sheet), few(mostShort, mostStars))
		rank := new(big.Int)
		eachSize(d, e, func(a, r int) bool {
			if a == len(on) && r == len(off) {
				return false
			}
			rank.Add(rank, product(choose(d, r), choose(e, a)))
			return true
		})
		in := new(big.Int).Mul(set(off), choose(e, len(on)))
		p.put(rank.Add(rank, in.Add(in, set(on))), few(d+e, mostShort))
		return
	}
	p.add(1, 2)
	p.add(int64(len(off)), int64(d)+1)
	p.put(set(off), choose(d, len(off)))
	p.add(int64(len(on)), int64(e)+1)
	p.put(set(on), choose(e, len(on)))
	p.put(upTo(len(kept), sheet), few(len(kept), mostStars))
}

// eachSize calls do with the numbers of prompts put on and taken off that leave
// a short sheet, the usual ones first, until it gives false.
func eachSize(d, e int, do func(on, off int) bool) {
	for a := 0; a <= min(e, mostShort); a++ {
		for r := max(0, d+a-mostShort); r <= d; r++ {
			if !do(a, r) {
				return
			}
		}
	}
}

func (b *Book) unpackPrompts(u *unpacker, up []string, s *Sheet) bool {
	isUp := member(up)
	rest := b.among(func(id string) bool { return !isUp(id) })
	d, e := len(up), len(rest)
	var off, on []int
	var stars *big.Int
	short := u.take(2) == 0
	if short {
		stars = u.get(few(mostShort, mostStars))
		rank := u.get(few(d+e, mostShort))
		eachSize(d, e, func(a, r int) bool {
			ways := product(choose(d, r), choose(e, a))
			if rank.Cmp(ways) < 0 {
				i, j := new(big.Int).QuoRem(rank, choose(e, a), new(big.Int))
				off, on = unset(i, r), unset(j, a)
				return false
			}
			rank = new(big.Int).Sub(rank, ways)
			return true
		})
	} else {
		r := int(u.take(int64(d) + 1))
		off = unset(u.get(choose(d, r)), r)
		a := int(u.take(int64(e) + 1))
		on = unset(u.get(choose(e, a)), a)
	}
	kept := map[string]bool{}
	for i, id := range up {
		if kept[id] = !slices.Contains(off, i); !kept[id] {
			s.Picks[id] = false
		}
	}
	for i, id := range rest {
		if slices.Contains(on, i) {
			kept[id], s.Picks[id] = true, true
		}
	}
	sheet := b.among(func(id string) bool { return kept[id] })
	n := mostShort
	if !short {
		if n = len(sheet); n <= mostShort {
			return false // there is a shorter code, which is the one
		}
		stars = u.get(few(n, mostStars))
	}
	for _, i := range unUpTo(n, stars) {
		if i >= len(sheet) {
			return false
		}
		s.Stars = append(s.Stars, sheet[i])
	}
	return true
}
