package publish

import (
	"keelpath/builder/library"
	"keelpath/builder/plan"
)

// questionsView lists all prompts by theme, the general ones first.
type questionsView struct {
	PageView
	General []PromptView
	Opening []LinkView // sources of the general ones
	Themes  []themeView
}

type themeView struct {
	ID, Title, About string
	Prompts          []PromptView
}

func questionsModel(v viewer, _ plan.Page) (any, error) {
	out := questionsView{PageView: v.view, General: v.promptViews(v.shelf.General()), Opening: v.opening()}
	for _, t := range v.shelf.Themes() {
		out.Themes = append(out.Themes, themeView{t.ID.S, t.Title.S, t.About.S, v.promptViews(t.Prompts)})
	}
	return out, nil
}

func (v viewer) promptViews(ps []*library.Prompt) []PromptView {
	var out []PromptView
	for _, p := range ps {
		out = append(out, v.prompt(p))
	}
	return out
}
