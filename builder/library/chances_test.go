package library_test

import (
	"regexp"
	"strings"
	"testing"

	"keelpath/builder/internal/librarytest"
)

// The survey of powered ankles counted 46 men, of whom 18 still used one and 28 did
// not (Kannenberg and others 2022, by its abstract). They are drawn as those 46, and
// not as a share of 100, of whom nobody was asked.
func TestFewAreDrawnAsTheyWereCounted(t *testing.T) {
	page := string(librarytest.Load(t).File("content/en/chances.md"))
	if strings.Contains(page, "of: 100") {
		t.Error("a share of 100 stands on the page, and each group that it draws is smaller")
	}
	for _, want := range []string{"count: 18\nof: 46\n", "count: 28\nof: 46\n"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not draw %q", want)
		}
	}
}

// Wherever a paragraph gives shares of the news item on 70 people, it says what is
// weak about them: they stand in a trade paper's summary and do not all fit 70.
func TestNewsSharesCarryTheirWarning(t *testing.T) {
	l := librarytest.Load(t)
	shares := regexp.MustCompile(`\b\d+ (in 100|percent)\b`)
	told := 0
	for _, name := range []string{"chances", "evidence-by-foot-type"} {
		for _, line := range strings.Split(string(l.File("content/en/"+name+".md")), "\n") {
			if !strings.Contains(line, "(source:microprocessor-first-fittings-2018)") || !shares.MatchString(line) {
				continue
			}
			told++
			lower := strings.ToLower(line)
			for _, want := range []string{"trade", "do not all fit 70"} {
				if !strings.Contains(lower, want) {
					t.Errorf("%s gives shares without saying %q: %s", name, want, line)
				}
			}
		}
	}
	if told < 4 {
		t.Errorf("shares of the news item are told in %d places, and 4 were expected: two paragraphs and a row here, a row for residents", told)
	}
}
