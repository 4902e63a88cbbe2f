package explainer

import (
	"fmt"
	"html/template"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"

	"keelpath/builder/drawing"
	"keelpath/builder/listing"
	"keelpath/builder/say"
)

// Citation is a numbered mark that leads to a source at the foot of the page.
func Citation(w *say.Words, number int) template.HTML {
	words := w.HTML("cite.source", "number", number)
	return template.HTML(fmt.Sprintf(`<sup class="cite"><a href="#source-%d" aria-label="%s">%s</a></sup>`, number, words, w.Number(number)))
}

// sayOf is what the program says in the text that a node stands in.
func sayOf(n ast.Node) *say.Words {
	w, _ := n.OwnerDocument().AttributeString("say")
	return w.(*say.Words)
}

// citation is such a mark inside a text.
type citation struct {
	ast.BaseInline
	number int
}

var kindCitation = ast.NewNodeKind("Citation")

func (c *citation) Kind() ast.NodeKind            { return kindCitation }
func (c *citation) Dump(source []byte, level int) { ast.DumpHelper(c, source, level, nil, nil) }

// nodes renders what differs from goldmark's own way: our citation, block
// quotes that are cautions, tables with scope, and coloured listings.
type nodes struct{}

func (n nodes) RegisterFuncs(r renderer.NodeRendererFuncRegisterer) {
	r.Register(kindCitation, n.citation)
	r.Register(kindMark, n.mark)
	r.Register(kindCall, n.call)
	r.Register(kindGap, n.gap)
	r.Register(kindOn, n.on)
	r.Register(ast.KindBlockquote, n.quote)
	r.Register(ast.KindLink, n.link)
	r.Register(ast.KindFencedCodeBlock, n.listing)
	r.Register(ast.KindRawHTML, nothing)
	r.Register(ast.KindHTMLBlock, nothing)
	r.Register(ast.KindImage, nothing)
	r.Register(extast.KindTable, n.table)
	r.Register(extast.KindTableHeader, n.tableHeader)
	r.Register(extast.KindTableRow, n.tableRow)
	r.Register(extast.KindTableCell, n.tableCell)
}

// nothing leaves a node out; the checker has reported it.
func nothing(util.BufWriter, []byte, ast.Node, bool) (ast.WalkStatus, error) {
	return ast.WalkSkipChildren, nil
}

func (nodes) citation(w util.BufWriter, _ []byte, n ast.Node, enter bool) (ast.WalkStatus, error) {
	if enter {
		_, _ = w.WriteString(string(Citation(sayOf(n), n.(*citation).number)))
	}
	return ast.WalkContinue, nil
}

func (nodes) quote(w util.BufWriter, _ []byte, n ast.Node, enter bool) (ast.WalkStatus, error) {
	_, caution := n.AttributeString("class")
	switch {
	case enter && caution:
		_, _ = w.WriteString("<div class=\"caution\" role=\"note\">\n")
	case enter:
		_, _ = w.WriteString("<blockquote>\n")
	case caution:
		_, _ = w.WriteString("</div>\n")
	default:
		_, _ = w.WriteString("</blockquote>\n")
	}
	return ast.WalkContinue, nil
}

// link writes only the attributes we set ourselves, so nothing in a text can
// bring its own.
func (nodes) link(w util.BufWriter, _ []byte, n ast.Node, enter bool) (ast.WalkStatus, error) {
	l := n.(*ast.Link)
	if !enter {
		_, _ = w.WriteString("</a>")
		return ast.WalkContinue, nil
	}
	_, _ = w.WriteString(`<a href="`)
	if !html.IsDangerousURL(l.Destination) {
		_, _ = w.Write(util.EscapeHTML(util.URLEscape(l.Destination, false)))
	}
	_ = w.WriteByte('"')
	for _, name := range []string{"class", "target"} {
		if v, ok := l.AttributeString(name); ok {
			fmt.Fprintf(w, ` %s="%s"`, name, util.EscapeHTML(v.([]byte)))
		}
	}
	_ = w.WriteByte('>')
	return ast.WalkContinue, nil
}

