// Package sheetcode packs what a reader answered and picked into a short code
// that can be read out, or typed in on another copy of the same edition, with
// nothing sent. It is the reference for site/client/carry/sheetcode.ts.
//
// The code is one number in Crockford's Base 32 with his check symbol. It holds,
// least significant first: the edition's mark; the voice in which the reader speaks, and whether
// lines of "About me" were taken off; the prompts on the sheet, as what
// differs from what the paths bring or, where much does, as they are; the starred
// ones; the trees taken with the path in each ([shelf]); and only where there are any, the lines
// taken off, among those that the paths can bring ([Book.sayable]). What is usual has a low
// number, so a usual sheet has a short code. A sheet has one code, and no other is read.
//
// Amounts come back in the unit in which they were typed, as typed where that is
// usual ([quantity.Sayings]).
//
// Not in the code: questions and the day in the reader's own words, the order in which trees were
// taken, answers that the paths do not come by, and the order in which prompts were
// added or starred.
package sheetcode

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"math/big"
	"slices"
	"sync"

	"keelpath/builder/library"
	"keelpath/builder/read"
	"keelpath/builder/told"
	"keelpath/builder/tree"
)

// Book is what both ends must know alike: an edition's trees and prompts.
type Book struct {
	Edition uint32 // its mark, below 1<<editionBits

	trees   []*tree.Tree // that the planner offers
	prompts []string     // general ones first, then in the order of the themes
	general []string
	cards   map[string][]string
	facts   []*told.Fact
	fits    map[string]fit      // by prompt: what it hangs on
	ways    map[string]*weights // by tree
	shelf   *shelf
	voices  []Voice // that the edition offers besides the reader's own
	about   about
}

// Voice is one in which the reader speaks for another, and the fact that its choice tells; empty where the edition has none.
type Voice struct {
	ID    string `json:"id"`
	Tells string `json:"tells,omitempty"`
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
	Answers map[string]tree.Answers `json:"answers"`          // by tree; only those on the path
	Picks   map[string]bool         `json:"picks"`            // prompts put on or taken off against what came up
	Stars   []string                `json:"stars"`            // in the order of the book
	Voice   string                  `json:"voice,omitempty"`  // of [read.Voices]; empty for the reader's own
	Unsaid  []string                `json:"unsaid,omitempty"` // lines of "About me" that were taken off, in order of name
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
	var ways []*weights
	for _, t := range trees {
		w := weigh(t)
		b.ways[t.ID.S] = w
		ways = append(ways, w)
	}
	b.shelf, b.about, b.voices = shelve(ways), aboutOf(l), []Voice{}
	for _, id := range read.Voices[1:] {
		if slices.Contains(read.Strings(l.Edition.Voices), id) {
			b.voices = append(b.voices, Voice{id, l.ToldBy(id)})
		}
	}
	b.Edition = b.mark(format)
	return b
}

// Paths gives the trees in the planner's order, each with the number of paths that a
// code can tell apart in it, in decimal digits. With these a reader of codes finds which
// trees one names before it has any of them.
func (b *Book) Paths() [][2]string {
	out := [][2]string{}
	for _, t := range b.trees {
		out = append(out, [2]string{t.ID.S, b.ways[t.ID.S].all().String()})
	}
	return out
}

// Voices gives the voices that a code can name besides the reader's own, in order.
func (b *Book) Voices() []Voice { return b.voices }

// format is the number of the way in which a code is put together. Whoever changes
// that raises it, so that codes made before are told apart.
const format = 3

// mark changes with all that a code rests on.
func (b *Book) mark(format int) uint32 {
	var tables []restsOn
	amounts := map[string]map[string][]string{}
	for _, t := range b.trees {
		tables = append(tables, restsOnTable(t.Table(nil)))
		amounts[t.ID.S] = b.ways[t.ID.S].amounts()
	}
	return markOf([]any{format, tables, amounts, b.prompts, b.general, b.cards, b.sets(), b.fits, b.voices, b.about})
}

// restsOn is a tree's table as the mark takes it. What an ending's themes are called
// has no say in what a code means, so they keep the key that they had in the first mark; and how an answer is drawn has none.
type restsOn struct {
	ID        string                   `json:"id"`
	Start     string                   `json:"start"`
	Questions map[string]tree.TableRow `json:"questions"`
	Endings   map[string]restsOnEnd    `json:"endings"`
	Values    []tree.TableValue        `json:"values,omitempty"`
}

type restsOnEnd struct {
	Safety  bool     `json:"safety,omitempty"`
	Prompts []string `json:"prompts,omitempty"`
	Themes  []string `json:"topics,omitempty"`
	Next    []string `json:"next,omitempty"`
}

