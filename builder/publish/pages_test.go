package publish

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"keelpath/builder/conflict"
	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/library"
	"keelpath/builder/read"
	"keelpath/builder/say"
	"keelpath/builder/teaching"
	"keelpath/builder/tree"
	"keelpath/content"
)

func pageNamed(t *testing.T, out output, name string) *html.Node {
	t.Helper()
	data := out.files[name]
	if data == nil {
		t.Fatalf("there is no page %s", name)
	}
	if name == plannerName {
		data = wholePlanner(t, out)
	}
	n, err := html.Parse(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// byID gives the element with that id.
func byID(t *testing.T, n *html.Node, id string) *html.Node {
	t.Helper()
	for _, e := range elements(n) {
		if v, _ := attr(e, "id"); v == id {
			return e
		}
	}
	t.Fatalf("there is no element with the id %q", id)
	return nil
}

func withClass(n *html.Node, class string) []*html.Node {
	var out []*html.Node
	for _, e := range elements(n) {
		v, _ := attr(e, "class")
		if slices.Contains(strings.Fields(v), class) {
			out = append(out, e)
		}
	}
	return out
}

// Patients have three doors, and the one for something wrong has whom to call beside it; teachers and clinics share the last.
func TestDoorsOfHome(t *testing.T) {
	n := pageNamed(t, builtin(t), homeName)
	doors := withClass(n, "doors")
	if len(doors) != 1 || len(elements(doors[0], "li")) != 4 {
		t.Fatalf("want one list of four doors")
	}
	if call := withClass(elements(doors[0], "li")[1], "caution"); len(call) != 1 || !strings.Contains(textOf(call[0]), "Call 911") {
		t.Error("the door for something wrong does not say whom to call")
	}
	var to []string
	for _, a := range elements(doors[0], "a") {
		href, _ := attr(a, "href")
		to = append(to, href)
	}
	if want := []string{plannerName, plannerName + "#take=something-changed", "tel:911", learnName, teachName, clinicName}; !slices.Equal(to, want) {
		t.Errorf("the doors lead to %v, want %v", to, want)
	}
}

// The steps of the decision stand at home and under the planner's topics, with and without
// script, and nowhere else: in the same words, each with a link to where it is helped. They
// tell no one how far he is.
func TestStepsOfTheDecision(t *testing.T) {
	names := []string{"Get ready.", "Learn.", "Weigh.", "Talk.", "Try.", "Look back."}
	pages := []string{"learn/getting-ready.html", learnName, pullsName, "learn/what-a-visit-is-like.html", "learn/trying-a-foot-out.html", "learn/after-the-visit.html"}
	out := builtin(t)
	for name, n := range pagesOf(t, out) {
		strips := withClass(n, "decision")
		want := map[string]int{homeName: 1, plannerName: 1}[name]
		if name == plannerName { // the parser keeps what stands in a template apart
			want += strings.Count(string(out.files[name]), `<section class="decision">`) - 1
			if text := string(out.files[name]); strings.Count(text, `<section class="decision">`) != 2 {
				t.Error("the planner does not have the steps twice")
			} else if _, view, _ := strings.Cut(text, `<template id="view-topics">`); !strings.Contains(view[:strings.Index(view, "</template>")], `</summary>
<section class="decision">`) {
				t.Error("the steps do not stand under the topics")
			}
		}
		if len(strips) != want {
			t.Errorf("%s has the steps %d times, want %d", name, len(strips), want)
		}
		for _, strip := range strips {
			for i, li := range elements(elements(strip, "ol")[0], "li") {
				links := elements(li, "a")
				if len(links) != 1 || i >= len(names) {
					t.Fatalf("%s: step %d has %d links", name, i+1, len(links))
				}
				if href, _ := attr(links[0], "href"); href != rootOf(name)+pages[i] || textOf(elements(li, "b")[0]) != names[i] {
					t.Errorf("%s: step %d is %q and leads to %s", name, i+1, textOf(li), href)
				}
			}
			if n := len(elements(strip, "li")); n != len(names) {
				t.Errorf("%s has %d steps", name, n)
			}
			if len(elements(strip, "progress", "input", "button")) > 0 {
				t.Errorf("%s: the steps keep count", name)
			}
		}
	}
}

// What pulls against what is one step from the planner and from the learn page.
func TestPullsAreLinked(t *testing.T) {
	for _, name := range []string{plannerName, learnName} {
		to := rootOf(name) + pullsName
		if !slices.ContainsFunc(elements(pageNamed(t, builtin(t), name), "a"), func(a *html.Node) bool { href, _ := attr(a, "href"); return href == to }) {
			t.Errorf("%s has no link to %s", name, to)
		}
	}
}

// Each mark in an explainer's text leads to the source of that number, and the
// numbers run from 1 in the order of first use.
func TestCitationsMatchSources(t *testing.T) {
	l := load(t)
	out := builtin(t)
	for _, e := range l.Explainers {
		n := pageNamed(t, out, "learn/"+e.ID+".html")
		most := 0
		for _, mark := range withClass(n, "cite") {
			a := elements(mark, "a")[0]
			number := textOf(a)
			if href, _ := attr(a, "href"); href != "#source-"+number {
				t.Errorf("%s: the mark %s leads to %s", e.ID, number, href)
			}
			var i int
			if _, err := fmt.Sscan(number, &i); err != nil || i > most+1 {
				t.Errorf("%s: the mark %s comes before mark %d", e.ID, number, most+1)
			}
			most = max(most, i)
		}
		list := elements(withClass(n, "sources")[0], "li")
		if len(list) != most || most == 0 {
			t.Errorf("%s: %d marks and %d sources", e.ID, most, len(list))
		}
		for _, id := range read.Strings(e.Credits.Sources) {
			if !strings.Contains(textOf(n), l.Source(id).Title.S) {
				t.Errorf("%s: the source %s is not on the page", e.ID, id)
			}
		}
	}
}

func TestExplainerBringsPrompts(t *testing.T) {
	l := load(t)
	for _, e := range l.Explainers {
		text := textOf(pageNamed(t, builtin(t), "learn/"+e.ID+".html"))
		if !strings.Contains(text, e.Message.S) {
			t.Errorf("%s: the message is not on the page", e.ID)
		}
		for _, id := range e.Prompts {
			if p := l.Prompt(id.S); !strings.Contains(text, p.Plain()) || !strings.Contains(text, p.Why.S) {
				t.Errorf("%s: the prompt %s is not on the page", e.ID, id.S)
			}
		}
	}
}

// One table, a cell for each type and row, the mark in words in each, and the
// reason one link away.
func TestFootTypesTable(t *testing.T) {
	l := load(t)
	n := pageNamed(t, builtin(t), footTypesName)
	var tables []*html.Node // those beside it set a few kinds side by side
	for _, table := range elements(n, "table") {
		if len(elements(table, "caption")) == 1 && len(elements(elements(table, "thead")[0], "th")) == len(l.Rows)+1 {
			tables = append(tables, table)
		}
	}
	if len(tables) != 1 {
		t.Fatalf("%d tables of all rows, want one with a caption", len(tables))
	}
	if got := len(elements(elements(tables[0], "thead")[0], "th")); got != len(l.Rows)+1 {
		t.Errorf("%d columns, want %d", got, len(l.Rows)+1)
	}
	rows := elements(elements(tables[0], "tbody")[0], "tr")
	if len(rows) != len(l.FootTypes) || len(rows) == 0 {
		t.Fatalf("%d foot types in the table, want %d", len(rows), len(l.FootTypes))
	}
	for i, ft := range append(l.Marked(), l.Ways()...) {
		if head := elements(rows[i], "th"); len(head) != 1 || !strings.Contains(textOf(head[0]), ft.Name.S) {
			t.Errorf("row %d is not headed %q", i, ft.Name.S)
		}
		cells := elements(rows[i], "td")
		if len(cells) != len(l.Rows) {
			t.Fatalf("%s has %d cells, want %d", ft.ID.S, len(cells), len(l.Rows))
		}
		for j, r := range l.Rows {
			checkCell(t, n, cells[j], ft, r)
		}
	}
}

func checkCell(t *testing.T, page, cell *html.Node, ft *library.FootType, r *library.Row) {
	t.Helper()
	c, name, text := ft.Cells[r.ID.S], ft.ID.S+", "+r.ID.S, textOf(cell)
	if words := c.Says.S; ft.Way && (words == "" || !strings.Contains(text, words)) || !ft.Way && words != "" {
		t.Errorf("%s: %q does not say %q, or says it in place of a rating", name, text, words)
	}
	bare := ft.Addon || ft.Way
	if !bare && !strings.Contains(text, r.Steps[c.Mark].S) {
		t.Errorf("%s: %q does not say %q", name, text, r.Steps[c.Mark].S)
	}
	if bare == strings.ContainsAny(text, "●○■□") {
		t.Errorf("%s: steps are for a foot, and for nothing else: %q", name, text)
	}
	if full := strings.Count(text, "●") + strings.Count(text, "■"); !bare && full != c.Mark {
		t.Errorf("%s: %q shows %d steps, want %d", name, text, full, c.Mark)
	}
	if want, shape := standingOf(c), shapeOf(t, cell); shape != want {
		t.Errorf("%s: by its source it is %q, and the shapes of %q say %q", name, want, text, shape)
	}
	for _, words := range []string{"trade practice", "not settled"} {
		if (standingOf(c) == words) != strings.Contains(text, words) {
			t.Errorf("%s: it is %q, and the cell says %q", name, standingOf(c), text)
		}
	}
	href, _ := attr(elements(cell, "a")[0], "href")
	reason := byID(t, page, strings.TrimPrefix(href, "#"))
	if got := textOf(reason); !strings.Contains(got, c.Why.S) || !strings.Contains(got, r.Title.S) {
		t.Errorf("%s: the reason reads %q", name, got)
	}
}

// standingOf is a second reading of the rule, from the words of the file.
func standingOf(c *library.Cell) string {
	switch c.Support.S {
	case "little":
		return "not settled"
	case "trade":
		return "trade practice"
	case "some", "well":
		return "settled"
	}
	for _, s := range c.Sources {
		if s.S != "common-practice" {
			return "settled"
		}
	}
	return "trade practice"
}

// shapeOf tells what the signs alone of a cell say, without its words.
func shapeOf(t *testing.T, cell *html.Node) string {
	t.Helper()
	marks := withClass(cell, "mark")
	if len(marks) != 1 {
		t.Fatalf("%q has %d groups of signs", textOf(cell), len(marks))
	}
	switch signs := textOf(marks[0]); {
	case strings.HasSuffix(signs, "?"):
		return "not settled"
	case strings.ContainsAny(signs, "■□["):
		return "trade practice"
	}
	return "settled"
}

// What the page says of how many ratings are settled, trade practice and not
// settled is what the table's cells count up to by their shapes, by their words and
// in the file, and so for the figure's own two rows.
func TestStandingsAreCounted(t *testing.T) {
	l := load(t)
	want, figure := map[string]int{}, map[string]int{}
	for _, ft := range l.FootTypes {
		for row, c := range ft.Cells {
			if ft.Way { // no ratings
				continue
			}
			want[standingOf(c)]++
			if !ft.Addon && (row == motionRow || row == pushRow) {
				figure[standingOf(c)]++
			}
		}
	}
	for _, words := range []string{"settled", "trade practice", "not settled"} {
		if want[words] < 20 || figure[words] == 0 {
			t.Fatalf("%d ratings are %q, and %d in the figure: the count tells nothing", want[words], words, figure[words])
		}
	}
	n := pageNamed(t, builtin(t), footTypesName)
	shapes, said := map[string]int{}, map[string]int{}
	whole := slices.MaxFunc(elements(n, "tbody"), func(a, b *html.Node) int { return len(elements(a)) - len(elements(b)) }) // not a few kinds side by side
	for _, cell := range elements(whole, "td") {
		if slices.Contains(withClass(n, "way"), cell.Parent) {
			continue
		}
		shapes[shapeOf(t, cell)]++
		kind := "settled"
		if k := withClass(cell, "kind"); len(k) > 0 {
			kind = textOf(k[0])
		}
		said[kind]++
	}
	if !maps.Equal(shapes, want) || !maps.Equal(said, want) {
		t.Errorf("the file has %v, the shapes %v and the words %v", want, shapes, said)
	}
	legend := textOf(withClass(n, "standings")[0])
	for words, count := range want {
		name := strings.ToUpper(words[:1]) + words[1:]
		if !strings.Contains(legend, fmt.Sprintf("%s (%d)", name, count)) {
			t.Errorf("the legend does not say %q of %d: %s", words, count, legend)
		}
	}
	if all := len(l.Rows) * (len(l.FootTypes) - len(withClass(n, "way"))); !strings.Contains(textOf(n), fmt.Sprintf("The table has %d ratings.", all)) {
		t.Errorf("the page does not say that there are %d ratings", all)
	}
	trade := textOf(pageNamed(t, builtin(t), motionPushName))
	for words, count := range figure {
		if !strings.Contains(trade, fmt.Sprintf("%d are %s", count, words)) {
			t.Errorf("the page of the figure does not say that %d are %s", count, words)
		}
	}
}

// What one can do with no new foot stands beside the kinds of feet with the same
// parts, in the count of what is likely too, and is left out where ratings are
// held against wishes, which the page says.
func TestWaysStandBesideTheKinds(t *testing.T) {
	l := load(t)
	n, likely := pageNamed(t, builtin(t), footTypesName), pageNamed(t, builtin(t), "learn/chances.html")
	pulls := textOf(pageNamed(t, builtin(t), pullsName))
	for _, id := range []string{"keep-my-foot", "no-leg"} {
		ft := l.FootType(id)
		if ft == nil || !ft.Way {
			t.Fatalf("%s is no way", id)
		}
		part := byID(t, n, id).Parent.Parent
		text := textOf(part)
		for _, want := range slices.Concat(ft.Gain, ft.GiveUp, []read.Text{ft.What}) {
			if !strings.Contains(text, want.S) {
				t.Errorf("%s does not say %q", id, want.S)
			}
		}
		if reasons := withClass(part, "reasons"); len(reasons) != 1 || len(elements(reasons[0], "dt")) != len(l.Rows) {
			t.Errorf("%s does not go through every row", id)
		}
		for _, c := range ft.Cells {
			for _, s := range c.Sources {
				if src := l.Source(s.S); src != nil && !strings.Contains(text, src.Title.S) {
					t.Errorf("%s does not name the source %s", id, s.S)
				}
			}
		}
		links := elements(elements(likely, "tbody")[0], "a")
		if !slices.ContainsFunc(links, func(a *html.Node) bool {
			href, _ := attr(a, "href")
			return strings.HasSuffix(href, "foot-types.html#"+id)
		}) {
			t.Errorf("%s is not among what was counted", id)
		}
		if !strings.Contains(pulls, ft.Name.S) || !strings.Contains(pulls, "have no ratings, so they are left out here") {
			t.Errorf("the page of conflicts does not say that %s is left out", id)
		}
		for _, foot := range conflict.In(l).Feet {
			if foot == ft {
				t.Errorf("%s is held against wishes", id)
			}
		}
	}
}

// Each kind of foot is drawn beside its name, with a caption, and no two share a drawing.
func TestFootTypesAreDrawn(t *testing.T) {
	n := pageNamed(t, builtin(t), footTypesName)
	seen := map[string]bool{}
	v := viewOn(t, load(t))
	for _, ft := range load(t).Marked() {
		part := byID(t, n, ft.ID.S).Parent
		figures := elements(part, "figure")
		if len(figures) != 1 || len(elements(figures[0], "svg")) != 1 {
			t.Errorf("%s: %d figures, want one with a drawing", ft.ID.S, len(figures))
			continue
		}
		title := textOf(elements(figures[0], "title")[0])
		if caption := textOf(elements(figures[0], "figcaption")[0]); caption != title || title == "" {
			t.Errorf("%s: the caption is %q, and the drawing's title %q", ft.ID.S, caption, title)
		}
		if seen[title] {
			t.Errorf("%s: %q was shown before", ft.ID.S, title)
		}
		seen[title] = true
		if d, ok := v.drawingOf(ft); !ok || !strings.Contains(textOf(part), d.Long) {
			t.Errorf("%s: the drawing is not told in words", ft.ID.S)
		}
	}
}

func TestChangeWords(t *testing.T) {
	for mark, want := range map[int]string{-2: "− − less", -1: "− a little less", 0: "= no change", 1: "+ a little more", 2: "+ + more", 3: "+ + + a lot more"} {
		if signs, words := change(say.English(), mark); signs+" "+words != want {
			t.Errorf("change(%d) is %q %q, want %q", mark, signs, words, want)
		}
	}
}

// On paper every question, answer, ending and card of a tree is there, and
// every number named is one that is there.
func TestTreeOnPaper(t *testing.T) {
	l := load(t)
	for _, tr := range l.Trees {
		n := pageNamed(t, builtin(t), byHandName(tr))
		text := textOf(n)
		want := []string{fmt.Sprintf("Start at %d.", tr.Numbers()[tr.Start.S])}
		for _, q := range tr.Questions {
			want = append(want, fmt.Sprintf("%d. %s", tr.Numbers()[q.ID.S], q.Text.S), q.Why.S)
			for _, a := range q.Answers {
				want = append(want, a.Text.S)
			}
			for _, w := range q.WaysOn() {
				want = append(want, fmt.Sprintf("go to %d", tr.Numbers()[w.S]))
			}
		}
		for _, e := range tr.Endings {
			want = append(want, fmt.Sprintf("%d. %s", tr.Numbers()[e.ID.S], e.Title.S))
			for _, p := range e.Prompts {
				want = append(want, l.Prompt(p.S).Plain())
			}
		}
		for _, c := range tr.Cards() {
			want = append(want, l.Card(c).Title.S)
		}
		for _, w := range want {
			if !strings.Contains(text, w) {
				t.Errorf("%s does not say %q", tr.ID.S, w)
			}
		}
	}
}

// What an ending's text or caution rests on stands at the claim: on the planner it leads to the
// bibliography, and by hand to the entry below with that number.
func TestEndingsNameSources(t *testing.T) {
	l := load(t)
	out := builtin(t)
	cites, marks := 0, 0
	for _, tr := range l.Trees {
		listed := read.Strings(tr.Credits.Sources)
		pages := []string{byHandName(tr)}
		if tr.Audience.S == audiencePatient {
			pages = append(pages, plannerName)
		}
		for _, name := range pages {
			n := pageNamed(t, out, name)
			for _, e := range tr.Endings {
				if e.Sign.Given() {
					continue // its words are the safety screen's
				}
				want := map[string]string{} // what a mark says, by where it leads
				var refs []explainer.Ref
				for _, text := range []read.Text{e.Text, e.Caution} {
					refs = append(refs, explainer.ParseText(text, l.Edition.Lines, &finding.List{}).Refs...)
				}
				for _, r := range refs {
					number := slices.Index(listed, r.ID) + 1
					switch {
					case r.Kind == "support":
						want["../"+clinicName+"#how-sure"], marks = "", marks+1
					case r.Kind == "source" && name == plannerName:
						want["../"+sourcesName+"#source-"+r.ID], cites = l.SourceName(r.ID), cites+1
					case r.Kind == "source":
						want[fmt.Sprintf("#source-%d", number)] = fmt.Sprintf("source %d, %s", number, l.SourceName(r.ID))
						if entry := textOf(byID(t, n, fmt.Sprintf("source-%d", number))); !strings.Contains(entry, l.Source(r.ID).Title.S) {
							t.Errorf("%s: entry %d is %q, and %s was cited", name, number, entry, r.ID)
						}
					}
				}
				shown := map[string]bool{}
				for _, mark := range withClass(byID(t, n, "at-"+tr.ID.S+"-"+e.ID.S), "support") {
					for _, a := range elements(mark, "a") {
						to, _ := attr(a, "href")
						if says, ok := want[to]; !ok || says != "" && textOf(a) != says {
							t.Errorf("%s, %s: the mark %q leads to %s", name, e.ID.S, textOf(a), to)
						}
						shown[to] = true
					}
				}
				for to, says := range want {
					if !shown[to] {
						t.Errorf("%s, %s: %q, to %s, is not shown", name, e.ID.S, says, to)
					}
				}
			}
		}
	}
	if cites == 0 || marks == 0 {
		t.Errorf("%d citations and %d marks were looked at", cites, marks)
	}
}

// What a word means and what a kind of foot is stands once in a topic, and each
// place that says it points to it.
func TestPlannerSaysOnce(t *testing.T) {
	l := load(t)
	n := pageNamed(t, builtin(t), plannerName)
	said := map[string]string{}
	for _, e := range elements(n, "template") {
		id, _ := attr(e, "id")
		if number, ok := strings.CutPrefix(id, "same-"); ok {
			topic := number[:strings.LastIndex(number, "-")+1]
			for other, text := range said {
				if strings.HasPrefix(other, topic) && text == textOf(e) {
					t.Errorf("%s and %s say the same: %q", number, other, text)
				}
			}
			said[number] = textOf(e)
		}
	}
	at := func(e *html.Node) string { number, _ := attr(e, "data-same"); return said[number] }
	kinds, words := 0, 0
	for _, tr := range l.Trees {
		if tr.Audience.S != audiencePatient {
			continue
		}
		for _, e := range tr.Endings {
			if len(e.Types) == 0 {
				continue
			}
			places := elements(withClass(byID(t, n, "at-"+tr.ID.S+"-"+e.ID.S), "talk")[0], "li")
			for i, talk := range e.Types {
				kinds++
				if what, want := at(elements(places[i], "p")[1]), spaced(l.FootType(talk.Type.S).What.S); spaced(what) != want {
					t.Errorf("%s, %s: %s is %q, want %q", tr.ID.S, e.ID.S, talk.Type.S, what, want)
				}
			}
		}
	}
	for _, list := range withClass(n, "words") {
		for _, e := range elements(list, "div") {
			name := textOf(elements(e, "dt")[0])
			i := slices.IndexFunc(l.Words, func(w *library.Word) bool { return w.Word.S == name })
			if words++; i < 0 || spaced(at(elements(e, "dd")[0])) != spaced(l.Words[i].Meaning.S) {
				t.Errorf("the word %q means %q", name, at(elements(e, "dd")[0]))
			}
		}
	}
	if kinds == 0 || words == 0 {
		t.Errorf("%d kinds and %d words were looked at", kinds, words)
	}
}

// All prompts are in a part of their own, and the page has what opens every sheet.
func TestPlannerPrompts(t *testing.T) {
	l := load(t)
	parts := partsOf(t, builtin(t))
	all := parts[partPrompts]
	for _, p := range l.Prompts() {
		if got := all.Prompts[p.ID.S]; got.Ask != p.Ask.S || got.Why != p.Why.S || !slices.Equal(got.Whom, read.Strings(p.Whom)) {
			t.Errorf("prompt %s reads %+v, want %q", p.ID.S, got, p.Ask.S)
		}
	}
	if len(all.Themes) != len(l.Themes) {
		t.Errorf("%d themes, want %d", len(all.Themes), len(l.Themes))
	}
	for _, tr := range l.PatientTrees() {
		for id, brings := range parts[partOfTree(tr.ID.S)].Cards {
			if want := read.Strings(l.Card(id).Prompts); !slices.Equal(brings, want) {
				t.Errorf("%s: card %s brings %q, want %q", tr.ID.S, id, brings, want)
			}
		}
	}
	var block data
	if err := json.Unmarshal([]byte(byID(t, pageNamed(t, builtin(t), plannerName), "planner-data").FirstChild.Data), &block); err != nil {
		t.Fatal(err)
	}
	if len(block.General) == 0 || len(block.General) != len(l.General) {
		t.Errorf("%d general questions, want %d", len(block.General), len(l.General))
	}
}

func TestGlossaryAndQuestionsAreWhole(t *testing.T) {
	l := load(t)
	glossary, questions := pageNamed(t, builtin(t), glossaryName), pageNamed(t, builtin(t), questionsName)
	for _, w := range l.Words {
		if text := textOf(byID(t, glossary, w.ID.S)); !strings.Contains(text, w.Word.S) || !strings.Contains(text, w.Meaning.S) {
			t.Errorf("word %s reads %q", w.ID.S, text)
		}
	}
	for _, p := range l.Prompts() {
		if text := textOf(byID(t, questions, p.ID.S)); !strings.Contains(text, p.Plain()) || !strings.Contains(text, p.Why.S) {
			t.Errorf("prompt %s reads %q", p.ID.S, text)
		}
	}
	sources := pageNamed(t, builtin(t), sourcesName)
	for _, s := range l.Sources {
		if text := textOf(byID(t, sources, "source-"+s.ID.S)); !strings.Contains(text, s.Title.S) || !strings.Contains(text, say.English().Say(seenWords[s.Seen.S])) {
			t.Errorf("source %s reads %q", s.ID.S, text)
		}
	}
}

func TestOtherNames(t *testing.T) {
	for _, c := range []struct {
		word string
		also []string
		want []string
	}{
		{"keel", []string{"keels"}, nil},
		{"alignment", []string{"re-alignment", "aligned", "misaligned"}, nil},
		{"carbon spring", []string{"carbon springs", "dynamic-response foot", "dynamic-response feet"}, []string{"dynamic-response foot"}},
		{"water-resistant", []string{"water resistant", "splash-safe"}, []string{"splash-safe"}},
	} {
		w := &library.Word{Word: read.Text{S: c.word}}
		for _, a := range c.also {
			w.Also = append(w.Also, read.Text{S: a})
		}
		if got := otherNames(w); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.word, got, c.want)
		}
	}
}

