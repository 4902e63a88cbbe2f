package sheetcode

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/json"
	"math/big"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// Some hundred sheets, long ones and with many trees among them; TestRoundTrip tries more.
func TestSomeSheets(t *testing.T) {
	_, b := builtin(t)
	rnd := rand.New(rand.NewPCG(30, 11))
	for i := range 300 {
		s := randomSheet(rnd, b, 1+i%len(b.trees), i%3 == 0)
		code, err := b.Encode(s)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := b.Decode(code); err != nil || !same(s, got) {
			t.Fatalf("%s: %v\n%s", code, err, cmp.Diff(s, got))
		}
	}
}

// A star may stand on any prompt of a sheet, and the 13th is the first behind a short one.
func TestStarAtEachPlace(t *testing.T) {
	_, b := builtin(t)
	s := Sheet{Taken: []string{}, Answers: map[string]tree.Answers{}, Picks: map[string]bool{}, Stars: []string{}}
	for _, id := range b.prompts[:mostShort+8] {
		if !slices.Contains(b.cameUp(nil, Sheet{}), id) {
			s.Picks[id] = true
		}
	}
	sheet := b.among(func(id string) bool { return s.Picks[id] || slices.Contains(b.cameUp(nil, Sheet{}), id) })
	if len(sheet) <= mostShort+1 {
		t.Fatalf("only %d prompts", len(sheet))
	}
	for i, id := range sheet {
		s.Stars = []string{id}
		code, err := b.Encode(s)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := b.Decode(code); err != nil || !same(s, got) {
			t.Errorf("a star at place %d: %s: %v\n%s", i+1, code, err, cmp.Diff(s, got))
		}
	}
}

// A sheet that the planner cannot have made has no code.
func TestSheetsWithoutACode(t *testing.T) {
	_, b := builtin(t)
	first := b.trees[0].ID.S
	for _, taken := range [][]string{{"nowhere"}, {first, first}, {first, "nowhere"}} {
		s := Sheet{Taken: taken, Answers: map[string]tree.Answers{}}
		if code, err := b.Encode(s); err == nil {
			t.Errorf("%v has the code %s", taken, code)
		}
	}
}

// The mark is the first bits of SHA-256 (FIPS 180-4) over the JSON of what a code rests
// on: the first 24, of which the lowest 15 count.
func TestMark(t *testing.T) {
	for _, all := range [][]any{{"a"}, {"b", 2}, {[]string{"c"}}} {
		data, err := json.Marshal(all)
		if err != nil {
			t.Fatal(err)
		}
		sum := sha256.Sum256(data)
		if got, want := markOf(all), binary.BigEndian.Uint32(sum[:4])>>8&0x7fff; got != want {
			t.Errorf("%v: %d, want %d", all, got, want)
		}
	}
	_, b := builtin(t)
	if b.Edition >= 1<<15 {
		t.Errorf("the mark is %d", b.Edition)
	}
}

// The mark takes all of a tree's table but how answers and amounts are drawn; else nothing but the key of an ending's themes differs.
func TestMarkOfTables(t *testing.T) {
	_, b := builtin(t)
	for _, tr := range b.trees {
		whole, err := json.Marshal(tr.Table(nil))
		if err != nil {
			t.Fatal(err)
		}
		taken, err := json.Marshal(restsOnTable(tr.Table(nil)))
		if err != nil {
			t.Fatal(err)
		}
		undrawn := regexp.MustCompile(`,"ground":"[^"]*"|,"own":\{[^}]*\}`).ReplaceAllString(string(whole), "")
		if want := strings.ReplaceAll(undrawn, `"themes":`, `"topics":`); string(taken) != want {
			t.Errorf("of %s the mark takes\n%s\nand the table is\n%s", tr.ID.S, taken, want)
		}
	}
}

// The mark changes when an amount is said in other words, though the trees stay.
func TestMarkOfOtherWords(t *testing.T) {
	l, b := builtin(t)
	other := BookOf(l, b.trees)
	changed := false
	for _, w := range other.ways {
		for id := range w.said {
			m := w.t.Question(id).Measure.Measure
			if len(m.Accept) > 1 {
				slices.Reverse(m.Accept[1:])
				w.said[id] = m.Sayings()
				slices.Reverse(m.Accept[1:])
				changed = changed || len(m.Accept) > 2
			}
		}
	}
	if !changed {
		t.Fatal("no measure takes three units")
	}
	if other.mark(format) == b.Edition {
		t.Error("other words for amounts have the same mark")
	}
}

