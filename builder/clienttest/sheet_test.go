package clienttest_test

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/clienttest"
	"keelpath/builder/quantity"
)

// world is what a small planner page knows. Of its two trees "day" has a skip, a
// "not sure", a card and an amount; "sore" ends in a safety ending. There are
// three general prompts, for the prosthetist, five of the theme "feet", for the therapist, nine of "visits", for the doctor, and two to bring.
const world = `
var prompts = {}, listed = {feet: [], visits: [], bring: []};
for (const id of ["g1", "g2", "g3"]) prompts[id] = {ask: "Ask " + id + "?", whom: ["prosthetist"]};
for (const [theme, n] of [["feet", 5], ["visits", 9], ["bring", 2]])
  for (let i = 1; i <= n; i++) { prompts[theme + i] = {ask: "Ask " + theme + i + "?", theme, whom: {feet: ["therapist", "prosthetist"], visits: ["physician"], bring: ["myself"]}[theme]}; listed[theme].push(theme + i); }
var data = {
  edition: {name: "Test"}, general: ["g1", "g2", "g3"], prompts, units,
  themes: [{id: "feet", title: "Feet", prompts: listed.feet}, {id: "visits", title: "Visits", prompts: listed.visits}, {id: "bring", title: "Bring", prompts: listed.bring}],
  cards: {log: ["visits9", "bring2"], plain: []},
  safety: {leg: {worn: ["leg"], "not-yet": []}, groups: [
    {id: "help", signs: [{id: "chest", when: "now", prompts: ["visits5"]}], prompts: ["visits5"]},
    {id: "skin", signs: [{id: "crack", when: "today", prompts: ["visits8"]}, {id: "itch", when: "soon", prompts: ["feet4", "feet1"]}], prompts: ["visits7"]},
  ]},
  trees: [
    {id: "day", title: "My day", start: "where", questions: {
      where: {any: true, go: "size", skip: "size", text: "Where?", left: 2, answers: [{id: "home", text: "At home", cards: ["log"]}, {id: "town", text: "In town"}, {id: "unsure", text: "Not sure"}]},
      size: {text: "How long?", go: "stairs", skip: "stairs", left: 1, answers: [], measure: {unit: "mm", accept: ["mm"], from: 0, to: 100, step: 1, likes: [{id: "thumb", text: "A thumb", value: {kind: "length", value: 25, unit: "mm"}}]}},
      stairs: {text: "Stairs?", left: 0, skip: "few", answers: [{id: "yes", text: "Yes, stairs", go: "many"}, {id: "no", text: "No stairs", go: "few"}, {id: "unsure", text: "Not sure", go: "few"}]},
    }, endings: {many: {title: "Many", prompts: ["feet1", "feet2", "visits1", "bring1"]}, few: {title: "Few"}}},
    {id: "sore", title: "A sore", start: "now", questions: {
      now: {text: "Now?", left: 0, answers: [{id: "yes", text: "Yes, now", go: "stop"}, {id: "split", text: "It split", go: "safety-crack"}, {id: "no", text: "Not now", go: "rest"}, {id: "unsure", text: "Not sure", go: "stop"}]},
    }, endings: {stop: {title: "Stop", safety: true, prompts: ["visits2", "feet1"]}, rest: {title: "Rest", prompts: ["feet3"]}, "safety-crack": {title: "A crack", safety: true}}},
    {id: "long", title: "Long", start: "a", questions: {
      a: {text: "A?", left: 2, answers: [{id: "yes", text: "Yes, A", go: "b"}]},
      b: {text: "B?", left: 1, answers: [{id: "yes", text: "Yes, B", go: "c"}]},
      c: {text: "C?", left: 0, answers: [{id: "yes", text: "Yes, C", go: "end"}]},
    }, endings: {end: {title: "End", prompts: ["feet2"]}}},
  ],
};
function begun(day, sore) {
  const s = new script.State(JSON.parse(JSON.stringify(data)));
  if (day) { s.begin("day"); for (const q of Object.keys(day)) s.answer("day", q, day[q]); }
  if (sore) { s.begin("sore"); s.answer("sore", "now", [sore]); }
  return s;
}
var full = {where: ["home"], size: ["30 mm"], stairs: ["yes"]};
// all is a sheet with as many questions as there are: 12 before the fold and 5 behind it.
function all() { const s = begun(full); for (const t of ["feet", "visits"]) for (const id of listed[t]) s.pick(id, true); return s; }
function titles(sections) { return sections.map((g) => g.title + ": " + g.prompts.join(" ")); }
`

