package library_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"keelpath/builder/finding"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/library"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// The ways in which an edition could make less of what is for safety:
//
//	reword     the words alone: a title, a caution, a question, an answer
//	swap       the words of two things: yes and no, two signs, two cautions
//	drop       one thing alone: a caution, a mark, a prompt, a sign, an answer
//	lead       a way elsewhere: an answer, a route, the start
//	lead past  a way more: a skip, an answer, a question before
//	turn       a mark: how soon, for whom, one or any, alone
//	put beside a next topic, a condition, another caution of the same place
//	move       a caution to where it comes too late
//	number     the numbers to call: words for digits, a condition for a place, none
//	name       an edition whose name picks
//
// Each row of tampers goes one of these ways with one sealed thing of the built-in
// content, alone; it names nothing by its words, so that it stands when these change.

// tamper is one edit of a built-in file, as a layer would bring it.
type tamper struct {
	way, name string
	file      string
	edit      func(*document)
	at        string // the way to what the finding must stand at
	check     string // of the finding; "safety-kept" where it is empty
}

// TestTampers holds each tamper to a finding at the layer's own line.
func TestTampers(t *testing.T) {
	all := tampers(t, librarytest.Load(t))
	if len(all) < 60 {
		t.Errorf("only %d tampers", len(all))
	}
	ways := map[string]int{}
	for _, c := range all {
		ways[c.way]++
		t.Run(c.way+"/"+c.name, func(t *testing.T) {
			t.Parallel()
			d := open(t, c.file)
			c.edit(d)
			d.same(t)
			line := d.line(t, c.at)
			if c.check == "" {
				c.check = "safety-kept"
			}
			fs := foundIn(t, c.file, d.text())
			if !slices.ContainsFunc(fs, func(f finding.Finding) bool {
				return f.Check == c.check && f.Weight == finding.Error && f.Line == line && strings.HasPrefix(f.File, d.layer) && strings.HasSuffix(f.File, "/"+c.file) && len(f.Help) > 0
			}) {
				t.Errorf("no %s at line %d of the layer's %s; found: %s", c.check, line, c.file, said(fs))
			}
		})
	}
	t.Logf("%d tampers: %v", len(all), ways)
}

// TestHarmless lets an edition add and reword what is not for safety.
func TestHarmless(t *testing.T) {
	all := harmless(t, librarytest.Load(t))
	if len(all) < 20 {
		t.Errorf("only %d harmless edits", len(all))
	}
	for _, c := range all {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			d := open(t, c.file)
			c.edit(d)
			d.same(t)
			for _, f := range foundIn(t, c.file, d.text()) {
				if f.Weight == finding.Error {
					t.Errorf("%s: %s [%s]", f.Place, f.Text, f.Check)
				}
			}
		})
	}
}

func said(fs []finding.Finding) string {
	var out []string
	for _, f := range fs {
		out = append(out, fmt.Sprintf("%s:%d %s %s", filepath.Base(f.File), f.Line, f.Check, f.Text))
	}
	return strings.Join(out, "\n")
}

// foundIn lays one file as a layer over the built-in content.
func foundIn(t *testing.T, file, src string) []finding.Finding {
	t.Helper()
	var list finding.List
	load(t, &list, library.Builtin(), layer(t, "-- "+file+" --\n"+src, &list))
	return list.Sorted()
}

// document is a file that is edited: YAML by keys, a page by its lines.
type document struct {
	t     *testing.T
	root  *yaml.Node
	page  string // a page's whole text
	was   string
	layer string
}

func open(t *testing.T, file string) *document {
	t.Helper()
	src, err := os.ReadFile(filepath.Join(root, file))
	if err != nil {
		src = nil // a file of the layer's own
	}
	d := &document{t: t, layer: os.TempDir()}
	if strings.HasSuffix(file, ".md") {
		d.page, d.was = string(src), string(src)
		return d
	}
	d.root = &yaml.Node{}
	if err := yaml.Unmarshal(src, d.root); err != nil {
		t.Fatal(err)
	}
	if d.root.Kind == 0 {
		d.root = &yaml.Node{Kind: yaml.DocumentNode, Content: []*yaml.Node{{Kind: yaml.MappingNode}}}
	}
	d.was = d.text()
	return d
}

