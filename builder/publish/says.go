package publish

import (
	"errors"
	"fmt"
	"html/template"
	"keelpath/builder/drawing"
	"slices"
	"strings"
	"text/template/parse"

	"keelpath/builder/library"
	"keelpath/builder/say"
)

// functions are what templates may call. What they say is in the language of w.
func functions(w *say.Words) template.FuncMap {
	return template.FuncMap{
		"say":  w.Show,                                                   // a text by its name, and what its gaps are filled with
		"said": func(name say.Name) (any, error) { return w.Show(name) }, // a name that Go gave
		"tag":  say.Tag, "link": say.Link,
		"number":    w.Number,
		"year":      w.Year,
		"links":     func(to []LinkView) template.HTML { return links(w, to) },
		"themes":    func(to []LinkView) template.HTML { return themeLinks(w, to) },
		"at":        func(way *WayView) (say.Element, error) { return say.Link("#at-" + way.Tree + "-" + way.ID) },
		"place":     func(way *WayView) string { return place(w, way) },
		"score":     func(s scoreView) string { return scoreWords(w, s) },
		"pageScore": func(s scoreView) string { return pageScoreWords(w, s) },
		"quoted":    func(to []LinkView) (template.HTML, error) { return quoted(w, to) },
		"apart":     func(texts []string) template.HTML { return w.ApartTexts(texts...) },
		"bold":      func(html template.HTML) template.HTML { return "<strong>" + html + "</strong>" },
		"tile":      tileOf,
		"whom":      func() template.HTML { return everyWhom(w) },
		"listed":    func(last string, names []string) (string, error) { return listed(w, last, names) },
		"join":      func(sep string, parts []string) string { return strings.Join(parts, sep) },

		// What these two show is made once for all pages, by the maker that the templates belong to.
		"source": func(SourceView) (template.HTML, error) { return "", errNoMaker },
		"prompt": func(PromptView) (template.HTML, error) { return "", errNoMaker },
	}
}

// tileOf is a tile by its name, at its usual amount.
func tileOf(name string) (template.HTML, error) {
	t, ok := drawing.TileAt(name, drawing.Usual(name))
	if !ok {
		return "", fmt.Errorf("no tile %q", name)
	}
	return t.SVG(), nil
}

var errNoMaker = errors.New("the templates belong to no maker")

// listed joins names as one says them: "a", "a or b", "a, b or c".
func listed(w *say.Words, last string, names []string) (string, error) {
	switch last {
	case "and":
		return w.And(names...), nil
	case "or":
		return w.Or(names...), nil
	}
	return "", fmt.Errorf("a list is joined by %q or %q, and not by %q", "and", "or", last)
}

// links names what they lead to, one after the other.
func links(w *say.Words, to []LinkView) template.HTML {
	return apart(w, to, func(l LinkView) template.HTML { return template.HTML(template.HTMLEscapeString(l.Title)) })
}

// themeLinks is links for questions about themes, which say so to those who hear them.
func themeLinks(w *say.Words, to []LinkView) template.HTML {
	unseen, err := say.Tag("span", "class", "unseen")
	if err != nil {
		panic(err) // it is one that there is
	}
	return apart(w, to, func(l LinkView) template.HTML { return w.HTML("by-hand.about", "unseen", unseen, "theme", l.Title) })
}

// quoted names what links lead to as a sentence does, in quotes.
func quoted(w *say.Words, to []LinkView) (template.HTML, error) {
	var out []template.HTML
	for _, l := range to {
		link, err := say.Link(l.URL)
		if err != nil {
			return "", err
		}
		out = append(out, w.HTML("pulls.ways", "link", link, "page", l.Title))
	}
	return w.AndHTML(out...), nil
}

// apart sets links apart, each around its words.
func apart(w *say.Words, to []LinkView, words func(LinkView) template.HTML) template.HTML {
	var out []template.HTML
	for _, l := range to {
		out = append(out, template.HTML(`<a href="`+template.HTMLEscapeString(l.URL)+`">`)+words(l)+"</a>")
	}
	return w.Apart(out...)
}

// whomWords says whom a prompt is for, as the reader would.
var whomWords = map[string]say.Name{
	"prosthetist": "whom.prosthetist", "physician": "whom.physician", "therapist": "whom.therapist", "payer": "whom.payer", "myself": "whom.myself",
}

