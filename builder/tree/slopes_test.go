package tree_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/finding"
	"keelpath/builder/formula"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
	"keelpath/builder/say"
	"keelpath/builder/tree"
)

// slopes is a tree with every kind of way on; see testdata/good/slopes.yaml.
func slopes(t *testing.T) *tree.Tree {
	t.Helper()
	src, err := os.ReadFile("../../testdata/good/slopes.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var list finding.List
	tr := tree.Parse("trees/slopes.yaml", src, &list)
	if list.Len() > 0 {
		t.Fatal(list.Sorted())
	}
	return tr
}

// given reads "steepness=12 %; where=home,town".
func given(s string) tree.Answers {
	out := tree.Answers{}
	for _, part := range strings.Split(s, "; ") {
		question, chosen, _ := strings.Cut(part, "=")
		out[question] = strings.Split(chosen, ",")
	}
	return out
}

const plain = "safety=no; steepness=12 %; where=home; usual=10 mm; other=14 mm"

// Where conditions lead, which cards routes add, and what is known at the end.
func TestWalkBySlopes(t *testing.T) {
	tr := slopes(t)
	for _, c := range []struct{ given, path, cards, amounts string }{
		{"safety=yes", "safety > stop", "", ""},
		{"safety=no; steepness=30 %", "safety > steepness > steep", "high", "needed=16.7 deg steepness=30 %"},
		{plain, "safety > steepness > where > usual > other > flat", "middle house", "gap=4 mm needed=6.8 deg other=14 mm steepness=12 % usual=10 mm"},
		{"safety=no; steepness=12 %; where=town", "safety > steepness > where > flat", "middle", "needed=6.8 deg steepness=12 %"},
		{"safety=no; steepness=8.5 %; where=home", "safety > steepness > where > flat", "house", "needed=4.9 deg steepness=8.5 %"},
		{"safety=unsure; steepness=12 %; where=home; usual=skip; other=14 mm", "safety > steepness > where > usual > other > flat", "house", "needed=6.8 deg other=14 mm steepness=12 %"},
		{"safety=no; steepness=skip; where=home,hills; usual=0 mm; other=20 mm", "safety > steepness > where > usual > other > gap-ending", "house", "gap=20 mm other=20 mm usual=0 mm"},
		{"safety=unsure; steepness=skip; where=hills; usual=0 mm; other=20 mm", "safety > steepness > where > usual > other > steep", "", "gap=20 mm other=20 mm usual=0 mm"},
		{"safety=no; steepness=ramp; where=none", "safety > steepness > where > flat", "", "needed=4.8 deg steepness=8.3 %"},
		{"safety=no; steepness=skip; where=skip; usual=1 cm", "safety > steepness > where > usual > other?", "", ""},
	} {
		p, err := tr.Walk(given(c.given))
		if err != nil {
			t.Errorf("%s: %v", c.given, err)
			continue
		}
		var path, amounts []string
		for _, s := range p.Steps {
			path = append(path, s.Question)
		}
		end := p.Ending
		if p.Open != "" {
			end = p.Open + "?"
		}
		for _, id := range []string{"gap", "needed", "other", "steepness", "usual"} {
			if v, ok := p.Amounts[id]; ok {
				amounts = append(amounts, id+"="+worded(v))
			}
		}
		got := []string{strings.Join(append(path, end), " > "), strings.Join(p.Cards, " "), strings.Join(amounts, " ")}
		if d := cmp.Diff([]string{c.path, c.cards, c.amounts}, got); d != "" {
			t.Errorf("%s: wanted (-) and walked (+):\n%s", c.given, d)
		}
	}
}

// worded says an amount by its kind's own measure, to a tenth.
func worded(v quantity.Value) string {
	switch v.Kind {
	case quantity.Slope:
		return strings.Replace(fmt.Sprintf("%.1f %%", (v.Num+v.Rest)*100), ".0 ", " ", 1)
	case quantity.Angle:
		return fmt.Sprintf("%.1f deg", v.Num)
	}
	return fmt.Sprintf("%.0f mm", v.Num)
}

// Each answer that, changed alone, leads elsewhere, in full.
func TestChangesOfSlopes(t *testing.T) {
	tr := slopes(t)
	for _, c := range []struct {
		given string
		want  []string
	}{
		{plain, []string{
			"safety yes [yes] -> stop", "steepness 0.27 to 0.4  [] -> steep", // tan 15° is 26.8 %
			"usual 0 to 1  [] -> gap-ending", "usual 2 to 8  [] -> steep", "usual 20 to 26  [] -> steep", "usual 27 to 60  [] -> gap-ending", // gaps of more than 12 and 5 mm
			"other 0 to 4  [] -> steep", "other 16 to 22  [] -> steep", "other 23 to 60  [] -> gap-ending",
		}},
		{"safety=no; steepness=12 %; where=home; usual=10 mm; other=23 mm", []string{
			"safety yes [yes] -> stop", "safety unsure [unsure] -> steep", "steepness 0 to 0.085  [] -> flat", "steepness 0.27 to 0.4  [] -> steep", "steepness skip [skip] -> flat",
			"where none [none] -> flat",
			"usual 11 to 17  [] -> steep", "usual 18 to 28  [] -> flat", "usual 29 to 35  [] -> steep", "usual skip [skip] -> flat",
			"other 0 to 4  [] -> steep", "other 5 to 15  [] -> flat", "other 16 to 22  [] -> steep", "other skip [skip] -> flat",
		}},
		{"safety=no; steepness=12 %; where=town", []string{"safety yes [yes] -> stop", "steepness 0.27 to 0.4  [] -> steep", "where hills [hills,town] -> usual?", "where home [home,town] -> usual?", "where skip [skip] -> usual?"}},
		{"safety=no; steepness=8 %; where=town,home", []string{"safety yes [yes] -> stop", "steepness 0.09 to 0.265  [] -> usual?", "steepness 0.27 to 0.4  [] -> steep", "where hills [hills,home,town] -> usual?", "where skip [skip] -> usual?"}},
		{"safety=no; steepness=12 %", nil},
	} {
		var got []string
		for _, ch := range tr.Changes(given(c.given)) {
			text := ch.Question
			if ch.Range != nil {
				text += fmt.Sprintf(" %.4g to %.4g", ch.Range.From, ch.Range.To)
			}
			if ch.Open != "" {
				ch.Open += "?"
			}
			got = append(got, text+" "+ch.Answer+" ["+strings.Join(ch.Chosen, ",")+"] -> "+ch.Ending+ch.Open)
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s: wanted (-) and given (+):\n%s", c.given, d)
		}
	}
}

// What a tree says of answers and amounts.
func TestSays(t *testing.T) {
	tr := slopes(t)
	for _, c := range []struct {
		question, chosen string
		want             string
	}{
		{"safety", "yes", "Yes"}, {"where", "town,home", "At home | In town"}, {"where", "skip", "Skipped"}, {"safety", "skip", ""},
		{"steepness", "ramp", "Like a ramp"}, {"steepness", "12 %", "12 % (about 6.8 degrees, 1:8.3)"}, {"usual", "1 cm", "1 cm (3/8 in)"}, {"usual", "a lot", ""},
	} {
		if got := strings.Join(tr.Question(c.question).Says(say.English(), strings.Split(c.chosen, ",")), " | "); got != c.want {
			t.Errorf("%s=%s is said as %q, want %q", c.question, c.chosen, got, c.want)
		}
	}
	ten := quantity.Value{Kind: quantity.Length, Num: 10, Unit: "mm"}
	for id, want := range map[string]string{"usual": "10 mm (3/8 in)", "gap": "10 mm (3/8 in)"} {
		if got := tr.ShowAmount(id, ten); got != want {
			t.Errorf("%s shows 10 mm as %q, want %q", id, got, want)
		}
	}
	for id, want := range map[string]string{
		"steepness": "a slope to measure with your prosthetist", "usual": "a length to measure with your prosthetist",
		"needed": "an angle to work out with your prosthetist", "gap": "a length to work out with your prosthetist",
		"apart": "a number to work out with your prosthetist", "none": "a number to work out with your prosthetist",
	} {
		if got := tr.WithoutAmount(say.English(), id); got != want {
			t.Errorf("without %s it says %q, want %q", id, got, want)
		}
	}
	if got := tree.FillGaps("{a} and {b}, {a}, {No}, {c", func(id string) string { return strings.ToUpper(id) }); got != "A and B, A, {No}, {c" {
		t.Errorf("filled: %q", got)
	}
}

// What a formula rests on: each value and each question once.
func TestRestsOn(t *testing.T) {
	tr := slopes(t)
	for _, w := range tr.Values {
		values, questions := tr.RestsOn(w.Is.Expr)
		got := strings.Join(values, " ") + " / " + strings.Join(questions, " ")
		want := map[string]string{"needed": " / steepness", "gap": " / other usual", "apart": "gap / other usual safety"}[w.ID.S]
		if got != want {
			t.Errorf("%s rests on %q, want %q", w.ID.S, got, want)
		}
	}
}

// However often a formula names one, it stands once.
func TestRestsOnOnce(t *testing.T) {
	e, err := formula.Parse("gap + other + gap > usual - other")
	if err != nil {
		t.Fatal(err.Text)
	}
	values, questions := slopes(t).RestsOn(e)
	if d := cmp.Diff([][]string{{"gap"}, {"other", "usual"}}, [][]string{values, questions}); d != "" {
		t.Errorf("wanted (-) and given (+):\n%s", d)
	}
}

func TestGaps(t *testing.T) {
	for text, want := range map[string]string{"{a} and {b-c}, {a}": "a b-c a", "{a} {b": "a", "{No} {a}": "a", "{{a}}": "a", "} {a": "", "": ""} {
		if got := strings.Join(tree.Gaps(text), " "); got != want {
			t.Errorf("the gaps of %q are %q, want %q", text, got, want)
		}
	}
}

// An answer that tells a sign leads to the ending that the build makes of it.
func TestSignLeadsOn(t *testing.T) {
	src, err := os.ReadFile("../../testdata/good/slopes.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var list finding.List
	tr := tree.Parse("trees/slopes.yaml", []byte(strings.Replace(string(src), `{ text: "Yes", go: stop }`, `{ text: "Yes", sign: chest }`, 1)), &list)
	if list.Len() > 0 {
		t.Fatal(list.Sorted())
	}
	a := tr.Question("safety").Answer("yes")
	if a.Go.S != "safety-chest" || a.Go.At != a.Sign.At || a.Go.At.Line == 0 {
		t.Errorf("it leads to %+v", a.Go)
	}
	if e := tr.Ending("safety-chest"); e == nil || !e.Safety || e.Sign.S != "chest" {
		t.Errorf("the ending made of it: %+v", e)
	}
}

// The ways on of a question are those of its answers, its routes, itself and its skip.
func TestWaysOn(t *testing.T) {
	var all []string
	for _, q := range slopes(t).Questions {
		all = append(all, q.ID.S+": "+strings.Join(read.Strings(q.WaysOn()), " "))
	}
	if diff := cmp.Diff([]string{
		"safety: stop steepness steepness",
		"steepness: steep where where where",
		"where: usual flat usual flat usual",
		"usual: other other",
		"other: gap-ending steep flat flat",
	}, all); diff != "" {
		t.Error(diff)
	}
}

// What is wrong with an answer's mark costs no way on.
func TestNotLoose(t *testing.T) {
	src, err := os.ReadFile("../../testdata/good/slopes.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var list finding.List
	tr := tree.Parse("trees/slopes.yaml", []byte(strings.Replace(string(src), `{ text: "Yes", go: stop }`, `{ text: "Yes", go: stop, alone: true }`, 1)), &list)
	if fs := list.Sorted(); len(fs) != 1 || fs[0].Check != "needless-key" || tr.Loose {
		t.Errorf("loose %v: %v", tr.Loose, fs)
	}
}

// What formulas make of an id that they cannot use says nothing of the tree's shape.
func TestLooseByItsNames(t *testing.T) {
	src, err := os.ReadFile("../../testdata/good/slopes.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for id, loose := range map[string]bool{"mm": true, "where-now": false} {
		var list finding.List
		more := "questions:\n  " + id + ": { text: \"So?\", why: To know., answers: { unsure: { text: Not sure, go: stop } } }\n"
		tr := tree.Parse("trees/slopes.yaml", []byte(strings.Replace(string(src), "questions:\n", more, 1)), &list)
		if tr.Loose != loose {
			t.Errorf("%s: %v, %v", id, tr.Loose, list.Sorted())
		}
	}
}

func TestCardsOfTree(t *testing.T) {
	if got := strings.Join(slopes(t).Cards(), " "); got != "high middle house" {
		t.Errorf("cards: %q", got)
	}
	if got := read.Strings(nil); len(got) != 0 {
		t.Errorf("%q", got)
	}
}
