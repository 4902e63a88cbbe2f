package exchange

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/finding"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/library"
	"keelpath/builder/proof"
	"keelpath/builder/tree"
)

func written(t testing.TB, l *library.Library) []Written {
	t.Helper()
	var list finding.List
	out := Write(l, l.Trees, &list)
	if list.Len() > 0 || len(out) != len(l.Trees) {
		t.Fatalf("%d of %d trees were written: %v", len(out), len(l.Trees), list.Sorted())
	}
	return out
}

// most is how many paths of one tree are taken: all where there are no more,
// else as many drawn from a seed.
const most = 10_000

// Every path of every shipped tree: the form shows the questions, the ending
// and the notes that Walk gives, for the whole path and for a part of it, and
// also where answers from other paths are left in the form.
func TestFormsActAsTheTreesDo(t *testing.T) {
	l := librarytest.Load(t)
	for _, w := range written(t, l) {
		t.Run(w.Tree.ID.S, func(t *testing.T) {
			answers := proof.SomePaths(w.Tree, most, 4)
			if l.Proofs[w.Tree.ID.S].Listed.Cmp(big.NewInt(most)) <= 0 {
				answers = proof.AllPaths(w.Tree)
			}
			f := newFiller(t, w.JSON)
			rnd := rand.New(rand.NewPCG(7, 7))
			n, endings := 0, map[string]bool{}
			var before tree.Answers
			for given := range answers {
				n++
				p := same(t, f, w.Tree, given, before)
				endings[p.Ending] = true
				part := tree.Answers{}
				for _, s := range p.Steps[:rnd.IntN(len(p.Steps))] {
					part[s.Question] = given[s.Question]
				}
				same(t, f, w.Tree, part, nil)
				before = given
			}
			if len(endings) != len(w.Tree.Endings) {
				t.Errorf("%d endings came up, and the tree has %d", len(endings), len(w.Tree.Endings))
			}
			t.Logf("%d paths", n)
		})
	}
}

// same holds a form against Walk. old are answers that stand in the form from
// another path.
func same(t *testing.T, f *filler, tr *tree.Tree, given, old tree.Answers) tree.Path {
	t.Helper()
	p, err := tr.Walk(given)
	if err != nil {
		t.Fatalf("%v: %v", given, err)
	}
	replies := map[string]reply{}
	for id, chosen := range given {
		f.put(tr, id, chosen, replies)
	}
	for id, chosen := range old {
		if _, ok := given[id]; !ok && p.Open == "" {
			f.put(tr, id, chosen, replies)
		}
	}
	for _, f.lax = range []bool{false, true} {
		if diff := cmp.Diff(walked(p), f.seen(tr, replies)); diff != "" {
			t.Fatalf("%v: the tree (-) and the form (+) differ (lax %v):\n%s", given, f.lax, diff)
		}
	}
	return p
}

// Amounts between the steps, and in every unit, lead where rounding leads them.
func TestAmountsBetweenSteps(t *testing.T) {
	l := librarytest.Load(t)
	rnd := rand.New(rand.NewPCG(8, 8))
	taken := 0
	for _, w := range written(t, l) {
		f := newFiller(t, w.JSON)
		for given := range proof.SomePaths(w.Tree, 6000, 9) {
			measured := false
			for _, q := range w.Tree.Questions {
				if c := given[q.ID.S]; q.Measure != nil && c != nil && c[0] != tree.Skip {
					in := []string{" %", " deg"}
					if q.Measure.Kind() == "length" {
						in = []string{" mm", " cm", " in"}
					} else if q.Measure.Kind() == "mass" {
						in = []string{" kg", " lb"}
					}
					text := fmt.Sprintf("%.3f%s", rnd.Float64()*60, in[rnd.IntN(len(in))])
					if _, err := q.Measure.Read(text); err == nil {
						given[q.ID.S], measured = []string{text}, true
					}
				}
			}
			if !measured {
				continue
			}
			taken++
			p, err := w.Tree.Walk(given)
			if err != nil {
				t.Fatal(err)
			}
			on := tree.Answers{}
			for _, s := range p.Steps {
				on[s.Question] = given[s.Question]
			}
			same(t, f, w.Tree, on, nil)
		}
	}
	if taken < 700 {
		t.Errorf("only %d paths held an amount", taken)
	}
}

