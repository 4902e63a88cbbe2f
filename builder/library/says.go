package library

import (
	"fmt"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/helpline"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
	"keelpath/builder/say"
)

// wordsFile is what the program says, by the name that it has in each language's folder.
const wordsFile = "words.yaml"

// says reads what the program says in the first language. Those words are the ground's, so that no
// edition can make weaker what they say of safety and of what this site never does.
func (l *loader) says(layers []Layer) {
	for i, y := range layers {
		m := l.open(y, say.File(FirstLanguage))
		switch {
		case m != nil && i == 0:
			l.Say = say.Read(m, FirstLanguage, l.list)
		case m != nil:
			l.list.Add(finding.Place{File: m.At().File}, "safety-kept", fmt.Sprintf("this file has words of the language %q, and those are the program's own", FirstLanguage),
				"give the file's folder the name of another language, or remove the file", safetyRule)
		}
	}
	if l.Say == nil {
		l.Say = say.English()
	}
}

// saysIn reads what the program says in the loader's language, from the last layer that has it. Where
// none has, it goes on in the first language.
func (l *loader) saysIn(first *say.Words, layers []Layer) {
	l.Say = first
	at := say.File(l.Lang)
	for _, y := range layers {
		if m := l.open(y, at); m != nil {
			l.Say = say.Read(m, l.Lang, l.list)
		}
	}
	if l.Say == first {
		l.list.Add(finding.Place{File: at}, "missing-words", fmt.Sprintf("there are no words in %s for what the program itself says", l.Lang), "add the file "+at)
		return
	}
	l.Say = l.Say.Against(first, l.list)
	l.unitWords()
	l.Say = l.Say.In(l.Edition.Place.S)
}

// unitWords reports words for a unit that are read as another one.
func (l *loader) unitWords() {
	for _, c := range quantity.Clashes(l.Say) {
		at, by := l.sayAt(c.Of, c.Word), "in every language"
		if c.By != "" {
			by = fmt.Sprintf("by the text %q", c.By)
		}
		l.list.Add(at, "unit-words", fmt.Sprintf("the text %q has the word %q for %s, and it is read as %s", c.Of, c.Word, quantity.Table().Names[c.Unit.Code], quantity.Table().Names[c.Means.Code]),
			"it has that meaning "+by+"; write a word that stands for one unit alone: what a page shows in this one would be read back as the other")
	}
}

// sayAt is where a text has a word.
func (l *loader) sayAt(name say.Name, word string) (at finding.Place) {
	l.Say.Each(func(n say.Name, t read.Text) {
		if i := strings.Index(strings.ToLower(t.S), word); n == name && i >= 0 && at.Line == 0 {
			at = t.Place(len([]rune(t.S[:i])) + 1)
		}
	})
	return at
}

// everyWord gives what the program says, but for the clauses of room helpline: they are what other texts
// name in place of words of their own.
func (c *checker) everyWord(do func(string, ...read.Text)) {
	c.Say.Each(func(name say.Name, t read.Text) {
		if !helpline.IsClause(name) {
			do(fmt.Sprintf("text %q", name), t)
		}
	})
}
