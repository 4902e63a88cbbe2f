// Package translation has the words of another language: files in the folder content/LL
// that say, text by text, what stands for the words of the first language. A tree's logic, its
// ids and its measures stay in the tree's own file, so proofs, codes and forms are the
// same in every language.
//
// A file of words is named as the file whose words it gives: content/es/trees/heel-height.yaml speaks for
// trees/heel-height.yaml, content/es/glossary.yaml for content/glossary.yaml. Each entry
// names a text by the way to it, says of which text it is the words, and what the words are:
//
//	questions.knee.text: { of: 3f2a9c1b, says: "¿Le pasa algo de esto?" }
//	questions.shoes.hint: { of: 08ad1b72, me: "...", child: "...", person: "..." }
//	rows.push.steps: { of: 91c0ffee, says: [casi nada, un poco, algo, mucho, mucho más] }
//
// "of" is the fingerprint of the text as it was when it was translated ([read.Fingerprint]), so words
// that have gone stale are known. Words that are missing, stale or for no text are findings.
package translation

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// Book has the words of one language, of all layers together. It is a [read.Other]: what is
// read through it comes out in its language, and it remembers what was asked for.
type Book struct {
	Lang  string // as BCP 47 writes it: "es-US"
	voice string

	files map[string]*file // by the name of the file for which they speak, inside content/LL
	asked []string         // those names, and those of files without words, in the order in which they were first asked for
}

// file is what the layers say for one file of the first language.
type file struct {
	name string // of the last layer's file of words; empty where there is none
	by   map[string]*entry
	keys []string        // of by, in order
	need map[string]need // what was asked for, by path
	ways []string        // of need, in order
}

// entry is the words for one text.
type entry struct {
	at   read.Text // its key
	of   read.Text
	says map[string][]read.Text // by voice; "" for all voices
}

// need is a text of the first language.
type need struct {
	first []read.Text
	print string
}

// New begins the words of a language, said in a voice of [read.Voices].
func New(lang, voice string) *Book { return &Book{Lang: lang, voice: voice, files: map[string]*file{}} }

// Name gives the name by which words speak for a file of the first language: what stands
// behind content/en/ or content/, and other files as they are.
func Name(inside string) string {
	for _, folder := range []string{"content/en/", "content/"} {
		if name, ok := strings.CutPrefix(inside, folder); ok {
			return name
		}
	}
	return inside
}

// Add reads a file of words that speaks for a file of the first language. What a later layer says of a
// text takes the place of what an earlier one said.
func (b *Book) Add(speaksFor, name string, src []byte, list *finding.List) {
	f := b.file(speaksFor)
	f.name = name
	read.YAML(name, src, 0, list).Parts("the entry", func(key read.Text, m *read.Map) {
		e := &entry{at: key, of: m.NeedText("of"), says: map[string][]read.Text{"": m.OneText("says")}}
		for _, v := range read.Voices {
			if ts := m.OneText(v); len(ts) > 0 {
				e.says[v] = ts
			}
		}
		if m != nil && len(e.says[""]) == 0 && len(e.says) == 1 {
			list.Add(key.At, "missing-key", fmt.Sprintf("the entry %q lacks \"says\"", key.S), `add "says:" with the words`)
		}
		m.Done()
		if f.by[key.S] == nil {
			f.keys = append(f.keys, key.S)
		}
		f.by[key.S] = e
	})
}

func (b *Book) file(name string) *file {
	f := b.files[name]
	if f == nil {
		f = &file{by: map[string]*entry{}, need: map[string]need{}}
		b.files[name] = f
		b.asked = append(b.asked, name)
	}
	return f
}

// Again forgets what was asked for of a file, which a layer above gives anew as a whole.
func (b *Book) Again(name string) {
	f := b.file(name)
	f.need, f.ways = map[string]need{}, nil
}

// Words gives what stands for a text. It is [read.Other].
func (b *Book) Words(name, way string, first []read.Text) []read.Text {
	f := b.file(name)
	if _, twice := f.need[way]; !twice {
		f.ways = append(f.ways, way)
	}
	f.need[way] = need{first, read.Fingerprint(read.Strings(first)...)}
	e := f.by[way]
	if e == nil {
		return first
	}
	for _, voice := range []string{b.voice, "", read.Voices[0]} {
		if ts := e.says[voice]; len(ts) > 0 {
			return ts
		}
	}
	return first
}

// Has tells whether the file of words of that name was there.
func (b *Book) Has(name string) bool { return b.files[name] != nil && b.files[name].name != "" }

// Report tells what is missing, stale and for no text, once everything was read. Of a file without
// any words it says so once.
func (b *Book) Report(tell func(at finding.Place, check, text string, help ...string)) {
	for _, name := range b.asked {
		f := b.files[name]
		if f.name == "" {
			if n := len(f.ways); n > 0 {
				at := path.Join("content", b.Lang, name)
				tell(finding.Place{File: at}, "missing-words", fmt.Sprintf("there are no words in %s for the %d texts of %s", b.Lang, n, f.need[f.ways[0]].first[0].At.File), "add the file "+at)
			}
			continue
		}
		f.report(b.Lang, tell)
	}
}

// mostMissing is how many missing words of a file are told one by one.
const mostMissing = 5

func (f *file) report(lang string, tell func(at finding.Place, check, text string, help ...string)) {
	var missing []string
	for _, way := range f.ways {
		n := f.need[way]
		switch e := f.by[way]; {
		case e == nil:
			missing = append(missing, way)
		case e.of.S != n.print && e.of.Given():
			tell(e.of.At, "stale-words", fmt.Sprintf("the words for %q were made for another text", way),
				fmt.Sprintf("the text is now, at %s: %q", n.first[0].At, short(n.first)), fmt.Sprintf("make them fit it, and write of: %s", n.print))
		}
	}
	top := finding.Place{File: f.name, Line: 1}
	for i, way := range missing {
		n := f.need[way]
		help := []string{fmt.Sprintf("the text is at %s: %q", n.first[0].At, short(n.first)), fmt.Sprintf("add a line %q", fmt.Sprintf("%s: { of: %s, says: ... }", way, n.print))}
		if len(missing) > mostMissing {
			tell(top, "missing-words", fmt.Sprintf("there are no words in %s for %d of %d texts, the first being %q", lang, len(missing), len(f.ways), missing[i]), help...)
			break
		}
		tell(top, "missing-words", fmt.Sprintf("there are no words in %s for %q", lang, way), help...)
	}
	for _, key := range f.keys {
		if _, asked := f.need[key]; !asked {
			tell(f.by[key].at.At, "needless-words", fmt.Sprintf("the entry %q names no text", key), finding.NearestHelp(key, f.ways, nil)...)
		}
	}
}

// Need is a text of the first language for which words are wanted.
type Need struct {
	File, Way string
	First     []string
	Of        string // its fingerprint
}

// Needs gives all texts that were asked for: what a translator has to say.
func (b *Book) Needs() []Need {
	var out []Need
	for _, name := range slices.Sorted(slices.Values(b.asked)) {
		f := b.files[name]
		for _, way := range f.ways {
			out = append(out, Need{name, way, read.Strings(f.need[way].first), f.need[way].print})
		}
	}
	return out
}

// short cuts a text to what a finding can show.
func short(ts []read.Text) string {
	const most = 80
	s := strings.Join(strings.Fields(strings.Join(read.Strings(ts), "; ")), " ")
	if rs := []rune(s); len(rs) > most {
		return strings.TrimSpace(string(rs[:most])) + "…"
	}
	return s
}