func (d *document) text() string {
	if d.root == nil {
		return d.page
	}
	out, err := yaml.Marshal(d.root)
	if err != nil {
		d.t.Fatal(err)
	}
	return string(out)
}

// same fails where the edit changed nothing: then the row would prove nothing.
func (d *document) same(t *testing.T) {
	t.Helper()
	if d.text() == d.was {
		t.Fatal("the edit changes nothing")
	}
}

// pair gives the mapping that holds the last key of a way, and the key's index; -1
// where it has none. Keys are parted by "/", and a number counts entries of a list.
func pair(t *testing.T, n *yaml.Node, way string) (*yaml.Node, int) {
	t.Helper()
	n = n.Content[0]
	keys := strings.Split(way, "/")
	for i, key := range keys {
		k := -1
		for j := 0; j+1 < len(n.Content); j += 2 {
			if n.Content[j].Value == key {
				k = j
			}
		}
		if i == len(keys)-1 {
			return n, k
		}
		if k < 0 {
			t.Fatalf("there is no %q on the way %q", key, way)
		}
		n = n.Content[k+1]
	}
	return n, -1
}

func (d *document) value(way string) *yaml.Node {
	d.t.Helper()
	m, k := pair(d.t, d.root, way)
	if k < 0 {
		d.t.Fatalf("there is no %q", way)
	}
	return m.Content[k+1]
}

// set puts a value, written as YAML, at the end of a way.
func (d *document) set(way, value string) {
	d.t.Helper()
	var n yaml.Node
	if err := yaml.Unmarshal([]byte(value), &n); err != nil {
		d.t.Fatalf("%s: %v", value, err)
	}
	m, k := pair(d.t, d.root, way)
	if k >= 0 {
		m.Content[k+1] = n.Content[0]
		return
	}
	key := way[strings.LastIndex(way, "/")+1:]
	m.Content = append(m.Content, &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: key}, n.Content[0])
}

func (d *document) drop(way string) {
	d.t.Helper()
	m, k := pair(d.t, d.root, way)
	if k < 0 {
		d.t.Fatalf("there is no %q", way)
	}
	m.Content = slices.Delete(m.Content, k, k+2)
}

// first brings a key to the front of its mapping.
func (d *document) first(way string) {
	m, k := pair(d.t, d.root, way)
	two := slices.Clone(m.Content[k : k+2])
	m.Content = append(two, slices.Delete(m.Content, k, k+2)...)
}

func (d *document) rename(way, key string) {
	m, k := pair(d.t, d.root, way)
	m.Content[k].Value = key
}

func (d *document) swap(a, b string) {
	x, y := d.value(a), d.value(b)
	*x, *y = *y, *x
}

// more adds to a list, behind what it has.
func (d *document) more(way, entry string) {
	n := d.value(way)
	n.Content = append(n.Content, &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: entry})
}

// less takes the last entry off a list.
func (d *document) less(way string) {
	n := d.value(way)
	n.Content = n.Content[:len(n.Content)-1]
}

// line is where a way leads in the file as it is written out, counted from 1. In a page
// it is that of the first line that begins so.
func (d *document) line(t *testing.T, way string) int {
	t.Helper()
	text := d.text()
	if d.root == nil {
		for i, line := range strings.Split(text, "\n") {
			if strings.HasPrefix(line, way) {
				return i + 1
			}
		}
		t.Fatalf("no line begins with %q", way)
	}
	var again yaml.Node
	if err := yaml.Unmarshal([]byte(text), &again); err != nil {
		t.Fatal(err)
	}
	m, k := pair(t, &again, way)
	if k < 0 {
		t.Fatalf("there is no %q", way)
	}
	switch v := m.Content[k+1]; v.Kind {
	case yaml.SequenceNode:
		if len(v.Content) > 0 {
			return v.Content[0].Line
		}
		return m.Content[k].Line
	case yaml.ScalarNode:
		return v.Line
	}
	return m.Content[k].Line
}

