package search

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestSplit(t *testing.T) {
	for in, want := range map[string][]string{
		"My leg’s foot clicks!":   {"my", "leg", "foot", "clicks"},
		"can't, won't; K2-level.": {"cant", "wont", "k2", "level"},
		"'quoted' 1:12":           {"quoted", "1", "12"},
		"":                        nil,
	} {
		if d := cmp.Diff(want, Split(in)); d != "" {
			t.Errorf("%q:\n%s", in, d)
		}
	}
}

// The sample of the algorithm's own page, https://snowballstem.org/algorithms/english/stemmer.html, of which these are words
// that stand on this site or might (from memory; the whole list is not in the module).
func TestStems(t *testing.T) {
	for word, want := range map[string]string{
		"consign": "consign", "consigned": "consign", "consigning": "consign", "consignment": "consign", "consist": "consist", "consistency": "consist",
		"consolation": "consol", "console": "consol", "consolingly": "consol", "knack": "knack", "knees": "knee", "kneeling": "kneel", "knitting": "knit",
		"knotted": "knot", "happy": "happi", "skies": "sky", "dying": "die", "news": "news", "generate": "generat", "gas": "gas", "kiwis": "kiwi", "hopping": "hop", "hoping": "hope",
	} {
		if got := Stem("en", word); got != want {
			t.Errorf("%q has the stem %q, want %q", word, got, want)
		}
	}
	if got := Stem("xx", "walking"); got != "walking" {
		t.Errorf("in a language without a stemmer %q is %q", "walking", got)
	}
}

// A form has the stem of its word, and those that people write are among them.
func TestForms(t *testing.T) {
	for word, want := range map[string][]string{
		"walk": {"walks", "walked", "walking"}, "trip": {"trips", "tripped", "tripping"}, "hurt": {"hurts", "hurting"},
		"dizzy": {"dizzy"}, "smoke": {"smokes", "smoked", "smoking"}, "bolt": {"bolts"},
	} {
		forms := stemsOf("en").forms(word)
		for _, w := range want {
			if !slices.Contains(forms, w) {
				t.Errorf("%q lacks the form %q: %v", word, w, forms)
			}
		}
		for _, f := range forms {
			if Stem("en", f) != Stem("en", word) {
				t.Errorf("%q is said to be a form of %q", f, word)
			}
		}
	}
}

func TestWording(t *testing.T) {
	if d := cmp.Diff([][]string{{"chest", "heart"}, {"hurt"}}, Wording("chest/heart Hurt")); d != "" {
		t.Error(d)
	}
}

func TestFrontCoded(t *testing.T) {
	for _, c := range []struct {
		words []string
		want  string
	}{
		{[]string{"walk", "walked", "walking"}, "walk 4ed 4ing"},
		{[]string{"foot"}, "foot"},
		{[]string{"niño", "niña"}, "niño 3a"},
		{nil, ""},
	} {
		if got := frontCoded(c.words); got != c.want {
			t.Errorf("%q is written %q, want %q", c.words, got, c.want)
		}
	}
}

// Where a word stands is written with the ways between the places and a weight each, and the file that is loaded
// first says which file has it.
func TestFiles(t *testing.T) {
	x := New(Words{Lang: "en", Skip: []string{"the"}, Means: []Means{{Says: []string{"fake leg"}, Means: []string{"prosthesis"}}}})
	x.Add(Page{Name: "learn/a.html", Title: "Feet", Units: []Unit{{At: "one", Heading: "The ankle", Lines: []Line{{Text: "An ankle bends."}}}, {At: "two", Heading: "Toes"}}})
	x.Add(Page{Name: "prepare/b.html", Title: "Ankles", Topic: "b", Units: []Unit{{Heading: "Ankles"}}})
	files := x.Files()
	if len(files) != 2 || files[0].Name != FirstFile || files[1].Name != "places-1.js" {
		t.Fatalf("files %v", files)
	}
	first := string(files[0].Data)
	for _, part := range []string{Call + `("first","",{`, `"pages":["learn/a","prepare/b"]`, `"counts":[2,1]`, `"topics":[{"unit":2,"id":"b"}]`, `"lines":[1,0,0]`, `"counted":"KKK"`, `"skip":"the"`, `|bends|`} {
		if !strings.Contains(first, part) {
			t.Errorf("%s lacks %s", first, part)
		}
	}
	places := string(files[1].Data)
	for _, part := range []string{Call + `("part","places-1.js",[`, `"212.89,1.5"`} { // an ankle: how rare, in the headings of the first place and of the one two further on, and in the first line
		if !strings.Contains(places, part) {
			t.Errorf("%s lacks %s", places, part)
		}
	}
}