// Every number below the room is either some path's own, or nobody's.
func TestPathsThatAreNone(t *testing.T) {
	_, b := builtin(t)
	rnd := rand.New(rand.NewPCG(8, 1))
	none := 0
	for range 2000 {
		n := rnd.IntN(4) // of trees
		rank := new(big.Int)
		for k := range n {
			rank.Add(rank, b.shelf.of[0][k])
		}
		in := new(big.Int).SetUint64(rnd.Uint64())
		rank.Add(rank, in.Mod(in, b.shelf.of[0][n]))
		answers, ok := b.shelf.unrank(rank)
		if !ok {
			none++
			continue
		}
		paths := map[string]tree.Path{}
		for id, a := range answers {
			path, err := b.ways[id].t.Walk(a)
			if err != nil {
				t.Fatal(err)
			}
			paths[id] = path
		}
		if again := b.shelf.rank(paths); len(paths) != n || again.Cmp(rank) != 0 {
			t.Fatalf("number %d is read as %v, which has the number %d", rank, answers, again)
		}
	}
	t.Logf("%d of 2000 numbers are nobody's", none)
}

// What comes up at each ending by its shortest way, against its own list: a prompt that
// presumes a fact only where an answer told it, one that a fact rules out only where none did.
func TestWhatComesUp(t *testing.T) {
	l, b := builtin(t)
	presumed, ruledOut := 0, 0
	for _, tr := range b.trees {
		for _, e := range tr.Endings {
			given, told := tree.Answers{}, map[string]bool{}
			for _, g := range l.Proofs[tr.ID.S].Witness[e.ID.S] {
				given[g.Question] = g.Chosen
				q := tr.Question(g.Question)
				if q.Measure != nil && g.Chosen[0] != tree.Skip {
					note(told, q.Tells)
				}
				for _, a := range q.Answers {
					if slices.Contains(g.Chosen, a.ID.S) {
						note(told, a.Tells)
					}
				}
			}
			path, err := tr.Walk(given)
			if err != nil || path.Ending != e.ID.S {
				t.Fatal(tr.ID.S, given, err)
			}
			up := b.cameUp(map[string]tree.Path{tr.ID.S: path}, Sheet{Answers: map[string]tree.Answers{tr.ID.S: given}})
			for _, id := range read.Strings(e.Prompts) {
				p := l.Prompt(id)
				lacks := slices.ContainsFunc(p.Presumes, func(f read.Text) bool { return !told[f.S] })
				against := slices.ContainsFunc(p.Unless, func(f read.Text) bool { return told[f.S] })
				if want := !lacks && !against; slices.Contains(up, id) != want {
					t.Errorf("%s, %s: %s comes up: %v, want %v", tr.ID.S, e.ID.S, id, !want, want)
				}
				if len(p.Presumes) > 0 && !lacks {
					presumed++
				}
				if against {
					ruledOut++
				}
			}
		}
	}
	if presumed == 0 {
		t.Error("no prompt that came up presumes anything")
	}
	t.Logf("%d presume what was told; %d are ruled out", presumed, ruledOut)
}

func note(told map[string]bool, facts []read.Text) {
	for _, f := range facts {
		told[f.S] = true
	}
}

// A code may have as many symbols as are read at all, and no more.
func TestMostSymbols(t *testing.T) {
	for symbols, want := range map[int]bool{mostSymbols: true, mostSymbols + 1: false} {
		n := new(big.Int).Lsh(big.NewInt(1), uint(5*(symbols-2))) // and the check symbol
		text := spell(n)
		if got := len(strip(text)); got != symbols {
			t.Fatalf("it has %d symbols, and %d were wanted", got, symbols)
		}
		back, ok := unspell(text)
		if ok != want || want && back.Cmp(n) != 0 {
			t.Errorf("of %d symbols: %v", symbols, ok)
		}
	}
}

// What is said of a code that is not taken names the reason.
func TestRefused(t *testing.T) {
	if got := Mistyped.Error(); got != "the code is not taken: mistyped" {
		t.Errorf("got %q", got)
	}
}