// The edits, each as a way of a kind with a value.

func set(way, value string) func(*document) { return func(d *document) { d.set(way, value) } }
func drop(way string) func(*document)       { return func(d *document) { d.drop(way) } }
func swap(a, b string) func(*document)      { return func(d *document) { d.swap(a, b) } }
func less(way string) func(*document)       { return func(d *document) { d.less(way) } }
func more(way, e string) func(*document)    { return func(d *document) { d.more(way, e) } }
func both(a, b func(*document)) func(*document) {
	return func(d *document) { a(d); b(d) }
}

// lines edits a page.
func lines(edit func(string) string) func(*document) {
	return func(d *document) { d.page = edit(d.page) }
}

// grave is a built-in tree with an ending for safety, the question that leads to it
// by an answer, and another answer of that question that does not.
type grave struct {
	t                  *tree.Tree
	file               string
	e                  *tree.Ending
	q                  *tree.Question
	answer, other      *tree.Answer
	ending, ask        string // ways
	answered, declined string
}

// graves finds all such trees.
func graves(l *library.Library) []grave {
	var out []grave
	for _, t := range l.Trees {
		for _, q := range t.Questions {
			for _, a := range q.Answers {
				e := t.Ending(a.Go.S)
				if e == nil || !e.Safety || e.Sign.Given() || len(e.Prompts) == 0 {
					continue
				}
				for _, o := range q.Answers {
					if n := t.Ending(o.Go.S); o.Go.S != "" && (n == nil || !n.Safety) {
						ask := "questions/" + q.ID.S
						out = append(out, grave{t, t.File, e, q, a, o, "endings/" + e.ID.S, ask, ask + "/answers/" + a.ID.S, ask + "/answers/" + o.ID.S})
					}
				}
			}
		}
	}
	return out
}

func tampers(t *testing.T, l *library.Library) []tamper {
	out := screenTampers(t, l)
	out = append(out, treeTampers(t, l)...)
	out = append(out, tableTampers(l)...)
	out = append(out, pageTampers(t, l)...)
	return append(out, editionTampers...)
}

func screenTampers(t *testing.T, l *library.Library) []tamper {
	const file = "trees/safety.yaml"
	g, h := l.Safety.Groups[0], l.Safety.Groups[1]
	group, other := "groups/"+g.ID.S, "groups/"+h.ID.S
	sign, next := group+"/signs/"+g.Signs[0].ID.S, group+"/signs/"+g.Signs[1].ID.S
	far := other + "/signs/" + h.Signs[0].ID.S
	worn, prompts := "", ""
	for _, g := range l.Safety.Groups {
		for _, s := range g.Signs {
			way := "groups/" + g.ID.S + "/signs/" + s.ID.S
			if s.Worn.S != "" && worn == "" {
				worn = way + "/worn"
			}
			if len(s.Prompts) > 0 && prompts == "" {
				prompts = way + "/prompts"
			}
		}
	}
	if worn == "" || prompts == "" {
		t.Fatal("no sign has prompts, or words for those who wear a leg")
	}
	row := func(way, name string, edit func(*document), at string) tamper {
		return tamper{way: way, name: "screen: " + name, file: file, edit: edit, at: at}
	}
	reword := func(at string) tamper { return row("reword", at, set(at, "My socks itch"), at) }
	return []tamper{
		reword("leg/text"), reword("leg/why"), reword("gate/text"), reword("gate/why"),
		row("swap", "the leg's answers", swap("leg/answers/worn/text", "leg/answers/not-now/text"), "leg/answers/worn/text"),
		reword(group + "/line"), reword(group + "/title"), reword(group + "/text"), reword(group + "/why"),
		row("swap", "two lines of the gate", swap(group+"/line", other+"/line"), other+"/line"),
		row("turn", "a group for those who wear a leg", set(group+"/leg", "true"), group),
		reword(group + "/unsure/title"), reword(group + "/unsure/caution"),
		reword(sign + "/text"), reword(sign + "/title"), reword(sign + "/caution"), reword(worn),
		row("drop", "what is said to those who wear a leg", drop(worn), strings.TrimSuffix(worn, "/worn")),
		row("put beside", "small print", set(sign+"/more", "Only if it lasts a week."), sign+"/more"),
		row("turn", "how soon", set(sign+"/when", "soon"), sign+"/when"),
		row("turn", "a sign for those who wear a leg", set(sign+"/leg", "true"), sign),
		row("drop", "a sign's prompts", drop(prompts), strings.TrimSuffix(prompts, "/prompts")),
		row("drop", "a sign", drop(sign), group),
		row("drop", "a sign, by another id", func(d *document) { d.rename(sign, "itch") }, group),
		row("swap", "two signs", swap(sign+"/text", next+"/text"), sign+"/text"),
		row("swap", "two cautions", swap(sign+"/caution", far+"/caution"), far+"/caution"),
		reword("endings/now/title"),
		row("reword", "what to do first", set("endings/now/steps", "[Wait for the clinic to open.]"), "endings/now/steps"),
		row("drop", "the last step", less("endings/today/steps"), "endings/today/steps"),
	}
}

