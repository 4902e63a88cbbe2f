package proof

import (
	"maps"
	"slices"
	"strconv"

	"keelpath/builder/formula"
	"keelpath/builder/tree"
)

// Ahead gives the endings that can still be reached from a question, where earlier ones have these
// values; each once, in the tree's order. ok is false where the tree could not be searched.
func (p *Proof) Ahead(t *tree.Tree, question string, known map[string]formula.Value) (endings []string, ok bool) {
	if p == nil || p.search == nil {
		return nil, false
	}
	a := &ahead{search: p.search, seen: map[string]bool{}}
	a.from(question, known)
	for _, e := range t.Endings {
		if a.seen["ending "+e.ID.S] {
			endings = append(endings, e.ID.S)
		}
	}
	return endings, true
}

// ahead walks on over states, and leaves the search as it was.
type ahead struct {
	*search
	seen map[string]bool
}

func (a *ahead) from(id string, known map[string]formula.Value) {
	q := a.byID[id]
	if q == nil {
		a.seen["ending "+id] = true
		return
	}
	kept, key := map[string]formula.Value{}, id
	for _, name := range slices.Sorted(maps.Keys(known)) {
		if v := known[name]; slices.Contains(a.live[id], name) {
			kept[name] = v
			key += "|" + name + "=" + strconv.FormatBool(v.Known) + strconv.FormatFloat(v.Num, 'g', -1, 64)
			for _, c := range v.Chosen {
				key += "," + c
			}
		}
	}
	if a.seen[key] {
		return
	}
	a.seen[key] = true
	for _, c := range a.options[id] {
		on := maps.Clone(kept)
		on[id] = c.value
		if to, _ := q.Next(c.chosen, a.t.KnownWith(on)); to != "" {
			a.from(to, on)
		}
	}
}
