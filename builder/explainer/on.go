package explainer

import (
	"fmt"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"keelpath/builder/finding"
)

// media are where words can stand alone: "[Select a row.](on:screen)".
var media = []string{"screen", "paper"}

// on holds words that are shown on a screen only, or on paper only.
type on struct {
	ast.BaseInline
	medium string
}

var kindOn = ast.NewNodeKind("On")

func (o *on) Kind() ast.NodeKind            { return kindOn }
func (o *on) Dump(source []byte, level int) { ast.DumpHelper(o, source, level, nil, nil) }

// on checks words that are marked as for a screen or for paper.
func (c *checker) on(n *ast.Link, medium string, at finding.Place) {
	if !slices.Contains(media, medium) {
		c.list.Add(at, "unknown-name", fmt.Sprintf("the words are for %q, and there is no such place to read them", medium), "allowed: on:"+strings.Join(media, ", on:"))
	}
	if n.FirstChild() == nil {
		c.list.Add(at, "empty-text", fmt.Sprintf("%q has no words", "on:"+medium), `write them between the brackets: "[the words](on:`+medium+`)"`)
	}
}

// on puts the words where a link stood.
func (w *writer) on(l *ast.Link, medium string) {
	o := &on{medium: medium}
	for c := l.FirstChild(); c != nil; {
		next := c.NextSibling()
		o.AppendChild(o, c)
		c = next
	}
	l.Parent().ReplaceChild(l.Parent(), l, o)
}

func (nodes) on(w util.BufWriter, _ []byte, n ast.Node, enter bool) (ast.WalkStatus, error) {
	if enter {
		fmt.Fprintf(w, `<span class="on-%s">`, n.(*on).medium)
	} else {
		_, _ = w.WriteString("</span>")
	}
	return ast.WalkContinue, nil
}
