package read

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"
)

// Choice says which of a file's words are wanted: for which place, in whose voice and in
// which language. The zero Choice wants those of no place in particular, said to the
// reader, in the language in which the file is written.
type Choice struct {
	Place string // "us": what is marked for another place is left out
	Voice string // of Voices; empty is the first
	Other Other  // the words of another language, or of another voice; nil for the first
	Aside bool   // Other has the words of the voice beside the file, so a text that is said there in several voices is not asked of it
	File  string // as Other names the file

	// Away hears of each entry that is left out for its place: what kind of thing
	// it is and its id. Nil where nobody asks.
	Away func(kind, id string)
}

// Voices are those in which a text can be said: to the reader of herself, of her child,
// and of someone whom she cares for.
var Voices = []string{"me", "child", "person"}

// Other gives the words of another language.
type Other interface {
	// Words gives what stands for a text, or for the lines of a list, in a file. path is
	// the way to it, its keys joined by points, entries of lists counted from 1:
	// "endings.clinic.types.2.for". What it does not have comes back as it was.
	Words(file, path string, first []Text) []Text
}

// Words gives an optional text that readers see. Where its author wrote several, each for a
// place, it is the first that fits.
func (m *Map) Words(key string) Text {
	v := m.ask(key)
	if v == nil {
		return Text{}
	}
	return m.chosen(v, key)
}

// NeedWords is Words for a text that must be there.
func (m *Map) NeedWords(key string) Text {
	v := m.ask(key)
	if v == nil {
		m.need(key)
		return Text{}
	}
	if v.Kind == yaml.ScalarNode {
		return m.inLanguage(key, m.NeedText(key))
	}
	return m.chosen(v, key)
}

// WordList gives an optional list of texts that readers see.
func (m *Map) WordList(key string) []Text { return m.listInLanguage(key, m.Texts(key)) }

// NeedWordList is WordList for a list that must be there.
func (m *Map) NeedWordList(key string) []Text { return m.listInLanguage(key, m.NeedTexts(key)) }

// EachWords calls do for every id of the mapping under key, with its text, which readers see.
func (m *Map) EachWords(key, kind string, do func(id, words Text)) {
	top := m.Sub(key, quote(key))
	if top == nil {
		return
	}
	for _, k := range top.keys {
		m.r.id(k, kind)
		do(k, top.NeedWords(k.S))
	}
}

// WordPairs is Pairs for values that readers see. One of them may be said in several voices.
func (m *Map) WordPairs(key string, do func(k Text, values []Text)) {
	top := m.Sub(key, quote(key))
	if top == nil {
		return
	}
	for _, k := range top.keys {
		if v := top.vals[k.S]; several(v) {
			do(k, []Text{top.chosen(v, k.S)})
			continue
		}
		do(k, top.listInLanguage(k.S, top.pair(k)))
	}
}

func (m *Map) inLanguage(key string, t Text) Text {
	if m == nil || m.r.Other == nil || t.S == "" {
		return t
	}
	if got := m.r.Other.Words(m.r.File, m.path+key, []Text{t}); len(got) > 0 {
		return got[0]
	}
	return t
}

// inVoice is inLanguage for a text of which the file may have the voice that is wanted; step is then not empty.
func (m *Map) inVoice(key, step string, t Text) Text {
	if step != "" && m.r.Aside {
		return t
	}
	return m.inLanguage(key+step, t)
}

func (m *Map) listInLanguage(key string, ts []Text) []Text {
	if m == nil || m.r.Other == nil || len(ts) == 0 {
		return ts
	}
	return m.r.Other.Words(m.r.File, m.path+key, ts)
}

// chosen gives the text of those in v that fits the place and the voice: v is one
// text, one in several voices, or a list of such, each for a place.
func (m *Map) chosen(v *yaml.Node, key string) Text {
	if !several(v) {
		return m.inLanguage(key, m.r.text(v, key)) // which says so where v is no text
	}
	if v.Kind != yaml.SequenceNode {
		t, step, _ := m.spoken(v, key)
		return m.inVoice(key, step, t)
	}
	var out Text
	for i, c := range v.Content { // all are read, so that what is wrong in one is seen everywhere
		t, step, here := m.spoken(c, key)
		if here && !out.Given() {
			out = m.inVoice(key+"."+strconv.Itoa(i+1), step, t)
		}
	}
	return out
}