func treeTampers(t *testing.T, l *library.Library) []tamper {
	var out []tamper
	all := graves(l)
	if len(all) == 0 {
		t.Fatal("no tree has an ending for safety that an answer leads to")
	}
	for i, g := range []grave{all[0], all[len(all)-1]} {
		row := func(way, name string, edit func(*document), at string) {
			out = append(out, tamper{way: way, name: g.t.ID.S + ": " + name, file: g.file, edit: edit, at: at})
		}
		reword := func(at string) { row("reword", at, set(at, "My socks itch"), at) }
		reword(g.ending + "/title")
		reword(g.ending + "/text")
		reword(g.ending + "/caution")
		row("drop", "the mark alone", drop(g.ending+"/safety"), g.ending)
		row("turn", "the mark", set(g.ending+"/safety", "false"), g.ending+"/safety")
		row("reword", "the prompts", set(g.ending+"/prompts", "["+fresh(l, g.e)+"]"), g.ending+"/prompts")
		row("put beside", "a next topic", set(g.ending+"/next", "[motion-or-push, heel-height]"), g.ending+"/next")
		reword(g.ask + "/text")
		reword(g.ask + "/why")
		reword(g.answered + "/text")
		row("swap", "the words of two answers", swap(g.answered+"/text", g.declined+"/text"), g.answered+"/text")
		row("drop", "an answer", drop(g.answered), g.ask)
		row("lead", "an answer", set(g.answered+"/go", g.other.Go.S), g.answered+"/go")
		row("lead past", "a skip", set(g.ask+"/skip", g.other.Go.S), g.ask+"/skip")
		row("lead past", "an answer more", set(g.ask+"/answers/aside", `{ text: "Only sometimes", go: `+g.other.Go.S+" }"), g.ask+"/answers/aside")
		row("turn", "the audience", set("audience", map[string]string{"patient": "resident", "resident": "patient"}[g.t.Audience.S]), "audience")
		if i > 0 {
			continue
		}
		row("drop", "the ending, by another id", func(d *document) {
			d.rename(g.ending, "halt")
			d.set(g.answered+"/go", "halt")
		}, "tree")
		row("drop", "the question, by another id", func(d *document) {
			d.rename(g.ask, "sounds")
			if d.value("start").Value == g.q.ID.S {
				d.set("start", "sounds")
			}
		}, "tree")
		if len(g.e.Prompts) > 1 {
			row("drop", "the first prompt", func(d *document) {
				n := d.value(g.ending + "/prompts")
				n.Content = n.Content[1:]
			}, g.ending+"/prompts")
		}
	}
	out = append(out, cautionTampers(t, l)...)
	return append(out, wayTampers(t, l)...)
}

