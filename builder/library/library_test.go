package library_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"keelpath/builder/finding"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/library"
	"keelpath/builder/read"
)

// The content that the program carries has no fault, and all its examples land.
func TestBuiltin(t *testing.T) {
	var list finding.List
	l := load(t, &list, library.Builtin())
	if list.Len() > 0 {
		var b strings.Builder
		if err := finding.Print(&b, list.Sorted(), l.File); err != nil {
			t.Fatal(err)
		}
		t.Errorf("%s", b.String())
	}
	for _, tr := range l.Trees {
		if len(tr.Examples) < 4 {
			t.Errorf("tree %q has %d worked examples", tr.ID.S, len(tr.Examples))
		}
		for _, e := range tr.Examples {
			if p, err := tr.Walk(e.Given()); err != nil || p.Ending != e.Ending.S {
				t.Errorf("%s: the example lands at %q (%v)", e.Ending.At, p.Ending, err)
			}
		}
	}
	if len(l.Trees) == 0 || len(l.Explainers) == 0 || len(l.Prompts()) == 0 || len(l.FootTypes) == 0 || len(l.Words) == 0 || len(l.Sources) == 0 || len(l.Cards) == 0 {
		t.Error("a part of the built-in content is empty")
	}
}

// layer lays out an archive as a layer.
func layer(t *testing.T, archive string, list *finding.List) library.Layer {
	t.Helper()
	dir := t.TempDir()
	layerIn(t, dir, archive)
	y, err := library.ReadLayer(t.Context(), dir, list)
	if err != nil {
		t.Fatal(err)
	}
	return y
}

