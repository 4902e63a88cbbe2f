package conflict

import (
	"slices"
	"strings"
	"testing"

	"keelpath/builder/library"
	"keelpath/builder/prose"
	"keelpath/builder/say"
	"keelpath/builder/wording"
)

// sentences gives all that is said of what a reader marked.
func sentences(m *Matter, marked Set) []string {
	out := []string{m.Said(marked)}
	for _, c := range Within(m.All, marked) {
		out = append(out, m.Title(c))
		out = append(out, m.Statement(c)...)
		for _, q := range m.Questions(c) {
			out = append(out, q.Ask)
		}
		for _, f := range c.Fixes {
			out = append(out, m.FixStatement(f)...)
			out = append(out, m.Against(f.Addon))
		}
	}
	return slices.DeleteFunc(out, func(s string) bool { return s == "" })
}

// No sentence that any marking can bring up chooses for the reader, and each is
// as short and plain as a spoken one.
func TestSentences(t *testing.T) {
	m := shipped(t)
	seen, markings := map[string]bool{}, 0
	m.Markings(func(marked Set) {
		markings++
		for _, s := range sentences(m, marked) {
			seen[s] = true
		}
	})
	if markings != 1586 { // 1 + 12 + 66 + 220 + 495 + 792
		t.Errorf("%d sets of at most five of twelve wishes, want 1586", markings)
	}
	var all []string
	for s := range seen {
		all = append(all, s)
	}
	slices.Sort(all)
	for _, s := range all {
		for _, h := range wording.InMade(s) {
			t.Errorf("%q says %q", s, h.Words)
		}
		if n := len(strings.Fields(s)); n > 25 {
			t.Errorf("%q has %d words", s, n)
		}
		if strings.Contains(s, "  ") || strings.ContainsAny(s, "%{}") {
			t.Errorf("%q is not whole", s)
		}
	}
	if len(all) < 100 {
		t.Errorf("only %d sentences were looked at", len(all))
	}
	if g := prose.Of(all).Grade(); g > 6 {
		t.Errorf("the sentences read at grade %.1f, want 6 or lower", g)
	} else {
		t.Logf("%d markings, %d sentences, grade %.1f", markings, len(all), g)
	}
}

func TestQuestions(t *testing.T) {
	m := shipped(t)
	for _, c := range m.All {
		qs := m.Questions(c)
		if len(qs) == 0 {
			t.Errorf("%s has no question", m.Title(c))
		}
		for _, q := range qs {
			if n := len(strings.Fields(q.Ask)); n > 20 || !strings.HasSuffix(q.Ask, "?") || strings.Count(q.Ask, "?") != 1 {
				t.Errorf("%q is not one question of at most 20 words", q.Ask)
			}
			if len(q.Whom) == 0 {
				t.Errorf("%q does not say whom to ask", q.Ask)
			}
			for _, w := range q.Whom {
				if !slices.Contains(library.Whom, w) {
					t.Errorf("%q is for %q", q.Ask, w)
				}
			}
		}
	}
}

// The longest pieces that the reader of wishes.yaml allows still give questions
// of at most 20 words, for as many wishes as can be marked.
func TestLongestQuestions(t *testing.T) {
	words := func(n int) string { return strings.TrimSpace(strings.Repeat("word ", n)) }
	m := &Matter{Words: say.English()}
	for range Most {
		w := &library.Wish{}
		w.Want.S, w.Name.S, w.Less.S = words(library.WantWords), words(library.NameWords), words(library.LessWords)
		m.Wishes = append(m.Wishes, w)
	}
	for n := 1; n <= Most; n++ {
		for _, k := range []Kind{Holds, AsMarked, May} {
			for _, q := range m.Questions(Conflict{Wishes: Set(1)<<n - 1, Kind: k}) {
				if got := len(strings.Fields(q.Ask)); got > 20 {
					t.Errorf("%d wishes: %q has %d words", n, q.Ask, got)
				}
			}
		}
	}
}

// What is said of a marking fits what was found by trying all subsets.
func TestSaidFits(t *testing.T) {
	m := shipped(t)
	s := m.Summary
	all := bruteForce(m.Table, Most)
	leans := 0
	m.Markings(func(marked Set) {
		n, open := 0, false
		for set, c := range all {
			if set&marked != set {
				continue
			}
			if c.Kind == May && len(set.List()) == 1 {
				open = true
			} else {
				n++
			}
		}
		want := s.Clear
		switch {
		case marked == 0:
			want = s.None
		case n > 0:
			want = s.Found[n-1]
		case len(marked.List()) == 1:
			want = s.One
		case open:
			want = s.Open
		case leaning(m.Table, marked):
			want, leans = s.Lean, leans+1
		}
		if got := m.Said(marked); got != want {
			t.Errorf("of %v it is said %q, want %q", marked.List(), got, want)
		}
		// Only where nothing pulls, a foot meets all of it; by settled marks where nothing is open.
		if together(m.Table, marked) >= maybe != (n == 0) && !onlyMay(all, marked) {
			t.Errorf("%v: %d conflicts, and feet meet it to %d", marked.List(), n, together(m.Table, marked))
		}
		if n == 0 && !open && together(m.Table, marked) != settled {
			t.Errorf("%v is said to be clear, and no foot meets it by settled marks", marked.List())
		}
	})
	if leans == 0 {
		t.Error("no marking is said to lean on trade practice")
	}
	if len(s.Found) < 3 {
		t.Errorf("no marking has more than %d conflicts", len(s.Found))
	}
}

func onlyMay(all map[Set]Conflict, marked Set) bool {
	for set, c := range all {
		if set&marked == set && c.Kind != May {
			return false
		}
	}
	return true
}

func TestTitlesAndIDs(t *testing.T) {
	m := shipped(t)
	for _, c := range m.All {
		if c.Wishes == Of(5, 9) {
			if got := m.Title(c); got != "Push and heel change" {
				t.Errorf("title %q", got)
			}
			if got := m.ID(c); got != "pull-push-heel-change" {
				t.Errorf("id %q", got)
			}
			if got := m.Questions(c)[0].Ask; got != "I want to keep my push and to change heels. Which would I give up, and how much?" {
				t.Errorf("first question %q", got)
			}
			return
		}
	}
	t.Error("push and heel change do not pull against each other")
}
