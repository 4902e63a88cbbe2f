package explainer

import (
	"bytes"
	"fmt"
	"html/template"
	"regexp"
	"slices"
	"strings"
	"sync"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"keelpath/builder/drawing"
	"keelpath/builder/finding"
	"keelpath/builder/helpline"
)

// Doc is a parsed markdown text. Rendering parses again, so that one Doc can be
// rendered with other links and from several goroutines.
type Doc struct {
	src      []byte
	at       func(offset int) finding.Place
	ids      headingIDs
	lines    helpline.Lines  // the numbers that the text names by id
	drawn    map[string]bool // drawings, figures and shares shown
	Figures  []Shown         // in their order, each once
	Refs     []Ref
	Headings []Heading
	Plain    []string // the text of each block, for searching
	Cautions []Caution
	Blocks   []Block // the same with kinds and places, for checks of words and sentences

	form *Form // of the text of one of the site's own pages; nil for any other
	uses []use // of it

	away func() (src []byte, at func(int) finding.Place, err error) // gives src and at where they are not held; nil where they are
}

// markdown is the one engine: goldmark with tables, no raw HTML, and our own
// nodes. Cell alignment is left out because it would write style attributes.
var markdown = goldmark.New(
	goldmark.WithExtensions(extension.NewTable(extension.WithTableCellAlignMethod(extension.TableCellAlignNone))),
	goldmark.WithRendererOptions(renderer.WithNodeRenderers(util.Prioritized(nodes{}, 10))),
)

// Shown is a figure that a text shows, with the settings that it begins with.
// Which figures there are, and what they take, the reader of texts does not know.
type Shown struct {
	Figure string
	Given  map[string]string
	At     finding.Place
}

// Limits of a text. The parser takes time by the square of a block's length, so
// a block without an end would keep it busy for minutes.
const (
	maxText  = 256 << 10
	maxBlock = 20 << 10
)

// newDoc reads a text and checks it. A text beyond the limits is reported and
// left empty.
func newDoc(src []byte, at func(int) finding.Place, lines helpline.Lines, list *finding.List) *Doc {
	return newDocOf(&Doc{src: src, at: at, lines: lines, ids: headingIDs{}, drawn: map[string]bool{}}, list)
}

func newDocOf(d *Doc, list *finding.List) *Doc {
	if !d.bounded(list) {
		d.src = nil
	}
	d.check(list)
	return d
}

// unread gives the same text with nothing known of it.
func (d *Doc) unread() *Doc {
	return &Doc{src: d.src, at: d.at, form: d.form, lines: d.lines, ids: headingIDs{}, drawn: map[string]bool{}}
}

// Again reads the text once more, for what was not kept of it. What is wrong in it is
// reported elsewhere.
//
// A text that is not held and cannot be had again comes back empty; whoever gave it away hears of that.
func (d *Doc) Again() *Doc {
	held, err := d.held()
	if err != nil {
		held = &Doc{at: func(int) finding.Place { return finding.Place{} }}
	}
	return newDocOf(held.unread(), &finding.List{})
}

// Read looks at a text that has not been looked at, and reports what is wrong in it.
func (d *Doc) Read(list *finding.List) { *d = *newDocOf(d.unread(), list) }

// Forget keeps of what was read only what rendering needs: of many pages all of it would be
// most of what is in memory.
func (d *Doc) Forget() {
	*d = Doc{src: d.src, at: d.at, form: d.form, lines: d.lines, Figures: d.Figures, Headings: d.Headings}
}

// GiveAway lets go of the text of an explainer. It is taken from its file each time it is rendered, or
// read again; again gives the bytes that the file had.
func (d *Doc) GiveAway(file string, again func() ([]byte, error)) {
	d.src, d.at = nil, nil
	d.away = func() ([]byte, func(int) finding.Place, error) {
		src, err := again()
		_, body, above, _ := split(plainLines(src))
		return body, placing(file, body, above), err
	}
}

// held gives the text with what it is read from.
func (d *Doc) held() (*Doc, error) {
	if d.away == nil {
		return d, nil
	}
	out := *d
	var err error
	out.src, out.at, err = d.away()
	out.away = nil
	return &out, err
}

