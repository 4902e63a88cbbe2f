package browsertest

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"keelpath/builder/clienttest"
	"keelpath/builder/quantity"
	"keelpath/builder/tree"
)

// alone takes a tree in a place of the page that is no planner's, as a reader would:
// the page has the templates, and the planner itself is taken out of it.
const alone = `
document.getElementById("planner").remove();
const place = document.body.appendChild(document.createElement("main"));
const endOf = (walk) => document.importNode(document.getElementById("ending-" + walk.tree.id + "-" + walk.path().ending).content, true).firstElementChild;
const press = (name) => place.querySelector(name ? '[data-act="' + name + '"]' : '[type="submit"]').click();
const heading = () => { const h = place.querySelector('[data-slot="focus"]'); return [h.textContent, document.activeElement === h]; };
function fresh(table) { window.at = new script.Alone(JSON.parse(JSON.stringify(table)), place, endOf, units); }
function give(chosen) {
	if (chosen[0] === "skip") return press("skip");
	const one = place.querySelector('button.row[value="' + CSS.escape(chosen[0]) + '"]');
	if (one) return one.click();
	const boxes = Array.from(place.querySelectorAll('[type="checkbox"]'));
	const field = place.querySelector('.entry input');
	if (field) field.value = chosen[0];
	for (const b of boxes) if (b.checked !== chosen.includes(b.value)) b.click();
	press("");
}
`

// A tree that is taken by itself, with nothing of the planner around it, asks what Go's
// walk asks, ends where it ends, and can be gone back in and changed.
func TestTreeAlone(t *testing.T) {
	b := newTab(t)
	b.openPlanner(onDisk) // with the templates of all topics
	b.run(clienttest.Bundle(t, "tree/alone.ts") + ";window.script = script; window.units = " + quoted(b, quantity.Table()) + ";" + alone +
		"Object.assign(window, { place, press, heading, fresh, give }); 0")
	for _, id := range []string{"motion-or-push", "loads-and-weight", "something-changed"} {
		tr := lib.Tree(id)
		b.run("window.table = " + quoted(b, tr.Table(lib.Proofs[id].Left)))
		for _, given := range somePaths(t, tr)[:20] {
			want := walk(t, tr, given)
			got := eval[tree.Path](b, `(() => {
				fresh(table);
				for (const step of `+quoted(b, want.Steps)+`) give(step.chosen);
				return at.path();
			})()`)
			if diff := cmp.Diff(want, got, cmpopts.EquateApprox(0, 1e-9)); diff != "" {
				t.Fatalf("%s %v: Go (-) and the page (+) differ:\n%s", id, given, diff)
			}
			checkHeading(t, b, "at the end", tr.Ending(want.Ending).Title.S)
		}
	}

	tr := lib.Tree("motion-or-push")
	b.run("window.table = " + quoted(b, tr.Table(lib.Proofs[tr.ID.S].Left)) + "; fresh(table)")
	if eval[bool](b, `!place.querySelector('[data-act="back"]').hidden`) {
		t.Error("the first question offers a way back")
	}
	steps := walk(t, tr, longest(t, tr)).Steps
	asks := func(i int) string { return tr.Question(steps[i].Question).Text.S }
	b.run("for (const step of " + quoted(b, steps[:3]) + ") give(step.chosen)")
	b.run(`press("back")`)
	checkHeading(t, b, "back from the fourth", asks(2))
	b.run(`press("back")`)
	checkHeading(t, b, "back from the third", asks(1))
	b.run("give(" + quoted(b, steps[1].Chosen) + ")")
	checkHeading(t, b, "on from there", asks(2))
	b.run("give(" + quoted(b, steps[2].Chosen) + `); press("change")`)
	checkHeading(t, b, "the first answer is changed", asks(0))
	b.run("give(" + quoted(b, steps[0].Chosen) + ")")
	checkHeading(t, b, "and the reader is where they were", asks(3))
}

// checkHeading sees that a heading is what is read, with the focus on it.
func checkHeading(t *testing.T, b *tab, where, want string) {
	t.Helper()
	got := eval[[]any](b, "heading()")
	if text := oneLine(got[0].(string)); !strings.HasSuffix(text, oneLine(want)) || got[1] != true {
		t.Errorf("%s: %q, with the focus: %v; want %q", where, text, got[1], want)
	}
}

// longest gives of some paths the one with most questions.
func longest(t *testing.T, tr *tree.Tree) tree.Answers {
	t.Helper()
	var out tree.Answers
	for _, given := range somePaths(t, tr) {
		if out == nil || len(walk(t, tr, given).Steps) > len(walk(t, tr, out).Steps) {
			out = given
		}
	}
	return out
}
