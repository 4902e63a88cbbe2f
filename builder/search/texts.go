package search

import "strings"

// Text is what a page's own file brings: what is shown of the places that were found on it.
type Text struct {
	Title string     `json:"title"`
	Units []UnitText `json:"units"`
}

// UnitText is a place on a page.
type UnitText struct {
	At         string      `json:"at,omitempty"`
	Heading    string      `json:"heading,omitempty"` // where it is another than the page's title
	Paragraphs []string    `json:"paragraphs,omitempty"`
	Lands      [][3]int    `json:"lands,omitempty"` // of paragraphs that are not found by their first words: which one, from which word on, and how many; 0 where it is not found by words
	Asked      [][3]string `json:"asked,omitempty"` // question, answer and the name of its place
}

// Landing is how many words of a paragraph a link names at most.
const Landing = 8

// TextFile gives the file of a page's texts.
func TextFile(p Page) File {
	out := Text{Title: p.Title}
	for _, u := range p.Units {
		t := UnitText{At: u.At}
		for i, l := range u.Lines {
			t.Paragraphs = append(t.Paragraphs, l.Text)
			if from, n := l.Lands[0], min(l.Lands[1], Landing); from > 0 || n < min(Landing, len(strings.Fields(l.Text))) {
				t.Lands = append(t.Lands, [3]int{i, from, n})
			}
		}
		if u.Heading != p.Title {
			t.Heading = u.Heading
		}
		for _, a := range u.Asked {
			t.Asked = append(t.Asked, [3]string{a.Question, a.Answer, a.Name})
		}
		out.Units = append(out.Units, t)
	}
	name := strings.TrimSuffix(p.Name, ".html")
	return File{name + ".js", script("text", name, out)}
}
