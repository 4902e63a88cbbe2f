package explainer

import (
	"bytes"
	"fmt"
	"html/template"
	"slices"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"keelpath/builder/finding"
)

// Doc is a parsed markdown text. Rendering parses again, so that one Doc can be
// rendered with other links and from several goroutines.
type Doc struct {
	src      []byte
	at       func(offset int) finding.Place
	Refs     []Ref
	Headings []Heading
	Plain    []string // the text of each block, for counting and searching
}

// markdown is the one engine: goldmark with tables, no raw HTML, and our own
// nodes. Cell alignment is left out because it would write style attributes.
var markdown = goldmark.New(
	goldmark.WithExtensions(extension.NewTable(extension.WithTableCellAlignMethod(extension.TableCellAlignNone))),
	goldmark.WithRendererOptions(renderer.WithNodeRenderers(util.Prioritized(nodes{}, 10))),
)

func newDoc(src []byte, at func(int) finding.Place) *Doc {
	return &Doc{src: src, at: at}
}

func (d *Doc) parse() ast.Node {
	return markdown.Parser().Parse(text.NewReader(d.src), parser.WithContext(parser.NewContext()))
}

// kinds are the words that a link by id may begin with.
var kinds = []string{"explainer", "tree", "type", "word", "source"}

// check walks the text once, notes its refs, headings and plain text, and
// reports what a text may not hold.
func (d *Doc) check(list *finding.List) {
	level, seek := 1, 0
	_ = ast.Walk(d.parse(), func(n ast.Node, enter bool) (ast.WalkStatus, error) {
		if !enter {
			return ast.WalkContinue, nil
		}
		if n.Type() == ast.TypeBlock && n.Lines() != nil && n.Lines().Len() > 0 {
			seek = max(seek, n.Lines().At(0).Start)
		}
		switch n := n.(type) {
		case *ast.HTMLBlock:
			list.Add(d.at(seek), "raw-html", "the text holds HTML, and only markdown is read", "write it in markdown, or leave it out")
		case *ast.RawHTML:
			list.Add(d.at(n.Segments.At(0).Start), "raw-html", "the text holds HTML, and only markdown is read", "write it in markdown, or leave it out")
		case *ast.Image:
			list.Add(d.find(&seek, "("+string(n.Destination)), "image", fmt.Sprintf("the text shows the picture %q, and pictures are not taken from files", n.Destination), "leave it out")
		case *ast.AutoLink:
			list.Add(d.find(&seek, string(n.Label(d.src))), "outside-link", fmt.Sprintf("the text links to %q", n.Label(d.src)), `name it in sources.yaml and cite it: "[](source:its-id)"`)
		case *ast.Link:
			d.link(n, d.find(&seek, "("+string(n.Destination)), list)
		case *ast.Heading:
			d.heading(n, &level, d.at(seek), list)
		case *ast.FencedCodeBlock:
			d.listing(n, d.at(seek), list)
		}
		if n.Type() == ast.TypeBlock && n.FirstChild() != nil && n.FirstChild().Type() == ast.TypeInline {
			d.Plain = append(d.Plain, plain(n, d.src))
		}
		return ast.WalkContinue, nil
	})
}

// find gives the place of what from *seek on and moves *seek behind it.
func (d *Doc) find(seek *int, what string) finding.Place {
	i := bytes.Index(d.src[min(*seek, len(d.src)):], []byte(what))
	if i < 0 {
		return d.at(*seek)
	}
	at := *seek + i
	*seek = at + len(what)
	return d.at(at)
}

func (d *Doc) link(n *ast.Link, at finding.Place, list *finding.List) {
	dest := string(n.Destination)
	if strings.HasPrefix(dest, "#") {
		d.Refs = append(d.Refs, Ref{Kind: "heading", ID: dest[1:], At: at})
		return
	}
	kind, id, ok := strings.Cut(dest, ":")
	if !ok || !slices.Contains(kinds, kind) {
		help := finding.NearestHelp(kind, kinds, nil)
		if kind == "http" || kind == "https" {
			help = []string{`name the page in sources.yaml and cite it: "[](source:its-id)"`}
		}
		list.Add(at, "outside-link", fmt.Sprintf("the link leads to %q, and links go by id", dest),
			append(help, "a link by id: explainer:ID, tree:ID, type:ID, word:ID or source:ID")...)
		return
	}
	d.Refs = append(d.Refs, Ref{Kind: kind, ID: id, At: at})
}

func (d *Doc) heading(n *ast.Heading, level *int, at finding.Place, list *finding.List) {
	words := plain(n, d.src)
	switch {
	case n.Level == 1:
		list.Add(at, "heading-level", fmt.Sprintf("the heading %q has the level of the page's title", words), `begin it with "##"`)
	case n.Level > *level+1:
		list.Add(at, "heading-level", fmt.Sprintf("the heading %q skips a level", words), "begin it with "+strings.Repeat("#", *level+1))
	}
	*level = max(n.Level, 2)
	ids := d.headingIDs()
	d.Headings = append(d.Headings, Heading{Level: n.Level, ID: uniqueID(words, ids), Text: words})
}

