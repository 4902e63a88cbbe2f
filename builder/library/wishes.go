package library

import (
	"fmt"
	"strings"

	"keelpath/builder/read"
)

// MaxWishes is the most wishes of an edition.
const MaxWishes = 16

// The most words of the pieces from which questions are built, so that no
// question of them is longer than maxWords.
const (
	WantWords = 4
	NameWords = 2
	LessWords = 10
)

func (l *loader) wishes(m *read.Map) {
	m.EachHere("wishes", "wish", func(id read.Text, w *read.Map) {
		wish := &Wish{
			ID: id, Title: w.NeedWords("title"), Row: w.NeedText("row"), Means: w.NeedWords("means"),
			Want: w.NeedWords("want"), Name: w.NeedWords("name"), Less: w.NeedWords("less"),
		}
		l.wishStep(wish, w)
		l.wishWords(wish, "want", wish.Want, WantWords)
		l.wishWords(wish, "name", wish.Name, NameWords)
		l.wishWords(wish, "less", wish.Less, LessWords)
		w.Done()
		put(&l.Wishes, wish, func(w *Wish) string { return w.ID.S })
	})
	m.Done()
}

// wishStep reads at-least or at-most. A step that every mark reaches is no wish,
// so at-least begins at 1 and at-most ends one below the last.
func (l *loader) wishStep(wish *Wish, m *read.Map) {
	up, hasUp := m.Int("at-least", 1, steps-1)
	down, hasDown := m.Int("at-most", 0, steps-2)
	wish.Step, wish.Down = up, false
	if hasDown {
		wish.Step, wish.Down = down, true
	}
	switch noUp, noDown := m.Lacks("at-least"), m.Lacks("at-most"); {
	case hasUp && hasDown:
		l.list.Add(m.Key("at-most"), "needless-key", fmt.Sprintf(`wish %q has both "at-least" and "at-most"`, wish.ID.S), "keep the one that says from which step a foot meets the wish")
	case m != nil && noUp && noDown:
		l.list.Add(wish.ID.At, "missing-key", fmt.Sprintf("wish %q does not say from which step a foot meets it", wish.ID.S), `add "at-least:" or "at-most:" with a step of its row, from 0 to 4`)
	}
}

func (l *loader) wishWords(wish *Wish, key string, t read.Text, most int) {
	if l.Lang != FirstLanguage {
		return // how many words a thing takes is a language's own affair
	}
	if n := len(strings.Fields(t.S)); n > most {
		l.list.Add(t.At, "prompt-form", fmt.Sprintf("%q of wish %q has %d words, and at most %d fit into a question", key, wish.ID.S, n, most), "shorten it")
	}
	if strings.ContainsAny(t.S, "?.") {
		l.list.Add(t.At, "prompt-form", fmt.Sprintf("%q of wish %q ends a sentence, and it is a piece of one", key, wish.ID.S), "leave out the full stop or question mark")
	}
}

func (c *checker) wishes() {
	for _, w := range c.Wishes {
		c.has(c.rows, fmt.Sprintf("wish %q", w.ID.S), w.Row)
	}
	if n := len(c.Wishes); n > MaxWishes {
		c.list.Add(c.Wishes[MaxWishes].ID.At, "too-large", fmt.Sprintf("there are %d wishes, and at most %d are taken", n, MaxWishes), "take some away")
	}
}
