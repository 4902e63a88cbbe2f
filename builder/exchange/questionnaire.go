package exchange

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"runtime"
	"slices"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/sync/errgroup"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/helpline"
	"keelpath/builder/library"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
	"keelpath/builder/say"
	"keelpath/builder/tree"
)

// urlOf names a tree's form in every edition; the version tells editions apart.
func urlOf(t *tree.Tree) string { return "urn:keelpath:tree:" + t.ID.S }

// FileName is the name of a tree's file.
func FileName(t *tree.Tree) string { return t.ID.S + ".questionnaire.json" }

// Written is one tree as an R4 Questionnaire.
type Written struct {
	Tree *tree.Tree
	JSON []byte
	Form Form
}

// NotAForm is the check that Write reports by: a site goes without such a form.
const NotAForm = "not-a-form"

// Write gives each of the library's trees that is asked for as a Questionnaire, in
// their order; they are made side by side. A tree whose logic a form cannot say is not
// written, and a warning says so.
func Write(l *library.Library, trees []*tree.Tree, list *finding.List) []Written {
	return each(trees, list, func(t *tree.Tree, said *sync.Map) (Written, error) { return write(l, t, said) })
}

// Check reports what Write would, and writes nothing.
func Check(l *library.Library, trees []*tree.Tree, list *finding.List) {
	each(trees, list, func(t *tree.Tree, said *sync.Map) (struct{}, error) {
		_, _, err := formed(l, t, said)
		return struct{}{}, err
	})
}

// Forms is Write for one who needs the forms alone, by their tree. The questionnaires of many trees are large, so
// none is held.
func Forms(l *library.Library, trees []*tree.Tree, list *finding.List) map[string]Form {
	out := map[string]Form{}
	for _, w := range each(trees, list, func(t *tree.Tree, said *sync.Map) (Written, error) {
		w, err := write(l, t, said)
		w.JSON = nil
		return w, err
	}) {
		out[w.Tree.ID.S] = w.Form
	}
	return out
}

// each gives what is made of each tree of which something can be made; said is shared by all of them.
func each[T any](trees []*tree.Tree, list *finding.List, made func(t *tree.Tree, said *sync.Map) (T, error)) []T {
	all, errs, said := make([]T, len(trees)), make([]error, len(trees)), &sync.Map{}
	var workers errgroup.Group
	workers.SetLimit(runtime.GOMAXPROCS(0))
	for i, t := range trees {
		workers.Go(func() error {
			all[i], errs[i] = made(t, said)
			return nil
		})
	}
	_ = workers.Wait() // each has an error of its own
	var out []T
	for i, t := range trees {
		if errs[i] != nil {
			list.Warn(t.ID.At, NotAForm, fmt.Sprintf("the tree %q cannot be written as a form that acts as it does", t.ID.S), errs[i].Error(),
				"part the tree in two, or let fewer conditions weigh one amount against another")
			continue
		}
		out = append(out, all[i])
	}
	return out
}

// write gives one tree; said is shared by all that are written.
func write(l *library.Library, t *tree.Tree, said *sync.Map) (Written, error) {
	r, form, err := formed(l, t, said)
	if err != nil {
		return Written{}, err
	}
	blank, err := encode(r)
	if err != nil {
		return Written{}, err
	}
	sum := sha256.Sum256(blank)
	r.Version = hex.EncodeToString(sum[:6])
	data := bytes.Replace(blank, []byte(noVersion), fmt.Appendf(nil, `"version": %q`, r.Version), 1)
	form.Questionnaire = r.URL + "|" + r.Version
	return Written{t, data, form}, nil
}

