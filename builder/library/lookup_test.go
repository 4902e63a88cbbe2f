package library_test

import (
	"context"
	"sync"
	"testing"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/library"
	"keelpath/builder/read"
	"keelpath/builder/told"
	"keelpath/builder/tree"
)

// found looks up every entry of a list by its id.
func found[T any](t *testing.T, kind string, all []*T, id func(*T) string, by func(string) *T) {
	t.Helper()
	for _, x := range all {
		if got := by(id(x)); got != x {
			t.Errorf("by the id of the %s %q there is another one", kind, id(x))
		}
	}
	if len(all) == 0 || by("nowhere") != nil {
		t.Errorf("%d of the kind %s, and nowhere is %v", len(all), kind, by("nowhere"))
	}
}

// What a list has is what its lookup finds, also where a layer replaced entries.
func TestLookups(t *testing.T) {
	var list finding.List
	before := load(t, &list, library.Builtin())
	over := load(t, &list, library.Builtin(), layer(t, tableLayer+sameCard(before.Card("a-fall"), "heel-99"), &list))
	fine(t, &list)
	if before.Word("loan-shelf") != nil || over.Word("loan-shelf") == nil || over.Prompt("heel-99") == nil || over.Word("keel").Meaning == before.Word("keel").Meaning {
		t.Error("the layer's entries are not found")
	}
	for _, l := range []*library.Library{before, over} {
		found(t, "tree", l.Trees, func(x *tree.Tree) string { return x.ID.S }, l.Tree)
		found(t, "explainer", l.Explainers, func(x *explainer.Page) string { return x.ID }, l.Explainer)
		found(t, "theme", l.Themes, func(x *library.Theme) string { return x.ID.S }, l.Theme)
		found(t, "prompt", l.Prompts(), func(x *library.Prompt) string { return x.ID.S }, l.Prompt)
		found(t, "fact", l.Facts, func(x *told.Fact) string { return x.ID.S }, l.Fact)
		found(t, "card", l.Cards, func(x *library.Card) string { return x.ID.S }, l.Card)
		found(t, "row", l.Rows, func(x *library.Row) string { return x.ID.S }, l.Row)
		found(t, "foot type", l.FootTypes, func(x *library.FootType) string { return x.ID.S }, l.FootType)
		found(t, "word", l.Words, func(x *library.Word) string { return x.ID.S }, l.Word)
		found(t, "source", l.Sources, func(x *library.Source) string { return x.ID.S }, l.Source)
		found(t, "yardstick", l.Yardsticks, func(x *library.Yardstick) string { return x.ID.S }, l.Yardstick)
	}
}

// A text is parsed once, whoever asks for it, and pages that are made side by side may
// all ask.
func TestTextsAreParsedOnce(t *testing.T) {
	var list finding.List
	l := load(t, &list, library.Builtin())
	text := l.Cards[0].Text
	first := l.Doc(text)
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for _, c := range l.Cards {
				l.Doc(c.Text)
			}
		})
	}
	all.Wait()
	if l.Doc(text) != first {
		t.Error("a text was parsed again")
	}
	if other := (read.Text{S: text.S + " More.", At: text.At}); l.Doc(other) == first || len(l.Doc(other).Plain) == 0 {
		t.Error("another text at the same place is taken for the first")
	}
}

// What it takes to read everything and to check it.
func BenchmarkLoad(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		var list finding.List
		if _, err := library.Load(context.Background(), &list, library.Builtin()); err != nil {
			b.Fatal(err)
		}
	}
}