func (d *Doc) bounded(list *finding.List) bool {
	if len(d.src) > maxText {
		list.Add(d.at(0), "too-large", fmt.Sprintf("the text has more than %d bytes, and no more are read", maxText), "make several pages of it")
		return false
	}
	start, end := 0, 0 // of the lines without an empty one between them
	for line := range bytes.Lines(d.src) {
		end += len(line)
		if len(bytes.TrimSpace(line)) == 0 {
			start = end
		}
		if end-start > maxBlock {
			list.Add(d.at(start), "too-large", fmt.Sprintf("a block of more than %d bytes begins here, and no more are read", maxBlock), "part it with empty lines")
			return false
		}
	}
	return true
}

func (d *Doc) parse() ast.Node {
	root := markdown.Parser().Parse(text.NewReader(d.src), parser.WithContext(parser.NewContext()))
	d.putCalls(root)
	d.putGaps(root)
	return root
}

// kinds are the words that a link by id may begin with.
var kinds = []string{"explainer", "tree", "type", "word", "page", "source", "support", "call", "on"}

// check walks the text once, notes its refs, headings and plain text, and
// reports what a text may not hold.
func (d *Doc) check(list *finding.List) {
	c := &checker{doc: d, list: list, level: 1, opened: map[string]bool{}}
	_ = ast.Walk(d.parse(), func(n ast.Node, enter bool) (ast.WalkStatus, error) {
		if enter {
			c.node(n)
		}
		return ast.WalkContinue, nil
	})
}

// checker is one walk over a text.
type checker struct {
	doc    *Doc
	list   *finding.List
	level  int              // of the last heading
	row    int              // table rows that were met
	links  map[ast.Node]int // where the links of the last block stand in it
	opened map[string]bool  // HTML elements that were reported, so that their ends are not
}

// placed are the kinds of nodes that findings and links are of.
var placed = map[ast.NodeKind]bool{
	ast.KindHTMLBlock: true, ast.KindRawHTML: true, ast.KindImage: true, ast.KindAutoLink: true, ast.KindLink: true,
	kindCall: true, ast.KindHeading: true, ast.KindFencedCodeBlock: true,
}

func (c *checker) node(n ast.Node) {
	d := c.doc
	var at finding.Place // of what may be wrong: to look it up for each word would take long
	if placed[n.Kind()] || d.form != nil {
		at = d.at(max(n.Pos(), 0))
	}
	if d.form != nil {
		c.own(n, at)
	}
	switch n := n.(type) {
	case *ast.HTMLBlock:
		if n.Lines().Len() > 0 {
			line := n.Lines().At(0)
			c.html(at, line.Value(d.src))
		}
	case *ast.RawHTML:
		c.html(at, n.Segments.Value(d.src))
	case *ast.Image:
		c.list.Add(at, "image", fmt.Sprintf("the text shows the picture %q, and pictures are not taken from files", n.Destination), "leave it out")
	case *ast.AutoLink:
		c.list.Add(at, "outside-link", fmt.Sprintf("the text links to %q, and links go by id", n.Label(d.src)), citeIt)
	case *ast.Link:
		c.link(n, at)
	case *call:
		c.ref(Ref{Kind: "call", ID: n.id, At: at, Offset: c.links[n]})
	case *ast.Heading:
		c.heading(n, at)
	case *ast.Blockquote:
		if isCaution(n) {
			c.caution(n)
		}
	case *extast.TableRow, *extast.TableHeader, *ast.Paragraph, *ast.TextBlock:
		if k := n.Kind(); k == extast.KindTableRow || k == extast.KindTableHeader {
			c.row++
		}
		if holdsCall(n) && !insideCaution(n) {
			c.caution(n)
		}
	case *ast.FencedCodeBlock:
		c.listing(n, at)
	}
	if n.Type() == ast.TypeBlock && n.FirstChild() != nil && n.FirstChild().Type() == ast.TypeInline {
		b, links := d.block(n)
		if b.Kind == Cell {
			b.Row = c.row
		}
		c.links = links
		d.Blocks = append(d.Blocks, b)
		d.Plain = append(d.Plain, b.Text)
		if strings.Contains(b.Text, "]") { // or nothing in it looks like a link
			c.failedLinks(n)
		}
	}
}

