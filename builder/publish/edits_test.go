package publish

import (
	"bytes"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/library"
	"keelpath/builder/plan"
)

// smallKinds are the kinds of pages that can be made of a few files.
func smallKinds(k plan.Kind) bool {
	return slices.Contains([]plan.Kind{plan.Home, plan.Learn, plan.Explainer, plan.Glossary, plan.Questions, plan.Teach, plan.Inside}, k)
}

const (
	madeHeader = "authors: [Keelpath editors]\nreviewers: []\nreviewed: 2026-11-25\nreview-by: 2028-11-25\n"
	madeTree   = `tree: short
title: Short %d
audience: resident
purpose: A short tree.
` + madeHeader + `funding: None.
start: ask
questions:
  ask:
    text: Is it so?
    why: It sets the way.
    answers:
      "yes": { text: "Yes", go: done }
      "no": { text: "No", go: other }
      unsure: { text: Not sure, go: other }
endings:
  done: { title: Done, text: Talk it over. }
  other: { title: Other, text: Ask first. }
examples:
  - { who: One, answers: { ask: "yes" }, ending: done }
  - { who: Two, answers: { ask: "no" }, ending: other }
  - { who: Three, answers: { ask: unsure }, ending: other }
  - { who: Four, answers: { ask: "no" }, ending: other }
`
)

// madeSite is a whole site's content of twelve pages, six of them explainers.
func madeSite() map[string]string {
	files := map[string]string{
		"content/edition.yaml":  "name: Made\nemergency: { number: \"911\", where: the US }\ncrisis: { number: \"988\", where: the US }\ntraining:\n  Keelpath editors: They write.\n",
		"content/sources.yaml":  "sources:\n  one: { title: One, kind: study, seen: page, year: 2020 }\n  two: { title: Two, kind: advice, seen: page, year: 2020 }\n",
		"content/glossary.yaml": "words:\n  keel: { word: keel, also: [keels], meaning: The part that carries the step. }\n",
		"trees/prompts.yaml":    "general:\n  next: { ask: \"What comes next?\", whom: [prosthetist], why: It helps., basis: [common-practice] }\n",
		"trees/short.yaml":      fmt.Sprintf(madeTree, 1),
	}
	for i := range 6 {
		files[madeName(i)] = madePage(i, "A keel is a part of the foot.")
	}
	return files
}

func madeName(n int) string { return fmt.Sprintf("content/en/page-%d.md", n) }

func madePage(n int, text string) string {
	return fmt.Sprintf("---\ntitle: Page %d\naudience: resident\nmessage: It is page %d.\n%ssources: [two]\nfunding: None.\n---\n%s[](source:two)\n", n, n, madeHeader, text)
}

// madeEditor edits a made site at random. Some edits leave errors behind.
type madeEditor struct {
	*rand.Rand
	files map[string]string
	past  []map[string]string // without errors
}

// page gives a page that is there.
func (e *madeEditor) page() string {
	var all []string
	for _, name := range slices.Sorted(maps.Keys(e.files)) {
		if strings.HasSuffix(name, ".md") {
			all = append(all, name)
		}
	}
	return all[e.IntN(len(all))]
}

func (e *madeEditor) put(name, old, now string) {
	e.files[name] = strings.Replace(e.files[name], old, now, 1)
}

