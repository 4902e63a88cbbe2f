package browsertest

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
)

// ofReader is what the sheet says of the one who reads and speaks, and not of the wearer.
var ofReader = regexp.MustCompile(`(?i)\b(my|your) child\b|\bthe person (I|you) care for\b|My questions for this visit|I hand this to|I keep the sheet|You and your team decide|My answers|This sheet helps you ask|your local emergency number`)

// ofWearer is a word that a wearer says of herself, or that is said to her.
var ofWearer = regexp.MustCompile(`\b(I|[Mm]e|[Mm]y|[Mm]ine|[Yy]ou|[Yy]our)\b[^.?]*`)

// A parent and a carer go from the first screen to the printed sheet: one tap says for whom, the leg's question and a topic speak of
// that person, and nothing on the sheet, on paper or in the text says what only a wearer could. Answers stay when another is chosen, and
// to clear all goes back to the reader's own voice.
func TestVoices(t *testing.T) {
	for _, c := range []struct{ voice, leg, about, ask string }{
		{"child", "Does your child wear an artificial leg now?", "About my child", "choose from"},
		{"person", "Does the person you care for wear an artificial leg now?", "About the person I care for", "choose from"},
	} {
		t.Run(c.voice, func(t *testing.T) {
			t.Parallel()
			b := newTab(t)
			b.openPlanner(onDisk)
			if pressed := eval[string](b, `planner.querySelector('.for [aria-pressed="true"]').textContent`); pressed != "Me" {
				t.Errorf("before any choice it is for %q", pressed)
			}
			slow := eval[string](b, `planner.querySelector("h2").textContent`)
			click := func(what string) { // behind the guard of a second tap
				b.waitFor(fmt.Sprintf(`planner.querySelector(%q) !== null`, what))
				b.run(fmt.Sprintf(`new Promise((on) => setTimeout(() => { planner.querySelector(%q).click(); on(); }, 600))`, what))
			}
			click(`.for [value="` + c.voice + `"]`)
			b.waitFor(`(planner.querySelector('.for [aria-pressed="true"]') || {}).value === "` + c.voice + `"`)
			if now := eval[string](b, `planner.querySelector("h2").textContent`); now != slow {
				t.Errorf("the choice leads to %q", now)
			}
			b.loadAxe()
			for _, v := range b.axe().Violations {
				t.Errorf("axe finds %+v", v)
			}
			click(`[data-topic][value="where-to-start"]`)
			b.waitFor(`planner.querySelector("[data-leg]") !== null`)
			if leg := eval[string](b, `planner.querySelector("h2").textContent`); leg != c.leg {
				t.Errorf("the first question is %q", leg)
			}
			click(`[data-leg="worn"]`)
			click(`[data-act="none"]`)
			b.waitFor(`planner.querySelector("form.question") !== null`)
			if child := eval[bool](b, `planner.querySelector('form.question [value="child"]').checked`); child != (c.voice == "child") {
				t.Errorf("that it is for a child is ticked: %v", child)
			}
			b.run(`if (!planner.querySelector("form.question :checked")) planner.querySelector('form.question [value="again"]').click()`)
			click(`form.question [type="submit"]`)
			click(`form.question [value="near"]`)
			click(`form.question [value="slopes"]`)
			click(`[data-act="sheet"]`)
			b.waitFor(`planner.querySelector(".sheet .about h3") !== null`)
			if about := eval[string](b, `planner.querySelector(".sheet .about h3").textContent`); about != c.about {
				t.Errorf("the band of the sheet is %q", about)
			}
			b.run(`planner.querySelector('[data-slot="share"]').open = true`)
			b.waitFor(`document.getElementById("planner-text").value !== ""`)
			said := eval[string](b, `document.getElementById("planner-text").value + "\n" + document.querySelector(".sheet-paper").textContent`)
			for _, left := range ofWearer.FindAllString(ofReader.ReplaceAllString(said, "-"), -1) {
				t.Errorf("the sheet says %q", left)
			}
			code := codeWithoutALine(b)
			click(`[data-act="bar-topics"]`)
			click(`.for [value=""]`)
			b.waitFor(`(planner.querySelector('.for [aria-pressed="true"]') || {}).value === ""`)
			click(`[data-act="bar-sheet"]`)
			b.waitFor(`planner.querySelector(".sheet .me") !== null && planner.querySelector(".sheet .me").textContent.includes("I need my leg most in the yard")`)
			click(`[data-act="bar-topics"]`)
			click(`.for [value="` + c.voice + `"]`)
			b.waitFor(`(planner.querySelector('.for [aria-pressed="true"]') || {}).value === "` + c.voice + `"`)
			click(`[data-act="clear"]`)
			click(`[data-act="clear-now"]`)
			b.waitFor(`(planner.querySelector('.for [aria-pressed="true"]') || {}).value === ""`)
			b.run(`planner.querySelector(".open-file").open = true; document.getElementById("planner-typed").value = ` + fmt.Sprintf("%q", code.code))
			click(`[data-act="open-code"]`)
			b.waitFor(`planner.querySelector(".sheet .about h3") !== null`)
			if about := eval[string](b, `planner.querySelector(".sheet .about h3").textContent`); about != c.about {
				t.Errorf("the code opens a sheet whose band is %q", about)
			}
			if me := eval[string](b, `planner.querySelector(".sheet .me").textContent`); me != code.me {
				t.Errorf("the code opens a sheet that says %q, and it said %q", me, code.me)
			}
			if off := eval[[]string](b, `Array.from(planner.querySelectorAll('[data-slot="lines"] li')).filter((li) => !li.querySelector("input").checked).map((li) => li.querySelector("label").textContent)`); len(off) != 1 || off[0] != code.off {
				t.Errorf("off are %q, and %q was", off, code.off)
			}
		})
	}
}

