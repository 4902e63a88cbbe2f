package library

import (
	"fmt"

	"keelpath/builder/finding"
	"keelpath/builder/helpline"
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
	l.Say = l.Say.Against(first, l.list).In(l.Edition.Place.S)
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
