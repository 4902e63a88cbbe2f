package explainer

import (
	"bytes"
	"regexp"
	"sort"

	"github.com/yuin/goldmark/ast"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/util"

	"keelpath/builder/finding"
)

// BlockKind says what a block of text is.
type BlockKind string

const (
	Paragraph BlockKind = "paragraph"
	Item      BlockKind = "item" // of a list
	Title     BlockKind = "heading"
	Cell      BlockKind = "cell"    // of a table
	Picture   BlockKind = "picture" // the words of one
)

// Block is one block of a text without its marks: a paragraph, a list entry, a
// heading, a cell or the words of a picture.
type Block struct {
	Kind BlockKind
	Text string
	Lead string // the bold words that it begins with, which Text begins with too
	Refs []Ref  // links by id in it
	Row  int    // of a cell: the table row that it stands in, counted through the whole text

	at   func(offset int) finding.Place
	from []step
}

// step says that the block's text from the byte text on stands in the file from
// the byte file on.
type step struct{ text, file int }

// Place gives the place of a byte of the block's text.
func (b Block) Place(offset int) finding.Place {
	i := sort.Search(len(b.from), func(i int) bool { return b.from[i].text > offset }) - 1
	if i < 0 {
		return b.at(0)
	}
	return b.at(b.from[i].file + offset - b.from[i].text)
}

// block gives a block, and where in its text each link and call stands.
func (d *Doc) block(n ast.Node) (Block, map[ast.Node]int) {
	b, links := Block{Kind: kindOf(n), at: d.at}, map[ast.Node]int{}
	var text []byte
	add := func(at int, words []byte) {
		b.from = append(b.from, step{len(text), at})
		text = append(text, words...)
	}
	_ = ast.Walk(n, func(c ast.Node, enter bool) (ast.WalkStatus, error) {
		if !enter {
			return ast.WalkContinue, nil
		}
		switch c := c.(type) {
		case *ast.Link:
			links[c] = len(text)
		case *ast.Text:
			raw := c.Segment.Value(d.src)
			// Where nothing stands for another sign, the text is taken as it is.
			whole := c.Parent().Kind() == ast.KindCodeSpan || !bytes.ContainsAny(raw, `\&`)
			for i := 0; i < len(raw); {
				n := len(raw) - i
				if !whole {
					n = nextEscape(raw[i:])
				}
				if n == 0 { // an escape: "\*" or "&amp;"
					n = escape.FindIndex(raw[i:])[1]
					add(c.Segment.Start+i, unescaped(raw[i:i+n]))
				} else {
					add(c.Segment.Start+i, raw[i:i+n])
				}
				i += n
			}
			if c.SoftLineBreak() || c.HardLineBreak() {
				add(c.Segment.Stop, []byte(" "))
			}
		case *ast.String:
			text = append(text, c.Value...)
		case *call:
			links[c] = len(text)
			add(max(c.Pos(), 0), []byte(c.words.Plain()))
		case *gap:
			add(max(c.Pos(), 0), []byte(c.plain()))
		}
		return ast.WalkContinue, nil
	})
	b.Text = string(text)
	if e, ok := n.FirstChild().(*ast.Emphasis); ok && e.Level == 2 {
		b.Lead = plain(e, d.src)
	}
	return b, links
}

// escape is what stands for another sign.
var escape = regexp.MustCompile(`\\[!-/:-@\[-` + "`" + `{-~]|&[#A-Za-z0-9]+;`)

// nextEscape says how many bytes come before the next escape.
func nextEscape(raw []byte) int {
	if m := escape.FindIndex(raw); m != nil {
		return m[0]
	}
	return len(raw)
}

// unescaped gives a text with its escapes and references as what they stand for.
func unescaped(v []byte) []byte {
	return util.UnescapePunctuations(util.ResolveEntityNames(util.ResolveNumericReferences(v)))
}

func kindOf(n ast.Node) BlockKind {
	for p := n; p != nil; p = p.Parent() {
		switch p.Kind() {
		case ast.KindHeading:
			return Title
		case extast.KindTableCell:
			return Cell
		case ast.KindListItem:
			return Item
		}
	}
	return Paragraph
}
