package conflict

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/internal/librarytest"
)

func shipped(t testing.TB) *Matter {
	t.Helper()
	m := In(librarytest.Load(t))
	if len(m.Wishes) != 12 || len(m.Feet) < 10 || len(m.Addons) < 2 {
		t.Fatalf("%d wishes, %d feet, %d add-ons", len(m.Wishes), len(m.Feet), len(m.Addons))
	}
	return m
}

// The second opinion: it tries every subset of the wishes and reads the package's
// rules from their words, with none of its code but the types.

type met int

const (
	never   met = iota
	almost      // not, but unsettled and one step short
	maybe       // by an unsettled mark
	settled     // by a settled mark
)

func judge(w Wish, m Mark) met {
	reaches := m.Step >= w.Step
	nearly := m.Step == w.Step-1
	if w.Down {
		reaches, nearly = m.Step <= w.Step, m.Step == w.Step+1
	}
	switch {
	case reaches && m.Open:
		return maybe
	case reaches:
		return settled
	case nearly && m.Open:
		return almost
	}
	return never
}

// least gives how far the worst met of the wishes is met.
func least(s Set, of func(wish int) met) met {
	out := settled
	for w := 0; w < 32; w++ {
		if s&(1<<w) != 0 {
			out = min(out, of(w))
		}
	}
	return out
}

// together gives the most that any foot does for the whole set.
func together(t Table, s Set) met {
	out := never
	for _, foot := range t.Feet {
		out = max(out, least(s, func(w int) met { return judge(t.Wishes[w], foot[t.Wishes[w].Row]) }))
	}
	return out
}

func bruteForce(t Table, most int) map[Set]Conflict {
	all := Set(1)<<len(t.Wishes) - 1
	size := func(s Set) (n int) {
		for ; s > 0; s /= 2 {
			n += int(s % 2)
		}
		return n
	}
	// smallest wants the set itself to be below, and no set with a wish less.
	smallest := func(s Set, bar met) bool {
		if together(t, s) >= bar {
			return false
		}
		for w := range t.Wishes {
			if less := s &^ (1 << w); less != s && together(t, less) < bar {
				return false
			}
		}
		return true
	}
	out := map[Set]Conflict{}
	for s := Set(0); s <= all; s++ {
		if size(s) > most {
			continue
		}
		switch {
		case smallest(s, maybe):
			c := Conflict{Wishes: s, Kind: Holds}
			if together(t, s) == almost {
				c.Kind = AsMarked
				for f, foot := range t.Feet {
					of := func(w int) met { return judge(t.Wishes[w], foot[t.Wishes[w].Row]) }
					for w := range t.Wishes {
						if s&(1<<w) != 0 && least(s, of) == almost && of(w) == almost {
							c.Open = append(c.Open, Spot{f, w})
						}
					}
				}
			}
			for a, change := range t.Addons {
				best := never
				for _, foot := range t.Feet {
					best = max(best, least(s, func(w int) met {
						r := t.Wishes[w].Row
						sum := foot[r].Step + change[r].Step
						if sum < 0 {
							sum = 0
						} else if sum > 4 {
							sum = 4
						}
						return judge(t.Wishes[w], Mark{Step: sum, Open: foot[r].Open || change[r].Open})
					}))
				}
				if best >= maybe {
					c.Fixes = append(c.Fixes, Fix{a, best == maybe, !withoutPractice(t, s, change, best)})
				}
			}
			c.Practice = standingInTheWay(t, s)
			out[s] = c
		case smallest(s, settled) && together(t, s) >= maybe:
			c := Conflict{Wishes: s, Kind: May}
			for f, foot := range t.Feet {
				of := func(w int) met { return judge(t.Wishes[w], foot[t.Wishes[w].Row]) }
				for w := range t.Wishes {
					if s&(1<<w) != 0 && least(s, of) >= maybe && of(w) == maybe {
						c.Open = append(c.Open, Spot{f, w})
					}
					if s&(1<<w) != 0 && least(s, of) >= maybe && foot[t.Wishes[w].Row].Practice {
						c.Practice = append(c.Practice, Spot{f, w})
					}
				}
			}
			out[s] = c
		}
	}
	return out
}

