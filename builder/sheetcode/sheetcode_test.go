package sheetcode

import (
	"fmt"
	"maps"
	"math/big"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/dop251/goja"
	"github.com/google/go-cmp/cmp"

	"keelpath/builder/clienttest"
	"keelpath/builder/finding"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/library"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
	"keelpath/builder/told"
	"keelpath/builder/tree"
)

func builtin(t testing.TB) (*library.Library, *Book) {
	t.Helper()
	l := librarytest.Load(t)
	var patients []*tree.Tree
	for _, tr := range l.Trees {
		if tr.Audience.S == "patient" {
			patients = append(patients, tr)
		}
	}
	return l, BookOf(l, patients)
}

// bar is how many symbols the code of a sheet with up to 12 prompts and five trees has at most, and offBar how many more where
// any lines of "About me" were taken off.
const (
	bar    = 42
	offBar = 11
)

// The largest number that any such sheet could have: that of the most paths in the
// most trees, every amount in the last of its units, beside the last set of 12
// prompts with the last three stars, in the last voice. No sheet is left out. The same with lines taken off: all
// of as many as any paths of so many trees can bring.
func TestLongestCode(t *testing.T) {
	_, b := builtin(t)
	for _, tr := range b.trees {
		t.Logf("%-20s %d bits, %d lines", tr.ID.S, b.ways[tr.ID.S].all().BitLen(), mostLines(b, tr))
	}
	less := func(n *big.Int) *big.Int { return new(big.Int).Sub(n, big.NewInt(1)) }
	longest := func(most int, off bool) int {
		paths := new(big.Int)
		for k := range most + 1 {
			paths.Add(paths, b.shelf.of[0][k])
		}
		p := &packer{}
		voices := int64(b.spoken())
		for _, base := range []*big.Int{big.NewInt(1 << editionBits), big.NewInt(voices), big.NewInt(forms), b.shortRest(), starsShort()} {
			p.put(less(base), base)
		}
		p.bases[1] = big.NewInt(2 * voices)
		p.bases[4] = new(big.Int).Add(starsShort(), big.NewInt(1)) // a short sheet never has the value for other stars
		if off {
			p.digits[1] = less(p.bases[1])
			long := symbolsOf(less(paths))
			p.add(int64(long), int64(b.shelf.symbols())+1)
			p.put(less(paths), power(5*long))
			paths = less(power(mostLinesOf(b, most)))
		}
		p.put(less(paths), nil)
		n := p.number()
		t.Logf("%d trees, lines off: %v: %d bits, %d symbols", most, off, n.BitLen(), len(strip(spell(n))))
		return len(strip(spell(n)))
	}
	if symbols := longest(5, false); symbols > bar {
		t.Errorf("the longest code has %d symbols, and the bar is %d", symbols, bar)
	}
	if symbols := longest(5, true); symbols > bar+offBar {
		t.Errorf("the longest code with lines off has %d symbols, and the bar is %d", symbols, bar+offBar)
	}
	longest(len(b.trees), false)
	longest(len(b.trees), true)
}

// mostLines is no less than the lines that any path of a tree can bring: of each question on it, those of all answers that can be
// given together.
func mostLines(b *Book, tr *tree.Tree) int {
	at := map[string]int{}
	var from func(id string) int
	from = func(id string) int {
		q := tr.Question(id)
		if n, ok := at[id]; ok || q == nil {
			return n
		}
		on := from(q.Go.S)
		for _, r := range q.Routes {
			on = max(on, from(r.Go.S))
		}
		on = max(on, from(q.Skip.S))
		of := func(chosen ...string) int {
			step := tree.Path{Steps: []tree.Step{{Question: id, Chosen: chosen}}}
			return len(b.sayable(map[string]tree.Path{tr.ID.S: step})) - len(b.sayable(nil))
		}
		here, together := 0, []string{}
		if q.Measure != nil {
			here = of("1")
		}
		for _, a := range q.Answers {
			on, here = max(on, from(a.Go.S)), max(here, of(a.ID.S))
			if q.Pick == tree.PickAny && !a.Alone {
				together = append(together, a.ID.S)
			}
		}
		at[id] = max(here, of(together...)) + on
		return at[id]
	}
	return from(tr.Start.S)
}

// mostLinesOf is that of the trees that bring most, with what is always there.
func mostLinesOf(b *Book, trees int) int {
	var all []int
	for _, tr := range b.trees {
		all = append(all, mostLines(b, tr))
	}
	slices.Sort(all)
	n := len(b.sayable(nil))
	for _, lines := range all[len(all)-trees:] {
		n += lines
	}
	return n
}

// String tells what a sheet holds, in the messages of tests.
func (s Sheet) String() string {
	return fmt.Sprintf("%s %v %v %v %q %v", strings.Join(s.Taken, ","), s.Answers, s.Picks, s.Stars, s.Voice, s.Unsaid)
}

