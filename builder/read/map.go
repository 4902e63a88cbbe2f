package read

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"gopkg.in/yaml.v3"

	"keelpath/builder/finding"
)

// Text is a value with its place. The zero Text is a value that was not given.
type Text struct {
	S  string
	At finding.Place

	// Inside is how many characters stand between At and the text itself: 1
	// after a quote, 0 without one, -1 where the text runs over lines and a
	// place inside it is not known.
	Inside int
}

// Place gives the place of a character of the text; col counts from 1.
func (t Text) Place(col int) finding.Place {
	p := t.At
	if t.Inside >= 0 {
		p.Col += t.Inside + col - 1
	}
	return p
}

// Given tells whether the author wrote the value.
func (t Text) Given() bool { return t.At.Line > 0 }

func (t Text) String() string { return t.S }

// Strings gives the bare values.
func Strings(ts []Text) []string {
	out := make([]string, len(ts))
	for i, t := range ts {
		out[i] = t.S
	}
	return out
}

// Map is one mapping of a file. Each method that asks for a key makes that key
// known; Done then reports the keys that nobody asked for, and those that are missing. Asking a nil Map is
// fine and gives nothing, so a reader need not stop at a missing part.
type Map struct {
	r     *reader
	at    finding.Place
	what  string // how a message names this mapping: `question "slope"`
	path  string // the way to it from the top: "questions.slope."
	keys  []Text
	vals  map[string]*yaml.Node
	known []string
	lacks []string // keys that must be there and are not; Done reports them
}

// mapping wraps n and reports repeated keys. Findings about the whole of it are
// placed at.
func (r *reader) mapping(n *yaml.Node, at finding.Place, what string) *Map {
	m := &Map{r: r, at: at, what: what, vals: map[string]*yaml.Node{}}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := Text{S: n.Content[i].Value, At: r.place(n.Content[i])}
		if _, twice := m.vals[key.S]; twice {
			r.list.Add(key.At, "repeated-key", quote(key.S)+" stands here a second time in "+what,
				"the first is at "+m.keyPlace(key.S).String(), "give one of them another name, or remove it")
			continue
		}
		m.keys = append(m.keys, key)
		m.vals[key.S] = n.Content[i+1]
	}
	return m
}

// At is the place where the mapping begins.
func (m *Map) At() finding.Place {
	if m == nil {
		return finding.Place{}
	}
	return m.at
}

// Key is the place of a key, or of the mapping where the key is missing.
func (m *Map) Key(key string) finding.Place {
	if m == nil {
		return finding.Place{}
	}
	if p := m.keyPlace(key); p.Line > 0 {
		return p
	}
	return m.at
}

func (m *Map) keyPlace(key string) finding.Place {
	for _, k := range m.keys {
		if k.S == key {
			return k.At
		}
	}
	return finding.Place{}
}

// ask makes key known and gives its value; a value left empty counts as missing.
func (m *Map) ask(key string) *yaml.Node {
	if m == nil {
		return nil
	}
	if !slices.Contains(m.known, key) {
		m.known = append(m.known, key)
	}
	if v := m.vals[key]; v != nil && v.Tag != "!!null" {
		return v
	}
	return nil
}

// Done reports the keys that the format does not have, and the missing ones. A
// misspelt key is one finding, not two.
func (m *Map) Done() {
	if m == nil {
		return
	}
	for _, key := range m.lacks {
		if !m.misspelt(key) {
			m.r.list.Add(m.Key(key), "missing-key", m.what+" lacks "+quote(key), "add a line "+quote(key+": ..."))
		}
	}
	for _, k := range m.keys {
		if !slices.Contains(m.known, k.S) {
			m.r.list.Add(k.At, "unknown-key", m.what+" has no key "+quote(k.S), finding.NearestOrAll(k.S, m.known, "keys here")...)
		}
	}
}

// misspelt tells whether a key that the format does not have was likely meant to be key.
func (m *Map) misspelt(key string) bool {
	return slices.ContainsFunc(m.keys, func(k Text) bool {
		return !slices.Contains(m.known, k.S) && finding.Nearest(k.S, m.known) == key
	})
}

// Lacks tells whether the author left key out, or left it empty. It is false
// where something that cannot be used stands there, or a misspelt key, for that
// is reported. Ask it after all keys of the mapping.
func (m *Map) Lacks(key string) bool {
	if m == nil || m.misspelt(key) {
		return false
	}
	v := m.vals[key]
	return v == nil || v.Tag == "!!null" || (v.Kind != yaml.ScalarNode && len(v.Content) == 0)
}

// Text gives an optional single value.
func (m *Map) Text(key string) Text {
	v := m.ask(key)
	if v == nil {
		return Text{}
	}
	return m.r.text(v, key)
}

// NeedText gives a single value that must be there.
func (m *Map) NeedText(key string) Text {
	v := m.ask(key)
	if v == nil {
		m.need(key)
		return Text{}
	}
	t := m.r.text(v, key)
	if t.Given() && strings.TrimSpace(t.S) == "" {
		m.r.list.Add(t.At, "empty-text", quote(key)+" in "+m.what+" is empty", "write the text, or remove what it belongs to")
	}
	return t
}

