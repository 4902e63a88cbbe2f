package browsertest

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/safety"
)

// ticksOf gives the rows to tick on a screen of signs, and whether "not sure" is pressed.
func ticksOf(group string, told []safety.Said) (signs []string, unsure bool) {
	for _, d := range told {
		if d.Group != group {
			continue
		}
		if d.Sign == safety.NotSure {
			unsure = true
		} else {
			signs = append(signs, d.Sign)
		}
	}
	return signs, unsure
}

// tell answers the screen as one who has these things to tell, from the leg question
// on, as far as it goes, and gives the last screen. At the gate the lines of the
// groups are ticked that this needs.
func (b *tab) tell(leg string, told []safety.Said) screen {
	b.t.Helper()
	lines, groups := []string{}, map[string]any{}
	for _, g := range lib.Safety.Groups {
		signs, unsure := ticksOf(g.ID.S, told)
		groups[g.ID.S] = map[string]any{"signs": append([]string{}, signs...), "unsure": unsure}
		if len(signs) > 0 || unsure {
			lines = append(lines, g.ID.S)
		}
	}
	return b.hand(`
const press = (ids) => { for (const i of planner.querySelectorAll(".signs input")) if (i.checked !== ids.includes(i.value)) tapOn(planner.querySelector('label[for="' + i.id + '"]'), i.value); };
const leave = (ids, unsure) => { press(ids); if (unsure) button("unsure"); else if (ids.length) next(); else button("none"); };
const lines = %s, groups = %s;
tapOn(planner.querySelector('[data-leg="' + %s + '"]'), "the leg answer");
for (let n = 0; n < 8 && planner.querySelector("form.safety"); n++) {
  const title = planner.querySelector("form.safety").dataset.title;
  if (!title) { leave(lines, false); continue; }
  const group = planner.querySelector(".signs input").name;
  leave(groups[group].signs, groups[group].unsure);
}`, lines, groups, leg)
}

// shownCautions reads the gathered ending: each caution's name and text, as they can be seen.
func (b *tab) shownCautions() (title string, names, texts []string) {
	b.t.Helper()
	all := eval[[]string](b, `(() => {
const clean = (e) => e.innerText.replace(/\s+/g, " ").trim();
const seen = (e) => e.getClientRects().length > 0 && e.getBoundingClientRect().height > 10;
return [clean(document.querySelector("#planner .safety h2"))].concat(Array.from(document.querySelectorAll("#planner .told")).filter(seen).flatMap((e) => [clean(e.querySelector("h3")), clean(e.querySelector(".caution"))]));
})()`)
	for i := 1; i+1 < len(all); i += 2 {
		names, texts = append(names, all[i]), append(texts, all[i+1])
	}
	return all[0], names, texts
}

// canTell gives all that a reader with that leg answer can tell.
func canTell(leg string) []safety.Said {
	var out []safety.Said
	for _, g := range lib.Safety.Groups {
		if !g.Asked(leg) {
			continue
		}
		for _, s := range g.Shown(leg) {
			out = append(out, safety.Said{Group: g.ID.S, Sign: s.ID.S})
		}
		out = append(out, safety.Said{Group: g.ID.S, Sign: safety.NotSure})
	}
	return out
}

// gatheredInGo is what must be shown, from the library alone: names, the gravest first.
func gatheredInGo(leg string, told []safety.Said) (title string, names []string) {
	a := safety.Answers{Leg: leg, Groups: map[string][]string{}}
	for _, d := range told {
		a.Groups[d.Group] = append(a.Groups[d.Group], d.Sign)
	}
	g := lib.Safety.Gather(a)
	for _, d := range g.Said {
		if s, _ := lib.Safety.Sign(d.Sign); s != nil {
			names = append(names, oneLine(s.Title.S))
		} else {
			names = append(names, oneLine(lib.Safety.Group(d.Group).Unsure.Title.S))
		}
	}
	return oneLine(lib.Safety.Ending(g.When).Title.S), names
}

// holdsAll tells these things and wants each one's caution shown, the gravest first.
func holdsAll(t *testing.T, b *tab, leg string, told []safety.Said) {
	t.Helper()
	s := b.tell(leg, told)
	if s.View != "told" {
		t.Fatalf("%s, %v: the screen ends at %q: %s", leg, told, s.View, s.Title)
	}
	title, names, texts := b.shownCautions()
	wantTitle, want := gatheredInGo(leg, told)
	if title != wantTitle || !slices.Equal(names, want) {
		t.Errorf("%s, %v: shown %q with %q\nwant %q with %q", leg, told, title, names, wantTitle, want)
	}
	for i, text := range texts {
		if text == "" {
			t.Errorf("%s: the caution %q says nothing", leg, names[i])
		}
	}
	if s.Focus != title {
		t.Errorf("%v: reading starts at %q, want the title %q", told, s.Focus, title)
	}
	if !strings.Contains(s.Status, names[0]) {
		t.Errorf("%v: read aloud is %q, want the first caution", told, s.Status)
	}
}

// someSets are every sign once, and drawn sets.
func someSets(leg string, drawn int, draw *rand.Rand) [][]safety.Said {
	var out [][]safety.Said
	all := canTell(leg)
	for _, d := range all {
		out = append(out, []safety.Said{d})
	}
	for range drawn {
		out = append(out, drawTold(leg, draw))
	}
	return out
}

