package publish

import (
	"bytes"
	"crypto/sha256"
	"iter"
	"path"
	"slices"
	"strings"

	"golang.org/x/net/html"

	"keelpath/builder/ledger"
	"keelpath/builder/plan"
	"keelpath/builder/read"
	"keelpath/builder/search"
)

// searchFolder is where the index lies, in the folder of each language.
const searchFolder = "search/"

// searched are the kinds of pages that a search looks through: all that have a text of their own.
var searched = []plan.Kind{
	plan.Explainer, plan.FootTypes, plan.Paper, plan.Glossary, plan.Questions, plan.Figure, plan.Pulls, plan.MotionPush, plan.Clinic, plan.Ratings, plan.Teach, plan.Cases, plan.Case,
}

// writeSearch makes the index of each language out of its finished pages, and writes down what these say.
func writeSearch(first *maker, files []File, to Site) ([]File, error) {
	var made []File
	pages := saidBefore(first.before)
	for _, m := range makersOf(files) {
		add := func(f search.File) error {
			name := m.folder + searchFolder + f.Name
			now := File{by: m, File: ledger.File{Of: name, Name: name, Size: int64(len(f.Data)), Sum: sha256.Sum256(f.Data)}}
			made = append(made, now)
			if m.stands(now.File) {
				return nil
			}
			return to.Write(name, f.Data)
		}
		if err := m.index(files, pages, to, add); err != nil {
			return nil, err
		}
	}
	f := pages.file(first)
	if made = append(made, f); first.stands(f.File) {
		return made, nil
	}
	return made, to.Write(f.Name, pages.now.B)
}

// makersOf gives those who made pages, one for each language. Those of a voice make parts of pages alone.
func makersOf(files []File) []*maker {
	var out []*maker
	for _, f := range files {
		if f.Page.Kind != "" && !slices.Contains(out, f.by) {
			out = append(out, f.by)
		}
	}
	return out
}

func (m *maker) index(files []File, pages *pagesSaid, to Site, add func(search.File) error) error {
	x := search.New(m.searchWords())
	asked, err := m.asked(files, pages, to)
	if err != nil {
		return err
	}
	for _, f := range files {
		if f.by != m || !slices.Contains(searched, f.Page.Kind) {
			continue
		}
		said, err := pages.page(f, to)
		if err != nil {
			return err
		}
		p := unitsOf(f.Page, said, asked)
		if len(p.Units) == 0 {
			continue
		}
		x.Add(p)
		if err := add(search.TextFile(p)); err != nil {
			return err
		}
	}
	for _, f := range x.Files() {
		if err := add(f); err != nil {
			return err
		}
	}
	return nil
}

func (m *maker) searchWords() search.Words {
	s := m.stock.Shelf().SearchWords()
	out := search.Words{Lang: m.lib.Lang, Skip: read.Strings(s.Skip)}
	for _, e := range s.Means {
		out.Means = append(out.Means, search.Means{Says: read.Strings(e.Says), Means: read.Strings(e.Means)})
	}
	return out
}

// answered has the everyday questions by the place to which their answers lead, which
// of them stand at a place of their own, and how else people ask for a place.
type answered struct {
	at   map[string][]search.Asked
	gone map[string]bool     // names of places that are found where they lead
	also map[string][]string // by the place as a link names it, "explainer:stairs#what-about-curbs"
}

// asked takes the everyday questions out of their pages. An answer that leads to one place is found there.
func (m *maker) asked(files []File, pages *pagesSaid, to Site) (answered, error) {
	out := answered{map[string][]search.Asked{}, map[string]bool{}, map[string][]string{}}
	for _, w := range m.stock.Shelf().SearchWords().Asked {
		out.also[w.Place.S] = read.Strings(w.Says)
	}
	for _, f := range files {
		if f.by != m || f.Page.Kind != plan.Explainer || !strings.HasPrefix(f.Page.Of, everyday) {
			continue
		}
		data, err := to.Read(f.Name)
		if err != nil {
			return out, err
		}
		said, err := pages.page(f, to)
		if err != nil {
			return out, err
		}
		leads := leadsOf(f.Page.Name, data)
		for _, u := range unitsOf(f.Page, said, answered{}).Units {
			here := f.Page.Name + "#" + u.At
			if there := leads[u.At]; there != "" && u.At != "" {
				out.at[there] = append(out.at[there], search.Asked{Question: u.Heading, Answer: answerOf(u), Name: here})
				out.gone[here] = true
			}
		}
	}
	return out, nil
}

// answerOf leaves out the last line of an answer, which leads on.
func answerOf(u search.Unit) string {
	lines := u.Lines
	if n := len(lines); n > 1 {
		lines = lines[:n-1]
	}
	var out []string
	for _, l := range lines {
		out = append(out, l.Text)
	}
	return strings.Join(out, " ")
}