func (m *Map) need(key string) {
	if m != nil {
		m.lacks = append(m.lacks, key)
	}
}

func (r *reader) text(v *yaml.Node, key string) Text {
	if v.Kind != yaml.ScalarNode {
		r.list.Add(r.place(v), "wrong-type", quote(key)+" is "+kindName(v)+", and a single text was expected", `write "`+key+`: the text"`)
		return Text{}
	}
	return Text{S: strings.TrimSpace(v.Value), At: r.place(v), Inside: inside(v)}
}

func inside(v *yaml.Node) int {
	switch {
	case v.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 || strings.ContainsAny(v.Value, "\n\\"):
		return -1
	case v.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0:
		return 1
	}
	return 0
}

// Bool gives an optional true or false; false where it is missing.
func (m *Map) Bool(key string) bool {
	t := m.Text(key)
	switch {
	case !t.Given(), t.S == "false":
		return false
	case t.S == "true":
		return true
	}
	m.r.list.Add(t.At, "wrong-type", quote(key)+" is "+quote(t.S)+", and true or false was expected", "write true or false, or leave the line out")
	return false
}

// Int gives a whole number from low to high; ok is false where it is missing or wrong.
func (m *Map) Int(key string, low, high int) (n int, ok bool) {
	return m.whole(key, m.Text(key), low, high)
}

// NeedInt gives a whole number that must be there; 0 where it is missing or wrong.
func (m *Map) NeedInt(key string, low, high int) int {
	t := m.NeedText(key)
	if t.S == "" {
		return 0
	}
	n, _ := m.whole(key, t, low, high)
	return n
}

func (m *Map) whole(key string, t Text, low, high int) (n int, ok bool) {
	if !t.Given() {
		return 0, false
	}
	n, err := strconv.Atoi(t.S)
	if err != nil || n < low || n > high {
		m.r.list.Add(t.At, "wrong-type", quote(key)+" is "+quote(t.S)+", and a whole number from "+strconv.Itoa(low)+" to "+strconv.Itoa(high)+" was expected", "write it in figures")
		return 0, false
	}
	return n, true
}

// Amount gives a number that must be there, with a point for decimals.
func (m *Map) Amount(key string) (x float64, ok bool) {
	t := m.NeedText(key)
	if !t.Given() || t.S == "" {
		return 0, false
	}
	x, err := strconv.ParseFloat(t.S, 64)
	if err != nil || math.IsInf(x, 0) || math.IsNaN(x) || strings.ContainsAny(t.S, "xXpP_") {
		m.r.list.Add(t.At, "wrong-type", quote(key)+" is "+quote(t.S)+", and a number was expected", "write digits with a point, like 0.5")
		return 0, false
	}
	return x, true
}

// Date gives a date that must be there, as written: YYYY-MM-DD.
func (m *Map) Date(key string) Text {
	t := m.NeedText(key)
	if t.Given() {
		if _, err := time.Parse(time.DateOnly, t.S); err != nil {
			m.r.list.Add(t.At, "wrong-type", quote(key)+" is "+quote(t.S)+", and a date was expected", "write it like 2026-11-25: year, month, day")
			return Text{}
		}
	}
	return t
}

// OneOf gives a value out of a short list; the first of the list where the key
// is missing, and what the author wrote where that is not on the list.
func (m *Map) OneOf(key string, allowed ...string) Text {
	t := m.Text(key)
	if !t.Given() {
		return Text{S: allowed[0]}
	}
	if !slices.Contains(allowed, t.S) {
		help := append(finding.NearestHelp(t.S, allowed, nil), "allowed: "+strings.Join(allowed, ", "))
		m.r.list.Add(t.At, "not-allowed", quote(key)+" is "+quote(t.S)+", and that is not one of its values", help...)
	}
	return t
}

// Texts gives an optional list of single values.
func (m *Map) Texts(key string) []Text {
	v := m.ask(key)
	if v == nil {
		return nil
	}
	if v.Kind != yaml.SequenceNode {
		m.r.list.Add(m.r.place(v), "wrong-type", quote(key)+" is "+kindName(v)+", and a list was expected", `write "`+key+`: [first, second]"`)
		return nil
	}
	var out []Text
	for _, c := range v.Content {
		out = m.entry(out, c, key)
	}
	return out
}

// entry adds one value of a list, unless it is empty or cannot be used.
func (m *Map) entry(to []Text, v *yaml.Node, key string) []Text {
	t := m.r.text(v, key)
	if t.Given() && t.S == "" {
		m.r.list.Add(t.At, "empty-text", "an entry of "+quote(key)+" in "+m.what+" is empty", "write it, or leave it out")
	} else if t.Given() {
		return append(to, t)
	}
	return to
}

// NeedTexts gives a list that must be there, though it may be empty.
func (m *Map) NeedTexts(key string) []Text {
	ts := m.Texts(key)
	if m != nil && (m.vals[key] == nil || m.vals[key].Tag == "!!null") {
		m.need(key)
	}
	return ts
}

