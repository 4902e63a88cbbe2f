package browsertest

import (
	"fmt"
	"math"
	"path/filepath"
	"testing"
)

// A drawnRow is an answer as it stands on the page, with the thing that is drawn under it.
type drawnRow struct {
	ID, Ground, Tile string
	Hidden           bool    // from who listens
	Top              float64 // of the row
	Angle            float64 // at which the ground leaves the row, in degrees
	Line             string  // the colour of its ground
}

// rowsDrawn looks at the rows of the question that is open, before its drawings have come and after; it takes no longer
// than they do, or than the wait.
const rowsDrawn = `
const rows = () => Array.from(planner.querySelectorAll(".question .row")).map((row) => {
  const svg = row.querySelector("svg"), line = svg && svg.querySelector(".g-line:not(.g-lead)");
  const end = line && line.getTotalLength(), a = line && line.getPointAtLength(end - 1), b = line && line.getPointAtLength(end);
  return { ID: row.querySelector("[value]") ? row.querySelector("[value]").value : row.value, Ground: row.getAttribute("data-ground") || "", Tile: svg ? svg.getAttribute("data-ground") : "",
    Hidden: !!svg && svg.getAttribute("aria-hidden") === "true", Top: row.getBoundingClientRect().top, Angle: line ? Math.atan2(a.y - b.y, b.x - a.x) * 180 / Math.PI : 0, Line: line ? getComputedStyle(line).stroke : "" };
});
const come = async () => { for (let i = 0; i < 60 && rows().some((r) => r.Ground && !r.Tile); i++) await new Promise((then) => setTimeout(then, 50)); return rows(); };
`

// An answer that is a thing has it under its words: hidden from who listens, at its true angle, in place before a thumb can
// land, and with its ground in another colour once it is chosen.
func TestAnswersAreDrawn(t *testing.T) {
	t.Parallel()
	everywhere(t, func(t *testing.T, address func(string) string) {
		b := newTab(t)
		b.size(360, 740)
		b.openPlanner(address)
		seen := eval[[][]drawnRow](b, fmt.Sprintf(`(async () => {%s%s
answer(["hills-and-ramps"]); pass(); answer(["no"]);
const first = rows(), where = await come();
planner.querySelector('.question [value="home"]').click();
const chosen = rows();
next();
return [first, where, chosen, await come()]; })()`, hands, rowsDrawn))
		first, where, chosen, steep := seen[0], seen[1], seen[2], seen[3]
		if len(where) != 5 || len(steep) != 4 {
			t.Fatalf("%d places and %d slopes are asked for", len(where), len(steep))
		}
		for i, r := range where {
			if r.Ground == "" || r.Tile != r.Ground || !r.Hidden {
				t.Errorf("%s is shown as %q, and names %q", r.ID, r.Tile, r.Ground)
			}
			if r.Top != first[i].Top {
				t.Errorf("%s moved from %v to %v when its drawing came", r.ID, first[i].Top, r.Top)
			}
		}
		if chosen[0].Line == where[0].Line || chosen[1].Line != where[1].Line {
			t.Errorf("grounds are %s and %s, and with the first one chosen %s and %s", where[0].Line, where[1].Line, chosen[0].Line, chosen[1].Line)
		}
		for i, ratio := range []float64{1.0 / 20, 1.0 / 12, 1.0 / 8, 0.16} { // as the answers say
			if want := math.Atan(ratio) * 180 / math.Pi; math.Abs(steep[i].Angle-want) > 0.1 {
				t.Errorf("%s is drawn at %.2f degrees, want %.2f", steep[i].ID, steep[i].Angle, want)
			}
		}
	})
}

// Where the drawings do not come, the words stand alone, and nothing waits.
func TestAnswersWithoutDrawings(t *testing.T) {
	t.Parallel()
	dir := brokenSite(t, plannerName, `data-ground="../assets/ground.`, `data-ground="../assets/gone.`)
	b := newTab(t)
	b.openPlanner(func(name string) string { return "file://" + filepath.Join(dir, filepath.FromSlash(name)) })
	seen := eval[[]drawnRow](b, fmt.Sprintf(`(async () => {%s%s
answer(["hills-and-ramps"]); pass(); answer(["no"]);
await come();
return rows(); })()`, hands, rowsDrawn))
	for _, r := range seen {
		if r.ID == "" || r.Tile != "" {
			t.Errorf("%q is drawn as %q", r.ID, r.Tile)
		}
	}
	if len(seen) != 5 {
		t.Errorf("%d answers are there, want 5", len(seen))
	}
	b.forgive() // of the file that is not there
}
