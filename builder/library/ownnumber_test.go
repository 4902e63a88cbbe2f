package library

import "testing"

// What spells out whom to call, and what only looks like it.
func TestOwnNumberIn(t *testing.T) {
	for text, want := range map[string]string{
		"Call your local emergency number now.":                 "local emergency number",
		"Local emergency lines are busy.":                       "Local emergency lines",
		"Call 911 now.":                                         "Call 911",
		"Dial 112, and wait.":                                   "Dial 112",
		"You can text 988.":                                     "text 988",
		"Call or text 988 at any time.":                         "Call or text 988",
		"Ringing 999 is free.":                                  "Ringing 999",
		"Phone the number 000.":                                 "Phone the number 000",
		"Call 111.":                                             "Call 111",
		"The line 988 is open day and night.":                   "988",
		"In the US it is 911.":                                  "911",
		"(911)":                                                 "911",
		"[](call:emergency) now.":                               "",
		"[](source:line-988-report)":                            "",
		"In 2011 and 1999.":                                     "",
		"A weight of 112 kg, or 111 steps.":                     "",
		"They asked 988 people, and 911 adults came.":           "",
		"It costs 1,911 or 911.50, about 988 %.":                "",
		"Form 000 is blue. The call 12 weeks later, and a 999.": "",
		"Call us at 555 0100.":                                  "",
		"An emergency plan for the clinic.":                     "",
	} {
		got := ""
		for _, at := range ownNumberIn(text) {
			got += text[at[0]:at[1]]
		}
		if got != want {
			t.Errorf("%q: found %q, want %q", text, got, want)
		}
	}
}
