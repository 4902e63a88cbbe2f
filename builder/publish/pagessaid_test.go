package publish

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/internal/inrow"
	"keelpath/builder/ledger"
)

// After an edit the search takes apart the pages that have changed, and no other: none where nothing was edited.
func TestPagesAreTakenApartOnce(t *testing.T) {
	files := madeSite()
	build := func(before folderOf) (now folderOf, read []string) {
		t.Helper()
		l, _ := loadAgain(t, before, layerOf(t, files))
		if l == nil {
			t.Fatal("the content has errors")
		}
		now, _ = builtAndRead(t, l, before, smallKinds, func(name string) { read = append(read, name) })
		slices.Sort(read)
		return now, read
	}
	clean, all := build(nil)
	if len(all) < 5 || len(slices.Compact(slices.Clone(all))) != len(all) {
		t.Errorf("a clean build takes apart %q", all)
	}
	again, none := build(clean)
	if len(none) > 0 {
		t.Errorf("nothing was edited, and %q were taken apart", none)
	}
	files[madeName(1)] += "\nOne more line.\n"
	now, read := build(again)
	var changed []string
	for _, name := range all {
		if string(now[name]) != string(again[name]) {
			changed = append(changed, name)
		}
	}
	if len(changed) != 1 || !slices.Equal(read, changed) {
		t.Errorf("%q have changed, and %q were taken apart", changed, read)
	}
}

// What a page says is the same once it was written down. What was cut off, or is another file, says nothing.
func TestPagesSaidAreReadAgain(t *testing.T) {
	said := []Paragraph{
		{Text: "Before the first place"},
		{At: "top", Heading: true, Text: "Falls"},
		{At: "top", Text: "Stop. If you fell", Lead: "Stop.", Lands: [2]int{1, 3}},
		{At: "how-common", Beside: true, Text: strings.Repeat("ü", 300)},
		{Text: "At no place again"},
	}
	part := writtenParagraphs(said)
	got, ok := readParagraphs(part)
	if d := cmp.Diff(said, got); d != "" || !ok {
		t.Errorf("whole: %v, %s", ok, d)
	}
	for n := range part {
		if got, ok := readParagraphs(part[:n]); ok && !slices.Equal(got, said[:len(got)]) {
			t.Errorf("cut after %d bytes, it says %+v", n, got)
		}
	}
	p := &pagesSaid{known: map[ledger.Sum]bool{}, now: inrow.Writer{B: []byte(saidForm)}}
	want := map[ledger.Sum]string{{1}: part, {2}: ""}
	p.note(ledger.Sum{1}, part)
	p.note(ledger.Sum{2}, "")
	p.note(ledger.Sum{1}, part)
	p.note(ledger.Sum{3}, strings.Repeat("x", mostSaid))
	if got := readSaid(p.now.B); !maps.Equal(got, want) {
		t.Errorf("%d pages are read of %d", len(got), len(want))
	}
	for _, other := range []string{"", "x" + string(p.now.B), string(p.now.B) + "x", string(p.now.B[:len(p.now.B)-10])} {
		if got := readSaid([]byte(other)); got != nil {
			t.Errorf("%d bytes that are not whole give %d pages", len(other), len(got))
		}
	}
}