func restsOnTable(t tree.Table) restsOn {
	out := restsOn{t.ID, t.Start, t.Questions, map[string]restsOnEnd{}, t.Values}
	for id, e := range t.Endings {
		out.Endings[id] = restsOnEnd{e.Safety, e.Prompts, e.Themes, e.Next}
	}
	for _, q := range out.Questions {
		for i := range q.Answers {
			q.Answers[i].Ground = ""
		}
		if q.Measure != nil {
			q.Measure.Ground = ""
		}
	}
	return out
}

func markOf(all []any) uint32 {
	data, err := json.Marshal(all)
	if err != nil {
		panic(err) // tables hold only what JSON takes
	}
	sum := sha256.Sum256(data)
	return (uint32(sum[0])<<16 | uint32(sum[1])<<8 | uint32(sum[2])) & (1<<editionBits - 1)
}

// Encode gives the code of a sheet.
func (b *Book) Encode(s Sheet) (string, error) {
	n, err := b.number(s)
	if err != nil {
		return "", err
	}
	return spell(n), nil
}

func (b *Book) number(s Sheet) (*big.Int, error) {
	paths, err := b.paths(s)
	if err != nil {
		return nil, err
	}
	voice := slices.IndexFunc(b.voices, func(v Voice) bool { return v.ID == s.Voice }) + 1
	if voice == 0 && s.Voice != "" {
		return nil, fmt.Errorf("the edition does not offer the voice %q", s.Voice)
	}
	p := &packer{}
	p.add(int64(b.Edition), 1<<editionBits)
	off := b.off(paths, s.Unsaid)
	if off.any() {
		voice += b.spoken()
	}
	p.add(int64(voice), 2*int64(b.spoken()))
	b.packPrompts(p, b.cameUp(paths, s), s)
	b.packPaths(p, paths, off)
	return p.number(), nil
}

// packPaths adds the paths and what was taken off. The last digit needs no base, so paths that are not the last say how long they are.
func (b *Book) packPaths(p *packer, paths map[string]tree.Path, off off) {
	rank := b.shelf.rank(paths)
	if off.any() {
		long := symbolsOf(rank)
		p.add(int64(long), int64(b.shelf.symbols())+1)
		p.put(rank, power(5*long))
		rank = off.rank()
	}
	p.put(rank, nil)
}

// spoken is in how many voices a reader can speak.
func (b *Book) spoken() int { return len(b.voices) + 1 }

// paths walks the trees taken.
func (b *Book) paths(s Sheet) (map[string]tree.Path, error) {
	out := map[string]tree.Path{}
	for _, id := range s.Taken {
		w, ok := b.ways[id]
		if _, twice := out[id]; !ok || twice {
			return nil, fmt.Errorf("the edition's planner has no tree %q, or it was taken twice", id)
		}
		path, err := w.t.Walk(s.Answers[id])
		if err != nil {
			return nil, err
		}
		out[id] = path
	}
	return out, nil
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
	s := Sheet{Taken: []string{}, Picks: map[string]bool{}, Stars: []string{}}
	voice := int(u.take(2 * int64(b.spoken())))
	if i := voice % b.spoken(); i > 0 {
		s.Voice = b.voices[i-1].ID
	}
	found := b.unpackPrompts(u)
	rank, isOff := u.rest, voice >= b.spoken()
	if isOff {
		rank = u.get(power(5 * int(u.take(int64(b.shelf.symbols())+1))))
	}
	if s.Answers, ok = b.shelf.unrank(rank); !ok {
		return Sheet{}, Mistyped
	}
	for _, t := range b.trees {
		if _, ok := s.Answers[t.ID.S]; ok {
			s.Taken = append(s.Taken, t.ID.S)
		}
	}
	paths, err := b.paths(s)
	if err != nil {
		return Sheet{}, Mistyped
	}
	if isOff {
		if s.Unsaid, ok = b.unsaid(paths, u.rest); !ok {
			return Sheet{}, Mistyped
		}
	}
	b.put(found, b.cameUp(paths, s), &s)
	if again, err := b.number(s); err != nil || again.Cmp(n) != 0 {
		return Sheet{}, Mistyped // the sheet has another code, which is the one
	}
	return s, nil
}