// coded is what a code was made of: what stands under "About me", and the line that was taken off there.
type coded struct{ code, me, off string }

// codeWithoutALine takes the first line off the sheet and gives its code, of which nothing is told that it leaves out.
func codeWithoutALine(b *tab) coded {
	b.t.Helper()
	before := eval[string](b, `planner.querySelector(".sheet .me").textContent`)
	b.run(`planner.querySelector('[data-slot="lines"] input').click(); planner.querySelector('[data-act="code"]').click()`)
	b.waitFor(`document.getElementById("planner-code").value !== ""`)
	out := coded{
		eval[string](b, `document.getElementById("planner-code").value`), eval[string](b, `planner.querySelector(".sheet .me").textContent`),
		eval[string](b, `planner.querySelector('[data-slot="lines"] label').textContent`),
	}
	if out.off == "" || !strings.Contains(before, out.off) || strings.Contains(out.me, out.off) {
		b.t.Errorf("%q was taken off %q, which is now %q", out.off, before, out.me)
	}
	if left := eval[string](b, `planner.querySelector('[data-slot="own-left"]').textContent`); left != "" {
		b.t.Errorf("the code leaves something out: %q", left)
	}
	return out
}

// A figure beside a question speaks in the voice at hand, and so does the question that it puts on the sheet: each figure of the
// planner, at its first question. Back in the reader's own voice it says what it said.
func TestFiguresInVoices(t *testing.T) {
	for _, at := range [][2]string{{"heel-height", "usual"}, {"loads-and-weight", "body"}, {"hills-and-ramps", "steepness"}} {
		t.Run(at[0], func(t *testing.T) {
			t.Parallel()
			b := newTab(t)
			b.openPlanner(onDisk)
			b.at(at[0], witness(lib.Tree(at[0]), at[1]))
			figure := func() string {
				b.waitFor(`document.querySelector("#planner .see summary") !== null`)
				b.openFigure()
				return eval[string](b, `(() => { const f = document.querySelector("#planner .figure"); return Array.from(f.querySelectorAll("p, option, label, text, button, summary, td, th"), (e) => e.textContent).join("\n"); })()`)
			}
			speak := func(voice string) {
				b.run(`new Promise((on) => setTimeout(() => { planner.querySelector('[data-act="bar-topics"]').click(); on(); }, 600))`)
				b.run(fmt.Sprintf(`new Promise((on) => setTimeout(() => { planner.querySelector('.for [value=%q]').click(); on(); }, 600))`, voice))
				b.waitFor(fmt.Sprintf(`(planner.querySelector('.for [aria-pressed="true"]') || {}).value === %q`, voice))
				b.run(fmt.Sprintf(`new Promise((on) => setTimeout(() => { planner.querySelector('[data-topic][value=%q]').click(); on(); }, 600))`, at[0]))
			}
			own := figure()
			if !ofWearer.MatchString(own) {
				t.Fatalf("in the reader's own voice it says %q", own)
			}
			for _, voice := range []string{"child", "person"} {
				speak(voice)
				said := figure()
				for _, left := range ofWearer.FindAllString(ofProgram.ReplaceAllString(ofReader.ReplaceAllString(said, "-"), "-"), -1) {
					t.Errorf("to one who speaks for a %s it says %q", voice, left)
				}
			}
			speak("")
			if again := figure(); again != own {
				t.Errorf("back in the reader's own voice it says %q, and it said %q", again, own)
			}
		})
	}
}

// ofProgram is what the program and the questions of figures say of the one who sets them.
var ofProgram = regexp.MustCompile(`(?i)\bI measured|check that with me|on (my|your) sheet|you can put the question`)