func (d *Doc) headingIDs() []string {
	var out []string
	for _, h := range d.Headings {
		out = append(out, h.ID)
	}
	return out
}

func (d *Doc) listing(n *ast.FencedCodeBlock, at finding.Place, list *finding.List) {
	if lang := string(n.Language(d.src)); lang != "" && lang != "yaml" {
		list.Add(at, "listing-language", fmt.Sprintf("the listing is marked %q, and only yaml is coloured", lang), "mark it yaml, or leave the mark out")
	}
}

// plain gives the text of a block without its marks.
func plain(n ast.Node, src []byte) string {
	var b strings.Builder
	_ = ast.Walk(n, func(c ast.Node, enter bool) (ast.WalkStatus, error) {
		if !enter {
			return ast.WalkContinue, nil
		}
		switch c := c.(type) {
		case *ast.Text:
			b.Write(c.Segment.Value(src))
			if c.SoftLineBreak() || c.HardLineBreak() {
				b.WriteByte(' ')
			}
		case *ast.String:
			b.Write(c.Value)
		}
		return ast.WalkContinue, nil
	})
	return b.String()
}

// HTML renders the text.
func (d *Doc) HTML(o Options) (Out, error) {
	root := d.parse()
	w := &writer{doc: d, o: o}
	w.rewrite(root)
	var b bytes.Buffer
	if err := markdown.Renderer().Render(&b, d.src, root); err != nil {
		return Out{}, fmt.Errorf("render text: %w", err)
	}
	return Out{HTML: template.HTML(b.String()), Sources: w.cited}, nil
}

// writer turns a fresh parse into what is rendered: links get their targets,
// citations their numbers, words their links.
type writer struct {
	doc   *Doc
	o     Options
	cited []string
	ids   []string
}

func (w *writer) rewrite(root ast.Node) {
	var links []*ast.Link
	var texts []ast.Node // blocks whose words may be linked
	_ = ast.Walk(root, func(n ast.Node, enter bool) (ast.WalkStatus, error) {
		if !enter {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.Link:
			links = append(links, n)
		case *ast.Heading:
			id := uniqueID(plain(n, w.doc.src), w.ids)
			w.ids = append(w.ids, id)
			n.SetAttributeString("id", []byte(id))
		case *ast.Blockquote:
			if isCaution(n) {
				n.SetAttributeString("class", []byte("caution"))
			}
		case *ast.Paragraph, *ast.TextBlock, *extast.TableCell:
			texts = append(texts, n)
		}
		return ast.WalkContinue, nil
	})
	for _, l := range links {
		w.link(l)
	}
	if w.o.Words != nil {
		linker := &wordLinker{writer: w, used: map[string]bool{}}
		for _, t := range texts {
			linker.block(t)
		}
	}
}

func (w *writer) link(l *ast.Link) {
	dest := string(l.Destination)
	if strings.HasPrefix(dest, "#") {
		return
	}
	kind, id, ok := strings.Cut(dest, ":")
	if !ok || w.o.Target == nil {
		return
	}
	if kind == "source" {
		w.cite(l, id)
		return
	}
	t := w.o.Target(kind, id)
	l.Destination = []byte(t.URL)
	if l.FirstChild() == nil {
		l.AppendChild(l, ast.NewString([]byte(t.Title)))
	}
	w.newTab(l)
}

// cite puts a numbered mark, or nothing, where the text cites a source.
func (w *writer) cite(l *ast.Link, id string) {
	number := w.number(id)
	if w.o.Unmarked {
		l.Parent().RemoveChild(l.Parent(), l)
		return
	}
	l.Parent().ReplaceChild(l.Parent(), l, &citation{number: number})
}

func (w *writer) newTab(l *ast.Link) {
	if w.o.NewTab {
		l.SetAttributeString("target", []byte("_blank"))
		l.AppendChild(l, ast.NewString([]byte(" (opens in a new tab)")))
	}
}

// number gives a cited source its number, by first use.
func (w *writer) number(id string) int {
	i := slices.Index(w.cited, id)
	if i < 0 {
		w.cited = append(w.cited, id)
		i = len(w.cited) - 1
	}
	return i + 1
}

// isCaution tells whether a block quote begins with a bold word.
func isCaution(b *ast.Blockquote) bool {
	p, ok := b.FirstChild().(*ast.Paragraph)
	if !ok {
		return false
	}
	e, ok := p.FirstChild().(*ast.Emphasis)
	return ok && e.Level == 2
}
