package library

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/explainer"
	"keelpath/builder/figure"
	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

func TestSealAloneShort(t *testing.T) {
	sixty := strings.Repeat("é", 60)
	for _, c := range []struct{ text, want string }{
		{"", ""},
		{" two\n\twords ", "two words"},
		{sixty, sixty},
		{sixty + "x", sixty + "…"},
		{strings.Repeat("x", 59) + " yz", strings.Repeat("x", 59) + "…"},
	} {
		if got := short(c.text); got != c.want {
			t.Errorf("short(%q) is %q, want %q", c.text, got, c.want)
		}
	}
}

func TestSealAloneApart(t *testing.T) {
	forty := strings.Repeat("x", 39) + " "
	for _, c := range []struct{ a, b, wantA, wantB string }{
		{"", "", "", ""},
		{"a  b", "a\nc", "a b", "a c"},
		{forty + "ab", forty + "ac", "…ab", "…ac"},
		{forty[1:] + "ab", forty[1:] + "ac", forty[1:] + "ab", forty[1:] + "ac"},
		{forty + "and so on", forty + "and", "…and so on", "…and"},
		{"a" + forty + "end", "b" + forty + "end", "a" + forty + "end", "b" + forty + "end"},
		{strings.Repeat("x", 50) + "a", strings.Repeat("x", 50) + "b", strings.Repeat("x", 50) + "a", strings.Repeat("x", 50) + "b"},
	} {
		if a, b := apart(c.a, c.b); a != c.wantA || b != c.wantB {
			t.Errorf("apart(%q, %q) is %q, %q, want %q, %q", c.a, c.b, a, b, c.wantA, c.wantB)
		}
	}
}

func TestSealAloneFits(t *testing.T) {
	for _, c := range []struct {
		how      match
		old, now string
		want     bool
	}{
		{same, "a", "a", true},
		{same, "a", "a ", false},
		{same, "", "a", false},
		{begins, "a, b", "a, b", true},
		{begins, "a, b", "a, b, c", true},
		{begins, "a, b", "a, bc", false},
		{begins, "a, b", "c, a, b", false},
		{begins, "a", "", false},
		{begins, "", "c", true},
		{holds, "It picks none.", "So:\nIt picks\n none. Yes.", true},
		{holds, "It picks none.", "It picks one.", false},
		{order, "a, b, c", "c, a, b", false},
		{order, "a, b", "x, a, y, b, z", true},
		{order, "a, b, c", "a, c", true},
		{order, "a, b, c", "x, c, a", false},
	} {
		if got := c.how.fits(c.old, c.now); got != c.want {
			t.Errorf("%d: %q and %q fit: %t", c.how, c.old, c.now, got)
		}
	}
}

func TestSealAloneStances(t *testing.T) {
	got := stances("We show feet. It does not pick a foot!  Nothing here\nnever picks? So the clinic also sets the level, at last")
	want := []string{"It does not pick a foot!", "Nothing here never picks?", "So the clinic also sets the level, at last"}
	if !slices.Equal(got, want) {
		t.Errorf("stances are %q", got)
	}
}

func TestSealAloneDifference(t *testing.T) {
	long := strings.Repeat("word ", 20)
	for _, c := range []struct {
		old, now string
		how      match
		want     string
	}{
		{"", long, same, `it is "word word word word word word word word word word word word…", and in the built-in content, for safety, there is none`},
		{"", "a", holds, `it is "a", and in the built-in content, for safety, there is none`},
		{long, "", same, `it is missing, and the built-in one, for safety, is "word word word word word word word word word word word word…"`},
		{"a", "", holds, `it is missing, and the built-in one, for safety, is "a"`},
		{long, "a", holds, `it no longer says "word word word word word word word word word word word word…"`},
		{"a", "b", same, `it is "b", and the built-in one, for safety, is "a"`},
		{"a", "b", begins, `it is "b", and the built-in one, for safety, is "a"`},
		{long + "a", long + "b", same, `it is "…b", and the built-in one, for safety, is "…a"`},
	} {
		if got := difference(sealed{what: "it", text: c.old, how: c.how}, sealed{text: c.now}); got != c.want {
			t.Errorf("it says %s\nwant    %s", got, c.want)
		}
	}
}

