package proof_test

import (
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/proof"
	"keelpath/builder/tree"
)

// twoEndings is a tree with two endings, each of which hands over to others.
func twoEndings(t *testing.T, id, first, second string) *tree.Tree {
	t.Helper()
	src := strings.Replace(strings.Replace(header, "tree: random", "tree: "+id, 1), "start: q0", "start: wet", 1) + `questions:
  wet:
    text: Is the ground wet?
    why: Wet ground can be slippery.
    answers: { "yes": { text: "Yes", go: wet-ground }, unsure: { text: Not sure, go: dry } }
endings:
  wet-ground: { title: Wet, text: Ask about grip., next: [` + first + `] }
  dry: { title: Dry, text: Ask about dust., next: [` + second + `] }
`
	var list finding.List
	tr := tree.Parse("trees/"+id+".yaml", []byte(src), &list)
	if tr == nil || tr.ID.S != id {
		t.Fatalf("no tree %s: %v", id, list.Sorted())
	}
	return tr
}

// Each tree of a ring is named once, however many endings hand over to it.
func TestHandedToOnce(t *testing.T) {
	var list finding.List
	proof.HandOvers([]*tree.Tree{twoEndings(t, "a", "b, lost", "b"), twoEndings(t, "b", "a", "a")}, &list)
	got := list.Sorted()
	if len(got) != 2 || !strings.HasSuffix(got[0].Text, `in a circle: "b"`) || !strings.HasSuffix(got[1].Text, `in a circle: "a"`) {
		t.Errorf("findings: %v", got)
	}
}

func TestHandOvers(t *testing.T) {
	for _, c := range []struct {
		name  string
		trees [][3]string // id, what its two endings hand over to
		want  []string    // parts of the findings
	}{
		{"two that ask for each other, with a way out", [][3]string{{"a", "b", ""}, {"b", "a", "a"}}, nil},
		{"a way out two trees further on", [][3]string{{"a", "b", "b"}, {"b", "c", "c"}, {"c", "a", ""}}, nil},
		{"one ending back to its own tree", [][3]string{{"a", "a", ""}}, []string{`ending "wet-ground" hands over to its own tree`}},
		{"two only among themselves", [][3]string{{"a", "b", "b"}, {"b", "a", "a"}}, []string{`every ending of "a"`, `every ending of "b"`}},
		{"a third that leads into such a pair", [][3]string{{"a", "b", "b"}, {"b", "a", "a"}, {"c", "a", "b"}}, []string{`every ending of "a"`, `every ending of "b"`, `every ending of "c"`}},
		{"a third with its own way out", [][3]string{{"a", "b", "b"}, {"b", "a", "a"}, {"c", "a", ""}}, []string{`every ending of "a"`, `every ending of "b"`}},
		{"a ring of three", [][3]string{{"a", "b", "b"}, {"b", "c", "c"}, {"c", "a", "a"}}, []string{`every ending of "a"`, `every ending of "b"`, `every ending of "c"`}},
		{"a tree that is not there", [][3]string{{"a", "lost", "lost"}}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			var trees []*tree.Tree
			for _, x := range c.trees {
				trees = append(trees, twoEndings(t, x[0], x[1], x[2]))
			}
			var list finding.List
			proof.HandOvers(trees, &list)
			got := list.Sorted()
			if len(got) != len(c.want) {
				t.Fatalf("%d findings, want %d: %v", len(got), len(c.want), got)
			}
			for i, w := range c.want {
				if got[i].Check != "hand-over" || !strings.Contains(got[i].Text, w) {
					t.Errorf("finding %d reads %q, want %q", i, got[i].Text, w)
				}
			}
		})
	}
}