// madeEdits are what an author may do to it, by what it is called.
var madeEdits = []struct {
	what string
	do   func(e *madeEditor, n int)
}{
	{"a line", func(e *madeEditor, n int) {
		e.files[e.page()] += fmt.Sprintf("\nLine %d says one thing more of the keels.\n", n)
	}},
	{"a title", func(e *madeEditor, n int) { e.put(e.page(), "title: Page", fmt.Sprintf("title: Page %d", n%5)) }},
	{"an audience", func(e *madeEditor, _ int) { e.put(e.page(), "audience: resident", "audience: patient") }},
	{"a prompt", func(e *madeEditor, _ int) { e.put(e.page(), "funding: None.", "funding: None.\nprompts: [next]") }},
	{"a link", func(e *madeEditor, n int) { e.files[e.page()] += fmt.Sprintf("\nSee [](explainer:page-%d).\n", n%9) }},
	{"a link that is none", func(e *madeEditor, _ int) { e.files[e.page()] += "\nSee [](word:keal).\n" }},
	{"a word that is not ours", func(e *madeEditor, _ int) { e.files[e.page()] += "\nIt is the best foot.\n" }},
	{"a header that cannot be read", func(e *madeEditor, _ int) { e.put(e.page(), "funding", "fnuding") }},
	{"a claim", func(e *madeEditor, n int) {
		name, mark := e.page(), []string{"some", "little"}[n%2]
		e.put(name, "[two]", "[two, one]")
		e.files[name] += fmt.Sprintf("\nOf many people with springy keels most walked on slopes.[](source:one) [](support:%s)\n", mark)
	}},
	{"a new page", func(e *madeEditor, n int) { e.files[madeName(n%9)] = madePage(n%9, "It is new.") }},
	{"a page goes", func(e *madeEditor, _ int) { delete(e.files, e.page()) }},
	{"a page has another name", func(e *madeEditor, n int) {
		name := e.page()
		text := e.files[name]
		delete(e.files, name)
		e.files[madeName(n%9)] = text
	}},
	{"a tree's title", func(e *madeEditor, n int) { e.files["trees/short.yaml"] = fmt.Sprintf(madeTree, n) }},
	{"a word's forms", func(e *madeEditor, n int) {
		e.put("content/glossary.yaml", "also: [keels", []string{"also: [keels, part", "also: [foot"}[n%2])
	}},
	{"a source of another kind", func(e *madeEditor, n int) {
		e.put("content/sources.yaml", "kind: study", "kind: advice")
		e.put("content/sources.yaml", "year: 2020", fmt.Sprintf("year: %d", 2000+n%20))
	}},
	{"a prompt's words", func(e *madeEditor, n int) {
		e.put("trees/prompts.yaml", "It helps", fmt.Sprintf("It helps %d times", n))
	}},
	{"another country's number", func(e *madeEditor, _ int) {
		e.put("content/edition.yaml", `"911", where: the US`, `"112", where: Ireland`)
	}},
}

func (e *madeEditor) edit() string {
	if n := e.IntN(len(madeEdits) + 4); n < len(madeEdits) {
		madeEdits[n].do(e, e.IntN(1000))
		return madeEdits[n].what
	}
	e.files = maps.Clone(e.past[e.IntN(len(e.past))])
	return "back to what it was before"
}

// TestEditsInAnyOrder for a small site: after any edits the findings are those of a load that knows nothing, and
// the site is what a clean build makes. KEELPATH_ROUNDS asks for more of them, 500 say.
func TestEditsOfASmallSite(t *testing.T) {
	rounds := 25
	if more, err := strconv.Atoi(os.Getenv("KEELPATH_ROUNDS")); err == nil {
		rounds = more
	}
	e := &madeEditor{Rand: rand.New(rand.NewPCG(uint64(rounds), 11)), files: madeSite()}
	var now folderOf
	taken, faulty := 0, 0
	for round := 0; round <= rounds && !t.Failed(); round++ {
		var what []string
		for range min(round, 1) * (1 + e.IntN(2)) {
			what = append(what, e.edit())
		}
		l, anew := loadAgain(t, now, layerOf(t, e.files))
		if round == 0 && l == nil {
			t.Fatal("the site as it is made has errors")
		}
		if l == nil { // nothing is built, and the folder stays as it is
			if faulty++; e.IntN(2) == 0 {
				e.files = maps.Clone(e.past[e.IntN(len(e.past))])
			}
			continue
		}
		e.past = append(e.past, maps.Clone(e.files))
		clean, _ := builtOf(t, anew, nil, smallKinds)
		pages := 0
		for name := range clean {
			pages += strings.Count(name, ".html")
		}
		if round == 0 && pages != 12 {
			t.Errorf("the site has %d pages", pages)
		}
		var kept int
		now, kept = builtOf(t, l, now, smallKinds)
		taken += kept
		same(t, round, now, clean)
		t.Logf("round %d: %s: %d of %d files were taken over", round, strings.Join(what, "; "), kept, len(clean))
	}
	if taken == 0 || faulty == 0 || faulty == rounds {
		t.Errorf("%d files were taken over; %d of %d rounds had errors", taken, faulty, rounds)
	}
}

