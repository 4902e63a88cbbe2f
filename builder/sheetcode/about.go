package sheetcode

import (
	"math/big"
	"slices"

	"keelpath/builder/library"
	"keelpath/builder/read"
	"keelpath/builder/told"
	"keelpath/builder/tree"
)

// about is what stands under "About me" by its names alone, which are the same in every language and voice.
type about struct {
	Facts []string          `json:"facts"` // that have a sentence there
	Lines map[string]answer `json:"lines"` // by "tree/question"
}

// answer is which answers to a question have words there: in one sentence for all that are ticked, or in sentences of their own.
type answer struct {
	List []string `json:"list,omitempty"`
	Says []string `json:"says,omitempty"`
}

func aboutOf(l *library.Library) about {
	out := about{Facts: []string{}, Lines: map[string]answer{}}
	for _, f := range l.Facts {
		if f.Part.Given() {
			out.Facts = append(out.Facts, f.ID.S)
		}
	}
	for _, line := range l.About.Lines {
		out.Lines[line.ID] = answer{answersOf(line.List), answersOf(line.Says)}
	}
	return out
}

func answersOf(all []told.Saying) []string {
	var out []string
	for _, s := range all {
		out = append(out, s.Answer.S)
	}
	return out
}

// sayable names all that can stand under "About me" of a sheet with these paths, each once and in order of name: a fact by its
// id, one sentence for what is ticked of a list as "tree/question", a sentence of an answer as "tree/question/answer". What the
// safety screen told of the leg is in no code, so it is not among them. Some of them may
// not stand there after all, as where an answer speaks for its facts; that would depend on words and on the order of topics.
func (b *Book) sayable(paths map[string]tree.Path) []string {
	out := []string{}
	for _, t := range b.trees {
		for _, step := range paths[t.ID.S].Steps {
			q := t.Question(step.Question)
			for _, f := range told.By(q, step.Chosen) {
				if slices.Contains(b.about.Facts, f) {
					out = append(out, f)
				}
			}
			id := t.ID.S + "/" + step.Question
			line, ok := b.about.Lines[id]
			if ok && q.Measure != nil { // an amount is said under its fact
				out = append(out, read.Strings(q.Tells)...)
			}
			for _, a := range step.Chosen {
				if slices.Contains(line.List, a) {
					out = append(out, id)
				}
				if q.Measure == nil && slices.Contains(line.Says, a) {
					out = append(out, id+"/"+a)
				}
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// off is which of n lines were taken off.
type off struct {
	n      int
	places []int
}

// off gives where those taken off stand among the lines of the paths. What is no longer told stands nowhere.
func (b *Book) off(paths map[string]tree.Path, unsaid []string) off {
	all := b.sayable(paths)
	out := off{n: len(all)}
	for i, id := range all {
		if slices.Contains(unsaid, id) {
			out.places = append(out.places, i)
		}
	}
	return out
}

func (o off) any() bool { return len(o.places) > 0 }

// rank numbers them, fewer lines first. None at all has no number.
func (o off) rank() *big.Int {
	n := upTo(o.n, o.places)
	return n.Sub(n, big.NewInt(1))
}

// unsaid gives the lines that a number stands for; ok is false where it stands for none.
func (b *Book) unsaid(paths map[string]tree.Path, rank *big.Int) (ids []string, ok bool) {
	all := b.sayable(paths)
	rank = new(big.Int).Add(rank, big.NewInt(1))
	if rank.Cmp(power(len(all))) >= 0 {
		return nil, false
	}
	for _, i := range unUpTo(len(all), rank) {
		ids = append(ids, all[i])
	}
	return ids, true
}
