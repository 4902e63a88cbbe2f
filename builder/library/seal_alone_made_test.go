package library_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/library"
)

// made is a small ground layer with one of each thing that is sealed. What else the
// checker would find in it does not matter here.
var made = map[string]string{
	"content/edition.yaml": `name: Made
emergency: { number: "911", where: the US }
crisis: { number: "988", where: the US }
`,
	"trees/safety.yaml": `leg:
  text: Do you wear a leg?
  why: It decides what we ask.
  answers:
    worn: { text: "Yes", tells: [worn, leg] }
gate:
  text: Is any of this true?
  why: Signs come first.
  hint: Check all that fit.
groups:
  skin:
    line: A sore
    title: Skin
    text: What is it like?
    why: It can grow.
    hint: Look with a mirror.
    unsure: { title: Not sure of skin, caution: Call and ask., worn: Take it off., prompts: [sore] }
    signs:
      wound: { text: A wound, more: However small., when: today, title: Wound, caution: Call today., worn: Leave it off., because: It grows., prompts: [sore, deep], tells: [hurt] }
endings:
  today: { title: Call today, steps: [Call., Wait.], worn: [Take it off.] }
`,
	"trees/prompts.yaml": `general:
  first:
    ask: What can I choose?
    whom: [prosthetist]
    why: Your clinic sets the level. It never picks for you. Nothing else.
    basis: [common-practice]
themes:
  skin:
    title: Skin
    about: About skin.
    prompts:
      sore: { ask: "Is it sore?", whom: [physician], why: It can grow., basis: [common-practice], presumes: [hurt], unless: [worn] }
      deep: { ask: "Is it deep?", whom: [physician], why: It can go deep., basis: [common-practice] }
      pale: { ask: "Is it pale?", whom: [physician], why: It may be pale., basis: [common-practice] }
      grave: { ask: "Is it grave?", whom: [physician], why: It may be grave., basis: [common-practice] }
`,
	"trees/cards.yaml": `cards:
  bring: { title: Bring it, text: Bring the shoe., prompts: [sore] }
`,
	"content/glossary.yaml": `words:
  level: { word: Level, meaning: A number. Your clinic sets the level. }
`,
	"trees/knee.yaml": `tree: knee
title: Knee
audience: patient
purpose: Sort words. It does not pick a foot.
authors: [Made editors]
reviewers: []
reviewed: 2026-11-25
review-by: 2028-11-25
sources: []
funding: None.
safety: shared
start: hurt
values:
  twice: far + far
questions:
  hurt:
    text: Does it hurt?
    why: It tells how soon.
    hint: Check all that apply.
    pick: any
    answers:
      much: { text: Much, go: stop, cards: [bring], tells: [hurt] }
      some: { text: Some }
      none: { text: None, alone: true, go: far }
    go: far
    skip: far
  far:
    text: How far?
    why: Plain.
    measure: { unit: m, accept: [m], from: 0, to: 100, step: 1, like: { street: { text: A street, is: 50 m } } }
    skip: plain
    routes:
      - { if: twice > 90*m, go: calm, cards: [bring] }
      - { go: next }
  next:
    text: What next?
    why: Your clinic sets the level.
    hint: Say what you like.
    answers:
      one: { text: One, go: talk }
      two: { text: Two, go: care }
endings:
  stop: { title: Stop, text: Call the clinic., caution: Do not walk., safety: true, prompts: [grave], themes: [skin], next: [way] }
  calm: { title: Sit, text: Sit down and call., safety: true }
  care: { title: Care, text: Go on., caution: Take care. }
  talk: { title: Talk, text: Your clinic sets the level. Nothing here picks a foot for you. It picks no foot. Talk. }
  plain: { title: Plain, text: Go on. }
`,
	"trees/way.yaml": `tree: way
title: Way
audience: patient
purpose: Sort ways.
authors: [Made editors]
reviewers: []
reviewed: 2026-11-25
review-by: 2028-11-25
sources: []
funding: None.
safety: shared
start: shoes
questions:
  shoes:
    text: Which shoes?
    why: Plain.
    pick: any
    answers:
      low: { text: Low, go: hurt }
      high: { text: High }
      both: { text: Both, go: hurt }
      wide: { text: Wide, go: walk }
      home: { text: Home, alone: true, go: rest }
    go: hurt
    skip: hurt
  walk:
    text: How far?
    why: Plain.
    measure: { unit: m, accept: [m], from: 0, to: 100, step: 1 }
    routes:
      - { if: walk > 9*m, go: hurt }
      - { go: hurt }
    skip: rest
  hurt:
    text: Does it hurt?
    why: It tells how soon.
    pick: any
    answers:
      much: { text: Much, go: stop }
      hot: { text: Hot, go: stop }
      some: { text: Some }
      none: { text: None, alone: true, go: talk }
    go: talk
endings:
  stop: { title: Stop, text: Call., safety: true }
  talk: { title: Talk, text: Talk. }
  rest: { title: Rest, text: Rest. }
`,
	"content/en/heels.md": `---
title: Heels
audience: patient
message: Heels count. It does not pick a foot.
---

Heels are high or low.

> **Caution.** Do not try it alone.

## At home

A clinic sets the level. At home, sit.

> **Take care.** Hold on to a rail.

> **Stop.** If it hurts, stop.
`,
	"content/en/pages/sources.md": `---
title: Sources
audience: patient
about: What these pages rest on.
message: They rest on texts. It never picks.
---

All of it was read.
`,
	"content/en/figures/tilt.yaml": `title: Tilt
order: 1
about: See a tilt.
lead: A leg tips. It does not pick a foot.
notes: |
  > **Caution.** Do not try it alone.

  It is plain.
`,
}