// several tells whether v was meant as one or more of several texts: as keys of which one says for whom
// or where it is, or as a list with such keys in it.
func several(v *yaml.Node) bool {
	if v.Kind == yaml.SequenceNode {
		return slices.ContainsFunc(v.Content, func(c *yaml.Node) bool { return c.Kind == yaml.MappingNode })
	}
	for i := 0; i+1 < len(v.Content); i += 2 {
		if k := v.Content[i].Value; k == "place" || k == "says" || slices.Contains(Voices, k) {
			return v.Kind == yaml.MappingNode
		}
	}
	return false
}

// spoken reads { place: us, says: ... } or { me: ..., child: ..., person: ... }, and tells
// whether it is for the place that is wanted. step is what the voice adds to the path.
func (m *Map) spoken(v *yaml.Node, key string) (t Text, step string, here bool) {
	if v.Kind == yaml.ScalarNode {
		return m.r.text(v, key), "", true
	}
	s := m.r.sub(v, m.r.place(v), "a text of "+quote(key))
	if s == nil {
		return Text{}, "", false
	}
	here = s.Here()
	t, step = s.said(key)
	s.Done()
	return t, step, here
}

// said gives what is said in all voices, or in the one that is wanted.
func (m *Map) said(key string) (t Text, step string) {
	all, voices := m.Text("says"), make([]Text, len(Voices))
	for i, voice := range Voices {
		voices[i] = m.Text(voice)
	}
	for i, t := range voices {
		switch {
		case all.Given() && t.Given():
			m.r.list.Add(t.At, "needless-key", m.what+" has both "+quote("says")+" and "+quote(Voices[i]), "keep the one for all voices, or one for each")
		case !all.Given() && t.S == "":
			m.r.list.Add(m.At(), "missing-voice", m.what+" is not said in the voice "+quote(Voices[i]),
				"say it in each voice ("+strings.Join(Voices, ", ")+"), or write "+quote("says: ...")+" for one that suits all")
		}
	}
	i := slices.Index(Voices, m.r.Voice)
	if all.Given() || i <= 0 {
		return cmp.Or(all, voices[0]), ""
	}
	return voices[i], "." + Voices[i]
}

// Here tells whether the mapping is for the place that is wanted: one that names no
// place is for all.
func (m *Map) Here() bool {
	places := m.OneOrMore("place")
	return len(places) == 0 || slices.ContainsFunc(places, func(t Text) bool { return t.S == m.r.Place })
}

// EachHere is Each for entries that may be for some places only.
func (m *Map) EachHere(key, kind string, do func(id Text, entry *Map)) {
	m.EachOrAway(key, kind, do, func(Text, *Map) {})
}

// EachOrAway is EachHere where something follows from an entry that is left out.
func (m *Map) EachOrAway(key, kind string, do, away func(id Text, entry *Map)) {
	m.Each(key, kind, func(id Text, entry *Map) {
		if entry == nil || entry.Here() {
			do(id, entry)
			return
		}
		if m.r.Away != nil {
			m.r.Away(kind, id.S)
		}
		away(id, entry)
	})
}

// Parts calls do for each entry of the top mapping, whose keys need not be ids.
func (m *Map) Parts(what string, do func(key Text, entry *Map)) {
	if m == nil {
		return
	}
	for _, k := range m.keys {
		do(k, m.sub(m.vals[k.S], k.At, what+" "+quote(k.S), k.S))
	}
}

// OneText gives a list's texts, or the one text that stands in its place.
func (m *Map) OneText(key string) []Text {
	if v := m.ask(key); v != nil && v.Kind == yaml.ScalarNode {
		return []Text{m.r.text(v, key)}
	}
	return m.Texts(key)
}

// Fingerprint tells texts apart: the first eight digits of the SHA-256 of their
// characters, a line for each, white space within them counted as one space.
func Fingerprint(texts ...string) string {
	size := 0
	for _, t := range texts {
		size += len(t) + 1
	}
	all := make([]byte, 0, size)
	for _, t := range texts {
		begin := len(all)
		for f := range strings.FieldsSeq(t) {
			if len(all) > begin {
				all = append(all, ' ')
			}
			all = append(all, f...)
		}
		all = append(all, '\n')
	}
	sum := sha256.Sum256(all)
	return hex.EncodeToString(sum[:4])
}
