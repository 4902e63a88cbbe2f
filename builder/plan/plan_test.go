package plan_test

import (
	"slices"
	"strings"
	"testing"

	"keelpath/builder/internal/librarytest"
	"keelpath/builder/plan"
)

// All that the content has is on a page, and each page can be found by its name and
// by what it shows.
func TestPlan(t *testing.T) {
	l := librarytest.Load(t)
	p, err := plan.Of(l)
	if err != nil {
		t.Fatal(err)
	}
	want := len(l.Figures) + len(l.Explainers) + len(l.Trees) + 2*len(l.PatientTrees()) + 2*len(l.Cases) + 17
	if len(p.Pages) != want {
		t.Errorf("%d pages, want %d", len(p.Pages), want)
	}
	for _, page := range p.Pages {
		if got, ok := p.Named(page.Name); !ok || got != page {
			t.Errorf("by the name %s there is %+v", page.Name, got)
		}
		if got, ok := p.Find(page.Kind, page.Of); !ok || got != page {
			t.Errorf("of the kind %s and %q there is %+v", page.Kind, page.Of, got)
		}
		if page.Title == "" || page.About == "" || page.Lang != "en" {
			t.Errorf("%s lacks something: %+v", page.Name, page)
		}
		folder, _, in := strings.Cut(page.Name, "/")
		if page.Kind == plan.Start {
			in = folder != "start"
		}
		if in && folder != page.Room || !in && page.Room != "" {
			t.Errorf("%s is in the room %q", page.Name, page.Room)
		}
		if page.Room != "" && !slices.ContainsFunc(plan.Rooms, func(r plan.Room) bool { return r.ID == page.Room }) {
			t.Errorf("%s is in the room %q, and there is none", page.Name, page.Room)
		}
	}
	for _, r := range plan.Rooms {
		if front, ok := p.Named(r.Front()); !ok || p.In(r.ID)[0] != front {
			t.Errorf("the room %s does not begin with %s", r.ID, r.Front())
		}
	}
	if got, ok := p.Named("learn/nowhere.html"); ok {
		t.Errorf("there is no such page, and the plan gives %+v", got)
	}
	if got, ok := p.Find(plan.Paper, "nowhere"); ok {
		t.Errorf("there is no such tree, and the plan gives %+v", got)
	}
}

// A tree that patients do not take has no paper page; an edition without cases has no page of them.
func TestPagesThatAreNotThere(t *testing.T) {
	l := librarytest.Load(t)
	l.Cases = nil
	l.Trees[0].Audience.S = "resident"
	p, err := plan.Of(l)
	if err != nil {
		t.Fatal(err)
	}
	id := l.Trees[0].ID.S
	if _, ok := p.Find(plan.Paper, id); ok {
		t.Errorf("%s has a paper page", id)
	}
	if page, ok := p.Find(plan.Inside, id); !ok || page.Name != "teach/"+id+".html" {
		t.Errorf("%s has the page %+v", id, page)
	}
	if _, ok := p.Find(plan.Cases, ""); ok {
		t.Error("there is a page of no cases")
	}
}

// An explainer by the name of a page that is there anyway has no room of its own.
func TestTwoPagesOfOneName(t *testing.T) {
	l := librarytest.Load(t)
	l.Explainers[0].ID = "glossary"
	if _, err := plan.Of(l); err == nil || !strings.Contains(err.Error(), "two pages would both be learn/glossary.html") {
		t.Errorf("got %v", err)
	}
}
