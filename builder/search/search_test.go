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
		forms := Forms("en", word)
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
	x.Add(Page{Name: "learn/a.html", Title: "Feet", Units: []Unit{{At: "one", Heading: "The ankle", Paragraphs: []string{"An ankle bends."}}, {At: "two", Heading: "Toes"}}})
	x.Add(Page{Name: "prepare/b.html", Title: "Ankles", Topic: "b", Units: []Unit{{Heading: "Ankles"}}})
	files := x.Files()
	if len(files) != 2 || files[0].Name != FirstFile || files[1].Name != "places-1.js" {
		t.Fatalf("files %v", files)
	}
	first := string(files[0].Data)
	for _, part := range []string{Call + `("first","",{`, `"pages":["learn/a","prepare/b"]`, `"counts":[2,1]`, `"topics":[{"unit":2,"id":"b"}]`, `"units":3`, `"skip":"the"`, `|bends|`} {
		if !strings.Contains(first, part) {
			t.Errorf("%s lacks %s", first, part)
		}
	}
	places := string(files[1].Data)
	for _, part := range []string{Call + `("part","places-1.js",[`, `"12.`} { // an ankle at the first place, and two further on
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
