package read_test

import (
	"slices"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// Wherever a text may stand, a character that cannot be seen is found there.
func TestUnseen(t *testing.T) {
	for _, c := range []struct{ name, src, want string }{
		{"none", "phone: 0199-555 – “so”\n", ""},
		{"in a value", "phone: \u202e0199-555\n", "1:8 unseen"},
		{"in quotes", "phone: \"0199\u200e-555\"\n", "1:13 unseen"},
		{"in a text of several lines", "about: |\n  one\n  two\u200b\n", "3:6 unseen"},
		{"in a key", "pho\u2060ne: 0199\n", "1:4 unseen"},
		{"in a list", "words: [one, \u3000two]\n", "1:14 unseen"},
		{"in a remark, which a later copy may take into a value", "a: b # \u2066c\n", "1:8 unseen"},
		{"two in one line", "a: \u200bb\u200b\n", "1:4 unseen; 1:6 unseen"},
		{"by an escape", `a: "\u202e0199"` + "\n", "1:4 unseen"},
		{"by an escape of YAML's own", `a: "one\_two"` + "\n", "1:4 unseen"},
		{"a control character by an escape", `a: "\e[31m"` + "\n", "1:4 unseen"},
		{"by an escape in a key", `"a\u200bb": c` + "\n", "1:1 unseen"},
		{"as in HTML", "a: call &lrm;0199\n", "1:9 unseen"},
		{"as in HTML by its number", "a: call &#x202e;0199\n", "1:9 unseen"},
		{"as in HTML by an escape", `a: "call \u0026rlm;0199"` + "\n", "1:4 unseen"},
		{"escapes of what can be seen", `a: "caf\u00e9 \u0026amp; \t so\n"` + "\n", ""},
		{"a mark at the very start of the file", "\ufeffa: b\n", ""},
		{"the same further on", "a: \ufeffb\n", "1:4 unseen"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var list finding.List
			if read.YAML("a.yaml", []byte(c.src), 0, &list) == nil {
				t.Error("the rest of the file was not read")
			}
			got, texts := found(&list)
			if strings.Join(got, "; ") != c.want {
				t.Errorf("%v, and %q was expected\n%s", got, c.want, texts)
			}
		})
	}
}

// A text with a thousand of them is told so, once.
func TestManyUnseen(t *testing.T) {
	var list finding.List
	if read.Sound("a.md", []byte(strings.Repeat("a\u00a0b\n", 1000)), &list) {
		t.Error("the file is read on")
	}
	all := list.Sorted()
	at := slices.IndexFunc(all, func(f finding.Finding) bool { return strings.Contains(f.Text, "100 characters up to here") })
	if len(all) != 101 || at < 0 || all[at].Line != 100 {
		t.Errorf("%d findings, and the one that counts them is number %d", len(all), at)
	}
}
