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
// have that language's ids, and such a link leads to the page as a whole.
func (c *checker) anchors() {
	for _, a := range c.led {
		id, place, _ := strings.Cut(a.ref.ID, "#")
		if c.HasHeading(id, place) {
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

// HasHeading tells whether an explainer has a heading with that id.
func (l *Library) HasHeading(page, id string) bool {
	p := l.Explainer(page)
	return p != nil && slices.ContainsFunc(p.Body.Headings, func(h explainer.Heading) bool { return h.ID == id })
}
