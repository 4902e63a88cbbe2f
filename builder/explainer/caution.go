package explainer

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"keelpath/builder/finding"
)

// Caution is a part of a page that may keep a reader from harm: a block quote that
// begins with a bold word, or a paragraph, an entry or a row that says whom to call.
type Caution struct {
	Text    string // its words, blocks and cells parted by line breaks
	Section string // the heading above it; empty at the top
	Behind  int    // how many blocks stand before it
	At      finding.Place
}

func (c *checker) caution(n ast.Node) {
	d := c.doc
	out := Caution{Behind: len(d.Blocks), At: d.at(firstByte(n))}
	if k := len(d.Headings); k > 0 {
		out.Section = d.Headings[k-1].Text
	}
	var words []string
	_ = ast.Walk(n, func(n ast.Node, enter bool) (ast.WalkStatus, error) {
		if enter && n.Type() == ast.TypeBlock && n.FirstChild() != nil && n.FirstChild().Type() == ast.TypeInline {
			words = append(words, plain(n, d.src))
		}
		return ast.WalkContinue, nil
	})
	out.Text = strings.Join(words, "\n")
	d.Cautions = append(d.Cautions, out)
}

// firstByte is where the words of a node begin.
func firstByte(n ast.Node) int {
	first := -1
	_ = ast.Walk(n, func(n ast.Node, enter bool) (ast.WalkStatus, error) {
		if first >= 0 {
			return ast.WalkStop, nil
		}
		switch n := n.(type) {
		case *ast.Text:
			first = n.Segment.Start
		case *call:
			first = n.Pos()
		}
		return ast.WalkContinue, nil
	})
	return max(first, 0)
}

// holdsCall tells whether a node says whom to call.
func holdsCall(n ast.Node) bool {
	found := false
	_ = ast.Walk(n, func(n ast.Node, _ bool) (ast.WalkStatus, error) {
		_, is := n.(*call)
		found = found || is
		return ast.WalkContinue, nil
	})
	return found
}

func insideCaution(n ast.Node) bool {
	for ; n != nil; n = n.Parent() {
		if b, ok := n.(*ast.Blockquote); ok && isCaution(b) {
			return true
		}
	}
	return false
}