// A worked example is shown with the path that its answers take.
func TestListingShowsExamples(t *testing.T) {
	l := load(t)
	for _, tr := range l.Trees {
		n := pageNamed(t, builtin(t), "teach/"+tr.ID.S+".html")
		shown := withClass(n, "example")
		if len(shown) != len(tr.Examples) || len(shown) == 0 {
			t.Fatalf("%s: %d examples shown, want %d", tr.ID.S, len(shown), len(tr.Examples))
		}
		for i, e := range tr.Examples {
			text := textOf(shown[i])
			if !strings.Contains(text, e.Who.S) || !strings.Contains(text, "Ends at: "+tr.Ending(e.Ending.S).Title.S) {
				t.Errorf("%s: the example reads %q", tr.ID.S, text)
			}
			if steps := len(elements(shown[i], "li")); steps == 0 || steps > l.Proofs[tr.ID.S].Longest {
				t.Errorf("%s: the example %q takes %d steps, and the longest path has %d", tr.ID.S, e.Who.S, steps, l.Proofs[tr.ID.S].Longest)
			}
		}
		if list := withClass(n, "listing"); len(list) != 1 || !strings.Contains(elementText(list[0]), string(l.File(tr.File))) {
			t.Errorf("%s: the listing is not the file", tr.ID.S)
		}
	}
}