// What stands on the sheet, in which order and why, and what moving, starring and
// taking off do to it; in the client's own script, as it is. After each row's code
// stands what it must come to.
func TestSheet(t *testing.T) {
	page := planner(t)
	for _, c := range []struct{ name, code, want string }{
		{"nothing is told yet", `(() => { const c = script.compose(begun()); return [c.first, titles(c.sections)]; })()`, `[["g1", "g2", "g3"], []]`},
		{"those of a card come first, then the ending's, the general ones last; three start, the others stand by whom to ask", `(() => { const c = script.compose(begun(full)); return [c.first, titles(c.sections), titles(c.more), c.moreCount, c.bring]; })()`, `[["visits9", "feet1", "feet2"], ["For my doctor: visits1", "For my prosthetist: g1 g2 g3"], [], 0, ["bring2", "bring1"]]`},
		{"twelve stand before the fold, the rest behind it under the same titles", `(() => { const c = script.compose(all()); return [c.first, titles(c.sections), titles(c.more), c.moreCount]; })()`, `[["visits9", "feet3", "feet4"], ["For my therapist: feet5", "For my doctor: visits2 visits3 visits4 visits5 visits6", "For my prosthetist: g1 g2 g3"], ["For my doctor: visits7 visits8 visits1", "For my therapist: feet1 feet2"], 5]`},

		{"it came up by an amount and the last two answers", `script.cameFrom(begun(full), "feet1")`, `["It came up in “My day”. You said: At home; 30 mm (1 1/8 in); Yes, stairs."]`},
		{"a skipped question is not told", `script.cameFrom(begun({where: ["skip"], size: ["30 mm"], stairs: ["yes"]}), "feet1")`, `["It came up in “My day”. You said: 30 mm (1 1/8 in); Yes, stairs."]`},
		{"nor is a skipped amount", `script.cameFrom(begun({where: ["home"], size: ["skip"], stairs: ["yes"]}), "feet1")`, `["It came up in “My day”. You said: At home; Yes, stairs."]`},
		{"nor is not sure", `script.cameFrom(begun({where: ["unsure"], size: ["skip"], stairs: ["yes"]}), "feet1")`, `["It came up in “My day”. You said: Yes, stairs."]`},
		{"where only a named amount is told, it stands by its name", `script.cameFrom(begun({where: ["unsure"], size: ["thumb"], stairs: ["yes"]}), "feet1")`, `["It came up in “My day”. You said: A thumb; Yes, stairs."]`},
		{"a card brings a prompt before the ending is reached", `script.cameFrom(begun({where: ["home", "town"]}), "visits9")`, `["It came up in “My day”. You said: At home; In town."]`},
		{"of three answers the last two are told", `(() => { const s = begun(); s.begin("long"); for (const q of ["a", "b", "c"]) s.answer("long", q, ["yes"]); return script.cameFrom(s, "feet2"); })()`, `["It came up in “Long”. You said: Yes, B; Yes, C."]`},
		{"two trees may bring one", `script.cameFrom(begun(full, "yes"), "feet1")`, `["It came up in “My day”. You said: At home; 30 mm (1 1/8 in); Yes, stairs.", "It came up in “A sore”. You said: Yes, now."]`},
		{"nothing but not sure is told", `script.cameFrom(begun(null, "unsure"), "visits2")`, `["It came up in “A sore”."]`},
		{"a general one is for any visit", `script.cameFrom(begun(full), "g2")`, `["It is one of three questions for any visit."]`},
		{"so is the first of them", `script.cameFrom(begun(full), "g1")`, `["It is one of three questions for any visit."]`},
		{"one that was added", `script.cameFrom(begun(full), "feet5")`, `["You put it on your sheet."]`},

		{"a grave ending goes first", `begun(full, "yes").endings().map((r) => r.tree + " " + r.id)`, `["sore stop", "day many"]`},
		{"a plain one keeps its turn", `begun(full, "no").endings().map((r) => r.tree + " " + r.id)`, `["day many", "sore rest"]`},
		{"so do its prompts", `begun(full, "yes").cameUp()`, `["visits2", "feet1", "feet2", "visits1", "bring1", "visits9", "bring2"]`},
		{"cards of the tree at hand go first", `(() => { const s = begun(null, "no"); s.begin("day"); s.answer("day", "where", ["home"]); s.data.trees[1].questions.now.answers[2].cards = ["plain"]; return [s.cards("day"), s.cards(""), s.cardPrompts("day")]; })()`, `[["log", "plain"], ["plain", "log"], ["visits9", "bring2"]]`},
		{"a tree without an ending reached has none", `[begun({where: ["town"]}).endings(), begun({where: ["town"]}).cameUp()]`, `[[], []]`},

		{"moved down within its heading", `(() => { const s = begun(full); return [script.move(s, "g1", 1), titles(script.compose(s).sections)]; })()`, `[true, ["For my doctor: visits1", "For my prosthetist: g2 g1 g3"]]`},
		{"moved up within a heading", `(() => { const s = begun(full); return [script.move(s, "g2", -1), titles(script.compose(s).sections)[1], s.kept.order]; })()`, `[true, "For my prosthetist: g2 g1 g3", ["visits9", "feet1", "feet2", "visits1", "g2", "g1", "g3", "bring2", "bring1"]]`},
		{"the first of all cannot move up", `(() => { const s = begun(full); return [script.move(s, "visits9", -1), s.kept.order]; })()`, `[false, []]`},
		{"the first of a heading moves with it", `(() => { const s = begun(full); return [script.move(s, "g1", -1), titles(script.compose(s).sections)]; })()`, `[true, ["For my prosthetist: g1 g2 g3", "For my doctor: visits1"]]`},
		{"the last of a heading moves with it", `(() => { const s = begun(full); return [script.move(s, "visits1", 1), titles(script.compose(s).sections)]; })()`, `[true, ["For my prosthetist: g1 g2 g3", "For my doctor: visits1"]]`},
		{"the last of all cannot move down", `(() => { const s = begun(full); return [script.move(s, "g3", 1), s.kept.order]; })()`, `[false, []]`},
		{"at the fold two change sides", `(() => { const s = all(); return [script.move(s, "visits7", -1), titles(script.compose(s).sections), titles(script.compose(s).more)[0]]; })()`, `[true, ["For my therapist: feet5", "For my doctor: visits2 visits3 visits4 visits5 visits6 visits7", "For my prosthetist: g1 g2"], "For my prosthetist: g3"]`},
		{"behind the fold", `(() => { const s = all(); return [script.move(s, "visits7", 1), script.compose(s).more[0].prompts]; })()`, `[true, ["visits8", "visits7", "visits1"]]`},
		{"the last behind the fold cannot move down", `script.move(all(), "feet2", 1)`, `false`},
		{"among the first ones", `(() => { const s = begun(full); return [script.move(s, "feet1", -1), script.compose(s).first, script.move(s, "feet1", -1)]; })()`, `[true, ["feet1", "visits9", "feet2"], false]`},
		{"among stars", `(() => { const s = begun(full); s.star("g1"); s.star("g2"); return [script.move(s, "g2", -1), script.compose(s).first, script.move(s, "g2", -1), script.move(s, "g1", 1)]; })()`, `[true, ["g2", "g1", "visits9"], false, false]`},
		{"the reader's own numbers go before all", `(() => { const s = begun(full); s.data.prompts.visits1 = {...s.data.prompts.visits1, ask: "At {long}?", presumes: ["long"]}; s.data.facts = {long: {unit: "mm"}}; s.data.trees[0].questions.size.tells = ["long"]; return [script.compose(s).first, s.ask("visits1")]; })()`, `[["visits1", "visits9", "feet1"], "At 30 mm (1 1/8 in)?"]`},
		{"a number that was not told goes before nothing", `(() => { const s = begun(full); s.data.prompts.feet2 = {...s.data.prompts.feet2, ask: "My day: {day}?"}; return script.compose(s).first; })()`, `["visits9", "feet1", "feet2"]`},
		{"a thing to bring", `(() => { const s = begun(full); return [script.move(s, "bring1", -1), script.compose(s).bring, script.move(s, "bring1", -1)]; })()`, `[true, ["bring1", "bring2"], false]`},
		{"own questions move among themselves", `(() => { const s = begun(full); s.addOwn("One?"); s.addOwn("Two?"); return [script.move(s, "own 2", -1), s.kept.own.map((o) => o.ask), script.move(s, "own 2", -1), script.move(s, "own 1", 1), s.kept.order]; })()`, `[true, ["Two?", "One?"], false, false, []]`},
		{"the first of them moves down", `(() => { const s = begun(full); s.addOwn("One?"); s.addOwn("Two?"); return [script.move(s, "own 1", 1), s.kept.own.map((o) => o.ask)]; })()`, `[true, ["Two?", "One?"]]`},
		{"what is not on the sheet does not move", `script.move(begun(full), "feet5", 1)`, `false`},

		{"on paper the starred come first, and what is folded is left out", `(() => { const s = all(); s.star("feet2"); s.star("visits8"); const p = script.forPaper(s); return [p.first, titles(p.sections), p.more, p.moreCount, p.bring]; })()`, `[["feet2", "visits8", "visits9"], ["For my therapist: feet3 feet4 feet5", "For my doctor: visits2 visits3 visits4 visits5 visits6", "For my prosthetist: g1 g2 g3"], [], 0, ["bring2", "bring1"]]`},
		{"unless the fold is open", `(() => { const s = all(); s.kept.moreOpen = true; s.star("visits1"); return titles(script.forPaper(s).sections)[1]; })()`, `"For my doctor: visits2 visits3 visits4 visits5 visits6 visits7 visits8"`},
		{"starred things to bring and own questions stand once", `(() => { const s = begun(full); s.addOwn("One?"); s.addOwn("Two?"); s.addOwn("Three?"); s.star("bring1"); s.star("own 2"); const p = script.forPaper(s); return [p.first, p.bring, p.own, script.asked(s)]; })()`, `[["bring1", "own 2", "visits9"], ["bring2"], ["own 1", "own 3"], ["bring1", "own 2", "visits9", "feet1", "feet2", "visits1", "g1", "g2", "g3", "own 1", "own 3"]]`},
		{"a heading whose questions are all starred is left out", `(() => { const s = begun(full); s.star("visits1"); return titles(script.forPaper(s).sections); })()`, `["For my therapist: feet2", "For my prosthetist: g1 g2 g3"]`},

		{"three stars, and no fourth", `(() => { const s = begun(full); return ["g1", "g2", "g1", "feet1", "feet2"].map((id) => s.star(id)).concat(s.starred(), s.isStarred("g2"), s.isStarred("feet2")); })()`, `[true, true, true, true, false, "g1", "g2", "feet1", true, false]`},
		{"one that no longer comes up lends its star", `(() => { const s = begun(full); ["feet1", "feet2", "g1"].forEach((id) => s.star(id)); s.answer("day", "stairs", ["no"]); return [s.starred(), s.star("g2"), s.starred()]; })()`, `[["g1"], true, ["g1", "g2"]]`},
		{"taken off, it loses its star and may be put back", `(() => { const s = begun(full); s.star("feet1"); s.pick("feet1", false); const off = [s.isOn("feet1"), s.starred(), s.takenOff(), s.kept.picks]; s.pick("feet1", true); return off.concat([s.isOn("feet1"), s.kept.picks]); })()`, `[false, [], ["feet1"], {}, true, {}]`},
		{"a pick against the default is kept", `(() => { const s = begun(full); s.pick("feet5", true); s.pick("g1", false); return [s.kept.picks, s.sheet(), s.takenOff()]; })()`, `[{"feet5": true, "g1": false}, ["g2", "g3", "feet1", "feet2", "visits1", "bring1", "visits9", "bring2", "feet5"], ["g1"]]`},
		{"a star stays while it is on", `(() => { const s = begun(full); s.star("g1"); s.pick("g1", true); return s.starred(); })()`, `["g1"]`},

		{"the first star is one", `(() => { const s = begun(full); s.star("g1"); return [s.isStarred("g1"), s.isStarred("g2")]; })()`, `[true, false]`},
		{"a topic is done at its ending", `(() => { const s = begun(full); s.begin("long"); return ["day", "long", "sore", "none"].map((id) => s.isDone(id)); })()`, `[true, false, false, false]`},
		{"what a sign brings, its topic does not", `(() => { const s = begun(null, "split"); s.data.trees[1].endings["safety-crack"].prompts = ["visits8"]; return script.broughtBy(s, "visits8"); })()`, `[]`},

		{"begun once, it waits no more", `(() => { const s = begun(); s.kept.waiting = ["day", "sore"]; s.begin("day"); s.begin("day"); return [s.kept.taken, s.kept.waiting]; })()`, `[["day"], ["sore"]]`},
		{"answers are kept by tree", `(() => { const s = begun(full); return [s.chosen("day", "stairs"), s.chosen("day", "no-such"), s.chosen("sore", "now")]; })()`, `[["yes"], [], []]`},
		{"a tree that is not there", `(() => { try { begun().tree("none"); } catch (e) { return e.message; } })()`, `"no tree \"none\""`},

		{"what the safety screen heard comes up, and says so", `(() => { const s = begun(full); s.tell("skin", ["itch"]); return [s.cameUp(), s.forLater(), script.cameFrom(s, "feet4"), script.cameFrom(s, "feet1")[1]]; })()`,
			`[["feet1", "feet2", "visits1", "bring1", "visits9", "bring2", "feet4"], ["feet4", "feet1"], ["It came up in the safety questions."], "It came up in the safety questions."]`},
		{"an emergency brings no questions", `(() => { const s = begun(); s.tell("skin", ["itch"]); s.tell("help", ["chest"]); return [s.gathered(), s.forLater(), s.cameUp()]; })()`, `[{"when": "now", "said": [{"group": "help", "sign": "chest"}, {"group": "skin", "sign": "itch"}]}, [], []]`},
		{"not sure in a group counts", `(() => { const s = begun(); s.tell("skin", ["unsure"]); return [s.gathered(), s.forLater(), s.toldIn("help")]; })()`, `[{"when": "today", "said": [{"group": "skin", "sign": "unsure"}]}, ["visits7"], []]`},
		{"an answer of a topic tells a sign", `(() => { const s = begun(null, "split"); return [s.toldIn("skin"), s.gathered(), s.forLater(), s.signOfEnding("safety-crack"), s.signOfEnding("stop") === undefined, s.signOfEnding("safety-none") === undefined]; })()`, `[["crack"], {"when": "today", "said": [{"group": "skin", "sign": "crack"}]}, ["visits8"], {"group": "skin", "sign": "crack"}, true, true]`},
		{"beside it none is not said", `(() => { const s = begun(null, "split"); s.sitting.answerGroup("skin", ["none"]); return [s.toldIn("skin"), begun().toldIn("skin")]; })()`, `[["crack"], []]`},
		{"also of a leg that is not worn now", `(() => { const s = begun(null, "split"); const g = s.data.safety.groups.find((g) => g.id === "skin"); g.leg = true; s.sitting.answerLeg("not-yet"); const got = [s.gathered(), s.forLater()]; delete g.leg; return got; })()`, `[{"when": "today", "said": [{"group": "skin", "sign": "crack"}]}, ["visits8"]]`},
		{"none alone stays", `(() => { const s = begun(); s.tell("skin", ["none"]); return [s.toldIn("skin"), s.gathered()]; })()`, `[["none"], {"said": []}]`},
		{"unticked, the topic's answer is taken back", `(() => { const s = begun(full, "split"); s.tell("skin", ["itch"]); return [s.chosen("sore", "now"), s.toldIn("skin"), s.chosen("day", "stairs")]; })()`, `[[], ["itch"], ["yes"]]`},
		{"ticked, it stays, and so it does for another group", `(() => { const s = begun(null, "split"); s.tell("skin", ["crack", "itch"]); s.tell("help", ["none"]); return [s.chosen("sore", "now"), s.toldIn("skin")]; })()`, `[["split"], ["crack", "itch"]]`},
		{"a sheet that is taken along holds no safety answer", `(() => { const s = begun(full, "split"); s.tell("skin", ["crack", "itch"]); const k = s.toTake(); return [k.answers, k.picks, k.order, JSON.stringify(k).indexOf("crack")]; })()`, `[{"day": {"where": ["home"], "size": ["30 mm"], "stairs": ["yes"]}, "sore": {}}, {}, [], -1]`},
		{"nor what only follows from one, unless the reader did something with it", `(() => { const s = begun(full, "split"); s.tell("skin", ["crack", "itch"]); s.star("feet4"); s.kept.order = ["visits8", "feet4", "feet2"]; s.pick("feet2", false); s.pick("visits8", false); const k = s.toTake(); return [k.picks, k.order, k.stars]; })()`, `[{"feet2": false, "feet4": true}, ["feet4"], ["feet4"]]`},
		{"words and marks count as doing something", `(() => { const s = begun(); s.tell("skin", ["crack", "itch"]); script.reword(s, "visits8", "Mine?"); s.kept.visit.marks = {feet4: "later", "own 1": "later"}; s.kept.visit.replies = {feet1: "Yes"}; return s.toTake().picks; })()`, `{"visits8": true, "feet4": true, "feet1": true}`},
		{"another sheet ends the sitting", `(() => { const s = begun(); s.tell("skin", ["itch"]); s.open(begun(full).kept); return [s.toldIn("skin"), s.sitting.isEmpty()]; })()`, `[[], true]`},
		{"so does clear", `(() => { const s = begun(); s.tell("skin", ["itch"]); s.clear(); return s.sitting.isEmpty(); })()`, `true`},

		{"in the reader's words", `(() => { const s = begun(full); const said = [s.ask("feet1")]; for (const w of ["Mine?", "Ask feet1?", "Mine?", ""]) { script.reword(s, "feet1", w); said.push(s.ask("feet1"), Object.keys(s.kept.reworded).length); } return said; })()`, `["Ask feet1?", "Mine?", 1, "Ask feet1?", 0, "Mine?", 1, "Ask feet1?", 0]`},
		{"an own question is never empty", `(() => { const s = begun(); s.addOwn("One?"); script.reword(s, "own 1", "Two?"); const a = s.ask("own 1"); script.reword(s, "own 1", ""); return [a, s.ask("own 1"), s.kept.reworded]; })()`, `["Two?", "Two?", {}]`},
		{"what nobody knows asks nothing", `(() => { const s = begun(); script.reword(s, "none", "Words?"); return [s.ask("none"), s.kept.reworded]; })()`, `["", {}]`},
		{"a figure's question fits while its number does", `(() => { const s = begun(full); s.addOwn("At 30 mm?", {"day/size": 30}); const a = script.askWhole(s, "own 1"); s.answer("day", "size", ["30.0 mm"]); return [a, script.askWhole(s, "own 1"), script.outdated(s)]; })()`, `["At 30 mm?", "At 30 mm?", []]`},
		{"where the number changes, the new one stands behind it, and goes again", `(() => { const s = begun(full); s.addOwn("At 30 mm?", {"day/size": 30}); s.addOwn("Mine?"); const said = []; for (const a of ["40 mm", "skip", "30 mm"]) { s.answer("day", "size", [a]); said.push(script.askWhole(s, "own 1"), script.askWhole(s, "own 2"), script.outdated(s).length); } return said; })()`,
			`["At 30 mm? (My answer is now 40 mm (1 5/8 in).)", "Mine?", 1, "At 30 mm? (I skipped the question about this number since then.)", "Mine?", 1, "At 30 mm?", "Mine?", 0]`},
		{"put in other words, a figure's question is the reader's own", `(() => { const s = begun(full); s.addOwn("At 30 mm?", {"day/size": 30}); s.answer("day", "size", ["40 mm"]); script.reword(s, "own 1", "At 30 mm?"); const same = script.since(s, "own 1"); script.reword(s, "own 1", "At 40 mm?"); return [same, script.askWhole(s, "own 1"), s.kept.own]; })()`,
			`["My answer is now 40 mm (1 5/8 in).", "At 40 mm?", [{"id": "own 1", "ask": "At 40 mm?"}]]`},
		{"a number that was not told yet says nothing", `(() => { const s = begun(); s.begin("day"); s.addOwn("At 30 mm?", {"day/size": 30}); return [script.since(s, "own 1"), s.toTake().own]; })()`, `["", [{"id": "own 1", "ask": "At 30 mm?", "of": {"day/size": 30}}]]`},
		{"a removed own question leaves its name and star free", `(() => { const s = begun(); s.addOwn("One?"); s.addOwn("Two?"); s.star("own 1"); s.star("own 2"); s.removeOwn("own 1"); s.addOwn("Three?"); return [s.kept.own, s.starred()]; })()`, `[[{"id": "own 2", "ask": "Two?"}, {"id": "own 1", "ask": "Three?"}], ["own 2"]]`},

		{"a hundred own questions, and no more", `(() => { const s = begun(); const said = []; for (let i = 0; i < 101; i++) said.push(s.addOwn("One?")); return [said.filter((x) => x).length, said[100], s.kept.own.length]; })()`, `[100, false, 100]`},
		{"without an answer", `["where", "size", "stairs"].map((q) => script.missing(data.trees[0].questions[q])).concat(script.missing(data.trees[1].questions.now), script.missing({measure: {}, answers: []}))`,
			`["Please check at least one answer first. You can also skip this question.", "Please write an amount, or pick what it is like. You can also skip this question.", "Please choose an answer first. You can also skip this question.", "Please choose an answer first.", "Please write an amount first."]`},
		{"the steps before a question", `["where", "size", "stairs", "other"].map((q) => script.before(begun(full).path("day").steps, q).map((s) => s.question))`, `[[], ["where"], ["where", "size"], ["where", "size", "stairs"]]`},
		{"what follows an answered question", `(() => { const s = begun({where: ["town"], size: ["skip"]}); return ["where", "size"].map((q) => script.after(s, "day", q)).concat(script.after(begun(full), "day", "stairs")); })()`,
			`[{"view": "question", "tree": "day", "question": "size"}, {"view": "question", "tree": "day", "question": "stairs"}, {"view": "ending", "tree": "day"}]`},
		{"the way back", `[script.previous(begun(full).path("day").steps, "day"), script.previous([], "day")]`, `[{"view": "question", "tree": "day", "question": "stairs"}, {"view": "topics"}]`},
		{"what was answered, topic by topic, without what told a sign", `script.answered(begun({where: ["home", "town"], size: ["30 mm"]}, "split"))`, `[{"title": "My day", "lines": [{"asked": "Where?", "said": "At home, In town"}, {"asked": "How long?", "said": "30 mm (1 1/8 in)"}]}]`},
		{"empty, not empty, cleared", `(() => { const s = begun(); const said = [s.isEmpty()]; s.addOwn("One?"); said.push(s.isEmpty()); s.clear(); return said.concat(s.isEmpty(), s.kept.own.length); })()`, `[true, false, true, 0]`},
		{"a sheet that took another's place keeps it", `(() => { const s = begun(full); const was = s.kept; const next = begun(null, "no").kept; s.open(next); return [s.earlier === was, s.kept === next, s.isEmpty()]; })()`, `[true, true, false]`},
		{"nothing is put aside for it", `(() => { const s = begun(); s.kept.large = true; s.open(begun(null, "no").kept); s.kept = begun().kept; return [s.earlier === undefined, s.isEmpty()]; })()`, `[true, true]`},
		{"while an earlier sheet is kept there is something to clear", `(() => { const s = begun(full); s.open(begun().kept); const held = s.isEmpty(); s.clear(); return [held, s.isEmpty()]; })()`, `[false, true]`},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got, want any
			if err := json.Unmarshal([]byte(c.want), &want); err != nil {
				t.Fatal(err)
			}
			if err := page.Run("("+c.code+")", &got); err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(want, got); d != "" {
				t.Errorf("wanted (-) and got (+):\n%s", d)
			}
		})
	}
}

// planner is the script with the world; each row's code has a sheet of its own to change.
func planner(t *testing.T) *clienttest.Script {
	t.Helper()
	units, err := json.Marshal(quantity.Table())
	if err != nil {
		t.Fatal(err)
	}
	page := clienttest.LoadAll(t, "sheet/compose.ts", "sheet/reword.ts", "state/state.ts", "state/steps.ts", "state/amounts.ts", "tree/steps.ts")
	if err := page.Run("var units = "+string(units)+";"+world+"; true", new(any)); err != nil {
		t.Fatal(err)
	}
	return page
}