// ledgerOf makes a ledger of texts by keys, each on a line of its own.
func ledgerOf(file string, keyed ...[2]string) *ledger {
	b := &ledger{byKey: map[string]sealed{}, loose: map[string]bool{}}
	for i, k := range keyed {
		b.add(sealed{key: k[0], what: "the " + k[0], text: k[1], at: finding.Place{File: file, Line: i + 1}})
	}
	return b
}

func TestSealAloneHold(t *testing.T) {
	ground := [][2]string{{"tree a", ""}, {"tree a/question q", ""}, {"tree a/question q/text", "Why?"}, {"tree a/question q/go", "end"}, {"tree a/question qu", ""}, {"tree a/ending e/text", "One."}, {"tree a/ending e/text", "Two."}, {"word w", ""}}
	without := func(gone ...string) [][2]string {
		return slices.DeleteFunc(slices.Clone(ground), func(k [2]string) bool { return slices.Contains(gone, k[0]) })
	}
	text := func(s string) [][2]string {
		out := without("tree a/ending e/text")
		out[2][1] = s
		return append(out, [2]string{"tree a/ending e/text", "One."})
	}
	for _, c := range []struct {
		name string
		now  [][2]string
		want []string
	}{
		{"more", append(text("Why?"), [2]string{"word x", ""}), []string{`now:7 the tree a/ending e/text is "One.", and the built-in one, for safety, is "Two." (the built-in one is at old:7)`}},
		{"another text", text("Who?"), []string{`now:3 the tree a/question q/text is "Who?", and the built-in one, for safety, is "Why?" (the built-in one is at old:3)`,
			`now:7 the tree a/ending e/text is "One.", and the built-in one, for safety, is "Two." (the built-in one is at old:7)`}},
		{"a question gone", without("tree a/question q", "tree a/question q/text", "tree a/question q/go", "tree a/ending e/text"), []string{
			`now:1 the edition lacks the the tree a/question q, which the built-in content has for safety (copy it from old:2)`,
			`now:1 the edition lacks the the tree a/ending e/text, which the built-in content has for safety (copy it from old:6)`}},
		{"parts gone", without("tree a/question q/text", "tree a/question q/go", "tree a/question qu", "tree a/ending e/text", "word w"), []string{
			`now:2 the edition lacks the the tree a/question q/text and 1 more of its parts, which the built-in content has for safety (copy it from old:3)`,
			`now:1 the edition lacks the the tree a/question qu, which the built-in content has for safety (copy it from old:5)`,
			`now:1 the edition lacks the the tree a/ending e/text, which the built-in content has for safety (copy it from old:6)`,
			` the edition lacks the the word w, which the built-in content has for safety (copy it from old:8)`}},
		{"all gone", nil, []string{
			` the edition lacks the the tree a and 1 more of its parts, which the built-in content has for safety (copy it from old:1)`}},
	} {
		var got []string
		Soon(t, func() {
			ledgerOf("old", ground...).hold(ledgerOf("now", c.now...), func(at finding.Place, text string, help ...string) {
				got = append(got, fmt.Sprintf("%s %s (%s)", at, text, strings.Join(help, ", ")))
			})
		})
		if !slices.Equal(got, c.want) {
			t.Errorf("%s:\n%s\nwant:\n%s", c.name, strings.Join(got, "\n"), strings.Join(c.want, "\n"))
		}
	}
}

// A way that leads to what is gone, or in a tree that was not read whole, is not known.
func TestSealAloneUnknownWay(t *testing.T) {
	b := ledgerOf("now", [2]string{"tree a/ending e", ""}, [2]string{"tree a/question q", ""})
	b.loose["tree b"] = true
	for _, c := range []struct {
		key, to string
		want    bool
	}{
		{"tree a/question r/go", "e", false},
		{"tree a/question r/go", "q", false},
		{"tree a/question r/go", "gone", true},
		{"tree a/question r/routes", "far > 9*m -> e; -> q", false},
		{"tree b/question r/go", "e", true},
		{"tree b/question r/routes", "-> q", true},
	} {
		if got := b.unknownWay(sealed{key: c.key, text: c.to}); got != c.want {
			t.Errorf("the way from %s to %q is unknown: %t", c.key, c.to, got)
		}
	}
	old := ledgerOf("old", [2]string{"tree a/question r/go", "gone"})
	for _, way := range []bool{false, true} {
		old.all[0].way = way
		said := false
		old.hold(ledgerOf("now", [2]string{"tree a/question r/go", "e"}), func(finding.Place, string, ...string) { said = true })
		if said == way {
			t.Errorf("another text where it is a way, %t, is reported: %t", way, said)
		}
	}
}

