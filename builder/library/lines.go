package library

import (
	"fmt"
	"regexp"
	"slices"

	"keelpath/builder/helpline"
	"keelpath/builder/read"
)

// NumberForm is how a number to call is written, with at least two digits; PlaceForm
// is a place's name. A place of few words, each with a capital, has no room for
// a condition such as "the US after hours".
const (
	NumberForm = `^[0-9 +()-]*[0-9][ +()-]*[0-9][0-9 +()-]*$`
	PlaceForm  = `^(the )?[A-Z][^\s0-9.,:;!?()]*( (and |of |the )*[A-Z][^\s0-9.,:;!?()]*){0,4}$`
)

const (
	maxNumber = 20 // signs
	maxPlace  = 40
)

var numberForm, placeForm = regexp.MustCompile(NumberForm), regexp.MustCompile(PlaceForm)

// lines reads the numbers to call and gives the ids of those that the file has. A
// layer replaces each of them as a whole.
func (l *loader) lines(m *read.Map) []string {
	l.Edition.Lines.Say = l.Say
	var has []string
	for _, id := range helpline.IDs {
		if s := m.Sub(id, fmt.Sprintf("%q", id)); s != nil {
			*l.Edition.Lines.Slot(id) = l.line(id, s)
			has = append(has, id)
		}
	}
	return has
}

func (l *loader) line(id string, m *read.Map) helpline.Line {
	line := helpline.Line{Number: m.Text("number"), Where: m.Words("where"), Texts: m.Bool("text")}
	number, where := line.Number, line.Where
	if number.S != "" && (!numberForm.MatchString(number.S) || len(number.S) > maxNumber) {
		l.list.Add(number.At, "helpline", fmt.Sprintf("the number of %q is %q, and that is no number that one can dial", id, number.S),
			fmt.Sprintf("write it in at least two digits, with spaces, +, -, ( and ) if you like, in at most %d signs; the words around it are the program's", maxNumber))
	}
	if where.S != "" && l.Lang == FirstLanguage && (!placeForm.MatchString(where.S) || len(where.S) > maxPlace) {
		l.list.Add(where.At, "helpline", fmt.Sprintf("the place of %q is %q, and that is no place's name", id, where.S),
			`write the name alone, with capitals, as one says it after "in": "the US", "New South Wales"`)
	}
	if number.S != "" && where.S == "" {
		l.list.Add(m.Key("where"), "helpline", fmt.Sprintf("the number of %q does not say where it holds", id), `add where: with the place's name, as "the US"`)
	}
	m.Done()
	if id != helpline.Urgent && number.S == "" && (number.Given() || m.Lacks("number")) {
		l.list.Add(m.Key("number"), "helpline", fmt.Sprintf("the edition has no number for %q", id), "an edition may leave out the number for urgent advice, and no other")
	}
	return line
}

// needed reports what every edition has.
func (l *loader) needed(m *read.Map, has []string) {
	if l.Edition.Name.S == "" {
		l.list.Add(m.Key("name"), "missing-key", `the edition lacks "name"`, "every edition has a name")
	}
	for _, id := range []string{helpline.Emergency, helpline.Crisis} {
		if !l.Edition.Lines.Slot(id).Number.Given() && !slices.Contains(has, id) && m.Lacks(id) {
			l.list.Add(m.Key(id), "missing-key", fmt.Sprintf("the edition lacks %q", id), "every edition says whom to call in an emergency and in a crisis: "+id+`: { number: "...", where: ... }`)
		}
	}
}
