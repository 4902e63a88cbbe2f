package read

import (
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"

	"keelpath/builder/finding"
	"keelpath/builder/internal/unseen"
)

// maxMarks is how many characters that cannot be seen are reported of one file.
// A text taken from elsewhere may hold them by the thousand.
const maxMarks = 100

// marks reports the characters of a file that cannot be seen, and those of HTML
// that stand for one, as they are passed.
type marks struct {
	list    *finding.List
	at      finding.Place
	written []unseen.Reference // those still to come
	found   int
}

// see looks at the character c, which begins at that byte of the file.
func (m *marks) see(c rune, byte int) {
	if unseen.Is(c) {
		m.report("", c)
	}
	if len(m.written) > 0 && m.written[0].From == byte {
		m.report(quote(m.written[0].Text), m.written[0].Rune)
		m.written = m.written[1:]
	}
}

func (m *marks) report(what string, c rune) {
	m.found++
	text, help := unseenText(what, c)
	m.list.Add(m.at, "unseen", text, help)
}

// many tells whether so many were found that reading on is of no use.
func (m *marks) many() bool {
	if m.found < maxMarks {
		return false
	}
	m.list.Add(m.at, "unseen", fmt.Sprintf("%d characters up to here cannot be seen, or are no plain spaces, and the rest of the file was not looked at", m.found),
		"take the text in anew as plain text, without the form it had elsewhere")
	return true
}

// unseenText says what is wrong with c, and what to do. what stands for c where it
// does not stand there itself.
func unseenText(what string, c rune) (text, help string) {
	switch space := unseen.IsSpace(c); {
	case space && what == "":
		return "a space stands here that is not the plain one: " + unseen.Name(c), "delete it and press the space bar: only the plain space is taken"
	case space:
		return what + " stands for a space that is not the plain one: " + unseen.Name(c), "write a plain space in its place: only the plain space is taken"
	case what == "":
		return "a character stands here that cannot be seen: " + unseen.Name(c), "delete it: with such a character a page can show something else than its file"
	}
	return what + " stands for a character that cannot be seen: " + unseen.Name(c), "delete it: with such a character a page can show something else than its file"
}

// escaped reports what a quoted text makes of its escapes, as "\u202e" does. What
// stands in the file itself has been reported.
func (r *reader) escaped(n *yaml.Node) {
	if n.Style&yaml.DoubleQuotedStyle == 0 {
		return
	}
	for _, c := range n.Value {
		if unseen.Is(c) && !strings.ContainsRune(r.src, c) {
			text, help := unseenText("an escape in this text", c)
			r.list.Add(r.place(n), "unseen", text, help)
			return
		}
	}
	for _, w := range unseen.References(n.Value) {
		if !strings.Contains(r.src, w.Text) {
			text, help := unseenText(quote(w.Text), w.Rune)
			r.list.Add(r.place(n), "unseen", text, help)
			return
		}
	}
}
