package teaching

import (
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// Rules of the formats (facts: National Board's guide of 2020 and a checklist after it; key features after
// Page, Bordage and Allen 1995; three options are enough, Rodriguez 2005).
const (
	MinOptions   = 3
	MaxBest      = 5  // options of a one-best-answer question
	MinMenu      = 5  // options of a key-feature problem: a short menu, and still one that does not cue
	MaxOptions   = 12 // of any beat
	MinChecklist = 2
)

// beat holds a beat to the rules of its format.
func (p *prover) beat(b *Beat) {
	for _, t := range b.Tasks {
		p.task(t)
	}
	if len(b.Tasks) == 0 {
		p.list.Add(b.ID.At, "case-beat", fmt.Sprintf("beat %q practices no task", b.ID.S), "add tasks: with at least one of "+strings.Join(Tasks, ", "))
	}
	if asks(b) && b.Lead.S != "" && (!strings.HasSuffix(b.Lead.S, "?") || strings.Count(b.Lead.S, "?") > 1) {
		p.list.Add(b.Lead.At, "item-form", fmt.Sprintf("the lead of beat %q is not one question", b.ID.S), "word it as one question that can be answered with the options covered")
	}
	if of, ok := rules[b.Format.S]; ok {
		of(p, b)
	}
}

// asks tells whether the lead of the format is a question.
func asks(b *Beat) bool {
	return slices.Contains([]string{OneBest, KeyFeature, Predict, Shift}, b.Format.S)
}

var rules = map[string]func(*prover, *Beat){
	OneBest: func(p *prover, b *Beat) {
		if p.between(b, MinOptions, MaxBest) && p.keyed(b) {
			p.item(b)
			p.length(b)
		}
	},
	KeyFeature: func(p *prover, b *Beat) {
		if p.between(b, MinMenu, MaxOptions) {
			p.menu(b)
			p.item(b)
		}
	},
	Predict: func(p *prover, b *Beat) {
		if p.between(b, MinOptions, MaxOptions) && p.keyed(b) {
			p.predict(b)
		}
	},
	Ask: func(p *prover, b *Beat) {
		if p.between(b, MinOptions, MaxOptions) && b.Requests >= len(b.Options) {
			p.list.Add(b.ID.At, "case-beat", fmt.Sprintf("beat %q has %d requests for %d facts", b.ID.S, b.Requests, len(b.Options)), "allow fewer requests, so that a learner has to choose")
		}
	},
	Write: func(p *prover, b *Beat) {
		if n := len(b.Checklist); n < MinChecklist {
			p.list.Add(b.ID.At, "case-beat", fmt.Sprintf("the checklist of beat %q has too few lines: %d, and at least %d were expected", b.ID.S, n, MinChecklist), "say what the two sentences have to hold")
		}
	},
	Defend: func(p *prover, b *Beat) {
		if p.Before.Given() {
			p.list.Add(b.ID.At, "case-beat", fmt.Sprintf("beat %q defends two foot types, and the case ends before any foot", b.ID.S), "argue two foot types, or take the beat out")
		}
	},
	RolePlay: (*prover).play,
	Order: func(p *prover, b *Beat) {
		if p.between(b, MinOptions, MaxOptions) {
			p.order(b)
		}
	},
}

func (p *prover) task(t read.Text) bool {
	if slices.Contains(Tasks, t.S) {
		return true
	}
	help := append(finding.NearestHelp(t.S, Tasks, nil), "tasks: "+strings.Join(Tasks, ", "))
	p.list.Add(t.At, "not-allowed", fmt.Sprintf("%q is no task of a case", t.S), help...)
	return false
}

func (p *prover) between(b *Beat, low, high int) bool {
	n := len(b.Options)
	if n < low || n > high {
		p.list.Add(b.ID.At, "case-beat", fmt.Sprintf("beat %q has %d options, and from %d to %d were expected", b.ID.S, n, low, high), "add plausible ones, or leave the weakest out")
	}
	return n >= low && n <= high
}

func (p *prover) keyed(b *Beat) bool {
	var ids []string
	for _, o := range b.Options {
		ids = append(ids, o.ID.S)
	}
	fine := len(b.Key) > 0 && b.Key[0].S != ""
	for _, k := range b.Key {
		if k.S != "" && !slices.Contains(ids, k.S) {
			help := append(finding.NearestHelp(k.S, ids, nil), "options here: "+strings.Join(ids, ", "))
			p.list.Add(k.At, "case-beat", fmt.Sprintf("the key of beat %q is %q, and no option has that id", b.ID.S, k.S), help...)
			fine = false
		}
	}
	return fine
}

// menu holds a key-feature problem to its picks.
func (p *prover) menu(b *Beat) {
	n := map[string]int{}
	for _, o := range b.Options {
		n[o.Worth.S]++
	}
	switch {
	case n[Right] == 0:
		p.list.Add(b.ID.At, "case-beat", fmt.Sprintf("beat %q has no option that is right", b.ID.S), "give one or more the worth right")
	case n[Harm] == 0:
		p.list.Add(b.ID.At, "case-beat", fmt.Sprintf("beat %q has no option that harms", b.ID.S), "give one the worth harm: an error that would hurt the person")
	case b.Picks < n[Right] || b.Picks > len(b.Options)/2:
		p.list.Add(b.ID.At, "case-beat", fmt.Sprintf("beat %q takes %d picks, for %d right options of %d", b.ID.S, b.Picks, n[Right], len(b.Options)), "let picks: reach all that is right, and half of the menu at most")
	}
}

// order lets each category of cause come once: within one, no order can be argued.
func (p *prover) order(b *Beat) {
	seen := map[string]*Option{}
	for _, o := range b.Options {
		if other := seen[o.Cause.S]; other != nil && o.Cause.S != "" {
			p.list.Add(o.ID.At, "case-beat", fmt.Sprintf("the options %q and %q are of one category of cause, %s", other.ID.S, o.ID.S, o.Cause.S), "keep one of each category: nobody knows which is likelier")
		}
		seen[o.Cause.S] = o
	}
}

// play holds what the person says to where the case says it comes from.
func (p *prover) play(b *Beat) {
	from := func(ids []read.Text, origin string) {
		for _, id := range ids {
			if f := p.Fact(id.S); p.hasFact(id, "the role names") && f.From.S != "" && f.From.S != origin {
				p.list.Add(id.At, "case-beat", fmt.Sprintf("the role has the fact %q among those that are %s, and it is %s", id.S, origin, f.From.S), "name it where it belongs, or change where it comes from")
			}
		}
	}
	from(b.Freely, Told)
	from(b.If, Asked)
}

// predict proves the key: what the tree asks next, or which endings can still be reached.
func (p *prover) predict(b *Beat) {
	t, w := p.k.Tree(b.Tree.S), p.Walk(b.Tree.S)
	if w == nil {
		p.list.Add(b.Tree.At, "case-beat", fmt.Sprintf("beat %q predicts the tree %q, and the case does not walk it", b.ID.S, b.Tree.S), "name one under walks:")
		return
	}
	if t == nil {
		return
	}
	path, err := t.Walk(given(w.Answers))
	last := at(path, b.After.S)
	if err != nil || path.Open != "" {
		return // which was reported
	}
	if b.After.Given() && last < 0 {
		p.list.Add(b.After.At, "case-beat", fmt.Sprintf("the walk does not come by question %q", b.After.S), "name a question of the walk: "+way(path))
		return
	}
	p.placed(b, t)
	next := path.Ending
	if last+1 < len(path.Steps) {
		next = path.Steps[last+1].Question
	}
	so, ok := []string{next}, true
	if b.Of.S == OpenEndings {
		so, ok = p.k.Proof(t.ID.S).Ahead(t, next, t.Made(path.Steps[:last+1]))
	}
	if ok {
		p.foretold(b, so)
	}
}

// placed asks for options that are places of the tree.
func (p *prover) placed(b *Beat, t *tree.Tree) {
	for _, o := range b.Options {
		if t.Ending(o.ID.S) == nil && (b.Of.S == OpenEndings || t.Question(o.ID.S) == nil) {
			p.list.Add(o.ID.At, "case-beat", fmt.Sprintf("the tree %q has no such place as %q", t.ID.S, o.ID.S), "options have the ids of questions or endings in "+t.File+"; of endings alone where endings are foretold")
		}
	}
}

func (p *prover) foretold(b *Beat, so []string) {
	shut := 0
	for _, o := range b.Options {
		is, said := slices.Contains(so, o.ID.S), b.IsKey(o)
		if !is {
			shut++
		}
		if is != said {
			p.list.Add(o.ID.At, "case-beat", fmt.Sprintf("the key of beat %q %s %q, and the tree says otherwise", b.ID.S, map[bool]string{true: "names", false: "leaves out"}[said], o.ID.S), "what is so here: "+strings.Join(so, ", "))
		}
	}
	if shut == 0 {
		p.list.Add(b.ID.At, "case-beat", fmt.Sprintf("every option of beat %q is right", b.ID.S), "add one that cannot come")
	}
}

// sums holds what the head of the case says to its beats.
func (p *prover) sums() {
	minutes := 0
	var tasks []string
	for _, b := range p.Beats {
		minutes += b.Minutes
		tasks = append(tasks, read.Strings(b.Tasks)...)
	}
	if p.Minutes > 0 && minutes != p.Minutes {
		p.list.Add(p.ID.At, "case-sum", fmt.Sprintf("the beats take %d minutes, and the case says %d", minutes, p.Minutes), "add up the beats, and write the sum")
	}
	for _, t := range p.Tasks {
		if p.task(t) && !slices.Contains(tasks, t.S) {
			p.list.Add(t.At, "case-sum", fmt.Sprintf("the case is for the task %q, and no beat practices it", t.S), "give it to a beat, or take it out")
		}
	}
	for _, b := range p.Beats {
		for _, t := range b.Tasks {
			if !slices.Contains(read.Strings(p.Tasks), t.S) && slices.Contains(Tasks, t.S) {
				p.list.Add(t.At, "case-sum", fmt.Sprintf("beat %q practices the task %q, and the case does not name it", b.ID.S, t.S), "add it to tasks: at the top")
			}
		}
	}
}

// offered holds that each hidden fact can be asked for once, and nothing else.
func (p *prover) offered() {
	at, offered := map[string]bool{}, map[string]bool{}
	for _, b := range p.Beats {
		for _, id := range b.If {
			at[id.S] = true // the person in the role tells it
		}
		if b.Format.S != Ask {
			continue
		}
		for _, o := range b.Options {
			f := p.Fact(o.ID.S)
			switch {
			case !p.hasFact(o.ID, fmt.Sprintf("beat %q offers", b.ID.S)):
			case f.From.S != "" && !f.Hidden():
				p.list.Add(o.ID.At, "case-beat", fmt.Sprintf("beat %q offers the fact %q, which is open to all from the start", b.ID.S, f.ID.S), "offer facts that are asked or examined")
			case offered[f.ID.S]:
				p.list.Add(o.ID.At, "case-beat", fmt.Sprintf("the fact %q is offered a second time", f.ID.S), "offer it once")
			}
			at[o.ID.S], offered[o.ID.S] = true, true
		}
	}
	for _, f := range p.Facts {
		if f.Hidden() && !at[f.ID.S] {
			p.list.Add(f.ID.At, "case-fact", fmt.Sprintf("fact %q is hidden, and no beat lets a learner ask for it", f.ID.S), "offer it in a beat with the format ask, or let a role tell it when asked")
		}
	}
}
