package browsertest

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"keelpath/builder/tree"
)

// Whoever reaches an ending for safety reads its caution first, and the edition's
// sentence for an emergency with it: at the ending, on the sheet, and on paper.
func TestCautionComesFirst(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	grave := 0
	for _, tr := range lib.Trees {
		if tr.Audience.S != "patient" {
			continue
		}
		for _, e := range tr.Endings {
			if !e.Safety || e.Sign.Given() { // an answer that tells a sign leads to the gathered ending
				continue
			}
			grave++
			caution, emergency := cautionText(t, tr, e), oneLine(lib.Edition.Lines.Sentence("emergency"))
			name := tr.ID.S + ", " + e.ID.S
			if got := b.take(tr, witness(tr, e.ID.S)); got.Ending.Title != oneLine(e.Title.S) {
				t.Fatalf("%s: the planner shows %q", name, got.Ending.Title)
			}
			for _, wrong := range firstThings(b, "#planner .ending", caution, emergency, oneLine(e.Title.S)) {
				t.Errorf("%s, the ending: %s", name, wrong)
			}
			for _, wrong := range readAtEnding(b, oneLine(e.Title.S), caution) {
				t.Errorf("%s: %s", name, wrong)
			}
			s := b.tap("sheet")
			for _, wrong := range firstThings(b, "#planner .sheet", "My sheet", caution, emergency, s.Sheet.Sections[0].Prompts[0]) {
				t.Errorf("%s, the sheet: %s", name, wrong)
			}
			p := b.print("A4", "sheet-"+e.ID.S)
			first := s.Sheet.Sections[0].Prompts[0]
			for _, wrong := range inOrder(p.Text, caution, first, emergency) {
				t.Errorf("%s, on paper: %s\n%s", name, wrong, p.Text)
			}
			if p.Pages != 1 {
				t.Errorf("%s: the sheet prints on %d pages", name, p.Pages)
			}
			b.clear()
		}
	}
	if grave == 0 {
		t.Error("no tree has an ending for safety, so nothing was looked at")
	}
}

// readAtEnding is what is wrong with how an ending is read: the focus is on its heading, its
// caution describes that, both can be seen, and the tab's title begins with it.
func readAtEnding(b *tab, title, caution string) []string {
	b.t.Helper()
	got := eval[struct {
		Tag, Text, Described, Tab string
		Seen                      bool
	}](b, `(() => {
const clean = (s) => s.replace(/\s+/g, " ").trim(), f = document.activeElement, by = document.getElementById(f.getAttribute("aria-describedby") || "");
const top = (by || f).getBoundingClientRect().top;
return { Tag: f.tagName, Text: clean(f.innerText), Described: by ? clean(by.innerText) : "", Tab: document.title, Seen: top >= -1 && top < window.innerHeight };
})()`)
	var out []string
	if got.Tag != "H2" || got.Text != title {
		out = append(out, fmt.Sprintf("reading starts at %s %q, want its heading", got.Tag, got.Text))
	}
	if got.Described != caution {
		out = append(out, fmt.Sprintf("it is described by %q, want the caution %q", got.Described, caution))
	}
	if !strings.HasPrefix(got.Tab, title+" · ") {
		out = append(out, fmt.Sprintf("the tab is called %q", got.Tab))
	}
	if !got.Seen {
		out = append(out, "its first words are not in the window")
	}
	return out
}

// An ordinary ending is read in the same way, with its caution where it has one.
func TestEndingIsRead(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	with := 0
	for _, f := range append(threeToCopy(t), examplesToPrint(t, 3)...) {
		b.openPlanner(onDisk)
		b.take(f.tree, f.example.Given())
		e := f.tree.Ending(f.example.Ending.S)
		caution := ""
		if e.Caution.S != "" {
			caution, with = eval[string](b, `document.querySelector('#planner [data-slot="caution"]').innerText.replace(/\s+/g, " ").trim()`), with+1
		}
		for _, wrong := range readAtEnding(b, oneLine(e.Title.S), caution) {
			t.Errorf("%s, %s: %s", f.tree.ID.S, e.ID.S, wrong)
		}
	}
	if with < 2 {
		t.Error("no ending of this test has a caution")
	}
}

// A caution for safety opens the sheet whatever was taken before and after it.
func TestSafetyOutranksOtherTrees(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	var cautions []string
	for _, at := range [][2]string{{"heel-height", "small-gap"}, {"something-changed", "rest-limb"}, {"hills-and-ramps", ""}} {
		tr := lib.Tree(at[0])
		id := at[1]
		if id == "" { // the first ending that is not one for safety
			id = tr.Endings[slices.IndexFunc(tr.Endings, func(e *tree.Ending) bool { return !e.Safety && e.Caution.Given() })].ID.S
		}
		b.take(tr, witness(tr, id))
		cautions = append(cautions, cautionText(t, tr, tr.Ending(id)))
		b.tap("topics")
	}
	s := b.tap("bar-sheet")
	for _, wrong := range firstThings(b, "#planner .sheet", "My sheet", cautions[1], oneLine(lib.Edition.Lines.Sentence("emergency")), s.Sheet.Sections[0].Prompts[0], cautions[0], cautions[2]) {
		t.Error(wrong)
	}
	for _, wrong := range inOrder(b.print("Letter", "sheet-of-three-trees").Text, cautions[1], s.Sheet.Sections[0].Prompts[0], cautions[0], cautions[2]) {
		t.Errorf("on paper: %s", wrong)
	}
}

