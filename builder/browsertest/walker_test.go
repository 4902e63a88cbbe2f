package browsertest

import (
	"fmt"
	"iter"
	"math/big"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"keelpath/builder/clienttest"
	"keelpath/builder/proof"
	"keelpath/builder/quantity"
	"keelpath/builder/tree"
)

// mostWalked is how many paths of a tree the browser's own engine walks: all
// where there are no more, else as many drawn from a seed. They are those that
// builder/proof's tests put through the script engine in Go.
const mostWalked = 10_000

// walked is a path with the prompts that its ending brings.
type walked struct {
	tree.Path
	Prompts []string
}

// The walker's script in Chromium and Go's Walk give the same questions in the
// same order, the same values, cards, prompts and ending, for every path.
func TestWalkerInBrowser(t *testing.T) {
	b := newTab(t)
	b.open("about:blank")
	b.run(clienttest.Bundle(t, "walk/walker.ts") + ";window.walker = script")
	b.run("window.units = " + quoted(b, quantity.Table()))
	for _, tr := range lib.Trees {
		t.Run(tr.ID.S, func(t *testing.T) {
			b.run("window.table = " + quoted(b, tr.Table(lib.Proofs[tr.ID.S].Left)))
			n := 0
			for some := range chunks(everyPath(tr), 1000) {
				n += len(some)
				got := eval[[]walked](b, `(`+quoted(b, some)+`).map((given) => {
					const path = walker.walk(table, given, units);
					return Object.assign({ Prompts: table.endings[path.ending].prompts || null }, path);
				})`)
				for i, given := range some {
					if diff := cmp.Diff(walkedInGo(t, tr, given), got[i], cmpopts.EquateApprox(0, 1e-9)); diff != "" {
						t.Fatalf("%v: Go (-) and the browser (+) differ:\n%s", given, diff)
					}
				}
			}
			if want := new(big.Int).Set(lib.Proofs[tr.ID.S].Listed); fmt.Sprint(n) != fmt.Sprint(least(want)) {
				t.Errorf("%d paths were walked, and the proof counts %s", n, want)
			}
		})
	}
}

func everyPath(tr *tree.Tree) iter.Seq[tree.Answers] {
	if lib.Proofs[tr.ID.S].Listed.Cmp(big.NewInt(mostWalked)) <= 0 {
		return proof.AllPaths(tr)
	}
	return proof.SomePaths(tr, mostWalked, 1)
}

// least is the number of paths to walk of so many.
func least(paths *big.Int) *big.Int {
	if most := big.NewInt(mostWalked); paths.Cmp(most) > 0 {
		return most
	}
	return paths
}

func walkedInGo(t testing.TB, tr *tree.Tree, given tree.Answers) walked {
	t.Helper()
	out := walked{Path: walk(t, tr, given)}
	for _, p := range tr.Ending(out.Ending).Prompts {
		out.Prompts = append(out.Prompts, p.S)
	}
	return out
}

func chunks[T any](all iter.Seq[T], n int) iter.Seq[[]T] {
	return func(yield func([]T) bool) {
		var some []T
		for x := range all {
			if some = append(some, x); len(some) == n {
				if !yield(some) {
					return
				}
				some = nil
			}
		}
		if len(some) > 0 {
			yield(some)
		}
	}
}
