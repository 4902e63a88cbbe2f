package explainer_test

import (
	"strings"
	"testing"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
)

const oneShare = "```share\n# A remark.\ncount: 58\nof: 100\nwithin: a year\nsays: 58 in 100 people fell within a year\n```\n"

const twoShares = "Before.\n\n```share\ncount: 3\nof: 20\nwithin: a week\nsays: With A, 3 in 20 tripped within a week\n\n" +
	"count: 5\nof: 20\nwithin: a week\nsays: With B, 5 in 20 tripped within a week\n```\n\nAfter.\n"

func TestShares(t *testing.T) {
	for name, c := range map[string]struct {
		md    string
		class string
		says  []string
	}{
		"one": {oneShare, "share", []string{"58 in 100 people fell within a year"}},
		"two": {twoShares, "shares", []string{"With A, 3 in 20 tripped within a week", "With B, 5 in 20 tripped within a week"}},
	} {
		var list finding.List
		d := parse(c.md, &list)
		for _, f := range list.Sorted() {
			t.Errorf("%s: %s %s", name, f.Place, f.Text)
		}
		out, err := d.HTML(explainer.Options{})
		if err != nil {
			t.Fatal(err)
		}
		html := string(out.HTML)
		if strings.Count(html, "<svg") != len(c.says) || !strings.Contains(html, `<figure class="`+c.class+`">`) || strings.Contains(html, "remark") {
			t.Errorf("%s: %s", name, html)
		}
		var words []string
		for _, b := range d.Blocks {
			if b.Kind == explainer.Picture {
				words = append(words, b.Text)
				line := strings.Split(header+c.md, "\n")[b.Place(0).Line-1]
				if col := b.Place(0).Col; line[col-1:] != b.Text {
					t.Errorf("%s: the words of a share are said to stand at %s: %q", name, b.Place(0), line)
				}
			}
		}
		if strings.Join(words, "|") != strings.Join(c.says, "|") {
			t.Errorf("%s: words for checks and search: %q", name, words)
		}
		for _, says := range c.says {
			if strings.Count(html, ">"+says+"</title>") != 1 || strings.Count(html, "<p>"+says+"</p>") != 1 {
				t.Errorf("%s: %q is not named once and said once", name, says)
			}
		}
	}
}

// A share that is wrong is reported, and no picture is made of it.
func TestWrongShares(t *testing.T) {
	for name, c := range map[string]struct{ old, new, want string }{
		"count above of":      {"count: 3", "count: 23", "counts 23 people of 20"},
		"of zero":             {"of: 20", "of: 0", "is of 0 people"},
		"of zero, otherwise":  {"of: 20", "of: 00", "is of 0 people"},
		"part of a number":    {"With A, 3 in", "With A, 2.3 in", `do not name its "count"`},
		"of 66":               {"of: 20", "of: 66", "is of 66 people"},
		"of 51":               {"of: 20", "of: 51", "is of 51 people"},
		"no whole number":     {"count: 3", "count: 2.5", `"count" is "2.5"`},
		"below zero":          {"count: 3", "count: -3", `"count" is "-3"`},
		"no words":            {"says: With A, 3 in 20 tripped within a week\n", "", `lacks "says"`},
		"empty words":         {"says: With A, 3 in 20 tripped within a week", "says:", `"says" of the share has no value`},
		"other count":         {"With A, 3 in", "With A, 13 in", `do not name its "count"`},
		"other of":            {"3 in 20 tripped", "3 in all tripped", `do not name its "of"`},
		"other time":          {"20 tripped within a week\n\n", "20 tripped within a day\n\n", `do not say "a week"`},
		"no time":             {"within: a week\nsays: With A", "says: With A", `does not say "within"`},
		"times differ":        {"within: a week\nsays: With B, 5 in 20 tripped within a week", "within: a day\nsays: With B, 5 in 20 tripped within a day", `"within" is "a day", and "a week" in the share above`},
		"numbers differ":      {"of: 20\nwithin: a week\nsays: With B, 5 in 20", "of: 100\nwithin: a week\nsays: With B, 5 in 100", `"of" is "100", and "20" in the share above`},
		"unknown key":         {"count: 3", "cuont: 3", `no key "cuont"`},
		"twice":               {"\n\ncount: 5", "\ncount: 5", `the key "count" twice`},
		"no key":              {"count: 3", "3", "no key with a value"},
		"nothing":             {twoShares[len("Before.\n\n```share\n"):strings.LastIndex(twoShares, "```")], "", "has nothing in it"},
		"the same once again": {"\n\nAfter.", "\n\n" + oneShare + "\n" + oneShare, "twice"},
		"the same id":         {"\n\nAfter.", "\n\n" + oneShare + "\n" + strings.Replace(oneShare, "58 in 100 people fell", "58 in 100 people: fell", 1), "twice"},
	} {
		md := strings.Replace(twoShares, c.old, c.new, 1)
		if md == twoShares {
			t.Fatalf("%s changes nothing", name)
		}
		var list finding.List
		d := parse(md, &list)
		var got []string
		for _, f := range list.Sorted() {
			got = append(got, f.Text)
		}
		if !strings.Contains(strings.Join(got, "\n"), c.want) {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
		out, err := d.HTML(explainer.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(name, "differ") || name == "no time" || strings.HasPrefix(name, "the same") {
			continue // each alone can be drawn; the check stops the build
		}
		if strings.Contains(string(out.HTML), "<svg") {
			t.Errorf("%s: a picture is made of it", name)
		}
	}
}
