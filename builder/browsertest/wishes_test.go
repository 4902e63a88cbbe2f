package browsertest

import (
	"slices"
	"strings"
	"testing"

	"keelpath/builder/conflict"
)

const (
	pullsPage      = "workbench/what-pulls-against-what.html"
	motionPushPage = "workbench/motion-against-push.html"
)

// wishes is what the page about wishes shows.
type wishes struct {
	Marked  []string // ids
	Said    string
	Problem string
	Pulls   []string // names of the conflicts
	Wishes  []string // names of the wishes
	Asks    []string
	Text    string // of the box to copy from
	Links   []string
}

func (b *tab) wishes() wishes {
	b.t.Helper()
	return eval[wishes](b, `(() => {
const root = document.getElementById("pulls"), seen = (e) => e && e.checkVisibility(), one = (e) => e.textContent.replace(/\s+/g, " ").trim();
const shown = (e) => !e.closest("[hidden]"), all = (what) => Array.from(root.querySelectorAll(what)).filter(shown);
const text = root.querySelector("textarea"), problem = root.querySelector(".problem");
return { Marked: Array.from(root.querySelectorAll("input:checked"), (i) => i.value), Said: all("[role=status]").map(one).join(), Problem: seen(problem) ? one(problem) : "",
  Pulls: all(".pull h3 .title").map(one), Wishes: all(".wish > h3").map(one), Asks: all(".pull").flatMap((p) => Array.from(p.querySelectorAll(".ask"), one)), Text: shown(text) ? text.value : "",
  Links: all(".pull").flatMap((p) => Array.from(p.querySelectorAll("a.put"))).map((a) => a.getAttribute("href")) };
})()`)
}

// A reader marks wishes, reads what pulls, is refused a sixth, and clears, with the
// keyboard alone. What is shown each time is what Go works out.
func TestWishesByKeyboard(t *testing.T) {
	m := conflict.In(lib)
	title := func(id string) string { return m.Wishes[wishAt(t, m, id)].Title.S }
	everywhere(t, func(t *testing.T, address func(string) string) {
		t.Parallel()
		b := newTab(t)
		b.openPage(pullsPage, address)
		where := eval[string](b, "location.href")
		if s := b.wishes(); s.Said != m.None || len(s.Pulls)+len(s.Wishes) > 0 || s.Text != "" {
			t.Fatalf("with no mark: %+v", s)
		}
		var marked conflict.Set
		for _, id := range []string{"slopes", "push", "light-weight", "heel-change", "water"} {
			b.tabTo(title(id))
			b.press("Space")
			marked |= conflict.Of(wishAt(t, m, id))
			checkWishes(t, m, marked, b.wishes())
		}
		// A sixth is refused, beside the wish, and nothing else changes.
		before := b.wishes()
		b.tabTo(title("low-cost"))
		b.press("Space")
		after := b.wishes()
		if after.Problem != m.Full || !slices.Equal(after.Pulls, before.Pulls) || len(after.Marked) != conflict.Most {
			t.Errorf("a sixth mark: %+v", after)
		}
		if beside := eval[bool](b, `document.activeElement.closest("li").contains(document.querySelector("#pulls .problem"))`); !beside {
			t.Error("the problem is not told beside the wish")
		}
		// One off, and another fits.
		b.tabTo(title("slopes"))
		b.press("Space")
		marked &^= conflict.Of(wishAt(t, m, "slopes"))
		checkWishes(t, m, marked, b.wishes())

		// The rows behind a statement are two keys away.
		c := conflict.Within(m.All, marked)[0]
		b.tabTo(strings.TrimSpace("1. " + m.Title(c) + " " + eval[string](b, `(document.querySelector(".pull:not([hidden]) h3 small") || {}).textContent || ""`)))
		b.press("Enter")
		b.tabTo("The table rows behind this: " + m.Title(c))
		b.press("Enter")
		rows := eval[[]string](b, `Array.from(document.activeElement.closest("details").querySelectorAll("tbody th")).filter((e) => e.checkVisibility()).map((e) => e.textContent)`)
		var feet []string
		for _, f := range m.Feet {
			feet = append(feet, f.Name.S)
		}
		if !slices.Equal(rows, feet) {
			t.Errorf("the rows behind are %q, want %q", rows, feet)
		}

		// A question leads to the sheet.
		ask := m.Questions(c)[0].Ask
		b.tabTo("Put on my sheet: " + ask)
		if to := eval[string](b, `decodeURIComponent(new URL(document.activeElement.href).hash.slice(1))`); to != "own="+ask {
			t.Errorf("the link carries %q", to)
		}

		b.pressButton("Clear my choices")
		if s := b.wishes(); s.Said != m.None || len(s.Marked)+len(s.Pulls)+len(s.Wishes) > 0 {
			t.Errorf("after clearing: %+v", s)
		}
		if now := eval[string](b, "location.href"); now != where {
			t.Errorf("marks change the address to %s", now)
		}
		if left := eval[int](b, `(() => { try { return localStorage.length + sessionStorage.length } catch { return 0 } })()`); left != 0 {
			t.Errorf("%d things are stored", left)
		}
	})
}

