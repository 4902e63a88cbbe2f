package teaching

import (
	"fmt"
	"path"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// Limits of one case; they only keep every later step bounded.
const (
	MaxMinutes = 120
	MaxDays    = 730
)

// Read reads a case's file. It goes on as far as it can: the case that comes back may
// lack parts, and is nil only where the file is no mapping.
func Read(want read.Choice, file string, src []byte, list *finding.List) *Case {
	m := want.YAML(file, src, 0, list)
	if m == nil {
		return nil
	}
	c := &Case{
		File: file, ID: m.NeedText("case"), Title: m.NeedWords("title"), Who: m.NeedWords("who"), Setting: m.NeedWords("setting"),
		Credits: m.Credits(), Tasks: m.IDs("tasks"), Minutes: m.NeedInt("minutes", 1, MaxMinutes), Limb: oneOf(m, "limb", Limbs),
	}
	m.Each("facts", "fact", func(id read.Text, f *read.Map) { c.Facts = append(c.Facts, readFact(id, f)) })
	c.Screen = readScreen(m.Sub("screen", `"screen"`), m)
	m.Each("walks", "walk", func(id read.Text, w *read.Map) {
		c.Walks = append(c.Walks, &Walk{Tree: id, Answers: readAnswers(w), Ending: w.NeedText("ending")})
		w.Done()
	})
	for _, t := range m.Maps("argue", "a foot type of the case") {
		c.Argue = append(c.Argue, tree.Talk{Type: t.NeedText("type"), For: t.NeedWords("for"), Against: t.NeedWords("against")})
		t.Done()
	}
	c.Before = m.Words("ends-before")
	m.Each("beats", "beat", func(id read.Text, b *read.Map) { c.Beats = append(c.Beats, readBeat(id, b)) })
	m.Each("flips", "flip", func(id read.Text, f *read.Map) { c.Flips = append(c.Flips, readFlip(id, f)) })
	if l := m.Sub("follow-up", `"follow-up"`); l != nil {
		c.Later = Later{Measure: l.NeedWords("measure"), Day: l.NeedInt("day", 1, MaxDays), Change: l.NeedWords("change")}
		l.Done()
	}
	c.Errors = m.WordList("errors")
	m.Done()
	missing(m, list, "facts", "walks", "beats", "flips", "follow-up")
	if want := strings.TrimSuffix(path.Base(file), path.Ext(file)); c.ID.S != "" && c.ID.S != want {
		list.Add(c.ID.At, "wrong-name", fmt.Sprintf("the case is called %q, and its file %q", c.ID.S, path.Base(file)), "give both the same name")
	}
	return c
}

func missing(m *read.Map, list *finding.List, keys ...string) {
	for _, key := range keys {
		if m.Lacks(key) {
			list.Add(m.Key(key), "missing-key", fmt.Sprintf("the case lacks %q", key), fmt.Sprintf("add %q with its entries below", key+":"))
		}
	}
}

// oneOf is read.Map.OneOf for a value that must be there.
func oneOf(m *read.Map, key string, allowed []string) read.Text {
	if m.NeedText(key).S == "" {
		return read.Text{}
	}
	return m.OneOf(key, allowed...)
}

func readFact(id read.Text, m *read.Map) *Fact {
	f := &Fact{ID: id, Says: m.NeedWords("says"), From: oneOf(m, "from", Origins), Request: m.Words("request"), Dated: m.Text("dated"), Amount: m.Text("amount")}
	if f.Dated.Given() {
		f.Dated = m.Date("dated")
	}
	m.Done()
	return f
}

func readAnswers(m *read.Map) []*Answer {
	var out []*Answer
	m.Each("answers", "answer", func(id read.Text, a *read.Map) { out = append(out, readAnswer(id, a)) })
	return out
}

func readAnswer(id read.Text, m *read.Map) *Answer {
	if m == nil {
		return &Answer{Question: id}
	}
	a := &Answer{Question: id, Is: m.OneOrMore("is"), Rests: m.OneOrMore("rests")}
	m.Done()
	return a
}

func readScreen(m, top *read.Map) *Screen {
	if m == nil {
		return nil
	}
	s := &Screen{At: read.Text{S: "screen", At: top.Key("screen")}}
	one := func(key string) *Answer {
		if a := m.Sub(key, "the answer to "+fmt.Sprintf("%q", key)); a != nil {
			return readAnswer(read.Text{S: key, At: m.Key(key)}, a)
		}
		return nil
	}
	s.Leg, s.Gate = one("leg"), one("gate")
	m.Each("groups", "group", func(id read.Text, a *read.Map) { s.Groups = append(s.Groups, readAnswer(id, a)) })
	m.Done()
	return s
}

func readFlip(id read.Text, m *read.Map) *Flip {
	f := &Flip{
		ID: id, Fact: m.NeedText("fact"), Says: m.NeedWords("says"), Tree: m.NeedText("tree"), Answers: readAnswers(m),
		Parts: m.Text("parts"), Ending: m.NeedText("ending"), Because: m.NeedWords("because"),
	}
	m.Done()
	return f
}

func readBeat(id read.Text, m *read.Map) *Beat {
	b := &Beat{
		ID: id, Format: oneOf(m, "format", Formats), Minutes: m.NeedInt("minutes", 1, MaxMinutes), Tasks: m.IDs("tasks"),
		Says: m.Words("says"), Lead: m.NeedWords("lead"),
	}
	if of, ok := parts[b.Format.S]; ok {
		of(b, m)
		m.Done()
	}
	return b
}

// parts read what is a beat's own by its format.
var parts = map[string]func(*Beat, *read.Map){
	OneBest: func(b *Beat, m *read.Map) {
		b.options(m, func(o *Option, m *read.Map) { o.Text = m.NeedWords("text") })
		b.Key = []read.Text{m.NeedText("key")}
	},
	KeyFeature: func(b *Beat, m *read.Map) {
		b.Feature, b.Picks = m.NeedWords("feature"), m.NeedInt("picks", 1, MaxOptions)
		b.options(m, func(o *Option, m *read.Map) {
			o.Text, o.Worth = m.NeedWords("text"), oneOf(m, "worth", Worths)
		})
	},
	Predict: func(b *Beat, m *read.Map) {
		b.Tree, b.After, b.Of = m.NeedText("tree"), m.Text("after"), oneOf(m, "of", []string{NextQuestion, OpenEndings})
		b.options(m, func(o *Option, m *read.Map) { o.Text = m.NeedWords("text") })
		b.Key = m.NeedTexts("key")
	},
	Ask: func(b *Beat, m *read.Map) {
		b.Requests = m.NeedInt("requests", 1, MaxOptions)
		b.options(m, func(*Option, *read.Map) {})
	},
	Write: func(b *Beat, m *read.Map) {
		b.Checklist, b.Model = m.NeedWordList("checklist"), m.NeedWords("model")
	},
	Shift: func(b *Beat, m *read.Map) {
		b.Toward, b.Away = m.NeedWords("toward"), m.NeedWords("away")
	},
	Defend: func(*Beat, *read.Map) {},
	RolePlay: func(b *Beat, m *read.Map) {
		b.Opening, b.Freely, b.If, b.Never = m.NeedWords("opening"), m.IDs("freely"), m.IDs("if-asked"), m.WordList("never")
		b.Feels, b.Closes, b.TeachBack = m.NeedWords("feels"), m.NeedWords("closes"), m.NeedWordList("teach-back")
	},
	Order: func(b *Beat, m *read.Map) {
		b.options(m, func(o *Option, m *read.Map) {
			o.Text, o.Cause = m.NeedWords("text"), oneOf(m, "cause", Causes)
		})
	},
}

func (b *Beat) options(m *read.Map, own func(*Option, *read.Map)) {
	m.Each("options", "option", func(id read.Text, m *read.Map) {
		o := &Option{ID: id}
		own(o, m)
		o.Because = m.NeedWords("because")
		m.Done()
		b.Options = append(b.Options, o)
	})
}
