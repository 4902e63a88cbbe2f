package explainer

import (
	"fmt"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"keelpath/builder/finding"
)

// Support says how sure a claim is. An author writes it behind the citation:
// "[](support:some)".
type Support struct {
	ID    string
	Words string // as a page shows them
	Means string
}

// Supports are all there are, from the surest down.
var Supports = []Support{
	{"well", "well supported", "Reviews of many studies agree, or a guideline rests on them."},
	{"some", "some support", "A few studies, one large study or one review point this way. New ones could change it."},
	{"little", "little studied", "There is one small study, or studies that do not agree, or none that we found. Take it as a hint."},
	{"trade", "trade practice", "Clinics do it this way. We know of no study that tested it."},
}

func supportByID(id string) (Support, bool) {
	i := slices.IndexFunc(Supports, func(s Support) bool { return s.ID == id })
	if i < 0 {
		return Support{}, false
	}
	return Supports[i], true
}

// support checks a mark of certainty.
func (c *checker) support(n *ast.Link, id string, at finding.Place) {
	var ids []string
	for _, s := range Supports {
		ids = append(ids, s.ID)
	}
	if !slices.Contains(ids, id) {
		c.list.Add(at, "unknown-name", fmt.Sprintf("the mark says that a claim has the support %q, and there is none", id),
			append(finding.NearestHelp(id, ids, nil), "allowed: "+strings.Join(ids, ", "))...)
	}
	if n.FirstChild() != nil {
		c.list.Add(at, "citation", fmt.Sprintf("the mark %q has words of its own, and the same words stand for it on every page", id),
			`leave the brackets empty: "[](support:`+id+`)"`)
	}
}

// mark is how sure a claim is, as a few words that lead to what they mean.
type mark struct {
	ast.BaseInline
	words, url string
	newTab     bool
}

var kindMark = ast.NewNodeKind("Mark")

func (m *mark) Kind() ast.NodeKind            { return kindMark }
func (m *mark) Dump(source []byte, level int) { ast.DumpHelper(m, source, level, nil, nil) }

// support puts the words of a mark, or nothing where marks are left out.
func (w *writer) support(l *ast.Link, id string) {
	s, ok := supportByID(id)
	if w.o.Unmarked || !ok {
		l.Parent().RemoveChild(l.Parent(), l)
		return
	}
	l.Parent().ReplaceChild(l.Parent(), l, &mark{words: s.Words, url: w.o.Target("support", id).URL, newTab: w.o.NewTab})
}

func (nodes) mark(w util.BufWriter, _ []byte, n ast.Node, enter bool) (ast.WalkStatus, error) {
	if enter {
		m := n.(*mark)
		tab := ""
		if m.newTab {
			tab = ` target="_blank"`
		}
		fmt.Fprintf(w, `<span class="support">(<a href="%s"%s>%s</a>)</span>`, util.EscapeHTML(util.URLEscape([]byte(m.url), false)), tab, m.words)
	}
	return ast.WalkContinue, nil
}