func TestSignsOf(t *testing.T) {
	s := SignsOf("en", []Sign{{"chest", []string{"chest hurt/pain", "heart attack"}}})
	if len(s.Signs) != 1 || s.Signs[0].ID != "chest" || len(s.Signs[0].Says) != 2 || len(s.Signs[0].Says[0]) != 2 || len(s.Signs[0].Says[0][1]) != 2 {
		t.Fatalf("signs %+v", s.Signs)
	}
	groups := strings.Split(s.Words, "|")
	if at := s.Signs[0].Says[0][1][0]; !strings.HasPrefix(groups[at], "hurt") || !strings.Contains(groups[at], "ing") {
		t.Errorf("the second word is one of %q", groups[at])
	}
}

// A question leads to the place that answers it, and so does each other way of asking for it; those with an answer come first.
func TestLeads(t *testing.T) {
	x := New(Words{Lang: "en"})
	x.Add(Page{Name: "a.html", Title: "Feet", Units: []Unit{
		{At: "one", Heading: "Stairs", Also: []string{"steps", "staircase"}},
		{At: "two", Heading: "Hills", Also: []string{"slopes"}, Asked: []Asked{{Question: "How steep?", Answer: "Not very."}}},
	}})
	first := string(x.Files()[0].Data)
	if want := `"leads":[[2,0],[3,0],[4,1],[5,1]]`; !strings.Contains(first, want) || !strings.Contains(first, `"lines":[0,0,0,0,1,0]`) {
		t.Errorf("%s lacks %s", first, want)
	}
}

// What is set apart at the beginning of a line weighs more, and what stands beside it less.
func TestLines(t *testing.T) {
	x := New(Words{Lang: "en"})
	x.Add(Page{Name: "a.html", Title: "T", Units: []Unit{{Heading: "H", Lines: []Line{{Text: "Squeak of a part", Lead: "Squeak"}, {Text: "A squeak of it"}, {Text: "Squeak below a picture", Beside: true}}}}})
	in := x.terms[Stem("en", "squeak")].lines
	if d := cmp.Diff([]posting{{0, inText + inLead}, {1, inText}, {2, inBeside}}, in, cmp.AllowUnexported(posting{})); d != "" {
		t.Error(d)
	}
}

// Of a stem that stands nearly everywhere, the lines are looked up in which it weighs most, so that a search ends in time.
func TestStrongest(t *testing.T) {
	var in []posting
	for i := range mostListed + 3 {
		in = append(in, posting{i, 1})
	}
	in[1].weight, in[2].weight, in[mostListed].weight = 0.5, 0.5, 0.5
	got := strongest(in, func(p posting) float64 { return p.weight })
	if len(got) != mostListed || slices.ContainsFunc(got, func(p posting) bool { return p.weight < 1 }) || !slices.IsSortedFunc(got, func(a, b posting) int { return a.at - b.at }) {
		t.Errorf("%d lines are kept, of %d", len(got), len(in))
	}
	if few := in[:5]; len(strongest(few, nil)) != 5 {
		t.Error("of a few lines some are left out")
	}
}