// formed gives one tree as a Questionnaire that has no version yet.
func formed(l *library.Library, t *tree.Tree, said *sync.Map) (questionnaire, Form, error) {
	w, err := work(l.Say, t, l.Proofs[t.ID.S])
	if err != nil {
		return questionnaire{}, Form{}, err
	}
	f := &former{logic: w, lib: l, said: said, form: Form{System: urlOf(t), Nest: map[string]int{}, Split: w.split()}}
	r := questionnaire{
		ResourceType: "Questionnaire", URL: urlOf(t), Name: machineName(t.ID.S), Title: t.Title.S, Status: "active",
		Description: t.Purpose.S, Purpose: l.Say.Say("form.stance"), LastReviewDate: t.Credits.Reviewed.S, Item: f.items(),
	}
	if l.Lang != library.FirstLanguage {
		r.Language = l.Lang
	}
	if len(t.ID.S) <= 64 {
		r.ID = t.ID.S
	}
	return r, f.form, f.err
}

// noVersion is how a form is encoded that has no version yet. It stands before any text, and inside one its
// quotes would be escaped.
const noVersion = `"version": ""`

func encode(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	err := e.Encode(v)
	return []byte(plainSpaces.Replace(b.String())), err
}

// plainSpaces puts a plain space for each other one. The R4 schema takes plain
// spaces, line breaks, tabs and signs in texts; to it each other space of Unicode,
// and the byte order mark, is none of these. In JSON some stand as escapes.
var plainSpaces = func() *strings.Replacer {
	pairs := []string{`\\`, `\\`, `\f`, " ", `\u000b`, " ", `\u2028`, " ", `\u2029`, " ", "\ufeff", " "} // a backslash of the text first: it begins no escape
	for r := range unicode.Zs.R16 {
		for c := unicode.Zs.R16[r].Lo; c <= unicode.Zs.R16[r].Hi; c += unicode.Zs.R16[r].Stride {
			if c != ' ' {
				pairs = append(pairs, string(rune(c)), " ")
			}
		}
	}
	return strings.NewReplacer(pairs...)
}()

// machineName turns "hills-and-ramps" into "HillsAndRamps".
func machineName(id string) string {
	var b strings.Builder
	b.WriteString("Tree")
	up := true
	for _, r := range id {
		if r == '-' {
			up = true
			continue
		}
		if up {
			r = unicode.ToUpper(r)
		}
		up = false
		b.WriteRune(r)
	}
	return b.String()
}

// former builds the items of one tree.
type former struct {
	*logic
	lib  *library.Library
	said *sync.Map // what worded gives, by wording: the safety screen is the same in many forms
	form Form
	err  error
}

func (f *former) items() []item {
	out := []item{display("intro", f.lib.Say.Say("form.stance")+" "+f.lib.Edition.Lines.Sentence(helpline.Emergency))}
	if f.t.Safety.Given() && f.lib.Safety != nil {
		out = append(out, f.screen())
	}
	for _, q := range f.order {
		for _, p := range f.places[q] {
			when := f.when[p.link][0]
			out = append(out, f.under(p.link, when, f.question(p)))
			if n := len(f.levels(when)) - 1; n > 0 {
				f.form.Nest[p.link] = n
			}
		}
	}
	for _, e := range f.t.Endings {
		for i, when := range f.when[e.ID.S] {
			link := "ending." + e.ID.S
			if i > 0 {
				link += fmt.Sprintf(".%d", i+1)
			}
			out = append(out, f.under(link, when, f.ending(link, e)))
		}
	}
	for _, id := range f.t.Cards() {
		link := "note." + id
		if when := f.when[cardTarget(id)]; len(when) > 0 {
			out = append(out, f.under(link, when[0], f.card(link, f.lib.Card(id))))
		}
	}
	return out
}

// under puts an item under its conditions, with a group around it for each
// level but the innermost.
func (f *former) under(link string, when []clause, in item) item {
	levels := f.levels(when)
	for i := len(levels) - 1; i >= 0; i-- {
		in.EnableWhen = levels[i].when
		if len(in.EnableWhen) > 1 {
			in.EnableBehavior = levels[i].behavior
		}
		if i > 0 {
			in = item{LinkID: fmt.Sprintf("%s.when-%d", link, i), Type: "group", Item: []item{in}}
		}
	}
	return in
}