// A tree's teaching page holds all that its endings say, and the tree's sources. A
// tree that patients do not take can be walked by hand there.
func TestListingShowsEndings(t *testing.T) {
	l := load(t)
	residents := 0
	for _, tr := range l.Trees {
		n := pageNamed(t, builtin(t), "teach/"+tr.ID.S+".html")
		if resident := tr.Audience.S != audiencePatient; resident {
			residents++
			if got := len(withClass(n, "question")); got != len(tr.Questions) {
				t.Errorf("%s: %d questions to walk by hand, want %d", tr.ID.S, got, len(tr.Questions))
			}
			if start := fmt.Sprintf("Start at %d.", tr.Numbers()[tr.Start.S]); !strings.Contains(textOf(n), start) {
				t.Errorf("%s: nothing says %q", tr.ID.S, start)
			}
		} else if got := len(withClass(n, "question")); got != 0 {
			t.Errorf("%s: %d questions to walk by hand, and the tree has a page of its own for that", tr.ID.S, got)
		}
		for _, e := range tr.Endings {
			at := byID(t, n, "at-"+tr.ID.S+"-"+e.ID.S)
			text := textOf(at)
			if !strings.Contains(text, fmt.Sprintf("%d. %s", tr.Numbers()[e.ID.S], spaced(e.Title.S))) {
				t.Errorf("%s, %s: no number and title in %q", tr.ID.S, e.ID.S, text)
			}
			for _, talk := range e.Types {
				for _, said := range []string{l.FootType(talk.Type.S).Name.S, talk.For.S, talk.Against.S} {
					if !strings.Contains(text, spaced(said)) {
						t.Errorf("%s, %s: %q is not there", tr.ID.S, e.ID.S, said)
					}
				}
			}
			for _, id := range e.Prompts {
				if ask := spaced(l.Prompt(id.S).Plain()); !strings.Contains(text, ask) {
					t.Errorf("%s, %s: the prompt %q is not there", tr.ID.S, e.ID.S, ask)
				}
			}
			for _, id := range e.Next {
				if title := spaced(l.Tree(id.S).Title.S); !strings.Contains(text, title) {
					t.Errorf("%s, %s: the next tree %q is not there", tr.ID.S, e.ID.S, title)
				}
			}
			for _, said := range []string{e.Text.S, e.Caution.S} {
				if run := plainest(said); !strings.Contains(text, run) {
					t.Errorf("%s, %s: %q is not there", tr.ID.S, e.ID.S, run)
				}
			}
		}
		shown := withClass(n, "sources")
		if want := len(tr.Credits.Sources); want == 0 != (len(shown) == 0) || want > 0 && len(elements(shown[0], "li")) != want {
			t.Errorf("%s: not the %d sources of the tree", tr.ID.S, want)
		}
	}
	if residents == 0 {
		t.Error("no tree is for residents, and so none was looked at")
	}
}

