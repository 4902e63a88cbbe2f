package say_test

import (
	"fmt"
	"html/template"
	"slices"
	"strings"
	"testing"

	"golang.org/x/text/language"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/say"
)

// words reads a file of a language, and gives what was found in it.
func words(t *testing.T, lang, text string) (*say.Words, []finding.Finding) {
	t.Helper()
	var list finding.List
	w := say.Read(read.YAML(say.File(lang), []byte(text), 0, &list), lang, &list)
	return w, list.Sorted()
}

// fine is words where nothing may be found.
func fine(t *testing.T, lang, text string) *say.Words {
	t.Helper()
	w, found := words(t, lang, text)
	if len(found) > 0 {
		t.Fatal(found)
	}
	return w
}

const formats = `
formats: { digits: "0123456789", point: ",", group: ".", group-from: "5", span: "{from} a {to}", date: "{day} de {month} de {year}", month-11: noviembre,
  list-middle: "{before}, {next}", list-and-two: "{before} y {last}", list-and-last: "{before} y {last}", list-or-two: "{before} o {last}", list-or-last: "{before}, o {last}" }
`

func TestFilled(t *testing.T) {
	w := fine(t, "en", formats+`
sheet:
  heading: My <sheet>
  stars: { about: "of three", one: "{count} star, {name}", other: "{count} stars, {name}" }
  look: { one: "Look at one question.", other: "Look at {count} questions." }
  link: "See {a}what {b}was{/b} checked{/a}, {name}."
`)
	for _, c := range []struct{ got, want string }{
		{w.Say("sheet.heading"), "My <sheet>"},
		{w.Say("sheet.stars", "count", 1, "name", "A & B"), "1 star, A & B"},
		{w.Say("sheet.stars", "count", 0, "name", ""), "0 stars, "},
		{w.Say("sheet.stars", "count", 12345, "name", "x"), "12.345 stars, x"},
		{w.Say("sheet.look", "count", 1), "Look at one question."},
		{w.Say("sheet.look", "count", 2), "Look at 2 questions."},
		{string(w.HTML("sheet.heading")), "My &lt;sheet&gt;"},
		{string(w.HTML("sheet.stars", "count", 1, "name", template.HTML("<i>x</i>"))), "1 star, <i>x</i>"},
		{string(w.HTML("sheet.link", "a", element(t, "a", "href", `x"y.html`), "b", element(t, "b"), "name", "A & B")),
			`See <a href="x&#34;y.html">what <b>was</b> checked</a>, A &amp; B.`},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
	if v, err := w.Show("sheet.heading"); v != "My <sheet>" || err != nil {
		t.Errorf("a template gets %q, %v: letters must stay letters", v, err)
	}
	if v, err := w.Show("sheet.link", "a", element(t, "a"), "b", element(t, "b"), "name", "<"); v != template.HTML("See <a>what <b>was</b> checked</a>, &lt;.") || err != nil {
		t.Errorf("a template gets %q, %v", v, err)
	}
}

func element(t *testing.T, name string, attributes ...string) say.Element {
	t.Helper()
	e, err := say.Tag(name, attributes...)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// What a text does not fit is an error, and never a page with a hole.
func TestNotFilled(t *testing.T) {
	w := fine(t, "en", formats+"a: { plain: Plain, named: 'Of {name}', linked: '{link}Go{/link}', counted: { one: one, other: more } }")
	b := element(t, "b")
	for _, c := range []struct {
		gaps []any
		name say.Name
		says string
	}{
		{nil, "a.nothing", `have no "a.nothing"`},
		{nil, "a.named", `nothing fills the gap "name"`},
		{[]any{"name"}, "a.named", "there are 1 values"},
		{[]any{7, "x"}, "a.named", "7 stands where the name"},
		{[]any{"name", 1.5}, "a.named", "is filled with a float64"},
		{[]any{"name", b}, "a.named", "is filled with a say.Element"},
		{[]any{"name", "x", "more", "y"}, "a.named", `no gap "more"`},
		{[]any{"link", "x"}, "a.linked", "is filled with a string"},
		{nil, "a.counted", `nothing fills the gap "count"`},
		{[]any{"x", "y"}, "a.plain", `no gap "x"`},
	} {
		if v, err := w.Show(c.name, c.gaps...); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s with %v gives %v and %v, want an error that says %q", c.name, c.gaps, v, err, c.says)
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("a text with an element came out as letters")
		}
	}()
	w.Say("a.linked", "link", b)
}

// An element can do no harm to a page.
func TestTag(t *testing.T) {
	for _, c := range [][]string{
		{"script"}, {"img"}, {"a", "onclick", "x"}, {"a", "style", "x"}, {"a", "href"},
		{"a", "href", "javascript:alert(1)"}, {"a", "href", "JavaScript:x"}, {"a", "href", "data:text/html,x"}, {"a", "href", " javascript:x"},
	} {
		if e, err := say.Tag(c[0], c[1:]...); err == nil {
			t.Errorf("%q gives %v", c, e)
		}
	}
	for _, to := range []string{"../learn/a.html", "#b", "https://a.example/x:y", "tel:911", "a.html#b:c"} {
		if _, err := say.Link(to); err != nil {
			t.Errorf("%s: %v", to, err)
		}
	}
}

// Samples of CLDR 48 (plurals.json, and the same by ICU 78.2).
func TestForms(t *testing.T) {
	for lang, want := range map[string]map[say.Form][]int{
		"en":    {say.One: {1}, say.Other: {0, 2, 3, 10, 11, 99, 100, 101, 1000, 1_000_000}},
		"de":    {say.One: {1}, say.Other: {0, 2, 3, 10, 11, 99, 100, 101, 1000, 1_000_000}},
		"es":    {say.One: {1}, say.Many: {1_000_000, 3_000_000}, say.Other: {0, 2, 3, 10, 11, 99, 100, 101, 1000, 1_000_001}},
		"es-US": {say.One: {1}, say.Many: {1_000_000}, say.Other: {0, 2, 1000}},
		"ar":    {say.Zero: {0}, say.One: {1}, say.Two: {2}, say.Few: {3, 10, 103}, say.Many: {11, 99}, say.Other: {100, 101, 102, 1000, 1_000_000}},
		"fr":    {say.One: {0, 1}, say.Other: {2, 3, 100}},
		"pt":    {say.One: {0, 1}, say.Other: {2, 3, 100}},
	} {
		for form, numbers := range want {
			for _, n := range numbers {
				if got := say.FormOf(language.Make(lang), n); got != form {
					t.Errorf("%s: %d has the form %s, want %s", lang, n, got, form)
				}
			}
		}
	}
}

func TestFormats(t *testing.T) {
	en, es := say.English(), fine(t, "es", formats)
	ar := fine(t, "ar-EG", strings.NewReplacer("0123456789", "٠١٢٣٤٥٦٧٨٩", `","`, `"٫"`, `"."`, `"٬"`, `"5"`, `"4"`).Replace(formats))
	for _, c := range []struct{ got, want string }{
		{en.Number(999), "999"}, {en.Number(12345), "12,345"}, {en.Number(1234567), "1,234,567"}, {en.Decimal("-1234.5"), "-1,234.5"},
		{es.Decimal("1234.5"), "1234,5"}, {es.Decimal("12345.5"), "12.345,5"},
		{ar.Decimal("1234.5"), "١٬٢٣٤٫٥"},
		{en.Date("2026-11-29"), "29 November 2026"}, {es.Date("2026-11-29"), "29 de noviembre de 2026"}, {ar.Date("2026-11-29"), "٢٩ de noviembre de ٢٠٢٦"},
		{en.Date("soon"), "soon"}, {en.Span("1", "2"), "1 to 2"}, {es.Span("1", "2"), "1 a 2"},
		{en.And(), ""}, {en.And("a"), "a"}, {en.And("a", "b"), "a and b"}, {en.And("a", "b", "c", "d"), "a, b, c and d"}, {en.Or("a", "b", "c"), "a, b or c"},
		{es.Or("a", "b"), "a o b"}, {es.Or("a", "b", "c"), "a, b, o c"},
		{en.Capital("über"), "Über"}, {fine(t, "tr", formats).Capital("iş"), "İş"}, {en.Capital(""), ""},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// Numbers are found in a text whatever its digits: those of Arabic, Persian, Bengali and Adlam, which Unicode keeps apart.
func TestWestern(t *testing.T) {
	for text, want := range map[string]string{"٦٧ من ١٠٠": "67 من 100", "۲٫۵": "2.5", "৪৫ জন": "45 জন", "\U0001E951\U0001E950": "10", "x² 1/2": "x² 1/2", "": ""} {
		if got := say.Western(text); got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
}

// Names stand in the order of their language, and not of their bytes.
func TestOrder(t *testing.T) {
	for lang, want := range map[string][]string{
		"es": {"Ángulo", "árbol", "arco", "nino", "niño", "nube", "ñame", "Ñandú"},
		"de": {"Apfel", "Äpfel", "Birne"},
		"en": {"a foot", "Ankle", "both", "Éclair", "foot"},
	} {
		got := slices.Sorted(slices.Values(want))
		slices.SortStableFunc(got, fine(t, lang, formats).Order())
		if !slices.Equal(got, want) {
			t.Errorf("%s: %q, want %q", lang, got, want)
		}
	}
}

// A letter with an accent stands under the one without, unless it is a letter of its own.
func TestSameLetter(t *testing.T) {
	for _, c := range []struct {
		lang, a, b string
		same       bool
	}{{"en", "É", "e", true}, {"es", "Á", "a", true}, {"es", "ñ", "N", false}, {"en", "a", "b", false}} {
		if got := fine(t, c.lang, formats).SameLetter()(c.a, c.b); got != c.same {
			t.Errorf("%s: %s and %s: %v", c.lang, c.a, c.b, got)
		}
	}
}

func TestDir(t *testing.T) {
	for lang, want := range map[string]string{"en": "ltr", "es-US": "ltr", "ar": "rtl", "he": "rtl", "fa-IR": "rtl", "ur": "rtl", "uz-Arab": "rtl", "uz": "ltr", "zh-Hant": "ltr"} {
		if got := say.Dir(lang); got != want {
			t.Errorf("%s is written %s, want %s", lang, got, want)
		}
	}
}

// The program's own words can be read, and nothing is found in them.
func TestEnglish(t *testing.T) {
	if n := len(say.English().Names()); n < 30 {
		t.Errorf("only %d texts", n)
	}
}

// Words in another language have the names and the gaps of the program's own, the plural forms of
// theirs, and say for which text they were made.
func TestAgainst(t *testing.T) {
	ground := fine(t, "en", formats+"a: { one: One, named: 'Of {name}', linked: '{link}Go{/link}', counted: { one: '{count} is', other: '{count} are' } }")
	var others string // what the language has beside
	ground.Each(func(n say.Name, x read.Text) {
		if key, ok := strings.CutPrefix(string(n), "formats."); ok {
			others += fmt.Sprintf("  %s: { of: %s, text: %q }\n", key, read.Fingerprint(x.S), x.S)
		}
	})
	others = "formats:\n" + others
	of := func(texts ...string) string { return "{ of: " + read.Fingerprint(texts...) }
	one, named, linked := "one: "+of("One")+", text: Uno }", "named: "+of("Of {name}")+", text: 'De {name}' }", "linked: "+of("{link}Go{/link}")+", text: '{link}Ir{/link}' }"
	counted := "counted: " + of("{count} is", "{count} are")
	for _, c := range []struct{ lang, text, want string }{
		{"es", one + ", " + named + ", " + linked + ", " + counted + ", one: uno, many: muchos, other: '{count} son' }", ""},
		{"ja", one + ", " + named + ", " + linked + ", " + counted + ", text: '{count}です' }", ""},
		{"es", one + ", " + named + ", " + linked + ", " + counted + ", text: '{count} son' }", `the text "a.counted" has one form, and the number in it asks for one: many: other:`},
		{"es", one + ", named: { of: 0, text: '{name}' }, linked: '{link}Ir{/link}', " + counted + ", one: uno, many: muchos, other: '{count}' }",
			"the text \"a.linked\" does not say of which text it is the words\nthe words for \"a.named\" were made for another text"},
		{"es", one + ", named: " + of("Of {name}") + ", text: De }, linked: " + of("{link}Go{/link}") + ", text: 'Ir {link}' }, " + counted + ", one: uno, many: muchos, other: '{count}' }",
			"the text \"a.named\" lacks the gap {name}\nthe text \"a.linked\" has the gap {link}, and nothing fills it\nthe text \"a.linked\" lacks the gap {link}...{/link}"},
		{"es", one + ", " + named + ", linkd: x", "there are no words in es for the program's text \"a.counted\"\nthe program has no text \"a.linkd\""},
		{"es", "x: y", "there are no words in es for the program's text \"a.counted\"\nthere are no words in es for the program's text \"a.linked\"\n" +
			"there are no words in es for the program's text \"a.named\"\nthere are no words in es for the program's text \"a.one\"\nthe program has no text \"a.x\""},
	} {
		w, found := words(t, c.lang, others+"a: { "+c.text+" }")
		var list finding.List
		w = w.Against(ground, &list)
		var got []string
		for _, f := range append(found, list.Sorted()...) {
			got = append(got, f.Text)
		}
		slices.Sort(got)
		want := strings.Split(c.want, "\n")
		slices.Sort(want)
		if got := strings.Join(got, "\n"); got != strings.Join(want, "\n") {
			t.Errorf("%s:\ngot  %s\nwant %s", c.text, got, c.want)
		}
		want1 := "Uno"
		if !strings.Contains(c.text, one) {
			want1 = "One"
		}
		if got := w.Say("a.one"); got != want1 || w.Lang != c.lang {
			t.Errorf("%s: %s says %q, want %q", c.text, w.Lang, got, want1)
		}
		for _, n := range []int{0, 1, 1_000_000} {
			w.Say("a.counted", "count", n) // whatever is missing, something is said
		}
	}
	w, _ := words(t, "es", "b: { x: y }")
	var list finding.List
	w.Against(ground, &list)
	if got := list.Sorted()[0].Text; !strings.Contains(got, "there are no words in es for 16 of the program's 16 texts, the first being") {
		t.Errorf("got %q", got)
	}
}

// A file that was made for another language has all texts, in the forms of that language.
func TestFor(t *testing.T) {
	for _, lang := range []string{"qaa", "es", "ar"} {
		file := say.English().For(lang, func(_ say.Name, s string) string { return s })
		var list finding.List
		w := fine(t, lang, string(file)).Against(say.English(), &list)
		if found := list.Sorted(); len(found) > 0 {
			t.Errorf("%s: %v", lang, found)
		}
		if got := w.Say("layout.skip"); got != "Skip to the text" {
			t.Errorf("%s: got %q", lang, got)
		}
	}
}

// The order of a date goes by the place: CLDR's long dates of en-US and en-GB, from memory. The script says the same.
func TestDateOfAPlace(t *testing.T) {
	us := say.English().In("us")
	for w, want := range map[*say.Words]string{say.English(): "25 November 2026", say.English().In("uk"): "25 November 2026", us: "November 25, 2026"} {
		if got := w.Date("2026-11-25"); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if script := string(us.Script([]say.Name{"formats.date"})); !strings.Contains(script, `formatsDate = "{month} {day}, {year}"`) {
		t.Error(script)
	}
}

// The form of a number goes by how it is written: CLDR's rules for English, German and Polish, from memory.
func TestFormOfText(t *testing.T) {
	for _, c := range []struct {
		lang, number string
		want         say.Form
	}{
		{"en", "1", say.One}, {"en", "-1", say.One}, {"en", "1.0", say.Other}, {"en", "1.5", say.Other}, {"en", "1/2", say.Other}, {"en", "", say.Other},
		{"de", "1", say.One}, {"de", "2", say.Other}, {"pl", "2", say.Few}, {"pl", "5", say.Many}, {"pl", "2.5", say.Other},
	} {
		if got := say.FormOfText(c.lang, c.number); got != c.want {
			t.Errorf("%s %s: %s, want %s", c.lang, c.number, got, c.want)
		}
	}
}
