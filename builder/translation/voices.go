package translation

import (
	"fmt"
	"path"
	"regexp"
	"slices"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// Voices has the words of the first language in its other voices ([read.Voices]): said to a parent, and to one who
// cares for someone. A text of a tree is written in the reader's own voice; content/en/trees/heel-height.yaml has the other
// voices of those texts of trees/heel-height.yaml that speak to or of the reader:
//
//	questions.knee.text: { of: 3f2a9c1b, child: "...", person: "..." }
//
// A text without an entry suits every voice, and one with a word such as "I" or "your" cannot. Layers may change a text of
// those below; then an entry that was made for the old text is not said, and that is no fault of the layer below.
type Voices struct {
	files map[string]*voiced // by the name of the file for which they speak
	names []string           // of files, in the order in which they were met
	layer int                // the one that is being read
}

// voiced is what the layers say in other voices for one file.
type voiced struct {
	by   map[string]*voice // by way
	keys []string
	need map[string]said
	ways []string
	anew int // the layer that gave the file as a whole; 0 where none did after the first
}

// voice is one text in the other voices.
type voice struct {
	at    read.Text // its key
	of    read.Text
	says  map[string][]read.Text
	layer int
}

// said is a text in the reader's own voice.
type said struct {
	first []read.Text
	print string
	layer int
}

// NewVoices begins with no words.
func NewVoices() *Voices { return &Voices{files: map[string]*voiced{}} }

// Layer says which layer is read from now on, the ground being 0.
func (v *Voices) Layer(i int) { v.layer = i }

// Add reads what the layer at hand says in other voices for a file.
func (v *Voices) Add(speaksFor, name string, src []byte, list *finding.List) {
	f := v.file(speaksFor)
	read.YAML(name, src, 0, list).Parts("the entry", func(key read.Text, m *read.Map) {
		e := &voice{at: key, of: m.NeedText("of"), says: map[string][]read.Text{}, layer: v.layer}
		for _, name := range read.Voices[1:] {
			if ts := m.OneText(name); len(ts) > 0 {
				e.says[name] = ts
			}
		}
		m.Done()
		if f.by[key.S] == nil {
			f.keys = append(f.keys, key.S)
		}
		f.by[key.S] = e
	})
}

func (v *Voices) file(name string) *voiced {
	f := v.files[name]
	if f == nil {
		f = &voiced{by: map[string]*voice{}, need: map[string]said{}}
		v.files[name] = f
		v.names = append(v.names, name)
	}
	return f
}

// Any tells whether there are words at all.
func (v *Voices) Any() bool { return len(v.names) > 0 }

// Again forgets what was asked for of a file, which the layer at hand gives anew as a whole.
func (v *Voices) Again(name string) {
	f := v.file(name)
	f.need, f.ways, f.anew = map[string]said{}, nil, v.layer
}

// In gives what says the words in one of the voices.
func (v *Voices) In(name string) read.Other { return speaker{v, name} }

type speaker struct {
	*Voices
	voice string
}

// Words gives what stands for a text in the voice: itself where nothing was written for it as it is now. It is [read.Other].
func (s speaker) Words(name, way string, first []read.Text) []read.Text {
	f := s.file(name)
	if _, twice := f.need[way]; !twice {
		f.ways = append(f.ways, way)
	}
	now := said{first, read.Fingerprint(read.Strings(first)...), s.layer}
	f.need[way] = now
	if e := f.by[way]; e.fits(now) && len(e.says[s.voice]) > 0 {
		return e.says[s.voice]
	}
	return first
}

func (e *voice) fits(t said) bool { return e != nil && e.of.S == t.print }

// Telling is how what is amiss with voices is told.
type Telling struct {
	Offered []string                                                   // the voices that the edition offers
	Spoken  func(file string) bool                                     // whether a file's texts are said in each voice
	Wrong   func(at finding.Place, check, text string, help ...string) // what the author of a file has to mend
	Layer   func(at finding.Place, check, text string, help ...string) // what a layer's own text lacks
}

// Report tells which texts are not said in a voice, which words are stale or for no text, and where an entry has other links or
// gaps than its text.
func (v *Voices) Report(t Telling) {
	for _, name := range slices.Sorted(slices.Values(v.names)) {
		f := v.files[name]
		if t.Spoken(name) {
			f.texts(path.Join("content/en", name), t)
		}
		for _, key := range f.keys {
			e := f.by[key]
			if _, asked := f.need[key]; (!asked || !t.Spoken(name)) && e.layer >= f.anew {
				t.Wrong(e.at.At, "needless-words", fmt.Sprintf("the entry %q names no text that is said in several voices", key), nearestOr(key, f.ways, "take the entry out")...)
			}
		}
	}
}

func nearestOr(key string, ways []string, help string) []string {
	if near := finding.NearestHelp(key, ways, nil); near != nil {
		return near
	}
	return []string{help}
}

// texts holds each text of a file against its entry.
func (f *voiced) texts(file string, t Telling) {
	var ground, above []said
	way := map[string]string{} // by the text's place
	for _, w := range f.ways {
		now, e := f.need[w], f.by[w]
		switch {
		case e.fits(now):
			e.sound(w, now, t)
		case e != nil && !e.of.Given(): // the reader has said so
		case e != nil && e.layer >= now.layer:
			t.Wrong(e.of.At, "stale-words", fmt.Sprintf("the voices of %q were written for another text", w),
				fmt.Sprintf("the text is now, at %s: %q", now.first[0].At, short(now.first)), "make them fit it, and write of: "+now.print)
		case len(t.Offered) > 0 && personal(now.first) != "":
			way[now.first[0].At.String()] = w
			if now.layer == 0 {
				ground = append(ground, now)
			} else {
				above = append(above, now)
			}
		}
	}
	missing(ground, way, file, t.Wrong)
	missing(above, way, file, t.Layer)
}

// missing tells of texts that are said in the reader's own voice alone; of many it names the first.
func missing(all []said, way map[string]string, file string, tell func(finding.Place, string, string, ...string)) {
	for i, s := range all {
		at := s.first[0].At
		line := fmt.Sprintf("add in %s: %q", file, fmt.Sprintf("%s: { of: %s, child: ..., person: ... }", way[at.String()], s.print))
		if i == 0 && len(all) > mostMissing {
			tell(at, "missing-voice", fmt.Sprintf("this text says %q, and like %d others of its file it is said in the reader's own voice alone", personal(s.first), len(all)-1), line)
			return
		}
		tell(at, "missing-voice", fmt.Sprintf("this text says %q, and it is said in the reader's own voice alone", personal(s.first)), line)
	}
}

// sound holds what an entry says against its text: every voice that is offered is there, with the same links and gaps.
func (e *voice) sound(way string, s said, t Telling) {
	for _, name := range t.Offered {
		if len(e.says[name]) == 0 {
			t.Wrong(e.at.At, "missing-voice", fmt.Sprintf("%q is not said in the voice %q", way, name), "add "+name+": with the words")
		}
	}
	for _, name := range read.Voices[1:] {
		words := e.says[name]
		if len(words) == 0 {
			continue
		}
		if len(words) != len(s.first) {
			t.Wrong(words[0].At, "voice-differs", fmt.Sprintf("%q has %d lines in the voice %q, and its text has %d", way, len(words), name, len(s.first)), "say each line")
			continue
		}
		for i, w := range words {
			if has, wants := marks(w.S), marks(s.first[i].S); !slices.Equal(has, wants) {
				t.Wrong(w.At, "voice-differs", fmt.Sprintf("%q has %s in the voice %q, and its text has %s", way, listed(has), name, listed(wants)), "a voice keeps the links, the marks and the gaps of its text")
			}
		}
	}
}

func listed(marks []string) string {
	if len(marks) == 0 {
		return "no links and gaps"
	}
	return strings.Join(marks, " ")
}

var (
	mark     = regexp.MustCompile(`\]\([^()\s]*\)|\{[^{}\s]*\}`)
	personIn = regexp.MustCompile(`\b(I|[Mm]e|[Mm]y|[Mm]ine|[Mm]yself|[Yy]ou|[Yy]our|[Yy]ours|[Yy]ourself|[Ww]e|[Oo]ur|[Oo]urs|us|Us)\b`)
)

// marks are a text's links and gaps, in order of name.
func marks(text string) []string {
	out := mark.FindAllString(text, -1)
	for i, m := range out {
		if strings.HasPrefix(m, "]") {
			out[i] = "[]" + m[1:]
		}
	}
	slices.Sort(out)
	return out
}

// Personal gives the first word of a text that speaks to or of the reader, or "".
func Personal(t read.Text) string { return personal([]read.Text{t}) }

// personal gives the first word of a text that speaks to or of the reader, or "".
func personal(ts []read.Text) string {
	for _, t := range ts {
		if w := personIn.FindString(mark.ReplaceAllString(t.S, "]")); w != "" {
			return w
		}
	}
	return ""
}
