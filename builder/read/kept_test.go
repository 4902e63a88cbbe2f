package read_test

import (
	"fmt"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// A file that is read again gives what it gave, under the name it is read by; and what is wrong in one is told each time.
func TestReadAgain(t *testing.T) {
	src := []byte("a: one\nb: \"two\"\n")
	for _, name := range []string{"first.yaml", "second.yaml", "first.yaml"} {
		var list finding.List
		m := read.YAML(name, src, 0, &list)
		got := m.Text("b")
		if got.S != "two" || got.At != (finding.Place{File: name, Line: 2, Col: 4}) {
			t.Errorf("%s: %+v", name, got)
		}
		m.Done()
		if all := list.Sorted(); len(all) != 1 || all[0].File != name || !strings.Contains(all[0].Text, `"a"`) {
			t.Errorf("%s: the key that nobody asked for: %v", name, all)
		}
	}
	for _, wrong := range []string{"a: 1\n--- \nb: 2\n", "a: &x 1\n", "a: [\n", "- a\n", "a: one\u200b\n"} {
		for range 2 {
			var list finding.List
			read.YAML("wrong.yaml", []byte(wrong), 0, &list)
			if list.Len() == 0 {
				t.Errorf("%q is taken", wrong)
			}
		}
	}
}

// However many files are read, what is kept of them is bounded, and those read last are right.
func TestReadMany(t *testing.T) {
	filler := strings.Repeat("x", 60<<10)
	for i := range 200 {
		var list finding.List
		src := fmt.Appendf(nil, "n: %d\nfiller: %s\n", i, filler)
		if got := read.YAML("many.yaml", src, 0, &list).Text("n").S; got != fmt.Sprint(i) {
			t.Fatalf("file %d says %s", i, got)
		}
		if kept := read.Kept(); kept > 4<<20 {
			t.Fatalf("after %d files, %d bytes of files are kept", i+1, kept)
		}
	}
}
