package library

import (
	"context"
	"fmt"
	"path"
	"regexp"
	"slices"
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/translation"
	"keelpath/builder/tree"
)

// FirstLanguage is the language in which the content is written. Others say it in their words.
const FirstLanguage = "en"

// LanguageForm is how a language is named, as BCP 47 writes it: "es", "es-US".
const LanguageForm = `[a-z]{2,3}(?:-[A-Za-z0-9]{2,8})*`

var languageForm, ofLanguageForm = regexp.MustCompile(`^` + LanguageForm + `$`), regexp.MustCompile(`^content/(` + LanguageForm + `)/(.+)$`)

// ofLanguage parts the name of a file of another language's words: its language, and the
// name of what it speaks for. ok is false for all other files.
func ofLanguage(name string) (lang, speaksFor string, ok bool) {
	m := ofLanguageForm.FindStringSubmatch(name)
	if m == nil || m[1] == FirstLanguage {
		return "", "", false
	}
	return m[1], m[2], speaks(m[2])
}

// page is the file of an explainer, or of a page's text, in another language.
type page struct {
	name string
	src  []byte
}

// others reads the content in the words of the other languages: those of the edition, which must be
// whole, and those that are only there, of which what is wrong is a warning.
func (l *loader) others(ctx context.Context, layers []Layer) error {
	there := languagesOf(layers)
	for _, t := range l.Edition.Languages {
		if t.S == FirstLanguage || !languageForm.MatchString(t.S) || !slices.Contains(there, t.S) {
			l.list.Add(t.At, "unknown-name", fmt.Sprintf("the edition names the language %q, and there are no words in it", t.S),
				finding.NearestOrAll(t.S, there, "languages with words")...)
		}
	}
	for _, lang := range there {
		built := slices.Contains(read.Strings(l.Edition.Languages), lang)
		o, err := l.inLanguage(ctx, lang, layers, built)
		if err != nil {
			return err
		}
		if built {
			l.Others = append(l.Others, o)
		}
	}
	slices.SortStableFunc(l.Others, func(a, b *Library) int {
		place := func(o *Library) int { return slices.Index(read.Strings(l.Edition.Languages), o.Lang) }
		return place(a) - place(b)
	})
	return nil
}

func languagesOf(layers []Layer) []string {
	var out []string
	for _, y := range layers {
		for n := range y.files {
			if lang, _, ok := ofLanguage(n); ok && !slices.Contains(out, lang) {
				out = append(out, lang)
			}
		}
	}
	slices.Sort(out)
	return out
}

// inLanguage reads everything once more, in the words of a language. What is found wrong in files of
// that language is reported; the rest was found in the first.
func (l *loader) inLanguage(ctx context.Context, lang string, layers []Layer, built bool) (*Library, error) {
	var list finding.List
	o := l.speaking(lang, layers, &list)
	if _, err := o.readContent(ctx, layers); err != nil {
		return nil, err
	}
	o.Proofs = l.Proofs
	if err := l.sealedIn(ctx, o, layers); err != nil {
		return nil, err
	}
	if err := o.check(ctx); err != nil {
		return nil, err
	}
	o.book.Report(list.Add)
	o.pagesOnly()
	for name, src := range o.files {
		if l.inside[name] = o.inside[name]; l.onDisk[name] == nil {
			l.files[name] = src
		}
	}
	for _, f := range list.Sorted() {
		if _, _, own := ofLanguage(o.insideOf(f.File)); own {
			if !built {
				f.Weight = finding.Warning
			}
			l.list.Append(f)
		}
	}
	return o.Library, nil
}

// speaking gives a loader of another language, with the words that layers have of it.
func (l *loader) speaking(lang string, layers []Layer, list *finding.List) *loader {
	o := newLoader(list)
	o.Lang, o.Voice, o.own, o.book = lang, l.Voice, map[string]page{}, translation.New(lang, l.Voice)
	o.saysIn(l.Say, layers)
	for _, y := range layers {
		o.wordsOf(y)
	}
	o.editions(layers)
	return o
}

// sealedIn holds what is for safety against the ground layer's own words of the language. A
// language that the ground layer does not have as a whole is the layers' own, and so are its words:
// what they cite, and how many cautions they have, is held against the first language.
func (l *loader) sealedIn(ctx context.Context, o *loader, layers []Layer) error {
	if len(layers) == 1 || !slices.Contains(languagesOf(layers[:1]), o.Lang) {
		return nil
	}
	var list finding.List
	g := l.speaking(o.Lang, layers[:1], &list)
	g.Edition = Edition{}
	g.editions(layers) // texts name its numbers
	ground, err := g.readContent(ctx, layers[:1])
	if err != nil {
		return err
	}
	g.book.Report(list.Add)
	if !slices.ContainsFunc(list.Sorted(), func(f finding.Finding) bool { return f.Check == "missing-words" }) {
		o.unchanged(ground)
	}
	return nil
}