// Trees made up at random, with conditions over several earlier answers. What
// a form cannot say must be reported, and all that is written must act alike.
func TestRandomTrees(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 1))
	layer := t.TempDir()
	cards := "cards:\n"
	for i := range 3 {
		cards += fmt.Sprintf("  c%d: { title: A note, text: A note. }\n", i)
	}
	if err := os.Mkdir(filepath.Join(layer, "trees"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(layer, "trees", "cards.yaml"), []byte(cards), 0o644); err != nil {
		t.Fatal(err)
	}
	lib := librarytest.Load(t, layer)
	said, refused, copied, nested := 0, map[string]int{}, 0, 0
	for i := range 300 {
		src := randomTree(rnd)
		var list finding.List
		tr := tree.Parse("trees/random.yaml", []byte(src), &list)
		if list.Len() > 0 {
			t.Fatalf("tree %d: %v\n%s", i, list.Sorted(), src)
		}
		proved, err := proof.Prove(t.Context(), tr, &list)
		if err != nil {
			t.Fatal(err)
		}
		lib.Proofs[tr.ID.S] = proved
		w, err := write(lib, tr, &sync.Map{})
		if err != nil {
			refused[strings.Map(func(r rune) rune {
				if r >= '0' && r <= '9' {
					return -1
				}
				return r
			}, err.Error())]++
			continue
		}
		said++
		if len(w.Form.Split) > 0 {
			copied++
		}
		if len(w.Form.Nest) > 0 {
			nested++
		}
		f := newFiller(t, w.JSON)
		bad := breaks(w.JSON)
		if len(bad) > 0 {
			t.Fatalf("tree %d: %v\n%s", i, bad, src)
		}
		var before tree.Answers
		for given := range proof.SomePaths(tr, 150, uint64(i)) {
			p, err := tr.Walk(given)
			if err != nil {
				t.Fatal(err)
			}
			if p.Ending == "" {
				continue
			}
			func() {
				defer func() {
					if t.Failed() {
						t.Logf("tree %d\n%s", i, src)
					}
				}()
				same(t, f, tr, given, before)
			}()
			before = given
		}
	}
	t.Logf("%d written, %d of them with copies, %d with nested questions; refused: %v", said, copied, nested, refused)
	if said < 200 || copied < 5 || nested < 5 {
		t.Error("the trees are too plain, or too few can be written")
	}
}

// randomTree writes a tree in which each answer leads on and routes weigh up to
// three earlier answers.
func randomTree(rnd *rand.Rand) string {
	n, ends := 3+rnd.IntN(4), 2+rnd.IntN(3)
	var b strings.Builder
	b.WriteString(`tree: random
title: Random
audience: patient
purpose: To try.
authors: [Keelpath editors]
reviewers: []
reviewed: 2026-11-25
review-by: 2028-11-25
sources: []
funding: None.
start: q0
`)
	to := func(i int) string {
		if k := i + 1 + rnd.IntN(n-i+1); k < n {
			return fmt.Sprintf("q%d", k)
		}
		return fmt.Sprintf("e%d", rnd.IntN(ends))
	}
	kinds := make([]int, n)
	condition := func(i int) string {
		var parts []string
		for range 1 + rnd.IntN(2) {
			k := rnd.IntN(i + 1)
			switch kinds[k] {
			case 0:
				parts = append(parts, fmt.Sprintf("q%d %s %d*mm", k, []string{"<", "<=", ">", ">=", "=="}[rnd.IntN(5)], rnd.IntN(9)))
			case 1:
				parts = append(parts, fmt.Sprintf(`q%d %s "a%d"`, k, []string{"==", "!="}[rnd.IntN(2)], rnd.IntN(2)))
			case 2:
				parts = append(parts, fmt.Sprintf(`has(q%d, "a%d")`, k, rnd.IntN(3)))
			}
			if j := slices.Index(kinds[:i], 0); kinds[i] == 0 && j >= 0 && rnd.IntN(2) == 0 {
				parts = append(parts, fmt.Sprintf("q%d - q%d > %d*mm", i, j, rnd.IntN(5)))
			}
		}
		return strings.Join(parts, []string{" && ", " || "}[rnd.IntN(2)])
	}
	b.WriteString("questions:\n")
	for i := range n {
		kinds[i] = rnd.IntN(3)
		fmt.Fprintf(&b, "  q%d:\n    text: So?\n    why: To know.\n", i)
		switch kinds[i] {
		case 0:
			fmt.Fprintf(&b, "    measure: { unit: mm, from: %d, to: 8, step: 1, like: { some: { text: Some, is: 3 mm } } }\n    skip: %s\n", -rnd.IntN(2), to(i))
		default:
			if kinds[i] == 2 {
				b.WriteString("    pick: any\n")
			}
			b.WriteString("    answers:\n")
			for j := range 3 + rnd.IntN(2) {
				extra := ""
				if rnd.IntN(3) == 0 {
					extra = ", go: " + to(i)
				}
				if rnd.IntN(4) == 0 {
					extra += fmt.Sprintf(", cards: [c%d]", rnd.IntN(2))
				}
				if kinds[i] == 2 && rnd.IntN(4) == 0 {
					extra += ", alone: true"
				}
				fmt.Fprintf(&b, "      a%d: { text: So%s }\n", j, extra)
			}
			b.WriteString("      unsure: { text: Not sure }\n")
			if rnd.IntN(3) == 0 {
				fmt.Fprintf(&b, "    skip: %s\n", to(i))
			}
		}
		b.WriteString("    routes:\n")
		for range rnd.IntN(3) {
			cards := ""
			if rnd.IntN(4) == 0 {
				cards = ", cards: [c2]"
			}
			fmt.Fprintf(&b, "      - { if: '%s', go: %s%s }\n", condition(i), to(i), cards)
		}
		fmt.Fprintf(&b, "      - { go: %s }\n", to(i))
	}
	b.WriteString("endings:\n")
	for i := range ends {
		fmt.Fprintf(&b, "  e%d: { title: End, text: Talk. }\n", i)
	}
	return b.String()
}
