package publish

import (
	"slices"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/plan"
	"keelpath/builder/tree"
	"keelpath/site"
)

// Names of pages, written out: an address that readers have kept should not move
// because a table changes.
const (
	homeName       = "index.html"
	plannerName    = "prepare/index.html"
	learnName      = "learn/index.html"
	footTypesName  = "learn/foot-types.html"
	glossaryName   = "learn/glossary.html"
	questionsName  = "learn/questions.html"
	workbenchName  = "workbench/index.html"
	pullsName      = "workbench/what-pulls-against-what.html"
	motionPushName = "workbench/motion-against-push.html"
	teachName      = "teach/index.html"
	casesName      = "teach/cases.html"
	clinicName     = "clinic/index.html"
	sourcesName    = "clinic/sources.html"
	ratingsName    = "clinic/self-ratings.html"
)

// Each kind of page has its row here and in the plan, a template, and loads only what
// is an asset.
func TestKinds(t *testing.T) {
	m, err := newMaker(load(t), site.Files, &finding.List{})
	if err != nil {
		t.Fatal(err)
	}
	planned := map[plan.Kind]bool{}
	for _, p := range m.plan.Pages {
		planned[p.Kind] = true
	}
	for k := range planned {
		if _, ok := kinds[k]; !ok {
			t.Errorf("nothing says how a page of the kind %q is made", k)
		}
	}
	loaded := map[string]bool{siteStyle: true, textStyle: true, mark: true, "type/keelpath-text-400.woff2": true, "type/keelpath-text-600.woff2": true, // which the style names
		"client/carry/carry.ts": true, "client/planner/sheets.ts": true, "style/sheets.css": true, groundScript: true, groundStyle: true, "style/drawing.css": true, asidesScript: true} // the last ones when asked
	for k, how := range kinds {
		if !planned[k] {
			t.Errorf("no page is of the kind %q", k)
		}
		if m.templates.Lookup(how.template) == nil {
			t.Errorf("the kind %q has no template %q", k, how.template)
		}
		uses := how.loads
		if how.figures != nil {
			uses = slices.Concat(uses, forFigures)
		}
		if how.aloud {
			uses = append(slices.Clone(uses), aloudScript)
		}
		for _, from := range uses {
			loaded[from] = true
			if m.assets[from] == nil {
				t.Errorf("pages of the kind %q load %s, and it is no asset", k, from)
			}
		}
	}
	for _, e := range entries {
		if !loaded[e.from] {
			t.Errorf("no page loads %s", e.from)
		}
	}
}

// byHandName is the page on which a tree is walked by hand.
func byHandName(tr *tree.Tree) string {
	if tr.Audience.S == audiencePatient {
		return "prepare/" + tr.ID.S + ".html"
	}
	return "teach/" + tr.ID.S + ".html"
}
