package proof_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/big"
	"runtime"
	"strings"
	"testing"
	"time"

	"keelpath/builder/finding"
	"keelpath/builder/internal/ending"
	"keelpath/builder/proof"
	"keelpath/builder/tree"
)

const largeQuestions = 60

// largeTree writes a tree of 60 questions in a row. Every third asks for an
// amount, every fifth of the others takes several answers, and many choose
// their way by what was answered one, four or seven questions before.
//
//	question i leads to i+1, or by its condition to i+2
//	i%3 == 0: an amount from 0 to 200; a way of its own from 100 on
//	i%3 == 1: one of four answers and "not sure"; by what i-1 measured, i-4 was told
//	i%3 == 2: any of three answers and "none"; by "a" here and "a" seven before
func largeTree() string {
	var b strings.Builder
	b.WriteString(header + "values:\n")
	for i := 0; i < largeQuestions; i += 3 {
		fmt.Fprintf(&b, "  half-%d: q%d/2\n", i, i)
	}
	b.WriteString("questions:\n")
	to := func(i int) string {
		if i < largeQuestions {
			return fmt.Sprintf("q%d", i)
		}
		return fmt.Sprintf("end-%d", i-largeQuestions)
	}
	for i := range largeQuestions {
		fmt.Fprintf(&b, "  q%d:\n    text: So?\n    why: To know.\n    skip: %s\n", i, to(i+1))
		condition := ""
		switch i % 3 {
		case 0:
			b.WriteString("    measure: { unit: mm, from: 0, to: 200, step: 0.5 }\n")
			condition = fmt.Sprintf("q%d >= 100*mm", i)
		case 1:
			b.WriteString("    answers: { a: { text: A }, b: { text: B }, c: { text: C }, d: { text: D } }\n")
			condition = fmt.Sprintf("half_%d < 20*mm", i-1)
			if i >= 4 {
				condition += fmt.Sprintf(` && q%d == "a"`, i-3)
			}
		case 2:
			b.WriteString("    pick: any\n    answers: { a: { text: A }, b: { text: B }, c: { text: C }, none: { text: None, alone: true } }\n")
			condition = fmt.Sprintf(`has(q%d, "a")`, i)
			if i >= 8 {
				condition += fmt.Sprintf(` && has(q%d, "a")`, i-6)
			}
		}
		fmt.Fprintf(&b, "    routes:\n      - { if: '%s', go: %s }\n      - { go: %s }\n", condition, to(i+2), to(i+1))
	}
	b.WriteString("endings:\n  end-0: { title: End, text: Talk. }\n  end-1: { title: End, text: Talk. }\n")
	return b.String()
}

// countLarge counts the paths of largeTree by a recurrence of its own, made
// from the rules above and not from the tree. memory is what was answered in
// the last questions, the nearest first: "" for one that was not asked. The
// amounts below 40, up to 100 and from 100 on are so many.
func countLarge(below, upTo, from int64) *big.Int {
	known := map[string]*big.Int{}
	var count func(i int, memory [6]string) *big.Int
	count = func(i int, memory [6]string) *big.Int {
		if i >= largeQuestions {
			return big.NewInt(1)
		}
		key := fmt.Sprint(i, memory)
		if n, ok := known[key]; ok {
			return n
		}
		total := new(big.Int)
		add := func(ways int64, said string, jump bool) {
			next, at := memory, i+1
			copy(next[1:], memory[:5])
			next[0] = said
			if jump {
				at = i + 2
				copy(next[1:], next[:5])
				next[0] = ""
			}
			total.Add(total, new(big.Int).Mul(big.NewInt(ways), count(at, next)))
		}
		switch i % 3 {
		case 0:
			add(below, "low", false)
			add(upTo, "middle", false)
			add(from, "high", true)
			add(1, "", false) // skipped
		case 1:
			low := memory[0] == "low" && (i < 4 || memory[2] == "a")
			add(1, "a", low)
			add(3, "other", low)
			add(1, "", false)
		case 2:
			add(4, "a", i < 8 || memory[5] == "a") // a with or without b and c
			add(3, "other", false)
			add(1, "other", false) // none of these
			add(1, "", false)
		}
		known[key] = total
		return total
	}
	return count(0, [6]string{})
}

func proveLarge(tb testing.TB) (*proof.Proof, []finding.Finding) {
	tb.Helper()
	var list finding.List
	tr := tree.Parse("trees/random.yaml", []byte(largeTree()), &list)
	if list.Len() > 0 {
		tb.Fatal(list.Sorted())
	}
	p := proved(tb, tr, &list)
	return p, list.Sorted()
}