// A page whose bytes are the same is not read again, which shows where something else is put down as known of it;
// it is once its bytes have changed, or those of a file that is no explainer.
func TestKnownIsUsed(t *testing.T) {
	files := madeSite()
	_, l := loadAgain(t, nil, layerOf(t, files))
	known := bytes.Replace(l.Known(), []byte("Page 3"), []byte("Pagf 3"), 1)
	title := func(known []byte) string {
		again, err := library.LoadAgain(t.Context(), &finding.List{}, known, layerOf(t, files))
		if err != nil {
			t.Fatal(err)
		}
		return again.Explainer("page-3").Title.S
	}
	if got := title(known); got != "Pagf 3" {
		t.Errorf("nothing was edited, and the title is %q", got)
	}
	files[madeName(2)] += "\nOne more line.\n"
	if got := title(known); got != "Pagf 3" {
		t.Errorf("another page was edited, and the title is %q", got)
	}
	for _, name := range []string{"trees/short.yaml", madeName(3)} {
		was := files[name]
		if files[name] += "\n"; title(known) != "Page 3" {
			t.Errorf("%s was edited, and the page was not read again", name)
		}
		files[name] = was
	}
	for n := 0; n < len(known); n += 61 { // whatever stands there, it is read or left alone
		other := bytes.Clone(known)
		other[n] ^= 0x41
		title(other)
		title(known[:n])
	}
}

// A page that leads to a heading of another one is read again where that heading goes, though its own
// bytes are the same.
func TestHeadingThatGoes(t *testing.T) {
	files := madeSite()
	files[madeName(3)] = madePage(3, "Read [more](explainer:page-2#why-so) there.")
	files[madeName(2)] = madePage(2, "\n## Why so?\n\nIt is so.")
	_, l := loadAgain(t, nil, layerOf(t, files))
	found := func() int {
		var list finding.List
		if _, err := library.LoadAgain(t.Context(), &list, l.Known(), layerOf(t, files)); err != nil {
			t.Fatal(err)
		}
		return list.Errors()
	}
	if n := found(); n != 0 {
		t.Errorf("the heading is there, and there are %d errors", n)
	}
	files[madeName(2)] = madePage(2, "\n## Why not?\n\nIt is so.")
	if n := found(); n != 1 {
		t.Errorf("the heading went, and there are %d errors", n)
	}
}

// The text of a page is not held once it has been looked at. Where its file has changed or gone when the page is made,
// nothing is built of it.
func TestFileThatChangesMeanwhile(t *testing.T) {
	for what, change := range map[string]func(name string) error{
		"other": func(name string) error { return os.WriteFile(name, []byte("other"), 0o644) },
		"gone":  os.Remove,
	} {
		dir := folderWith(t, madeSite())
		y, err := library.ReadLayer(t.Context(), dir, &finding.List{})
		if err != nil {
			t.Fatal(err)
		}
		l, err := library.LoadAgain(t.Context(), &finding.List{}, nil, y)
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(dir, filepath.FromSlash(madeName(3)))
		was, err := os.ReadFile(name)
		if err != nil || string(l.File(filepath.ToSlash(name))) != string(was) {
			t.Errorf("the library does not give %s as it is: %v", name, err)
		}
		if err := change(name); err != nil {
			t.Fatal(err)
		}
		all, err := makers(l, &finding.List{}, nil)
		if err != nil {
			t.Fatal(err)
		}
		of := slices.DeleteFunc(jobs(all), func(j job) bool { return !smallKinds(j.page.Kind) })
		_, err = run(t.Context(), of, func(string, []byte) error { return nil }, nil)
		if err == nil || !strings.Contains(err.Error(), "page-3.md once more") {
			t.Errorf("a file is %s when its page is made, and the error is %v", what, err)
		}
	}
}