func drawTold(leg string, draw *rand.Rand) []safety.Said {
	for {
		var set []safety.Said
		share := draw.Float64()
		for _, d := range canTell(leg) {
			if draw.Float64() < share {
				set = append(set, d)
			}
		}
		if len(set) > 0 {
			return set
		}
	}
}

// Every sign once and 50 drawn sets, told through the page: each ends with every
// caution shown.
func TestEveryCautionIsShown(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	draw := rand.New(rand.NewPCG(11, 50))
	for _, leg := range safety.LegAnswers {
		drawn := 0
		if leg == safety.Worn {
			drawn = 50
		}
		for _, told := range someSets(leg, drawn, draw) {
			b.hand(`answer(["hills-and-ramps"])`)
			holdsAll(t, b, leg, told)
			b.clear()
		}
	}
}

// Each topic comes behind the screen: three drawn sets are told before each.
func TestEveryTopicGathers(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	draw := rand.New(rand.NewPCG(2, 3))
	for _, tr := range lib.Trees {
		if tr.Audience.S != "patient" {
			continue
		}
		for range 3 {
			leg := safety.LegAnswers[draw.IntN(3)]
			told := drawTold(leg, draw)
			b.hand(`answer([%s])`, tr.ID.S)
			holdsAll(t, b, leg, told)
			s := b.tap("onward")
			if s.View != "question" || s.Question != oneLine(tr.Question(tr.Start.S).Text.S) {
				t.Errorf("%s: behind the ending stands %q, %q", tr.ID.S, s.View, s.Question)
			}
			b.clear()
		}
	}
}

// Nobody without a leg is told to take it off, whatever they tell.
func TestNothingOfALegWithoutOne(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	worn := 0
	for _, leg := range safety.LegAnswers {
		b.hand(`answer(["hills-and-ramps"])`)
		b.tell(leg, canTell(leg))
		said := eval[string](b, `document.querySelector("#planner .safety").innerText.replace(/\s+/g, " ")`)
		off := strings.Contains(strings.ToLower(said), "leg off")
		if leg == safety.Worn && off {
			worn++
		}
		if leg != safety.Worn && (off || eval[int](b, `document.querySelectorAll("#planner .safety [data-worn]").length`) > 0) {
			t.Errorf("%s: something is said of a leg that is worn: %s", leg, said)
		}
		b.clear()
	}
	if worn == 0 {
		t.Error("with a leg nothing is said of it, so nothing was looked at")
	}
}

// The call line comes with the first tick of a sign that cannot wait, in view on a
// phone; in a low window it stands under the ticked row. It is read aloud once.
func TestCallLine(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	number := lib.Edition.Lines.Emergency.Number.S
	for _, size := range [][2]int64{{360, 640}, {320, 256}} {
		b.openPlanner(onDisk)
		b.size(size[0], size[1])
		for _, g := range lib.Safety.Groups {
			for _, s := range g.Signs {
				if s.When.S != string(safety.Now) && s.When.S != string(safety.Crisis) {
					continue
				}
				b.hand(`answer(["hills-and-ramps"]); tapOn(planner.querySelector('[data-leg="worn"]'), "leg")`)
				b.hand(`tapOn(planner.querySelector('label[for="gate-' + %s + '"]'), "line"); next()`, g.ID.S)
				b.hand(`const row = planner.querySelector('label[for="sign-' + %s + '"]'); row.scrollIntoView({ block: "center" }); tapOn(row, "sign")`, s.ID.S)
				if size[1] < 420 {
					b.run(`document.querySelector("#planner .call-line").scrollIntoView({ block: "end" })`)
				}
				got := eval[map[string]any](b, fmt.Sprintf(`(() => {
const line = document.querySelector("#planner .call-line"), row = line && line.parentElement.querySelector("input");
const links = Array.from(line ? line.querySelectorAll('a[href^="tel:"]') : []).filter((e) => e.getClientRects().length);
const inView = links.filter((e) => { const r = e.getBoundingClientRect(); return r.top >= 0 && r.bottom <= innerHeight && r.left >= 0 && r.right <= innerWidth && e.contains(document.elementFromPoint(r.left + r.width / 2, r.top + r.height / 2)); });
return { Numbers: inView.map((e) => e.getAttribute("href")).join(" "), Row: row ? row.value : "", Over: innerHeight < 420 && row.getBoundingClientRect().bottom > line.getBoundingClientRect().top, Status: document.querySelector('[data-slot="status"]').textContent };
})()`))
				want := []string{"tel:" + number}
				if s.When.S == string(safety.Crisis) {
					want = []string{"tel:" + lib.Edition.Lines.Crisis.Number.S, "tel:" + number}
				}
				if got["Numbers"] != strings.Join(want, " ") || got["Row"] != s.ID.S {
					t.Errorf("%v, %s: in view are %v under the row %v, want %v", size, s.ID.S, got["Numbers"], got["Row"], want)
				}
				if got["Over"] == true {
					t.Errorf("%v, %s: the tick lies over the line", size, s.ID.S)
				}
				if status := got["Status"].(string); !strings.Contains(status, number) || !strings.Contains(status, "Caution") {
					t.Errorf("%s: read aloud is %q", s.ID.S, status)
				}
				if after := b.hand(`const row = planner.querySelector('label[for="sign-' + %s + '"]'); planner.querySelector('[data-slot="status"]').textContent = ""; tapOn(row, "sign"); tapOn(row, "sign")`, s.ID.S); after.Status != "" {
					t.Errorf("%s: it is read aloud a second time: %q", s.ID.S, after.Status)
				}
				b.clear()
			}
		}
	}
}
