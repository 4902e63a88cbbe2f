package proof

import (
	"fmt"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/tree"
)

// HandOvers reports what goes wrong from tree to tree. Trees may hand over to
// each other: hills ask about heels, heels ask about hills, and a reader who has
// taken both is done. It is a fault when an ending leads back to its own tree,
// and when trees hand over only among themselves, every ending of each, so that
// a reader who goes where the endings point never comes to a stop.
func HandOvers(trees []*tree.Tree, list *finding.List) {
	for _, t := range trees {
		for _, e := range t.Endings {
			for _, n := range e.Next {
				if n.S == t.ID.S {
					list.Add(n.At, "hand-over", fmt.Sprintf("ending %q hands over to its own tree", e.ID.S), "take the name out: a reader can always go back and change an answer")
				}
			}
		}
	}
	round := endless(trees)
	for _, t := range trees {
		if round[t.ID.S] && len(t.Endings) > 0 {
			list.Add(t.ID.At, "hand-over", fmt.Sprintf("every ending of %q hands over to trees that lead round in a circle: %s", t.ID.S, strings.Join(handedTo(t, round), ", ")),
				"no ending of these trees lets the reader be done", "take next: out of an ending that needs no other tree")
		}
	}
}

// endless gives the largest set of trees whose every ending hands over into the
// set. It takes out, until nothing changes, the trees with an ending that does not.
func endless(trees []*tree.Tree) map[string]bool {
	in := map[string]bool{}
	for _, t := range trees {
		in[t.ID.S] = true
	}
	for changed := true; changed; {
		changed = false
		for _, t := range trees {
			if in[t.ID.S] && stops(t, in) {
				in[t.ID.S], changed = false, true
			}
		}
	}
	return in
}

// stops tells whether some ending of a tree hands over to none of a set.
func stops(t *tree.Tree, in map[string]bool) bool {
	for _, e := range t.Endings {
		if !leadsInto(e.Next, in) {
			return true
		}
	}
	return len(t.Endings) == 0
}

func leadsInto(next []read.Text, in map[string]bool) bool {
	for _, n := range next {
		if in[n.S] {
			return true
		}
	}
	return false
}

// handedTo gives the trees of a set that a tree hands over to, in quotes.
func handedTo(t *tree.Tree, in map[string]bool) []string {
	var out []string
	seen := map[string]bool{}
	for _, e := range t.Endings {
		for _, n := range e.Next {
			if in[n.S] && !seen[n.S] {
				seen[n.S] = true
				out = append(out, fmt.Sprintf("%q", n.S))
			}
		}
	}
	return out
}
