package library_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"keelpath/builder/internal/librarytest"
	"keelpath/builder/read"
	"keelpath/builder/teaching"
	"keelpath/builder/tree"
)

// lineOf gives the one line of a text that holds some words.
func lineOf(t *testing.T, text, words string) string {
	t.Helper()
	for line := range strings.Lines(text) {
		if strings.Contains(line, words) {
			return line
		}
	}
	t.Fatalf("no line has %q", words)
	return ""
}

// words is a text with single spaces and without citations.
func words(text string) string {
	return strings.Join(strings.Fields(citation.ReplaceAllString(text, "")), " ")
}

var citation = regexp.MustCompile(`\[\]\([a-z]+:[^)]*\)`)

// Where no published rule was read, the page sends to the plan and gives neither
// a code nor a level. That nothing is published is our search and no source.
func TestNoRuleMeansNoLevel(t *testing.T) {
	page := string(librarytest.Load(t).File("content/en/payer-levels.md"))
	_, part, _ := strings.Cut(page, "## Where did we find no rule?")
	part, _, _ = strings.Cut(part, "\n## ")
	if !strings.Contains(part, "no published rule that we could read. Ask your plan before you order.") {
		t.Error("the page does not say that no rule was read, and to ask the plan first")
	}
	for _, kind := range []string{"Two artificial legs", "hydraulic ankle", "glass spring", "running blade", "shock unit"} {
		if !strings.Contains(lineOf(t, part, kind), "Ask ") {
			t.Errorf("%s: the line sends nobody to the plan", kind)
		}
	}
	if said := regexp.MustCompile(`L5\d{3}|\bK\d|level \d|from level`).FindAllString(part, -1); len(said) > 0 {
		t.Errorf("without a rule the page gives %q", said)
	}
	if all := words(page); !strings.Contains(all, "a level belongs to the person in the chart and not to a foot, and no foot on that list asks for level 4.") {
		t.Error(`the page does not say what people mean by "a level 4 foot"`)
	}
}

// How long people and plans have. Sources: a Medicare contractor's page on the levels of
// appeals; the Federal Register of December 4, 2025 for the amounts of 2026; the
// Medicare agency's page (60 days) and a law page (65) on Advantage plans;
// HealthCare.gov on private plans; guides for outside reviews and Medicaid, second-hand.
func TestAppealTimes(t *testing.T) {
	page := string(librarytest.Load(t).File("content/en/when-the-plan-says-no.md"))
	for _, plan := range []struct {
		from string // where its table begins
		rows map[string][2]string
	}{
		{"**Original Medicare,**", map[string][2]string{
			`a "redetermination"`: {"120 days", "60 days"},
			`a "reconsideration"`: {"180 days", "60 days"},
			"A hearing before a judge or another officer, if about USD 200 (2026) or more": {"60 days", "90 days"},
			"The Appeals Council":                               {"60 days", "Ask"},
			"Federal court, for about USD 1,960 (2026) or more": {"60 days", "Ask"},
		}},
		{"**A Medicare Advantage plan,**", map[string][2]string{
			"First appeal, to the plan":       {"60 to 65 days: read the date on your letter", "30 days if you do not have the foot yet, 60 days about a bill"},
			"First appeal, when it is urgent": {"The same", "72 hours. If your doctor says that it is urgent, the plan must treat it so."},
		}},
		{"**A private plan,", map[string][2]string{
			"First appeal, to the plan":       {"180 days", "30 days if you do not have the foot yet, 60 days about a bill"},
			"First appeal, when it is urgent": {"The same", "72 hours"},
			"Review from outside":             {"4 months from the last no", "About 45 days, or 72 hours if urgent"},
		}},
	} {
		_, table, ok := strings.Cut(page, plan.from)
		if !ok {
			t.Fatalf("the page has no table behind %q", plan.from)
		}
		for row, want := range plan.rows {
			cells := strings.Split(words(lineOf(t, table, row)), " | ")
			if len(cells) != 3 || !strings.HasPrefix(cells[1], want[0]) || strings.TrimSuffix(cells[2], " |") != want[1] {
				t.Errorf("%s: %q, want %q", row, cells, want)
			}
		}
	}
	if !strings.Contains(page, "go by the letter") {
		t.Error("the page does not send the reader to the date on the letter")
	}
}

// Both sets of notes count, and neither alone. Source: Social Security Act 1834(h)(5),
// announced February 9, 2018, as a consultant and a trade association quote it.
func TestBothSetsOfNotesCount(t *testing.T) {
	l := librarytest.Load(t)
	for page, want := range map[string]string{
		"paying-and-coverage": "Since 2018, Medicare also counts the notes of the prosthetist who fits your leg, in support of the doctor's.",
		"payer-levels":        "Since 2018, the prosthetist's notes count as part of your chart, in support of the doctor's.",
		"documenting-need":    "Neither set is enough alone, so see that the two agree.",
	} {
		if text := words(string(l.File("content/en/" + page + ".md"))); !strings.Contains(text, want) {
			t.Errorf("%s does not say %q", page, want)
		}
	}
}

