package publish

import (
	"cmp"
	"fmt"
	"html/template"
	"slices"
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/library"
)

// safetyTree is the tree that a reader with a fresh worry is sent to.
const safetyTree = "something-changed"

// homeView is the front door. Safety is nil where the edition has no such tree.
type homeView struct {
	PageView
	Safety *LinkView
}

func (m *maker) homePage() page {
	return page{
		name: homeName, title: "Questions to bring about your artificial foot", template: "home", credits: m.siteCredits(),
		description: "Answer a few questions about your day and get one page of questions for your prosthetist. Nothing you answer leaves your screen.",
		model: func(v viewer, p PageView) (any, error) {
			out := homeView{PageView: p}
			if t := m.lib.Tree(safetyTree); t != nil {
				link := v.treeLink(t)
				out.Safety = &link
			}
			return out, nil
		},
	}
}

// learnView lists the explainers by part.
type learnView struct {
	PageView
	Parts []partView
}

type partView struct {
	ID, Title, About string
	Pages            []pageLinkView
}

// partID names a part's heading on the learn page.
func partID(i int) string { return fmt.Sprintf("part-%d", i+1) }

// forResidents tells whether a part has pages and none of them is for patients.
func forResidents(p *library.Part) bool {
	return len(p.Explainers) > 0 && !slices.ContainsFunc(p.Explainers, func(e *explainer.Page) bool { return e.Audience.S == audiencePatient })
}

// pageLinkView is a link to a page with one sentence on what it says.
type pageLinkView struct {
	LinkView
	Message  string
	Resident bool
}

func (m *maker) learnPage() page {
	return page{
		name: learnName, title: "Learn", room: "learn", template: "learn", credits: m.siteCredits(),
		description: "How artificial feet work, what you gain and give up with each kind, and what happens at a visit.",
		model: func(v viewer, p PageView) (any, error) {
			out := learnView{PageView: p}
			for i, part := range m.lib.Parts {
				view := partView{ID: partID(i), Title: part.Title.S, About: part.About.S}
				for _, e := range part.Explainers {
					view.Pages = append(view.Pages, pageLinkView{
						LinkView{e.ID, e.Title.S, v.explainer(e.ID)}, e.Message.S, e.Audience.S != audiencePatient,
					})
				}
				out.Parts = append(out.Parts, view)
			}
			return out, nil
		},
	}
}

// explainerView is one explainer with its sources in the order of their numbers.
type explainerView struct {
	PageView
	Message  string
	Resident bool
	Sections []explainer.Heading // to jump to; nil on a page of few
	Body     template.HTML
	Prompts  []PromptView
	Sources  []SourceView
	Figures  template.JS // the block of the figures on it; empty where it has none
}

// manySections is from how many sections on a page has a list of them at its top.
const manySections = 9

// sections gives the headings that a long page lists.
func sections(all []explainer.Heading) []explainer.Heading {
	var out []explainer.Heading
	for _, h := range all {
		if h.Level == 2 {
			out = append(out, h)
		}
	}
	if len(out) < manySections {
		return nil
	}
	return out
}

func (m *maker) explainerPage(e *explainer.Page) page {
	script, styles := "", []string(nil)
	if len(e.Body.Figures) > 0 {
		script, styles = m.figures.name, []string{m.workbench.name}
	}
	return page{
		script: script, styles: styles,
		name: "learn/" + e.ID + ".html", title: e.Title.S, description: e.Message.S, room: "learn",
		credits: creditsView(e.Credits), template: "explainer", text: func() []string { return m.lib.PageText(e) },
		model: func(v viewer, p PageView) (any, error) {
			o := v.options()
			o.Words = m.words
			o.Figure = v.figureIn
			body, err := e.Body.HTML(o)
			if err != nil {
				return nil, err
			}
			block, err := v.figureBlock(e.Body.Figures)
			return explainerView{
				Figures:  block,
				PageView: p, Message: e.Message.S, Resident: e.Audience.S != audiencePatient, Sections: sections(e.Body.Headings), Body: body.HTML,
				Prompts: v.prompts(e.Prompts), Sources: v.bibliography(body.Sources, true),
			}, err
		},
	}
}

// glossaryView lists the words in the order of the alphabet.
type glossaryView struct {
	PageView
	Letters []letterView
}

type letterView struct {
	Letter string
	Words  []entryView
}

type entryView struct {
	ID, Word, Meaning string
	Also              []string
}

func (m *maker) glossaryPage() page {
	return page{
		name: glossaryName, title: "Words you may hear", room: "learn", template: "glossary", credits: m.siteCredits(),
		description: "What the trade’s words mean, in plain language.",
		model: func(_ viewer, p PageView) (any, error) {
			return glossaryView{PageView: p, Letters: letters(m.lib.Words)}, nil
		},
	}
}

func letters(words []*library.Word) []letterView {
	words = slices.Clone(words)
	slices.SortStableFunc(words, func(a, b *library.Word) int {
		return cmp.Or(cmp.Compare(strings.ToLower(a.Word.S), strings.ToLower(b.Word.S)), cmp.Compare(a.ID.S, b.ID.S))
	})
	var out []letterView
	for _, w := range words {
		letter := strings.ToUpper(string([]rune(w.Word.S)[:1]))
		if len(out) == 0 || out[len(out)-1].Letter != letter {
			out = append(out, letterView{Letter: letter})
		}
		last := &out[len(out)-1]
		last.Words = append(last.Words, entryView{w.ID.S, w.Word.S, w.Meaning.S, otherNames(w)})
	}
	return out
}

// otherNames leaves out forms of a name that is there already ("keels"): they
// help the search for words in a text, not the reader.
func otherNames(w *library.Word) []string {
	names := []string{w.Word.S}
	for _, a := range w.Also {
		if !slices.ContainsFunc(names, func(n string) bool { return strings.Contains(flat(a.S), stem(n)) }) {
			names = append(names, a.S)
		}
	}
	return names[1:]
}

// flat gives a name without capitals, spaces and hyphens, so that "re-alignment"
// holds "align".
func flat(name string) string {
	return strings.NewReplacer("-", "", " ", "").Replace(strings.ToLower(name))
}

// stem is the part of a name that its forms share: its first letters.
func stem(name string) string {
	letters := []rune(flat(name))
	return string(letters[:min(len(letters), 5)])
}

// questionsView lists all prompts by topic, the general ones first.
type questionsView struct {
	PageView
	General []PromptView
	Opening []LinkView // sources of the general ones
	Topics  []topicView
}

type topicView struct {
	ID, Title, About string
	Prompts          []PromptView
}

func (m *maker) questionsPage() page {
	return page{
		name: questionsName, title: "All questions to bring", room: "learn", template: "questions", credits: m.siteCredits(),
		description: "Every question to bring, by topic, with whom to ask and why it helps.",
		model: func(v viewer, p PageView) (any, error) {
			out := questionsView{PageView: p, General: v.promptViews(m.lib.General), Opening: v.opening()}
			for _, t := range m.lib.Topics {
				out.Topics = append(out.Topics, topicView{t.ID.S, t.Title.S, t.About.S, v.promptViews(t.Prompts)})
			}
			return out, nil
		},
	}
}

func (v viewer) promptViews(ps []*library.Prompt) []PromptView {
	var out []PromptView
	for _, p := range ps {
		out = append(out, v.prompt(p))
	}
	return out
}
