package quantity

import (
	"cmp"
	"errors"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/dop251/goja"

	"keelpath/builder/clienttest"
	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/say"
)

// in gives the table of a language whose words are made of English ones.
func in(t *testing.T, lang string, do func(name say.Name, text string) string) *Tables {
	t.Helper()
	var list finding.List
	src := say.English().For(lang, do)
	w := say.Read(read.YAML(say.File(lang), src, 0, &list), lang, &list).Against(say.English(), &list)
	if found := list.Sorted(); len(found) > 0 {
		t.Fatal(found)
	}
	return In(w)
}

// german are some words of German, in which a comma stands before the parts of a whole: from memory, as CLDR has them
// for de (point, "3,5 cm", "2 Grad", "5 Fuß").
func german(t *testing.T) *Tables {
	t.Helper()
	own := map[say.Name]string{
		"formats.point": ",", "formats.list-or-two": "{before} oder {last}", "formats.list-or-last": "{before} oder {last}",
		"unit.degree": "{count} Grad", "unit.degree-name": "Grad", "unit.inch": "{count} Zoll", "unit.inch-name": "Zoll",
		"unit.foot": "{count} Fuß", "unit.foot-name": "Fuß", "amount.also-about": "{amount} (etwa {others})", "amount.flat": "flach",
		"amount.also-flat": "{amount} (flach)", "amount.is-about": "{amount} sind etwa {others}", "amount.a-number": "eine Zahl",
		"amount.enter": "Bitte {what} von {from} bis {to} schreiben, wie {like}.",
	}
	return in(t, "de", func(name say.Name, text string) string {
		if says, ok := own[name]; ok {
			return says
		}
		return text
	})
}

// arabic has its own digits and its own sign before the parts of a whole: those of CLDR's arab numbers, from memory.
func arabic(t *testing.T) *Tables {
	t.Helper()
	own := map[say.Name]string{"formats.point": "٫", "formats.digits": "٠١٢٣٤٥٦٧٨٩", "unit.cm": "{count} سم", "unit.cm-name": "سم"}
	return in(t, "ar", func(name say.Name, text string) string {
		if says, ok := own[name]; ok {
			return says
		}
		return text
	})
}

func TestInAnotherLanguage(t *testing.T) {
	de, ar := german(t), arabic(t)
	for _, c := range []struct {
		t                 *Tables
		m                 Measure
		typed, said, back string
	}{
		{de, steep, "5 Grad", "5 Grad (etwa 8,7 %, 1:11,4)", "5 Grad sind etwa 8,7 %, 1:11,4"},
		{de, steep, "1,5 grad", "1,5 Grad (etwa 2,6 %, 1:38,2)", "1,5 Grad sind etwa 2,6 %, 1:38,2"},
		{de, steep, "0 %", "0 % (flach)", "0 % is flat"},
		{de, steep, "8 degrees", "8 Grad (etwa 14,1 %, 1:7,1)", "8 Grad sind etwa 14,1 %, 1:7,1"}, // what any language reads
		{de, heel, "1 1/2 Zoll", "1 1/2 Zoll (38,1 mm)", "1 1/2 Zoll is 38,1 mm"},
		{de, heel, "3,5 cm", "3,5 cm (1 3/8 Zoll)", "3,5 cm sind etwa 1 3/8 Zoll"},
		{de, height, "5 FUß 10", "5 Fuß 10 Zoll (178 cm)", "5 Fuß 10 Zoll sind etwa 178 cm"},
		{ar, heel, "٣٫٥ سم", "٣٫٥ سم (١ ٣/٨ in)", "٣٫٥ سم is about ١ ٣/٨ in"},
		{ar, steep, "١:١٢", "١:١٢ (about ٨٫٣ %, ٤٫٨ degrees)", "١:١٢ is about ٨٫٣ %, ٤٫٨ degrees"},
		{ar, steep, "14 %", "١٤ % (about ٨ degrees, ١:٧٫١)", "١٤ % is about ٨ degrees, ١:٧٫١"},
		{ar, heel, "3.5 cm", "٣٫٥ سم (١ ٣/٨ in)", "٣٫٥ سم is about ١ ٣/٨ in"},
	} {
		v, err := c.t.Typed(c.typed, c.m)
		if err != nil {
			t.Errorf("%s: %q: %v", c.t.Lang, c.typed, err)
			continue
		}
		if said, back := c.t.Show(c.m, v), c.t.Back(c.m, v); said != c.said || back != c.back {
			t.Errorf("%s: %q is said %q and %q, want %q and %q", c.t.Lang, c.typed, said, back, c.said, c.back)
		}
		kept, err := Read(v.Said, c.m) // in any language
		if err != nil || kept != v {
			t.Errorf("%s: %q is kept as %q, which is %+v (%v), want %+v", c.t.Lang, c.typed, v.Said, kept, err, v)
		}
	}
}

