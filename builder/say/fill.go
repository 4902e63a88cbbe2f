package say

import (
	"fmt"
	"html/template"
	"slices"
	"strings"
)

// filling is a text as its gaps are filled. While there is no HTML in it, out has bare letters.
type filling struct {
	out  strings.Builder
	html bool
}

// escaped gives the filling as HTML.
func (f *filling) escaped() template.HTML {
	if f.html {
		return template.HTML(f.out.String())
	}
	return template.HTML(template.HTMLEscapeString(f.out.String()))
}

func (f *filling) letters(s string) {
	if f.html {
		s = template.HTMLEscapeString(s)
	}
	f.out.WriteString(s)
}

// fill gives the text of a name, with gaps as Say takes them.
func (w *Words) fill(name Name, gaps []any) (*filling, error) {
	e := w.entries[name]
	if e == nil {
		return nil, fmt.Errorf("the words of %q have no %q", w.Lang, name)
	}
	values, err := paired(gaps)
	if err != nil {
		return nil, fmt.Errorf("the text %q: %w", name, err)
	}
	if err := e.fits(values); err != nil {
		return nil, fmt.Errorf("the text %q: %w", name, err)
	}
	f := &filling{html: anyHTML(values)}
	for _, p := range e.forms[w.formOf(e, values)] {
		if err := w.put(f, p, values); err != nil {
			return nil, fmt.Errorf("the text %q: %w", name, err)
		}
	}
	return f, nil
}

// formOf chooses by the number that fills {count}.
func (w *Words) formOf(e *entry, values map[string]any) Form {
	n, ok := values[count].(int)
	if !e.plural || !ok {
		return Other
	}
	if f := FormOf(w.tag, n); e.forms[f] != nil {
		return f
	}
	return Other // the text is in the program's own language
}

func (w *Words) put(f *filling, p part, values map[string]any) error {
	switch p.kind {
	case letters:
		f.letters(p.s)
	case opens:
		f.out.WriteString(values[p.s].(Element).open)
	case closes:
		f.out.WriteString(values[p.s].(Element).close)
	case gap:
		return w.value(f, p.s, values[p.s])
	}
	return nil
}

func (w *Words) value(f *filling, gap string, value any) error {
	switch v := value.(type) {
	case string:
		f.letters(v)
	case int:
		f.letters(w.Number(v))
	case template.HTML:
		f.out.WriteString(string(v))
	default:
		return fmt.Errorf("the gap %q is filled with a %T, and only texts and whole numbers are shown", gap, value)
	}
	return nil
}

// paired makes a map of names followed by values.
func paired(gaps []any) (map[string]any, error) {
	if len(gaps)%2 != 0 {
		return nil, fmt.Errorf("each gap is followed by what it is filled with, and there are %d values", len(gaps))
	}
	out := map[string]any{}
	for i := 0; i < len(gaps); i += 2 {
		gap, ok := gaps[i].(string)
		if !ok {
			return nil, fmt.Errorf("%v stands where the name of a gap should", gaps[i])
		}
		out[gap] = gaps[i+1]
	}
	return out, nil
}

// fits holds what is to be filled in against the entry's gaps: each is there, and there is no other.
func (e *entry) fits(values map[string]any) error {
	has := e.gaps()
	for _, g := range has {
		name, around := strings.CutSuffix(g, "/")
		v, given := values[name]
		if !given {
			return fmt.Errorf("nothing fills the gap %q", g)
		}
		if _, is := v.(Element); is != around {
			return fmt.Errorf("the gap %q is filled with a %T", g, v)
		}
	}
	for name := range values {
		if !slices.Contains(has, name) && !slices.Contains(has, name+"/") {
			return fmt.Errorf("it has no gap %q", name)
		}
	}
	return nil
}

func anyHTML(values map[string]any) bool {
	for _, v := range values {
		switch v.(type) {
		case template.HTML, Element:
			return true
		}
	}
	return false
}
