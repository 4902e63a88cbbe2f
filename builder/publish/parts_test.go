package publish

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/figure"
	"keelpath/builder/finding"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/tree"
	"keelpath/site"
)

// partText is what a part's file hands to the planner.
type partText struct {
	HTML    string
	Tree    *takenTree
	Cards   map[string][]string
	Prompts map[string]dataPrompt
	Facts   map[string]dataFact
	Beside  map[string]dataBeside
	Themes  []dataTheme
	Units   json.RawMessage
	Figures map[string]json.RawMessage
	About   json.RawMessage
	Voice   string
}

type takenTree struct {
	Title string
	tree.Table
}

// partJSON gives the JSON of each part by its name, and the file that it stands in.
func partJSON(t *testing.T, out output) (texts map[string]json.RawMessage, files map[string]string) {
	t.Helper()
	texts, files = map[string]json.RawMessage{}, map[string]string{}
	for file, data := range out.files {
		if path.Ext(file) != ".js" {
			continue
		}
		i := bytes.LastIndex(data, []byte(`keelpathPart("`))
		if i < 0 || !bytes.HasSuffix(data, []byte(");\n")) {
			continue
		}
		name, text, _ := strings.Cut(string(data[i+len(`keelpathPart("`):len(data)-len(");\n")]), `",`)
		texts[name], files[name] = json.RawMessage(text), file
	}
	if len(texts) < 15 {
		t.Fatalf("only the parts %v were found", slices.Collect(maps.Keys(texts)))
	}
	return texts, files
}

func partsOf(t *testing.T, out output) map[string]partText {
	t.Helper()
	texts, _ := partJSON(t, out)
	parts := map[string]partText{}
	for name, text := range texts {
		var p partText
		if err := json.Unmarshal(text, &p); err != nil {
			t.Fatalf("part %s: %v", name, err)
		}
		parts[name] = p
	}
	return parts
}

// wholePlanner is the planner's page as it is when all parts have come: the client puts
// their templates at its end, each once.
func wholePlanner(t *testing.T, out output) []byte {
	t.Helper()
	page := string(out.files[plannerName])
	parts, more, seen := partsOf(t, out), "", map[string]bool{}
	for _, name := range slices.Sorted(maps.Keys(parts)) {
		if parts[name].Voice != "" { // what takes the place of these words, and never stands beside them
			continue
		}
		for i, one := range strings.Split(strings.ReplaceAll(parts[name].HTML, "'", `"`), `<template id="`) {
			id, _, _ := strings.Cut(one, `"`)
			if i > 0 && !seen[id] {
				more += `<template id="` + one
			}
			seen[id] = true
		}
	}
	before, after, ok := strings.Cut(page, "</body>")
	if !ok {
		t.Fatal("the planner's page has no end")
	}
	return []byte(before + more + "</body>" + after)
}

// plannerJSON is the data that the client has when all parts have come.
func plannerJSON(t *testing.T, out output) map[string]any {
	t.Helper()
	data := map[string]any{}
	block := byID(t, pageNamed(t, out, plannerName), "planner-data")
	if err := json.Unmarshal([]byte(block.FirstChild.Data), &data); err != nil {
		t.Fatal(err)
	}
	parts := partsOf(t, out)
	prompts, cards, facts, topics, trees := map[string]any{}, map[string]any{}, map[string]any{}, []any{}, []any{}
	for id, p := range parts[partPrompts].Prompts {
		prompts[id] = p
	}
	for _, tr := range load(t).PatientTrees() {
		p := parts[partOfTree(tr.ID.S)]
		topics = append(topics, map[string]any{"id": tr.ID.S, "title": tr.Title.S})
		trees = append(trees, p.Tree.Table)
		for id, c := range p.Cards {
			cards[id] = c
		}
		for id, f := range p.Facts {
			facts[id] = f
		}
		if p.Units != nil {
			data["units"] = p.Units
		}
	}
	data["prompts"], data["cards"], data["facts"], data["topics"], data["trees"] = prompts, cards, facts, topics, trees
	data["about"], data["themes"] = parts[partAbout].About, parts[partPrompts].Themes
	return data
}