// cautionTampers go at cautions of endings that are not for safety, and at how the
// screen comes before a tree.
func cautionTampers(t *testing.T, l *library.Library) []tamper {
	var out []tamper
	whole, purpose := "", ""
	for _, tr := range l.Trees {
		if tr.Safety.S == tree.SafetyWhole {
			whole = tr.File
		}
		if strings.Contains(tr.Purpose.S, "does not choose a foot") {
			purpose = tr.File
		}
		for _, e := range tr.Endings {
			if at := "endings/" + e.ID.S; e.Caution.S != "" && !e.Safety && len(out) == 0 {
				out = append(out,
					tamper{way: "reword", name: "a caution of another ending", file: tr.File, edit: set(at+"/caution", "Carry on."), at: at + "/caution"},
					tamper{way: "drop", name: "a caution of another ending", file: tr.File, edit: drop(at + "/caution"), at: at},
					tamper{way: "put beside", name: "a condition before a caution", file: tr.File, edit: func(d *document) {
						d.value(at + "/caution").Value = "This is rare. " + d.value(at+"/caution").Value
					}, at: at + "/caution"})
			}
		}
	}
	if len(out) == 0 || purpose == "" {
		t.Fatal("no ending has a caution, or no tree says that it picks no foot")
	}
	out = append(out, tamper{way: "reword", name: "what a tree never does", file: purpose, edit: set("purpose", "This turns your day into questions."), at: "purpose"})
	if whole != "" {
		out = append(out,
			tamper{way: "turn", name: "the whole screen", file: whole, edit: set("safety", "shared"), at: "safety"},
			tamper{way: "drop", name: "the screen", file: whole, edit: drop("safety"), at: "tree"})
	}
	return out
}

// wayTampers go at what leads to safety: a sign told inside a tree, a route, a question
// before all others.
func wayTampers(t *testing.T, l *library.Library) []tamper {
	var out []tamper
	for _, tr := range l.Trees {
		for _, q := range tr.Questions {
			for _, a := range q.Answers {
				if at := "questions/" + q.ID.S + "/answers/" + a.ID.S; a.Sign.Given() {
					other := tr.Endings[0].ID.S
					out = append(out,
						tamper{way: "lead", name: tr.ID.S + ": a sign " + a.Sign.S, file: tr.File, edit: both(drop(at+"/sign"), set(at+"/go", other)), at: at},
						tamper{way: "reword", name: tr.ID.S + ": a sign " + a.Sign.S, file: tr.File, edit: set(at+"/text", "I hum"), at: at + "/text"})
				}
			}
			for i, r := range q.Routes {
				if e := tr.Ending(r.Go.S); e != nil && e.Safety && i+1 < len(q.Routes) {
					at := "questions/" + q.ID.S + "/routes"
					out = append(out, tamper{way: "lead", name: tr.ID.S + ": a route", file: tr.File, edit: func(d *document) {
						n := d.value(at)
						n.Content = slices.Delete(n.Content, i, i+1)
					}, at: at})
				}
			}
		}
	}
	return out
}

func tableTampers(l *library.Library) []tamper {
	var id, theme string
	for _, g := range l.Safety.Groups {
		for _, s := range g.Signs {
			for _, p := range s.Prompts {
				id, theme = p.S, l.Prompt(p.S).Theme.S
			}
		}
	}
	prompt := "themes/" + theme + "/prompts/" + id
	card := "cards/a-fall"
	word := ""
	for _, w := range l.Words {
		if strings.Contains(w.Meaning.S, "the clinic sets the level") {
			word = "words/" + w.ID.S + "/meaning"
		}
	}
	return []tamper{
		{way: "reword", name: "a sign's prompt", file: "trees/prompts.yaml", edit: set(prompt+"/ask", "Is it cheap?"), at: prompt + "/ask"},
		{way: "reword", name: "why a sign's prompt", file: "trees/prompts.yaml", edit: set(prompt+"/why", "To pass the time."), at: prompt + "/why"},
		{way: "reword", name: "whom a sign's prompt asks", file: "trees/prompts.yaml", edit: set(prompt+"/whom", "[payer]"), at: prompt + "/whom"},
		{way: "put beside", name: "what a sign's prompt presumes", file: "trees/prompts.yaml", edit: set(prompt+"/presumes", "[leg-worn]"), at: prompt + "/presumes"},
		{way: "put beside", name: "what makes a sign's prompt needless", file: "trees/prompts.yaml", edit: set(prompt+"/unless", "[leg-worn]"), at: prompt + "/unless"},
		{way: "reword", name: "a card's title", file: "trees/cards.yaml", edit: set(card+"/title", "You slid"), at: card + "/title"},
		{way: "reword", name: "a card's text", file: "trees/cards.yaml", edit: set(card+"/text", "It is nothing to tell."), at: card + "/text"},
		{way: "drop", name: "a card's prompts", file: "trees/cards.yaml", edit: drop(card + "/prompts"), at: card},
		{way: "reword", name: "who sets the level", file: "content/glossary.yaml", edit: set(word, "A step from 0 to 4."), at: word},
	}
}

