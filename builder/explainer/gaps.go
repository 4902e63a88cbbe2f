package explainer

import (
	"bytes"
	"fmt"
	"html/template"
	"regexp"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"keelpath/builder/finding"
)

// gap is a place in a sentence that the program fills: "{trees}". One whose name
// begins with "when-" shows nothing; it says on what its block depends.
type gap struct {
	ast.BaseInline
	name string
	html template.HTML
	full bool // it was filled
}

const condition = "when-"

var kindGap = ast.NewNodeKind("Gap")

func (g *gap) Kind() ast.NodeKind            { return kindGap }
func (g *gap) Dump(source []byte, level int) { ast.DumpHelper(g, source, level, nil, nil) }

// plain is what a gap reads as before it is filled, and after. A condition reads as nothing.
func (g *gap) plain() string {
	switch {
	case g.full:
		return string(g.html)
	case strings.HasPrefix(g.name, condition):
		return ""
	}
	return "{" + g.name + "}"
}

var (
	gapForm  = regexp.MustCompile(`\{([^{}]*)\}`)
	headID   = regexp.MustCompile(`[ \t]*\{#([^{}]*)\}[ \t]*$`)
	partID   = regexp.MustCompile(`^\{#([^{}]*)\}[ \t]*`)
	idForm   = regexp.MustCompile(`^[a-z][a-z0-9_-]*$`)
	ownKey   = []byte("part") // of the attribute of a paragraph that has an id
	brace    = regexp.MustCompile(`[{}]`)
	slotLang = "slot"
)

// putGaps reads what only the text of one of the site's own pages has: ids behind
// headings and before paragraphs, and gaps.
func (d *Doc) putGaps(root ast.Node) {
	if d.form == nil {
		return
	}
	var texts []*ast.Text
	joinTexts(root)
	_ = ast.Walk(root, func(n ast.Node, enter bool) (ast.WalkStatus, error) {
		switch n := n.(type) {
		case *ast.Heading:
			if t, ok := n.LastChild().(*ast.Text); ok && enter {
				if m := headID.FindSubmatchIndex(t.Segment.Value(d.src)); m != nil {
					n.SetAttributeString("id", bytes.Clone(t.Segment.Value(d.src)[m[2]:m[3]]))
					t.Segment.Stop = t.Segment.Start + m[0]
				}
			}
		case *ast.Paragraph:
			if t, ok := n.FirstChild().(*ast.Text); ok && enter {
				if m := partID.FindSubmatchIndex(t.Segment.Value(d.src)); m != nil {
					n.SetAttribute(ownKey, bytes.Clone(t.Segment.Value(d.src)[m[2]:m[3]]))
					t.Segment.Start += m[1]
				}
			}
		case *ast.Text:
			if enter && n.Parent().Kind() != ast.KindCodeSpan {
				texts = append(texts, n)
			}
		}
		return ast.WalkContinue, nil
	})
	for _, t := range texts {
		d.split(t)
	}
}

// joinTexts makes one text of those that follow on each other: the parser cuts one at
// each sign that might have been a mark, such as the "_" of an id.
func joinTexts(root ast.Node) {
	_ = ast.Walk(root, func(n ast.Node, enter bool) (ast.WalkStatus, error) {
		t, ok := n.(*ast.Text)
		for ok && enter && !t.SoftLineBreak() && !t.HardLineBreak() {
			next, isText := t.NextSibling().(*ast.Text)
			if !isText || next.Segment.Start != t.Segment.Stop {
				break
			}
			t.Segment.Stop = next.Segment.Stop
			t.SetSoftLineBreak(next.SoftLineBreak())
			t.SetHardLineBreak(next.HardLineBreak())
			t.Parent().RemoveChild(t.Parent(), next)
		}
		return ast.WalkContinue, nil
	})
}

// split parts a text at its gaps. What stands behind the last one keeps the line end.
func (d *Doc) split(t *ast.Text) {
	from := t.Segment.Start
	for _, m := range gapForm.FindAllSubmatchIndex(t.Segment.Value(d.src), -1) {
		if at := from + m[0]; at > t.Segment.Start {
			t.Parent().InsertBefore(t.Parent(), t, ast.NewTextSegment(text.NewSegment(t.Segment.Start, at)))
		}
		g := &gap{name: string(d.src[from+m[2] : from+m[3]])}
		g.SetPos(from + m[0])
		t.Parent().InsertBefore(t.Parent(), t, g)
		t.Segment.Start = from + m[1]
	}
}

// ownID gives the id that an author wrote for a heading or a paragraph.
func ownID(n ast.Node) (string, bool) {
	key := ownKey
	if n.Kind() == ast.KindHeading {
		key = []byte("id")
	}
	if v, ok := n.Attribute(key); ok {
		return string(v.([]byte)), true
	}
	return "", false
}

