package conflict

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/library"
	"keelpath/builder/read"
	"keelpath/builder/say"
)

// worded has three wishes on rows of three and two steps, and two add-ons; the
// second takes nothing away.
func worded() *Matter {
	wish := func(id, name, want, less string) *library.Wish {
		w := &library.Wish{}
		w.ID.S, w.Name.S, w.Want.S, w.Less.S = id, name, want, less
		return w
	}
	row := func(steps ...string) *library.Row {
		r := &library.Row{}
		for _, s := range steps {
			r.Steps = append(r.Steps, read.Text{S: s})
		}
		return r
	}
	addon := func(within string) *library.FootType {
		f := &library.FootType{}
		f.Within.S = within
		return f
	}
	m := &Matter{
		Words: say.English(),
		Wishes: []*library.Wish{
			wish("push", "push", "to keep my push", "How much push do I give up"),
			wish("low-cost", "low cost", "to pay little", "How much more do I pay"),
			wish("quiet", "quiet steps", "to walk quietly", "How loud is it"),
		},
		Rows:   []*library.Row{row("none", "some", "a lot"), row("low", "high")},
		Addons: []*library.FootType{addon("an ankle unit"), addon("a soft cover")},
	}
	m.Table = Table{
		Wishes: []Wish{{Row: 0, Step: 1}, {Row: 1, Step: 0, Down: true}, {Row: 0, Step: 2}},
		Feet:   [][]Mark{{{Step: 2}, {Step: 1}}, {{Step: 0}, {Step: 0}}},
		Addons: [][]Mark{{{Step: -1}, {Step: 1}}, {{Step: 1}, {Step: -1}}},
	}
	return m
}

// What is said of each kind of conflict, word for word.
func TestStatements(t *testing.T) {
	m := worded()
	for _, c := range []struct {
		name  string
		of    Conflict
		title string
		want  []string
	}{
		{"one wish that none meets", Conflict{Wishes: Of(0), Kind: Holds}, "Push", []string{
			"No kind of foot in the table meets this wish."}},
		{"one that none meets as marked", Conflict{Wishes: Of(0), Kind: AsMarked}, "Push", []string{
			"As the ratings stand, no kind of foot meets this wish.", "But some of the ratings are not settled.", "A small change in them could take this away."}},
		{"a remark on one", Conflict{Wishes: Of(2), Kind: May}, "Quiet steps", []string{
			"No kind of foot is sure to meet this wish.", "The ratings that reach it are not settled."}},
		{"two that pull", Conflict{Wishes: Of(0, 1), Kind: Holds}, "Push and low cost", []string{
			"No kind of foot in the table meets both of these wishes.", "Each one alone is met."}},
		{"two as marked", Conflict{Wishes: Of(0, 1), Kind: AsMarked}, "Push and low cost", []string{
			"As the ratings stand, no kind of foot meets both of these wishes.", "Each one alone is met.",
			"But some of the ratings are not settled.", "A small change in them could take this away."}},
		{"two that may pull", Conflict{Wishes: Of(1, 2), Kind: May}, "Low cost and quiet steps", []string{
			"They may pull against each other.", "A kind of foot meets both of these wishes only by ratings that are not settled."}},
		{"three that pull", Conflict{Wishes: Of(0, 1, 2), Kind: Holds}, "Push, low cost and quiet steps", []string{
			"No kind of foot in the table meets all of these wishes.", "Leave out any one, and at least one kind of foot meets the rest."}},
		{"three that may pull", Conflict{Wishes: Of(0, 1, 2), Kind: May}, "Push, low cost and quiet steps", []string{
			"They may pull against each other.", "A kind of foot meets all of these wishes only by ratings that are not settled."}},
		{"two that pull by trade practice", Conflict{Wishes: Of(0, 1), Kind: Holds, Practice: []Spot{{0, 1}}}, "Push and low cost", []string{
			"No kind of foot in the table meets both of these wishes.", "Each one alone is met.", "This rests on 1 rating of trade practice, and we know of no study of it."}},
		{"two that may pull, with trade practice", Conflict{Wishes: Of(1, 2), Kind: May, Practice: []Spot{{0, 1}, {1, 1}}}, "Low cost and quiet steps", []string{
			"They may pull against each other.", "A kind of foot meets both of these wishes only by ratings that are not settled.",
			"This rests on 2 ratings of trade practice, and we know of no study of them."}},
	} {
		if d := cmp.Diff(c.want, m.Statement(c.of)); d != "" {
			t.Errorf("%s: wanted (-) and said (+):\n%s", c.name, d)
		}
		if got := m.Title(c.of); got != c.title {
			t.Errorf("%s: its title is %q, want %q", c.name, got, c.title)
		}
	}
}

