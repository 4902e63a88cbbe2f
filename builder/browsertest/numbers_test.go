package browsertest

import (
	"fmt"
	"strings"
	"testing"

	"keelpath/builder/tree"
)

// at goes to a question of a tree that nothing was answered of yet.
func (b *tab) at(id string, answers tree.Answers) *tree.Tree {
	b.t.Helper()
	tr := lib.Tree(id)
	path, err := tr.Walk(answers)
	if err != nil || path.Open == "" {
		b.t.Fatalf("%s %v: %v, ends at %q", id, answers, err, path.Ending)
	}
	if s := b.screens(tr, path); s[len(s)-1].Entry == "" {
		b.t.Fatalf("not at an amount: %+v", s[len(s)-1])
	}
	return tr
}

// readBack is what stands under the box.
func (b *tab) readBack() string {
	b.t.Helper()
	return oneLine(eval[string](b, `document.querySelector('#planner .entry [data-slot="back"]').innerText`))
}

func (b *tab) openFigure() {
	b.t.Helper()
	b.run(`document.querySelector("#planner .see summary").click()`)
	b.waitFor(`document.querySelector("#planner .figure-live") !== null`)
	b.settled()
}

// offered is what the figure beside a question offers: its number for the box, and
// its question for the sheet.
func (b *tab) offered(name string) string {
	b.t.Helper()
	return oneLine(eval[string](b, fmt.Sprintf(`(() => { const e = document.querySelector('#planner .figure [data-act=%q]'); return e.getClientRects().length ? e.innerText : ""; })()`, name)))
}

const slopeQuestion = "My slope is %s. How far does my ankle bend, up and down, when I stand on it?"

// A number without its unit is asked about, as soon as it stands in the box, with a button
// for each unit in which it can be meant. None is chosen before; the chosen one is read back,
// and only then does the question go on. What is typed with its unit is read back as it is typed.
func TestMissingUnitIsAsked(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	b.at("heel-height", tree.Answers{"knee": {"none"}, "shoes": {"day"}})
	before := b.look().Question
	units := func() string {
		return strings.Join(eval[[]string](b, `Array.from(document.querySelectorAll("#planner .units button"), (e) => e.getClientRects().length ? e.innerText : "unseen")`), ", ")
	}
	if b.hand(`write(planner.querySelector(".entry input"), "3.5")`); units() != "3.5 mm, 3.5 cm, 3.5 in" {
		t.Errorf("with a bare number in the box it is asked with %q", units())
	}
	s := b.choose("3.5")
	if s.Question != before || !strings.HasPrefix(s.Problem, "Which unit is that?") {
		t.Fatalf("after a bare number: %q, problem %q", s.Question, s.Problem)
	}
	if units() != "3.5 mm, 3.5 cm, 3.5 in" {
		t.Errorf("it is asked with %q", units())
	}
	if b.readBack() != "" {
		t.Errorf("read back before anything was chosen: %q", b.readBack())
	}
	b.sizeWhole(1000, 700)
	b.loadAxe()
	for _, p := range b.axe().problems() {
		t.Error(p)
	}
	b.pressButton("3.5 in")
	if s := b.look(); s.Question != before || s.Written != "3.5 in" || s.Problem != "" || b.readBack() != "3.5 in is 88.9 mm." || units() != "" {
		t.Errorf("chosen: %q holds %q, problem %q, read back %q", s.Question, s.Written, s.Problem, b.readBack())
	}
	b.hand(`write(planner.querySelector(".entry input"), "3.5")`) // a mind can be changed
	b.pressButton("3.5 cm")
	if b.readBack() != "3.5 cm is about 1 3/8 in." {
		t.Errorf("read back %q", b.readBack())
	}
	for _, c := range []struct{ typed, back, units string }{
		{"3 1/2 in", "3 1/2 in is 88.9 mm.", ""}, {"4", "", "4 mm, 4 cm, 4 in"}, {"4 in", "4 in is 101.6 mm.", ""}, {"9", "", "9 mm, 9 cm"}, {"200 mm", "", ""},
	} {
		b.hand(`write(planner.querySelector(".entry input"), %s)`, c.typed)
		if got := b.readBack(); got != c.back {
			t.Errorf("%q is read back as %q, want %q", c.typed, got, c.back)
		}
		if units() != c.units {
			t.Errorf("%q is asked about with %q, want %q", c.typed, units(), c.units)
		}
	}
	s = b.choose("3 1/2 in")
	if got := s.Trail[len(s.Trail)-1].Answers; got[0] != "3 1/2 in (88.9 mm)" {
		t.Errorf("the answer is told as %q", got)
	}
}

