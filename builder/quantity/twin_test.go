package quantity

import (
	"encoding/json"
	"errors"
	"maps"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/dop251/goja"

	"keelpath/builder/clienttest"
)

// twin is site/client/sums/quantity.ts, run inside the test.
type twin struct {
	*clienttest.Script
	table goja.Value
}

// outcome is all that one answer leads to.
type outcome struct {
	Parsed, Read float64
	Unit         string
	ParseError   Error
	ReadError    Error
	Said         string
	Shown, Plain string // with and without the measure
	Back         string
}

func inGo(text string, m Measure) (out outcome) {
	v, err := Parse(text, m)
	var e *Error
	if errors.As(err, &e) {
		out.ParseError = *e
	}
	out.Parsed = v.Num
	v, err = Read(text, m)
	if errors.As(err, &e) {
		out.ReadError = *e
		return out
	}
	out.Read, out.Unit, out.Shown, out.Plain = v.Num, v.Unit, m.Show(v), Show(v)
	out.Said, out.Back = v.Said, m.Back(v)
	return out
}

func (w twin) run(t *testing.T, text string, m goja.Value) (out outcome) {
	t.Helper()
	words := w.Value(text)
	parsed := w.call(t, "parse", w.table, words, m)
	out.Parsed, out.ParseError = taken(parsed)
	read := w.call(t, "read", w.table, words, m)
	out.Read, out.ReadError = taken(read)
	if out.ReadError.Code != "" {
		return out
	}
	out.Unit = read.Export().(map[string]any)["unit"].(string)
	out.Shown = w.call(t, "show", w.table, read, m).String()
	out.Plain = w.call(t, "show", w.table, read).String()
	out.Said = read.Export().(map[string]any)["said"].(string)
	out.Back = w.call(t, "back", w.table, read, m).String()
	return out
}

func (w twin) call(t *testing.T, name string, args ...goja.Value) goja.Value {
	t.Helper()
	v, err := w.Call(name, args...)
	if err != nil {
		t.Fatalf("%s threw: %v", name, err)
	}
	return v
}

func taken(v goja.Value) (float64, Error) {
	fields := v.Export().(map[string]any)
	if text, ok := fields["text"]; ok {
		out := Error{Code: fields["code"].(string), Text: text.(string)}
		if all, ok := fields["choices"].([]any); ok {
			for _, c := range all {
				out.Choices = append(out.Choices, c.(string))
			}
		}
		return 0, out
	}
	return number64(fields["value"]), Error{}
}

func number64(v any) float64 {
	switch x := v.(type) {
	case int64:
		return float64(x)
	case float64:
		return x
	}
	return math.NaN()
}

func same(a, b outcome) bool {
	near := func(x, y float64) bool {
		return x == y || math.Abs(x-y) <= 1e-9*math.Max(1, math.Abs(x))
	}
	ok := near(a.Parsed, b.Parsed) && near(a.Read, b.Read)
	a.Parsed, a.Read, b.Parsed, b.Read = 0, 0, 0, 0
	return ok && reflect.DeepEqual(a, b)
}

// pieces make up random answers, sensible and not.
var pieces = []string{"1", "5", "12", "38", "0", "0.5", ".5", "3,5", "1,234", "120", "89", "1000", "999999", "1/2", "3/8", "11/4",
	"½", "¾", "⅞", " ", " ", " ", "\u00a0", "-", "−", "+", "/", ":", ",", ".", "and", "to", "in", "in", "inch", "\"", "''", "'", "′", "″", "’",
	"ft", "feet", "mm", "cm", "m", "kg", "g", "lb", "lbs", "st", "stone", "oz", "%", "per cent", "per", "percent", "deg", "°", "º",
	"e", "x", "ten", "NaN", "é", "😀", "\u200b", "_", "(", "#", "constructor", "ſ", "K"}

func randomText(r *rand.Rand) string {
	var b strings.Builder
	for range 1 + r.IntN(7) {
		b.WriteString(pieces[r.IntN(len(pieces))])
	}
	return b.String()
}

