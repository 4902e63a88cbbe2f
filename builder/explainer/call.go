package explainer

import (
	"fmt"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"keelpath/builder/finding"
	"keelpath/builder/helpline"
)

// call says whom to call. An author writes "[](call:emergency)", and the words
// with the edition's number stand there.
type call struct {
	ast.BaseInline
	id    string
	words helpline.Words
}

var kindCall = ast.NewNodeKind("Call")

func (c *call) Kind() ast.NodeKind            { return kindCall }
func (c *call) Dump(source []byte, level int) { ast.DumpHelper(c, source, level, nil, nil) }

// putCalls puts a call in the place of each link that is meant as one. Links
// that are wrong stay as they are, for the checker to see.
func (d *Doc) putCalls(root ast.Node) {
	var links []*ast.Link
	_ = ast.Walk(root, func(n ast.Node, enter bool) (ast.WalkStatus, error) {
		if l, ok := n.(*ast.Link); ok && enter && l.FirstChild() == nil {
			links = append(links, l)
		}
		return ast.WalkContinue, nil
	})
	for _, l := range links {
		if id, ok := strings.CutPrefix(string(l.Destination), "call:"); ok && slices.Contains(helpline.IDs, id) {
			c := &call{id: id, words: d.lines.Behind(id, d.before(l))}
			c.SetPos(l.Pos())
			l.Parent().ReplaceChild(l.Parent(), l, c)
		}
	}
}

// before gives the words that stand before n in its block.
func (d *Doc) before(n ast.Node) string {
	out := ""
	for ; n != nil && n.Type() == ast.TypeInline; n = n.Parent() {
		for s := n.PreviousSibling(); s != nil; s = s.PreviousSibling() {
			out = plain(s, d.src) + out
		}
	}
	return out
}

// call reports a link that is meant as a call and cannot be one.
func (c *checker) call(n *ast.Link, id string, at finding.Place) {
	if !slices.Contains(helpline.IDs, id) {
		c.list.Add(at, "unknown-name", fmt.Sprintf("the text says to call %q, and there is no such line", id),
			append(finding.NearestHelp(id, helpline.IDs, nil), "allowed: "+strings.Join(helpline.IDs, ", "))...)
	}
	if n.FirstChild() != nil {
		c.list.Add(at, "citation", fmt.Sprintf("the link %q has words of its own, and the edition's words stand there", "call:"+id),
			`leave the brackets empty: "[](call:`+id+`)"`)
	}
}

func (nodes) call(w util.BufWriter, _ []byte, n ast.Node, enter bool) (ast.WalkStatus, error) {
	if enter {
		_, _ = w.WriteString(string(n.(*call).words.HTML()))
	}
	return ast.WalkContinue, nil
}
