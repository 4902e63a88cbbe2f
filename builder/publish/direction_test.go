package publish

import (
	"io/fs"
	"regexp"
	"strings"
	"testing"

	"keelpath/site"
)

// sided are parts of a style that name a side of the screen, and not one of the text.
var sided = regexp.MustCompile(`(?:^|[^-\w])(?:(?:margin|padding|border|scroll-margin|scroll-padding)-(?:left|right)\b[^;]*|(?:left|right): [^;]+|(?:text-align|float|clear): ?(?:left|right)|border-(?:top|bottom)-(?:left|right)-radius[^;]*)`)

// fourSided are shorthands of four sides.
var fourSided = regexp.MustCompile(`(?:^|[^-\w])(?:margin|padding|border-width|inset): ([^;{}]+)`)

// sideOfScreen are those that stay, each with the reason.
var sideOfScreen = map[string]string{
	"float: left":          "the figure of a kind of foot, printed: engines of today's tablets know no other word for a side",
	"inset: 0 auto auto 0": "the sheet while it is measured, which nobody sees",
}

// A style says where a thing stands by the direction of the text, so that a language that runs from right to
// left needs no style of its own.
func TestStylesKnowNoSide(t *testing.T) {
	files, err := fs.Glob(site.Files, "style/*.css")
	if err != nil || len(files) < 8 {
		t.Fatalf("%d styles, %v", len(files), err)
	}
	seen := map[string]bool{}
	for _, file := range files {
		src, err := fs.ReadFile(site.Files, file)
		if err != nil {
			t.Fatal(err)
		}
		for i, line := range strings.Split(string(src), "\n") {
			for _, found := range physical(line) {
				seen[found] = true
				if sideOfScreen[found] == "" {
					t.Errorf("site/%s:%d: %q names a side of the screen; say it by inline-start and inline-end", file, i+1, found)
				}
			}
		}
	}
	for is := range sideOfScreen {
		if !seen[is] {
			t.Errorf("no style says %q any more", is)
		}
	}
}

func physical(line string) []string {
	var out []string
	for _, m := range sided.FindAllString(line, -1) {
		out = append(out, strings.Trim(m, " {\t"))
	}
	for _, m := range fourSided.FindAllStringSubmatch(line, -1) {
		if v := sides(m[1]); len(v) == 4 && v[1] != v[3] {
			out = append(out, strings.Trim(m[0], " {\t"))
		}
	}
	return out
}

// sides parts the values of a shorthand; what stands in brackets is one.
func sides(values string) []string {
	depth := 0
	return strings.FieldsFunc(values, func(r rune) bool {
		switch r {
		case '(':
			depth++
		case ')':
			depth--
		}
		return r == ' ' && depth == 0
	})
}

func TestPhysical(t *testing.T) {
	for line, want := range map[string]int{
		"a { left: 0; }": 1, "a { margin-left: 1em; padding: 1px 2px 3px 4px; }": 2, "a { text-align: right; float: left }": 2, "a { inset: auto 0 0 0; }": 0, "a { inset: 0 auto 0 1px; }": 1,
		"a { inset-inline-start: 0; margin-inline-start: 1em; padding: 1px 2px 3px 2px; inset: 0; }": 0, "a { padding: 1px calc(1px + 2px) 3px calc(1px + 2px); }": 0,
		"a { border-top-left-radius: 2px; }": 1, "a { scroll-margin-left: 2px; }": 1, "a { margin: 0 auto; border-inline-start: 2px; }": 0,
	} {
		if got := physical(line); len(got) != want {
			t.Errorf("%s: %q, want %d", line, got, want)
		}
	}
}