// spaced sets one space where a file has several, or a line's end.
func spaced(s string) string { return strings.Join(strings.Fields(s), " ") }

// plainest gives the longest run of words without a mark in a markdown text.
func plainest(text string) string {
	longest := ""
	for _, run := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune("[]()*_{}-\n", r) }) {
		if run = strings.TrimLeft(spaced(run), "0123456789. "); len(run) > len(longest) {
			longest = run
		}
	}
	return longest
}

// The teach page has residents' trees first, each tree once with its purpose, and
// leads to what residents read.
func TestTeachPage(t *testing.T) {
	l := load(t)
	n := pageNamed(t, builtin(t), teachName)
	var want, got []string
	for _, resident := range []bool{true, false} {
		trees := slices.Clone(l.Trees)
		if resident { // by title; the patients' stand as the planner has them
			slices.SortFunc(trees, func(a, b *tree.Tree) int { return strings.Compare(a.Title.S, b.Title.S) })
		}
		for _, tr := range trees {
			if resident == (tr.Audience.S != audiencePatient) {
				want = append(want, spaced(tr.Title.S)+" "+spaced(tr.Purpose.S))
			}
		}
	}
	for _, shelf := range withClass(n, "shelf") {
		for _, li := range elements(shelf, "li") {
			got = append(got, textOf(li))
		}
	}
	if len(got) != len(want) {
		t.Fatalf("%d trees, want %d", len(got), len(want))
	}
	for i := range want {
		if !strings.HasPrefix(got[i], want[i]) {
			t.Errorf("place %d reads %q, want %q", i+1, got[i], want[i])
		}
	}
	learn := pageNamed(t, builtin(t), learnName)
	found := false
	for _, a := range elements(n, "a") {
		href, _ := attr(a, "href")
		if id, ok := strings.CutPrefix(href, "../"+learnName+"#"); ok {
			found = true
			if textOf(byID(t, learn, id)) != textOf(a) {
				t.Errorf("%q leads to no heading of the learn page that says so", textOf(a))
			}
		}
	}
	if !found {
		t.Error("nothing leads to the learn page's part for residents")
	}
}