// edit is one edit of a file of the made ground, as a layer would bring it, and all that
// the seal must say of it: "LINE:COLUMN text | help", without the rule below all.
type edit struct {
	name, file string
	swaps      []string // old, new, old, new
	want       []string
}

// TestSealAloneMade holds edits of the made ground to exactly what is said of them.
func TestSealAloneMade(t *testing.T) {
	for _, c := range slices.Concat(madeOfTables, madeOfTrees, madeOfWays, madeOfPages) {
		t.Run(c.file+"/"+c.name, func(t *testing.T) {
			src := made[c.file]
			for i := 0; i < len(c.swaps); i += 2 {
				if strings.Count(src, c.swaps[i]) != 1 {
					t.Fatalf("%q stands %d times in it", c.swaps[i], strings.Count(src, c.swaps[i]))
				}
				src = strings.Replace(src, c.swaps[i], c.swaps[i+1], 1)
			}
			got := sealSays(t, library.Made("ground", made), library.Made("layer", map[string]string{c.file: src}))
			for i := range got {
				got[i] = strings.ReplaceAll(strings.TrimPrefix(got[i], "layer/"+c.file+":"), "ground/"+c.file, "ground")
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("found:\n%s\nwant:\n%s", listing(got), listing(c.want))
			}
		})
	}
}

// TestSealAloneSame says nothing of a layer that brings the same again.
func TestSealAloneSame(t *testing.T) {
	if got := sealSays(t, library.Made("ground", made), library.Made("layer", maps.Clone(made))); len(got) > 0 {
		t.Errorf("found:\n%s", listing(got))
	}
}

func listing(lines []string) string {
	out := ""
	for _, s := range lines {
		out += fmt.Sprintf("\t\t%s\n", "`"+s+"`,")
	}
	return out
}

// sealSays gives what the seal says of layers.
func sealSays(t *testing.T, layers ...library.Layer) []string {
	t.Helper()
	const rule = "an edition may add before and after what is for safety, and change nothing of it"
	var list finding.List
	var err error
	library.Soon(t, func() { _, err = library.Sealed(t.Context(), &list, layers...) })
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, f := range list.Sorted() {
		if f.Check != "safety-kept" {
			continue
		}
		if f.Weight != finding.Error || len(f.Help) == 0 || f.Help[len(f.Help)-1] != rule {
			t.Errorf("%s is no error with the rule below it: %q", f.Text, f.Help)
		}
		out = append(out, strings.Join(append([]string{f.Place.String() + " " + f.Text}, f.Help[:len(f.Help)-1]...), " | "))
	}
	return out
}

