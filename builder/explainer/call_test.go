package explainer_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/helpline"
	"keelpath/builder/read"
	"keelpath/builder/say"
)

// lines are the numbers of an edition.
var lines = helpline.Lines{
	Emergency: helpline.Line{Number: read.Text{S: "911"}, Where: read.Text{S: "the US"}},
	Crisis:    helpline.Line{Number: read.Text{S: "988"}, Where: read.Text{S: "the US"}, Texts: true},
}

// The words of a call stand in the page, in the plain text and in the blocks that
// are graded, with a capital where they open a sentence.
func TestCall(t *testing.T) {
	const number = `<a class="call" href="tel:911">911</a> in the US, or your local emergency number`
	for _, c := range []struct{ md, html, plain string }{
		{"[](call:emergency) now.", "<p>Call " + number + " now.</p>\n", "Call 911 in the US, or your local emergency number now."},
		{"For chest pain, [](call:emergency). Sit down.", "<p>For chest pain, call " + number + ". Sit down.</p>\n", "For chest pain, call 911 in the US, or your local emergency number. Sit down."},
		{"**Stop.** [](call:emergency).", "<p><strong>Stop.</strong> Call " + number + ".</p>\n", "Stop. Call 911 in the US, or your local emergency number."},
		{"*Sit. [](call:emergency)*", "<p><em>Sit. Call " + number + "</em></p>\n", "Sit. Call 911 in the US, or your local emergency number"},
		{"If it is bad, *sit, [](call:emergency)*", "<p>If it is bad, <em>sit, call " + number + "</em></p>\n", "If it is bad, sit, call 911 in the US, or your local emergency number"},
		{"Or [](call:urgent), and\n[](call:crisis), too.", "<p>Or call an urgent-advice line if you have one, and\ncall or text <a class=\"call\" href=\"tel:988\">988</a> in the US, too.</p>\n",
			"Or call an urgent-advice line if you have one, and call or text 988 in the US, too."},
	} {
		out := html(t, c.md, explainer.Options{Target: target, Words: words, NewTab: true})
		if diff := cmp.Diff(c.html, string(out.HTML)); diff != "" {
			t.Errorf("%s: %s", c.md, diff)
		}
		var list finding.List
		d := explainer.ParseText(read.Text{S: c.md}, lines, &list)
		if got := d.Text(say.English(), target, nil, nil); got != c.plain {
			t.Errorf("%s: the text is %q", c.md, got)
		}
		if len(d.Plain) != 1 || d.Plain[0] != c.plain || d.Blocks[0].Text != c.plain {
			t.Errorf("%s: the blocks are %q", c.md, d.Plain)
		}
	}
}

// A cell and an entry of a list open with a capital each.
func TestCallInTableAndList(t *testing.T) {
	out := html(t, "| If | Then |\n|---|---|\n| it hurts | [](call:crisis) |\n\n- [](call:urgent).\n", explainer.Options{Target: target})
	for _, want := range []string{"<td>Call or text <a", "<li>Call an urgent-advice line if you have one.</li>"} {
		if !strings.Contains(string(out.HTML), want) {
			t.Errorf("no %q in %s", want, out.HTML)
		}
	}
}

// A call is a reference with its place, and so are the words behind it.
func TestCallPlaces(t *testing.T) {
	var list finding.List
	d := parse("Sit.\nThen [](call:crisis), and rest.\n", &list)
	if len(list.Sorted()) > 0 || len(d.Refs) != 1 || d.Refs[0].Kind != "call" || d.Refs[0].ID != "crisis" {
		t.Fatalf("%v %v", list.Sorted(), d.Refs)
	}
	b := d.Blocks[0]
	if len(b.Refs) != 1 || d.Refs[0].At.Line != headerLines+2 || d.Refs[0].At.Col != 6 {
		t.Errorf("%+v", d.Refs)
	}
	for words, col := range map[string]int{"call or": 6, "and rest": 23} {
		if at := b.Place(strings.Index(b.Text, words)); at.Line != headerLines+2 || at.Col != col {
			t.Errorf("%q is at %s", words, at)
		}
	}
}

func TestCallFaults(t *testing.T) {
	for md, want := range map[string]string{
		"[](call:emergancy) now.":       `the text says to call "emergancy", and there is no such line`,
		"[911](call:emergency) now.":    `the link "call:emergency" has words of its own, and the edition's words stand there`,
		"[] (call:emergency) now.":      "this looks like a link and is not one",
		"[](tel:911) now.":              `the link leads to "tel:911", and links go by id`,
		"Call [](call:Emergency), now.": `the text says to call "Emergency", and there is no such line`,
	} {
		var list finding.List
		parse(md, &list)
		if !slices.ContainsFunc(list.Sorted(), func(f finding.Finding) bool { return f.Text == want && len(f.Help) > 0 }) {
			t.Errorf("%s: %v", md, list.Sorted())
		}
	}
}