// A case's page is the learner's: who comes, what is told and what the chart has, and each beat with its options. Nothing
// that has to be found out, no explanation and no ending stands anywhere in it, seen or unseen. All of that is on the page
// of the key, one link away.
func TestCases(t *testing.T) {
	l := load(t)
	if len(l.Cases) == 0 {
		t.Fatal("there are no cases")
	}
	list, teach := pageNamed(t, builtin(t), casesName), pageNamed(t, builtin(t), teachName)
	for _, c := range l.Cases {
		name, keyName := "teach/cases/"+c.ID.S+".html", "teach/keys/"+c.ID.S+".html"
		page, key := pageNamed(t, builtin(t), name), pageNamed(t, builtin(t), keyName)
		open, shut := partsOfCase(t, l, c)
		source := spaced(sourceOf(t, page))
		for _, said := range open {
			if !strings.Contains(textOf(page), spaced(said)) {
				t.Errorf("%s: %q is not there", name, said)
			}
		}
		for _, said := range shut {
			if strings.Contains(source, spaced(html.EscapeString(said))) || strings.Contains(textOf(page), spaced(said)) {
				t.Errorf("%s gives away %q", name, said)
			}
			if !strings.Contains(textOf(key), spaced(said)) {
				t.Errorf("%s: %q is not there", keyName, said)
			}
		}
		if c.Screen != nil && !strings.Contains(textOf(key), l.Safety.Leg.Text.S+" "+legText(l, c.Screen.Leg.Is[0].S)) {
			t.Errorf("%s does not say what is answered on the safety screen", keyName)
		}
		if sides := withClass(key, "sides"); !c.Before.Given() && len(sides) < 2 {
			t.Errorf("%s argues %d kinds of foot, and fewer than two would pick one", keyName, len(sides))
		}
		for _, from := range []struct {
			name string
			page *html.Node
			to   string
		}{{name, page, "../../" + keyName}, {keyName, key, "../../" + name}, {casesName, list, "../" + name}, {teachName, teach, "../" + name}} {
			if !slices.ContainsFunc(elements(from.page, "a"), func(a *html.Node) bool { href, _ := attr(a, "href"); return href == from.to }) {
				t.Errorf("%s does not lead to %s", from.name, from.to)
			}
		}
	}
}