// OneOrMore gives an optional list of single values of which a lone one may
// stand without its brackets.
func (m *Map) OneOrMore(key string) []Text {
	if v := m.ask(key); v != nil && v.Kind == yaml.ScalarNode {
		return m.entry(nil, v, key)
	}
	return m.IDs(key)
}

// IDs gives a list of ids, and reports one that stands in it twice.
func (m *Map) IDs(key string) []Text {
	ts := m.Texts(key)
	seen := map[string]bool{}
	for _, t := range ts {
		if seen[t.S] {
			m.r.list.Add(t.At, "repeated-id", quote(t.S)+" stands twice in "+quote(key), "keep one of them")
		}
		seen[t.S] = true
	}
	return ts
}

// Sub gives an optional mapping.
func (m *Map) Sub(key, what string) *Map {
	v := m.ask(key)
	if v == nil {
		return nil
	}
	return m.sub(v, m.Key(key), what, key)
}

// sub wraps the mapping v, which stands one step below m.
func (m *Map) sub(v *yaml.Node, at finding.Place, what, step string) *Map {
	s := m.r.sub(v, at, what)
	if s != nil {
		s.path = m.path + step + "."
	}
	return s
}

func (r *reader) sub(v *yaml.Node, at finding.Place, what string) *Map {
	if v.Kind != yaml.MappingNode {
		r.list.Add(r.place(v), "wrong-type", what+" is "+kindName(v)+", and keys with values were expected", `write its keys below it, each "key: value"`)
		return nil
	}
	return r.mapping(v, at, what)
}

// Maps gives an optional list of mappings.
func (m *Map) Maps(key, what string) []*Map {
	v := m.ask(key)
	if v == nil {
		return nil
	}
	if v.Kind != yaml.SequenceNode {
		m.r.list.Add(m.r.place(v), "wrong-type", quote(key)+" is "+kindName(v)+", and a list was expected", `begin each entry with "- "`)
		return nil
	}
	var out []*Map
	for i, c := range v.Content {
		if s := m.sub(c, m.r.place(c), what, key+"."+strconv.Itoa(i+1)); s != nil {
			out = append(out, s)
		}
	}
	return out
}

// Each calls do for every entry of the mapping under key, in the file's order.
// The entry's key is its id. kind names an entry in messages: "question". An
// entry that is no mapping is reported and comes as nil, so that its id is known.
func (m *Map) Each(key, kind string, do func(id Text, entry *Map)) {
	if top := m.Sub(key, quote(key)); top != nil {
		top.Entries(kind, do)
	}
}

// Entries is Each for a mapping that is itself one of ids to entries. Done is not asked of it.
func (m *Map) Entries(kind string, do func(id Text, entry *Map)) {
	if m == nil {
		return
	}
	for _, k := range m.keys {
		m.r.id(k, kind)
		do(k, m.sub(m.vals[k.S], k.At, kind+" "+quote(k.S), k.S))
	}
}

// Pairs calls do for every key and value of the mapping under key: one value or
// a list of them. A value of another kind is reported and comes as a Text that
// is not given.
func (m *Map) Pairs(key string, do func(k Text, values []Text)) {
	top := m.Sub(key, quote(key))
	if top == nil {
		return
	}
	for _, k := range top.keys {
		do(k, top.pair(k))
	}
}

func (m *Map) pair(k Text) []Text {
	switch v := m.vals[k.S]; {
	case v.Tag == "!!null":
		return nil
	case v.Kind == yaml.SequenceNode:
		return m.Texts(k.S)
	default:
		return []Text{m.r.text(v, k.S)}
	}
}

// Singles calls do for every key of the mapping itself and its single value. Done
// is not asked of it.
func (m *Map) Singles(do func(k, v Text)) {
	if m == nil {
		return
	}
	for _, k := range m.keys {
		do(k, m.r.text(m.vals[k.S], k.S))
	}
}

// Either calls do for every key of the mapping itself, with its value: a single text, or a
// mapping. What there is not is not given, or nil; a value that was left empty is an empty text. kind names a value in messages. Done is not
// asked of the mapping.
func (m *Map) Either(kind string, do func(id, single Text, entry *Map)) {
	if m == nil {
		return
	}
	for _, k := range m.keys {
		m.r.id(k, kind)
		v := m.vals[k.S]
		switch {
		case v.Kind == yaml.MappingNode:
			do(k, Text{}, m.r.mapping(v, k.At, kind+" "+quote(k.S)))
		case v.Tag == "!!null":
			do(k, Text{At: k.At}, nil)
		default:
			do(k, m.r.text(v, k.S), nil)
		}
	}
}

var idForm = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// IsID tells whether s has the form of an id: lower-case words joined by hyphens.
func IsID(s string) bool { return len(s) <= 60 && idForm.MatchString(s) }

func (r *reader) id(k Text, kind string) {
	if !IsID(k.S) {
		r.list.Add(k.At, "bad-id", "the "+kind+" id "+quote(k.S)+" has other signs in it than an id may have",
			"an id is lower-case words joined by hyphens, at most 60 letters: "+quote("heel-height"))
	}
}

func quote(s string) string { return strconv.Quote(s) }
