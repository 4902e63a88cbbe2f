package library

import (
	"context"
	"fmt"
	"path"
	"slices"
	"strings"

	"keelpath/builder/figure"
	"keelpath/builder/finding"
	"keelpath/builder/prose"
	"keelpath/builder/read"
	"keelpath/builder/translation"
	"keelpath/builder/tree"
)

// voicesFile is the kind of the files that have the other voices of texts.
const voicesFile = "content/" + FirstLanguage + "/trees/ID.yaml"

// ofVoices gives the file for which a file of voices speaks; ok is false for all other files.
func ofVoices(name string) (speaksFor string, ok bool) {
	if path.Dir(name) != path.Dir(voicesFile) || path.Ext(name) != ".yaml" {
		return "", false
	}
	return translation.Name(name), true
}

// voices reads what patients take once more in each of the other voices: those that the edition offers, which must be whole, and,
// where there are words in them, those that it does not offer.
func (l *loader) voices(ctx context.Context, layers []Layer) error {
	v := l.voicesOf(layers, l.list)
	offered := l.offered()
	if len(offered) == 0 && !v.Any() {
		return nil
	}
	if len(layers) > 1 && !l.above(layers) && l.list.Errors() > 0 {
		return nil // nothing is built, and of what layers lack nothing would be said
	}
	var list finding.List
	for _, voice := range read.Voices[1:] {
		o, err := l.inVoice(ctx, voice, v, layers, &list)
		if err != nil {
			return err
		}
		if slices.Contains(offered, voice) {
			l.Voices = append(l.Voices, o.Library)
		}
	}
	found := map[string]bool{}
	for _, f := range l.list.Sorted() {
		found[f.Place.String()+f.Text] = true
	}
	for _, f := range list.Sorted() {
		_, own := ofVoices(l.insideOf(f.File))
		if figures := isFigure(l.insideOf(f.File)) && !found[f.Place.String()+f.Text]; own || figures {
			l.list.Append(f)
		}
	}
	for _, o := range l.Voices[:min(1, len(l.Voices))] { // a text is said in all voices or in none
		l.figuresLack(o)
	}
	v.Report(translation.Telling{Offered: offered, Spoken: l.inEachVoice, Wrong: l.list.Add, Layer: l.lacksVoice})
	return nil
}

// inPlanner gives what the planner shows of a figure: all but its page's own texts, and the table of its limits.
func inPlanner(f *figure.Figure) []read.Text {
	var out []read.Text
	for _, in := range f.Inputs {
		out = append(out, in.Label, in.Hint, in.Hand)
		for _, c := range in.Choices {
			out = append(out, c.Text)
		}
		for _, c := range in.Say {
			out = append(out, c.Text)
		}
	}
	for _, t := range f.Texts {
		for _, c := range t.Cases {
			if t.Place != figure.Row && t.Place != figure.Fold {
				out = append(out, c.Text)
			}
		}
	}
	return out
}

// figuresLack tells which texts of figures beside patients' questions are in a voice the reader's own and speak to or of the reader. Their
// voices stand in the figure's file, at the text itself.
func (l *loader) figuresLack(o *Library) {
	for _, f := range l.Figures {
		patients := slices.ContainsFunc(f.At, func(at *figure.Spot) bool {
			id, _, _ := strings.Cut(at.Question, "/")
			t := l.Tree(id)
			return t != nil && t.Audience.S == "patient"
		})
		if other := o.Figure(f.ID); patients && other != nil {
			l.figureLacks(inPlanner(f), inPlanner(other))
		}
	}
}

func (l *loader) figureLacks(own, voiced []read.Text) {
	for _, t := range own {
		word := translation.Personal(t)
		if word == "" || !slices.Contains(voiced, t) {
			continue
		}
		tell := l.lacksVoice
		if l.insideOf(t.At.File) == t.At.File {
			tell = func(at finding.Place, check, text string, help ...string) { l.list.Add(at, check, text, help...) }
		}
		tell(t.At, "missing-voice", fmt.Sprintf("this text says %q, the planner shows it beside a question, and it is said in the reader's own voice alone", word),
			"say it in each voice: { me: ..., child: ..., person: ... }")
	}
}