// randomSheet answers up to `most` trees at random, some of them not to the end,
// and picks prompts; short sheets have at most 12 of them. Half speak in another voice, and of half some lines are taken off.
func randomSheet(rnd *rand.Rand, b *Book, most int, short bool) Sheet {
	s := Sheet{Answers: map[string]tree.Answers{}, Picks: map[string]bool{}, Stars: []string{}, Taken: []string{}}
	paths := map[string]tree.Path{}
	some := rnd.Perm(len(b.trees))[:rnd.IntN(most+1)]
	slices.Sort(some) // a code keeps the planner's order
	for _, i := range some {
		tr := b.trees[i]
		given := tree.Answers{}
		path, _ := tr.Walk(given)
		for path.Ending == "" && rnd.IntN(40) > 0 {
			given[path.Open] = randomAnswer(rnd, b.ways[tr.ID.S], tr.Question(path.Open))
			path, _ = tr.Walk(given)
		}
		s.Taken = append(s.Taken, tr.ID.S)
		s.Answers[tr.ID.S], paths[tr.ID.S] = given, path
	}
	if i := rnd.IntN(2 * b.spoken()); i < len(b.voices) {
		s.Voice = b.voices[i].ID
	}
	if most := 1 + rnd.IntN(6); rnd.IntN(2) == 0 {
		for _, id := range b.sayable(paths) {
			if rnd.IntN(most) == 0 {
				s.Unsaid = append(s.Unsaid, id)
			}
		}
	}
	up := b.cameUp(paths, s)
	kept := slices.Clone(up)
	for range rnd.IntN(14) {
		if id := b.prompts[rnd.IntN(len(b.prompts))]; !slices.Contains(up, id) && !s.Picks[id] {
			s.Picks[id] = true
			kept = append(kept, id)
		}
	}
	before := kept
	for _, i := range rnd.Perm(len(before)) {
		if id := before[i]; slices.Contains(up, id) && rnd.IntN(8) == 0 || short && on(s, kept) > mostShort {
			if s.Picks[id] {
				delete(s.Picks, id)
				kept = slices.DeleteFunc(slices.Clone(kept), func(k string) bool { return k == id })
			} else {
				s.Picks[id] = false
			}
		}
	}
	sheet := b.among(func(id string) bool {
		pick, ok := s.Picks[id]
		return pick || !ok && slices.Contains(up, id)
	})
	for _, id := range sheet {
		if len(s.Stars) < mostStars && rnd.IntN(6) == 0 {
			s.Stars = append(s.Stars, id)
		}
	}
	return s
}

// on counts the prompts on the sheet; kept are those that came up or were put on.
func on(s Sheet, kept []string) int {
	n := 0
	for _, id := range kept {
		if pick, ok := s.Picks[id]; pick || !ok {
			n++
		}
	}
	return n
}