// cameUp gives the prompts that a sheet has before the reader picks any: the
// general ones, and what endings and cards bring and what was told on the paths
// and by the choice of a voice fits. In the order of the book.
func (b *Book) cameUp(paths map[string]tree.Path, s Sheet) []string {
	up := slices.Clone(b.general)
	taken := []string{}
	for _, t := range b.trees {
		path, ok := paths[t.ID.S]
		if !ok {
			continue
		}
		taken = append(taken, t.ID.S)
		if e := t.Ending(path.Ending); e != nil {
			up = append(up, read.Strings(e.Prompts)...)
		}
		for _, c := range path.Cards {
			up = append(up, b.cards[c]...)
		}
	}
	known := (&told.Sitting{Trees: b.trees, Facts: b.facts, Taken: taken, Answers: s.Answers}).Told()
	is := func(f string) bool {
		_, ok := known[f]
		return ok || slices.Contains(b.voices, Voice{s.Voice, f})
	}
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

// A code says first in which way it holds the prompts: as up to mostChanged of them
// that were put on or taken off, by their number; as many more; or, all other
// values, as the up to 12 that are on the sheet. So a full short sheet, which has
// the longest code, loses little room for saying it.
const (
	forms       = 32
	mostChanged = 7
	manyChanged = mostChanged + 1
	shortForms  = forms - manyChanged - 1
)

// starsShort is how many ways there are to star the first 12 prompts of a sheet; the
// value behind them stands for others.
var starsShort = sync.OnceValue(func() *big.Int { return few(mostShort, mostStars) })

// places gives where in the book's order those are that pass.
func (b *Book) places(pass func(id string) bool) []int {
	var out []int
	for i, id := range b.prompts {
		if pass(id) {
			out = append(out, i)
		}
	}
	return out
}

// packPrompts adds the sheet's prompts and stars.
func (b *Book) packPrompts(p *packer, up []string, s Sheet) {
	isUp := member(up)
	isOn := func(id string) bool {
		pick, ok := s.Picks[id]
		return pick || !ok && isUp(id)
	}
	all := len(b.prompts)
	changed, kept := b.places(func(id string) bool { return isOn(id) != isUp(id) }), b.places(isOn)
	t := len(changed)
	switch {
	case t > mostChanged && len(kept) <= mostShort:
		rest, form := new(big.Int).QuoRem(upTo(all, kept), big.NewInt(shortForms), new(big.Int))
		p.put(form.Add(form, big.NewInt(manyChanged+1)), big.NewInt(forms))
		p.put(rest, b.shortRest())
	case t > mostChanged:
		p.add(manyChanged, forms)
		p.add(int64(t), int64(all)+1)
		p.put(set(changed), choose(all, t))
	default:
		p.add(int64(t), forms)
		p.put(set(changed), choose(all, t))
	}
	var stars []int
	for i, at := range kept {
		if slices.Contains(s.Stars, b.prompts[at]) && len(stars) < mostStars {
			stars = append(stars, i)
		}
	}
	base := new(big.Int).Add(starsShort(), big.NewInt(1))
	if n := len(stars); n == 0 || stars[n-1] < mostShort {
		p.put(upTo(mostShort, stars), base)
		return
	}
	p.put(starsShort(), base)
	p.put(upTo(all, stars), few(all, mostStars))
}

// shortRest is how many values the set of a short sheet's prompts has beside its form.
func (b *Book) shortRest() *big.Int {
	n := few(len(b.prompts), mostShort)
	return n.Add(n, big.NewInt(shortForms-1)).Div(n, big.NewInt(shortForms))
}

// held is what a code says of prompts, which has a meaning once the paths are known.
type held struct {
	prompts []int // that changed or, where short, that are on the sheet
	short   bool
	stars   []int // among those on the sheet
}

func (b *Book) unpackPrompts(u *unpacker) held {
	var out held
	all := len(b.prompts)
	t := u.take(forms)
	if out.short = t > manyChanged; out.short {
		rank := product(u.get(b.shortRest()), big.NewInt(shortForms))
		out.prompts = unUpTo(all, rank.Add(rank, big.NewInt(t-manyChanged-1)))
	} else {
		if t == manyChanged {
			t = u.take(int64(all) + 1)
		}
		out.prompts = unset(u.get(choose(all, int(t))), int(t))
	}
	if stars := u.get(new(big.Int).Add(starsShort(), big.NewInt(1))); stars.Cmp(starsShort()) < 0 {
		out.stars = unUpTo(mostShort, stars)
	} else {
		out.stars = unUpTo(all, u.get(few(all, mostStars)))
	}
	return out
}

// put notes a sheet's prompts and stars.
func (b *Book) put(found held, up []string, s *Sheet) {
	isUp := member(up)
	var kept []string
	for i, id := range b.prompts {
		on := slices.Contains(found.prompts, i) != (!found.short && isUp(id))
		if on {
			kept = append(kept, id)
		}
		if on != isUp(id) {
			s.Picks[id] = on
		}
	}
	for _, i := range found.stars {
		if i < len(kept) {
			s.Stars = append(s.Stars, kept[i])
		}
	}
}
