package drawing

import (
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/content"
)

// english is what the drawings say as the site ships.
var english = func() Book {
	src, err := content.FS.ReadFile("en/drawings.yaml")
	if err != nil {
		panic(err)
	}
	return ReadWords(read.YAML("drawings.yaml", src, 0, &finding.List{}), &finding.List{})
}()

// drawings gives every drawing with its English words.
func drawings(t *testing.T) []Drawing {
	t.Helper()
	var out []Drawing
	for _, id := range IDs() {
		d, ok := english.Find(id, "")
		if !ok {
			t.Fatalf("no words for the drawing %q", id)
		}
		out = append(out, d)
	}
	return out
}

// found reads words and gives what is found in them.
func found(src string) (Book, []string) {
	var list finding.List
	b := ReadWords(read.YAML("d.yaml", []byte(src), 0, &list), &list)
	var out []string
	for _, f := range list.Sorted() {
		out = append(out, f.Place.String()+" "+f.Check+" "+f.Text)
	}
	return b, out
}

// A drawing says what its words say, line by line, with its own numbers in their
// braces.
func TestWordsAreSaid(t *testing.T) {
	b, wrong := found("drawings:\n  slope-foot-flat:\n    title: Flach, {slope}° steil\n    long: Zwei Füße auf {slope}°.\n    labels:\n      up: [bergauf, \"{slope}° hoch\"]\n      down: bergab\n")
	if len(wrong) > 0 {
		t.Fatal(wrong)
	}
	d, ok := b.Find("slope-foot-flat", "")
	if !ok || d.Title != "Flach, 10° steil" || d.Long != "Zwei Füße auf 10°." {
		t.Errorf("%v: %q, %q", ok, d.Title, d.Long)
	}
	svg := string(d.SVG(""))
	for _, want := range []string{">bergauf</text>", ">10° hoch</text>", ">bergab</text>", ">Flach, 10° steil</title>"} {
		if strings.Count(svg, want) != 1 {
			t.Errorf("%q stands not once in %s", want, svg)
		}
	}
	if strings.Contains(svg, "{") {
		t.Errorf("a brace is left in %s", svg)
	}
	if _, ok := b.Find("roll-over", ""); ok || len(b.Silent()) != len(Shapes())-1 {
		t.Errorf("a drawing without words is found, or not told of: %v", b.Silent())
	}
}

// A live drawing says the book's words, and moves as it did.
func TestLiveSays(t *testing.T) {
	d, _ := FindLive("slope")
	said := d.Saying(english, "")
	svg := string(said.SVG("p", func(string) string { return "" }, func(id string) string { return id }, []Limit{{1.0 / 12, "a ramp"}}))
	for _, want := range []string{">Two legs on one slope, facing up and facing down</title>", ">up-word</text>", ">down-bend</text>", ">a ramp</text>"} {
		if strings.Count(svg, want) != 1 {
			t.Errorf("%q stands not once in %s", want, svg)
		}
	}
	if len(said.Moves) != len(d.Moves) || len(said.Handles) != len(d.Handles) {
		t.Error("it no longer moves")
	}
}

// A label that is missing, one too many and a misspelt one, a number that the
// drawing has not and a drawing that is none: each is found at its place.
func TestWordsAreHeld(t *testing.T) {
	for _, c := range []struct{ name, src, want string }{
		{"a label missing", "drawings:\n  tilt-lower-heel: { title: A, long: B., labels: { leans: a, knee: b, set-up: c } }\n",
			`d.yaml:2:3 missing-key drawing "tilt-lower-heel" lacks the label "lower"`},
		{"a label too many", "drawings:\n  slope-foot-flat: { title: A, long: B., labels: { up: a, down: b, sideways: c } }\n",
			`d.yaml:2:68 unknown-key drawing "slope-foot-flat" has no label "sideways"`},
		{"a misspelt label is one finding", "drawings:\n  slope-foot-flat: { title: A, long: B., labels: { up: a, downn: b } }\n",
			`d.yaml:2:59 unknown-key drawing "slope-foot-flat" has no label "downn"`},
		{"a label without words", "drawings:\n  slope-foot-flat: { title: A, long: B., labels: { up: a, down: } }\n",
			`d.yaml:2:59 empty-text label "down" of drawing "slope-foot-flat" has no words`},
		{"a number it has not", "drawings:\n  slope-foot-flat: { title: A, long: B., labels: { up: a, down: \"ü {step}\" } }\n",
			`d.yaml:2:68 unknown-name drawing "slope-foot-flat" names the number "{step}", and it has none`},
		{"half a brace", "drawings:\n  slope-foot-flat: { title: \"A slope}\", long: B., labels: { up: a, down: b } }\n",
			`d.yaml:2:37 unknown-name drawing "slope-foot-flat" names the number "}", and it has none`},
		{"no such drawing", "drawings:\n  slope-foot: { title: A, long: B. }\n",
			`d.yaml:2:3 unknown-key these are words for the drawing "slope-foot", and there is none`},
		{"no name", "drawings:\n  slope-foot-flat: { long: B., labels: { up: a, down: b } }\n",
			`d.yaml:2:3 missing-key drawing "slope-foot-flat" lacks "title"`},
	} {
		if _, got := found(c.src); len(got) != 1 || got[0] != c.want {
			t.Errorf("%s: %q\nwant %q", c.name, got, c.want)
		}
	}
}

// The labels as shipped have room, and ones that are too long are told of: a layer's
// words meet no test that measures them.
func TestTight(t *testing.T) {
	for _, d := range drawings(t) {
		if tight := d.Tight(); len(tight) > 0 {
			t.Errorf("%s: %v", d.ID, tight)
		}
	}
	d, _ := english.Find("roll-over", "")
	d.labels["flat"] = []string{"the whole sole on the ground"}
	if tight := d.Tight(); !strings.HasPrefix(tight["flat"], "overlaps") && !strings.HasPrefix(tight["toe-pushes"], "overlaps") {
		t.Errorf("a label over another one: %v", tight)
	}
	d, _ = english.Find("roll-over", "")
	d.labels["heel-lands"] = []string{"the heel meets the ground"}
	if tight := d.Tight(); tight["heel-lands"] != "leaves the picture" {
		t.Errorf("a label outside: %v", tight)
	}
}