var madeOfTables = []edit{
	{name: "a hint left out", file: "trees/safety.yaml", swaps: []string{"  hint: Check all that fit.\n", ""}, want: []string{
		`1 "hint of the gate" of safety screen is missing, and the built-in one, for safety, is "Check all that fit." | the built-in one is at ground:9:9`,
	}},
	{name: "a why that is new", file: "trees/safety.yaml", swaps: []string{", because: It grows.", ", because: It grows fast."}, want: []string{
		`19:132 "because" of sign "wound" is "It grows fast.", and the built-in one, for safety, is "It grows." | the built-in one is at ground:19:132`,
	}},
	{name: "small print", file: "trees/safety.yaml", swaps: []string{", more: However small.", ""}, want: []string{
		`19:7 "more" of sign "wound" is missing, and the built-in one, for safety, is "However small." | the built-in one is at ground:19:37`,
	}},
	{name: "a sign gone", file: "trees/safety.yaml", swaps: []string{"wound: {", "scar: {"}, want: []string{
		`11:3 the edition lacks the sign "wound" of group "skin", which the built-in content has for safety | copy it from ground:19:7`,
	}},
	{name: "a group gone", file: "trees/safety.yaml", swaps: []string{"  skin:\n", "  bone:\n"}, want: []string{
		`1 the edition lacks the group "skin" of safety screen, which the built-in content has for safety | copy it from ground:11:3`,
	}},
	{name: "a sign for those with a leg", file: "trees/safety.yaml", swaps: []string{"when: today, title", "when: today, leg: true, title"}, want: []string{
		`19:7 "leg" of sign "wound" is "true", and in the built-in content, for safety, there is none | the built-in one is at ground:19:7`,
	}},
	{name: "a group for those with a leg", file: "trees/safety.yaml", swaps: []string{"    line: A sore\n", "    leg: true\n    line: A sore\n"}, want: []string{
		`11:3 "leg" of group "skin" is "true", and in the built-in content, for safety, there is none | the built-in one is at ground:11:3`,
		`20:7 "leg" of sign "wound" is "true", and in the built-in content, for safety, there is none | the built-in one is at ground:19:7`,
	}},
	{name: "all of a sign", file: "trees/safety.yaml", swaps: []string{"text: A wound, more: However small., when: today, title: Wound, caution: Call today., worn: Leave it off., because: It grows., prompts: [sore, deep], tells: [hurt]",
		"text: A cut, more: If large., when: soon, title: Cut, caution: Call., worn: Leave it on., because: It heals., prompts: [deep], tells: [worn]"}, want: []string{
		`19:22 "text" of sign "wound" is "A cut", and the built-in one, for safety, is "A wound" | the built-in one is at ground:19:22`,
		`19:35 "more" of sign "wound" is "If large.", and the built-in one, for safety, is "However small." | the built-in one is at ground:19:37`,
		`19:52 "when" of sign "wound" is "soon", and the built-in one, for safety, is "today" | the built-in one is at ground:19:59`,
		`19:65 "title" of sign "wound" is "Cut", and the built-in one, for safety, is "Wound" | the built-in one is at ground:19:73`,
		`19:79 "caution" of sign "wound" is "Call.", and the built-in one, for safety, is "Call today." | the built-in one is at ground:19:89`,
		`19:92 "worn" of sign "wound" is "Leave it on.", and the built-in one, for safety, is "Leave it off." | the built-in one is at ground:19:108`,
		`19:115 "because" of sign "wound" is "It heals.", and the built-in one, for safety, is "It grows." | the built-in one is at ground:19:132`,
		`19:136 "prompts" of sign "wound" is "deep", and the built-in one, for safety, is "sore, deep" | the built-in one is at ground:19:153`,
		`19:151 "tells" of sign "wound" is "worn", and the built-in one, for safety, is "hurt" | the built-in one is at ground:19:174`,
	}},
	{name: "all of a group", file: "trees/safety.yaml", swaps: []string{"A sore", "A spot", "title: Skin", "title: Hide", "What is it like?", "Like what?", "It can grow.", "It can go.", "Look with a mirror.", "Look.",
		"title: Not sure of skin, caution: Call and ask., worn: Take it off., prompts: [sore]", "title: Unsure, caution: Ask., worn: Keep it on., prompts: [deep]"}, want: []string{
		`12:11 "line" of group "skin" is "A spot", and the built-in one, for safety, is "A sore" | the built-in one is at ground:12:11`,
		`13:12 "title" of group "skin" is "Hide", and the built-in one, for safety, is "Skin" | the built-in one is at ground:13:12`,
		`14:11 "text" of group "skin" is "Like what?", and the built-in one, for safety, is "What is it like?" | the built-in one is at ground:14:11`,
		`15:10 "why" of group "skin" is "It can go.", and the built-in one, for safety, is "It can grow." | the built-in one is at ground:15:10`,
		`16:11 "hint" of group "skin" is "Look.", and the built-in one, for safety, is "Look with a mirror." | the built-in one is at ground:16:11`,
		`17:22 "title" of answer "unsure" is "Unsure", and the built-in one, for safety, is "Not sure of skin" | the built-in one is at ground:17:22`,
		`17:39 "caution" of answer "unsure" is "Ask.", and the built-in one, for safety, is "Call and ask." | the built-in one is at ground:17:49`,
		`17:51 "worn" of answer "unsure" is "Keep it on.", and the built-in one, for safety, is "Take it off." | the built-in one is at ground:17:70`,
		`17:74 "prompts" of answer "unsure" is "deep", and the built-in one, for safety, is "sore" | the built-in one is at ground:17:94`,
	}},
	{name: "all of the rest", file: "trees/safety.yaml", swaps: []string{"Do you wear a leg?", "A leg?", "It decides what we ask.", "So.", `text: "Yes", tells: [worn, leg]`, `text: "Aye", tells: [worn]`,
		"Is any of this true?", "True?", "Signs come first.", "Signs.", "Check all that fit.", "Check.", "title: Call today, steps: [Call., Wait.], worn: [Take it off.]", "title: Call, steps: [Call.], worn: [Keep it on.]"}, want: []string{
		`2:9 "leg" of safety screen is "A leg?", and the built-in one, for safety, is "Do you wear a leg?" | the built-in one is at ground:2:9`,
		`3:8 "why of the leg" of safety screen is "So.", and the built-in one, for safety, is "It decides what we ask." | the built-in one is at ground:3:8`,
		`5:19 "text" of answer "worn" is "Aye", and the built-in one, for safety, is "Yes" | the built-in one is at ground:5:19`,
		`5:34 "tells" of answer "worn" is "worn", and the built-in one, for safety, is "worn, leg" | the built-in one is at ground:5:34`,
		`7:9 "gate" of safety screen is "True?", and the built-in one, for safety, is "Is any of this true?" | the built-in one is at ground:7:9`,
		`8:8 "why of the gate" of safety screen is "Signs.", and the built-in one, for safety, is "Signs come first." | the built-in one is at ground:8:8`,
		`9:9 "hint of the gate" of safety screen is "Check.", and the built-in one, for safety, is "Check all that fit." | the built-in one is at ground:9:9`,
		`21:19 "title" of ending "today" is "Call", and the built-in one, for safety, is "Call today" | the built-in one is at ground:21:19`,
		`21:33 "steps" of ending "today" is "Call.", and the built-in one, for safety, is "Call., Wait." | the built-in one is at ground:21:39`,
		`21:48 "worn" of ending "today" is "Keep it on.", and the built-in one, for safety, is "Take it off." | the built-in one is at ground:21:61`,
	}},
	{name: "more told", file: "trees/safety.yaml", swaps: []string{"tells: [worn, leg]", "tells: [worn, leg, more]", "tells: [hurt]", "tells: [hurt, more]"}},
	{name: "told by a longer word", file: "trees/safety.yaml", swaps: []string{"tells: [hurt]", "tells: [hurts]"}, want: []string{
		`19:174 "tells" of sign "wound" is "hurts", and the built-in one, for safety, is "hurt" | the built-in one is at ground:19:174`,
	}},
	{name: "all of a prompt", file: "trees/prompts.yaml", swaps: []string{`ask: "Is it sore?", whom: [physician], why: It can grow., basis: [common-practice], presumes: [hurt], unless: [worn]`,
		`ask: "Sore?", whom: [therapist], why: It may., basis: [common-practice], presumes: [worn], unless: [hurt]`}, want: []string{
		`12:20 "ask" of prompt "sore" is "Sore?", and the built-in one, for safety, is "Is it sore?" | the built-in one is at ground:12:20`,
		`12:36 "whom" of prompt "sore" is "therapist", and the built-in one, for safety, is "physician" | the built-in one is at ground:12:42`,
		`12:53 "why" of prompt "sore" is "It may.", and the built-in one, for safety, is "It can grow." | the built-in one is at ground:12:59`,
		`12:99 "presumes" of prompt "sore" is "worn", and the built-in one, for safety, is "hurt" | the built-in one is at ground:12:110`,
		`12:115 "unless" of prompt "sore" is "hurt", and the built-in one, for safety, is "worn" | the built-in one is at ground:12:126`,
	}},
	{name: "a prompt of an ending", file: "trees/prompts.yaml", swaps: []string{"Is it grave?", "Grave?"}, want: []string{
		`15:21 "ask" of prompt "grave" is "Grave?", and the built-in one, for safety, is "Is it grave?" | the built-in one is at ground:15:21`,
	}},
	{name: "a prompt of a sign", file: "trees/prompts.yaml", swaps: []string{"Is it deep?", "Deep?"}, want: []string{
		`13:20 "ask" of prompt "deep" is "Deep?", and the built-in one, for safety, is "Is it deep?" | the built-in one is at ground:13:20`,
	}},
	{name: "a prompt that nothing brings", file: "trees/prompts.yaml", swaps: []string{"Is it pale?", "Pale?"}},
	{name: "a stance of a prompt", file: "trees/prompts.yaml", swaps: []string{"It never picks for you. Nothing", "It picks. Nothing", "What can I choose?", "What is there?"}, want: []string{
		`5:10 "why" of prompt "first" no longer says "It never picks for you." | the built-in one is at ground:5:10`,
	}},
	{name: "another card", file: "trees/cards.yaml", swaps: []string{"title: Bring it, text: Bring the shoe., prompts: [sore]", "title: Take it, text: Take the shoe., prompts: [deep]"}, want: []string{
		`2:19 "title" of card "bring" is "Take it", and the built-in one, for safety, is "Bring it" | the built-in one is at ground:2:19`,
		`2:34 "text" of card "bring" is "Take the shoe.", and the built-in one, for safety, is "Bring the shoe." | the built-in one is at ground:2:35`,
		`2:60 "prompts" of card "bring" is "deep", and the built-in one, for safety, is "sore" | the built-in one is at ground:2:62`,
	}},
	{name: "a stance of a word", file: "content/glossary.yaml", swaps: []string{" Your clinic sets the level.", ""}, want: []string{
		`2:34 "meaning" of word "level" no longer says "Your clinic sets the level." | the built-in one is at ground:2:34`,
	}},
	{name: "more of a word", file: "content/glossary.yaml", swaps: []string{"A number. ", "One of five numbers. "}},
}