// standingInTheWay gives the marks of trade practice that must be right for what is
// said: taken as met, one foot or more would no longer be kept from the wishes.
func standingInTheWay(t Table, s Set) []Spot {
	var out []Spot
	for f, foot := range t.Feet {
		var spots []Spot
		for w := range t.Wishes {
			if m := foot[t.Wishes[w].Row]; s&(1<<w) != 0 && m.Practice && judge(t.Wishes[w], m) == never {
				spots = append(spots, Spot{f, w})
			}
		}
		granted := least(s, func(w int) met {
			m := foot[t.Wishes[w].Row]
			if m.Practice {
				return settled
			}
			return judge(t.Wishes[w], m)
		})
		if granted > never {
			out = append(out, spots...)
		}
	}
	return out
}

// withoutPractice tells whether some foot meets s with the add-on as far as bar by
// marks of its own and of the add-on of which none is trade practice.
func withoutPractice(t Table, s Set, change []Mark, bar met) bool {
	for _, foot := range t.Feet {
		if least(s, func(w int) met {
			r := t.Wishes[w].Row
			open := foot[r].Open || change[r].Open
			if !open && (foot[r].Practice || change[r].Practice) {
				return never
			}
			return judge(t.Wishes[w], Mark{Step: min(4, max(0, foot[r].Step+change[r].Step)), Open: open})
		}) >= bar {
			return true
		}
	}
	return false
}

// leaning tells whether some foot meets s by marks that are settled or trade
// practice, and none by settled marks alone.
func leaning(t Table, s Set) bool {
	bare := never
	for _, foot := range t.Feet {
		bare = max(bare, least(s, func(w int) met {
			if m := foot[t.Wishes[w].Row]; !m.Practice {
				return judge(t.Wishes[w], m)
			}
			return never
		}))
	}
	return together(t, s) == settled && bare < settled
}

// sameLeans tries every set: one leans if and only if one of Leans is in it and a
// foot meets it, and each of Leans is a smallest one.
func sameLeans(t testing.TB, name string, table Table) (found int) {
	t.Helper()
	leans := table.Leans(len(table.Wishes))
	for s := Set(0); s < Set(1)<<len(table.Wishes); s++ {
		among := slices.ContainsFunc(leans, func(l Set) bool { return l&s == l })
		if want := leaning(table, s); want != (among && together(table, s) == settled) {
			t.Fatalf("%s: the set %v leans: %v, and the sets are %v", name, s.List(), want, leans)
		}
	}
	for _, l := range leans {
		for _, w := range l.List() {
			if leaning(table, l&^(1<<w)) {
				t.Errorf("%s: %v leans without wish %d too", name, l.List(), w)
			}
		}
	}
	return len(leans)
}

func same(t testing.TB, name string, table Table, most int) (found int) {
	t.Helper()
	got := map[Set]Conflict{}
	all := table.Find(most)
	for _, c := range all {
		got[c.Wishes] = c
	}
	if len(got) != len(all) {
		t.Errorf("%s: a set is given twice", name)
	}
	if d := cmp.Diff(bruteForce(table, most), got); d != "" {
		t.Fatalf("%s: trying every subset gives (-) other conflicts than Find (+):\n%s", name, d)
	}
	return len(all)
}

func TestShippedTableByBruteForce(t *testing.T) {
	m := shipped(t)
	for _, most := range []int{Most, 12} {
		if n := same(t, "the shipped table", m.Table, most); n < 20 {
			t.Errorf("only %d conflicts", n)
		}
	}
	if sameLeans(t, "the shipped table", m.Table) == 0 {
		t.Error("no set of wishes leans on trade practice: is it counted?")
	}
}

func randomTable(r *rand.Rand) Table {
	rows := 1 + r.IntN(8)
	marks := func(low, high int) []Mark {
		out := make([]Mark, rows)
		for i := range out {
			standing := r.IntN(3)
			out[i] = Mark{low + r.IntN(high-low+1), standing == 0, standing == 1}
		}
		return out
	}
	var t Table
	for range 1 + r.IntN(9) {
		t.Wishes = append(t.Wishes, Wish{Row: r.IntN(rows), Step: r.IntN(4), Down: r.IntN(3) == 0})
	}
	for range 1 + r.IntN(20) {
		t.Feet = append(t.Feet, marks(0, 4))
	}
	for range r.IntN(3) {
		t.Addons = append(t.Addons, marks(-2, 3))
	}
	return t
}

func TestRandomTablesByBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 2026))
	seen := map[string]int{}
	for i := range 1000 {
		table := randomTable(r)
		name := fmt.Sprintf("table %d: %+v", i, table)
		same(t, name, table, Most)
		seen["leans"] += sameLeans(t, name, table)
		for _, c := range table.Find(Most) {
			seen[fmt.Sprintf("kind %d", c.Kind)]++
			seen[fmt.Sprintf("%d wishes", c.Wishes.Len())]++
			if len(c.Fixes) > 0 {
				seen["fixed"]++
			}
			if len(c.Practice) > 0 {
				seen[fmt.Sprintf("kind %d by practice", c.Kind)]++
			}
			for _, f := range c.Fixes {
				seen[fmt.Sprintf("fixed by practice: %v", f.Practice)]++
			}
		}
	}
	for _, what := range []string{"kind 0", "kind 1", "kind 2", "1 wishes", "2 wishes", "3 wishes", "4 wishes", "fixed",
		"kind 0 by practice", "kind 1 by practice", "kind 2 by practice", "fixed by practice: true", "fixed by practice: false", "leans"} {
		if seen[what] < 20 {
			t.Errorf("only %d conflicts with %s among the random tables: they try too little", seen[what], what)
		}
	}
	t.Log(seen)
}

// No more wishes at once than are asked for, the fewer first; and where there is no foot, none
// of them pulls.
func TestMostAtOnce(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 2026))
	left, several := 0, 0
	for range 300 {
		table := randomTable(r)
		all := table.Find(Most)
		few := slices.DeleteFunc(slices.Clone(all), func(c Conflict) bool { return c.Wishes.Len() > 2 })
		left += len(all) - len(few)
		if got := table.Find(2); len(got)+len(few) > 0 && !cmp.Equal(few, got) {
			t.Fatal(cmp.Diff(few, got))
		}
		leans := table.Leans(Most)
		if len(leans) > 1 {
			several++
		}
		for i := 1; i < len(leans); i++ {
			if a, b := leans[i-1], leans[i]; a.Len() > b.Len() || a.Len() == b.Len() && slices.Compare(a.List(), b.List()) > 0 {
				t.Fatalf("they come as %v", leans)
			}
		}
	}
	if left < 20 || several < 20 {
		t.Errorf("only %d conflicts are of more wishes, and %d tables lean more than once: they try too little", left, several)
	}
	none := Table{Wishes: []Wish{{Row: 0, Step: 3}}}
	if got := none.Find(Most); len(got) > 0 {
		t.Errorf("where there is no foot: %v", got)
	}
}

// A table small enough to work out by hand. Foot 0 pushes and is not low; foot 1
// is low and does not push, by an unsettled mark one step short of it.
func TestByHand(t *testing.T) {
	table := Table{
		Wishes: []Wish{{Row: 0, Step: 3}, {Row: 1, Step: 1, Down: true}},
		Feet:   [][]Mark{{{Step: 4}, {Step: 2}}, {{Step: 2, Open: true}, {Step: 1}}},
		Addons: [][]Mark{{{Step: 1}, {}}, {{Step: 0}, {Step: -1, Open: true}}, {{Step: 2}, {Step: 1}}},
	}
	want := []Conflict{{Wishes: Of(0, 1), Kind: AsMarked, Open: []Spot{{1, 0}}, Fixes: []Fix{{0, true, false}, {1, true, false}}}}
	if d := cmp.Diff(want, table.Find(Most)); d != "" {
		t.Error(d)
	}
	table.Feet[1][0].Open = false
	want = []Conflict{{Wishes: Of(0, 1), Kind: Holds, Fixes: []Fix{{0, false, false}, {1, true, false}}}}
	if d := cmp.Diff(want, table.Find(Most)); d != "" {
		t.Error(d)
	}
	table.Feet[1][0] = Mark{Step: 3, Open: true}
	want = []Conflict{{Wishes: Of(0, 1), Kind: May, Open: []Spot{{1, 0}}}}
	if d := cmp.Diff(want, table.Find(Most)); d != "" {
		t.Error(d)
	}
	table.Feet[1][0].Open = false
	if got := table.Find(Most); len(got) != 0 {
		t.Errorf("foot 1 meets both, and there is %v", got)
	}
	if away := (&Matter{Table: table}).Away(2); !cmp.Equal(away, []int{1}) {
		t.Errorf("an add-on that is in the way of wish 1 moves away from %v", away)
	}
}