// firstThings reports what is not as it should be of a part of the page that must
// show these texts, the first one before all else, each below the one before: in
// the order of the page's code, which is how it is read out, and to the eye.
func firstThings(b *tab, part string, texts ...string) []string {
	b.t.Helper()
	return eval[[]string](b, fmt.Sprintf(`((part, texts) => {
const out = [];
const clean = (s) => s.replace(/\s+/g, " ").trim();
const root = document.querySelector(part);
if (!root) return ["there is no " + part];
const said = clean(root.innerText);
if (!said.startsWith(texts[0])) out.push("it begins with: " + said.slice(0, 80));
// The smallest elements that hold a text, in the order of the code.
// A name that a button has for the ear alone repeats a question, and is not what is seen of it.
const all = Array.from(root.querySelectorAll("*")).filter((e) => e.getClientRects().length && !e.closest(".unseen"));
let last = null, bottom = -Infinity;
for (const text of texts) {
  const holders = all.filter((e) => clean(e.innerText).includes(text));
  const e = holders.find((h) => !holders.some((o) => o !== h && h.contains(o)) && (!last || last.compareDocumentPosition(h) & Node.DOCUMENT_POSITION_FOLLOWING));
  if (!e) { out.push("not there, or too early: " + text); continue; }
  const r = e.getBoundingClientRect(), look = getComputedStyle(e);
  if (r.height < 10 || look.visibility !== "visible" || look.opacity !== "1") out.push("not to be seen: " + text);
  if (r.top < bottom - 1) out.push("stands above what comes before it: " + text);
  last = e;
  bottom = r.bottom;
}
return out;
})(%s, %s)`, quoted(b, part), quoted(b, texts)))
}

// witness gives a shortest way to a question or an ending.
func witness(tr *tree.Tree, to string) tree.Answers {
	given := tree.Answers{}
	for _, g := range lib.Proofs[tr.ID.S].Witness[to] {
		given[g.Question] = g.Chosen
	}
	return given
}

// endingTexts gives an ending's caution and paragraphs, as its tree's own page words
// them, with the path's amounts in their places. The builder's tests hold that page
// against the file.
func endingTexts(t testing.TB, tr *tree.Tree, path tree.Path) (caution string, text []string) {
	t.Helper()
	n := byID(pageOf(t, siteDir, "prepare/"+tr.ID.S+".html"), "at-"+tr.ID.S+"-"+path.Ending)
	if n == nil {
		t.Fatalf("%s: the tree's page has no ending %s", tr.ID.S, path.Ending)
	}
	amount := func(id string) string {
		if v, ok := path.Amounts[id]; ok {
			return tr.ShowAmount(id, v)
		}
		return ""
	}
	for d := range n.ChildNodes() {
		switch {
		case attr(d, "data-slot") == "caution":
			caution = nodeText(d, amount)
		case d.Data == "p" && !hasClass(d, "by-hand"):
			text = append(text, nodeText(d, amount))
		}
	}
	if (caution != "") != tr.Ending(path.Ending).Caution.Given() {
		t.Fatalf("%s, %s: the tree's page has the caution %q", tr.ID.S, path.Ending, caution)
	}
	// On that page a source has its number in the list below, which the planner has not.
	for i := range text {
		text[i] = listed.ReplaceAllString(text[i], "$1")
	}
	return listed.ReplaceAllString(caution, "$1"), text
}

var listed = regexp.MustCompile(`([(;] ?)source \d+, `)

// cautionText gives the caution of an ending that shows no amounts, or that was
// reached with none.
func cautionText(t testing.TB, tr *tree.Tree, e *tree.Ending) string {
	t.Helper()
	caution, _ := endingTexts(t, tr, tree.Path{Ending: e.ID.S})
	return caution
}

func pageOf(t testing.TB, dir, name string) *html.Node {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	n, err := html.Parse(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func byID(n *html.Node, id string) *html.Node {
	for d := range n.Descendants() {
		if attr(d, "id") == id {
			return d
		}
	}
	return nil
}

func attr(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

func hasClass(n *html.Node, class string) bool {
	return slices.Contains(strings.Fields(attr(n, "class")), class)
}

// nodeText is the text of an element as a reader of the planner has it: amounts in
// their places, no citation marks, and a blank where a block begins.
func nodeText(n *html.Node, amount func(id string) string) string {
	var b strings.Builder
	var add func(n *html.Node)
	add = func(n *html.Node) {
		if n.Type == html.TextNode {
			b.WriteString(n.Data)
			return
		}
		if hasClass(n, "unseen") || hasClass(n, "by-hand") || hasClass(n, "cite") {
			return
		}
		if id := attr(n, "data-amount"); id != "" {
			if said := amount(id); said != "" {
				b.WriteString(said)
				return
			}
			if other := attr(n, "data-else"); other != "" {
				b.WriteString(other)
				return
			}
		}
		if n.Data == "p" || n.Data == "li" || n.Data == "br" {
			b.WriteString(" ")
		}
		for c := range n.ChildNodes() {
			add(c)
		}
	}
	add(n)
	return oneLine(b.String())
}