var madeOfTrees = []edit{
	{name: "its head", file: "trees/knee.yaml", swaps: []string{"audience: patient", "audience: resident", "safety: shared", "safety: whole", " It does not pick a foot.", ""}, want: []string{
		`3:11 "audience" of tree "knee" is "resident", and the built-in one, for safety, is "patient" | the built-in one is at ground:3:11`,
		`4:10 "purpose" of tree "knee" no longer says "It does not pick a foot." | the built-in one is at ground:4:10`,
		`11:9 "safety" of tree "knee" is "whole", and the built-in one, for safety, is "shared" | the built-in one is at ground:11:9`,
	}},
	{name: "all of a question", file: "trees/knee.yaml", swaps: []string{"Does it hurt?", "Hurt?", "It tells how soon.", "So.", "Check all that apply.", "Check.", "    skip: far\n", "    skip: plain\n"}, want: []string{
		`17:11 "text" of question "hurt" is "Hurt?", and the built-in one, for safety, is "Does it hurt?" | the built-in one is at ground:17:11`,
		`18:10 "why" of question "hurt" is "So.", and the built-in one, for safety, is "It tells how soon." | the built-in one is at ground:18:10`,
		`19:11 "hint" of question "hurt" is "Check.", and the built-in one, for safety, is "Check all that apply." | the built-in one is at ground:19:11`,
		`26:11 "skip" of question "hurt" is "plain", and the built-in one, for safety, is "far" | the built-in one is at ground:26:11`,
		`27:3 question "far" leads to safety, and a reader can now reach the ending "plain" without it | the ending is at layer/trees/knee.yaml:47:3 | put the question before every way to an ending`,
	}},
	{name: "one answer", file: "trees/knee.yaml", swaps: []string{"    pick: any\n", ""}, want: []string{
		`16:3 "pick" of question "hurt" is "one", and the built-in one, for safety, is "any" | the built-in one is at ground:16:3`,
	}},
	{name: "all of answers", file: "trees/knee.yaml", swaps: []string{"text: Much, go: stop, cards: [bring], tells: [hurt]", "text: Very, go: calm, tells: [worn]", "alone: true, go: far", "go: far"}, want: []string{
		`22:7 "cards" of answer "much" is missing, and the built-in one, for safety, is "bring" | the built-in one is at ground:22:45`,
		`22:21 "text" of answer "much" is "Very", and the built-in one, for safety, is "Much" | the built-in one is at ground:22:21`,
		`22:31 "go" of answer "much" is "calm", and the built-in one, for safety, is "stop" | the built-in one is at ground:22:31`,
		`22:45 "tells" of answer "much" is "worn", and the built-in one, for safety, is "hurt" | the built-in one is at ground:22:61`,
		`24:7 "alone" of answer "none" is missing, and the built-in one, for safety, is "true" | the built-in one is at ground:24:7`,
	}},
	{name: "an answer not for safety led elsewhere", file: "trees/knee.yaml", swaps: []string{"      some: { text: Some }\n", "", "      none: {", "      some: { text: Some }\n      none: {", "alone: true, go: far", "alone: true, go: next"}, want: []string{
		`27:3 question "far" leads to safety, and a reader can now reach the ending "talk" without it | the ending is at layer/trees/knee.yaml:46:3 | put the question before every way to an ending`,
	}},
	{name: "answers in another order", file: "trees/knee.yaml", swaps: []string{"      some: { text: Some }\n", "", "    go: far\n", "      some: { text: Some }\n    go: far\n"}, want: []string{
		`22:7 "order of answers" of question "hurt" is "much, none, some", and the built-in one, for safety, is "much, some, none" | the built-in one is at ground:22:7`,
	}},
	{name: "another value", file: "trees/knee.yaml", swaps: []string{"far + far", "far + far + far"}, want: []string{
		`14:10 "value \"twice\"" of tree "knee" is "far + far + far", and the built-in one, for safety, is "far + far" | the built-in one is at ground:14:10`,
	}},
	{name: "another route", file: "trees/knee.yaml", swaps: []string{"twice > 90*m, go: calm, cards: [bring]", "twice > 95*m, go: calm"}, want: []string{
		`33:9 "routes" of question "far" is "twice > 95*m -> calm; -> next", and the built-in one, for safety, is "twice > 90*m -> calm bring; -> next" | the built-in one is at ground:33:9`,
	}},
	{name: "another measure", file: "trees/knee.yaml", swaps: []string{"to: 100", "to: 200", "text: A street, is: 50 m", "text: A road, is: 60 m"}, want: []string{
		`30:5 "measure" of question "far" is "m [m] from 0 to 200000 in steps of 1000", and the built-in one, for safety, is "m [m] from 0 to 100000 in steps of 1000" | the built-in one is at ground:30:5`,
		`30:89 "text" of like "street" is "A road", and the built-in one, for safety, is "A street" | the built-in one is at ground:30:89`,
		`30:101 "is" of like "street" is "60 m", and the built-in one, for safety, is "50 m" | the built-in one is at ground:30:103`,
	}},
	{name: "a like gone", file: "trees/knee.yaml", swaps: []string{", like: { street: { text: A street, is: 50 m } }", ""}, want: []string{
		`27:3 the edition lacks the like "street" of question "far", which the built-in content has for safety | copy it from ground:30:73`,
	}},
	{name: "no value", file: "trees/knee.yaml", swaps: []string{"values:\n  twice: far + far\n", "", "twice > 90*m", "far > 45*m"}, want: []string{
		`1:7 the edition lacks the "value \"twice\"" of tree "knee", which the built-in content has for safety | copy it from ground:14:10`,
		`31:9 "routes" of question "far" is "far > 45*m -> calm bring; -> next", and the built-in one, for safety, is "twice > 90*m -> calm bring; -> next" | the built-in one is at ground:33:9`,
	}},
	{name: "stances of a question", file: "trees/knee.yaml", swaps: []string{"why: Your clinic sets the level.", "why: You set it.", "Say what you like.", "Say it."}, want: []string{
		`37:10 "why" of question "next" no longer says "Your clinic sets the level." | the built-in one is at ground:37:10`,
	}},
	{name: "a question gone", file: "trees/knee.yaml", swaps: []string{"  hurt:\n", "  ache:\n", "start: hurt", "start: ache"}, want: []string{
		`1:7 the edition lacks the question "hurt" of tree "knee", which the built-in content has for safety | copy it from ground:16:3`,
	}},
	{name: "an ending reworded", file: "trees/knee.yaml", swaps: []string{"title: Stop, text: Call the clinic., caution: Do not walk., safety: true, prompts: [grave], themes: [skin], next: [way]",
		"title: Halt, text: Call., caution: Walk., safety: true, prompts: [deep], themes: [bone], next: [knee]"}, want: []string{
		`43:18 "title" of ending "stop" is "Halt", and the built-in one, for safety, is "Stop" | the built-in one is at ground:43:18`,
		`43:30 "text" of ending "stop" is "Call.", and the built-in one, for safety, is "Call the clinic." | the built-in one is at ground:43:30`,
		`43:46 "caution" of ending "stop" is "Walk.", and the built-in one, for safety, is "Do not walk." | the built-in one is at ground:43:57`,
		`43:77 "prompts" of ending "stop" is "deep", and the built-in one, for safety, is "grave" | the built-in one is at ground:43:95`,
		`43:93 "themes" of ending "stop" is "bone", and the built-in one, for safety, is "skin" | the built-in one is at ground:43:112`,
		`43:107 "next" of ending "stop" is "knee", and the built-in one, for safety, is "way" | the built-in one is at ground:43:126`,
	}},
	{name: "an ending without caution reworded", file: "trees/knee.yaml", swaps: []string{"title: Sit, text: Sit down and call., safety: true", "title: Stay, text: Stay down., safety: true, caution: Now.", "title: Plain, text: Go on.", "title: Simple, text: Go."}, want: []string{
		`44:18 "title" of ending "calm" is "Stay", and the built-in one, for safety, is "Sit" | the built-in one is at ground:44:18`,
		`44:30 "text" of ending "calm" is "Stay down.", and the built-in one, for safety, is "Sit down and call." | the built-in one is at ground:44:29`,
		`44:65 "caution" of ending "calm" is "Now.", and in the built-in content, for safety, there is none | the built-in one is at ground:44:3`,
	}},
	{name: "an ending's caution", file: "trees/knee.yaml", swaps: []string{"title: Care, text: Go on., caution: Take care.", "title: Cure, text: Do., caution: Go."}, want: []string{
		`45:44 "caution" of ending "care" is "Go.", and the built-in one, for safety, is "Take care." | the built-in one is at ground:45:47`,
	}},
	{name: "an ending's mark", file: "trees/knee.yaml", swaps: []string{"Sit down and call., safety: true", "Sit down and call., safety: false"}, want: []string{
		`44:49 "safety" of ending "calm" is missing, and the built-in one, for safety, is "true" | the built-in one is at ground:44:49`,
	}},
	{name: "an ending's stances", file: "trees/knee.yaml", swaps: []string{"Your clinic sets the level. Nothing here picks a foot for you. It picks no foot. Talk.", "Talk."}, want: []string{
		`46:30 "text" of ending "talk" no longer says "It picks no foot." | the built-in one is at ground:46:30`,
		`46:30 "text" of ending "talk" no longer says "Your clinic sets the level." | the built-in one is at ground:46:30`,
	}},
	{name: "endings gone", file: "trees/knee.yaml", swaps: []string{"  talk: {", "  say: {", "go: talk", "go: say", "  care: {", "  cure: {", "go: care", "go: cure", "  stop: {", "  halt: {", "go: stop", "go: halt"}, want: []string{
		`1:7 the edition lacks the "text" of ending "talk", which the built-in content has for safety | copy it from ground:46:30`,
		`1:7 the edition lacks the ending "stop" of tree "knee" and 1 more of its parts, which the built-in content has for safety | copy it from ground:43:3`,
	}},
	{name: "a way lost in reading", file: "trees/knee.yaml", swaps: []string{"go: calm, cards", "go: [calm], cards"}},
	{name: "an ending for safety gone alone", file: "trees/knee.yaml", swaps: []string{"  calm: {", "  quiet: {"}, want: []string{
		`1:7 the edition lacks the ending "calm" of tree "knee", which the built-in content has for safety | copy it from ground:44:3`,
		`33:9 "routes" of question "far" is "twice > 90*m -> care bring; -> next", and the built-in one, for safety, is "twice > 90*m -> calm bring; -> next" | the built-in one is at ground:33:9`,
	}},
}

