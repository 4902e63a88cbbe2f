// Package helpline is the one home of what is said around the numbers to call. An
// edition gives the numbers and says where each holds; the words are the
// program's own, so that no edition can make them weaker, and stand in the words file.
package helpline

import (
	"fmt"
	"html/template"
	"strings"
	"unicode"
	"unicode/utf8"

	"keelpath/builder/read"
	"keelpath/builder/say"
)

// The ids of the slots, as a text names them: "[](call:emergency)".
const (
	Emergency = "emergency"
	Urgent    = "urgent"
	Crisis    = "crisis"
)

// IDs are all slots.
var IDs = []string{Emergency, Urgent, Crisis}

// Line is a number and where it holds. The zero Line has no number.
type Line struct {
	Number read.Text // "911"
	Where  read.Text // a place's name, as one says it: "the US"
	Texts  bool      // it takes text messages
}

// Lines are the three slots of an edition.
type Lines struct {
	Emergency, Urgent, Crisis Line

	Say *say.Words // the words around them; English where it is nil
}

// Slot gives a slot by its id, to be read or filled; nil where there is none.
func (l *Lines) Slot(id string) *Line {
	switch id {
	case Emergency:
		return &l.Emergency
	case Urgent:
		return &l.Urgent
	case Crisis:
		return &l.Crisis
	}
	return nil
}

// Words are a clause that says whom to call: "call 911 in the US, or your local
// emergency number". Number is empty where the edition has none.
type Words struct {
	Before, Number, After string
}

// around are the words of a clause: with a number, with one that takes text messages, and
// where an edition has none.
type around struct{ call, text, without say.Name }

var clauses = map[string]around{
	Emergency: {"call.clause-emergency", "call.clause-emergency-text", "call.without-emergency"},
	Urgent:    {"call.clause-urgent", "call.clause-urgent-text", "call.without-urgent"},
	Crisis:    {"call.clause-crisis", "call.clause-crisis-text", "call.without-crisis"},
}

// IsClause tells whether a text of the words file is a clause of this room.
func IsClause(name say.Name) bool {
	for _, c := range clauses {
		if name == c.call || name == c.text || name == c.without {
			return true
		}
	}
	return false
}

// mark stands for the number while a clause is filled; no text has it.
const mark = "\x00"

// Words gives a slot's clause as it stands in the middle of a sentence.
func (l Lines) Words(id string) Words {
	line := l.Slot(id)
	if line == nil {
		return Words{}
	}
	w, clause := l.say(), clauses[id]
	if line.Number.S == "" {
		return Words{Before: w.Say(clause.without)}
	}
	name := clause.call
	if line.Texts {
		name = clause.text
	}
	before, after, _ := strings.Cut(w.Say(name, "number", mark, "place", line.Where.S), mark)
	return Words{Before: before, Number: line.Number.S, After: after}
}

func (l Lines) say() *say.Words {
	if l.Say == nil {
		return say.English()
	}
	return l.Say
}

// Capital gives the clause as it opens a sentence.
func (w Words) Capital() Words {
	r, n := utf8.DecodeRuneInString(w.Before)
	if n > 0 {
		w.Before = string(unicode.ToUpper(r)) + w.Before[n:]
	}
	return w
}

// Behind gives the clause as it stands behind the words that come before it in
// its block: with a capital where it opens a sentence.
func (l Lines) Behind(id, before string) Words {
	before = strings.TrimRight(before, " \t\n\"'”’)(“‘")
	if before == "" || strings.ContainsAny(before[len(before)-1:], ".?!") {
		return l.Words(id).Capital()
	}
	return l.Words(id)
}

// Plain gives the clause in letters.
func (w Words) Plain() string { return w.Before + w.Number + w.After }

// HTML gives the clause with its number as a link that a phone can dial.
func (w Words) HTML() template.HTML {
	esc := template.HTMLEscapeString
	if w.Number == "" {
		return template.HTML(esc(w.Plain()))
	}
	return template.HTML(fmt.Sprintf(`%s<a class="call" href="tel:%s">%s</a>%s`, esc(w.Before), dialled(w.Number), esc(w.Number), esc(w.After)))
}

// Dialled gives the number as an address of a telephone has it; empty where there is none.
func (w Words) Dialled() string { return dialled(w.Number) }

// dialled gives a number as a telephone's address has it: digits, with a plus in front
// where it has one (RFC 3966 takes no spaces).
func dialled(number string) string {
	digits := strings.Map(func(r rune) rune {
		if r < '0' || r > '9' {
			return -1
		}
		return r
	}, number)
	if strings.HasPrefix(strings.TrimSpace(number), "+") {
		return "+" + digits
	}
	return digits
}

// Sentence gives a slot's clause as a sentence of its own.
func (l Lines) Sentence(id string) string {
	return l.say().Say("call.sentence", "call", l.Words(id).Capital().Plain())
}

// SentenceHTML is Sentence with the number as a link.
func (l Lines) SentenceHTML(id string) template.HTML {
	return l.say().HTML("call.sentence", "call", l.Words(id).Capital().HTML())
}