// pageTampers go at the caution of a page whose caution stands under a heading, and at
// what pages say of levels.
func pageTampers(t *testing.T, l *library.Library) []tamper {
	const falls, both, levels, clinics = "content/en/falls.md", "content/en/both-legs.md", "content/en/payer-levels.md", "content/en/pages/clinic.md"
	const motion = "content/en/pages/motion-push.md"
	stop := func(page string) string { // the caution's line
		for line := range strings.Lines(page) {
			if strings.HasPrefix(line, "> **") {
				return line
			}
		}
		t.Fatal("the page has no caution")
		return ""
	}
	row := func(way, name, file string, edit func(string) string, at string) tamper {
		return tamper{way: way, name: "page: " + name, file: file, edit: lines(edit), at: at}
	}
	return []tamper{
		row("reword", "a caution", falls, func(s string) string { return strings.Replace(s, stop(s), "> **Stop.** Carry on.\n", 1) }, "> **Stop.** Carry"),
		row("put beside", "a condition in a caution", both, func(s string) string {
			return strings.Replace(s, "> **Caution.** ", "> **Caution.** At first only: ", 1)
		}, "> **Caution.** At first"),
		row("drop", "a caution's bold word", both, func(s string) string { return strings.Replace(s, "> **Caution.**", "> Caution.", 1) }, lineBefore(t, both)),
		row("drop", "a caution's quote", both, func(s string) string { return strings.Replace(s, "> **Caution.**", "**Caution.**", 1) }, lineBefore(t, both)),
		row("drop", "a caution", both, func(s string) string { return strings.Replace(s, stop(s), "", 1) }, lineBefore(t, both)),
		row("drop", "the caution at the top", falls, func(s string) string { return strings.Replace(s, stop(s), "It can be dull.\n", 1) }, "It can be dull."),
		row("move", "a caution to the end", falls, func(s string) string { return strings.Replace(s, stop(s), "", 1) + "\n" + stop(s) }, "> **Stop.**"),
		row("reword", "who sets the level", levels, func(s string) string {
			return strings.Replace(s, "The clinic sets the level.", "You set the level.", 1)
		}, "## Who sets the level?"),
		row("reword", "the message", levels, func(s string) string { return strings.Replace(s, "and it does not pick a foot.", "and it helps.", 1) }, "message:"),
		row("drop", "the caution of a page of the site's own", motion, func(s string) string { return strings.Replace(s, stop(s), "", 1) }, lineBefore(t, motion)),
		row("drop", "that the site sets no level", clinics, func(s string) string {
			return strings.Replace(s, "- It does not set a level. The clinic sets the level.\n", "", 1)
		}, "- It does not pick a foot"),
		row("reword", "that the site picks no foot", clinics, func(s string) string {
			return strings.Replace(s, "It does not pick a foot, rank feet or give a score.", "It does not rank feet.", 1)
		}, "## What it cannot do"),
		row("turn", "whom a page with cautions is for", falls, func(s string) string { return strings.Replace(s, "audience: patient", "audience: resident", 1) }, "audience:"),
	}
}