func legText(l *library.Library, id string) string {
	for _, a := range l.Safety.Leg.Answers {
		if a.ID.S == id {
			return a.Text.S
		}
	}
	return "no answer " + id
}

func sourceOf(t *testing.T, n *html.Node) string {
	t.Helper()
	var b strings.Builder
	if err := html.Render(&b, n); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// partsOfCase gives what a learner sees of a case from the start, and what only its key tells.
func partsOfCase(t *testing.T, l *library.Library, c *teaching.Case) (open, shut []string) {
	t.Helper()
	open = []string{c.Title.S, c.Who.S, c.Setting.S}
	for _, f := range c.Facts {
		if f.Hidden() {
			shut = append(shut, f.Says.S)
		} else {
			open = append(open, f.Says.S)
		}
	}
	for _, b := range c.Beats {
		open = append(open, b.Says.S, b.Lead.S)
		for _, o := range b.Options {
			if b.Format.S == teaching.Ask {
				open = append(open, c.Fact(o.ID.S).Request.S)
			} else {
				open = append(open, o.Text.S)
			}
			shut = append(shut, plainest(o.Because.S))
		}
		for _, said := range append([]read.Text{b.Model, b.Toward, b.Away, b.Opening, b.Feels}, b.Checklist...) {
			if said.S != "" {
				shut = append(shut, plainest(said.S))
			}
		}
	}
	for _, w := range c.Walks {
		shut = append(shut, l.Tree(w.Tree.S).Ending(w.Ending.S).Title.S)
	}
	for _, f := range c.Flips {
		open = append(open, f.Says.S)
		shut = append(shut, plainest(f.Because.S), l.Tree(f.Tree.S).Ending(f.Ending.S).Title.S)
	}
	for _, talk := range c.Argue {
		shut = append(shut, talk.For.S, talk.Against.S)
	}
	for _, e := range c.Errors {
		shut = append(shut, plainest(e.S))
	}
	if len(open) < 20 || len(shut) < 30 {
		t.Errorf("%s: %d parts are open and %d are not", c.ID.S, len(open), len(shut))
	}
	return open, append(shut, c.Later.Measure.S, c.Later.Change.S)
}

// elementText gives the text with its spaces and line ends as they are.
func elementText(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data)
		}
	}
	return b.String()
}

