package publish

import (
	"strings"
	"testing"
)

// Without script and on paper the safety screen stands at the head of each topic,
// before its first question: each sign, and beside it what to do. What is said of a leg
// that is worn says so.
func TestScreenAtTheHeadOfEachTopic(t *testing.T) {
	lib := load(t)
	out := builtin(t)
	for _, tr := range lib.Trees {
		if tr.Audience.S != audiencePatient {
			continue
		}
		page := pageNamed(t, out, "prepare/"+tr.ID.S+".html")
		text := textOf(elements(page, "main")[0])
		screen, topic, ok := strings.Cut(text, tr.Questions[0].Text.S)
		if !ok || topic == "" {
			t.Fatalf("%s: its first question is not on its page", tr.ID.S)
		}
		shown := 0
		for _, dl := range elements(page, "dl") {
			for _, row := range elements(dl, "div") {
				if dt := elements(row, "dt"); len(dt) == 1 && len(elements(dt[0], "span")) == 1 {
					shown++
				}
			}
		}
		want := 0
		for _, g := range lib.Safety.Groups {
			want += len(g.Signs) + 1 // "not sure"
			for _, s := range g.Signs {
				start := strings.Trim(strings.SplitN(s.Text.S, "**", 3)[1], " ")
				if !strings.Contains(screen, start) {
					t.Errorf("%s: %q does not stand before its questions", tr.ID.S, start)
				}
				if words := strings.Fields(strings.ReplaceAll(s.Worn.S, "*", "")); len(words) > 2 && !strings.Contains(screen, "If you wear a leg: "+strings.Join(words[:2], " ")) {
					t.Errorf("%s, sign %s: what is said of a leg does not say for whom", tr.ID.S, s.ID.S)
				}
			}
		}
		if shown != want {
			t.Errorf("%s: %d rows stand at its head, want %d", tr.ID.S, shown, want)
		}
		if n := strings.Count(screen, "Call 911"); n == 0 {
			t.Errorf("%s: no number to call stands at its head", tr.ID.S)
		}
	}
}
