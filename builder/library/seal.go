package library

import (
	"fmt"
	"path"
	"regexp"
	"slices"
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/figure"
	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// safetyRule stands below every finding about what is sealed.
const safetyRule = "an edition may add before and after what is for safety, and change nothing of it"

// sealed is one text, mark or way of the ground layer that every edition must
// hold unchanged.
type sealed struct {
	key  string // the way to it: "tree heel-height/ending wet/title"
	what string // `the title of ending "wet"`
	text string
	at   finding.Place // of the text; of what it belongs to where there is none
	how  match
	way  bool // says where a reader goes; not known in a tree that could not be read whole
}

// match is how an edition's text is held against the sealed one.
type match int

const (
	same   match = iota
	begins       // a list, which may go on
	holds        // a text, which may say more
	order        // ids, among which there may be others
)

func (m match) fits(old, now string) bool {
	switch m {
	case begins:
		return now == old || old == "" || strings.HasPrefix(now, old+", ")
	case holds:
		return strings.Contains(oneLine(now), old)
	case order:
		return inOrder(strings.Split(old, ", "), strings.Split(now, ", "))
	}
	return old == now
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// inOrder tells whether the ids that both have stand in one order.
func inOrder(old, now []string) bool {
	in := func(list []string) func(string) bool {
		return func(id string) bool { return !slices.Contains(list, id) }
	}
	return slices.Equal(slices.DeleteFunc(slices.Clone(old), in(now)), slices.DeleteFunc(slices.Clone(now), in(old)))
}

// seal is what a layer's content is held against: what was sealed as the ground
// layer stood alone.
type seal struct {
	ledger *ledger
	trees  []*tree.Tree
	pages  []*explainer.Page // of explainers and of the site's own pages

	figures []*figure.Figure
}

// sealGround seals what is for safety in all that was read so far.
func (l *loader) sealGround() seal {
	return seal{l.ledger(true), slices.Clone(l.Trees), l.written(), slices.Clone(l.Figures)}
}

// unchanged holds the edition as a whole against the seal.
func (l *loader) unchanged(s seal) {
	s.ledger.hold(l.ledger(false), l.broken)
	for _, old := range s.trees {
		if now := l.Tree(old.ID.S); now != nil && now != old {
			l.waysKept(old, now)
		}
	}
	for _, old := range s.pages {
		now := l.Explainer(old.ID)
		if old.Lead != nil {
			now = l.Page(old.ID)
		}
		if now != nil && now != old {
			l.pageKept(old, now)
		}
	}
	for _, old := range s.figures {
		if now := l.Figure(old.ID); now != nil && now != old {
			l.pageKept(l.figurePage(old), l.figurePage(now))
		}
	}
}

// broken reports something sealed that is not as it was.
func (l *loader) broken(at finding.Place, text string, help ...string) {
	l.list.Add(at, "safety-kept", text, append(help, safetyRule)...)
}

// ledger lists texts by keys. That of the ground layer has what is sealed, and
// that of an edition all that there is.
type ledger struct {
	all    []sealed
	byKey  map[string]sealed
	ground bool
	loose  map[string]bool // trees in which a way may be missing
}

func (b *ledger) add(s sealed) {
	b.all = append(b.all, s)
	if _, twice := b.byKey[s.key]; !twice {
		b.byKey[s.key] = s
	}
}

// part is something with a name whose texts are added one by one.
type part struct {
	*ledger
	key, name string
	at        finding.Place
}

// part adds something that must be there.
func (b *ledger) part(key, name string, at finding.Place) part {
	b.add(sealed{key: key, what: name, at: at})
	return part{b, key, name, at}
}

func (p part) below(kind string, id read.Text) part {
	name := fmt.Sprintf("%s %q", kind, id.S)
	q := part{p.ledger, p.key + "/" + kind + " " + id.S, name, id.At}
	p.add(sealed{key: q.key, what: name + " of " + p.name, at: q.at})
	return q
}

func (p part) put(name string, t read.Text, how match) *sealed {
	at := t.At
	if !t.Given() {
		at = p.at
	}
	p.add(sealed{key: p.key + "/" + name, what: fmt.Sprintf("%q of %s", name, p.name), text: t.S, at: at, how: how})
	return &p.all[len(p.all)-1]
}

func (p part) text(name string, t read.Text) { p.put(name, t, same) }

// goes adds a way on.
func (p part) goes(name string, t read.Text) {
	p.put(name, t, same).way = true
}

func (p part) mark(name string, on bool) {
	p.put(name, read.Text{S: map[bool]string{true: "true"}[on]}, same)
}

// list adds ids or texts as one.
func (p part) list(name string, ts []read.Text, how match) {
	t := read.Text{S: strings.Join(read.Strings(ts), ", ")}
	if len(ts) > 0 {
		t.At = ts[0].At
	}
	p.put(name, t, how)
}

// says adds a text whose lines on what the site never does must stand.
func (p part) says(name string, t read.Text) {
	if !p.ground {
		if _, has := p.byKey[p.key+"/"+name]; !has {
			p.put(name, t, same)
		}
		return
	}
	for _, s := range stances(t.S) {
		line := t
		line.S = s
		p.put(name, line, holds)
	}
}

var (
	sentence = regexp.MustCompile(`[^.?!]+[.?!]?`)
	stance   = regexp.MustCompile(`(?i)\b(not pick a foot|not choose a foot|picks no foot|never picks|never gives a level|not set a level|clinic( also)? sets (the|a) level|clinic sets it)\b`)
)

// stances gives the sentences of a text that say that nothing here picks a foot
// or sets a level.
func stances(text string) []string {
	var out []string
	for _, s := range sentence.FindAllString(oneLine(text), -1) {
		if s = strings.TrimSpace(s); stance.MatchString(s) {
			out = append(out, s)
		}
	}
	return out
}

// hold reports what is sealed in b and not so in now. What belongs to something
// that is gone is reported with it.
func (b *ledger) hold(now *ledger, report func(finding.Place, string, ...string)) {
	var gone []sealed
	for _, s := range b.all {
		if slices.ContainsFunc(gone, func(g sealed) bool { return s.key == g.key || strings.HasPrefix(s.key, g.key+"/") }) {
			continue
		}
		n, has := now.byKey[s.key]
		switch {
		case !has:
			gone = append(gone, s)
		case !s.how.fits(s.text, n.text) && !(s.way && now.unknownWay(s)):
			report(n.at, difference(s, n), fmt.Sprintf("the built-in one is at %s", s.at))
		}
	}
	now.missing(gone, report)
}

// missing reports what is gone, all that belongs to one thing together.
func (b *ledger) missing(gone []sealed, report func(finding.Place, string, ...string)) {
	for len(gone) > 0 {
		first, whose := gone[0], path.Dir(gone[0].key)
		text, help := "the edition lacks the "+first.what, "copy it from "+first.at.String()
		others := 0
		gone = slices.DeleteFunc(gone, func(s sealed) bool {
			if path.Dir(s.key) == whose {
				others++
				return true
			}
			return false
		})
		if others > 1 {
			text += fmt.Sprintf(" and %d more of its parts", others-1)
		}
		report(b.owner(first.key), text+", which the built-in content has for safety", help)
	}
}

// owner is the place of what a missing thing belongs to.
func (b *ledger) owner(key string) finding.Place {
	for key = path.Dir(key); key != "."; key = path.Dir(key) {
		if s, has := b.byKey[key]; has {
			return s.at
		}
	}
	return finding.Place{}
}

// unknownWay tells whether a way leads elsewhere for a reason that is reported: the
// tree could not be read whole, or the ending that it led to is gone.
func (b *ledger) unknownWay(s sealed) bool {
	tree, _, _ := strings.Cut(s.key, "/")
	_, ending := b.byKey[tree+"/ending "+s.text]
	_, question := b.byKey[tree+"/question "+s.text]
	return b.loose[tree] || (read.IsID(s.text) && !ending && !question)
}

func difference(s, n sealed) string {
	switch {
	case s.text == "":
		return fmt.Sprintf("%s is %q, and in the built-in content, for safety, there is none", s.what, short(n.text))
	case n.text == "":
		return fmt.Sprintf("%s is missing, and the built-in one, for safety, is %q", s.what, short(s.text))
	case s.how == holds:
		return fmt.Sprintf("%s no longer says %q", s.what, short(s.text))
	}
	is, was := apart(n.text, s.text)
	return fmt.Sprintf("%s is %q, and the built-in one, for safety, is %q", s.what, short(is), short(was))
}

// apart leaves out what two long texts begin with alike.
func apart(a, b string) (string, string) {
	const most = 40
	a, b = oneLine(a), oneLine(b)
	var at, same int
	for same < min(len(a), len(b)) && a[same] == b[same] {
		if same++; a[same-1] == ' ' {
			at = same
		}
	}
	if at < most {
		return a, b
	}
	return "…" + a[at:], "…" + b[at:]
}

// short cuts a text to what a finding can show.
func short(s string) string {
	const most = 60
	if rs := []rune(oneLine(s)); len(rs) > most {
		return strings.TrimSpace(string(rs[:most])) + "…"
	}
	return oneLine(s)
}