// level is the conditions of one item or group.
type level struct {
	behavior string
	when     []enableWhen
}

// levels puts clauses of one condition into one level, and each other clause
// into one of its own.
func (f *former) levels(when []clause) []level {
	var single level
	var out []level
	for _, c := range when {
		if atoms := f.atoms(c); len(atoms) == 1 {
			single.when = append(single.when, atoms[0])
		} else {
			out = append(out, level{"any", atoms})
		}
	}
	if single.behavior = "all"; len(single.when) > 0 {
		out = append([]level{single}, out...)
	}
	return out
}

// atoms writes a clause as conditions, in the order of the items.
func (f *former) atoms(c clause) []enableWhen {
	var out []enableWhen
	for _, q := range f.order {
		for _, p := range f.places[q] {
			for _, v := range p.variables() {
				if s, ok := c[v]; ok {
					out = append(out, v.conditions(s)...)
				}
			}
		}
	}
	if len(out) == 0 && f.err == nil {
		f.err = fmt.Errorf("a condition asks for nothing")
	}
	return out
}

// variables gives the place's variables, in a fixed order.
func (p *place) variables() []*variable {
	out := []*variable{p.amount, p.choice, p.given}
	for _, a := range p.q.Answers {
		out = append(out, p.ticks[a.ID.S])
	}
	out = append(out, p.ticks[tree.Skip])
	return slices.DeleteFunc(out, func(v *variable) bool { return v == nil })
}

// conditions says "one of these values" so that any one of the conditions is enough.
func (v *variable) conditions(s values) []enableWhen {
	exists := func(b bool) enableWhen { return enableWhen{Question: v.link, Operator: "exists", AnswerBoolean: &b} }
	is := func(op string, o coding) enableWhen {
		return enableWhen{Question: v.link, Operator: op, AnswerCoding: &coding{System: o.System, Code: o.Code}}
	}
	switch v.kind {
	case given:
		return []enableWhen{exists(s[1])}
	case ticked:
		if s[1] {
			return []enableWhen{is("=", v.options[0])}
		}
		return []enableWhen{is("!=", v.options[0])}
	}
	if !s[0] && !slices.Contains(s[1:], false) {
		return []enableWhen{exists(true)}
	}
	var out []enableWhen
	if s[0] {
		out = append(out, exists(false))
	}
	if v.kind == oneOf {
		for i, o := range v.options {
			if s[i+1] {
				out = append(out, is("=", o))
			}
		}
		return out
	}
	return append(out, v.ends(s)...)
}

// ends says "below the first gap, or above it".
func (v *variable) ends(s values) []enableWhen {
	limit := func(b bound, up bool) enableWhen {
		op := map[[2]bool]string{{true, false}: ">=", {true, true}: ">", {false, false}: "<", {false, true}: "<="}[[2]bool{up, b.over}]
		return enableWhen{Question: v.link, Operator: op, AnswerQuantity: &amount{Value: b.at, Unit: v.unit.Display, System: v.unit.System, Code: v.unit.Code}}
	}
	lo := slices.Index(s[1:], false) + 1
	hi := len(s) - 1
	for s[hi] {
		hi--
	}
	var out []enableWhen
	if lo > 1 {
		out = append(out, limit(v.bounds[lo-1], false))
	}
	if hi < len(s)-1 {
		out = append(out, limit(v.bounds[hi], true))
	}
	return out
}

func (f *former) question(p *place) item {
	q := p.q
	out := item{LinkID: p.link, Text: q.Text.S, Type: "choice", Repeats: p.given != nil}
	why := display(p.link+".why", strings.TrimSpace(q.Why.S+" "+q.Hint.S))
	if p.amount == nil {
		out.AnswerOption = f.options(p)
		out.Item = []item{why}
		return out
	}
	m := q.Measure
	out.Type = "group"
	unit := p.amount.unit
	many := item{LinkID: p.amount.link, Type: "quantity", Text: limits(f.lib.Say, m), Extension: []extension{{URL: unitOption, ValueCoding: &unit}}}
	out.Item = []item{why, many}
	if p.choice != nil {
		text := f.lib.Say.Say("form.or-choose")
		if len(m.Likes) == 0 {
			text = f.lib.Say.Say("form.or")
		}
		no := false
		out.Item = append(out.Item, item{LinkID: p.choice.link, Type: "choice", Text: text, AnswerOption: f.options(p),
			EnableWhen: []enableWhen{{Question: p.amount.link, Operator: "exists", AnswerBoolean: &no}}})
	}
	return out
}

