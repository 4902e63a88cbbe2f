package listing

import (
	"html"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var tags = regexp.MustCompile(`<[^>]*>`)

// Whatever the text, a listing shows all of it and nothing else.
func TestNothingIsLost(t *testing.T) {
	inputs := []string{"", "\n", "a: b\n", "{", "]]]", "key: [a, {b: c}, 'd']\n", "- x\n- y: 1\n", "text: >-\n  one, two: three # not\n", "\"open\nnext", "é: ü # ñ\n", "\ttab:\tx"}
	files, err := filepath.Glob("../../trees/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no trees: %v", err)
	}
	for _, f := range files {
		src, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		inputs = append(inputs, string(src))
	}
	for _, src := range inputs {
		out, err := YAML(src)
		if err != nil {
			t.Fatalf("%.40q: %v", src, err)
		}
		numbered, err := Numbered(src, map[int]bool{1: true})
		if err != nil {
			t.Fatalf("%.40q: %v", src, err)
		}
		if got := html.UnescapeString(tags.ReplaceAllString(string(numbered), "")); strings.TrimRight(got, "\n") != strings.TrimRight(src, "\n") {
			t.Errorf("%.40q is shown with numbers as %.200q", src, got)
		}
		if src != "" && !strings.HasPrefix(string(numbered), `<pre class="listing numbered"><code><span id="line-1">`) {
			t.Errorf("%.40q: nothing leads to its first line", src)
		}
		if n, want := strings.Count(string(numbered), "\n</span>"), strings.Count(strings.TrimSuffix(src, "\n"), "\n")+1; n != want && src != "" {
			t.Errorf("%.40q has %d lines, want %d", src, n, want)
		}
		got := html.UnescapeString(tags.ReplaceAllString(string(out), ""))
		if strings.TrimRight(got, "\n") != strings.TrimRight(src, "\n") {
			t.Errorf("%.40q is shown as %.200q", src, got)
		}
	}
}

func TestClasses(t *testing.T) {
	for _, c := range []struct{ name, src, want string }{
		{"a key", "title: Hills\n", `<span class="y-nt">title</span><span class="y-p">:</span>`},
		{"a key in quotes", `  "yes": { text: "Yes", go: on }`, `<span class="y-nt">&#34;yes&#34;</span>`},
		{"a text in quotes", `a: "b"`, `<span class="y-s">&#34;b&#34;</span>`},
		{"a key after a comma", `{ text: Yes, go: on }`, `<span class="y-nt">go</span>`},
		{"a comment", "a: b # why\n", `<span class="y-c1"># why</span>`},
		{"a date", "reviewed: 2026-11-25\n", `<span class="y-ld">2026-11-25</span>`},
		{"true", "safety: true\n", `<span class="y-kc">true</span>`},
		{"a comma in a running text is text", "text: one, two\n", "one, two"},
	} {
		out, err := YAML(c.src)
		if err != nil || !strings.Contains(string(out), c.want) {
			t.Errorf("%s: %s does not hold %s (%v)", c.name, out, c.want, err)
		}
	}
}