// layerIn writes an archive's files into a folder.
func layerIn(t *testing.T, dir, archive string) {
	t.Helper()
	for _, f := range txtar.Parse([]byte(archive)).Files {
		name := filepath.Join(dir, filepath.FromSlash(f.Name))
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, f.Data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// load is library.Load, which only a context that ends can stop.
func load(t *testing.T, list *finding.List, layers ...library.Layer) *library.Library {
	t.Helper()
	l, err := library.Load(t.Context(), list, layers...)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func fine(t *testing.T, list *finding.List) {
	t.Helper()
	for _, f := range list.Sorted() {
		if f.Check == "missing-voice" && f.Weight == finding.Warning {
			continue // a layer's own words may be in the reader's voice alone
		}
		t.Errorf("%s: %s [%s]", f.Place, f.Text, f.Check)
	}
}

const tableLayer = `
-- content/edition.yaml --
name: Keelpath at Alder Quay
-- content/glossary.yaml --
words:
  keel: { word: keel, meaning: Our own words for it. }
  loan-shelf: { word: loan shelf, meaning: The feet we lend. }
-- content/sources.yaml --
sources:
  our-survey: { title: What our visitors asked, kind: report, seen: page }
-- trees/prompts.yaml --
themes:
  heel:
    title: Heels
    about: Our own line on heels.
    prompts:
      heel-4: { ask: "Which sock goes over it?", whom: [prosthetist], why: So you know., basis: [our-survey] }
      heel-99: { ask: "May I borrow a wedge?", whom: [prosthetist], why: We lend them., basis: [our-survey] }
`

// sameCard is a card with its words and one more prompt, as a layer may write it.
func sameCard(c *library.Card, more string) string {
	prompts := strings.Join(append(read.Strings(c.Prompts), more), ", ")
	return fmt.Sprintf("-- trees/cards.yaml --\ncards:\n  %s: { title: %q, text: %q, prompts: [%s] }\n", c.ID.S, c.Title.S, c.Text.S, prompts)
}

// A layer replaces entries by id, in their place, and leaves the others.
func TestLayerOfTables(t *testing.T) {
	var list finding.List
	before := load(t, &list, library.Builtin())
	l := load(t, &list, library.Builtin(), layer(t, tableLayer+sameCard(before.Card("a-fall"), "heel-99"), &list))
	fine(t, &list)

	before.Edition.Lines.Say, l.Edition.Lines.Say = nil, nil // each library reads its own
	if l.Edition.Name.S != "Keelpath at Alder Quay" || l.Edition.Lines != before.Edition.Lines || l.Edition.Lines.Emergency.Number.S == "" {
		t.Errorf("the edition is %+v", l.Edition)
	}
	ids := func(l *library.Library) (words, prompts []string) {
		for _, w := range l.Words {
			words = append(words, w.ID.S)
		}
		for _, p := range l.Theme("heel").Prompts {
			prompts = append(prompts, p.ID.S)
		}
		return words, prompts
	}
	oldWords, oldPrompts := ids(before)
	newWords, newPrompts := ids(l)
	if diff := cmp.Diff(append(oldWords, "loan-shelf"), newWords); diff != "" {
		t.Errorf("words: %s", diff)
	}
	if diff := cmp.Diff(append(oldPrompts, "heel-99"), newPrompts); diff != "" {
		t.Errorf("prompts: %s", diff)
	}
	for name, c := range map[string]struct{ got, want string }{
		"a word of the same id":             {l.Word("keel").Meaning.S, "Our own words for it."},
		"a word that is new":                {l.Word("loan-shelf").Word.S, "loan shelf"},
		"a word left alone":                 {l.Word("adapter").Meaning.S, before.Word("adapter").Meaning.S},
		"a card that brings more":           {l.Card("a-fall").Prompts[len(l.Card("a-fall").Prompts)-1].S, "heel-99"},
		"a theme of the same id":            {l.Theme("heel").About.S, "Our own line on heels."},
		"a prompt of the same id":           {l.Prompt("heel-4").Ask.S, "Which sock goes over it?"},
		"a prompt left alone":               {l.Prompt("heel-2").Ask.S, before.Prompt("heel-2").Ask.S},
		"a general prompt left alone":       {l.Prompt("general-1").Ask.S, before.Prompt("general-1").Ask.S},
		"a source that is new":              {l.Source("our-survey").Title.S, "What our visitors asked"},
		"the text of a file as it was read": {string(l.File("content/edition.yaml")), string(before.File("content/edition.yaml"))},
	} {
		if c.got != c.want {
			t.Errorf("%s: %q, and %q was expected", name, c.got, c.want)
		}
	}
	if at := l.Word("keel").Meaning.At; !strings.HasSuffix(at.File, "/content/glossary.yaml") || at.Line != 2 {
		t.Errorf("the layer's word is placed at %s", at)
	}
}

const pageHeader = `---
title: Loan shelf
message: We lend feet.
authors: [Keelpath editors]
reviewers: []
reviewed: 2026-11-25
review-by: 2027-11-25
sources: [feet-fact-sheet]
funding: None.
---

We lend them.[](source:feet-fact-sheet)
`

// A layer adds to the shelves of the learn page, and moves what it names. A page
// that no shelf names stands on the last one.
func TestShelves(t *testing.T) {
	type shelves map[string][]string // title: explainers
	of := func(l *library.Library) (order []string, all shelves) {
		all = shelves{}
		for _, p := range l.Parts {
			order = append(order, p.Title.S)
			for _, e := range p.Explainers {
				all[p.Title.S] = append(all[p.Title.S], e.ID)
			}
		}
		return order, all
	}
	const own, shoes = "-- content/en/loan-shelf.md --\n" + pageHeader, "Shoes, heels and the shell"
	learn := func(parts string) string { return "-- content/learn.yaml --\nparts:\n" + parts }
	for _, c := range []struct {
		name, archive string
		change        func(order []string, all shelves) []string
	}{
		{"nothing of its own", learn("  []\n"), func(o []string, _ shelves) []string { return o }},
		{"a page that no shelf names", own, func(o []string, all shelves) []string {
			all["More to read"] = []string{"loan-shelf"}
			return append(o, "More to read")
		}},
		{"a page on a shelf that is there", own + learn("  - { title: '"+shoes+"', explainers: [loan-shelf] }\n"), func(o []string, all shelves) []string {
			all[shoes] = append(all[shoes], "loan-shelf")
			return o
		}},
		{"a page on a shelf of its own", own + learn("  - { title: Ours, explainers: [loan-shelf] }\n"), func(o []string, all shelves) []string {
			all["Ours"] = []string{"loan-shelf"}
			return append(o, "Ours")
		}},
		{"a page that moves", learn("  - { title: Keeping it safe and in good order, explainers: [foot-shell] }\n"), func(o []string, all shelves) []string {
			all[shoes] = slices.DeleteFunc(all[shoes], func(id string) bool { return id == "foot-shell" })
			all["Keeping it safe and in good order"] = append(all["Keeping it safe and in good order"], "foot-shell")
			return o
		}},
		{"another order of one shelf", learn("  - { title: Keeping it safe and in good order, explainers: [falls, looking-after-a-foot] }\n"), func(o []string, all shelves) []string {
			const shelf = "Keeping it safe and in good order"
			two := []string{"falls", "looking-after-a-foot"}
			all[shelf] = append(slices.DeleteFunc(all[shelf], func(id string) bool { return slices.Contains(two, id) }), two...)
			return o
		}},
		{"a shelf that is emptied", learn("  - { title: People like you, explainers: [slopes-and-ramps, stairs, uneven-ground-and-twisting, water-and-weather] }\n"), func(o []string, all shelves) []string {
			const emptied = "The ground you walk on"
			all["People like you"] = append(all["People like you"], all[emptied]...)
			delete(all, emptied)
			return slices.DeleteFunc(o, func(t string) bool { return t == emptied })
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var list finding.List
			order, all := of(load(t, &list, library.Builtin()))
			order = c.change(order, all)
			gotOrder, got := of(load(t, &list, library.Builtin(), layer(t, c.archive, &list)))
			fine(t, &list)
			if diff := cmp.Diff(order, gotOrder) + cmp.Diff(all, got); diff != "" {
				t.Error(diff)
			}
		})
	}
	var list finding.List
	about := load(t, &list, library.Builtin(), layer(t, learn("  - { title: Keeping it safe and in good order, about: Ask us. }\n"), &list))
	if i := slices.IndexFunc(about.Parts, func(p *library.Part) bool { return p.Title.S == "Keeping it safe and in good order" }); i < 0 || about.Parts[i].About.S != "Ask us." {
		t.Error("the shelf does not say what the layer says about it")
	}
}

// What a layer's order names comes first; the others keep the order that they have
// without it, and a tree that no order names follows by id.
func TestPlannerOrder(t *testing.T) {
	ids := func(l *library.Library) (out []string) {
		for _, t := range l.Trees {
			out = append(out, t.ID.S)
		}
		return out
	}
	var list finding.List
	want := ids(load(t, &list, library.Builtin()))
	if slices.IsSorted(want) {
		t.Fatal("the built-in order is that of the alphabet, so that this shows nothing")
	}
	without := func(ids []string, gone ...string) []string {
		return slices.DeleteFunc(slices.Clone(ids), func(id string) bool { return slices.Contains(gone, id) })
	}
	own := "-- trees/a-tree.yaml --\n" + strings.ReplaceAll(small, "ground", "a-tree")
	for _, c := range []struct {
		name   string
		layers []string
		want   []string
	}{
		{"a tree that no order names", []string{own}, slices.Sorted(slices.Values(append(without(want, plannerNames(t)...), "a-tree")))},
		{"two trees first", []string{"-- trees/planner.yaml --\norder: [something-changed, heel-height]\n"},
			append([]string{"something-changed", "heel-height"}, without(want, "something-changed", "heel-height")...)},
		{"a tree of its own among them", []string{own + "-- trees/planner.yaml --\norder: [heel-height, a-tree]\n"},
			append([]string{"heel-height", "a-tree"}, without(want, "heel-height")...)},
		{"a second layer over the first", []string{"-- trees/planner.yaml --\norder: [work, heel-height]\n", "-- trees/planner.yaml --\norder: [heel-height]\n"},
			append([]string{"heel-height", "work"}, without(want, "heel-height", "work")...)},
	} {
		t.Run(c.name, func(t *testing.T) {
			var list finding.List
			all := []library.Layer{library.Builtin()}
			for _, archive := range c.layers {
				all = append(all, layer(t, archive, &list))
			}
			got := ids(load(t, &list, all...))
			fine(t, &list)
			if c.name == "a tree that no order names" {
				got = got[len(plannerNames(t)):]
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// plannerNames gives the trees that the built-in order names.
func plannerNames(t *testing.T) []string {
	t.Helper()
	src, err := os.ReadFile(filepath.Join(root, "trees", "planner.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	var list finding.List
	return read.Strings(read.YAML("planner.yaml", src, 0, &list).IDs("order"))
}

// small is a tree with an ending for safety.
const small = `tree: ground
title: Ground
purpose: A tree to build on.
authors: [Keelpath editors]
reviewers: []
reviewed: 2026-11-25
review-by: 2028-11-25
funding: None.
start: signs
questions:
  signs:
    text: Is anything wrong?
    why: Some things cannot wait.
    pick: any
    answers:
      pain: { text: Pain, go: stop }
      crack: { text: A crack, go: stop }
      none: { text: None, alone: true, go: more }
    skip: more
  more:
    text: Is it so?
    why: It sets the way.
    answers:
      "yes": { text: "Yes", go: done }
      unsure: { text: Not sure, go: other }
endings:
  stop: { title: Call us, safety: true, caution: Sit down., text: Call today. }
  done: { title: Done, text: Talk it over. }
  other: { title: Other, text: Ask first. }
safety: shared
`

// What a layer may and may not do to a tree with an ending for safety.
func TestSafetyKept(t *testing.T) {
	for _, c := range []struct {
		name  string
		subst []string // old, new, ... in the tree
		want  []string // "line sentence"
	}{
		{"the same tree", nil, nil},
		{"another wording of what is asked", []string{"Is anything wrong?", "Is anything amiss?"},
			[]string{`12 "text" of question "signs" is "Is anything amiss?", and the built-in one, for safety, is "Is anything wrong?"`}},
		{"another ending", []string{"go: other", "go: third", "  other:", "  third:"}, nil},
		{"more prompts at the ending for safety", []string{"text: Call today. }", "text: Call today., next: [] }"}, nil},
		{"one more question before", []string{"start: signs", "start: first", "questions:\n", "questions:\n  first:\n    text: Who asks?\n    why: To know.\n    answers:\n      me: { text: I do, go: signs, cards: [] }\n      they: { text: Someone else, go: stop }\n    skip: signs\n"}, nil},
		{"one more grave answer", []string{"      crack:", "      fever: { text: Fever, go: stop }\n      crack:"}, nil},
		{"the ending reworded", []string{"Call today.", "It will pass."},
			[]string{`27 "text" of ending "stop" is "It will pass.", and the built-in one, for safety, is "Call today."`}},
		{"its title alone", []string{"title: Call us,", "title: Relax,"},
			[]string{`27 "title" of ending "stop" is "Relax", and the built-in one, for safety, is "Call us"`}},
		{"its caution alone", []string{"Sit down.", "Run."},
			[]string{`27 "caution" of ending "stop" is "Run.", and the built-in one, for safety, is "Sit down."`}},
		{"its mark alone", []string{"safety: true, ", ""},
			[]string{`27 "safety" of ending "stop" is missing, and the built-in one, for safety, is "true"`}},
		{"the ending no longer for safety", []string{"safety: true, caution: Sit down., ", ""},
			[]string{
				`27 "caution" of ending "stop" is missing, and the built-in one, for safety, is "Sit down."`,
				`27 "safety" of ending "stop" is missing, and the built-in one, for safety, is "true"`,
			}},
		{"the ending under another name", []string{"  stop:", "  halt:", "pain: { text: Pain, go: stop", "pain: { text: Pain, go: halt", "crack, go: stop", "crack, go: halt"},
			[]string{`1 the edition lacks the ending "stop" of tree "ground", which the built-in content has for safety`}},
		{"an answer taken away", []string{"      pain: { text: Pain, go: stop }\n", ""},
			[]string{`11 the edition lacks the answer "pain" of question "signs", which the built-in content has for safety`}},
		{"an answer led elsewhere", []string{"crack, go: stop", "crack, go: more"},
			[]string{`17 "go" of answer "crack" is "more", and the built-in one, for safety, is "stop"`}},
		{"the question gone", []string{"  signs:", "  sounds:", "start: signs", "start: sounds"},
			[]string{`1 the edition lacks the question "signs" of tree "ground", which the built-in content has for safety`}},
		{"a way past the question", []string{"start: signs", "start: first", "questions:\n", "questions:\n  first:\n    text: Who asks?\n    why: To know.\n    answers:\n      me: { text: I do, go: signs }\n    skip: done\n"},
			[]string{`17 question "signs" leads to safety, and a reader can now reach the ending "done" without it`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var list finding.List
			src := small
			for i := 0; i < len(c.subst); i += 2 {
				if strings.Count(src, c.subst[i]) != 1 {
					t.Fatalf("%q stands %d times in the tree", c.subst[i], strings.Count(src, c.subst[i]))
				}
				src = strings.Replace(src, c.subst[i], c.subst[i+1], 1)
			}
			ground := layer(t, "-- content/edition.yaml --\nname: Ours\nemergency: { number: \"112\", where: the EU }\ncrisis: { number: \"112\", where: the EU }\ntraining: { Keelpath editors: They write. }\n-- trees/ground.yaml --\n"+small, &list)
			load(t, &list, ground, layer(t, "-- trees/ground.yaml --\n"+src, &list))
			var got []string
			for _, f := range list.Sorted() {
				got = append(got, fmt.Sprint(f.Line, " ", f.Text))
				if f.Check != "safety-kept" {
					t.Errorf("%s: %s", f.Check, f.Text)
				}
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// branched is a tree in which one answer alone leads to the question about danger.
const branched = `tree: ground
title: Ground
purpose: A tree to build on.
authors: [Keelpath editors]
reviewers: []
reviewed: 2026-11-25
review-by: 2028-11-25
funding: None.
start: walk
questions:
  walk:
    text: How is it?
    why: It sets the way.
    answers:
      well: { text: Well, go: done }
      ill: { text: Not so well, go: signs }
      unsure: { text: Not sure, go: signs }
  signs:
    text: Does it hurt?
    why: Some things cannot wait.
    pick: any
    answers:
      pain: { text: Pain, go: stop }
      hot: { text: Heat, go: cool }
      none: { text: None, alone: true, go: done }
      unsure: { text: Not sure, alone: true, go: stop }
endings:
  stop: { title: Call us, safety: true, caution: Sit down., text: Call today. }
  cool: { title: Cool it, safety: true, caution: Take it off., text: Call today. }
  done: { title: Done, text: Talk it over. }
safety: shared
`

// A layer may not lead round a question that only some readers are asked, and what it adds
// to such a question must not be heard before what is graver.
func TestWaysKept(t *testing.T) {
	const hot = "      hot: {"
	for _, c := range []struct {
		name     string
		old, new string
		want     []string
	}{
		{"the same tree", "", "", nil},
		{"the answer that leads there leads past it", "Not so well, go: signs", "Not so well, go: done",
			[]string{`16 the answer "ill" of question "walk" leads to question "signs", which is for safety, and can now reach the ending "done" without it`}},
		{"a question between", "Not so well, go: signs }", "Not so well, go: since }\n      old: { text: As before, go: done }",
			nil},
		{"an added answer that is heard first", hot, "      wet: { text: Wet, go: cool }\n" + hot,
			[]string{`24 answer "wet" is added to question "signs" before answers that lead to other help`}},
		{"an added answer at the end", "      none:", "      wet: { text: Wet, go: cool }\n      none:", nil},
		{"an added answer that leads past", "      none:", "      dull: { text: A dull ache, go: done }\n      none:",
			[]string{`25 answer "dull" is added to question "signs", which is for safety, and leads past it to "done"`}},
		{"the answers in another order", "      pain: { text: Pain, go: stop }\n      hot: { text: Heat, go: cool }\n", "      hot: { text: Heat, go: cool }\n      pain: { text: Pain, go: stop }\n",
			[]string{`23 "order of answers" of question "signs" is "hot, pain, none, unsure", and the built-in one, for safety, is "pain, hot, none, unsure"`}},
		{"one for any", "    pick: any\n", "", []string{`18 "pick" of question "signs" is "one", and the built-in one, for safety, is "any"`}},
		{"not alone", "Not sure, alone: true, go: stop", "Not sure, go: stop",
			[]string{`26 "alone" of answer "unsure" is missing, and the built-in one, for safety, is "true"`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			src := branched
			if c.old != "" {
				if strings.Count(src, c.old) != 1 {
					t.Fatalf("%q stands %d times in the tree", c.old, strings.Count(src, c.old))
				}
				src = strings.Replace(src, c.old, c.new, 1)
			}
			src = strings.Replace(src, "  signs:\n", since(src)+"  signs:\n", 1)
			if diff := cmp.Diff(c.want, keptFindings(t, branched, src)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// since is a question of a layer's own, where its tree leads to one.
func since(src string) string {
	if !strings.Contains(src, "go: since") {
		return ""
	}
	return "  since:\n    text: Since when?\n    why: It helps.\n    answers:\n      today: { text: Today, go: signs }\n    skip: signs\n"
}

// keptFindings gives what is found of what is sealed, as a layer lays a tree over another.
func keptFindings(t *testing.T, old, now string) []string {
	t.Helper()
	var list finding.List
	ground := layer(t, "-- content/edition.yaml --\nname: Ours\nemergency: { number: \"112\", where: the EU }\ncrisis: { number: \"112\", where: the EU }\ntraining: { Keelpath editors: They write. }\n-- trees/ground.yaml --\n"+old, &list)
	load(t, &list, ground, layer(t, "-- trees/ground.yaml --\n"+now, &list))
	var out []string
	for _, f := range list.Sorted() {
		if f.Check == "safety-kept" {
			out = append(out, fmt.Sprint(f.Line, " ", f.Text))
		}
	}
	return out
}

// A layer that is named "." has the same file names as the built-in content, and
// is held to the same rule.
func TestSafetyKeptInTheWorkingFolder(t *testing.T) {
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "trees"), 0o755); err != nil {
		t.Fatal(err)
	}
	src := strings.ReplaceAll(small, "tree: ground", "tree: heel-height")
	if err := os.WriteFile(filepath.Join(dir, "trees", "heel-height.yaml"), []byte(src), 0o644); err != nil {
		t.Fatal(err)
	}
	t.Chdir(dir)
	var list finding.List
	y, err := library.ReadLayer(t.Context(), ".", &list)
	if err != nil {
		t.Fatal(err)
	}
	load(t, &list, library.Builtin(), y)
	if !slices.ContainsFunc(list.Sorted(), func(f finding.Finding) bool {
		return f.Check == "safety-kept" && f.File == "trees/heel-height.yaml"
	}) {
		t.Errorf("the layer's tree was taken: %v", list.Sorted())
	}
}

func TestReadLayer(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		t.Helper()
		name = filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("none/readme.txt", "Words.")
	write("file", "Words.")
	write("hidden/trees/.draft.yaml", "tree: draft")
	write("hidden/trees/.git/short.yaml", "tree: draft")
	write("hidden/elsewhere/short.yaml", "tree: draft")
	write("large/trees/large.yaml", strings.Repeat("# much\n", read.MaxBytes/7+1))
	for _, c := range []struct {
		name, err string
		found     []string
	}{
		{"missing", "read the layer", nil},
		{"none", "has no folder content/ and no folder trees/", nil},
		{"file", "read the layer", nil},
		{"hidden", "", nil},
		{"large", "", []string{"too-large"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var list finding.List
			y, err := library.ReadLayer(t.Context(), filepath.Join(dir, c.name), &list)
			if c.err != "" {
				if err == nil || !strings.Contains(err.Error(), c.err) {
					t.Errorf("the error is %v, and %q was expected", err, c.err)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			load(t, &list, library.Builtin(), y)
			var got []string
			for _, f := range list.Sorted() {
				got = append(got, f.Check)
			}
			if diff := cmp.Diff(c.found, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// A layer cannot take in files from outside its folder.
func TestLayerStaysInItsFolder(t *testing.T) {
	dir := t.TempDir()
	secret := filepath.Join(dir, "secret.yaml")
	if err := os.WriteFile(secret, []byte("tree: secret\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	trees := filepath.Join(dir, "layer", "trees")
	if err := os.MkdirAll(trees, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(secret, filepath.Join(trees, "secret.yaml")); err != nil {
		t.Fatal(err)
	}
	var list finding.List
	if _, err := library.ReadLayer(t.Context(), filepath.Join(dir, "layer"), &list); err == nil {
		t.Error("the file was read")
	}
}

// The same input gives the same findings in the same order, whatever the order
// of maps.
func TestFindingsAreInOneOrder(t *testing.T) {
	archive, err := txtar.ParseFile(filepath.Join(root, "testdata", "bad", "foot-type.txtar"))
	if err != nil {
		t.Fatal(err)
	}
	var first string
	dir := "-- content/foot-types.yaml --\n" + string(archive.Files[0].Data)
	for range 5 {
		var list finding.List
		y := layer(t, dir, &list)
		l := load(t, &list, library.Builtin(), y)
		var b bytes.Buffer
		if err := finding.Print(&b, list.Sorted(), l.File); err != nil {
			t.Fatal(err)
		}
		text := strings.ReplaceAll(b.String(), filepath.ToSlash(y.Dir), "")
		if first == "" {
			first = text
		}
		if diff := cmp.Diff(first, text); diff != "" {
			t.Fatal(diff)
		}
	}
}

// What the planned search took in and left out is what it looked at.
func TestSearchAddsUp(t *testing.T) {
	s := librarytest.Load(t).Search
	if s == nil {
		t.Fatal("the sources tell of no search")
	}
	sum := 0
	for _, tally := range slices.Concat(s.TakenIn, s.LeftOut) {
		sum += tally.Count
	}
	if sum != s.LookedAt {
		t.Errorf("%d were taken in or left out, and %d were looked at", sum, s.LookedAt)
	}
}

// A layer adds to each part of the words of the search, and takes nothing away.
func TestLayerAddsSearchWords(t *testing.T) {
	var list, both finding.List
	alone := load(t, &list, library.Builtin()).SearchWords
	added := load(t, &both, library.Builtin(), layer(t, `
-- content/en/search-words.yaml --
skip: [quayish]
means:
  stairs: { says: [gangway], means: [ramp] }
  our-bus: { says: [quay bus], means: [travel] }
signs:
  chest: [quay pressure]
asked:
  explainer:stairs#what-about-curbs: [step at the quay]
`, &both)).SearchWords
	if list.Len() > 0 || both.Len() > 0 {
		t.Fatalf("%v %v", list.Sorted(), both.Sorted())
	}
	grown := func(before, after []read.Text, more string) {
		t.Helper()
		if got := read.Strings(after); !slices.Equal(got, append(read.Strings(before), more)) {
			t.Errorf("%q and %q make %q", read.Strings(before), more, got)
		}
	}
	grown(alone.Skip, added.Skip, "quayish")
	grown(alone.Sign("chest").Says, added.Sign("chest").Says, "quay pressure")
	grown(alone.AskedAt("explainer:stairs#what-about-curbs").Says, added.AskedAt("explainer:stairs#what-about-curbs").Says, "step at the quay")
	if n := len(alone.Means); len(added.Means) != n+1 || added.Means[n].ID.S != "our-bus" {
		t.Errorf("%d meanings became %d", n, len(added.Means))
	}
	meaning := func(s library.SearchWords) *library.Meaning {
		return s.Means[slices.IndexFunc(s.Means, func(m *library.Meaning) bool { return m.ID.S == "stairs" })]
	}
	grown(meaning(alone).Says, meaning(added).Says, "gangway")
	grown(meaning(alone).Means, meaning(added).Means, "ramp")
}