// A tree far too large to walk is proved, exactly, in little time and memory.
func TestProofOfALargeTree(t *testing.T) {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	began := time.Now()
	p, found := proveLarge(t)
	took := time.Since(began)
	runtime.ReadMemStats(&after)
	for _, f := range found {
		t.Errorf("%s %s: %s %q", f.Place, f.Check, f.Text, f.Help)
	}
	want := countLarge(80, 120, 201) // in steps of half a millimeter
	if listed := countLarge(1, 1, 1); p.Listed.Cmp(listed) != 0 {
		t.Errorf("%s paths are listed where like amounts stand once, and the recurrence gives %s", p.Listed, listed)
	}
	if p.Paths.Cmp(want) != 0 {
		t.Errorf("%s paths, and the recurrence gives %s", p.Paths, want)
	}
	if least := big.NewInt(1e12); want.Cmp(least) < 0 {
		t.Errorf("only %s paths", want)
	}
	if p.Longest != largeQuestions {
		t.Errorf("the longest has %d questions", p.Longest)
	}
	if len(p.Witness) != largeQuestions+2 {
		t.Errorf("%d places are reached", len(p.Witness))
	}
	allocated := (after.TotalAlloc - before.TotalAlloc) >> 20
	t.Logf("%s paths in %v, %d MB allocated in all", p.Paths, took, allocated)
	if allocated > 256 { // more than was ever held at once
		t.Errorf("%d MB were allocated", allocated)
	}
	if took > 2*time.Second && !testing.Short() {
		t.Errorf("it took %v", took)
	}
}

func BenchmarkProofOfALargeTree(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		proveLarge(b)
	}
}

// A tree whose conditions hang together beyond the limits is said to be out of
// reach, soon and in little memory.
func TestOutOfReach(t *testing.T) {
	measure := "    measure: { unit: mm, from: 0, to: 100000, step: 0.1 }\n    skip: end\n"
	for _, c := range []struct{ name, body string }{
		{"two measures held against each other", `  q0:
    text: So?
    why: To know.
` + measure + `    go: q1
  q1:
    text: So?
    why: To know.
` + measure + `    routes: [{ if: q1 > q0, go: other }, { go: end }]
`},
		{"many measures of many amounts", many(40, func(i int) string {
			return measure + fmt.Sprintf("    routes: [{ if: q%d > 7*mm, go: other }, { go: %s }]\n", i, after(i, 40))
		})},
		{"many answers asked for at the end", many(20, func(i int) string {
			if i < 19 {
				return fmt.Sprintf("    answers: { a: { text: A }, b: { text: B } }\n    skip: q%d\n    routes: [{ go: q%d }]\n", i+1, i+1)
			}
			var all []string
			for j := range 19 {
				all = append(all, fmt.Sprintf(`q%d == "a"`, j))
			}
			return "    answers: { a: { text: A } }\n    skip: end\n    routes: [{ if: '" + strings.Join(all, " && ") + "', go: other }, { go: end }]\n"
		})},
	} {
		t.Run(c.name, func(t *testing.T) {
			var list finding.List
			src := header + "questions:\n" + c.body + "endings:\n  end: { title: End, text: Talk. }\n  other: { title: Other, text: Talk. }\n"
			tr := tree.Parse("trees/random.yaml", []byte(src), &list)
			if list.Len() > 0 {
				t.Fatal(list.Sorted())
			}
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			began := time.Now()
			p := proved(t, tr, &list)
			runtime.ReadMemStats(&after)
			t.Logf("%v, %d MB allocated in all", time.Since(began), (after.TotalAlloc-before.TotalAlloc)>>20)
			if fs := list.Sorted(); len(fs) != 1 || fs[0].Check != "out-of-reach" || fs[0].Weight != finding.Error {
				t.Errorf("findings: %v", fs)
			}
			if p.Witness["other"] == nil || p.Witness["end"] == nil {
				t.Errorf("what the bare ways on reach is still known: %v", p.Witness)
			}
		})
	}
}

func many(n int, body func(i int) string) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "  q%d:\n    text: So?\n    why: To know.\n%s", i, body(i))
	}
	return b.String()
}

func after(i, n int) string {
	if i+1 < n {
		return fmt.Sprintf("q%d", i+1)
	}
	return "end"
}

// A proof listens to its context at each state and each amount that it tries.
func TestProofStops(t *testing.T) {
	var list finding.List
	tr := tree.Parse("trees/random.yaml", []byte(strings.Replace(header, "start: q0", "start: safety", 1)+sound), &list)
	if list.Len() > 0 {
		t.Fatal(list.Sorted())
	}
	all := ending.After(t.Context(), math.MaxInt32)
	if _, err := proof.Prove(all, tr, &list); err != nil {
		t.Fatal(err)
	}
	if all.Asked() < 100 {
		t.Errorf("the context was asked %d times only", all.Asked())
	}
	for n := range all.Asked() {
		var found finding.List
		p, err := proof.Prove(ending.After(t.Context(), n), tr, &found)
		if p != nil || !errors.Is(err, context.Canceled) {
			t.Fatalf("ended at question %d, it gives %v and %v", n, p, err)
		}
		for _, f := range found.Sorted() {
			t.Errorf("ended at question %d, it reports %q: a proof cut short knows nothing", n, f.Text)
		}
	}
}