var madeOfWays = []edit{
	{name: "an ending before the question", file: "trees/knee.yaml", swaps: []string{"start: hurt", "start: before", "questions:\n", "questions:\n  before:\n    text: Now?\n    why: Plain.\n    answers:\n      aye: { text: Aye, go: hurt }\n      nay: { text: Nay, go: plain }\n"}, want: []string{
		`22:3 question "hurt" leads to safety, and a reader can now reach the ending "plain" without it | the ending is at layer/trees/knee.yaml:53:3 | put the question before every way to an ending`,
		`33:3 question "far" leads to safety, and a reader can now reach the ending "plain" without it | the ending is at layer/trees/knee.yaml:53:3 | put the question before every way to an ending`,
	}},
	{name: "a question before", file: "trees/knee.yaml", swaps: []string{"start: hurt", "start: before", "questions:\n", "questions:\n  before:\n    text: Now?\n    why: Plain.\n    answers:\n      aye: { text: Aye, go: hurt }\n      nay: { text: Nay, go: hurt }\n"}},
	{name: "a circle before", file: "trees/knee.yaml", swaps: []string{"start: hurt", "start: before", "questions:\n", "questions:\n  before:\n    text: Now?\n    why: Plain.\n    answers:\n      aye: { text: Aye, go: before }\n      nay: { text: Nay, go: hurt }\n"}},
	{name: "an answer past", file: "trees/way.yaml", swaps: []string{"low: { text: Low, go: hurt }", "low: { text: Low, go: rest }"}, want: []string{
		`19:29 the answer "low" of question "shoes" leads to question "hurt", which is for safety, and can now reach the ending "rest" without it | the ending is at layer/trees/way.yaml:47:3 | lead it to the question`,
	}},
	{name: "a later answer past", file: "trees/way.yaml", swaps: []string{"both: { text: Both, go: hurt }", "both: { text: Both, go: rest }"}, want: []string{
		`21:31 the answer "both" of question "shoes" leads to question "hurt", which is for safety, and can now reach the ending "rest" without it | the ending is at layer/trees/way.yaml:47:3 | lead it to the question`,
	}},
	{name: "a skip past", file: "trees/way.yaml", swaps: []string{"skip: hurt", "skip: rest"}, want: []string{
		`25:11 the skip of question "shoes" leads to question "hurt", which is for safety, and can now reach the ending "rest" without it | the ending is at layer/trees/way.yaml:47:3 | lead it to the question`,
	}},
	{name: "a route past", file: "trees/way.yaml", swaps: []string{"      - { go: hurt }\n", "      - { go: rest }\n"}, want: []string{
		`32:15 the route 2 of question "walk" leads to question "hurt", which is for safety, and can now reach the ending "rest" without it | the ending is at layer/trees/way.yaml:47:3 | lead it to the question`,
	}},
	{name: "the first route past", file: "trees/way.yaml", swaps: []string{"walk > 9*m, go: hurt", "walk > 9*m, go: talk"}, want: []string{
		`31:31 the route 1 of question "walk" leads to question "hurt", which is for safety, and can now reach the ending "talk" without it | the ending is at layer/trees/way.yaml:46:3 | lead it to the question`,
	}},
	{name: "an answer without a way of its own past", file: "trees/way.yaml", swaps: []string{"high: { text: High }", "high: { text: High, go: rest }"}, want: []string{
		`20:31 the answer "high" of question "shoes" leads to question "hurt", which is for safety, and can now reach the ending "rest" without it | the ending is at layer/trees/way.yaml:47:3 | lead it to the question`,
	}},
	{name: "an answer gone", file: "trees/way.yaml", swaps: []string{"      low: { text: Low, go: hurt }\n", ""}},
	{name: "a route gone", file: "trees/way.yaml", swaps: []string{"      - { if: walk > 9*m, go: hurt }\n", ""}},
	{name: "all answers past", file: "trees/way.yaml", swaps: []string{"    go: hurt\n", "    go: rest\n"}, want: []string{
		`24:9 the answer "high" of question "shoes" leads to question "hurt", which is for safety, and can now reach the ending "rest" without it | the ending is at layer/trees/way.yaml:47:3 | lead it to the question`,
	}},
	{name: "an answer by a question more", file: "trees/way.yaml", swaps: []string{"low: { text: Low, go: hurt }", "low: { text: Low, go: more }", "  walk:\n", "  more:\n    text: More?\n    why: Plain.\n    answers:\n      aye: { text: Aye, go: hurt }\n      eh: { text: Eh, go: hurt }\n      nay: { text: Nay, go: rest }\n  walk:\n"}, want: []string{
		`19:29 the answer "low" of question "shoes" leads to question "hurt", which is for safety, and can now reach the ending "rest" without it | the ending is at layer/trees/way.yaml:54:3 | lead it to the question`,
	}},
	{name: "an answer more, past", file: "trees/way.yaml", swaps: []string{"      none: {", "      more: { text: More, go: talk }\n      none: {"}, want: []string{
		`42:7 answer "more" is added to question "hurt", which is for safety, and leads past it to "talk" | lead it to an ending with safety: true, or ask in a question of your own`,
	}},
	{name: "an answer more, first", file: "trees/way.yaml", swaps: []string{"      much: {", "      more: { text: More, go: stop }\n      much: {"}},
	{name: "an answer more, to other help first", file: "trees/way.yaml", swaps: []string{"      much: {", "      more: { text: More, go: help }\n      much: {", "endings:\n", "endings:\n  help: { title: Help, text: Call., safety: true }\n"}, want: []string{
		`39:7 answer "more" is added to question "hurt" before answers that lead to other help | put it last: of several ticked answers the first one leads on`,
	}},
	{name: "an answer more, to other help before the second", file: "trees/way.yaml", swaps: []string{"      hot: {", "      more: { text: More, go: help }\n      hot: {", "endings:\n", "endings:\n  help: { title: Help, text: Call., safety: true }\n"}, want: []string{
		`40:7 answer "more" is added to question "hurt" before answers that lead to other help | put it last: of several ticked answers the first one leads on`,
	}},
	{name: "an answer more, to other help last", file: "trees/way.yaml", swaps: []string{"      none: {", "      more: { text: More, go: help }\n      none: {", "endings:\n", "endings:\n  help: { title: Help, text: Call., safety: true }\n"}},
	{name: "a way that could not be read", file: "trees/way.yaml", swaps: []string{"low: { text: Low, go: hurt }", "low: { text: Low, go: rest }", "      hot: { text: Hot, go: stop }", "      hot: { text: Hot, go: [stop] }"}},
}