var tagName = regexp.MustCompile(`^<(/?)([A-Za-z][A-Za-z0-9-]*)`)

// html reports raw HTML, an element and its end together as one.
func (c *checker) html(at finding.Place, src []byte) {
	if m := tagName.FindSubmatch(bytes.TrimSpace(src)); m != nil {
		name := strings.ToLower(string(m[2]))
		if len(m[1]) > 0 && c.opened[name] {
			return
		}
		c.opened[name] = true
	}
	c.list.Add(at, "raw-html", "the text holds HTML, and only markdown is read", "write it in markdown, or leave it out")
}

const citeIt = `name the page in sources.yaml and cite it: "[](source:its-id)"`

func (c *checker) link(n *ast.Link, at finding.Place) {
	dest := string(n.Destination)
	kind, id, ok := strings.Cut(dest, ":")
	switch {
	case strings.HasPrefix(dest, "#"):
		kind, id = "heading", dest[1:]
		if strings.TrimSpace(plain(n, c.doc.src)) == "" {
			c.list.Add(at, "empty-text", fmt.Sprintf("the link to %q has no words", dest), `write them between the brackets: "[the words](`+dest+`)"`)
		}
	case !ok || !slices.Contains(kinds, kind):
		help := finding.NearestHelp(kind, kinds, nil)
		if kind == "http" || kind == "https" {
			help = []string{citeIt}
		}
		c.list.Add(at, "outside-link", fmt.Sprintf("the link leads to %q, and links go by id", dest),
			append(help, "a link by id: explainer:ID, tree:ID, type:ID, word:ID, page:ID, source:ID, support:ID, call:ID or on:paper")...)
		return
	case kind == "support":
		c.support(n, id, at)
	case kind == "call":
		c.call(n, id, at)
	case kind == "on":
		c.on(n, id, at)
	case kind == "source" && n.FirstChild() != nil:
		c.list.Add(at, "citation", fmt.Sprintf("the citation of %q has words of its own, and only its number would be shown", id),
			"put the words before it, and leave the brackets empty: "+`"[](`+dest+`)"`)
	}
	c.ref(Ref{Kind: kind, ID: id, At: at, Offset: c.links[n]})
}

func (c *checker) ref(r Ref) {
	c.doc.Refs = append(c.doc.Refs, r)
	if k := len(c.doc.Blocks); k > 0 { // links stand inside the block that was met last
		c.doc.Blocks[k-1].Refs = append(c.doc.Blocks[k-1].Refs, r)
	}
}

var failedLink = regexp.MustCompile(`\]\s*\((explainer|tree|type|word|page|source|support|call|on|https?):`)

// failedLinks reports what was meant as a link and reads as plain text.
func (c *checker) failedLinks(block ast.Node) {
	var words []byte
	var from []int // where each byte of words stands in the text
	_ = ast.Walk(block, func(n ast.Node, enter bool) (ast.WalkStatus, error) {
		if k := n.Kind(); k == ast.KindCodeSpan || k == ast.KindLink {
			return ast.WalkSkipChildren, nil
		}
		if t, ok := n.(*ast.Text); ok && enter {
			words = append(append(words, c.doc.src[t.Segment.Start:t.Segment.Stop]...), ' ')
			for i := t.Segment.Start; i <= t.Segment.Stop; i++ {
				from = append(from, i)
			}
			if !t.SoftLineBreak() && !t.HardLineBreak() {
				words, from = words[:len(words)-1], from[:len(from)-1]
			}
		}
		return ast.WalkContinue, nil
	})
	for _, m := range failedLink.FindAllIndex(words, -1) {
		c.list.Add(c.doc.at(from[m[0]]), "not-a-link", "this looks like a link and is not one",
			`write "[words](kind:id)", with no space before the "(" and none inside it`)
	}
}

