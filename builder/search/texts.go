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
	Asked      [][3]string `json:"asked,omitempty"` // question, answer and the name of its place
}

// TextFile gives the file of a page's texts.
func TextFile(p Page) File {
	out := Text{Title: p.Title}
	for _, u := range p.Units {
		t := UnitText{At: u.At}
		for _, l := range u.Lines {
			t.Paragraphs = append(t.Paragraphs, l.Text)
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