var madeOfPages = []edit{
	{name: "for others", file: "content/en/heels.md", swaps: []string{"audience: patient", "audience: resident"}, want: []string{
		`3:11 the page is for "resident", and with its cautions it is for "patient" | the built-in page is at ground`,
	}},
	{name: "another message", file: "content/en/heels.md", swaps: []string{" It does not pick a foot.", ""}, want: []string{
		`4:10 the message no longer says "It does not pick a foot." | the built-in one is at ground:4:10`,
	}},
	{name: "a stance in its text", file: "content/en/heels.md", swaps: []string{"A clinic sets the level. ", ""}, want: []string{
		`11:4 the page no longer says "A clinic sets the level." | the built-in one is at ground:13:1`,
	}},
	{name: "a caution reworded", file: "content/en/heels.md", swaps: []string{"Do not try it alone.", "Try it alone."}, want: []string{
		`9:5 the caution reads "Caution. Try it alone.", and the built-in one "Caution. Do not try it alone." | the built-in one is at ground:9:5`,
	}},
	{name: "a caution gone", file: "content/en/heels.md", swaps: []string{"> **Stop.** If it hurts, stop.\n", ""}, want: []string{
		`15:5 the page lacks the caution "Stop. If it hurts, stop." | the built-in one is at ground:17:5`,
	}},
	{name: "the first caution gone", file: "content/en/heels.md", swaps: []string{"> **Caution.** Do not try it alone.\n", ""}, want: []string{
		`7:1 the page lacks the caution "Caution. Do not try it alone." | the built-in one is at ground:9:5`,
	}},
	{name: "cautions exchanged", file: "content/en/heels.md", swaps: []string{"**Caution.** Do not try it alone.", "**Stop.** If it hurts, stop.", "> **Take care.** Hold on to a rail.\n\n> **Stop.** If it hurts, stop.", "> **Take care.** Hold on to a rail.\n\n> **Caution.** Do not try it alone."}, want: []string{
		`9:5 the caution "Stop. If it hurts, stop." stood under "At home", and stands elsewhere now | put it back: it is read before what it warns of`,
		`17:5 the caution "Caution. Do not try it alone." stood at the top, and stands elsewhere now | put it back: it is read before what it warns of`,
	}},
	{name: "cautions in another order", file: "content/en/heels.md", swaps: []string{"> **Take care.** Hold on to a rail.\n\n> **Stop.** If it hurts, stop.", "> **Stop.** If it hurts, stop.\n\n> **Take care.** Hold on to a rail."}},
	{name: "another heading than its own", file: "content/en/heels.md", swaps: []string{"## At home", "## Indoors"}},
	{name: "more", file: "content/en/heels.md", swaps: []string{"## At home", "> **And.** Ask us.\n\n## At home"}},
	{name: "another message of an own page", file: "content/en/pages/sources.md", swaps: []string{" It never picks.", ""}, want: []string{
		`5:10 the message no longer says "It never picks." | the built-in one is at ground:5:10`,
	}},
	{name: "a figure's lead", file: "content/en/figures/tilt.yaml", swaps: []string{" It does not pick a foot.", ""}, want: []string{
		`4:7 the message no longer says "It does not pick a foot." | the built-in one is at ground:4:7`,
	}},
	{name: "a figure's caution", file: "content/en/figures/tilt.yaml", swaps: []string{"Do not try it alone.", "Try it."}, want: []string{
		`6:7 the caution reads "Caution. Try it.", and the built-in one "Caution. Do not try it alone." | the built-in one is at ground:6:7`,
	}},
}
