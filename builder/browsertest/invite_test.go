package browsertest

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/internal/sitetest"
	"keelpath/builder/tree"
)

// Each page of start/ lands in the planner, from disk and from a host: at the safety screen, and behind
// it at the first question of its topic.
func TestStartPages(t *testing.T) {
	t.Parallel()
	everywhere(t, func(t *testing.T, address func(string) string) {
		b := newTab(t)
		for _, tr := range lib.PatientTrees() {
			b.open(address("start/" + tr.ID.S + ".html"))
			b.waitFor(`document.querySelector("#planner [data-leg]") !== null`)
			wantsScreen(t, b, "start/"+tr.ID.S+".html")
			if at := eval[string](b, `location.href`); at != address(plannerName) && at != sitetest.OnDisk(siteDir, plannerName) && at != siteHTTP+"/"+plannerName {
				t.Errorf("%s leads to %s", tr.ID.S, at)
			}
			b.hand(`pass()`)
			b.waitFor(`document.querySelector("#planner .question h2") !== null`)
			if s, want := b.look(), tr.Question(tr.Start.S).Text.S; s.Question != oneLine(want) {
				t.Errorf("start/%s.html comes to %q, want %q", tr.ID.S, s.Question, want)
			}
			b.clear()
		}
		b.open(address("start/index.html"))
		b.waitFor(`document.querySelector("#planner [data-topic]") !== null`)
		if s := b.look(); s.View != "topics" {
			t.Errorf("start/index.html comes to %q", s.View)
		}
	})
}

// status is the line that tells what happened, where it is to be seen.
const status = `(() => { const s = document.querySelector('#planner [data-slot="status"]'); return s.classList.contains("unseen") ? "" : s.textContent; })()`

// An invitation to several topics begins with the first, behind the safety screen, and the endings lead on to
// the others in its order.
func TestInvitedToSeveral(t *testing.T) {
	t.Parallel()
	everywhere(t, func(t *testing.T, address func(string) string) {
		invited := []string{"work", "hills-and-ramps", "heel-height"}
		b := newTab(t)
		at := address(plannerName) + "#take=" + strings.Join(invited, ",")
		b.open(at)
		b.waitFor(`document.querySelector("#planner [data-leg]") !== null`)
		wantsScreen(t, b, "an invitation")
		b.hand(`pass()`)
		for i, id := range invited {
			tr := lib.Tree(id)
			if i > 0 {
				b.hand(`tapOn(planner.querySelector('[data-slot="onward"] button.main'), "go on")`)
			}
			b.waitFor(`document.querySelector("#planner .question h2") !== null`)
			if s := b.look(); s.View != "question" || s.Title != oneLine(tr.Title.S) {
				t.Fatalf("topic %d is %q, %q; want %q", i+1, s.View, s.Title, tr.Title.S)
			}
			calm := slices.IndexFunc(tr.Examples, func(ex *tree.Example) bool { return !tellsSign(t, tr, ex) })
			b.toEnding(tr, walk(t, tr, tr.Examples[calm].Given()))
		}
	})
}

// toEnding answers what is asked along a path. What an earlier topic told is not asked again.
func (b *tab) toEnding(tr *tree.Tree, path tree.Path) {
	b.t.Helper()
	for s := b.look(); s.View != "ending"; s = b.look() {
		i := slices.IndexFunc(path.Steps, func(step tree.Step) bool {
			return s.View == "question" && oneLine(tr.Question(step.Question).Text.S) == s.Question
		})
		if i < 0 {
			b.t.Fatalf("on the way to %s stands %q, %q", path.Ending, s.View, s.Question)
		}
		b.choose(path.Steps[i].Chosen...)
	}
}

// Whatever stands behind "#take=", the page works on, says so in a sentence and keeps what was said.
func TestBadInvitations(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onWeb)
	b.choose("heel-height")
	before := b.look()
	for _, bad := range []string{
		"nowhere", "nowhere,nothing", "HEEL-HEIGHT", "heel-height;work", "heel-height/../work", "heel-height?x=1", "heel-height#work", "%", "%E0%A4%A", "heel-height%00",
		"__proto__", "constructor", "%3Cimg%20src=x%20onerror=alert(1)%3E", "javascript:alert(1)", "../index.html", "\u00f1", "%F1", "0", "null", strings.Repeat("heel-height,", 40), strings.Repeat("x", 5000),
	} {
		b.run(fmt.Sprintf(`location.hash = %s`, quoted(b, "take="+bad)))
		b.waitFor(`location.hash === ""`)
		if said := eval[string](b, status); !strings.Contains(said, "names no topic that is here") {
			t.Errorf("%.40q: the page says %q", bad, said)
		}
		if now := b.look(); now.View != before.View || now.Question != before.Question {
			t.Fatalf("%.40q: the page shows %q, %q, and showed %q", bad, now.View, now.Question, before.Question)
		}
	}
	// Of a mixed one, what is here is taken up.
	b.run(`location.hash = "#take=nowhere,work,heel-height"`)
	b.waitFor(`location.hash === ""`)
	b.waitFor(status + ` !== ""`)
	if s := b.look(); s.Title != oneLine(lib.Tree("work").Title.S) {
		t.Errorf("it comes to %q", s.Title)
	}
	if said := eval[string](b, status); !strings.Contains(said, "names more topics than we could open") {
		t.Errorf("the page says %q", said)
	}
	b.tap("bar-topics")
	rows := eval[[]string](b, `Array.from(document.querySelectorAll("#planner [data-topic]")).filter((r) => r.querySelector(".standing") && !r.querySelector(".standing").hidden).map((r) => r.value)`)
	if slices.Sort(rows); !slices.Equal(rows, []string{"heel-height", "work"}) {
		t.Errorf("begun are %q", rows)
	}
}