// The questions of each kind of conflict, word for word, and whom they are for.
func TestQuestionsInWords(t *testing.T) {
	m := worded()
	fixes := []Fix{{Addon: 0}, {Addon: 1, Perhaps: true}}
	both, team := []string{"myself", "prosthetist"}, []string{"prosthetist"}
	for _, c := range []struct {
		name string
		of   Conflict
		want []Question
	}{
		{"a remark on one", Conflict{Wishes: Of(2), Kind: May}, []Question{{"How sure is it that a foot can give me quiet steps?", team}}},
		{"one wish", Conflict{Wishes: Of(0)}, []Question{{"How close can a foot come to push?", team}}},
		{"two that pull, and what takes it away", Conflict{Wishes: Of(0, 1), Fixes: fixes}, []Question{
			{"I want to keep my push and to pay little. Which would I give up, and how much?", both},
			{"How much push do I give up if low cost comes first?", team},
			{"How much more do I pay if push comes first?", team},
			{"What would an ankle unit give me, and what would it take away?", team},
			{"What would a soft cover give me, and what would it take away?", team},
		}},
		{"two as marked", Conflict{Wishes: Of(0, 2), Kind: AsMarked}, []Question{
			{"I want to keep my push and to walk quietly. Which would I give up, and how much?", both},
			{"How much push do I give up if quiet steps comes first?", team},
			{"How loud is it if push comes first?", team},
			{"Could one foot still give me push and quiet steps?", team},
		}},
		{"three that may pull", Conflict{Wishes: Of(0, 1, 2), Kind: May}, []Question{
			{"Which would I give up first: push, low cost or quiet steps?", both},
			{"How close can one foot come to push, low cost and quiet steps?", team},
			{"How sure is it that one foot gives me push, low cost and quiet steps?", team},
		}},
	} {
		if d := cmp.Diff(c.want, m.Questions(c.of)); d != "" {
			t.Errorf("%s: wanted (-) and asked (+):\n%s", c.name, d)
		}
	}
}

func TestAddonsInWords(t *testing.T) {
	m := worded()
	for _, c := range []struct {
		of      Fix
		want    []string
		against string
	}{
		{Fix{Addon: 0}, []string{"With an ankle unit added, at least one kind of foot meets these wishes."}, "It takes a little away from push, low cost and quiet steps."},
		{Fix{Addon: 1, Perhaps: true}, []string{"With a soft cover added, at least one kind of foot meets these wishes.", "That rests on ratings that are not settled."}, ""},
		{Fix{Addon: 1, Practice: true}, []string{"With a soft cover added, at least one kind of foot meets these wishes.", "It takes ratings of trade practice to say so."}, ""},
	} {
		if d := cmp.Diff(c.want, m.FixStatement(c.of)); d != "" {
			t.Errorf("add-on %d: wanted (-) and said (+):\n%s", c.of.Addon, d)
		}
		if got := m.Against(c.of.Addon); got != c.against {
			t.Errorf("add-on %d: %q, want %q", c.of.Addon, got, c.against)
		}
	}
}

// The steps that meet a wish, and only those, in the words of its row.
func TestStepsInWords(t *testing.T) {
	m := worded()
	for wish, want := range []string{"“some” or “a lot”", "“low”", "“a lot”"} {
		if got := m.Steps(wish); got != want {
			t.Errorf("wish %d is met by %s, want %s", wish, got, want)
		}
	}
	if got := m.ID(Conflict{Wishes: Of(0, 1)}); got != "pull-push-low-cost" {
		t.Errorf("the ID is %q", got)
	}
}