// lacksVoice warns of a layer's text that is said in the reader's own voice alone, where nothing else is to be mended first.
func (l *loader) lacksVoice(at finding.Place, check, text string, help ...string) {
	if l.list.Errors() == 0 {
		l.list.Warn(at, check, text, help...)
	}
}

// voicesOf gives the words that layers have in other voices.
func (l *loader) voicesOf(layers []Layer, list *finding.List) *translation.Voices {
	v := translation.NewVoices()
	for i, y := range layers {
		v.Layer(i)
		for _, n := range y.names(func(n string) bool { _, ok := ofVoices(n); return ok }) {
			speaksFor, _ := ofVoices(n)
			v.Add(speaksFor, y.name(n), y.files[n], list)
		}
	}
	return v
}

// above tells whether a layer over the ground has words in other voices.
func (l *loader) above(layers []Layer) bool {
	return slices.ContainsFunc(layers[1:], func(y Layer) bool {
		return len(y.names(func(n string) bool { _, ok := ofVoices(n); return ok })) > 0
	})
}

// offered are the voices of the edition besides the reader's own.
func (l *loader) offered() []string {
	var out []string
	for _, t := range l.Edition.Voices {
		if !slices.Contains(read.Voices, t.S) {
			l.list.Add(t.At, "unknown-name", fmt.Sprintf("the edition offers the voice %q, and there is none", t.S), finding.NearestOrAll(t.S, read.Voices, "voices")...)
		}
	}
	for _, voice := range read.Voices[1:] {
		if slices.Contains(read.Strings(l.Edition.Voices), voice) {
			out = append(out, voice)
		}
	}
	return out
}

// inEachVoice tells whether the texts of a file are said in each voice: those that a patient comes to in the planner and on the
// sheet.
func (l *loader) inEachVoice(file string) bool {
	switch file {
	case safetyFile, "trees/told.yaml", "trees/prompts.yaml", "trees/cards.yaml":
		return true
	}
	t := l.Tree(stem(path.Base(file)))
	return t != nil && t.Audience.S == "patient" && path.Dir(file) == "trees"
}

// inVoice reads what patients take in a voice and holds it to all rules that it was held to in the reader's own. What it
// finds in files of voices is for the list; the rest was found before.
func (l *loader) inVoice(ctx context.Context, voice string, v *translation.Voices, layers []Layer, list *finding.List) (*loader, error) {
	o := l.speakingIn(voice, v, list)
	if err := o.readVoiced(ctx, layers); err != nil {
		return nil, err
	}
	o.leaveAway()
	o.figuresInOrder()
	o.signEndings()
	o.order()
	if l.above(layers) { // without such files nothing that is sealed can have other words
		var unheard finding.List
		g := l.speakingIn(voice, l.voicesOf(layers[:1], &unheard), &unheard)
		if err := g.readVoiced(ctx, layers[:1]); err != nil {
			return nil, err
		}
		g.Words, g.Explainers, g.Pages, g.Figures = nil, nil, nil, nil // they have one voice
		o.unchanged(g.sealGround())
	}
	return o, o.checkVoice(ctx, l.Figures)
}

