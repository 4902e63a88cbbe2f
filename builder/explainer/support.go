package explainer

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"keelpath/builder/finding"
	"keelpath/builder/say"
)

// Support says how sure a claim is. An author writes it behind the citation:
// "[](support:some)".
type Support struct {
	ID    string
	Words say.Name // as a page shows them
	Means say.Name
}

// Supports are all there are, from the surest down.
var Supports = []Support{
	{"well", "support.well", "support.well-means"}, {"some", "support.some", "support.some-means"},
	{"little", "support.little", "support.little-means"}, {"trade", "support.trade", "support.trade-means"},
}

// SupportIDs gives their IDs in that order.
func SupportIDs() []string {
	var ids []string
	for _, s := range Supports {
		ids = append(ids, s.ID)
	}
	return ids
}

// SupportByID gives the one with that ID; where there is none, its ID is empty.
func SupportByID(id string) Support {
	if i := slices.IndexFunc(Supports, func(s Support) bool { return s.ID == id }); i >= 0 {
		return Supports[i]
	}
	return Support{}
}

// support checks a mark of certainty.
func (c *checker) support(n *ast.Link, id string, at finding.Place) {
	ids := SupportIDs()
	if !slices.Contains(ids, id) {
		c.list.Add(at, "unknown-name", fmt.Sprintf("the mark says that a claim has the support %q, and there is none", id),
			append(finding.NearestHelp(id, ids, nil), "allowed: "+strings.Join(ids, ", "))...)
	}
	if n.FirstChild() != nil {
		c.list.Add(at, "citation", fmt.Sprintf("the mark %q has words of its own, and the same words stand for it on every page", id),
			`leave the brackets empty: "[](support:`+id+`)"`)
	}
}

// mark is a few words about a claim that lead to more: how sure it is, or what
// source it rests on. Marks side by side share their brackets.
type mark struct {
	ast.BaseInline
	words, url string
	newTab     bool
	glued      bool // nothing parts it from the word before it
}

var kindMark = ast.NewNodeKind("Mark")

func (m *mark) Kind() ast.NodeKind            { return kindMark }
func (m *mark) Dump(source []byte, level int) { ast.DumpHelper(m, source, level, nil, nil) }

// support puts the words of a mark, or nothing where marks are left out.
func (w *writer) support(l *ast.Link, id string) {
	s := SupportByID(id)
	if w.o.Unmarked || s.ID == "" {
		l.Parent().RemoveChild(l.Parent(), l)
		return
	}
	words := w.o.say().Say(s.Words)
	if w.o.Partly != nil && len(w.behind[l]) > 0 {
		if partly := w.o.Partly(w.behind[l]); partly != "" {
			words = w.o.say().Say("support.partly", "support", words, "partly", partly)
		}
	}
	w.mark(l, words, "support", id)
}

// citedBefore gives for each mark of certainty the sources that stand right before
// it, with nothing but blanks between them.
func (w *writer) citedBefore(links []*ast.Link) map[*ast.Link][]string {
	out := map[*ast.Link][]string{}
	for _, l := range links {
		if kind, _, _ := strings.Cut(string(l.Destination), ":"); kind != "support" {
			continue
		}
		for n := l.PreviousSibling(); n != nil; n = n.PreviousSibling() {
			if text, ok := n.(*ast.Text); ok && len(bytes.TrimSpace(text.Segment.Value(w.doc.src))) == 0 {
				continue
			}
			source, ok := n.(*ast.Link)
			if !ok {
				break
			}
			kind, id, _ := strings.Cut(string(source.Destination), ":")
			if kind != "source" {
				break
			}
			out[l] = append(out[l], id)
		}
	}
	return out
}

func (w *writer) mark(l *ast.Link, words, kind, id string) {
	l.Parent().ReplaceChild(l.Parent(), l, &mark{words: words, url: w.o.Target(kind, id).URL, newTab: w.o.NewTab})
}

// join drops the blanks between marks, and sees to one before the first of them:
// an author may write a mark straight behind the full stop.
func (w *writer) join(root ast.Node) {
	var marks []*mark
	_ = ast.Walk(root, func(n ast.Node, enter bool) (ast.WalkStatus, error) {
		if m, ok := n.(*mark); ok && enter {
			marks = append(marks, m)
		}
		return ast.WalkContinue, nil
	})
	for _, m := range marks {
		before, ok := m.PreviousSibling().(*ast.Text)
		if !ok {
			m.glued = m.PreviousSibling() != nil && !isMark(m.PreviousSibling())
			continue
		}
		words := before.Segment.Value(w.doc.src)
		switch {
		case len(bytes.TrimSpace(words)) == 0 && isMark(before.PreviousSibling()):
			m.Parent().RemoveChild(m.Parent(), before)
		case !before.SoftLineBreak():
			m.glued = len(bytes.TrimRight(words, " ")) == len(words)
		}
	}
}

func isMark(n ast.Node) bool { return n != nil && n.Kind() == kindMark }

// opening is what stands before a mark, and closing what stands behind it.
func (m *mark) opening() string {
	switch {
	case isMark(m.PreviousSibling()):
		return "; "
	case m.glued:
		return " ("
	}
	return "("
}

func (m *mark) closing() string {
	if isMark(m.NextSibling()) {
		return ""
	}
	return ")"
}

func (nodes) mark(w util.BufWriter, _ []byte, n ast.Node, enter bool) (ast.WalkStatus, error) {
	if !enter {
		return ast.WalkContinue, nil
	}
	m := n.(*mark)
	tab, before, behind := "", m.opening(), m.closing()
	if m.newTab {
		tab = ` target="_blank"`
	}
	if lead, open := strings.CutSuffix(before, "("); open {
		before = lead + `<span class="support">(`
	}
	if behind == ")" {
		behind = `)</span>`
	}
	fmt.Fprintf(w, `%s<a href="%s"%s>%s</a>%s`, before, util.EscapeHTML(util.URLEscape([]byte(m.url), false)), tab, util.EscapeHTML([]byte(m.words)), behind)
	return ast.WalkContinue, nil
}