// What a page says first, word for word, by what there is among the marked wishes.
func TestSummaryInWords(t *testing.T) {
	m := worded()
	m.All = []Conflict{
		{Wishes: Of(0, 1), Kind: Holds}, {Wishes: Of(1, 2), Kind: Holds}, {Wishes: Of(2), Kind: May},
	}
	m.Summary = m.summary()
	for _, c := range []struct {
		marked Set
		want   string
	}{
		{0, "Nothing is checked yet."},
		{Of(0), "One wish is checked. Check one more, and you see whether the two pull against each other."},
		{Of(2), "One wish is checked. Check one more, and you see whether the two pull against each other."},
		{Of(0, 2), "As the ratings stand, nothing that you checked pulls against the rest. But some of the ratings are not settled."},
		{Of(0, 1), "There is 1 conflict in what you checked."},
		{Of(0, 1, 2), "There are 2 conflicts in what you checked."},
	} {
		if got := m.Said(c.marked); got != c.want {
			t.Errorf("of %v it is said %q, want %q", c.marked.List(), got, c.want)
		}
	}
	if len(m.Summary.Found) != 2 || m.Summary.Full != "You can check five. Uncheck one to check another." {
		t.Errorf("%q, %q", m.Summary.Found, m.Summary.Full)
	}
	m.All = m.All[:2]
	if got, want := m.Said(Of(0, 2)), "Nothing that you checked pulls against the rest. At least one kind of foot meets it all."; got != want {
		t.Errorf("of two that are met it is said %q", got)
	}
	m.Leans = []Set{Of(0, 2)}
	if got, want := m.Said(Of(0, 2)), "Nothing that you checked pulls against the rest. But it takes ratings of trade practice to say that a kind of foot meets it all."; got != want {
		t.Errorf("of two that trade practice alone says are met it is said %q", got)
	}
}

// What is said holds all of it, in the order of the page, and nothing empty.
func TestSentencesInOrder(t *testing.T) {
	m := worded()
	m.All = []Conflict{{Wishes: Of(0, 1), Kind: Holds, Fixes: []Fix{{Addon: 1}}}}
	m.Summary = m.summary()
	want := []string{
		"There is 1 conflict in what you checked.", "Push and low cost",
		"No kind of foot in the table meets both of these wishes.", "Each one alone is met.",
		"I want to keep my push and to pay little. Which would I give up, and how much?",
		"How much push do I give up if low cost comes first?", "How much more do I pay if push comes first?",
		"What would a soft cover give me, and what would it take away?",
		"With a soft cover added, at least one kind of foot meets these wishes.",
	}
	if d := cmp.Diff(want, sentences(m, Of(0, 1))); d != "" {
		t.Errorf("wanted (-) and said (+):\n%s", d)
	}
	m.All[0].Fixes[0].Addon = 0
	if got := sentences(m, Of(0, 1)); !slices.Contains(got, "It takes a little away from push, low cost and quiet steps.") || strings.Contains(strings.Join(got, "|"), "||") {
		t.Errorf("what the add-on takes away is not said: %q", got)
	}
}

// The small ones come first, then by the wishes' order; remarks stand at the end.
func TestOrder(t *testing.T) {
	open := func(step int) Mark { return Mark{Step: step, Open: true} }
	table := Table{
		// Wish 0 is met by unsettled marks only, wish 3 by none; 1 and 2, 1 and 4, 2 and 4 are met alone.
		Wishes: []Wish{{Row: 0, Step: 1}, {Row: 1, Step: 1}, {Row: 2, Step: 1}, {Row: 3, Step: 1}, {Row: 4, Step: 1}},
		Feet:   [][]Mark{{open(1), {Step: 1}, {}, {}, {}}, {open(1), {}, {Step: 1}, {}, {}}, {open(1), {}, {}, {}, {Step: 1}}},
	}
	var got []Set
	for _, c := range table.Find(Most) {
		got = append(got, c.Wishes)
	}
	want := []Set{Of(3), Of(1, 2), Of(1, 4), Of(2, 4), Of(0)}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("wanted (-) and given (+):\n%s", d)
	}
}

// Where nothing pulls, no sentence counts conflicts.
func TestSummaryOfNothing(t *testing.T) {
	m := worded()
	if found := m.summary().Found; len(found) != 0 {
		t.Errorf("of a table without conflicts it can be said %q", found)
	}
}

// The number of wishes that a reader can mark is said as a word.
func TestMostIsSaid(t *testing.T) {
	for _, name := range []say.Name{"pulls.up-to", "conflict.said-full"} {
		if text := say.English().Say(name); Most != 5 || !strings.Contains(text, "five") {
			t.Errorf("at most %d can be marked, and %s says %q", Most, name, text)
		}
	}
}
