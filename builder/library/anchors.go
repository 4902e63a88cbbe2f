package library

import (
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// anchored is a link to a heading of an explainer, "explainer:falls#why-do-toes-catch".
type anchored struct {
	who string
	ref explainer.Ref
}

// explainerNamed checks a link to an explainer. Whether the heading is there shows once
// all explainers have been read.
func (c *checker) explainerNamed(who string, r explainer.Ref) {
	id, _, deep := strings.Cut(r.ID, "#")
	c.has(c.explainers, who, read.Text{S: id, At: r.At})
	if deep && c.explainers.has(id) {
		c.led = append(c.led, anchored{who, r})
	}
}

// anchors reports links to headings that are not there. In another language headings
// have that language's ids, and such a link leads to the page as a whole. So does one of
// the built-in pages where a layer has laid another text over the page that it leads to: who writes the layer
// may word headings as they like.
func (c *checker) anchors() {
	for _, a := range c.led {
		id, place, _ := strings.Cut(a.ref.ID, "#")
		if c.HasHeading(id, place) || c.laidOver(c.Explainer(id).File, a.ref.At.File) {
			continue
		}
		var ids []string
		for _, h := range c.Explainer(id).Body.Headings {
			ids = append(ids, h.ID)
		}
		c.list.Add(a.ref.At, "unknown-name", fmt.Sprintf("%s links to %q on the page %q, and that is no heading of its text", a.who, "#"+place, id),
			finding.NearestOrAll(place, ids, "headings there")...)
	}
}

// laidOver tells whether a file is a layer's, and the one that leads to it is built in.
func (c *checker) laidOver(to, from string) bool { return c.inLayer(to) && !c.inLayer(from) }

func (l *loader) inLayer(file string) bool {
	return slices.ContainsFunc(l.dirs, func(dir string) bool { return strings.HasPrefix(file, dir) })
}

// HasHeading tells whether an explainer has a heading with that id.
func (l *Library) HasHeading(page, id string) bool {
	p := l.Explainer(page)
	return p != nil && slices.ContainsFunc(p.Body.Headings, func(h explainer.Heading) bool { return h.ID == id })
}

// HasOwnHeading tells whether one of the site's own pages has a heading with that id, in its text or in its template.
func (l *Library) HasOwnHeading(page, id string) bool {
	p := l.Page(page)
	return slices.ContainsFunc(PageForms, func(f *explainer.Form) bool { return f.ID == page && slices.Contains(f.Heads, id) }) ||
		p == nil || slices.ContainsFunc(p.Body.Headings, func(h explainer.Heading) bool { return h.ID == id })
}
