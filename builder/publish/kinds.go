package publish

import (
	"keelpath/builder/plan"
	"keelpath/builder/prose"
	"keelpath/builder/read"
	"keelpath/builder/shelf"
)

// kind says how the pages of a kind are made.
type kind struct {
	template string   // of the page's own part
	loads    []string // entries, besides the site's own style, in the order in which the page names them
	model    func(viewer, plan.Page) (any, error)

	figures func(s *shelf.Shelf, of string) bool           // whether a page loads what figures need too; nil where none does
	aloud   bool                                           // it can be read aloud; not on a shared screen
	credits func(s *shelf.Shelf, of string) []read.Credits // of the texts that it shows; nil where it draws on everything
	text    func(s *shelf.Shelf, of string) prose.Counts   // what the checker grades; nil where the page's words stand in its template
	look    string                                         // a class of the whole page, for its style; empty for pages of text
	alone   bool                                           // its template is the whole page, with no layout around it
	screens bool                                           // it holds the reader's answers and shows a part at a time: links leave it open, and it has no trail, no lists of sources and no style of running text
}

// forFigures are the entries of figures that a reader can move.
var forFigures = []string{"style/figure.css", "client/figures/workbench.ts"}

// kinds has a row for each kind of page of room plan.
var kinds = map[plan.Kind]kind{
	plan.Home:       {template: "home", model: homeModel, look: "front", loads: []string{"style/home.css", "style/seek.css", fieldScript}},
	plan.Planner:    {template: "planner", model: plannerModel, look: "taking", loads: []string{"style/ask.css", "client/planner/planner.ts"}, credits: plannerCredits, screens: true},
	plan.Paper:      {template: "tree", model: paperModel, loads: []string{"style/planner.css"}, credits: treeCredits, text: treeText},
	plan.Start:      {template: "start", model: startModel, alone: true},
	plan.Learn:      {template: "learn", model: learnModel, loads: []string{openStyle, "style/seek.css", fieldScript}},
	plan.Search:     {template: "search", model: searchModel, loads: []string{"style/search.css", "client/search/search.ts"}},
	plan.Explainer:  {template: "explainer", model: explainerModel, loads: []string{openStyle}, figures: withFigures, aloud: true, credits: explainerCredits, text: explainerText},
	plan.Workbench:  {template: "workbench", model: workbenchModel},
	plan.Figure:     {template: "figure", model: figureModel, loads: forFigures},
	plan.Pulls:      {template: "pulls", model: pullsModel, loads: []string{"style/planner.css", "style/ground.css", "style/wishes.css", "client/wishes/wishes.ts"}},
	plan.MotionPush: {template: "motion-push", model: motionPushModel, loads: []string{"style/planner.css", "style/wishes.css"}},
	plan.FootTypes:  {template: "foot-types", model: footTypesModel, loads: []string{"style/feet.css", "client/feet/beside.ts"}},
	plan.Glossary:   {template: "glossary", model: glossaryModel, aloud: true},
	plan.Questions:  {template: "questions", model: questionsModel},
	plan.Teach:      {template: "teach", model: teachModel},
	plan.Inside:     {template: "inside", model: insideModel, loads: []string{"style/planner.css", "style/map.css"}, credits: treeCredits, text: treeText},
	plan.Cases:      {template: "cases", model: casesModel, loads: []string{"style/planner.css"}},
	plan.Case:       {template: "case", model: caseModel, loads: []string{"style/planner.css", "style/case.css"}, credits: caseCredits},
	plan.CaseKey:    {template: "case-key", model: caseKeyModel, loads: []string{"style/planner.css", "style/case.css"}, credits: caseCredits},
	plan.Clinic:     {template: "clinic", model: clinicModel},
	plan.Ratings:    {template: "ratings", model: ratingsModel},
	plan.Invite:     {template: "invite", model: inviteModel, loads: []string{"style/invite.css", "client/handout/handout.ts"}},
	plan.Sources:    {template: "sources", model: sourcesModel},
}
