package browsertest

import (
	"testing"
)

// besides is what stands side by side on the page of all kinds of feet.
type besides struct {
	Kinds, Cuts []string
	Scales      []float64 // of the drawings: pixels a millimetre
	Grounds     []float64 // where their feet stand
	Rows        int
	High, Wide  float64
}

const lookBeside = `(async () => {
for (let i = 0; i < 60 && !document.querySelector(".beside .cut"); i++) await new Promise((then) => setTimeout(then, 50));
const all = (at) => Array.from(document.querySelectorAll(at)).filter((e) => e.getClientRects().length), cuts = all(".beside .cut");
return { Kinds: all(".beside select").map((s) => s.value), Cuts: cuts.map((s) => s.dataset.cut), Scales: cuts.map((s) => Math.round(100 * s.getBoundingClientRect().width / s.viewBox.baseVal.width) / 100),
  Grounds: cuts.map((s) => Math.round(s.getBoundingClientRect().bottom)), Rows: document.querySelectorAll(".beside tbody tr").length,
  High: document.querySelector(".beside table").getBoundingClientRect().height, Wide: document.documentElement.scrollWidth }; })()`

// Two kinds of feet stand side by side on a phone, and four where there is room, in one screen: cut open, on one ground and at
// one scale, with every row. Another kind can be put in a place; nothing scrolls sideways.
func TestKindsSideBySide(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	for _, c := range []struct {
		wide  int64
		kinds int
	}{{320, 2}, {360, 2}, {768, 3}, {1280, 4}} {
		b.size(c.wide, 900)
		b.open(onDisk("learn/foot-types.html"))
		got := eval[besides](b, lookBeside)
		if len(got.Kinds) != c.kinds || len(got.Cuts) != c.kinds || got.Rows != len(lib.Rows) || got.Wide > float64(c.wide) || c.kinds == 4 && got.High > 900 {
			t.Errorf("at %d there are %+v; want %d kinds, no wider than the screen and with %d rows", c.wide, got, c.kinds, len(lib.Rows))
		}
		for i := range got.Cuts {
			if got.Cuts[i] != got.Kinds[i] || got.Scales[i] != got.Scales[0] || got.Grounds[i] != got.Grounds[0] {
				t.Errorf("at %d kind %d is %q, drawn as %q at %v on %v, and the first is drawn at %v on %v", c.wide, i+1, got.Kinds[i], got.Cuts[i], got.Scales[i], got.Grounds[i], got.Scales[0], got.Grounds[0])
			}
		}
	}
	b.run(`(() => { const s = document.querySelectorAll(".beside select")[1]; s.value = "powered-ankle"; s.dispatchEvent(new Event("change", { bubbles: true })); })()`)
	if got := eval[besides](b, lookBeside); got.Cuts[1] != "powered-ankle" {
		t.Errorf("after another kind was picked there are %+v", got)
	}
	link := eval[string](b, `document.querySelector(".beside tbody td:nth-child(3) a").hash`)
	if link != "#powered-ankle_ankle-motion" {
		t.Errorf("the first rating of the kind that was picked leads to %q", link)
	}
}

// Without script the page has its table alone.
func TestKindsWithoutScript(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.scriptOff()
	b.size(360, 740)
	b.open(onDisk("learn/foot-types.html"))
	if n := eval[int](b, `document.querySelectorAll(".feet tbody tr").length * Number(document.querySelector(".beside").hidden)`); n != len(lib.FootTypes) {
		t.Errorf("%d rows of the table are all there is, want %d", n, len(lib.FootTypes))
	}
}
