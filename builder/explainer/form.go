package explainer

import (
	"fmt"
	"slices"

	"keelpath/builder/finding"
	"keelpath/builder/helpline"
	"keelpath/builder/read"
)

// Form is what one of the site's own pages needs of its text, and what the program
// puts into it.
type Form struct {
	ID    string   // of the page; the file has its name
	Gaps  []string // words or numbers inside a sentence: {trees}
	Slots []string // what stands between two blocks: a listing marked "slot" that holds the name
	Parts []string // ids of sections and paragraphs that the page takes out of the text and puts in places of its own
	Heads []string // ids of other headings, to which pages lead
}

// use is one place of a text in which it meets its form.
type use struct {
	what string // gap, slot, part or heading
	name string
	at   finding.Place
}

// ParseOwn reads the text of one of the site's own pages. It is an explainer's, with
// another header: it names no authors and no dates, for the page shows those of all
// that it draws on. What it cites stands there by kind and year, for want of a list.
func ParseOwn(file string, src []byte, form *Form, lines helpline.Lines, list *finding.List) *Page {
	m, doc := parts(file, src, form, lines, list, read.Choice{})
	if m == nil {
		return nil
	}
	p := &Page{
		File:     file,
		ID:       form.ID,
		Title:    m.NeedText("title"),
		Audience: m.OneOf("audience", "patient", "resident"),
		About:    m.NeedText("about"),
		Message:  m.NeedText("message"),
		Credits:  read.Credits{Sources: m.IDs("sources")},
		Body:     doc,
	}
	m.Done()
	p.Of = read.Fingerprint(p.Title.S, p.About.S, p.Message.S, string(doc.src))
	p.inForm(form, lines, list)
	return p
}

// OwnInWords gives the text of one of the site's own pages in another language, as InWords
// does an explainer.
func OwnInWords(p *Page, file string, src []byte, form *Form, lines helpline.Lines, list *finding.List) *Page {
	m, doc := parts(file, src, form, lines, list, read.Choice{})
	if m == nil {
		return p
	}
	of := m.NeedText("of")
	out := *p
	out.File, out.Title, out.About, out.Message, out.Body = file, m.NeedText("title"), m.NeedText("about"), m.NeedText("message"), doc
	m.Done()
	p.fits(of, doc, file, list)
	out.inForm(form, lines, list)
	return &out
}

// inForm reads the message as a text with gaps, and holds all of the text against the form.
func (p *Page) inForm(form *Form, lines helpline.Lines, list *finding.List) {
	for _, t := range []read.Text{p.Title, p.About} {
		if brace.MatchString(t.S) {
			list.Add(t.At, "lone-brace", fmt.Sprintf("%q holds a brace, and nothing is filled in there", t.S), "leave it out; gaps stand in the message and in the text")
		}
	}
	p.Lead = newOwnDoc([]byte(p.Message.S), func(int) finding.Place { return p.Message.At }, form, lines, list)
	form.hold(p, slices.Concat(p.Lead.uses, p.Body.uses), list)
}

func newOwnDoc(src []byte, at func(int) finding.Place, form *Form, lines helpline.Lines, list *finding.List) *Doc {
	return newDocOf(&Doc{src: src, at: at, form: form, lines: lines, ids: headingIDs{}, drawn: map[string]bool{}}, list)
}

// hold reports what a text has that its page does not fill, what it has twice, and what it lacks.
func (f *Form) hold(p *Page, uses []use, list *finding.List) {
	known := map[string][]string{"gap": f.Gaps, "slot": f.Slots, "part": f.Parts}
	seen := map[string]finding.Place{}
	for _, u := range uses {
		names, closed := known[u.what]
		if closed && !slices.Contains(names, u.name) {
			list.Add(u.at, "unknown-name", fmt.Sprintf("the text has the %s %q, and the page %q does not fill it", u.what, u.name, f.ID), orLeave(u, names)...)
			continue
		}
		key := u.name
		if closed && u.what != "part" { // an id stands once, whatever has it
			key = u.what + " " + u.name
		}
		if first, twice := seen[key]; !twice {
			seen[key] = u.at
		} else if u.what != "gap" {
			list.Add(u.at, "repeated-id", fmt.Sprintf("the text has the %s %q twice", u.what, u.name), "the first is at "+first.String(), "keep one of them")
		}
	}
	lacks := func(key, what, help string) {
		if _, has := seen[key]; !has {
			list.Add(finding.Place{File: p.File, Line: 1}, "missing-slot", "the page needs "+what+", and its text lacks it", help)
		}
	}
	for _, g := range f.Gaps {
		lacks("gap "+g, fmt.Sprintf("the gap %q", "{"+g+"}"), `put it into the sentence that says it, as the built-in text does`)
	}
	for _, s := range f.Slots {
		lacks("slot "+s, fmt.Sprintf("the slot %q", s), "put a listing marked slot that holds the one word "+s+" where it belongs")
	}
	for _, id := range f.Parts {
		lacks(id, fmt.Sprintf("the part %q", id), fmt.Sprintf(`put "{#%s}" behind a heading, or before a paragraph if it has none, as the built-in text does`, id))
	}
	for _, id := range f.Heads {
		lacks(id, fmt.Sprintf("a heading with the id %q, to which other pages lead", id), fmt.Sprintf(`put "{#%s}" behind the heading`, id))
	}
}

func orLeave(u use, names []string) []string {
	if len(names) == 0 {
		return []string{fmt.Sprintf("leave it out: the page has no %ss", u.what)}
	}
	return finding.NearestOrAll(u.name, names, u.what+"s here")
}