func wishAt(t testing.TB, m *conflict.Matter, id string) int {
	t.Helper()
	for i, w := range m.Wishes {
		if w.ID.S == id {
			return i
		}
	}
	t.Fatalf("there is no wish %q", id)
	return 0
}

func checkWishes(t *testing.T, m *conflict.Matter, marked conflict.Set, s wishes) {
	t.Helper()
	var pulls, asks, titles, ids []string
	for _, c := range conflict.Within(m.All, marked) {
		pulls = append(pulls, m.Title(c))
		for _, q := range m.Questions(c) {
			asks = append(asks, q.Ask)
		}
	}
	for _, w := range marked.List() {
		titles, ids = append(titles, m.Wishes[w].Title.S), append(ids, m.Wishes[w].ID.S)
	}
	if s.Said != m.Said(marked) || !slices.Equal(s.Pulls, pulls) || !slices.Equal(s.Asks, asks) || !slices.Equal(s.Wishes, titles) || !slices.Equal(s.Marked, ids) {
		t.Errorf("for %q the page shows %+v", ids, s)
	}
	if s.Text != strings.Join(asks, "\n") {
		t.Errorf("for %q the text to copy is %q, want %q", ids, s.Text, asks)
	}
	if len(s.Links) != len(asks) {
		t.Errorf("%d questions, %d links to the sheet", len(asks), len(s.Links))
	}
}

// With any four wishes, the list folded, the page is three screens of a phone at most,
// with what an add-on gives and takes, which no bar may fold. The picture has a
// label and a post for each wish, and its words name each tie.
func TestPullIsShort(t *testing.T) {
	t.Parallel()
	const phone = 740 // px, with 360 across: shared by many phones; common practice, no source
	b := newTab(t)
	b.size(360, phone)
	b.openPage(pullsPage, onDisk)
	type size struct {
		Marked            []string
		Tall              int
		Posts, Labels     int
		Conflicts, Spoken int
	}
	sizes := eval[[]size](b, `(() => {
const root = document.getElementById("pulls"), inputs = Array.from(root.querySelectorAll("input")), found = [];
const shown = (what) => Array.from(root.querySelectorAll(what)).filter((e) => e.checkVisibility());
const mark = (four) => { for (const on of [false, true]) for (const i of inputs) if (four.includes(i) === on && i.checked !== on) i.click(); };
for (let a = 0; a < inputs.length; a++) for (let b = a + 1; b < inputs.length; b++) for (let c = b + 1; c < inputs.length; c++) for (let d = c + 1; d < inputs.length; d++) {
  const four = [a, b, c, d].map((i) => inputs[i]);
  root.querySelector(".mine").open = true;
  mark(four);
  root.querySelector("[data-act=see]").click();
  found.push({ Marked: four.map((i) => i.value), Tall: document.documentElement.scrollHeight,
    Posts: shown(".picture .post").length, Labels: shown(".post-names span").length, Conflicts: shown(".pull .no").length,
    Spoken: root.querySelector(".picture [role=img]").getAttribute("aria-label").split("Tie ").length - 1 });
}
return found;
})()`)
	if len(sizes) != 495 {
		t.Fatalf("%d sets of four were tried, want 495", len(sizes))
	}
	for _, s := range sizes {
		if s.Tall > 3*phone {
			t.Errorf("with %q the page is %d px", s.Marked, s.Tall)
		}
		if s.Posts != 4 || s.Labels != 4 || s.Spoken != s.Conflicts {
			t.Errorf("with %q the picture has %d posts and %d labels, and names %d of %d conflicts", s.Marked, s.Posts, s.Labels, s.Spoken, s.Conflicts)
		}
	}
}

