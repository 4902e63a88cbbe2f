package browsertest

import (
	"fmt"
	"testing"

	"keelpath/builder/tree"
)

// A part is where something of a question stands, in pixels from the top of the window.
type part struct{ Top, Bottom float64 }

// A fit is what a question shows as it opens, in a window of which the sheet's line at the
// foot is taken off. Each answer is a part; the place to write an amount is one as well.
type fit struct {
	Question            string // its id
	Room                float64
	Scrolled            float64
	FirstLine, Ask, Why part
	Answers             []part
	Font                bool // the site's own typeface is there
}

// fits opens every question of a tree, each from the topics along a way that leads there, and
// measures it. The sheet's line is put in also where this reader has told nothing yet, because
// whoever takes a second topic has it from the first question on.
func (b *tab) fits(tr *tree.Tree) []fit {
	b.t.Helper()
	type way struct {
		To    string
		Steps [][]string
	}
	var ways []way
	for _, q := range tr.Questions {
		path, err := tr.Walk(witness(tr, q.ID.S))
		b.must(err)
		one := way{To: q.ID.S, Steps: [][]string{}}
		for _, step := range path.Steps {
			if step.Question == q.ID.S {
				break
			}
			one.Steps = append(one.Steps, step.Chosen)
		}
		ways = append(ways, one)
	}
	return eval[[]fit](b, fmt.Sprintf(`(async () => {%s
const measure = (id) => {
  const slip = planner.querySelector('[data-slot="slip"]');
  if (slip.hidden) { slip.hidden = false; planner.querySelector('[data-slot="last"]').innerHTML = "<span>Flat ground</span>"; }
  const where = (r) => ({ Top: r.top, Bottom: r.bottom }), of = (e) => where(e.getBoundingClientRect());
  const h2 = planner.querySelector(".question h2"), line = document.createRange();
  line.selectNodeContents(h2);
  if (!h2.id.endsWith("-" + id)) throw new Error("at " + h2.id + ", wanted " + id);
  return { Question: id, Room: slip.getBoundingClientRect().top, Scrolled: scrollY, FirstLine: where(line.getClientRects()[0]), Ask: of(h2), Why: of(planner.querySelector(".question .why")),
    Answers: Array.from(planner.querySelectorAll(".question .row, .question .entry input"), of), Font: document.fonts.check('600 20px "Keelpath Text"') };
};
const out = [];
for (const way of %s) {
  answer([%q]); pass();
  for (const ids of way.Steps) if (String(ids) === %q) button("skip"); else answer(ids);
  await document.fonts.ready;
  out.push(measure(way.To));
  button("clear"); button("clear-now");
}
return out; })()`, hands, quoted(b, ways), tr.ID.S, tree.Skip))
}

// One question a screen: on a small phone a reader sees what is asked, why, and where the answers
// begin; on a common one all answers, as long as there are no more than five. The sizes are those of
// phones with a window of 360 by 640 and of 390 by 844 (common practice, no source). The question
// begins near the top, so that nothing has to be passed first.
func TestQuestionFitsAPhone(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	questions := 0
	for _, phone := range []struct {
		w, h   int64
		always int // so many answers are in view
		whole  int // and all, where there are no more than these
	}{{360, 640, 1, 1}, {390, 844, 1, 5}} {
		b.size(phone.w, phone.h)
		b.openPlanner(onDisk)
		for _, tr := range lib.Trees {
			if tr.Audience.S != "patient" {
				continue
			}
			for _, f := range b.fits(tr) {
				questions++
				at := fmt.Sprintf("%dx%d, %s, %s", phone.w, phone.h, tr.ID.S, f.Question)
				if !f.Font || f.Scrolled != 0 || len(f.Answers) == 0 {
					t.Errorf("%s: typeface %v, scrolled by %.0f, %d answers", at, f.Font, f.Scrolled, len(f.Answers))
					continue
				}
				if f.FirstLine.Top > 120 {
					t.Errorf("%s: the question begins at %.0f px, want 120 at most", at, f.FirstLine.Top)
				}
				if f.Ask.Top < 0 || f.Ask.Bottom > f.Room || f.Why.Bottom > f.Room {
					t.Errorf("%s: the question ends at %.0f and the reason at %.0f, in a room of %.0f", at, f.Ask.Bottom, f.Why.Bottom, f.Room)
				}
				seen := 0
				for _, a := range f.Answers {
					if a.Top >= 0 && a.Bottom <= f.Room {
						seen++
					}
				}
				want := phone.always
				if len(f.Answers) <= phone.whole {
					want = len(f.Answers)
				}
				if seen < want {
					t.Errorf("%s: %d of %d answers are in view, want %d; the first ends at %.0f, the last at %.0f, in a room of %.0f", at, seen, len(f.Answers), want, f.Answers[0].Bottom, f.Answers[len(f.Answers)-1].Bottom, f.Room)
				}
			}
		}
	}
	if questions < 100 {
		t.Errorf("only %d questions were measured", questions)
	}
}

// One tap on an answer of a question that takes one goes on as Go's walk does. Nothing is sent or
// stored by it, the address stays, and no other page takes this one's place.
func TestOneTapGoesOn(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.size(360, 640)
	b.openPlanner(onWeb)
	where := eval[string](b, `location.href`)
	b.run(`window.clock = 1e6; performance.now = () => window.clock; window.same = true`) // so that no tap comes too soon
	taps := 0
	for _, tr := range lib.Trees {
		if tr.Audience.S != "patient" {
			continue
		}
		path := walk(t, tr, longest(t, tr))
		s := b.choose(tr.ID.S)
		for i, step := range path.Steps {
			q := tr.Question(step.Question)
			if s.Question != oneLine(q.Text.S) {
				t.Fatalf("%s: at %q, want %q", tr.ID.S, s.Question, q.Text.S)
			}
			one := q.Pick != tree.PickAny && step.Chosen[0] != tree.Skip && (q.Measure == nil || q.Measure.Like(step.Chosen[0]) != nil)
			if !one {
				s = b.choose(step.Chosen...)
				continue
			}
			taps++
			before := len(b.requests())
			at := eval[[]float64](b, fmt.Sprintf(`(() => { window.clock += 1000; const e = document.querySelector('#planner .question .row[value="%s"]'); e.scrollIntoView({ block: "center" }); const r = e.getBoundingClientRect(); return [r.left + r.width / 2, r.top + r.height / 2]; })()`, step.Chosen[0]))
			b.tapAt(at[0], at[1])
			s = b.look()
			if last := i == len(path.Steps)-1; last && (s.View == "question" || s.View == "topics") || !last && s.Question != oneLine(tr.Question(path.Steps[i+1].Question).Text.S) {
				t.Fatalf("%s: a tap on %q at %q leads to %q, %q", tr.ID.S, step.Chosen[0], q.Text.S, s.View, s.Question)
			}
			got := eval[[]any](b, `[window.same === true, location.href, localStorage.length + sessionStorage.length, document.cookie]`)
			if sent := b.requests()[before:]; len(sent) > 0 || got[0] != true || got[1] != where || got[2] != 0.0 || got[3] != "" {
				t.Errorf("%s: a tap at %q asks for %q and leaves %v", tr.ID.S, q.Text.S, sent, got)
			}
		}
		b.clear()
	}
	if taps < 20 {
		t.Errorf("only %d taps were made", taps)
	}
}