// insideOf is Inside for files that may not be there.
func (l *loader) insideOf(name string) string {
	if in, ok := l.inside[name]; ok {
		return in
	}
	return name
}

// wordsOf reads what a layer says in the loader's language.
func (l *loader) wordsOf(y Layer) {
	for _, n := range y.names(func(n string) bool { lang, _, ok := ofLanguage(n); return ok && lang == l.Lang }) {
		name := y.name(n)
		l.files[name], l.inside[name] = y.files[n], n
		_, speaksFor, _ := ofLanguage(n)
		if id, ok := strings.CutSuffix(speaksFor, ".md"); ok {
			l.own[id] = page{name, y.files[n]}
		} else if speaksFor != wordsFile {
			l.book.Add(speaksFor, name, y.files[n], l.list)
		}
	}
}

// explainer enters a page, in the words of the loader's language where it has some.
func (l *loader) explainer(p *explainer.Page) {
	if own, ok := l.own[p.ID]; ok {
		p = explainer.InWords(p, own.name, own.src, l.Edition.Lines, l.list)
	} else if l.book != nil {
		l.unspoken(p, p.ID)
	}
	enter(&l.Explainers, &l.by.explainers, p.ID, p)
}

// enterText is explainer for the text of one of the site's own pages.
func (l *loader) enterText(p *explainer.Page, form *explainer.Form) {
	const folder = "pages/"
	if own, ok := l.own[folder+p.ID]; ok {
		p = explainer.OwnInWords(p, own.name, own.src, form, l.Edition.Lines, l.list)
	} else if l.book != nil {
		l.unspoken(p, folder+p.ID)
	}
	enter(&l.Pages, &l.by.pages, p.ID, p)
}

func (l *loader) unspoken(p *explainer.Page, id string) {
	at := path.Join("content", l.Lang, id+".md")
	l.list.Add(finding.Place{File: at}, "missing-words", fmt.Sprintf("there are no words in %s for the page %s", l.Lang, p.File), "add the file "+at)
}

// pagesOnly reports pages of another language that speak for none.
func (l *loader) pagesOnly() {
	for id, own := range l.own {
		if !strings.Contains(id, "/") && l.Explainer(id) == nil && !l.unread["explainer "+id] {
			l.list.Add(finding.Place{File: own.name, Line: 1}, "needless-words", fmt.Sprintf("these are words for the page %q, and there is none", id), finding.NearestHelp(id, l.explainerIDs(), nil)...)
		}
	}
}

// leaveAway takes out what names entries that are left out for the edition's place.
func (l *loader) leaveAway() {
	if len(l.away) == 0 {
		return
	}
	drop := func(kind string, ids *[]read.Text) {
		*ids = slices.DeleteFunc(*ids, func(t read.Text) bool { return l.away[kind+" "+t.S] })
	}
	for _, t := range l.Trees {
		for _, q := range t.Questions {
			for _, a := range q.Answers {
				drop("card", &a.Cards)
			}
			for _, r := range q.Routes {
				drop("card", &r.Cards)
			}
		}
		for _, e := range t.Endings {
			drop("prompt", &e.Prompts)
			drop("theme", &e.Themes)
			e.Types = slices.DeleteFunc(e.Types, func(t tree.Talk) bool { return l.away["foot type "+t.Type.S] })
		}
		for _, e := range t.Examples {
			drop("card", &e.Cards)
		}
	}
	for _, c := range l.Cards {
		drop("prompt", &c.Prompts)
	}
	for _, p := range l.Explainers {
		drop("prompt", &p.Prompts)
	}
	for _, t := range l.FootTypes {
		for id := range t.Cells {
			if l.away["row "+id] {
				delete(t.Cells, id)
			}
		}
	}
	l.Wishes = slices.DeleteFunc(l.Wishes, func(w *Wish) bool { return l.away["row "+w.Row.S] })
}

// Texts gives all that another language has to say: the texts of trees, tables and figures, and the pages, the site's own among them.
func Texts(ctx context.Context, layers ...Layer) ([]translation.Need, []*explainer.Page, error) {
	l := newLoader(&finding.List{})
	l.book = translation.New("", "")
	if _, err := l.readAll(ctx, layers); err != nil {
		return nil, nil, err
	}
	return l.book.Needs(), l.written(), nil
}
