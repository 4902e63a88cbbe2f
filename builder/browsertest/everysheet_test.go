package browsertest

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"
)

// phone is the height of a small phone's screen, 360 wide.
const phone = 740

// Every worked example's sheet prints on one side of A4 and of Letter, with each sentence once and in
// whole under "About me", and its page on a small phone is four screens at most. The first six printed lines of no two of ten such sheets,
// shuffled, are alike. The text is read off the file by pdftotext. Printing takes a second each, so one example in four
// is taken; .ci/long takes all of them (KEELPATH_SHEETS=all).
func TestEverySheetPrints(t *testing.T) {
	all, step := examplesToPrint(t, 1000), 4
	if os.Getenv("KEELPATH_SHEETS") == "all" {
		step = 1
	}
	every := len(all)
	all = slices.DeleteFunc(all, func(f filled) bool { every--; return every%step != 0 })
	t.Logf("%d sheets are printed, one example in %d", len(all), step)
	next := make(chan filled, len(all))
	for _, f := range all {
		next <- f
	}
	close(next)
	tops, mutex := map[string][]string{}, sync.Mutex{} // the first lines, by what was told and where it leads
	t.Run("print", func(t *testing.T) {
		for n := range 2 {
			t.Run(fmt.Sprint("tab ", n+1), func(t *testing.T) {
				t.Parallel()
				b := newTab(t)
				b.size(360, phone)
				for f := range next {
					top := everySheet(b, f)
					mutex.Lock()
					tops[f.tree.ID.S+": "+f.example.Who.S] = top
					mutex.Unlock()
				}
			})
		}
	})
	if len(tops) < 40 {
		t.Fatalf("only %d sheets were printed", len(tops))
	}
	names := make([]string, 0, len(tops))
	for name := range tops {
		names = append(names, name)
	}
	slices.Sort(names)
	r := rand.New(rand.NewPCG(6, 10))
	for range 100 {
		r.Shuffle(len(names), func(i, j int) { names[i], names[j] = names[j], names[i] })
		seen := map[string]string{}
		for _, name := range names[:10] {
			top := strings.Join(tops[name], "\n")
			if other, ok := seen[top]; ok {
				t.Errorf("%s and %s begin alike:\n%s", name, other, top)
			}
			seen[top] = name
		}
	}
}

func everySheet(b *tab, f filled) (top []string) {
	b.t.Helper()
	name := f.tree.ID.S + ": " + f.example.Who.S
	b.openPlanner(onDisk)
	b.take(f.tree, f.example.Given())
	b.tap("sheet")
	if high := eval[float64](b, `document.documentElement.scrollHeight`); high > 4*phone {
		b.t.Errorf("%s: the sheet's page is %.0f px high on a phone, %.1f screens", name, high, high/phone)
	}
	me := eval[[]string](b, `Array.from(document.querySelectorAll('#planner [data-slot="lines"] label'), (e) => e.textContent)`)
	for _, paper := range []string{"A4", "Letter"} {
		p := b.print(paper, "every-"+f.tree.ID.S+"-"+f.example.Ending.S)
		if p.Pages != 1 {
			b.t.Errorf("%s: %d pages of %s", name, p.Pages, paper)
		}
		text, band := p.asWritten(), eval[string](b, `document.querySelector(".sheet-paper .me").textContent`)
		for _, says := range me {
			if n := strings.Count(band, says); n != 1 || !strings.Contains(text, oneLine(says)) {
				b.t.Errorf("%s: %q stands %d times under About me, and on %s: %v", name, says, n, paper, strings.Contains(text, oneLine(says)))
			}
		}
		if paper == "A4" {
			for _, line := range strings.Split(string(run(b.t, "pdftotext", "-layout", p.file, "-")), "\n") {
				if line = oneLine(line); line != "" && len(top) < 7 {
					top = append(top, line)
				}
			}
			top = top[1:] // below the title and the date
		}
	}
	return top
}
