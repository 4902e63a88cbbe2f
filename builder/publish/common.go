package publish

import (
	"fmt"
	"html/template"
	"slices"
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/library"
	"keelpath/builder/read"
	"keelpath/builder/say"
)

// text renders a short markdown text of a tree or a card. It has no list of
// sources below it, so it carries no citation marks; words gathers the glossary
// words it uses.
func (v viewer) text(t read.Text) (html template.HTML, words []WordView, err error) {
	o := v.options()
	o.Unmarked = true
	return v.rendered(t, o)
}

// told renders an ending's text or caution, which says what it rests on and how sure that
// is: each source by its kind and year, and by its number where all are listed
// below.
func (v viewer) told(t read.Text, listed []read.Text) (html template.HTML, words []WordView, err error) {
	o := v.options()
	number := func(id string) int { return slices.Index(read.Strings(listed), id) + 1 }
	o.Name = func(id string) string {
		if n := number(id); n > 0 {
			return v.say().Say("sources.numbered", "number", n, "source", v.shelf.SourceName(id))
		}
		return v.shelf.SourceName(id)
	}
	o.Target = func(kind, id string) explainer.Target {
		if n := number(id); kind == "source" && n > 0 {
			return explainer.Target{URL: fmt.Sprintf("#source-%d", n)}
		}
		return v.target(kind, id)
	}
	return v.rendered(t, o)
}

func (v viewer) rendered(t read.Text, o explainer.Options) (html template.HTML, words []WordView, err error) {
	if !t.Given() {
		return "", nil, nil
	}
	doc := v.shelf.Doc(t)
	out, err := doc.HTML(o)
	return out.HTML, v.wordsIn(doc.Plain...), err
}

// wordsIn gives the glossary words that the texts use, each once.
func (v viewer) wordsIn(texts ...string) []WordView {
	var out []WordView
	for _, id := range v.shelf.Forms().In(strings.Join(texts, "\n")) {
		w := v.shelf.Word(id)
		out = append(out, WordView{Word: w.Word.S, Meaning: w.Meaning.S, URL: v.word(id)})
	}
	return out
}

func (v viewer) prompt(p *library.Prompt) PromptView {
	out := PromptView{ID: p.ID.S, Ask: p.Plain(), Why: p.Why.S, Sources: v.sourceLinks(p.Basis)}
	for _, w := range p.Whom {
		out.Whom = append(out.Whom, v.say().Say(whomWords[w.S]))
	}
	return out
}

func (v viewer) prompts(ids []read.Text) []PromptView {
	var out []PromptView
	for _, id := range ids {
		out = append(out, v.prompt(v.shelf.Prompt(id.S)))
	}
	return out
}

// sourceLinks leads to entries of the bibliography; common practice has none.
func (v viewer) sourceLinks(ids []read.Text) []LinkView {
	var out []LinkView
	for _, id := range ids {
		if s := v.shelf.Source(id.S); s != nil {
			out = append(out, LinkView{ID: id.S, Title: s.Title.S, URL: v.source(id.S)})
		}
	}
	return out
}

// opening are the sources of the questions that open every sheet, each once.
func (v viewer) opening() []LinkView {
	var ids []read.Text
	for _, p := range v.shelf.General() {
		for _, id := range p.Basis {
			if !slices.ContainsFunc(ids, func(had read.Text) bool { return had.S == id.S }) {
				ids = append(ids, id)
			}
		}
	}
	return v.sourceLinks(ids)
}

// seenWords says how much of a source was read.
var seenWords = map[string]say.Name{"page": "seen.page", "abstract": "seen.abstract", "opening": "seen.opening", "summary": "seen.summary"}

// bibliography gives the sources with these ids; numbered from 1 if numbered is set.
func (v viewer) bibliography(ids []string, numbered bool) []SourceView {
	var out []SourceView
	for i, id := range ids {
		s := v.sourceView(v.shelf.Source(id))
		if numbered {
			s.Number = i + 1
		}
		out = append(out, s)
	}
	return out
}

func (v viewer) sourceView(s *library.Source) SourceView {
	return SourceView{
		ID: s.ID.S, Title: s.Title.S, By: s.By.S, Year: s.Year, Where: s.Where.S, Note: s.Note.S,
		Address: s.Address.S, Seen: v.say().Say(seenWords[s.Seen.S]), URL: v.source(s.ID.S),
	}
}