// A figure beside a question shows the reader's own amount from the start, follows
// the box, and changes it only when the reader says so. Its question is offered
// once its numbers are the reader's.
func TestFigureShowsOwnNumbers(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	b.at("hills-and-ramps", witness(lib.Tree("hills-and-ramps"), "steepness"))
	b.openFigure()
	example, use := b.figureText("steepness"), b.offered("use")
	if own := b.offered("own"); own != "" {
		t.Errorf("a question with an example's number is offered: %q", own)
	}
	for _, c := range [][2]string{
		{"14 %", "14 % (about 8 degrees, 1:7.1)"}, {"1:12", "1:12 (about 8.3 %, 4.8 degrees)"},
		{"1:6", "1:6 (about 16.7 %, 9.5 degrees)"}, {"16 %", "16 % (about 9.1 degrees, 1:6.3)"},
	} {
		typed, shown := c[0], c[1]
		b.hand(`write(planner.querySelector(".entry input"), %s)`, typed)
		b.settled()
		if got := b.figureText("steepness"); got != shown {
			t.Errorf("%s: the figure says %q, want %q", typed, got, shown)
		}
		if got, want := b.figureText("prompt"), fmt.Sprintf(slopeQuestion, shown); got != want {
			t.Errorf("%s: the figure asks %q, want %q", typed, got, want)
		}
		if b.offered("own") == "" || b.offered("use") != "" {
			t.Errorf("%s: offered are %q and %q", typed, b.offered("own"), b.offered("use"))
		}
	}
	b.run(`const slider = document.querySelector('#planner .figure [data-slider="steepness"]'); slider.value = "0.2"; slider.dispatchEvent(new Event("input", { bubbles: true })); slider.dispatchEvent(new Event("change", { bubbles: true }))`)
	b.settled()
	if s := b.look(); s.Written != "16 %" {
		t.Errorf("the figure wrote %q into the box by itself", s.Written)
	}
	if got := b.offered("use"); got != "Use this number: 20 %" {
		t.Errorf("offered for the box is %q", got)
	}
	b.run(`document.querySelector('#planner .figure [data-act="use"]').click()`)
	b.settled()
	if s := b.look(); s.Written != "20 %" || b.readBack() != "20 % is about 11.3 degrees, 1:5." || b.offered("use") != "" {
		t.Errorf("the box holds %q, read back %q; still offered %q", s.Written, b.readBack(), b.offered("use"))
	}
	// What it is like, in place of a number, answers at once; the figure goes by what is written.
	question := b.look().Question
	if s := b.choose("ramp"); s.Question == question {
		t.Error("what it is like does not go on")
	}
	b.tap("back")
	b.waitFor(`document.querySelector("#planner .question h2")?.innerText === ` + quoted(b, question))
	b.openFigure()
	if got := b.figureText("steepness"); got != example || b.offered("own") != "" || b.offered("use") != use {
		t.Errorf("with nothing written the figure says %q and offers %q, %q; at first it said %q and offered %q", got, b.offered("own"), b.offered("use"), example, use)
	}
}