// own notes the uses of a page's form in a node, and reports what cannot be one.
func (c *checker) own(n ast.Node, at finding.Place) {
	d := c.doc
	note := func(what, name string, at finding.Place) { d.uses = append(d.uses, use{what, name, at}) }
	switch n := n.(type) {
	case *gap:
		note("gap", n.name, at)
	case *ast.Text:
		if m := brace.FindIndex(n.Segment.Value(d.src)); m != nil && n.Parent().Kind() != ast.KindCodeSpan {
			c.list.Add(d.at(n.Segment.Start+m[0]), "lone-brace", "a brace stands here without its other half", "a gap is written {name}, and an id {#name}")
		}
	case *ast.Heading:
		id, ok := ownID(n)
		if !ok {
			c.list.Add(at, "missing-id", fmt.Sprintf("the heading %q has no id, and other pages lead to headings by theirs", plain(n, d.src)), `write it behind the heading: "## Privacy {#privacy}"`)
			return
		}
		c.goodID(id, at)
		if slices.Contains(d.form.Parts, id) {
			note("part", id, at)
		} else {
			note("heading", id, at)
		}
	case *ast.Paragraph:
		if id, ok := ownID(n); ok {
			at := d.at(firstByte(n))
			c.goodID(id, at)
			note("part", id, at)
		}
	}
}

func (c *checker) goodID(id string, at finding.Place) {
	if !idForm.MatchString(id) {
		c.list.Add(at, "bad-id", fmt.Sprintf("%q is not an id", id), "write lower-case words joined by hyphens")
	}
}

// slot notes a listing marked "slot".
func (c *checker) slot(n *ast.FencedCodeBlock, at finding.Place) {
	c.doc.uses = append(c.doc.uses, use{slotLang, inside(n, c.doc.src), at})
}

// fill puts into gaps what the page has for them. A block with a gap for which it has
// nothing is left out: an entry of a list, or a paragraph, or a heading with its section.
func (w *writer) fill(root ast.Node) {
	if w.o.Gap == nil {
		return
	}
	var gone []ast.Node
	_ = ast.Walk(root, func(n ast.Node, enter bool) (ast.WalkStatus, error) {
		g, ok := n.(*gap)
		if !ok || !enter {
			return ast.WalkContinue, nil
		}
		html, err := w.o.Gap(g.name)
		if err != nil {
			w.err = err
			return ast.WalkStop, nil
		}
		g.full = true
		if strings.TrimSpace(string(html)) == "" {
			gone = append(gone, blockOf(g))
		} else if !strings.HasPrefix(g.name, condition) {
			g.html = html
		}
		return ast.WalkContinue, nil
	})
	for _, n := range gone {
		remove(n)
	}
}

// blockOf is the block that goes where a gap in it has nothing to say.
func blockOf(n ast.Node) ast.Node {
	var block ast.Node
	for ; n != nil && n.Kind() != ast.KindDocument; n = n.Parent() {
		if n.Kind() == ast.KindListItem {
			return n
		}
		if block == nil && n.Type() == ast.TypeBlock {
			block = n
		}
	}
	return block
}

func remove(n ast.Node) {
	parent := n.Parent()
	if parent == nil {
		return // it went with another gap
	}
	if h, ok := n.(*ast.Heading); ok {
		for _, s := range section(h) {
			parent.RemoveChild(parent, s)
		}
	}
	parent.RemoveChild(parent, n)
	if parent.Kind() == ast.KindList && !parent.HasChildren() {
		remove(parent)
	}
}

// section gives the blocks below a heading, up to the next one of its level or above.
func section(h *ast.Heading) []ast.Node {
	var out []ast.Node
	for n := h.NextSibling(); n != nil; n = n.NextSibling() {
		if next, ok := n.(*ast.Heading); ok && next.Level <= h.Level {
			break
		}
		out = append(out, n)
	}
	return out
}

// Part is a section or a paragraph that a page takes out of its text.
type Part struct {
	Title string        // of the section
	HTML  template.HTML // the blocks below the title; of a paragraph, what stands in it
}

// Parts renders those that there are, by id. One that a gap left out is missing.
func (d *Doc) Parts(o Options) (map[string]Part, error) {
	root := d.parse()
	w := &writer{doc: d, o: o, ids: headingIDs{}}
	w.rewrite(root)
	out := map[string]Part{}
	for _, n := range d.ownParts(root) {
		id, _ := ownID(n)
		var b bytes.Buffer
		var p Part
		var inner []ast.Node
		if h, ok := n.(*ast.Heading); ok {
			p.Title, inner = plain(h, d.src), section(h)
		} else {
			for c := n.FirstChild(); c != nil; c = c.NextSibling() {
				inner = append(inner, c)
			}
		}
		for _, c := range inner {
			if err := markdown.Renderer().Render(&b, d.src, c); err != nil {
				return nil, fmt.Errorf("render the part %q: %w", id, err)
			}
		}
		p.HTML = template.HTML(b.String())
		out[id] = p
	}
	return out, w.err
}

// ownParts are the headings and paragraphs of the text that its page takes out of it.
func (d *Doc) ownParts(root ast.Node) []ast.Node {
	var out []ast.Node
	if d.form == nil {
		return nil
	}
	for n := root.FirstChild(); n != nil; n = n.NextSibling() {
		if id, ok := ownID(n); ok && slices.Contains(d.form.Parts, id) {
			out = append(out, n)
		}
	}
	return out
}

// Line renders a text of one paragraph without the paragraph.
func (d *Doc) Line(o Options) (template.HTML, error) {
	out, err := d.HTML(o)
	html, _ := strings.CutPrefix(string(out.HTML), "<p>")
	html, _ = strings.CutSuffix(html, "</p>\n")
	return template.HTML(html), err
}

func (nodes) gap(w util.BufWriter, _ []byte, n ast.Node, enter bool) (ast.WalkStatus, error) {
	if enter {
		_, _ = w.WriteString(n.(*gap).plain())
	}
	return ast.WalkContinue, nil
}