// lineBefore is how the block before a page's first caution begins.
func lineBefore(t *testing.T, file string) string {
	t.Helper()
	src, err := os.ReadFile(filepath.Join(root, file))
	if err != nil {
		t.Fatal(err)
	}
	before, _, _ := strings.Cut(string(src), "\n> **")
	all := strings.Split(strings.TrimSpace(before), "\n")
	return all[len(all)-1]
}

var editionTampers = []tamper{
	{way: "number", name: "words for digits", file: "content/edition.yaml", edit: set("emergency", "{ number: Wait for the clinic to open, where: the US }"), at: "emergency/number", check: "helpline"},
	{way: "number", name: "a condition for a place", file: "content/edition.yaml", edit: set("emergency", `{ number: "911", where: the US if the clinic is closed }`), at: "emergency/where", check: "helpline"},
	{way: "number", name: "a sentence for a place", file: "content/edition.yaml", edit: set("crisis", `{ number: "988", where: the US. Wait first }`), at: "crisis/where", check: "helpline"},
	{way: "number", name: "none for an emergency", file: "content/edition.yaml", edit: set("emergency/number", `""`), at: "emergency/number", check: "helpline"},
	{way: "number", name: "none for a crisis", file: "content/edition.yaml", edit: set("crisis", `{ text: true }`), at: "crisis", check: "helpline"},
	{way: "number", name: "one digit", file: "content/edition.yaml", edit: set("emergency/number", `"9"`), at: "emergency/number", check: "helpline"},
	{way: "number", name: "the old sentence", file: "content/edition.yaml", edit: set("emergency", "Wait for the clinic to open."), at: "emergency", check: "wrong-type"},
	{way: "name", name: "an edition that picks", file: "content/edition.yaml", edit: set("name", "Picks your foot"), at: "name", check: "wording"},
	{way: "name", name: "a clinic that picks", file: "content/edition.yaml", edit: set("clinic", "We pick the best foot for you"), at: "clinic", check: "wording"},
	{way: "name", name: "an endorsement that picks", file: "content/edition.yaml", edit: set("endorsement", "This picks your foot."), at: "endorsement", check: "wording"},
}