func (r nodes) listing(w util.BufWriter, src []byte, n ast.Node, enter bool) (ast.WalkStatus, error) {
	if !enter {
		return ast.WalkContinue, nil
	}
	block := n.(*ast.FencedCodeBlock)
	switch string(block.Language(src)) {
	case "drawing":
		find, ok := n.AttributeString("drawing")
		if !ok {
			return ast.WalkSkipChildren, nil
		}
		if d, ok := find.(func(string) (drawing.Drawing, bool))(inside(block, src)); ok {
			fmt.Fprintf(w, "<figure>%s<figcaption>%s</figcaption></figure>\n", d.SVG(""), util.EscapeHTML([]byte(d.Title)))
		}
		return ast.WalkSkipChildren, nil
	case "share":
		r.share(w, src, block)
		return ast.WalkSkipChildren, nil
	case slotLang:
		if fill, ok := n.AttributeString(slotLang); ok {
			html, err := fill.(func(string) (template.HTML, error))(inside(block, src))
			if err != nil {
				return ast.WalkStop, err
			}
			_, _ = w.WriteString(string(html))
		}
		return ast.WalkSkipChildren, nil
	case "figure":
		if make, ok := n.AttributeString("figure"); ok {
			id, given := settings(inside(block, src))
			html, err := make.(func(string, map[string]string) (template.HTML, error))(id, given)
			if err != nil {
				return ast.WalkStop, err
			}
			_, _ = w.WriteString(string(html))
		}
		return ast.WalkSkipChildren, nil
	}
	html, err := listing.YAML(string(n.Lines().Value(src)))
	if err != nil {
		return ast.WalkStop, err
	}
	_, _ = w.WriteString(string(html))
	return ast.WalkSkipChildren, nil
}

// table puts the table in a box of its own that a keyboard can scroll, named
// by its header cells. A wide table stacks on a narrow screen.
func (nodes) table(w util.BufWriter, src []byte, n ast.Node, enter bool) (ast.WalkStatus, error) {
	if !enter {
		end := "</div>\n"
		if stacks(n) {
			end = "</div></div>\n"
		}
		_, _ = w.WriteString("</tbody>\n</table>" + end)
		return ast.WalkContinue, nil
	}
	class, begin := "table", "<table>"
	if leastWidth(n, src) > narrowTable {
		class, begin = "table stacks", `<div role="table"><table role="presentation">`
		n.SetAttributeString("stacks", true)
	}
	fmt.Fprintf(w, "<div class=\"%s\" role=\"region\" tabindex=\"0\" aria-label=\"%s\">%s\n", class, util.EscapeHTML([]byte(sayOf(n).Say("table.name", "table", tableName(n, src)))), begin)
	return ast.WalkContinue, nil
}

// tableName is what a table is called: its header cells, and where another table of the
// page has the same ones, the heading it stands under; under one heading they are counted.
func tableName(table ast.Node, src []byte) string {
	w, name := sayOf(table), headsOf(table, src)
	under, heading, place := "", "", 0
	same, before := 0, 0
	for c := table.OwnerDocument().FirstChild(); c != nil; c = c.NextSibling() {
		switch {
		case c.Kind() == ast.KindHeading:
			heading, before = strings.TrimSpace(plain(c, src)), 0
		case c.Kind() == extast.KindTable && headsOf(c, src) == name:
			same++
			before++
			if c == table {
				under, place = heading, before
			}
		}
	}
	if same > 1 && under != "" {
		name = w.Say("table.under", "table", name, "heading", under)
	}
	if place > 1 {
		name = w.Say("table.which", "table", name, "number", place)
	}
	return name
}

// headsOf joins a table's header cells.
func headsOf(table ast.Node, src []byte) string {
	var heads []string
	for c := table.FirstChild().FirstChild(); c != nil; c = c.NextSibling() {
		if t := strings.TrimSpace(plain(c, src)); t != "" {
			heads = append(heads, t)
		}
	}
	return sayOf(table).Row(heads...)
}

// narrowTable is how many letters stand side by side in a table on a screen of 320 px.
const narrowTable = 29

