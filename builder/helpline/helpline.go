// Package helpline is the one home of the words around the numbers to call. An
// edition gives the numbers and says where each holds; the words are the
// program's own, so that no edition can make them weaker.
package helpline

import (
	"fmt"
	"html/template"
	"strings"
	"unicode"
	"unicode/utf8"

	"keelpath/builder/read"
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

// Words gives a slot's clause as it stands in the middle of a sentence.
func (l Lines) Words(id string) Words {
	switch line := l.Slot(id); {
	case line == nil:
		return Words{}
	case line.Number.S == "":
		return Words{Before: without[id]}
	case id == Emergency:
		return line.say(", or your local emergency number")
	case id == Urgent:
		return line.say(" for urgent advice")
	default:
		return line.say("")
	}
}

// without is what is said where an edition has no number.
var without = map[string]string{
	Emergency: "call your local emergency number",
	Urgent:    "call an urgent-advice line if you have one",
	Crisis:    "call a crisis line",
}

func (l Line) say(end string) Words {
	verb := "call "
	if l.Texts {
		verb = "call or text "
	}
	return Words{Before: verb, Number: l.Number.S, After: " in " + l.Where.S + end}
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
func (l Lines) Sentence(id string) string { return l.Words(id).Capital().Plain() + "." }

// SentenceHTML is Sentence with the number as a link.
func (l Lines) SentenceHTML(id string) template.HTML { return l.Words(id).Capital().HTML() + "." }
