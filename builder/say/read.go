package say

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"golang.org/x/text/language"

	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// Read reads the words of a language from the file that m is the top of.
func Read(m *read.Map, lang string, list *finding.List) *Words {
	w := &Words{Lang: lang, tag: language.Make(lang), at: m.At(), entries: map[Name]*entry{}, date: dateAny, made: maker()}
	r := reader{w, formsOf(w.tag), list}
	m.Entries("group", func(id read.Text, g *read.Map) {
		g.Either("text", func(key, single read.Text, forms *read.Map) { r.entry(Name(id.S+"."+key.S), key, single, forms) })
	})
	return w
}

type reader struct {
	w     *Words
	forms []Form // that the language has
	list  *finding.List
}

// entry takes in what stands under a key: one text, or keys.
func (r reader) entry(name Name, key, single read.Text, m *read.Map) {
	e := &entry{at: key.At, forms: map[Form]text{}}
	if m == nil {
		r.form(e, name, Other, single)
	} else {
		r.keys(e, name, m)
	}
	r.w.entries[name] = e
	r.w.names = append(r.w.names, name)
}

// keys takes in a text with a remark for translators, or one with plural forms.
func (r reader) keys(e *entry, name Name, m *read.Map) {
	m.Text("about")
	e.of = m.Text("of")
	if t := m.Text("text"); t.Given() {
		r.form(e, name, Other, t)
		r.voices(e, name, m, func(v *entry, voice string) { r.form(v, name, Other, m.Text(voice)) })
		m.Done()
		return
	}
	e.plural = true
	for _, f := range r.forms {
		r.form(e, name, f, m.NeedText(string(f)))
	}
	r.voices(e, name, m, func(v *entry, voice string) {
		if s := m.Sub(voice, fmt.Sprintf("the text %q in the voice %q", name, voice)); s != nil {
			for _, f := range r.forms {
				r.form(v, name, f, s.NeedText(string(f)))
			}
			s.Done()
		}
	})
	m.Done()
}

// voices takes in what an entry says to a parent, and to one who cares for someone; one that is not said in them suits all.
func (r reader) voices(e *entry, name Name, m *read.Map, take func(v *entry, voice string)) {
	for _, voice := range read.Voices[1:] {
		v := &entry{at: e.at, plural: e.plural, forms: map[Form]text{}}
		take(v, voice)
		if len(v.forms) == 0 {
			continue
		}
		if has, wants := v.gaps(), e.gaps(); !slices.Equal(has, wants) && !v.broken && !e.broken {
			r.list.Add(v.said[0].At, "voice-differs", fmt.Sprintf("the text %q has other gaps in the voice %q", name, voice), e.gapsHelp())
		}
		if e.voices == nil {
			e.voices = map[string]*entry{}
		}
		e.voices[voice] = v
	}
	if n := len(e.voices); n > 0 && n < len(read.Voices)-1 {
		r.list.Add(e.at, "missing-voice", fmt.Sprintf("the text %q is said in one other voice, and not in all", name), "say it in each: "+strings.Join(read.Voices[1:], ", "))
	}
}

// form takes in one text.
func (r reader) form(e *entry, name Name, f Form, t read.Text) {
	if !t.Given() {
		return
	}
	if t.S == "" {
		r.list.Add(t.At, "empty-text", fmt.Sprintf("the text %q is empty", name), "write it")
		e.broken = true
		return
	}
	parsed, at, fault := parse(t.S)
	if fault != "" {
		r.list.Add(t.Place(len([]rune(t.S[:at]))+1), "brace", fmt.Sprintf("in the text %q %s", name, fault),
			"a gap is its name in braces, {count}; words that an element goes around stand between {link} and {/link}")
		e.broken = true
	}
	e.forms[f] = parsed
	e.said = append(e.said, t)
}

// Against holds the words of another language against those of the program's own: the same
// names, the same gaps in each, and made for the text that there is now. What does not hold is reported,
// and in what comes back the program's own text stands in its place.
func (w *Words) Against(ground *Words, list *finding.List) *Words {
	out := &Words{Lang: w.Lang, tag: w.tag, at: w.at, entries: maps.Clone(ground.entries), names: ground.names, date: dateAny, made: maker()}
	var meant []Name // names that a misspelt one was likely meant to be
	for _, n := range w.names {
		g := ground.entries[n]
		if g == nil {
			meant = append(meant, w.unknown(n, ground, list))
		} else if w.fits(n, g, list) {
			out.entries[n] = w.entries[n]
		}
	}
	var missing []Name
	for _, n := range ground.names {
		if w.entries[n] == nil && !slices.Contains(meant, n) {
			missing = append(missing, n)
		}
	}
	w.missing(missing, ground, list)
	return out
}