func (c *checker) heading(n *ast.Heading, at finding.Place) {
	words := plain(n, c.doc.src)
	switch {
	case words == "":
		c.list.Add(at, "empty-text", "the heading has no words", "write them, or leave the heading out")
	case n.Level == 1:
		c.list.Add(at, "heading-level", fmt.Sprintf("the heading %q has the level of the page's title", words), `begin it with "##"`)
	case n.Level > c.level+1:
		c.list.Add(at, "heading-level", fmt.Sprintf("the heading %q skips a level", words), "begin it with "+strings.Repeat("#", c.level+1))
	}
	c.level = max(n.Level, 2)
	id, own := ownID(n)
	switch {
	case own && slices.Contains(c.doc.form.Parts, id):
		return // the page puts it elsewhere, and nothing leads to it
	case !own:
		id = c.doc.ids.next(words)
	}
	c.doc.Headings = append(c.doc.Headings, Heading{Level: n.Level, ID: id, Text: words})
}

func (c *checker) listing(n *ast.FencedCodeBlock, at finding.Place) {
	lang := string(n.Language(c.doc.src))
	if lang == slotLang && c.doc.form != nil {
		c.slot(n, at)
		lang = ""
	}
	switch lang {
	case "", "yaml":
	case "drawing":
		c.drawing(n, at)
	case "figure":
		c.figure(n, at)
	case "share":
		c.share(n, at)
	default:
		c.list.Add(c.doc.at(n.Info.Segment.Start), "listing-language", fmt.Sprintf("the listing is marked %q, and only yaml is coloured", lang),
			"mark it yaml, or leave the mark out; a listing marked drawing holds the name of a drawing, one marked figure that of a figure, and one marked share shows shares of people")
	}
	end := 0
	if k := n.Lines().Len(); k > 0 {
		end = n.Lines().At(k - 1).Stop
	}
	if n.NextSibling() == nil && n.Parent().Kind() == ast.KindDocument && end > 0 && len(bytes.TrimSpace(c.doc.src[end:])) == 0 {
		c.list.Add(at, "open-listing", "the listing that begins here is not closed, and takes in all that follows", "add a line of three back-ticks behind it")
	}
}

// drawing holds the name in a listing marked "drawing" against the drawings there are.
func (c *checker) drawing(n *ast.FencedCodeBlock, at finding.Place) {
	id := inside(n, c.doc.src)
	if !slices.Contains(drawing.IDs(), id) {
		c.list.Add(at, "unknown-name", fmt.Sprintf("the page shows the drawing %q, and there is none", id), finding.NearestOrAll(id, drawing.IDs(), "drawings")...)
	}
	if c.doc.drawn[id] {
		c.list.Add(at, "repeated-id", fmt.Sprintf("the page shows the drawing %q twice", id), "keep one of them")
	}
	c.doc.drawn[id] = true
}

// figure notes a listing marked "figure". Its first line names one, and each further
// line sets one of its inputs: "usual-heel: 30 mm".
func (c *checker) figure(n *ast.FencedCodeBlock, at finding.Place) {
	id, given := settings(inside(n, c.doc.src))
	if c.doc.drawn["figure "+id] {
		c.list.Add(at, "repeated-id", fmt.Sprintf("the page shows the figure %q twice", id), "keep one of them")
		return
	}
	c.doc.drawn["figure "+id] = true
	c.doc.Figures = append(c.doc.Figures, Shown{id, given, at})
}

// settings reads the lines of a listing marked "figure".
func settings(text string) (id string, given map[string]string) {
	id, rest, _ := strings.Cut(text, "\n")
	given = map[string]string{}
	for line := range strings.Lines(rest) {
		if name, value, _ := strings.Cut(line, ":"); strings.TrimSpace(name) != "" {
			given[strings.TrimSpace(name)] = strings.TrimSpace(value)
		}
	}
	return strings.TrimSpace(id), given
}

// inside gives what stands in a listing.
func inside(n *ast.FencedCodeBlock, src []byte) string {
	return strings.TrimSpace(string(n.Lines().Value(src)))
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
			v := c.Segment.Value(src)
			if c.Parent().Kind() != ast.KindCodeSpan {
				v = unescaped(v)
			}
			b.Write(v)
			if c.SoftLineBreak() || c.HardLineBreak() {
				b.WriteByte(' ')
			}
		case *ast.String:
			b.Write(c.Value)
		case *call:
			b.WriteString(c.words.Plain())
		case *gap:
			b.WriteString(c.plain())
		case *mark:
			b.WriteString(c.opening() + c.words + c.closing())
		}
		return ast.WalkContinue, nil
	})
	return b.String()
}