// One amount is the same everywhere: under the box, in the figure and its question,
// in the answers told, at the ending, on the sheet, in its text, and when the code
// is opened again. What is worked out comes from what was typed: 210 lb is 95.254 kg,
// and with 20 kg that is 115.3 kg (0.45359237 kg a pound, NIST SP 811, from memory);
// 3.5 in less 3/8 in is 3 1/8 in, 79.4 mm.
func TestOneAmountEverywhere(t *testing.T) {
	for _, c := range []struct {
		tree    string
		before  tree.Answers
		typed   []string // one question after the other
		back    []string // read back
		shown   []string // as the answers are told
		figure  []string // in the figure's question at the last of them
		after   []string
		ending  string // worked out
		carried string // what the page says that the code holds otherwise
	}{
		{"hills-and-ramps", tree.Answers{"safety": {"no"}, "change": {"no"}, "where": {"home"}}, []string{"1:12"}, []string{"1:12 is about 8.3 %, 4.8 degrees."},
			[]string{"1:12 (about 8.3 %, 4.8 degrees)"}, []string{"1:12 (about 8.3 %, 4.8 degrees)"}, []string{"both"}, "4.8 degrees", ""},
		{"hills-and-ramps", tree.Answers{"safety": {"no"}, "change": {"no"}, "where": {"home"}}, []string{"16 %"}, []string{"16 % is about 9.1 degrees, 1:6.3."},
			[]string{"16 % (about 9.1 degrees, 1:6.3)"}, []string{"16 % (about 9.1 degrees, 1:6.3)"}, []string{"both"}, "9.1 degrees", ""},
		{"heel-height", tree.Answers{"safe": {"no"}, "knee": {"none"}, "shoes": {"day"}}, []string{"3/8 in", "1 1/2 in"}, []string{"3/8 in is about 9.5 mm.", "1 1/2 in is 38.1 mm."},
			[]string{"3/8 in (9.5 mm)", "1 1/2 in (38.1 mm)"}, []string{"1 1/8 in (28.6 mm) more"}, []string{"yes"}, "28.6 mm (1 1/8 in)", ""},
		{"loads-and-weight", tree.Answers{"safety": {"no"}, "signs": {"none"}, "change": {"same"}, "things": {"child"}}, []string{"210 lb", "20 kg"}, []string{"210 lb is about 95.3 kg.", "20 kg is about 44 lb."},
			[]string{"210 lb (95.3 kg)", "20 kg (44 lb)"}, []string{"115.3 kg (254 lb)"}, nil, "115.3 kg (254 lb)", ""},
		{"hills-and-ramps", tree.Answers{"safety": {"no"}, "change": {"no"}, "where": {"home"}}, []string{"8.33 %"}, []string{"8.33 % is about 4.8 degrees, 1:12."},
			[]string{"8.33 % (about 4.8 degrees, 1:12)"}, []string{"8.33 % (about 4.8 degrees, 1:12)"}, []string{"both"}, "4.8 degrees", "The code holds your “8.33 %” as 8.35 %."},
	} {
		t.Run(strings.Join(c.typed, " and "), func(t *testing.T) {
			t.Parallel()
			b := newTab(t)
			b.openPlanner(onDisk)
			b.at(c.tree, c.before)
			ask := ""
			for i, typed := range c.typed {
				b.hand(`write(planner.querySelector(".entry input"), %s)`, typed)
				if got := b.readBack(); got != c.back[i] {
					t.Errorf("%s is read back as %q, want %q", typed, got, c.back[i])
				}
				if i == len(c.typed)-1 {
					b.openFigure()
					ask = b.figureText("prompt")
					for _, want := range c.figure {
						if !strings.Contains(ask, want) {
							t.Errorf("the figure asks %q, without %q", ask, want)
						}
					}
					b.pressButton("Put this question on my sheet")
				}
				b.choose(typed)
			}
			for _, answer := range c.after {
				b.choose(answer)
			}
			s := b.look()
			told := oneLine(fmt.Sprint(s.Trail))
			for _, want := range c.shown {
				if !strings.Contains(told, want) {
					t.Errorf("the answers are told as %s, without %q", told, want)
				}
			}
			if got := strings.Join(s.Ending.Text, " "); s.View != "ending" || !strings.Contains(got, c.ending) {
				t.Errorf("%s %q says %q, without %q", s.View, s.Ending.Title, got, c.ending)
			}
			if got := b.tap("bar-sheet").Sheet.Own; len(got) != 1 || got[0] != ask {
				t.Errorf("on the sheet are %q, want %q", got, ask)
			}
			b.hand(`tapOn(planner.querySelector('[data-slot="share"] summary'), "without paper")`)
			b.waitFor(`document.getElementById("planner-text").value !== ""`)
			text := oneLine(eval[string](b, `document.getElementById("planner-text").value`))
			for _, want := range append([]string{ask}, c.shown...) {
				if !strings.Contains(text, want) {
					t.Errorf("the text is without %q:\n%s", want, text)
				}
			}
			b.hand(`tapOn(planner.querySelector('[data-act="code"]'), "code")`)
			b.waitFor(`document.getElementById("planner-code").value !== ""`)
			if got := oneLine(eval[string](b, `document.querySelector('[data-slot="own-left"]').innerText`)); !strings.Contains(got, c.carried) || (c.carried == "") == strings.Contains(got, "The code holds") {
				t.Errorf("of the code the page says %q, want %q", got, c.carried)
			}
			if c.carried != "" {
				return
			}
			code := b.code()
			back := newTab(t)
			back.openPlanner(onDisk)
			back.hand(`const fold = planner.querySelector(".open-file"); fold.open = true; document.getElementById("planner-typed").value = %s; tapOn(planner.querySelector('[data-act="open-code"]'), "open")`, code)
			back.waitFor(`!!document.querySelector("#planner .sheet")`)
			back.hand(`tapOn(planner.querySelector('[data-slot="share"] summary'), "without paper")`)
			back.waitFor(`document.getElementById("planner-text").value !== ""`)
			text = oneLine(eval[string](back, `document.getElementById("planner-text").value`))
			for _, want := range c.shown {
				if !strings.Contains(text, want) {
					t.Errorf("after the code the text is without %q:\n%s", want, text)
				}
			}
		})
	}
}