// A sign that the language does not have before the parts of a whole can mean thousands.
func TestTwoMeaningsByLanguage(t *testing.T) {
	de := german(t)
	en := Table()
	for _, c := range []struct {
		t     *Tables
		typed string
		want  float64 // 0: refused
	}{
		{&en, "1.125 m", 1125}, {&en, "1,125 m", 0}, {&en, "1,25 m", 1250},
		{de, "1,125 m", 1125}, {de, "1.125 m", 0}, {de, "1.25 m", 1250}, {de, "1,2,5 m", 0}, {de, ".5 m", 500},
	} {
		v, err := c.t.parse(c.typed, Measure{Unit: "m", Accept: []string{"m"}}, c.t.Own)
		var e *Error
		if c.want == 0 && !errors.As(err, &e) || c.want != 0 && (err != nil || v.Num != c.want) {
			t.Errorf("%s: %q is %+v (%v), want %v", c.t.Lang, c.typed, v, err, c.want)
		}
	}
}

func TestRefusedInAnotherLanguage(t *testing.T) {
	de := german(t)
	_, err := de.Typed("500 mm", heel)
	if want := "Bitte eine Zahl von 0 bis 120 mm schreiben, wie 40 mm."; err == nil || err.Error() != want {
		t.Errorf("refused with %q, want %q", err, want)
	}
	_, err = de.Typed("3,5", heel)
	var e *Error
	if !errors.As(err, &e) || !slices.Equal(e.Choices, []string{"3,5 mm", "3,5 cm", "3,5 Zoll"}) || !strings.Contains(e.Text, "3,5 cm oder 3,5 Zoll") {
		t.Errorf("a unit is asked for with %+v", e)
	}
}

// No word of a language means two units, and none takes the place of what is read everywhere.
func TestWordForTwoUnits(t *testing.T) {
	two := in(t, "de", func(name say.Name, text string) string {
		switch name {
		case "unit.pound-name", "unit.kg-name":
			return "Pfund"
		case "unit.stone-name":
			return "lb"
		}
		return text
	})
	if got := two.Own.Spell["pfund"]; got != "kg" || two.Own.Spell["lb"] != "" {
		t.Errorf("pfund is %q, lb %q", got, two.Own.Spell["lb"])
	}
}

// The page reads, refuses and shows in other languages as the build does.
func TestBrowserInAnotherLanguage(t *testing.T) {
	pseudo := in(t, "qaa", func(name say.Name, text string) string {
		if strings.HasPrefix(string(name), "formats.") {
			return text
		}
		return regexp.MustCompile(`\{[^}]*\}|[eio]`).ReplaceAllStringFunc(text, func(s string) string {
			if to := map[string]string{"e": "é", "i": "íí", "o": "ö"}[s]; to != "" {
				return to
			}
			return s
		})
	})
	script := clienttest.Load(t, "sums/quantity.ts")
	for _, tables := range []*Tables{german(t), arabic(t), pseudo} {
		w := twin{script, script.Value(tables)}
		r := rand.New(rand.NewPCG(3, 17))
		texts := []string{"5 Grad", "1 Grad", "1,5 GRAD", "1.125 m", "1,125 m", "5 Fuß 10", "3,5", "٣٫٥ سم", "٣", "5 dégréés", "flach", "-2 Grad", "1:12", "1:12,5"}
		for _, c := range readings {
			texts = append(texts, c.text)
		}
		for range 60 {
			texts = append(texts, strings.ReplaceAll(likely(r), "deg", "Grad"), randomText(r))
		}
		taken := 0
		for name, m := range measures {
			js := w.Value(m)
			for _, text := range append(slices.Clip(texts), fitting(r, m), fitting(r, m)) {
				want, err := tables.Typed(text, m)
				got := w.call(t, "typed", w.table, w.Value(text), js)
				sameIn(t, w, tables, name, text, m, js, want, err, got)
				if err == nil {
					taken++
				}
			}
		}
		if taken < 300 {
			t.Errorf("%s: only %d amounts were read", tables.Lang, taken)
		}
	}
}

