package explainer

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"keelpath/builder/say"
)

// Text gives the words of the text without marks, blocks parted by line
// breaks. Links without a text of their own get their target's title. Citations
// are sources by their names, with how sure a claim is and whether they were read
// partly, in the words of words; where name is nil, all three are left out.
func (d *Doc) Text(words *say.Words, target func(kind, id string) Target, name func(id string) string, partly func(ids []string) string) string {
	root := d.parse()
	w := &writer{doc: d, o: Options{Say: words, Target: target, Name: name, Partly: partly, Unmarked: name == nil}, ids: headingIDs{}}
	w.rewrite(root)
	var blocks []string
	_ = ast.Walk(root, func(n ast.Node, enter bool) (ast.WalkStatus, error) {
		if enter && n.Type() == ast.TypeBlock && n.FirstChild() != nil && n.FirstChild().Type() == ast.TypeInline {
			blocks = append(blocks, plain(n, d.src))
		}
		return ast.WalkContinue, nil
	})
	return strings.Join(blocks, "\n")
}
