package drawing

import (
	"strings"
	"testing"
)

// Everything that is named in the picture is named in its description.
func TestVisitNames(t *testing.T) {
	for id, names := range map[string][]string{
		"what-to-bring":      {"shoes", "hardest pair", "leg", "sock", "sheet", "listen", "glasses", "hearing aid"},
		"first-days":         {"walk", "short ways first", "look", "at your skin", "note", "one line a day", "call", "when in doubt"},
		"what-gets-a-grade":  {"grade the person", "grade the foot", "no grade was found"},
		"level-in-the-chart": {"doctor", "prosthetist", "set it together", "you can ask", "plan", "does not pick a foot"},
		"round-after-a-no":   {"notes", "say why", "clinic", "plan", "yes", "no", "new look"},
		"people-around-you":  {"doctor", "prosthetist", "therapist", "your plan", "your people", "technician", "occupational therapist", "a peer", "you"},
	} {
		d, _ := english.Find(id, "")
		shown, told := words(t, id), strings.ToLower(d.Long)
		for _, name := range names {
			if !strings.Contains(shown, name) || !strings.Contains(told, name) {
				t.Errorf("%s: %q is not both in %q and in %q", id, name, shown, d.Long)
			}
		}
	}
}