// What a plan pays changes each year, so its pages are read again within twelve
// months. Common practice, no source; the amounts of appeals change each January.
func TestPayerPagesAreReadYearly(t *testing.T) {
	l := librarytest.Load(t)
	due := map[string]read.Credits{"paying-for-it": l.Tree("paying-for-it").Credits, "level-reasoning": l.Tree("level-reasoning").Credits}
	for _, id := range []string{"paying-and-coverage", "payer-levels", "documenting-need", "levels-in-other-countries"} {
		due[id] = l.Explainer(id).Credits
	}
	for _, c := range l.Cases {
		if slices.ContainsFunc(c.Credits.Sources, func(s read.Text) bool { return strings.HasPrefix(s.S, "medicare-") }) {
			due[c.ID.S] = c.Credits
		}
	}
	for id, c := range due {
		from, err1 := time.Parse(time.DateOnly, c.Reviewed.S)
		by, err2 := time.Parse(time.DateOnly, c.ReviewBy.S)
		if err1 != nil || err2 != nil || by.After(from.AddDate(1, 0, 0)) {
			t.Errorf("%s: reviewed %s, next by %s", id, c.Reviewed.S, c.ReviewBy.S)
		}
	}
}

// An argument for a hydraulic ankle at one pace says that coverage may be a barrier:
// no published rule names its level, and feet for one pace are listed at the lowest
// two (the contractor's notice of 2013).
func TestHydraulicAnkleAtOnePace(t *testing.T) {
	l := librarytest.Load(t)
	const says = "coverage may be a barrier"
	seen := 0
	hold := func(who string, talks []tree.Talk) {
		for _, talk := range talks {
			if talk.Type.S == "hydraulic-ankle" {
				if seen++; !strings.Contains(talk.Against.S, says) {
					t.Errorf("%s: against a hydraulic ankle it says %q", who, talk.Against.S)
				}
			}
		}
	}
	for _, id := range []string{"early-foot-flat", "slow-on-slopes"} {
		hold(id, l.Tree("foot-class-matching").Ending(id).Types)
	}
	for _, c := range l.Cases {
		if slices.ContainsFunc(c.Facts, func(f *teaching.Fact) bool { return strings.HasSuffix(f.Says.S, ": one pace.") }) {
			hold(c.ID.S, c.Argue)
		}
	}
	if seen < 3 {
		t.Errorf("only %d arguments were looked at", seen)
	}
	if page := string(l.File("content/en/writing-a-foot-prescription.md")); !strings.Contains(lineOf(t, page, "Type B: hydraulic ankle"), says) {
		t.Errorf("the example of a prescription at one pace does not say that %s", says)
	}
}

// No kind of foot has been shown to prevent falls: the federal guideline's statement on
// feet, as quoted, names walking and satisfaction and not falls. So fear of falling
// brings up no kind of foot.
func TestTrustBringsNoFoot(t *testing.T) {
	e := librarytest.Load(t).Tree("something-changed").Ending("trust")
	if len(e.Types) > 0 || !strings.Contains(words(e.Text.S), "No kind of foot has been shown to prevent falls.") {
		t.Errorf("%d kinds of feet, and: %s", len(e.Types), words(e.Text.S))
	}
}

// The federal guideline of 2025 is told as others quote it: weakly for, no one foot
// over another, several to be tried. The document itself was not read.
func TestFederalGuidelineAsQuoted(t *testing.T) {
	l := librarytest.Load(t)
	if s := l.Source("limb-loss-guideline-2025"); s == nil || s.Seen.S != "summary" {
		t.Fatalf("%+v: it was seen only as others tell it", s)
	}
	cited, feet := 0, 0
	secondHand := regexp.MustCompile(`(?i)quoted by others|by others' account|one digest says|not read (that guideline|it) ourselves`)
	for name, text := range texts(l) {
		for line := range strings.Lines(text) {
			if strings.HasPrefix(line, "sources:") || !strings.Contains(line, "source:limb-loss-guideline-2025") {
				continue
			}
			cited++
			if !strings.Contains(line, "such foot") { // it tells another point of it
				if !secondHand.MatchString(line) {
					t.Errorf("%s does not say that others tell it", name)
				}
				continue
			}
			feet++
			for _, want := range []string{"as others quote it", "weakly", "no reason to prefer one such foot to another", "trying several"} {
				if !strings.Contains(line, want) {
					t.Errorf("%s does not say %q of it", name, want)
				}
			}
			if wrong := regexp.MustCompile(`(?i)\bstrong|\bfalls?\b|recommends`).FindString(line); wrong != "" {
				t.Errorf("%s says %q of it", name, wrong)
			}
		}
	}
	if cited == 0 || feet == 0 {
		t.Error("no text tells what the guideline says of feet")
	}
}

