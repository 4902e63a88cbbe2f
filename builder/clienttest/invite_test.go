package clienttest_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/clienttest"
)

// What stands behind "#take=" is anyone's to write. Topics that there are come in the order of the
// address, each once and four at most; the rest is told as lost, and nothing else happens.
func TestInvited(t *testing.T) {
	page := clienttest.Load(t, "invite/address.ts")
	const known = `["hills", "heel-height", "work", "paying", "sport"]`
	for _, c := range []struct {
		behind string
		want   string // ids, by spaces
		lost   bool
	}{
		{"hills", "hills", false},
		{"hills,heel-height", "hills heel-height", false},
		{"heel-height,hills", "heel-height hills", false},
		{"heel-height%2Chills", "heel-height hills", false}, // as some programs for mail write it
		{"work,hills,paying,sport", "work hills paying sport", false},
		{"hills,hills,hills", "hills", false},
		{" hills , work ", "hills work", false},
		{"", "", false},
		{",", "", false},

		{"nowhere", "", true},
		{"hills,nowhere", "hills", true},
		{"nowhere,hills", "hills", true},
		{"work,hills,paying,sport,heel-height", "work hills paying sport", true},
		{"HILLS", "", true},
		{"hills;work", "", true},
		{"hills&work", "", true},
		{"hills?x=1", "", true},
		{"hills#take=work", "", true},
		{"hills/../work", "", true},
		{"%", "", true},
		{"%E0%A4%A", "", true},
		{"hills%00", "", true},
		{"%68ills", "hills", false},
		{"ñ,hills", "hills", true},
		{"__proto__", "", true},
		{"constructor,toString", "", true},
		{"<script>alert(1)</script>", "", true},
		{"hills\u202e", "", true},
		{strings.Repeat("x", 401), "", true},
		{"hills," + strings.Repeat("work,", 100), "", true}, // too long, whatever it says
		{strings.Repeat(",", 400), "", false},
	} {
		behind, err := json.Marshal(c.behind)
		if err != nil {
			t.Fatal(err)
		}
		var got struct {
			Topics []string `json:"topics"`
			Lost   bool     `json:"lost"`
		}
		if err := page.Run("script.invited("+string(behind)+", "+known+")", &got); err != nil {
			t.Errorf("%q: %v", c.behind, err)
			continue
		}
		if !slices.Equal(got.Topics, strings.Fields(c.want)) || got.Lost != c.lost {
			t.Errorf("%q takes %q, lost %v; want %q, %v", c.behind, got.Topics, got.Lost, c.want, c.lost)
		}
	}
}
