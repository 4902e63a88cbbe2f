package helpline_test

import (
	"testing"

	"keelpath/builder/helpline"
	"keelpath/builder/read"
)

func line(number, where string, texts bool) helpline.Line {
	return helpline.Line{Number: read.Text{S: number}, Where: read.Text{S: where}, Texts: texts}
}

var us = helpline.Lines{Emergency: line("911", "the US", false), Crisis: line("988", "the US", true)}

func TestSentences(t *testing.T) {
	away := helpline.Lines{
		Emergency: line("000", "Australia", false),
		Urgent:    line("1800 022 222", "Australia", false),
		Crisis:    line("+61 13 11-14", "Australia", false),
	}
	for _, c := range []struct {
		lines       helpline.Lines
		id          string
		plain, html string
	}{
		{us, "emergency", "Call 911 in the US, or your local emergency number.", `Call <a class="call" href="tel:911">911</a> in the US, or your local emergency number.`},
		{us, "urgent", "Call an urgent-advice line if you have one.", "Call an urgent-advice line if you have one."},
		{us, "crisis", "Call or text 988 in the US.", `Call or text <a class="call" href="tel:988">988</a> in the US.`},
		{away, "emergency", "Call 000 in Australia, or your local emergency number.", `Call <a class="call" href="tel:000">000</a> in Australia, or your local emergency number.`},
		{away, "urgent", "Call 1800 022 222 in Australia for urgent advice.", `Call <a class="call" href="tel:1800022222">1800 022 222</a> in Australia for urgent advice.`},
		{away, "crisis", "Call +61 13 11-14 in Australia.", `Call <a class="call" href="tel:+61131114">+61 13 11-14</a> in Australia.`},
		{helpline.Lines{}, "emergency", "Call your local emergency number.", "Call your local emergency number."},
		{helpline.Lines{}, "crisis", "Call a crisis line.", "Call a crisis line."},
	} {
		if got := c.lines.Sentence(c.id); got != c.plain {
			t.Errorf("%s: %q, want %q", c.id, got, c.plain)
		}
		if got := string(c.lines.SentenceHTML(c.id)); got != c.html {
			t.Errorf("%s: %q, want %q", c.id, got, c.html)
		}
	}
}

// A clause opens a sentence with a capital, and stands in its middle without one.
func TestBehind(t *testing.T) {
	for before, capital := range map[string]bool{
		"": true, "Stop. ": true, "Is it so? ": true, "Stop! ": true, "He said “stop.” ": true, "Stop.) ": true, "(": true,
		"If it hurts, ": false, "For chest pain: ": false, "Sit down and ": false, "Sit down (or ": false, "Sit down; ": false,
	} {
		want := "call 911 in the US, or your local emergency number"
		if capital {
			want = "C" + want[1:]
		}
		if got := us.Behind("emergency", before).Plain(); got != want {
			t.Errorf("behind %q: %q", before, got)
		}
	}
}

func TestSlot(t *testing.T) {
	lines := us
	for _, id := range helpline.IDs {
		if lines.Slot(id) == nil {
			t.Errorf("there is no slot %q", id)
		}
	}
	if lines.Slot("fire") != nil || lines.Words("fire") != (helpline.Words{}) {
		t.Error("there is a slot for fire")
	}
}

// A number is written out safely, whatever it holds.
func TestEscaped(t *testing.T) {
	odd := helpline.Lines{Emergency: line(`1"<b>2`, "<i>", false)}
	want := `call <a class="call" href="tel:12">1&#34;&lt;b&gt;2</a> in &lt;i&gt;, or your local emergency number`
	if got := string(odd.Words("emergency").HTML()); got != want {
		t.Errorf("%s", got)
	}
}