// randomAnswer leans to what leads on, so that paths get long.
func randomAnswer(rnd *rand.Rand, w *weights, q *tree.Question) []string {
	if q.Skip.Given() && rnd.IntN(8) == 0 {
		return []string{tree.Skip}
	}
	if m := q.Measure; m != nil {
		if len(m.Likes) > 0 && rnd.IntN(6) == 0 {
			return []string{m.Likes[rnd.IntN(len(m.Likes))].ID.S}
		}
		said := w.said[q.ID.S]
		return []string{said.Text(rnd.IntN(said.Len()))}
	}
	if q.Pick == tree.PickAny && rnd.IntN(2) == 0 {
		var out []string
		for _, a := range q.Answers {
			if !a.Alone && rnd.IntN(3) == 0 {
				out = append(out, a.ID.S)
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	return []string{q.Answers[rnd.IntN(len(q.Answers))].ID.S}
}

// Random sheets come back as they went in, and no short one with up to
// five trees has a longer code than the bar.
func TestRoundTrip(t *testing.T) {
	l, b := builtin(t)
	rnd := rand.New(rand.NewPCG(1, 20))
	longest, longestOff, shorts := 0, 0, 0
	ends := map[string]bool{}
	n := 20_000 // and 100,000 in .ci/long
	switch {
	case testing.Short():
		n = 5_000
	case os.Getenv("KEELPATH_SHEETS") == "all":
		n = 100_000
	}
	for i := range n {
		short := i%4 != 0
		most := 5
		if i%10 == 0 {
			most = len(b.trees)
		}
		s := randomSheet(rnd, b, most, short)
		code, err := b.Encode(s)
		if err != nil {
			t.Fatalf("%v: %v", s, err)
		}
		got, err := b.Decode(code)
		if err != nil {
			t.Fatalf("%v: %s: %v", s, code, err)
		}
		if !same(s, got) {
			t.Fatalf("%s:\n%s", code, cmp.Diff(s, got))
		}
		if n := len(strip(code)); short && len(s.Taken) <= 5 {
			shorts++
			most := bar
			if longestOff = max(longestOff, n); len(s.Unsaid) == 0 {
				longest = max(longest, n)
			} else {
				most += offBar
			}
			if n > most {
				t.Fatalf("%v has %d symbols: %s", s, n, code)
			}
		}
		for id, a := range s.Answers {
			if p, _ := b.ways[id].t.Walk(a); p.Ending != "" {
				ends[id+" "+p.Ending] = true
			}
		}
	}
	for _, tr := range b.trees { // and each ending by its shortest way
		for _, e := range tr.Endings {
			s := Sheet{Taken: []string{tr.ID.S}, Answers: map[string]tree.Answers{tr.ID.S: {}}, Picks: map[string]bool{}, Stars: []string{}}
			for _, g := range l.Proofs[tr.ID.S].Witness[e.ID.S] {
				s.Answers[tr.ID.S][g.Question] = g.Chosen
			}
			code, err := b.Encode(s)
			if err != nil {
				t.Fatal(err)
			}
			if got, err := b.Decode(code); err != nil || !same(s, got) {
				t.Fatalf("%v: %s: %v %v", s, code, got, err)
			}
			t.Logf("%s: %s", code, e.ID.S)
		}
	}
	if n >= 20_000 && len(ends) < 75 {
		t.Errorf("only %d endings came up at random", len(ends))
	}
	t.Logf("%d short sheets, longest code %d symbols, with lines off %d; %d endings", shorts, longest, longestOff, len(ends))
}

func same(a, b Sheet) bool {
	return slices.Equal(a.Taken, b.Taken) && maps.Equal(a.Picks, b.Picks) && slices.Equal(a.Stars, b.Stars) && a.Voice == b.Voice && slices.Equal(a.Unsaid, b.Unsaid) &&
		maps.EqualFunc(a.Answers, b.Answers, func(x, y tree.Answers) bool { return maps.EqualFunc(x, y, slices.Equal) })
}

// Every path that the weights number is one of the tree's, with its own number, and
// every path of the tree has one: small trees in full, counted apart.
func TestRanks(t *testing.T) {
	_, b := builtin(t)
	small := 0
	for _, tr := range b.trees {
		w := b.ways[tr.ID.S]
		if w.all().BitLen() > 14 {
			continue
		}
		small++
		taken, none := 0, 0
		for i := range w.all().Int64() {
			answers, ok := w.unrank(big.NewInt(i))
			if !ok {
				none++
				continue
			}
			p, err := tr.Walk(answers)
			if err != nil {
				t.Fatal(err)
			}
			if got := w.rank(p); got.Int64() != i {
				t.Fatalf("%s: path %d %v has the rank %v", tr.ID.S, i, answers, got)
			}
			taken++
		}
		if want := ways(t, w, tree.Answers{}); taken != want {
			t.Errorf("%s: %d paths have a number, and the tree has %d", tr.ID.S, taken, want)
		}
		t.Logf("%s: %d paths, %d numbers without one", tr.ID.S, taken, none)
	}
	if small < 5 {
		t.Errorf("only %d trees are small", small)
	}
}

// ways counts the paths that begin with these answers, open ones among them.
func ways(t *testing.T, w *weights, given tree.Answers) int {
	t.Helper()
	p, err := w.t.Walk(given)
	if err != nil {
		t.Fatal(err)
	}
	if p.Ending != "" {
		return 1
	}
	n := 1
	for _, chosen := range every(w, w.t.Question(p.Open)) {
		given[p.Open] = chosen
		n += ways(t, w, given)
		delete(given, p.Open)
	}
	return n
}

// every lists all that a question takes, each amount as people say it.
func every(w *weights, q *tree.Question) [][]string {
	var out [][]string
	if q.Skip.Given() {
		out = append(out, []string{tree.Skip})
	}
	if m := q.Measure; m != nil {
		for _, l := range m.Likes {
			out = append(out, []string{l.ID.S})
		}
		for _, text := range w.amounts()[q.ID.S] {
			out = append(out, []string{text})
		}
		return out
	}
	sets := [][]string{nil}
	for _, a := range q.Answers {
		if a.Alone || q.Pick != tree.PickAny {
			out = append(out, []string{a.ID.S})
			continue
		}
		for _, set := range sets {
			sets = append(sets, append(slices.Clone(set), a.ID.S))
		}
	}
	return append(out, sets[1:]...)
}

// Every set of trees and every path in them has its own number, and they have no
// more room than they need: a small book in full.
func TestShelf(t *testing.T) {
	l, b := builtin(t)
	var small []*tree.Tree
	for _, id := range []string{"foot-shell-and-toes", "water-and-weather", "something-changed"} {
		small = append(small, b.ways[id].t)
	}
	b = BookOf(l, small)
	all := big.NewInt(1)
	for _, w := range b.ways {
		all.Mul(all, new(big.Int).Add(w.all(), big.NewInt(1))) // each is taken or not
	}
	before := 0
	for i := range all.Int64() {
		answers, ok := b.shelf.unrank(big.NewInt(i))
		if !ok {
			t.Fatalf("nothing has the number %d of %d", i, all)
		}
		paths := map[string]tree.Path{}
		for id, a := range answers {
			paths[id], _ = b.ways[id].t.Walk(a)
		}
		if got := b.shelf.rank(paths); got.Int64() != i {
			t.Fatalf("%d is %v, which has the number %v", i, answers, got)
		}
		if len(answers) < before {
			t.Fatalf("%d has %d trees, and the one before has %d", i, len(answers), before)
		}
		before = len(answers)
	}
	if _, ok := b.shelf.unrank(all); ok || before != len(small) {
		t.Errorf("number %d is read as well: %v; the last one has %d trees", all, ok, before)
	}
}

// usual lists what readers write in each unit, as (from, to, step) and a pattern.
var usual = map[string][]struct {
	from, to, step float64
	write          func(x float64) string
}{
	"mm":      {{0, 120, 1, plain("%s mm")}},
	"cm":      {{0, 12, 0.5, plain("%s cm")}, {0, 12, 0.1, plain("%s cm")}},
	"[in_i]":  {{0, 4.5, 0.25, plain("%s in")}, {0, 4.625, 0.125, mixed}, {0, 4.7, 0.1, plain("%s in")}},
	"kg":      {{10, 150, 1, plain("%s kg")}, {10, 150, 0.5, plain("%s kg")}},
	"[lb_av]": {{23, 330, 1, plain("%s lb")}},
	"[stone_av]": {{22, 329, 1, func(x float64) string {
		text := fmt.Sprintf("%d st", int(x)/14)
		if rest := int(x) % 14; rest > 0 {
			text += fmt.Sprintf(" %d lb", rest)
		}
		return text
	}}},
	"%":   {{0, 40, 0.5, plain("%s %%")}, {0, 40, 0.1, plain("%s %%")}},
	"deg": {{0, 21.5, 0.5, degrees}, {0, 21.8, 0.1, degrees}},
	"1:n": {{3, 100, 1, plain("1:%s")}, {110, 1000, 10, plain("1:%s")}},
}

func plain(pattern string) func(float64) string {
	return func(x float64) string { return fmt.Sprintf(pattern, quantity.Decimals(x, 2)) }
}

func degrees(x float64) string {
	if x == 1 {
		return "1 degree"
	}
	return plain("%s degrees")(x)
}

// mixed writes eighths of an inch as people do.
func mixed(x float64) string {
	whole, parts, of := int(x), int(x*8)%8, 8
	for parts > 0 && parts%2 == 0 {
		parts, of = parts/2, of/2
	}
	switch {
	case parts == 0:
		return fmt.Sprintf("%d in", whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d in", parts, of)
	}
	return fmt.Sprintf("%d %d/%d in", whole, parts, of)
}

// What readers usually write comes back from a code in its own unit and reads as
// they wrote it: every such amount, in every unit, at every measure of the trees.
func TestUsualAmounts(t *testing.T) {
	_, b := builtin(t)
	rnd := rand.New(rand.NewPCG(8, 8))
	tried, codes := map[string]int{}, map[string]string{}
	for _, tr := range b.trees {
		for _, q := range tr.Questions {
			if q.Measure == nil {
				continue
			}
			before := wayTo(t, rnd, b.ways[tr.ID.S], q)
			for _, unit := range q.Measure.Accept {
				if len(usual[unit]) == 0 {
					t.Fatalf("%s: nothing is usual in %s", q.ID.S, unit)
				}
				for _, u := range usual[unit] {
					for i := 0; u.from+float64(i)*u.step <= u.to+1e-9; i++ {
						typed := u.write(u.from + float64(i)*u.step)
						was, err := q.Measure.Read(typed)
						if err != nil {
							t.Fatalf("%s does not take %s: %v", q.ID.S, typed, err)
						}
						given := maps.Clone(before)
						given[q.ID.S] = []string{typed}
						code, err := b.Encode(Sheet{Taken: []string{tr.ID.S}, Answers: map[string]tree.Answers{tr.ID.S: given}})
						if err != nil {
							t.Fatal(err)
						}
						s, err := b.Decode(code)
						if err != nil {
							t.Fatalf("%s: %s: %v", typed, code, err)
						}
						is, err := q.Measure.Read(s.Answers[tr.ID.S][q.ID.S][0])
						if err != nil || is.Unit != unit || q.Measure.Show(is) != q.Measure.Show(was) || q.Measure.Back(is) != q.Measure.Back(was) || is.Num != was.Num {
							t.Fatalf("%s, %s: %s comes back as %s (%v)", tr.ID.S, q.ID.S, q.Measure.Show(was), q.Measure.Show(is), err)
						}
						name := tr.ID.S + " " + q.ID.S + " " + q.Measure.Show(is)
						if other, ok := codes[code]; ok && other != name {
							t.Fatalf("%s and %s have one code", other, name)
						}
						codes[code] = name
						tried[unit]++
					}
				}
			}
		}
	}
	t.Logf("%v", tried)
	if len(tried) != len(usual) || len(codes) < 4000 {
		t.Errorf("%d amounts were tried: %v", len(codes), tried)
	}
}

// wayTo gives answers that lead to a question.
func wayTo(t *testing.T, rnd *rand.Rand, w *weights, q *tree.Question) tree.Answers {
	t.Helper()
	for range 10_000 {
		given := tree.Answers{}
		for path, _ := w.t.Walk(given); path.Ending == ""; path, _ = w.t.Walk(given) {
			if path.Open == q.ID.S {
				return given
			}
			given[path.Open] = randomAnswer(rnd, w, w.t.Question(path.Open))
		}
	}
	t.Fatalf("no way to %s was found", q.ID.S)
	return nil
}

// Crockford's alphabet and check symbols as he published them (Base 32,
// crockford.com/base32.html, 2019): the value of each symbol, and that I, L and O
// are read as 1, 1 and 0, in small letters too, and hyphens not at all.
func TestCrockfordsTable(t *testing.T) {
	published := map[int]string{0: "0Oo", 1: "1IiLl", 2: "2", 3: "3", 4: "4", 5: "5", 6: "6", 7: "7", 8: "8", 9: "9",
		10: "Aa", 11: "Bb", 12: "Cc", 13: "Dd", 14: "Ee", 15: "Ff", 16: "Gg", 17: "Hh", 18: "Jj", 19: "Kk", 20: "Mm",
		21: "Nn", 22: "Pp", 23: "Qq", 24: "Rr", 25: "Ss", 26: "Tt", 27: "Vv", 28: "Ww", 29: "Xx", 30: "Yy", 31: "Zz"}
	checkOnly := map[int]string{32: "*", 33: "~", 34: "$", 35: "=", 36: "Uu"}
	for value, typed := range published {
		for _, r := range typed {
			n, ok := unspell(string(r) + string(r)) // below 32 a number is its own check symbol
			if !ok || n.Int64() != int64(value) {
				t.Errorf("%q is read as %v", r, n)
			}
		}
		if got, want := spell(big.NewInt(int64(value))), typed[:1]+typed[:1]; got != want {
			t.Errorf("%d is written %q, and %q was expected", value, got, want)
		}
	}
	for value, typed := range checkOnly {
		if got, want := spell(big.NewInt(int64(value))), "1"+symbols[value-32:value-31]+typed[:1]; got != want {
			t.Errorf("%d is written %q, and %q was expected", value, got, want)
		}
		for _, r := range typed {
			if n, ok := unspell("1-" + symbols[value-32:value-31] + "-" + string(r)); !ok || n.Int64() != int64(value) {
				t.Errorf("the check symbol %q is not read", r)
			}
			if _, ok := unspell(string(r) + "0"); ok {
				t.Errorf("%q is read as a digit", r)
			}
		}
	}
	// An example with its check symbol (dcode.fr, Crockford Base 32): 1650553701 modulo 37 is 18, which is J.
	if n := big.NewInt(1650553701); new(big.Int).Mod(n, big.NewInt(37)).Int64() != 18 || !strings.HasSuffix(spell(n), "J") {
		t.Errorf("1650553701 is written %s", spell(n))
	}
}

// The check symbol catches every wrong symbol and every swap of two neighbours,
// in codes of any length: what a place weighs, a power of 32 modulo 37, comes again
// after 36 places, so it is enough to try every pair of symbols at as many.
func TestCheckCatchesAll(t *testing.T) {
	digits := symbols[:32]
	const long = 38
	zeros := strings.Repeat("0", long)
	tried := 0
	caught := func(text string) {
		t.Helper()
		if tried++; len(text) != long+1 {
			t.Fatalf("%s has another length", text)
		}
		if n, ok := unspell(text); ok {
			t.Fatalf("%s is read as %v", text, n)
		}
	}
	for place := range long - 1 {
		for _, a := range digits {
			for _, b := range digits {
				code := zeros[:place] + string(a) + string(b) + zeros[place+2:]
				n := new(big.Int)
				for _, r := range code {
					n.Add(n.Mul(n, big.NewInt(32)), big.NewInt(int64(strings.IndexRune(digits, r))))
				}
				whole := spell(n)
				code += whole[len(whole)-1:]
				if m, ok := unspell(code); !ok || m.Cmp(n) != 0 {
					t.Fatalf("%s is read as %v", code, m)
				}
				if a != b {
					caught(code[:place] + string(b) + string(a) + code[place+2:]) // swapped
					caught(code[:place] + string(b) + code[place+1:])             // another symbol
				}
			}
		}
	}
	for _, last := range digits { // the last digit and the check symbol in each other's place
		n := big.NewInt(int64(strings.IndexRune(digits, last)))
		whole := zeros[:long-1] + strip(spell(n))
		if check := whole[long]; check != whole[long-1] {
			caught(whole[:long-1] + string(check) + string(last))
		}
	}
	if tried < 2*(long-1)*32*31 {
		t.Errorf("only %d faults were tried", tried)
	}
}

// impossible gives codes with the right check symbol and this edition's mark whose
// content no sheet has.
func impossible(t *testing.T, b *Book) map[string]string {
	t.Helper()
	out := map[string]string{}
	one := big.NewInt(1)
	// code puts digits with their bases behind the edition's mark, and the paths last.
	code := func(paths *big.Int, digits ...*big.Int) string {
		p := &packer{}
		p.add(int64(b.Edition), 1<<editionBits)
		p.add(0, 2*int64(b.spoken()))
		for i := 0; i < len(digits); i += 2 {
			p.put(digits[i], digits[i+1])
		}
		p.put(paths, nil)
		return spell(p.number())
	}
	n := func(i int) *big.Int { return big.NewInt(int64(i)) }
	less := func(a *big.Int, by int) *big.Int { return new(big.Int).Sub(a, n(by)) }
	// off is a usual sheet of which lines were taken off, its paths being written with so many symbols.
	off := func(paths *big.Int, long int, lines *big.Int) string {
		p := &packer{}
		p.add(int64(b.Edition), 1<<editionBits)
		p.add(int64(b.spoken()), 2*int64(b.spoken()))
		for _, base := range []*big.Int{n(forms), one, new(big.Int).Add(starsShort(), one)} {
			p.put(new(big.Int), base)
		}
		p.add(int64(long), int64(b.shelf.symbols())+1)
		p.put(paths, power(5*long))
		p.put(lines, nil)
		return spell(p.number())
	}
	out["a line off where there is none"] = off(n(0), 0, n(0))
	out["far more lines off than there are"] = off(n(0), 0, power(300))
	id, path := lined(t, b)
	rank := b.shelf.rank(map[string]tree.Path{id: path})
	lines := len(b.sayable(map[string]tree.Path{id: path}))
	if s, err := b.Decode(off(rank, symbolsOf(rank), less(power(lines), 2))); err != nil || len(s.Unsaid) != lines {
		t.Fatalf("all %d lines of %s are off: %v, %v", lines, id, s, err)
	}
	out["one line more off than there are"] = off(rank, symbolsOf(rank), less(power(lines), 1))
	out["lines off behind paths that are shorter than they say"] = off(rank, symbolsOf(rank)+1, n(0))
	all := len(b.prompts)
	stars := new(big.Int).Add(starsShort(), one)
	usual := []*big.Int{n(0), n(forms), n(0), one, n(0), stars}

	below := new(big.Int) // before the trees with one tree, which is the one with the fewest paths
	for _, w := range b.shelf.ways {
		for i := range 2_000 {
			rank := new(big.Int).Sub(w.all(), n(1+i))
			if rank.Sign() < 0 {
				break
			}
			if _, ok := w.unrank(rank); !ok {
				at := b.shelf.rank(map[string]tree.Path{w.t.ID.S: {}})
				out["a number that stands for no path of "+w.t.ID.S] = code(at.Add(at, rank), usual...)
				break
			}
		}
	}
	for _, most := range b.shelf.of[0] {
		below.Add(below, most)
	}
	out["more than all paths of all trees"] = code(below, usual...)

	few := b.cameUp(nil, Sheet{}) // what a sheet without a topic has
	if len(few) < 2 || len(few) > mostShort {
		t.Fatalf("%d prompts come up without a topic", len(few))
	}
	first := b.places(member(few[:1]))
	form := func(kept []int) (form, rest *big.Int) {
		rest, form = new(big.Int).QuoRem(upTo(all, kept), n(shortForms), new(big.Int))
		return form.Add(form, n(manyChanged+1)), rest
	}
	f, rest := form(first)
	out["few changes, as a whole sheet"] = code(n(0), f, n(forms), rest, b.shortRest(), n(0), stars)
	last := new(big.Int).Sub(b.shortRest(), one)
	out["more than all short sheets"] = code(n(0), n(forms-1), n(forms), last, b.shortRest(), n(0), stars)
	out["few changes, as many"] = code(n(0), n(manyChanged), n(forms), n(1), n(all+1), set(first), n(all), n(0), stars)
	more := make([]int, mostChanged+1)
	for i := range more {
		more[i] = all - len(more) + i
	}
	out["a short sheet, as many changes"] = code(n(0), n(manyChanged), n(forms), n(len(more)), n(all+1), set(more), choose(all, len(more)), n(0), stars)
	out["a star behind the last prompt"] = code(n(0), n(0), n(forms), n(0), one, upTo(mostShort, []int{len(few)}), stars)
	out["a star among the first, as another"] = code(n(0), n(0), n(forms), n(0), one, starsShort(), stars, upTo(all, []int{0}), fewOf(all))
	return out
}

// lined gives a path to an ending that brings some lines.
func lined(t testing.TB, b *Book) (string, tree.Path) {
	t.Helper()
	w := b.ways["where-to-start"]
	for rnd := rand.New(rand.NewPCG(3, 1)); ; {
		given := tree.Answers{}
		path, err := w.t.Walk(given)
		for ; err == nil && path.Ending == ""; path, err = w.t.Walk(given) {
			given[path.Open] = randomAnswer(rnd, w, w.t.Question(path.Open))
		}
		if err != nil {
			t.Fatal(err)
		}
		if n := len(b.sayable(map[string]tree.Path{w.t.ID.S: path})); n > 3 && n < 10 {
			return w.t.ID.S, path
		}
	}
}

func fewOf(all int) *big.Int { return few(all, mostStars) }

// The check symbol is not the only defence.
func TestImpossibleContent(t *testing.T) {
	_, b := builtin(t)
	all := impossible(t, b)
	if len(all) < 12 {
		t.Fatalf("only %d codes", len(all))
	}
	for what, code := range all {
		if n, ok := unspell(code); !ok || new(big.Int).And(n, big.NewInt(1<<editionBits-1)).Int64() != int64(b.Edition) {
			t.Errorf("%s: %s is mistyped", what, code)
		}
		if s, err := b.Decode(code); err != Mistyped {
			t.Errorf("%s: %s is read as %v, %v", what, code, s, err)
		}
	}
}

// The same with real codes: every other symbol at every place, every swap.
func TestFaultsInCodes(t *testing.T) {
	_, b := builtin(t)
	rnd := rand.New(rand.NewPCG(2, 2))
	tried := 0
	for range 60 {
		code, err := b.Encode(randomSheet(rnd, b, 5, true))
		if err != nil {
			t.Fatal(err)
		}
		s := strip(code)
		caught := func(text string) {
			t.Helper()
			tried++
			if _, err := b.Decode(text); err != Mistyped {
				t.Fatalf("%s typed as %s: %v", s, text, err)
			}
		}
		for i := range len(s) {
			for _, c := range checks {
				if byte(c) != s[i] {
					caught(s[:i] + string(c) + s[i+1:])
				}
			}
			if i > 0 && s[i] != s[i-1] {
				caught(s[:i-1] + s[i:i+1] + s[i-1:i] + s[i+1:])
			}
		}
		for _, text := range []string{"", "0", s[:1], s + "!", "é" + s, strings.Repeat("0", mostSymbols+1)} {
			caught(text)
		}
		for _, text := range []string{strings.ToLower(code), " " + strings.ReplaceAll(code, "-", " "), strings.NewReplacer("0", "o", "1", "l").Replace(s), strings.ReplaceAll(code, "-", "–")} {
			if got, err := b.Decode(text); err != nil {
				t.Fatalf("%s typed as %q: %v %v", s, text, got, err)
			}
		}
	}
	t.Logf("%d faults", tried)
}

// A code of another edition is told apart from a slip.
func TestOtherEdition(t *testing.T) {
	l, b := builtin(t)
	code, err := b.Encode(randomSheet(rand.New(rand.NewPCG(4, 4)), b, 5, true))
	if err != nil {
		t.Fatal(err)
	}
	changes := map[string]func(*library.Library) func(){
		"another prompt": func(l *library.Library) func() {
			old := l.Themes[0].Prompts
			l.Themes[0].Prompts = old[1:]
			return func() { l.Themes[0].Prompts = old }
		},
		"another order of prompts": func(l *library.Library) func() {
			p := l.Themes[0].Prompts
			p[0], p[1] = p[1], p[0]
			return func() { p[0], p[1] = p[1], p[0] }
		},
		"another unit": func(l *library.Library) func() {
			for _, tr := range l.Trees {
				for _, q := range tr.Questions {
					if q.Measure != nil && len(q.Measure.Accept) > 1 {
						old := q.Measure.Accept
						q.Measure.Accept = old[:1]
						return func() { q.Measure.Accept = old }
					}
				}
			}
			panic("no measure takes two units")
		},
		"another way on": func(l *library.Library) func() {
			a := l.Trees[0].Questions[0].Answers[0]
			old := a.Go.S
			a.Go.S = l.Trees[0].Endings[len(l.Trees[0].Endings)-1].ID.S
			return func() { a.Go.S = old }
		},
	}
	changes["a fact of another set"] = func(l *library.Library) func() {
		old := l.Facts[0].Of.S
		l.Facts[0].Of.S = old + "-other"
		return func() { l.Facts[0].Of.S = old }
	}
	changes["one voice less"] = func(l *library.Library) func() {
		old := l.Edition.Voices
		l.Edition.Voices = old[1:]
		return func() { l.Edition.Voices = old }
	}
	changes["a fact that is said on the sheet no more"] = func(l *library.Library) func() {
		f := l.Facts[slices.IndexFunc(l.Facts, func(f *told.Fact) bool { return f.Part.Given() })]
		old := f.Part
		f.Part = read.Text{}
		return func() { f.Part = old }
	}
	changes["an answer that is said on the sheet no more"] = func(l *library.Library) func() {
		line := l.About.Lines[slices.IndexFunc(l.About.Lines, func(line *told.Line) bool { return len(line.Says) > 0 })]
		old := line.Says
		line.Says = old[1:]
		return func() { line.Says = old }
	}
	for what, change := range changes {
		undo := change(l)
		other := BookOf(l, b.trees)
		undo()
		if _, err := other.Decode(code); err != OtherEdition {
			t.Errorf("%s: %v", what, err)
		}
	}
	// The same content with an older way to put codes together: the first had no number.
	var tables []restsOn
	for _, tr := range b.trees {
		tables = append(tables, restsOnTable(tr.Table(nil)))
	}
	for what, mark := range map[string]uint32{
		"the format before": b.mark(format - 1),
		"the first format":  markOf([]any{tables, b.prompts, b.general, b.cards, b.sets(), b.fits}),
	} {
		p := &packer{}
		p.add(int64(mark), 1<<editionBits)
		p.put(big.NewInt(1<<30), nil)
		if _, err := b.Decode(spell(p.number())); err != OtherEdition {
			t.Errorf("%s: %v", what, err)
		}
	}
	if again := BookOf(l, b.trees); again.Edition != b.Edition {
		t.Error("the same content has two marks")
	}
	if _, err := b.Decode(code); err != nil {
		t.Error(err)
	}
}

// The page's script writes and reads the same codes.
func TestTwin(t *testing.T) {
	l, b := builtin(t)
	src, err := os.ReadFile("../../testdata/good/inches.yaml")
	if err != nil {
		t.Fatal(err)
	}
	b = BookOf(l, append(slices.Clone(b.trees), tree.Parse("trees/inches.yaml", src, &finding.List{})))
	script := clienttest.Load(t, "carry/sheetcode.ts")
	var tables []tree.Table
	for _, tr := range b.trees {
		tables = append(tables, tr.Table(nil))
	}
	cards := map[string]map[string][]string{}
	for id, prompts := range b.cards {
		cards[id] = map[string][]string{"prompts": prompts}
	}
	has := func(ids []string) map[string]string { // what the words are has no say
		out := map[string]string{}
		for _, id := range ids {
			out[id] = "."
		}
		return out
	}
	lines := map[string]any{}
	for id, line := range b.about.Lines {
		lines[id] = map[string]any{"list": has(line.List), "says": has(line.Says)}
	}
	about := map[string]any{"facts": has(b.about.Facts), "lines": lines}
	bookOf := func(edition uint32, with func(id string) bool) goja.Value {
		has := slices.DeleteFunc(slices.Clone(tables), func(table tree.Table) bool { return !with(table.ID) })
		return script.Value(map[string]any{"edition": edition, "paths": b.Paths(), "trees": has, "prompts": b.prompts, "general": b.general, "cards": cards, "facts": b.sets(), "fits": b.fits, "voices": b.Voices(), "about": about, "units": quantity.Table()})
	}
	every := func(string) bool { return true }
	book, bare := bookOf(b.Edition, every), bookOf(b.Edition, func(string) bool { return false })
	rnd := rand.New(rand.NewPCG(5, 5))
	for i := range 500 {
		s := randomSheet(rnd, b, len(b.trees), i%4 != 0)
		want, err := b.Encode(s)
		if err != nil {
			t.Fatal(err)
		}
		v, err := script.Call("encode", book, script.Value(s))
		if err != nil {
			t.Fatalf("%v: %v", s, err)
		}
		if v.String() != want {
			t.Fatalf("%v: Go writes %s, the script %s", s, want, v)
		}
		typed := want
		if i%3 == 0 { // a slip, or the other edition
			k := rnd.IntN(len(want))
			typed = want[:k] + string(checks[rnd.IntN(37)]) + want[k+1:]
		}
		got, errGo := b.Decode(typed)
		back, err := script.Call("decode", book, script.Value(typed))
		if err != nil {
			t.Fatalf("%s: %v", typed, err)
		}
		var out struct {
			Sheet
			Refused string `json:"refused"`
		}
		script.Into(back, &out)
		switch {
		case errGo != nil:
			if out.Refused != string(errGo.(Refused)) {
				t.Fatalf("%s: Go says %v, the script %q", typed, errGo, out.Refused)
			}
		case !same(got, out.Sheet):
			t.Fatalf("%s:\n%s", typed, cmp.Diff(got, out.Sheet))
		}
		// A page that has no tree yet is told which it needs, and with these alone reads and writes the same.
		named, err := script.Call("named", bare, script.Value(typed))
		if err != nil {
			t.Fatalf("%s: %v", typed, err)
		}
		if errGo != nil {
			continue
		}
		var trees []string
		script.Into(named, &trees)
		slices.Sort(trees)
		if want := slices.Sorted(slices.Values(got.Taken)); !slices.Equal(trees, want) {
			t.Fatalf("%s: the script names %v, and it has paths of %v", typed, trees, want)
		}
		if i%50 > 0 || typed != want {
			continue
		}
		few := bookOf(b.Edition, func(id string) bool { return slices.Contains(trees, id) })
		back, err = script.Call("decode", few, script.Value(typed))
		if err != nil {
			t.Fatalf("%s: with its trees alone: %v", typed, err)
		}
		out.Sheet = Sheet{}
		script.Into(back, &out)
		if !slices.Equal(out.Unsaid, got.Unsaid) {
			t.Fatalf("%s: with its trees alone: %v off, and %v with all", typed, out.Unsaid, got.Unsaid)
		}
		again, err := script.Call("encode", few, back)
		if err != nil || !same(got, out.Sheet) || again.String() != typed {
			t.Fatalf("%s: with its trees alone: %v, %v\n%s", typed, again, err, cmp.Diff(got, out.Sheet))
		}
	}
	wrong := slices.Collect(maps.Values(impossible(t, b)))
	wrong = append(wrong, "", "0", "-", strings.Repeat("0", mostSymbols+1), strings.Repeat("0", 10*mostSymbols))
	for _, code := range wrong {
		v, err := script.Call("decode", book, script.Value(code))
		if _, errGo := b.Decode(code); err != nil || errGo != Mistyped || fmt.Sprint(v.Export()) != "map[refused:mistyped]" {
			t.Errorf("%.80q: Go says %v, the script %v %v", code, errGo, v, err)
		}
	}
	other := bookOf(b.Edition^1, every)
	code, _ := b.Encode(randomSheet(rnd, b, 5, true))
	if v, err := script.Call("decode", other, script.Value(code)); err != nil || fmt.Sprint(v.Export()) != "map[refused:other edition]" {
		t.Errorf("another edition: %v %v", v, err)
	}
}
