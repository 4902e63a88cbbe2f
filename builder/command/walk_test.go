package command

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/library"
	"keelpath/builder/tree"
)

const twoHeels = `tree: two-heels
title: Two heels
audience: resident
purpose: It holds two heels against each other.
authors: [Us]
reviewers: []
reviewed: 2026-11-25
review-by: 2028-11-25
funding: None.
start: one
values:
  apart: abs(one - other)
questions:
  one:
    text: How high is the one heel?
    why: It is held against the other.
    measure: { unit: mm, accept: [mm, cm, in], from: 0, to: 120, step: 1 }
    go: other
    skip: end
  other:
    text: How high is the other heel?
    why: It is held against the one.
    measure: { unit: mm, accept: [mm, cm, in], from: 0, to: 120, step: 1 }
    go: end
    skip: end
endings:
  end: { title: Two heels, text: "They are {apart} apart." }
`

// A number without its unit is asked about, and the unit alone answers. What was
// written is read back at once, and said again at the end.
func TestWalkAsksForTheUnit(t *testing.T) {
	var list finding.List
	var out bytes.Buffer
	w := &walker{l: &library.Library{}, t: tree.Parse("two-heels.yaml", []byte(twoHeels), &list)}
	for _, f := range list.Sorted() {
		t.Fatalf("%s: %s", f.Place, f.Text)
	}
	w.s = Streams{In: strings.NewReader("3.5\nin\n12\n3\n1.2\n4 cm\n"), Out: &out, Err: &out}
	if err := w.ask(context.Background()); err != nil {
		t.Fatalf("%v\n%s", err, out.String())
	}
	rest := out.String()
	for _, want := range []string{
		"How high is the one heel?",
		"Please add the unit: 3.5 mm, 3.5 cm or 3.5 in.\n   -  3.5 mm\n   -  3.5 cm\n   -  3.5 in\nWrite one of these, or just its unit.\n",
		"  3.5 in is 88.9 mm.\n",
		"How high is the other heel?",
		"Please add the unit: 12 mm or 12 cm.",
		"Please add the unit: 3 mm, 3 cm or 3 in.", // not 12 and 3 together
		"Please add the unit: 1.2 mm, 1.2 cm or 1.2 in.",
		"  4 cm is about 1 5/8 in.\n", // a whole amount stands for itself
		"They are 48.9 mm (1 7/8 in) apart.",
		"How high is the one heel? 3.5 in (88.9 mm)",
		"How high is the other heel? 4 cm (1 5/8 in)",
	} {
		_, after, ok := strings.Cut(rest, want)
		if !ok {
			t.Fatalf("not said, or not in this order: %q\n%s", want, out.String())
		}
		rest = after
	}
}
