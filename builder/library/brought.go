package library

import (
	"fmt"

	"keelpath/builder/read"
)

// brought warns of what no reader can ever be shown: a card that no answer adds,
// a foot type that no ending talks about, a prompt that nothing brings. It is a
// warning, for an edition may well leave out a tree and keep the tables.
func (c *checker) brought() {
	cards, types, prompts, themes := map[string]bool{}, map[string]bool{}, map[string]bool{}, map[string]bool{}
	mark := func(seen map[string]bool, names []read.Text) {
		for _, n := range names {
			seen[n.S] = true
		}
	}
	if s := c.Safety; s != nil {
		for _, g := range s.Groups {
			mark(prompts, g.Unsure.Prompts)
			for _, sign := range g.Signs {
				mark(prompts, sign.Prompts)
			}
		}
	}
	for _, t := range c.Trees {
		for _, id := range t.Cards() {
			cards[id] = true
		}
		for _, e := range t.Endings {
			mark(prompts, e.Prompts)
			mark(themes, e.Themes)
			for _, talk := range e.Types {
				types[talk.Type.S] = true
			}
		}
	}
	for _, k := range c.Cards {
		if cards[k.ID.S] {
			mark(prompts, k.Prompts)
		}
	}
	for _, p := range c.Explainers {
		mark(prompts, p.Prompts)
	}
	c.unbrought(cards, types, prompts, themes)
}

func (c *checker) unbrought(cards, types, prompts, themes map[string]bool) {
	if c.list.Errors() > 0 {
		return // what a wrong name or an unread file would have brought is not known
	}
	for _, k := range c.Cards {
		if !cards[k.ID.S] {
			c.list.Warn(k.ID.At, "unbrought", fmt.Sprintf("no answer of any tree adds the card %q", k.ID.S), "name it under cards: of an answer, or take it out")
		}
	}
	for _, t := range c.Marked() { // a way is open to everyone, and no answer has to lead to it
		if !types[t.ID.S] {
			c.list.Warn(t.ID.At, "unbrought", fmt.Sprintf("no ending of any tree talks about the foot type %q", t.ID.S), "name it under types: of an ending, with a reason for and a reason against")
		}
	}
	for _, t := range c.Themes {
		if themes[t.ID.S] {
			continue // an ending offers all of them
		}
		var lost []*Prompt
		for _, p := range t.Prompts {
			if !prompts[p.ID.S] {
				lost = append(lost, p)
			}
		}
		if len(lost) == len(t.Prompts) && len(lost) > 1 {
			c.list.Warn(t.ID.At, "unbrought", fmt.Sprintf("nothing brings the prompts of the theme %q: no ending names it, and no ending, card or explainer names one of them", t.ID.S), "name it under themes: of an ending")
			continue
		}
		for _, p := range lost {
			c.list.Warn(p.ID.At, "unbrought", fmt.Sprintf("nothing brings the prompt %q: no ending, card or explainer names it, and no ending names its theme %q", p.ID.S, t.ID.S), "name it under prompts:, or its theme under themes: of an ending")
		}
	}
}