// speakingIn gives a loader with all that has one voice, and nothing yet of what has several.
func (l *loader) speakingIn(voice string, v *translation.Voices, list *finding.List) *loader {
	o := newLoader(list)
	of := l.Library
	o.Library = &Library{
		Lang: of.Lang, Voice: voice, Edition: of.Edition, Proofs: of.Proofs, Cases: of.Cases, Rows: of.Rows, FootTypes: of.FootTypes, Wishes: of.Wishes,
		Words: of.Words, SearchWords: of.SearchWords, Drawings: of.Drawings, Sources: of.Sources, Search: of.Search, Parts: of.Parts, Explainers: of.Explainers, Pages: of.Pages,
		Rated: of.Rated, Yardsticks: of.Yardsticks, Say: of.Say.InVoice(voice), First: of.First, Second: of.Second,
		files: of.files, inside: of.inside, onDisk: of.onDisk, by: of.by, counts: map[any]prose.Counts{},
	}
	o.by.trees, o.by.themes, o.by.prompts, o.by.facts, o.by.cards, o.by.figures = nil, nil, nil, nil, nil, nil
	o.spoken, o.unread, o.away, o.planner, o.dirs = v, l.unread, l.away, l.planner, l.dirs
	return o
}

// readVoiced reads the files whose texts are said in each voice.
func (l *loader) readVoiced(ctx context.Context, layers []Layer) error {
	for i, y := range layers {
		l.spoken.Layer(i)
		for _, k := range FileKinds() {
			if !strings.HasPrefix(k.File, "trees/") && k.File != figureFile || k.read == nil || k.File == caseFile || k.File == "trees/planner.yaml" {
				continue
			}
			for _, n := range y.names(func(n string) bool { i := fileKindOf(n); return i >= 0 && FileKinds()[i].File == k.File }) {
				if err := ctx.Err(); err != nil {
					return err
				}
				k.read(l, y, n)
			}
		}
	}
	return nil
}

// checkVoice holds the words of a voice to the rules of words; own are the figures in the reader's own.
func (l *loader) checkVoice(ctx context.Context, own []*figure.Figure) error {
	c := newChecker(l)
	for _, k := range c.Cards {
		c.claims(c.text(fmt.Sprintf("card %q", k.ID.S), k.Text).Blocks)
	}
	c.screen()
	c.promptsSpoken()
	for _, t := range l.PatientTrees() {
		c.tree(t)
	}
	first := map[finding.Place]bool{} // of texts of figures, which were held in the reader's own voice
	for _, f := range own {
		figureSaid(f, func(_ string, ts ...read.Text) {
			for _, t := range ts {
				first[t.At] = true
			}
		})
	}
	c.everySaid(func(s said) {
		_, beside := ofVoices(l.insideOf(s.at.File))
		if beside || isFigure(l.insideOf(s.at.File)) && !first[s.at] {
			c.held(s, true)
		}
	})
	c.gradesInVoice()
	return ctx.Err()
}

// promptsSpoken parses what prompts say, which is no text of a tree.
func (c *checker) promptsSpoken() {
	for _, p := range c.Prompts() {
		c.text(fmt.Sprintf("prompt %q", p.ID.S), p.Why)
	}
}

// gradesInVoice holds each tree and the screen to the highest grades, at the first of its words in the voice.
func (c *checker) gradesInVoice() {
	at := func(ts []read.Text) (finding.Place, bool) {
		for _, t := range ts {
			if _, own := ofVoices(c.insideOf(t.At.File)); own {
				return t.At, true
			}
		}
		return finding.Place{}, false
	}
	of := func(t *tree.Tree) []read.Text {
		var all []read.Text
		treeSaid(t, func(_ string, ts ...read.Text) { all = append(all, ts...) })
		return all
	}
	for _, t := range c.PatientTrees() {
		if place, ok := at(of(t)); ok {
			text := c.treeText(t)
			c.graded(place, fmt.Sprintf("the whole tree in the voice %q", c.Voice), text, prose.Of(text.passages))
		}
	}
	var screen []read.Text
	c.everyScreenText(func(_ string, ts ...read.Text) { screen = append(screen, ts...) })
	if place, ok := at(screen); ok {
		text := c.screenText()
		c.graded(place, fmt.Sprintf("the safety screen in the voice %q", c.Voice), text, prose.Of(text.passages))
	}
}
