package library

import (
	"fmt"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/safety"
	"keelpath/builder/tree"
)

const safetyFile = "trees/safety.yaml"

// safetyScreen reads a layer's shared safety screen, if it has one.
func (l *loader) safetyScreen(y Layer, name string) {
	if s := safety.Read(l.whole(name), y.name(name), y.files[name], l.list); s != nil {
		l.Safety = s
	} else {
		l.unread["screen"] = true
	}
}

// signEndings gives the endings that stand for a sign of the screen its words.
func (l *loader) signEndings() {
	for _, t := range l.Trees {
		for _, e := range t.Endings {
			if e.Sign.Given() {
				l.signEnding(t, e)
			}
		}
	}
}

func (l *loader) signEnding(t *tree.Tree, e *tree.Ending) {
	if l.Safety == nil {
		return // reported, or nothing is built without it
	}
	sign, _ := l.Safety.Sign(e.Sign.S)
	if sign == nil {
		ids := l.Safety.SignIDs()
		l.list.Add(e.Sign.At, "unknown-name", fmt.Sprintf("an answer tells the sign %q, and the safety screen has none of that name", e.Sign.S),
			finding.NearestOrAll(e.Sign.S, ids, "signs")...)
		e.Title, e.Text, e.Caution = e.Sign, e.Sign, e.Sign
		return
	}
	e.Title, e.Caution, e.Prompts = sign.Title, sign.Caution, sign.Prompts
	e.Text = l.firstSteps(sign)
}

// firstSteps are the steps of a sign's ending as one text.
func (l *loader) firstSteps(sign *safety.Sign) read.Text {
	end := l.Safety.Ending(safety.When(sign.When.S))
	if end == nil || len(end.Steps) == 0 {
		return sign.Title
	}
	out := end.Steps[0]
	out.S, out.Inside = strings.Join(read.Strings(end.Steps), " "), -1
	return out
}

// screenFirst reports a tree for patients that the safety screen does not come
// before.
func (c *checker) screenFirst(t *tree.Tree) {
	if t.Audience.S != "patient" || !t.NoScreen {
		return
	}
	c.list.Add(t.ID.At, "safety-screen", fmt.Sprintf("the tree %q is for patients, and the safety screen does not come before it", t.ID.S),
		"add a line \"safety: shared\": signs that need help outrank everything else")
}

// screen checks the names and texts of the safety screen.
func (c *checker) screen() {
	s := c.Safety
	if s == nil {
		return
	}
	c.trained(s.Credits)
	c.has(c.sources, "the safety screen", s.Credits.Sources...)
	c.everyScreenText(func(who string, ts ...read.Text) {
		for _, t := range ts {
			c.cited(c.text(who, t), s.Credits)
		}
	})
	for _, g := range s.Groups {
		c.has(c.prompts, fmt.Sprintf("group %q", g.ID.S), g.Unsure.Prompts...)
		for _, sign := range g.Signs {
			who := fmt.Sprintf("sign %q", sign.ID.S)
			c.has(c.prompts, who, sign.Prompts...)
			c.basis(who, sign.Basis)
		}
	}
}

// everyScreenText gives all that readers see of the safety screen.
func (l *Library) everyScreenText(say func(who string, ts ...read.Text)) {
	s := l.Safety
	if s == nil {
		return
	}
	say("the safety screen", s.Leg.Text, s.Leg.Why, s.Gate.Text, s.Gate.Why, s.Gate.Hint)
	for _, a := range s.Leg.Answers {
		say(fmt.Sprintf("answer %q", a.ID.S), a.Text)
	}
	for _, g := range s.Groups {
		say(fmt.Sprintf("group %q", g.ID.S), g.Line, g.Title, g.Text, g.Why, g.Hint, g.Unsure.Title, g.Unsure.Caution, g.Unsure.Worn)
		for _, sign := range g.Signs {
			say(fmt.Sprintf("sign %q", sign.ID.S), sign.Text, sign.More, sign.Title, sign.Caution, sign.Worn, sign.Because)
		}
	}
	for _, e := range s.Endings {
		who := fmt.Sprintf("the screen's ending %q", e.When.S)
		say(who, e.Title)
		say(who, e.Steps...)
		say(who, e.Worn...)
	}
}
