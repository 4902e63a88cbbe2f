package library_test

import (
	"context"
	"slices"
	"strings"
	"sync"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/library"
)

// The same tampers as in TestTampers with nothing but reading and the seal, which
// is soon done. A few are found by another check, and are left to that test.
func TestSealAloneTampers(t *testing.T) {
	held := 0
	for _, c := range tampers(t, builtin(t)) {
		if c.check != "" {
			continue
		}
		held++
		t.Run(c.way+"/"+c.name, func(t *testing.T) {
			t.Parallel()
			d := open(t, c.file)
			c.edit(d)
			line := d.line(t, c.at)
			fs := sealFinds(t, c.file, d.text())
			if !slices.ContainsFunc(fs, func(f finding.Finding) bool {
				return f.Weight == finding.Error && f.Line == line && strings.HasPrefix(f.File, d.layer) && strings.HasSuffix(f.File, "/"+c.file) && len(f.Help) > 0
			}) {
				t.Errorf("nothing at line %d of the layer's %s; found: %s", line, c.file, said(fs))
			}
		})
	}
	if held < 60 {
		t.Errorf("only %d tampers are the seal's own", held)
	}
}

// The same harmless edits as in TestHarmless.
func TestSealAloneHarmless(t *testing.T) {
	for _, c := range harmless(t, builtin(t)) {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			d := open(t, c.file)
			c.edit(d)
			if fs := sealFinds(t, c.file, d.text()); len(fs) > 0 {
				t.Errorf("found: %s", said(fs))
			}
		})
	}
}

// sealFinds lays one file as a layer over what bears on it of the built-in content, and
// gives what the seal alone says of it.
func sealFinds(t *testing.T, file, src string) []finding.Finding {
	t.Helper()
	var list finding.List
	ground := library.Builtin().Only(func(n string) bool { return bearsOn(n, file) })
	if _, err := library.Sealed(t.Context(), &list, ground, layer(t, "-- "+file+" --\n"+src, &list)); err != nil {
		t.Fatal(err)
	}
	return slices.DeleteFunc(list.Sorted(), func(f finding.Finding) bool { return f.Check != "safety-kept" })
}

// bearsOn tells whether what is sealed of a file may rest on another one. Trees, pages and
// tables stand by themselves; only which prompts are sealed rests on trees.
func bearsOn(other, file string) bool {
	switch {
	case other == file, other == "content/edition.yaml", file == "content/edition.yaml":
		return true
	case file == "trees/prompts.yaml":
		return strings.HasPrefix(other, "trees/")
	}
	return other == "trees/safety.yaml"
}

// builtin is the built-in content as it is read, with no proofs.
func builtin(t *testing.T) *library.Library {
	t.Helper()
	l, err := readBuiltin()
	if err != nil {
		t.Fatal(err)
	}
	return l
}

var readBuiltin = sync.OnceValues(func() (*library.Library, error) {
	return library.Sealed(context.Background(), &finding.List{}, library.Builtin())
})
