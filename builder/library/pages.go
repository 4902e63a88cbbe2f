package library

import (
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
)

// again gives a page with its text read for the comparison alone.
func again(p *explainer.Page) *explainer.Page {
	out := *p
	out.Body = p.Body.Again()
	return &out
}

// pageKept holds a layer's page against the built-in one of the same name: its
// cautions, what it says of whom to call, and that nothing here picks a foot.
func (l *loader) pageKept(old, now *explainer.Page) {
	old, now = again(old), again(now)
	if len(old.Body.Cautions) > 0 && now.Audience.S != old.Audience.S {
		l.broken(orLine1(now.Audience.At, now), fmt.Sprintf("the page is for %q, and with its cautions it is for %q", now.Audience.S, old.Audience.S), "the built-in page is at "+old.File)
	}
	l.cautionsKept(old, now)
	for _, s := range stances(old.Message.S) {
		if !strings.Contains(oneLine(now.Message.S), s) {
			l.broken(orLine1(now.Message.At, now), fmt.Sprintf("the message no longer says %q", short(s)), "the built-in one is at "+old.Message.At.String())
		}
	}
	for i, b := range old.Body.Blocks {
		for _, s := range stances(b.Text) {
			if !slices.ContainsFunc(now.Body.Blocks, func(n explainer.Block) bool { return strings.Contains(oneLine(n.Text), s) }) {
				l.broken(after(old, i, now), fmt.Sprintf("the page no longer says %q", short(s)), "the built-in one is at "+b.Place(0).String())
			}
		}
	}
}

// cautionsKept pairs the cautions of two pages by their words, in order. One that is
// left alone on each side is taken for the other, reworded.
func (l *loader) cautionsKept(old, now *explainer.Page) {
	var lost []explainer.Caution
	free := slices.Clone(now.Body.Cautions)
	for _, c := range old.Body.Cautions {
		i := slices.IndexFunc(free, func(n explainer.Caution) bool { return n.Text == c.Text })
		if i < 0 {
			lost = append(lost, c)
			continue
		}
		l.sectionKept(c, free[i], now)
		free = slices.Delete(free, i, i+1)
	}
	for _, c := range lost {
		at, text := after(old, c.Behind, now), fmt.Sprintf("the page lacks the caution %q", short(c.Text))
		if i := slices.IndexFunc(free, func(n explainer.Caution) bool { return n.Section == c.Section }); i >= 0 {
			at, text = free[i].At, fmt.Sprintf("the caution reads %q, and the built-in one %q", short(free[i].Text), short(c.Text))
			free = slices.Delete(free, i, i+1)
		}
		l.broken(at, text, "the built-in one is at "+c.At.String())
	}
}

// sectionKept reports a caution that stands under another heading, though its own is
// there still.
func (l *loader) sectionKept(c, n explainer.Caution, now *explainer.Page) {
	there := c.Section == "" || slices.ContainsFunc(now.Body.Headings, func(h explainer.Heading) bool { return h.Text == c.Section })
	if n.Section != c.Section && there {
		under := fmt.Sprintf("under %q", c.Section)
		if c.Section == "" {
			under = "at the top"
		}
		l.broken(n.At, fmt.Sprintf("the caution %q stood %s, and stands elsewhere now", short(c.Text), under), "put it back: it is read before what it warns of")
	}
}

// after gives the place in a page of the last block before the i-th of the built-in
// page that still stands there.
func after(old *explainer.Page, i int, now *explainer.Page) finding.Place {
	for i = min(i, len(old.Body.Blocks)) - 1; i >= 0; i-- {
		for _, n := range now.Body.Blocks {
			if n.Text == old.Body.Blocks[i].Text {
				return n.Place(0)
			}
		}
	}
	if len(now.Body.Blocks) > 0 {
		return now.Body.Blocks[0].Place(0)
	}
	return orLine1(finding.Place{}, now)
}

func orLine1(at finding.Place, p *explainer.Page) finding.Place {
	if at.Line > 0 {
		return at
	}
	return finding.Place{File: p.File, Line: 1}
}
