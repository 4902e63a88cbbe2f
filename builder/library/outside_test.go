package library_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/internal/librarytest"
	"keelpath/builder/library"
	"keelpath/builder/tree"
)

// What the levels page says against the published coverage policy: five levels,
// 0 to 4, no halves; the lowest level of each foot code; no foot from level 4 up;
// two refused additions; three feet with prior authorisation.
//
// Source: Medicare LCD L33787 and article A52496 (revision of 1 Sep 2024); the
// codes by level from a contractor's notice of 2013; prior authorisation from
// the contractor's page on lower-limb prostheses. Codes whose level no seen
// source gives (L5968, L5971, L5975, L5982, L5985, L5986) must not stand here.
func TestLevelsAgainstThePolicy(t *testing.T) {
	page := string(librarytest.Load(t).File("content/en/payer-levels.md"))
	rows := map[string]string{}
	for _, m := range regexp.MustCompile(`(?m)^\| (\d) and up \|(.*)\|$`).FindAllStringSubmatch(page, -1) {
		rows[m[1]] = m[2]
	}
	code := regexp.MustCompile(`L5\d{3}`)
	for level, want := range map[string][]string{
		"1": {"L5970", "L5974"},
		"2": {"L5972", "L5978"},
		"3": {"L5973", "L5976", "L5979", "L5980", "L5981", "L5987"},
		"4": nil,
	} {
		got := code.FindAllString(rows[level], -1)
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Errorf("from level %s up the page names %v, and the policy %v", level, got, want)
		}
	}
	for level, row := range rows {
		if strings.Contains(row, "rotation") {
			t.Errorf("the chart gives an axial rotation unit from level %s up, and published policies disagree: 1 on a form, 2 in a guideline", level)
		}
	}
	if !strings.Contains(page, "Sources disagree on the level for an axial rotation unit") || !strings.Contains(page, "Ask which level your plan wants.") {
		t.Error("the page does not say that sources disagree on the axial rotation unit, and whom to ask")
	}
	for _, unknown := range []string{"L5968", "L5971", "L5975", "L5982", "L5985", "L5986"} {
		if strings.Contains(page, unknown) {
			t.Errorf("the page gives %s, whose level no seen source gives", unknown)
		}
	}
	levels := regexp.MustCompile(`(?m)^\| (\d) \(K(\d)\) \|`).FindAllStringSubmatch(page, -1)
	if len(levels) != 5 {
		t.Errorf("the page explains %d levels, and there are five", len(levels))
	}
	for i, m := range levels {
		if want := string(rune('0' + i)); m[1] != want || m[2] != want {
			t.Errorf("row %d explains level %s (K%s)", i, m[1], m[2])
		}
	}
	for sentence, want := range map[string][]string{
		"refused at every level": {"L5969", "L5990"},
		"asks for a yes first":   {"L5973", "L5980", "L5987"},
	} {
		i := strings.Index(page, sentence)
		if i < 0 {
			t.Fatalf("the page no longer says %q", sentence)
		}
		text := page[i:]
		text = text[:strings.Index(text+"\n", "\n")]
		got := code.FindAllString(text, -1)
		for _, w := range want {
			if !slices.Contains(got, w) {
				t.Errorf("behind %q the page names %v, and the policy %v", sentence, got, want)
			}
		}
	}
}

// types gives the foot types that come up where the answers lead.
func types(t *testing.T, l *library.Library, id string, answers tree.Answers) (ending *tree.Ending, ids []string) {
	t.Helper()
	tr := l.Tree(id)
	path, err := tr.Walk(answers)
	if err != nil || path.Ending == "" {
		t.Fatalf("%s %v: %v, open at %q", id, answers, err, path.Open)
	}
	ending = tr.Ending(path.Ending)
	for _, talk := range ending.Types {
		ids = append(ids, talk.Type.S)
	}
	return ending, ids
}

// A heel of 2 in (50.8 mm) brings up feet whose heel the wearer can set, in
// either unit. Common practice, no source.
func TestHeelRule(t *testing.T) {
	l := librarytest.Load(t)
	for _, heel := range []string{"2 in", "50.8 mm", "5 cm", "1 1/2 in"} {
		answers := tree.Answers{"knee": {"none"}, "shoes": {"heel"}, "usual": {"3/8 in"}, "other": {heel}, "hands": {"yes"}}
		if e, got := types(t, l, "heel-height", answers); !slices.Contains(got, "heel-you-set") {
			t.Errorf("a heel of %s leads to %q, which brings up %v and no heel that one sets", heel, e.ID.S, got)
		}
	}
}

// A shell without toes goes into a shoe more easily; one with toes looks better
// in a sandal. Common practice, no source.
func TestToeRule(t *testing.T) {
	l := librarytest.Load(t)
	e, _ := types(t, l, "foot-shell-and-toes", tree.Answers{"about": {"look"}, "look": {"toes"}})
	for _, want := range []string{
		"**With toes.** For: it looks more like a foot in a sandal. Against: the toes can catch when you put on a shoe.",
		"**Without toes.** For: it slips into a shoe more easily. Against: it looks plain in a sandal.",
	} {
		if !strings.Contains(e.Text.S, want) {
			t.Errorf("ending %q does not say %q", e.ID.S, want)
		}
	}
}
