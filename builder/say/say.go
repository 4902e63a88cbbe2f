// Package say holds what the program itself says on pages, in files and in findings of a
// page: labels, buttons, headings and frames of sentences, each by a name. The texts stand in a
// file of each language, content/LL/words.yaml, so that a translator has them in one place and
// a sentence keeps the order that its language gives it.
//
// A file is groups of entries: one group a page or a part of pages. An entry is a text, or
// keys:
//
//	sheet:
//	  heading: My sheet
//	  stars-used:
//	    about: how many of the three stars a reader has given
//	    one: "{count} star used."
//	    other: "{count} stars used."
//	  made-by: "{link}What was checked{/link}, by {names}"
//
// Its name is group and key with a point between: "sheet.stars-used". What stands in braces is
// a gap that the program fills: {names} by a text or a number, {link} to {/link} by an element
// around the words. A text with plural forms is chosen by the gap {count}; which forms a language
// has is in plural.go. What is under "about" is for translators and reaches no page.
//
// In another language than the program's own each entry says by "of" of which text it is the words, by
// the text's fingerprint ([read.Fingerprint]), so that what has gone stale is known.
//
// The group "formats" has what numbers, dates and lists are put together by.
package say

import (
	"fmt"
	"html/template"
	"maps"
	"slices"
	"strings"

	"golang.org/x/text/language"

	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// Name is the name of an entry: "sheet.stars-used".
type Name string

// group is the part of a name that says where in the file its entry stands.
func (n Name) group() string {
	g, _, _ := strings.Cut(string(n), ".")
	return g
}

// Words are the texts of one language.
type Words struct {
	Lang string // as BCP 47 writes it: "es-US"

	tag     language.Tag
	at      finding.Place // of the file
	entries map[Name]*entry
	names   []Name // in the file's order
	date    Name   // of the text that a date is put together by
	made    func(key string, make func() any) any
}

// entry is what stands under one name. Without plural forms it has the form Other alone.
type entry struct {
	at     finding.Place
	plural bool // the text is chosen by the number that fills {count}
	forms  map[Form]text
	said   []read.Text // the forms as their file has them
	of     read.Text   // in another language: the fingerprint of the text that it was made for
	broken bool        // a text could not be read

	own    *entry            // in a voice: what it is in the reader's own
	voices map[string]*entry // what it says in the other voices of [read.Voices]; nil where it suits all
}

// Has tells whether there is a text of that name.
func (w *Words) Has(name Name) bool { return w.entries[name] != nil }

// Names lists all names in the file's order.
func (w *Words) Names() []Name { return slices.Clone(w.names) }

// Gaps names what is to be filled in an entry, in order of name: "count", and "link/" for
// words that an element goes around.
func (w *Words) Gaps(name Name) []string {
	e := w.entries[name]
	if e == nil {
		return nil
	}
	return e.gaps()
}

// Each calls do for every text of the file, in its order; one with plural forms has several.
func (w *Words) Each(do func(name Name, t read.Text)) {
	for _, n := range w.names {
		for _, t := range w.entries[n].said {
			do(n, t)
		}
		for _, voice := range read.Voices {
			if v := w.entries[n].voices[voice]; v != nil {
				for _, t := range v.said {
					do(n, t)
				}
			}
		}
	}
}

// InVoice gives the words as they are said in a voice of [read.Voices].
func (w *Words) InVoice(voice string) *Words {
	out := *w
	out.entries, out.made = maps.Clone(w.entries), maker()
	for n, e := range w.entries {
		if v := e.voices[voice]; v != nil {
			said := *v
			said.own = e
			out.entries[n] = &said
		}
	}
	return &out
}

// Voiced gives the texts of a group that words in a voice say in another way, by what is said in the reader's own.
func (w *Words) Voiced(group string) map[string]string {
	out := map[string]string{}
	for n, e := range w.entries {
		if e.own != nil && n.group() == group && !e.plural {
			out[e.own.forms[Other].String()] = e.forms[Other].String()
		}
	}
	return out
}

// gaps are those of all forms; a form may leave the number out: "one question".
func (e *entry) gaps() []string {
	var out []string
	if e.plural {
		out = append(out, count)
	}
	for _, t := range e.forms {
		for _, g := range t.gaps() {
			if !slices.Contains(out, g) {
				out = append(out, g)
			}
		}
	}
	slices.Sort(out)
	return out
}

// count is the gap by whose number a plural form is chosen.
const count = "count"

// Say gives a text with its gaps filled: the gaps' names, each followed by what it is filled
// with, a string or an int. A name or a gap that is not there is a fault of the program, which tests
// find without running it, and Say panics.
func (w *Words) Say(name Name, gaps ...any) string {
	f, err := w.fill(name, gaps)
	if err == nil && f.html {
		err = fmt.Errorf("the text %q has elements in it, and letters alone were asked for", name)
	}
	if err != nil {
		panic(err)
	}
	return f.out.String()
}

// HTML is Say where the text goes into a page as it is. Gaps may also be filled with
// template.HTML and with an Element. Letters are escaped.
func (w *Words) HTML(name Name, gaps ...any) template.HTML {
	f, err := w.fill(name, gaps)
	if err != nil {
		panic(err)
	}
	return f.escaped()
}

// Show is Say or HTML, by what the text is: a string where letters are all that is in
// it, so that a template escapes them for the place where they stand.
func (w *Words) Show(name Name, gaps ...any) (any, error) {
	f, err := w.fill(name, gaps)
	switch {
	case err != nil:
		return nil, err
	case f.html:
		return f.escaped(), nil
	}
	return f.out.String(), nil
}