// The one point at which the guideline of 2018 (Stevens and others, J Prosthet Orthot)
// names a single axis: one pace, with weak knee extensors or poor balance. It does not
// speak of a prosthetic knee that buckles.
func TestGuidelineOnSingleAxis(t *testing.T) {
	q := librarytest.Load(t).Tree("foot-class-matching").Question("loading")
	for _, want := range []string{"one pace", "knee extensors weak", "balance poor"} {
		if !strings.Contains(q.Text.S, want) {
			t.Errorf("the question %q does not name %q", q.Text.S, want)
		}
	}
	if !strings.Contains(q.Hint.S, "does not speak of a prosthetic knee that buckles") {
		t.Errorf("the hint says %q", q.Hint.S)
	}
}

// A timed walk at one pace is a distance (86 people: two minutes told much of six) and
// no proof of two paces. Two paces are what the third level asks for: varied cadence.
func TestTwoMinutesProveOnePace(t *testing.T) {
	text := words(librarytest.Load(t).Tree("level-reasoning").Ending("pace-untested").Text.S)
	if !strings.Contains(text, "A two-minute walk does not give them. It gives one distance") || strings.Contains(text, "enough to begin") {
		t.Errorf("it says: %s", text)
	}
}

// A claim says how old it is if it is from before 2005, wherever its age is not plain
// from a count of people: here, that appeals are often won (McGill 2003).
func TestOldClaimsShowTheirYear(t *testing.T) {
	l := librarytest.Load(t)
	found := 0
	for name, text := range texts(l) {
		text = regexp.MustCompile(`(?m)^sources:.*$`).ReplaceAllString(text, "")
		for i := range regexp.MustCompile(`source:claim-denied-article-2003`).FindAllStringIndex(text, -1) {
			at := regexp.MustCompile(`source:claim-denied-article-2003`).FindAllStringIndex(text, -1)[i][0]
			found++
			if !strings.Contains(text[max(0, at-160):at], "in 2003") {
				t.Errorf("%s tells the claim of 2003 without its year", name)
			}
		}
	}
	if found < 2 {
		t.Errorf("%d texts tell the claim", found)
	}
}

// Nothing is told from a title alone, and a trial that 68 men finished is not large.
// Common practice of reading evidence, no source.
func TestNothingFromTitlesAlone(t *testing.T) {
	wrong := regexp.MustCompile(`(?i)in its title|only the title|one large (test|trial|study)`)
	for name, text := range texts(librarytest.Load(t)) {
		if m := wrong.FindString(text); m != "" {
			t.Errorf("%s says %q", name, m)
		}
	}
}

// That a heel wedge goes into both shoes is one expert's answer (Rheinstein 2014), and
// both texts say so.
func TestWedgeInBothShoesIsOneExpert(t *testing.T) {
	l := librarytest.Load(t)
	var all []string
	for _, text := range texts(l) {
		all = append(all, words(text))
	}
	slices.Sort(all)
	told := 0
	for _, text := range all {
		for _, at := range regexp.MustCompile(`both shoes`).FindAllStringIndex(text, -1) {
			near := text[max(0, at[0]-200):at[1]]
			if !strings.Contains(near, "wedge") {
				continue
			}
			if told++; !strings.Contains(near, "ne expert") {
				t.Errorf("...%s does not say that one expert says so", near)
			}
		}
	}
	if told < 2 {
		t.Errorf("%d texts tell it", told)
	}
}

// The topic on a person's day asks by place and task, and not by the steps of the
// payer's levels; so what an answer brings up is no level's list, neither what a row
// adds nor all up to it. Source of the lists: the contractor's notice of 2013.
func TestDayIsNotTheLadder(t *testing.T) {
	l := librarytest.Load(t)
	page := string(l.File("content/en/payer-levels.md"))
	lists, upTo := [][]string{}, []string{}
	for _, m := range regexp.MustCompile(`(?m)^\| \d and up \|(.*)\|$`).FindAllStringSubmatch(page, -1) {
		var row []string
		for _, id := range regexp.MustCompile(`\(type:([a-z-]+)\)`).FindAllStringSubmatch(m[1], -1) {
			row = append(row, id[1])
		}
		if strings.Contains(m[1], "explainer:spring-feet") {
			row = append(row, "carbon-spring")
		}
		upTo = append(upTo, row...)
		lists = append(lists, sorted(row), sorted(upTo))
	}
	if len(lists) != 6 || !slices.Equal(lists[0], []string{"single-axis", "solid-ankle"}) {
		t.Fatalf("the lists by level: %v", lists)
	}
	tr := l.Tree("where-to-start")
	for _, e := range tr.Endings {
		var kinds []string
		for _, talk := range e.Types {
			kinds = append(kinds, talk.Type.S)
		}
		for _, list := range lists {
			if slices.Equal(sorted(kinds), list) {
				t.Errorf("ending %q brings up a level's list, %v", e.ID.S, list)
			}
		}
	}
	ladder := regexp.MustCompile(`(?i)\bpace|slow and fast|bed to chair|flat floors|curbs|a few steps|\blevel`)
	for _, a := range tr.Question("day").Answers {
		if said := ladder.FindString(a.Text.S); said != "" {
			t.Errorf("the answer %q has %q from the definitions of the levels", a.Text.S, said)
		}
	}
}

func sorted(ids []string) []string { return slices.Sorted(slices.Values(ids)) }