// likely builds an answer as people write them: number, unit, perhaps twice.
func likely(r *rand.Rand) string {
	pick := func(from ...string) string { return from[r.IntN(len(from))] }
	amount := func() string {
		n := pick("0", "1", "2", "5", "7", "10", "12", "38", "70", "119", "180") +
			pick("", "", "", ".5", ",25", ".125", " 1/2", "½", "-3/8", " 15/16", ".33333")
		return pick("", "", "", "", "-", "+") + n
	}
	var words []string
	for _, u := range units {
		words = append(words, u.Spell...)
	}
	out := amount() + pick("", " ", "\u202f") + pick(append(words, "", "")...)
	switch r.IntN(5) {
	case 0:
		out += pick("", " ", ", ", " and ", "-") + amount() + pick("", "", "in", "\"", " lb", " oz", " cm")
	case 1:
		out = pick("1", "1", "2") + pick(":", " : ", " in ", " to ") + amount()
	}
	return out
}

// fitting builds an answer that m takes, or nearly: some lie just outside.
func fitting(r *rand.Rand, m Measure) string {
	u := unit(m.Accept[r.IntN(len(m.Accept))])
	c := m.From + (m.To-m.From)*(r.Float64()*1.1-0.05)
	if r.IntN(2) == 0 {
		shown, _, _ := strings.Cut(Show(Value{Kind: m.Kind(), Num: c, Unit: u.Code}), " (")
		return shown
	}
	x := strconv.FormatFloat(u.From(across(c, m.Kind(), u.Kind)), 'f', r.IntN(4), 64)
	switch {
	case u.Code == Ratio:
		return "1:" + x
	case len(u.Spell) == 0:
		return x
	}
	return x + " " + u.Spell[r.IntN(len(u.Spell))]
}

// The page reads, refuses and shows as the build does: the same values to 1e-9,
// the same codes, the same words.
func TestBrowserReadsTheSame(t *testing.T) {
	w := twin{Script: clienttest.Load(t, "sums/quantity.ts")}
	w.table = w.Value(Table())
	r := rand.New(rand.NewPCG(7, 14))
	var texts []string
	for _, c := range readings {
		texts = append(texts, c.text)
	}
	for _, c := range refusals {
		texts = append(texts, c.text)
	}
	for _, c := range shownAgain {
		texts = append(texts, c.text)
	}
	fixed := len(texts)
	for range 1000 {
		texts = append(texts, randomText(r), likely(r), likely(r))
	}
	names := slices.Sorted(maps.Keys(measures))
	compared, read := 0, 0
	for _, name := range names {
		m := w.Value(measures[name])
		for i, text := range append(slices.Clip(texts), make([]string, 120)...) {
			switch {
			case i >= len(texts):
				text = fitting(r, measures[name])
			case i >= fixed && r.IntN(len(names)) > 1: // each random text meets about two of the measures
				continue
			}
			want, got := inGo(text, measures[name]), w.run(t, text, m)
			if !same(want, got) {
				t.Errorf("%s: %q\n\tin Go:     %+v\n\ton a page: %+v", name, text, want, got)
			}
			compared++
			if want.ReadError.Code == "" {
				read++
			}
		}
	}
	t.Logf("%d answers compared, %d of them read", compared, read)
	if compared < 8000 || read < 1000 {
		t.Errorf("only %d answers were compared, and %d of them read", compared, read)
	}
}

// Values that were worked out, not read, are shown the same too.
func TestBrowserShowsTheSame(t *testing.T) {
	w := twin{Script: clienttest.Load(t, "sums/quantity.ts")}
	w.table = w.Value(Table())
	r := rand.New(rand.NewPCG(5, 9))
	for range 4000 {
		u := units[r.IntN(len(units))]
		v := Value{Kind: u.Kind, Num: (r.Float64() - 0.3) * math.Pow(10, float64(r.IntN(7)-3)), Unit: u.Code}
		if fits(u.Kind, Slope) && r.IntN(2) == 0 {
			v.Kind = []Kind{Slope, Angle}[r.IntN(2)]
		}
		text, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		got := w.call(t, "show", w.table, w.Value(json.RawMessage(text))).String()
		if want := Show(v); got != want {
			t.Errorf("%s: %q in Go, %q on a page", text, want, got)
		}
	}
}