// A clinic's layer names itself at the foot, a reviewer takes the place of the
// open admission, and a page of its own is on the last shelf.
func TestLayerShows(t *testing.T) {
	out := renderAll(t, load(t, map[string]string{
		"content/edition.yaml": "clinic: Alder Quay Limb Clinic\nphone: 555 0100\nemergency: { number: \"000\", where: Australia }\ntraining:\n  Alder Quay team: Two prosthetists & a nurse.\n  A. Reviewer: A physician.\n",
		"content/en/parking.md": `---
title: How to find us
audience: resident
message: The door is on the quay <b>.
authors: [Alder Quay team]
reviewers: [A. Reviewer]
reviewed: 2026-10-01
review-by: 2027-10-01
sources: []
funding: Paid for by the clinic.
---

Come by the [heel tree](tree:heel-height).
`,
	}))
	page := pageNamed(t, out, "learn/parking.html")
	foot := textOf(elements(page, "footer")[0])
	for _, want := range []string{"Offered by Alder Quay Limb Clinic. Phone: 555 0100", "Call 000 in Australia, or your local emergency number.", "Reviewed by A. Reviewer", "Facts last checked 1 October 2026", "Paid for by the clinic."} {
		if !strings.Contains(foot, want) {
			t.Errorf("the foot does not say %q: %s", want, foot)
		}
	}
	if strings.Contains(foot, "Not yet reviewed") {
		t.Error("a reviewed page says that it is not reviewed")
	}
	for _, name := range []string{clinicName, ratingsName} {
		text := textOf(pageNamed(t, out, name))
		for _, want := range []string{"Keelpath editors They write software and plain texts.", "Alder Quay team Two prosthetists & a nurse.", "A. Reviewer A physician."} {
			if !strings.Contains(text, want) {
				t.Errorf("%s does not say %q", name, want)
			}
		}
	}
	if text := textOf(page); !strings.Contains(text, "The door is on the quay <b>.") || !strings.Contains(text, "For residents") {
		t.Errorf("the page reads %q", text)
	}
	if text := textOf(pageNamed(t, out, learnName)); !strings.Contains(text, "How to find us") {
		t.Error("the learn page does not list the new page")
	}
	if foot := textOf(elements(pageNamed(t, out, learnName), "footer")[0]); !strings.Contains(foot, "Not yet reviewed by a clinician") || !strings.Contains(foot, "Facts last checked 1 October 2026") {
		t.Errorf("a page that draws on all shows the weakest of all credits: %s", foot)
	}
}