// What an edition lacks as a whole is reported where its parts are counted, and is not
// held part by part.
func TestSealAloneGone(t *testing.T) {
	var list finding.List
	l := newLoader(&list)
	page := explainer.Parse("heels.md", []byte("---\ntitle: Heels\naudience: patient\nmessage: Heels.\n---\n\n> **Caution.** Hold on.\n"), l.Edition.Lines, &finding.List{})
	known := tree.Parse("knee.yaml", []byte("tree: knee\nstart: hurt\nquestions:\n  hurt:\n    answers:\n      much: { text: Much, go: stop }\nendings:\n  stop: { title: Stop, safety: true }\n"), &finding.List{})
	if page == nil || known == nil {
		t.Fatal("no page, or no tree")
	}
	l.unchanged(seal{ledger: ledgerOf("old"), trees: []*tree.Tree{known}, pages: []*explainer.Page{page}, figures: []*figure.Figure{{ID: "tilt"}}})
	if fs := list.Sorted(); len(fs) > 0 {
		t.Errorf("found: %v", fs)
	}
}

// A visit goes to each place once, on from where it is let, and comes to an end in a circle.
func TestSealAloneVisit(t *testing.T) {
	circle := &tree.Tree{Questions: []*tree.Question{asked("a", "b", "b", "c", "d"), asked("b", "a", "x"), asked("c", "y"), asked("d", "a", "z")}}
	for _, c := range []struct{ from, stop, want string }{
		{"a", "", "a b c d x y z"},
		{"a", "b", "a b c d y z"},
		{"c", "", "c y"},
		{"nowhere", "", "nowhere"},
	} {
		var got []string
		visit(circle, c.from, func(at string) bool {
			if got = append(got, at); len(got) > 20 {
				t.Fatalf("from %s it goes on and on: %v", c.from, got)
			}
			return at != c.stop
		})
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("from %s, not past %q, it goes to %s, want %s", c.from, c.stop, s, c.want)
		}
	}
}

// asked makes a question of an id and of where its answers lead.
func asked(id string, to ...string) *tree.Question {
	q := &tree.Question{ID: read.Text{S: id}}
	for _, to := range to {
		q.Answers = append(q.Answers, &tree.Answer{Go: read.Text{S: to, At: finding.Place{Line: 1}}})
	}
	return q
}

func TestSealAloneReaches(t *testing.T) {
	known := &tree.Tree{
		Questions: []*tree.Question{asked("a", "b", "b", "c"), asked("b", "hurt"), asked("c", "hurt", "d"), asked("d", "rest", "talk"), asked("hurt", "stop", "talk"), asked("e", "b", "stop")},
		Endings:   []*tree.Ending{{ID: read.Text{S: "stop"}, Safety: true}, {ID: read.Text{S: "talk"}}, {ID: read.Text{S: "rest"}}},
	}
	for _, c := range []struct {
		from    string
		reaches bool
		without string
	}{
		{"a", true, "rest"}, {"b", true, ""}, {"c", true, "rest"}, {"d", false, "rest"}, {"e", true, ""}, {"hurt", true, ""},
		{"stop", false, ""}, {"talk", false, "talk"}, {"nowhere", false, ""},
	} {
		if got := reaches(known, c.from, "hurt"); got != c.reaches {
			t.Errorf("%s reaches the question: %t", c.from, got)
		}
		without := ""
		if e := endingWithout(known, c.from, "hurt"); e != nil {
			without = e.ID.S
		}
		if without != c.without {
			t.Errorf("from %s it leads past the question to %q, want %q", c.from, without, c.without)
		}
	}
}