func sameIn(t *testing.T, w twin, tables *Tables, name, text string, m Measure, js goja.Value, want Value, err error, got goja.Value) {
	t.Helper()
	num, refusal := taken(got)
	var e *Error
	if errors.As(err, &e) {
		if refusal.Code != e.Code || refusal.Text != e.Text || !slices.Equal(refusal.Choices, e.Choices) {
			t.Errorf("%s, %s: %q is refused with %+v in Go, %+v on a page", tables.Lang, name, text, *e, refusal)
		}
		return
	}
	if refusal.Code != "" || num != want.Num {
		t.Errorf("%s, %s: %q is %v in Go, %v %+v on a page", tables.Lang, name, text, want.Num, num, refusal)
		return
	}
	for call, want := range map[string]string{"show": tables.Show(m, want), "back": tables.Back(m, want), "alone": tables.Alone(m, want)} {
		// There are no plural rules in this test's browser, so where German has them the forms are not held.
		if got := w.call(t, call, w.table, got, js).String(); got != want {
			t.Errorf("%s, %s: %q is said %q in Go, %q on a page (%s)", tables.Lang, name, text, want, got, call)
		}
	}
	kept := w.call(t, "keep", w.table, w.Value(text), js).String()
	if v, err := Read(kept, m); err != nil || v.Num != want.Num || v.Unit != want.Unit {
		t.Errorf("%s, %s: %q is kept as %q, which is %+v (%v), want %+v", tables.Lang, name, text, kept, v, err, want)
	}
	again := w.call(t, "written", w.table, w.Value(kept), js).String()
	if v, err := tables.Typed(again, m); err != nil || v.Num != want.Num || v.Unit != want.Unit {
		t.Errorf("%s, %s: %q comes back as %q, which is %+v (%v), want %+v", tables.Lang, name, text, again, v, err, want)
	}
}

// What stands in the words for English is what amounts are kept as.
func TestEnglishIsKept(t *testing.T) {
	words := Tables{Lang: "en", Signs: signsOf(say.English())}
	for _, u := range units {
		for _, number := range []string{"0", "1", "-1", "1.0", "1.5", "2", "12", "1/2", "1 1/2"} {
			if got, want := words.With(u, number), u.with(number); got != want {
				t.Errorf("%s: %q in the words, kept as %q", u.Code, got, want)
			}
		}
	}
}

// The letters of a language stand in one order, whatever form of a word they come from.
func TestLettersOfALanguage(t *testing.T) {
	forms := []string{"{count} фут", "{count} фута", "{count} футов", "{count} фута"} // one, few, many, other: from memory
	for range 20 {
		n := 0
		ru := in(t, "ru", func(name say.Name, text string) string {
			if name == "unit.degree" {
				n++
				return forms[n-1]
			}
			return text
		})
		if got := ru.Own.Letters; got != "футаов" {
			t.Fatalf("the letters are %q", got)
		}
	}
}

// A word for one unit that is read as another is a clash; the same word for the same unit is none.
func TestClashes(t *testing.T) {
	own := map[say.Name]string{"unit.inch": "{count} M.", "unit.pound-name": "Pfund", "unit.ounce": "{count} pfund", "unit.kg-name": "kilo"}
	de := in(t, "de", func(name say.Name, text string) string { return cmp.Or(own[name], text) })
	var list finding.List
	w := say.Read(read.YAML(say.File("de"), say.English().For("de", func(name say.Name, text string) string { return cmp.Or(own[name], text) }), 0, &list), "de", &list)
	var got []string
	for _, c := range Clashes(w) {
		got = append(got, strings.Join([]string{string(c.Of), c.Word, c.Unit.Code, c.Means.Code, string(c.By)}, " "))
	}
	want := []string{"unit.inch m [in_i] m ", "unit.ounce pfund [oz_av] [lb_av] unit.pound-name"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if de.Own.Spell["pfund"] != "[lb_av]" || de.Own.Spell["m"] != "" {
		t.Errorf("the words are taken for %v", de.Own.Spell)
	}
	if len(Clashes(say.English())) > 0 {
		t.Error("the program's own language has clashes")
	}
}