// Both pages pass axe in each look and fit a window of 320 px, with wider spacing
// too; with all folds open, as that is where the tables are.
func TestWishPagesFit(t *testing.T) {
	for _, name := range []string{pullsPage, motionPushPage} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			b := newTab(t)
			b.openPage(name, onDisk)
			if name == pullsPage {
				b.run(`for (const id of ["slopes", "push", "standing-still", "heel-change"]) document.getElementById("mark-" + id).click()`)
			}
			b.loadAxe()
			for _, open := range []bool{false, true} {
				kind := "closed"
				if open {
					kind = "open"
					b.run(`for (const d of document.querySelectorAll("details")) d.open = true`)
				}
				for _, l := range looks {
					b.size(l.width, l.height)
					b.media("prefers-color-scheme", l.scheme)
					for _, p := range b.axe().problems() {
						t.Errorf("%s at %s: %s", kind, l.name, p)
					}
					keepPicture(t, name+"-"+kind+"-"+l.name+".png", b.picture)
				}
				b.media()
				b.size(320, 640)
				for _, wrong := range eval[[]string](b, layout) {
					t.Errorf("%s at 320 px: %s", kind, wrong)
				}
				keepPicture(t, name+"-"+kind+"-320.png", b.picture)
			}
			b.run(spacing)
			for _, wrong := range eval[[]string](b, layout) {
				t.Errorf("at 320 px, spaced: %s", wrong)
			}
		})
	}
}

// With script off the page holds every conflict in a worked table and every wish;
// printed as last set, it holds what was marked and no more.
func TestWishesOnPaper(t *testing.T) {
	t.Parallel()
	m := conflict.In(lib)
	b := newTab(t)
	b.openPage(pullsPage, onDisk)
	b.run(`for (const id of ["push", "heel-change"]) document.getElementById("mark-" + id).click()`)
	marked := conflict.Of(wishAt(t, m, "push"), wishAt(t, m, "heel-change"))
	text := b.print("A4", "wishes-marked").Text
	found := conflict.Within(m.All, marked)
	if len(found) == 0 {
		t.Fatal("push and heel change do not pull")
	}
	for _, want := range []string{m.Title(found[0]), m.Questions(found[0])[0].Ask, m.Wishes[marked.List()[0]].Title.S} {
		if !strings.Contains(text, want) {
			t.Errorf("printed as set, it does not say %q", want)
		}
	}
	for _, not := range []string{"Steady standing", "Put on my sheet", "I want little upkeep", "The whole table, worked out"} {
		if strings.Contains(text, not) {
			t.Errorf("printed as set, it says %q", not)
		}
	}

	off := newTab(t)
	off.scriptOff()
	off.open(onDisk(pullsPage))
	heads := eval[[]string](off, `Array.from(document.querySelectorAll("#pulls tbody th")).filter((e) => e.checkVisibility()).map((e) => e.textContent)`)
	for _, c := range m.All {
		if !c.Note() && !slices.Contains(heads, m.Title(c)) {
			t.Errorf("with script off, %q is not there", m.Title(c))
		}
	}
	if form := eval[bool](off, `document.querySelector("#pulls form").checkVisibility()`); form {
		t.Error("with script off, there is a form that does nothing")
	}
	text = off.print("A4", "wishes-plain").Text
	for _, w := range m.Wishes {
		if !strings.Contains(text, w.Title.S) || !strings.Contains(text, strings.Fields(w.Means.S)[0]) {
			t.Errorf("with script off, the wish %q is not there", w.Title.S)
		}
	}
	// The figure stands on the first page; a reason is printed where it was opened.
	off.open(onDisk(motionPushPage))
	off.run(`document.querySelector("#trade-glass-spring").open = true`)
	for _, paper := range []string{"A4", "Letter"} {
		p := off.print(paper, "motion-push-plain")
		for _, f := range m.Feet {
			line := f.Name.S + ". Motion: " + m.Rows[0].Steps[f.Cells["ankle-motion"].Mark].S
			if !strings.Contains(p.Text, line) {
				t.Errorf("%s: printed, the page does not say %q", paper, line)
			}
			if got := strings.Contains(p.Text, f.Cells["push"].Why.S); got != (f.ID.S == "glass-spring") {
				t.Errorf("%s: the reason for %s is printed: %v", paper, f.Name.S, got)
			}
		}
		first := string(run(t, "pdftotext", "-l", "1", p.file, "-"))
		if !strings.Contains(first, "Microprocessor ankle") || !strings.Contains(oneLine(first), "not its place within the step") {
			t.Errorf("%s: the figure is not on the first page", paper)
		}
	}
}