// rooms are for texts while they are rendered.
var rooms = sync.Pool{New: func() any { return &bytes.Buffer{} }}

// HTML renders the text.
func (d *Doc) HTML(o Options) (Out, error) {
	d, err := d.held()
	if err != nil {
		return Out{}, err
	}
	root := d.parse()
	root.SetAttributeString("say", o.say())
	w := &writer{doc: d, o: o, ids: headingIDs{}}
	w.rewrite(root)
	_ = ast.Walk(root, func(n ast.Node, enter bool) (ast.WalkStatus, error) {
		f, ok := n.(*ast.FencedCodeBlock)
		if !ok || !enter {
			return ast.WalkContinue, nil
		}
		switch lang := string(f.Language(d.src)); {
		case lang == "figure" && o.Figure != nil:
			f.SetAttributeString("figure", o.Figure)
		case lang == "drawing" && o.Drawing != nil:
			f.SetAttributeString("drawing", o.Drawing)
		case lang == slotLang && d.form != nil && o.Slot != nil:
			f.SetAttributeString(slotLang, o.Slot)
		}
		return ast.WalkContinue, nil
	})
	for _, n := range d.ownParts(root) {
		remove(n)
	}
	if w.err != nil {
		return Out{}, fmt.Errorf("fill a gap: %w", w.err)
	}
	b := rooms.Get().(*bytes.Buffer)
	defer rooms.Put(b)
	b.Reset()
	if err := markdown.Renderer().Render(b, d.src, root); err != nil {
		return Out{}, fmt.Errorf("render text: %w", err)
	}
	return Out{HTML: template.HTML(b.String()), Sources: w.cited, Headings: w.headings(root)}, nil
}

// writer turns a fresh parse into what is rendered: links get their targets,
// citations their numbers, words their links.
type writer struct {
	doc   *Doc
	o     Options
	cited []string
	named map[string]bool // what the author's links say, lower case
	ids   headingIDs

	behind map[*ast.Link][]string // by mark of certainty: the sources right before it

	err error // of filling a gap
}

// headings gives those that are shown.
func (w *writer) headings(root ast.Node) []Heading {
	var out []Heading
	for n := root.FirstChild(); n != nil; n = n.NextSibling() {
		if h, ok := n.(*ast.Heading); ok {
			id, _ := ownID(h)
			out = append(out, Heading{Level: h.Level, ID: id, Text: plain(h, w.doc.src)})
		}
	}
	return out
}

func (w *writer) rewrite(root ast.Node) {
	w.fill(root)
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
			if _, own := ownID(n); !own {
				n.SetAttributeString("id", []byte(w.ids.next(plain(n, w.doc.src))))
			}
		case *ast.Blockquote:
			if isCaution(n) {
				n.SetAttributeString("class", []byte("caution"))
			}
		case *ast.Paragraph, *ast.TextBlock, *extast.TableCell:
			texts = append(texts, n)
		}
		return ast.WalkContinue, nil
	})
	w.named = map[string]bool{}
	w.behind = w.citedBefore(links)
	for _, l := range links {
		w.link(l)
	}
	w.join(root)
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
	switch kind {
	case "source":
		w.cite(l, id)
		return
	case "on":
		w.on(l, id)
		return
	case "support":
		w.support(l, id)
		return
	}
	t := w.o.Target(kind, id)
	l.Destination = []byte(t.URL)
	if l.FirstChild() == nil {
		l.AppendChild(l, ast.NewString([]byte(t.Title)))
	}
	w.named[strings.ToLower(plain(l, w.doc.src))] = true
	w.newTab(l)
}

// cite puts a numbered mark, the source's name, or nothing, where the text cites a source.
func (w *writer) cite(l *ast.Link, id string) {
	number := w.number(id)
	switch {
	case w.o.Unmarked:
		l.Parent().RemoveChild(l.Parent(), l)
	case w.o.Name != nil:
		w.mark(l, w.o.Name(id), "source", id)
	default:
		l.Parent().ReplaceChild(l.Parent(), l, &citation{number: number})
	}
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
