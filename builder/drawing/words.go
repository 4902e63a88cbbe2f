package drawing

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// Words is what one drawing says: its name, what it shows, and its labels. All of
// them may name numbers of the drawing in braces: "up to {lean}°".
type Words struct {
	ID          read.Text
	Title, Long read.Text
	Labels      []Label // in the file's order
}

// Label is one label, line by line.
type Label struct {
	ID    read.Text
	Lines []read.Text
}

// Book is the words of all drawings.
type Book []*Words

// ReadWords reads what drawings say, and holds it against their shapes.
func ReadWords(m *read.Map, list *finding.List) Book {
	var out Book
	m.Each("drawings", "drawing", func(id read.Text, d *read.Map) {
		w := &Words{ID: id, Title: d.NeedWords("title"), Long: d.NeedWords("long")}
		if shape, ok := byID(id.S); !ok || len(shape.Labels()) > 0 {
			d.WordPairs("labels", func(id read.Text, lines []read.Text) { w.Labels = append(w.Labels, Label{id, lines}) })
		}
		d.Done()
		w.check(list)
		out = append(out, w)
	})
	m.Done()
	return out
}

func (w *Words) check(list *finding.List) {
	d, ok := byID(w.ID.S)
	if !ok {
		list.Add(w.ID.At, "unknown-key", fmt.Sprintf("these are words for the drawing %q, and there is none", w.ID.S), finding.NearestOrAll(w.ID.S, idsOf(Shapes()), "drawings")...)
		return
	}
	asked := d.Labels()
	var meant []string // labels that a misspelt one was likely meant to be
	for _, l := range w.Labels {
		switch {
		case !slices.Contains(asked, l.ID.S):
			meant = append(meant, finding.Nearest(l.ID.S, asked))
			list.Add(l.ID.At, "unknown-key", fmt.Sprintf("drawing %q has no label %q", w.ID.S, l.ID.S), finding.NearestOrAll(l.ID.S, asked, "labels here")...)
		case !slices.ContainsFunc(l.Lines, func(t read.Text) bool { return t.S != "" }):
			list.Add(l.ID.At, "empty-text", fmt.Sprintf("label %q of drawing %q has no words", l.ID.S, w.ID.S), "write them behind the colon, or one line each in a list")
		}
		w.numbered(d, list, l.Lines...)
	}
	w.numbered(d, list, w.Title, w.Long)
	for _, id := range asked {
		if w.label(id) == nil && !slices.Contains(meant, id) {
			list.Add(w.ID.At, "missing-key", fmt.Sprintf("drawing %q lacks the label %q", w.ID.S, id), fmt.Sprintf(`add a line "%s: ..." under its "labels"`, id))
		}
	}
}

func (w *Words) label(id string) *Label {
	for i := range w.Labels {
		if w.Labels[i].ID.S == id {
			return &w.Labels[i]
		}
	}
	return nil
}

// braces finds the numbers that a text names, and braces that name none.
var braces = regexp.MustCompile(`\{[a-z0-9-]*\}?|\}`)

// numbered holds the numbers that texts name against those of the drawing.
func (w *Words) numbered(d Drawing, list *finding.List, ts ...read.Text) {
	for _, t := range ts {
		for _, at := range braces.FindAllStringIndex(t.S, -1) {
			said := t.S[at[0]:at[1]]
			name := strings.Trim(said, "{}")
			if _, ok := d.numbers[name]; ok && said == "{"+name+"}" {
				continue
			}
			list.Add(t.Place(len([]rune(t.S[:at[0]]))+1), "unknown-name", fmt.Sprintf("drawing %q names the number %q, and it has none", w.ID.S, said), numbersHelp(d)...)
		}
	}
}

func numbersHelp(d Drawing) []string {
	var has []string
	for n := range d.numbers {
		has = append(has, "{"+n+"}")
	}
	if len(has) == 0 {
		return []string{"this drawing has no numbers that words can name: leave the braces out"}
	}
	slices.Sort(has)
	return []string{"its numbers are " + strings.Join(has, ", ")}
}

// Find gives the drawing with that ID and its words. digits are the ten of their language, and may be empty for 0 to 9.
func (b Book) Find(id, digits string) (Drawing, bool) {
	d, ok := byID(id)
	i := slices.IndexFunc(b, func(w *Words) bool { return w.ID.S == id })
	if !ok || i < 0 {
		return Drawing{}, false
	}
	w := b[i]
	d.digits = digits
	d.Title, d.Long, d.labels = d.filled(w.Title.S), d.filled(w.Long.S), map[string][]string{}
	for _, l := range w.Labels {
		for _, line := range l.Lines {
			d.labels[l.ID.S] = append(d.labels[l.ID.S], d.filled(line.S))
		}
	}
	return d, true
}

// filled puts the drawing's numbers into a text.
func (d Drawing) filled(text string) string {
	for name, is := range d.numbers {
		text = strings.ReplaceAll(text, "{"+name+"}", d.number(is))
	}
	return text
}

// Silent names the drawings that the book has no words for.
func (b Book) Silent() []string {
	return slices.DeleteFunc(idsOf(Shapes()), func(id string) bool {
		return slices.ContainsFunc(b, func(w *Words) bool { return w.ID.S == id })
	})
}

// LabelPlace is where a label stands in its file.
func (w *Words) LabelPlace(id string) finding.Place {
	if l := w.label(id); l != nil {
		return l.ID.At
	}
	return w.ID.At
}