// A figure's question that was put on the sheet has the number it was made with. Where the
// answer becomes another one, the sheet, the paper and the text say the new one behind it.
func TestChangedNumberStandsBehindItsQuestion(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.openPlanner(onDisk)
	b.at("hills-and-ramps", witness(lib.Tree("hills-and-ramps"), "steepness"))
	b.hand(`write(planner.querySelector(".entry input"), %s)`, "14 %")
	b.openFigure()
	b.pressButton("Put this question on my sheet")
	b.choose("14 %")
	ask := fmt.Sprintf(slopeQuestion, "14 % (about 8 degrees, 1:7.1)")
	behind := func() [3]string {
		return eval[[3]string](b, `["#planner [data-slot='own'] .since", "#planner [data-slot='status']", ".sheet-paper"].map((at) => (document.querySelector(at) || {}).textContent || "")`)
	}
	if s := b.tap("bar-sheet"); len(s.Sheet.Own) != 1 || s.Sheet.Own[0] != ask || behind()[0] != "" {
		t.Fatalf("on the sheet are %q, and %q", s.Sheet.Own, behind())
	}
	b.back()
	b.back()
	b.choose("12 %")
	b.tap("bar-sheet")
	const now = "My answer is now 12 % (about 6.8 degrees, 1:8.3)."
	got := behind()
	if got[0] != now || got[1] != "You changed a number since. Please look at one question of your own." || !strings.Contains(got[2], ask+" ("+now+")") {
		t.Errorf("behind the question stand %q", got)
	}
	b.hand(`tapOn(planner.querySelector('[data-slot="share"] summary'), "without paper")`)
	b.waitFor(`document.getElementById("planner-text").value !== ""`)
	if text := eval[string](b, `document.getElementById("planner-text").value`); !strings.Contains(text, ask+" ("+now+")") {
		t.Errorf("the text is without %q:\n%s", now, text)
	}
	b.tap("bar-topics")
	b.tap("bar-sheet")
	if got := behind(); got[0] != now || got[1] != "" {
		t.Errorf("at the second look stand %q, and it is said twice", got)
	}
}