// leastWidth is how narrow a table can get, in letters: the longest word of each
// column, and one letter between two columns.
func leastWidth(table ast.Node, src []byte) int {
	var columns []int
	for row := table.FirstChild(); row != nil; row = row.NextSibling() {
		i := 0
		for c := row.FirstChild(); c != nil; c = c.NextSibling() {
			if i == len(columns) {
				columns = append(columns, 0)
			}
			for _, word := range strings.FieldsFunc(plain(c, src), func(r rune) bool { return unicode.IsSpace(r) || r == '-' }) {
				columns[i] = max(columns[i], utf8.RuneCountInString(word))
			}
			i++
		}
	}
	sum := len(columns) - 1
	for _, width := range columns {
		sum += width
	}
	return sum
}

// stacks tells whether the table around a row or a cell stacks on a narrow screen.
// There its parts are laid out as no table, and some browsers then no longer tell that
// it is one, so each part says by a role what it is. HTML allows that only where the
// table itself gives up its role, and a box around it has it.
func stacks(n ast.Node) bool {
	for ; n != nil; n = n.Parent() {
		if n.Kind() == extast.KindTable {
			_, yes := n.AttributeString("stacks")
			return yes
		}
	}
	return false
}

func (nodes) tableHeader(w util.BufWriter, _ []byte, n ast.Node, enter bool) (ast.WalkStatus, error) {
	switch {
	case !enter && stacks(n):
		_, _ = w.WriteString("</tr>\n</thead>\n<tbody role=\"rowgroup\">\n")
	case !enter:
		_, _ = w.WriteString("</tr>\n</thead>\n<tbody>\n")
	case stacks(n):
		_, _ = w.WriteString("<thead role=\"rowgroup\">\n<tr role=\"row\">\n")
	default:
		_, _ = w.WriteString("<thead>\n<tr>\n")
	}
	return ast.WalkContinue, nil
}

func (nodes) tableRow(w util.BufWriter, _ []byte, n ast.Node, enter bool) (ast.WalkStatus, error) {
	switch {
	case !enter:
		_, _ = w.WriteString("</tr>\n")
	case stacks(n):
		_, _ = w.WriteString("<tr role=\"row\">\n")
	default:
		_, _ = w.WriteString("<tr>\n")
	}
	return ast.WalkContinue, nil
}

// tableCell makes the first cell of each row its header, so that a screen
// reader says which row it is in. In a table that stacks, each other cell begins
// with the words of its column's header, which only show where it is stacked. An empty
// one has none, and does not show there.
func (nodes) tableCell(w util.BufWriter, src []byte, n ast.Node, enter bool) (ast.WalkStatus, error) {
	tag, role, scope := "td", "cell", ""
	switch {
	case n.Parent().Kind() == extast.KindTableHeader:
		tag, role, scope = "th", "columnheader", ` scope="col"`
	case n.PreviousSibling() == nil:
		tag, role, scope = "th", "rowheader", ` scope="row"`
	}
	if !enter {
		fmt.Fprintf(w, "</%s>\n", tag)
		return ast.WalkContinue, nil
	}
	if !stacks(n) {
		fmt.Fprintf(w, "<%s%s>", tag, scope)
		return ast.WalkContinue, nil
	}
	fmt.Fprintf(w, `<%s role="%s"%s>`, tag, role, scope)
	if head := columnHead(n); head != nil && tag == "td" && n.HasChildren() {
		if words := strings.TrimSpace(plain(head, src)); words != "" {
			fmt.Fprintf(w, `<span class="row">%s:</span> `, util.EscapeHTML([]byte(words)))
		}
	}
	return ast.WalkContinue, nil
}

// columnHead is the header cell above a cell; nil where there is none.
func columnHead(cell ast.Node) ast.Node {
	head := cell.Parent().Parent().FirstChild().FirstChild()
	for c := cell.PreviousSibling(); c != nil && head != nil; c = c.PreviousSibling() {
		head = head.NextSibling()
	}
	return head
}

// headingIDs gives the headings of one page their ids. It holds each id given,
// with the number that the next one of the same words would get.
type headingIDs map[string]int

// next makes a heading's id out of its words, in any script, with a number
// behind it where the page has that id already.
func (h headingIDs) next(words string) string {
	id := strings.Join(strings.FieldsFunc(strings.ToLower(words), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r)
	}), "-")
	if id == "" {
		id = "section"
	}
	base := id
	for h[id] > 0 {
		h[base]++
		id = base + "-" + strconv.Itoa(h[base])
	}
	h[id] = 1
	return id
}
