package publish

import (
	"slices"

	"keelpath/builder/read"
	"keelpath/builder/say"
	"keelpath/builder/told"
)

// dataAbout is what stands under "About me" on the sheet.
type dataAbout struct {
	Facts map[string]dataSentence `json:"facts"`
	Lines map[string]dataLine     `json:"lines"` // by "tree/question"
	Drawn []int                   `json:"drawn"` // the parts whose things the sheet may draw
}

// drawnParts are of things around the reader. The drawing on the sheet shows no body, no plan and no visit.
var drawnParts = []string{"ground", "numbers", "hardest", "shoes", "days"}

// dataSentence stands in a part of "About me", the first being 0.
type dataSentence struct {
	Part int    `json:"part"`
	Says string `json:"says"`
}

type dataLine struct {
	Part   int               `json:"part"`
	Amount string            `json:"amount,omitempty"` // a sentence with a gap for the amount
	These  string            `json:"these,omitempty"`  // a sentence with the gap {these} for those of list that are ticked
	List   map[string]string `json:"list,omitempty"`   // by answer
	Says   map[string]string `json:"says,omitempty"`   // sentences, by answer or likeness
}

func aboutOf(a *told.About, facts []*told.Fact, w *say.Words) *dataAbout {
	out := &dataAbout{Facts: map[string]dataSentence{}, Lines: map[string]dataLine{}}
	for i, p := range a.Parts {
		if slices.Contains(drawnParts, p.S) {
			out.Drawn = append(out.Drawn, i)
		}
	}
	part := func(t read.Text) int { return slices.IndexFunc(a.Parts, func(p read.Text) bool { return p.S == t.S }) }
	for _, f := range facts {
		if !f.Part.Given() {
			continue
		}
		says := f.Sheet.S
		if says == "" {
			says = w.Say("sheet.sentence", "fact", f.Says.S)
		}
		out.Facts[f.ID.S] = dataSentence{part(f.Part), says}
	}
	for _, l := range a.Lines {
		out.Lines[l.ID] = dataLine{part(l.Part), l.Amount.S, l.These.S, sayingsOf(l.List), sayingsOf(l.Says)}
	}
	return out
}

func sayingsOf(all []told.Saying) map[string]string {
	out := map[string]string{}
	for _, s := range all {
		out[s.Answer.S] = s.Words.S
	}
	return out
}
