package library_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"keelpath/builder/internal/librarytest"
	"keelpath/builder/library"
)

// The published measures are rated whole: 6 points that make a decision aid, the
// 6 of 10 for a certificate that are not about tests, and the 15 of quality that
// a site can meet by itself (IPDAS minimum standards, version 4.0: Joseph-Williams
// and others 2014; the numbering from L9 on is from memory); points 1 to 26 of
// PEMAT-P without 13 and 14, which are about sound and film (AHRQ, 2014); and 20
// points of the CDC's Clear Communication Index.
func TestYardsticksAreWhole(t *testing.T) {
	numbers := func(from, to int, leave ...int) []string {
		var out []string
		for i := from; i <= to; i++ {
			if !slices.Contains(leave, i) {
				out = append(out, strconv.Itoa(i))
			}
		}
		return out
	}
	letter := func(l string, ns []string) []string {
		var out []string
		for _, n := range ns {
			out = append(out, l+n)
		}
		return out
	}
	l := librarytest.Load(t)
	for id, parts := range map[string]map[string][]string{
		"decision-aids": {
			"must": letter("q", numbers(1, 6)), "certify": letter("c", numbers(1, 6)),
			"quality": letter("l", append(numbers(1, 11), numbers(18, 21)...)),
		},
		"patient-materials":   {"understand": numbers(1, 19, 13, 14), "act": numbers(20, 26)},
		"clear-communication": {"core": numbers(1, 11), "advice": numbers(12, 14), "numbers": numbers(15, 17), "risk": numbers(18, 20)},
	} {
		y := l.Yardstick(id)
		if y == nil {
			t.Errorf("there is no yardstick %q", id)
			continue
		}
		if len(y.Parts) != len(parts) || len(y.Sources) == 0 {
			t.Errorf("%s: %d parts and %d sources", id, len(y.Parts), len(y.Sources))
		}
		for _, p := range y.Parts {
			var got []string
			for _, i := range p.Items {
				got = append(got, i.ID.S)
				ratedWithReason(t, y, i)
			}
			if !slices.Equal(got, parts[p.ID.S]) {
				t.Errorf("%s, %s: the items are %v, want %v", id, p.ID.S, got, parts[p.ID.S])
			}
		}
	}
}

// ratedWithReason holds an item to one rating for each kind of page, a reason
// behind each that is not met, and, where the whole site is rated, a word on how
// it is met and a page where one can see it.
func ratedWithReason(t *testing.T, y *library.Yardstick, i *library.YardstickItem) {
	t.Helper()
	for _, of := range y.Rates {
		rating := i.Rating(of.S)
		if rating == "" {
			t.Errorf("%s %s: %q is not rated", y.ID.S, i.ID.S, of.S)
		}
		if of.S == "site" && rating == "met" && (i.How.S == "" || len(i.See) == 0) {
			t.Errorf("%s %s is met, and nobody says how, or where one can see it", y.ID.S, i.ID.S)
		}
	}
	for _, r := range slices.Concat(i.Lacks, i.Apart) {
		if len(strings.Fields(r.Why.S)) < 3 {
			t.Errorf("%s %s: the reason for %q is %q", y.ID.S, i.ID.S, r.Of.S, r.Why.S)
		}
	}
}