func harmless(t *testing.T, l *library.Library) []tamper {
	g := graves(l)[0]
	group := "groups/" + l.Safety.Groups[1].ID.S
	free, end := unsealed(t, l)
	shoes := l.Theme("shoes").Prompts
	prompt := "themes/shoes/prompts/" + shoes[len(shoes)-1].ID.S
	const page, edition, heading = "content/en/falls.md", "content/edition.yaml", "\n## Our own line\n\nAsk us at the desk.\n"
	return []tamper{
		{name: "a section", file: page, edit: lines(func(s string) string { return s + heading })},
		{name: "a caution more", file: page, edit: lines(func(s string) string { return s + heading + "\n> **Caution.** Our floor is wet when it rains.\n" })},
		{name: "a heading's words", file: "content/en/payer-levels.md", edit: lines(func(s string) string { return strings.Replace(s, "## Who sets the level?", "## Who sets it?", 1) })},
		{name: "a section of a page of the site's own", file: "content/en/pages/clinic.md", edit: lines(func(s string) string { return s + "\n## Park here {#parking}\n\nAsk us at the desk.\n" })},
		{name: "other words on a page of the site's own", file: "content/en/pages/clinic.md", edit: lines(func(s string) string { return strings.Replace(s, "## Host it {#host}", "## Put it up {#host}", 1) })},
		{name: "a page of its own", file: "content/en/parking.md", edit: lines(func(string) string { return pageHeader })},
		{name: "a phone", file: edition, edit: set("phone", "555 0100")},
		{name: "a name", file: edition, edit: set("name", "Keelpath at Alder Quay")},
		{name: "an endorsement", file: edition, edit: set("endorsement", "We want you to ask these.")},
		{name: "another number for an emergency", file: edition, edit: set("emergency", `{ number: "000", where: Australia }`)},
		{name: "another crisis line", file: edition, edit: set("crisis", `{ number: "+61 13 11-14", where: New South Wales }`)},
		{name: "a number for urgent advice", file: edition, edit: set("urgent", `{ number: "(555) 0111", where: the United States of America }`)},
		{name: "a card", file: "trees/cards.yaml", edit: set("cards/our-loans", "{ title: You may borrow a foot, text: Ask at the desk. }")},
		{name: "a card that brings more", file: "trees/cards.yaml", edit: more("cards/a-fall/prompts", "fall-5")},
		{name: "a prompt", file: "trees/prompts.yaml", edit: set("themes/heel/prompts/heel-99", `{ ask: "May I borrow a wedge?", whom: [prosthetist], why: We lend them., basis: [common-practice] }`)},
		{name: "a prompt that no sign brings", file: "trees/prompts.yaml", edit: set(prompt+"/why", "Ask us which shoes.")},
		{name: "a glossary word", file: "content/glossary.yaml", edit: set("words/loan-shelf", "{ word: loan shelf, meaning: The feet that we lend. }")},
		{name: "a sign", file: "trees/safety.yaml", edit: set(group+"/signs/our-sign", `{ text: "**A wet dressing** on my limb", when: today, title: A wet dressing, caution: Call the clinic today., basis: [common-practice] }`)},
		{name: "a sign before the others", file: "trees/safety.yaml", edit: func(d *document) {
			d.set(group+"/signs/our-sign", `{ text: "**A wet dressing** on my limb", when: today, title: A wet dressing, caution: Call the clinic today., basis: [common-practice] }`)
			d.first(group + "/signs/our-sign")
		}},
		{name: "who reviewed the screen", file: "trees/safety.yaml", edit: set("reviewers", "[Keelpath editors]")},
		{name: "a hint", file: free.file, edit: set(free.at+"/hint", "Ask us if you like.")},
		{name: "why a question is asked", file: free.file, edit: set(free.at+"/why", "It sets the way.")},
		{name: "the words of a question", file: free.file, edit: set(free.at+"/text", "How is it?")},
		{name: "the title of an ending", file: end.file, edit: set(end.at+"/title", "Talk it over")},
		{name: "a prompt more at an ending for safety", file: g.file, edit: more(g.ending+"/prompts", fresh(l, g.e))},
		{name: "an answer more that leads to safety", file: g.file, edit: set(g.ask+"/answers/aside", `{ text: "Something else is wrong"`+alone(g.q)+`, go: `+g.e.ID.S+" }")},
		{name: "who reviewed a tree", file: g.file, edit: set("reviewers", "[Keelpath editors]")},
	}
}

// fresh is a prompt that the ending does not bring yet.
func fresh(l *library.Library, e *tree.Ending) string {
	for _, p := range l.Theme("shoes").Prompts {
		if !slices.Contains(read.Strings(e.Prompts), p.ID.S) {
			return p.ID.S
		}
	}
	return ""
}

// alone makes an answer one that is never ticked with others, where they could be.
func alone(q *tree.Question) string {
	if q.Pick == tree.PickAny {
		return ", alone: true"
	}
	return ""
}

// spot is a place in a built-in file.
type spot struct{ file, at string }

// unsealed finds a question that leads to no ending for safety and says nothing of
// levels, and an ending without a caution.
func unsealed(t *testing.T, l *library.Library) (question, ending spot) {
	t.Helper()
	for _, tr := range l.Trees {
		for _, e := range tr.Endings {
			if !e.Safety && e.Caution.S == "" {
				ending = spot{tr.File, "endings/" + e.ID.S}
			}
		}
		for _, q := range tr.Questions {
			leads := slices.ContainsFunc(q.WaysOn(), func(to read.Text) bool { e := tr.Ending(to.S); return e != nil && e.Safety })
			if !leads && q.Measure == nil && !strings.Contains(q.Why.S, "level") {
				question = spot{tr.File, "questions/" + q.ID.S}
			}
		}
	}
	if question.file == "" || ending.file == "" {
		t.Fatal("every question or every ending is for safety")
	}
	return question, ending
}