// unitsOf cuts a page at its places. What only lists sources or leads on is left out.
func unitsOf(p plan.Page, said iter.Seq[Paragraph], asked answered) search.Page {
	out := search.Page{Name: p.Name, Title: p.Title}
	if p.Kind == plan.Paper {
		out.Topic = p.Of
		return topicOf(out, p, said)
	}
	at := map[string]int{}
	for q := range said {
		if leftOut(q.At) || asked.gone[p.Name+"#"+q.At] {
			continue
		}
		i, known := at[q.At]
		if !known {
			i = len(out.Units)
			at[q.At] = i
			out.Units = append(out.Units, search.Unit{At: q.At, Asked: asked.at[p.Name+"#"+q.At], Also: asked.also[linkTo(p, q.At)], Part: partOf(p, q.At)})
		}
		if p.Kind == plan.Questions && known && q.Heading {
			continue // what a prompt rests on
		}
		if u := &out.Units[i]; (q.Heading || p.Kind == plan.Questions) && u.Heading == "" {
			u.Heading = q.Text
		} else if q.Text != u.Heading {
			u.Lines = append(u.Lines, search.Line{Text: q.Text, Lead: q.Lead, Beside: q.Beside, Lands: q.Lands})
		}
	}
	return out
}

// linkTo names a place as a link does.
func linkTo(p plan.Page, at string) string {
	if p.Kind == plan.Explainer {
		return "explainer:" + p.Of + "#" + at
	}
	return "page:" + string(p.Kind) + "#" + at
}

// topicOf is one place: a topic is taken from its beginning.
func topicOf(out search.Page, p plan.Page, said iter.Seq[Paragraph]) search.Page {
	u := search.Unit{Part: partOf(p, "top"), Heading: p.Title, Lines: []search.Line{{Text: p.About}}}
	for q := range said {
		if !strings.HasPrefix(q.At, "page_safety") && !leftOut(q.At) && q.Text != p.About {
			u.Lines = append(u.Lines, search.Line{Text: q.Text, Lead: q.Lead, Beside: q.Beside, Lands: q.Lands})
		}
	}
	out.Units = []search.Unit{u}
	return out
}

// leftOut tells whether a place only lists sources, or questions that stand on a page of their own.
func leftOut(at string) bool {
	return strings.HasPrefix(at, "source-") || at == "page_sources" || at == "page_prompts"
}

// partOf says how much a place counts beside others that fit alike. The numbers were found by trying.
func partOf(p plan.Page, at string) float64 {
	return kindPart(p) * placePart(at)
}

// kindPart is that of a page. A prompt asks what a page answers, a table or a figure has single words, and what is written
// for teachers and residents is asked for in their words.
func kindPart(p plan.Page) float64 {
	switch p.Kind {
	case plan.Questions:
		return 0.2
	case plan.Case: // what it says of a person is no answer
		return 0.3
	case plan.Ratings, plan.Teach, plan.Cases, plan.Pulls, plan.MotionPush, plan.Figure:
		return 0.5
	case plan.Paper:
		return 2.4 // one long place, and offered apart from the others
	case plan.FootTypes, plan.Glossary:
		return 0.8
	case plan.Explainer:
		if strings.HasPrefix(p.Of, everyday) {
			return 0.5 // of an answer that leads nowhere else
		}
	}
	return 1
}

// placePart is that of a place on its page. The top of a page says little of its own, and so does what is on every page: what is
// known, whom to ask and what to do next.
func placePart(at string) float64 {
	if at == "" || at == "what-is-known-and-what-is-not" || strings.HasPrefix(at, "what-can-") && strings.HasSuffix(at, "-do-next") {
		return 0.6
	}
	return 1
}

// leadsOf gives, for each heading of a page, the place on another page to which what stands below leads last:
// "learn/falls.html#key-points".
func leadsOf(name string, page []byte) map[string]string {
	out := map[string]string{}
	at := ""
	z := html.NewTokenizer(bytes.NewReader(page))
	for kind := z.Next(); kind != html.ErrorToken; kind = z.Next() {
		if kind != html.StartTagToken {
			continue
		}
		t := z.Token()
		for _, a := range t.Attr {
			switch {
			case a.Key == "id" && (t.Data == "h2" || t.Data == "section" || t.Data == "footer"):
				at = a.Val
			case a.Key == "class" && t.Data == "footer":
				at = ""
			case a.Key == "href" && t.Data == "a" && strings.Contains(a.Val, ".html#") && !strings.Contains(a.Val, "://") && !strings.Contains(a.Val, plan.Only(plan.Planner)):
				out[at] = path.Join(path.Dir(name), a.Val)
			}
		}
	}
	return out
}