// Each topic has a part of its own with its whole table and its words, and the page has
// nothing of it but its line in the lists.
func TestTopicIsAPart(t *testing.T) {
	out, l := builtin(t), load(t)
	parts := partsOf(t, out)
	_, files := partJSON(t, out)
	page := string(out.files[plannerName])
	topics := 0
	for _, row := range elements(pageNamed(t, out, plannerName), "button") {
		if _, is := attr(row, "data-topic"); !is {
			continue
		}
		topics++
		id, _ := attr(row, "value")
		tr := l.Tree(id)
		if script, _ := attr(row, "data-script"); tr == nil || script != "../"+files[partOfTree(id)] {
			t.Errorf("the topic %q is loaded from %q", id, script)
			continue
		}
		if _, whole := attr(row, "data-whole"); whole != (tr.Safety.S == tree.SafetyWhole) {
			t.Errorf("%s: whether all groups are asked is %v", id, whole)
		}
		p := parts[partOfTree(id)]
		want, err := json.Marshal(tr.Table(l.Proofs[id].Left))
		if err != nil {
			t.Fatal(err)
		}
		if got, _ := json.Marshal(p.Tree.Table); string(got) != string(want) || p.Tree.Title != tr.Title.S {
			t.Errorf("the table of %s differs:\n%s\n%s", id, got, want)
		}
		for _, q := range tr.Questions {
			if !strings.Contains(p.HTML, `<template id="question-`+id+`-`+q.ID.S+`">`) {
				t.Errorf("%s: the part has no question %s", id, q.ID.S)
			}
			if strings.Contains(page, `id="question-`+id+`-`+q.ID.S) {
				t.Errorf("%s: the page has the question %s", id, q.ID.S)
			}
		}
		for _, e := range tr.Endings {
			if has := strings.Contains(p.HTML, `<template id="ending-`+id+`-`+e.ID.S+`">`); has == e.Sign.Given() {
				t.Errorf("%s: that the part has the ending %s is %v", id, e.ID.S, has)
			}
			for _, prompt := range e.Prompts {
				if p.Prompts[prompt.S].Ask != l.Prompt(prompt.S).Ask.S {
					t.Errorf("%s: the ending %s brings %s, and the part has not its words", id, e.ID.S, prompt.S)
				}
			}
		}
		for _, card := range tr.Cards() {
			if _, ok := p.Cards[card]; !ok || !strings.Contains(p.HTML, `<template id="part-card-`+card+`">`) {
				t.Errorf("%s: the part has no card %s", id, card)
			}
		}
		if (p.Units != nil) != measured(tr) {
			t.Errorf("%s: that it brings the units is %v", id, p.Units != nil)
		}
	}
	if topics != len(l.PatientTrees()) {
		t.Errorf("the page lists %d topics", topics)
	}
	for _, f := range []string{"heel-change", "slope", "load"} {
		if p := parts[partOfFigure(f)]; p.Figures[f] == nil || !strings.Contains(p.HTML, `<template id="figure-`+f+`">`) {
			t.Errorf("the figure %s has no part of its own", f)
		}
	}
}

// A figure beside a question is named by the topic's part: its title, and where it is.
func TestFigureBesideIsNamed(t *testing.T) {
	out, l := builtin(t), load(t)
	parts := partsOf(t, out)
	_, files := partJSON(t, out)
	n := 0
	for _, tr := range l.PatientTrees() {
		for at, b := range parts[partOfTree(tr.ID.S)].Beside {
			n++
			i := slices.IndexFunc(l.Figures, func(f *figure.Figure) bool { return f.ID == b.Figure })
			if i < 0 || b.Title != l.Figures[i].Title.S || b.Script != "../"+files[partOfFigure(b.Figure)] || !strings.HasPrefix(at, tr.ID.S+"/") {
				t.Errorf("%s: %s is %+v", tr.ID.S, at, b)
			}
		}
	}
	if n != 5 {
		t.Errorf("%d questions have a figure beside them, want 5", n)
	}
}

// The safety screen is in the page itself, all of it: no sign, caution, line to call or question for later
// waits for a part.
func TestSafetyNeedsNoPart(t *testing.T) {
	out, l := builtin(t), load(t)
	n := pageNamed(t, out, plannerName)
	own := map[string]string{} // what each template of the page's own file says
	page, _, _ := strings.Cut(string(out.files[plannerName]), `<script type="application/json"`)
	for _, one := range strings.Split(page, `<template id="`)[1:] {
		id, text, _ := strings.Cut(one, `"`)
		own[id] = text
	}
	var block data
	if err := json.Unmarshal([]byte(byID(t, n, "planner-data").FirstChild.Data), &block); err != nil {
		t.Fatal(err)
	}
	signs := 0
	for i, g := range l.Safety.Groups {
		ids := []string{"unsure"}
		brought := block.Safety.Groups[i].Prompts
		for j, s := range g.Signs {
			ids = append(ids, s.ID.S)
			brought = append(brought[:len(brought):len(brought)], block.Safety.Groups[i].Signs[j].Prompts...)
			if !strings.Contains(own["signs-"+g.ID.S], `value="`+s.ID.S+`"`) {
				t.Errorf("the page's group %s has no row for %s", g.ID.S, s.ID.S)
			}
		}
		for _, id := range ids {
			signs++
			if !strings.Contains(own["told-"+g.ID.S+"-"+id], `<div class="caution">`) {
				t.Errorf("the page has no caution of %s, %s", g.ID.S, id)
			}
		}
		for _, id := range brought {
			if p := block.Prompts[id]; p.Ask != l.Prompt(id).Ask.S || p.Why == "" {
				t.Errorf("%s brings %s, and the page says %+v", g.ID.S, id, p)
			}
		}
	}
	for _, e := range l.Safety.Endings {
		if !strings.Contains(own["safety-ending-"+e.When.S], `data-slot="cautions"`) {
			t.Errorf("the page has no ending for %q", e.When.S)
		}
	}
	for _, id := range []string{"safety-leg", "safety-gate", "part-call-line", "part-emergency", "view-missing"} {
		if own[id] == "" {
			t.Errorf("the page has no template %s", id)
		}
	}
	if signs < 20 {
		t.Errorf("only %d signs were looked at", signs)
	}
}