// limits words what a measure takes: "An amount: from 0 to 40 %". In which steps an amount is kept says nothing to a reader.
func limits(w *say.Words, m *tree.Measure) string {
	u, _ := quantity.Lookup(m.Unit)
	t := quantity.In(w)
	return w.Say("form.amount", "from", t.Number(string(decimal(u.From(m.From)))), "to", t.With(u, string(decimal(u.From(m.To)))))
}

func (f *former) options(p *place) []option {
	var all []coding
	if p.choice != nil {
		all = p.choice.options
	} else {
		for _, v := range p.variables() {
			all = append(all, v.options...)
		}
	}
	var out []option
	for _, c := range all {
		o := option{ValueCoding: c}
		if a := p.q.Answer(c.Code); p.given != nil && (a == nil || a.Alone) {
			o.Extension = []extension{{URL: optionExclusive, ValueBoolean: true}}
		}
		out = append(out, o)
	}
	return out
}

func display(link, text string) item { return item{LinkID: link, Type: "display", Text: text} }

func (f *former) ending(link string, e *tree.Ending) item {
	out := item{LinkID: link, Type: "group", Text: e.Title.S}
	add := func(part, text string) {
		if text != "" {
			out.Item = append(out.Item, display(link+"."+part, text))
		}
	}
	add("caution", f.worded(e.Caution, f.lib.SourceName))
	add("text", f.worded(e.Text, f.lib.SourceName))
	for _, talk := range e.Types {
		ft := f.lib.FootType(talk.Type.S)
		add("type."+talk.Type.S, f.lib.Say.Say("form.type", "foot", ft.Name.S, "for", talk.For.S, "against", talk.Against.S))
	}
	out.Item = append(out.Item, f.prompts(link, e.Prompts)...)
	for _, id := range e.Next {
		add("next."+id.S, f.lib.Say.Say("form.next", "tree", f.lib.TitleOf("tree", id.S)))
	}
	return out
}

func (f *former) card(link string, c *library.Card) item {
	out := item{LinkID: link, Type: "group", Text: c.Title.S, Item: []item{display(link+".text", f.plain(c.Text))}}
	out.Item = append(out.Item, f.prompts(link, c.Prompts)...)
	return out
}

func (f *former) prompts(link string, ids []read.Text) []item {
	var out []item
	for _, id := range ids {
		out = append(out, display(link+".prompt."+id.S, f.lib.Say.Say("form.bring", "question", f.lib.Prompt(id.S).Plain())))
	}
	return out
}

// plain gives a markdown text in words alone: links say what they lead to, and
// values that the page works out are named.
func (f *former) plain(t read.Text) string { return f.worded(t, nil) }

func (f *former) worded(t read.Text, name func(id string) string) string {
	t.S = tree.FillGaps(t.S, func(id string) string { return f.t.WithoutAmount(f.lib.Say, id) })
	of := wording{t, name != nil}
	if known, ok := f.said.Load(of); ok {
		return known.(string)
	}
	doc := f.lib.Doc(t)
	text := doc.Text(f.lib.Say, func(kind, id string) explainer.Target {
		return explainer.Target{Title: f.lib.Say.Say("form.named", "title", f.lib.TitleOf(kind, id))}
	}, name, f.lib.Partly)
	text = strings.ReplaceAll(text, "\n", " ")
	f.said.Store(of, text)
	return text
}

// wording is a text with its gaps filled, and whether its sources are named.
type wording struct {
	text  read.Text
	named bool
}