// A tree that has no worked example has no empty part for them, and no link to one.
func TestListingWithoutExamples(t *testing.T) {
	out := renderAll(t, load(t, map[string]string{"content/edition.yaml": "training:\n  Alder Quay team: Two prosthetists.\n", "trees/rounds.yaml": `tree: rounds
title: Rounds
audience: resident
purpose: Ask what comes next.
authors: [Alder Quay team]
reviewers: []
reviewed: 2026-10-01
review-by: 2027-10-01
sources: []
funding: Paid for by the clinic.
start: first
questions:
  first:
    text: What comes next?
    why: It helps to say it.
    answers:
      see: { text: We look, go: end }
      unsure: { text: Not sure, go: ask }
endings:
  end:
    title: Look again
    text: Look once more.
  ask:
    title: Ask someone
    text: Ask someone who was there.
`}))
	n := pageNamed(t, out, "teach/rounds.html")
	if text := textOf(n); strings.Contains(text, "Worked examples") || strings.Contains(text, "these people") {
		t.Errorf("a tree without examples has a part for them: %s", text)
	}
}

// Two pages cannot have one name; the error says what to do. Names that the site
// has for pages of its own are a finding before that, so the test gives one away.
func TestNameTwice(t *testing.T) {
	l := librarytest.Load(t)
	l.Explainers[0].ID = "glossary"
	err := Render(t.Context(), l, &finding.List{}, func(string, []byte) error { t.Error("a file was handed on"); return nil }, nil)
	if err == nil || !strings.Contains(err.Error(), "two pages would both be learn/glossary.html") {
		t.Errorf("got %v", err)
	}
}

// The sources page tells how the search went, with a sum above each list.
func TestSearchShows(t *testing.T) {
	l := load(t, map[string]string{"content/sources.yaml": `search:
  on: 2026-10-01
  asked: ["How many fell?"]
  searches: 7
  results: 31
  looked-at: 12
  taken-in: [{ what: They count., count: 2 }, { what: They tell., count: 3 }]
  left-out: [{ what: They do not., count: 7 }]
`})
	text := textOf(pageNamed(t, renderAll(t, l), sourcesName))
	for _, want := range []string{"on October 1, 2026", "How many fell?", "we ran 7", "more than once 31", "closely 12", "Included 5 They count. 2 They tell. 3", "Left out 7 They do not. 7"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
}

// A shock unit and a torsion unit go in the leg, above the foot: "an add-on in the
// leg tube", as textbooks place shock pylons and rotators. Common practice, no source.
func TestAddonsGoAboveTheFoot(t *testing.T) {
	told := 0
	for _, name := range []string{"foot-types", "motion-push", "pulls"} {
		text, err := content.FS.ReadFile("en/pages/" + name + ".md")
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(text), "goes under another foot") {
			t.Errorf("%s puts an add-on under the foot", name)
		}
		told += strings.Count(string(text), "An add-on goes in the leg, above the foot")
	}
	if told != 3 {
		t.Errorf("%d of 3 pages say where an add-on goes", told)
	}
}

// The three questions that open every sheet follow three that were tried in studies,
// so the sheet, the list of all questions and the page of sources each name them, by
// a link to their entry.
func TestOpeningQuestionsAreCredited(t *testing.T) {
	out := builtin(t)
	credit := "others wrote, and tried in studies"
	for _, name := range []string{sourcesName, questionsName, plannerName} {
		var found *html.Node
		for _, p := range elements(pageNamed(t, out, name), "p") {
			if strings.Contains(textOf(p), credit) {
				found = p
			}
		}
		if found == nil {
			t.Errorf("%s does not credit the studies behind the opening questions", name)
			continue
		}
		var to []string
		for _, a := range elements(found, "a") {
			href, _ := attr(a, "href")
			to = append(to, href[strings.Index(href, "#")+1:])
		}
		if want := []string{"source-three-questions-trial-2011", "source-three-questions-uptake-2016"}; !slices.Equal(to, want) {
			t.Errorf("%s credits %v, want %v", name, to, want)
		}
		for _, id := range to {
			byID(t, pageNamed(t, out, sourcesName), id)
		}
	}
}

// The header's link to the search is marked as the current page on that page alone, whichever page was made first.
func TestOnlyTheSearchIsTheSearch(t *testing.T) {
	for name, n := range pagesOf(t, builtin(t)) {
		for _, a := range elements(n, "a") {
			if on, _ := attr(a, "aria-current"); on == "page" && name != "learn/search.html" {
				t.Errorf("%s: %q is marked as the page itself", name, textOf(a))
			}
		}
	}
}
