package clienttest_test

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// topics are two that ask for a slope, and two that ask for a knee; and prompts that
// hang on what was told.
const topics = `
Object.assign(prompts, {
  number: {ask: "My slope is {slope}. Is it steep?", presumes: ["slope"]}, measure: {ask: "What should I measure?", unless: ["slope"]},
  fell: {ask: "Was it my fall?", presumes: ["fall"]}, good: {ask: "My day: {day}. Is it far?"}, now: {ask: "How is my foot set?", unless: ["not-yet"]},
});
data.facts = {slope: {unit: "%"}, knee: {}, fall: {}, one: {of: "legs"}, two: {of: "legs"}, day: {own: true}, "not-yet": {of: "leg"}, worn: {of: "leg"}};
data.safety.leg = {worn: ["worn"], "not-yet": ["not-yet"]};
data.safety.groups[1].signs.push({id: "fell", when: "soon", prompts: [], tells: ["fall"]});
var steep = (likes) => ({text: "How steep?", go: "legs", skip: "legs", left: 1, answers: [], tells: ["slope"], measure: {unit: "%", accept: ["%", "1:n"], from: 0, to: 40, step: 0.05, likes}});
var legs = {text: "One or two?", left: 0, skip: "end", answers: [{id: "a", text: "One", go: "end", tells: ["one"]}, {id: "b", text: "Two", go: "end", tells: ["two"]}]};
var knee = {any: true, text: "Which?", left: 2, go: "steep", skip: "steep", answers: [{id: "knee", text: "A knee", tells: ["knee"]}, {id: "tired", text: "Tired"}, {id: "none", text: "None", alone: true}]};
var drive = {id: "drive", text: "Like a drive", is: "16 %", value: {kind: "slope", value: 16, unit: "%"}};
var end = {end: {title: "End", prompts: ["number", "measure", "fell", "now", "good"]}};
data.trees = [
  {id: "hills", title: "Hills", start: "knee", questions: {knee, steep: steep([drive]), legs}, endings: end},
  {id: "ramps", title: "Ramps", start: "knee", questions: {knee, steep: steep([]), legs}, endings: end},
];
function hills(slope, ticks) {
  const s = new script.State(JSON.parse(JSON.stringify(data)));
  s.begin("hills");
  s.answer("hills", "knee", ticks || ["knee"]);
  s.answer("hills", "steep", [slope || "16 %"]);
  s.answer("hills", "legs", ["b"]);
  return s;
}
function both(slope) { const s = hills(slope); s.begin("ramps"); return s; }
`

// What was told in one topic, in the others and on the sheet; in the client's own script.
func TestToldOnce(t *testing.T) {
	page := planner(t)
	if err := page.Run(topics+"; true", new(any)); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, code, want string }{
		{"a slope that was told is not asked again", `(() => { const s = both(); s.answer("ramps", "knee", ["none"]); return [s.path("ramps").ending, s.chosen("ramps", "steep"), s.toldBefore("ramps", "steep"), s.toldBefore("hills", "steep")]; })()`, `["end", ["16 %"], true, false]`},
		{"the next screen passes it over", `(() => { const s = both(); s.answer("ramps", "knee", ["none"]); return script.after(s, "ramps", "knee"); })()`, `{"view": "ending", "tree": "ramps"}`},
		{"a like that the other question has not goes over as its amount", `both("drive").chosen("ramps", "steep")`, `["16 %"]`},
		{"one that takes several is asked, with what was told ticked", `[both().chosen("ramps", "knee"), both().ticked("ramps", "knee")]`, `[[], ["knee"]]`},
		{"changed in one topic, it is changed in the other; a tick that was taken back leaves its question open", `(() => { const s = both(); s.answer("ramps", "knee", ["none"]); s.answer("ramps", "steep", ["1:10"]); return [s.chosen("hills", "steep"), s.chosen("hills", "knee")]; })()`, `[["1:10"], []]`},
		{"taken back, it is taken back", `(() => { const s = both(); s.answer("hills", "steep", ["skip"]); return [s.chosen("ramps", "steep"), s.isTold("slope")]; })()`, `[["skip"], false]`},
		{"of a set the later one counts", `(() => { const s = both(); s.answer("ramps", "knee", ["none"]); s.answer("ramps", "legs", ["a"]); return [s.chosen("hills", "legs"), s.isTold("one"), s.isTold("two")]; })()`, `[["a"], true, false]`},

		{"a question shows the number", `hills().ask("number")`, `"My slope is 16 % (about 9.1 degrees, 1:6.3). Is it steep?"`},
		{"and a blank where it was not told", `hills("skip").ask("number")`, `"My slope is ___. Is it steep?"`},
		{"it comes up in place of the one that asks to measure", `hills().cameUp()`, `["number", "now", "good"]`},
		{"which comes up where nothing was told", `hills("skip").cameUp()`, `["measure", "now", "good"]`},
		{"put on by hand, it goes once the number is told", `(() => { const s = hills("skip"); s.pick("measure", true); s.star("measure"); const was = s.sheet().indexOf("measure") >= 0; s.answer("hills", "steep", ["5 %"]); return [was, s.sheet().indexOf("measure"), s.starred(), s.takenOff()]; })()`, `[true, -1, [], []]`},
		{"a number in the reader's own words changes with it", `(() => { const s = hills(); script.reword(s, "number", "Is 16 % too much?"); const was = s.ask("number"); s.answer("hills", "steep", ["5 %"]); return [was, s.ask("number")]; })()`, `["Is 16 % too much?", "Is 5 % too much?"]`},
		{"so does a whole one", `(() => { const s = hills(); script.reword(s, "number", "At 16 % (about 9.1 degrees, 1:6.3), can I?"); const was = s.ask("number"); s.answer("hills", "steep", ["5 %"]); return [was, s.ask("number")]; })()`, `["At 16 % (about 9.1 degrees, 1:6.3), can I?", "At 5 % (about 2.9 degrees, 1:20), can I?"]`},
		{"the prompt's own words are not kept as the reader's", `(() => { const s = hills(); script.reword(s, "number", s.ask("number")); return s.kept.reworded; })()`, `{}`},
		{"a normal day is used", `(() => { const s = hills(); const was = s.ask("good"); s.kept.day = "I walk the dog.\n"; return [was, s.ask("good")]; })()`, `["My day: ___. Is it far?", "My day: I walk the dog. Is it far?"]`},

		{"a fall told on the safety screen", `(() => { const s = hills(); s.sitting.answerLeg("worn"); s.sitting.answerGroup("skin", ["fell"]); return s.cameUp(); })()`, `["number", "fell", "now", "good"]`},
		{"who wears no leg yet is not asked how it is set", `(() => { const s = hills(); s.sitting.answerLeg("not-yet"); return s.cameUp(); })()`, `["number", "good"]`},
		{"a sheet that is opened is settled: what was told first counts", `(() => { const s = hills(); const a = JSON.parse(JSON.stringify(s.kept.answers)); s.open({...s.kept, taken: ["hills", "ramps"], answers: {hills: a.hills, ramps: {...a.hills, steep: ["4 %"]}}}); return [s.ask("number"), s.chosen("ramps", "steep"), s.toldBefore("ramps", "steep")]; })()`, `["My slope is 16 % (about 9.1 degrees, 1:6.3). Is it steep?", ["16 %"], true]`},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got, want any
			if err := page.Run("("+c.code+")", &got); err != nil {
				t.Fatal(err)
			}
			if err := json.Unmarshal([]byte(c.want), &want); err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}