// everyWhom has everybody whom a prompt can be for; the planner's script leaves those that one is for.
func everyWhom(w *say.Words) template.HTML {
	out := template.HTML(`<span class="whom">`)
	for _, id := range library.Whom {
		out += template.HTML(`<span data-whom="`+id+`">`) + w.HTML(whomWords[id]) + "</span>"
	}
	return out + "</span>"
}

// place names where a way leads: the number on the page, and an ending's title.
func place(w *say.Words, to *WayView) string {
	if to.Ending {
		return w.Say("by-hand.ending", "number", to.Number, "title", to.Title)
	}
	return w.Number(to.Number)
}

// use is one place where a template says something.
type use struct {
	at   string // template and line
	name say.Name
	gaps []string // as Words.Gaps has them, but for the stroke behind an element's
}

// uses finds all that templates say. The error is about a call that can be understood
// only as it runs.
func uses(ts *template.Template) ([]use, error) {
	var out []use
	var err error
	for _, t := range ts.Templates() {
		if t.Tree == nil {
			continue
		}
		eachCommand(t.Tree.Root, func(c *parse.CommandNode) {
			u, is, fault := useOf(t.Tree, c)
			if fault != nil && err == nil {
				err = fault
			}
			if is {
				out = append(out, u)
			}
		})
	}
	return out, err
}

func useOf(t *parse.Tree, c *parse.CommandNode) (u use, is bool, err error) {
	if id, ok := c.Args[0].(*parse.IdentifierNode); !ok || id.Ident != "say" {
		return use{}, false, nil
	}
	u.at, _ = t.ErrorContext(c)
	if len(c.Args)%2 != 0 {
		return use{}, false, fmt.Errorf("%s: a name was expected, and gaps each with what fills it", u.at)
	}
	for i, arg := range c.Args[1:] {
		s, ok := arg.(*parse.StringNode)
		switch {
		case i > 0 && i%2 == 0: // what fills a gap
		case !ok:
			return use{}, false, fmt.Errorf("%s: %s stands where a name must be written out", u.at, arg)
		case i == 0:
			u.name = say.Name(s.Text)
		default:
			u.gaps = append(u.gaps, s.Text)
		}
	}
	slices.Sort(u.gaps)
	return u, true, nil
}

// eachCommand calls do for every call in a part of a template.
func eachCommand(n parse.Node, do func(*parse.CommandNode)) {
	list := func(l *parse.ListNode) {
		if l != nil {
			for _, n := range l.Nodes {
				eachCommand(n, do)
			}
		}
	}
	branch := func(b parse.BranchNode) {
		eachCommand(b.Pipe, do)
		list(b.List)
		list(b.ElseList)
	}
	switch n := n.(type) {
	case *parse.ListNode:
		list(n)
	case *parse.ActionNode:
		eachCommand(n.Pipe, do)
	case *parse.IfNode:
		branch(n.BranchNode)
	case *parse.RangeNode:
		branch(n.BranchNode)
	case *parse.WithNode:
		branch(n.BranchNode)
	case *parse.TemplateNode:
		if n.Pipe != nil {
			eachCommand(n.Pipe, do)
		}
	case *parse.PipeNode:
		for _, c := range n.Cmds {
			do(c)
			for _, a := range c.Args {
				eachCommand(a, do)
			}
		}
	}
}

// sayable holds what the templates say against the words: each name is there, with the gaps that are filled.
func sayable(ts *template.Template, w *say.Words) error {
	all, err := uses(ts)
	if err != nil {
		return err
	}
	for _, u := range all {
		if err := u.fits(w); err != nil {
			return err
		}
	}
	return nil
}

func (u use) fits(w *say.Words) error {
	if !w.Has(u.name) {
		return fmt.Errorf("%s: there is no text %q", u.at, u.name)
	}
	var has []string
	for _, g := range w.Gaps(u.name) {
		has = append(has, strings.TrimSuffix(g, "/"))
	}
	slices.Sort(has)
	if !slices.Equal(has, u.gaps) {
		return fmt.Errorf("%s: the text %q has the gaps %q, and filled are %q", u.at, u.name, has, u.gaps)
	}
	return nil
}