// With 200 topics the page is what it is with those built in, but for their lines in its two lists: no question,
// no table and no prompt comes with a topic.
func TestPageDoesNotGrowWithTopics(t *testing.T) {
	few, builtins := builtin(t).files[plannerName], len(load(t).PatientTrees())
	l := manyTopics(t, 200)
	m, err := newMaker(l, site.Files, &finding.List{})
	if err != nil {
		t.Fatal(err)
	}
	p, ok := m.plan.Find(plan.Planner, "")
	if !ok {
		t.Fatal("there is no planner")
	}
	many, _, err := m.html(p)
	if err != nil {
		t.Fatal(err)
	}
	lines := regexp.MustCompile(`(?m)^<li><button type="button" class="row[a-z ]*" value="[a-z0-9-]+" data-topic=.*</li>\n|^<li><a href="\.\./prepare/[a-z0-9-]+\.html">[^<]*</a></li>\n`)
	if n := len(lines.FindAll(few, -1)); n != 2*builtins {
		t.Fatalf("the built-in page has %d lines of topics", n)
	}
	if n := len(lines.FindAll(many, -1)); n != 2*200 {
		t.Fatalf("the page with 200 topics has %d lines of them", n)
	}
	// The page's foot names everybody who wrote a topic.
	if was, is := len(lines.ReplaceAll(few, nil)), len(lines.ReplaceAll(many, nil)); is < was-300 || is > was+300 {
		t.Errorf("without the lines of topics the page has %d bytes with %d of them, and %d with 200", was, builtins, is)
	}
	if each := (zipped(t, many) - zipped(t, few)) / (200 - builtins); each > 90 {
		t.Errorf("a topic more costs the page %d bytes, compressed", each)
	}
}

// manyTopics is the built-in content with copies of its topics, under other names, until there are so many.
func manyTopics(t *testing.T, all int) *library.Library {
	t.Helper()
	l := librarytest.Load(t)
	trees := l.PatientTrees()
	where := strings.Fields("home garden shop bus boat farm school church beach pool kitchen bathroom office ladder snow mud")
	when := strings.Fields("morning evening noon night winter summer spring weekend")
	for i := range all - len(trees) {
		one := *trees[i%len(trees)]
		at := where[i%len(where)] + " " + when[i/len(where)%len(when)]
		was := one.ID.S
		one.ID.S = fmt.Sprintf("made-up-%03d", i)
		one.Title.S = fmt.Sprintf("In the %s, part %d", at, i)
		one.Purpose.S = fmt.Sprintf("This finds what to ask about how to get through the %s, the way you do it %d times.", at, i+2)
		l.Trees, l.Proofs[one.ID.S] = append(l.Trees, &one), l.Proofs[was]
	}
	return l
}

// A clinic's own topic is a part like any other, beside the built-in ones.
func TestLayersTopicIsAPart(t *testing.T) {
	m, err := newMaker(librarytest.Load(t, "../../testdata/layers/alder-quay"), site.Files, &finding.List{})
	if err != nil {
		t.Fatal(err)
	}
	p, ok := m.plan.Find(plan.Planner, "")
	if !ok {
		t.Fatal("there is no planner")
	}
	page, _, err := m.html(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range []string{"at-night", "heel-height"} {
		a, err := m.asset(partOfTree(id) + ".js")
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(string(page), `" data-script="../`+a.name+`"`) {
			t.Errorf("the page does not load %s from %s", id, a.name)
		}
		if text := string(a.data); !strings.HasPrefix(text, `keelpathPart("tree-`+id+`",{"html":"`) || !strings.Contains(text, `<template id=\"question-`+id+`-`) {
			t.Errorf("%s begins with %.200q", a.name, text)
		}
	}
}
