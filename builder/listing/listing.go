// Package listing colours YAML listings for a page, with classes and no inline
// style. It uses chroma's engine with a lexer of our own, because chroma's full
// set of lexers would triple the size of the program.
package listing

import (
	"fmt"
	"html/template"
	"strings"

	"github.com/alecthomas/chroma/v2"
	"github.com/alecthomas/chroma/v2/formatters/html"
)

// yaml knows the plain part of YAML that Keelpath's files use: comments, keys,
// texts in quotes, lists and maps on one line, and texts over many lines.
var yaml = chroma.MustNewLexer(
	&chroma.Config{Name: "YAML", EnsureNL: true},
	func() chroma.Rules {
		return chroma.Rules{
			"root": {
				{Pattern: `[ \t]+`, Type: chroma.TextWhitespace},
				{Pattern: `\n`, Type: chroma.TextWhitespace},
				{Pattern: `#[^\n]*`, Type: chroma.CommentSingle},
				{Pattern: `---(?=\s)`, Type: chroma.Punctuation},
				{Pattern: `-(?=\s)`, Type: chroma.Punctuation},
				{Pattern: `("[^"\n]*"|'[^'\n]*'|[A-Za-z0-9_-][^:#\n{}\[\],"']*)(?=:(\s|$))`, Type: chroma.NameTag},
				{Pattern: `[{}\[\],:]`, Type: chroma.Punctuation},
				{Pattern: `[|>][+-]?(?=\s)`, Type: chroma.Punctuation},
				{Pattern: `"(\\.|[^"\\])*"`, Type: chroma.LiteralString},
				{Pattern: `'[^']*'`, Type: chroma.LiteralString},
				{Pattern: `(true|false)(?=[\s,}\]])`, Type: chroma.KeywordConstant},
				{Pattern: `\d{4}-\d\d-\d\d(?=\s)`, Type: chroma.LiteralDate},
				{Pattern: `-?\d+(\.\d+)?(?=[\s,}\]])`, Type: chroma.LiteralNumber},
				{Pattern: `[^\s{}\[\],:"'#][^\n{}\[\],:]*`, Type: chroma.Text},
				{Pattern: `.`, Type: chroma.Text},
			},
		}
	},
)

var formatter = html.New(html.WithClasses(true), html.ClassPrefix("y-"), html.WithPreWrapper(wrapper{}))

// wrapper lets a keyboard scroll a long line.
type wrapper struct{}

func (wrapper) Start(code bool, _ string) string {
	return `<pre class="listing" tabindex="0" role="region" aria-label="Listing"><code>`
}
func (wrapper) End(bool) string { return "</code></pre>\n" }

// YAML gives src as HTML whose parts carry classes.
func YAML(src string) (template.HTML, error) {
	tokens, err := yaml.Tokenise(nil, src)
	if err != nil {
		return "", fmt.Errorf("colour a listing: %w", err)
	}
	var b strings.Builder
	// An empty style: every colour comes from the site's own style sheet.
	if err := formatter.Format(&b, chroma.MustNewStyle("none", chroma.StyleEntries{}), tokens); err != nil {
		return "", fmt.Errorf("colour a listing: %w", err)
	}
	return template.HTML(b.String()), nil
}