// mostMissing is how many missing texts are told one by one.
const mostMissing = 5

func (w *Words) missing(names []Name, ground *Words, list *finding.List) {
	for _, n := range names {
		g := ground.entries[n]
		help := []string{fmt.Sprintf("the text is at %s: %s", g.at, g.quoted()), fmt.Sprintf("add it in the group %q, with a line \"of: %s\"", n.group(), g.print())}
		if len(names) > mostMissing {
			list.Add(w.at, "missing-words", fmt.Sprintf("there are no words in %s for %d of the program's %d texts, the first being %q", w.Lang, len(names), len(ground.names), n), help...)
			return
		}
		list.Add(w.at, "missing-words", fmt.Sprintf("there are no words in %s for the program's text %q", w.Lang, n), help...)
	}
}

// unknown reports a name that the program does not use, and gives the one that was likely meant.
func (w *Words) unknown(n Name, ground *Words, list *finding.List) Name {
	var names []string
	for _, g := range ground.names {
		names = append(names, string(g))
	}
	help := finding.NearestHelp(string(n), names, func(name string) finding.Place { return ground.entries[Name(name)].at })
	if help == nil {
		help = []string{"take it out: the program says nothing by that name"}
	}
	list.Add(w.entries[n].at, "needless-words", fmt.Sprintf("the program has no text %q", n), help...)
	return Name(finding.Nearest(string(n), names))
}

// fits reports what is wrong with an entry, and tells whether nothing is.
func (w *Words) fits(n Name, ground *entry, list *finding.List) bool {
	e, before := w.entries[n], list.Len()
	if e.broken {
		return false // which was reported
	}
	switch {
	case !e.of.Given():
		list.Add(e.at, "missing-key", fmt.Sprintf("the text %q does not say of which text it is the words", n), fmt.Sprintf("write it as keys: of: %s, and text: with the words", ground.print()))
	case e.of.S != ground.print():
		list.Add(e.of.At, "stale-words", fmt.Sprintf("the words for %q were made for another text", n),
			fmt.Sprintf("the text is now, at %s: %s", ground.at, ground.quoted()), fmt.Sprintf("make them fit it, and write of: %s", ground.print()))
	}
	w.sameGaps(n, ground, list)
	return list.Len() == before
}

// print is the fingerprint of a text.
func (e *entry) print() string { return read.Fingerprint(read.Strings(e.said)...) }

// sameGaps reports gaps that the program does not fill, and those that are left out.
func (w *Words) sameGaps(n Name, ground *entry, list *finding.List) {
	e := w.entries[n]
	has, wants := e.gaps(), ground.gaps()
	if forms := formsOf(w.tag); ground.plural && !e.plural && len(forms) > 1 {
		list.Add(e.at, "missing-key", fmt.Sprintf("the text %q has one form, and the number in it asks for %s", n, keysOf(forms)), "write each below it: "+keysOf(forms))
	}
	for _, g := range has {
		if !slices.Contains(wants, g) {
			list.Add(e.at, "unknown-name", fmt.Sprintf("the text %q has the gap %s, and nothing fills it", n, braced(g)), ground.gapsHelp())
		}
	}
	for _, g := range wants {
		if !slices.Contains(has, g) && !(g == count && ground.plural) {
			list.Add(e.at, "missing-key", fmt.Sprintf("the text %q lacks the gap %s", n, braced(g)), ground.gapsHelp())
		}
	}
}

func (e *entry) gapsHelp() string {
	var all []string
	for _, g := range e.gaps() {
		all = append(all, braced(g))
	}
	if len(all) == 0 {
		return "it has no gaps: leave the braces out"
	}
	return "its gaps are " + strings.Join(all, ", ")
}

// keysOf lists forms as keys of a file.
func keysOf(forms []Form) string {
	var out []string
	for _, f := range forms {
		out = append(out, string(f)+":")
	}
	return strings.Join(out, " ")
}

func braced(gap string) string {
	if name, around := strings.CutSuffix(gap, "/"); around {
		return "{" + name + "}...{/" + name + "}"
	}
	return "{" + gap + "}"
}

// quoted gives all forms of an entry for people to read.
func (e *entry) quoted() string {
	var out []string
	for _, f := range Forms {
		if t, ok := e.forms[f]; ok {
			out = append(out, fmt.Sprintf("%q", t.String()))
		}
	}
	return strings.Join(out, ", ")
}
